//! The sorts that are ordered, set in a line and as printed, at the head of the order.

use egui::{Sense, Ui};
use kurbo::Point;

use super::super::super::Desk;
use super::super::super::theme::Palette;
use super::super::super::words::NO_SORTS;
use crate::view::words::order::specimen as words;

/// Height of the strip, px.
const HEIGHT: f32 = 148.0;
/// The most of the room that it takes, where the window is low.
const PART: f32 = 0.25;
/// Paper left free above and below, px.
const MARGIN: f32 = 16.0;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let palette = Palette::of(ui);
    egui::Panel::top("specimen")
        .exact_size(HEIGHT.min(ui.available_height() * PART))
        .frame(egui::Frame::new().fill(palette.paper))
        .show(ui, |ui| {
            let (response, painter) = ui.allocate_painter(ui.available_size(), Sense::hover());
            response.widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::Canvas, true, words::SPECIMEN)
            });
            let Some(drawn) = desk.drawn else {
                let text = desk.waiting();
                message(&painter, response.rect, &text, &palette);
                return;
            };
            let sorts: Vec<_> = drawn
                .sorts
                .iter()
                .filter(|sort| !sort.block.plain)
                .collect();
            if sorts.is_empty() {
                message(&painter, response.rect, &NO_SORTS, &palette);
                return;
            }
            let area = response.rect.shrink2(egui::vec2(24.0, MARGIN));
            // All sorts stand on one base line, so the highest above and the lowest below it give the scale.
            let above = sorts
                .iter()
                .map(|sort| sort.block.body_mm - sort.block.baseline_mm)
                .fold(0.0, f64::max);
            let below = sorts
                .iter()
                .map(|sort| sort.block.baseline_mm)
                .fold(0.0, f64::max);
            let scale = f64::from(area.height()) / (above + below).max(1e-6);
            let base = area.top() + (above * scale) as f32;
            let mut left = f64::from(area.left());
            for sort in sorts {
                let block = &sort.block;
                let end = left + block.set_mm * scale;
                if end > f64::from(area.right()) && left > f64::from(area.left()) {
                    // Letters are shown whole; of those that find no room, dots tell.
                    let after = egui::pos2(left as f32 + 6.0, base);
                    let font = egui::FontId::proportional(24.0);
                    painter.text(after, egui::Align2::LEFT_BOTTOM, "…", font, palette.quiet);
                    break;
                }
                let fill = desk.faces.of(sort, scale);
                let place = |p: Point| {
                    egui::pos2(
                        (left + (block.set_mm - p.x) * scale) as f32,
                        base - ((p.y - block.baseline_mm) * scale) as f32,
                    )
                };
                fill.paint(&painter, place, palette.ink);
                left = end;
            }
        });
}

fn message(painter: &egui::Painter, rect: egui::Rect, text: &str, palette: &Palette) {
    painter.text(
        rect.center(),
        egui::Align2::CENTER_CENTER,
        text,
        egui::FontId::proportional(16.0),
        palette.quiet,
    );
}
