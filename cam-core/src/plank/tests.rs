use std::collections::BTreeSet;
use std::sync::Arc;

use kurbo::{BezPath, Point, Rect};

use geometry::region::Region;

use super::*;
use crate::commission::{Clamp, Commission};
use crate::measure::Length;
use crate::sort::{Block, Sort};

fn sort(name: &str, set_mm: f64, body_mm: f64, count: u32) -> Arc<Sort> {
    Arc::new(Sort {
        name: name.to_owned(),
        text: name.to_owned(),
        count,
        source: None,
        block: Block {
            outline: [(0.0, 0.0), (set_mm, 0.0), (set_mm, body_mm), (0.0, body_mm)]
                .map(Point::from)
                .to_vec(),
            body_mm,
            set_mm,
            baseline_mm: 0.0,
            extended_pt: [0.0; 2],
            plain: false,
        },
        outline: BezPath::new(),
        face: Region::default(),
    })
}

fn commission(width: f64, length: f64, margin: f64, lane: f64) -> Commission {
    let mut commission = crate::sort::commission_for_tests("A");
    commission.planks.width = Length::mm(width);
    commission.planks.length = Length::mm(length);
    commission.planks.margin = Length::mm(margin);
    commission.planks.lane = Length::mm(lane);
    commission
}

/// A fount of many sets and three bodies.
fn fount() -> Vec<Arc<Sort>> {
    ('A'..='Z')
        .zip(0_u32..)
        .map(|(letter, number)| {
            let set = 14.0 + 1.37 * f64::from(number * 7 % 26);
            let body = [42.175, 44.284, 46.393]
                [usize::from(number % 9 == 4) + usize::from(number % 13 == 6)];
            sort(&letter.to_string(), set, body, 1 + number % 5)
        })
        .collect()
}

fn rect(place: &Place, sorts: &[Arc<Sort>]) -> Rect {
    sorts[place.sort].block.rect() + place.at
}

#[test]
fn blocks_keep_their_lanes_and_margins_and_none_is_lost() {
    let sorts = fount();
    for (margin, lane) in [(5.0, 6.4), (8.0, 4.0), (0.0, 0.0)] {
        let commission = commission(300.0, 150.0, margin, lane);
        let planks = lay_out(&sorts, &commission).expect("every block fits");
        let edge = f64::max(margin, lane);
        for plank in &planks {
            let inside = Rect::new(edge, edge, 300.0 - edge, 150.0 - edge).inflate(1e-6, 1e-6);
            let rects: Vec<Rect> = plank
                .places
                .iter()
                .map(|place| rect(place, &sorts))
                .collect();
            for (number, one) in rects.iter().enumerate() {
                assert!(inside.contains_rect(*one), "{one:?} in {}", plank.id);
                for other in &rects[..number] {
                    let apart_x = (one.x0 - other.x1).max(other.x0 - one.x1);
                    let apart_y = (one.y0 - other.y1).max(other.y0 - one.y1);
                    assert!(apart_x.max(apart_y) >= lane - 1e-6, "{one:?} and {other:?}");
                }
            }
        }
        let ids: BTreeSet<&str> = planks
            .iter()
            .flat_map(|plank| &plank.places)
            .map(|place| place.id.as_str())
            .collect();
        let ordered: u32 = sorts.iter().map(|sort| sort.count).sum();
        assert_eq!(ids.len(), usize::try_from(ordered).expect("small"));
        assert!(ids.contains("E-5") && ids.contains("A-1"));
    }
}

#[test]
fn every_row_has_one_body() {
    let sorts = fount();
    for plank in lay_out(&sorts, &commission(300.0, 150.0, 5.0, 6.4)).expect("fits") {
        for one in &plank.places {
            for other in plank.places.iter().filter(|other| other.at.y == one.at.y) {
                assert_eq!(
                    sorts[one.sort].block.body_mm,
                    sorts[other.sort].block.body_mm
                );
            }
        }
    }
}

#[test]
fn rows_are_well_filled() {
    let sorts = fount();
    let planks = lay_out(&sorts, &commission(300.0, 160.0, 5.0, 4.0)).expect("fits");
    let blocks: f64 = sorts
        .iter()
        .map(|sort| f64::from(sort.count) * (sort.block.set_mm + 4.0) * (sort.block.body_mm + 4.0))
        .sum();
    let least = (blocks / (294.0 * 154.0)).ceil();
    assert!(
        planks.len() as f64 <= least + 1.0,
        "{} planks, at least {least}",
        planks.len()
    );
}

#[test]
fn places_lie_on_the_grid_of_programs() {
    let sorts = fount();
    for place in lay_out(&sorts, &commission(300.0, 150.0, 5.0, 6.4))
        .expect("fits")
        .iter()
        .flat_map(|plank| &plank.places)
    {
        for at in [place.at.x, place.at.y] {
            assert!((at * 1000.0 - (at * 1000.0).round()).abs() < 1e-6, "{at}");
        }
    }
}

#[test]
fn a_block_that_just_fits_is_laid_and_a_larger_one_is_named() {
    let plank = commission(100.0, 60.0, 10.0, 5.0);
    let just = lay_out(&[sort("M", 80.0, 40.0, 3)], &plank).expect("it just fits");
    assert_eq!(just.len(), 3);
    assert_eq!(just[2].places[0].id, "M-3");
    for (set, body) in [(80.1, 40.0), (80.0, 40.1)] {
        let error = lay_out(&[sort("I", 10.0, 40.0, 1), sort("M", set, body, 1)], &plank)
            .expect_err("too large");
        assert!(matches!(&error, PlankError::BlockTooLarge { sort, .. } if sort == "M"));
        assert!(error.to_string().contains("sort M is 80."), "{error}");
    }
    assert_eq!(
        lay_out(&[sort("M", 500.0, 40.0, 0)], &plank),
        Ok(Vec::new())
    );
}

#[test]
fn impossible_rules_are_refused() {
    let some = [sort("I", 10.0, 40.0, 1)];
    for (width, length, margin, lane) in [
        (0.0, 60.0, 0.0, 1.0),
        (100.0, f64::NAN, 0.0, 1.0),
        (100.0, 60.0, -1.0, 1.0),
        (100.0, 60.0, 0.0, -1.0),
        (100.0, 60.0, 30.0, 1.0),
    ] {
        assert!(matches!(
            lay_out(&some, &commission(width, length, margin, lane)),
            Err(PlankError::BadRules(_))
        ));
    }
    let many = [
        sort("I", 10.0, 40.0, u32::MAX),
        sort("J", 10.0, 40.0, u32::MAX),
    ];
    assert!(matches!(
        lay_out(&many, &commission(100.0, 60.0, 1.0, 1.0)),
        Err(PlankError::TooManyBlocks(_))
    ));
}

/// Clamps at two edges: blocks keep away from them by more than the lane, and the rest of the plank is used.
#[test]
fn blocks_keep_clear_of_clamps() {
    let sorts = fount();
    let mut commission = commission(300.0, 150.0, 8.0, 4.0);
    let free = lay_out(&sorts, &commission)
        .expect("every block fits")
        .len();
    let clamp = |x: f64, y: f64| Clamp {
        x: Length::mm(x),
        y: Length::mm(y),
        width: Length::mm(30.0),
        length: Length::mm(20.0),
        height: Length::mm(12.0),
    };
    commission.planks.clamps = vec![clamp(-10.0, 60.0), clamp(280.0, 70.0)];
    let planks = lay_out(&sorts, &commission).expect("every block fits");
    assert!(planks.len() <= free + 2, "{} {free}", planks.len());
    for clamp in [
        Rect::new(-10.0, 60.0, 20.0, 80.0),
        Rect::new(280.0, 70.0, 310.0, 90.0),
    ] {
        let kept = clamp.inflate(4.0, 4.0);
        for place in planks.iter().flat_map(|plank| &plank.places) {
            let block = rect(place, &sorts);
            let apart = block.x0 >= kept.x1
                || block.x1 <= kept.x0
                || block.y0 >= kept.y1
                || block.y1 <= kept.y0;
            assert!(apart, "{} at {block:?}", place.id);
        }
    }
    commission.planks.clamps = vec![clamp(0.0, 0.0); 1];
    commission.planks.clamps[0].width = Length::mm(300.0);
    commission.planks.clamps[0].length = Length::mm(150.0);
    assert!(matches!(
        lay_out(&sorts, &commission),
        Err(PlankError::BadRules(_))
    ));
}
