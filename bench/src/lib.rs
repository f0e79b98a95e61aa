//! What is measured at the bench, and what follows from it: heights of a plank while it is sanded, moisture of wood, squareness of the
//! machine, lock-up of finished blocks, minutes that programs took, and losses.
//!
//! Lengths are millimetres, angles radians, temperatures degrees Celsius, moisture and humidity per cent. Each kind of measurement is a
//! module: a plain data type of what was read, the sums, and the outcome in words. All are read from [`notebook`]s, small texts that
//! a maker writes by hand. Nothing here knows commissions, machines or files.

pub mod height;
mod judged;
mod least_squares;
pub mod lock_up;
pub mod losses;
pub mod minutes;
pub mod moisture;
pub mod notebook;
pub mod species;
pub mod square;
pub mod texts;
mod words;

pub use judged::{BenchError, Judged, example, judge, judge_as};
