//! Programs run in an order in which each finds the wood that it was made for.

use std::collections::BTreeMap;

use super::super::bench::Bench;
use super::super::report;
use super::super::runs::cuts_sides;
use crate::finding::Finding;
use crate::job_file::{JobCutter, JobCutterKind, JobRole};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let job = bench.job;
    let mut findings = Vec::new();
    let mut before: BTreeMap<&str, (JobRole, &JobCutter)> = BTreeMap::new();
    for program in &job.programs {
        let stages = std::iter::once((&program.cutter, program.role)).chain(
            program
                .changes
                .iter()
                .map(|change| (&change.cutter, change.role)),
        );
        for (id, role) in stages {
            let Some(cutter) = job.cutter(id) else {
                continue;
            };
            let found = before
                .insert(&program.plank, (role, cutter))
                .and_then(|last| fault(last, (role, cutter)));
            if let Some(why) = found {
                findings.push(report::program(
                    &program.file,
                    None,
                    "programs-out-of-order",
                    format!(
                        "The program comes too late on plank {}: {why}.",
                        program.plank
                    ),
                    "Do not run these programs in this order. Make the job again.",
                ));
            }
        }
    }
    Ok(findings)
}

/// Why one stage may not follow another on the same plank.
fn fault(
    (last_role, last): (JobRole, &JobCutter),
    (role, cutter): (JobRole, &JobCutter),
) -> Option<String> {
    let parts = |role| match role {
        JobRole::Separation => true,
        JobRole::Roughing
        | JobRole::Finishing
        | JobRole::Rest
        | JobRole::Corners
        | JobRole::Notches => false,
    };
    if parts(last_role) && !parts(role) {
        return Some(format!(
            "{} would cut blocks that {} has cut loose",
            cutter.id, last.id
        ));
    }
    let both_flat = last.kind == JobCutterKind::Flat && cutter.kind == JobCutterKind::Flat;
    if both_flat && !cuts_sides(role) && cutter.diameter_mm > last.diameter_mm {
        return Some(format!(
            "{} is to clear ground for {}, which is smaller and has run before",
            cutter.id, last.id
        ));
    }
    None
}
