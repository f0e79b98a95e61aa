//! Borders: units that are set round a frame.

use crate::measure::Length;

/// A border: which sorts stand at its corners and along its sides, and the frame that is set from them.
#[derive(Clone, Debug, PartialEq)]
pub struct Border {
    /// A short word by which the border is named.
    pub id: String,
    /// The corner, drawn as it stands at the upper left, which is turned for the others; or all four, upper left, upper right, lower right,
    /// lower left, which stand as they are drawn. Sorts by name.
    pub corners: Vec<String>,
    /// The pieces that run along the head, as they stand there; they are turned for what `sides` does not name. A side is filled with as few as
    /// will do. Sorts by name.
    pub running: Vec<String>,
    /// The pieces that stand at the left side, turned by a half for the right; if empty, the running ones are turned by a quarter. Sorts by name.
    pub sides: Vec<String>,
    /// Width of the frame.
    pub width: Length,
    /// Height of the frame.
    pub height: Length,
    /// What width and height are measured over.
    pub measured: Measured,
    /// How many frames are set at once.
    pub count: u32,
    /// Edges of neighbours that lie apart by no more than this, join.
    pub tolerance: Length,
}

/// What the size of a frame is measured over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measured {
    /// From outer edge to outer edge.
    Outside,
    /// The room that the frame leaves.
    Inside,
}

impl Border {
    /// A border of one corner and one running piece, measured outside, one frame; edges may lie 0.05 mm apart, which is what
    /// the trade allows for body and set, and hardly shows in print. Common practice, no source.
    pub fn starting(id: &str, corner: &str, running: &str, size: [Length; 2]) -> Border {
        let [width, height] = size;
        Border {
            id: id.to_owned(),
            corners: vec![corner.to_owned()],
            running: vec![running.to_owned()],
            sides: Vec::new(),
            width,
            height,
            measured: Measured::Outside,
            count: 1,
            tolerance: Border::starting_tolerance(),
        }
    }

    /// How far edges may lie apart if the maker says nothing: 0.05 mm, common practice, no source.
    pub const fn starting_tolerance() -> Length {
        Length::mm(0.05)
    }
}
