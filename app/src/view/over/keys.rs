//! The sheet of keys: those of the list of actions, and those of drawings.

use egui::{Grid, Key, KeyboardShortcut, Modifiers, RichText, ScrollArea, Ui};

use super::super::actions::{Action, Group};
use super::super::theme::{self, Palette};
use super::super::words::{self, Text};

/// The part of the window's height that the sheet takes at most.
const HEIGHT: f32 = 0.72;
/// Width of the sheet, px.
const WIDTH: f32 = 740.0;
/// The least width of the keys, px, so that what they do begins in one line: that of the four arrows.
const KEYS_WIDTH: f32 = 168.0;

/// Keys, and what they do.
type Line = (Vec<KeyboardShortcut>, Text);

/// The keys that drawings and controls answer to.
fn of_drawings() -> [(Text, Vec<Line>); 3] {
    let alone = |key| KeyboardShortcut::new(Modifiers::NONE, key);
    let with = |modifiers, key| KeyboardShortcut::new(modifiers, key);
    let arrows = [
        Key::ArrowLeft,
        Key::ArrowRight,
        Key::ArrowUp,
        Key::ArrowDown,
    ];
    let shifted = arrows.map(|key| with(Modifiers::SHIFT, key)).to_vec();
    [
        (
            words::KEYS_SHEETS,
            vec![
                (vec![alone(Key::F)], words::KEYS_FIT),
                (vec![alone(Key::D)], words::KEYS_MEASURE),
                (vec![alone(Key::Plus), alone(Key::Minus)], words::KEYS_ZOOM),
                (arrows.map(alone).to_vec(), words::KEYS_PAN),
            ],
        ),
        (
            words::KEYS_BLOCKS,
            vec![
                (shifted, words::KEYS_MOVE_BLOCK),
                (vec![alone(Key::P)], words::KEYS_PIN),
            ],
        ),
        (
            words::KEYS_EVERYWHERE,
            vec![
                (
                    vec![alone(Key::Tab), with(Modifiers::SHIFT, Key::Tab)],
                    words::KEYS_TAB,
                ),
                (
                    vec![alone(Key::Space), alone(Key::Enter)],
                    words::KEYS_PRESS,
                ),
                (vec![alone(Key::Escape)], words::KEYS_LEAVE),
            ],
        ),
    ]
}

/// Shows the sheet; `false` once it is closed.
pub(super) fn show(ui: &mut Ui) -> bool {
    let screen = ui.ctx().content_rect();
    let mut stays = true;
    let modal = theme::over(ui, "keys").show(ui, |ui| {
        ui.set_width(WIDTH.min(screen.width() - 60.0));
        ui.heading(words::KEYS_TITLE);
        ScrollArea::vertical()
            .max_height(screen.height() * HEIGHT)
            // At once, so that what stands below does not move when it is reached for.
            .min_scrolled_height(screen.height() * HEIGHT)
            .auto_shrink([false, true])
            .show(ui, contents);
        ui.add_space(6.0);
        stays = !ui.button(words::CLOSE).clicked();
    });
    stays && !modal.should_close()
}

fn contents(ui: &mut Ui) {
    for group in Group::ALL {
        let actions = Action::all().into_iter().filter(|one| one.group() == group);
        let lines: Vec<(Vec<KeyboardShortcut>, String)> = actions
            .filter_map(|action| Some((vec![action.keys()?], action.name())))
            .collect();
        part(ui, group.name(), &lines);
    }
    for (title, lines) in of_drawings() {
        let lines: Vec<(Vec<KeyboardShortcut>, String)> = lines
            .into_iter()
            .map(|(keys, what)| (keys, what.into()))
            .collect();
        part(ui, title, &lines);
    }
}

/// One heading with its keys.
fn part(ui: &mut Ui, title: Text, lines: &[(Vec<KeyboardShortcut>, String)]) {
    if lines.is_empty() {
        return;
    }
    let palette = Palette::of(ui);
    ui.add_space(6.0);
    ui.label(RichText::new(title).strong().size(15.5));
    let table = Grid::new(title.said())
        .num_columns(2)
        .min_col_width(KEYS_WIDTH)
        .spacing([18.0, 5.0]);
    table.show(ui, |ui| {
        for (keys, what) in lines {
            let keys: Vec<String> = keys
                .iter()
                .map(|keys| ui.ctx().format_shortcut(keys))
                .collect();
            let keys = RichText::new(keys.join(", ")).monospace();
            ui.label(keys.color(palette.accent));
            ui.label(what);
            ui.end_row();
        }
    });
}
