//! What lies over the window when the maker asks for it: the settings, the list of actions, the sheet of keys, the first questions.

mod find;
mod keys;
mod place;
mod settings;

use std::path::PathBuf;

use egui::Ui;

use super::tasks::Purpose;
use super::theme;
use super::words;
use super::workbench::Workbench;

/// Width of a sentence that is told, px.
const WIDTH: f32 = 480.0;

/// What lies over the window.
#[derive(Debug, Default)]
enum Shown {
    #[default]
    Nothing,
    Settings,
    Actions(find::Search),
    Keys,
    FirstQuestions,
    /// The place of a file, where the system has no dialog for it.
    Place(place::Typed),
    /// Something that the maker has to be told, whatever else is opened.
    Told(String),
}

/// What lies over the window, if anything does.
#[derive(Debug, Default)]
pub(super) struct Over {
    shown: Shown,
}

impl Over {
    pub(super) fn show_settings(&mut self) {
        self.shown = Shown::Settings;
    }

    pub(super) fn show_actions(&mut self) {
        self.shown = Shown::Actions(find::Search::default());
    }

    pub(super) fn show_keys(&mut self) {
        self.shown = Shown::Keys;
    }

    pub(super) fn tell(&mut self, sentence: String) {
        log::warn!("{sentence}");
        self.shown = Shown::Told(sentence);
    }

    pub(super) fn ask_for_place(&mut self, purpose: Purpose, folder: Option<PathBuf>) {
        self.shown = Shown::Place(place::Typed::new(purpose, folder));
    }

    pub(super) fn ask_first_questions(&mut self) {
        self.shown = Shown::FirstQuestions;
    }
}

/// Tells a sentence; `false` once it was read.
fn told(sentence: &str, ui: &mut Ui) -> bool {
    let mut stays = true;
    let width = ui.ctx().content_rect().width() - 60.0;
    let modal = theme::over(ui, "told").show(ui, |ui| {
        ui.set_width(WIDTH.min(width));
        ui.add(egui::Label::new(sentence).wrap());
        ui.add_space(8.0);
        stays = !ui.button(words::CLOSE).clicked();
    });
    stays && !modal.should_close()
}

/// Shows what lies over the window, unless a question that cannot wait is open.
pub(super) fn show(workbench: &mut Workbench, ui: &mut Ui) {
    if workbench.is_asking() {
        return;
    }
    // Taken out, so that what is shown may change the workbench, and may show something else in its place.
    let mut shown = std::mem::take(&mut workbench.over.shown);
    let stays = match &mut shown {
        Shown::Nothing => return,
        Shown::Settings => settings::show(workbench, ui),
        Shown::Actions(search) => find::show(search, workbench, ui),
        Shown::Keys => keys::show(ui),
        Shown::FirstQuestions => settings::first_questions(workbench, ui),
        Shown::Place(typed) => place::show(typed, workbench, ui),
        Shown::Told(sentence) => told(sentence, ui),
    };
    if stays && matches!(workbench.over.shown, Shown::Nothing) {
        workbench.over.shown = shown;
    } else {
        // This frame still shows it.
        ui.ctx().request_repaint();
    }
}
