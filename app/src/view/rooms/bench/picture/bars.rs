//! Bars: how far sizes move, and what was lost to what.

use bench::{losses, moisture};
use egui::{Align2, Rect, Stroke, pos2, vec2};

use super::{Canvas, signed};
use crate::view::words::said;

/// Height of a bar with its space, px.
const ROW: f32 = 34.0;
/// Room for words at the left, px.
const WORDS: f32 = 210.0;

/// A bar: its words, its length, and how that is written.
struct Bar {
    words: String,
    value: f64,
    written: String,
}

pub(super) fn moisture(canvas: &Canvas, outcome: &moisture::Judged) {
    let bars: Vec<Bar> = outcome
        .movements
        .iter()
        .flat_map(|movement| {
            movement
                .changes
                .iter()
                .flatten()
                .map(|(grain, change)| Bar {
                    words: format!("{} {}", said(&movement.kind.said()), said(&grain.said())),
                    value: *change,
                    written: format!("{} mm", signed(*change)),
                })
        })
        .collect();
    paint(canvas, &bars);
    if !bars.is_empty() {
        canvas.below(crate::view::words::bench::MOVES);
    }
}

pub(super) fn losses(canvas: &Canvas, outcome: &losses::Judged) {
    let bars: Vec<Bar> = outcome
        .reasons
        .iter()
        .map(|loss| Bar {
            words: loss.reason.clone(),
            value: loss.count,
            written: format!("{:.0}", loss.count),
        })
        .collect();
    paint(canvas, &bars);
    if !bars.is_empty() {
        canvas.below(crate::view::words::bench::REJECTED);
    }
}

fn paint(canvas: &Canvas, bars: &[Bar]) {
    let palette = canvas.palette;
    let most = bars.iter().map(|bar| bar.value.abs()).fold(0.0, f64::max);
    let has_negative = bars.iter().any(|bar| bar.value < 0.0);
    let has_positive = bars.iter().any(|bar| bar.value > 0.0);
    let room = canvas.room;
    let across = (room.width() - WORDS - 80.0).max(60.0);
    let zero = room.left()
        + WORDS
        + match (has_negative, has_positive) {
            (true, true) => across / 2.0,
            (true, false) => across,
            (false, _) => 0.0,
        };
    let half = if has_negative && has_positive {
        2.0
    } else {
        1.0
    };
    let fits = (room.height() / ROW).floor().max(1.0) as usize;
    for (place, bar) in bars.iter().take(fits).enumerate() {
        let y = room.top() + (place as f32 + 0.5) * ROW;
        let long = (bar.value / most.max(1e-9)) as f32 * across / half;
        let rect = Rect::from_two_pos(pos2(zero, y - 8.0), pos2(zero + long, y + 8.0));
        canvas.painter.rect_filled(rect, 1.0, palette.accent);
        canvas.text(
            pos2(room.left(), y),
            Align2::LEFT_CENTER,
            &bar.words,
            palette.text,
        );
        let end = if bar.value < 0.0 {
            rect.left()
        } else {
            rect.right()
        };
        let (align, aside) = if bar.value < 0.0 && has_positive {
            (Align2::RIGHT_CENTER, vec2(-6.0, 0.0))
        } else if bar.value < 0.0 {
            (Align2::LEFT_CENTER, vec2(zero - end + 6.0, 0.0))
        } else {
            (Align2::LEFT_CENTER, vec2(6.0, 0.0))
        };
        canvas.text(pos2(end, y) + aside, align, &bar.written, palette.text);
    }
    let tall = bars.len().min(fits) as f32 * ROW;
    canvas.painter.vline(
        zero,
        room.top()..=room.top() + tall,
        Stroke::new(1.0, palette.quiet),
    );
}
