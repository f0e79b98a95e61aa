//! Every plank has its programs, and everything named is in the job file.

use std::collections::BTreeSet;

use said::{Said, Value};

use super::super::bench::Bench;
use super::super::report;
use super::super::runs::cuts_sides;
use super::super::solid::is_cone;
use super::super::squareness;
use crate::finding::{Finding, Subject, texts};
use crate::job_file::{JobCutter, JobCutterKind, JobFile, JobRole, JobSeparation};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let job = bench.job;
    let mut findings = bench.stock.faults.clone();
    findings.extend(limits(job));
    findings.extend(unsquare(job));
    findings.extend(job.cutters.iter().filter_map(unusable));
    findings.extend(twice(job));
    for program in &bench.programs {
        let entry = program.entry;
        if program.text.is_none() {
            findings.push(report::program(
                &entry.file,
                None,
                "program-missing",
                texts::program_missing(&entry.file),
                texts::program_missing_remedy(),
            ));
        }
        if !job.planks.iter().any(|plank| plank.id == entry.plank) {
            let text = texts::program_for_no_plank(&entry.plank);
            findings.push(unnamed(&entry.file, text));
        }
        let cutters =
            std::iter::once(&entry.cutter).chain(entry.changes.iter().map(|change| &change.cutter));
        for cutter in cutters.filter(|cutter| job.cutter(cutter).is_none()) {
            let text = texts::program_for_no_cutter(cutter);
            findings.push(unnamed(&entry.file, text));
        }
    }
    findings.extend(parted_unflat(bench));
    findings.extend(planks_without(job));
    Ok(findings)
}

/// Numbers without which nothing can be judged.
fn limits(job: &JobFile) -> Option<Finding> {
    let others = job.planks.iter().filter_map(|plank| plank.machine.as_ref());
    let triples = std::iter::once(&job.machine)
        .chain(others)
        .flat_map(|machine| {
            [
                machine.travel_mm,
                machine.max_feed_mm_min,
                machine.rapid_mm_min,
                machine.acceleration_mm_s2,
            ]
        });
    let sizes = [job.lane_mm, job.tolerance_mm].into_iter();
    let planks = job
        .planks
        .iter()
        .flat_map(|plank| [plank.width_mm, plank.length_mm, plank.height_to_paper_mm]);
    let proper = triples
        .flatten()
        .chain(sizes)
        .chain(planks)
        .all(|value| value.is_finite() && value > 0.0);
    (!proper).then(|| {
        report::stop(
            Subject::Commission,
            "job-numbers",
            texts::job_numbers(),
            texts::make_again(),
        )
    })
}

/// A squareness that no machine has: what the programs do could not be told.
fn unsquare(job: &JobFile) -> Option<Finding> {
    let told = job.machine.squareness.as_ref()?;
    (!squareness::is_usable(told)).then(|| {
        report::stop(
            Subject::Commission,
            "job-squareness",
            texts::job_squareness(
                Value::short(told.scale_x),
                Value::short(told.scale_y),
                Value::short(told.skew_deg),
            ),
            texts::job_squareness_remedy(),
        )
    })
}

/// A cutter that these checks cannot judge.
fn unusable(cutter: &JobCutter) -> Option<Finding> {
    let proper = [
        cutter.diameter_mm,
        cutter.flute_length_mm,
        cutter.max_depth_mm,
    ]
    .into_iter()
    .all(|size| size.is_finite() && size > 0.0);
    let text = if !proper {
        texts::cutter_of_no_size(&cutter.id)
    } else if cutter.max_depth_mm > cutter.flute_length_mm {
        texts::cutter_beyond_flutes(&cutter.id)
    } else {
        match (
            cutter.kind,
            cutter.tip_diameter_mm,
            cutter.included_angle_deg,
        ) {
            (JobCutterKind::Flat | JobCutterKind::Ball, _, _) => return None,
            (JobCutterKind::Conical, Some(tip), Some(angle))
                if is_cone(tip, angle, cutter.diameter_mm) =>
            {
                return None;
            }
            (JobCutterKind::Conical, _, _) => texts::cutter_of_no_cone(&cutter.id),
        }
    };
    Some(report::stop(
        Subject::Cutter(cutter.id.clone()),
        "cutter-not-judged",
        text,
        texts::cutter_not_judged_remedy(),
    ))
}

/// Blocks parted with a cutter that leaves their sides slanting.
fn parted_unflat(bench: &Bench) -> Vec<Finding> {
    bench
        .fresh_runs()
        .filter(|run| run.cuts_sides() && !run.solid.is_flat())
        .map(|run| {
            report::program(
                run.file,
                None,
                "sides-not-square",
                texts::sides_not_square(&run.cutter.id),
                texts::sides_not_square_remedy(),
            )
        })
        .collect()
}

/// What a finding says of an id that is there twice.
type Twice = fn(&str) -> Said;

/// Ids that stand for two things.
fn twice(job: &JobFile) -> Vec<Finding> {
    let sorts = job.sorts.iter().map(|sort| sort.id.as_str());
    let planks = job.planks.iter().map(|plank| plank.id.as_str());
    let cutters = job.cutters.iter().map(|cutter| cutter.id.as_str());
    let programs = job.programs.iter().map(|program| program.file.as_str());
    let all: [(Vec<&str>, Twice); 4] = [
        (sorts.collect(), |id| texts::sort_twice(id)),
        (planks.collect(), |id| texts::plank_twice(id)),
        (cutters.collect(), |id| texts::cutter_twice(id)),
        (programs.collect(), |id| texts::program_twice(id)),
    ];
    let mut findings = Vec::new();
    for (ids, is_twice) in all {
        let mut seen = BTreeSet::new();
        findings.extend(ids.into_iter().filter(|id| !seen.insert(*id)).map(|id| {
            report::stop(
                Subject::Commission,
                "job-id-twice",
                is_twice(id),
                texts::make_again(),
            )
        }));
    }
    findings
}

fn unnamed(file: &str, text: Said) -> Finding {
    let kind = "program-names-unknown";
    report::program(file, None, kind, text, texts::do_not_run())
}

/// Planks with sorts but without a program to cut them, or to part them where a router is to.
fn planks_without(job: &JobFile) -> Vec<Finding> {
    let mut findings = Vec::new();
    let used: BTreeSet<&str> = job.sorts.iter().map(|sort| sort.plank.as_str()).collect();
    for plank in job
        .planks
        .iter()
        .filter(|plank| used.contains(plank.id.as_str()))
    {
        let roles: BTreeSet<JobRole> = job
            .programs
            .iter()
            .filter(|program| program.plank == plank.id)
            .flat_map(|program| {
                std::iter::once(program.role)
                    .chain(program.changes.iter().map(|change| change.role))
            })
            .collect();
        let cuts = roles.iter().any(|role| !cuts_sides(*role));
        let parts = match job.separation {
            JobSeparation::Router => roles.contains(&JobRole::Separation),
            JobSeparation::Saw => true,
        };
        let id = &plank.id;
        let wanted = [
            (cuts, texts::plank_without_letters(id)),
            (parts, texts::plank_without_separation(id)),
        ];
        for (present, text) in wanted {
            if !present {
                findings.push(report::stop(
                    Subject::Plank(plank.id.clone()),
                    "plank-without-program",
                    text,
                    texts::make_again(),
                ));
            }
        }
    }
    findings
}
