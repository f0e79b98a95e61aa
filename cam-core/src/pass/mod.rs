//! The passes of each cutter over one sort: roughing, rest, finishing; and separation over a plank.

use geometry::arc_path::ArcPath;

mod bench;
mod cluster;
mod curve;
mod entry;
mod error;
mod fence;
mod finishing;
mod layers;
mod plan;
mod raster;
mod select;
mod separation;
mod share;
mod spans;
#[cfg(test)]
mod tests;
mod tool;

pub use error::PassError;
pub use plan::plan;
pub use separation::separation;

/// All passes of one cutter over one sort, in face space, in the order of cutting.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SortPasses {
    /// The cutter, by id.
    pub cutter: String,
    /// The cuts in order.
    pub cuts: Vec<Cut>,
}

/// What a cut is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Purpose {
    /// Clears open ground in layers.
    Roughing,
    /// Clears what larger cutters could not.
    Rest,
    /// Cuts a wall once, at full depth.
    Finishing,
    /// Cuts blocks out of the plank.
    Separation,
}

/// One cut with the cutter down, at one depth (entries may slope down to it).
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// What it is for.
    pub purpose: Purpose,
    /// The layer, counted from 0 downwards, for showing layers apart.
    pub layer: u32,
    /// Depth below the face, mm, positive.
    pub depth_mm: f64,
    /// How the cutter gets down to the start of the path.
    pub entry: Entry,
    /// Centre of the cutter.
    pub path: ArcPath,
    /// Feed for this cut, mm/min.
    pub feed_mm_min: f64,
}

/// How the cutter gets down to the start of a cut.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// It is down already, and feeds from where it stands to the start of the path over cleared ground.
    StayDown,
    /// Straight down, in ground already cleared to this depth or outside the wood.
    Open,
    /// Straight down into wood, at plunge feed; only by a cutter that can.
    Plunge,
    /// Along a path that slopes evenly from `from_depth_mm` to the cut's depth and ends at the start of the path.
    Ramp {
        /// The way down: a line to and fro, a stretch of the path, or the turns of a helix.
        path: ArcPath,
        /// Depth at which the slope begins: the layer above, or 0.
        from_depth_mm: f64,
    },
}
