//! The list of all actions, found by a few letters of what they are called or do.

use egui::{Key, Modifiers, RichText, ScrollArea, TextEdit, Ui};

use super::super::actions::Action;
use super::super::fields::remark;
use super::super::theme::{self, Palette};
use super::super::words;
use super::super::workbench::Workbench;

/// Width of the list, px.
const WIDTH: f32 = 560.0;
/// The part of the window's height that the list takes at most.
const HEIGHT: f32 = 0.55;

/// What is typed, and which of the actions found is chosen.
#[derive(Debug, Default)]
pub(super) struct Search {
    text: String,
    chosen: usize,
}

/// The actions in whose name, or else description, every word of a text stands; those by name come first.
fn found(text: &str) -> Vec<Action> {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    let has = |text: &str| {
        let text = text.to_lowercase();
        words.iter().all(|word| text.contains(word.as_str()))
    };
    let (by_name, others): (Vec<Action>, Vec<Action>) = Action::all()
        .into_iter()
        .partition(|action| has(&action.name()));
    let by_hint = others.into_iter().filter(|action| {
        let whole = format!("{} {}", action.name(), action.hint());
        has(&whole)
    });
    by_name.into_iter().chain(by_hint).collect()
}

/// Shows the list; `false` once it is done with.
pub(super) fn show(search: &mut Search, workbench: &mut Workbench, ui: &mut Ui) -> bool {
    let ctx = ui.ctx().clone();
    let mut chosen = None;
    let screen = ui.ctx().content_rect();
    let modal = theme::over(ui, "actions").show(ui, |ui| {
        ui.set_width(WIDTH.min(screen.width() - 60.0));
        let (up, down, enter) = ui.input_mut(|input| {
            let mut pressed = |key| input.consume_key(Modifiers::NONE, key);
            (
                pressed(Key::ArrowUp),
                pressed(Key::ArrowDown),
                pressed(Key::Enter),
            )
        });
        let label = ui.label(words::FIND);
        let field = TextEdit::singleline(&mut search.text).desired_width(f32::INFINITY);
        let field = ui.add(field).labelled_by(label.id);
        field.request_focus();
        if field.changed() {
            search.chosen = 0;
        }
        let found = found(&search.text);
        let last = found.len().saturating_sub(1);
        if down {
            search.chosen += 1;
        }
        if up {
            search.chosen = search.chosen.saturating_sub(1);
        }
        search.chosen = search.chosen.min(last);
        remark(ui, words::FIND_HOW);
        ui.add_space(4.0);
        if found.is_empty() {
            ui.label(words::NONE_FOUND);
        }
        ScrollArea::vertical()
            .max_height(screen.height() * HEIGHT)
            .min_scrolled_height(screen.height() * HEIGHT)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                for (place, action) in found.iter().enumerate() {
                    let is_chosen = place == search.chosen;
                    if line(ui, *action, is_chosen, up || down, workbench) {
                        chosen = Some(*action);
                    }
                }
            });
        if enter {
            chosen = chosen.or(found.get(search.chosen).copied());
        }
    });
    if let Some(action) = chosen {
        action.run(workbench, &ctx);
        return false;
    }
    !modal.should_close()
}

/// One action of the list; `true` if it was clicked.
fn line(ui: &mut Ui, action: Action, chosen: bool, moved: bool, workbench: &Workbench) -> bool {
    let palette = Palette::of(ui);
    let hindrance = action.hindrance(workbench);
    let keys = action.keys().map(|keys| ui.ctx().format_shortcut(&keys));
    let response = ui
        .horizontal(|ui| {
            // Quiet text is not read easily on what is chosen; the sentence below says it there.
            let colour = if hindrance.is_some() && !chosen {
                palette.quiet
            } else {
                palette.text
            };
            let name = RichText::new(action.name()).color(colour);
            let clicked = ui.add(egui::Button::selectable(chosen, name).truncate());
            if let Some(keys) = keys {
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    ui.label(RichText::new(keys).monospace().color(palette.quiet));
                });
            }
            clicked
        })
        .inner
        .on_hover_text(hindrance.unwrap_or(action.hint()));
    if chosen {
        remark(ui, hindrance.unwrap_or(action.hint()));
        if moved {
            response.scroll_to_me(None);
        }
    }
    response.clicked()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::selection::Room;

    #[test]
    fn actions_are_found_by_name_first_and_by_what_they_do() {
        assert_eq!(found("").len(), Action::all().len());
        assert_eq!(found("SAVE as")[0], Action::SaveAs);
        assert_eq!(found("bench room")[0], Action::GoTo(Room::Bench));
        assert!(found("inches").contains(&Action::Settings));
        assert!(found("no such thing").is_empty());
    }
}
