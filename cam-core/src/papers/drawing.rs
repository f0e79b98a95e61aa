//! Drawings of papers in true millimetres, y up: shown on pages at a scale, and as SVG in true size.

use std::fmt::Write as _;

use kurbo::{BezPath, PathEl, Point, Rect, Shape};

use crate::proof::impression::Colour;

/// A drawing.
#[derive(Clone, Debug, Default)]
pub struct Drawing {
    /// What of the plane is shown.
    pub frame: Rect,
    /// What is drawn, in this order.
    pub marks: Vec<Mark>,
}

/// Something drawn. Places are true to size; widths of lines and sizes of words are those on the paper, at any scale.
#[derive(Clone, Debug)]
pub enum Mark {
    /// A filled shape, by the nonzero rule.
    Filled(BezPath, Colour),
    /// A line and its width on the paper, mm.
    Drawn(BezPath, Colour, f64),
    /// A broken line.
    Broken(BezPath, Colour, f64),
    /// Words on one line.
    Words {
        /// Where they begin or end, or what they stand over, on their base line.
        at: Point,
        /// How far they are moved on the paper, mm, y up.
        moved: [f64; 2],
        /// What is at that place.
        anchor: Anchor,
        /// What they say.
        text: String,
        /// Their size on the paper, points of 1/72 inch.
        size: f64,
        /// Their colour.
        colour: Colour,
    },
}

/// What of some words is at their place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Their beginning.
    Start,
    /// Their middle.
    Middle,
    /// Their end.
    End,
}

/// Black, as printed.
pub const INK: Colour = Colour::new(0x1d, 0x1a, 0x18);
/// The grey of what is only to be looked up.
pub const GREY: Colour = Colour::new(0x6e, 0x69, 0x63);
/// The grey of fine rules.
pub const RULE: Colour = Colour::new(0xb4, 0xae, 0xa6);
/// What is to be seen first.
pub const RED: Colour = Colour::new(0xb3, 0x26, 0x1e);
/// A plank.
pub const PLANK: Colour = Colour::new(0xf3, 0xe6, 0xcc);
/// A block.
pub const BLOCK: Colour = Colour::new(0xe2, 0xc8, 0x96);
/// A bad place of a plank.
pub const BAD: Colour = Colour::new(0xb7, 0x9a, 0x72);
/// Edges of wood.
pub const EDGE: Colour = Colour::new(0x7a, 0x5a, 0x2b);
/// A face, cut in wood.
pub const FACE: Colour = Colour::new(0x2b, 0x21, 0x18);

/// Millimetres in a point of pages and screens: 72 to the inch, as PostScript and PDF count (from memory).
pub const MM_PER_POINT: f64 = 25.4 / 72.0;

/// How far curves may be drawn from the exact ones in SVG, mm.
const NEAR_MM: f64 = 0.02;

impl Drawing {
    /// A drawing of nothing yet.
    pub fn new(frame: Rect) -> Drawing {
        Drawing {
            frame,
            marks: Vec::new(),
        }
    }

    /// Adds a filled shape.
    pub fn fill(&mut self, path: impl Into<BezPath>, colour: Colour) {
        self.marks.push(Mark::Filled(path.into(), colour));
    }

    /// Adds a line.
    pub fn line(&mut self, path: impl Into<BezPath>, colour: Colour, width: f64) {
        self.marks.push(Mark::Drawn(path.into(), colour, width));
    }

    /// Adds a broken line.
    pub fn broken(&mut self, path: impl Into<BezPath>, colour: Colour, width: f64) {
        self.marks.push(Mark::Broken(path.into(), colour, width));
    }

    /// Adds words over a place.
    pub fn words(&mut self, at: Point, moved: [f64; 2], anchor: Anchor, text: &str, size: f64) {
        self.coloured(at, moved, anchor, (text, size), INK);
    }

    /// Adds words in a colour.
    pub fn coloured(
        &mut self,
        at: Point,
        moved: [f64; 2],
        anchor: Anchor,
        (text, size): (&str, f64),
        colour: Colour,
    ) {
        self.marks.push(Mark::Words {
            at,
            moved,
            anchor,
            text: text.to_owned(),
            size,
            colour,
        });
    }

    /// The drawing as SVG, true to size; coordinates to a hundredth of a millimetre.
    pub fn to_svg(&self) -> String {
        let (width, height) = (self.frame.width(), self.frame.height());
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" viewBox=\"0 0 {width:.3} {height:.3}\" font-family=\"serif\">\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n"
        );
        for mark in &self.marks {
            let line = match mark {
                Mark::Filled(path, colour) => {
                    format!(
                        "<path fill=\"{}\" d=\"{}\"/>",
                        colour.hex(),
                        self.data(path)
                    )
                }
                Mark::Drawn(path, colour, width) => format!(
                    "<path fill=\"none\" stroke=\"{}\" stroke-width=\"{width}\" d=\"{}\"/>",
                    colour.hex(),
                    self.data(path)
                ),
                Mark::Broken(path, colour, width) => format!(
                    "<path fill=\"none\" stroke=\"{}\" stroke-width=\"{width}\" stroke-dasharray=\"2 1.5\" d=\"{}\"/>",
                    colour.hex(),
                    self.data(path)
                ),
                Mark::Words {
                    at,
                    moved,
                    anchor,
                    text,
                    size,
                    colour,
                } => {
                    let at = self.place(*at + kurbo::Vec2::from((moved[0], moved[1])));
                    let anchor = match anchor {
                        Anchor::Start => "start",
                        Anchor::Middle => "middle",
                        Anchor::End => "end",
                    };
                    format!(
                        "<text x=\"{:.2}\" y=\"{:.2}\" font-size=\"{:.2}\" text-anchor=\"{anchor}\" fill=\"{}\">{}</text>",
                        at.x,
                        at.y,
                        size * MM_PER_POINT,
                        colour.hex(),
                        escaped(text)
                    )
                }
            };
            svg.push_str(&line);
            svg.push('\n');
        }
        svg + "</svg>\n"
    }

    /// A place of the drawing from the upper left corner of the picture, y down.
    fn place(&self, at: Point) -> Point {
        Point::new(at.x - self.frame.x0, self.frame.y1 - at.y)
    }

    /// Path data, curves as chords and without points that a picture does not need.
    fn data(&self, path: &BezPath) -> String {
        let mut data = String::new();
        let mut kept: Option<Point> = None;
        kurbo::flatten(path, NEAR_MM, |element| match element {
            PathEl::MoveTo(at) => {
                kept = Some(at);
                self.add(&mut data, 'M', at);
            }
            PathEl::LineTo(at) => {
                if kept.is_none_or(|kept| kept.distance(at) >= NEAR_MM) {
                    kept = Some(at);
                    self.add(&mut data, 'L', at);
                }
            }
            PathEl::ClosePath => data.push('Z'),
            // Flattening leaves lines alone.
            PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
        });
        data
    }

    fn add(&self, data: &mut String, letter: char, at: Point) {
        let at = self.place(at);
        write!(data, "{letter}{:.2} {:.2}", at.x, at.y).expect("writing to a String cannot fail");
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

/// A rectangle as a path.
pub fn rectangle(rect: Rect) -> BezPath {
    // A rectangle has no curves, so no tolerance is used.
    rect.to_path(NEAR_MM)
}

/// A straight line.
pub fn straight(from: impl Into<Point>, to: impl Into<Point>) -> BezPath {
    BezPath::from_vec(vec![PathEl::MoveTo(from.into()), PathEl::LineTo(to.into())])
}

/// A closed ring of points.
pub fn ring(points: impl IntoIterator<Item = Point>) -> BezPath {
    let mut path = BezPath::new();
    for (index, at) in points.into_iter().enumerate() {
        if index == 0 {
            path.move_to(at);
        } else {
            path.line_to(at);
        }
    }
    if !path.elements().is_empty() {
        path.close_path();
    }
    path
}
