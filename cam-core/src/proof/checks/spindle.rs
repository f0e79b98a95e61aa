//! The spindle turns, forward and at a speed that the machine has and the cutter is set to, before the cutter is fed.

use reader::{ReadCourse, Spindle};

use super::super::bench::Bench;
use super::super::report::{self, MAKE_AGAIN};
use crate::finding::Finding;
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
                Spindle::Off => "The cutter is fed with the spindle standing still.".to_owned(),
                Spindle::Counterclockwise { .. } => {
                    "The spindle turns backward, against the cutting edges.".to_owned()
                }
                Spindle::Clockwise { rpm } => {
                    let known = slowest - ROUNDING_RPM <= rpm && rpm <= fastest + ROUNDING_RPM;
                    match run.cutter.spindle_rpm {
                        _ if !known => format!(
                            "The spindle is to turn at {rpm} a minute; the machine turns at {slowest} to {fastest}."
                        ),
                        Some(set) if (rpm - set).abs() > ROUNDING_RPM => format!(
                            "The spindle is to turn at {rpm} a minute; {} is run at {set}, for which its feeds are set.",
                            run.cutter.id
                        ),
                        Some(_) | None => continue,
                    }
                }
            };
            findings.push(report::program(
                run.file,
                Some(read.line),
                "spindle",
                text,
                MAKE_AGAIN,
            ));
        }
    }
    Ok(report::first_few(findings))
}
