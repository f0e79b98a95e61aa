//! Notches in the window: ordered, limited, shown on lines before and after, seen on the block, taken back.

use cam_core::job_file::JobRole;
use cam_core::measure::{Length, System, Unit};
use cam_core::notch::{closed_pairs, drawn_and_cut};
use cam_core::progress::Progress;
use egui_kittest::kittest::Queryable;
use testkit::window::{
    Window, begun, click, commission, document, export_to, fill_in, paper, press, says, settle,
    until, window_of,
};

/// The pairs that close up as the core tells them, largest first.
fn pairs(harness: &Window) -> Vec<String> {
    let document = document(harness);
    let drawn = drawn_and_cut(
        document.commission(),
        document.workshop(),
        document.fonts(),
        &Progress::new(),
    )
    .expect("two letters");
    let mut pairs = closed_pairs(&drawn.sorts);
    pairs.sort_by(|a, b| b.gain_mm.total_cmp(&a.gain_mm));
    let told = pairs.iter().map(|pair| {
        let gain = Length::mm(pair.gain_mm).in_unit(Unit::Point, System::Pica);
        let (left, right) = (&drawn.sorts[pair.left], &drawn.sorts[pair.right]);
        format!("{}{} {gain:.0}", left.text, right.text)
    });
    told.collect()
}

#[test]
fn a_pair_is_notched_seen_and_taken_back() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "AV", "8");
    let mut harness = window_of([1280.0, 1600.0], Some(&order), None);
    press(&mut harness, "Cut notches to close pairs up");
    fill_in(&mut harness, "Least wall", "2 mm");
    fill_in(&mut harness, "Pairs", "AV VA");
    fill_in(&mut harness, "Shapes at most", "2");
    let rules = commission(&harness).notches.expect("notches are ordered");
    assert_eq!((rules.pairs.len(), rules.kinds), (2, 2));
    assert!((rules.least_wall.in_mm() - 2.0).abs() < 1e-12);
    until(&mut harness, "the notched pair", |window| {
        says(window, "Closed up by points")
    });
    let pairs = pairs(&harness);
    assert!(!pairs.is_empty(), "A and V close up");
    let told = format!("Closed up by points: {}", pairs.join(", "));
    assert!(harness.query_by_label(&told).is_some(), "{told}");
    assert!(harness.query_by_label("Pairs before and after").is_some());

    settle(&mut harness);
    click(&mut harness, "Block");
    assert!(says(&harness, "Closes up"));
    click(&mut harness, "Order");

    // What is written has the notches, a program that cuts them, and says what fills them.
    let made = place.path().join("made");
    let job = export_to(&mut harness, &made);
    let notched: Vec<&str> = job
        .sorts
        .iter()
        .filter(|sort| !sort.notches.is_empty())
        .map(|sort| sort.text.as_str())
        .collect();
    assert_eq!(notched, ["A", "V"]);
    let cuts = |role| job.programs.iter().any(|program| program.role == role);
    assert!(cuts(JobRole::Notches));
    assert!(paper(&made, "setup-sheet").contains("otch"));
    for _ in 0..4 {
        harness.state_mut().undo();
    }
    assert_eq!(commission(&harness).notches, None);
}

#[test]
fn a_pair_that_is_no_pair_is_refused_with_a_sentence() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let mut harness = window_of([1280.0, 1600.0], Some(&order), None);
    press(&mut harness, "Cut notches to close pairs up");
    fill_in(&mut harness, "Pairs", "AVA");
    let rules = commission(&harness).notches.expect("notches are ordered");
    assert!(rules.pairs.is_empty());
    assert!(testkit::window::notice(&harness).contains("AVA"));
}
