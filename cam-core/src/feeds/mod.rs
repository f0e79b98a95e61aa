//! Feeds and speeds proposed for a cutter in a wood on a machine, each with its reason; and how hard a cutter works as it is set.
//!
//! A program is cut with what the workshop says of its cutters. What is proposed here is shown beside that, and can be taken over.
//! All of it is a place to start from: the manuals of machine and cutter, and the sound and look of a trial cut, come first.

mod first;
mod propose;
pub mod sums;
mod tables;
#[cfg(test)]
mod tests;
mod working;

pub use first::{wall_moves_mm, warnings};
pub use propose::{Limit, Proposal, Proposed, propose};
pub(crate) use working::least_feed_mm_min;
pub use working::{Trouble, TroubleKind, Working, most_deflection_mm, troubles, working};
