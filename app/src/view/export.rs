//! Handing over: the folder, the progress, the result in a sentence.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{TextEdit, Ui};

use super::fields::remark;
use super::tasks::Purpose;
use super::theme::{self, Palette};
use super::words::{self, counted};
use super::workbench::Workbench;
use crate::background::Worker;
use crate::background::tasks::{caution, duration_in_words, exported, stopping};

/// Width of the sheet, px, and of the longest field in it.
const WIDTH: f32 = 560.0;
const FIELD: f32 = 400.0;

/// The state of the export.
#[derive(Default)]
pub(super) struct Export {
    open: bool,
    folder: String,
    worker: Option<Worker<Result<String, String>>>,
    stopped: bool,
    result: Option<Result<String, String>>,
}

impl Export {
    pub(super) fn choose(&mut self, folder: &Path) {
        self.folder = folder.display().to_string();
        self.open = true;
    }

    pub(super) fn is_running(&self) -> bool {
        self.worker.is_some()
    }

    /// Stops what is being written and waits until nothing half written is left.
    pub(super) fn finish(&mut self) {
        if let Some(worker) = self.worker.take() {
            worker.finish();
        }
    }
}

impl Workbench {
    /// Opens the export.
    pub fn open_export(&mut self) {
        if self.export.folder.is_empty() {
            self.export.folder = self.proposed_folder().display().to_string();
        }
        self.export.result = None;
        self.export.open = true;
    }

    fn start_export(&mut self) {
        let folder = self.export.folder.trim().to_owned();
        if folder.is_empty() {
            self.export.result = Some(Err(words::NAME_FOLDER.into()));
            return;
        }
        let Some(snapshot) = self.snapshot() else {
            return;
        };
        let present = self.present_job();
        let target = PathBuf::from(folder);
        self.export.result = None;
        self.export.stopped = false;
        let work = move |progress: &_| exported(&snapshot, present, &target, progress);
        self.export.worker = Some(Worker::start("export", Arc::clone(&self.wake), work));
    }

    pub(super) fn poll_export(&mut self) {
        let Some(result) = self.export.worker.as_mut().and_then(Worker::poll) else {
            return;
        };
        self.export.worker = None;
        let result = match result {
            Ok(Err(_)) if self.export.stopped => Err(words::EXPORT_STOPPED.into()),
            Ok(result) => result,
            Err(broken) => Err(broken.to_string()),
        };
        match &result {
            Ok(sentence) => self.say(sentence.clone()),
            Err(sentence) => self.complain(sentence.clone()),
        }
        self.export.result = Some(result);
    }
}

pub(super) fn show(workbench: &mut Workbench, ui: &mut Ui) {
    if !workbench.export.open || workbench.document.is_none() {
        return;
    }
    let modal = theme::over(ui, "export").show(ui, |ui| {
        ui.set_width(WIDTH.min(ui.ctx().content_rect().width() - 60.0));
        ui.heading(words::EXPORT_TITLE);
        ui.add_space(6.0);
        contents(workbench, ui);
    });
    if modal.should_close() && !workbench.export.is_running() {
        workbench.export.open = false;
    }
}

fn contents(workbench: &mut Workbench, ui: &mut Ui) {
    what(workbench, ui);
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(words::FOLDER);
        let width = FIELD.min(ui.available_width());
        let field = TextEdit::singleline(&mut workbench.export.folder).desired_width(width);
        ui.add(field).labelled_by(label.id);
        if ui.button(words::CHOOSE).clicked() {
            workbench.ask(Purpose::ExportTo);
        }
    });
    remark(ui, words::WHOLE);
    ui.add_space(8.0);
    ui.horizontal(|ui| buttons(workbench, ui));
    let palette = Palette::of(ui);
    match &workbench.export.result {
        Some(Ok(sentence)) => {
            ui.add_space(6.0);
            ui.colored_label(palette.good, sentence);
        }
        Some(Err(sentence)) => {
            ui.add_space(6.0);
            ui.colored_label(palette.stop, sentence);
        }
        None => {}
    }
}

/// What will be written, as far as it is known.
fn what(workbench: &Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    let Some(job) = workbench.present_job() else {
        remark(ui, caution());
        return;
    };
    if let Some(stop) = stopping(&job.findings) {
        ui.colored_label(palette.stop, words::STANDING);
        ui.label(words::stopped(stop));
        return;
    }
    let seconds: f64 = job.programs.iter().map(|program| program.estimate_s).sum();
    ui.label(words::WILL_WRITE.with(&[
        &counted(job.programs.len(), words::PROGRAM, words::PROGRAMS),
        &counted(job.planks.len(), words::ONE_PLANK, words::PLANKS),
        &duration_in_words(seconds),
    ]));
    remark(ui, caution());
}

fn buttons(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    if let Some(worker) = &workbench.export.worker {
        let (step, done, total) = worker.state();
        if ui.button(words::STOP).clicked() {
            worker.stop();
            workbench.export.stopped = true;
        }
        let part = if total == 0 {
            0.0
        } else {
            done as f32 / total as f32
        };
        ui.add(egui::ProgressBar::new(part).desired_width(FIELD).text(step));
        return;
    }
    if ui.add(theme::main_button(&palette, words::WRITE)).clicked() {
        workbench.start_export();
    }
    if ui.button(words::CLOSE).clicked() {
        workbench.export.open = false;
    }
}
