//! Plane mathematics for Sortwright. It knows no type, no wood and no machine.
//!
//! Conventions, stated once:
//! - **Words.** `kurbo`'s `Point`, `Vec2`, `Affine`, `Rect` and `BezPath` are used as they are; they are not re-exported.
//! - **Unit.** Lengths are bare `f64` in whatever unit the caller uses; everything outside [`font`] is called with millimetres.
//!   Only [`font`] speaks font units, and says so in its names.
//! - **Axes and angles.** x to the right, y up; angles in radians, counter-clockwise positive.
//! - **Winding.** Outer rings run counter-clockwise, counters clockwise, so the filled side is always on the left.
//! - **Fill.** Outlines are filled by the nonzero rule.
//! - **Tolerance.** Every approximation takes its tolerance as an argument, or names it as a public constant; no function hides one.
//!
//! Modules in reading order.

pub mod font;

mod grid;

#[cfg(test)]
mod samples;

pub mod region;

pub mod boolean;

pub mod cut;

pub mod diagram;

pub mod offset;

pub mod reach;

pub mod medial_axis;

pub mod distance;

pub mod cells;

pub mod profile;

pub mod arc_path;

pub mod grown;
