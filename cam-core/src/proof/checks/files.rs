//! Every plank has its programs, and everything named is in the job file.

use std::collections::BTreeSet;

use super::super::bench::Bench;
use super::super::report::{self, MAKE_AGAIN};
use super::super::runs::cuts_sides;
use super::super::solid::is_cone;
use super::super::squareness;
use crate::finding::{Finding, Subject};
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
                format!("The program {} is missing.", entry.file),
                "Make the job again, or put the file back.",
            ));
        }
        if !job.planks.iter().any(|plank| plank.id == entry.plank) {
            findings.push(unnamed(&entry.file, "plank", &entry.plank));
        }
        let cutters =
            std::iter::once(&entry.cutter).chain(entry.changes.iter().map(|change| &change.cutter));
        for cutter in cutters.filter(|cutter| job.cutter(cutter).is_none()) {
            findings.push(unnamed(&entry.file, "cutter", cutter));
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
            "The job file gives the machine, a plank, the lane or the tolerance a size that is none."
                .to_owned(),
            "Make the job again.",
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
            format!(
                "The job file says that the machine moves {} times too far along x, {} along y, and leans by {} degrees: more than 2 %.",
                told.scale_x, told.scale_y, told.skew_deg
            ),
            "Measure a test block again, and make the job again.",
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
    let why = if !proper {
        "has a size that is none"
    } else if cutter.max_depth_mm > cutter.flute_length_mm {
        "may go deeper than its flutes are long"
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
            (JobCutterKind::Conical, _, _) => "has a tip and an angle that make no cone",
        }
    };
    Some(report::stop(
        Subject::Cutter(cutter.id.clone()),
        "cutter-not-judged",
        format!("Cutter {} {why}.", cutter.id),
        "Correct the cutter in the workshop, and make the job again.",
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
                format!(
                    "The blocks are to be cut out with {}, whose sides or end are not straight; the blocks would not be square.",
                    run.cutter.id
                ),
                "Choose a flat cutter for the separation, and make the job again.",
            )
        })
        .collect()
}

/// Ids that stand for two things.
fn twice(job: &JobFile) -> Vec<Finding> {
    let ids = job
        .sorts
        .iter()
        .map(|sort| ("sort", sort.id.as_str()))
        .chain(job.planks.iter().map(|plank| ("plank", plank.id.as_str())))
        .chain(
            job.cutters
                .iter()
                .map(|cutter| ("cutter", cutter.id.as_str())),
        )
        .chain(
            job.programs
                .iter()
                .map(|program| ("program", program.file.as_str())),
        );
    let mut seen = BTreeSet::new();
    ids.filter(|&id| !seen.insert(id))
        .map(|(what, id)| {
            report::stop(
                Subject::Commission,
                "job-id-twice",
                format!("The job file has two entries for {what} {id}."),
                "Make the job again.",
            )
        })
        .collect()
}

fn unnamed(file: &str, what: &str, id: &str) -> Finding {
    report::program(
        file,
        None,
        "program-names-unknown",
        format!("The program is for {what} {id}, which the job file does not describe."),
        MAKE_AGAIN,
    )
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
        for (present, what) in [(cuts, "cuts its letters"), (parts, "cuts its blocks out")] {
            if !present {
                findings.push(report::stop(
                    Subject::Plank(plank.id.clone()),
                    "plank-without-program",
                    format!("Plank {} has no program that {what}.", plank.id),
                    "Make the job again.",
                ));
            }
        }
    }
    findings
}
