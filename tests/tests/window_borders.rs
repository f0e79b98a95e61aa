//! Borders and what is cut apart, in the window: a drawing is cut at lines, its parts are set round a frame, saved, and taken back.

use egui_kittest::kittest::Queryable;
use testkit::window::{begun, choose, commission, fill_in, press, settle, window_of};

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
