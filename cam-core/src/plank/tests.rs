use std::collections::BTreeSet;
use std::sync::Arc;

use kurbo::{BezPath, Point, Rect};

use geometry::region::Region;

use super::*;
use crate::commission::{Clamp, Commission};
use crate::measure::Length;
use crate::sort::{Block, Sort};
use crate::workshop::Workshop;

fn laid_out(sorts: &[Arc<Sort>], commission: &Commission) -> Result<Vec<Plank>, PlankError> {
    lay_out(sorts, commission, &Workshop::starting()).map(|laid| laid.planks)
}

fn sort(name: &str, set_mm: f64, body_mm: f64, count: u32) -> Arc<Sort> {
    Arc::new(Sort {
        name: name.to_owned(),
        text: name.to_owned(),
        count,
        plate: None,
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
            notches: Vec::new(),
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
        let planks = laid_out(&sorts, &commission).expect("every block fits");
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
fn every_row_has_one_body_if_so_wanted() {
    let sorts = fount();
    let mut commission = commission(300.0, 150.0, 5.0, 6.4);
    commission.planks.rows = crate::commission::RowsOf::OneBody;
    for plank in laid_out(&sorts, &commission).expect("fits") {
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
    let planks = laid_out(&sorts, &commission(300.0, 160.0, 5.0, 4.0)).expect("fits");
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
    for place in laid_out(&sorts, &commission(300.0, 150.0, 5.0, 6.4))
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
    let just = laid_out(&[sort("M", 80.0, 40.0, 3)], &plank).expect("it just fits");
    assert_eq!(just.len(), 3);
    assert_eq!(just[2].places[0].id, "M-3");
    for (set, body) in [(80.1, 40.0), (80.0, 40.1)] {
        let error = laid_out(&[sort("I", 10.0, 40.0, 1), sort("M", set, body, 1)], &plank)
            .expect_err("too large");
        assert!(matches!(&error, PlankError::BlockTooLarge { sort, .. } if sort == "M"));
        assert!(error.to_string().contains("sort M is 80."), "{error}");
    }
    assert_eq!(
        laid_out(&[sort("M", 500.0, 40.0, 0)], &plank),
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
            laid_out(&some, &commission(width, length, margin, lane)),
            Err(PlankError::BadRules(_))
        ));
    }
    let many = [
        sort("I", 10.0, 40.0, u32::MAX),
        sort("J", 10.0, 40.0, u32::MAX),
    ];
    assert!(matches!(
        laid_out(&many, &commission(100.0, 60.0, 1.0, 1.0)),
        Err(PlankError::TooManyBlocks(_))
    ));
}

/// Clamps at two edges: blocks keep away from them by more than the lane, and the rest of the plank is used.
#[test]
fn blocks_keep_clear_of_clamps() {
    let sorts = fount();
    let mut commission = commission(300.0, 150.0, 8.0, 4.0);
    let free = laid_out(&sorts, &commission)
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
    let planks = laid_out(&sorts, &commission).expect("every block fits");
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
        laid_out(&sorts, &commission),
        Err(PlankError::BadRules(_))
    ));
}

mod wood {
    use super::*;
    use crate::commission::{GrainWanted, Pin, RowsOf, Separation};
    use crate::finding::Severity;
    use crate::workshop::{BadPlace, Grain, Reserved, StockPlank};

    fn stock_plank(id: &str, width: f64, length: f64) -> StockPlank {
        StockPlank::plain(id, "hard-maple-end", Length::mm(width), Length::mm(length))
    }

    fn knot(x: f64, y: f64, width: f64, length: f64) -> BadPlace {
        BadPlace {
            x: Length::mm(x),
            y: Length::mm(y),
            width: Length::mm(width),
            length: Length::mm(length),
            what: "knot".to_owned(),
        }
    }

    fn pin(block: &str, plank: &str, x: f64, y: f64) -> Pin {
        Pin {
            block: block.to_owned(),
            plank: plank.to_owned(),
            x: Length::mm(x),
            y: Length::mm(y),
        }
    }

    fn laid(commission: &Commission, stock: Vec<StockPlank>) -> Laid {
        let mut workshop = Workshop::starting();
        workshop.stock = stock;
        lay_out(&fount(), commission, &workshop).expect("every block fits")
    }

    #[test]
    fn no_block_lies_on_a_bad_place_or_a_reserved_end() {
        let mut commission = commission(300.0, 150.0, 5.0, 4.0);
        let mut plank = stock_plank("maple", 420.0, 260.0);
        plank.count = 4;
        plank.bad_places = vec![
            knot(60.0, 40.0, 25.0, 18.0),
            knot(200.0, 0.0, 2.0, 260.0),
            knot(330.0, 180.0, 12.0, 30.0),
        ];
        plank.reserved = Reserved {
            left: Length::mm(22.0),
            far: Length::mm(31.0),
            ..Reserved::default()
        };
        commission.planks.stock = vec!["maple".to_owned()];
        for rows in [RowsOf::OneBody, RowsOf::Mixed] {
            commission.planks.rows = rows;
            let sorts = fount();
            let laid = laid(&commission, vec![plank.clone()]);
            let on_stock: Vec<&Plank> = laid
                .planks
                .iter()
                .filter(|plank| plank.stock.is_some())
                .collect();
            assert_eq!(on_stock.len(), laid.planks.len(), "four planks are enough");
            for plank in on_stock {
                assert_eq!(plank.bad_places.len(), 3);
                for place in &plank.places {
                    let block = rect(place, &sorts);
                    for bad in &plank.bad_places {
                        let on_it = block.intersect(*bad);
                        assert!(
                            on_it.width() < 1e-6 || on_it.height() < 1e-6,
                            "{} on {bad:?}",
                            place.id
                        );
                    }
                    assert!(plank.room.inflate(1e-6, 1e-6).contains_rect(block));
                }
            }
            let least = laid.planks[0].room;
            let turned = laid.planks[0].turned;
            let (near, left) = if turned { (22.0, 31.0) } else { (5.0, 22.0) };
            assert_eq!((least.x0, least.y0), (left, near));
        }
    }

    #[test]
    fn the_least_wood_that_holds_the_order_is_taken() {
        let mut commission = commission(300.0, 150.0, 5.0, 4.0);
        let sorts = [sort("A", 40.0, 42.0, 6)];
        commission.planks.stock = ["large", "small", "middle"].map(str::to_owned).to_vec();
        let mut workshop = Workshop::starting();
        workshop.stock = vec![
            stock_plank("large", 500.0, 300.0),
            stock_plank("middle", 150.0, 120.0),
            stock_plank("small", 100.0, 60.0),
        ];
        let laid = lay_out(&sorts, &commission, &workshop).expect("fits");
        assert_eq!(laid.planks.len(), 1);
        assert_eq!(laid.planks[0].stock.as_deref(), Some("middle"));
        assert!(laid.findings.is_empty(), "{:?}", laid.findings);
    }

    #[test]
    fn grain_turns_planks_and_what_cannot_be_used_is_said() {
        let mut commission = commission(300.0, 150.0, 5.0, 4.0);
        commission.wood = "beech".to_owned();
        commission.planks.grain = GrainWanted::AlongLine;
        let mut along = stock_plank("along", 200.0, 380.0);
        along.wood = "beech".to_owned();
        along.grain = Some(Grain::Along);
        let mut untold = along.clone();
        untold.id = "untold".to_owned();
        untold.grain = None;
        let mut low = along.clone();
        low.id = "low".to_owned();
        low.height = Some(Length::mm(22.0));
        let mut thick = along.clone();
        thick.id = "thick".to_owned();
        thick.height = Some(Length::mm(25.0));
        let maple = stock_plank("maple", 200.0, 380.0);
        let mut long = along.clone();
        long.id = "long".to_owned();
        long.length = Length::mm(900.0);
        let stock = vec![along, untold, low, thick, maple, long];
        commission.planks.stock = stock.iter().map(|plank| plank.id.clone()).collect();
        commission.planks.stock.push("nowhere".to_owned());
        let laid = laid(&commission, stock);
        let used: BTreeSet<&str> = laid
            .planks
            .iter()
            .filter_map(|plank| plank.stock.as_deref())
            .collect();
        assert_eq!(used, BTreeSet::from(["along", "thick"]));
        for plank in laid.planks.iter().filter(|plank| plank.stock.is_some()) {
            assert!(plank.turned);
            assert_eq!(plank.grain, Some(Grain::Across));
            assert_eq!((plank.width_mm, plank.length_mm), (380.0, 200.0));
        }
        let kinds: Vec<&str> = laid.findings.iter().map(|finding| finding.kind).collect();
        for kind in [
            "stock-not-used",
            "stock-too-low",
            "stock-other-wood",
            "stock-unknown",
            "plank-to-dress",
        ] {
            assert!(kinds.contains(&kind), "{kind} in {kinds:?}");
        }
        // Both the one whose grain is not told, and the one that no machine takes.
        let not_used = kinds.iter().filter(|kind| **kind == "stock-not-used");
        assert_eq!(not_used.count(), 2);
    }

    #[test]
    fn a_pinned_block_stays_and_nothing_else_moves_that_need_not() {
        let sorts = fount();
        let mut commission = commission(300.0, 150.0, 5.0, 4.0);
        let free = laid(&commission, Vec::new()).planks;
        let place = |planks: &[Plank], id: &str| {
            planks.iter().enumerate().find_map(|(number, plank)| {
                let place = plank.places.iter().find(|place| place.id == id)?;
                Some((number, place.at))
            })
        };
        let (number, at) = place(&free, "C-2").expect("it lies somewhere");
        commission.planks.pins = vec![pin("C-2", &free[number].id, at.x, at.y)];
        assert_eq!(
            laid(&commission, Vec::new()).planks,
            free,
            "pinned where it lay"
        );

        let first = free[0].places[0].clone();
        commission.planks.pins = vec![pin("C-2", "plank-1", first.at.x, first.at.y)];
        let moved = laid(&commission, Vec::new());
        assert_eq!(place(&moved.planks, "C-2"), Some((0, first.at)));
        let stayed = |planks: &[Plank]| {
            let all: Vec<String> = free
                .iter()
                .flat_map(|plank| plank.places.iter().map(|place| place.id.clone()))
                .collect();
            all.iter()
                .filter(|id| place(planks, id) == place(&free, id))
                .count()
        };
        let ordered: u32 = sorts.iter().map(|sort| sort.count).sum();
        assert!(stayed(&moved.planks) + 4 >= ordered as usize);
        let all: usize = moved.planks.iter().map(|plank| plank.places.len()).sum();
        assert_eq!(all, ordered as usize);
        for plank in &moved.planks {
            for (number, one) in plank.places.iter().enumerate() {
                for other in &plank.places[..number] {
                    let near = rect(one, &sorts)
                        .inflate(3.999, 3.999)
                        .intersect(rect(other, &sorts));
                    assert!(near.width() <= 0.0 || near.height() <= 0.0);
                }
            }
        }
    }

    #[test]
    fn pins_that_cannot_be_kept_stop_the_job() {
        let mut commission = commission(300.0, 150.0, 5.0, 4.0);
        let stops = |commission: &Commission| {
            laid(commission, Vec::new())
                .findings
                .iter()
                .filter(|finding| finding.severity == Severity::Stop)
                .map(|finding| finding.text.to_string())
                .collect::<Vec<String>>()
        };
        for (plank, x, y, why) in [
            ("plank-1", 1.0, 20.0, "margin"),
            ("plank-1", 290.0, 20.0, "margin"),
            ("plank-90", 20.0, 20.0, "planks"),
            ("board", 20.0, 20.0, "is not a plank"),
        ] {
            commission.planks.pins = vec![pin("E-1", plank, x, y)];
            let found = stops(&commission);
            assert!(found.len() == 1 && found[0].contains(why), "{found:?}");
        }
        commission.planks.pins = vec![
            pin("E-1", "plank-1", 50.0, 20.0),
            pin("E-2", "plank-1", 60.0, 22.0),
        ];
        let found = stops(&commission);
        assert!(
            found.len() == 1 && found[0].contains("E-1 is pinned in its way"),
            "{found:?}"
        );
        // As far to the right and up as there is room: what rounding adds is no reason to refuse it.
        let block = &fount()[4].block;
        let (x, y) = (295.0 - block.set_mm, 145.0 - block.body_mm);
        commission.planks.pins = vec![pin("E-1", "plank-1", x, y)];
        assert!(stops(&commission).is_empty());
        commission.planks.pins = vec![pin("E-1", "plank-1", x + 0.02, y)];
        assert_eq!(stops(&commission).len(), 1);
        commission.planks.pins = vec![pin("Ω-1", "plank-1", 50.0, 20.0)];
        assert!(stops(&commission).is_empty(), "no longer ordered: a note");
    }

    #[test]
    fn a_saw_still_parts_what_is_pinned_askew_or_the_job_stops() {
        let sorts = [
            sort("A", 30.0, 30.0, 4),
            sort("B", 64.0, 30.0, 2),
            sort("C", 30.0, 64.0, 2),
        ];
        let mut commission = commission(110.0, 110.0, 5.0, 4.0);
        commission.planks.separation = Separation::Saw;
        // A pinwheel about one small block: no straight cut parts it.
        commission.planks.pins = vec![
            pin("B-1", "plank-1", 5.0, 5.0),
            pin("C-1", "plank-1", 73.0, 5.0),
            pin("B-2", "plank-1", 39.0, 73.0),
            pin("C-2", "plank-1", 5.0, 39.0),
            pin("A-1", "plank-1", 39.0, 39.0),
        ];
        let laid = lay_out(&sorts, &commission, &Workshop::starting()).expect("fits");
        assert!(
            laid.findings
                .iter()
                .any(|finding| finding.kind == "not-to-be-sawn")
        );
        commission.planks.pins.truncate(1);
        let laid = lay_out(&sorts, &commission, &Workshop::starting()).expect("fits");
        assert!(laid.findings.is_empty(), "{:?}", laid.findings);
    }

    #[test]
    fn left_over_wood_goes_back_to_stock() {
        let mut commission = commission(300.0, 150.0, 5.0, 4.0);
        commission.planks.stock = vec!["maple".to_owned()];
        let sorts = [sort("A", 40.0, 42.0, 7)];
        let mut workshop = Workshop::starting();
        let mut plank = stock_plank("maple", 300.0, 200.0);
        plank.count = 2;
        plank.bad_places = vec![knot(250.0, 150.0, 20.0, 20.0)];
        plank.reserved.far = Length::mm(10.0);
        workshop.stock = vec![plank, stock_plank("other", 90.0, 90.0)];
        let laid = lay_out(&sorts, &commission, &workshop).expect("fits");
        assert_eq!(laid.planks.len(), 1);
        let stock = stock_after(&laid.planks, &sorts, &commission, &workshop);
        let ids: Vec<(&str, u32)> = stock
            .iter()
            .map(|plank| (plank.id.as_str(), plank.count))
            .collect();
        let wood = |plank: &StockPlank| plank.width.in_mm() * plank.length.in_mm();
        let left: f64 = stock.iter().skip(2).map(wood).sum();
        assert_eq!(ids[..2], [("maple", 1), ("other", 1)]);
        assert_eq!(ids[2].0, "maple-1");
        // Two rows would take 5 + 42 + 4 + 42; one of seven does not fit, so what is left is the upper half.
        assert!(
            left > 0.45 * 300.0 * 200.0 && left < 300.0 * 200.0 - 7.0 * 40.0 * 42.0,
            "{left}"
        );
        let bad: usize = stock
            .iter()
            .skip(2)
            .map(|plank| plank.bad_places.len())
            .sum();
        assert_eq!(bad, 1, "the knot goes with its piece");
        assert!(
            stock
                .iter()
                .skip(2)
                .any(|plank| plank.reserved.far == Length::mm(10.0))
        );
        // The same order again finds room in what is left.
        workshop.stock = stock;
        commission.planks.stock = vec!["maple-1".to_owned(), "maple".to_owned()];
        let again = lay_out(&[sort("A", 40.0, 42.0, 2)], &commission, &workshop).expect("fits");
        assert_eq!(again.planks[0].stock.as_deref(), Some("maple-1"));
    }
}
