//! Drawings that are not fonts: SVG files, DXF files and scanned pages, turned into outlines in millimetres.
//!
//! Pure, like the plane mathematics it rests on: bytes go in, outlines come out, and the same bytes give the same outlines. Conventions:
//! - **Unit and axes.** Millimetres, x to the right, y up. The origin is the page's lower-left corner (SVG, scans), or the file's own (DXF).
//! - **Size.** As the file states it: an SVG by its width, height and viewBox at 96 units to the inch, a DXF by its unit. A scan has the size
//!   that one known measure on the page gives it.
//! - **Fill.** Each outline tells its rule. DXF files hold lines without a fill, so what they enclose is taken by the even-odd rule.
//! - **Nothing silently.** What cannot be used is refused by name ([`DrawingError`]); what was taken in some way that the maker may not have
//!   meant is told in [`Drawing::notes`]; ends that meet nothing are told in [`Drawing::open_ends`].

mod error;
mod outline;
mod work;

pub mod dxf;
pub mod scan;
pub mod svg;

use kurbo::{Affine, Point, Size};

pub use error::DrawingError;
pub use outline::{FillRule, Outline};

/// The longest drawing file that is read, in bytes. Plain text of drawings for wood type takes a thousandth of it.
pub const MOST_BYTES: usize = 32 * 1024 * 1024;

/// The most line and curve pieces that a drawing may have, once `use` and blocks are written out.
pub const MOST_PIECES: usize = 200_000;

/// What a drawing draws.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// Everything that prints, whatever its colour.
    pub whole: Outline,
    /// The same, by colour (SVG) or by the file's own layers (DXF), in the order of first use. Where an SVG paints one colour over another,
    /// the upper one alone has that ground.
    pub layers: Vec<Layer>,
    /// Size of the page; `None` of a DXF, which has none.
    pub page: Option<Size>,
    /// Takes the file's own coordinates, y turned up, to millimetres.
    pub mm_from_source: Affine,
    /// Ends of lines that meet no other end: the drawing cannot be filled there.
    pub open_ends: Vec<OpenEnd>,
    /// How the file was read where that is not plain, one sentence each.
    pub notes: Vec<String>,
}

/// What one colour prints.
#[derive(Clone, Debug)]
pub struct Layer {
    /// The colour as `#rrggbb` (SVG), or the layer's name in the file (DXF).
    pub name: String,
    /// What it prints.
    pub outline: Outline,
}

/// An end of a line that meets no other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenEnd {
    /// Where it lies, in millimetres.
    pub at: Point,
    /// From it to the nearest other open end, in millimetres; `None` if there is no other.
    pub gap_mm: Option<f64>,
}

impl Drawing {
    /// What one layer prints, or the whole drawing without a name.
    pub fn part(&self, layer: Option<&str>) -> Option<&Outline> {
        match layer {
            None => Some(&self.whole),
            Some(name) => self
                .layers
                .iter()
                .find(|layer| layer.name.eq_ignore_ascii_case(name))
                .map(|layer| &layer.outline),
        }
    }
}

/// How drawings are read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Ends of lines that lie at most this far apart are joined (DXF), in millimetres.
    pub join_gap_mm: f64,
}

impl Default for Reading {
    /// Ends are joined within a fiftieth of a millimetre: rounding in other programs, and less than any cutter shows. Common practice, no
    /// source.
    fn default() -> Reading {
        Reading { join_gap_mm: 0.02 }
    }
}

/// The kinds of file that can hold a drawing, told from how they begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Scalable vector graphics.
    Svg,
    /// Drawing exchange format, as text.
    Dxf,
    /// A picture of dots: it has to be traced first.
    Scan,
}

/// Which kind of file these bytes are, or `None` if they are none of them.
pub fn kind_of(bytes: &[u8]) -> Option<Kind> {
    if scan::is_picture(bytes) {
        return Some(Kind::Scan);
    }
    let start = &bytes[..bytes.len().min(LONGEST_START)];
    let text = String::from_utf8_lossy(start);
    let text = text.trim_start_matches('\u{feff}').trim_start();
    if text.starts_with('<') {
        return Some(Kind::Svg);
    }
    dxf::begins_like_one(bytes).then_some(Kind::Dxf)
}

/// How many bytes are looked at to tell what a file is.
const LONGEST_START: usize = 1024;

/// Reads an SVG or a DXF file.
///
/// # Errors
/// [`DrawingError`]: the file is damaged, too large, or holds what cannot be cut (text, pictures, shading); or it is a picture, which has
/// to be traced first.
pub fn read(bytes: &[u8], reading: &Reading) -> Result<Drawing, DrawingError> {
    match kind_of(bytes) {
        Some(Kind::Svg) => svg::read(bytes),
        Some(Kind::Dxf) => dxf::read(bytes, reading),
        Some(Kind::Scan) => Err(DrawingError::Scan),
        None => Err(DrawingError::UnknownKind),
    }
}

#[cfg(test)]
mod tests;
