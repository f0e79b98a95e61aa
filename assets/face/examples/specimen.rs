//! Pictures of the face, for looking at it large.
//!
//! `cargo run -p demo-face --example specimen` draws the specimen of the README. With arguments it draws any lines:
//! `… --example specimen -- PICTURE.png PIXELS-PER-UNIT LAYERS LINE…`, where LAYERS is `one` or `two`, and a line is text, or
//! glyph names after a colon.

use demo_face::features::kerning_of;
use demo_face::font_file::Layer;
use demo_face::glyphs::{self, Glyph};
use kurbo::{Affine, BezPath, PathEl};
use std::error::Error;
use std::path::Path;
use tiny_skia::{Color, FillRule, Paint, PathBuilder, Pixmap, Transform};

/// From one line's foot to the next, in font units.
const LEADING: f64 = 2150.0;
/// Room around the lines, in font units.
const MARGIN: f64 = 180.0;
const PAPER: Color = Color::WHITE;
const BLACK: [u8; 3] = [22, 20, 18];
const RED: [u8; 3] = [158, 42, 30];
const STRAW: [u8; 3] = [255, 226, 160];

/// A line of glyphs, its size as a share of the picture's scale, and the inks of its layers.
struct Line<'a> {
    glyphs: Vec<&'a Glyph>,
    size: f64,
    inks: Vec<(Layer, [u8; 3])>,
}

fn main() -> Result<(), Box<dyn Error>> {
    let drawn: Vec<Glyph> = glyphs::all()
        .into_iter()
        .map(glyphs::Entry::drawn)
        .collect();
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let one = || vec![(Layer::Regular, BLACK)];
    let two = || vec![(Layer::Regular, RED), (Layer::Inline, STRAW)];
    if let [picture, scale, layers, lines @ ..] = arguments.as_slice() {
        let inks = || if layers == "two" { two() } else { one() };
        let lines: Vec<Line> = lines
            .iter()
            .map(|text| Line {
                glyphs: set(&drawn, text),
                size: 1.0,
                inks: inks(),
            })
            .collect();
        return Ok(draw(&lines, scale.parse()?)?.save_png(picture)?);
    }
    let line = |text: &str, size: f64, inks| Line {
        glyphs: set(&drawn, text),
        size,
        inks,
    };
    let strip = "\u{2550}".repeat(18);
    let lines = [
        line(&strip, 0.5, two()),
        line("QUERNSTOW", 0.86, two()),
        line("ABCDEFGHIJKLM", 0.66, one()),
        line("NOPQRSTUVWXYZ", 0.62, one()),
        line("abcdefghijklmnopqrs", 0.62, one()),
        line("tuvwxyzß 0123456789", 0.58, one()),
        line("(“Äå Éñ & Ø”) ?! .,:; ‘fine’", 0.55, one()),
        line("Harvest Ball 9 & 10 Sept", 0.58, two()),
        line(
            "\u{2767} \u{2053} \u{2605} \u{25C6} \u{2600} \u{25C6} \u{2605} \u{2053} \u{2619}",
            0.55,
            two(),
        ),
    ];
    let picture = Path::new(env!("CARGO_MANIFEST_DIR")).join("../specimen.png");
    Ok(draw(&lines, 0.11)?.save_png(picture)?)
}

/// The glyphs of a line: of its characters, or of the names after a colon.
fn set<'a>(drawn: &'a [Glyph], text: &str) -> Vec<&'a Glyph> {
    match text.strip_prefix(':') {
        Some(names) => names
            .split(' ')
            .filter_map(|name| drawn.iter().find(|g| g.entry.name == name))
            .collect(),
        None => text
            .chars()
            .filter_map(|c| drawn.iter().find(|g| g.entry.characters.contains(&c)))
            .collect(),
    }
}

fn width(line: &Line) -> f64 {
    let kerns = line
        .glyphs
        .windows(2)
        .map(|pair| kerning_of(pair[0].entry.name, pair[1].entry.name));
    line.glyphs.iter().map(|glyph| glyph.advance).sum::<f64>() + kerns.sum::<f64>()
}

fn draw(lines: &[Line], scale: f64) -> Result<Pixmap, Box<dyn Error>> {
    let widest = lines
        .iter()
        .map(|line| width(line) * line.size)
        .fold(0.0, f64::max);
    let height: f64 = lines.iter().map(|line| LEADING * line.size).sum();
    let pixels = |units: f64| ((units + 2.0 * MARGIN) * scale).ceil() as u32;
    let mut picture =
        Pixmap::new(pixels(widest), pixels(height)).ok_or("the picture has no size")?;
    picture.fill(PAPER);
    let mut foot = MARGIN;
    for line in lines {
        foot += LEADING * line.size;
        // On a whole pixel, so that the joints of borders do not show.
        let start = ((MARGIN + (widest - width(line) * line.size) / 2.0) * scale).floor() / scale;
        let place = Affine::scale(scale)
            * Affine::translate((start, foot - 400.0 * line.size))
            * Affine::scale(line.size);
        for &(layer, ink) in &line.inks {
            let mut x = 0.0;
            for (i, glyph) in line.glyphs.iter().enumerate() {
                fill(
                    &mut picture,
                    &layer.outline(glyph),
                    place * Affine::translate((x, 0.0)) * Affine::FLIP_Y,
                    ink,
                );
                x += glyph.advance
                    + line
                        .glyphs
                        .get(i + 1)
                        .map_or(0.0, |next| kerning_of(glyph.entry.name, next.entry.name));
            }
        }
    }
    Ok(picture)
}

fn fill(picture: &mut Pixmap, outline: &BezPath, place: Affine, [red, green, blue]: [u8; 3]) {
    let mut path = PathBuilder::new();
    for element in (place * outline.clone()).elements() {
        match *element {
            PathEl::MoveTo(p) => path.move_to(p.x as f32, p.y as f32),
            PathEl::LineTo(p) => path.line_to(p.x as f32, p.y as f32),
            PathEl::QuadTo(a, p) => path.quad_to(a.x as f32, a.y as f32, p.x as f32, p.y as f32),
            PathEl::CurveTo(a, b, p) => path.cubic_to(
                a.x as f32, a.y as f32, b.x as f32, b.y as f32, p.x as f32, p.y as f32,
            ),
            PathEl::ClosePath => path.close(),
        }
    }
    if let Some(path) = path.finish() {
        let mut paint = Paint::default();
        paint.set_color_rgba8(red, green, blue, 255);
        picture.fill_path(
            &path,
            &paint,
            FillRule::Winding,
            Transform::identity(),
            None,
        );
    }
}
