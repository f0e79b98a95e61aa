//! The font files: outlines, metrics, names, features and kerning written as TrueType tables.

use crate::features::{gpos, gsub};
use crate::glyphs::{self, Glyph};
use crate::merge::{common, merged};
use crate::parts::{CAP, X};
use kurbo::{BezPath, CubicBez, PathEl, Point, cubics_to_quadratic_splines};
use std::collections::BTreeMap;
use write_fonts::tables::cmap::Cmap;
use write_fonts::tables::glyf::{GlyfLocaBuilder, SimpleGlyph};
use write_fonts::tables::head::{Flags, Head, MacStyle};
use write_fonts::tables::hhea::Hhea;
use write_fonts::tables::hmtx::{Hmtx, LongMetric};
use write_fonts::tables::loca::LocaFormat;
use write_fonts::tables::maxp::Maxp;
use write_fonts::tables::name::{Name, NameRecord};
use write_fonts::tables::os2::{Os2, SelectionFlags};
use write_fonts::tables::post::Post;
use write_fonts::types::{FWord, Fixed, GlyphId, GlyphId16, LongDateTime, NameId, Tag, UfWord};
use write_fonts::{BuilderError, FontBuilder};

/// The typeface's name, invented for it.
pub const FAMILY: &str = "Quernstow";
/// Size of the em in font units.
pub const EM: u16 = 2000;
/// Top of the line for programs that set text; above every accent.
const LINE_TOP: i16 = 1900;
/// Foot of the line; below every descender.
const LINE_FOOT: i16 = -480;
/// Farthest that a quadratic curve may stray from the drawn cubic, in font units.
const CURVE_TOLERANCE: f64 = 0.35;
/// The date in the files, in seconds from the start of 1904: 1 January 2026, so that every build gives the same bytes.
const DRAWN_ON: i64 = 3_850_070_400;
/// Version of the drawing.
const VERSION: f64 = 1.0;

/// Which of the two files.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layer {
    /// The letters.
    Regular,
    /// The light lines that print over them in a second colour.
    Inline,
}

/// Why a file could not be built.
#[derive(Debug)]
pub enum BuildError {
    /// A glyph's outline is not one that the format can hold.
    Outline(String),
    /// Two glyphs claim one character.
    Character(String),
    /// A table could not be written.
    Table(BuilderError),
}

impl std::fmt::Display for BuildError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            BuildError::Outline(name) => write!(f, "the outline of {name} cannot be written"),
            BuildError::Character(which) => write!(f, "two glyphs claim one character: {which}"),
            BuildError::Table(error) => write!(f, "a table cannot be written: {error}"),
        }
    }
}

impl std::error::Error for BuildError {}

impl From<BuilderError> for BuildError {
    fn from(error: BuilderError) -> Self {
        BuildError::Table(error)
    }
}

impl Layer {
    /// The style's name.
    pub fn style(self) -> &'static str {
        match self {
            Layer::Regular => "Regular",
            Layer::Inline => "Inline",
        }
    }

    /// The name of the file.
    pub fn file_name(self) -> String {
        format!("{FAMILY}-{}.ttf", self.style())
    }

    /// A glyph's outline on this layer.
    pub fn outline(self, glyph: &Glyph) -> BezPath {
        let drawing = &glyph.drawing;
        match self {
            Layer::Regular => merged(&drawing.parts, &drawing.cuts),
            Layer::Inline => {
                let letter = merged(&drawing.parts, &drawing.cuts);
                common(&drawing.lights, &[letter.reverse_subpaths()])
            }
        }
    }
}

/// The outlines and metrics of one file.
struct Outlines {
    glyphs: Vec<(Glyph, SimpleGlyph)>,
}

impl Outlines {
    fn drawn(layer: Layer) -> Result<Outlines, BuildError> {
        let drawn = glyphs::all().into_iter().map(|entry| {
            let glyph = entry.drawn();
            let outline = quadratic(&layer.outline(&glyph));
            let simple = if outline.elements().is_empty() {
                SimpleGlyph::default()
            } else {
                SimpleGlyph::from_bezpath(&outline)
                    .map_err(|_| BuildError::Outline(entry.name.to_owned()))?
            };
            Ok((glyph, simple))
        });
        Ok(Outlines {
            glyphs: drawn.collect::<Result<_, BuildError>>()?,
        })
    }

    fn ids(&self) -> BTreeMap<&'static str, GlyphId16> {
        self.glyphs
            .iter()
            .enumerate()
            .map(|(id, (glyph, _))| (glyph.entry.name, GlyphId16::new(id as u16)))
            .collect()
    }

    /// The box around all outlines: least x, least y, most x, most y.
    fn bounds(&self) -> [i16; 4] {
        self.glyphs
            .iter()
            .filter(|(_, simple)| !simple.contours.is_empty())
            .map(|(_, simple)| {
                [
                    simple.bbox.x_min,
                    simple.bbox.y_min,
                    simple.bbox.x_max,
                    simple.bbox.y_max,
                ]
            })
            .reduce(|a, b| {
                [
                    a[0].min(b[0]),
                    a[1].min(b[1]),
                    a[2].max(b[2]),
                    a[3].max(b[3]),
                ]
            })
            .unwrap_or_default()
    }
}

/// Builds one file; the same bytes every time.
///
/// # Errors
/// When a table cannot be written.
pub fn build(layer: Layer) -> Result<Vec<u8>, BuildError> {
    let outlines = Outlines::drawn(layer)?;
    let mut glyf = GlyfLocaBuilder::new();
    for (glyph, simple) in &outlines.glyphs {
        glyf.add_glyph(simple)
            .map_err(|_| BuildError::Outline(glyph.entry.name.to_owned()))?;
    }
    let (glyf, loca, format) = glyf.build();
    let mut font = FontBuilder::new();
    font.add_table(&head(&outlines, format))?
        .add_table(&hhea(&outlines))?
        .add_table(&hmtx(&outlines))?
        .add_table(&maxp(&outlines))?
        .add_table(&os2(&outlines))?
        .add_table(&post(&outlines))?
        .add_table(&name(layer))?
        .add_table(&cmap(&outlines)?)?
        .add_table(&gsub(&outlines.ids()))?
        .add_table(&gpos(&outlines.ids()))?
        .add_table(&glyf)?
        .add_table(&loca)?;
    Ok(font.build())
}

/// The outline with its cubic curves as quadratic ones, all points on whole units.
fn quadratic(outline: &BezPath) -> BezPath {
    let mut path = BezPath::new();
    let mut at = Point::ZERO;
    for element in outline.elements() {
        match *element {
            PathEl::MoveTo(p) | PathEl::LineTo(p) => {
                path.push(*element);
                at = p;
            }
            PathEl::QuadTo(_, p) => {
                path.push(*element);
                at = p;
            }
            PathEl::CurveTo(a, b, p) => {
                quadratic_curve(&mut path, CubicBez::new(at, a, b, p));
                at = p;
            }
            PathEl::ClosePath => path.close_path(),
        }
    }
    path
}

fn quadratic_curve(path: &mut BezPath, cubic: CubicBez) {
    let spline = cubics_to_quadratic_splines(&[cubic], CURVE_TOLERANCE)
        .and_then(|mut splines| splines.pop());
    let Some(spline) = spline else {
        path.line_to(cubic.p3);
        return;
    };
    let points = spline.points();
    let handles: Vec<Point> = points[1..points.len() - 1]
        .iter()
        .map(|p| p.round())
        .collect();
    for (i, &handle) in handles.iter().enumerate() {
        // Between two handles the curve passes through their middle, which the format leaves out.
        let to = handles
            .get(i + 1)
            .map_or(cubic.p3, |next| handle.midpoint(*next));
        path.quad_to(handle, to);
    }
}

fn head(outlines: &Outlines, format: LocaFormat) -> Head {
    let [x_min, y_min, x_max, y_max] = outlines.bounds();
    let long = match format {
        LocaFormat::Short => 0,
        LocaFormat::Long => 1,
    };
    // Flags: baseline at nought, left bearing at the outline.
    let flags = Flags::BASELINE_AT_Y_0 | Flags::LSB_AT_X_0;
    let drawn_on = LongDateTime::new(DRAWN_ON);
    Head::new(
        Fixed::from_f64(VERSION),
        0,
        flags,
        EM,
        drawn_on,
        drawn_on,
        x_min,
        y_min,
        x_max,
        y_max,
        MacStyle::empty(),
        24,
        long,
    )
}

fn hhea(outlines: &Outlines) -> Hhea {
    let boxes = outlines
        .glyphs
        .iter()
        .filter(|(_, simple)| !simple.contours.is_empty());
    let least = |measure: fn(&Glyph, &SimpleGlyph) -> i16| {
        boxes.clone().map(|(g, s)| measure(g, s)).min().unwrap_or(0)
    };
    let widest = outlines
        .glyphs
        .iter()
        .map(|(glyph, _)| glyph.advance as u16)
        .max()
        .unwrap_or(0);
    Hhea::new(
        FWord::new(LINE_TOP),
        FWord::new(LINE_FOOT),
        FWord::new(0),
        UfWord::new(widest),
        FWord::new(least(|_, simple| simple.bbox.x_min)),
        FWord::new(least(|glyph, simple| {
            glyph.advance as i16 - simple.bbox.x_max
        })),
        FWord::new(-least(|_, simple| -simple.bbox.x_max)),
        1,
        0,
        0,
        outlines.glyphs.len() as u16,
    )
}

fn hmtx(outlines: &Outlines) -> Hmtx {
    let metrics = outlines
        .glyphs
        .iter()
        .map(|(glyph, simple)| LongMetric::new(glyph.advance as u16, simple.bbox.x_min));
    Hmtx::new(metrics.collect(), Vec::new())
}

fn maxp(outlines: &Outlines) -> Maxp {
    let most = |count: fn(&SimpleGlyph) -> usize| {
        outlines
            .glyphs
            .iter()
            .map(|(_, simple)| count(simple))
            .max()
            .unwrap_or(0) as u16
    };
    Maxp {
        num_glyphs: outlines.glyphs.len() as u16,
        max_points: Some(most(|simple| {
            simple.contours.iter().map(|contour| contour.len()).sum()
        })),
        max_contours: Some(most(|simple| simple.contours.len())),
        max_composite_points: Some(0),
        max_composite_contours: Some(0),
        max_zones: Some(1),
        max_twilight_points: Some(0),
        max_storage: Some(0),
        max_function_defs: Some(0),
        max_instruction_defs: Some(0),
        max_stack_elements: Some(0),
        max_size_of_instructions: Some(0),
        max_component_elements: Some(0),
        max_component_depth: Some(0),
    }
}

fn os2(outlines: &Outlines) -> Os2 {
    let advances: Vec<f64> = outlines
        .glyphs
        .iter()
        .map(|(glyph, _)| glyph.advance)
        .filter(|&a| a > 0.0)
        .collect();
    let characters = || {
        outlines
            .glyphs
            .iter()
            .flat_map(|(glyph, _)| glyph.entry.characters)
            .map(|&c| c as u32)
    };
    Os2 {
        x_avg_char_width: (advances.iter().sum::<f64>() / advances.len() as f64).round() as i16,
        us_weight_class: 800,
        us_width_class: 4,
        // Bits clear: embedding is not restricted.
        fs_type: 0,
        y_subscript_x_size: 1300,
        y_subscript_y_size: 1200,
        y_subscript_y_offset: 150,
        y_superscript_x_size: 1300,
        y_superscript_y_size: 1200,
        y_superscript_y_offset: 700,
        y_strikeout_size: 60,
        y_strikeout_position: (X / 2.0) as i16,
        // Latin text, serif style any, weight heavy; the rest "any".
        panose_10: [2, 0, 9, 0, 0, 0, 0, 0, 0, 0],
        // Basic Latin and Latin-1; general punctuation, symbols and dingbats.
        ul_unicode_range_1: 0b11 | 1 << 31,
        ul_unicode_range_2: 1 << (45 - 32) | 1 << (46 - 32) | 1 << (47 - 32),
        ach_vend_id: Tag::new(b"SWRT"),
        fs_selection: SelectionFlags::REGULAR | SelectionFlags::USE_TYPO_METRICS,
        us_first_char_index: characters().min().unwrap_or(0) as u16,
        us_last_char_index: characters().max().unwrap_or(0) as u16,
        s_typo_ascender: LINE_TOP,
        s_typo_descender: LINE_FOOT,
        s_typo_line_gap: 0,
        us_win_ascent: LINE_TOP as u16,
        us_win_descent: LINE_FOOT.unsigned_abs(),
        ul_code_page_range_1: Some(1),
        ul_code_page_range_2: Some(0),
        sx_height: Some(X as i16),
        s_cap_height: Some(CAP as i16),
        us_default_char: Some(0),
        us_break_char: Some(32),
        us_max_context: Some(2),
        ..Os2::default()
    }
}

fn post(outlines: &Outlines) -> Post {
    Post {
        underline_position: FWord::new(-200),
        underline_thickness: FWord::new(60),
        ..Post::new_v2(outlines.glyphs.iter().map(|(glyph, _)| glyph.entry.name))
    }
}

fn name(layer: Layer) -> Name {
    let style = layer.style();
    let (family, full) = match layer {
        Layer::Regular => (FAMILY.to_owned(), format!("{FAMILY} {style}")),
        Layer::Inline => (format!("{FAMILY} {style}"), format!("{FAMILY} {style}")),
    };
    let entries = [
        (0, "Copyright 2026 The Sortwright authors".to_owned()),
        (1, family),
        (2, "Regular".to_owned()),
        (3, format!("{VERSION:.3};SWRT;{FAMILY}-{style}")),
        (4, full),
        (5, format!("Version {VERSION:.3}")),
        (6, format!("{FAMILY}-{style}")),
        (8, "The Sortwright authors".to_owned()),
        (9, "The Sortwright authors".to_owned()),
        (10, "A heavy display roman for wood type, with a companion layer that prints in a second colour.".to_owned()),
        (
            13,
            "This Font Software is licensed under the SIL Open Font License, Version 1.1. This license is available with a \
             FAQ at: https://openfontlicense.org"
                .to_owned(),
        ),
        (14, "https://openfontlicense.org".to_owned()),
        (16, FAMILY.to_owned()),
        (17, style.to_owned()),
    ];
    // Windows platform, Unicode, English of the United States.
    let records = entries
        .into_iter()
        .map(|(id, text)| NameRecord::new(3, 1, 0x409, NameId::new(id), text.into()));
    Name::new(records.collect())
}

fn cmap(outlines: &Outlines) -> Result<Cmap, BuildError> {
    let mappings = outlines
        .glyphs
        .iter()
        .enumerate()
        .flat_map(|(id, (glyph, _))| {
            glyph
                .entry
                .characters
                .iter()
                .map(move |&character| (character, GlyphId::new(id as u32)))
        });
    Cmap::from_mappings(mappings).map_err(|conflict| BuildError::Character(conflict.to_string()))
}
