//! The first minute: a demonstration cut and proofed, three questions, an own font; and what later starts show.

use std::fs;
use std::path::{Path, PathBuf};

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;

use cam_core::measure::System;
use sortwright::files::home::Home;
use sortwright::files::open::open;
use sortwright::model::selection::Room;
use sortwright::model::settings::{Lengths, Points};
use testkit::window::{
    click, commission, drop_on, fill_in, find, font, says, settle, window_at_home,
};

/// A place where the first questions were answered already.
fn lived_in() -> tempfile::TempDir {
    let place = tempfile::tempdir().expect("a temporary folder");
    let home = Home::at(place.path());
    let mut settings = home.settings().expect("none yet");
    settings.welcomed = true;
    home.keep_settings(&settings).expect("kept");
    place
}

#[test]
fn opened_for_the_first_time_it_shows_a_commission_cut_and_proofed() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window_at_home(place.path(), None);
    assert!(says(&harness, "Welcome to Sortwright"));
    assert!(harness.state().is_in(Room::Proof));
    click(&mut harness, "Skip the questions");
    settle(&mut harness);
    assert!(says(&harness, "A demonstration"));
    assert!(says(&harness, "Up to date"), "it is cut");
    assert!(!commission(&harness).bill.is_empty());
    assert_eq!(
        harness
            .query_all_by_label("Start with your own font…")
            .count(),
        1
    );
    // It can be saved anywhere, and opened again from there.
    let file = place.path().join("kept.json");
    harness.state_mut().save_to(&file);
    settle(&mut harness);
    let again = open(&file, None).expect("its font is found");
    assert_eq!(again.commission.title, commission(&harness).title);
    drop(harness);

    let harness = window_at_home(place.path(), None);
    assert!(!says(&harness, "Welcome to Sortwright"));
    assert!(harness.state().document().is_none());
    assert!(says(&harness, "Recent commissions"));
    assert!(says(&harness, "kept.json"));
}

#[test]
fn the_first_answers_are_what_a_new_commission_begins_with() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window_at_home(place.path(), None);
    for (question, answer) in [("Points", "Didot"), ("Lengths", "Inches")] {
        click(&mut harness, question);
        click(&mut harness, answer);
    }
    fill_in(&mut harness, "Travel across (x)", "24");
    click(&mut harness, "Begin");
    settle(&mut harness);
    let settings = harness.state().settings();
    assert_eq!(
        (settings.points, settings.lengths, settings.welcomed),
        (Points::Didot, Lengths::Inches, true)
    );
    drop_on(&mut harness, &font());
    let begun = commission(&harness);
    assert_eq!(begun.system, System::Didot);
    assert!(begun.bill.is_empty());
    // The router goes with the commission, so that the command line knows it as well.
    let file = place.path().join("begun.json");
    harness.state_mut().save_to(&file);
    settle(&mut harness);
    let again = open(&file, None).expect("it was saved");
    assert!((again.workshop.machine.travel_mm[0] - 24.0 * 25.4).abs() < 1e-6);
}

#[test]
fn each_kind_of_file_that_is_dropped_does_its_own() {
    let place = lived_in();
    let mut harness = window_at_home(place.path(), None);
    let notebook =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-projects/bench-notebook/moisture.txt");
    drop_on(&mut harness, &notebook);
    let said = harness.state().notice().unwrap_or_default().to_owned();
    assert!(said.contains("belongs into a commission"), "{said}");
    drop_on(&mut harness, &font());
    assert!(harness.state().is_in(Room::Order));
    drop_on(&mut harness, &notebook);
    assert!(harness.state().is_in(Room::Bench));
    let song = place.path().join("song.mp3");
    fs::write(&song, "x").expect("written");
    drop_on(&mut harness, &song);
    let said = harness.state().notice().unwrap_or_default().to_owned();
    assert!(
        said.contains("song.mp3 is nothing that can be taken in"),
        "{said}"
    );
}

#[test]
fn a_recent_commission_that_is_gone_is_said_and_taken_off_the_list() {
    let place = lived_in();
    let file: PathBuf = place.path().join("gone.json");
    let mut harness = window_at_home(place.path(), Some(&font()));
    harness.state_mut().save_to(&file);
    settle(&mut harness);
    drop(harness);
    fs::remove_file(&file).expect("it was there");
    let mut harness = window_at_home(place.path(), None);
    let name = harness
        .query_all_by_label_contains("gone.json")
        .next()
        .expect("it is on the list");
    name.click();
    harness.run_steps(3);
    let said = harness.state().notice().unwrap_or_default().to_owned();
    assert!(said.contains("no longer there"), "{said}");
    assert!(harness.state().settings().recent.is_empty());
}

#[test]
fn leaving_for_the_start_asks_about_what_is_not_saved() {
    let place = lived_in();
    let mut harness = window_at_home(place.path(), Some(&font()));
    fill_in(&mut harness, "Size", "8");
    find(&mut harness, "to the start");
    assert!(says(&harness, "not saved"));
    click(&mut harness, "Leave them");
    assert!(harness.state().document().is_none());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num1);
    harness.run_steps(3);
    assert!(says(&harness, "A font and an order in, wood type out"));
}

#[test]
fn a_font_that_is_dropped_on_the_demonstration_begins_an_order() {
    let place = lived_in();
    let mut harness = window_at_home(place.path(), None);
    find(&mut harness, "show the demonstration");
    settle(&mut harness);
    assert!(harness.state().is_in(Room::Proof));
    drop_on(&mut harness, &font());
    assert!(harness.state().is_in(Room::Order));
    assert!(commission(&harness).bill.is_empty());
}
