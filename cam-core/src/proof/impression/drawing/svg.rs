//! A sheet as SVG.

use std::fmt::Write as _;

use kurbo::Point;

use super::super::{Layer, Sheet};
use super::{EDGE, EDGE_MM};

/// The sheet as SVG, one unit a millimetre and true to size; coordinates to a micrometre.
pub fn to_svg(sheet: &Sheet) -> String {
    let (width, height) = (sheet.width_mm, sheet.height_mm);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" viewBox=\"0 0 {width:.3} {height:.3}\">\n<rect width=\"100%\" height=\"100%\" fill=\"{}\"/>\n<g style=\"isolation:isolate\">\n",
        sheet.paper.hex()
    );
    let mut add = |line: std::fmt::Arguments| {
        writeln!(svg, "{line}").expect("writing to a String cannot fail");
    };
    for (number, layer) in sheet.layers.iter().enumerate() {
        let over = if number == 0 {
            ""
        } else {
            " style=\"mix-blend-mode:multiply\""
        };
        add(format_args!(
            "<path fill=\"{}\"{over} d=\"{}\"/>",
            layer.ink.hex(),
            inked(layer, height)
        ));
    }
    add(format_args!("</g>"));
    if sheet.blocks {
        let mut edges = String::new();
        for ring in sheet.layers.iter().flat_map(Layer::edges) {
            add_ring(&mut edges, &ring, Point::ZERO, height);
        }
        add(format_args!(
            "<path fill=\"none\" stroke=\"{}\" stroke-width=\"{EDGE_MM}\" d=\"{edges}\"/>",
            EDGE.hex()
        ));
    }
    add(format_args!("</svg>"));
    svg
}

fn inked(layer: &Layer, height: f64) -> String {
    let mut data = String::new();
    for (_, impression, at) in layer.sorts() {
        for ring in impression.inked.rings() {
            add_ring(&mut data, ring, at, height);
        }
    }
    data
}

/// Adds a closed ring to path data, y turned down.
fn add_ring(data: &mut String, ring: &[Point], at: Point, height: f64) {
    for (index, point) in ring.iter().enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        let (x, y) = (at.x + point.x, height - at.y - point.y);
        write!(data, "{letter}{x:.3} {y:.3}").expect("writing to a String cannot fail");
    }
    data.push('Z');
}
