//! The window's icon: the same drawing that desktops get, filled path by path.

use egui::IconData;
use kurbo::{BezPath, PathEl};
use tiny_skia::{Color, FillRule, Paint, PathBuilder, Pixmap, Transform};

/// The drawing, on a square of 256.
const DRAWING: &str = include_str!("../../desktop/sortwright.svg");
const DRAWN_SIDE: f32 = 256.0;
/// Side of the icon, dots: what desktops take, and make smaller.
const SIDE: u32 = 128;

/// The icon; nothing if it cannot be drawn, and then the system shows its own.
pub(super) fn icon() -> Option<IconData> {
    let mut dots = Pixmap::new(SIDE, SIDE)?;
    let scale = SIDE as f32 / DRAWN_SIDE;
    for (path, colour) in filled() {
        let mut paint = Paint {
            anti_alias: true,
            ..Paint::default()
        };
        paint.set_color(colour);
        let transform = Transform::from_scale(scale, scale);
        dots.fill_path(&outline(&path)?, &paint, FillRule::EvenOdd, transform, None);
    }
    let straight = dots.pixels().iter().flat_map(|dot| {
        let dot = dot.demultiply();
        [dot.red(), dot.green(), dot.blue(), dot.alpha()]
    });
    Some(IconData {
        rgba: straight.collect(),
        width: SIDE,
        height: SIDE,
    })
}

/// The drawing's filled paths, in order.
fn filled() -> Vec<(BezPath, Color)> {
    let value = |line: &str, key: &str| {
        let begin = line.find(&format!(" {key}=\""))? + key.len() + 3;
        let end = line[begin..].find('"')? + begin;
        Some(line[begin..end].to_owned())
    };
    let one = |line: &str| {
        let colour = value(line, "fill")?;
        let colour = u32::from_str_radix(colour.strip_prefix('#')?, 16).ok()?;
        let [_, r, g, b] = colour.to_be_bytes();
        let path = BezPath::from_svg(&value(line, "d")?).ok()?;
        Some((path, Color::from_rgba8(r, g, b, 255)))
    };
    DRAWING.lines().filter_map(one).collect()
}

fn outline(path: &BezPath) -> Option<tiny_skia::Path> {
    let mut outline = PathBuilder::new();
    let at = |p: kurbo::Point| (p.x as f32, p.y as f32);
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => outline.move_to(at(p).0, at(p).1),
            PathEl::LineTo(p) => outline.line_to(at(p).0, at(p).1),
            PathEl::QuadTo(a, p) => outline.quad_to(at(a).0, at(a).1, at(p).0, at(p).1),
            PathEl::CurveTo(a, b, p) => {
                let ((ax, ay), (bx, by), (x, y)) = (at(a), at(b), at(p));
                outline.cubic_to(ax, ay, bx, by, x, y);
            }
            PathEl::ClosePath => outline.close(),
        }
    }
    outline.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_icon_shows_the_block_and_its_letter() {
        assert_eq!(filled().len(), 5, "four sides of a block and a letter");
        let icon = icon().unwrap();
        let dot = |x: u32, y: u32| {
            let place = ((y * SIDE + x) * 4) as usize;
            [0, 1, 2, 3].map(|part| icon.rgba[place + part])
        };
        assert_eq!(dot(2, 2)[3], 0, "nothing beside it");
        assert_eq!(dot(75, 70), [0x20, 0x1b, 0x17, 255], "the letter's stem");
        assert_eq!(dot(20, 100), [0xe6, 0xcf, 0xa6, 255], "wood");
    }
}
