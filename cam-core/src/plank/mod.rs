//! Sorts in rows on planks.

mod rows;
#[cfg(test)]
mod tests;

use kurbo::Vec2;

pub use rows::lay_out;

/// Why sorts cannot be laid on planks.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlankError {
    /// A block does not fit on any plank.
    #[error(
        "The block of sort {sort} is {set_mm:.1} × {body_mm:.1} mm, but a plank of {width_mm:.1} × {length_mm:.1} mm has room for \
         {room_x_mm:.1} × {room_y_mm:.1} mm inside its margins. Use larger planks, or make the fount smaller."
    )]
    BlockTooLarge {
        /// The sort, by its name.
        sort: String,
        /// The block's set.
        set_mm: f64,
        /// The block's body.
        body_mm: f64,
        /// The plank's size across.
        width_mm: f64,
        /// The plank's size along.
        length_mm: f64,
        /// Room across.
        room_x_mm: f64,
        /// Room along.
        room_y_mm: f64,
    },
    /// The plank rules cannot be used.
    #[error("The planks cannot be used: {0}.")]
    BadRules(String),
    /// More copies are ordered than can be meant.
    #[error("The commission orders {0} blocks; at most {max} can be made at once. Lower the counts.", max = MOST_BLOCKS)]
    TooManyBlocks(u64),
}

/// The most blocks of one commission: a hundred large founts, and far below what memory holds.
pub const MOST_BLOCKS: u64 = 20_000;

/// Sorts laid on one plank.
#[derive(Clone, Debug, PartialEq)]
pub struct Plank {
    /// Short id, such as `plank-1`.
    pub id: String,
    /// Size across (x), mm.
    pub width_mm: f64,
    /// Size along (y), mm.
    pub length_mm: f64,
    /// Where each copy lies.
    pub places: Vec<Place>,
}

/// One copy of a sort on a plank.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Id of this copy, unique within the job, such as `A-1`.
    pub id: String,
    /// Index into the commission's sorts.
    pub sort: usize,
    /// Plank place of the block's lower-left corner (plank_from_face is this shift alone).
    pub at: Vec2,
}
