//! The collet nut stays clear of the plank's face.

use said::Value;

use super::super::bench::Bench;
use super::super::motion;
use super::super::report::{self, place};
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

/// The least air between the collet nut and the face, mm: chips must get away, and a cutter is never set to the last half millimetre
/// (common practice, no source).
const LEAST_AIR_MM: f64 = 1.0;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for run in bench.fresh_runs() {
        bench.progress.check()?;
        let Some(stick_out) = run.cutter.stick_out_mm else {
            continue;
        };
        let met = run
            .motions
            .iter()
            .filter(|read| motion::depths(read).0 > stick_out - LEAST_AIR_MM);
        findings.extend(met.map(|read| {
            report::program(
                run.file,
                Some(read.line),
                "holder-met",
                texts::holder_met(
                    Value::rounded((stick_out - motion::depths(read).0).max(0.0), 2),
                    place(read.to.xy),
                    &run.cutter.id,
                    Value::rounded(stick_out, 2),
                    Value::rounded(motion::depths(read).0, 2),
                ),
                texts::holder_met_remedy(),
            )
        }));
    }
    Ok(report::first_few(findings))
}
