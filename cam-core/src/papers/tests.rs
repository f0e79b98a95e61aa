//! Tests of the papers: what a maker must find in them.

use std::collections::BTreeMap;

use kurbo::{Point, Vec2};

use super::*;
use crate::commission::Separation;
use crate::finding::{Severity, Subject};
use crate::job_file::tests::{commission, triangle, workshop};
use crate::job_file::{JobParts, JobProgram, JobRole, job_file};
use crate::plank::Place;
use crate::survey::CornerReport;

/// All papers of a plank with two blocks, and a third in a second row.
fn papers(commission: &Commission) -> BTreeMap<String, String> {
    let sorts = [Arc::new(triangle())];
    let surveys = [Arc::new(Survey {
        corners: vec![CornerReport {
            at: Point::new(2.0, 3.0),
            angle_deg: 90.0,
            gap_mm: 0.621,
            wanted_diameter_mm: 0.7,
        }],
        ..Survey::default()
    })];
    let place = |id: &str, x, y| Place {
        id: id.to_owned(),
        sort: 0,
        at: Vec2::new(x, y),
    };
    let planks = [Plank {
        id: "plank-1".into(),
        width_mm: 200.0,
        length_mm: 400.0,
        places: vec![
            place("A-1", 8.0, 8.0),
            place("A-2", 28.07, 8.0),
            place("A-3", 8.0, 32.2),
        ],
        ..Plank::default()
    }];
    let programs = [JobProgram {
        file: "plank-1-flat-3.ngc".into(),
        sha256: String::new(),
        plank: "plank-1".into(),
        cutter: "flat-3".into(),
        role: JobRole::Roughing,
        estimate_s: 3700.0,
        changes: Vec::new(),
    }];
    let workshop = workshop();
    let fonts = BTreeMap::new();
    let job = job_file(&JobParts {
        commission,
        workshop: &workshop,
        fonts: &fonts,
        sorts: &sorts,
        surveys: &surveys,
        planks: &planks,
        programs: &programs,
    });
    let findings = [Finding {
        severity: Severity::Warning,
        subject: Subject::Sort("A".into()),
        kind: "thin-stroke",
        text: "A stroke is thin.".into(),
        remedy: "Look at it.".into(),
    }];
    write_all(&PaperParts {
        commission,
        workshop: &workshop,
        job: &job,
        sorts: &sorts,
        surveys: &surveys,
        planks: &planks,
        routers: &crate::routers::Plan::default(),
        findings: &findings,
    })
    .into_iter()
    .map(|file| {
        let text = String::from_utf8(file.bytes).expect("papers are UTF-8");
        (file.path, text)
    })
    .collect()
}

/// Whether a text holds some words, however its lines are broken.
fn holds(text: &str, words: &str) -> bool {
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .contains(words)
}

#[test]
fn setup_sheet_says_what_the_machine_needs() {
    let papers = papers(&commission());
    let sheet = &papers["setup-sheet.txt"];
    for words in [
        "Setup sheet: Tide tables",
        "Height to paper: 23.317 mm",
        "z 0 is the printing face",
        "flat-3: 3 mm across, flutes 26 mm long, standing out 30 mm; to 25 mm deep; 18000 turns a minute, feed 1200 mm/min",
        "1. plank-1-flat-3.ngc roughing cutter flat-3 1:02",
        "Cutting stays within x 4.8 to 48.14 and y 4.8 to 56.4 mm",
        "A skin of 0.4 mm at the bottom holds the blocks",
        "Warning, sort A: A stroke is thin. Look at it.",
        "no cut enters a letter",
        "wear eye protection",
        "dust",
        "Follow the manual of your machine, the rules of your place, and licensed practice",
    ] {
        assert!(holds(sheet, words), "{words}\n{sheet}");
    }
    assert!(!sheet.to_lowercase().contains("safe"), "never claimed");
    assert!(sheet.lines().all(|line| line.chars().count() <= 100));
}

#[test]
fn picture_is_true_to_size_with_every_block() {
    let papers = papers(&commission());
    let picture = &papers["plank-1.svg"];
    assert!(picture.contains("width=\"224.000mm\""));
    assert_eq!(picture.matches("#e2c896").count(), 3);
    // The first block's lower left corner: 12 mm of margin, y down from the foot of the plank at 422 mm.
    assert!(picture.contains("M20.00 414.00L36.87 414.00"), "{picture}");
    assert!(picture.contains("1. plank-1-flat-3.ngc (roughing, cutter flat-3)"));
}

#[test]
fn saw_gets_rows_first_and_then_blocks() {
    let mut commission = commission();
    assert!(!papers(&commission).contains_key("cutting-list.txt"));
    commission.planks.separation = Separation::Saw;
    let papers = papers(&commission);
    let list = &papers["cutting-list.txt"];
    for words in [
        "kerf is 3.2 mm",
        // 8 mm of margin less the kerf's 3.2.
        "take off 4.8 mm of waste, then set the fence to 21 mm and rip the row off",
        "fence at 16.87 mm, 2 blocks: A-1, A-2",
        "Row 2, 1 block",
        "rip along x: near edge to the fence, set the fence to 21 mm and rip the row off",
        "fence at 16.87 mm, 1 block: A-3",
        "Small blocks are dangerous on a saw",
    ] {
        assert!(holds(list, words), "{words}\n{list}");
    }
}

#[test]
fn handwork_lists_every_corner_and_counts_the_copies() {
    let papers = papers(&commission());
    let list = &papers["handwork.txt"];
    for words in [
        "rounder than 0.15 mm",
        "corner at 2.00, 3.00 mm angle 90.0° gap 0.621 mm",
        "Corners in all, with every copy: 2",
    ] {
        assert!(holds(list, words), "{words}\n{list}");
    }
}

#[test]
fn words_are_plain() {
    assert_eq!(words::hours(0.0), "0:00");
    assert_eq!(words::hours(61.0), "0:02");
    assert_eq!(words::hours(7200.0), "2:00");
    assert_eq!(words::mm(3.0), "3");
    assert_eq!(words::mm(-0.0001), "0");
    assert_eq!(words::mm(100.25), "100.25");
    let long = words::paragraph("- ", &"word ".repeat(60), 2);
    assert!(long.lines().all(|line| line.chars().count() <= 96));
    assert_eq!(long.matches("word").count(), 60);
}
