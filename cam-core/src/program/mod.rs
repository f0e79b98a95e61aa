//! RS-274 programs: writing them, and giving an account of what they would do.
//!
//! The [writer](write()) turns toolpaths into text in a [`Dialect`]. The crate [`reader`] turns text into the motions that
//! a controller would make of it. The two share no code, not even the spelling of numbers, so that a mistake in one is
//! seen by the other.
//!
//! # Source
//! T. Kramer, F. Proctor, E. Messina, "The NIST RS274/NGC Interpreter – Version 3", NISTIR 6556, 2000.

pub mod account;
pub mod dialect;

mod arcs;
mod comment;
mod numbers;
pub mod squareness;
mod writer;

#[cfg(test)]
mod generator;
#[cfg(test)]
mod tests;

pub use dialect::{Dialect, dialect};
pub use writer::{ProgramHeader, Section, WriteError, write};
