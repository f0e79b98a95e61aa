use std::sync::Arc;

use super::*;
use crate::commission::{BillLine, ColourRules, Permission, Plate, PlateSource};
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

/// The same drawing, in colours.
fn in_colours(plates: Vec<Plate>) -> DrawnUp {
    let mut commission = commission_for_tests("");
    commission.faces.clear();
    commission
        .drawings
        .push(NamedDrawing::starting("leaf", "leaf.svg"));
    commission.bill = vec![BillLine {
        face: "leaf".to_owned(),
        glyph: GlyphChoice::Drawing,
        count: 2,
    }];
    commission.colours = Some(ColourRules {
        drawings: vec!["leaf".to_owned()],
        plates,
        ..ColourRules::starting()
    });
    let files = Fonts::from([("leaf".to_owned(), Arc::from(TWO_COLOURS.as_bytes()))]);
    draw_up(&commission, &files, &Progress::new()).expect("it is drawn up")
}

fn plate(name: &str, ink: &str, source: PlateSource) -> Plate {
    Plate {
        name: name.to_owned(),
        ink: ink.to_owned(),
        source,
        overprinted: false,
    }
}

/// The area that each plate prints, mm²; none where it prints nothing.
fn areas(drawn: &DrawnUp) -> Vec<Option<f64>> {
    let layers = &drawn.layers["leaf"];
    let of = |plate| layers.iter().find(|layer| layer.plate == plate);
    (0..drawn.plates.len())
        .map(|plate| of(plate).map(|layer| layer.face.area()))
        .collect()
}

const DISC_MM2: f64 = std::f64::consts::PI * 4.0;

#[test]
fn a_drawing_s_own_colours_are_its_plates() {
    let drawn = in_colours(Vec::new());
    let names: Vec<&str> = drawn
        .plates
        .iter()
        .map(|plate| plate.name.as_str())
        .collect();
    assert_eq!(names, ["#000000", "#b01020"]);
    let found = areas(&drawn);
    near(found[0].expect("the square"), 36.0);
    assert!((found[1].expect("the disc") - DISC_MM2).abs() < 0.01);
    near_area(&drawn.sorts[0], 36.0 + DISC_MM2);
    // Parted, they lie on blocks alike.
    let rules = ColourRules::starting();
    let parted = drawn.parted(Some(&rules)).sorts;
    let told: Vec<(&str, u32)> = parted
        .iter()
        .map(|sort| (sort.name.as_str(), sort.count))
        .collect();
    assert_eq!(told, [("leaf (#000000)", 2), ("leaf (#b01020)", 2)]);
    assert_eq!(parted[0].block.outline, parted[1].block.outline);
}

#[test]
fn plates_find_their_layers_by_ink_and_by_colour() {
    let drawn = in_colours(vec![
        plate("accent", "#B01020", PlateSource::Letter),
        plate("sky", "blue", PlateSource::Letter),
    ]);
    let found = areas(&drawn);
    assert!((found[0].expect("the disc") - DISC_MM2).abs() < 0.01);
    assert_eq!(found[1], None);
    let kinds: Vec<&str> = drawn.findings.iter().map(|finding| finding.kind).collect();
    assert!(kinds.contains(&"colour-without-plate"), "{kinds:?}");
    assert!(kinds.contains(&"plate-prints-nothing"), "{kinds:?}");
    // The size stays that of the whole drawing.
    let bounds = drawn.sorts[0].face.bounding_box().expect("a face");
    assert!(drawn.sorts[0].block.set_mm > bounds.width() + 10.0);
    let by_colour = in_colours(vec![plate(
        "all red",
        "red",
        PlateSource::FontColour("#b01020".to_owned()),
    )]);
    assert!((areas(&by_colour)[0].expect("the disc") - DISC_MM2).abs() < 0.01);
}

#[test]
fn a_drawing_without_their_layers_is_taken_like_a_letter() {
    let drawn = in_colours(vec![
        plate(
            "shade",
            "yellow",
            PlateSource::Shadow {
                angle_deg: 0.0,
                length: Length::mm(3.0),
                gap: Length::mm(0.0),
            },
        ),
        plate("face", "blue", PlateSource::Letter),
    ]);
    let found = areas(&drawn);
    assert!((found[1].expect("all of it") - 36.0 - DISC_MM2).abs() < 0.01);
    // Three millimetres beside a square of six and a disc of four, and the trap below them.
    let beside = 3.0 * 6.0 + 3.0 * 4.0;
    let shade = found[0].expect("a shadow");
    assert!((beside..beside + 5.0).contains(&shade), "{shade}");
    let plain = svg(|_| {}).sorts.remove(0).block.set_mm;
    assert!(drawn.sorts[0].block.set_mm >= plain + 2.5);
}
