//! RS-274 programs: writing them, and reading them back by a reader written from the standard.
//!
//! The [writer](write()) turns toolpaths into text in a [`Dialect`]. The [`reader`] turns text into the motions that a
//! controller would make of it. The two share no code, not even the spelling of numbers, so that a mistake in one is
//! seen by the other.
//!
//! # Source
//! T. Kramer, F. Proctor, E. Messina, "The NIST RS274/NGC Interpreter – Version 3", NISTIR 6556, 2000.

pub mod account;
pub mod dialect;
pub mod reader;

mod arcs;
mod comment;
mod numbers;
mod writer;

#[cfg(test)]
mod generator;
#[cfg(test)]
mod tests;

pub use dialect::{Dialect, dialect};
pub use reader::{ReadError, Replay, read};
pub use writer::{ProgramHeader, Section, WriteError, write};
