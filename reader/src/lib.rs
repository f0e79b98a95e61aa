//! A reader of RS-274 programs for three-axis mills, written from the standard alone.
//!
//! It takes the whole language as far as three straight axes go: straight and circular motion in all planes, cycles, probing,
//! dwells, units, absolute and incremental distances, inverse time, work coordinate systems and their offsets, reference points,
//! length offsets, spindle, coolant, cutter changes, stops and ends, parameters and expressions. Rotary axes are refused with a sentence
//! that says why, and so is cutter radius compensation (G41, G42) unless the caller tells the cutters' diameters; nothing is passed over.
//!
//! Lengths come out in millimetres. What only the machine knows (where a zero lies, where a probe touches) is never made up: every
//! place is told with the [`Datum`] that its numbers are counted from, and what else is left open stands in [`Replay::doubts`].
//!
//! Start state (as in the standard's reference interpreter): no motion active, G17, G90, G94, G40, G49, G54 without a shift by G92,
//! millimetres, spindle off, feed 0, no parameter set.
//!
//! Reading takes time in proportion to the text's length and the motions that it makes; both are bounded, as is the depth of
//! expressions, by the length of a line.
//!
//! # Source
//! NISTIR 6556 (2000), chapters 2 and 3; where its reference interpreter is stricter than the report, that is said.

mod arc;
mod beside;
mod block;
mod codes;
mod controller;
mod cutters;
mod datum;
mod fault;
mod lexer;
mod parameters;
mod replay;
mod value;

#[cfg(test)]
mod tests;

use block::Block;
use controller::Controller;

pub use codes::{Group, Plane, Step};
pub use cutters::{CutterTable, CutterTableError, MOST_SLOTS};
pub use datum::Datum;
pub use fault::{Fault, ReadError};
pub use parameters::MOST_PARAMETERS;
pub use replay::{
    Compensation, CoolantChange, CoolantWord, CycleRun, Doubt, DoubtKind, Dwell, End, Ending,
    Frame, Message, PathControl, Pause, PauseKind, Place, ReadCourse, ReadMotion, Replay, Side,
    Spindle, ToolChange, UprightArc, ZeroChange,
};

/// The most lines a program may have: a bound on memory for hostile text, four times the longest program of a full plank.
pub const MOST_LINES: usize = 2_000_000;

/// The longest line in characters, its end counted (NISTIR 6556 §3.3: 256 characters).
pub const LONGEST_LINE: usize = 256;

/// The most motions that a program may make, those of cycles and the pieces of upright arcs counted: a bound on memory.
pub const MOST_MOTIONS: usize = 2_000_000;

/// The most turns of one cycle (L): far more than any plate has holes.
pub const MOST_REPEATS: u32 = 10_000;

/// The most pecks of G83 in one hole: 0.01 mm each, 100 mm deep.
pub const MOST_PECKS: u32 = 10_000;

/// How far the straight pieces of arcs in upright planes may lie from them, mm: a quarter of what the standard allows arcs.
pub const CHORD_WITHIN_MM: f64 = 0.0005;

/// Reads a whole program and says what a controller would do.
///
/// Lengths come out in millimetres, feeds in millimetres a minute. The optional-delete switch is taken as off, so lines
/// with `/` are carried out; they are listed in [`Replay::optional_lines`].
///
/// # Errors
/// The first thing in the text that the standard forbids or that this reader does not support, with its line and column. Cutter radius
/// compensation is refused, since how far it moves the path is known to the machine alone; [`read_with`] takes it.
pub fn read(text: &str) -> Result<Replay, ReadError> {
    replay(text, None, &mut |_, _| {})
}

/// Reads a whole program as [`read`], with what is told of the machine's cutters, by which cutter radius compensation moves the path.
///
/// # Errors
/// As [`read`], and compensation by a cutter whose diameter is not told.
pub fn read_with(text: &str, cutters: &CutterTable) -> Result<Replay, ReadError> {
    replay(text, Some(cutters.clone()), &mut |_, _| {})
}

/// Lists the steps that a program calls for, in the order of execution, each with its line.
///
/// # Errors
/// As [`read`].
pub fn steps(text: &str) -> Result<Vec<(usize, Step)>, ReadError> {
    let mut steps = Vec::new();
    replay(text, None, &mut |line, step| steps.push((line, step)))?;
    Ok(steps)
}

/// Reads line by line until the program ends.
fn replay(
    text: &str,
    cutters: Option<CutterTable>,
    see: &mut impl FnMut(usize, Step),
) -> Result<Replay, ReadError> {
    let mut controller = Controller::new(cutters);
    let mut block = Block::new();
    let mut framed = None;
    let mut last_line = 0;
    for (index, line) in text.split('\n').enumerate() {
        let number = index + 1;
        let line = line.strip_suffix('\r').unwrap_or(line);
        let at_line_end = |fault| ReadError::new(number, line, line.len(), fault);
        if number > MOST_LINES && !line.is_empty() {
            return Err(at_line_end(Fault::TooManyLines));
        }
        if line.len() >= LONGEST_LINE && line.chars().count() >= LONGEST_LINE {
            return Err(at_line_end(Fault::LineTooLong));
        }
        last_line = number;
        if line.bytes().all(|byte| byte == b' ' || byte == b'\t') {
            continue;
        }
        if is_percent(line) {
            match framed {
                None => framed = Some(true),
                Some(true) => return Ok(controller.finish(number, Ending::Percent)),
                Some(false) => return Err(at_line_end(Fault::StrayPercent)),
            }
            continue;
        }
        framed.get_or_insert(false);
        lexer::fill(&mut block, line, &controller.parameters)
            .and_then(|()| controller.execute(&block, number, line, see))
            .map_err(|(at, fault)| ReadError::new(number, line, at, fault))?;
        if let Some(ending) = controller.ended() {
            return Ok(controller.finish(number, ending));
        }
    }
    let fault = match framed {
        Some(true) => Fault::PercentNotClosed,
        Some(false) | None => Fault::NoEnd,
    };
    Err(ReadError::new(last_line, "", 0, fault))
}

/// Whether the line holds a lone percent sign.
fn is_percent(line: &str) -> bool {
    line.trim_matches([' ', '\t']) == "%"
}
