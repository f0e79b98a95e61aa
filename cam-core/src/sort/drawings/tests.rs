use std::sync::Arc;

use super::*;
use crate::commission::{BillLine, Permission};
use crate::sort::{DrawnUp, commission_for_tests, draw_up};

/// A page of 20 by 10 mm with a black square of 6 mm, 2 mm from the left and 1 mm from the top, and a red disc of 4 mm across.
const TWO_COLOURS: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"20mm\" height=\"10mm\" viewBox=\"0 0 200 100\">\
    <rect x=\"20\" y=\"10\" width=\"60\" height=\"60\"/><circle cx=\"150\" cy=\"50\" r=\"20\" fill=\"#b01020\"/></svg>";

fn drawn(change: impl FnOnce(&mut NamedDrawing), bytes: &[u8]) -> DrawnUp {
    let mut commission = commission_for_tests("");
    commission.faces.clear();
    let mut named = NamedDrawing::starting("leaf", "leaf.svg");
    named.permission = Permission {
        by: "the shop".to_owned(),
        ..Permission::default()
    };
    change(&mut named);
    commission.drawings.push(named);
    commission.bill = [2, 3]
        .map(|count| BillLine {
            face: "leaf".to_owned(),
            glyph: GlyphChoice::Drawing,
            count,
        })
        .to_vec();
    let mut files = Fonts::new();
    files.insert("leaf".to_owned(), Arc::from(bytes));
    draw_up(&commission, &files, &Progress::new()).expect("it is drawn up")
}

fn svg(change: impl FnOnce(&mut NamedDrawing)) -> DrawnUp {
    drawn(change, TWO_COLOURS.as_bytes())
}

/// The only finding of severity stop, which must be there.
fn stopped(drawn: &DrawnUp) -> &Finding {
    assert!(drawn.sorts.is_empty());
    let mut stops = drawn
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop);
    let first = stops.next().expect("a stop");
    assert!(stops.next().is_none());
    first
}

fn near(found: f64, meant: f64) {
    assert!((found - meant).abs() < 1e-3, "{found} for {meant}");
}

/// Chords within a micrometre of a small disc take less than this from its area.
fn near_area(sort: &Sort, meant: f64) {
    let area = sort.face.area();
    assert!((area - meant).abs() < 0.01, "{area} for {meant}");
}

#[test]
fn a_drawing_stands_in_the_middle_of_the_fount_s_body_at_its_own_size() {
    let drawn = svg(|_| {});
    let [sort] = &drawn.sorts[..] else {
        panic!("{:?}", drawn.findings)
    };
    assert_eq!((sort.name.as_str(), sort.count), ("leaf", 5));
    // 15 mm from square to disc, 6 mm high; ten lines of pica.
    let bounds = sort.face.bounding_box().expect("a face");
    near(bounds.width(), 15.0);
    near(bounds.height(), 6.0);
    near(sort.block.body_mm, 120.0 * 25.4 / 72.27 * 0.99999);
    near(bounds.center().y, sort.block.body_mm / 2.0);
    near(bounds.center().x, sort.block.set_mm / 2.0);
    assert!(sort.block.set_mm >= 16.0 - 1e-9);
    // Mirrored: the square, at the left as printed, is at the right.
    let square =
        sort.face.pieces.iter().map(|piece| {
            Rect::from_points(piece.outer[0], piece.outer[0]).union_pt(piece.outer[2])
        });
    let widest = square
        .max_by(|a, b| a.area().total_cmp(&b.area()))
        .expect("two pieces");
    assert!(widest.center().x > sort.block.set_mm / 2.0);
    near_area(sort, 36.0 + std::f64::consts::PI * 4.0);
}

#[test]
fn the_file_s_own_coordinates_come_to_the_face() {
    let drawn = svg(|named| named.size = DrawingSize::Height(Length::mm(12.0)));
    let sort = &drawn.sorts[0];
    let source = sort.source.as_ref().expect("a source");
    assert!(source.face_from_em.determinant() < 0.0);
    // The square's upper left corner in the file, y turned up, is the face's upper right.
    let corner = source.face_from_em * kurbo::Point::new(20.0, -10.0);
    let bounds = sort.face.bounding_box().expect("a face");
    near(corner.x, bounds.x1);
    near(corner.y, bounds.y1);
    near(bounds.height(), 12.0);
}

#[test]
fn body_foot_set_and_page_are_heeded() {
    let drawn = svg(|named| {
        named.extent = Extent::Page;
        named.size = DrawingSize::Width(Length::mm(20.0));
        named.body = Some(Length::mm(10.0));
        named.set = Some(Length::mm(20.0));
        named.side = Some(Length::mm(0.0));
    });
    let block = &drawn.sorts[0].block;
    near(block.body_mm, 10.0);
    near(block.set_mm, 20.0);
    let bounds = drawn.sorts[0].face.bounding_box().expect("a face");
    near(bounds.x1, 18.0);
    near(bounds.y1, 9.0);
    let aside = svg(|named| {
        named.set = Some(Length::mm(20.0));
        named.left = Some(Length::mm(0.75));
        named.side = Some(Length::mm(0.0));
    });
    near(aside.sorts[0].block.set_mm, 20.0);
    let bounds = aside.sorts[0].face.bounding_box().expect("a face");
    // What is left as printed is right as cut.
    near(bounds.x1, 20.0 - 0.75);
    let foot = svg(|named| named.foot = Some(Length::mm(3.0)));
    near(foot.sorts[0].face.bounding_box().expect("a face").y0, 3.0);
}

#[test]
fn one_colour_keeps_the_place_it_has_in_the_whole() {
    let whole = svg(|_| {});
    let red = svg(|named| named.layer = Some("#B01020".to_owned()));
    assert_eq!(red.sorts[0].block, whole.sorts[0].block);
    near_area(&red.sorts[0], std::f64::consts::PI * 4.0);
    let bounds = |drawn: &DrawnUp| drawn.sorts[0].face.bounding_box().expect("a face");
    near(bounds(&red).x0, bounds(&whole).x0);
}

#[test]
fn trouble_is_told_and_nothing_is_cut() {
    let kind = |drawn: &DrawnUp| stopped(drawn).kind;
    assert_eq!(
        kind(&svg(|named| named.layer = Some("#00ff00".to_owned()))),
        "layer-missing"
    );
    assert_eq!(
        kind(&svg(|named| named.body = Some(Length::mm(5.0)))),
        "drawing-out-of-body"
    );
    assert_eq!(
        kind(&svg(|named| named.set = Some(Length::mm(5.0)))),
        "drawing-wider-than-set"
    );
    assert_eq!(
        kind(&svg(|named| named.id = "other".to_owned())),
        "drawing-unknown"
    );
    assert_eq!(
        kind(&drawn(|_| {}, b"nothing of the kind")),
        "drawing-unusable"
    );
    let open =
        "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n1\n20\n2\n11\n5\n21\n2\n0\nENDSEC\n0\nEOF\n";
    let open = drawn(|_| {}, open.as_bytes());
    let finding = stopped(&open);
    assert_eq!(finding.kind, "drawing-open");
    assert!(finding.text.contains("x 1 mm, y 2 mm"), "{}", finding.text);
    let page = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\n0\n10\n1\n20\n2\n40\n5\n0\nENDSEC\n0\nEOF\n";
    let page = drawn(|named| named.extent = Extent::Page, page.as_bytes());
    assert_eq!(kind(&page), "drawing-without-page");
    let changed = svg(|named| named.sha256 = "0".repeat(64));
    assert!(
        changed
            .findings
            .iter()
            .any(|finding| finding.kind == "drawing-changed" && finding.severity == Severity::Stop)
    );
    let unallowed = svg(|named| named.permission = Permission::default());
    assert!(
        unallowed
            .findings
            .iter()
            .any(|finding| finding.kind == "permission-not-recorded")
    );
}
