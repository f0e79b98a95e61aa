//! Every program ends, with the spindle off.

use reader::{Ending, Fault, Spindle};

use super::super::bench::Bench;
use super::super::report::{self, MAKE_AGAIN};
use crate::finding::Finding;
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for program in &bench.programs {
        let mut say = |line, kind, text: &str| {
            let file = &program.entry.file;
            findings.push(report::program(
                file,
                line,
                kind,
                text.to_owned(),
                MAKE_AGAIN,
            ));
        };
        let end = match &program.replay {
            Some(Ok(replay)) => &replay.end,
            Some(Err(error)) => {
                if is_missing(&error.fault) {
                    let text = "The program is cut off: nothing ends it.";
                    say(Some(error.line), "program-without-end", text);
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
                "The program ends without M2 or M30, so the spindle would go on turning.",
            ),
        }
        match end.spindle {
            Spindle::Off => {}
            Spindle::Clockwise { .. } | Spindle::Counterclockwise { .. } => say(
                Some(end.line),
                "program-ends-with-spindle-on",
                "The program does not stop the spindle (M5) before it ends.",
            ),
        }
    }
    Ok(findings)
}

/// Whether the reader came to the end of the text without one of the program.
pub(super) fn is_missing(fault: &Fault) -> bool {
    matches!(fault, Fault::NoEnd | Fault::PercentNotClosed)
}
