//! Every program reads by the standard, states its units and ends by stopping the machine.

use reader::{Ending, Replay, Spindle};

use super::super::bench::Bench;
use super::super::report::{self, MAKE_AGAIN};
use super::super::runs;
use crate::finding::Finding;
use crate::job_file::JobProgram;
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for program in &bench.programs {
        match &program.replay {
            None => {}
            Some(Err(error)) => findings.push(report::program(
                &program.entry.file,
                Some(error.line),
                "program-unreadable",
                format!("The program cannot be read: {error}."),
                MAKE_AGAIN,
            )),
            Some(Ok(replay)) => read(program.entry, replay, &mut findings),
        }
    }
    Ok(findings)
}

fn read(entry: &JobProgram, replay: &Replay, findings: &mut Vec<Finding>) {
    let mut say = |line, kind, text: String| {
        findings.push(report::program(&entry.file, line, kind, text, MAKE_AGAIN));
    };
    if !replay.units_stated {
        say(
            None,
            "program-without-units",
            "The program does not say whether it is in millimetres or inches before it moves."
                .to_owned(),
        );
    }
    match replay.end.ending {
        Ending::M2 | Ending::M30 => {}
        Ending::Percent => say(
            Some(replay.end.line),
            "program-without-end",
            "The program ends without M2 or M30, so the spindle would go on turning.".to_owned(),
        ),
    }
    match replay.end.spindle {
        Spindle::Off => {}
        Spindle::Clockwise { .. } | Spindle::Counterclockwise { .. } => say(
            Some(replay.end.line),
            "program-ends-with-spindle-on",
            "The program does not stop the spindle (M5) before it ends.".to_owned(),
        ),
    }
    if let Some(line) = replay.optional_lines.first() {
        say(
            Some(*line),
            "program-optional-line",
            "A switch on the machine can skip this line, so what will be cut is not certain."
                .to_owned(),
        );
    }
    if replay.work_system != 1 {
        say(
            None,
            "program-other-zero",
            "The program works in another coordinate system than the first (G54).".to_owned(),
        );
    }
    if replay.motions.is_empty() {
        say(
            None,
            "program-empty",
            "The program does not move at all.".to_owned(),
        );
    }
    let parts = runs::parts(replay).len();
    let wanted = entry.changes.len() + 1;
    if parts != wanted {
        say(
            None,
            "program-changes",
            format!(
                "The program has {parts} parts between pauses, but is for {wanted} cutters in turn."
            ),
        );
    }
    for pause in &replay.pauses {
        match pause.spindle {
            Spindle::Off => {}
            Spindle::Clockwise { .. } | Spindle::Counterclockwise { .. } => say(
                Some(pause.line),
                "pause-with-spindle-on",
                "The program pauses while the spindle turns.".to_owned(),
            ),
        }
    }
}
