//! From a line of the bill to a glyph, and to the name of its sort.

use geometry::font::{FeatureChoice, Font};
use said::{Joint, Said, Value};

use crate::commission::GlyphChoice;
use crate::finding::{Finding, Severity, Subject, texts};

/// The glyph that the maker chose.
///
/// Nothing is put in its place if it is not there: the result is then a finding of severity stop.
pub(super) fn resolve(font: &Font<'_>, face: &str, choice: &GlyphChoice) -> Result<u16, Finding> {
    let stop = |kind, text, remedy| Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(name_of(choice)),
        kind,
        text,
        remedy,
    };
    match choice {
        GlyphChoice::Character {
            character,
            features,
        } => {
            let glyph = font.glyph_for(*character).ok_or_else(|| {
                stop(
                    "glyph-missing",
                    texts::glyph_missing(face, in_words(*character)),
                    texts::glyph_missing_remedy(),
                )
            })?;
            features
                .iter()
                .try_fold(font.required(glyph), |glyph, feature| {
                    alternate(font, glyph, feature).map_err(|why| {
                        stop(
                            "feature-without-effect",
                            texts::feature_without_effect(in_words(*character), face, why),
                            texts::feature_without_effect_remedy(),
                        )
                    })
                })
        }
        GlyphChoice::Ligature { text, features } => {
            font.ligature(text, features).ok_or_else(|| {
                stop(
                    "ligature-missing",
                    texts::ligature_missing(
                        face,
                        text,
                        if features.is_empty() {
                            texts::no_features().into()
                        } else {
                            Value::list(features, Joint::Comma)
                        },
                    ),
                    texts::ligature_missing_remedy(),
                )
            })
        }
        GlyphChoice::Drawing => Err(stop(
            "drawing-unknown",
            texts::face_is_no_drawing(face),
            texts::face_is_no_drawing_remedy(),
        )),
        GlyphChoice::Name(name) => font.glyph_named(name).ok_or_else(|| {
            stop(
                "glyph-missing",
                texts::glyph_name_missing(face, name),
                texts::glyph_name_missing_remedy(),
            )
        }),
        GlyphChoice::Index(index) => u16::try_from(*index)
            .ok()
            .filter(|&glyph| glyph < font.glyph_count())
            .ok_or_else(|| {
                stop(
                    "glyph-missing",
                    texts::glyph_number_missing(face, font.glyph_count(), *index),
                    texts::glyph_number_missing_remedy(),
                )
            }),
    }
}

/// What one feature puts in place of a glyph, or a clause that says why it puts nothing.
fn alternate(font: &Font<'_>, glyph: u16, feature: &str) -> Result<u16, Said> {
    let choice: FeatureChoice = feature
        .parse()
        .map_err(|error: geometry::font::FontError| error.to_string())?;
    let offered = font
        .substitute(glyph, &choice.tag)
        .ok_or_else(|| texts::feature_does_nothing(&choice.tag))?;
    offered
        .get(choice.alternate - 1)
        .copied()
        .ok_or_else(|| texts::feature_has_fewer(&choice.tag, offered.len(), choice.alternate))
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
