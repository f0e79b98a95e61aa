//! Squareness of the machine, from a test block's sides and diagonals, or from a square and a clock.
//!
//! ```text
//! bench square
//! asked 180 139.178         # width (x) and length (y) in the program
//! width 180.05 180.07       # measured, once or more often
//! length 139.20
//! rising 227.62             # diagonal from lower left to upper right, as the block lay on the machine, face up
//! falling 227.41            # from upper left to lower right
//! tool 0.02                 # how far the caliper may be off
//! corrected 1.0002 1 0.02   # the correction that the program was written with, if any
//! ```
//!
//! With a square and a clock there are no `asked`, sides and diagonals, but `clock x 200 0.00 0.03` (run 200 mm along x, the blade's
//! edge lay 0.03 mm further toward +y at the end) and `clock y 150 0.00 -0.05` (along y; toward +x).

mod file;
mod fitted;
mod map;
#[cfg(test)]
mod tests;

use said::{Said, Value};
use serde::Serialize;

use crate::texts;
pub use file::{Measured, Notes, read};
pub use fitted::{Block, Clocked, FAR_OFF, Found, SquareError, Uncertain, from_block, from_clock};
pub use map::Map;

/// How far a caliper for lengths of a test block may be off, mm: common practice, no source.
pub const TOOL_MM: f64 = 0.02;

/// What a notebook of squareness comes to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// What the machine still does to what it is asked for, with the correction that the program had.
    pub left: Found,
    /// Whether anything of that is more than the tool can be wrong.
    pub is_seen: bool,
    /// The correction that the program was written with.
    pub corrected: Option<Map>,
    /// What the machine does by itself: what programs are to be corrected for from now on.
    pub machine: Map,
}

/// Judges a notebook.
///
/// # Errors
/// Measures that belong to no block, or are far from what was asked for.
pub fn judge(notes: &Notes) -> Result<Judged, SquareError> {
    let left = match &notes.measured {
        Measured::Block(block) => from_block(block)?,
        Measured::Clocked(clocked) => from_clock(*clocked)?,
    };
    let is_seen = left.is_seen();
    let kept = notes.corrected.unwrap_or(Map::TRUE);
    Ok(Judged {
        left,
        is_seen,
        corrected: notes.corrected,
        // What cannot be seen is not corrected: it would only carry the tool's own errors into the blocks.
        machine: if is_seen { left.map.after(kept) } else { kept },
    })
}

impl Judged {
    /// The outcome in lines: the verdict first.
    pub fn in_words(&self) -> Vec<Said> {
        let verdict = match (self.is_seen, self.corrected) {
            (false, None) => texts::machine_true(),
            (false, Some(_)) => texts::correction_holds(),
            (true, None) => texts::machine_off(),
            (true, Some(_)) => texts::correction_off(),
        };
        let mut lines = vec![verdict, self.left.in_words()];
        if self.is_seen {
            lines.push(texts::correction(
                Value::plain(self.machine.scale_x, 6),
                Value::plain(self.machine.scale_y, 6),
                Value::plain(self.machine.skew_deg(), 5),
            ));
        }
        lines
    }
}
