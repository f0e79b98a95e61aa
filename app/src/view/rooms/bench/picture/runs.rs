//! Minutes taken against minutes estimated.

use bench::minutes::{Judged, Run};
use egui::{Align2, Stroke, pos2, vec2};

use super::Canvas;

pub(super) fn paint(canvas: &Canvas, runs: &[Run], outcome: &Judged) {
    let palette = canvas.palette;
    let most = runs
        .iter()
        .map(|run| run.estimated.max(run.took))
        .fold(1.0, f64::max)
        * 1.05;
    let side = canvas.room.width().min(canvas.room.height());
    let corner = canvas.room.center() + vec2(-side, side) / 2.0;
    let at = |x: f64, y: f64| {
        pos2(
            corner.x + (x / most) as f32 * side,
            corner.y - (y / most) as f32 * side,
        )
    };
    let axes = Stroke::new(1.0, palette.quiet);
    canvas
        .painter
        .line_segment([at(0.0, 0.0), at(most, 0.0)], axes);
    canvas
        .painter
        .line_segment([at(0.0, 0.0), at(0.0, most)], axes);
    let thin = Stroke::new(1.0, palette.line);
    canvas
        .painter
        .line_segment([at(0.0, 0.0), at(most, most)], thin);
    let end = ((most - outcome.each) / outcome.factor.max(1e-6)).min(most);
    canvas.painter.line_segment(
        [
            at(0.0, outcome.each),
            at(end, outcome.each + outcome.factor * end),
        ],
        Stroke::new(2.0, palette.accent),
    );
    for run in runs {
        let place = at(run.estimated, run.took);
        if outcome.left_out.contains(run) {
            canvas
                .painter
                .circle_stroke(place, 5.0, Stroke::new(1.5, palette.warning));
            canvas.text(
                place + vec2(9.0, 0.0),
                Align2::LEFT_CENTER,
                crate::view::words::bench::LEFT_OUT,
                palette.warning,
            );
        } else {
            canvas.painter.circle_filled(place, 4.5, palette.ink);
        }
    }
    canvas.text(
        at(0.0, most) + vec2(8.0, 0.0),
        Align2::LEFT_CENTER,
        crate::view::words::bench::TAKEN,
        palette.quiet,
    );
    canvas.below(crate::view::words::bench::ESTIMATED);
}
