//! Letters and drawings that are cut apart along lines of the maker's.

use super::{Commission, GlyphChoice};
use crate::measure::Length;

/// A letter or drawing that is cut apart along lines, into sorts that join.
#[derive(Clone, Debug, PartialEq)]
pub struct CutApart {
    /// The face, or the drawing, by its id.
    pub face: String,
    /// The glyph, as the bill orders it.
    pub glyph: GlyphChoice,
    /// The lines, all right across the block. Those of one way lie at different places.
    pub lines: Vec<CutLine>,
    /// How many of each part, in reading order, empty parts included; `None` for as many as the bill orders of the whole.
    pub counts: Option<Vec<u32>>,
}

/// A line along which a letter is cut apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutLine {
    /// Which way it runs.
    pub way: LineWay,
    /// Where: from the block's left edge as printed to an upright line, from the block's foot to a level one.
    pub at: Length,
    /// The piece that goes between the parts and lengthens the letter; only where all lines run one way.
    pub middle: Option<MiddlePiece>,
}

/// Which way a line of cut runs, as printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineWay {
    /// From foot to head: it parts left from right.
    Upright,
    /// From side to side: it parts head from foot.
    Level,
}

/// A piece that carries on straight what a line of cut crosses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MiddlePiece {
    /// By how much it lengthens the letter.
    pub length: Length,
    /// How many, in all.
    pub count: u32,
}

/// A piece that a letter is cut apart into, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutPiece {
    /// A part, in reading order.
    Part(usize),
    /// The middle piece of a line, from the left or from the foot.
    Middle(usize),
}

impl CutApart {
    /// Orders so many of one piece; nothing is changed if there is no such piece.
    pub(crate) fn order(&mut self, piece: CutPiece, count: u32) {
        match piece {
            CutPiece::Part(number) => {
                let counts = self.counts.as_mut();
                let ordered = counts.and_then(|counts| counts.get_mut(number.checked_sub(1)?));
                if let Some(ordered) = ordered {
                    *ordered = count;
                }
            }
            CutPiece::Middle(number) => {
                // All lines of a letter with middle pieces run one way.
                let mut lines: Vec<&mut CutLine> = self.lines.iter_mut().collect();
                lines.sort_by(|a, b| a.at.in_mm().total_cmp(&b.at.in_mm()));
                let line = number
                    .checked_sub(1)
                    .and_then(|place| lines.into_iter().nth(place));
                if let Some(middle) = line.and_then(|line| line.middle.as_mut()) {
                    middle.count = count;
                }
            }
        }
    }

    /// The lines of one way, from the left or from the foot.
    pub fn lines_of(&self, way: LineWay) -> Vec<CutLine> {
        let lines = self.lines.iter().filter(|line| line.way == way);
        let mut lines: Vec<CutLine> = lines.copied().collect();
        lines.sort_by(|a, b| a.at.in_mm().total_cmp(&b.at.in_mm()));
        lines
    }

    /// How many parts the lines make, empty ones included.
    pub fn parts(&self) -> usize {
        [LineWay::Upright, LineWay::Level]
            .map(|way| self.lines_of(way).len() + 1)
            .into_iter()
            .product()
    }
}

impl Commission {
    /// How a letter or drawing is cut apart, if it is.
    pub fn cut_of(&self, face: &str, glyph: &GlyphChoice) -> Option<&CutApart> {
        let mut cuts = self.cut_apart.iter();
        cuts.find(|cut| cut.face == face && cut.glyph == *glyph)
    }
}
