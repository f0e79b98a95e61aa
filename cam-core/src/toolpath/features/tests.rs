//! Pieces between liftings, and what is known of the floor.

use super::*;
use crate::pass::Purpose;
use crate::workshop::Workshop;

fn cut(entry: Entry, depth: f64, places: &[(f64, f64)]) -> Cut {
    let mut path = ArcPath::starting_at(Point::from(places[0]));
    path.steps = places[1..]
        .iter()
        .map(|&to| ArcStep::Line { to: to.into() })
        .collect();
    Cut {
        purpose: Purpose::Roughing,
        layer: 0,
        depth_mm: depth,
        heights: Heights::Level,
        entry,
        path,
        feed_mm_min: 900.0,
    }
}

fn features_of(cuts: Vec<Cut>) -> Vec<Feature> {
    let workshop = Workshop::starting();
    let cutter = workshop.cutter("flat-3").expect("a starting cutter");
    let passes = SortPasses {
        cutter: cutter.id.clone(),
        cuts,
    };
    features(&passes, cutter, &Floor::default())
}

#[test]
fn cuts_between_which_the_cutter_stays_down_are_one_feature() {
    let found = features_of(vec![
        cut(Entry::Plunge, 1.0, &[(0.0, 0.0), (20.0, 0.0)]),
        cut(Entry::StayDown, 1.0, &[(20.0, 1.0), (0.0, 1.0)]),
        // Down to the next layer where it stands.
        cut(Entry::Plunge, 2.0, &[(0.0, 1.0), (20.0, 1.0)]),
        // At another depth it cannot just stay down.
        cut(Entry::StayDown, 1.0, &[(20.0, 5.0), (0.0, 5.0)]),
        cut(Entry::Plunge, 1.0, &[(40.0, 40.0), (50.0, 40.0)]),
    ]);
    let cuts: Vec<Range<usize>> = found.iter().map(|feature| feature.cuts.clone()).collect();
    assert_eq!(cuts, [0..3, 3..4, 4..5]);
    let after: Vec<&[usize]> = found
        .iter()
        .map(|feature| feature.after.as_slice())
        .collect();
    // 4 mm away lies within squares that cannot be told from overlapping; 40 mm away does not.
    assert_eq!(after, [&[][..], &[0], &[]]);
}

#[test]
fn the_floor_is_known_where_earlier_cuts_cover_the_whole_cutter() {
    let lane = |depth| cut(Entry::Plunge, depth, &[(0.0, 0.0), (20.0, 0.0)]);
    let begun = |x: f64, y: f64| cut(Entry::Open, 2.0, &[(x, y), (x, y + 0.5)]);
    let clear = |x: f64, y: f64| {
        let found = features_of(vec![lane(1.0), lane(1.5), begun(x, y)]);
        found.last().expect("features").clear_mm
    };
    assert_eq!(clear(10.0, 0.0), 1.5);
    assert_eq!(clear(0.0, 0.0), 1.5);
    // Off the lane's middle, or before its start, some of the cutter is over wood.
    assert_eq!(clear(10.0, 0.1), 0.0);
    assert_eq!(clear(-0.2, 0.0), 0.0);
    // Two lanes side by side cover what neither does alone, as deep as the shallower.
    let beside = cut(Entry::Plunge, 1.0, &[(0.0, 1.0), (20.0, 1.0)]);
    let found = features_of(vec![lane(1.5), beside, begun(10.0, 0.5)]);
    assert_eq!(found[2].clear_mm, 1.0);
}

/// A way back over what is cut is fast; one that strays from it, or lies deeper, is not trusted.
#[test]
fn fast_ways_are_trusted_only_over_cleared_ground() {
    let fast = |depth, places: &[(f64, f64)]| Cut {
        feed_mm_min: 2500.0,
        ..cut(Entry::StayDown, depth, places)
    };
    for (way, trusted) in [
        (fast(1.0, &[(20.0, 0.0), (0.0, 0.0)]), true),
        (fast(1.0, &[(20.0, 0.0), (0.0, 0.3)]), false),
        (fast(1.5, &[(20.0, 0.0), (0.0, 0.0)]), false),
    ] {
        let lane = cut(Entry::Plunge, 1.0, &[(0.0, 0.0), (20.0, 0.0)]);
        let found = features_of(vec![lane, way.clone()]);
        let doubtful: usize = found.iter().map(|feature| feature.doubtful.len()).sum();
        assert_eq!(doubtful, usize::from(!trusted), "{way:?}");
    }
}

/// An arc's lane is known as exactly as a straight one.
#[test]
fn distances_from_arcs() {
    let step = ArcStep::Arc {
        to: Point::new(0.0, 5.0),
        centre: Point::ORIGIN,
        turn: geometry::arc_path::Turn::Left,
    };
    let from = Point::new(5.0, 0.0);
    for (place, expected) in [
        ((3.0, 3.0), 5.0 - 18.0_f64.sqrt()),
        ((0.0, 0.0), 5.0),
        ((6.0, 8.0), 5.0),
        ((5.0, -2.0), 2.0),
        ((-1.0, 5.0), 1.0),
    ] {
        let found = distance(from, &step, Point::from(place));
        assert!((found - expected).abs() < 1e-9, "{place:?}: {found}");
    }
}
