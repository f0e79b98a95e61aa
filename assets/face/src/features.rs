//! What the files say beyond single glyphs: alternates, ligatures and kerning.

use crate::kerning;
use std::collections::BTreeMap;
use write_fonts::read::collections::IntSet;
use write_fonts::tables::gpos::builders::{PairPosBuilder, ValueRecordBuilder};
use write_fonts::tables::gpos::{Gpos, PositionLookup};
use write_fonts::tables::gsub::builders::{LigatureSubBuilder, SingleSubBuilder};
use write_fonts::tables::gsub::{Gsub, SubstitutionLookup};
use write_fonts::tables::layout::builders::Builder;
use write_fonts::tables::layout::{
    Feature, FeatureList, FeatureRecord, LangSys, Lookup, LookupFlag, LookupList, Script,
    ScriptList, ScriptRecord,
};
use write_fonts::tables::variations::ivs_builder::VariationStoreBuilder;
use write_fonts::types::{GlyphId16, Tag};

/// The glyphs of a file by name.
pub type Ids = BTreeMap<&'static str, GlyphId16>;

/// Scripts for a table whose features all apply to Latin, in order.
fn scripts(features: u16) -> ScriptList {
    let script = || Script::new(Some(LangSys::new((0..features).collect())), Vec::new());
    ScriptList::new(vec![
        ScriptRecord::new(Tag::new(b"DFLT"), script()),
        ScriptRecord::new(Tag::new(b"latn"), script()),
    ])
}

fn feature(tag: &[u8; 4], lookup: u16) -> FeatureRecord {
    FeatureRecord::new(Tag::new(tag), Feature::new(None, vec![lookup]))
}

/// Alternates (the suffix of a glyph's name is their feature) and ligatures (their names are their letters').
pub fn gsub(ids: &Ids) -> Gsub {
    let mut alternates = SingleSubBuilder::default();
    let mut ligatures = LigatureSubBuilder::default();
    for (&name, &id) in ids {
        if let Some(plain) = name.strip_suffix(".ss01").and_then(|plain| ids.get(plain)) {
            alternates.insert(*plain, id);
        }
        let components: Option<Vec<GlyphId16>> =
            name.split('_').map(|part| ids.get(part).copied()).collect();
        if let Some(components) = components.filter(|components| components.len() > 1) {
            ligatures.insert(components, id);
        }
    }
    let mut store = VariationStoreBuilder::new(0);
    let lookups = vec![
        SubstitutionLookup::Ligature(Lookup::new(
            LookupFlag::empty(),
            ligatures
                .build(&mut store)
                .into_iter()
                .map(Into::into)
                .collect(),
        )),
        SubstitutionLookup::Single(Lookup::new(
            LookupFlag::empty(),
            alternates.build(&mut store),
        )),
    ];
    let features = FeatureList::new(vec![feature(b"liga", 0), feature(b"ss01", 1)]);
    Gsub::new(scripts(2), features, LookupList::new(lookups))
}

/// Kerning by groups.
pub fn gpos(ids: &Ids) -> Gpos {
    let set = |groups: &[kerning::Group], key: &str| -> IntSet<GlyphId16> {
        let members = groups
            .iter()
            .find(|group| group.key == key)
            .map_or(&[][..], |group| group.members);
        members
            .iter()
            .filter_map(|member| ids.get(member).copied())
            .collect()
    };
    let mut pairs = PairPosBuilder::default();
    for &(first, second, by) in kerning::PAIRS {
        let (first, second) = (set(kerning::FIRST, first), set(kerning::SECOND, second));
        if !first.is_empty() && !second.is_empty() {
            let closing = ValueRecordBuilder::new().with_x_advance(by);
            pairs.insert_classes(first, closing, second, ValueRecordBuilder::new());
        }
    }
    let mut store = VariationStoreBuilder::new(0);
    let lookup = PositionLookup::Pair(Lookup::new(LookupFlag::empty(), pairs.build(&mut store)));
    Gpos::new(
        scripts(1),
        FeatureList::new(vec![feature(b"kern", 0)]),
        LookupList::new(vec![lookup]),
    )
}

/// By how much the set width of `first` changes before `second`, in font units; what the files say in GPOS.
pub fn kerning_of(first: &str, second: &str) -> f64 {
    let holds = |groups: &[kerning::Group], key: &str, name: &str| {
        groups
            .iter()
            .any(|group| group.key == key && group.members.contains(&name))
    };
    let pair = kerning::PAIRS.iter().find(|&&(left, right, _)| {
        holds(kerning::FIRST, left, first) && holds(kerning::SECOND, right, second)
    });
    pair.map_or(0.0, |&(_, _, by)| f64::from(by))
}
