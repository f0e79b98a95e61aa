//! Whole jobs from a real font, proven.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::*;
use crate::commission::{BillLine, Face, GlyphChoice, Permission};
use crate::finding::Severity;
use crate::job_file::JobRole;
use crate::measure::System;

mod coloured;
mod notched;

/// An order for two of each letter, with these cutters besides the starting ones.
pub(crate) fn order(letters: &str, lines: f64, more: &[&str]) -> (Commission, Fonts) {
    let face = Face {
        id: "main".into(),
        file: "face.ttf".into(),
        sha256: String::new(),
        index: 0,
        variations: BTreeMap::new(),
        permission: Permission::default(),
    };
    let mut commission = Commission::starting("Corner shop", System::Pica, lines, face);
    commission.bill = letters
        .chars()
        .map(|character| BillLine {
            face: "main".into(),
            glyph: GlyphChoice::Character {
                character,
                features: Vec::new(),
            },
            count: 2,
        })
        .collect();
    let more = more.iter().map(|&id| id.to_owned());
    commission.cutting.cutters.extend(more);
    let fonts = BTreeMap::from([(
        "main".to_owned(),
        Arc::from(epaint_default_fonts::UBUNTU_LIGHT),
    )]);
    (commission, fonts)
}

/// The programs of planks that are laid out already: file and text.
pub(crate) fn programs_of(
    planks: &[Plank],
    sorts: &[Arc<Sort>],
    passes: &[Arc<Vec<SortPasses>>],
    commission: &Commission,
    workshop: &Workshop,
) -> Vec<(String, String)> {
    let progress = Progress::new();
    let work = Work::new(sorts, passes, workshop);
    programs::write_all(planks, &work, commission, workshop, &progress)
        .unwrap_or_else(|error| panic!("{error}"))
        .into_iter()
        .map(|program| (program.file, program.text))
        .collect()
}

fn made(commission: &Commission, workshop: &Workshop, fonts: &Fonts) -> Job {
    make(commission, workshop, fonts, &Progress::new()).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn a_cone_sharpens_corners_and_leaves_less_to_the_hand() {
    let workshop = Workshop::starting();
    for lines in [4.0, 8.0] {
        let (commission, fonts) = order("AMWKRSEgk&x48%@", lines, &["cone-60"]);
        let job = made(&commission, &workshop, &fonts);
        let stops: Vec<&Finding> = job
            .findings
            .iter()
            .filter(|finding| finding.severity == Severity::Stop)
            .collect();
        assert!(stops.is_empty(), "{stops:#?}");
        let roles = job.programs.iter().flat_map(|program| &program.parts);
        assert!(roles.into_iter().any(|part| part.role == JobRole::Corners));
        let (plain, _) = order("AMWKRSEgk&x48%@", lines, &[]);
        let without = made(&plain, &workshop, &fonts);
        for (with, without) in job.surveys.iter().zip(&without.surveys) {
            assert!(with.unreached_mm2 <= without.unreached_mm2);
            assert!(with.corners.len() <= without.corners.len());
        }
        let left =
            |job: &Job| -> f64 { job.surveys.iter().map(|survey| survey.unreached_mm2).sum() };
        let corners =
            |job: &Job| -> usize { job.surveys.iter().map(|survey| survey.corners.len()).sum() };
        assert!(
            left(&job) < left(&without) / 5.0,
            "{} of {} mm²",
            left(&job),
            left(&without)
        );
        assert!(
            corners(&job) < corners(&without) / 5,
            "{} of {}",
            corners(&job),
            corners(&without)
        );
    }
}

/// The gravest of what the checks say of a job's programs, judged by another squareness than they were written for.
fn judged_as(job: &Job, squareness: Option<crate::job_file::JobSquareness>) -> Option<Severity> {
    let text = job.papers.iter().find(|paper| paper.path == JOB_FILE);
    let text = String::from_utf8(text.expect("a job file").bytes.clone()).expect("text");
    let mut file = crate::job_file::JobFile::from_json(&text).expect("a job file");
    assert!(file.machine.squareness.is_some());
    file.machine.squareness = squareness;
    let found = proof::check(&file, &texts(&job.programs), &Progress::new()).expect("not stopped");
    // What a program takes was recorded for the asked way, which no squareness changes.
    gravest(&found)
}

#[test]
fn a_machine_that_leans_gets_programs_that_cut_true_blocks() {
    let mut workshop = Workshop::starting();
    let leaning = bench::square::Map {
        scale_x: 1.0006,
        scale_y: 0.9991,
        skew: 0.0024,
    };
    workshop.machine.squareness = Some(leaning);
    let (commission, fonts) = order("&S8", 5.0, &["cone-60"]);
    let job = made(&commission, &workshop, &fonts);
    let stops: Vec<&Finding> = job
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .collect();
    assert!(stops.is_empty(), "{stops:#?}");
    for program in &job.programs {
        assert!(
            program.text.contains("Corrected for the squareness"),
            "{}",
            program.file
        );
    }
    // The walls of letters and blocks would be elsewhere on a machine that is true, or leans the other way.
    assert_eq!(judged_as(&job, None), Some(Severity::Stop));
    let other_way = crate::job_file::JobSquareness {
        scale_x: 1.0006,
        scale_y: 0.9991,
        skew_deg: -0.0024_f64.to_degrees(),
    };
    assert_eq!(judged_as(&job, Some(other_way)), Some(Severity::Stop));
    let none = crate::job_file::JobSquareness {
        scale_x: 3.0,
        ..other_way
    };
    assert_eq!(judged_as(&job, Some(none)), Some(Severity::Stop));
}

#[test]
fn drawings_are_cut_proven_and_printed_beside_letters() {
    use crate::commission::{DrawingSize, NamedDrawing};
    use crate::measure::Length;
    use crate::proof;

    let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"20mm\" height=\"20mm\" viewBox=\"0 0 20 20\">\
        <path fill-rule=\"evenodd\" d=\"M10 1C16 4 19 8 19 13 16 18 12 19 10 19 8 19 4 18 1 13 1 8 4 4 10 1Z M10 7L14 13H6Z\"/></svg>";
    let dxf = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\n0\n10\n5\n20\n5\n40\n5\n0\nCIRCLE\n8\n0\n10\n5\n20\n5\n40\n2.5\n0\nENDSEC\n0\nEOF\n";
    let (mut commission, mut fonts) = order("H", 4.0, &[]);
    for (id, size_mm, bytes) in [("leaf", 14.0, svg), ("ring", 11.0, dxf)] {
        let mut named = NamedDrawing::starting(id, &format!("{id}.drawing"));
        named.size = DrawingSize::Height(Length::mm(size_mm));
        commission.drawings.push(named);
        commission.bill.push(BillLine {
            face: id.to_owned(),
            glyph: GlyphChoice::Drawing,
            count: 2,
        });
        fonts.insert(id.to_owned(), Arc::from(bytes.as_bytes()));
    }
    let job = made(&commission, &Workshop::starting(), &fonts);
    let stops: Vec<&Finding> = job
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .collect();
    assert!(stops.is_empty(), "{stops:#?}");
    let text = |name: &str| {
        let files = job.files();
        let file = files.into_iter().find(|file| file.path == name);
        String::from_utf8(file.expect("it was made").bytes).expect("text")
    };
    let file = crate::job_file::JobFile::from_json(&text(JOB_FILE)).expect("a job file");
    let ids: Vec<&str> = file.art.iter().map(|art| art.id.as_str()).collect();
    assert_eq!(ids, ["leaf", "ring"]);
    assert_eq!(file.outlines.len(), 1);
    let art = file.sorts.iter().filter(|sort| sort.art.is_some());
    assert_eq!(art.count(), 4);
    // The leaf's own coordinates come to the face: its tip, 1 below the page's upper edge, lies highest.
    assert!(file.art[0].path.contains("10,-1"));
    // A job without what its art draws is refused, and so is one that says it of nothing.
    let programs: BTreeMap<String, String> = job
        .programs
        .iter()
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect();
    let mut bare = file.clone();
    bare.art[0].path.clear();
    let findings = proof::check(&bare, &programs, &Progress::new()).expect("nobody stops it");
    assert!(
        findings
            .iter()
            .any(|finding| finding.kind == "job-sort-unclear")
    );
    // As it prints, the ring stands on the base line's block and is no space.
    let fount = proof::impression::fount(&file, &programs, &Progress::new()).expect("it prints");
    let ring = fount
        .impressions
        .iter()
        .find(|one| (one.inked.area() - 71.3).abs() < 2.0);
    assert!(ring.is_some_and(|one| one.baseline_mm.is_some()));
}
