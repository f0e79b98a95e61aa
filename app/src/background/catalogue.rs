//! The glyphs of a font with their characters and names, read once per font in the background.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use cam_core::commission::{Face, GlyphChoice};
use cam_core::digest::sha256_hex;
use cam_core::progress::Progress;
use geometry::font::{Font, FontError};

/// Characters between two looks at the stop signal.
const LOOK_EVERY: u32 = 4096;

/// One glyph.
#[derive(Clone, Debug, PartialEq)]
pub struct Glyph {
    /// Its index in the font.
    pub index: u16,
    /// The characters it stands for, in order.
    pub characters: Vec<char>,
    /// Its name, if the font gives one.
    pub name: Option<String>,
    /// OpenType features that put it in another glyph's place.
    pub features: BTreeSet<String>,
    /// How a bill line asks for it.
    pub choice: GlyphChoice,
}

impl Glyph {
    /// What to call it: the character if it is a common one, else the name, else the code or the index.
    pub fn title(&self) -> String {
        match (self.characters.first(), &self.name) {
            (Some(character), _) if is_common(*character) => character.to_string(),
            (_, Some(name)) => name.clone(),
            (Some(character), None) => format!("U+{:04X}", *character as u32),
            (None, None) => format!("glyph {}", self.index),
        }
    }

    /// Whether it is what is searched for: a character of the text, a part of its name, `U+` and its code,
    /// or the tag of a feature that brings it.
    pub fn answers(&self, search: &str) -> bool {
        let search = search.trim();
        if search.is_empty() {
            return true;
        }
        let code = search
            .strip_prefix("U+")
            .or_else(|| search.strip_prefix("u+"))
            .and_then(|code| u32::from_str_radix(code, 16).ok())
            .and_then(char::from_u32);
        let named = || {
            let name = self.name.as_deref().unwrap_or_default().to_lowercase();
            search.chars().count() > 1 && name.contains(&search.to_lowercase())
        };
        match code {
            Some(character) => self.characters.contains(&character),
            None => {
                self.characters.iter().any(|&c| search.contains(c))
                    || named()
                    || self.features.contains(search)
            }
        }
    }
}

/// Whether the window's own font is sure to have a character: Latin, Greek and Cyrillic letters, common points, currencies.
fn is_common(character: char) -> bool {
    matches!(character, '!'..='\u{52f}' | '\u{1e00}'..='\u{1eff}' | '\u{2010}'..='\u{203a}' | '\u{20a0}'..='\u{20bf}')
}

/// All glyphs of one face, and what is needed to show them.
#[derive(Clone, Debug)]
pub struct Catalogue {
    /// The font's family and style.
    pub title: String,
    /// SHA-256 of the font file as it is now, in lower-case hex.
    pub sha256: String,
    /// Glyphs with characters first, in the order of their characters, then the others by index.
    pub glyphs: Vec<Glyph>,
    /// Units to the em.
    pub units_per_em: f64,
    /// Ascender and descender, font units.
    pub heights: (f64, f64),
    /// OpenType features of the font.
    pub features: Vec<String>,
    /// Variable axes.
    pub axes: Vec<geometry::font::Axis>,
    /// Licence entries of the name table.
    pub licence: geometry::font::LicenceEntries,
    /// The embedding bits in words; `None` if the font has none.
    pub embedding: Option<String>,
}

/// Reads the catalogue of a face.
///
/// # Errors
/// A sentence.
pub fn catalogue(face: &Face, bytes: &Arc<[u8]>, progress: &Progress) -> Result<Catalogue, String> {
    let font = parse(face, bytes).map_err(|error| error.to_string())?;
    progress.begin("Reading the font", 1);
    let characters = characters_of(&font, progress)?;
    let features = font.features();
    let mut brought = brought(&font, &features, &characters, progress)?;
    let mut names = BTreeSet::new();
    let mut glyphs: Vec<Glyph> = (0..font.glyph_count())
        .map(|index| {
            let characters = characters.get(&index).cloned().unwrap_or_default();
            let name = font.glyph_name(index).filter(|name| !name.is_empty());
            let unique = name.as_ref().is_some_and(|name| names.insert(name.clone()));
            let choice = match (characters.first(), &name) {
                (Some(&character), _) => GlyphChoice::Character {
                    character,
                    features: Vec::new(),
                },
                (None, Some(name)) if unique => GlyphChoice::Name(name.clone()),
                (None, Some(_) | None) => GlyphChoice::Index(u32::from(index)),
            };
            Glyph {
                index,
                characters,
                name,
                features: brought.remove(&index).unwrap_or_default(),
                choice,
            }
        })
        .collect();
    glyphs.sort_by_key(|glyph| {
        (
            glyph.characters.first().map_or(u32::MAX, |&c| c as u32),
            glyph.index,
        )
    });
    let heights = font.heights();
    Ok(Catalogue {
        title: format!("{} {}", font.family(), font.style())
            .trim()
            .to_owned(),
        sha256: sha256_hex(bytes),
        glyphs,
        units_per_em: font.units_per_em(),
        heights: (heights.ascender, heights.descender),
        features,
        axes: font.axes(),
        licence: font.licence(),
        embedding: font.embedding().map(|embedding| embedding.in_words()),
    })
}

/// The font of a face.
///
/// # Errors
/// [`FontError`].
pub fn parse<'a>(face: &Face, bytes: &'a [u8]) -> Result<Font<'a>, FontError> {
    Font::parse(bytes, face.index, &face.variations)
}

/// The features that bring each glyph, in place of one that stands for a character.
fn brought(
    font: &Font,
    features: &[String],
    characters: &BTreeMap<u16, Vec<char>>,
    progress: &Progress,
) -> Result<BTreeMap<u16, BTreeSet<String>>, String> {
    let mut found: BTreeMap<u16, BTreeSet<String>> = BTreeMap::new();
    for feature in features {
        progress.check().map_err(|stopped| stopped.to_string())?;
        for &glyph in characters.keys() {
            let instead = font.substitute(glyph, feature).unwrap_or_default();
            for other in instead.into_iter().filter(|&other| other != glyph) {
                found.entry(other).or_default().insert(feature.clone());
            }
        }
    }
    Ok(found)
}

fn characters_of(font: &Font, progress: &Progress) -> Result<BTreeMap<u16, Vec<char>>, String> {
    let mut found: BTreeMap<u16, Vec<char>> = BTreeMap::new();
    for code in 0x20..=u32::from(char::MAX) {
        if code % LOOK_EVERY == 0 {
            progress.check().map_err(|stopped| stopped.to_string())?;
        }
        let Some(character) = char::from_u32(code).filter(|c| !c.is_control()) else {
            continue;
        };
        if let Some(glyph) = font.glyph_for(character).filter(|&glyph| glyph != 0) {
            found.entry(glyph).or_default().push(character);
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn glyph(characters: &[char], name: &str) -> Glyph {
        Glyph {
            index: 7,
            characters: characters.to_vec(),
            name: Some(name.to_owned()),
            features: BTreeSet::from(["ss01".to_owned()]),
            choice: GlyphChoice::Index(7),
        }
    }

    #[test]
    fn glyphs_are_found_by_character_name_and_code() {
        let ampersand = glyph(&['&'], "ampersand");
        for search in [
            "",
            " ",
            "&",
            "R&D",
            "amper",
            "AMPERSAND",
            "U+0026",
            "u+26",
            "ss01",
        ] {
            assert!(ampersand.answers(search), "{search}");
        }
        for search in ["a", "U+0041", "comma", "A", "ss02"] {
            assert!(!ampersand.answers(search), "{search}");
        }
        assert_eq!(ampersand.title(), "&");
        assert_eq!(glyph(&[], "fleuron").title(), "fleuron");
        assert_eq!(glyph(&['\u{e000}'], "fleuron").title(), "fleuron");
    }
}
