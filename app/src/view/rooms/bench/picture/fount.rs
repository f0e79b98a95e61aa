//! Lines of blocks with their sum.

use bench::lock_up::{Block, Fount, Judged, LineJudged, Sort};
use egui::{Align2, Rect, Stroke, StrokeKind, pos2, vec2};

use super::{Canvas, signed};

/// Departures of bodies are drawn so many times larger.
const TIMES: f32 = 40.0;
/// The most lines that are painted.
const MOST_LINES: usize = 3;
/// Width that a letter of a sort's name takes, px.
const LETTER_WIDTH: f32 = 8.0;
/// Tallest block, px.
const TALLEST: f32 = 220.0;

pub(super) fn paint(canvas: &Canvas, fount: &Fount, outcome: &Judged) {
    let lines = outcome.lines.len().clamp(1, MOST_LINES) as f32;
    let tall = canvas.room.height() / lines;
    for (place, line) in outcome.lines.iter().take(MOST_LINES).enumerate() {
        let top = canvas.room.top() + place as f32 * tall;
        let room = Rect::from_min_size(
            pos2(canvas.room.left(), top),
            vec2(canvas.room.width(), tall),
        );
        one(canvas, fount, line, room);
    }
    canvas.below(crate::view::words::bench::SIDE_BY_SIDE.with(&[&format!("{TIMES:.0}")]));
}

fn one(canvas: &Canvas, fount: &Fount, line: &LineJudged, room: Rect) {
    let palette = canvas.palette;
    let mut counts = std::collections::BTreeMap::new();
    let blocks: Vec<(&Sort, Block)> = line
        .sorts
        .iter()
        .filter_map(|name| {
            let sort = fount.sorts.iter().find(|sort| sort.name == *name)?;
            let count: &mut usize = counts.entry(name.as_str()).or_default();
            let block = *sort.measured.get(*count % sort.measured.len().max(1))?;
            *count += 1;
            Some((sort, block))
        })
        .collect();
    let body = blocks
        .iter()
        .map(|(sort, _)| sort.nominal.body)
        .fold(1.0, f64::max) as f32;
    let whole = line.nominal.max(1.0) as f32;
    let tall = (room.height() - 64.0).clamp(30.0, TALLEST);
    let scale = (room.width() / whole).min(tall / body);
    let base = room.center().y + tall / 2.0 - 6.0;
    let left = room.center().x - whole * scale / 2.0;
    let mut x = left;
    for (sort, block) in &blocks {
        let wide = sort.nominal.set as f32 * scale;
        let off = (block.body - sort.nominal.body) as f32 * TIMES * scale;
        let high = sort.nominal.body as f32 * scale;
        let place = Rect::from_min_max(pos2(x, base - high - off), pos2(x + wide, base));
        let is_wrong = !bench::lock_up::troubles(*block, sort.nominal, fount.caliper).is_empty();
        let stroke = if is_wrong {
            Stroke::new(2.5, palette.stop)
        } else {
            Stroke::new(1.0, palette.grain)
        };
        canvas
            .painter
            .rect(place, 1.0, palette.wood, stroke, StrokeKind::Inside);
        if wide > LETTER_WIDTH * (sort.name.chars().count() + 1) as f32 {
            canvas.text(
                place.center(),
                Align2::CENTER_CENTER,
                &sort.name,
                palette.face,
            );
        }
        x += wide;
    }
    let body_line = blocks.first().map_or(0.0, |(sort, _)| sort.nominal.body) as f32 * scale;
    canvas.painter.hline(
        left..=x,
        base - body_line,
        Stroke::new(1.0, palette.measure),
    );
    let y = base + 12.0;
    canvas
        .painter
        .hline(left..=x, y, Stroke::new(1.0, palette.quiet));
    canvas.text(
        pos2((left + x) / 2.0, y + 11.0),
        Align2::CENTER_CENTER,
        format!("{:.2} mm {}", line.nominal, signed(line.off)),
        palette.text,
    );
}
