//! A fault inside the program: it leaves a report, unsaved work stays, and the next start says both.
//!
//! Alone in its file, since what is done about panics is done for a whole process.

use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};

use sortwright::files::home::Home;
use sortwright::files::{read_text, report};
use testkit::window::{click, fill_in, font, says, window_at_home};

#[test]
fn after_a_fault_the_next_start_tells_of_the_report_and_of_the_work() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let home = Home::at(place.path());
    report::install(&home.reports());
    let end = catch_unwind(AssertUnwindSafe(|| {
        let mut harness = window_at_home(place.path(), Some(&font()));
        fill_in(&mut harness, "Title", "Tide tables");
        harness.run_steps(3);
        panic!("a fault made on purpose");
    }));
    assert!(end.is_err());

    let reports: Vec<_> = fs::read_dir(home.reports())
        .expect("a folder of reports")
        .map(|entry| entry.expect("readable").path())
        .collect();
    assert_eq!(reports.len(), 1, "{reports:?}");
    let text = read_text(&reports[0]).expect("a text");
    for words in [
        "a fault made on purpose",
        "crash_report.rs",
        env!("CARGO_PKG_VERSION"),
        std::env::consts::OS,
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }

    let mut harness = window_at_home(place.path(), Some(&font()));
    let found = "Unsaved work from an earlier session was found.";
    assert!(says(&harness, found));
    assert!(says(&harness, "Tide tables"));
    click(&mut harness, "Decide later");
    assert!(says(&harness, "Something went wrong inside Sortwright"));
    assert!(says(&harness, "000001.txt"));
    click(&mut harness, "Close");
    assert!(!says(&harness, "went wrong"));
    drop(harness);

    // It is told once; the work stays until it is decided about.
    let harness = window_at_home(place.path(), None);
    assert!(!says(&harness, "went wrong"));
    assert!(says(&harness, found));
}
