//! Every program reads by the standard, keeps to the zero of the job and leaves nothing open. Its arcs, units and end are judged by
//! checks of their own.

use reader::{Datum, DoubtKind, Frame, ReadMotion, Replay, Spindle};
use said::Said;

use super::super::bench::Bench;
use super::super::report;
use super::super::runs;
use super::{arcs, ending};
use crate::finding::{Finding, texts};
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
                texts::program_unreadable(error.to_string()),
                texts::do_not_run(),
            )),
            Some(Ok(replay)) => read(program.entry, replay, &mut findings),
        }
    }
    Ok(findings)
}

fn read(entry: &JobProgram, replay: &Replay, findings: &mut Vec<Finding>) {
    let mut say = |line, kind, text| {
        let remedy = texts::do_not_run();
        findings.push(report::program(&entry.file, line, kind, text, remedy));
    };
    if let Some(line) = replay.optional_lines.first() {
        say(Some(*line), "program-optional-line", texts::optional_line());
    }
    if let Some((line, text)) = other_zero(replay) {
        say(Some(line), "program-other-zero", text);
    }
    if let Some(change) = replay.zero_changes.first() {
        say(
            Some(change.line),
            "program-moves-zero",
            texts::moves_zero(change.code.to_string()),
        );
    }
    if let Some(doubt) = replay.doubts.first() {
        say(Some(doubt.line), "program-left-open", left_open(doubt.kind));
    }
    if replay.motions.is_empty() {
        say(None, "program-empty", texts::program_empty());
    }
    let parts = runs::parts(replay).len();
    let wanted = entry.changes.len() + 1;
    if parts != wanted {
        say(
            None,
            "program-changes",
            texts::program_changes(parts, wanted),
        );
    }
    for pause in &replay.pauses {
        match pause.spindle {
            Spindle::Off => {}
            Spindle::Clockwise { .. } | Spindle::Counterclockwise { .. } => say(
                Some(pause.line),
                "pause-with-spindle-on",
                texts::pause_with_spindle(),
            ),
        }
    }
}

/// The first line from which the cutter moves by anything but the zero of G54 as it was set for the job.
fn other_zero(replay: &Replay) -> Option<(usize, Said)> {
    replay.framed().find_map(|(frame, motions)| {
        if let (Some(offset), Some(first)) = (frame.length_offset, motions.first()) {
            return Some((first.line, texts::length_offset(offset.to_string())));
        }
        motions.iter().find_map(|motion| {
            let datum = in_words(stray(frame, motion)?);
            Some((motion.line, texts::other_zero(datum)))
        })
    })
}

fn left_open(doubt: DoubtKind) -> Said {
    match doubt {
        DoubtKind::Probe => texts::left_open_by_probe(),
        DoubtKind::DrawnByHand => texts::left_open_by_hand(),
        DoubtKind::ReturnLevel => texts::left_open_return(),
        DoubtKind::RapidAtCorner => texts::left_open_rapid_at_corner(),
        DoubtKind::CutterUnderCompensation => texts::left_open_under_compensation(),
    }
}

/// What coordinates count from.
fn in_words(datum: Datum) -> Said {
    match datum {
        Datum::Work(system @ 1..=6) => texts::zero_of(format!("G{}", 53 + system)),
        Datum::Work(system) => texts::zero_of(format!("G59.{}", system.saturating_sub(6))),
        Datum::Machine => texts::machine_zero(),
        Datum::FirstReference => texts::reference_point("G28"),
        Datum::SecondReference => texts::reference_point("G30"),
        Datum::Kept(line) => texts::zero_set_in(line),
        Datum::Untold(0) => texts::at_the_start(),
        Datum::Untold(line) => texts::where_line_leaves(line),
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    /// The reader has names of its own for what coordinates count from; the finding has them again, so that they can be said in other languages.
    #[test]
    fn what_coordinates_count_from_is_called_as_the_reader_calls_it() {
        let works = (1..=9).map(Datum::Work);
        let others = [
            Datum::Machine,
            Datum::FirstReference,
            Datum::SecondReference,
            Datum::Kept(12),
            Datum::Untold(0),
            Datum::Untold(7),
        ];
        for datum in works.chain(others) {
            assert_eq!(in_words(datum).as_str(), datum.to_string());
        }
    }

    #[test]
    fn doubts_are_told_as_the_reader_tells_them() {
        for doubt in [
            DoubtKind::Probe,
            DoubtKind::DrawnByHand,
            DoubtKind::ReturnLevel,
        ] {
            let told = left_open(doubt);
            assert!(told.ends_with(&format!(": {doubt}.")), "{told}");
        }
    }
}
