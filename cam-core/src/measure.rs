//! Units of the trade: points, lines, picas, ciceros, inches and millimetres.
//!
//! A [`Length`] is kept in millimetres. It is made by one constructor per unit, or read from what the maker types
//! ([`Length::parse`]), and shown in the unit that the maker chooses ([`Length::show`]).

mod heights;
mod parse;

use said::{Value, plain_number};

pub use heights::{HEIGHTS_TO_PAPER, HeightToPaper};
pub use parse::LengthError;

/// Millimetres in an inch, by definition (since 1959).
pub const MM_PER_INCH: f64 = 25.4;
/// The Anglo-American point: 0.013837 inch, which is 0.351 459 8 mm.
///
/// # Source
/// A. A. Stewart, *Typesetting*, Typographic Technical Series No. 16, 1919, p. 15.
pub const PICA_POINT_MM: f64 = 0.013837 * MM_PER_INCH;
/// The Didot point as it was cast in practice, in millimetres; 2660 to the metre is the older rounding of it.
///
/// # Source
/// D. Knuth, *The TeXbook*, 1984, ch. 10: 1157 dd = 1238 pt, which gives 0.376 065 mm.
pub const DIDOT_POINT_MM: f64 = 0.376065;
/// The Didot point rounded so that a cicero is 4.5 mm.
///
/// # Source
/// German type-measure tables of the 1970s, read in later copies.
pub const DIDOT_ROUNDED_POINT_MM: f64 = 0.375;
/// Points in a line, a pica or a cicero.
///
/// # Source
/// A. A. Stewart, *Type: a primer*, Typographic Technical Series No. 1, 1918, p. 27.
pub const POINTS_PER_LINE: f64 = 12.0;

/// A length, kept in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length(f64);

impl Length {
    /// A length in millimetres.
    pub const fn mm(millimetres: f64) -> Length {
        Length(millimetres)
    }

    /// A length in inches of 25.4 mm.
    pub const fn inches(inches: f64) -> Length {
        Length(inches * MM_PER_INCH)
    }

    /// A length in Anglo-American points.
    pub const fn pica_points(points: f64) -> Length {
        Length(points * PICA_POINT_MM)
    }

    /// A length in Didot points of 0.376065 mm.
    pub const fn didot_points(points: f64) -> Length {
        Length(points * DIDOT_POINT_MM)
    }

    /// A length in rounded Didot points of 0.375 mm.
    pub const fn didot_rounded_points(points: f64) -> Length {
        Length(points * DIDOT_ROUNDED_POINT_MM)
    }

    /// A length in Anglo-American picas of 12 points.
    pub const fn picas(picas: f64) -> Length {
        Length::pica_points(picas * POINTS_PER_LINE)
    }

    /// A length in ciceros of 12 Didot points.
    pub const fn ciceros(ciceros: f64) -> Length {
        Length::didot_points(ciceros * POINTS_PER_LINE)
    }

    /// A length in points of a system.
    pub const fn points_of(points: f64, system: System) -> Length {
        Length(points * system.point_mm())
    }

    /// A length in lines (12 points) of a system.
    pub const fn lines(lines: f64, system: System) -> Length {
        Length::points_of(lines * POINTS_PER_LINE, system)
    }

    /// The length in millimetres.
    pub const fn in_mm(self) -> f64 {
        self.0
    }

    /// The length in a unit; points, lines and ciceros are those of the system.
    pub const fn in_unit(self, unit: Unit, system: System) -> f64 {
        self.0 / unit.in_mm(system)
    }

    /// The length in words, such as `10 lines` or `0.918 in`: rounded to [`Unit::decimals`], without idle zeros.
    pub fn show(self, unit: Unit, system: System) -> String {
        let number = plain_number(self.in_unit(unit, system), unit.decimals());
        let one = number == "1" || number == "-1";
        format!("{number} {}", unit.symbol(one))
    }

    /// As [`show`](Length::show), to stand in a sentence of any language.
    pub fn figures(self, unit: Unit, system: System) -> Value {
        Value::figures(self.show(unit, system))
    }

    /// The shortest text that [`Length::parse`] reads as this very length: in the unit, of those the trade uses, that needs the
    /// fewest digits. Files are written with it.
    pub fn exact(self, system: System) -> String {
        let mut best = format!("{} mm", self.0);
        for unit in Unit::ALL {
            // Twelve decimals are finer than any length worth writing, and end the search.
            for decimals in 0..=12 {
                let number = plain_number(self.in_unit(unit, system), decimals);
                let text = format!("{number} {}", unit.symbol(number == "1"));
                if Length::parse(&text, system) == Ok(self) {
                    if text.len() < best.len() {
                        best = text;
                    }
                    break;
                }
            }
        }
        best
    }
}

/// A unit that lengths are typed and shown in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
    /// Points of the system.
    Point,
    /// Lines: 12 points of the system.
    Line,
    /// Anglo-American picas, whatever the system.
    Pica,
    /// Ciceros: 12 Didot points, rounded ones in the rounded system.
    Cicero,
}

impl Unit {
    /// All units, the everyday ones first.
    pub const ALL: [Unit; 6] = [
        Unit::Millimetre,
        Unit::Inch,
        Unit::Point,
        Unit::Line,
        Unit::Pica,
        Unit::Cicero,
    ];

    /// Its size in millimetres within a system.
    pub const fn in_mm(self, system: System) -> f64 {
        match self {
            Unit::Millimetre => 1.0,
            Unit::Inch => MM_PER_INCH,
            Unit::Point => system.point_mm(),
            Unit::Line => system.point_mm() * POINTS_PER_LINE,
            Unit::Pica => PICA_POINT_MM * POINTS_PER_LINE,
            Unit::Cicero => match system {
                System::Pica | System::Didot => DIDOT_POINT_MM * POINTS_PER_LINE,
                System::DidotRounded => DIDOT_ROUNDED_POINT_MM * POINTS_PER_LINE,
            },
        }
    }

    /// How it is written after a number, for one or for any other number.
    pub const fn symbol(self, one: bool) -> &'static str {
        match (self, one) {
            (Unit::Millimetre, _) => "mm",
            (Unit::Inch, _) => "in",
            (Unit::Point, _) => "pt",
            (Unit::Line, true) => "line",
            (Unit::Line, false) => "lines",
            (Unit::Pica, true) => "pica",
            (Unit::Pica, false) => "picas",
            (Unit::Cicero, true) => "cicero",
            (Unit::Cicero, false) => "ciceros",
        }
    }

    /// How many decimals are shown: 1 µm in millimetres, a tenth of a thousandth in inches, about 1 µm in the others.
    pub const fn decimals(self) -> usize {
        match self {
            Unit::Millimetre | Unit::Point => 3,
            Unit::Inch | Unit::Line | Unit::Pica | Unit::Cicero => 4,
        }
    }
}

/// The system of typographic measure a commission is made in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum System {
    /// Anglo-American: points of 0.013837 inch; 12 make a pica.
    Pica,
    /// Continental: Didot points of 0.376065 mm; 12 make a cicero.
    Didot,
    /// Continental, rounded: Didot points of 0.375 mm.
    DidotRounded,
}

impl System {
    /// All systems.
    pub const ALL: [System; 3] = [System::Pica, System::Didot, System::DidotRounded];

    /// Its point in millimetres.
    pub const fn point_mm(self) -> f64 {
        match self {
            System::Pica => PICA_POINT_MM,
            System::Didot => DIDOT_POINT_MM,
            System::DidotRounded => DIDOT_ROUNDED_POINT_MM,
        }
    }

    /// Its name for the maker.
    pub const fn name(self) -> &'static str {
        match self {
            System::Pica => "Anglo-American (pica)",
            System::Didot => "Didot",
            System::DidotRounded => "Didot, rounded",
        }
    }

    /// Where its point's size comes from, for showing beside it.
    pub const fn source(self) -> &'static str {
        match self {
            System::Pica => "0.013837 inch: A. A. Stewart, Typesetting, 1919, p. 15",
            System::Didot => "0.376065 mm: D. Knuth, The TeXbook, 1984, ch. 10",
            System::DidotRounded => "0.375 mm: German type-measure tables of the 1970s",
        }
    }
}

#[cfg(test)]
mod tests;
