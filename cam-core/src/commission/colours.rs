//! Letters in several colours: one block for each colour, all of one size, printed one over the other.

use crate::measure::Length;

/// How letters are parted into colours.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourRules {
    /// The faces whose letters are in colours, by id; if empty, the first face, unless drawings are named. Their companions are not among them.
    pub faces: Vec<String>,
    /// The drawings that are in colours, by id.
    pub drawings: Vec<String>,
    /// The plates in the order of printing; if empty, the colours that the font itself has, the lowest first.
    pub plates: Vec<Plate>,
    /// The palette of the font from which its own colours come, counted from 0.
    pub palette: u16,
    /// The plates that are cut now, by name; if empty, all. Blocks and faces are those of the whole letter all the same.
    pub cut: Vec<String>,
    /// How many are cut for one plate, where it is not as many as are ordered of the letter.
    pub counts: Vec<PlateCount>,
    /// By how much a plate is spread under the plates that are printed after it, where they meet.
    pub trap: Length,
    /// By how much the press may be out of register: what would show then is told.
    pub misregister: Length,
}

/// How many blocks of one letter are cut for one plate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlateCount {
    /// The letter, by the name of its sort.
    pub letter: String,
    /// The plate, by name.
    pub plate: String,
    /// How many.
    pub count: u32,
}

/// One plate: all blocks that are printed in one ink.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// What it is called on papers.
    pub name: String,
    /// The ink: a name such as `red`, or `#` and six hexadecimal digits.
    pub ink: String,
    /// What it prints of a letter.
    pub source: PlateSource,
    /// Whether it stays whole where plates in front of it print, so that inks lie over one another; else it is knocked out there.
    pub overprinted: bool,
}

/// What a plate prints of a letter.
#[derive(Clone, Debug, PartialEq)]
pub enum PlateSource {
    /// The letter as it is drawn.
    Letter,
    /// The same letter of a companion face, by the face's id.
    Face(String),
    /// What the font itself, or the drawing, gives one colour, as `#` and six hexadecimal digits.
    FontColour(String),
    /// A line within the letter, parallel to its edge.
    Inline {
        /// From the letter's edge to the line.
        inset: Length,
        /// Width of the line; `None` for all that is further in.
        width: Option<Length>,
    },
    /// A line about the letter, parallel to its edge.
    Outline {
        /// From the letter's edge to the line.
        gap: Length,
        /// Width of the line.
        width: Length,
    },
    /// The letter's shadow: what it passes over when it is moved, without the letter; with it if the plate stays whole and no paper is left
    /// between.
    Shadow {
        /// Which way it falls, as printed: 0 to the right, 90 up, -45 to the right and down.
        angle_deg: f64,
        /// How far.
        length: Length,
        /// Paper left between letter and shadow; none for a shadow that joins the letter.
        gap: Length,
    },
}

impl ColourRules {
    /// The font's own colours, a trap of 0.25 mm, and 0.2 mm out of register: what a hand press keeps. Common practice, no source.
    pub fn starting() -> ColourRules {
        ColourRules {
            faces: Vec::new(),
            drawings: Vec::new(),
            plates: Vec::new(),
            palette: 0,
            cut: Vec::new(),
            counts: Vec::new(),
            trap: Length::mm(0.25),
            misregister: Length::mm(0.2),
        }
    }

    /// Whether letters of a face are in colours.
    pub fn are_of(&self, face: &str, first_face: &str) -> bool {
        if self.faces.is_empty() {
            face == first_face && self.drawings.is_empty()
        } else {
            self.faces.iter().any(|named| named == face)
        }
    }

    /// Whether a drawing is in colours.
    pub fn are_of_drawing(&self, id: &str) -> bool {
        self.drawings.iter().any(|named| named == id)
    }

    /// How many blocks of a letter are cut for a plate, when so many of the letter are ordered.
    pub fn count(&self, letter: &str, plate: &str, ordered: u32) -> u32 {
        let mut told = self.counts.iter();
        let told = told.find(|one| one.letter == letter && one.plate == plate);
        told.map_or(ordered, |one| one.count)
    }

    /// Whether a plate is cut now.
    pub fn cuts(&self, plate: &str) -> bool {
        self.cut.is_empty() || self.cut.iter().any(|named| named == plate)
    }
}
