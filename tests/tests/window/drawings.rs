//! Drawings in the window: an SVG named, sized and taken back; a scan traced, kept as an SVG file, and cut as one sort.

use std::io::Cursor;
use std::path::Path;

use cam_core::commission::{DrawingSize, GlyphChoice};
use image::{GrayImage, ImageFormat, Luma};
use testkit::window::{
    Window, begun, choose, click, commission, document, export_to, fill_in, notice, press, says,
    settle, until, window_of,
};

const RING: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="12mm" height="12mm" viewBox="0 0 12 12">
<path fill-rule="evenodd" d="M0 0H12V12H0Z M4 4H8V8H4Z"/></svg>"##;

fn ordered(harness: &Window) -> Vec<(String, u32)> {
    let bill = commission(harness).bill;
    bill.into_iter()
        .filter(|line| line.glyph == GlyphChoice::Drawing)
        .map(|line| (line.face, line.count))
        .collect()
}

/// A page of 600 by 400 dots with a black bar of 300 by 100 on it, 200 dots to the inch as it were.
fn scan() -> Vec<u8> {
    let mut page = GrayImage::from_pixel(600, 400, Luma([235]));
    for y in 150..250 {
        for x in 150..450 {
            page.put_pixel(x, y, Luma([20]));
        }
    }
    let mut bytes = Cursor::new(Vec::new());
    page.write_to(&mut bytes, ImageFormat::Png)
        .expect("written into memory");
    bytes.into_inner()
}

#[test]
fn an_svg_is_named_sized_and_taken_back() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let file = place.path().join("Corner piece.svg");
    std::fs::write(&file, RING).expect("written");
    let mut harness = window_of([1280.0, 1800.0], Some(&order), None);
    harness.state_mut().name_file(file.clone());
    settle(&mut harness);
    assert_eq!(ordered(&harness), [("corner-piece".to_owned(), 1)]);
    press(&mut harness, "corner-piece, 1×");
    harness.run_steps(20);
    choose(&mut harness, "Its size", "by its height");
    fill_in(&mut harness, "High", "1 line + 2 mm");
    let drawing = commission(&harness).drawings.remove(0);
    let DrawingSize::Height(height) = drawing.size else {
        panic!("{drawing:?}");
    };
    assert!((height.in_mm() - (12.0 * 0.3514598 + 2.0)).abs() < 1e-9);
    harness.state_mut().save();
    settle(&mut harness);
    assert_eq!(commission(&harness).drawings[0].file, "Corner piece.svg");
    for _ in 0..3 {
        harness.state_mut().undo();
    }
    assert!(commission(&harness).drawings.is_empty() && ordered(&harness).is_empty());
    harness.state_mut().redo();
    harness.run_steps(3);
    assert!(document(&harness).fonts().contains_key("corner-piece"));

    let broken = place.path().join("broken.svg");
    std::fs::write(&broken, "<svg").expect("written");
    harness.state_mut().name_file(broken);
    settle(&mut harness);
    assert!(
        notice(&harness).contains("broken.svg"),
        "{}",
        notice(&harness)
    );
}

const TWO_COLOURS: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="12mm" height="12mm" viewBox="0 0 12 12">
<path fill="#b01020" d="M0 0H12V12H0Z"/><path fill="#000000" d="M4 4H8V8H4Z"/></svg>"##;

#[test]
fn the_colours_of_a_drawing_are_offered_and_parted_into_plates() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let file = place.path().join("seal.svg");
    std::fs::write(&file, TWO_COLOURS).expect("written");
    let mut harness = window_of([1280.0, 1800.0], Some(&order), None);
    harness.state_mut().name_file(file);
    settle(&mut harness);
    press(&mut harness, "seal, 1×");
    harness.run_steps(20);
    choose(&mut harness, "Colour or layer", "#b01020");
    let layer = commission(&harness).drawings.remove(0).layer;
    assert_eq!(layer.as_deref(), Some("#b01020"));
    settle(&mut harness);
    press(&mut harness, "A plate for each of its colours");
    settle(&mut harness);
    let rules = commission(&harness).colours.expect("colours");
    assert_eq!(rules.drawings, ["seal"]);
    assert!(rules.plates.is_empty(), "the drawing's own");
    let drawing = commission(&harness).drawings.remove(0);
    assert_eq!(drawing.layer, None);
    // Both colours come out, on blocks alike, and the letter beside them is none of it.
    export_to(&mut harness, &place.path().join("made"));
    let job = std::fs::read_to_string(place.path().join("made/job.json")).expect("a job");
    assert!(job.contains("#b01020") && job.contains("#000000"));
}

/// A window that asks how a scan of a bar is to be traced.
fn tracing(place: &Path) -> Window {
    tracing_of(place, &scan())
}

fn tracing_of(place: &Path, page: &[u8]) -> Window {
    let order = begun(place, "L", "3");
    let file = place.join("old bar.png");
    std::fs::write(&file, page).expect("written");
    let mut harness = window_of([1280.0, 900.0], Some(&order), None);
    harness.state_mut().name_file(file);
    settle(&mut harness);
    harness
}

/// Width and height of what a drawing prints, mm.
fn size_of(file: &Path) -> kurbo::Size {
    let kept = std::fs::read(file).expect("the outline is kept");
    let drawn = drawing::read(&kept, &drawing::Reading::default()).expect("a drawing");
    let outline = drawn.part(None).expect("all of it").nonzero();
    kurbo::Shape::bounding_box(&outline.expect("filled")).size()
}

#[test]
fn a_scan_is_traced_by_a_known_measure_and_named() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = tracing(place.path());
    assert!(says(&harness, "Trace a scan"));
    click(&mut harness, "Trace");
    assert!(says(&harness, "Click on two places of the page first."));
    fill_in(&mut harness, "First place", "150 200");
    fill_in(&mut harness, "Second place", "450 200");
    fill_in(&mut harness, "Between them lie", "1 in + 4.6 mm");
    click(&mut harness, "Trace");
    until(&mut harness, "the outline", |window| {
        says(window, "1 closed curves with 4 corners")
    });
    press(&mut harness, "Take it as a drawing");
    settle(&mut harness);
    assert_eq!(ordered(&harness), [("old-bar".to_owned(), 1)]);
    let size = size_of(&place.path().join("old-bar.svg"));
    // Three hundred dots are 30 mm, within half a dot.
    assert!(
        (size.width - 30.0).abs() < 0.05 && (size.height - 10.0).abs() < 0.05,
        "{size:?}"
    );
}

#[test]
fn a_part_of_a_scan_is_chosen_traced_and_the_drawing_taken_back() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = tracing(place.path());
    // The two places as corners of the part: half of the bar.
    fill_in(&mut harness, "First place", "300 300");
    fill_in(&mut harness, "Second place", "100 100");
    press(&mut harness, "Take the two places as its corners");
    harness.run_steps(3);
    fill_in(&mut harness, "First place", "150 200");
    fill_in(&mut harness, "Second place", "450 200");
    fill_in(&mut harness, "Between them lie", "30 mm");
    click(&mut harness, "Trace");
    until(&mut harness, "the outline", |window| {
        says(window, "1 closed curves with")
    });
    press(&mut harness, "Take it as a drawing");
    settle(&mut harness);
    let size = size_of(&place.path().join("old-bar.svg"));
    assert!((size.width - 15.0).abs() < 0.1);
    assert_eq!(ordered(&harness), [("old-bar".to_owned(), 1)]);
    harness.state_mut().undo();
    assert!(commission(&harness).drawings.is_empty() && ordered(&harness).is_empty());
    harness.state_mut().redo();
    assert_eq!(ordered(&harness), [("old-bar".to_owned(), 1)]);
}

/// A page with so many rows of as many dots of ink, 30 dots of the scan apart.
fn dotted(rows: u32) -> Vec<u8> {
    const APART: u32 = 30;
    let page = GrayImage::from_fn(rows * APART, rows * APART, |x, y| {
        let off = |along: u32| f64::from(along % APART) - f64::from(APART) / 2.0;
        // Edges that pass from paper to ink within a dot, as a scanner has them.
        let ink = (11.0 - off(x).hypot(off(y))).clamp(0.0, 1.0);
        Luma([(235.0 - 215.0 * ink).round() as u8])
    });
    let mut bytes = Cursor::new(Vec::new());
    page.write_to(&mut bytes, ImageFormat::Png)
        .expect("written into memory");
    bytes.into_inner()
}

#[test]
fn a_tracing_tells_how_far_it_is_is_stopped_and_taken_back() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = tracing_of(place.path(), &dotted(90));
    fill_in(&mut harness, "First place", "15 15");
    fill_in(&mut harness, "Second place", "315 15");
    fill_in(&mut harness, "Between them lie", "30 mm");
    click(&mut harness, "Trace");
    until(&mut harness, "curves being fitted", |window| {
        says(window, "Fitting curves")
    });
    assert!(says(&harness, "/8100"));
    click(&mut harness, "Stop");
    harness.run_steps(3);
    assert!(!says(&harness, "Fitting curves") && !says(&harness, "closed curves"));
    // A part of it, and then a smaller one; and back to the first.
    fill_in(&mut harness, "Only the part", "0 0 60 60");
    click(&mut harness, "Trace");
    until(&mut harness, "the outline", |window| {
        says(window, "4 closed curves with 0 corners")
    });
    fill_in(&mut harness, "Only the part", "0 0 30 60");
    click(&mut harness, "Trace");
    until(&mut harness, "the other outline", |window| {
        says(window, "2 closed curves with 0 corners")
    });
    click(&mut harness, "Back to the tracing before");
    harness.run_steps(3);
    assert!(says(&harness, "4 closed curves with 0 corners"));
    press(&mut harness, "Take it as a drawing");
    settle(&mut harness);
    let size = size_of(&place.path().join("old-bar.svg"));
    // From rim to rim of discs of 21 dots, 30 apart.
    assert!((size.width - 5.1).abs() < 0.1, "{size:?}");
}
