//! Programs run in an order in which each finds the wood that it was made for.

use std::collections::BTreeMap;

use said::Said;

use super::super::bench::Bench;
use super::super::report;
use super::super::runs::cuts_sides;
use crate::finding::{Finding, texts};
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
                .and_then(|last| fault(&program.plank, last, (role, cutter)));
            if let Some(text) = found {
                findings.push(report::program(
                    &program.file,
                    None,
                    "programs-out-of-order",
                    text,
                    texts::out_of_order_remedy(),
                ));
            }
        }
    }
    Ok(findings)
}

/// Why one stage may not follow another on the same plank.
fn fault(
    plank: &str,
    (last_role, last): (JobRole, &JobCutter),
    (role, cutter): (JobRole, &JobCutter),
) -> Option<Said> {
    let parts = |role| match role {
        JobRole::Separation => true,
        JobRole::Roughing
        | JobRole::Finishing
        | JobRole::Rest
        | JobRole::Corners
        | JobRole::Notches => false,
    };
    if parts(last_role) && !parts(role) {
        return Some(texts::cuts_loose_blocks(plank, &cutter.id, &last.id));
    }
    let both_flat = last.kind == JobCutterKind::Flat && cutter.kind == JobCutterKind::Flat;
    if both_flat && !cuts_sides(role) && cutter.diameter_mm > last.diameter_mm {
        return Some(texts::clears_for_smaller(plank, &cutter.id, &last.id));
    }
    None
}
