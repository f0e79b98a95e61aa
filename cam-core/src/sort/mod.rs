//! From a commission and its fonts to sorts: body, set width, lining, and the face in its block.
//!
//! One scale and one base line serve the whole fount ([`Lining`]), set by the first face. A letter that hangs out of the body gets a
//! larger one in whole steps; a face never overhangs the sides of its block. One bad glyph never loses the others: it becomes a
//! finding of severity stop, and the rest are drawn up.

mod apart;
mod block;
mod colours;
mod draw;
mod drawings;
mod faces;
mod glyph;
mod lining;
#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, BTreeSet};

use kurbo::{Affine, BezPath, Point, Rect};

use geometry::font::FontError;
use geometry::region::Region;

use crate::commission::{GlyphChoice, Plate};
use crate::finding::{Finding, Subject};
use crate::material::{Piece, pieces};
use crate::notch::Notch;
use crate::progress::Stopped;

pub(crate) use apart::numbered;
pub use draw::draw_up;
pub(crate) use draw::draw_up_fount;
pub(crate) use glyph::in_words as character_in_words;
pub use glyph::name_of;
pub use lining::Lining;

#[cfg(test)]
pub(crate) use tests::commission as commission_for_tests;

/// All sorts of a commission.
#[derive(Clone, Debug, Default)]
pub struct DrawnUp {
    /// One entry per distinct sort: letters in the order of the bill, drawings in that order, then spaces.
    pub sorts: Vec<Sort>,
    /// What the maker should read, in the order of the commission.
    pub findings: Vec<Finding>,
    /// The plates of letters in colours, in the order of printing; none if no letter is.
    pub plates: Vec<Plate>,
    /// What each plate prints of a letter in colours, by the name of its sort, which holds the whole letter until it is parted.
    pub layers: BTreeMap<String, Vec<LayerFace>>,
}

/// What one plate prints of a letter, in face space, from the corner of the whole letter's block.
#[derive(Clone, Debug)]
pub struct LayerFace {
    /// The plate, by its place.
    pub plate: usize,
    /// The face, as [`Sort::outline`].
    pub outline: BezPath,
    /// The face, as [`Sort::face`].
    pub face: Region,
}

impl DrawnUp {
    /// Leaves out sorts of which none is ordered, and whatever was found of them.
    pub(crate) fn keep_ordered(&mut self) {
        let idle = self.sorts.iter().filter(|sort| sort.count == 0);
        let idle: BTreeSet<String> = idle.map(|sort| sort.name.clone()).collect();
        self.sorts.retain(|sort| sort.count > 0);
        self.findings.retain(|finding| match &finding.subject {
            Subject::Sort(name) => !idle.contains(name),
            Subject::Commission
            | Subject::Face(_)
            | Subject::Cutter(_)
            | Subject::Plank(_)
            | Subject::Program { .. } => true,
        });
    }
}

/// Why no sort at all could be drawn up.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SortError {
    /// The work was stopped on request.
    #[error(transparent)]
    Stopped(#[from] Stopped),
    /// The bill is empty and no spaces are ordered.
    #[error("The commission orders nothing. Put letters on its bill, or spaces.")]
    NothingOrdered,
    /// There is no face to take the heights from.
    #[error("The commission orders letters but names no face. Add a font.")]
    NoFace,
    /// The first face's font was not given.
    #[error(
        "The font file “{file}” of face {face} could not be found. Put it where the commission says, or change the commission."
    )]
    NoFont {
        /// The face.
        face: String,
        /// Its file.
        file: String,
    },
    /// The first face's font cannot be read.
    #[error("The font of face {face} ({file}) cannot be used. {error}")]
    Font {
        /// The face.
        face: String,
        /// Its file.
        file: String,
        /// What is wrong.
        error: FontError,
    },
    /// The size is not a size.
    #[error("The size of {0} lines is not possible. Give a number of lines above 0.")]
    Size(f64),
    /// The first face lacks the height that the fit needs.
    #[error(
        "Face {face} has no capitals to fit by: neither a stated height nor a letter H. Choose em on body, or another face first."
    )]
    NoCapitals {
        /// The face.
        face: String,
    },
    /// The shoulders leave nothing for the letter.
    #[error("The fit leaves no height for the letters: {0}. Make the shoulders smaller.")]
    NoRoom(String),
}

/// A sort as it will be cut, once for all its copies.
///
/// Everything is in face space (mirrored, as seen from above, millimetres), with the block's lower-left corner at 0, 0.
#[derive(Clone, Debug)]
pub struct Sort {
    /// The maker's name for it: the character, the glyph's name, or "space 12 pt". Unique within the commission.
    pub name: String,
    /// What it prints; empty for an ornament or a space.
    pub text: String,
    /// How many of it are ordered.
    pub count: u32,
    /// The face and glyph it is cut from; `None` for a space or quad.
    pub source: Option<SortSource>,
    /// Of a letter in colours: which plate it is for; the source is that of the whole letter.
    pub plate: Option<OnPlate>,
    /// Body and set.
    pub block: Block,
    /// The drawn face: exact curves in face space, y up.
    pub outline: BezPath,
    /// The same as a region, flattened as [`crate::sort::FLATTENING_MM`] says; empty for a space.
    pub face: Region,
}

/// How far the chords of [`Sort::face`] may lie from the drawn curves, in millimetres.
pub const FLATTENING_MM: f64 = 0.001;

/// The plate of a sort that prints one colour of a letter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnPlate {
    /// The whole letter's name: all sorts that have it in common stand on blocks alike.
    pub letter: String,
    /// The plate's place in the order of printing.
    pub order: usize,
    /// The plate's name.
    pub name: String,
    /// Its ink, by name or number.
    pub ink: String,
}

/// Where a sort's face comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct SortSource {
    /// The face or drawing, by its id in the commission.
    pub face: String,
    /// How the maker chose the glyph.
    pub choice: GlyphChoice,
    /// The glyph's index in the font; 0 of a drawing.
    pub glyph: u16,
    /// Font units, or a drawing's own coordinates (y up), to face space, mirror included: its determinant is negative.
    pub face_from_em: Affine,
    /// What of it the sort is, where it was cut apart; `None` for all of it.
    pub part: Option<Part>,
}

/// A part of a letter or drawing that was cut apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The name of the whole.
    pub of: String,
    /// What the whole prints.
    pub text: String,
    /// Where the part's lower-left corner lies on the whole's block, as printed; `None` for a middle piece, which is none of it.
    pub at: Option<Point>,
    /// Set and body of the whole's block.
    pub of_mm: [f64; 2],
}

/// A sort's block, seen from above with the printing face up.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// The outline, counter-clockwise, lower-left corner at 0, 0; a rectangle unless notched.
    pub outline: Vec<Point>,
    /// The body: size in y, as printed from foot to head.
    pub body_mm: f64,
    /// The set width: size in x.
    pub set_mm: f64,
    /// Height of the base line above the block's lower edge.
    pub baseline_mm: f64,
    /// Points by which the body was extended at the foot and at the head.
    pub extended_pt: [f64; 2],
    /// Whether it is a space or quad, lower than the face.
    pub plain: bool,
    /// The steps cut from its corners.
    pub notches: Vec<Notch>,
}

impl Block {
    /// The furniture that makes up the difference of a larger body beside a neighbour on the plain one: at the foot and at the head,
    /// each the widest piece first; empty where the body is not larger.
    pub fn made_up_by(&self) -> [Vec<Piece>; 2] {
        self.extended_pt
            .map(|points| pieces(points).unwrap_or_default())
    }

    /// The block's bounding rectangle.
    pub fn rect(&self) -> Rect {
        Rect::new(0.0, 0.0, self.set_mm, self.body_mm)
    }
}
