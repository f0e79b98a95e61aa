//! SVG files: paths, shapes, strokes, transforms, groups, clips and `use`, brought to real size.
//!
//! The file is parsed by `usvg`, which writes out styles, shapes, units, `use` and nested files as plain paths. What is printed is what a
//! viewer shows: later shapes cover earlier ones, white covers without printing, and the page cuts off what lies beyond it.
//!
//! # Source
//! W3C, *Scalable Vector Graphics (SVG) 1.1 (Second Edition)*, 2011: painting order §3.3, units §7.10 (which leaves to CSS how many make an
//! inch: `MM_PER_UNIT`), fill rules §11.3, strokes §11.4, clipping §14.3. From memory.

mod layers;
mod paint;
mod refuse;
mod strokes;
mod write;

use kurbo::{Affine, Rect, Size};
use usvg::roxmltree;

use crate::{Drawing, DrawingError, MOST_BYTES, MOST_PIECES};

pub use write::write;

/// Millimetres per unit of an SVG without units: 96 of them are an inch.
///
/// # Source
/// W3C, *CSS Values and Units*, the absolute length `px` (from memory).
const MM_PER_UNIT: f64 = 25.4 / 96.0;

/// How deep elements may be nested; programs nest a dozen deep.
const DEEPEST: usize = 128;

/// The most nodes of XML in a file.
const MOST_NODES: u32 = 1_000_000;

/// Reads an SVG file.
///
/// The size is that of the page: `width` and `height` in their units, or the viewBox's units at 96 to the inch. Curves stay curves as long as no two
/// shapes overlap and nothing is clipped; otherwise outlines become polygons within 1/300,000 of the drawing's larger side.
///
/// # Errors
/// [`DrawingError`]: it is damaged or too large, or has text, pictures, shading, masks or filters, or draws nothing.
pub fn read(bytes: &[u8]) -> Result<Drawing, DrawingError> {
    if bytes.len() > MOST_BYTES {
        return Err(DrawingError::TooLarge);
    }
    let text = text_of(bytes)?;
    let options = roxmltree::ParsingOptions {
        allow_dtd: true,
        nodes_limit: MOST_NODES,
        ..roxmltree::ParsingOptions::default()
    };
    let document = roxmltree::Document::parse_with_options(text, options)
        .map_err(|error| DrawingError::Svg(error.to_string()))?;
    refuse::check(&document)?;
    let tree = usvg::Tree::from_xmltree(&document, &closed_options()).map_err(parse_error)?;
    let page = Size::new(
        f64::from(tree.size().width()) * MM_PER_UNIT,
        f64::from(tree.size().height()) * MM_PER_UNIT,
    );
    if !(page.is_finite() && page.width > 0.0 && page.height > 0.0) {
        return Err(DrawingError::NoSize);
    }
    // y is turned up about the page's lower edge.
    let mm_from_units = Affine::new([MM_PER_UNIT, 0.0, 0.0, -MM_PER_UNIT, 0.0, page.height]);
    let painted = paint::collect(&tree, mm_from_units, page)?;
    let composed = layers::compose(&painted, Rect::from_origin_size((0.0, 0.0), page))?;
    let turned_up = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, 0.0]);
    Ok(Drawing {
        whole: composed.whole,
        layers: composed.layers,
        page: Some(page),
        mm_from_source: mm_from_units * units_from_user(&document, &tree) * turned_up,
        open_ends: Vec::new(),
        notes: painted.notes.into_iter().chain(composed.notes).collect(),
    })
}

fn text_of(bytes: &[u8]) -> Result<&str, DrawingError> {
    const GZIP: [u8; 2] = [0x1f, 0x8b];
    if bytes.starts_with(&GZIP) {
        return Err(DrawingError::Compressed);
    }
    std::str::from_utf8(bytes)
        .map(|text| text.trim_start_matches('\u{feff}'))
        .map_err(|_| DrawingError::Svg("it is not text in UTF-8".to_owned()))
}

/// Options under which the parser opens no other file.
fn closed_options() -> usvg::Options<'static> {
    usvg::Options {
        image_href_resolver: usvg::ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(|_, _| None),
        },
        ..usvg::Options::default()
    }
}

fn parse_error(error: usvg::Error) -> DrawingError {
    match error {
        usvg::Error::InvalidSize => DrawingError::NoSize,
        usvg::Error::ElementsLimitReached => DrawingError::TooManyPieces,
        usvg::Error::NotAnUtf8Str
        | usvg::Error::SvgzFeatureNotEnabled
        | usvg::Error::MalformedGZip
        | usvg::Error::ParsingFailed(_) => DrawingError::Svg(error.to_string()),
    }
}

/// From the coordinates of the file's paths to units of 96 to the inch: what `viewBox` and `preserveAspectRatio` of the root ask for.
///
/// The parser puts it into a group around everything, unless it does nothing.
fn units_from_user(document: &roxmltree::Document, tree: &usvg::Tree) -> Affine {
    let root = document.root_element();
    let numbers: Vec<f32> = root
        .attribute("viewBox")
        .unwrap_or_default()
        .split(|c: char| c == ',' || c.is_whitespace())
        .filter_map(|number| number.parse().ok())
        .collect();
    let is_plain = match numbers[..] {
        [x, y, width, height] => {
            [x, y, width, height] == [0.0, 0.0, tree.size().width(), tree.size().height()]
        }
        _ => true,
    };
    match tree.root().children() {
        [usvg::Node::Group(group)] if !is_plain => affine_of(group.transform()),
        _ => Affine::IDENTITY,
    }
}

fn affine_of(transform: usvg::Transform) -> Affine {
    Affine::new(
        [
            transform.sx,
            transform.ky,
            transform.kx,
            transform.sy,
            transform.tx,
            transform.ty,
        ]
        .map(f64::from),
    )
}

/// The element's name in a sentence; nothing for one without.
fn named(id: &str) -> String {
    if id.is_empty() {
        "without a name".to_owned()
    } else {
        format!("“{}”", id.chars().take(60).collect::<String>())
    }
}

/// Counts pieces up to the limit.
#[derive(Debug, Default)]
struct Pieces(usize);

impl Pieces {
    fn add(&mut self, more: usize) -> Result<(), DrawingError> {
        self.0 = self.0.saturating_add(more);
        if self.0 > MOST_PIECES {
            Err(DrawingError::TooManyPieces)
        } else {
            Ok(())
        }
    }
}

#[cfg(test)]
mod tests;
