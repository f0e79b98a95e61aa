//! The place of a file or a folder, typed: where the system has no dialog to show for it.

use std::path::{MAIN_SEPARATOR, PathBuf};

use egui::{Key, Modifiers, TextEdit, Ui};

use super::super::fields::remark;
use super::super::tasks::Purpose;
use super::super::theme::{self, Palette};
use super::super::words;
use super::super::workbench::Workbench;

/// Width of the sheet, px.
const WIDTH: f32 = 560.0;

/// What is asked for, and what was typed so far.
#[derive(Debug)]
pub(super) struct Typed {
    purpose: Purpose,
    text: String,
    /// Whether a file of this name is there, where a new one was to be written.
    is_taken: bool,
}

impl Typed {
    /// Begins with a folder.
    pub(super) fn new(purpose: Purpose, folder: Option<PathBuf>) -> Typed {
        let folder = folder.map(|folder| format!("{}{MAIN_SEPARATOR}", folder.display()));
        Typed {
            purpose,
            text: folder.unwrap_or_default(),
            is_taken: false,
        }
    }
}

/// Shows the sheet; `false` once it is done with.
pub(super) fn show(typed: &mut Typed, workbench: &mut Workbench, ui: &mut Ui) -> bool {
    let mut stays = true;
    let width = ui.ctx().content_rect().width() - 60.0;
    let modal = theme::over(ui, "place").show(ui, |ui| {
        ui.set_width(WIDTH.min(width));
        let palette = Palette::of(ui);
        let title = ui.heading(typed.purpose.title());
        ui.add_space(6.0);
        let entered = ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));
        let field = TextEdit::singleline(&mut typed.text).desired_width(f32::INFINITY);
        let field = ui.add(field).labelled_by(title.id);
        if ui.memory(|memory| memory.focused().is_none()) {
            field.request_focus();
        }
        if field.changed() {
            typed.is_taken = false;
        }
        remark(ui, words::NO_DIALOG);
        if typed.is_taken {
            ui.colored_label(palette.stop, words::PLACE_TAKEN);
        }
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            let take = ui.add(theme::main_button(&palette, words::TAKE_PLACE));
            if take.clicked() || entered {
                stays = !taken(typed, workbench);
            }
            if ui.button(words::CLOSE).clicked() {
                stays = false;
            }
        });
    });
    stays && !modal.should_close()
}

/// Goes on with what was typed, if it can be.
fn taken(typed: &mut Typed, workbench: &mut Workbench) -> bool {
    let text = typed.text.trim();
    if text.is_empty() {
        return false;
    }
    let path = PathBuf::from(text);
    typed.is_taken = typed.purpose.is_new_file() && path.exists();
    if !typed.is_taken {
        workbench.take_place(typed.purpose, path);
    }
    !typed.is_taken
}
