//! Asking before something unsaved is left.

use std::path::PathBuf;

use super::tasks::Purpose;
use super::theme;
use super::words;
use super::workbench::Workbench;
use crate::model::document::Document;

/// What comes after.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Then {
    /// A file is opened.
    Open(PathBuf),
    /// A file is asked for.
    AskOpen,
    /// A font is asked for.
    AskFont,
    /// The demonstration is opened.
    Demo,
    /// The start is shown.
    Start,
    /// Unsaved work of an earlier session is opened.
    TakeUp,
    /// A commission for sorts made again is shown.
    Again,
    /// The window closes.
    Close,
}

/// Whether the maker is being asked.
#[derive(Debug, Default)]
pub(super) struct Leaving {
    asked: Option<Then>,
    /// The window may close.
    agreed: bool,
    /// The revision whose changes the maker said to leave.
    left: Option<u64>,
}

impl Workbench {
    pub(super) fn has_unsaved(&self) -> bool {
        self.document.as_ref().is_some_and(|document| {
            // A font that was only looked at is nothing to be saved.
            document.is_changed() && (document.path.is_some() || document.revision() > 1)
        })
    }

    /// Whether the maker said to leave the changes just as they stand.
    pub(super) fn leaves_unsaved(&self) -> bool {
        let revision = self.document.as_ref().map(Document::revision);
        self.leaving.left.is_some() && self.leaving.left == revision
    }

    pub(super) fn is_asking_to_leave(&self) -> bool {
        self.leaving.asked.is_some()
    }

    /// Goes on at once, or asks first.
    pub(super) fn ask_to_leave(&mut self, then: Then) {
        if self.has_unsaved() {
            self.leaving.asked = Some(then);
        } else {
            self.go_on(then);
        }
    }

    fn go_on(&mut self, then: Then) {
        match then {
            Then::Open(path) => self.open(path),
            Then::AskOpen => self.ask(Purpose::Open),
            Then::AskFont => self.ask(Purpose::OpenFont),
            Then::Demo => self.open_demo(),
            Then::Start => self.show_start(),
            Then::TakeUp => self.take_up(),
            Then::Again => self.show_again(),
            Then::Close => self.leaving.agreed = true,
        }
    }
}

pub(super) fn show(workbench: &mut Workbench, ui: &mut egui::Ui) {
    let closing = ui.input(|input| input.viewport().close_requested());
    if closing && !workbench.leaving.agreed && workbench.has_unsaved() {
        ui.send_viewport_cmd(egui::ViewportCommand::CancelClose);
        workbench.leaving.asked = Some(Then::Close);
    }
    let Some(then) = workbench.leaving.asked.clone() else {
        return;
    };
    let mut answered = false;
    let modal = theme::over(ui, "leave").show(ui, |ui| {
        ui.label(words::UNSAVED);
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            if ui.button(words::SAVE_FIRST).clicked() {
                answered = true;
                workbench.save();
                if !workbench.has_unsaved() {
                    workbench.go_on(then.clone());
                }
            }
            if ui.button(words::LEAVE_THEM).clicked() {
                answered = true;
                workbench.leaving.left = workbench.document.as_ref().map(Document::revision);
                workbench.go_on(then.clone());
            }
            answered |= ui.button(words::STAY).clicked();
        });
    });
    if answered || modal.should_close() {
        workbench.leaving.asked = None;
        if workbench.leaving.agreed {
            ui.send_viewport_cmd(egui::ViewportCommand::Close);
        }
    }
}
