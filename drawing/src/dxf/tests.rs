use kurbo::{Point, Shape};

use super::*;

/// A file with these lines of entities, in millimetres.
fn file(entities: &str) -> String {
    format!(
        "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n"
    )
}

/// A record from its pairs, written `code value` a line.
fn record(text: &str) -> String {
    text.split(';')
        .map(|pair| {
            let (code, value) = pair.trim().split_once(' ').expect("code and value");
            format!("{code}\n{value}\n")
        })
        .collect()
}

fn drawn(entities: &str) -> Drawing {
    let text = file(entities);
    read(text.as_bytes(), &Reading::default()).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

fn area(drawing: &Drawing) -> f64 {
    drawing.whole.region(0.0005).expect("a region").area()
}

fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> String {
    record(&format!("0 LINE; 8 0; 10 {x0}; 20 {y0}; 11 {x1}; 21 {y1}"))
}

#[test]
fn lines_that_meet_make_a_ring_whatever_their_order_and_way() {
    let entities = [
        line(0.0, 0.0, 10.0, 0.0),
        line(0.0, 10.0, 0.0, 0.0),
        line(10.0, 10.0, 10.0, 0.0),
        line(10.0, 10.0, 0.0, 10.0),
    ]
    .concat();
    let drawing = drawn(&entities);
    assert!((area(&drawing) - 100.0).abs() < 1e-3);
    assert!(
        drawing.open_ends.is_empty() && drawing.notes.is_empty(),
        "{:?}",
        drawing.notes
    );
}

#[test]
fn gaps_within_the_stated_one_are_joined_and_wider_ones_are_named() {
    let entities = [
        line(0.0, 0.0, 10.0, 0.0),
        line(10.0, 0.01, 10.0, 10.0),
        line(10.0, 10.0, 0.0, 10.0),
        line(0.0, 10.0, 0.0, 0.5),
    ]
    .concat();
    let drawing = drawn(&entities);
    assert!(drawing.whole.is_empty());
    let ends: Vec<Point> = drawing.open_ends.iter().map(|end| end.at).collect();
    assert_eq!(ends, [Point::new(0.0, 0.0), Point::new(0.0, 0.5)]);
    assert!((drawing.open_ends[0].gap_mm.unwrap() - 0.5).abs() < 1e-9);
    assert!(
        drawing.notes.iter().any(|note| note.contains("0.0100 mm")),
        "{:?}",
        drawing.notes
    );
    let text = file(&entities);
    let wider = read(text.as_bytes(), &Reading { join_gap_mm: 0.6 }).unwrap();
    assert!(wider.open_ends.is_empty());
    assert!((area(&wider) - 100.0).abs() < 0.1);
}

#[test]
fn arcs_circles_ellipses_and_bulges_have_their_areas() {
    use std::f64::consts::PI;
    let circle = record("0 CIRCLE; 8 0; 10 5; 20 5; 40 4");
    assert!((area(&drawn(&circle)) - 16.0 * PI).abs() < 0.05);
    // A half disc from an arc and a line.
    let half = record("0 ARC; 8 0; 10 0; 20 0; 40 10; 50 0; 51 180") + &line(-10.0, 0.0, 10.0, 0.0);
    assert!((area(&drawn(&half)) - 50.0 * PI).abs() < 0.05);
    let ellipse =
        record("0 ELLIPSE; 8 0; 10 0; 20 0; 11 8; 21 6; 40 0.5; 41 0; 42 6.283185307179586");
    assert!((area(&drawn(&ellipse)) - 50.0 * PI).abs() < 0.05);
    // Two half circles: bulge 1 is half a turn counter-clockwise.
    let disc = record("0 LWPOLYLINE; 8 0; 90 2; 70 1; 10 -3; 20 0; 42 1; 10 3; 20 0; 42 1");
    assert!((area(&drawn(&disc)) - 9.0 * PI).abs() < 0.05);
    // A bulge of tan(22.5°) is a quarter of a turn: a square corner rounded outwards.
    let bulge = (PI / 8.0).tan();
    let quarter = record(&format!(
        "0 LWPOLYLINE; 8 0; 90 3; 70 1; 10 0; 20 0; 10 10; 20 0; 42 {bulge}; 10 0; 20 10"
    ));
    assert!((area(&drawn(&quarter)) - 25.0 * PI).abs() < 0.05);
    let clockwise = record(&format!(
        "0 LWPOLYLINE; 8 0; 90 3; 70 1; 10 0; 20 0; 10 10; 20 0; 42 -{bulge}; 10 0; 20 10"
    ));
    let meant = 50.0 - (25.0 * PI - 50.0);
    assert!((area(&drawn(&clockwise)) - meant).abs() < 0.05);
}

#[test]
fn older_polylines_and_rings_in_rings_are_read() {
    let ring = |side: f64| {
        let mut text = record("0 POLYLINE; 8 0; 66 1; 70 1");
        for (x, y) in [(-side, -side), (side, -side), (side, side), (-side, side)] {
            text += &record(&format!("0 VERTEX; 8 0; 10 {x}; 20 {y}"));
        }
        text + &record("0 SEQEND; 8 0")
    };
    let drawing = drawn(&(ring(10.0) + &ring(5.0)));
    assert!((area(&drawing) - 300.0).abs() < 1e-3);
    // Drawn twice, it is still there.
    let doubled = drawn(&(ring(10.0) + &ring(10.0)));
    assert!((area(&doubled) - 400.0).abs() < 1e-3);
    assert!(
        doubled
            .notes
            .iter()
            .any(|note| note.contains("drawn twice"))
    );
}

#[test]
fn splines_come_out_exactly_and_with_weights() {
    // One cubic piece and its chord: area of a Bézier arch by its control points, 3/20 of … checked against kurbo.
    let spline = record(
        "0 SPLINE; 8 0; 70 8; 71 3; 72 8; 73 4; 40 0; 40 0; 40 0; 40 0; 40 1; 40 1; 40 1; 40 1; 10 0; 20 0; 10 0; 20 10; 10 10; 20 10; 10 10; 20 0",
    );
    let drawing = drawn(&(spline + &line(10.0, 0.0, 0.0, 0.0)));
    let mut arch = kurbo::BezPath::new();
    arch.move_to((0.0, 0.0));
    arch.curve_to((0.0, 10.0), (10.0, 10.0), (10.0, 0.0));
    arch.close_path();
    assert!((drawing.whole.path.area().abs() - arch.area().abs()).abs() < 1e-9);
    // A quarter circle as a rational spline of degree 2: L. Piegl and W. Tiller, The NURBS Book, 1997, §7.3; from memory.
    let weight = std::f64::consts::FRAC_1_SQRT_2;
    let quarter = record(&format!(
        "0 SPLINE; 8 0; 70 12; 71 2; 72 6; 73 3; 40 0; 40 0; 40 0; 40 1; 40 1; 40 1; 41 1; 41 {weight}; 41 1; 10 10; 20 0; 10 10; 20 10; 10 0; 20 10"
    ));
    let drawing = drawn(&(quarter + &line(0.0, 10.0, 0.0, 0.0) + &line(0.0, 0.0, 10.0, 0.0)));
    assert!((area(&drawing) - 25.0 * std::f64::consts::PI).abs() < 0.02);
}

#[test]
fn blocks_are_placed_scaled_turned_and_repeated() {
    let block = "0\nSECTION\n2\nBLOCKS\n".to_owned()
        + &record("0 BLOCK; 8 0; 2 unit; 70 0; 10 1; 20 1")
        + &record("0 LWPOLYLINE; 8 0; 90 4; 70 1; 10 1; 20 1; 10 3; 20 1; 10 3; 20 2; 10 1; 20 2")
        + &record("0 ENDBLK; 8 0")
        + "0\nENDSEC\n";
    let inserts =
        record("0 INSERT; 8 outer; 2 unit; 10 100; 20 50; 41 2; 42 3; 50 90; 70 2; 71 1; 44 20");
    let text = file(&inserts).replacen(
        "0\nSECTION\n2\nENTITIES",
        &(block + "0\nSECTION\n2\nENTITIES"),
        1,
    );
    let drawing = read(text.as_bytes(), &Reading::default()).unwrap();
    assert!((area(&drawing) - 2.0 * 4.0 * 3.0).abs() < 1e-3);
    let bounds = drawing.whole.bounding_box().unwrap();
    // Turned by a quarter: 4 long up, 3 wide to the left; the second copy lies 20 further up.
    for (found, meant) in [
        (bounds.x0, 97.0),
        (bounds.y0, 50.0),
        (bounds.x1, 100.0),
        (bounds.y1, 74.0),
    ] {
        assert!((found - meant).abs() < 1e-6, "{bounds:?}");
    }
    // What lies on layer 0 of a block lies on the layer of its use.
    assert_eq!(drawing.layers[0].name, "outer");
    // A block in itself ends.
    let itself = text.replacen(
        "0\nENDBLK",
        &(record("0 INSERT; 8 0; 2 unit; 10 0; 20 0; 70 9; 71 9") + "0\nENDBLK"),
        1,
    );
    assert!(read(itself.as_bytes(), &Reading::default()).is_err());
}

#[test]
fn units_sides_and_layers_are_heeded() {
    let circle = record("0 CIRCLE; 8 rim; 10 1; 20 0; 40 1");
    let inches = file(&circle).replace("$INSUNITS\n70\n4", "$INSUNITS\n70\n1");
    let drawing = read(inches.as_bytes(), &Reading::default()).unwrap();
    assert!((drawing.whole.bounding_box().unwrap().x1 - 50.8).abs() < 1e-3);
    let unsaid = read(
        file(&circle).replace("$INSUNITS", "$OTHER").as_bytes(),
        &Reading::default(),
    )
    .unwrap();
    assert!(unsaid.notes[0].contains("which unit"));
    // Seen from below, x runs the other way.
    let behind = record("0 CIRCLE; 8 0; 10 5; 20 0; 40 1; 210 0; 220 0; 230 -1");
    assert!((drawn(&behind).whole.bounding_box().unwrap().x0 + 6.0).abs() < 1e-3);
    let tilted = record("0 CIRCLE; 8 0; 10 5; 20 0; 40 1; 210 1; 220 0; 230 0");
    let said = read(file(&tilted).as_bytes(), &Reading::default())
        .unwrap_err()
        .to_string();
    assert!(said.contains("does not lie flat"), "{said}");
    let both = drawn(&(circle + &record("0 CIRCLE; 8 dot; 10 9; 20 9; 40 1")));
    let names: Vec<&str> = both
        .layers
        .iter()
        .map(|layer| layer.name.as_str())
        .collect();
    assert_eq!(names, ["rim", "dot"]);
}

#[test]
fn damage_text_and_emptiness_are_told() {
    let said = |text: &str| {
        read(text.as_bytes(), &Reading::default())
            .unwrap_err()
            .to_string()
    };
    assert!(said("0\nSECTION\n2\nENTITIES\nabc\n1\n").contains("line 5"));
    assert!(said(&file(&record("0 LINE; 8 0; 10 0; 20 0; 11 1"))).contains("lacks its group 21"));
    assert!(said(&file(&record("0 CIRCLE; 8 0; 10 0; 20 0; 40 wide"))).contains("“wide”"));
    assert!(said(&file(&record("0 TEXT; 8 0; 10 0; 20 0; 40 5; 1 Sale"))).contains("“Sale”"));
    assert!(said(&file("")).contains("nothing that prints"));
    assert!(said("AutoCAD Binary DXF\r\n\u{1a}\0").contains("binary"));
}
