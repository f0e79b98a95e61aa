//! Units of the trade: points, lines, picas, ciceros, inches and millimetres.
//!
//! (To be filled: `Length` with one constructor per unit, systems of measure, heights to paper, parsing and showing.)

/// A length, kept in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length(f64);

impl Length {
    /// A length in millimetres.
    pub const fn mm(millimetres: f64) -> Length {
        Length(millimetres)
    }

    /// The length in millimetres.
    pub const fn in_mm(self) -> f64 {
        self.0
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
