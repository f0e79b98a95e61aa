//! Parallel curves and ground reached against a second geometry library, over the ASCII of six fonts at ten lines.
//!
//! # Source
//! Crate `clipper2-rust`, the Rust port of the Clipper2 library: polygon offsets with round joins, and booleans. Areas are
//! compared by symmetric difference, relative to the length of edge on which two approximations may differ. Gap and area in
//! corners are also compared with their closed forms (plane geometry).

use std::collections::BTreeMap;
use std::f64::consts::PI;

use geometry::diagram::Diagram;
use geometry::font::Font;
use geometry::offset::{OffsetLoop, OffsetPiece};
use geometry::reach::{corner_area, corner_gap};
use geometry::region::{Region, region_from_outline};
use kurbo::{Affine, Point, Shape, Vec2};
use testkit::fonts::{self, TestFont};
use testkit::letters;
use testkit::referee::{ARC_TOLERANCE_MM, Area, symmetric_difference_mm2};

/// Body of a ten-line sort, in millimetres.
const BODY_MM: f64 = 42.175;

/// Radii of the cutters, in millimetres.
const RADII_MM: [f64; 4] = [3.0, 1.5, 0.75, 0.4];

/// Width of the lane around a block, in millimetres: a little more than the largest cutter, since two libraries need not agree
/// on ground exactly as wide as a disc.
const LANE_MM: f64 = 6.1;

/// How far chords may lie from the drawn curves, in millimetres.
const FLATTENING_MM: f64 = 0.001;

/// How far two right answers may lie apart along an edge, in millimetres: the referee's chords, twice where it shrinks and
/// grows again, our own chords, and the grids of both.
const EDGE_TOLERANCE_MM: f64 = 2.0 * ARC_TOLERANCE_MM + 0.0003;

/// The same for ground that is left beside long arcs: regions keep arcs as chords within a micrometre.
const ARC_EDGE_TOLERANCE_MM: f64 = 0.001;

const FONTS: [&str; 6] = [
    "hack",
    "ubuntu-light",
    "libertinus-serif",
    "libertinus-serif-bold-italic",
    "new-computer-modern",
    "dejavu-sans-mono-bold",
];

/// A letter in the middle of its room, both in millimetres.
struct Sample {
    name: String,
    diagram: Diagram,
    ground: Area,
}

/// Every printable character of a font, its em on the body.
fn samples(font: TestFont) -> Vec<Sample> {
    let read = Font::parse(font.bytes, font.index, &BTreeMap::new())
        .unwrap_or_else(|error| panic!("{font:?}: {error}"));
    let scale = BODY_MM / read.units_per_em();
    let mut found = Vec::new();
    for character in fonts::ascii() {
        let name = format!("{font:?} {character}");
        let glyph = read
            .glyph_for(character)
            .unwrap_or_else(|| panic!("{name}: no glyph"));
        let drawn = read
            .outline(glyph)
            .unwrap_or_else(|error| panic!("{name}: {error}"));
        let drawn = Affine::scale(scale) * drawn;
        let letter = region_from_outline(&drawn, FLATTENING_MM)
            .unwrap_or_else(|error| panic!("{name}: {error}"));
        let bounds = drawn.bounding_box();
        let block = bounds.union(kurbo::Rect::new(
            bounds.x0,
            -0.25 * BODY_MM,
            bounds.x0 + read.advance(glyph) * scale,
            0.75 * BODY_MM,
        ));
        let room = block.inflate(LANE_MM, LANE_MM);
        found.push(sample(
            name,
            &letter,
            &letters::rectangle(room.x0, room.y0, room.x1, room.y1),
        ));
    }
    found
}

fn sample(name: String, letter: &Region, room: &Vec<Point>) -> Sample {
    let diagram = Diagram::build(letter, room).unwrap_or_else(|error| panic!("{name}: {error}"));
    let ground = Area::of_rings([diagram.room().as_slice()]).without(&Area::of(diagram.letter()));
    Sample {
        name,
        diagram,
        ground,
    }
}

/// The points of a piece but its first, arcs with chords that stay within a tenth of a micrometre.
fn points_of(piece: &OffsetPiece) -> Vec<Point> {
    const SAGITTA_MM: f64 = 1e-4;
    let Some(centre) = piece.centre else {
        return vec![piece.to];
    };
    let (from, to) = (piece.from - centre, piece.to - centre);
    let radius = from.hypot();
    // Clockwise, so the angle falls.
    let sweep = (from.atan2() - to.atan2()).rem_euclid(2.0 * PI);
    let step = 2.0 * (1.0 - SAGITTA_MM / radius.max(2.0 * SAGITTA_MM)).acos();
    let count = (sweep / step).ceil().max(1.0) as usize;
    let turned = |angle: f64| {
        let (sin, cos) = angle.sin_cos();
        Vec2::new(from.x * cos + from.y * sin, from.y * cos - from.x * sin)
    };
    (1..count)
        .map(|part| centre + turned(sweep * part as f64 / count as f64))
        .chain([piece.to])
        .collect()
}

fn area_of_loops(loops: &[OffsetLoop]) -> Area {
    let rings: Vec<Vec<Point>> = loops
        .iter()
        .map(|ring| ring.pieces.iter().flat_map(points_of).collect())
        .collect();
    Area::of_rings(rings.iter().map(Vec::as_slice))
}

/// The fault, if two areas differ by more than their edges allow.
fn fault(what: &str, ours: &Area, theirs: &Area) -> Option<String> {
    let difference = symmetric_difference_mm2(ours, theirs);
    let allowed = theirs.perimeter_mm() * EDGE_TOLERANCE_MM;
    (difference > allowed).then(|| {
        format!(
            "{what}: {:.6} mm² against {:.6}, apart by {difference:.6}, allowed {allowed:.6}",
            ours.square_mm(),
            theirs.square_mm()
        )
    })
}

/// Compares the parallel curve, the ground reached and the ground left, for every radius.
fn check_sample(sample: &Sample) -> Vec<String> {
    let mut faults = Vec::new();
    for radius in RADII_MM {
        let name = format!("{}, radius {radius}", sample.name);
        let shrunk = sample.ground.grown(-radius);
        let loops = sample.diagram.offset(radius);
        faults.extend(fault(
            &format!("{name}, parallel curve"),
            &area_of_loops(&loops),
            &shrunk,
        ));
        let reach = sample.diagram.reach(radius);
        let reached = Area::of(&reach.reached);
        let opened = shrunk.grown(radius);
        faults.extend(fault(&format!("{name}, reached"), &reached, &opened));
        let left: f64 = reach.left.iter().map(|left| left.area).sum();
        let missing = sample.ground.square_mm() - reached.square_mm() - left;
        // Pieces of less than the smallest area count as nothing; there are at most a few for each corner.
        if missing.abs() > sample.ground.perimeter_mm() * EDGE_TOLERANCE_MM {
            faults.push(format!(
                "{name}: {missing:.6} mm² are neither reached nor left"
            ));
        }
        let gouged = reached.without(&sample.ground).square_mm();
        if gouged > sample.ground.perimeter_mm() * 1e-4 {
            faults.push(format!("{name}: {gouged:.6} mm² reached inside the letter"));
        }
    }
    faults
}

/// Judges the letters of a font on all processors.
fn check_font(name: &str) {
    let samples = samples(fonts::text_font(name));
    assert_eq!(samples.len(), 94, "{name} lacks characters");
    let workers = std::thread::available_parallelism().map_or(1, usize::from);
    let faults: Vec<String> = std::thread::scope(|scope| {
        let shares: Vec<_> = samples
            .chunks(samples.len().div_ceil(workers))
            .map(|share| scope.spawn(|| share.iter().flat_map(check_sample).collect::<Vec<_>>()))
            .collect();
        shares
            .into_iter()
            .flat_map(|share| share.join().expect("a sample was judged without a panic"))
            .collect()
    });
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults[..faults.len().min(30)].join("\n")
    );
}

#[test]
fn a_typewriter_face_is_reached_as_clipper2_says() {
    check_font(FONTS[0]);
}

#[test]
fn a_light_face_is_reached_as_clipper2_says() {
    check_font(FONTS[1]);
}

#[test]
fn a_serif_face_is_reached_as_clipper2_says() {
    check_font(FONTS[2]);
}

#[test]
fn a_bold_italic_is_reached_as_clipper2_says() {
    check_font(FONTS[3]);
}

#[test]
fn a_modern_face_is_reached_as_clipper2_says() {
    check_font(FONTS[4]);
}

#[test]
fn a_bold_typewriter_face_is_reached_as_clipper2_says() {
    check_font(FONTS[5]);
}

#[test]
fn the_referee_is_not_moved_by_a_difference_of_nothing() {
    // A comparison that could not fail would prove nothing: one hundredth of a millimetre must be seen.
    let letter = letters::crotch(PI / 4.0);
    let room = letters::rectangle(-6.0, -6.0, 36.0, 36.0);
    let sample = sample("crotch".to_owned(), &letter, &room);
    let right = area_of_loops(&sample.diagram.offset(1.5));
    assert_eq!(fault("same", &right, &sample.ground.grown(-1.5)), None);
    assert!(fault("other", &right, &sample.ground.grown(-1.51)).is_some());
}

#[test]
fn gap_and_area_in_a_crotch_are_those_of_the_closed_forms() {
    for degrees in [20.0, 30.0, 45.0, 60.0] {
        let angle = f64::to_radians(degrees);
        let letter = letters::crotch(angle);
        let room = letters::rectangle(-6.0, -6.0, 36.0, 36.0);
        let sample = sample(format!("crotch of {degrees}°"), &letter, &room);
        let tip = Point::new(15.0, 5.0);
        for radius in RADII_MM {
            let name = format!("{}, radius {radius}", sample.name);
            let gap = radius * (1.0 / (angle / 2.0).sin() - 1.0);
            let area = radius * radius * (1.0 / (angle / 2.0).tan() - (PI - angle) / 2.0);
            assert!((corner_gap(radius, angle) - gap).abs() < 1e-12, "{name}");
            assert!((corner_area(radius, angle) - area).abs() < 1e-12, "{name}");
            let reach = sample.diagram.reach(radius);
            let left = reach
                .left
                .iter()
                .find(|left| {
                    left.region
                        .bounding_box()
                        .is_some_and(|bounds| bounds.inflate(0.01, 0.01).contains(tip))
                })
                .unwrap_or_else(|| panic!("{name}: nothing is left in the crotch"));
            let edges = Area::of(&left.region).perimeter_mm();
            assert!(
                (left.area - area).abs() < edges * ARC_EDGE_TOLERANCE_MM,
                "{name}: {} against {area}",
                left.area
            );
            assert!(
                (left.depth - gap).abs() < 1e-3,
                "{name}: {} against {gap}",
                left.depth
            );
        }
    }
}

#[test]
fn a_right_angle_left_by_half_a_millimetre_has_the_handbook_figures() {
    // r 0.5: 0.2071 at 90°, 0.5000 at 60°; r 0.595 (a 3/64 inch cutter): 0.2466 at 90°. Area at 90°: r² (1 − π/4).
    assert!((corner_gap(0.5, PI / 2.0) - 0.207_107).abs() < 5e-7);
    assert!((corner_gap(0.5, PI / 3.0) - 0.5).abs() < 1e-12);
    assert!((corner_gap(0.595, PI / 2.0) - 0.2466).abs() < 2e-4);
    assert!((corner_area(0.5, PI / 2.0) - 0.25 * (1.0 - PI / 4.0)).abs() < 1e-12);
}

#[test]
fn a_slot_is_entered_by_what_fits_and_by_nothing_else() {
    let room = letters::rectangle(-6.0, -6.0, 26.0, 36.0);
    let in_slot = |width: f64, radius: f64| {
        let sample = sample(format!("slot {width}"), &letters::slot(width), &room);
        sample
            .diagram
            .reach(radius)
            .reached
            .contains(Point::new(10.0, 15.0))
    };
    assert!(in_slot(3.01, 1.5));
    assert!(!in_slot(2.99, 1.5));
    assert!(in_slot(0.81, 0.4));
    assert!(!in_slot(0.79, 0.4));
}

#[test]
fn a_counter_is_cleared_to_its_corners() {
    let room = letters::rectangle(-6.0, -6.0, 26.0, 26.0);
    let sample = sample("frame".to_owned(), &letters::frame(8.0), &room);
    for radius in RADII_MM {
        let reach = sample.diagram.reach(radius);
        // The room's own corners are left too: eight corners of 90° in all.
        let area: f64 = reach.left.iter().map(|left| left.area).sum();
        let wanted = 8.0 * corner_area(radius, PI / 2.0);
        let arcs = 8.0 * radius * PI / 2.0;
        assert!(
            (area - wanted).abs() < arcs * ARC_EDGE_TOLERANCE_MM,
            "{radius}: {area} against {wanted}"
        );
    }
}
