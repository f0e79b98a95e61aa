//! Why passes cannot be made.

/// Passes could not be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PassError {
    /// The commission names a cutter that the workshop does not have.
    #[error(
        "The workshop has no cutter {0}. Add it to the workshop, or name another in the commission."
    )]
    UnknownCutter(String),
    /// A cutter has no usable diameter, step or depth.
    #[error(
        "Cutter {0} lacks a size: diameter, cutting length, greatest depth, step down and step over must all be more than 0."
    )]
    NoSize(String),
    /// No flat cutter to clear ground with.
    #[error("The commission has no flat cutter. Clearing the ground needs at least one.")]
    NoFlatCutter,
    /// Separation by a cutter that is not flat.
    #[error(
        "Cutter {0} is not flat, so blocks cut out with it would not be square. Name a flat cutter for separation."
    )]
    SeparationNotFlat(String),
    /// The relief is not a depth.
    #[error("The relief must be more than 0, else nothing is cut.")]
    NoRelief,
    /// The separation cutter does not reach through the plank.
    #[error(
        "Cutter {cutter} may go {reach_mm:.2} mm deep, and cutting the blocks out of {plank} takes {needed_mm:.2} mm. Use a longer cutter, leave a thicker skin, or take the blocks apart with the saw."
    )]
    CannotReachThrough {
        /// The cutter, by id.
        cutter: String,
        /// The plank, by id.
        plank: String,
        /// How deep it may go.
        reach_mm: f64,
        /// How deep it would have to go.
        needed_mm: f64,
    },
    /// The lane is narrower than the separation cutter.
    #[error(
        "The lane between blocks is {lane_mm:.2} mm wide, and cutter {cutter}, which is to cut them apart, {diameter_mm:.2} mm. Widen the lane or use a smaller cutter."
    )]
    LaneTooNarrow {
        /// The cutter, by id.
        cutter: String,
        /// Width of the lane.
        lane_mm: f64,
        /// Diameter of the cutter.
        diameter_mm: f64,
    },
    /// The tabs would leave less than half of a block's edge cut through.
    #[error(
        "The tabs of block {place} on {plank} would take up more than half of its edge. Make the tabs narrower, or leave a skin instead."
    )]
    TabsTooWide {
        /// The copy, by id.
        place: String,
        /// The plank, by id.
        plank: String,
    },
    /// The notches leave no place for a tab.
    #[error(
        "The notches of block {place} on {plank} and of those beside it leave no place for a tab. Leave a skin instead, or make the tabs narrower."
    )]
    NoPlaceForTabs {
        /// The copy, by id.
        place: String,
        /// The plank, by id.
        plank: String,
    },
    /// A plank refers to a sort that is not there.
    #[error("{plank} holds block {place}, but there is no such sort in this commission.")]
    UnknownSort {
        /// The copy, by id.
        place: String,
        /// The plank, by id.
        plank: String,
    },
}
