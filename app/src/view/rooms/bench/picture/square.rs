//! The machine's square, with what is off drawn large.

use bench::square::{Judged, Map};
use egui::{Align2, Shape, Stroke, pos2};

use super::Canvas;

/// The largest departure is drawn as this part of the square's side.
const DRAWN: f64 = 0.16;
/// Departures are drawn so many times larger at the most: nothing is made of nothing.
const MOST_TIMES: f64 = 500.0;

pub(super) fn paint(canvas: &Canvas, outcome: &Judged) {
    let palette = canvas.palette;
    let map = outcome.left.map;
    let most = (map.scale_x - 1.0)
        .abs()
        .max((map.scale_y - 1.0).abs())
        .max(map.skew.abs());
    let times = (DRAWN / most.max(1e-9)).clamp(1.0, MOST_TIMES).round();
    let drawn = Map {
        scale_x: 1.0 + (map.scale_x - 1.0) * times,
        scale_y: 1.0 + (map.scale_y - 1.0) * times,
        skew: map.skew * times,
    };
    let side = canvas.room.height().min(canvas.room.width()) * 0.8;
    let corner = canvas.room.center() + egui::vec2(-side, side) / 2.0;
    let at = |[x, y]: [f64; 2]| pos2(corner.x + x as f32 * side, corner.y - y as f32 * side);
    let corners = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
    let asked: Vec<_> = corners.iter().map(|&place| at(place)).collect();
    let done: Vec<_> = corners.iter().map(|&place| at(drawn.done(place))).collect();
    let dashes = Stroke::new(1.2, palette.quiet);
    let mut round = asked.clone();
    round.push(asked[0]);
    canvas
        .painter
        .extend(Shape::dashed_line(&round, dashes, 6.0, 5.0));
    let stroke = Stroke::new(2.2, palette.accent);
    canvas.painter.add(Shape::closed_line(done, stroke));
    canvas.text(
        asked[0] + egui::vec2(side / 2.0, 16.0),
        Align2::CENTER_CENTER,
        crate::view::words::bench::OVER_100.with(&["x", &over((map.scale_x - 1.0) * 100.0)]),
        palette.text,
    );
    canvas.text(
        asked[0] + egui::vec2(-8.0, -side / 2.0),
        Align2::RIGHT_CENTER,
        crate::view::words::bench::OVER_100.with(&["y", &over((map.scale_y - 1.0) * 100.0)]),
        palette.text,
    );
    canvas.text(
        asked[3] + egui::vec2(side / 2.0, -26.0),
        Align2::CENTER_CENTER,
        crate::view::words::bench::LEANS.with(&[&over(map.skew.sin() * 100.0)]),
        palette.text,
    );
    canvas.below(crate::view::words::bench::DASHED.with(&[&format!("{times:.0}")]));
}

/// Millimetres over a length of 100, with their sign.
fn over(mm: f64) -> String {
    let sign = if mm < 0.0 { "\u{2212}" } else { "+" };
    format!("{sign}{}", crate::view::words::figure(mm.abs(), 3))
}
