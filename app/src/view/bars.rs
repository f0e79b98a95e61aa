//! The row of rooms at the top and the line at the foot.

use egui::{RichText, Ui};

use cam_core::finding::Severity;

use super::actions::{Action, Group};
use super::leave::Then;
use super::theme::{self, Palette};
use super::words::{self, NAME, counted};
use super::workbench::Workbench;
use crate::files::shown;
use crate::model::selection::{Room, Sought};
use crate::model::settings::Paper;

/// Width that is left of the row when there is room for undo and redo, and for everything, px.
const ROOM_FOR_STEPS: f32 = 330.0;
const ROOM_FOR_ALL: f32 = 470.0;

/// The least width that the rooms leave for what stands at the right, px.
const RIGHT_WIDTH: f32 = 330.0;

/// How far below its name the line under the chosen room lies, px.
const ROOM_LINE: f32 = 5.0;

/// The slim row at the top: rooms at the left, the commission and what is done with it at the right.
pub(super) fn rooms(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    if workbench.document.is_some() && is_short(ui) {
        actions_apart(workbench, ui, &palette);
        rooms_apart(workbench, ui, &palette);
        return;
    }
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
                    room_words(workbench, ui);
                } else {
                    ui.label(RichText::new(NAME).size(16.0));
                }
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    actions(workbench, ui);
                });
            });
        });
}

/// Sizes of the rooms' names and the space between them, px, from the widest to the narrowest.
const ROOM_SIZES: [(f32, f32); 3] = [(16.0, 14.0), (15.0, 6.0), (13.5, 2.0)];

/// How wide the names of all rooms are.
fn rooms_width(ui: &Ui, (size, between): (f32, f32)) -> f32 {
    let font = egui::FontId::proportional(size);
    let pad = 2.0 * ui.spacing().button_padding.x;
    let words = Room::ALL.into_iter().map(|room| {
        let word = words::room(room).to_string();
        let galley = ui.fonts_mut(|fonts| {
            fonts.layout_no_wrap(word, font.clone(), egui::Color32::PLACEHOLDER)
        });
        galley.size().x + pad + between
    });
    words.sum()
}

/// The largest of the sizes that fits into a width, or else the smallest.
fn room_size(ui: &Ui, width: f32) -> (f32, f32) {
    ROOM_SIZES
        .into_iter()
        .find(|size| rooms_width(ui, *size) <= width)
        .unwrap_or(ROOM_SIZES[ROOM_SIZES.len() - 1])
}

/// Whether the rooms and what stands at the right do not fit into one row.
fn is_short(ui: &Ui) -> bool {
    let margins = 2.0 * f32::from(theme::MARGIN);
    let room = ui.available_width() - RIGHT_WIDTH - margins;
    ROOM_SIZES.iter().all(|size| rooms_width(ui, *size) > room)
}

/// A row of its own for the commission and what is done with it.
fn actions_apart(workbench: &mut Workbench, ui: &mut Ui, palette: &Palette) {
    let frame = egui::Frame::new()
        .fill(palette.panel)
        .inner_margin(egui::Margin::symmetric(theme::MARGIN, 0));
    egui::Panel::top("what is done")
        .exact_size(theme::ROW_HEIGHT)
        .frame(frame)
        .show(ui, |ui| {
            let layout = egui::Layout::right_to_left(egui::Align::Center);
            ui.with_layout(layout, |ui| actions(workbench, ui));
        });
}

/// The least space between the rooms' names in rows of their own, px.
const BETWEEN_APART: f32 = 9.0;

/// The rooms in as many rows as they take.
fn rooms_apart(workbench: &mut Workbench, ui: &mut Ui, palette: &Palette) {
    let frame = egui::Frame::new()
        .fill(palette.panel)
        .inner_margin(egui::Margin::symmetric(theme::MARGIN, 0));
    egui::Panel::top("rooms").frame(frame).show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            let (size, between) = room_size(ui, ui.available_width());
            ui.spacing_mut().item_spacing = egui::vec2(between.max(BETWEEN_APART), 2.0);
            for room in Room::ALL {
                room_word(workbench, ui, room, size);
            }
        });
    });
}

/// The rooms, close together where the row is short.
fn room_words(workbench: &mut Workbench, ui: &mut Ui) {
    let (size, between) = room_size(ui, ui.available_width() - RIGHT_WIDTH);
    ui.spacing_mut().item_spacing.x = between;
    for room in Room::ALL {
        room_word(workbench, ui, room, size);
    }
}

fn room_word(workbench: &mut Workbench, ui: &mut Ui, room: Room, size: f32) {
    let palette = Palette::of(ui);
    let chosen = workbench.is_in(room);
    let colour = if chosen {
        palette.accent
    } else {
        palette.quiet
    };
    let text = RichText::new(words::room(room)).size(size).color(colour);
    let response = ui
        .add(egui::Button::selectable(chosen, text).frame(false))
        .on_hover_text(with_keys(ui, Action::GoTo(room)));
    if chosen {
        let line = response.rect.expand2(egui::vec2(-2.0, 0.0));
        let y = line.bottom() + ROOM_LINE;
        ui.painter()
            .hline(line.x_range(), y, egui::Stroke::new(2.0, palette.accent));
    }
    if response.clicked() {
        Action::GoTo(room).run(workbench, ui.ctx());
    }
}

/// What an action does, and its keys.
fn with_keys(ui: &Ui, action: Action) -> String {
    match action.keys() {
        None => action.hint().into(),
        Some(keys) => format!("{} ({})", action.hint(), ui.ctx().format_shortcut(&keys)),
    }
}

/// A button for an action of the list, with nothing of its own.
fn button(workbench: &mut Workbench, ui: &mut Ui, action: Action, main: bool) {
    let palette = Palette::of(ui);
    let button = if main {
        theme::main_button(&palette, action.name())
    } else {
        egui::Button::new(action.name())
    };
    if ui
        .add(button)
        .on_hover_text(with_keys(ui, action))
        .clicked()
    {
        action.run(workbench, ui.ctx());
    }
}

/// From right to left; what finds no room stands in the menu alone.
fn actions(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    let has_document = workbench.document.is_some();
    let menu = ui.menu_button(words::MENU, |ui| menu(workbench, ui));
    menu.response.on_hover_text(words::MENU_HINT);
    if has_document {
        button(workbench, ui, Action::Export, true);
        button(workbench, ui, Action::Save, false);
    }
    let roomy = ui.available_width() > ROOM_FOR_ALL;
    if roomy || !has_document {
        button(workbench, ui, Action::Open, false);
        let (word, paper) = if ui.visuals().dark_mode {
            (words::DAY, Paper::Day)
        } else {
            (words::NIGHT, Paper::Night)
        };
        let action = Action::Paper(paper);
        if ui.button(word).on_hover_text(action.hint()).clicked() {
            action.run(workbench, ui.ctx());
        }
    }
    if let Some(document) = &workbench.document {
        let (undoes, redoes) = (document.history().undoes(), document.history().redoes());
        let step = |ui: &mut Ui, action: Action, what: Option<&str>| {
            let hint = format!(
                "{} {}",
                action.name(),
                what.map(words::change).unwrap_or_default()
            );
            let keys = action.keys().map(|keys| ui.ctx().format_shortcut(&keys));
            ui.add_enabled(
                what.is_some(),
                egui::Button::new(action.name()).frame(false),
            )
            .on_hover_text(format!("{hint} ({})", keys.unwrap_or_default()))
            .clicked()
        };
        let mut redo = false;
        let mut undo = false;
        if roomy || ui.available_width() > ROOM_FOR_STEPS {
            redo = step(ui, Action::Redo, redoes);
            undo = step(ui, Action::Undo, undoes);
        }
        let title = match document.commission().title.as_str() {
            "" => words::UNTITLED.said(),
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

/// All actions, in their groups; and the commissions that were open lately.
fn menu(workbench: &mut Workbench, ui: &mut Ui) {
    for group in Group::ALL {
        ui.menu_button(group.name(), |ui| {
            for action in Action::all() {
                if action.group() == group {
                    entry(workbench, ui, action);
                }
            }
            if group == Group::Commission && !workbench.settings.recent.is_empty() {
                ui.separator();
                recent(workbench, ui);
            }
        });
    }
}

fn entry(workbench: &mut Workbench, ui: &mut Ui, action: Action) {
    let hindrance = action.hindrance(workbench);
    let mut button = egui::Button::new(action.name());
    if let Some(keys) = action.keys() {
        button = button.shortcut_text(ui.ctx().format_shortcut(&keys));
    }
    let response = ui.add_enabled(hindrance.is_none(), button);
    let response = match hindrance {
        None => response.on_hover_text(action.hint()),
        Some(why) => response.on_disabled_hover_text(why),
    };
    if response.clicked() {
        action.run(workbench, ui.ctx());
        ui.close();
    }
}

/// The commissions that were open lately, each as a button.
pub(super) fn recent(workbench: &mut Workbench, ui: &mut Ui) {
    let mut chosen = None;
    for path in &workbench.settings.recent {
        let name = path.file_name().unwrap_or(path.as_os_str());
        let folder = path.parent().and_then(|folder| folder.file_name());
        let name = match folder {
            None => name.to_string_lossy().into_owned(),
            Some(folder) => format!("{} / {}", folder.to_string_lossy(), name.to_string_lossy()),
        };
        if ui.button(name).on_hover_text(shown(path)).clicked() {
            chosen = Some(path.clone());
            ui.close();
        }
    }
    let Some(path) = chosen else {
        return;
    };
    if path.exists() {
        workbench.ask_to_leave(Then::Open(path));
    } else {
        let ctx = ui.ctx().clone();
        workbench.set(&ctx, |settings| settings.recent.retain(|one| *one != path));
        workbench.complain(words::RECENT_GONE.with(&[&shown(&path)]));
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
            words::WORKING.said()
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
            Action::StopWork.run(workbench, ui.ctx());
        }
    } else if workbench.present_job().is_some() {
        ui.label(RichText::new(words::UP_TO_DATE).color(palette.good).small());
    } else {
        ui.label(
            RichText::new(words::OUT_OF_DATE_SHORT)
                .color(palette.warning)
                .small(),
        );
        if ui.small_button(words::WORK_AGAIN_SHORT).clicked() {
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
        let mut to_findings = false;
        for (severity, colour) in [
            (Severity::Stop, palette.stop),
            (Severity::Warning, palette.warning),
            (Severity::Note, palette.quiet),
        ] {
            let number = count(severity);
            if number > 0 {
                let (one, many) = words::severities(severity);
                let text = RichText::new(counted(number, one, many))
                    .color(colour)
                    .small();
                let button = ui.add(egui::Button::new(text).frame(false));
                to_findings |= button.on_hover_text(words::TO_FINDINGS).clicked();
            }
        }
        if to_findings {
            workbench.selection.room = Room::Order;
            workbench.selection.sought = Some(Sought::Findings);
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
        RichText::new(words::OPENING).color(palette.quiet)
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
    if workbench.document.is_some() {
        ui.separator();
    }
    ui.add(egui::Label::new(text.size(13.0)).wrap());
}
