//! What the motions of whole planks must be: joined passes, and separation.

use std::sync::Arc;

use super::*;
use crate::commission::Hold;
use crate::plank::{Place, Plank};
use crate::toolpath::{Course, Work, join, join_separation};

fn plank_of(sort: &Sort) -> Plank {
    let (set, body) = (sort.block.set_mm, sort.block.body_mm);
    let at = |column: u32, row: u32| {
        let (column, row) = (f64::from(column), f64::from(row));
        Vec2::new(10.0 + column * (set + LANE), 10.0 + row * (body + LANE))
    };
    let places = [(0, 0), (1, 0), (0, 1), (1, 1)];
    Plank {
        id: "plank-1".into(),
        width_mm: 200.0,
        length_mm: 300.0,
        places: places
            .iter()
            .enumerate()
            .map(|(number, &(column, row))| Place {
                id: format!("T-{}", number + 1),
                sort: 0,
                at: at(column, row),
            })
            .collect(),
        ..Plank::default()
    }
}

#[test]
fn joined_motions_never_move_rapidly_or_sideways_in_uncut_wood() {
    let sort = letter_e();
    let (passes, _, _) = planned(&sort, &[6.0, 3.0]);
    let passes = [Arc::new(passes)];
    let shop = workshop(vec![flat(6.0, 4.0)]);
    let plank = plank_of(&sort);
    let sorts = [Arc::new(sort)];
    let work = Work::new(&sorts, &passes, &shop);
    let toolpath = join(&plank, &work, &shop.cutters[0], &shop.machine);
    let first = toolpath.motions.first().expect("there is something to cut");
    assert_eq!((first.course, first.to.z), (Course::Rapid, 5.0));
    let mut here = first.to;
    for motion in &toolpath.motions[1..] {
        let sideways = motion.to.xy.distance(here.xy) > 1e-9;
        match motion.course {
            Course::Rapid => {
                assert!(!sideways || here.z >= 1.0 && motion.to.z >= 1.0);
                assert!(motion.to.z > -3.0);
            }
            Course::Line { feed_mm_min } | Course::Arc { feed_mm_min, .. } => {
                assert!(feed_mm_min > 0.0 && feed_mm_min <= 1500.0);
                assert!(motion.to.z >= -3.0 - 1e-12 && motion.to.z <= 1.0);
                assert!(sideways || feed_mm_min <= 300.0, "{motion:?}");
            }
        }
        here = motion.to;
    }
    assert_eq!(here.z, 5.0);
    let copies = toolpath.motions.iter().filter(|motion| {
        motion.purpose == Some(Purpose::Finishing) && matches!(motion.course, Course::Arc { .. })
    });
    assert_eq!(copies.count() % 4, 0);
}

fn router(hold: Hold) -> Separation {
    Separation::Router {
        cutter: "flat-3".into(),
        hold,
    }
}

#[test]
fn blocks_are_cut_out_true_to_size_and_held_by_their_tabs() {
    let sort = Arc::new(letter_e());
    let shop = workshop(vec![flat(3.0, 24.0)]);
    let mut order = commission(&shop);
    order.planks.separation = router(Hold::Tabs {
        width: Length::mm(4.0),
        height: Length::mm(3.0),
    });
    let plank = plank_of(&sort);
    let passes = separation(&plank, std::slice::from_ref(&sort), &order, &shop)
        .expect("the cutter is long enough");
    let height = 23.3172;
    let (set, body) = (sort.block.set_mm, sort.block.body_mm);
    for place in &plank.places {
        let corner = place.at.to_point();
        let block = Region::from_ring(&rectangle(
            corner.x,
            corner.y,
            corner.x + set,
            corner.y + body,
        ));
        let mut through = 0.0;
        for cut in &passes.cuts {
            for at in points(cut) {
                let found = distance_to_rings(at, &block);
                assert!(
                    !block.contains(at) && found >= 1.5 - 1e-9,
                    "{found} at {at:?}"
                );
            }
            if cut.depth_mm == height && distance_to_rings(cut.path.start, &block) < 1.5 + 1e-6 {
                through += cut.path.length();
            }
        }
        let round = 2.0 * (set + body);
        assert!(
            through > round / 2.0 && through < round,
            "{through} of {round}"
        );
        // In the middle of each tab the wood stands to the tab's height.
        for (x, y) in [(-0.75, 0.5), (set + 0.75, 0.5)] {
            let tab = corner + Vec2::new(x, y * body);
            for cut in passes
                .cuts
                .iter()
                .filter(|cut| cut.depth_mm > height - 3.0 + 1e-9)
            {
                let chain = cut.path.points(1e-3);
                assert!(
                    distance_to_chain(tab, &chain) >= 1.5 + 1.9,
                    "tab at {tab:?}"
                );
            }
        }
    }
    let toolpath = join_separation(&passes, &shop.cutters[0], &shop.machine);
    let deepest = toolpath
        .motions
        .iter()
        .map(|motion| motion.to.z)
        .fold(0.0, f64::min);
    assert_eq!(deepest, -height);
}

#[test]
fn a_skin_is_left_all_round_and_a_saw_needs_no_passes() {
    let sort = Arc::new(letter_e());
    let shop = workshop(vec![flat(3.0, 24.0)]);
    let mut order = commission(&shop);
    order.planks.separation = router(Hold::Skin(Length::mm(0.4)));
    let passes = separation(&plank_of(&sort), std::slice::from_ref(&sort), &order, &shop)
        .expect("it reaches");
    let deepest = passes
        .cuts
        .iter()
        .map(|cut| cut.depth_mm)
        .fold(0.0, f64::max);
    assert!((deepest - 22.9172).abs() < 1e-9, "{deepest}");
    let last = passes.cuts.last().expect("there are cuts");
    assert!(last.path.is_closed());
    order.planks.separation = Separation::Saw;
    let none = separation(&plank_of(&sort), &[sort], &order, &shop).expect("a saw needs nothing");
    assert_eq!(none.cuts, []);
}

#[test]
fn separation_that_cannot_be_done_is_refused_with_the_reason() {
    let sort = Arc::new(letter_e());
    let tabs = Hold::Tabs {
        width: Length::mm(4.0),
        height: Length::mm(3.0),
    };
    let refused = |cutter: Cutter, lane: f64, hold: Hold| {
        let shop = workshop(vec![cutter]);
        let mut order = commission(&shop);
        order.planks.separation = router(hold);
        order.planks.lane = Length::mm(lane);
        separation(&plank_of(&sort), std::slice::from_ref(&sort), &order, &shop)
            .expect_err("this cannot be done")
            .to_string()
    };
    assert!(refused(flat(3.0, 12.0), 7.0, tabs).contains("may go 12.00 mm deep"));
    assert!(refused(flat(3.0, 24.0), 2.0, tabs).contains("is 2.00 mm wide"));
    let wide = Hold::Tabs {
        // Narrowed to a third of that, they still take up too much.
        width: Length::mm(70.0),
        height: Length::mm(3.0),
    };
    assert!(refused(flat(3.0, 24.0), 7.0, wide).contains("more than half"));
}
