//! A sheet as PNG.

use kurbo::Point;
use tiny_skia::{
    BlendMode, FillRule, Paint, Path, PathBuilder, Pixmap, PixmapPaint, Stroke, Transform,
};

use super::super::{Colour, Layer, Sheet};
use super::{DrawingError, EDGE, EDGE_MM, MM_PER_INCH};

/// The most dots of a picture: 400 million bytes while it is drawn, twice as many with several inks.
pub const MOST_DOTS: u64 = 100_000_000;

/// The sheet as PNG at so many dots an inch, with its size recorded, so that it prints true to size.
///
/// # Errors
/// When the picture would have no dots or far too many.
pub fn to_png(sheet: &Sheet, dpi: u32) -> Result<Vec<u8>, DrawingError> {
    let scale = f64::from(dpi) / MM_PER_INCH;
    let dots = |mm: f64| (mm * scale).ceil().max(0.0) as u64;
    let (across, along) = (dots(sheet.width_mm), dots(sheet.height_mm));
    let refused = DrawingError::Size {
        width_mm: sheet.width_mm.max(0.0) as u64,
        height_mm: sheet.height_mm.max(0.0) as u64,
        dpi,
    };
    if across.saturating_mul(along) > MOST_DOTS {
        return Err(refused);
    }
    let empty = || Pixmap::new(across as u32, along as u32).ok_or_else(|| refused.clone());
    let view = View {
        scale,
        height_mm: sheet.height_mm,
    };
    let mut picture = empty()?;
    picture.fill(solid(sheet.paper));
    match sheet.layers.as_slice() {
        [] => {}
        [one] => view.print(&mut picture, one, BlendMode::SourceOver),
        several => {
            let mut inks = empty()?;
            for (number, layer) in several.iter().enumerate() {
                let blend = if number == 0 {
                    BlendMode::SourceOver
                } else {
                    BlendMode::Multiply
                };
                view.print(&mut inks, layer, blend);
            }
            picture.draw_pixmap(
                0,
                0,
                inks.as_ref(),
                &PixmapPaint::default(),
                Transform::identity(),
                None,
            );
        }
    }
    if sheet.blocks {
        view.edges(&mut picture, sheet);
    }
    pack(&picture, dpi)
}

/// The way from the sheet's millimetres to dots.
struct View {
    scale: f64,
    height_mm: f64,
}

impl View {
    fn print(&self, picture: &mut Pixmap, layer: &Layer, blend: BlendMode) {
        let mut paint = paint(layer.ink);
        paint.blend_mode = blend;
        for (_, impression, at) in layer.sorts() {
            let rings = impression.inked.rings().map(Vec::as_slice);
            if let Some(path) = self.path(rings, at) {
                picture.fill_path(
                    &path,
                    &paint,
                    FillRule::Winding,
                    Transform::identity(),
                    None,
                );
            }
        }
    }

    fn edges(&self, picture: &mut Pixmap, sheet: &Sheet) {
        let stroke = Stroke {
            width: (EDGE_MM * self.scale).max(1.0) as f32,
            ..Stroke::default()
        };
        for ring in sheet.layers.iter().flat_map(Layer::edges) {
            if let Some(path) = self.path(std::iter::once(ring.as_slice()), Point::ZERO) {
                picture.stroke_path(&path, &paint(EDGE), &stroke, Transform::identity(), None);
            }
        }
    }

    fn path<'a>(&self, rings: impl Iterator<Item = &'a [Point]>, at: Point) -> Option<Path> {
        let mut builder = PathBuilder::new();
        for ring in rings {
            for (index, &point) in ring.iter().enumerate() {
                let x = ((at.x + point.x) * self.scale) as f32;
                let y = ((self.height_mm - at.y - point.y) * self.scale) as f32;
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
    let packing = |error: png::EncodingError| DrawingError::Packing {
        kind: "PNG",
        why: error.to_string(),
    };
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
