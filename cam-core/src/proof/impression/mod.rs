//! What the blocks will print: an inked impression, right-reading, of what the finished programs really cut.
//!
//! [`fount`] reads the programs of a made job back and takes from each block what their cutters sweep at the face. What stands,
//! prints: the letter with its corners as round as the cutters leave them, and whatever ground was forgotten. [`compose`] sets the
//! blocks in lines on a [`Sheet`], one layer above the other where several founts are printed in several inks, and the sheet is drawn
//! true to size as PNG, SVG or PDF.

use geometry::region::Region;
use kurbo::Point;

use crate::job_file::JobPart;

mod colour;
mod compose;
mod cut;
mod drawing;
mod swept;
mod text;

pub use colour::{Colour, ColourError, INKS, PAPERS};
pub use compose::{Align, Layer, Piece, SetBlock, Setting, Sheet, compose};
pub use cut::{ImpressionError, fount};
pub use drawing::{DrawingError, to_pdf, to_png, to_svg};

/// What one sort prints, in reading space with the block's lower-left corner at 0, 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Impression {
    /// The sort, by name.
    pub name: String,
    /// What it prints, as text; empty for an ornament or a space.
    pub text: String,
    /// Of a letter in colours: the plate that it is for, by its place in [`Fount::plates`].
    pub plate: Option<usize>,
    /// The letter's name, which the sorts of all its plates have in common; that of the sort if it is in one colour.
    pub letter: String,
    /// How many of it are made.
    pub copies: u32,
    /// Width of the block (its set), mm.
    pub set_mm: f64,
    /// Height of the block (its body), mm.
    pub body_mm: f64,
    /// Height of the base line above the block's foot, mm; `None` of a space or quad, which has none.
    pub baseline_mm: Option<f64>,
    /// The block's outline, as read; a rectangle unless notched.
    pub block: Vec<Point>,
    /// What takes ink; empty for a space.
    pub inked: Region,
    /// What of a letter it is, where the letter was cut apart.
    pub part: Option<JobPart>,
}

impl Impression {
    /// What it prints, or what the letter prints that it is a part of.
    fn whole_text(&self) -> &str {
        self.part.as_ref().map_or(&self.text, |part| &part.text)
    }

    /// The body of the whole letter.
    fn whole_body_mm(&self) -> f64 {
        let part = self.part.as_ref();
        part.map_or(self.body_mm, |part| part.of_mm[1])
    }

    /// The base line of the whole letter; `None` of spaces, and of pieces that are in no letter.
    fn whole_baseline_mm(&self) -> Option<f64> {
        match &self.part {
            None => self.baseline_mm,
            Some(part) => Some(self.baseline_mm? + part.at_mm?[1]),
        }
    }
}

/// What all sorts of a job print.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fount {
    /// One for each distinct sort, in the order of the job file.
    pub impressions: Vec<Impression>,
    /// The plates of letters in colours, in the order of printing; none if all are in one colour.
    pub plates: Vec<InkedPlate>,
}

/// A plate and its ink.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InkedPlate {
    /// Its name.
    pub name: String,
    /// Its ink.
    pub ink: Colour,
}

impl Fount {
    /// The plain body, mm: the smallest of what prints text, and of spaces; without any, the smallest of all; 0 of no sorts.
    pub fn body_mm(&self) -> f64 {
        let least = self.plain().map(Impression::whole_body_mm);
        least.reduce(f64::min).unwrap_or(0.0)
    }

    /// Height of the base line above the foot of a plain body, mm: the least, since larger bodies grow at their feet.
    pub fn baseline_mm(&self) -> f64 {
        let lines = self.plain().filter_map(Impression::whole_baseline_mm);
        lines.reduce(f64::min).unwrap_or(0.0)
    }

    /// The sorts that tell the plain body: units of borders and ornaments have bodies of their own.
    fn plain(&self) -> impl Iterator<Item = &Impression> {
        let tells = |one: &&Impression| one.baseline_mm.is_none() || !one.whole_text().is_empty();
        let is_told = self
            .impressions
            .iter()
            .any(|one| one.baseline_mm.is_some() && !one.whole_text().is_empty());
        let all = self.impressions.iter();
        all.filter(move |one| !is_told || tells(one))
    }

    /// The parts of a letter that was cut apart, by what the letter prints, with their places on its block.
    fn parts_of<'a>(&'a self, text: &'a str) -> impl Iterator<Item = (usize, [f64; 2])> + 'a {
        let all = self.impressions.iter().enumerate();
        all.filter_map(move |(place, one)| {
            let part = one.part.as_ref().filter(|part| part.text == text)?;
            Some((place, part.at_mm?))
        })
    }

    /// The sorts that print, by their places.
    fn printing(&self) -> impl Iterator<Item = usize> {
        (0..self.impressions.len()).filter(|&place| self.impressions[place].baseline_mm.is_some())
    }

    /// The spaces and quads.
    fn spaces(&self) -> impl Iterator<Item = (usize, &Impression)> {
        let all = self.impressions.iter().enumerate();
        all.filter(|(_, one)| one.baseline_mm.is_none())
    }
}

#[cfg(test)]
mod tests;
