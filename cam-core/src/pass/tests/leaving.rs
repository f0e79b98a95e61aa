//! What is left to the next smaller cutter.

use super::*;
use crate::pass::leaving::Next;
use crate::pass::pieces::{Piece, Pocket};
use crate::raster::{Frame, Raster};
use kurbo::Rect;

/// Two millimetres square, with corners at 10 and 12 mm.
fn square(at: f64) -> Raster {
    let frame = Frame::over(Rect::new(0.0, 0.0, 60.0, 60.0), 0.1);
    let mut raster = Raster::empty(frame);
    raster.set_inside(&[rectangle(at, at, at + 2.0, at + 2.0)]);
    raster.refresh();
    raster
}

/// By hand: two layers of 4 mm² ÷ 1.2 mm ÷ 25 mm/s × 1.5 and 0.3 s are 1.0 s. To come from elsewhere the cutter goes up and down by
/// 4 mm at 25 mm/s and 200 mm/s², 0.285 s each, and 10 mm across, 0.447 s: 1.02 s more.
#[test]
fn a_piece_is_left_where_the_smaller_cutter_is_done_with_it_sooner() {
    let shop = workshop(vec![flat(3.0, 10.0)]);
    let piece = Piece {
        pocket: Pocket::default(),
        todo: square(10.0),
        own: Vec::new(),
        depth: 3.0,
    };
    let is_left = |own: f64, depth: f64, seconds: f64| {
        let next = Next {
            cutter: &shop.cutters[0],
            depth,
            own: square(own),
        };
        next.takes_less(&piece, 3.0, seconds, &shop.machine)
    };
    for (own, depth, seconds, left) in [
        (13.0, 3.0, 1.05, true),
        (13.0, 3.0, 0.95, false),
        (40.0, 3.0, 1.95, false),
        (40.0, 3.0, 2.1, true),
        // It does not go as deep.
        (13.0, 2.0, 100.0, false),
    ] {
        assert_eq!(
            is_left(own, depth, seconds),
            left,
            "{own} {depth} {seconds}"
        );
    }
}

/// A square counter with corners that each of the smaller cutters gets further into.
#[test]
fn what_is_left_is_cleared_by_the_next_cutter_and_the_whole_takes_less_time() {
    let frame = Region::from_ring(&rectangle(4.0, 4.0, 30.0, 30.0));
    let counter = Region::from_ring(&rectangle(10.0, 10.0, 24.0, 24.0));
    let sort = sort(difference(&frame, &counter), 34.0, 34.0);
    let shop = workshop(vec![flat(6.0, 4.0), flat(4.0, 4.0), flat(3.0, 4.0)]);
    let order = commission(&shop);
    let ground = ground(&sort);
    let cutters: Vec<&Cutter> = shop.cutters.iter().collect();
    let whole = |leaves: bool| {
        let mut planning = Planning::new(&sort, &ground, &order, &shop.machine, &cutters);
        let passes = (0..cutters.len()).map(|number| {
            let smaller = cutters.get(number + 1).copied().filter(|_| leaves);
            planning.next(cutters[number], smaller)
        });
        let passes: Vec<SortPasses> = passes.collect();
        let seconds = passes.iter().zip(&cutters).map(|(of, cutter)| {
            let toolpath = crate::toolpath::join_one(of, cutter, &shop.machine);
            crate::toolpath::duration::of_motions(&toolpath.motions, &shop.machine)
        });
        let seconds: f64 = seconds.sum();
        (passes, seconds)
    };
    let (left, without) = (whole(true), whole(false));
    let counts = |passes: &[SortPasses]| passes[1].cuts.len();
    assert!(counts(&left.0) < counts(&without.0));
    assert!(left.1 < without.1, "{} s and {} s", left.1, without.1);
    for (passes, _) in [&left, &without] {
        check_no_path_enters_the_letter(&sort, passes);
        check_all_reachable_ground_is_cleared(&sort, passes, 3.0);
    }
}
