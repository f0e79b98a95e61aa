//! Keys do the actions of the list, in every room.

use egui::{Key, KeyboardShortcut, Modifiers, Ui};

use super::actions::Action;
use super::workbench::Workbench;
use crate::model::selection::Room;

/// Takes the keys that were pressed. Longer shortcuts come first, since a shorter one also answers to them.
pub(super) fn take(workbench: &mut Workbench, ui: &Ui) {
    // What lies over the window has the keys.
    if ui.memory(|memory| memory.top_modal_layer().is_some()) {
        return;
    }
    let typing =
        ui.memory(|memory| memory.focused().is_some()) && ui.ctx().egui_wants_keyboard_input();
    let pressed =
        |shortcut: &KeyboardShortcut| ui.input_mut(|input| input.consume_shortcut(shortcut));
    let mut actions = Action::all();
    actions.sort_by_key(|action| {
        let long = action.keys().map(|keys| keys.modifiers);
        std::cmp::Reverse(long.map_or(0, |one| u8::from(one.shift) + u8::from(one.command)))
    });
    for action in actions {
        let Some(keys) = action.keys() else {
            continue;
        };
        // In a field, undo is the field's own, and keys alone are typed.
        let own = matches!(action, Action::Undo | Action::Redo) || !keys.modifiers.command;
        let for_field = typing && own && !is_function(keys.logical_key);
        if !for_field && action.hindrance(workbench).is_none() && pressed(&keys) {
            action.run(workbench, ui.ctx());
        }
    }
    if typing || workbench.document().is_none() {
        return;
    }
    // Rooms answer to their numbers alone as well.
    for room in Room::ALL {
        let keys = Action::GoTo(room).keys();
        if keys
            .is_some_and(|keys| pressed(&KeyboardShortcut::new(Modifiers::NONE, keys.logical_key)))
        {
            Action::GoTo(room).run(workbench, ui.ctx());
        }
    }
}

/// Keys that no field takes.
fn is_function(key: Key) -> bool {
    matches!(key, Key::F1 | Key::F2 | Key::F4 | Key::F5)
}

impl Workbench {
    /// Takes the last change back.
    pub fn undo(&mut self) {
        if let Some(document) = &mut self.document {
            document.undo();
        }
    }

    /// Makes the change that was taken back again.
    pub fn redo(&mut self) {
        if let Some(document) = &mut self.document {
            document.redo();
        }
    }

    /// Selects the sort so many places on.
    pub(super) fn step_sort(&mut self, by: isize) {
        if let Some(Ok(drawn)) = self.drawn.result() {
            self.selection.step_sort(&drawn.sorts, by);
        }
    }
}
