//! Reads the committed files back for the checks.

use demo_face::font_file::Layer;
use kurbo::{BezPath, Point};

/// The committed file's bytes.
pub fn committed(layer: Layer) -> Vec<u8> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../fonts")
        .join(layer.file_name());
    std::fs::read(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

#[derive(Default)]
struct Outline(BezPath);

impl ttf_parser::OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0
            .quad_to((f64::from(x1), f64::from(y1)), (f64::from(x), f64::from(y)));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let point = |x: f32, y: f32| Point::new(f64::from(x), f64::from(y));
        self.0.curve_to(point(x1, y1), point(x2, y2), point(x, y));
    }
    fn close(&mut self) {
        self.0.close_path();
    }
}

/// Names and outlines of every glyph in a file, in order.
pub fn outlines(bytes: &[u8]) -> Vec<(String, BezPath)> {
    let face = ttf_parser::Face::parse(bytes, 0).expect("the committed file is a font");
    (0..face.number_of_glyphs())
        .map(|id| {
            let id = ttf_parser::GlyphId(id);
            let mut outline = Outline::default();
            face.outline_glyph(id, &mut outline);
            (
                face.glyph_name(id).unwrap_or_default().to_owned(),
                outline.0,
            )
        })
        .collect()
}
