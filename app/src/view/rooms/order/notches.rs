//! Notches: which pairs close up, within what limits, and what is gained, shown on set lines before and after.

use std::sync::Arc;

use cam_core::commission::NotchRules;
use cam_core::measure::{Length, Unit};
use cam_core::notch::{ClosedPair, closed_pairs};
use cam_core::sort::Sort;
use egui::{Align2, FontId, Pos2, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use kurbo::Point;

use super::super::super::Desk;
use super::super::super::fields::{self, choice, count, heading, remark, tick};
use super::super::super::theme::Palette;
use crate::model::command::Command;
use crate::view::words::order::notches as words;

/// The most pairs that are drawn.
const MOST_DRAWN: usize = 5;
/// Height of a drawn line, px.
const LINE: f32 = 74.0;
/// Width of the words before a line, px.
const BEFORE_LINE: f32 = 46.0;
/// Between two pairs, in parts of a body.
const BETWEEN: f64 = 0.3;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    let system = commission.system;
    heading(ui, words::NOTCHES);
    let mut rules = commission.notches.clone();
    match tick(ui, words::WANTED, rules.is_some()) {
        Some(true) => rules = Some(NotchRules::starting(system)),
        Some(false) => rules = None,
        None => {}
    }
    match &mut rules {
        None => remark(ui, words::WHAT),
        Some(rules) => {
            limits(ui, desk, rules, system);
            gained(ui, desk);
        }
    }
    if rules != commission.notches {
        desk.send(Command::Notches(rules));
    }
}

fn limits(ui: &mut Ui, desk: &Desk, rules: &mut NotchRules, system: cam_core::measure::System) {
    if let Some(pairs) = fields::text(ui, words::PAIRS, &rules.pairs.join(" ")) {
        rules.pairs = pairs.split_whitespace().map(str::to_owned).collect();
    }
    remark(ui, words::PAIRS_HINT);
    for (label, value, unit) in [
        (words::WALL, &mut rules.least_wall, Unit::Millimetre),
        (words::GRID, &mut rules.step, Unit::Point),
        (words::CLEARANCE, &mut rules.clearance, Unit::Millimetre),
    ] {
        if let Some(length) = fields::length(ui, label, *value, unit, system) {
            *value = length;
        }
    }
    if let Some(kinds) = count(ui, words::KINDS, rules.kinds) {
        rules.kinds = kinds;
    }
    remark(ui, words::KINDS_HINT);
    let mut cutters = vec![(None, words::SAME_CUTTER.to_string())];
    let owned = desk.document.workshop().cutters.iter();
    cutters.extend(owned.map(|cutter| (Some(cutter.id.clone()), cutter.id.clone())));
    if let Some(cutter) = choice(ui, words::CUTTER, &rules.cutter, &cutters) {
        rules.cutter = cutter;
    }
}

/// What is gained: every pair with its points, and set lines of the pairs that gain most.
fn gained(ui: &mut Ui, desk: &mut Desk) {
    let Some(drawn) = desk.drawn else { return };
    let sorts = drawn.sorts.clone();
    let mut pairs = closed_pairs(sorts.iter().map(AsRef::as_ref));
    if pairs.is_empty() {
        remark(ui, words::NONE);
        return;
    }
    pairs.sort_by(|a, b| b.gain_mm.total_cmp(&a.gain_mm));
    let system = desk.document.commission().system;
    let told: Vec<String> = pairs
        .iter()
        .map(|pair| {
            let gain = Length::mm(pair.gain_mm).in_unit(Unit::Point, system);
            let (left, right) = (&sorts[pair.left].text, &sorts[pair.right].text);
            format!("{left}{right} {gain:.0}")
        })
        .collect();
    ui.label(words::CLOSED.with(&[&told.join(", ")]));
    pairs.truncate(MOST_DRAWN);
    lines(ui, desk, &sorts, &pairs);
}

fn lines(ui: &mut Ui, desk: &mut Desk, sorts: &[Arc<Sort>], pairs: &[ClosedPair]) {
    let palette = Palette::of(ui);
    let width = ui.available_width().min(344.0);
    let (response, painter) = ui.allocate_painter(vec2(width, 2.0 * LINE), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, words::LINES));
    let rect = response.rect;
    painter.rect_filled(rect, 2.0, palette.paper);
    let of_pairs = || {
        pairs
            .iter()
            .flat_map(|pair| [&sorts[pair.left], &sorts[pair.right]])
    };
    let body = of_pairs()
        .map(|sort| sort.block.body_mm)
        .fold(1.0, f64::max);
    let between = body * BETWEEN;
    let wide: f64 =
        of_pairs().map(|sort| sort.block.set_mm).sum::<f64>() + between * (pairs.len() - 1) as f64;
    let room = f64::from(rect.width() - BEFORE_LINE - 12.0);
    let scale = (room / wide).min(f64::from(LINE - 14.0) / body);
    let below = of_pairs()
        .map(|sort| sort.block.baseline_mm)
        .fold(0.0, f64::max);
    for (row, (word, closed)) in [(words::BEFORE, false), (words::AFTER, true)]
        .into_iter()
        .enumerate()
    {
        let foot = rect.top() + LINE * (row as f32 + 1.0) - 7.0;
        let base = foot - (below * scale) as f32;
        let font = FontId::proportional(12.0);
        let at = pos2(rect.left() + 6.0, foot);
        painter.text(at, Align2::LEFT_BOTTOM, word, font, palette.quiet);
        let mut left = f64::from(rect.left() + BEFORE_LINE);
        for pair in pairs {
            let gain = if closed { pair.gain_mm } else { 0.0 };
            let (one, other) = (&sorts[pair.left], &sorts[pair.right]);
            printed(&painter, desk, one, left, base, scale, &palette);
            left += (one.block.set_mm - gain) * scale;
            printed(&painter, desk, other, left, base, scale, &palette);
            left += (other.block.set_mm + between) * scale;
        }
    }
}

/// A sort as it prints, with the edge of its block.
fn printed(
    painter: &egui::Painter,
    desk: &mut Desk,
    sort: &Arc<Sort>,
    left: f64,
    base: f32,
    scale: f64,
    palette: &Palette,
) {
    let block = &sort.block;
    let place = |p: Point| -> Pos2 {
        pos2(
            (left + (block.set_mm - p.x) * scale) as f32,
            base - ((p.y - block.baseline_mm) * scale) as f32,
        )
    };
    let edge: Vec<Pos2> = block.outline.iter().map(|&p| place(p)).collect();
    painter.add(Shape::closed_line(edge, Stroke::new(0.8, palette.grain)));
    let fill = desk.faces.of(sort, scale);
    fill.paint(painter, place, palette.ink);
}
