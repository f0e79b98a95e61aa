//! No cut is deeper than the floor asked for, the cutter allows, or the plank is thick.

use super::super::bench::{Bench, ROUNDING_MM};
use super::super::motion;
use super::super::report::{self, MAKE_AGAIN, place};
use crate::finding::Finding;
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for run in bench.fresh_runs() {
        bench.progress.check()?;
        let plank = &bench.job.planks[run.plank];
        let cutter = run.cutter;
        for read in &run.motions {
            let (deepest, _) = motion::depths(read);
            let limit = if deepest > plank.height_to_paper_mm + ROUNDING_MM {
                format!("the plank is {:.3} mm thick", plank.height_to_paper_mm)
            } else if deepest > cutter.max_depth_mm + ROUNDING_MM {
                format!("{} may go {:.3} mm deep", cutter.id, cutter.max_depth_mm)
            } else {
                continue;
            };
            findings.push(report::program(
                run.file,
                Some(read.line),
                "too-deep",
                format!(
                    "The cutter goes {deepest:.3} mm below the face at {}; {limit}.",
                    place(read.to.xy)
                ),
                MAKE_AGAIN,
            ));
        }
    }
    findings.extend(bench.each_copy(|copy, near| {
        let relief = copy.sort.relief_mm;
        near.iter()
            .map(|near| bench.motion(near))
            .filter(|(run, _)| !run.cuts_sides())
            .filter(|(_, read)| motion::depths(read).0 > relief + ROUNDING_MM)
            .map(|(run, read)| {
                report::program(
                    run.file,
                    Some(read.line),
                    "deeper-than-floor",
                    format!(
                        "The cutter goes {:.3} mm below the face at {}, by sort {}, whose floor is to be {relief:.3} mm deep.",
                        motion::depths(read).0,
                        place(read.to.xy),
                        copy.sort.id
                    ),
                    MAKE_AGAIN,
                )
            })
            .collect()
    })?);
    Ok(report::first_few(findings))
}
