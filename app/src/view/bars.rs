//! The row of rooms at the top and the line at the foot.

use egui::{RichText, Ui};

use cam_core::finding::Severity;

use super::leave::Then;
use super::theme::{self, Palette};
use super::words::{NAME, room as room_name, room_hint};
use super::workbench::Workbench;
use crate::model::selection::Room;

/// Words of this view.
mod words {
    pub const OPEN: &str = "Open…";
    pub const SAVE: &str = "Save";
    pub const EXPORT: &str = "Export…";
    pub const UNDO: &str = "Undo";
    pub const REDO: &str = "Redo";
    pub const DAY: &str = "Day";
    pub const NIGHT: &str = "Night";
    pub const UNTITLED: &str = "Untitled";
    pub const STOP: &str = "Stop";
    pub const OUT_OF_DATE: &str = "Out of date";
    pub const UP_TO_DATE: &str = "Up to date";
    pub const NOTHING_ORDERED: &str = "Nothing is ordered yet";
    pub const WORK_AGAIN: &str = "Work out again";
}

/// The slim row at the top: rooms at the left, the commission and what is done with it at the right.
pub(super) fn rooms(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    egui::Panel::top("rooms")
        .exact_size(theme::ROW_HEIGHT)
        .frame(
            egui::Frame::new()
                .fill(palette.panel)
                .inner_margin(egui::Margin::symmetric(theme::MARGIN, 0)),
        )
        .show(ui, |ui| {
            ui.horizontal_centered(|ui| {
                if workbench.document.is_some() {
                    for room in Room::ALL {
                        room_word(workbench, ui, room);
                    }
                } else {
                    ui.label(RichText::new(NAME).size(16.0));
                }
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    actions(workbench, ui);
                });
            });
        });
}

fn room_word(workbench: &mut Workbench, ui: &mut Ui, room: Room) {
    let palette = Palette::of(ui);
    let chosen = workbench.selection.room == room;
    let colour = if chosen {
        palette.accent
    } else {
        palette.quiet
    };
    let text = RichText::new(room_name(room)).size(16.0).color(colour);
    let response = ui
        .add(egui::Button::selectable(chosen, text).frame(false))
        .on_hover_text(room_hint(room));
    if chosen {
        let line = response.rect.expand2(egui::vec2(-2.0, 0.0));
        let y = ui.max_rect().bottom() - 1.0;
        ui.painter()
            .hline(line.x_range(), y, egui::Stroke::new(2.0, palette.accent));
    }
    if response.clicked() {
        workbench.selection.room = room;
    }
    ui.add_space(6.0);
}

/// From right to left.
fn actions(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    let dark = ui.visuals().dark_mode;
    if ui
        .button(if dark { words::DAY } else { words::NIGHT })
        .clicked()
    {
        ui.ctx().set_theme(if dark {
            egui::Theme::Light
        } else {
            egui::Theme::Dark
        });
    }
    let has_document = workbench.document.is_some();
    if has_document {
        let export = RichText::new(words::EXPORT).color(palette.on_accent);
        let button = egui::Button::new(export).fill(palette.accent);
        if ui.add(button).on_hover_text("Ctrl+E").clicked() {
            workbench.open_export();
        }
        if ui.button(words::SAVE).on_hover_text("Ctrl+S").clicked() {
            workbench.save();
        }
    }
    if ui.button(words::OPEN).on_hover_text("Ctrl+O").clicked() {
        workbench.ask_to_leave(Then::AskOpen);
    }
    if let Some(document) = &workbench.document {
        let (undoes, redoes) = (document.history().undoes(), document.history().redoes());
        let step = |ui: &mut Ui, word: &str, what: Option<&str>, keys: &str| {
            ui.add_enabled(what.is_some(), egui::Button::new(word).frame(false))
                .on_hover_text(format!("{word} {} ({keys})", what.unwrap_or_default()))
                .clicked()
        };
        let redo = step(ui, words::REDO, redoes, "Ctrl+Shift+Z");
        let undo = step(ui, words::UNDO, undoes, "Ctrl+Z");
        let title = match document.commission().title.as_str() {
            "" => words::UNTITLED,
            title => title,
        };
        let mark = if document.is_changed() { " •" } else { "" };
        ui.add(
            egui::Label::new(RichText::new(format!("{title}{mark}")).color(palette.quiet))
                .truncate(),
        );
        if redo {
            workbench.redo();
        }
        if undo {
            workbench.undo();
        }
    }
}

/// The line at the foot: what is being worked on, what was found, the last sentence.
pub(super) fn foot(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    egui::Panel::bottom("foot")
        .min_size(theme::FOOT_HEIGHT)
        .frame(
            egui::Frame::new()
                .fill(palette.panel)
                .inner_margin(egui::Margin::symmetric(theme::MARGIN, 3)),
        )
        .show(ui, |ui| {
            ui.horizontal(|ui| {
                if workbench.document.is_some() {
                    work_state(workbench, ui);
                    ui.separator();
                }
                sentence(workbench, ui);
            });
        });
}

fn work_state(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    if workbench
        .document
        .as_ref()
        .is_some_and(|document| document.orders_nothing())
    {
        ui.label(
            RichText::new(words::NOTHING_ORDERED)
                .color(palette.quiet)
                .small(),
        );
        return;
    }
    if let Some(worker) = workbench.job.running() {
        let (step, done, total) = worker.state();
        let part = if total == 0 {
            0.0
        } else {
            done as f32 / total as f32
        };
        let shown = if step.is_empty() {
            super::words::WORKING
        } else {
            step.as_str()
        };
        let bar = egui::ProgressBar::new(part)
            .desired_width(190.0)
            .desired_height(16.0)
            .corner_radius(2.0)
            .fill(palette.accent.gamma_multiply(0.35))
            .text(RichText::new(shown).small());
        ui.add(bar);
        if ui.small_button(words::STOP).clicked() {
            workbench.job.stop();
        }
    } else if workbench.present_job().is_some() {
        ui.label(RichText::new(words::UP_TO_DATE).color(palette.good).small());
    } else {
        ui.label(
            RichText::new(words::OUT_OF_DATE)
                .color(palette.warning)
                .small(),
        );
        if ui.small_button(words::WORK_AGAIN).clicked() {
            workbench.work_again();
        }
    }
    if let Some(Ok(job)) = workbench.job.result() {
        let count = |severity| {
            let same = job
                .findings
                .iter()
                .filter(|finding| finding.severity == severity);
            same.count()
        };
        for (severity, one, many, colour) in [
            (Severity::Stop, "stop", "stops", palette.stop),
            (Severity::Warning, "warning", "warnings", palette.warning),
            (Severity::Note, "note", "notes", palette.quiet),
        ] {
            let number = count(severity);
            if number > 0 {
                let text = crate::background::tasks::counted(number, one, many);
                ui.label(RichText::new(text).color(colour).small());
            }
        }
    }
}

fn sentence(workbench: &Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    let failed = [
        workbench
            .drawn
            .result()
            .and_then(|result| result.as_ref().err()),
        workbench
            .job
            .result()
            .and_then(|result| result.as_ref().err()),
        workbench
            .catalogue
            .result()
            .and_then(|result| result.as_ref().err()),
    ];
    let broken = [
        workbench.drawn.broken(),
        workbench.job.broken(),
        workbench.catalogue.broken(),
    ];
    let text = if workbench.opening.is_some() {
        RichText::new("Opening…").color(palette.quiet)
    } else if let Some(notice) = &workbench.notice {
        let colour = if notice.good {
            palette.good
        } else {
            palette.stop
        };
        RichText::new(&notice.text).color(colour)
    } else if let Some(broken) = broken.into_iter().flatten().next() {
        RichText::new(broken.to_string()).color(palette.stop)
    } else if let Some(error) = failed.into_iter().flatten().next() {
        RichText::new(error).color(palette.stop)
    } else {
        return;
    };
    ui.add(egui::Label::new(text.size(13.0)).wrap());
}
