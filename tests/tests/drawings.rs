//! Drawings by the command line: a scan is traced, and a commission with a border cut from it, an SVG and a DXF ornament is made, proven and set
//! round its frame.

use std::fs;
use std::path::PathBuf;

use cam_core::border::{Meeting, frame, shapes_as_cut};
use clap::Parser;
use sortwright::background::picture::print;
use sortwright::commands::{CommandLine, Outcome, run};
use sortwright::files::made::read_made;
use sortwright::files::open::open_commission;
use tempfile::TempDir;
use testkit::repository::top;

fn command(words: &[&str]) -> Outcome {
    let parsed = CommandLine::try_parse_from([&["sortwright"], words].concat());
    run(&parsed
        .expect("the words are a command line")
        .command
        .expect("the words name a command"))
}

fn demo(name: &str) -> PathBuf {
    top().join("demo-projects/barn-supper").join(name)
}

/// The outer rule's length on the scan, from its corner to its end: the drawing is known to be 46 points wide.
const KNOWN: &str = "16.167 mm:86.4,85.8,468.1,97.1";

#[test]
fn a_scan_is_traced_to_the_drawing_that_the_demo_keeps() {
    let folder = TempDir::new().expect("a temporary folder can be made");
    let out = folder.path().join("vine.svg");
    let (scan, out_word) = (
        demo("art/vine-scan.jpg").display().to_string(),
        out.display().to_string(),
    );
    let trace = |known: &str| command(&["trace", &scan, "--known", known, "--out", &out_word]);
    assert_eq!(trace(KNOWN), Outcome::Done);
    let read = |bytes: &[u8]| drawing::svg::read(bytes).expect("an SVG");
    let region = |drawing: &drawing::Drawing| drawing.whole.region(0.001).expect("a region");
    let traced = region(&read(&fs::read(&out).expect("it was written")));
    let kept = region(&read(
        &fs::read(demo("art/vine.svg")).expect("it is in the repository"),
    ));
    assert!((traced.area() - kept.area()).abs() < 0.002 * kept.area());
    assert_eq!(traced.pieces.len(), kept.pieces.len());
    // Half the measure is a quarter of the area; what stood there before is kept.
    assert_eq!(trace("8.0835 mm:86.4,85.8,468.1,97.1"), Outcome::Done);
    let half = region(&read(&fs::read(&out).expect("it was written")));
    assert!((4.0 * half.area() - kept.area()).abs() < 0.02 * kept.area());
    assert!(folder.path().join("vine.svg.previous").exists());
    assert_eq!(trace("0mm:60,60,492,60"), Outcome::CouldNotRun);
}

#[test]
fn a_commission_with_a_border_and_ornaments_is_made_proven_and_joins_all_round() {
    let folder = TempDir::new().expect("a temporary folder can be made");
    let made = folder.path().join("made");
    let commission = demo("commission.json").display().to_string();
    let done = command(&[
        "make",
        &commission,
        "--out",
        &made.display().to_string(),
        "--quiet",
    ]);
    assert_eq!(done, Outcome::Done);
    assert_eq!(
        command(&["check", &made.display().to_string()]),
        Outcome::Done
    );
    let opened = open_commission(&demo("commission.json"), None).expect("it is opened");
    let (job, programs) = read_made(&made).expect("it was made");
    let fount = print(&job, &programs, &cam_core::progress::Progress::new()).expect("it prints");
    let border = &opened.commission.borders[0];
    let set = frame(border, &shapes_as_cut(&fount), opened.commission.system).expect("it is set");
    assert!(set.sides.iter().all(|side| side.fill.rest_pt == 0.0));
    let joins: u32 = set.joins.iter().map(|join| join.times).sum();
    assert_eq!(joins, 24);
    for join in &set.joins {
        assert_eq!(
            join.meeting,
            Meeting::Joined(Vec::new()),
            "{:?}",
            join.sorts
        );
    }
    // What the frame takes is what the demo orders.
    for (name, count) in &set.counts {
        let ordered = fount.impressions.iter().find(|one| one.name == *name);
        assert_eq!(ordered.map(|one| one.copies), Some(*count), "{name}");
    }
}
