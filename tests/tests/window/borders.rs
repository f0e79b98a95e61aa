//! Borders and what is cut apart, in the window: a drawing is cut at lines, its parts are set round a frame, saved, and taken back; lines are drawn on
//! a letter; a frame is shown in ink with the verdicts on its joins.

use std::fs;

use cam_core::commission::LineWay;
use egui::{Pos2, vec2};
use egui_kittest::kittest::Queryable;
use sortwright::commands::Outcome;
use testkit::window::{
    Window, begun, button, choose, click, command, commission, fill_in, point_at, press, says,
    settle, take_picture, window, window_of,
};

/// A rule and a dot that go on over an edge, on a square of 24 points.
const UNIT: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="8.4667mm" height="8.4667mm" viewBox="0 0 24 24">
<path d="M0 0H24V6H6V24H0Z"/></svg>"##;

#[test]
fn a_drawing_is_cut_apart_and_set_round_a_frame() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let file = place.path().join("corner.svg");
    std::fs::write(&file, UNIT).expect("written");
    let mut window = window_of([1280.0, 2600.0], Some(&order), None);
    window.state_mut().name_file(file);
    settle(&mut window);
    // The list names it as the form above does.
    press(&mut window, "Cut a sort apart");
    let named = window.get_all_by_label("corner").count();
    for place in 0..named {
        if !commission(&window).cut_apart.is_empty() {
            break;
        }
        if place > 0 {
            press(&mut window, "Cut a sort apart");
        }
        if let Some(node) = window.get_all_by_label("corner").nth(place) {
            node.click_accesskit();
        }
        window.run_steps(3);
    }
    press(&mut window, "Cut apart: corner");
    window.run_steps(20);
    fill_in(&mut window, "Upright lines at", "12 pt");
    fill_in(&mut window, "Level lines at", "12 pt");
    fill_in(&mut window, "Of each part", "4 6 4 0");
    let cut = commission(&window).cut_apart.remove(0);
    assert_eq!((cut.lines.len(), cut.counts), (2, Some(vec![4, 6, 4, 0])));
    settle(&mut window);
    press(&mut window, "Set a border");
    press(&mut window, "Borders: border-1");
    window.run_steps(20);
    fill_in(&mut window, "Corner pieces", "corner part 1");
    fill_in(&mut window, "Running pieces", "corner part 2");
    fill_in(&mut window, "Frame, wide", "10 picas");
    choose(&mut window, "Measured", "as the room inside");
    fill_in(&mut window, "Frames at once", "2");
    let border = commission(&window).borders.remove(0);
    assert_eq!(border.corners, ["corner part 1"]);
    assert_eq!(border.running, ["corner part 2"]);
    assert_eq!(border.count, 2);
    window.state_mut().save();
    settle(&mut window);
    let saved = std::fs::read_to_string(&order).expect("saved");
    assert!(saved.contains("corner part 2") && saved.contains("\"inside\""));

    press(&mut window, "Take the border out");
    assert!(commission(&window).borders.is_empty());
    window.state_mut().undo();
    assert_eq!(commission(&window).borders, [border]);
    press(&mut window, "Leave it whole");
    assert!(commission(&window).cut_apart.is_empty());
    window.state_mut().undo();
    assert_eq!(commission(&window).cut_apart.len(), 1);
}

#[test]
fn middle_pieces_stand_beside_the_lines() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let mut window = window_of([1280.0, 2600.0], Some(&order), None);
    click(&mut window, "Block");
    settle(&mut window);
    click(&mut window, "Cut level");
    settle(&mut window);
    click(&mut window, "Order");
    window.run_steps(3);
    press(&mut window, "Cut apart: L");
    window.run_steps(20);
    press(&mut window, "At 18 pt a middle piece");
    window.run_steps(3);
    fill_in(&mut window, "Its length at 18 pt", "2 picas");
    fill_in(&mut window, "How many at 18 pt", "5");
    let line = commission(&window).cut_apart[0].lines[0];
    let middle = line.middle.expect("a middle piece");
    assert!((middle.length.in_mm() - 24.0 * POINT_MM).abs() < 1e-9);
    assert_eq!(middle.count, 5);
    settle(&mut window);
    // Lines of both ways have none.
    fill_in(&mut window, "Upright lines at", "12 pt");
    window.run_steps(3);
    assert!(says(&window, "Middle pieces need all lines to run one way"));
}

const POINT_MM: f64 = 0.351_459_8;

fn drag(window: &mut Window, from: Pos2, to: Pos2) {
    const STEPS: u8 = 6;
    point_at(window, from);
    point_at(window, from);
    button(window, from, true);
    for step in 1..=STEPS {
        let part = f32::from(step) / f32::from(STEPS);
        point_at(window, from + (to - from) * part);
    }
    button(window, to, false);
    window.run_steps(3);
}

#[test]
fn lines_are_drawn_on_the_letter_and_dragged() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut window = window(Some(&begun(place.path(), "L", "3")));
    click(&mut window, "Block");
    settle(&mut window);
    click(&mut window, "Cut level");
    settle(&mut window);
    let lines = commission(&window).cut_apart[0].lines.clone();
    assert_eq!((lines.len(), lines[0].way), (1, LineWay::Level));
    assert!((lines[0].at.in_mm() - 18.0 * POINT_MM).abs() < 1e-4);
    window.run_steps(3);
    let sheet = window.get_by_label("Block of L, whole").rect();
    // The line lies across the middle of the block, and that in the middle of the sheet.
    drag(
        &mut window,
        sheet.center(),
        sheet.center() - vec2(0.0, 90.0),
    );
    settle(&mut window);
    let moved = commission(&window).cut_apart[0].lines[0].at;
    let points = moved.in_mm() / POINT_MM;
    assert!(points > 20.0 && points < 34.0, "{points}");
    assert!(
        (points * 2.0 - (points * 2.0).round()).abs() < 1e-3,
        "{points}"
    );
    take_picture(&mut window, "block-cut-apart");
    // An upright one beside it; then back to the first alone.
    click(&mut window, "Cut upright");
    settle(&mut window);
    let cut = commission(&window).cut_apart.remove(0);
    assert_eq!(cut.lines.len(), 2);
    window.state_mut().undo();
    settle(&mut window);
    assert_eq!(commission(&window).cut_apart[0].lines.len(), 1);
    window.run_steps(3);
    // Off the block it is gone, and the letter whole again.
    let sheet = window.get_by_label("Block of L, whole").rect();
    let scale = 90.0 / (moved.in_mm() - 18.0 * POINT_MM);
    let line = sheet.center() - vec2(0.0, 90.0);
    let off = (36.0 * POINT_MM - moved.in_mm()) * scale + 30.0;
    drag(&mut window, line, line - vec2(0.0, off as f32));
    settle(&mut window);
    assert!(commission(&window).cut_apart.is_empty());
    assert!(window.query_by_label("Block of L").is_some());
}

/// A rule of six points on a body of 24, a corner that meets it, and one that lies two points lower.
fn rules() -> String {
    let drawing = |id: &str| {
        format!(
            r#"{{ "id": "{id}", "file": "{id}.svg", "extent": "page", "body": "24 pt", "set": "{}", "side": 0, "permission": {{ "by": "the shop" }} }}"#,
            if id == "rule" { "48 pt" } else { "24 pt" }
        )
    };
    let border = |id: &str, corner: &str| {
        format!(
            r#"{{ "id": "{id}", "corners": ["{corner}"], "running": ["rule"], "width": "240 pt", "height": "192 pt" }}"#
        )
    };
    format!(
        r#"{{ "format": "sortwright-commission", "version": 1, "lines": 2,
  "drawings": [{}, {}, {}],
  "bill": [{{ "drawing": "knot", "count": 4 }}, {{ "drawing": "low", "count": 4 }}, {{ "drawing": "rule", "count": 28 }}],
  "planks": {{ "separation": {{ "by": "router", "cutter": "flat-6-long", "tabs": {{ "width": "3 mm", "height": "2 mm" }} }} }},
  "borders": [{}, {}] }}"#,
        drawing("knot"),
        drawing("low"),
        drawing("rule"),
        border("even", "knot"),
        border("uneven", "low"),
    )
}

#[test]
fn a_frame_is_shown_in_ink_with_a_verdict_on_every_join() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let folder = place.path();
    for (id, width, path) in [
        ("knot", 24.0, "M8 8H24V14H14V24H8Z"),
        ("low", 24.0, "M10 10H24V16H16V24H10Z"),
        ("rule", 48.0, "M0 8H48V14H0Z"),
    ] {
        let mm = |points: f64| points * POINT_MM;
        let svg = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="{}mm" height="{}mm" viewBox="0 0 {width} 24"><path d="{path}"/></svg>"#,
            mm(width),
            mm(24.0)
        );
        fs::write(folder.join(format!("{id}.svg")), svg).expect("written");
    }
    let order = folder.join("order.json");
    fs::write(&order, rules()).expect("written");
    let mut window = window(Some(&order));
    click(&mut window, "Proof");
    settle(&mut window);
    choose(&mut window, "Shown", "border even");
    window.run_steps(3);
    assert!(says(&window, "All 18 joins meet, as cut"));
    assert!(says(&window, "Head: filled exactly by 4"));
    choose(&mut window, "Shown", "border uneven");
    window.run_steps(3);
    // Eight of them are beside a corner.
    assert!(says(&window, "8 of 18 joins do not meet, as cut"));
    assert!(says(&window, "two edges lie 0.7 mm apart"));
    take_picture(&mut window, "proof-frame");
    let saved = folder.join("by-window.svg");
    window.state_mut().save_picture(saved.clone());
    settle(&mut window);
    let words = [
        "border",
        "./order.json",
        "--border",
        "uneven",
        "--out",
        "./by-command.svg",
    ];
    assert_eq!(command(folder, &words), Outcome::Done);
    let read = |name: &str| fs::read(folder.join(name)).expect("saved");
    assert_eq!(read("by-window.svg"), read("by-command.svg"));
    choose(&mut window, "Shown", "lines of text");
    window.run_steps(3);
    assert!(!says(&window, "joins do not meet") && says(&window, "Lines to set"));
}
