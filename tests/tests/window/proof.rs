//! The proof in the window and by the command line: set lines, blocks shown, saved in all three kinds with the same bytes; from a made folder
//! as from its commission; one job over another.

use std::fs;

use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use sortwright::commands::Outcome;
use testkit::window::{Window, begun, click, command, settle, window};

/// Every control of the room is seen whole, beside the sheet.
fn check_controls(harness: &Window) {
    let sheet = harness.get_by_role(Role::Canvas).rect();
    let labels = [
        "Lines to set",
        "Short lines",
        "Leads",
        "Paper",
        "Ink",
        "Show the blocks",
        "Show what no cutter reaches",
        "Save as picture…",
        "Show all",
    ];
    for label in labels {
        for control in harness.get_all_by_label(label) {
            let place = control.rect();
            assert!(
                place.left() >= sheet.right() && place.right() <= 1280.0,
                "{label}: {place:?}"
            );
        }
    }
}

#[test]
fn the_window_saves_what_the_command_prints() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let folder = place.path();
    let mut harness = window(Some(&begun(folder, "LOT", "4")));
    click(&mut harness, "Proof");
    settle(&mut harness);
    check_controls(&harness);
    harness.get_by_label("Lines to set").focus();
    harness.run_steps(2);
    harness.get_by_label("Lines to set").type_text("LO TTX");
    harness.run_steps(3);
    click(&mut harness, "Show the blocks");
    assert!(harness.query_by_label("Not on the bill: X").is_some());
    let short = harness.query_by_label("Set more often than ordered: T (2, of 1)");
    assert!(short.is_some());
    for ending in ["svg", "pdf", "png"] {
        let by_window = folder.join(format!("window.{ending}"));
        harness.state_mut().save_picture(by_window.clone());
        settle(&mut harness);
        let by_command = format!("./command.{ending}");
        let words = [
            "proof",
            "./order.json",
            "--text",
            "LO TTX",
            "--blocks",
            "--out",
            &by_command,
        ];
        assert_eq!(command(folder, &words), Outcome::Done);
        let said = harness.state().notice().unwrap_or_default().to_owned();
        let saved = fs::read(by_window).unwrap_or_else(|error| panic!("{error}: {said}"));
        let printed = fs::read(folder.join(&by_command[2..])).expect("it was written");
        assert!(saved == printed, "{ending} differs");
    }
}

#[test]
fn a_made_folder_prints_as_its_commission_and_over_another() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let folder = place.path();
    begun(folder, "LT", "4");
    let made = ["make", "./order.json", "--out", "./made", "--quiet"];
    assert_eq!(command(folder, &made), Outcome::Done);
    let print = |job: &str, out: &str, more: &[&str]| {
        let words = [&["proof", job, "--out", out, "--paper", "cream"][..], more].concat();
        (
            command(folder, &words),
            fs::read(folder.join(&out[2..])).unwrap_or_default(),
        )
    };
    let (done, of_folder) = print(
        "./made",
        "./folder.svg",
        &["--text", "LT", "--align", "centre", "--leads", "6 pt"],
    );
    assert_eq!(done, Outcome::Done);
    let (_, of_order) = print(
        "./order.json",
        "./order.svg",
        &["--text", "LT", "--align", "centre", "--leads", "6 pt"],
    );
    assert!(!of_folder.is_empty() && of_folder == of_order);
    let (done, over) = print(
        "./made",
        "./over.svg",
        &["--over", "./made", "--ink", "yellow", "--ink", "#1f4e8c"],
    );
    assert_eq!(done, Outcome::Done);
    let over = String::from_utf8(over).expect("text");
    assert!(
        over.contains("fill=\"#f2c22e\"")
            && over.contains("fill=\"#1f4e8c\" style=\"mix-blend-mode:multiply\"")
    );
    for wrong in [
        &["--ink", "reddish"][..],
        &["--ink", "red", "--ink", "blue"],
        &["--leads", "six"],
    ] {
        assert_eq!(
            print("./made", "./wrong.svg", wrong).0,
            Outcome::CouldNotRun,
            "{wrong:?}"
        );
    }
    assert_eq!(print("./made", "./wrong.jpg", &[]).0, Outcome::CouldNotRun);
    // What a program no longer says cannot be printed.
    let mut programs = fs::read_dir(folder.join("made"))
        .expect("a folder")
        .flatten()
        .map(|entry| entry.path());
    let program = programs.find(|path| {
        path.extension()
            .is_some_and(|ending| ending == "nc" || ending == "ngc")
    });
    fs::remove_file(program.expect("a program")).expect("removed");
    assert_eq!(print("./made", "./wrong.svg", &[]).0, Outcome::CouldNotRun);
}

#[test]
fn a_way_on_a_drawing_is_measured_by_the_right_button_and_by_keys() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window(Some(&begun(place.path(), "L", "4")));
    click(&mut harness, "Block");
    settle(&mut harness);
    let sheet = harness.get_by_role(Role::Canvas).rect();
    let from = sheet.center() - egui::vec2(100.0, 0.0);
    let to = from + egui::vec2(200.0, 0.0);
    let value = |harness: &Window| {
        harness
            .get_by_role(Role::Canvas)
            .value()
            .unwrap_or_default()
    };
    assert_eq!(value(&harness), "");
    for (key, at) in [(egui::Key::D, from), (egui::Key::D, to)] {
        harness.hover_at(at);
        harness.run_steps(2);
        harness.key_press(key);
        harness.run_steps(2);
    }
    let by_keys = value(&harness);
    assert!(
        by_keys.contains(" pt; across ") && by_keys.ends_with("along 0.00 mm"),
        "{by_keys}"
    );
    harness.key_press(egui::Key::Escape);
    harness.run_steps(2);
    assert_eq!(value(&harness), "");
    for (at, pressed) in [
        (from, Some(true)),
        (from + egui::vec2(60.0, 0.0), None),
        (to, None),
        (to, Some(false)),
    ] {
        harness.event(egui::Event::PointerMoved(at));
        harness.step();
        if let Some(pressed) = pressed {
            harness.event(egui::Event::PointerButton {
                pos: at,
                button: egui::PointerButton::Secondary,
                pressed,
                modifiers: egui::Modifiers::NONE,
            });
            harness.step();
        }
    }
    harness.run_steps(2);
    assert_eq!(value(&harness), by_keys, "the sheet has not moved");
}
