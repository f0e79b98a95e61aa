//! A plank with its heights.

use bench::height::{End, Judged, Log, Pass, Verdict};
use egui::{Align2, Rect, Stroke, StrokeKind, pos2, vec2};

use super::{Canvas, signed};

/// Wood beyond the outermost readings, as a part of their extent.
const BEYOND: f64 = 0.08;
/// Size of a reading's spot, px.
const SPOT: f32 = 5.0;

/// The last plank of the log, as it is now: every reading with what it is off the wanted height.
pub(super) fn paint(canvas: &Canvas, log: &Log, planks: &[Judged]) {
    let (Some(plank), Some(judged)) = (log.planks.last(), planks.last()) else {
        return;
    };
    let filled = |pass: &&Pass| !pass.readings.is_empty();
    let Some(pass) = plank.passes.iter().rev().find(filled) else {
        return;
    };
    let extent = |axis: usize| {
        let values = || pass.readings.iter().map(move |reading| reading.at[axis]);
        let least = values().fold(f64::INFINITY, f64::min);
        let most = values().fold(f64::NEG_INFINITY, f64::max);
        let beyond = (most - least) * BEYOND;
        [least - beyond, most + beyond]
    };
    let ([x0, x1], [y0, y1]) = (extent(0), extent(1));
    let room = canvas.room;
    let scale = (room.width() / (x1 - x0) as f32).min(room.height() / (y1 - y0) as f32);
    let size = vec2((x1 - x0) as f32, (y1 - y0) as f32) * scale;
    let board = Rect::from_center_size(room.center(), size);
    let palette = canvas.palette;
    canvas.painter.rect(
        board,
        2.0,
        palette.wood,
        Stroke::new(1.0, palette.grain),
        StrokeKind::Inside,
    );
    for reading in &pass.readings {
        let at = pos2(
            board.left() + (reading.at[0] - x0) as f32 * scale,
            board.bottom() - (reading.at[1] - y0) as f32 * scale,
        );
        let off = reading.height - log.wanted.height;
        canvas.painter.circle_filled(at, SPOT, palette.face);
        let is_right_half = at.x > board.center().x;
        let (align, aside) = if is_right_half {
            (Align2::RIGHT_CENTER, -13.0)
        } else {
            (Align2::LEFT_CENTER, 13.0)
        };
        // The spot's ring says without colour whether the place is done: a whole ring is off.
        if off.abs() > log.wanted.tolerance {
            let ring = Stroke::new(1.5, palette.face);
            canvas.painter.circle_stroke(at, SPOT + 3.0, ring);
        }
        let mark = log.marks.iter().find(|mark| mark.at == reading.at);
        let told = mark.map_or_else(
            || signed(off),
            |mark| format!("{} {}", mark.name, signed(off)),
        );
        canvas.text(at + vec2(aside, 0.0), align, told, palette.face);
    }
    if let Verdict::Turn { high, .. } = judged.verdict {
        mark(canvas, board, high);
    }
    canvas.below(crate::view::words::bench::OFF_HEIGHT);
}

/// Marks the end that is high.
fn mark(canvas: &Canvas, board: Rect, high: End) {
    let stroke = Stroke::new(4.0, canvas.palette.warning);
    let (from, to) = match high {
        End::Left => (board.left_top(), board.left_bottom()),
        End::Right => (board.right_top(), board.right_bottom()),
        End::Near => (board.left_bottom(), board.right_bottom()),
        End::Far => (board.left_top(), board.right_top()),
    };
    canvas.painter.line_segment([from, to], stroke);
}
