//! No cut is deeper than the floor asked for, the cutter allows, or the plank is thick.

use said::Value;

use super::super::bench::{Bench, ROUNDING_MM};
use super::super::motion;
use super::super::report::{self, place};
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for run in bench.fresh_runs() {
        bench.progress.check()?;
        let plank = &bench.job.planks[run.plank];
        let cutter = run.cutter;
        for read in &run.motions {
            let (deepest, _) = motion::depths(read);
            let (depth, at) = (Value::rounded(deepest, 3), place(read.to.xy));
            let text = if deepest > plank.height_to_paper_mm + ROUNDING_MM {
                let thickness = Value::rounded(plank.height_to_paper_mm, 3);
                texts::deeper_than_plank(depth, at, thickness)
            } else if deepest > cutter.max_depth_mm + ROUNDING_MM {
                let most = Value::rounded(cutter.max_depth_mm, 3);
                texts::deeper_than_cutter(depth, at, &cutter.id, most)
            } else {
                continue;
            };
            findings.push(report::program(
                run.file,
                Some(read.line),
                "too-deep",
                text,
                texts::do_not_run(),
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
                    texts::deeper_than_floor(
                        Value::rounded(motion::depths(read).0, 3),
                        place(read.to.xy),
                        &copy.sort.id,
                        Value::rounded(relief, 3),
                    ),
                    texts::do_not_run(),
                )
            })
            .collect()
    })?);
    Ok(report::first_few(findings))
}
