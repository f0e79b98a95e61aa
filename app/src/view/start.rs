//! The start: what to do first, the commissions that were open lately, and the first minute with the demonstration.

use egui::{RichText, Ui};

use super::actions::Action;
use super::bars::recent;
use super::theme::{self, Palette};
use super::words::{self, Text};
use super::workbench::Workbench;
use crate::files::demo::open_demo;
use crate::model::selection::{Room, Selection};

/// The rooms in which a maker goes on, and what is done there.
const STEPS: [(Text, Text); 10] = [
    (words::ORDER, words::STEP_ORDER),
    (words::CASE, words::STEP_CASE),
    (words::BLOCK, words::STEP_BLOCK),
    (words::CUT, words::STEP_CUT),
    (words::PLANK, words::STEP_PLANK),
    (words::RUN, words::STEP_RUN),
    (words::PROOF, words::STEP_PROOF),
    (words::PAPERS, words::STEP_PAPERS),
    (words::BENCH, words::STEP_BENCH),
    (words::WORKSHOP, words::STEP_WORKSHOP),
];

/// Width of the list of rooms, px: that of its longest line.
const STEPS_WIDTH: f32 = 560.0;

impl Workbench {
    /// Opens the demonstration, and shows what comes of it.
    pub fn open_demo(&mut self) {
        let Some(home) = &self.home else {
            self.complain(words::NO_HOME);
            return;
        };
        match open_demo(home) {
            Ok(opened) => {
                self.arrive(opened);
                self.selection.room = Room::Proof;
                self.shows_demo = true;
            }
            Err(error) => self.complain(words::DEMO_NOT_UNPACKED.with(&[&error.to_string()])),
        }
    }

    /// Leaves the commission and shows the start.
    pub(super) fn show_start(&mut self) {
        self.end_keeping();
        self.document = None;
        self.selection = Selection::default();
        self.notice = None;
        self.shows_demo = false;
    }
}

/// The line over the demonstration.
pub(super) fn demo_strip(workbench: &mut Workbench, ui: &mut Ui) {
    if !workbench.shows_demo || workbench.document.is_none() {
        return;
    }
    let palette = Palette::of(ui);
    let frame = egui::Frame::new()
        .fill(palette.desk)
        .inner_margin(egui::Margin::symmetric(theme::MARGIN, 6));
    egui::Panel::top("demonstration")
        .frame(frame)
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                ui.label(RichText::new(words::DEMO_STRIP).color(palette.text));
                let action = Action::StartWithFont;
                if ui
                    .button(action.name())
                    .on_hover_text(action.hint())
                    .clicked()
                {
                    action.run(workbench, ui.ctx());
                }
                if ui.button(words::DEMO_AWAY).clicked() {
                    workbench.shows_demo = false;
                }
            });
        });
}

pub(super) fn show(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    let frame = egui::Frame::new().fill(palette.paper);
    egui::CentralPanel::default().frame(frame).show(ui, |ui| {
        egui::ScrollArea::vertical().show(ui, |ui| {
            ui.vertical_centered(|ui| contents(workbench, ui, &palette));
        });
    });
}

fn contents(workbench: &mut Workbench, ui: &mut Ui, palette: &Palette) {
    let height = ui.ctx().content_rect().height();
    ui.add_space((height * 0.11).max(12.0));
    ui.label(RichText::new(words::WELCOME).size(30.0).color(palette.ink));
    ui.add_space(6.0);
    ui.label(RichText::new(words::HOW).size(15.5).color(palette.quiet));
    ui.add_space(18.0);
    for (place, action) in [Action::StartWithFont, Action::Open, Action::ShowDemo]
        .into_iter()
        .enumerate()
    {
        if action.hindrance(workbench).is_some() {
            continue;
        }
        let name = match action {
            Action::Open => words::OPEN_EITHER.into(),
            _ => action.name(),
        };
        let button = if place == 0 {
            let name = RichText::new(name).size(15.5).color(palette.on_accent);
            egui::Button::new(name).fill(palette.accent)
        } else {
            egui::Button::new(name)
        };
        if ui.add(button).on_hover_text(action.hint()).clicked() {
            action.run(workbench, ui.ctx());
        }
        ui.add_space(2.0);
    }
    if !workbench.settings.recent.is_empty() {
        ui.add_space(16.0);
        ui.label(RichText::new(words::RECENT).strong());
        recent(workbench, ui);
    }
    ui.add_space(28.0);
    steps(ui, palette);
    ui.add_space(12.0);
}

fn steps(ui: &mut Ui, palette: &Palette) {
    let width = STEPS_WIDTH.min(ui.available_width());
    let layout = egui::Layout::top_down(egui::Align::Min);
    ui.allocate_ui_with_layout(egui::vec2(width, 0.0), layout, |ui| {
        ui.set_width(width);
        let table = egui::Grid::new("steps").num_columns(2).spacing([22.0, 8.0]);
        table.show(ui, |ui| {
            for (room, what) in STEPS {
                ui.label(RichText::new(room).size(15.5).color(palette.accent));
                ui.label(RichText::new(what).color(palette.text));
                ui.end_row();
            }
        });
    });
}
