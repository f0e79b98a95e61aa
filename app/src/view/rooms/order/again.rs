//! Sorts made again, to match a fount that was made before.

use std::path::PathBuf;

use egui::{TextEdit, Ui};

use super::super::super::Desk;
use super::super::super::fields::{remark, row};
use crate::view::words::order::again as words;

/// What this view keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    /// The folder that the fount was made into; empty for none.
    pub made: String,
    sorts: String,
}

pub(super) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    egui::CollapsingHeader::new(words::AGAIN).show(ui, |ui| {
        remark(ui, words::WHAT);
        row(ui, words::FOLDER, |ui, label| {
            let field = TextEdit::singleline(&mut state.made).desired_width(196.0);
            ui.add(field.hint_text(words::FOLDER_HINT))
                .labelled_by(label);
            desk.wishes.choose_made = ui.button(words::CHOOSE).clicked();
        });
        row(ui, words::SORTS, |ui, label| {
            let field = TextEdit::singleline(&mut state.sorts).desired_width(196.0);
            ui.add(field.hint_text(words::SORTS_HINT))
                .labelled_by(label);
        });
        let ready = !state.sorts.trim().is_empty();
        if ui
            .add_enabled(ready, egui::Button::new(words::BEGIN))
            .clicked()
        {
            let made = state.made.trim();
            let made = (!made.is_empty()).then(|| PathBuf::from(made));
            desk.wishes.again = Some((made, state.sorts.clone()));
        }
    });
}
