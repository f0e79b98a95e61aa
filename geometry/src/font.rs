//! Font bytes to outlines, metrics, kerning, features, axes and licence entries.
//!
//! Reads TrueType and OpenType files: outlines in `glyf`, `CFF` and `CFF2`, collections, and variable fonts at the axis values
//! asked for. Everything is in **font units**, y up; [`Font::units_per_em`] of them make an em.
//!
//! Substitutions and kerning are looked up in the font's own tables rather than by laying out text: a bill of type asks for
//! single glyphs and for the list of their alternates, which a text shaper does not give.
//!
//! # Source
//! OpenType specification; what is taken from which table is said beside it. First bytes of files that are no fonts: from memory.

use std::collections::BTreeMap;
use std::fmt;

use kurbo::BezPath;
use ttf_parser::{Face, FaceParsingError, GlyphId, Tag};

mod colour;
mod composite;
mod features;
mod heights;
mod kerning;
mod licence;
mod outline;
mod postscript;

pub use colour::ColourLayer;
pub use features::FeatureChoice;
pub use heights::Heights;
pub use licence::{Embedding, EmbeddingRight, LicenceEntries};

/// A face of a font file, ready to be asked for glyphs.
///
/// It borrows the file's bytes.
pub struct Font<'a> {
    face: Face<'a>,
}

/// One axis of a variable font.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Four-letter tag, such as `wght`.
    pub tag: String,
    /// The name that the font gives it; empty if it gives none.
    pub name: String,
    /// Smallest value.
    pub least: f64,
    /// The value when nothing is asked for.
    pub default: f64,
    /// Largest value.
    pub most: f64,
}

/// Why a font, or a glyph of it, could not be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FontError {
    /// The bytes are not a font that can be read.
    #[error("This is not a TrueType or OpenType font: {0}.")]
    NotAFont(String),
    /// The bytes begin like a font, but a part is missing or broken.
    #[error("The font is damaged: {0}. Get a fresh copy of the file.")]
    Damaged(String),
    /// The font needs a table that cannot be read, and would be drawn wrong without it.
    #[error(
        "The font describes its {what} by the table “{table}”, which cannot be read. Ask the maker of the font for a copy without it."
    )]
    TooNew {
        /// What would be wrong.
        what: &'static str,
        /// The table.
        table: &'static str,
    },
    /// The face asked for is not in the file.
    #[error("The file holds {found} face(s), counted from 0; there is no face {index}.")]
    NoSuchFace {
        /// The face asked for.
        index: u32,
        /// How many there are.
        found: u32,
    },
    /// The font has no such axis.
    #[error("The font has no axis “{tag}”. {known}")]
    NoSuchAxis {
        /// The tag asked for.
        tag: String,
        /// A sentence that lists the axes it has.
        known: String,
    },
    /// A value lies outside its axis.
    #[error("Axis “{tag}” of the font goes from {least} to {most}; {value} lies outside.")]
    AxisValue {
        /// The axis.
        tag: String,
        /// The value asked for.
        value: f64,
        /// Smallest value.
        least: f64,
        /// Largest value.
        most: f64,
    },
    /// The font has no glyph with this index.
    #[error("The font has {count} glyphs, counted from 0; there is no glyph {glyph}.")]
    NoSuchGlyph {
        /// The glyph asked for.
        glyph: u32,
        /// How many there are.
        count: u16,
    },
    /// A glyph's outline cannot be read.
    #[error("The outline of glyph {glyph}{name} is damaged: {why}. Get a fresh copy of the font.", name = bracketed(name))]
    BadOutline {
        /// The glyph.
        glyph: u16,
        /// Its name in the font; empty if it has none.
        name: String,
        /// What is wrong.
        why: String,
    },
    /// A glyph is a picture or bitmap without an outline.
    #[error("Glyph {glyph}{name} has no outline, only a picture; it cannot be cut.", name = bracketed(name))]
    NoOutline {
        /// The glyph.
        glyph: u16,
        /// Its name in the font; empty if it has none.
        name: String,
    },
    /// A glyph's colours are not areas of one colour each.
    #[error("The colours of glyph {glyph}{name} cannot be cut as plates: {why}. Order it in one colour, or from a font with flat colours.", name = bracketed(name))]
    Colours {
        /// The glyph.
        glyph: u16,
        /// Its name in the font; empty if it has none.
        name: String,
        /// What is in the way.
        why: String,
    },
    /// A feature was written in a way that cannot be understood.
    #[error(
        "“{0}” is not a feature: write its four-letter tag, or the tag and the number of the alternate, such as salt=2."
    )]
    BadFeature(String),
}

fn bracketed(name: &str) -> String {
    if name.is_empty() {
        String::new()
    } else {
        format!(" ({name})")
    }
}

/// How many faces the file holds: more than one only in a collection.
///
/// # Errors
/// The bytes are not a font.
pub fn faces_in(bytes: &[u8]) -> Result<u32, FontError> {
    recognise(bytes)?;
    Ok(ttf_parser::fonts_in_collection(bytes).unwrap_or(1))
}

impl<'a> Font<'a> {
    /// Reads face `index` of a file (0 unless the file is a collection), at the given values of its axes.
    ///
    /// Axes that are not named keep their default values.
    ///
    /// # Errors
    /// The bytes are not a font, are damaged, hold no such face, or the face has no such axis or axis value.
    pub fn parse(
        bytes: &'a [u8],
        index: u32,
        variations: &BTreeMap<String, f64>,
    ) -> Result<Font<'a>, FontError> {
        let found = faces_in(bytes)?;
        if index >= found {
            return Err(FontError::NoSuchFace { index, found });
        }
        let face = Face::parse(bytes, index).map_err(|error| damaged(error, index, found))?;
        let mut font = Font { face };
        font.refuse_what_cannot_be_read(!variations.is_empty())?;
        for (tag, &value) in variations {
            font.set_axis(tag, value)?;
        }
        Ok(font)
    }

    /// Fonts whose glyphs are put together by `VARC`, and axis values in fonts whose `avar` is of the second version.
    fn refuse_what_cannot_be_read(&self, axes_asked_for: bool) -> Result<(), FontError> {
        let table = |tag: &[u8; 4]| self.face.raw_face().table(Tag::from_bytes(tag));
        if table(b"VARC").is_some() {
            return Err(FontError::TooNew {
                what: "glyphs",
                table: "VARC",
            });
        }
        let second_version = table(b"avar").is_some_and(|avar| avar.starts_with(&[0, 2]));
        if axes_asked_for && second_version {
            return Err(FontError::TooNew {
                what: "axes",
                table: "avar",
            });
        }
        Ok(())
    }

    fn set_axis(&mut self, tag: &str, value: f64) -> Result<(), FontError> {
        let Some(axis) = self.axes().into_iter().find(|axis| axis.tag == tag) else {
            return Err(FontError::NoSuchAxis {
                tag: tag.to_owned(),
                known: self.axes_in_words(),
            });
        };
        if !(axis.least..=axis.most).contains(&value) {
            return Err(FontError::AxisValue {
                tag: axis.tag,
                value,
                least: axis.least,
                most: axis.most,
            });
        }
        self.face
            .set_variation(Tag::from_bytes_lossy(tag.as_bytes()), value as f32)
            .ok_or_else(|| FontError::Damaged("it has more axes than can be read".to_owned()))
    }

    fn axes_in_words(&self) -> String {
        let tags: Vec<String> = self.axes().into_iter().map(|axis| axis.tag).collect();
        if tags.is_empty() {
            "It is not a variable font.".to_owned()
        } else {
            format!("It has {}.", tags.join(", "))
        }
    }

    /// The axes of a variable font; none of any other font.
    pub fn axes(&self) -> Vec<Axis> {
        self.face
            .variation_axes()
            .into_iter()
            .map(|axis| Axis {
                tag: axis.tag.to_string(),
                name: licence::name_entry(&self.face, axis.name_id).unwrap_or_default(),
                least: f64::from(axis.min_value),
                default: f64::from(axis.def_value),
                most: f64::from(axis.max_value),
            })
            .collect()
    }

    /// How many font units make an em.
    pub fn units_per_em(&self) -> f64 {
        f64::from(self.face.units_per_em())
    }

    /// How many glyphs the font has.
    pub fn glyph_count(&self) -> u16 {
        self.face.number_of_glyphs()
    }

    /// The glyph that the font's character map gives for a character; `None` if it gives none.
    ///
    /// In a variable font, the substitutions that the font itself requires at these axis values (feature `rvrn`) are not
    /// applied yet: see [`Font::required`].
    pub fn glyph_for(&self, character: char) -> Option<u16> {
        let glyph = self.face.glyph_index(character)?.0;
        (glyph != 0).then_some(glyph)
    }

    /// The glyph of a name; `None` if the font has no such name.
    pub fn glyph_named(&self, name: &str) -> Option<u16> {
        self.face.glyph_index_by_name(name).map(|glyph| glyph.0)
    }

    /// The name of a glyph; `None` if the font gives none.
    pub fn glyph_name(&self, glyph: u16) -> Option<String> {
        self.face.glyph_name(GlyphId(glyph)).map(str::to_owned)
    }

    /// The glyph's outline in font units, every contour closed; empty for a space.
    ///
    /// Contours are as drawn: they may overlap, and are meant to be filled by the nonzero rule.
    ///
    /// # Errors
    /// The font has no such glyph, or its outline is damaged or missing.
    pub fn outline(&self, glyph: u16) -> Result<BezPath, FontError> {
        outline::outline(self, glyph)
    }

    /// The glyph's advance width in font units; 0 if the font gives none.
    pub fn advance(&self, glyph: u16) -> f64 {
        self.face
            .glyph_hor_advance(GlyphId(glyph))
            .map_or(0.0, f64::from)
    }

    /// The distance from the glyph's origin to the left of its drawing, in font units, as the font states it; `None` if it
    /// states none.
    pub fn left_side_bearing(&self, glyph: u16) -> Option<f64> {
        self.face
            .glyph_hor_side_bearing(GlyphId(glyph))
            .map(f64::from)
    }

    fn checked(&self, glyph: u16) -> Result<GlyphId, FontError> {
        if glyph < self.glyph_count() {
            Ok(GlyphId(glyph))
        } else {
            Err(FontError::NoSuchGlyph {
                glyph: u32::from(glyph),
                count: self.glyph_count(),
            })
        }
    }
}

impl fmt::Debug for Font<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "Font({}, {} glyphs)",
            self.family(),
            self.glyph_count()
        )
    }
}

/// Says what a file is that cannot be read as a font.
fn recognise(bytes: &[u8]) -> Result<(), FontError> {
    let not = |what: &str| Err(FontError::NotAFont(what.to_owned()));
    if bytes.is_empty() {
        return not("the file is empty");
    }
    match bytes.get(..4) {
        Some([0, 1, 0, 0] | b"true" | b"OTTO" | b"ttcf") => Ok(()),
        Some(b"wOFF" | b"wOF2") => not(
            "it is a web font (WOFF); unpack it to .ttf or .otf, or ask the maker for that file",
        ),
        Some(b"%PDF") => not("it is a PDF document"),
        Some(b"%!PS" | b"%!Fo") | Some([0x80, 1, _, _]) => {
            not("it is an old PostScript Type 1 font; convert it to .otf first")
        }
        Some([b'P', b'K', 3, 4]) => not("it is a ZIP archive; unpack it first"),
        Some([0x1f, 0x8b, _, _]) => not("it is a compressed file; unpack it first"),
        Some([0x89, b'P', b'N', b'G']) => not("it is a PNG picture"),
        Some(start) if starts_like_markup(start) => not("it is an XML, SVG or HTML file"),
        Some(_) => not("the file does not begin as one"),
        None => not("the file is too short"),
    }
}

fn starts_like_markup(start: &[u8]) -> bool {
    let start = start.strip_prefix(b"\xef\xbb\xbf").unwrap_or(start);
    start.first() == Some(&b'<')
}

fn damaged(error: FaceParsingError, index: u32, found: u32) -> FontError {
    let why = match error {
        FaceParsingError::FaceIndexOutOfBounds => return FontError::NoSuchFace { index, found },
        FaceParsingError::MalformedFont => "its list of tables cannot be read",
        FaceParsingError::UnknownMagic => "it does not begin as a font",
        FaceParsingError::NoHeadTable => "its header (table head) is missing or broken",
        FaceParsingError::NoHheaTable => "its line metrics (table hhea) are missing or broken",
        FaceParsingError::NoMaxpTable => "its glyph count (table maxp) is missing or broken",
    };
    FontError::Damaged(why.to_owned())
}

#[cfg(test)]
mod tests;
