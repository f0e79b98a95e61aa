//! Sorts in rows on planks.

use kurbo::Vec2;

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
