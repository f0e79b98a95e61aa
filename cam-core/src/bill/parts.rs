//! The parts of a fount: which part a line of a bill belongs to.

use crate::commission::GlyphChoice;

/// A part of a fount, as founts are sold and laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FountPart {
    /// Capitals and the ampersand.
    Capitals,
    /// Lower-case letters.
    LowerCase,
    /// Figures.
    Figures,
    /// Points, marks and signs.
    Points,
    /// Several letters on one block.
    Ligatures,
    /// Alternates, ornaments and whatever else is chosen by feature, name or index.
    Extras,
}

impl FountPart {
    /// All parts, in the order in which bills are written.
    pub const ALL: [FountPart; 6] = [
        FountPart::Capitals,
        FountPart::LowerCase,
        FountPart::Figures,
        FountPart::Points,
        FountPart::Ligatures,
        FountPart::Extras,
    ];

    /// The part that a choice of glyph belongs to. Letters without case are lower-case, as they are laid with these.
    pub fn of(choice: &GlyphChoice) -> FountPart {
        match choice {
            GlyphChoice::Character { features, .. } if !features.is_empty() => FountPart::Extras,
            GlyphChoice::Character { character, .. } if *character == '&' => FountPart::Capitals,
            GlyphChoice::Character { character, .. } if character.is_numeric() => {
                FountPart::Figures
            }
            GlyphChoice::Character { character, .. } if character.is_uppercase() => {
                FountPart::Capitals
            }
            GlyphChoice::Character { character, .. } if character.is_alphabetic() => {
                FountPart::LowerCase
            }
            GlyphChoice::Character { .. } => FountPart::Points,
            GlyphChoice::Ligature { .. } => FountPart::Ligatures,
            GlyphChoice::Name(_) | GlyphChoice::Index(_) | GlyphChoice::Drawing => {
                FountPart::Extras
            }
        }
    }

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            FountPart::Capitals => "Capitals",
            FountPart::LowerCase => "Lower-case",
            FountPart::Figures => "Figures",
            FountPart::Points => "Points",
            FountPart::Ligatures => "Ligatures",
            FountPart::Extras => "Extras",
        }
    }
}
