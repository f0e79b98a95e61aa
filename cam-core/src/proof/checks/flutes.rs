//! No cutter goes deeper than its flutes: above them the shank rubs.

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
        let flutes = run.cutter.flute_length_mm;
        let beyond = run
            .motions
            .iter()
            .map(|read| (read, motion::depths(read).0))
            .filter(|(_, deepest)| *deepest > flutes + ROUNDING_MM);
        findings.extend(beyond.map(|(read, deepest)| {
            report::program(
                run.file,
                Some(read.line),
                "deeper-than-flutes",
                texts::deeper_than_flutes(
                    Value::rounded(deepest, 3),
                    place(read.to.xy),
                    &run.cutter.id,
                    Value::rounded(flutes, 3),
                ),
                texts::do_not_run(),
            )
        }));
    }
    Ok(report::first_few(findings))
}
