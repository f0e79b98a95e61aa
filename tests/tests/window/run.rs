//! The course of the programs in the room Run: any moment is reached with the slider, told by the clock and shown in the text.

use egui::accesskit::Role;
use egui::{Key, Modifiers, Pos2, Rect};
use egui_kittest::kittest::{NodeT, Queryable};

use testkit::window::{Window, begun, button, click, point_at, settle, until_shown, window_of};

/// The clock: this moment and the whole.
fn clock(harness: &Window) -> (Rect, String) {
    let root = harness.root();
    let mut told = root.children_recursive().filter_map(|node| {
        let words = node.accesskit_node().value()?;
        let is_clock = words.contains(" of ") && words.matches(':').count() == 4;
        is_clock.then_some((node.rect(), words))
    });
    told.next().expect("a clock under the plank")
}

fn slider(harness: &Window) -> Rect {
    harness.get_by_role_and_label(Role::Slider, "Moment").rect()
}

fn press_at(harness: &mut Window, at: Pos2) {
    point_at(harness, at);
    for pressed in [true, false] {
        button(harness, at, pressed);
    }
    settle(harness);
}

#[test]
fn any_moment_is_reached_and_the_clock_stands_beside_its_slider() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    for size in [[1280.0, 800.0], [1920.0, 1080.0]] {
        let mut harness = window_of(size, Some(&order), None);
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Num6);
        settle(&mut harness);
        until_shown(&mut harness, "Play");
        let (stands, begins) = clock(&harness);
        let moment = slider(&harness);
        let side = harness.get_by_label("A finished block").rect();
        assert!(begins.starts_with("0:00:00 of "), "{begins}");
        assert!(moment.width() > 200.0, "{moment:?}");
        assert!(moment.right() <= stands.left(), "{moment:?}, {stands:?}");
        assert!(stands.right() < side.left(), "{stands:?}, {side:?}");
        let apart = (moment.center().y - stands.center().y).abs();
        assert!(apart < moment.height() / 2.0, "{moment:?}, {stands:?}");

        press_at(&mut harness, moment.center());
        let (_, middle) = clock(&harness);
        assert_ne!(middle, begins);
        for step in ["Move on", "Move back"] {
            click(&mut harness, step);
        }
        press_at(&mut harness, moment.right_center() - egui::vec2(1.0, 0.0));
        let (_, ends) = clock(&harness);
        let (at, whole) = ends.split_once(" of ").expect("both times");
        assert_eq!(at, whole);
    }
}
