//! Set lines as pictures, true to size.

use std::fmt::Write as _;
use std::str::FromStr;

use kurbo::Point;
use tiny_skia::{FillRule, Paint, Path, PathBuilder, Pixmap, Stroke, Transform};

use super::{Impression, SetLines};

/// A colour without transparency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Colour {
    /// A colour by its three parts.
    pub const fn new(red: u8, green: u8, blue: u8) -> Colour {
        Colour { red, green, blue }
    }

    fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

impl FromStr for Colour {
    type Err = DrawingError;

    /// Reads `#` and six hexadecimal digits.
    fn from_str(text: &str) -> Result<Colour, DrawingError> {
        let unread = || DrawingError::Colour(text.to_owned());
        let digits = text
            .strip_prefix('#')
            .filter(|digits| digits.len() == 6 && digits.bytes().all(|b| b.is_ascii_hexdigit()))
            .ok_or_else(unread)?;
        let value = u32::from_str_radix(digits, 16).map_err(|_| unread())?;
        let [_, red, green, blue] = value.to_be_bytes();
        Ok(Colour { red, green, blue })
    }
}

/// The colours of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Inks {
    /// What prints.
    pub ink: Colour,
    /// The sheet.
    pub paper: Colour,
    /// The edges of blocks; `None` to leave them out, as a print does.
    pub edges: Option<Colour>,
}

/// Why a picture could not be drawn.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DrawingError {
    /// Not a colour.
    #[error("\"{0}\" is not a colour; write # and six hexadecimal digits, such as #1a1a1a.")]
    Colour(String),
    /// Nothing to draw, or more than can be held.
    #[error(
        "A picture of {width_mm:.0} × {height_mm:.0} mm at {dpi} dots an inch cannot be drawn; it would have no dots, or more than {MOST_DOTS}. Ask for other dots an inch, or set fewer sorts."
    )]
    Size {
        /// Size across, whole mm.
        width_mm: u64,
        /// Size along, whole mm.
        height_mm: u64,
        /// Dots an inch.
        dpi: u32,
    },
    /// The picture could not be packed.
    #[error("The picture could not be packed as PNG: {0}.")]
    Packing(String),
}

/// The most dots of a picture: 400 million bytes while it is drawn.
const MOST_DOTS: u64 = 100_000_000;

/// Millimetres in an inch, by definition.
const MM_PER_INCH: f64 = 25.4;

/// Width of the lines that mark blocks' edges, mm.
const EDGE_MM: f64 = 0.1;

/// The set lines as SVG, one unit a millimetre and true to size; coordinates to a micrometre.
pub fn to_svg(impressions: &[Impression], set: &SetLines, inks: Inks) -> String {
    let (width, height) = (set.width_mm, set.height_mm);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" viewBox=\"0 0 {width:.3} {height:.3}\">\n<rect width=\"100%\" height=\"100%\" fill=\"{}\"/>\n",
        inks.paper.hex()
    );
    let mut edges = String::new();
    let mut inked = String::new();
    for (impression, at) in set_blocks(impressions, set) {
        add_ring(&mut edges, &impression.block, at, height);
        for ring in impression.inked.rings() {
            add_ring(&mut inked, ring, at, height);
        }
    }
    let mut add = |line: std::fmt::Arguments| {
        writeln!(svg, "{line}").expect("writing to a String cannot fail");
    };
    add(format_args!(
        "<path fill=\"{}\" d=\"{inked}\"/>",
        inks.ink.hex()
    ));
    if let Some(colour) = inks.edges {
        add(format_args!(
            "<path fill=\"none\" stroke=\"{}\" stroke-width=\"{EDGE_MM}\" d=\"{edges}\"/>",
            colour.hex()
        ));
    }
    add(format_args!("</svg>"));
    svg
}

/// The set lines as PNG at so many dots an inch, with its size recorded, so that it prints true to size.
///
/// # Errors
/// When the picture would have no dots or far too many.
pub fn to_png(
    impressions: &[Impression],
    set: &SetLines,
    inks: Inks,
    dpi: u32,
) -> Result<Vec<u8>, DrawingError> {
    let scale = f64::from(dpi) / MM_PER_INCH;
    let dots = |mm: f64| (mm * scale).ceil().max(0.0) as u64;
    let (across, along) = (dots(set.width_mm), dots(set.height_mm));
    let refused = DrawingError::Size {
        width_mm: set.width_mm.max(0.0) as u64,
        height_mm: set.height_mm.max(0.0) as u64,
        dpi,
    };
    if across.saturating_mul(along) > MOST_DOTS {
        return Err(refused);
    }
    let mut picture = Pixmap::new(across as u32, along as u32).ok_or(refused)?;
    picture.fill(solid(inks.paper));
    let on_sheet = |place: Point| {
        (
            (place.x * scale) as f32,
            ((set.height_mm - place.y) * scale) as f32,
        )
    };
    let ink = paint(inks.ink);
    for (impression, at) in set_blocks(impressions, set) {
        let rings = impression.inked.rings().map(Vec::as_slice);
        if let Some(path) = path(rings, |place| on_sheet(place + at.to_vec2())) {
            picture.fill_path(&path, &ink, FillRule::Winding, Transform::identity(), None);
        }
        if let (Some(colour), Some(path)) = (
            inks.edges,
            path_of_block(impression, |place| on_sheet(place + at.to_vec2())),
        ) {
            let stroke = Stroke {
                width: (EDGE_MM * scale).max(1.0) as f32,
                ..Stroke::default()
            };
            picture.stroke_path(&path, &paint(colour), &stroke, Transform::identity(), None);
        }
    }
    pack(&picture, dpi)
}

/// The blocks with what they print and where they stand.
fn set_blocks<'a>(
    impressions: &'a [Impression],
    set: &'a SetLines,
) -> impl Iterator<Item = (&'a Impression, Point)> {
    set.blocks
        .iter()
        .filter_map(|block| Some((impressions.get(block.impression)?, block.at)))
}

/// Adds a closed ring to SVG path data, y turned down.
fn add_ring(data: &mut String, ring: &[Point], at: Point, height: f64) {
    for (index, point) in ring.iter().enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        let (x, y) = (at.x + point.x, height - at.y - point.y);
        write!(data, "{letter}{x:.3} {y:.3}").expect("writing to a String cannot fail");
    }
    data.push('Z');
}

fn path_of_block(impression: &Impression, to: impl Fn(Point) -> (f32, f32)) -> Option<Path> {
    path(std::iter::once(impression.block.as_slice()), to)
}

fn path<'a>(
    rings: impl Iterator<Item = &'a [Point]>,
    to: impl Fn(Point) -> (f32, f32),
) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for ring in rings {
        for (index, &point) in ring.iter().enumerate() {
            let (x, y) = to(point);
            if index == 0 {
                builder.move_to(x, y);
            } else {
                builder.line_to(x, y);
            }
        }
        builder.close();
    }
    builder.finish()
}

fn solid(colour: Colour) -> tiny_skia::Color {
    tiny_skia::Color::from_rgba8(colour.red, colour.green, colour.blue, u8::MAX)
}

fn paint(colour: Colour) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color(solid(colour));
    paint.anti_alias = true;
    paint
}

/// Packs an opaque picture; three bytes a dot, dots per metre recorded.
fn pack(picture: &Pixmap, dpi: u32) -> Result<Vec<u8>, DrawingError> {
    let packing = |error: png::EncodingError| DrawingError::Packing(error.to_string());
    let dots: Vec<u8> = picture
        .pixels()
        .iter()
        .flat_map(|dot| [dot.red(), dot.green(), dot.blue()])
        .collect();
    let per_metre = (f64::from(dpi) * 1000.0 / MM_PER_INCH).round() as u32;
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, picture.width(), picture.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: per_metre,
        yppu: per_metre,
        unit: png::Unit::Meter,
    }));
    let mut writer = encoder.write_header().map_err(packing)?;
    writer.write_image_data(&dots).map_err(packing)?;
    writer.finish().map_err(packing)?;
    Ok(bytes)
}
