//! The drawing is clean: no crossings, right winding, points at extremes, pairs that do not touch, borders that meet.

mod reading;

use demo_face::features::kerning_of;
use demo_face::font_file::Layer;
use demo_face::glyphs::{self, Entry};
use demo_face::{kerning, merge, ornaments};
use kurbo::{BezPath, ParamCurve, ParamCurveExtrema, PathSeg, Point, Rect, Shape, Vec2};
use reading::{committed, outlines};
use std::collections::BTreeMap;

const LAYERS: [Layer; 2] = [Layer::Regular, Layer::Inline];

/// The contours as closed chains of short lines, eight to a curve.
fn chains(outline: &BezPath) -> Vec<Vec<Point>> {
    merge::subpaths(outline)
        .iter()
        .map(|contour| {
            contour
                .segments()
                .flat_map(|segment| {
                    let steps = if matches!(segment, PathSeg::Line(_)) {
                        1
                    } else {
                        8
                    };
                    (0..steps).map(move |step| segment.eval(f64::from(step) / f64::from(steps)))
                })
                .collect()
        })
        .collect()
}

/// Every short line of an outline, with the number of its contour and its place in it.
fn lines(outline: &BezPath) -> Vec<(usize, usize, usize, Point, Point)> {
    let mut found = Vec::new();
    for (c, chain) in chains(outline).iter().enumerate() {
        for i in 0..chain.len() {
            found.push((c, i, chain.len(), chain[i], chain[(i + 1) % chain.len()]));
        }
    }
    found
}

fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[test]
fn no_outline_crosses_itself() {
    for layer in LAYERS {
        for (name, outline) in outlines(&committed(layer)) {
            let lines = lines(&outline);
            for (k, &(c, i, count, a, b)) in lines.iter().enumerate() {
                for &(other, j, _, p, q) in &lines[k + 1..] {
                    let neighbours = c == other && (j == i + 1 || (i == 0 && j + 1 == count));
                    assert!(
                        neighbours || !cross(a, b, p, q),
                        "{name} on {layer:?} crosses itself near {a}"
                    );
                }
            }
        }
    }
}

#[test]
fn ink_lies_to_the_right_and_nothing_overlaps() {
    for layer in LAYERS {
        for (name, outline) in outlines(&committed(layer)) {
            let again = merge::merged(&[outline.reverse_subpaths()], &[]);
            let (drawn, merged) = (-outline.area(), -again.area());
            // Both round to whole units: half a unit all along the outline is the most that may differ.
            let allowed = 0.5 * outline.perimeter(0.1) + 1.0;
            let apart = (drawn - merged).abs();
            assert!(
                apart <= allowed,
                "{name} on {layer:?}: {drawn} against {merged}"
            );
        }
    }
}

#[test]
fn curves_have_points_at_their_extremes() {
    for (name, outline) in outlines(&committed(Layer::Regular)) {
        for segment in outline.segments() {
            let (ends, whole) = (
                Rect::from_points(segment.start(), segment.end()),
                ParamCurveExtrema::bounding_box(&segment),
            );
            let past = [
                ends.x0 - whole.x0,
                ends.y0 - whole.y0,
                whole.x1 - ends.x1,
                whole.y1 - ends.y1,
            ];
            let most = past.into_iter().fold(0.0, f64::max);
            assert!(
                most < 1.0,
                "{name}: a curve passes its ends by {most} at {:?}",
                segment.extrema()
            );
        }
    }
}

#[test]
fn kerning_groups_name_glyphs_once() {
    let entries = glyphs::all();
    for groups in [kerning::FIRST, kerning::SECOND] {
        let mut seen = BTreeMap::new();
        for group in groups {
            for &member in group.members {
                assert!(
                    entries.iter().any(|entry| entry.name == member),
                    "{member} is not a glyph"
                );
                assert_eq!(
                    seen.insert(member, group.key),
                    None,
                    "{member} is in two groups"
                );
            }
        }
    }
    for (first, second, _) in kerning::PAIRS {
        assert!(
            kerning::FIRST.iter().any(|group| group.key == *first),
            "{first}"
        );
        assert!(
            kerning::SECOND.iter().any(|group| group.key == *second),
            "{second}"
        );
    }
}

fn from_line(point: Point, a: Point, b: Point) -> f64 {
    let along = b - a;
    let t = ((point - a).dot(along) / along.hypot2()).clamp(0.0, 1.0);
    point.distance(a + along * t)
}

/// The least distance between two outlines, the second moved by `by`; nought if they cross.
fn distance(a: &BezPath, b: &BezPath, by: Vec2) -> f64 {
    let (first, second) = (lines(a), lines(b));
    let mut least = f64::MAX;
    for &(_, _, _, p, q) in &first {
        for &(_, _, _, r, s) in &second {
            let (r, s) = (r + by, s + by);
            if r.x.min(s.x) - p.x.max(q.x) > least {
                continue;
            }
            if cross(p, q, r, s) {
                return 0.0;
            }
            least = least.min(from_line(p, r, s)).min(from_line(r, p, q));
        }
    }
    least
}

#[test]
fn kerned_pairs_do_not_touch() {
    let drawn: BTreeMap<&str, _> = glyphs::all()
        .into_iter()
        .map(Entry::drawn)
        .map(|glyph| {
            (
                glyph.entry.name,
                (glyph.advance, Layer::Regular.outline(&glyph)),
            )
        })
        .collect();
    let members = |groups: &[kerning::Group], key: &str| {
        groups
            .iter()
            .find(|group| group.key == key)
            .unwrap()
            .members
    };
    let mut touching = Vec::new();
    for (first, second, _) in kerning::PAIRS {
        for left in members(kerning::FIRST, first) {
            for right in members(kerning::SECOND, second) {
                let ((advance, a), (_, b)) = (&drawn[left], &drawn[right]);
                let gap = distance(a, b, Vec2::new(advance + kerning_of(left, right), 0.0));
                if gap < 25.0 {
                    touching.push(format!("{left} {right}: {gap:.0}"));
                }
            }
        }
    }
    assert!(touching.is_empty(), "{touching:?}");
}

/// The stretches of ink that end on the upright line at `x`, from foot to head.
fn ends_at(outline: &BezPath, x: f64) -> Vec<f64> {
    let mut ends: Vec<f64> = outline
        .segments()
        .filter(|segment| segment.start().x == x && segment.end().x == x)
        .flat_map(|segment| [segment.start().y, segment.end().y])
        .collect();
    ends.sort_by(f64::total_cmp);
    ends
}

#[test]
fn border_units_meet() {
    for layer in LAYERS {
        let drawn: BTreeMap<String, BezPath> = outlines(&committed(layer)).into_iter().collect();
        let unit = ends_at(&drawn["borderlevel"], 0.0);
        assert!(unit.len() >= 4, "{unit:?}");
        assert_eq!(unit, ends_at(&drawn["borderlevel"], ornaments::BORDER));
        for corner in ["cornerupperleft", "cornerlowerleft"] {
            assert_eq!(unit, ends_at(&drawn[corner], ornaments::BORDER), "{corner}");
        }
        for corner in ["cornerupperright", "cornerlowerright"] {
            assert_eq!(unit, ends_at(&drawn[corner], 0.0), "{corner}");
        }
    }
}
