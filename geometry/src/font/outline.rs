//! Outlines from the three outline tables.
//!
//! # Source
//! OpenType specification, tables `glyf` (headers, flags of points), `loca`, `CFF` and `CFF2`.

use kurbo::{Affine, BezPath};
use ttf_parser::head::IndexToLocationFormat;
use ttf_parser::{CFFError, GlyphId, OutlineBuilder, Tag};

use super::composite::too_much;
use super::{Font, FontError, postscript};

/// Collects contours, closing each.
#[derive(Default)]
struct Collector {
    path: BezPath,
    open: bool,
}

impl Collector {
    fn close_contour(&mut self) {
        if self.open {
            self.path.close_path();
            self.open = false;
        }
    }
}

fn at(x: f32, y: f32) -> (f64, f64) {
    (f64::from(x), f64::from(y))
}

impl OutlineBuilder for Collector {
    fn move_to(&mut self, x: f32, y: f32) {
        self.close_contour();
        self.path.move_to(at(x, y));
        self.open = true;
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to(at(x, y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.path.quad_to(at(x1, y1), at(x, y));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.path.curve_to(at(x1, y1), at(x2, y2), at(x, y));
    }

    fn close(&mut self) {
        self.close_contour();
    }
}

/// What became of reading an outline.
enum Read {
    Whole,
    /// The font says that there is nothing to draw.
    Empty,
    Broken(String),
    /// The font has no outline table at all.
    NoTable,
}

pub(super) fn outline(font: &Font<'_>, glyph: u16) -> Result<BezPath, FontError> {
    let id = font.checked(glyph)?;
    let mut collector = Collector::default();
    let read = read(font, id, &mut collector);
    collector.close_contour();
    let shift = shift_to_bearing(font, id);
    if shift != 0.0 {
        collector.path.apply_affine(Affine::translate((shift, 0.0)));
    }
    let broken = |why: &str| FontError::BadOutline {
        glyph,
        name: font.glyph_name(glyph).unwrap_or_default(),
        why: why.to_owned(),
    };
    match read {
        Read::Whole if collector.path.is_finite() => Ok(collector.path),
        Read::Whole => Err(broken("a coordinate is not a number")),
        Read::Empty => Ok(BezPath::new()),
        Read::Broken(why) => Err(broken(&why)),
        Read::NoTable => Err(FontError::NoOutline {
            glyph,
            name: font.glyph_name(glyph).unwrap_or_default(),
        }),
    }
}

/// How far a `glyf` outline moves to the right so that its least x, as its header states it, lies at the side bearing that
/// `hmtx` states; 0 for outlines of other tables, and for nearly every glyph, where the two agree.
///
/// # Source
/// OpenType specification, table `glyf`, phantom points, and table `gvar` for their variation.
fn shift_to_bearing(font: &Font<'_>, id: GlyphId) -> f64 {
    let tables = font.face.tables();
    let (Some(glyf), Some(hmtx)) = (tables.glyf, tables.hmtx) else {
        return 0.0;
    };
    let (Some(bounds), Some(bearing)) = (glyf.bbox(id), hmtx.side_bearing(id)) else {
        return 0.0;
    };
    let varied = font
        .face
        .glyph_phantom_points(id)
        .map_or(0.0, |points| f64::from(points.left.x));
    f64::from(bearing) - f64::from(bounds.x_min) - varied
}

fn read(font: &Font<'_>, id: GlyphId, collector: &mut Collector) -> Read {
    let tables = font.face.tables();
    if tables.glyf.is_some() {
        if let Some(why) = too_much(font, id) {
            return Read::Broken(why.to_owned());
        }
        // The library gives nothing both for an empty glyph and for a broken one; the glyph's header tells them apart.
        return match font.face.outline_glyph(id, collector) {
            Some(_) => glyf_fault(font, id).map_or(Read::Whole, Read::Broken),
            None => glyf_without_outline(font, id),
        };
    }
    if let Some(why) = postscript::too_much(font, id) {
        return Read::Broken(why.to_owned());
    }
    let result = if let Some(cff) = tables.cff.as_ref() {
        cff.outline(id, collector)
    } else if let Some(cff2) = tables.cff2.as_ref() {
        cff2.outline(font.face.variation_coordinates(), id, collector)
    } else {
        return Read::NoTable;
    };
    match result {
        Ok(_) => Read::Whole,
        Err(CFFError::ZeroBBox) if collector.path.elements().is_empty() => Read::Empty,
        // The bounding box alone does not suit the library; the contours are whole.
        Err(CFFError::ZeroBBox | CFFError::BboxOverflow) => Read::Whole,
        Err(error) => Read::Broken(format!("its drawing program fails ({error:?})")),
    }
}

fn glyf_without_outline(font: &Font<'_>, id: GlyphId) -> Read {
    let contours = match glyf_data(font, id) {
        None => {
            return Read::Broken(
                "its place in the file is not given or lies outside it".to_owned(),
            );
        }
        Some([]) => return Read::Empty,
        Some(data) => match data {
            [high, low, ..] => i16::from_be_bytes([*high, *low]),
            _ => return Read::Broken("it ends before its header does".to_owned()),
        },
    };
    // Negative: made of other glyphs, which are all empty. Zero: no contours, though there is a header.
    if contours <= 0 {
        Read::Empty
    } else {
        Read::Broken("its contours end before they should".to_owned())
    }
}

/// What is wrong with a simple glyph that the library drew all the same; a wrong letter must not reach the wood.
///
/// # Source
/// OpenType specification, table `glyf`, simple glyph description.
fn glyf_fault(font: &Font<'_>, id: GlyphId) -> Option<String> {
    let data = glyf_data(font, id)?;
    let contours = usize::try_from(i16::from_be_bytes(*data.first_chunk()?)).ok()?;
    let ends: Vec<u16> = data
        .get(HEADER..HEADER + 2 * contours)?
        .chunks_exact(2)
        .map(|end| u16::from_be_bytes([end[0], end[1]]))
        .collect();
    if ends.windows(2).any(|pair| pair[0] >= pair[1]) {
        return Some("the ends of its contours are out of order".to_owned());
    }
    let points = 1 + usize::from(*ends.last()?);
    if points_fit(data.get(HEADER + 2 * contours..)?, points) {
        None
    } else {
        Some("it ends before its last point".to_owned())
    }
}

/// Length of a glyph's header: the number of contours and the bounding box.
pub(super) const HEADER: usize = 10;
/// Flags of a point: x or y takes one byte, not two; the flag is repeated; x or y is as before (or, of one byte, positive).
const X_SHORT: u8 = 0x02;
const Y_SHORT: u8 = 0x04;
const REPEATED: u8 = 0x08;
const X_SAME: u8 = 0x10;
const Y_SAME: u8 = 0x20;

/// Whether instructions, flags and coordinates of so many points lie within the data that follows the contour ends.
fn points_fit(data: &[u8], points: usize) -> bool {
    let Some(&instructions) = data.first_chunk() else {
        return false;
    };
    let mut at = 2 + usize::from(u16::from_be_bytes(instructions));
    let mut left = points;
    let mut coordinates = 0;
    // Each turn uses up at least one point.
    while left > 0 {
        let Some(&flag) = data.get(at) else {
            return false;
        };
        at += 1;
        let mut times = 1;
        if flag & REPEATED != 0 {
            let Some(&more) = data.get(at) else {
                return false;
            };
            at += 1;
            times += usize::from(more);
        }
        let times = times.min(left);
        left -= times;
        coordinates += times * (width(flag, X_SHORT, X_SAME) + width(flag, Y_SHORT, Y_SAME));
    }
    at + coordinates <= data.len()
}

/// How many bytes one coordinate takes.
fn width(flag: u8, short: u8, same: u8) -> usize {
    if flag & short != 0 {
        1
    } else if flag & same != 0 {
        0
    } else {
        2
    }
}

/// The glyph's bytes in table `glyf`; empty for an empty glyph, `None` if the index of places (`loca`) gives no place for it.
pub(super) fn glyf_data<'a>(font: &Font<'a>, id: GlyphId) -> Option<&'a [u8]> {
    let face = &font.face;
    let loca = face.raw_face().table(Tag::from_bytes(b"loca"))?;
    let glyf = face.raw_face().table(Tag::from_bytes(b"glyf"))?;
    let entry = |index: usize| -> Option<usize> {
        match face.tables().head.index_to_location_format {
            IndexToLocationFormat::Short => {
                let bytes = loca.get(index * 2..index * 2 + 2)?;
                Some(2 * usize::from(u16::from_be_bytes(bytes.try_into().ok()?)))
            }
            IndexToLocationFormat::Long => {
                let bytes = loca.get(index * 4..index * 4 + 4)?;
                usize::try_from(u32::from_be_bytes(bytes.try_into().ok()?)).ok()
            }
        }
    };
    let index = usize::from(id.0);
    glyf.get(entry(index)?..entry(index + 1)?)
}
