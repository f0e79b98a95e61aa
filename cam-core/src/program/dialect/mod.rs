//! Dialects: what one controller wants of a program, as data. How many decimals, and which codes stand at head and end, is common practice,
//! without a source; what the codes mean is NISTIR 6556's.
//!
//! To add one: a file beside this one with a `pub(super) static`, and its entry in [`ALL`].

mod plain;
mod plain_inch;

/// All dialects, in the order in which they are offered.
pub static ALL: [&Dialect; 2] = [&plain::PLAIN, &plain_inch::PLAIN_INCH];

/// What one controller wants of a program.
#[derive(Clone, Debug, PartialEq)]
pub struct Dialect {
    /// The name by which a workshop asks for it.
    pub name: &'static str,
    /// One sentence for choosing.
    pub summary: &'static str,
    /// The unit of lengths and feeds.
    pub unit: Unit,
    /// Decimals of coordinates, 0 to 6.
    pub decimals: u8,
    /// Decimals of feeds, 0 to 4.
    pub feed_decimals: u8,
    /// How arcs are written.
    pub arcs: Arcs,
    /// How comments are written.
    pub comments: Comments,
    /// The step of line numbers; `None` writes none.
    pub line_numbers: Option<u32>,
    /// Lines ahead of everything but the comments. They must state units, plane and absolute distances.
    pub head: &'static [&'static str],
    /// How long the spindle gets to come up to speed, s; 0 writes no dwell.
    pub spin_up_s: f64,
    /// Lines that stop the spindle and then the program until a key is pressed. The first line stops the spindle; the
    /// last carries the comment that says why.
    pub pause: &'static [&'static str],
    /// Lines that end the program, with the cutter risen.
    pub end: &'static [&'static str],
}

/// The unit of lengths and feeds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// G21.
    Millimetre,
    /// G20.
    Inch,
}

/// How arcs are written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Arcs {
    /// G2 and G3 with the centre in I and J, as increments from the start.
    Centre,
    /// As straight lines.
    Chords {
        /// Farthest that a line may lie from its arc, mm.
        sagitta_mm: f64,
    },
}

/// How comments are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Comments {
    /// In parentheses.
    Parentheses,
    /// Not at all.
    Omitted,
}

impl Unit {
    /// Millimetres in one unit.
    pub(super) fn in_mm(self) -> f64 {
        match self {
            Unit::Millimetre => 1.0,
            Unit::Inch => 25.4,
        }
    }

    /// Largest difference between the distances of an arc's ends from its centre, in the unit (NISTIR 6556 §3.5.3.2).
    pub(super) fn arc_tolerance(self) -> f64 {
        match self {
            Unit::Millimetre => 0.002,
            Unit::Inch => 0.0002,
        }
    }
}

/// A dialect by its name.
pub fn dialect(name: &str) -> Option<&'static Dialect> {
    ALL.into_iter().find(|dialect| dialect.name == name)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_dialect_is_found_by_its_own_name() {
        let names: BTreeSet<_> = ALL.iter().map(|dialect| dialect.name).collect();
        assert_eq!(names.len(), ALL.len());
        for entry in ALL {
            assert_eq!(dialect(entry.name), Some(entry));
        }
        assert_eq!(dialect("no such dialect"), None);
    }
}
