//! What was found stands beside what it speaks of and in one list, leads there, and is remedied by one press where that needs no decision.

use std::fs;
use std::path::Path;

use cam_core::commission::{Commission, GlyphChoice};
use cam_core::format::{read_commission, write_commission};
use egui_kittest::kittest::{NodeT, Queryable};

use sortwright::files::home::Home;
use sortwright::model::selection::Room;
use sortwright::model::settings::Language;
use testkit::window::{
    ROOM_KEYS, Window, begun, click, commission, find, says, settle, take_picture, window,
    window_at_home,
};

/// A window with an order of a letter in it, changed before it is opened.
fn opened(place: &Path, text: &str, change: impl FnOnce(&mut Commission)) -> Window {
    let file = begun(place, text, "5");
    let written = fs::read_to_string(&file).expect("it was begun");
    let mut order = read_commission(&written).expect("a commission");
    change(&mut order);
    fs::write(&file, write_commission(&order)).expect("written");
    let mut window = window(Some(&file));
    settle(&mut window);
    window
}

/// Presses the first of those that have this label.
fn press_first(window: &mut Window, label: &str) {
    let first = window.query_all_by_label(label).next();
    first
        .unwrap_or_else(|| panic!("{label} is not offered"))
        .click_accesskit();
    window.run_steps(3);
    settle(window);
}

#[test]
fn a_letter_that_the_font_lacks_is_taken_off_the_bill() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut window = opened(place.path(), "L", |order| {
        let mut line = order.bill[0].clone();
        line.glyph = GlyphChoice::Character {
            character: 'Ж',
            features: Vec::new(),
        };
        order.bill.push(line);
    });
    assert_eq!(commission(&window).bill.len(), 2);
    press_first(&mut window, "Take it off the bill");
    assert_eq!(commission(&window).bill.len(), 1);
    assert!(!says(&window, "Take it off the bill"));
    find(&mut window, "undo");
    settle(&mut window);
    assert_eq!(commission(&window).bill.len(), 2);
}

#[test]
fn a_smaller_cutter_is_taken_where_ground_is_too_narrow() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut window = opened(place.path(), "A", |order| {
        order.cutting.cutters = vec!["flat-6".to_owned()];
    });
    // Beside the sort in the lists and drawings, and in the list of the order.
    find(&mut window, "to room block");
    settle(&mut window);
    assert!(says(&window, "Sort A, 1 ordered; Warning"));
    take_picture(&mut window, "findings beside a block");
    press_first(&mut window, "Take the cutter flat-3");
    assert_eq!(commission(&window).cutting.cutters, ["flat-6", "flat-3"]);
    find(&mut window, "to room plank");
    settle(&mut window);
    take_picture(&mut window, "findings on the plank");
}

#[test]
fn the_foot_leads_to_the_list_and_the_list_to_where_a_permission_is_recorded() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut window = opened(place.path(), "L", |_| {});
    find(&mut window, "to room cut");
    settle(&mut window);
    let count = window.query_all_by_label_contains("warning").next();
    let count = count.and_then(|node| node.accesskit_node().label());
    click(&mut window, &count.expect("at least the permission"));
    settle(&mut window);
    assert!(window.state().is_in(Room::Order));
    take_picture(&mut window, "the list of findings");
    press_first(&mut window, "Record the permission…");
    window.event(egui::Event::Text("Marten Oake, by letter".to_owned()));
    window.run_steps(2);
    window.key_press(egui::Key::Enter);
    window.run_steps(3);
    settle(&mut window);
    let order = commission(&window);
    assert_eq!(order.faces[0].permission.by, "Marten Oake, by letter");
    assert!(!says(&window, "Record the permission…"));
}

/// All that is read out: names of controls, and texts.
fn labels(window: &Window) -> Vec<String> {
    let nodes = window.root().children_recursive();
    let read = nodes.flat_map(|node| {
        let node = node.accesskit_node();
        [node.label(), node.value()]
    });
    read.flatten().collect()
}

/// What the window says at first of a demonstration, in the list of findings.
fn told_of_the_demonstration(language: Language) -> Vec<String> {
    let place = tempfile::tempdir().expect("a temporary folder");
    let home = Home::at(place.path());
    let mut settings = home.settings().expect("none yet");
    settings.welcomed = true;
    settings.language = language;
    home.keep_settings(&settings).expect("kept");
    let demo =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-projects/ferry-notice/commission.json");
    let mut window = window_at_home(place.path(), Some(&demo));
    window.key_press_modifiers(egui::Modifiers::COMMAND, ROOM_KEYS[0]);
    settle(&mut window);
    take_picture(&mut window, &format!("findings in {language:?}"));
    labels(&window)
}

#[test]
fn findings_are_said_in_the_language_of_the_window() {
    // How much rounder corners may stay is 0.2 mm where the commission says nothing.
    for (language, corners, knife) in [
        (
            Language::English,
            "stay rounder than 0.2 mm after the smallest cutter",
            "Cut them out with a knife",
        ),
        (
            Language::French,
            "restent arrondis de plus de 0,2 mm après la plus petite fraise",
            "Les dégager au couteau",
        ),
        (
            Language::German,
            "um mehr als 0,2 mm rund",
            "Sie mit dem Messer ausschneiden",
        ),
    ] {
        let told = told_of_the_demonstration(language);
        let says = |words: &str| told.iter().any(|label| label.contains(words));
        assert!(says(corners) && says(knife), "{language:?}: {told:#?}");
        if language != Language::English {
            assert!(!says("smallest cutter"), "{language:?}: {told:#?}");
        }
    }
}
