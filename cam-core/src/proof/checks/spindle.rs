//! The spindle turns, forward and at a speed that the machine has and the cutter is set to, before the cutter is fed.

use reader::{ReadCourse, Spindle};
use said::Value;

use super::super::bench::Bench;
use super::super::report;
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

/// How far a speed may pass the machine's limit, or differ from the cutter's, by rounding, turns a minute.
const ROUNDING_RPM: f64 = 0.5 + 1e-9;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for run in bench.fresh_runs() {
        let [slowest, fastest] = bench.job.machine_of(run.plank).spindle_rpm;
        let mut before = None;
        for read in &run.motions {
            // Rapids in the air may run with the spindle off; every feed is a cut, or leads to one.
            if matches!(read.course, ReadCourse::Rapid) && read.to.z >= 0.0 {
                continue;
            }
            if before == Some(read.spindle) {
                continue;
            }
            before = Some(read.spindle);
            let text = match read.spindle {
                Spindle::Off => texts::spindle_still(),
                Spindle::Counterclockwise { .. } => texts::spindle_backward(),
                Spindle::Clockwise { rpm } => {
                    let known = slowest - ROUNDING_RPM <= rpm && rpm <= fastest + ROUNDING_RPM;
                    match run.cutter.spindle_rpm {
                        _ if !known => texts::spindle_out_of_range(
                            Value::short(rpm),
                            Value::short(slowest),
                            Value::short(fastest),
                        ),
                        Some(set) if (rpm - set).abs() > ROUNDING_RPM => {
                            let (turns, set) = (Value::short(rpm), Value::short(set));
                            texts::spindle_not_as_set(turns, &run.cutter.id, set)
                        }
                        Some(_) | None => continue,
                    }
                }
            };
            findings.push(report::program(
                run.file,
                Some(read.line),
                "spindle",
                text,
                texts::do_not_run(),
            ));
        }
    }
    Ok(report::first_few(findings))
}
