//! The committed files are the drawing's, and other readers read them alike.

mod reading;

use demo_face::features::kerning_of;
use demo_face::font_file::{EM, Layer, build};
use demo_face::{glyphs, merge};
use kurbo::{BezPath, ParamCurve, PathSeg, Point};
use reading::{committed, outlines};
use skrifa::MetadataProvider;
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::prelude::{LocationRef, Size};

const LAYERS: [Layer; 2] = [Layer::Regular, Layer::Inline];

#[test]
fn committed_files_are_what_the_drawing_builds() {
    for layer in LAYERS {
        let built = build(layer).expect("the drawing builds");
        assert!(
            built == committed(layer),
            "{} is out of date: run `cargo run -p demo-face`",
            layer.file_name()
        );
    }
}

#[derive(Default)]
struct Pen(BezPath);

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0
            .quad_to((f64::from(x1), f64::from(y1)), (f64::from(x), f64::from(y)));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let point = |x: f32, y: f32| Point::new(f64::from(x), f64::from(y));
        self.0.curve_to(point(x1, y1), point(x2, y2), point(x, y));
    }
    fn close(&mut self) {
        self.0.close_path();
    }
}

/// The contours as lists of segments, each from its least point on: readers start a contour without a starting point on the
/// curve where they like.
fn contours(outline: &BezPath) -> Vec<Vec<PathSeg>> {
    let segments = |contour: &BezPath| contour.segments().collect();
    let mut contours: Vec<Vec<PathSeg>> = merge::subpaths(outline).iter().map(segments).collect();
    for contour in &mut contours {
        let place = |&i: &usize| {
            let start = contour[i].start();
            ((start.x * 64.0) as i64, (start.y * 64.0) as i64)
        };
        let least = (0..contour.len()).min_by_key(place).unwrap_or(0);
        contour.rotate_left(least);
    }
    contours
}

/// Source: two independent readers, the crates ttf-parser and skrifa.
#[test]
fn two_readers_see_the_same_outlines_and_set_widths() {
    for layer in LAYERS {
        let bytes = committed(layer);
        let font = skrifa::FontRef::new(&bytes).expect("skrifa reads the file");
        let face = ttf_parser::Face::parse(&bytes, 0).expect("ttf-parser reads the file");
        let widths = font.glyph_metrics(Size::unscaled(), LocationRef::default());
        let read = outlines(&bytes);
        assert_eq!(read.len(), glyphs::all().len());
        for (id, (name, outline)) in read.iter().enumerate() {
            let mut pen = Pen::default();
            let glyph = font
                .outline_glyphs()
                .get(skrifa::GlyphId::new(id as u32))
                .expect("every glyph is there");
            glyph
                .draw(
                    DrawSettings::unhinted(Size::unscaled(), LocationRef::default()),
                    &mut pen,
                )
                .expect("every outline draws");
            assert_eq!(contours(&pen.0), contours(outline), "{name}");
            let width = face
                .glyph_hor_advance(ttf_parser::GlyphId(id as u16))
                .map(f32::from);
            assert_eq!(
                width,
                widths.advance_width(skrifa::GlyphId::new(id as u32)),
                "{name}"
            );
        }
    }
}

#[test]
fn the_layers_are_alike_glyph_for_glyph() {
    let (regular, inline) = (committed(Layer::Regular), committed(Layer::Inline));
    let (a, b) = (
        ttf_parser::Face::parse(&regular, 0).unwrap(),
        ttf_parser::Face::parse(&inline, 0).unwrap(),
    );
    assert_eq!(a.number_of_glyphs(), b.number_of_glyphs());
    assert_eq!(
        (a.ascender(), a.descender(), a.units_per_em()),
        (b.ascender(), b.descender(), EM)
    );
    for id in (0..a.number_of_glyphs()).map(ttf_parser::GlyphId) {
        assert_eq!(a.glyph_name(id), b.glyph_name(id));
        assert_eq!(a.glyph_hor_advance(id), b.glyph_hor_advance(id));
    }
    for ((name, letter), (_, light)) in outlines(&regular).iter().zip(&outlines(&inline)) {
        let lit = !light.elements().is_empty();
        assert!(
            lit != letter.elements().is_empty() || name == ".notdef",
            "{name} has no light line"
        );
    }
}

#[test]
fn the_licence_allows_cutting_and_embedding() {
    for layer in LAYERS {
        let bytes = committed(layer);
        let face = ttf_parser::Face::parse(&bytes, 0).unwrap();
        let entry = |id: u16| {
            face.names()
                .into_iter()
                .find(|n| n.name_id == id)
                .and_then(|n| n.to_string())
        };
        assert_eq!(
            entry(0).as_deref(),
            Some("Copyright 2026 The Sortwright authors")
        );
        assert!(entry(13).is_some_and(|text| text.contains("SIL Open Font License, Version 1.1")));
        assert!(entry(14).is_some());
        assert_eq!(
            face.permissions(),
            Some(ttf_parser::Permissions::Installable)
        );
        assert_eq!(
            (face.capital_height(), face.x_height()),
            (Some(1400), Some(980))
        );
    }
}

#[test]
fn alternates_and_ligatures_are_reached_by_their_features() {
    use ttf_parser::gsub::SubstitutionSubtable;
    let bytes = committed(Layer::Regular);
    let face = ttf_parser::Face::parse(&bytes, 0).unwrap();
    let gsub = face.tables().gsub.expect("the file substitutes");
    let named = |name: &str| face.glyph_index_by_name(name).expect("the glyph is there");
    let lookup = |tag: &[u8; 4]| {
        let feature = gsub
            .features
            .find(ttf_parser::Tag::from_bytes(tag))
            .expect("the feature is there");
        gsub.lookups
            .get(feature.lookup_indices.get(0).unwrap())
            .unwrap()
    };
    for (plain, other) in [("R", "R.ss01"), ("g", "g.ss01")] {
        let table = lookup(b"ss01")
            .subtables
            .get::<SubstitutionSubtable>(0)
            .unwrap();
        let SubstitutionSubtable::Single(single) = table else {
            panic!("ss01 is not a single substitution")
        };
        let at = single
            .coverage()
            .get(named(plain))
            .expect("the plain letter is covered");
        let found = match single {
            ttf_parser::gsub::SingleSubstitution::Format1 { delta, .. } => {
                (named(plain).0 as i16 + delta) as u16
            }
            ttf_parser::gsub::SingleSubstitution::Format2 { substitutes, .. } => {
                substitutes.get(at).unwrap().0
            }
        };
        assert_eq!(found, named(other).0);
    }
    let table = lookup(b"liga")
        .subtables
        .get::<SubstitutionSubtable>(0)
        .unwrap();
    let SubstitutionSubtable::Ligature(ligatures) = table else {
        panic!("liga makes no ligatures")
    };
    let set = ligatures
        .ligature_sets
        .get(ligatures.coverage.get(named("f")).unwrap())
        .unwrap();
    let joined: Vec<u16> = set.into_iter().map(|ligature| ligature.glyph.0).collect();
    assert!(joined.contains(&named("f_f").0) && joined.contains(&named("f_i").0));
}

/// Source: the pair adjustment lookup as the crate ttf-parser reads it.
#[test]
fn the_file_kerns_every_pair_as_drawn() {
    use ttf_parser::gpos::{PairAdjustment, PositioningSubtable};
    let bytes = committed(Layer::Regular);
    let face = ttf_parser::Face::parse(&bytes, 0).unwrap();
    let lookup = face
        .tables()
        .gpos
        .expect("the file kerns")
        .lookups
        .get(0)
        .unwrap();
    let kern = |first: ttf_parser::GlyphId, second: ttf_parser::GlyphId| {
        let tables = (0..lookup.subtables.len())
            .filter_map(|i| lookup.subtables.get::<PositioningSubtable>(i));
        for table in tables {
            let PositioningSubtable::Pair(pair) = table else {
                continue;
            };
            let Some(covered) = pair.coverage().get(first) else {
                continue;
            };
            match pair {
                PairAdjustment::Format1 { sets, .. } => {
                    if let Some((by, _)) = sets.get(covered).and_then(|set| set.get(second)) {
                        return by.x_advance;
                    }
                }
                PairAdjustment::Format2 {
                    classes, matrix, ..
                } => {
                    let place = (classes.0.get(first), classes.1.get(second));
                    return matrix.get(place).map_or(0, |(by, _)| by.x_advance);
                }
            }
        }
        0
    };
    let names: Vec<&str> = glyphs::all().iter().map(|entry| entry.name).collect();
    let id = |place: usize| ttf_parser::GlyphId(place as u16);
    let mut kerned = 0;
    for (i, first) in names.iter().enumerate() {
        for (j, second) in names.iter().enumerate() {
            let by = f64::from(kern(id(i), id(j)));
            assert_eq!(by, kerning_of(first, second), "{first} {second}");
            kerned += usize::from(by != 0.0);
        }
    }
    assert!(kerned > 500, "{kerned}");
}
