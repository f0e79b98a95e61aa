//! Every program ends, with the spindle off.

use reader::{Ending, Fault, Spindle};

use super::super::bench::Bench;
use super::super::report;
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for program in &bench.programs {
        let mut say = |line, kind, text| {
            let (file, remedy) = (&program.entry.file, texts::do_not_run());
            findings.push(report::program(file, line, kind, text, remedy));
        };
        let end = match &program.replay {
            Some(Ok(replay)) => &replay.end,
            Some(Err(error)) => {
                if is_missing(&error.fault) {
                    say(Some(error.line), "program-without-end", texts::cut_off());
                }
                continue;
            }
            None => continue,
        };
        match end.ending {
            Ending::M2 | Ending::M30 => {}
            Ending::Percent => say(
                Some(end.line),
                "program-without-end",
                texts::ends_by_percent(),
            ),
        }
        match end.spindle {
            Spindle::Off => {}
            Spindle::Clockwise { .. } | Spindle::Counterclockwise { .. } => say(
                Some(end.line),
                "program-ends-with-spindle-on",
                texts::ends_with_spindle(),
            ),
        }
    }
    Ok(findings)
}

/// Whether the reader came to the end of the text without one of the program.
pub(super) fn is_missing(fault: &Fault) -> bool {
    matches!(fault, Fault::NoEnd | Fault::PercentNotClosed)
}
