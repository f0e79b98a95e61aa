//! What keys do in every room.

use egui::{Key, KeyboardShortcut, Modifiers, Ui};

use super::leave::Then;
use super::tasks::Purpose;
use super::workbench::Workbench;
use crate::model::selection::Room;

const OPEN: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::O);
const SAVE: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::S);
const SAVE_AS: KeyboardShortcut =
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::S);
const EXPORT: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::E);
const UNDO: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::Z);
const REDO: KeyboardShortcut =
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
const NUMBERS: [Key; 10] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
    Key::Num0,
];

/// Takes the keys that were pressed. Longer shortcuts come first, since a shorter one also answers to them.
pub(super) fn take(workbench: &mut Workbench, ui: &Ui) {
    let pressed =
        |shortcut: &KeyboardShortcut| ui.input_mut(|input| input.consume_shortcut(shortcut));
    if pressed(&OPEN) {
        workbench.ask_to_leave(Then::AskOpen);
    }
    if workbench.document.is_none() {
        return;
    }
    if pressed(&SAVE_AS) {
        workbench.ask(Purpose::SaveAs);
    } else if pressed(&SAVE) {
        workbench.save();
    }
    if pressed(&EXPORT) {
        workbench.open_export();
    }
    let typing =
        ui.memory(|memory| memory.focused().is_some()) && ui.ctx().egui_wants_keyboard_input();
    // In a text field undo is the field's own.
    if !typing && pressed(&REDO) {
        workbench.redo();
    } else if !typing && pressed(&UNDO) {
        workbench.undo();
    }
    for (room, key) in Room::ALL.into_iter().zip(NUMBERS) {
        let with_command = pressed(&KeyboardShortcut::new(Modifiers::COMMAND, key));
        let alone = !typing && pressed(&KeyboardShortcut::new(Modifiers::NONE, key));
        if with_command || alone {
            workbench.selection.room = room;
        }
    }
    if !typing {
        step_sorts(workbench, ui);
    }
}

fn step_sorts(workbench: &mut Workbench, ui: &Ui) {
    let Some(Ok(drawn)) = workbench.drawn.result() else {
        return;
    };
    let by = ui.input(|input| {
        isize::from(input.key_pressed(Key::PageDown)) - isize::from(input.key_pressed(Key::PageUp))
    });
    if by != 0 {
        workbench.selection.step_sort(&drawn.sorts, by);
    }
    if ui.input(|input| input.modifiers.is_none() && input.key_pressed(Key::M)) {
        workbench.selection.as_printed = !workbench.selection.as_printed;
    }
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
}
