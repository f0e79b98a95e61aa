//! Asking before something unsaved is left.

use std::path::PathBuf;

use super::tasks::Purpose;
use super::workbench::Workbench;

/// Words of this view.
mod words {
    pub const UNSAVED: &str = "This commission has changes that are not saved.";
    pub const SAVE: &str = "Save first";
    pub const LEAVE: &str = "Leave them";
    pub const STAY: &str = "Stay here";
}

/// What comes after.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Then {
    /// A file is opened.
    Open(PathBuf),
    /// A file is asked for.
    AskOpen,
    /// The window closes.
    Close,
}

/// Whether the maker is being asked.
#[derive(Debug, Default)]
pub(super) struct Leaving {
    asked: Option<Then>,
    /// The maker said to leave; the window may close.
    agreed: bool,
}

impl Workbench {
    fn has_unsaved(&self) -> bool {
        self.document.as_ref().is_some_and(|document| {
            // A font that was only looked at is nothing to be saved.
            document.is_changed() && (document.path.is_some() || document.revision() > 1)
        })
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
    let modal = egui::Modal::new(egui::Id::unique("leave")).show(ui, |ui| {
        ui.label(words::UNSAVED);
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            if ui.button(words::SAVE).clicked() {
                answered = true;
                workbench.save();
                if !workbench.has_unsaved() {
                    workbench.go_on(then.clone());
                }
            }
            if ui.button(words::LEAVE).clicked() {
                answered = true;
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
