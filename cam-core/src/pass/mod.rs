//! The passes of each cutter over one sort: roughing, rest, finishing; and notches and separation over a plank.

use geometry::arc_path::ArcPath;

mod account;
mod around;
mod bench;
mod cluster;
mod corners;
mod curve;
mod entry;
mod error;
mod fence;
mod finishing;
mod islands;
mod layers;
mod leaving;
mod load;
mod narrows;
mod notches;
mod pieces;
mod plan;
mod route;
mod select;
mod separation;
mod share;
mod spans;
mod steady;
mod tabs;
#[cfg(test)]
mod tests;
mod tool;

pub(crate) use corners::sharpen;
pub use error::PassError;
pub use notches::notches;
pub(crate) use plan::Planning;
pub use plan::plan;
pub use separation::separation;
pub use tabs::narrow_tabs;

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
    /// Sharpens corners and cuts narrow ground, with a cutter that is not flat.
    Corners,
    /// Cuts steps out of the corners of blocks.
    Notches,
    /// Cuts blocks out of the plank.
    Separation,
}

/// One cut with the cutter down (entries may slope down to where it starts).
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// What it is for.
    pub purpose: Purpose,
    /// The layer, counted from 0 downwards, for showing layers apart.
    pub layer: u32,
    /// Depth of its deepest place below the face, mm, positive.
    pub depth_mm: f64,
    /// How the depth goes along the path.
    pub heights: Heights,
    /// How the cutter gets down to the start of the path.
    pub entry: Entry,
    /// Centre of the cutter.
    pub path: ArcPath,
    /// Feed for this cut, mm/min.
    pub feed_mm_min: f64,
}

/// The depth along a cut.
#[derive(Clone, Debug, PartialEq)]
pub enum Heights {
    /// The cut's own depth all along.
    Level,
    /// Depths below the face, mm, positive: at the start of the path and after each of its steps, so one more than it has
    /// steps. Along a step the depth changes evenly.
    Along(Vec<f64>),
}

impl Cut {
    /// Depth below the face at the start of the path, mm.
    pub fn start_depth_mm(&self) -> f64 {
        self.depth_after(0)
    }

    /// Depth below the face at the end of the path, mm.
    pub fn end_depth_mm(&self) -> f64 {
        self.depth_after(self.path.steps.len())
    }

    /// Depth below the face after so many steps of the path, mm.
    pub fn depth_after(&self, steps: usize) -> f64 {
        match &self.heights {
            Heights::Level => self.depth_mm,
            Heights::Along(depths) => depths.get(steps).copied().unwrap_or(self.depth_mm),
        }
    }
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
    /// Along a path that slopes evenly from `from_depth_mm` to the depth at which the cut starts and ends at the start of the path.
    Ramp {
        /// The way down: a line to and fro, a stretch of the path, or the turns of a helix.
        path: ArcPath,
        /// Depth at which the slope begins: the layer above, or 0.
        from_depth_mm: f64,
    },
}
