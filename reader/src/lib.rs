//! A reader of RS-274 programs for three-axis mills, written from the standard alone.
//!
//! It takes the parts of the language that a router for wood needs: straight and circular motion, dwells, units, absolute
//! and incremental distances, spindle, coolant, cutter changes, stops and ends. Whatever else the standard knows is
//! refused with a sentence that says why; nothing is passed over. The reading takes time in proportion to the text's length.
//!
//! Start state (as in the standard's reference interpreter): no motion active, G17, G90, G94, G40, G49, G54, millimetres,
//! spindle off, feed 0.
//!
//! # Source
//! NISTIR 6556 (2000), chapters 2 and 3; where its reference interpreter is stricter than the report, that is said.

mod arc;
mod block;
mod codes;
mod controller;
mod fault;
mod lexer;
mod replay;

#[cfg(test)]
mod tests;

use block::Block;
use controller::Controller;

pub use codes::Step;
pub use fault::{Fault, ReadError};
pub use replay::{
    Dwell, End, Ending, PathControl, Pause, PauseKind, Place, ReadCourse, ReadMotion, Replay,
    Spindle, ToolChange,
};

/// The most lines a program may have: a bound on memory for hostile text, four times the longest program of a full plank.
pub const MOST_LINES: usize = 2_000_000;

/// The longest line in characters, its end counted (NISTIR 6556 §3.3: 256 characters).
pub const LONGEST_LINE: usize = 256;

/// Reads a whole program and says what a controller would do.
///
/// Lengths come out in millimetres, feeds in millimetres a minute. The optional-delete switch is taken as off, so lines
/// with `/` are carried out; they are listed in [`Replay::optional_lines`].
///
/// # Errors
/// The first thing in the text that the standard forbids or that this reader does not support, with its line and column.
pub fn read(text: &str) -> Result<Replay, ReadError> {
    replay(text, &mut |_, _| {})
}

/// Lists the steps that a program calls for, in the order of execution, each with its line.
///
/// # Errors
/// As [`read`].
pub fn steps(text: &str) -> Result<Vec<(usize, Step)>, ReadError> {
    let mut steps = Vec::new();
    replay(text, &mut |line, step| steps.push((line, step)))?;
    Ok(steps)
}

/// Reads line by line until the program ends.
fn replay(text: &str, see: &mut impl FnMut(usize, Step)) -> Result<Replay, ReadError> {
    let mut controller = Controller::new();
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
        lexer::fill(&mut block, line)
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
