use kurbo::{Point, Shape};

use super::*;
use crate::FillRule;

fn svg(attributes: &str, inside: &str) -> String {
    format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {attributes}>{inside}</svg>")
}

/// Reads a drawing on a page of 100 by 100 mm with as many units.
fn drawn(inside: &str) -> Drawing {
    let file = svg(
        "width=\"100mm\" height=\"100mm\" viewBox=\"0 0 100 100\"",
        inside,
    );
    read(file.as_bytes()).unwrap_or_else(|error| panic!("{error}\n{file}"))
}

fn refused(inside: &str) -> String {
    let file = svg(
        "width=\"100mm\" height=\"100mm\" viewBox=\"0 0 100 100\"",
        inside,
    );
    read(file.as_bytes())
        .expect_err("it is to be refused")
        .to_string()
}

fn area(drawing: &Drawing) -> f64 {
    let bounds = drawing.whole.bounding_box().expect("something is drawn");
    let work = crate::work::Work::around(bounds);
    let region = work.region(&drawing.whole).expect("a region");
    let side = bounds.width().max(bounds.height()) / 300.0;
    region.area() * side * side
}

#[test]
fn sizes_are_real_and_y_is_turned_up() {
    let rect = "<rect x=\"10\" y=\"20\" width=\"30\" height=\"5\"/>";
    let drawing = drawn(rect);
    let bounds = drawing.whole.bounding_box().unwrap();
    for (found, meant) in [
        (bounds.x0, 10.0),
        (bounds.y0, 75.0),
        (bounds.x1, 40.0),
        (bounds.y1, 80.0),
    ] {
        assert!((found - meant).abs() < 1e-4, "{bounds:?}");
    }
    // Without units, 96 to the inch.
    let file = svg(
        "width=\"96\" height=\"192\"",
        "<rect width=\"48\" height=\"48\"/>",
    );
    let drawing = read(file.as_bytes()).unwrap();
    assert!((drawing.page.unwrap().width - 25.4).abs() < 1e-6);
    assert!((drawing.whole.path.area().abs() - 12.7 * 12.7).abs() < 1e-4);
    // The file's own coordinates, y turned up, come to the same places.
    let drawing = drawn(rect);
    let corner = drawing.mm_from_source * Point::new(10.0, -20.0);
    assert!(corner.distance(Point::new(10.0, 80.0)) < 1e-4, "{corner:?}");
}

#[test]
fn shapes_alone_keep_their_curves() {
    let drawing = drawn("<circle cx=\"50\" cy=\"50\" r=\"20\"/>");
    let has_curves = drawing.whole.path.elements().iter().any(|element| {
        matches!(
            element,
            kurbo::PathEl::CurveTo(..) | kurbo::PathEl::QuadTo(..)
        )
    });
    assert!(has_curves);
    let meant = std::f64::consts::PI * 400.0;
    assert!((drawing.whole.path.area().abs() - meant).abs() < meant * 1e-3);
}

#[test]
fn fills_follow_their_rules() {
    let nested = "M10 10H90V90H10Z M30 30H70V70H30Z";
    let nonzero = drawn(&format!("<path d=\"{nested}\"/>"));
    assert!((area(&nonzero) - 6400.0).abs() < 0.1);
    let even_odd = drawn(&format!("<path fill-rule=\"evenodd\" d=\"{nested}\"/>"));
    assert_eq!(even_odd.whole.rule, FillRule::EvenOdd);
    assert!((area(&even_odd) - 4800.0).abs() < 0.1);
    let resolved = even_odd.whole.nonzero().unwrap();
    assert!((resolved.area().abs() - 4800.0).abs() < 0.1);
}

#[test]
fn holes_are_turned_and_only_crossings_make_polygons() {
    let rings = "M10 10C10 0 90 0 90 10V90H10Z M30 30C40 20 60 20 70 30V70H30Z M45 45h10v10h-10z";
    let nested = drawn(&format!("<path fill-rule=\"evenodd\" d=\"{rings}\"/>"));
    let turned = nested.whole.nonzero().unwrap();
    let is_curve = |element: &kurbo::PathEl| matches!(element, kurbo::PathEl::CurveTo(..));
    assert_eq!(
        turned
            .elements()
            .iter()
            .filter(|element| is_curve(element))
            .count(),
        2
    );
    assert!((turned.area().abs() - area(&nested)).abs() < 0.05);
    let star = drawn("<path fill-rule=\"evenodd\" d=\"M50 8L76 90 8 38h84L24 90z\"/>");
    let resolved = star.whole.nonzero().unwrap();
    assert!((resolved.area().abs() - area(&star)).abs() < 0.05);
    assert!(resolved.elements().len() > star.whole.path.elements().len());
}

#[test]
fn white_covers_without_printing_and_colours_cover_each_other() {
    let drawing = drawn(
        "<rect width=\"100\" height=\"100\" fill=\"white\"/>\
         <rect x=\"10\" y=\"10\" width=\"50\" height=\"50\" fill=\"#a01020\"/>\
         <rect x=\"30\" y=\"30\" width=\"50\" height=\"50\" fill=\"#102060\"/>\
         <rect x=\"40\" y=\"40\" width=\"10\" height=\"10\" fill=\"#fff\"/>",
    );
    assert!((area(&drawing) - (2500.0 + 2500.0 - 900.0 - 100.0)).abs() < 0.1);
    let names: Vec<&str> = drawing
        .layers
        .iter()
        .map(|layer| layer.name.as_str())
        .collect();
    assert_eq!(names, ["#a01020", "#102060"]);
    let of = |name| drawing.part(Some(name)).unwrap().path.area().abs();
    assert!((of("#a01020") - 1600.0).abs() < 0.1);
    assert!((of("#102060") - 2400.0).abs() < 0.1);
    assert!(drawing.part(Some("#ffffff")).is_none());
}

#[test]
fn strokes_have_caps_joins_and_the_transform_of_their_place() {
    let stroke = "fill=\"none\" stroke=\"black\" stroke-width=\"4\"";
    let butt = drawn(&format!("<path d=\"M20 50H80\" {stroke}/>"));
    assert!((area(&butt) - 240.0).abs() < 0.05);
    let square = drawn(&format!(
        "<path d=\"M20 50H80\" stroke-linecap=\"square\" {stroke}/>"
    ));
    assert!((area(&square) - 256.0).abs() < 0.05);
    let round = drawn(&format!(
        "<path d=\"M20 50H80\" stroke-linecap=\"round\" {stroke}/>"
    ));
    assert!((area(&round) - 240.0 - std::f64::consts::PI * 4.0).abs() < 0.05);
    // A mitre at a right angle fills a square of half the width a side; a bevel half of it.
    let corner = |join: &str| {
        area(&drawn(&format!(
            "<path d=\"M20 20H60V60\" stroke-linejoin=\"{join}\" {stroke}/>"
        )))
    };
    assert!((corner("miter") - corner("bevel") - 2.0).abs() < 0.01);
    // Uneven scaling scales the pen.
    let wide = drawn(&format!(
        "<g transform=\"scale(1 2)\"><path d=\"M20 25H80\" {stroke}/></g>"
    ));
    assert!((area(&wide) - 480.0).abs() < 0.1);
    let dashed = drawn(&format!(
        "<path d=\"M20 50H80\" stroke-dasharray=\"5 5\" {stroke}/>"
    ));
    assert!((area(&dashed) - 120.0).abs() < 0.1);
}

#[test]
fn clips_cut_and_use_draws_again() {
    let clipped = drawn(
        "<clipPath id=\"c\"><circle cx=\"50\" cy=\"50\" r=\"10\"/></clipPath>\
         <rect width=\"50\" height=\"100\" clip-path=\"url(#c)\"/>",
    );
    assert!((area(&clipped) - std::f64::consts::PI * 50.0).abs() < 0.2);
    let used = drawn(
        "<defs><rect id=\"r\" width=\"10\" height=\"10\"/></defs>\
         <use href=\"#r\" x=\"10\" y=\"10\"/><use href=\"#r\" transform=\"translate(50 50) scale(2)\"/>",
    );
    assert!((area(&used) - 500.0).abs() < 0.05);
}

#[test]
fn the_page_cuts_off_what_lies_beyond_it() {
    let drawing = drawn("<rect x=\"-50\" y=\"10\" width=\"100\" height=\"10\"/>");
    assert!((area(&drawing) - 500.0).abs() < 0.05);
    assert!(
        drawing
            .notes
            .iter()
            .any(|note| note.contains("beyond the edge"))
    );
}

#[test]
fn what_cannot_be_cut_is_refused_by_name() {
    assert!(refused("<text x=\"5\" y=\"5\">Grand opening</text>").contains("“Grand opening”"));
    assert!(
        refused("<image href=\"a.png\" width=\"5\" height=\"5\"/>").contains("picture of dots")
    );
    let shaded = "<linearGradient id=\"g\"><stop offset=\"0\"/><stop offset=\"1\" stop-color=\"red\"/></linearGradient>\
                  <rect id=\"sky\" width=\"50\" height=\"50\" fill=\"url(#g)\"/>";
    let said = refused(shaded);
    assert!(
        said.contains("shades from colour to colour") && said.contains("“sky”"),
        "{said}"
    );
    let mask = "<mask id=\"m\"><rect width=\"9\" height=\"9\" fill=\"white\"/></mask><rect width=\"50\" height=\"50\" mask=\"url(#m)\"/>";
    assert!(refused(mask).contains("mask"));
    assert!(
        refused("<rect width=\"50\" height=\"50\" fill=\"white\"/>")
            .contains("nothing that prints")
    );
    assert!(refused("").contains("nothing that prints"));
    assert!(
        read(b"<svg")
            .unwrap_err()
            .to_string()
            .contains("cannot be read")
    );
    // Text that no viewer shows does no harm.
    let hidden =
        drawn("<text display=\"none\">x</text><title>t</title><rect width=\"9\" height=\"9\"/>");
    assert!((area(&hidden) - 81.0).abs() < 0.01);
}

#[test]
fn nesting_and_repeated_use_have_limits() {
    let deep = format!(
        "{}<rect width=\"9\" height=\"9\"/>{}",
        "<g>".repeat(50_000),
        "</g>".repeat(50_000)
    );
    assert!(refused(&deep).contains("nested more than"));
    // Ten levels of ten copies: ten thousand million rectangles.
    let mut bomb = "<defs><rect id=\"u0\" width=\"1\" height=\"1\"/>".to_owned();
    for level in 1..=10 {
        let uses = format!("<use href=\"#u{}\"/>", level - 1).repeat(10);
        bomb += &format!("<g id=\"u{level}\">{uses}</g>");
    }
    bomb += "</defs><use href=\"#u10\"/>";
    let file = svg("width=\"10\" height=\"10\"", &bomb);
    assert!(read(file.as_bytes()).is_err());
}

#[test]
fn what_is_written_reads_as_the_same() {
    let drawing = drawn(
        "<path fill-rule=\"evenodd\" d=\"M10 10H90V90H10Z M30 30C40 20 60 20 70 30V70H30Z\"/>",
    );
    let page = Rect::new(0.0, 0.0, 100.0, 100.0);
    let file = write(&drawing.whole, page, "a < b & c");
    let again = read(file.as_bytes()).unwrap();
    assert!((area(&again) - area(&drawing)).abs() < 0.01);
    assert_eq!(again.page.unwrap().width.round(), 100.0);
    assert_eq!(again.whole.rule, FillRule::EvenOdd);
}
