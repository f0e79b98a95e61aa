//! A job with a cone, made from a real font: accepted as it is, refused when one motion of one copy is changed.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::*;
use crate::commission::{BillLine, Commission, Face, GlyphChoice, Permission, Separation};
use crate::digest::sha256_hex;
use crate::finding::Subject;
use crate::job_file::JobRole;
use crate::make::{Fonts, JOB_FILE, make};
use crate::measure::System;
use crate::workshop::Workshop;

/// Two copies of a W, with two flat cutters and a cone, parted by a saw.
fn job() -> (JobFile, BTreeMap<String, String>) {
    let face = Face {
        id: "main".into(),
        file: "face.ttf".into(),
        sha256: String::new(),
        index: 0,
        variations: BTreeMap::new(),
        permission: Permission::default(),
    };
    let mut commission = Commission::starting("Two of a kind", System::Pica, 4.0, face);
    commission.bill = vec![BillLine {
        face: "main".into(),
        glyph: GlyphChoice::Character {
            character: 'W',
            features: Vec::new(),
        },
        count: 2,
    }];
    commission.cutting.cutters = ["flat-3", "flat-0.8", "cone-60"]
        .map(str::to_owned)
        .to_vec();
    commission.planks.separation = Separation::Saw;
    let fonts: Fonts = BTreeMap::from([(
        "main".to_owned(),
        Arc::from(epaint_default_fonts::UBUNTU_LIGHT),
    )]);
    let made = make(&commission, &Workshop::starting(), &fonts, &Progress::new())
        .unwrap_or_else(|error| panic!("{error}"));
    let text = made
        .papers
        .iter()
        .find(|paper| paper.path == JOB_FILE)
        .map(|paper| String::from_utf8_lossy(&paper.bytes).into_owned())
        .expect("every make writes a job file");
    let programs = made
        .programs
        .iter()
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect();
    (JobFile::from_json(&text).expect("it reads back"), programs)
}

/// The stops other than of its time that a changed line brings about.
fn stops(
    job: &JobFile,
    programs: &BTreeMap<String, String>,
    file: &str,
    line: usize,
    changed: &str,
) -> Vec<Finding> {
    let (mut job, mut programs) = (job.clone(), programs.clone());
    let text: String = programs[file]
        .lines()
        .enumerate()
        .map(|(at, kept)| format!("{}\n", if at == line { changed } else { kept }))
        .collect();
    for program in job.programs.iter_mut().filter(|entry| entry.file == file) {
        program.sha256 = sha256_hex(text.as_bytes());
    }
    programs.insert(file.to_owned(), text);
    findings(&job, &programs)
        .into_iter()
        .filter(|finding| finding.severity == Severity::Stop && finding.kind != "time-differs")
        .collect()
}

/// A line with the number after a letter changed by so much.
fn moved(line: &str, letter: char, by: f64) -> Option<String> {
    let at = line.find(letter)? + 1;
    let end = line[at..]
        .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .map_or(line.len(), |length| at + length);
    let value: f64 = line[at..end].parse().ok()?;
    Some(format!("{}{:.3}{}", &line[..at], value + by, &line[end..]))
}

#[test]
fn a_changed_motion_of_a_cone_is_refused() {
    let (job, programs) = job();
    assert_eq!(
        findings(&job, &programs)
            .into_iter()
            .filter(|finding| finding.severity == Severity::Stop)
            .collect::<Vec<_>>(),
        []
    );
    let entry = job
        .programs
        .iter()
        .find(|program| program.role == JobRole::Corners)
        .expect("a W has corners");
    let text = &programs[&entry.file];
    // Feeds along a groove, which rise as they go across.
    let grooves: Vec<(usize, &str)> = text
        .lines()
        .enumerate()
        .filter(|(_, line)| line.contains('X') && line.contains('Z') && line.contains('F'))
        .collect();
    assert!(grooves.len() >= 4, "{} grooves", grooves.len());
    let (mut tried, mut refused) = (0, 0);
    for &(number, line) in &grooves {
        for (letter, by) in [('Z', -0.05), ('X', 0.05), ('Y', -0.05), ('Z', 0.15)] {
            let Some(changed) = moved(line, letter, by) else {
                continue;
            };
            let found = stops(&job, &programs, &entry.file, number, &changed);
            tried += 1;
            refused += u32::from(!found.is_empty());
            if (letter, by) == ('Z', -0.05) {
                assert!(
                    found.iter().any(|finding| finding.kind == "letter-cut"),
                    "{line} -> {changed}: {found:?}"
                );
            }
        }
    }
    assert!(refused * 10 >= tried * 9, "{refused} of {tried}");
}

#[test]
fn a_cone_that_takes_more_than_it_is_set_to_take_is_told() {
    let (job, programs) = job();
    let corners = |job: &JobFile| -> Vec<String> {
        let file = &job
            .programs
            .iter()
            .find(|program| program.role == JobRole::Corners)
            .expect("a W has corners")
            .file;
        findings(job, &programs)
            .into_iter()
            .filter(|finding| ["load", "cut-too-heavy"].contains(&finding.kind))
            .filter(|finding| finding.text.contains("cone-60"))
            .map(|finding| format!("{file}: {}", finding.text))
            .collect()
    };
    assert_eq!(corners(&job), Vec::<String>::new());
    let mut shallower = job.clone();
    for cutter in &mut shallower.cutters {
        if cutter.id == "cone-60" {
            cutter.step_down_mm = cutter.step_down_mm.map(|layer| layer / 8.0);
        }
    }
    assert!(!corners(&shallower).is_empty());
}

#[test]
fn one_copy_of_two_that_is_changed_is_refused_and_named() {
    let (job, programs) = job();
    let mut seen = 0;
    for entry in &job.programs {
        let text = &programs[&entry.file];
        // The deepest plunges: of each copy some, in the order in which they are cut.
        let plunges: Vec<(usize, &str)> = text
            .lines()
            .enumerate()
            .filter(|(_, line)| line.starts_with("G1 Z-") || line.contains(" Z-"))
            .collect();
        for &(number, line) in [plunges.first(), plunges.last()].into_iter().flatten() {
            let Some(changed) = moved(line, 'Z', 0.4) else {
                continue;
            };
            let found = stops(&job, &programs, &entry.file, number, &changed);
            let copies: Vec<&str> = job
                .sorts
                .iter()
                .map(|sort| sort.id.as_str())
                .filter(|id| {
                    found.iter().any(|finding| match &finding.subject {
                        Subject::Sort(subject) => subject == id,
                        Subject::Commission
                        | Subject::Face(_)
                        | Subject::Cutter(_)
                        | Subject::Plank(_)
                        | Subject::Program { .. } => finding.text.contains(id),
                    })
                })
                .collect();
            assert!(
                copies.len() <= 1,
                "{}: {line} -> {changed}: {copies:?}",
                entry.file
            );
            seen += copies.len();
        }
    }
    assert!(seen >= 2, "{seen} changes were laid to a copy");
}
