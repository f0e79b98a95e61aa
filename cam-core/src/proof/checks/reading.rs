//! Every program reads by the standard, keeps to the zero of the job and leaves nothing open. Its arcs, units and end are judged by
//! checks of their own.

use reader::{Datum, Frame, ReadMotion, Replay, Spindle};

use super::super::bench::Bench;
use super::super::report::{self, MAKE_AGAIN};
use super::super::runs;
use super::{arcs, ending};
use crate::finding::Finding;
use crate::job_file::JobProgram;
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for program in &bench.programs {
        match &program.replay {
            None => {}
            Some(Err(error)) if arcs::is_off(&error.fault) || ending::is_missing(&error.fault) => {}
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
    if let Some(line) = replay.optional_lines.first() {
        say(
            Some(*line),
            "program-optional-line",
            "A switch on the machine can skip this line, so what will be cut is not certain."
                .to_owned(),
        );
    }
    if let Some((line, text)) = other_zero(replay) {
        say(Some(line), "program-other-zero", text);
    }
    if let Some(change) = replay.zero_changes.first() {
        say(
            Some(change.line),
            "program-moves-zero",
            format!(
                "The program changes a zero of the machine ({}), which later programs would count from.",
                change.code
            ),
        );
    }
    if let Some(doubt) = replay.doubts.first() {
        say(
            Some(doubt.line),
            "program-left-open",
            format!(
                "The program leaves open where the cutter goes: {}.",
                doubt.kind
            ),
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

/// The first line from which the cutter moves by anything but the zero of G54 as it was set for the job.
fn other_zero(replay: &Replay) -> Option<(usize, String)> {
    replay.framed().find_map(|(frame, motions)| {
        if let (Some(offset), Some(first)) = (frame.length_offset, motions.first()) {
            let text = format!(
                "The program counts heights by a length offset (H{offset}) that the machine keeps."
            );
            return Some((first.line, text));
        }
        motions.iter().find_map(|motion| {
            let datum = stray(frame, motion)?;
            let text =
                format!("The program counts from {datum}, not from the zero of the job (G54).");
            Some((motion.line, text))
        })
    })
}

/// What a motion is counted from, if that is not the zero of G54. An axis that was never named and stands still counts from nothing.
fn stray(frame: &Frame, motion: &ReadMotion) -> Option<Datum> {
    let (from, to) = (motion.from, motion.to);
    let still = [from.xy.x == to.xy.x, from.xy.y == to.xy.y, from.z == to.z];
    let mut axes = frame.datums.into_iter().zip(still);
    axes.find_map(|(datum, still)| match datum {
        Datum::Work(1) => None,
        Datum::Untold(0) if still => None,
        Datum::Work(_)
        | Datum::Machine
        | Datum::FirstReference
        | Datum::SecondReference
        | Datum::Kept(_)
        | Datum::Untold(_) => Some(datum),
    })
}
