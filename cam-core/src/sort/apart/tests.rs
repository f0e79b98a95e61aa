use std::collections::BTreeMap;
use std::sync::Arc;

use epaint_default_fonts::UBUNTU_LIGHT;
use geometry::boolean::{symmetric_difference, union_all};
use geometry::region::Region;
use kurbo::{Line, ParamCurve, ParamCurveNearest, PathEl, PathSeg};

use super::*;
use crate::commission::{
    BillLine, DrawingSize, GlyphChoice, MiddlePiece, NamedDrawing, Permission,
};
use crate::make::Fonts;
use crate::progress::Progress;
use crate::sort::{DrawnUp, commission_for_tests, draw_up};

/// A cross of 10 by 8 mm on a block of 12 by 12: an upright bar of 2 mm, 4 to 6 mm from its left, and a level one of 3 mm, 2 to 5 mm from its foot.
const CROSS: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10mm\" height=\"8mm\" viewBox=\"0 0 10 8\">\
    <path d=\"M4 0H6V3H10V6H6V8H4V6H0V3H4Z\"/></svg>";
/// A disc of 5 mm radius.
const DISC: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10mm\" height=\"10mm\" viewBox=\"0 0 10 10\">\
    <circle cx=\"5\" cy=\"5\" r=\"5\"/></svg>";

fn line(way: LineWay, at_mm: f64) -> CutLine {
    CutLine {
        way,
        at: Length::mm(at_mm),
        middle: None,
    }
}

fn with_middle(length_mm: f64, count: u32, line: CutLine) -> CutLine {
    CutLine {
        middle: Some(MiddlePiece {
            length: Length::mm(length_mm),
            count,
        }),
        ..line
    }
}

/// A drawing in the middle of a block of 12 by 12 mm, of which two are ordered, cut apart.
fn cut(svg: &str, lines: &[CutLine], counts: Option<Vec<u32>>) -> DrawnUp {
    let mut commission = commission_for_tests("");
    commission.faces.clear();
    commission.drawings.push(NamedDrawing {
        size: DrawingSize::AsDrawn,
        body: Some(Length::mm(12.0)),
        set: Some(Length::mm(12.0)),
        permission: Permission {
            by: "the shop".to_owned(),
            ..Permission::default()
        },
        ..NamedDrawing::starting("leaf", "leaf.svg")
    });
    commission.bill.push(BillLine {
        face: "leaf".to_owned(),
        glyph: GlyphChoice::Drawing,
        count: 2,
    });
    commission.cut_apart.push(CutApart {
        face: "leaf".to_owned(),
        glyph: GlyphChoice::Drawing,
        lines: lines.to_vec(),
        counts,
    });
    let files = Fonts::from([("leaf".to_owned(), Arc::from(svg.as_bytes()))]);
    let mut drawn = draw_up(&commission, &files, &Progress::new()).expect("it is drawn up");
    drawn
        .findings
        .retain(|finding| finding.kind != "drawing-not-recorded");
    drawn
}

/// A letter of the test font, whole and cut apart.
fn letter(character: char, lines: &[CutLine]) -> (Sort, DrawnUp) {
    let fonts = BTreeMap::from([("main".to_owned(), Arc::from(UBUNTU_LIGHT))]);
    let mut commission = commission_for_tests(&character.to_string());
    let drawn = |commission: &Commission| {
        draw_up(commission, &fonts, &Progress::new()).expect("it is drawn up")
    };
    let whole = drawn(&commission).sorts.remove(0);
    commission.cut_apart.push(CutApart {
        face: "main".to_owned(),
        glyph: commission.bill[0].glyph.clone(),
        lines: lines.to_vec(),
        counts: None,
    });
    (whole, drawn(&commission))
}

/// A part's outline where it lies on the block of the whole, in face space.
fn on_the_whole(part: &Sort) -> BezPath {
    let of = part.source.as_ref().and_then(|source| source.part.as_ref());
    let of = of.expect("a part");
    let at = of.at.expect("it is no middle piece");
    let shift = Vec2::new(of.of_mm[0] - at.x - part.block.set_mm, at.y);
    Affine::translate(shift) * part.outline.clone()
}

fn filled(outline: &BezPath) -> Region {
    region_from_outline(outline, FLATTENING_MM).expect("a region")
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 2e-3, "{found} for {wanted}");
}

fn kinds(drawn: &DrawnUp) -> Vec<&str> {
    drawn.findings.iter().map(|finding| finding.kind).collect()
}

#[test]
fn a_cross_cut_in_two_joins_along_its_stem() {
    // Through the upright bar: the cross stands 1 mm from the left of its block and 2 mm above its foot.
    let drawn = cut(CROSS, &[line(LineWay::Upright, 6.0)], None);
    assert_eq!(kinds(&drawn), [""; 0]);
    let [left, right] = &drawn.sorts[..] else {
        panic!("{} parts", drawn.sorts.len())
    };
    assert_eq!([&left.name, &right.name], ["leaf part 1", "leaf part 2"]);
    for part in [left, right] {
        assert_eq!(part.count, 2);
        near(part.block.set_mm, 6.0);
        near(part.block.body_mm, 12.0);
        // Half of 2 by 8 and one arm of 4 by 3.
        near(part.face.area(), 8.0 + 12.0);
    }
    // The face runs out to the edge that joins: the left part's right edge as printed, which is its left one as cut.
    let bounds = [left, right].map(|part| part.face.bounding_box().expect("a face"));
    near(bounds[0].x0, 0.0);
    near(bounds[0].x1, 5.0);
    near(bounds[1].x0, 1.0);
    near(bounds[1].x1, 6.0);
}

#[test]
fn a_middle_piece_carries_on_what_the_line_crosses() {
    let upright = with_middle(7.5, 3, line(LineWay::Upright, 3.0));
    let drawn = cut(CROSS, &[upright], None);
    assert_eq!(kinds(&drawn), [""; 0]);
    let middle = drawn.sorts.last().expect("three pieces");
    assert_eq!((middle.name.as_str(), middle.count), ("leaf middle 1", 3));
    near(middle.block.set_mm, 7.5);
    near(middle.block.body_mm, 12.0);
    near(middle.face.area(), 7.5 * 3.0);
    let bounds = middle.face.bounding_box().expect("a face");
    // The level bar: 2 to 5 mm above the cross's foot, which is 2 mm above the block's.
    near(bounds.y0, 4.0);
    near(bounds.y1, 7.0);
    near(bounds.x0, 0.0);
    near(bounds.x1, 7.5);

    let level = with_middle(4.0, 1, line(LineWay::Level, 8.5));
    let drawn = cut(CROSS, &[level], None);
    let middle = drawn.sorts.last().expect("three pieces");
    near(middle.block.set_mm, 12.0);
    near(middle.block.body_mm, 4.0);
    near(middle.face.area(), 4.0 * 2.0);
    let bounds = middle.face.bounding_box().expect("a face");
    // The upright bar stands 5 to 7 mm from the left as printed, and so as cut.
    near(bounds.x0, 5.0);
    near(bounds.x1, 7.0);
    let base = |sort: &Sort| sort.block.baseline_mm;
    let [head, foot, middle] = &drawn.sorts[..] else {
        panic!("{} pieces", drawn.sorts.len())
    };
    near(base(foot) - base(head), 8.5);
    near(base(middle), base(head));
}

#[test]
fn an_edge_off_the_square_is_told_with_its_angle() {
    // A disc's edge leans by asin(x / r) where it is cut x from its middle.
    for off_mm in [0.1, 0.15] {
        let upright = with_middle(5.0, 1, line(LineWay::Upright, 6.0 + off_mm));
        let slope = (off_mm / 5.0_f64).asin().to_degrees();
        assert!(slope < LEVEL_DEG);
        assert_eq!(kinds(&cut(DISC, &[upright], None)), [""; 0], "{slope}");
    }
    for way in [LineWay::Upright, LineWay::Level] {
        for off_mm in [0.5_f64, 3.0] {
            let drawn = cut(DISC, &[with_middle(5.0, 1, line(way, 6.0 + off_mm))], None);
            assert_eq!(kinds(&drawn), ["joint-not-level"]);
            let text = &drawn.findings[0].text;
            let slope = (off_mm / 5.0).asin().to_degrees();
            assert!(text.contains(&format!("{slope:.1} degrees")), "{text}");
            // Without a middle piece nothing kinks.
            assert_eq!(kinds(&cut(DISC, &[line(way, 6.0 + off_mm)], None)), [""; 0]);
        }
    }
}

#[test]
fn lines_of_both_ways_make_parts_in_reading_order() {
    let lines = [line(LineWay::Level, 6.0), line(LineWay::Upright, 6.0)];
    let drawn = cut(DISC, &lines, Some(vec![4, 20, 0, 1]));
    let made: Vec<(&str, u32)> = drawn
        .sorts
        .iter()
        .map(|sort| (sort.name.as_str(), sort.count))
        .collect();
    assert_eq!(
        made,
        [("leaf part 1", 4), ("leaf part 2", 20), ("leaf part 4", 1)]
    );
    for part in &drawn.sorts {
        near(part.face.area(), std::f64::consts::PI * 25.0 / 4.0);
    }
    // The first is the upper left as printed: its face fills up to its lower right, which is the lower left as cut.
    let first = drawn.sorts[0].face.bounding_box().expect("a face");
    near(first.x0, 0.0);
    near(first.y0, 0.0);
    near(first.x1, 5.0);
}

#[test]
fn the_parts_of_letters_come_to_the_letter() {
    let ways = [
        vec![line(LineWay::Upright, 9.0)],
        vec![line(LineWay::Level, 14.0), line(LineWay::Level, 25.5)],
        vec![
            line(LineWay::Upright, 7.3),
            line(LineWay::Level, 18.37),
            line(LineWay::Upright, 12.0),
        ],
    ];
    for character in "SER&8g".chars() {
        for lines in &ways {
            let (whole, drawn) = letter(character, lines);
            let outlines: Vec<BezPath> = drawn.sorts.iter().map(on_the_whole).collect();
            let sum: f64 = outlines.iter().map(Shape::area).sum();
            let area = whole.outline.area();
            assert!((sum - area).abs() < 1e-6, "{character}: {sum} for {area}");
            let faces: Vec<Region> = outlines.iter().map(filled).collect();
            let off = symmetric_difference(&union_all(&faces), &whole.face).area();
            // Curves that are cut are flattened otherwise than in one.
            let around = whole.face.perimeter();
            assert!(off < 2.0 * FLATTENING_MM * around, "{character}: {off}");
            let blocks: f64 = drawn
                .sorts
                .iter()
                .map(|part| part.block.set_mm * part.block.body_mm)
                .sum();
            assert!(blocks <= whole.block.set_mm * whole.block.body_mm + 1e-9);
            for part in &drawn.sorts {
                assert!(part.text.is_empty() && part.block.notches.is_empty());
                assert_eq!(part.block.outline.len(), 4);
            }
        }
    }
}

#[test]
fn curves_of_parts_are_those_of_the_whole() {
    let curves = |outline: &BezPath| {
        let elements = outline.elements().iter();
        elements
            .filter(|element| matches!(element, PathEl::QuadTo(..) | PathEl::CurveTo(..)))
            .count()
    };
    for (character, at_mm) in [('S', 9.0), ('&', 7.3), ('g', 8.0)] {
        let cut = line(LineWay::Upright, at_mm);
        let (whole, drawn) = letter(character, std::slice::from_ref(&cut));
        let at = whole.block.set_mm - at_mm;
        let edges: Vec<PathSeg> = whole.outline.segments().collect();
        let mut kept = 0;
        for part in &drawn.sorts {
            let outline = on_the_whole(part);
            kept += curves(&outline);
            for place in outline
                .segments()
                .flat_map(|segment| [0.0, 0.3, 0.7].map(|share| segment.eval(share)))
            {
                let off = edges
                    .iter()
                    .map(|edge| edge.nearest(place, 1e-9).distance_sq.sqrt());
                let off = off.fold((place.x - at).abs(), f64::min);
                assert!(off < 1e-6, "{character}: {place:?} lies {off} mm off");
            }
        }
        let crossed: usize = edges
            .iter()
            .filter(|edge| !matches!(edge, PathSeg::Line(_)))
            .map(|edge| {
                let upright = Line::new((at, -100.0), (at, 200.0));
                edge.intersect_line(upright).len()
            })
            .sum();
        assert_eq!(kept, curves(&whole.outline) + crossed, "{character}");
    }
}

#[test]
fn what_cannot_be_cut_is_told() {
    let beside = cut(CROSS, &[line(LineWay::Upright, 12.0)], None);
    assert!(beside.sorts.is_empty());
    assert_eq!(kinds(&beside), ["cut-beside-block"]);
    assert_eq!(beside.findings[0].severity, Severity::Stop);
    // Right of the cross there is nothing.
    let empty = cut(
        CROSS,
        &[with_middle(2.0, 1, line(LineWay::Upright, 11.5))],
        None,
    );
    assert_eq!(kinds(&empty), ["part-without-face", "joint-without-face"]);
    assert_eq!(empty.sorts.len(), 1);
    let mut commission = commission_for_tests("A");
    commission.cut_apart.push(CutApart {
        face: "main".to_owned(),
        glyph: GlyphChoice::Name("A".to_owned()),
        lines: vec![line(LineWay::Upright, 5.0)],
        counts: None,
    });
    let fonts = BTreeMap::from([("main".to_owned(), Arc::from(UBUNTU_LIGHT))]);
    let drawn = draw_up(&commission, &fonts, &Progress::new()).expect("it is drawn up");
    assert_eq!(kinds(&drawn), ["cut-not-ordered"]);
    assert_eq!(drawn.sorts[0].name, "A");
}
