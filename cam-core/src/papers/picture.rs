//! A picture of each plank from above, true to size.

use std::fmt::Write as _;

use kurbo::Point;

use super::words::mm;
use super::{PaperParts, text_file};
use crate::make::OutputFile;
use crate::plank::Plank;

/// Room around the plank for its measures, mm.
const MARGIN_MM: f64 = 12.0;

/// Room above the plank for each program's name, mm.
const ROW_MM: f64 = 5.0;

/// How far outlines are drawn from the exact face, mm: far below a pen's width.
const NEAR_MM: f64 = 0.02;

pub fn write(parts: &PaperParts) -> Vec<OutputFile> {
    parts
        .planks
        .iter()
        .map(|plank| text_file(&format!("{}.svg", plank.id), picture(parts, plank)))
        .collect()
}

fn picture(parts: &PaperParts, plank: &Plank) -> String {
    let programs: Vec<String> = parts
        .job
        .programs
        .iter()
        .filter(|program| program.plank == plank.id)
        .enumerate()
        .map(|(index, program)| {
            format!(
                "{}. {} ({}, cutter {})",
                index + 1,
                program.file,
                program.role.word(),
                program.cutter
            )
        })
        .collect();
    let head = MARGIN_MM + ROW_MM * (programs.len() + 1) as f64;
    let width = plank.width_mm + 2.0 * MARGIN_MM;
    let height = plank.length_mm + head + MARGIN_MM;
    let mut svg = Svg {
        text: format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" viewBox=\"0 0 {width:.3} {height:.3}\" font-family=\"sans-serif\" font-size=\"3.5\">\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n"
        ),
        left: MARGIN_MM,
        bottom: head + plank.length_mm,
    };
    svg.words(
        MARGIN_MM,
        MARGIN_MM,
        &format!(
            "Plank {}, {} x {} mm, seen from above, printing face up",
            plank.id,
            mm(plank.width_mm),
            mm(plank.length_mm)
        ),
    );
    for (row, program) in (1..).zip(&programs) {
        svg.words(MARGIN_MM, MARGIN_MM + ROW_MM * f64::from(row), program);
    }
    let corners = [
        Point::new(0.0, 0.0),
        Point::new(plank.width_mm, 0.0),
        Point::new(plank.width_mm, plank.length_mm),
        Point::new(0.0, plank.length_mm),
    ];
    svg.polygons(
        [corners.as_slice()],
        "fill=\"#f3e6cc\" stroke=\"#7a5a2b\" stroke-width=\"0.3\"",
    );
    for bad in &plank.bad_places {
        let corners = [
            (bad.x0, bad.y0),
            (bad.x1, bad.y0),
            (bad.x1, bad.y1),
            (bad.x0, bad.y1),
        ];
        svg.polygons(
            [corners.map(Point::from).as_slice()],
            "fill=\"#b79a72\" stroke=\"#7a5a2b\" stroke-width=\"0.3\" stroke-dasharray=\"2 1\"",
        );
    }
    for place in &plank.places {
        let Some(sort) = parts.sorts.get(place.sort) else {
            continue;
        };
        let block: Vec<Point> = sort.block.outline.iter().map(|&p| p + place.at).collect();
        svg.polygons(
            [block.as_slice()],
            "fill=\"#e2c896\" stroke=\"#7a5a2b\" stroke-width=\"0.15\"",
        );
        let rings: Vec<Vec<Point>> = sort
            .face
            .rings()
            .map(|ring| thinned(ring.iter().map(|&p| p + place.at)))
            .collect();
        svg.polygons(rings.iter().map(Vec::as_slice), "fill=\"#2b2118\"");
    }
    svg.zero();
    svg.text + "</svg>\n"
}

/// A ring without the points that a picture does not need: each is left out while it is near the one kept before.
fn thinned(ring: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for point in ring {
        if kept
            .last()
            .is_none_or(|last| last.distance(point) >= NEAR_MM)
        {
            kept.push(point);
        }
    }
    kept
}

/// A picture being drawn; plank coordinates, y up.
struct Svg {
    text: String,
    left: f64,
    bottom: f64,
}

impl Svg {
    fn line(&mut self, line: std::fmt::Arguments) {
        writeln!(self.text, "{line}").expect("writing to a String cannot fail");
    }

    fn polygons<'a>(&mut self, rings: impl IntoIterator<Item = &'a [Point]>, style: &str) {
        let mut data = String::new();
        for ring in rings {
            for (index, point) in ring.iter().enumerate() {
                let letter = if index == 0 { 'M' } else { 'L' };
                let (x, y) = (self.left + point.x, self.bottom - point.y);
                write!(data, "{letter}{x:.2} {y:.2}").expect("writing to a String cannot fail");
            }
            if !ring.is_empty() {
                data.push('Z');
            }
        }
        if !data.is_empty() {
            self.line(format_args!("<path {style} d=\"{data}\"/>"));
        }
    }

    fn words(&mut self, x: f64, y: f64, words: &str) {
        let words = words
            .replace('&', "&amp;")
            .replace('<', "&lt;")
            .replace('>', "&gt;");
        self.line(format_args!(
            "<text x=\"{x:.2}\" y=\"{y:.2}\">{words}</text>"
        ));
    }

    /// The zero: a cross at the plank's lower left corner with its axes named.
    fn zero(&mut self) {
        let (x, y) = (self.left, self.bottom);
        self.line(format_args!(
            "<path fill=\"none\" stroke=\"#b3261e\" stroke-width=\"0.5\" d=\"M{:.2} {y:.2}H{:.2}M{x:.2} {:.2}V{:.2}\"/>",
            x - 4.0,
            x + 12.0,
            y + 4.0,
            y - 12.0
        ));
        self.line(format_args!("<g fill=\"#b3261e\">"));
        self.words(x - 9.0, y + 8.0, "zero (z 0 on the face)");
        self.words(x + 12.5, y - 1.0, "x");
        self.words(x + 1.0, y - 12.5, "y");
        self.line(format_args!("</g>"));
    }
}
