//! What the numbers of an axis are counted from.
//!
//! A program does not tell where the zeros of its work coordinate systems lie: the machine keeps them. So each axis of a
//! place is a number and the datum it is counted from. Two numbers of the same datum can be compared; between two
//! datums lies a distance that only the machine knows.

use std::fmt;

/// A place on one axis from which the axis' numbers are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Datum {
    /// The zero of a work coordinate system as the machine keeps it: 1 for G54, up to 9 for G59.3.
    Work(u8),
    /// The machine's own zero.
    Machine,
    /// The reference point of G28.
    FirstReference,
    /// The reference point of G30.
    SecondReference,
    /// A zero that an offset set in this line (G92 at a place not told, G92.3): what the program says afterwards counts
    /// from it, but only the machine knows where it lies.
    Kept(u32),
    /// A place that the program has not told: where the machine stood at the start (line 0), or where something in this line
    /// left it (a probe, another length offset). The program's coordinates do not count from it.
    Untold(u32),
}

impl Datum {
    /// Whether the program has told places that count from here.
    pub fn is_told(self) -> bool {
        match self {
            Datum::Work(_)
            | Datum::Machine
            | Datum::FirstReference
            | Datum::SecondReference
            | Datum::Kept(_) => true,
            Datum::Untold(_) => false,
        }
    }
}

/// A short name, to be put after "counted from".
impl fmt::Display for Datum {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Datum::Work(system @ 1..=6) => write!(out, "the zero of G{}", 53 + system),
            Datum::Work(system) => write!(out, "the zero of G59.{}", system.saturating_sub(6)),
            Datum::Machine => out.write_str("the machine's own zero"),
            Datum::FirstReference => out.write_str("the reference point of G28"),
            Datum::SecondReference => out.write_str("the reference point of G30"),
            Datum::Kept(line) => write!(out, "the zero set in line {line}"),
            Datum::Untold(0) => out.write_str("where the machine stands at the start"),
            Datum::Untold(line) => write!(out, "where line {line} leaves the machine"),
        }
    }
}

/// A number on one axis and what it is counted from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Coordinate {
    pub datum: Datum,
    pub mm: f64,
}

impl Coordinate {
    /// Further along the axis.
    pub fn plus(self, mm: f64) -> Coordinate {
        Coordinate {
            mm: self.mm + mm,
            ..self
        }
    }
}
