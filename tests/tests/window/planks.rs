//! Blocks moved and pinned in the plank room, by pointer and by keys; what is shown at once is what is then made.

use std::fs;

use egui::{Key, Modifiers, Pos2, pos2};
use egui_kittest::kittest::Queryable;

use cam_core::commission::Pin;
use testkit::window::{Window, button, document, point_at, settle, window};

/// Pixels kept free around what is fitted, as the sheet does.
const FIT_MARGIN: f32 = 36.0;
const PLANK_MM: [f32; 2] = [300.0, 150.0];

/// Two plain blocks of 60 mm by ten lines.
const COMMISSION: &str = r#"{
  "format": "sortwright-commission", "version": 1, "title": "Quoins", "lines": 10,
  "spaces": [{ "set": "60 mm", "count": 2 }],
  "planks": { "width": "300 mm", "length": "150 mm", "lane": "4 mm", "separation": { "by": "saw" } }
}"#;

fn pins(harness: &Window) -> Vec<Pin> {
    document(harness).commission().planks.pins.clone()
}

/// Where a place of the only plank lies on the screen while everything is fitted.
fn on_screen(harness: &Window, x_mm: f32, y_mm: f32) -> Pos2 {
    let sheet = harness.get_by_label("All planks").rect();
    let room = sheet.shrink(FIT_MARGIN);
    let scale = (room.width() / PLANK_MM[0]).min(room.height() / PLANK_MM[1]);
    let middle = sheet.center();
    pos2(
        middle.x + (x_mm - PLANK_MM[0] / 2.0) * scale,
        middle.y - (y_mm - PLANK_MM[1] / 2.0) * scale,
    )
}

#[test]
fn a_block_is_dragged_nudged_pinned_and_let_go() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = place.path().join("quoins.json");
    fs::write(&file, COMMISSION).expect("written");
    let mut harness = window(Some(&file));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num5);
    harness.run_steps(3);
    let shown = "1 plank; no layout takes fewer";
    assert!(harness.query_by_label(shown).is_some(), "{shown}");

    // The first block lies in the lower left corner of the room, 8 mm from the edges.
    let block = on_screen(&harness, 38.0, 29.0);
    point_at(&mut harness, block);
    button(&mut harness, block, true);
    button(&mut harness, block, false);
    harness.run_steps(3);
    assert!(pins(&harness).is_empty(), "a click alone moves nothing");

    let target = on_screen(&harness, 200.0, 110.0);
    point_at(&mut harness, block);
    button(&mut harness, block, true);
    for part in [0.1, 0.4, 0.8, 1.0] {
        point_at(&mut harness, block + (target - block) * part);
    }
    button(&mut harness, target, false);
    harness.run_steps(3);
    let dragged = pins(&harness);
    assert_eq!(dragged.len(), 1, "{dragged:?}");
    assert_eq!(dragged[0].plank, "plank-1");
    let (x, y) = (dragged[0].x.in_mm(), dragged[0].y.in_mm());
    // The middle went from 38, 29 to 200, 110; the pointer grips where it was pressed.
    assert!((x - 170.0).abs() < 3.5 && (y - 89.0).abs() < 3.5, "{x} {y}");

    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
    harness.run_steps(3);
    assert!((pins(&harness)[0].x.in_mm() - x - 1.0).abs() < 1e-6);
    settle(&mut harness);

    harness.key_press(Key::P);
    harness.run_steps(3);
    assert!(pins(&harness).is_empty(), "P takes the pin out");
    harness.state_mut().undo();
    harness.run_steps(3);
    assert_eq!(pins(&harness).len(), 1);
    harness.get_by_label("Take out").click();
    harness.run_steps(3);
    assert!(pins(&harness).is_empty());
}
