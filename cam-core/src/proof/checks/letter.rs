//! No cut enters a letter.

use said::Value;

use super::super::bench::{Bench, ROUNDING_MM};
use super::super::report::{self, place};
use crate::finding::{Finding, Severity, texts};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let tolerance = bench.job.tolerance_mm;
    let findings = bench.each_copy(|copy, near| {
        near.iter()
            .filter(|near| near.inside || near.gap < -ROUNDING_MM.min(tolerance))
            .map(|near| {
                let (run, read) = bench.motion(near);
                let (cutter, sort) = (&run.cutter.id, &copy.sort.id);
                let (from, to) = (place(read.from.xy), place(read.to.xy));
                let into = Value::rounded(-near.gap, 3);
                let grazes = !near.inside && near.gap >= -tolerance;
                let (severity, text, remedy) = if grazes {
                    let most = Value::short(tolerance);
                    (
                        Severity::Warning,
                        texts::grazes_letter(cutter, into, sort, from, to, most),
                        texts::grazes_letter_remedy(),
                    )
                } else if near.inside {
                    let text = texts::starts_in_letter(cutter, sort, from, to);
                    (Severity::Stop, text, texts::do_not_run())
                } else {
                    let text = texts::cuts_into_letter(cutter, into, sort, from, to);
                    (Severity::Stop, text, texts::do_not_run())
                };
                Finding {
                    severity,
                    ..report::program(run.file, Some(read.line), "letter-cut", text, remedy)
                }
            })
            .collect()
    })?;
    Ok(report::first_few(findings))
}
