//! Spaces and quads: those ordered, one more, and how many a text or the fount needs.

use std::sync::Arc;

use egui::{RichText, TextEdit, Ui};

use cam_core::bill::{MOST_OF_ONE, Need, for_fount, for_text};
use cam_core::commission::SpaceLine;
use cam_core::measure::Unit;
use cam_core::sort::Sort;

use super::super::super::super::Desk;
use super::super::super::super::fields::heading;
use super::super::super::super::theme::Palette;
use crate::model::command::Command;
use crate::model::typed::read_length;
use crate::view::words::order::spaces as words;

/// What this view keeps for itself.
#[derive(Default)]
pub(super) struct State {
    space: String,
    error: Option<String>,
}

/// Shows the spaces; `text` is what is to be set, if the maker typed any.
pub(super) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State, text: Option<(&str, Need)>) {
    heading(ui, words::SPACES);
    ordered(ui, desk);
    one_more(ui, desk, state);
    worked_out(ui, desk, text);
}

fn ordered(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    ui.horizontal_wrapped(|ui| {
        for line in &commission.spaces {
            let label = ui.label(line.set.show(Unit::Point, commission.system));
            let mut count = line.count;
            let value = egui::DragValue::new(&mut count)
                .range(0..=MOST_OF_ONE)
                .speed(0.05);
            if ui.add(value).labelled_by(label.id).changed() {
                desk.send(Command::Space {
                    set: line.set,
                    count,
                });
            }
        }
    });
}

fn one_more(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let commission = Arc::clone(desk.document.commission());
    ui.horizontal(|ui| {
        let label = ui.label(RichText::new(words::SET).color(palette.quiet));
        let field = TextEdit::singleline(&mut state.space)
            .desired_width(80.0)
            .hint_text(words::SET_HINT);
        let response = ui.add(field).labelled_by(label.id);
        let entered =
            response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
        if ui.button(words::ADD_SPACE).clicked() || entered {
            match read_length(&state.space, Unit::Point, commission.system) {
                Ok(set) => {
                    let present = commission.spaces.iter().find(|line| line.set == set);
                    let count = present.map_or(0, |line| line.count).saturating_add(1);
                    desk.send(Command::Space { set, count });
                    state.space.clear();
                    state.error = None;
                }
                Err(error) => state.error = Some(error),
            }
        }
    });
    if let Some(error) = &state.error {
        ui.colored_label(palette.stop, error);
    }
}

fn worked_out(ui: &mut Ui, desk: &mut Desk, text: Option<(&str, Need)>) {
    let commission = Arc::clone(desk.document.commission());
    if commission.bill.is_empty() {
        return;
    }
    let mut wanted: Option<Vec<SpaceLine>> = None;
    ui.horizontal(|ui| {
        if let (Some((text, need)), Some(drawn)) = (text, desk.drawn) {
            let button = ui
                .button(words::FOR_TEXT)
                .on_hover_text(words::FOR_TEXT_HINT);
            if button.clicked() {
                let first = commission.faces.first().map(|face| face.id.as_str());
                let of_face =
                    |sort: &&Sort| sort.source.as_ref().map(|source| source.face.as_str()) == first;
                let sorts: Vec<&Sort> = drawn
                    .sorts
                    .iter()
                    .map(|sort| &**sort)
                    .filter(of_face)
                    .collect();
                wanted = Some(for_text(&sorts, &commission, text, need, None).spaces);
            }
        }
        let button = ui
            .button(words::FOR_FOUNT)
            .on_hover_text(words::FOR_FOUNT_HINT);
        if button.clicked() {
            wanted = Some(for_fount(&commission));
        }
    });
    if let Some(spaces) = wanted {
        desk.send(Command::RaiseSpaces(spaces));
    }
}
