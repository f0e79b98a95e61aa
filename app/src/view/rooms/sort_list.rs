//! The list of sorts at the left of the rooms that show one sort.

use egui::{Align2, FontId, Role, Sense, Ui, WidgetInfo, vec2};

use cam_core::finding::gravest;

use super::super::Desk;
use super::super::marks;
use super::super::theme::Palette;
use super::super::words::{MARKED, NO_SORTS, severity as severity_word};
use crate::view::words::sort_list as words;

/// Height of one entry, px.
const ROW: f32 = 46.0;
/// Width of the list, px.
const WIDTH: f32 = 148.0;

/// Shows the list and answers with the place of the selected sort among those drawn.
pub(super) fn show(ui: &mut Ui, desk: &mut Desk) -> Option<usize> {
    let palette = Palette::of(ui);
    let Some(drawn) = desk.drawn else {
        egui::CentralPanel::default().show(ui, |ui| {
            let text = desk.waiting();
            ui.centered_and_justified(|ui| ui.label(text));
        });
        return None;
    };
    if drawn.sorts.is_empty() {
        egui::CentralPanel::default().show(ui, |ui| {
            ui.centered_and_justified(|ui| ui.label(NO_SORTS));
        });
        return None;
    }
    egui::Panel::left("sorts")
        .exact_size(WIDTH)
        .frame(
            egui::Frame::new()
                .fill(palette.panel)
                .inner_margin(egui::Margin::symmetric(8, 8)),
        )
        .show(ui, |ui| {
            ui.horizontal(|ui| {
                if ui
                    .button(words::PREVIOUS)
                    .on_hover_text(words::PAGE_UP)
                    .clicked()
                {
                    desk.selection.step_sort(&drawn.sorts, -1);
                }
                if ui
                    .button(words::NEXT)
                    .on_hover_text(words::PAGE_DOWN)
                    .clicked()
                {
                    desk.selection.step_sort(&drawn.sorts, 1);
                }
            });
            let selected = desk.selection.sort_among(&drawn.sorts);
            egui::ScrollArea::vertical().auto_shrink(false).show_rows(
                ui,
                ROW,
                drawn.sorts.len(),
                |ui, range| {
                    for place in range {
                        entry(ui, desk, place, selected == Some(place));
                    }
                },
            );
        });
    desk.selection.sort_among(&drawn.sorts)
}

fn entry(ui: &mut Ui, desk: &mut Desk, place: usize, selected: bool) {
    let palette = Palette::of(ui);
    let Some(sort) = desk.drawn.and_then(|drawn| drawn.sorts.get(place)) else {
        return;
    };
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::click());
    let findings = marks::of_sort(desk, &sort.name);
    response.widget_info(|| {
        let name = words::SORT.with(&[&sort.name, &sort.count.to_string()]);
        let name = match gravest(&findings) {
            None => name,
            Some(severity) => MARKED.with(&[&name, &severity_word(severity)]),
        };
        WidgetInfo::selected(Role::Button, true, selected, name)
    });
    let response = if findings.is_empty() {
        response
    } else {
        let texts: Vec<&str> = findings.iter().map(|one| one.text.as_str()).collect();
        response.on_hover_text(texts.join("\n"))
    };
    let corner = rect.right_top() + vec2(-12.0, 10.0);
    marks::gravest_of(ui.painter(), corner, &findings, &palette);
    if selected {
        ui.painter()
            .rect_filled(rect, 3.0, palette.accent.gamma_multiply(0.18));
    } else if response.hovered() {
        ui.painter().rect_filled(rect, 3.0, palette.desk);
    }
    let scale = f64::from(ROW - 14.0) / sort.block.body_mm.max(1e-6);
    let fill = desk.faces.of(sort, scale);
    let left = rect.left() + 8.0;
    let base = rect.bottom() - 7.0;
    // As printed: the mirrored face is turned back about its own block.
    let set = sort.block.set_mm;
    let at = |p: kurbo::Point| {
        egui::pos2(
            left + ((set - p.x) * scale) as f32,
            base - (p.y * scale) as f32,
        )
    };
    fill.paint(ui.painter(), at, palette.ink);
    if sort.outline.elements().is_empty() {
        // A space has no face to be known by.
        ui.painter().text(
            egui::pos2(left, rect.center().y),
            Align2::LEFT_CENTER,
            &sort.name,
            FontId::proportional(12.5),
            palette.quiet,
        );
    }
    // Below the mark, if there is one.
    let right = rect.right_center() - vec2(8.0, if findings.is_empty() { 0.0 } else { -7.0 });
    let text = format!("{}×", sort.count);
    ui.painter().text(
        right,
        Align2::RIGHT_CENTER,
        text,
        FontId::proportional(12.5),
        palette.quiet,
    );
    if response.clicked() {
        desk.selection.sort = Some(sort.name.clone());
    }
}
