//! Kerning of pairs.

use ttf_parser::GlyphId;
use ttf_parser::gpos::{Device, PairAdjustment, PositioningSubtable, ValueRecord};

use super::Font;

/// The feature that holds a font's kerning in table `GPOS`.
const KERN: &str = "kern";

impl Font<'_> {
    /// By how much the distance between two glyphs changes when they stand beside each other, in font units: negative closes
    /// the pair up.
    ///
    /// From the pair adjustments (by glyph and by class) of feature `kern` in table `GPOS`; if the font has no such feature,
    /// from its `kern` table; else 0. Of several scripts, Latin is asked first, then the font's default.
    ///
    /// # Source
    /// OpenType specification, `GPOS` lookup type 2, and table `kern`.
    pub fn kerning(&self, left: u16, right: u16) -> f64 {
        let pair = (GlyphId(left), GlyphId(right));
        match self.positioned_kerning(pair) {
            Some(kerning) => kerning,
            None => self.tabled_kerning(pair),
        }
    }

    /// `None` if the font has no kerning feature at all.
    fn positioned_kerning(&self, pair: (GlyphId, GlyphId)) -> Option<f64> {
        let table = self.face.tables().gpos?;
        let by_script = self.lookups_by_script(&table, KERN);
        if by_script.is_empty() {
            return None;
        }
        // The first script that speaks of the pair decides.
        let kerning = by_script.into_iter().find_map(|lookups| {
            lookups
                .into_iter()
                .filter_map(|lookup| {
                    let lookup = table.lookups.get(lookup)?;
                    // Within one lookup, the first subtable that covers the pair decides.
                    lookup
                        .subtables
                        .into_iter::<PositioningSubtable<'_>>()
                        .find_map(|subtable| match subtable {
                            PositioningSubtable::Pair(adjustment) => {
                                self.adjustment(&adjustment, pair)
                            }
                            PositioningSubtable::Single(_)
                            | PositioningSubtable::Cursive(_)
                            | PositioningSubtable::MarkToBase(_)
                            | PositioningSubtable::MarkToLigature(_)
                            | PositioningSubtable::MarkToMark(_)
                            | PositioningSubtable::Context(_)
                            | PositioningSubtable::ChainContext(_) => None,
                        })
                })
                .reduce(|sum, one| sum + one)
        });
        Some(kerning.unwrap_or(0.0))
    }

    fn adjustment(
        &self,
        adjustment: &PairAdjustment<'_>,
        (left, right): (GlyphId, GlyphId),
    ) -> Option<f64> {
        let covered = adjustment.coverage().get(left)?;
        let (first, _) = match adjustment {
            PairAdjustment::Format1 { sets, .. } => sets.get(covered)?.get(right)?,
            PairAdjustment::Format2 {
                classes, matrix, ..
            } => matrix.get((classes.0.get(left), classes.1.get(right)))?,
        };
        Some(self.advance_change(first))
    }

    fn advance_change(&self, record: ValueRecord<'_>) -> f64 {
        let varied = match record.x_advance_device {
            Some(Device::Variation(place)) => self
                .face
                .tables()
                .gdef
                .and_then(|gdef| {
                    gdef.glyph_variation_delta(
                        place.outer_index,
                        place.inner_index,
                        self.face.variation_coordinates(),
                    )
                })
                .map_or(0.0, f64::from),
            // Corrections for screens of few dots do not concern wood.
            Some(Device::Hinting(_)) | None => 0.0,
        };
        f64::from(record.x_advance) + varied
    }

    fn tabled_kerning(&self, (left, right): (GlyphId, GlyphId)) -> f64 {
        let Some(table) = self.face.tables().kern else {
            return 0.0;
        };
        table
            .subtables
            .into_iter()
            .filter(|subtable| {
                subtable.horizontal && !subtable.has_cross_stream && !subtable.has_state_machine
            })
            .filter_map(|subtable| subtable.glyphs_kerning(left, right))
            .map(f64::from)
            .sum()
    }
}
