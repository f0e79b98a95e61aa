//! Heights to paper.

use super::Length;

/// A height to paper by the place or convention that uses it.
///
/// Sources disagree in the third decimal of an inch, so every preset shows its number and can be overtyped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeightToPaper {
    /// The place or convention.
    pub name: &'static str,
    /// The height.
    pub height: Length,
    /// Where the figure comes from.
    pub source: &'static str,
}

/// Heights to paper by place, the commonest first.
///
/// # Source
/// Beside each figure. "Lists" are tables of heights copied by letterpress printers from foundry and mould-height lists; where
/// they disagree the entry says so. That India and Australia keep the height of the first entry is a printer's note after a specimen book of 1958.
pub const HEIGHTS_TO_PAPER: [HeightToPaper; 12] = [
    HeightToPaper {
        name: "USA, Canada, United Kingdom, India, Australia",
        height: Length::mm(23.3172),
        source: "0.918 in: A. A. Stewart, Type: a primer, 1918, p. 7",
    },
    HeightToPaper {
        name: "American convention of 1886",
        height: Length::mm(350.0 / 15.0),
        source: "15 heights make 35 cm: Typo, vol. 1, 1887, Type Standards",
    },
    HeightToPaper {
        name: "France, Germany, Switzerland, most of Europe",
        height: Length::mm(23.56),
        source: "62 2/3 Didot points, rounded: mould-height lists",
    },
    HeightToPaper {
        name: "Italy",
        height: Length::mm(23.56),
        source: "L. Legros and J. Grant, Typographical Printing-Surfaces, 1916; from memory",
    },
    HeightToPaper {
        name: "Belgium",
        height: Length::inches(0.933),
        source: "between 0.932 and 0.934 in: three lists disagree",
    },
    HeightToPaper {
        name: "Bulgaria",
        height: Length::mm(23.77),
        source: "0.936 in: one list",
    },
    HeightToPaper {
        name: "Austria-Hungary (old)",
        height: Length::mm(23.69),
        source: "foundry list of the 1930s",
    },
    HeightToPaper {
        name: "Leipzig (old)",
        height: Length::mm(24.82),
        source: "66 Didot points: German reference works, read in a copy",
    },
    HeightToPaper {
        name: "Netherlands (old)",
        height: Length::mm(24.85),
        source: "0.9785 in: two lists agree",
    },
    HeightToPaper {
        name: "Russia, Petersburg",
        height: Length::mm(25.1),
        source: "66 3/4 Didot points: foundry list of the 1930s",
    },
    HeightToPaper {
        name: "Russia, another statement",
        height: Length::mm(23.83),
        source: "0.938 in: one list, in conflict with the others",
    },
    HeightToPaper {
        name: "Denmark (old)",
        height: Length::mm(25.2),
        source: "foundry list of the 1930s",
    },
];
