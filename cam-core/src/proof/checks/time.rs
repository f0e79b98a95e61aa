//! Every program takes the time that was recorded for it.
//!
//! A change that does no harm by itself, such as a lost move in the air, still shows here.

use said::Value;

use super::super::bench::Bench;
use super::super::report;
use crate::finding::{Finding, texts};
use crate::progress::Stopped;
use crate::toolpath::duration::duration;

/// How far the times may differ, s: rounding in the job file and between processors.
const SLACK_S: f64 = 1e-5;

/// The same as a share of the time.
const SLACK_SHARE: f64 = 1e-9;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for program in &bench.programs {
        bench.progress.check()?;
        let Some(Ok(replay)) = &program.replay else {
            continue;
        };
        let recorded = program.entry.estimate_s;
        let id = &program.entry.plank;
        let planks = &bench.job.planks;
        let plank = planks.iter().position(|known| known.id == *id);
        let machine = plank.map_or(&bench.job.machine, |plank| bench.job.machine_of(plank));
        let found = duration(replay, &machine.limits());
        let near = (found - recorded).abs() <= SLACK_S + SLACK_SHARE * recorded.abs();
        if !near {
            findings.push(report::program(
                &program.entry.file,
                None,
                "time-differs",
                texts::time_differs(Value::rounded(found, 6), Value::rounded(recorded, 6)),
                texts::do_not_run(),
            ));
        }
    }
    Ok(findings)
}
