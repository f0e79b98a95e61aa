use std::collections::BTreeMap;
use std::sync::Arc;

use geometry::boolean::{difference, symmetric_difference, union_all};
use geometry::region::{Region, region_from_outline};
use kurbo::{Affine, BezPath, Point, Rect, Shape as _};

use super::*;
use crate::commission::{
    BillLine, Border, Commission, Extent, GlyphChoice, Measured, NamedDrawing, Permission,
};
use crate::make::Fonts;
use crate::measure::{Length, System};
use crate::progress::Progress;
use crate::proof::impression::{Colour, Impression};
use crate::sort::{commission_for_tests, draw_up};

const PT: f64 = crate::measure::PICA_POINT_MM;

fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Region {
    region_from_outline(&Rect::new(x0, y0, x1, y1).to_path(0.001), 0.001).expect("a rectangle")
}

fn shape(set_pt: f64, body_pt: f64, bars_pt: &[[f64; 4]]) -> Shape {
    let bars = bars_pt
        .iter()
        .map(|&[x0, y0, x1, y1]| rect(x0 * PT, y0 * PT, x1 * PT, y1 * PT));
    Shape {
        set_mm: set_pt * PT,
        body_mm: body_pt * PT,
        inked: union_all(&bars.collect::<Vec<_>>()),
    }
}

/// A rule from 4 to 7 points below the head of a 12-point body, in pieces of 24 points, and its corner.
fn rules() -> BTreeMap<String, Shape> {
    BTreeMap::from([
        (
            "knot".to_owned(),
            shape(12.0, 12.0, &[[4.0, 5.0, 12.0, 8.0], [4.0, 0.0, 7.0, 8.0]]),
        ),
        (
            "rule".to_owned(),
            shape(24.0, 12.0, &[[0.0, 5.0, 24.0, 8.0]]),
        ),
        (
            "half rule".to_owned(),
            shape(6.0, 12.0, &[[0.0, 5.0, 6.0, 8.0]]),
        ),
    ])
}

fn border(width_pt: f64, height_pt: f64) -> Border {
    Border::starting(
        "rule",
        "knot",
        "rule",
        [width_pt, height_pt].map(|points| Length::points_of(points, System::Pica)),
    )
}

fn set(border: &Border, shapes: &BTreeMap<String, Shape>) -> Frame {
    frame(border, shapes, System::Pica).expect("it can be set")
}

/// All ink of a frame.
fn ink(frame: &Frame, shapes: &BTreeMap<String, Shape>) -> Region {
    let regions = frame.units.iter().filter_map(|unit| {
        let turned = shapes[unit.sort.as_ref()?].turned(unit.turned);
        let size = [unit.place.width(), unit.place.height()];
        assert!((turned.set_mm - size[0]).abs() < 1e-9 && (turned.body_mm - size[1]).abs() < 1e-9);
        let mut path = BezPath::new();
        for ring in turned.inked.rings() {
            path.move_to(ring[0]);
            ring[1..].iter().for_each(|&point| path.line_to(point));
            path.close_path();
        }
        let placed = Affine::translate(unit.at().to_vec2()) * path;
        Some(region_from_outline(&placed, 0.001).expect("a region"))
    });
    union_all(&regions.collect::<Vec<_>>())
}

fn counts(frame: &Frame) -> Vec<(&str, u32)> {
    let counts = frame.counts.iter();
    counts
        .map(|(name, count)| (name.as_str(), *count))
        .collect()
}

fn kinds(findings: &[crate::finding::Finding]) -> Vec<&str> {
    findings.iter().map(|finding| finding.kind).collect()
}

#[test]
fn a_rule_goes_all_round() {
    let shapes = rules();
    let border = border(360.0, 240.0);
    let frame = set(&border, &shapes);
    // 14 pieces between the corners of head and foot, 9 at each side.
    assert_eq!(counts(&frame), [("knot", 4), ("rule", 2 * (14 + 9))]);
    assert_eq!(frame.units.len(), 50);
    for side in &frame.sides {
        assert_eq!(side.fill.rest_pt, 0.0, "{:?}", side.of);
    }
    assert_eq!(join_findings(&border, &frame), []);
    // Every join between two pieces is one of four: corner and rule either way round, and rule and rule.
    let times: u32 = frame.joins.iter().map(|join| join.times).sum();
    assert_eq!((frame.joins.len(), times), (3, 50));
    // Every join has its place on the frame's outer edge, at the corner of a unit there.
    let places: Vec<Point> = frame
        .joins
        .iter()
        .flat_map(|join| join.places.clone())
        .collect();
    assert_eq!(places.len(), 50);
    let [width, height] = frame.size_mm;
    for place in places {
        let is_outer = [place.x, width - place.x, place.y, height - place.y]
            .iter()
            .any(|off| off.abs() < 1e-9);
        let at_unit = frame.units.iter().any(|unit| {
            let Rect { x0, y0, x1, y1 } = unit.place;
            [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
                .iter()
                .any(|&(x, y)| Point::new(x, y).distance(place) < 1e-9)
        });
        assert!(is_outer && at_unit, "{place}");
    }
    // What prints is one rule of 3 points, 4 points inside the frame, and nothing else: corners turned the right way.
    let [width, height] = frame.size_mm;
    let ring = |inside: f64| {
        let mm = inside * PT;
        rect(mm, mm, width - mm, height - mm)
    };
    let wanted = difference(&ring(4.0), &ring(7.0));
    let off = symmetric_difference(&ink(&frame, &shapes), &wanted).area();
    // Points lie on a grid of a ten-thousandth.
    assert!(off < 0.15, "{off} mm²");
    assert!((frame.inside_mm[0] - 336.0 * PT).abs() < 1e-9);
}

#[test]
fn a_frame_is_measured_inside_as_well() {
    let mut inside = border(336.0, 216.0);
    inside.measured = Measured::Inside;
    let frame = set(&inside, &rules());
    assert!((frame.size_mm[0] - 360.0 * PT).abs() < 1e-9);
    assert!((frame.size_mm[1] - 240.0 * PT).abs() < 1e-9);
    assert_eq!(counts(&frame), [("knot", 4), ("rule", 46)]);
    assert!((frame.sides[0].nearest_mm[0] - 336.0 * PT).abs() < 1e-9);
}

#[test]
fn what_is_left_over_is_made_up_or_filled_by_shorter_pieces() {
    let shapes = rules();
    let uneven = border(366.0, 244.0);
    let frame = set(&uneven, &shapes);
    let [head, right, ..] = &frame.sides;
    assert!((head.fill.rest_pt - 6.0).abs() < 1e-6);
    assert!((head.nearest_mm[0] - 360.0 * PT).abs() < 1e-6);
    assert!((head.nearest_mm[1] - 384.0 * PT).abs() < 1e-6);
    assert!((right.fill.rest_pt - 4.0).abs() < 1e-6);
    // Three points at each end of head and foot, two at each end of the sides; nothing joins across them.
    let spacing = frame.units.iter().filter(|unit| unit.sort.is_none());
    let lengths: Vec<f64> = spacing
        .map(|unit| unit.place.width().min(unit.place.height()) / PT)
        .collect();
    assert_eq!(lengths.len(), 8);
    let sum: f64 = lengths.iter().sum();
    assert!((sum - 2.0 * (6.0 + 4.0)).abs() < 1e-6, "{sum}");
    assert_eq!(frame.joins.len(), 1);
    // Every stretch of the outside is covered exactly once.
    let area: f64 = frame.units.iter().map(|unit| unit.place.area()).sum();
    let [width, height] = frame.size_mm;
    let [wide, high] = frame.inside_mm;
    assert!((area - (width * height - wide * high)).abs() < 1e-6);

    let mut filled = border(366.0, 240.0);
    filled.running.push("half rule".to_owned());
    let frame = set(&filled, &shapes);
    assert_eq!(frame.sides[0].fill.rest_pt, 0.0);
    assert_eq!(
        counts(&frame),
        [("knot", 4), ("rule", 46), ("half rule", 2)]
    );
    assert_eq!(join_findings(&filled, &frame), []);
}

#[test]
fn what_does_not_join_is_told_with_its_place() {
    let mut shapes = rules();
    // The corner's level rule lies a point too low.
    shapes.insert(
        "knot".to_owned(),
        shape(12.0, 12.0, &[[4.0, 4.0, 12.0, 7.0], [4.0, 0.0, 7.0, 7.0]]),
    );
    let border = border(360.0, 240.0);
    let found = join_findings(&border, &set(&border, &shapes));
    assert_eq!(kinds(&found), ["border-step", "border-step"]);
    let text = &found[0].text;
    for words in [
        "4 times",
        "head, after unit 1",
        "0.35 mm apart",
        "1.41 mm from",
    ] {
        assert!(text.contains(words), "{text}");
    }
    // A corner that is not drawn up to its foot does not meet the side that comes up to it.
    shapes.insert(
        "knot".to_owned(),
        shape(12.0, 12.0, &[[4.0, 5.0, 12.0, 8.0], [4.0, 1.0, 7.0, 8.0]]),
    );
    let found = join_findings(&border, &set(&border, &shapes));
    assert_eq!(kinds(&found), ["border-gap"]);
    assert!(found[0].text.contains("knot ends 0.35 mm before its edge"));
    assert!(found[0].text.contains("along the head, after unit 15"));
}

#[test]
fn four_corners_and_pieces_for_the_sides_stand_as_they_are_drawn() {
    let mut shapes = rules();
    let turned = |quarters: u8, shapes: &BTreeMap<String, Shape>| shapes["knot"].turned(quarters);
    for (quarters, name) in (0..).zip(["a", "b", "c", "d"]) {
        let corner = turned(quarters, &shapes);
        shapes.insert(name.to_owned(), corner);
    }
    let upright = shapes["rule"].turned(3);
    shapes.insert("upright".to_owned(), upright);
    let mut own = border(360.0, 240.0);
    own.corners = ["a", "b", "c", "d"].map(str::to_owned).to_vec();
    own.sides = vec!["upright".to_owned()];
    let frame = set(&own, &shapes);
    assert_eq!(join_findings(&own, &frame), []);
    let first = set(&border(360.0, 240.0), &shapes);
    let off = symmetric_difference(&ink(&frame, &shapes), &ink(&first, &shapes)).area();
    assert!(off < 0.15, "{off}");
    assert_eq!(
        counts(&frame),
        [
            ("a", 1),
            ("rule", 28),
            ("b", 1),
            ("upright", 18),
            ("c", 1),
            ("d", 1)
        ]
    );
}

#[test]
fn what_cannot_be_set_is_told() {
    let mut shapes = rules();
    let said = |border: &Border, shapes: &BTreeMap<String, Shape>| {
        frame(border, shapes, System::Pica)
            .expect_err("it cannot be set")
            .to_string()
    };
    let mut unknown = border(360.0, 240.0);
    unknown.running = vec!["rope".to_owned()];
    assert!(said(&unknown, &shapes).contains("“rope”"));
    let small = said(&border(20.0, 240.0), &shapes);
    assert!(small.contains("-4.00 points"), "{small}");
    shapes.insert("thick".to_owned(), shape(24.0, 18.0, &[]));
    let mut thick = border(360.0, 240.0);
    thick.running = vec!["thick".to_owned()];
    assert!(said(&thick, &shapes).contains("smaller"));
}

/// A commission with a border of two drawings.
fn drawn_border(set_pt: f64) -> (Commission, Fonts) {
    let page = |width: f64, path: &str| {
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" viewBox=\"0 0 {width} 12\"><path d=\"{path}\"/></svg>",
            width * PT,
            12.0 * PT
        );
        Arc::from(svg.as_bytes())
    };
    let mut commission = commission_for_tests("");
    commission.faces.clear();
    let mut files = Fonts::new();
    for (id, width, set, path) in [
        ("knot", 12.0, 12.0, "M4 4H12V7H7V12H4Z"),
        ("rule", 24.0, set_pt, "M0 4H24V7H0Z"),
    ] {
        let pt = |points| Some(Length::points_of(points, System::Pica));
        commission.drawings.push(NamedDrawing {
            extent: Extent::Page,
            body: pt(12.0),
            set: pt(set),
            side: Some(Length::mm(0.0)),
            permission: Permission {
                by: "the shop".to_owned(),
                ..Permission::default()
            },
            ..NamedDrawing::starting(id, id)
        });
        files.insert(id.to_owned(), page(width, path));
        commission.bill.push(BillLine {
            face: id.to_owned(),
            glyph: GlyphChoice::Drawing,
            count: if id == "knot" { 4 } else { 46 },
        });
    }
    commission.borders.push(border(360.0, 240.0));
    (commission, files)
}

#[test]
fn drawings_on_their_bodies_make_a_border_with_nothing_to_say() {
    let told = |commission: &Commission, files: &Fonts| {
        let drawn = draw_up(commission, files, &Progress::new()).expect("drawn up");
        assert_eq!(drawn.sorts.len(), 2, "{:?}", drawn.findings);
        findings(commission, &drawn.sorts)
    };
    let (mut commission, files) = drawn_border(24.0);
    assert_eq!(told(&commission, &files), []);
    // Two frames take twice as many.
    commission.borders[0].count = 2;
    let short = told(&commission, &files);
    assert_eq!(kinds(&short), ["border-short", "border-short"]);
    assert!(short[1].text.contains("92"), "{}", short[1].text);
    // On a set of 25 points the rules stand half a point short of both edges, and sides are not filled; spacing parts them from the corners.
    let (commission, files) = drawn_border(25.0);
    let off = told(&commission, &files);
    assert_eq!(
        kinds(&off),
        [
            "unit-off-body",
            "frame-not-filled",
            "frame-not-filled",
            "border-apart"
        ]
    );
    let apart = off.iter().find(|finding| finding.kind == "border-apart");
    let apart = apart.expect("the rules stand apart");
    assert!(apart.text.contains("0.35 mm"), "{}", apart.text);
    assert_eq!(apart.severity, crate::finding::Severity::Warning);
}

#[test]
fn a_sheet_shows_the_frame_in_ink() {
    let shapes = rules();
    let frame = set(&border(366.0, 240.0), &shapes);
    let fount = Fount {
        plates: Vec::new(),
        impressions: shapes
            .iter()
            .filter(|(name, _)| *name != "half rule")
            .map(|(name, shape)| Impression {
                plate: None,
                letter: name.clone(),
                name: name.clone(),
                text: String::new(),
                copies: 50,
                set_mm: shape.set_mm,
                body_mm: shape.body_mm,
                baseline_mm: Some(0.0),
                block: Vec::new(),
                inked: shape.inked.clone(),
                part: None,
            })
            .collect(),
    };
    let black = Colour::new(0, 0, 0);
    let sheet = sheet(&frame, &fount, black, Colour::new(255, 255, 255), true);
    let layer = &sheet.layers[0];
    assert_eq!(layer.sorts().count(), 50);
    assert_eq!(layer.set.len(), 54);
    assert!(layer.missing.is_empty());
    // Drawn in four positions each.
    assert_eq!(layer.fount.impressions.len(), 8);
    let inked: f64 = layer.sorts().map(|(_, one, _)| one.inked.area()).sum();
    let wanted = ink(&frame, &shapes).area();
    assert!((inked - wanted).abs() < 0.2, "{inked} for {wanted}");
    assert_eq!(shapes_as_cut(&fount)["rule"], shapes["rule"]);
    // Without a unit's print its name is told.
    let bare = super::sheet(&frame, &Fount::default(), black, black, false);
    assert_eq!(bare.layers[0].missing, ["knot", "rule"]);
}
