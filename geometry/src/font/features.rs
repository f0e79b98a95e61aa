//! OpenType substitutions: alternates of a glyph, ligatures of a text.

use std::collections::BTreeSet;
use std::str::FromStr;

use ttf_parser::gsub::{LigatureSubstitution, SingleSubstitution, SubstitutionSubtable};
use ttf_parser::opentype_layout::{LayoutTable, LookupIndex};
use ttf_parser::{GlyphId, Tag};

use super::{Font, FontError};

/// The feature that a variable font requires at some of its axis values (OpenType specification, registered features).
const REQUIRED: &str = "rvrn";
/// Scripts that are asked first, in this order (OpenType specification, script tags: Latin, and a font's default).
const SCRIPTS: [&[u8; 4]; 2] = [b"latn", b"DFLT"];

/// A feature and which of its alternates is meant: `ss01`, or `salt=2` for the second alternate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FeatureChoice {
    /// Four-letter tag.
    pub tag: String,
    /// Which alternate, counted from 1.
    pub alternate: usize,
}

impl FromStr for FeatureChoice {
    type Err = FontError;

    fn from_str(text: &str) -> Result<FeatureChoice, FontError> {
        let bad = || FontError::BadFeature(text.to_owned());
        let (tag, number) = match text.split_once('=') {
            Some((tag, number)) => (tag.trim(), number.trim().parse().map_err(|_| bad())?),
            None => (text.trim(), 1),
        };
        let is_tag =
            (1..=4).contains(&tag.len()) && tag.bytes().all(|byte| byte.is_ascii_graphic());
        if !is_tag || number == 0 {
            return Err(bad());
        }
        Ok(FeatureChoice {
            tag: tag.to_owned(),
            alternate: number,
        })
    }
}

impl Font<'_> {
    /// The tags of the font's substitution features, sorted, each once.
    pub fn features(&self) -> Vec<String> {
        let Some(table) = self.face.tables().gsub else {
            return Vec::new();
        };
        let tags: BTreeSet<String> = table
            .features
            .into_iter()
            .map(|feature| feature.tag.to_string())
            .collect();
        tags.into_iter().collect()
    }

    /// What a feature puts in place of a glyph: one glyph, or the list of alternates to choose from; `None` if the feature is
    /// not in the font or does not touch the glyph.
    ///
    /// Single and alternate substitutions are followed; contextual ones are not, since a sort stands alone.
    ///
    /// # Source
    /// OpenType specification, `GSUB` lookup types 1, 3 and 7.
    pub fn substitute(&self, glyph: u16, feature: &str) -> Option<Vec<u16>> {
        let table = self.face.tables().gsub?;
        self.lookups_by_script(&table, feature)
            .into_iter()
            .find_map(|lookups| substituted(&table, &lookups, GlyphId(glyph)))
    }

    /// The glyph after the substitutions that a variable font requires at its present axis values (feature `rvrn`); the glyph
    /// itself where none is required.
    ///
    /// # Source
    /// OpenType specification, feature `rvrn` and feature variations of `GSUB`.
    pub fn required(&self, glyph: u16) -> u16 {
        if !self.face.is_variable() {
            return glyph;
        }
        self.substitute(glyph, REQUIRED)
            .and_then(|glyphs| glyphs.first().copied())
            .unwrap_or(glyph)
    }

    /// The single glyph that a text becomes under features, such as `ffi` under `liga`; `None` if it stays several glyphs or
    /// the font lacks a character.
    ///
    /// The lookups of all the features are applied in the font's order, as the specification asks.
    ///
    /// # Source
    /// OpenType specification, `GSUB` lookup types 1, 3, 4 and 7.
    pub fn ligature(&self, text: &str, features: &[String]) -> Option<u16> {
        let table = self.face.tables().gsub?;
        let glyphs: Vec<GlyphId> = text
            .chars()
            .map(|character| Some(GlyphId(self.required(self.glyph_for(character)?))))
            .collect::<Option<_>>()?;
        if glyphs.len() < 2 {
            return None;
        }
        let by_feature: Vec<Vec<Vec<LookupIndex>>> = features
            .iter()
            .map(|feature| self.lookups_by_script(&table, feature))
            .collect();
        let scripts = by_feature.iter().map(Vec::len).max().unwrap_or(0);
        (0..scripts).find_map(|script| {
            let lookups: BTreeSet<LookupIndex> = by_feature
                .iter()
                .filter_map(|scripts| scripts.get(script).or_else(|| scripts.last()))
                .flatten()
                .copied()
                .collect();
            let mut line = glyphs.clone();
            for lookup in lookups {
                apply(&table, lookup, &mut line);
            }
            match line[..] {
                [joined] => Some(joined.0),
                _ => None,
            }
        })
    }

    /// The lookups of a feature, one list for each script that has it, without repeats: Latin first, then the font's default
    /// script, then the others; last, the feature wherever else it stands (under a language alone).
    ///
    /// In a variable font, the lookups that stand in for the feature's own at these axis values.
    pub(super) fn lookups_by_script(
        &self,
        table: &LayoutTable<'_>,
        feature: &str,
    ) -> Vec<Vec<LookupIndex>> {
        let tag = Tag::from_bytes_lossy(feature.as_bytes());
        let preferred = SCRIPTS
            .into_iter()
            .filter_map(|script| table.scripts.find(Tag::from_bytes(script)));
        let defaults = preferred
            .chain(table.scripts)
            .filter_map(|script| script.default_language)
            .map(|language| {
                language
                    .feature_indices
                    .into_iter()
                    .chain(language.required_feature)
                    .collect::<Vec<u16>>()
            });
        let mut found: Vec<Vec<LookupIndex>> = Vec::new();
        for features in defaults.chain(std::iter::once((0..table.features.len()).collect())) {
            let lookups: BTreeSet<LookupIndex> = features
                .into_iter()
                .filter_map(|index| {
                    let own = table.features.get(index)?;
                    (own.tag == tag).then(|| {
                        self.varied_feature(table, index)
                            .unwrap_or(own)
                            .lookup_indices
                    })
                })
                .flatten()
                .collect();
            let lookups: Vec<LookupIndex> = lookups.into_iter().collect();
            if !lookups.is_empty() && !found.contains(&lookups) {
                found.push(lookups);
            }
        }
        found
    }

    fn varied_feature<'t>(
        &self,
        table: &LayoutTable<'t>,
        index: u16,
    ) -> Option<ttf_parser::opentype_layout::Feature<'t>> {
        let variations = table.variations?;
        let condition = variations.find_index(self.face.variation_coordinates())?;
        variations.find_substitute(index, condition)
    }
}

/// What the lookups make of one glyph; `None` if they leave it alone.
pub(super) fn substituted(
    table: &LayoutTable<'_>,
    lookups: &[LookupIndex],
    glyph: GlyphId,
) -> Option<Vec<u16>> {
    let mut current = glyph;
    let mut touched = false;
    for &lookup in lookups {
        match choices(table, lookup, current).as_deref() {
            None | Some([]) => {}
            Some(&[only]) => {
                current = only;
                touched = true;
            }
            Some(many) => return Some(many.iter().map(|glyph| glyph.0).collect()),
        }
    }
    touched.then(|| vec![current.0])
}

/// What one lookup offers for one glyph.
fn choices(table: &LayoutTable<'_>, lookup: LookupIndex, glyph: GlyphId) -> Option<Vec<GlyphId>> {
    table
        .lookups
        .get(lookup)?
        .subtables
        .into_iter::<SubstitutionSubtable<'_>>()
        .find_map(|subtable| match subtable {
            SubstitutionSubtable::Single(single) => {
                single_choice(&single, glyph).map(|one| vec![one])
            }
            SubstitutionSubtable::Alternate(alternate) => {
                let covered = alternate.coverage.get(glyph)?;
                let set = alternate.alternate_sets.get(covered)?;
                Some(set.alternates.into_iter().collect())
            }
            SubstitutionSubtable::Multiple(_)
            | SubstitutionSubtable::Ligature(_)
            | SubstitutionSubtable::Context(_)
            | SubstitutionSubtable::ChainContext(_)
            | SubstitutionSubtable::ReverseChainSingle(_) => None,
        })
}

fn single_choice(single: &SingleSubstitution<'_>, glyph: GlyphId) -> Option<GlyphId> {
    let covered = single.coverage().get(glyph)?;
    match single {
        // The specification counts modulo 65 536.
        SingleSubstitution::Format1 { delta, .. } => {
            Some(GlyphId(glyph.0.wrapping_add_signed(*delta)))
        }
        SingleSubstitution::Format2 { substitutes, .. } => substitutes.get(covered),
    }
}

/// Applies one lookup once along a line of glyphs.
fn apply(table: &LayoutTable<'_>, lookup: LookupIndex, line: &mut Vec<GlyphId>) {
    let mut at = 0;
    // Each turn moves one place on, and the line never grows.
    while at < line.len() {
        if let Some((joined, length)) = joined_at(table, lookup, &line[at..]) {
            line.splice(at..at + length, [joined]);
        } else if let Some(&first) = choices(table, lookup, line[at])
            .as_deref()
            .and_then(<[GlyphId]>::first)
        {
            line[at] = first;
        }
        at += 1;
    }
}

/// The ligature that a lookup makes of the beginning of a line, and how many glyphs it takes.
fn joined_at(
    table: &LayoutTable<'_>,
    lookup: LookupIndex,
    line: &[GlyphId],
) -> Option<(GlyphId, usize)> {
    table
        .lookups
        .get(lookup)?
        .subtables
        .into_iter::<SubstitutionSubtable<'_>>()
        .find_map(|subtable| match subtable {
            SubstitutionSubtable::Ligature(ligature) => ligature_of(&ligature, line),
            SubstitutionSubtable::Single(_)
            | SubstitutionSubtable::Multiple(_)
            | SubstitutionSubtable::Alternate(_)
            | SubstitutionSubtable::Context(_)
            | SubstitutionSubtable::ChainContext(_)
            | SubstitutionSubtable::ReverseChainSingle(_) => None,
        })
}

fn ligature_of(table: &LigatureSubstitution<'_>, line: &[GlyphId]) -> Option<(GlyphId, usize)> {
    let (&first, rest) = line.split_first()?;
    let set = table.ligature_sets.get(table.coverage.get(first)?)?;
    set.into_iter().find_map(|ligature| {
        let wanted = usize::from(ligature.components.len());
        let fits = rest.len() >= wanted
            && ligature
                .components
                .into_iter()
                .eq(rest[..wanted].iter().copied());
        fits.then_some((ligature.glyph, wanted + 1))
    })
}
