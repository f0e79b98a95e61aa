use std::f64::consts::PI;

use kurbo::{Circle, Point, Rect, Shape};

use super::finishing::least_along;
use super::*;
use crate::letters;

/// A cutter of 6 mm: 2.4 mm wide, 1.5 mm deep, 30 mm/s.
fn large() -> Mill {
    Mill {
        radius: 3.0,
        step_over: 2.4,
        step_down: 1.5,
        depth: 20.0,
        feed: 30.0,
        plunge: 8.0,
        allowance: 0.0,
    }
}

/// A cutter of 1.5 mm: 0.6 mm wide, 0.5 mm deep, 12 mm/s.
fn small() -> Mill {
    Mill {
        radius: 0.75,
        step_over: 0.6,
        step_down: 0.5,
        depth: 5.0,
        feed: 12.0,
        plunge: 4.0,
        allowance: 0.0,
    }
}

const DRIVE: Drive = Drive {
    acceleration: 300.0,
    deviation: 0.02,
    lift: [25.0, 200.0],
    clear_height: 5.0,
};

/// The same depth everywhere.
fn even(depth: f64) -> Relief {
    Relief {
        least_mm: depth,
        full_mm: depth,
        narrow_width_mm: 2.0,
        wide_width_mm: 8.0,
    }
}

fn bound(drawn: &BezPath, block: Rect, mills: &[Mill], relief: &Relief) -> Bound {
    let region = geometry::region::region_from_outline(drawn, 0.001).expect("a plain outline");
    of_letter(drawn, &Area::of(&region), block, mills, relief, &DRIVE)
}

fn rectangle(rect: Rect) -> BezPath {
    rect.to_path(0.001)
}

#[track_caller]
fn check_close(found: f64, expected: f64, part: f64) {
    assert!(
        (found - expected).abs() <= expected.abs() * part + 1e-6,
        "{found}, expected {expected}"
    );
}

#[test]
fn open_ground_takes_its_area_in_layers() {
    let letter = rectangle(Rect::new(5.0, 5.0, 25.0, 25.0));
    let block = Rect::new(0.0, 0.0, 30.0, 30.0);
    let area = 900.0 - 400.0;
    for (depth, layers) in [(1.0, 1.0), (1.5, 1.0), (1.6, 2.0), (3.0, 2.0), (3.1, 3.0)] {
        let found = bound(&letter, block, &[large()], &even(depth));
        check_close(found.clearing, layers * area / (2.4 * 30.0), 1e-4);
        assert_eq!(found.forced, 0.0);
    }
}

#[test]
fn what_walls_keep_for_finishing_is_not_cleared() {
    let letter = rectangle(Rect::new(5.0, 5.0, 25.0, 25.0));
    let block = Rect::new(0.0, 0.0, 30.0, 30.0);
    let mill = Mill {
        allowance: 0.2,
        ..large()
    };
    let kept = 4.0 * 20.0 * 0.2 + PI * 0.2 * 0.2;
    let found = bound(&letter, block, &[mill], &even(1.0));
    check_close(found.clearing, (500.0 - kept) / (2.4 * 30.0), 1e-4);
}

#[test]
fn a_counter_is_shared_by_what_reaches_it_quickest_and_takes_a_lift_for_each() {
    let mut letter = rectangle(Rect::new(0.0, 0.0, 20.0, 20.0));
    letter.extend(rectangle(Rect::new(6.0, 6.0, 14.0, 14.0)).reverse_subpaths());
    let block = Rect::new(0.0, 0.0, 20.0, 20.0);
    // The large cutter leaves its four corners; the small one takes them but for its own.
    let corner = |radius: f64| (4.0 - PI) * radius * radius;
    let by_large = 64.0 - corner(3.0);
    let by_small = corner(3.0) - corner(0.75);
    let found = bound(&letter, block, &[large(), small()], &even(1.5));
    let free = |mill: &Mill, layers: f64| {
        let disc = PI * mill.radius * mill.radius / (mill.step_over * mill.feed);
        (1.5 / mill.plunge - layers * disc).min(0.0)
    };
    let expected = by_large / (2.4 * 30.0)
        + free(&large(), 1.0)
        + 3.0 * by_small / (0.6 * 12.0)
        + free(&small(), 3.0);
    check_close(found.clearing, expected, 2e-3);
    // 1.5 mm up at 200 mm/s² and 25 mm/s: 2 √(d / a), for each of the two cutters.
    check_close(found.forced, 2.0 * 2.0 * (1.5_f64 / 200.0).sqrt(), 1e-9);
}

#[test]
fn narrow_ground_takes_fewer_layers() {
    // Two bars 5 mm apart, longer than the block is wide; around them all is open.
    let mut letter = rectangle(Rect::new(-6.0, 5.0, 26.0, 10.0));
    letter.extend(rectangle(Rect::new(-6.0, 15.0, 26.0, 20.0)));
    let block = Rect::new(0.0, 5.0, 20.0, 20.0);
    let relief = Relief {
        least_mm: 1.0,
        full_mm: 4.0,
        narrow_width_mm: 2.0,
        wide_width_mm: 8.0,
    };
    // 5 mm wide: half way between the two widths, so 2.5 mm deep, in two layers of 1.5 mm.
    let found = bound(
        &letter,
        block,
        &[Mill {
            radius: 2.0,
            ..large()
        }],
        &relief,
    );
    check_close(found.clearing, 2.0 * 100.0 / (2.4 * 30.0), 1e-3);
}

#[test]
fn a_round_wall_is_passed_as_fast_as_its_curve_allows() {
    for (radius, feed) in [(2.0, 30.0), (2.0, 50.0), (40.0, 50.0)] {
        let letter = Circle::new(Point::new(50.0, 50.0), radius).to_path(1e-6);
        let mill = Mill { feed, ..large() };
        let found = bound(
            &letter,
            Rect::new(0.0, 0.0, 100.0, 100.0),
            &[mill],
            &even(1.0),
        );
        let path: f64 = radius + 3.0;
        let speed = feed.min((300.0 * path).sqrt());
        check_close(found.finishing, 2.0 * PI * path / speed, 5e-3);
    }
}

#[test]
fn a_square_letter_is_passed_with_slowing_down_for_its_corners() {
    let letter = rectangle(Rect::new(10.0, 10.0, 40.0, 40.0));
    let found = bound(
        &letter,
        Rect::new(0.0, 0.0, 50.0, 50.0),
        &[Mill {
            feed: 50.0,
            ..large()
        }],
        &even(1.0),
    );
    // Round each corner with the cutter's radius at √(a r) = 30 mm/s; along each side 30 mm from 30 over 50 to 30 mm/s. The
    // contour starts in a corner of the drawing, which is passed at full speed there.
    let corner: f64 = 30.0;
    let arcs = 4.0 * PI / 2.0 * 3.0 / corner;
    let top = 50.0;
    let change = (top * top - corner * corner) / (2.0 * 300.0);
    let side = 2.0 * (top - corner) / 300.0 + (30.0 - 2.0 * change) / top;
    let expected = arcs + 4.0 * side;
    assert!(
        found.finishing <= expected * 1.002,
        "{} {expected}",
        found.finishing
    );
    assert!(
        found.finishing >= expected * 0.96,
        "{} {expected}",
        found.finishing
    );
}

#[test]
fn a_path_into_a_corner_and_out_has_the_textbook_time() {
    // 40 mm, a right angle, 40 mm at 50 mm/s and 300 mm/s²; the corner within 0.02 mm.
    let path = [(0.0, 0.0), (40.0, 0.0), (40.0, 40.0)].map(Point::from);
    let half = (PI / 4.0).cos();
    let corner = (300.0 * 0.02 * half / (1.0 - half)).sqrt();
    let slowing = (50.0 * 50.0 - corner * corner) / (2.0 * 300.0);
    let leg = (50.0 - corner) / 300.0 + (40.0 - slowing) / 50.0;
    check_close(least_along(&path, 50.0, &DRIVE), 2.0 * leg, 1e-9);
}

#[test]
fn a_wall_belongs_to_the_largest_cutter_that_touches_it() {
    let slot = letters::slot(2.0);
    let mut drawn = BezPath::new();
    for piece in &slot.pieces {
        drawn.move_to(piece.outer[0]);
        piece.outer[1..].iter().for_each(|&at| drawn.line_to(at));
        drawn.close_path();
    }
    let block = Rect::new(0.0, 0.0, 20.0, 30.0);
    let alone = bound(&drawn, block, &[large()], &even(1.0));
    let both = bound(&drawn, block, &[large(), small()], &even(1.0));
    // The small cutter adds the slot's two sides of 20 mm, its foot of 2 mm, and turns in two corners, at 12 mm/s.
    let added = both.finishing - alone.finishing;
    let straight = (2.0 * (20.0 - 0.75) + 0.5) / 12.0;
    assert!(
        added > straight * 0.97 && added < straight * 1.1,
        "{added} {straight}"
    );
}

/// A square letter so far inside its block that the cutter stands on the block's edge to pass along it: it sweeps its radius
/// beyond, less where two blocks share a lane, and nothing where the lane is too narrow for it.
#[test]
fn wood_beside_the_block_has_to_go_where_the_largest_cutter_passes() {
    const LANE: f64 = 4.0;
    let block = Rect::new(0.0, 0.0, 26.0, 26.0);
    let square = Rect::new(3.0, 3.0, 23.0, 23.0);
    let area = |rect: Rect| super::clearing::area_of(rect);
    let relief = even(3.0);
    let beyond = |lane: f64| super::beside::beyond(&area(square), block, &large(), &relief, lane);
    let alone = beyond(LANE);
    // The letter grown by the cutter's diameter, without the block.
    let grown = 400.0 + 4.0 * 20.0 * 6.0 + PI * 36.0;
    check_close(alone.square_mm(), grown - 676.0, 0.02);
    let next = alone.moved(kurbo::Vec2::new(26.0 + LANE, 0.0));
    let both = Area::of_all([alone.clone(), next]).square_mm();
    // Strips of 3 mm from either side of a lane of 4 mm have 2 mm in common, along 20 mm and a little at their ends.
    let common = 2.0 * alone.square_mm() - both;
    assert!((40.0..52.0).contains(&common), "{common}");
    assert!(beyond(2.0).square_mm() < 1e-3);
    // 3 mm deep in two layers, 2.4 mm wide at 30 mm/s.
    check_close(
        super::beside::cost(&[large(), small()], &relief),
        2.0 / 72.0,
        1e-9,
    );
}
