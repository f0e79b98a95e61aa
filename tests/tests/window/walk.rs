//! A walk through all rooms and everything that lies over them: by day and by night, at four sizes, in three languages.
//!
//! Every frame is drawn; nothing panics, every control has a name for assistive technology, none lies outside the window, and no two that can
//! be pressed lie on each other. Every action of the list is done in every room, and a window at rest asks for no frame.

use std::collections::BTreeSet;
use std::time::Duration;

use egui::accesskit::{Role, Toggled};
use egui::{Key, Modifiers, Rect};
use egui_kittest::kittest::NodeT;

use sortwright::files::home::Home;
use sortwright::model::selection::Room;
use sortwright::model::settings::Language;
use testkit::window::{
    ROOM_KEYS, Window, begun, click, find, settle, strike, take_picture, window_at_home, window_of,
};

/// How much of one control may lie on another, px: frames that touch.
const TOUCH: f32 = 2.5;

/// What can be pressed or filled in.
const CONTROLS: [Role; 8] = [
    Role::Button,
    Role::CheckBox,
    Role::ComboBox,
    Role::RadioButton,
    Role::Slider,
    Role::SpinButton,
    Role::TextInput,
    Role::Link,
];

/// The size of a screen, px, and how large everything is shown on it.
const SIZES: [([f32; 2], usize); 4] = [
    ([1280.0, 800.0], 0),
    ([1920.0, 1080.0], 0),
    // Four steps up from the usual size: 200 %.
    ([1920.0, 1080.0], 4),
    ([1280.0, 800.0], 4),
];

fn demo() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../demo-projects/ferry-notice/commission.json")
}

/// A control that is shown.
struct Control {
    name: String,
    rect: Rect,
    /// What it stands in.
    parent: String,
}

fn controls(harness: &Window) -> Vec<Control> {
    let root = harness.root();
    let nodes = root.children_recursive().filter(|node| {
        let node = node.accesskit_node();
        CONTROLS.contains(&node.role()) && !node.is_hidden()
    });
    nodes
        .map(|node| {
            let one = node.accesskit_node();
            Control {
                name: one.label().or(one.value()).unwrap_or_default(),
                rect: node.rect(),
                parent: one
                    .parent()
                    .map_or(String::new(), |node| format!("{:?}", node.id())),
            }
        })
        .collect()
}

/// Looks at what is shown: `place` says where that is, for a complaint.
fn look(harness: &mut Window, place: &str, complaints: &mut Vec<String>) {
    take_picture(harness, place);
    let screen = harness.ctx.content_rect();
    for nameless in harness.unnamed_widgets() {
        complaints.push(format!("{place}: without a name: {nameless}"));
    }
    let shown = controls(harness);
    // What is out of sight can be scrolled to if there is a bar for it that is itself in sight.
    let root = harness.root();
    let bars: Vec<Rect> = root
        .children_recursive()
        .filter(|node| node.accesskit_node().role() == Role::ScrollBar)
        .map(|node| node.rect())
        .filter(|bar| screen.expand(TOUCH).contains_rect(*bar))
        .collect();
    let scrolls = bars.iter().any(|bar| bar.height() >= bar.width());
    let scrolls_across = bars.iter().any(|bar| bar.width() > bar.height());
    assert!(shown.len() > 3, "{place}: hardly any controls");
    for (number, one) in shown.iter().enumerate() {
        let (rect, name) = (one.rect, &one.name);
        let across = rect.left() < screen.left() - TOUCH || rect.right() > screen.right() + TOUCH;
        let along = rect.top() < screen.top() - TOUCH || rect.bottom() > screen.bottom() + TOUCH;
        if (across && !scrolls_across) || (along && !scrolls) {
            complaints.push(format!(
                "{place}: “{name}” is cut off: {rect:?} of {screen:?}"
            ));
        }
        for other in &shown[..number] {
            let both = rect.intersect(other.rect);
            let lies_on = both.width() > TOUCH && both.height() > TOUCH;
            let within = rect.contains_rect(other.rect) || other.rect.contains_rect(rect);
            if one.parent == other.parent && lies_on && !within {
                let other = &other.name;
                complaints.push(format!("{place}: “{name}” lies on “{other}”"));
            }
        }
    }
}

fn walk(size: [f32; 2], larger: usize, paper: &str) {
    let mut complaints = Vec::new();
    let mut harness = window_of(size, Some(&demo()), None);
    for _ in 0..larger {
        find(&mut harness, "everything larger");
    }
    find(&mut harness, &format!("paper by {paper}"));
    let [width, height] = size;
    let named = |what: &str| format!("{what} {paper} {width} by {height}, {larger} larger");
    for (room, key) in Room::ALL.into_iter().zip(ROOM_KEYS) {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
        settle(&mut harness);
        assert!(harness.state().is_in(room), "{room:?}");
        look(&mut harness, &named(&format!("{room:?}")), &mut complaints);
    }
    for (over, key) in [
        ("settings", Key::F4),
        ("keys", Key::F1),
        ("actions", Key::F2),
    ] {
        strike(&mut harness, key);
        look(&mut harness, &named(over), &mut complaints);
        strike(&mut harness, Key::Escape);
    }
    click(&mut harness, "Export…");
    look(&mut harness, &named("export"), &mut complaints);
    let complaints: BTreeSet<String> = complaints.into_iter().collect();
    let text: Vec<String> = complaints.into_iter().collect();
    assert!(text.is_empty(), "\n{}", text.join("\n"));
}

#[test]
fn everything_shows_by_day() {
    for (size, larger) in SIZES {
        walk(size, larger, "day");
    }
}

#[test]
fn everything_shows_by_night() {
    for (size, larger) in SIZES {
        walk(size, larger, "night");
    }
}

#[test]
fn every_room_shows_in_french_and_german() {
    for language in [Language::French, Language::German] {
        let place = tempfile::tempdir().expect("a temporary folder");
        let home = Home::at(place.path());
        let mut settings = home.settings().expect("none yet");
        settings.welcomed = true;
        settings.language = language;
        home.keep_settings(&settings).expect("kept");
        let mut harness = window_at_home(place.path(), Some(&demo()));
        let mut complaints = Vec::new();
        for (room, key) in Room::ALL.into_iter().zip(ROOM_KEYS) {
            harness.key_press_modifiers(Modifiers::COMMAND, key);
            settle(&mut harness);
            let named = format!("{room:?} in {language:?}");
            look(&mut harness, &named, &mut complaints);
        }
        assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
    }
}

/// Actions that ask the system for a file, or that end or leave what is open; other tests do them.
const ELSEWHERE: [&str; 3] = ["To the start", "Close the window", "Show the demonstration"];

/// The action that is chosen on the open list.
fn chosen(harness: &Window) -> String {
    let root = harness.root();
    let chosen = root.children_recursive().filter_map(|node| {
        let node = node.accesskit_node();
        let is_chosen = node.toggled() == Some(Toggled::True);
        node.label().filter(|_| is_chosen)
    });
    // The rooms' own choices lie below the list, and come before it.
    chosen.last().unwrap_or_default()
}

/// All actions of the list, in its order, but those that are done elsewhere.
fn actions(harness: &mut Window) -> Vec<String> {
    strike(harness, Key::F2);
    let mut names: Vec<String> = Vec::new();
    // The list ends where an arrow leads no further.
    while names.last() != Some(&chosen(harness)) {
        names.push(chosen(harness));
        strike(harness, Key::ArrowDown);
    }
    strike(harness, Key::Escape);
    names.retain(|name| {
        let asks = name.ends_with('…') && !name.starts_with("Settings");
        !asks && !ELSEWHERE.contains(&name.as_str())
    });
    names
}

#[test]
fn every_action_is_done_or_says_why_not_in_every_room() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let mut harness = window_of([1280.0, 800.0], Some(&order), None);
    let names = actions(&mut harness);
    assert!(names.len() > 25, "{names:?}");
    for (room, key) in Room::ALL.into_iter().zip(ROOM_KEYS) {
        for name in &names {
            harness.key_press_modifiers(Modifiers::COMMAND, key);
            harness.run_steps(1);
            find(&mut harness, name);
            let nameless = harness.unnamed_widgets();
            assert!(nameless.is_empty(), "{room:?}, {name}: {nameless:?}");
            strike(&mut harness, Key::Escape);
        }
        settle(&mut harness);
        find(&mut harness, "usual size");
    }
}

#[test]
fn a_window_at_rest_asks_for_no_frame() {
    let mut harness = window_of([1280.0, 800.0], Some(&demo()), None);
    for (room, key) in Room::ALL.into_iter().zip(ROOM_KEYS) {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
        settle(&mut harness);
        // What fades in or out has done so.
        harness.run_steps(40);
        let next = harness.output().viewport_output.values();
        let soonest = next.map(|output| output.repaint_delay).min();
        assert_eq!(soonest, Some(Duration::MAX), "{room:?}");
    }
}
