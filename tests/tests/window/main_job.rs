//! The main job in the window: open a font, choose glyphs, set the size, export; and the same commission by the command line.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use egui::Modifiers;
use egui_kittest::kittest::Queryable;

use cam_core::make::make;
use cam_core::progress::Progress;
use cam_core::quote::Quote;
use clap::Parser;
use sortwright::commands::{CommandLine, Outcome, run};
use sortwright::model::selection::Room;
use testkit::window::{
    ROOM_KEYS, Window, click, commission, document, fill_in, font, settle, window,
};

/// All files below a folder by their path relative to it.
fn contents(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).expect("a folder") {
            let path = entry.expect("readable").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path
                    .strip_prefix(folder)
                    .expect("below")
                    .display()
                    .to_string();
                found.insert(name, fs::read(&path).expect("readable"));
            }
        }
    }
    found
}

#[test]
fn the_order_shows_what_it_costs() {
    let mut harness = window(Some(&font()));
    click(&mut harness, "Case");
    click(&mut harness, "Glyph M, 0 ordered");
    click(&mut harness, "Order");
    settle(&mut harness);
    let document = document(&harness);
    let (commission, workshop) = (document.commission(), document.workshop());
    let job = make(commission, workshop, document.fonts(), &Progress::new()).expect("one letter");
    let quote = Quote::of(&job, commission, workshop);
    let price = format!("{:.2} {}", quote.price, quote.currency);
    assert!(harness.query_by_label(&price).is_some(), "{price}");
    click(&mut harness, "How it comes to that");
    harness.run_steps(20);
    for work in &quote.hand {
        assert!(harness.query_by_label(work.what).is_some(), "{}", work.what);
    }
}

#[test]
fn what_the_window_exports_is_what_the_command_line_makes() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window(Some(&font()));
    click(&mut harness, "Case");
    click(&mut harness, "Glyph M, 0 ordered");
    click(&mut harness, "Glyph O, 0 ordered");
    click(&mut harness, "Glyph O, 1 ordered");
    click(&mut harness, "Order");
    fill_in(&mut harness, "Size", "4 lines");
    fill_in(&mut harness, "Title", "Two letters");
    settle(&mut harness);
    let made = commission(&harness);
    assert_eq!((made.lines, made.title.as_str()), (4.0, "Two letters"));
    let counts: Vec<u32> = made.bill.iter().map(|line| line.count).collect();
    assert_eq!(counts, [1, 2]);

    let file = place.path().join("two letters.json");
    harness.state_mut().save_to(&file);
    settle(&mut harness);
    let by_window = place.path().join("by window");
    click(&mut harness, "Export…");
    fill_in(&mut harness, "Folder", &by_window.display().to_string());
    click(&mut harness, "Write");
    settle(&mut harness);
    let said = harness.state().notice().unwrap_or_default().to_owned();
    assert!(by_window.join("job.json").exists(), "{said}");

    let by_command = place.path().join("by command");
    let line = CommandLine::parse_from([
        "sortwright".as_ref(),
        "make".as_ref(),
        file.as_os_str(),
        "--out".as_ref(),
        by_command.as_os_str(),
        "--quiet".as_ref(),
    ]);
    assert_eq!(run(&line.command.expect("a command")), Outcome::Done);
    let (window, command) = (contents(&by_window), contents(&by_command));
    assert!(
        window.len() > 3,
        "programs, job file and papers: {:?}",
        window.keys()
    );
    assert_eq!(
        window.keys().collect::<Vec<_>>(),
        command.keys().collect::<Vec<_>>()
    );
    for (name, bytes) in &window {
        assert!(bytes == &command[name], "{name} differs");
    }
}

#[test]
fn a_changed_setting_can_be_taken_back() {
    let mut harness = window(Some(&font()));
    fill_in(&mut harness, "Size", "8");
    assert_eq!(commission(&harness).lines, 8.0);
    fill_in(&mut harness, "Size", "30 mm");
    assert!((commission(&harness).lines - 30.0 / (12.0 * 0.3514598)).abs() < 1e-9);
    harness.get_by_label("Size").type_text("nonsense");
    fill_in(&mut harness, "Size", "eight");
    assert!(harness.query_by_label_contains("is not a number").is_some());
    harness.state_mut().undo();
    harness.run_steps(3);
    assert_eq!(commission(&harness).lines, 8.0);
    harness.state_mut().undo();
    assert_eq!(commission(&harness).lines, 10.0);
    harness.state_mut().redo();
    assert_eq!(commission(&harness).lines, 8.0);
}

#[test]
fn every_room_shows_and_is_reached_by_its_key() {
    let mut harness = window(Some(&font()));
    click(&mut harness, "Case");
    click(&mut harness, "Glyph A, 0 ordered");
    fill_in_order_size(&mut harness);
    settle(&mut harness);
    let shown = [
        "The sorts ordered, as printed",
        "Find",
        "Block of A",
        "Cuts of A",
        "All planks",
        "Plank-1 as it is cut",
        "Proof",
        "Save all papers…",
        "Readings",
        "Cutters",
    ];
    for ((key, _room), label) in ROOM_KEYS.into_iter().zip(Room::ALL).zip(shown) {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
        harness.run_steps(3);
        settle(&mut harness);
        let found = harness.query_all_by_label(label).count();
        assert!(found > 0, "{label} is not shown");
    }
}

fn fill_in_order_size(harness: &mut Window) {
    click(harness, "Order");
    fill_in(harness, "Size", "4");
}

#[test]
fn a_file_that_is_no_font_gets_a_sentence_and_the_start_stays() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let broken = place.path().join("broken.ttf");
    fs::write(&broken, b"\0\x01\0\0nothing").expect("written");
    let harness = window(Some(&broken));
    assert!(harness.state().document().is_none());
    let said = harness.state().notice().unwrap_or_default();
    assert!(
        said.contains("broken.ttf is not a font that can be read"),
        "{said}"
    );
    assert!(
        harness
            .query_by_label_contains("Drop a font here")
            .is_some()
    );
}

#[test]
fn an_export_over_a_foreign_folder_is_refused_in_the_window() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let target = place.path().join("photographs");
    fs::create_dir(&target).expect("made");
    fs::write(target.join("a.png"), "x").expect("written");
    let mut harness = window(Some(&font()));
    click(&mut harness, "Case");
    click(&mut harness, "Glyph I, 0 ordered");
    fill_in_order_size(&mut harness);
    settle(&mut harness);
    click(&mut harness, "Export…");
    fill_in(&mut harness, "Folder", &target.display().to_string());
    click(&mut harness, "Write");
    settle(&mut harness);
    let said = harness.state().notice().unwrap_or_default();
    assert!(said.contains("was not made by Sortwright"), "{said}");
    assert_eq!(contents(&target).len(), 1);
}
