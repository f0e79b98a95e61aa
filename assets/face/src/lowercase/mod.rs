//! The small letters: what they share, and where they are drawn.

use crate::parts::{OVER, X};

pub mod rounds;
pub mod slopes;
pub mod stems;

/// Main stroke.
const STEM: f64 = 252.0;
/// Side stroke of round letters.
const BOW: f64 = 264.0;
/// Thin horizontal strokes.
const HAIR: f64 = 54.0;
/// Thin sloping strokes.
const HAIR_UPRIGHT: f64 = 74.0;
/// Top of the rounds.
const ROUND: f64 = X + OVER;
/// The flag at the head of a stem.
const FLAG: Option<(f64, f64)> = Some((112.0, 0.0));
/// Left edge of the second stem of n, h and u.
const SECOND: f64 = 452.0;
/// Middle height of the rounds.
const MIDDLE: f64 = X / 2.0;
/// Radius of the balls that end hairlines.
const BALL: f64 = 116.0;
