//! No cut enters a letter.

use super::super::bench::{Bench, ROUNDING_MM};
use super::super::report::{self, MAKE_AGAIN, place};
use crate::finding::{Finding, Severity};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let tolerance = bench.job.tolerance_mm;
    let findings = bench.each_copy(|copy, near| {
        near.iter()
            .filter(|near| near.inside || near.gap < -ROUNDING_MM.min(tolerance))
            .map(|near| {
                let (run, read) = bench.motion(near);
                let into = if near.inside {
                    format!("starts inside the letter of sort {}", copy.sort.id)
                } else {
                    format!(
                        "cuts {:.3} mm into the letter of sort {}",
                        -near.gap, copy.sort.id
                    )
                };
                let mut finding = report::program(
                    run.file,
                    Some(read.line),
                    "letter-cut",
                    format!(
                        "Cutter {} {into}, between {} and {}.",
                        run.cutter.id,
                        place(read.from.xy),
                        place(read.to.xy)
                    ),
                    MAKE_AGAIN,
                );
                if !near.inside && near.gap >= -tolerance {
                    finding.severity = Severity::Warning;
                    finding.text += &format!(" The tolerance is {tolerance} mm.");
                    "Look at this place in the proof, or make the job with a finer tolerance."
                        .clone_into(&mut finding.remedy);
                }
                finding
            })
            .collect()
    })?;
    Ok(report::first_few(findings))
}
