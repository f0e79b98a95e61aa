//! The bench in the window: readings typed, the verdict at once, what was found kept in the workshop beside the commission.

use std::path::Path;

use bench::notebook::Kind;
use cam_core::format::read_workshop;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use testkit::window::{Window, begun, click, document, export_to, settle};

/// A window in this room, with an order of one letter.
fn window(folder: &Path) -> Window {
    let mut harness = testkit::window::window(Some(&begun(folder, "L", "3")));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num9);
    harness.run_steps(3);
    harness
}

#[test]
fn every_kind_shows_a_verdict_and_a_picture() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window(place.path());
    let kinds = [
        ("Height", Kind::Height),
        ("Moisture", Kind::Moisture),
        ("Squareness", Kind::Square),
        ("Lock-up", Kind::LockUp),
        ("Minutes", Kind::Minutes),
        ("Losses", Kind::Losses),
    ];
    for (name, kind) in kinds {
        let choice = harness
            .get_all_by_label(name)
            .next()
            .expect("the kind's name");
        choice.click();
        harness.run_steps(3);
        let judged = bench::judge(bench::example(kind)).expect("the example is judged");
        let verdict = judged.in_words().swap_remove(0);
        assert!(
            harness.query_by_label(verdict.as_str()).is_some(),
            "{verdict}"
        );
        assert!(
            harness.query_by_label("Picture of the readings").is_some(),
            "{name}"
        );
    }
}

#[test]
fn what_is_typed_is_judged_and_slips_are_named_by_line() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window(place.path());
    let readings = place.path().join("readings.txt");
    let write = |text: &str| std::fs::write(&readings, text).expect("written");
    write("bench lockup\nbody 42\nsort A 30\n42.2 30.0 23.3\n");
    harness.state_mut().open_readings(&readings);
    harness.run_steps(3);
    let verdict = "1 of 1 block measured will not lock up with the others.";
    assert!(harness.query_by_label(verdict).is_some());
    harness.get_by_label("Readings").focus();
    harness.run_steps(2);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::End);
    harness.get_by_label("Readings").type_text("girth 12\n");
    harness.run_steps(3);
    let slips = harness
        .query_all_by_label_contains("“girth” is not known here")
        .count();
    assert_eq!(slips, 1);
    write("no notebook");
    harness.state_mut().open_readings(&readings);
    harness.run_steps(3);
    assert!(
        harness
            .state()
            .notice()
            .is_some_and(|notice| notice.starts_with("Line 1:"))
    );
}

#[test]
fn squareness_is_kept_in_the_workshop_and_the_job_is_made_again() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window(place.path());
    click(&mut harness, "Squareness");
    click(&mut harness, "Keep in the workshop");
    settle(&mut harness);
    let notice = harness.state().notice().unwrap_or_default().to_owned();
    assert!(
        notice.starts_with("Programs made from now on are corrected"),
        "{notice}"
    );
    let text = std::fs::read_to_string(place.path().join("workshop.json")).expect("a workshop");
    let workshop = read_workshop(&text).expect("a workshop");
    assert!(workshop.machine.squareness.is_some());
    assert!(document(&harness).workshop().machine.squareness.is_some());
    // Programs that are written now are corrected, and say so.
    let made = place.path().join("made");
    let job = export_to(&mut harness, &made);
    assert!(job.machine.squareness.is_some());
    for program in &job.programs {
        let text = std::fs::read_to_string(made.join(&program.file)).expect("a program");
        assert!(
            text.contains("Corrected for the squareness"),
            "{}",
            program.file
        );
    }
    // The block was cut without that correction, so it is not added to itself.
    click(&mut harness, "Keep in the workshop");
    let refused = harness.query_all_by_label_contains("The workshop keeps another correction");
    assert_eq!(refused.count(), 1);
}

#[test]
fn notebooks_are_begun_from_the_order() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window(place.path());
    settle(&mut harness);
    click(&mut harness, "Lock-up");
    click(&mut harness, "Begin from this order");
    let begun = |harness: &Window| {
        let field = harness.get_by_label("Readings");
        field.value().unwrap_or_default()
    };
    let text = begun(&harness);
    // Three lines of twelve points.
    assert!(text.contains("body 12.653\n"), "{text}");
    assert!(text.contains("\nsort L "), "{text}");
    assert_eq!(
        harness
            .query_all_by_label_contains("There are no measured blocks")
            .count(),
        1
    );
    click(&mut harness, "Minutes");
    click(&mut harness, "Begin from this order");
    let text = begun(&harness);
    let job = export_to(&mut harness, &place.path().join("made"));
    for program in &job.programs {
        assert!(
            text.contains(&format!("# program {} ", program.file)),
            "{text}"
        );
    }
    click(&mut harness, "Height");
    click(&mut harness, "Begin from this order");
    assert!(begun(&harness).contains("mark F 290 140\n"));
    // A square's notebook comes with its test block.
    click(&mut harness, "Squareness");
    let button = harness.get_by_label("Begin from this order");
    assert!(button.accesskit_node().is_disabled());
}
