//! Sorts on planks: those of the workshop's stock, and others of the size that the commission tells.

mod board;
mod fill;
mod layout;
mod left_over;
pub mod pack;
mod pins;
mod sawing;
mod stock;
#[cfg(test)]
mod tests;

use kurbo::{Rect, Vec2};

pub use layout::{Laid, lay_out};
pub use left_over::{left_over, stock_after};
pub use sawing::{First, Part, Run, Sawn, Step, sawn, steps};

use crate::commission::Clamp;
use crate::workshop::{Grain, Machine};

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
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plank {
    /// Short id, such as `plank-1`.
    pub id: String,
    /// Size across (x), mm.
    pub width_mm: f64,
    /// Size along (y), mm.
    pub length_mm: f64,
    /// Where each copy lies.
    pub places: Vec<Place>,
    /// The plank of the stock, by its id; `None` for one of the size that the commission tells.
    pub stock: Option<String>,
    /// Whether that plank lies turned a quarter to the left.
    pub turned: bool,
    /// Measured height, if it is known, mm.
    pub height_mm: Option<f64>,
    /// Which way the fibres run, if it is known.
    pub grain: Option<Grain>,
    /// Where blocks may lie, but for bad places.
    pub room: Rect,
    /// Places that no block may lie on.
    pub bad_places: Vec<Rect>,
    /// The clamps that hold it.
    pub clamps: Vec<Clamp>,
    /// The router that cuts it, by its place among the workshop's.
    pub machine: usize,
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

impl Plank {
    /// Whether the machine can move over everything that may be cut on the plank.
    pub fn fits(&self, machine: &Machine, lane_mm: f64) -> bool {
        let [x, y, _] = machine.travel_mm;
        let over = self.room.inflate(lane_mm, lane_mm);
        over.width() <= x && over.height() <= y
    }

    /// The part of the plank that becomes blocks.
    pub fn used_part(&self, sorts: &[std::sync::Arc<crate::sort::Sort>]) -> f64 {
        let blocks: f64 = self
            .places
            .iter()
            .filter_map(|place| sorts.get(place.sort))
            .map(|sort| sort.block.body_mm * sort.block.set_mm)
            .sum();
        blocks / (self.width_mm * self.length_mm).max(f64::MIN_POSITIVE)
    }
}
