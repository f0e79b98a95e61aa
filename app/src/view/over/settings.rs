//! The settings, and the first questions, which are three of them.

use egui::{ScrollArea, Ui};

use cam_core::measure::Length;

use super::super::fields::{choice, heading, length, remark};
use super::super::theme::{self, Palette};
use super::super::words::{self, Text};
use super::super::workbench::Workbench;
use crate::files::shown;
use crate::model::settings::{Language, Lengths, Paper, Points, SCALES, Settings};

/// Width of the settings, px.
const WIDTH: f32 = 460.0;
/// The part of the window's height that they take at most.
const HEIGHT: f32 = 0.72;

/// Shows the settings; `false` once they are closed.
pub(super) fn show(workbench: &mut Workbench, ui: &mut Ui) -> bool {
    let mut stays = true;
    let screen = ui.ctx().content_rect();
    let modal = theme::over(ui, "settings").show(ui, |ui| {
        ui.set_width(WIDTH.min(screen.width() - 60.0));
        ui.heading(words::SETTINGS_TITLE);
        ScrollArea::vertical()
            .max_height(screen.height() * HEIGHT)
            .min_scrolled_height(screen.height() * HEIGHT)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                let mut next = workbench.settings.clone();
                language(ui, &mut next);
                paper(ui, &mut next);
                questions(ui, &mut next);
                take(workbench, ui, next);
                kept(workbench, ui);
            });
        ui.add_space(6.0);
        stays = !ui.button(words::CLOSE).clicked();
    });
    stays && !modal.should_close()
}

/// Asks the first questions; `false` once they are answered or skipped.
pub(super) fn first_questions(workbench: &mut Workbench, ui: &mut Ui) -> bool {
    let mut stays = true;
    let screen = ui.ctx().content_rect();
    let modal = theme::over(ui, "first questions").show(ui, |ui| {
        ui.set_width(WIDTH.min(screen.width() - 60.0));
        ui.heading(words::FIRST_TITLE);
        ui.add_space(2.0);
        ui.add(egui::Label::new(words::FIRST_WHAT).wrap());
        let mut next = workbench.settings.clone();
        ScrollArea::vertical()
            .max_height(screen.height() * HEIGHT - 60.0)
            .min_scrolled_height(screen.height() * HEIGHT - 60.0)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                language(ui, &mut next);
                questions(ui, &mut next);
            });
        take(workbench, ui, next);
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            let palette = Palette::of(ui);
            let done = ui.add(theme::main_button(&palette, words::FIRST_DONE));
            stays = !done.clicked() && !ui.button(words::FIRST_SKIP).clicked();
        });
    });
    let stays = stays && !modal.should_close();
    if !stays {
        let ctx = ui.ctx().clone();
        workbench.set(&ctx, |settings| settings.welcomed = true);
    }
    stays
}

/// Keeps what was changed.
fn take(workbench: &mut Workbench, ui: &Ui, next: Settings) {
    if next != workbench.settings {
        let ctx = ui.ctx().clone();
        workbench.set(&ctx, |settings| *settings = next);
    }
}

fn language(ui: &mut Ui, next: &mut Settings) {
    let languages = Language::ALL.map(|one| (one, words::language(one).to_owned()));
    if let Some(chosen) = choice(ui, words::LANGUAGE, &next.language, &languages) {
        next.language = chosen;
    }
}

fn paper(ui: &mut Ui, next: &mut Settings) {
    let name = |paper| match paper {
        Paper::System => words::PAPER_SYSTEM,
        Paper::Day => words::DAY,
        Paper::Night => words::NIGHT,
    };
    let papers = Paper::ALL.map(|one| (one, name(one).into()));
    if let Some(chosen) = choice(ui, words::PAPER, &next.paper, &papers) {
        next.paper = chosen;
    }
    let sizes = SCALES.map(|scale| (scale, format!("{scale} %")));
    if let Some(chosen) = choice(ui, words::SCALE, &next.scale, &sizes) {
        next.scale = chosen;
    }
}

/// The three first questions.
fn questions(ui: &mut Ui, next: &mut Settings) {
    let name = |points| match points {
        Points::Pica => words::PICA,
        Points::Didot => words::DIDOT,
        Points::DidotRounded => words::DIDOT_ROUNDED,
    };
    let systems = Points::ALL.map(|one| (one, name(one).into()));
    if let Some(chosen) = choice(ui, words::POINTS, &next.points, &systems) {
        next.points = chosen;
    }
    remark(ui, words::POINTS_HINT);
    let name = |lengths| match lengths {
        Lengths::Millimetres => words::MILLIMETRES,
        Lengths::Inches => words::INCHES,
    };
    let units = Lengths::ALL.map(|one| (one, name(one).into()));
    if let Some(chosen) = choice(ui, words::LENGTHS, &next.lengths, &units) {
        next.lengths = chosen;
    }
    heading(ui, words::TRAVEL);
    let axes: [Text; 3] = [words::TRAVEL_X, words::TRAVEL_Y, words::TRAVEL_Z];
    let (travel, unit) = (next.travel(), next.lengths.unit());
    for (axis, (label, mm)) in axes.into_iter().zip(travel).enumerate() {
        let system = next.points.system();
        if let Some(typed) = length(ui, label, Length::mm(mm), unit, system) {
            next.set_travel(axis, typed);
        }
    }
    remark(ui, words::TRAVEL_HINT);
}

/// Where settings and log are kept.
fn kept(workbench: &Workbench, ui: &mut Ui) {
    ui.add_space(8.0);
    match &workbench.home {
        None => remark(ui, words::SETTINGS_NOT_KEPT),
        Some(home) => {
            remark(
                ui,
                words::SETTINGS_KEPT.with(&[&shown(&home.settings_file())]),
            );
            remark(ui, words::LOG_KEPT.with(&[&shown(&home.log_file())]));
        }
    }
}
