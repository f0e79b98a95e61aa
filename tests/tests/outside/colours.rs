//! Letters in colours against two outside libraries: what a font's colours are, and the areas of lines, shadows and traps made from letters.
//!
//! # Source
//! Crate `skrifa`, which reads `COLR` and `CPAL` on its own code; crate `clipper2-rust`, the Rust port of the Clipper2 library: offsets with
//! round joins, Minkowski sums and booleans. The test font is that of the COLR specification's own examples (crate `font-test-data`).

use std::collections::BTreeMap;

use cam_core::colour::{Source, areas, side_by_side, trapped};
use cam_core::commission::{Plate, PlateSource};
use cam_core::measure::Length;
use font_test_data::COLRV0V1;
use geometry::font::Font;
use geometry::region::Region;
use kurbo::{Affine, BezPath, Vec2};
use skrifa::color::{Brush, ColorPainter, CompositeMode, Transform};
use skrifa::instance::Location;
use skrifa::metrics::BoundingBox;
use skrifa::{FontRef, GlyphId, MetadataProvider};
use testkit::fonts;
use testkit::referee::{ARC_TOLERANCE_MM, Area};

/// Body of a ten-line sort, mm.
const BODY_MM: f64 = 42.175;

/// How far two right answers may lie apart along an edge, mm: chords of both libraries, and half a micrometre of flattening on either side.
const EDGE_MM: f64 = 2.0 * ARC_TOLERANCE_MM + 0.001;

/// Takes down which glyph is filled with which colour of the palette, and whether anything else is done.
#[derive(Default)]
struct Taken {
    clip: Vec<GlyphId>,
    fills: Vec<(u16, u16)>,
    other: bool,
}

impl ColorPainter for Taken {
    fn push_transform(&mut self, _: Transform) {
        self.other = true;
    }
    fn pop_transform(&mut self) {}
    fn push_clip_glyph(&mut self, glyph: GlyphId) {
        self.clip.push(glyph);
    }
    fn push_clip_box(&mut self, _: BoundingBox) {}
    fn pop_clip(&mut self) {
        self.clip.pop();
    }
    fn fill(&mut self, brush: Brush<'_>) {
        match (brush, self.clip.as_slice()) {
            (
                Brush::Solid {
                    palette_index,
                    alpha: 1.0,
                },
                [glyph],
            ) => {
                self.fills.push((glyph.to_u32() as u16, palette_index));
            }
            _ => self.other = true,
        }
    }
    fn push_layer(&mut self, _: CompositeMode) {
        self.other = true;
    }
}

#[test]
fn flat_colours_are_those_of_a_second_reader_and_nothing_flat_is_refused() {
    let ours = Font::parse(COLRV0V1, 0, &BTreeMap::new()).expect("a font");
    let theirs = FontRef::new(COLRV0V1).expect("a font");
    let palettes = theirs.color_palettes();
    let (mut flat, mut refused) = (0, 0);
    for palette in 0..ours.palettes() {
        let colours = palettes.get(palette).expect("a palette");
        for glyph in 0..ours.glyph_count() {
            let read = theirs.color_glyphs().get(GlyphId::from(glyph));
            let mut taken = Taken::default();
            let painted = read
                .map(|read| read.paint(&Location::default(), &mut taken))
                .transpose();
            match ours.colour_layers(glyph, palette) {
                Ok(None) => assert!(taken.fills.is_empty(), "glyph {glyph} has colours"),
                Ok(Some(layers)) => {
                    assert!(painted.is_ok() && !taken.other, "glyph {glyph} is not flat");
                    let wanted: Vec<(u16, [u8; 3])> = taken
                        .fills
                        .iter()
                        .map(|&(glyph, index)| {
                            let own = colours.colors().get(usize::from(index));
                            (
                                glyph,
                                own.map_or([0; 3], |own| [own.red(), own.green(), own.blue()]),
                            )
                        })
                        .collect();
                    let found: Vec<(u16, [u8; 3])> = layers
                        .iter()
                        .map(|layer| (layer.glyph, layer.colour))
                        .collect();
                    assert_eq!(found, wanted, "glyph {glyph}");
                    flat += 1;
                }
                Err(_) => {
                    let is_flat = painted.is_ok() && !taken.other && !taken.fills.is_empty();
                    assert!(!is_flat, "glyph {glyph} was refused");
                    refused += 1;
                }
            }
        }
    }
    assert!(flat >= 3 && refused > 100, "{flat} flat, {refused} refused");
}

fn letters() -> Vec<(char, BezPath)> {
    let font = fonts::text_font("libertinus-serif");
    let read = Font::parse(font.bytes, font.index, &BTreeMap::new()).expect("a font");
    let scale = Affine::scale(BODY_MM / read.units_per_em());
    "AQS&g8"
        .chars()
        .map(|letter| {
            let glyph = read.glyph_for(letter).expect("a glyph");
            (letter, scale * read.outline(glyph).expect("an outline"))
        })
        .collect()
}

fn plate(source: PlateSource) -> Plate {
    Plate {
        name: "plate".to_owned(),
        ink: "red".to_owned(),
        source,
        overprinted: false,
    }
}

fn assert_same(what: &str, found: &Region, wanted: &Area) {
    let found = Area::of(found);
    let apart = found.symmetric_difference(wanted).square_mm();
    let around = found.perimeter_mm() + wanted.perimeter_mm();
    assert!(
        apart <= EDGE_MM * around,
        "{what}: {apart} mm² over {around} mm"
    );
}

#[test]
fn lines_shadows_and_traps_have_the_areas_of_a_second_library() {
    let (inset, width, gap, trap) = (0.5, 0.7, 0.4, 0.25);
    let mm = Length::mm;
    let far = Vec2::from_angle((-40.0_f64).to_radians()) * 3.0;
    for (letter, path) in letters() {
        let source = Source {
            letter: path.clone(),
            ..Source::default()
        };
        let plates = [
            plate(PlateSource::Shadow {
                angle_deg: -40.0,
                length: mm(3.0),
                gap: mm(0.0),
            }),
            plate(PlateSource::Letter),
            plate(PlateSource::Inline {
                inset: mm(inset),
                width: Some(mm(width)),
            }),
        ];
        let alone = areas(&plates, &source).expect("areas");
        let drawn = Area::drawn(&path, 0.0005);
        let inline = drawn.grown(-inset).without(&drawn.grown(-inset - width));
        assert_same(&format!("inline of {letter}"), &alone[2], &inline);
        let shadow = drawn.passed_over(far).without(&drawn);
        assert_same(&format!("shadow of {letter}"), &alone[0], &shadow);
        let other = [
            plate(PlateSource::Outline {
                gap: mm(gap),
                width: mm(width),
            }),
            plate(PlateSource::Shadow {
                angle_deg: -40.0,
                length: mm(3.0),
                gap: mm(gap),
            }),
        ];
        let other = areas(&other, &source).expect("areas");
        let about = drawn.grown(gap + width).without(&drawn.grown(gap));
        assert_same(&format!("outline of {letter}"), &other[0], &about);
        let apart = drawn.passed_over(far).without(&drawn.grown(gap));
        assert_same(&format!("shadow apart of {letter}"), &other[1], &apart);

        // Spread by the trap under what is printed later, and nowhere past the whole.
        let apart = side_by_side(&plates, &alone).expect("side by side");
        let printed = trapped(&plates, &apart, trap).expect("trapped");
        let (shade, body, line) = (
            Area::of(&apart[0]),
            Area::of(&apart[1]),
            Area::of(&apart[2]),
        );
        let under = |own: &Area, after: &Area| own.joined(&own.grown(trap).intersection(after));
        let front = body.joined(&line);
        assert_same(
            &format!("spread shadow of {letter}"),
            &printed[0],
            &under(&shade, &front),
        );
        assert_same(
            &format!("spread letter {letter}"),
            &printed[1],
            &under(&body, &line),
        );
        assert_same(&format!("line of {letter}"), &printed[2], &line);
        let whole = drawn.passed_over(far);
        for region in &printed {
            let past = Area::of(region).without(&whole).square_mm();
            assert!(
                past <= EDGE_MM * whole.perimeter_mm(),
                "{letter}: {past} mm² past the whole"
            );
        }
    }
}
