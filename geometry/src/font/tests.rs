mod colour;

use std::collections::BTreeMap;

use epaint_default_fonts::{HACK_REGULAR, UBUNTU_LIGHT};
use font_test_data::{
    CANTARELL_VF_TRIMMED, NOTO_SERIF_DISPLAY_TRIMMED, VAZIRMATN_VAR, closure, ttc,
};
use kurbo::{PathEl, Shape};

use super::*;

fn plain(bytes: &[u8]) -> Font<'_> {
    Font::parse(bytes, 0, &BTreeMap::new()).expect("a font from a package")
}

fn at(bytes: &'static [u8], tag: &str, value: f64) -> Result<Font<'static>, FontError> {
    Font::parse(bytes, 0, &BTreeMap::from([(tag.to_owned(), value)]))
}

fn every_contour_is_closed(outline: &BezPath) -> bool {
    let mut open = false;
    for element in outline.elements() {
        match element {
            PathEl::MoveTo(_) if open => return false,
            PathEl::MoveTo(_) => open = true,
            PathEl::ClosePath => open = false,
            PathEl::LineTo(_) | PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
        }
    }
    !open
}

#[test]
fn every_outline_of_each_kind_of_font_is_read_and_closed() {
    for bytes in [
        HACK_REGULAR,
        UBUNTU_LIGHT,
        NOTO_SERIF_DISPLAY_TRIMMED,
        CANTARELL_VF_TRIMMED,
        VAZIRMATN_VAR,
    ] {
        let font = plain(bytes);
        let mut drawn = 0;
        for glyph in 0..font.glyph_count() {
            let outline = font
                .outline(glyph)
                .unwrap_or_else(|error| panic!("{error}"));
            assert!(every_contour_is_closed(&outline), "{font:?}, glyph {glyph}");
            drawn += usize::from(!outline.is_empty());
        }
        assert!(drawn > 0, "{font:?} drew nothing");
    }
}

#[test]
fn a_letter_can_be_asked_for_by_character_name_and_index() {
    let font = plain(UBUNTU_LIGHT);
    let ampersand = font.glyph_for('&').expect("the font has an ampersand");
    assert_eq!(font.glyph_named("ampersand"), Some(ampersand));
    assert_eq!(font.glyph_name(ampersand).as_deref(), Some("ampersand"));
    assert_eq!(font.glyph_for('\u{10FFFF}'), None);
    assert!(font.advance(ampersand) > 0.0);
    assert_eq!(
        font.outline(font.glyph_count()),
        Err(FontError::NoSuchGlyph {
            glyph: u32::from(font.glyph_count()),
            count: font.glyph_count()
        })
    );
    let space = font.glyph_for(' ').expect("the font has a space");
    assert!(
        font.outline(space)
            .expect("a space has an outline without contours")
            .is_empty()
    );
}

#[test]
fn the_side_bearing_is_where_the_drawing_begins() {
    let font = plain(UBUNTU_LIGHT);
    for character in "HEnop".chars() {
        let glyph = font.glyph_for(character).expect("a Latin font");
        let drawn = font.outline(glyph).expect("readable").bounding_box();
        let stated = font.left_side_bearing(glyph).expect("stated in hmtx");
        assert!(
            (drawn.x0 - stated).abs() <= 1.0,
            "{character}: {} drawn, {stated} stated",
            drawn.x0
        );
    }
}

#[test]
fn axes_change_the_drawing_and_are_checked() {
    let default = plain(VAZIRMATN_VAR);
    let axis = default.axes().remove(0);
    assert_eq!(axis.tag, "wght");
    let glyph = (0..default.glyph_count())
        .find(|&glyph| !default.outline(glyph).expect("readable").is_empty())
        .expect("something drawn");
    let heavy = at(VAZIRMATN_VAR, "wght", axis.most).expect("within the axis");
    let area = |font: &Font<'_>| font.outline(glyph).expect("readable").area().abs();
    assert!(
        area(&heavy) > 1.1 * area(&default),
        "{} to {}",
        area(&default),
        area(&heavy)
    );

    assert!(matches!(
        at(VAZIRMATN_VAR, "wght", axis.most + 1.0),
        Err(FontError::AxisValue { .. })
    ));
    assert!(matches!(
        at(VAZIRMATN_VAR, "wght", f64::NAN),
        Err(FontError::AxisValue { .. })
    ));
    let error = at(VAZIRMATN_VAR, "wdth", 100.0)
        .expect_err("no such axis")
        .to_string();
    assert!(error.contains("wdth") && error.contains("wght"), "{error}");
    let error = at(UBUNTU_LIGHT, "wght", 400.0)
        .expect_err("not variable")
        .to_string();
    assert!(error.contains("not a variable font"), "{error}");
}

#[test]
fn cff2_outlines_follow_the_axis_too() {
    let default = plain(CANTARELL_VF_TRIMMED);
    let axis = default.axes().remove(0);
    let light = at(CANTARELL_VF_TRIMMED, &axis.tag, axis.least).expect("within the axis");
    let changed = (0..default.glyph_count())
        .filter(|&glyph| default.outline(glyph) != light.outline(glyph))
        .count();
    assert!(changed > 0);
}

#[test]
fn collections_count_their_faces() {
    let faces = faces_in(ttc::TTC).expect("a collection");
    assert!(faces > 1);
    assert_eq!(faces_in(UBUNTU_LIGHT), Ok(1));
    assert!(Font::parse(ttc::TTC, faces - 1, &BTreeMap::new()).is_ok());
    let error = Font::parse(ttc::TTC, faces, &BTreeMap::new()).expect_err("one too far");
    assert_eq!(
        error,
        FontError::NoSuchFace {
            index: faces,
            found: faces
        }
    );
}

/// The package's fonts for testing substitutions have no line metrics; this adds an empty `hhea`, the last of the tables.
fn with_line_metrics(bytes: &[u8]) -> Vec<u8> {
    const HEADER: usize = 12;
    const RECORD: usize = 16;
    let tables = usize::from(u16::from_be_bytes([bytes[4], bytes[5]]));
    let (directory, rest) = bytes[HEADER..].split_at(RECORD * tables);
    let mut records: Vec<Vec<u8>> = directory
        .chunks(RECORD)
        .map(|record| {
            let offset = u32::from_be_bytes(record[8..12].try_into().expect("four bytes"));
            let moved = offset + u32::try_from(RECORD).expect("small");
            [&record[..8], &moved.to_be_bytes(), &record[12..]].concat()
        })
        .collect();
    let end = u32::try_from(bytes.len() + RECORD).expect("small");
    records.push(
        [
            &b"hhea"[..],
            &[0; 4],
            &end.to_be_bytes(),
            &36u32.to_be_bytes(),
        ]
        .concat(),
    );
    records.sort();
    let mut out = bytes[..HEADER].to_vec();
    out[5] += 1;
    out.extend(records.concat());
    out.extend(rest);
    out.extend([0, 1, 0, 0]);
    out.extend([0; 32]);
    out
}

#[test]
fn single_and_alternate_substitutions_are_followed() {
    // The package gives the source of this font's feature `test`: first a becomes A; X becomes Y; aa becomes a_a; a is one of
    // a.1 and a.2.
    let bytes = with_line_metrics(closure::SIMPLE);
    let font = plain(&bytes);
    let glyph = |name: &str| {
        font.glyph_named(name)
            .unwrap_or_else(|| panic!("no glyph {name}"))
    };
    assert_eq!(font.features(), ["test"]);
    assert_eq!(font.substitute(glyph("a"), "test"), Some(vec![glyph("A")]));
    assert_eq!(font.substitute(glyph("X"), "test"), Some(vec![glyph("Y")]));
    assert_eq!(font.substitute(glyph("Y"), "test"), None);
    assert_eq!(font.substitute(glyph("X"), "ss01"), None);
    // The lookups one by one, as they would stand in features of their own.
    let table = font.face.tables().gsub.expect("the font has substitutions");
    let one = |lookup| features::substituted(&table, &[lookup], GlyphId(glyph("a")));
    let alternates =
        (0..table.lookups.len()).find_map(|lookup| one(lookup).filter(|found| found.len() > 1));
    assert_eq!(alternates, Some(vec![glyph("a.1"), glyph("a.2")]));
}

#[test]
fn feature_choices_are_read() {
    let choice = |tag: &str, alternate| FeatureChoice {
        tag: tag.to_owned(),
        alternate,
    };
    assert_eq!("ss01".parse(), Ok(choice("ss01", 1)));
    assert_eq!(" salt = 3".parse(), Ok(choice("salt", 3)));
    for bad in ["", "salt=0", "salt=x", "toolong", "ab c", "ß"] {
        assert_eq!(
            bad.parse::<FeatureChoice>(),
            Err(FontError::BadFeature(bad.to_owned()))
        );
    }
}

#[test]
fn ligatures_join_a_text() {
    let font = plain(UBUNTU_LIGHT);
    let liga = ["liga".to_owned()];
    let joined = font.ligature("fi", &liga);
    assert_eq!(joined, font.glyph_for('\u{FB01}'));
    assert!(joined.is_some());
    assert_eq!(font.ligature("fx", &liga), None);
    assert_eq!(font.ligature("fi", &[]), None);
    assert_eq!(font.ligature("f", &liga), None);
    assert_eq!(font.ligature("", &liga), None);
}

#[test]
fn a_variable_feature_follows_the_axis() {
    // The package gives the source: the feature has one lookup, and a second one at weights from 700 to 900.
    let bytes = with_line_metrics(closure::VARIATIONS_CLOSURE);
    let lookups = |weight: f64| {
        let axes = BTreeMap::from([("wght".to_owned(), weight)]);
        let font = Font::parse(&bytes, 0, &axes).expect("within the axis");
        let table = font.face.tables().gsub.expect("the font has substitutions");
        font.lookups_by_script(&table, "test")
    };
    assert_eq!(lookups(690.0), [[0]]);
    assert_eq!(lookups(700.0), [[0, 1]]);
    assert_eq!(lookups(900.0), [[0, 1]]);
    assert_eq!(lookups(910.0), [[0]]);
}

#[test]
fn tight_pairs_are_kerned() {
    let font = plain(UBUNTU_LIGHT);
    let pair = |text: &str| {
        let glyphs: Vec<u16> = text
            .chars()
            .filter_map(|character| font.glyph_for(character))
            .collect();
        font.kerning(glyphs[0], glyphs[1])
    };
    assert!(pair("AV") < 0.0, "AV {}", pair("AV"));
    assert!(pair("To") < 0.0, "To {}", pair("To"));
    assert_eq!(pair("HH"), 0.0);
    let monospaced = plain(HACK_REGULAR);
    assert_eq!(monospaced.kerning(36, 57), 0.0);
}

#[test]
fn heights_agree_with_the_drawing() {
    let font = plain(UBUNTU_LIGHT);
    let heights = font.heights();
    let top = |character| {
        font.outline(font.glyph_for(character).expect("Latin"))
            .expect("readable")
            .bounding_box()
            .y1
    };
    assert!((heights.capital.expect("stated") - top('H')).abs() <= 2.0);
    assert!((heights.x.expect("stated") - top('x')).abs() <= 2.0);
    assert!(heights.drawn_ascender.expect("has b") >= top('l'));
    assert!(heights.drawn_descender.expect("has p") < 0.0);
    assert!(heights.descender < 0.0 && heights.ascender > 0.0);
}

#[test]
fn a_font_says_who_made_it_and_what_may_be_embedded() {
    let font = plain(UBUNTU_LIGHT);
    assert!(font.family().contains("Ubuntu"));
    assert_eq!(font.style(), "Light");
    let licence = font.licence();
    assert!(
        licence
            .copyright
            .is_some_and(|text| text.contains("Copyright"))
    );
    assert!(font.embedding().is_some());
}

/// # Source
/// OpenType specification, table `OS/2`, fsType: the eight values of the trade's check list.
#[test]
fn embedding_bits_are_read_as_the_specification_says() {
    use EmbeddingRight::{Editable, Installable, PreviewAndPrint, Restricted};
    for (bits, right, no_subsetting, bitmaps_only, warnings) in [
        (0x0000, Installable, false, false, 0),
        (0x0002, Restricted, false, false, 0),
        (0x0004, PreviewAndPrint, false, false, 0),
        (0x0008, Editable, false, false, 0),
        (0x0104, PreviewAndPrint, true, false, 0),
        (0x0208, Editable, false, true, 0),
        (0x0001, Installable, false, false, 1),
        (0x000C, Editable, false, false, 1),
    ] {
        let read = Embedding::from_bits(bits);
        assert_eq!(
            (
                read.right,
                read.no_subsetting,
                read.bitmaps_only,
                read.warnings.len()
            ),
            (right, no_subsetting, bitmaps_only, warnings),
            "0x{bits:04X}: {read:?}"
        );
    }
}

#[test]
fn files_that_are_no_fonts_are_named_for_what_they_are() {
    for (bytes, word) in [
        (&b""[..], "empty"),
        (b"wOF2\0\0\0\0", "WOFF"),
        (b"wOFF\0\0\0\0", "WOFF"),
        (b"%PDF-1.7", "PDF"),
        (b"<svg xmlns", "SVG"),
        (b"PK\x03\x04aaaa", "ZIP"),
        (b"ab", "short"),
        (b"Dear Sir", "begin"),
    ] {
        let error = Font::parse(bytes, 0, &BTreeMap::new())
            .expect_err("no font")
            .to_string();
        assert!(error.contains(word), "{error}");
    }
}

#[test]
fn a_font_cut_short_anywhere_gives_an_error_or_a_font_but_never_a_panic() {
    for length in (0..UBUNTU_LIGHT.len()).step_by(997) {
        if let Ok(font) = Font::parse(&UBUNTU_LIGHT[..length], 0, &BTreeMap::new()) {
            for glyph in 0..font.glyph_count() {
                let _ = font.outline(glyph);
            }
            let _ = (
                font.heights(),
                font.licence(),
                font.kerning(36, 57),
                font.features(),
            );
        }
    }
}

#[test]
fn a_broken_glyph_is_named_and_leaves_the_others_whole() {
    let font = plain(UBUNTU_LIGHT);
    let broken = font.glyph_for('A').expect("Latin");
    let mut bytes = UBUNTU_LIGHT.to_vec();
    // The last entry of contour ends becomes larger than any glyph's data.
    let start = glyf_start_of(&bytes, broken);
    bytes[start + 10..start + 12].copy_from_slice(&[0xFF, 0xFE]);
    let font = plain(&bytes);
    let error = font.outline(broken).expect_err("broken").to_string();
    assert!(error.contains("(A)"), "{error}");
    assert!(font.outline(font.glyph_for('B').expect("Latin")).is_ok());
}

/// Where a glyph's data begins in the file.
fn glyf_start_of(bytes: &[u8], glyph: u16) -> usize {
    let font = plain(bytes);
    let data = outline::glyf_data(&font, GlyphId(glyph)).expect("TrueType outlines");
    data.as_ptr() as usize - bytes.as_ptr() as usize
}
