//! Everything by the keyboard: the list of actions, the sheet of keys, menus; settings that are kept, in three languages.

use egui::Key;
use egui_kittest::kittest::Queryable;

use sortwright::files::home::Home;
use sortwright::model::selection::Room;
use sortwright::model::settings::{Language, Paper};
use testkit::window::{click, find, font, says, settle, strike, window, window_at_home};

#[test]
fn actions_are_found_by_letters_and_done_with_enter() {
    let mut harness = window(Some(&font()));
    find(&mut harness, "room plank");
    assert!(harness.state().is_in(Room::Plank));
    find(&mut harness, "by night");
    assert_eq!(harness.state().settings().paper, Paper::Night);
    find(&mut harness, "larger");
    find(&mut harness, "larger");
    assert_eq!(harness.state().settings().scale, 150);
    // Nothing was changed, so undoing is refused with the reason.
    find(&mut harness, "undo");
    assert_eq!(harness.state().notice(), Some("Nothing was changed."));
    strike(&mut harness, Key::F2);
    assert!(says(&harness, "What do you want to do?"));
    strike(&mut harness, Key::Escape);
    assert!(!says(&harness, "What do you want to do?"));
}

#[test]
fn arrow_keys_choose_among_the_actions_found() {
    let mut harness = window(Some(&font()));
    strike(&mut harness, Key::F2);
    harness
        .get_by_label("What do you want to do?")
        .type_text("to room");
    harness.run_steps(3);
    strike(&mut harness, Key::ArrowDown);
    strike(&mut harness, Key::ArrowDown);
    strike(&mut harness, Key::ArrowUp);
    strike(&mut harness, Key::Enter);
    assert!(harness.state().is_in(Room::ALL[1]));
}

#[test]
fn the_sheet_of_keys_tells_the_keys_of_actions_and_drawings() {
    let mut harness = window(None);
    strike(&mut harness, Key::F1);
    for words in [
        "Sheet of keys",
        "Ctrl+Shift+Z",
        "Ctrl+8",
        "Next sort",
        "Show all of it",
        "Pin the block, or free it",
    ] {
        assert!(says(&harness, words), "{words}");
    }
}

#[test]
fn the_menu_holds_the_actions_in_groups() {
    let mut harness = window(Some(&font()));
    click(&mut harness, "Menu");
    harness.get_by_label("Look").hover();
    harness.run_steps(6);
    // The keys stand on the entry as well.
    harness.get_by_label_contains("To room Case").click();
    harness.run_steps(3);
    assert!(harness.state().is_in(Room::Case));
}

#[test]
fn settings_are_kept_and_the_next_window_has_them() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let home = Home::at(place.path());
    let mut harness = window_at_home(place.path(), Some(&font()));
    for (language, room, export) in [
        ("Français", "Commande", "Exporter…"),
        ("Deutsch", "Auftrag", "Ausgeben…"),
    ] {
        strike(&mut harness, Key::F4);
        let label = match harness.state().settings().language {
            Language::English => "Language",
            Language::French => "Langue",
            Language::German => "Sprache",
        };
        click(&mut harness, label);
        click(&mut harness, language);
        strike(&mut harness, Key::Escape);
        strike(&mut harness, Key::Escape);
        settle(&mut harness);
        for words in [room, export] {
            let shown = harness.query_all_by_label(words).count();
            assert!(shown > 0, "{words} in {language}");
        }
    }
    drop(harness);
    assert_eq!(
        home.settings().map(|settings| settings.language),
        Ok(Language::German)
    );
    let harness = window_at_home(place.path(), Some(&font()));
    assert!(harness.query_by_label("Werkbank").is_some());
}
