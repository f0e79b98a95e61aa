//! A small job written by hand, and what the checks say of it whole and spoiled.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use reader::{PathControl, Place, ReadCourse, ReadMotion, Spindle};

use super::*;
use crate::job_file::JobHold;

mod cones;
mod descents;
mod foreign;
mod mutations;
mod rules;
pub(super) mod workpiece;

pub use workpiece::Workpiece;

/// A level straight motion 2 mm below the face.
pub fn line(from: Point, to: Point) -> ReadMotion {
    ReadMotion {
        from: Place { xy: from, z: -2.0 },
        to: Place { xy: to, z: -2.0 },
        known: [true; 3],
        course: ReadCourse::Line { feed_mm_min: 600.0 },
        spindle: Spindle::Clockwise { rpm: 18_000.0 },
        path_control: PathControl::Continuous,
        line: 1,
    }
}

/// A level arc 2 mm below the face.
pub fn arc(from: Point, centre: Point, sweep: f64, turn: Turn) -> ReadMotion {
    let signed = match turn {
        Turn::Left => sweep,
        Turn::Right => -sweep,
    };
    let arm = from - centre;
    let (sin, cos) = signed.sin_cos();
    let to = if sweep == TAU {
        from
    } else {
        centre + Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
    };
    ReadMotion {
        course: ReadCourse::Arc {
            centre,
            turn,
            sweep,
            feed_mm_min: 600.0,
        },
        ..line(from, to)
    }
}

fn findings(job: &JobFile, programs: &BTreeMap<String, String>) -> Vec<Finding> {
    check(job, programs, &Progress::new()).expect("nobody stops the work")
}

fn kinds(findings: &[Finding]) -> Vec<&'static str> {
    let mut kinds: Vec<&'static str> = findings.iter().map(|finding| finding.kind).collect();
    kinds.dedup();
    kinds
}

#[test]
fn a_sound_job_is_accepted() {
    let piece = Workpiece::sound();
    let found = findings(&piece.job, &piece.programs);
    assert_eq!(found, Vec::new());
}

#[test]
fn the_same_findings_on_one_thread_or_many() {
    let mut piece = Workpiece::sound();
    piece.spoil("faces.ngc", |text| text.replace("X3.", "X3.2"));
    let one = rayon::ThreadPoolBuilder::new()
        .num_threads(1)
        .build()
        .expect("a pool of one thread can be had")
        .install(|| findings(&piece.job, &piece.programs));
    let many = rayon::ThreadPoolBuilder::new()
        .num_threads(4)
        .build()
        .expect("a pool of four threads can be had")
        .install(|| findings(&piece.job, &piece.programs));
    assert!(!one.is_empty());
    assert_eq!(one, many);
}

#[test]
fn a_changed_text_is_refused_even_where_it_cuts_the_same() {
    let piece = Workpiece::sound();
    let mut programs = piece.programs.clone();
    let text = programs
        .get_mut("faces.ngc")
        .expect("the job has this program");
    text.insert_str(0, "(another comment)\n");
    let found = findings(&piece.job, &programs);
    assert_eq!(kinds(&found), ["program-changed"]);
    assert!(!passes(&found));
}

#[test]
fn missing_programs_are_named() {
    let piece = Workpiece::sound();
    let mut programs = piece.programs.clone();
    programs.remove("faces.ngc");
    let found = findings(&piece.job, &programs);
    let kinds = kinds(&found);
    assert!(kinds.contains(&"program-missing"), "{kinds:?}");
    assert!(kinds.contains(&"ground-left"), "{kinds:?}");

    let mut job = piece.job.clone();
    job.programs.retain(|program| program.file != "blocks.ngc");
    let found = findings(&job, &piece.programs);
    assert!(
        found
            .iter()
            .any(|finding| finding.kind == "plank-without-program")
    );
}

#[test]
fn a_stop_is_heeded() {
    let piece = Workpiece::sound();
    let progress = Progress::new();
    progress.stop();
    assert_eq!(check(&piece.job, &piece.programs, &progress), Err(Stopped));
}

#[test]
fn blocks_are_held_by_what_the_job_says() {
    let tells = |piece: &Workpiece, kind: &str| {
        findings(&piece.job, &piece.programs)
            .iter()
            .any(|finding| finding.kind == kind && finding.severity == Severity::Stop)
    };
    // The tabs of 1 mm are cut off as well.
    let mut loose = Workpiece::sound();
    loose.spoil("blocks.ngc", |text| text.replace("Z-9.000", "Z-10.000"));
    assert!(tells(&loose, "block-loose"));
    // No layer goes into the lowest millimetre.
    let mut skin = Workpiece::sound();
    skin.job.held_by = JobHold::Skin;
    skin.spoil("blocks.ngc", |text| text.replace("Z-10.000", "Z-9.000"));
    for kind in [
        "skin-cut",
        "block-not-cut-out",
        "block-side-not-cut",
        "block-loose",
    ] {
        assert!(!tells(&skin, kind), "{kind}");
    }
    skin.job.hold_mm = Some(0.9);
    assert!(tells(&skin, "block-side-not-cut"));
    skin.job.hold_mm = Some(1.1);
    assert!(tells(&skin, "skin-cut"));
}

/// What one change to the job file must bring about.
#[test]
fn faults_of_the_job_are_found() {
    type Change = fn(&mut JobFile);
    let cases: [(&str, Change); 16] = [
        ("skin-cut", |job| job.held_by = JobHold::Skin),
        ("letter-cut", |job| {
            if let Some(m) = &mut job.sorts[0].source_to_plank {
                m[4] += 0.05;
            }
        }),
        ("wall-not-cut", |job| {
            if let Some(m) = &mut job.sorts[0].source_to_plank {
                m[5] -= 0.05;
            }
        }),
        ("job-sort-unclear", |job| {
            if let Some(m) = &mut job.sorts[0].source_to_plank {
                m[0] = -m[0];
            }
        }),
        ("job-sort-unclear", |job| job.outlines.clear()),
        ("ground-left", |job| job.sorts[0].relief_mm = 2.1),
        ("deeper-than-floor", |job| job.sorts[0].relief_mm = 1.9),
        ("too-deep", |job| job.cutters[0].max_depth_mm = 1.5),
        ("deeper-than-flutes", |job| {
            job.cutters[0].flute_length_mm = 1.5
        }),
        ("too-deep", |job| job.planks[0].height_to_paper_mm = 9.0),
        ("block-not-cut-out", |job| {
            job.planks[0].height_to_paper_mm = 10.5
        }),
        ("beyond-travel", |job| job.machine.travel_mm[0] = 20.0),
        ("feed", |job| job.machine.max_feed_mm_min[1] = 100.0),
        ("spindle", |job| job.machine.spindle_rpm[1] = 9_000.0),
        ("block-cut", |job| {
            for corner in &mut job.sorts[0].block_mm {
                corner[0] += 0.03;
            }
        }),
        ("program-names-unknown", |job| {
            job.programs[0].cutter = "flat-9".into()
        }),
    ];
    for (kind, change) in cases {
        let mut piece = Workpiece::sound();
        change(&mut piece.job);
        let found = findings(&piece.job, &piece.programs);
        assert!(
            found
                .iter()
                .any(|finding| finding.kind == kind && finding.severity == Severity::Stop),
            "{kind} was not found, but {:?}",
            kinds(&found)
        );
        for finding in &found {
            assert!(finding.text.ends_with(['.', ')']), "{}", finding.text);
            assert!(!finding.remedy.is_empty());
        }
    }
}
