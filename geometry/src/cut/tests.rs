use std::collections::BTreeMap;
use std::f64::consts::PI;

use epaint_default_fonts::UBUNTU_LIGHT;
use kurbo::{Affine, Circle, ParamCurveNearest, Rect, Shape};

use super::*;
use crate::boolean::{intersection, symmetric_difference};
use crate::font::Font;
use crate::region::{Region, region_from_outline};

/// How far chords may lie from curves, mm.
const FLAT_MM: f64 = 1e-4;

fn region(outline: &BezPath) -> Region {
    region_from_outline(outline, FLAT_MM).expect("a region")
}

fn path(svg: &str) -> BezPath {
    BezPath::from_svg(svg).expect("a path")
}

/// A letter of a font with outlines of quadratic curves, 40 mm to the em.
fn letter(character: char) -> BezPath {
    let font = Font::parse(UBUNTU_LIGHT, 0, &BTreeMap::new()).expect("a font");
    let glyph = font.glyph_for(character).expect("a glyph");
    let scale = Affine::scale(40.0 / font.units_per_em());
    scale * font.outline(glyph).expect("an outline")
}

fn turns_of(outline: &BezPath) -> usize {
    let curved = |element: &&PathEl| matches!(element, PathEl::QuadTo(..) | PathEl::CurveTo(..));
    outline.elements().iter().filter(curved).count()
}

/// Both sides of a line come to the whole: as filled, and each curve on one of the whole's.
#[track_caller]
fn check_cut(outline: &BezPath, line: Straight) {
    let whole = region(outline);
    let wide = 200.0;
    let halves = match line {
        Straight::Upright(x) => [
            Rect::new(-wide, -wide, x, wide),
            Rect::new(x, -wide, wide, wide),
        ],
        Straight::Level(y) => [
            Rect::new(-wide, -wide, wide, y),
            Rect::new(-wide, y, wide, wide),
        ],
    };
    let edges: Vec<PathSeg> = outline.segments().collect();
    for (side, half) in [Side::Below, Side::Above].into_iter().zip(halves) {
        let found = one_side(outline, line, side);
        let wanted = intersection(&whole, &region(&half.to_path(FLAT_MM)));
        let off = symmetric_difference(&region(&found), &wanted).area();
        assert!(
            off <= 2.0 * FLAT_MM * whole.perimeter(),
            "{line:?} {side:?}: {off}"
        );
        for segment in found.segments() {
            for step in 0..=4 {
                let place = segment.eval(f64::from(step) / 4.0);
                let height = line.seen(place)[0] - line.at();
                let beyond = if side == Side::Below { height } else { -height };
                assert!(beyond <= 1e-9, "{place:?} lies beyond");
                let on_edge = edges
                    .iter()
                    .any(|edge| edge.nearest(place, 1e-9).distance_sq < 1e-14);
                assert!(on_edge || beyond > -1e-9, "{line:?} {side:?}: {place:?}");
            }
        }
    }
}

#[test]
fn a_disc_is_cut_into_segments() {
    let disc = Circle::new((3.0, 1.0), 5.0).to_path(1e-9);
    for off in [0.0, 1.0, 4.9, -3.0, -4.999] {
        for line in [Straight::Upright(3.0 + off), Straight::Level(1.0 + off)] {
            check_cut(&disc, line);
            // The area of a segment of a circle (textbook).
            let wanted = 25.0 * (PI - (off / 5.0).acos()) + off * (25.0 - off * off).sqrt();
            let found = one_side(&disc, line, Side::Below).area().abs();
            assert!(
                (found - wanted).abs() < 1e-6,
                "{off}: {found}, expected {wanted}"
            );
            let [[from, to]] = stretches(&disc, line)[..] else {
                panic!("one stretch")
            };
            assert!((to.along - from.along - 2.0 * (25.0 - off * off).sqrt()).abs() < 1e-6);
            let slope = (off.abs() / 5.0).asin();
            assert!((from.slope - slope).abs() < 1e-6 && (to.slope - slope).abs() < 1e-6);
        }
    }
    for beside in [-6.0, -5.0, 5.0, 6.0] {
        let line = Straight::Upright(3.0 + beside);
        assert!(stretches(&disc, line).is_empty(), "{beside}");
        let sides = [Side::Below, Side::Above].map(|side| one_side(&disc, line, side).area().abs());
        assert!((sides[0] + sides[1] - disc.area().abs()).abs() < 1e-9);
        assert!(sides.iter().any(|area| *area < 1e-9));
    }
}

#[test]
fn letters_come_apart_along_any_line() {
    for character in "SER&8gMo@".chars() {
        let outline = letter(character);
        let bounds = outline.bounding_box();
        for share in [0.07, 0.31, 0.5, 0.62, 0.9] {
            check_cut(
                &outline,
                Straight::Upright(bounds.x0 + share * bounds.width()),
            );
            check_cut(
                &outline,
                Straight::Level(bounds.y0 + share * bounds.height()),
            );
        }
        // Lines along the extremes, along straight edges and through corners.
        for segment in outline.segments().step_by(4) {
            check_cut(&outline, Straight::Upright(segment.start().x));
            check_cut(&outline, Straight::Level(segment.start().y));
        }
    }
}

#[test]
fn curves_stay_curves() {
    let outline = letter('S');
    let middle = outline.bounding_box().center();
    for line in [Straight::Upright(middle.x), Straight::Level(middle.y)] {
        let kept = [Side::Below, Side::Above].map(|side| turns_of(&one_side(&outline, line, side)));
        let crossed = 2 * stretches(&outline, line).len();
        assert_eq!(kept[0] + kept[1], turns_of(&outline) + crossed, "{line:?}");
    }
}

#[test]
fn a_line_may_run_along_edges_and_touch_corners() {
    // A plate with a step: the line runs along the edge of the step.
    let step = path("M0 0H10V4H6V8H0Z");
    check_cut(&step, Straight::Level(4.0));
    check_cut(&step, Straight::Upright(6.0));
    let above = one_side(&step, Straight::Level(4.0), Side::Above);
    assert_eq!(above.area().abs(), 24.0);
    assert_eq!(above.segments().count(), 4);
    let [[from, to]] = stretches(&step, Straight::Level(4.0))[..] else {
        panic!("one stretch")
    };
    assert_eq!([from.along, to.along], [0.0, 10.0]);
    // Corners on the line, from this side and from the other.
    let diamond = path("M0 -5L5 0L0 5L-5 0Z");
    for at in [-5.0, 0.0, 5.0] {
        check_cut(&diamond, Straight::Upright(at));
        check_cut(&diamond, Straight::Level(at));
    }
    assert!(stretches(&diamond, Straight::Upright(5.0)).is_empty());
    // A curve whose bend touches the line between its ends.
    let bow = path("M0 0Q5 10 10 0Z");
    check_cut(&bow, Straight::Level(5.0));
    assert_eq!(one_side(&bow, Straight::Level(5.0), Side::Below), bow);
    assert!(one_side(&bow, Straight::Level(5.0), Side::Above).is_empty());
    // A curve that passes the line level in its own bend.
    check_cut(
        &path("M0 0C0 4 0 4 5 4C10 4 10 4 10 8V-2H0Z"),
        Straight::Level(4.0),
    );
    check_cut(&path("M0 0C10 0 -10 10 10 10V0Z"), Straight::Upright(2.0));
}

#[test]
fn overlaps_and_counters_are_kept_apart() {
    // Two bars across one another, a ring, the ring wound the other way, and a ring through a bar.
    for svg in [
        "M0 4H12V8H0ZM4 0H8V12H4Z",
        "M0 0H12V12H0ZM3 3V9H9V3Z",
        "M0 0V12H12V0ZM3 3H9V9H3Z",
        "M0 0H12V12H0ZM3 3V9H9V3ZM1 5H14V7H1Z",
        "M0 4H12V8H0ZM4 0V12H8V0Z",
    ] {
        for at in [1.0, 3.0, 4.0, 5.0, 6.0, 8.5] {
            check_cut(&path(svg), Straight::Upright(at));
            check_cut(&path(svg), Straight::Level(at));
        }
    }
    let ring = path("M0 0H12V12H0ZM3 3V9H9V3Z");
    let found: Vec<[f64; 2]> = stretches(&ring, Straight::Upright(6.0))
        .iter()
        .map(|[from, to]| [from.along, to.along])
        .collect();
    assert_eq!(found, [[0.0, 3.0], [9.0, 12.0]]);
    // The right half of a C is two arms, with nothing between them.
    let arms = one_side(
        &path("M0 0H10V3H3V9H10V12H0Z"),
        Straight::Upright(6.0),
        Side::Above,
    );
    assert_eq!(
        arms.elements()
            .iter()
            .filter(|element| matches!(element, PathEl::MoveTo(_)))
            .count(),
        2
    );
    assert!(
        arms.segments()
            .all(|segment| segment.start().y.max(segment.end().y)
                - segment.start().y.min(segment.end().y)
                <= 3.0)
    );
    // Open subpaths count as closed.
    let open = one_side(&path("M0 0H10V10"), Straight::Upright(5.0), Side::Below);
    assert_eq!(open.area().abs(), 12.5);
    assert!(one_side(&BezPath::new(), Straight::Level(0.0), Side::Above).is_empty());
}
