//! Glyphs in several colours: the test font of the COLR specification's own examples, and tables spoiled on purpose.

use font_test_data::COLRV0V1;

use super::*;
use crate::font::ColourLayer;

fn named(font: &Font<'_>, name: &str) -> u16 {
    font.glyph_named(name)
        .unwrap_or_else(|| panic!("no {name}"))
}

#[test]
fn layers_of_version_0_are_read_in_order_with_the_palettes_colours() {
    let font = plain(COLRV0V1);
    assert_eq!(font.palettes(), 3);
    let layers = font
        .colour_layers(named(&font, "colored_circles_v0"), 0)
        .expect("flat colours")
        .expect("colours");
    assert_eq!(layers.len(), 8);
    let first: Vec<[u8; 3]> = layers.iter().map(|layer| layer.colour).collect();
    assert!(
        first.contains(&[255, 0, 0]) && first.contains(&[255, 165, 0]),
        "{first:?}"
    );
    for ColourLayer { glyph, .. } in layers {
        assert!(!font.outline(glyph).expect("an outline").is_empty());
    }
}

#[test]
fn solid_fills_of_version_1_are_taken_and_all_else_is_refused_by_name() {
    let font = plain(COLRV0V1);
    let read = |name: &str| font.colour_layers(named(&font, name), 0);
    let solid = read("foreground_color_solid_alpha_1")
        .expect("flat")
        .expect("colours");
    assert_eq!(solid.len(), 1);
    assert_eq!(solid[0].colour, [0, 0, 0]);
    for (name, why) in [
        ("linear_repeat_0_1", "shaded"),
        ("scale_0.5_1.5_center_0_0", "blended"),
        ("composite_XOR", "blended"),
        ("foreground_color_solid_alpha_0.3", "half transparent"),
        ("inset_clipped_radial_reflect", "cut"),
        ("paintcolrglyph_cycle_first", "layers"),
        ("paint_glyph_nested_identity_identity", "moved, turned"),
    ] {
        let said = read(name).expect_err(name).to_string();
        assert!(said.contains(why), "{name}: {said}");
        assert!(said.contains(name), "{said}");
    }
}

#[test]
fn fonts_and_glyphs_without_colours_have_none_and_other_palettes_are_told() {
    let font = plain(HACK_REGULAR);
    assert_eq!(font.palettes(), 0);
    assert_eq!(font.colour_layers(36, 0), Ok(None));
    let font = plain(COLRV0V1);
    assert_eq!(font.colour_layers(0, 0), Ok(None));
    let glyph = named(&font, "colored_circles_v0");
    let one = font.colour_layers(glyph, 1).expect("a palette");
    assert_ne!(one, font.colour_layers(glyph, 0).expect("a palette"));
    let said = font
        .colour_layers(glyph, 3)
        .expect_err("no such palette")
        .to_string();
    assert!(said.contains("3 palette"), "{said}");
    assert!(matches!(
        font.colour_layers(u16::MAX, 0),
        Err(FontError::NoSuchGlyph { .. })
    ));
}

#[test]
fn damaged_graphs_end() {
    // Every byte of the table spoiled in turn: whatever comes of it, it comes.
    let font = plain(COLRV0V1);
    let table = font
        .face
        .raw_face()
        .table(ttf_parser::Tag::from_bytes(b"COLR"))
        .expect("a table");
    let start = table.as_ptr() as usize - COLRV0V1.as_ptr() as usize;
    let glyphs: Vec<u16> = (0..font.glyph_count())
        .filter(|&glyph| matches!(font.colour_layers(glyph, 0), Ok(Some(_)) | Err(_)))
        .step_by(9)
        .collect();
    for place in (0..table.len()).step_by(7) {
        let mut bytes = COLRV0V1.to_vec();
        bytes[start + place] ^= 0xff;
        let Ok(font) = Font::parse(&bytes, 0, &BTreeMap::new()) else {
            continue;
        };
        for &glyph in &glyphs {
            let layers = font.colour_layers(glyph, 0);
            assert!(layers.ok().flatten().is_none_or(|found| found.len() <= 256));
        }
    }
}
