//! From a line of the bill to a glyph, and to the name of its sort.

use geometry::font::{FeatureChoice, Font};

use crate::commission::GlyphChoice;
use crate::finding::{Finding, Severity, Subject};

/// The glyph that the maker chose.
///
/// Nothing is put in its place if it is not there: the result is then a finding of severity stop.
pub(super) fn resolve(font: &Font<'_>, face: &str, choice: &GlyphChoice) -> Result<u16, Finding> {
    let stop = |kind, text, remedy: &str| Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(name_of(choice)),
        kind,
        text,
        remedy: remedy.to_owned(),
    };
    match choice {
        GlyphChoice::Character {
            character,
            features,
        } => {
            let glyph = font.glyph_for(*character).ok_or_else(|| {
                stop(
                    "glyph-missing",
                    format!("Face {face} has no glyph for {}.", in_words(*character)),
                    "Take it off the bill, or order it from another face.",
                )
            })?;
            features
                .iter()
                .try_fold(font.required(glyph), |glyph, feature| {
                    alternate(font, glyph, feature).map_err(|why| {
                        stop(
                            "feature-without-effect",
                            format!("{} in face {face}: {why}", in_words(*character)),
                            "Choose another feature, or none.",
                        )
                    })
                })
        }
        GlyphChoice::Ligature { text, features } => {
            font.ligature(text, features).ok_or_else(|| {
                stop(
                    "ligature-missing",
                    format!(
                        "Face {face} makes no single glyph of “{text}” with {}.",
                        if features.is_empty() {
                            "no features".to_owned()
                        } else {
                            features.join(", ")
                        }
                    ),
                    "Order the letters one by one, or name the glyph.",
                )
            })
        }
        GlyphChoice::Drawing => Err(stop(
            "drawing-unknown",
            format!("{face} is a face, and only a drawing can be ordered whole."),
            "Name a drawing of the commission, or a glyph of the face.",
        )),
        GlyphChoice::Name(name) => font.glyph_named(name).ok_or_else(|| {
            stop(
                "glyph-missing",
                format!("Face {face} has no glyph named “{name}”."),
                "Look up the name in the font, or choose by character.",
            )
        }),
        GlyphChoice::Index(index) => u16::try_from(*index)
            .ok()
            .filter(|&glyph| glyph < font.glyph_count())
            .ok_or_else(|| {
                stop(
                    "glyph-missing",
                    format!(
                        "Face {face} has {} glyphs, counted from 0; there is no glyph {index}.",
                        font.glyph_count()
                    ),
                    "Choose a lower number, or choose by character.",
                )
            }),
    }
}

/// What one feature puts in place of a glyph, or a clause that says why it puts nothing.
fn alternate(font: &Font<'_>, glyph: u16, feature: &str) -> Result<u16, String> {
    let choice: FeatureChoice = feature
        .parse()
        .map_err(|error: geometry::font::FontError| error.to_string())?;
    let offered = font
        .substitute(glyph, &choice.tag)
        .ok_or_else(|| format!("feature {} does nothing to it.", choice.tag))?;
    offered.get(choice.alternate - 1).copied().ok_or_else(|| {
        format!(
            "feature {} offers {} alternate(s), not {}.",
            choice.tag,
            offered.len(),
            choice.alternate
        )
    })
}

/// The maker's name for what a line of the bill orders.
pub fn name_of(choice: &GlyphChoice) -> String {
    match choice {
        GlyphChoice::Character {
            character,
            features,
        } => std::iter::once(visible(*character))
            .chain(features.iter().cloned())
            .collect::<Vec<_>>()
            .join(" "),
        GlyphChoice::Ligature { text, .. } => text.clone(),
        GlyphChoice::Name(name) => name.clone(),
        GlyphChoice::Index(index) => format!("glyph {index}"),
        GlyphChoice::Drawing => "drawing".to_owned(),
    }
}

/// What the sort prints, as text; empty if it was not chosen by text.
pub(super) fn text_of(choice: &GlyphChoice) -> String {
    match choice {
        GlyphChoice::Character { character, .. } => character.to_string(),
        GlyphChoice::Ligature { text, .. } => text.clone(),
        GlyphChoice::Name(_) | GlyphChoice::Index(_) | GlyphChoice::Drawing => String::new(),
    }
}

/// The character itself, or its code where it shows nothing by itself.
fn visible(character: char) -> String {
    if character.is_control() || character.is_whitespace() || is_combining(character) {
        format!("U+{:04X}", u32::from(character))
    } else {
        character.to_string()
    }
}

/// Marks that need a letter to stand on, in the block of the commonest ones (the Unicode Standard, Combining Diacritical Marks).
fn is_combining(character: char) -> bool {
    ('\u{300}'..='\u{36F}').contains(&character)
}

/// The character with its code, such as “ß” (U+00DF).
pub(crate) fn in_words(character: char) -> String {
    format!("“{}” (U+{:04X})", visible(character), u32::from(character))
}
