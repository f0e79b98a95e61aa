//! Outlines written as an SVG file in millimetres.

use kurbo::{Affine, Rect};

use crate::{FillRule, Outline};

/// Digits after the point of a millimetre: a tenth of a micrometre.
const DIGITS: f64 = 1e4;

/// An SVG file of one outline, black on nothing, whose units are millimetres.
///
/// `page` is the part of the plane that becomes the page, y up; the file's y runs down from its upper edge. `title` is kept as the file's title.
pub fn write(outline: &Outline, page: Rect, title: &str) -> String {
    let down = Affine::new([1.0, 0.0, 0.0, -1.0, -page.x0, page.y1]);
    let path = down * outline.path.clone();
    let rule = match outline.rule {
        FillRule::NonZero => "nonzero",
        FillRule::EvenOdd => "evenodd",
    };
    let [width, height] = [page.width(), page.height()].map(rounded);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n\
         <title>{}</title>\n\
         <path fill=\"#000000\" fill-rule=\"{rule}\" d=\"{}\"/>\n\
         </svg>\n",
        escaped(title),
        rounded_path(&path).to_svg()
    )
}

fn rounded(mm: f64) -> f64 {
    (mm * DIGITS).round() / DIGITS + 0.0
}

fn rounded_path(path: &kurbo::BezPath) -> kurbo::BezPath {
    use kurbo::PathEl::{ClosePath, CurveTo, LineTo, MoveTo, QuadTo};
    let near = |point: kurbo::Point| kurbo::Point::new(rounded(point.x), rounded(point.y));
    path.elements()
        .iter()
        .map(|&element| match element {
            MoveTo(to) => MoveTo(near(to)),
            LineTo(to) => LineTo(near(to)),
            QuadTo(a, to) => QuadTo(near(a), near(to)),
            CurveTo(a, b, to) => CurveTo(near(a), near(b), near(to)),
            ClosePath => ClosePath,
        })
        .collect()
}

/// Text as XML takes it.
fn escaped(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_control())
        .map(|c| match c {
            '&' => "&amp;".to_owned(),
            '<' => "&lt;".to_owned(),
            '>' => "&gt;".to_owned(),
            other => other.to_string(),
        })
        .collect()
}
