//! A sheet as PDF.

use krilla::Document;
use krilla::blend::BlendMode;
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder};
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Stroke};
use krilla::surface::Surface;
use kurbo::Point;

use super::super::{Colour, Layer, Sheet};
use super::{DrawingError, EDGE, EDGE_MM, MM_PER_INCH};

/// Points of PDF to a millimetre (72 to an inch).
const POINTS_PER_MM: f64 = 72.0 / MM_PER_INCH;

/// The widest page, mm: 200 inches.
///
/// # Source
/// ISO 32000-1:2008, annex C, from memory.
pub const MOST_MM: f64 = 5_080.0;

/// The least page that can be drawn, mm.
const LEAST_MM: f64 = 1.0;

/// The sheet as PDF of one page, true to size.
///
/// # Errors
/// When the sheet is smaller or larger than a page can be.
pub fn to_pdf(sheet: &Sheet) -> Result<Vec<u8>, DrawingError> {
    let size = [sheet.width_mm, sheet.height_mm];
    let fits = size.iter().all(|side| (LEAST_MM..=MOST_MM).contains(side));
    let [width, height] = size.map(|side| (side * POINTS_PER_MM) as f32);
    let page = PageSettings::from_wh(width, height).filter(|_| fits);
    let page = page.ok_or(DrawingError::Page {
        width_mm: sheet.width_mm.max(0.0) as u64,
        height_mm: sheet.height_mm.max(0.0) as u64,
    })?;
    let mut document = Document::new();
    let mut drawn = document.start_page_with(page);
    let mut surface = drawn.surface();
    draw(&mut surface, sheet);
    surface.finish();
    drawn.finish();
    document.finish().map_err(|error| DrawingError::Packing {
        kind: "PDF",
        why: format!("{error:?}"),
    })
}

fn draw(surface: &mut Surface, sheet: &Sheet) {
    let corners = [
        (0.0, 0.0),
        (sheet.width_mm, 0.0),
        (sheet.width_mm, sheet.height_mm),
        (0.0, sheet.height_mm),
    ];
    let paper = corners.map(Point::from).to_vec();
    surface.set_fill(Some(fill(sheet.paper)));
    paint(
        surface,
        path(std::iter::once((paper.as_slice(), Point::ZERO)), sheet),
    );
    let several = sheet.layers.len() > 1;
    if several {
        surface.push_isolated();
    }
    for (number, layer) in sheet.layers.iter().enumerate() {
        surface.set_fill(Some(fill(layer.ink)));
        let rings = layer.sorts().flat_map(|(_, impression, at)| {
            impression
                .inked
                .rings()
                .map(move |ring| (ring.as_slice(), at))
        });
        let inked = path(rings, sheet);
        if number > 0 {
            surface.push_blend_mode(BlendMode::Multiply);
        }
        paint(surface, inked);
        if number > 0 {
            surface.pop();
        }
    }
    if several {
        surface.pop();
    }
    if sheet.blocks {
        surface.set_fill(None);
        surface.set_stroke(Some(Stroke {
            paint: rgb_of(EDGE).into(),
            width: (EDGE_MM * POINTS_PER_MM) as f32,
            ..Stroke::default()
        }));
        let edges: Vec<Vec<Point>> = sheet.layers.iter().flat_map(Layer::edges).collect();
        paint(
            surface,
            path(
                edges.iter().map(|ring| (ring.as_slice(), Point::ZERO)),
                sheet,
            ),
        );
    }
}

/// Draws a path, if there is any.
fn paint(surface: &mut Surface, path: Option<Path>) {
    if let Some(path) = path {
        surface.draw_path(&path);
    }
}

fn fill(colour: Colour) -> Fill {
    Fill {
        paint: rgb_of(colour).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn rgb_of(colour: Colour) -> rgb::Color {
    rgb::Color::new(colour.red, colour.green, colour.blue)
}

/// Closed rings, each at its place, in points from the upper edge down.
fn path<'a>(rings: impl Iterator<Item = (&'a [Point], Point)>, sheet: &Sheet) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for (ring, at) in rings {
        for (index, point) in ring.iter().enumerate() {
            let x = ((at.x + point.x) * POINTS_PER_MM) as f32;
            let y = ((sheet.height_mm - at.y - point.y) * POINTS_PER_MM) as f32;
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
