//! What was measured at the bench: a notebook to type or open, what it comes to, and a small picture of it.

mod picture;

use bench::notebook::Kind;
use bench::{Judged, example, judge};
use cam_core::sort::Sort;
use cam_core::workshop::Workshop;
use egui::{Button, RichText, TextEdit, Ui};

use super::super::Desk;
use super::super::fields::{heading, remark};
use super::super::theme::{self, Palette};
use crate::model::begun::{Order, begun};
use crate::model::kept::{is_keepable, kept};
use crate::view::words::{Text, bench as words, said};

/// Width of the notebook's panel, px.
const NOTEBOOK_WIDTH: f32 = 500.0;

/// What this room keeps for itself.
pub(in crate::view) struct State {
    kind: Kind,
    /// The notebook of each kind as it was left.
    texts: Vec<String>,
    /// What the text shown comes to.
    judged: Option<(String, Result<Judged, String>)>,
    /// A workshop that the maker wants kept, with what that does, until the window has taken it.
    pub keep: Option<(Workshop, String)>,
    /// A sentence why nothing was kept.
    refused: Option<String>,
}

impl Default for State {
    fn default() -> State {
        State {
            kind: Kind::Height,
            texts: Kind::ALL.map(|kind| example(kind).to_owned()).to_vec(),
            judged: None,
            keep: None,
            refused: None,
        }
    }
}

impl State {
    /// Shows a notebook that was opened; a sentence where it is none.
    pub fn take(&mut self, text: String) -> Result<(), String> {
        let kind = Kind::of(&text).map_err(|error| error.to_string())?;
        self.kind = kind;
        if let Some(place) = self.text() {
            *place = text;
        }
        Ok(())
    }

    /// The notebook that is shown.
    pub fn shown(&self) -> &str {
        let place = Kind::ALL.iter().position(|kind| *kind == self.kind);
        place
            .and_then(|place| self.texts.get(place))
            .map_or("", String::as_str)
    }

    fn text(&mut self) -> Option<&mut String> {
        let place = Kind::ALL.iter().position(|kind| *kind == self.kind)?;
        self.texts.get_mut(place)
    }

    /// Judges the notebook shown, unless that has been done.
    fn judge(&mut self) {
        let text = self.shown().to_owned();
        if self.judged.as_ref().is_none_or(|(old, _)| *old != text) {
            let judged = judge(&text).map_err(|error| error.to_string());
            self.judged = Some((text, judged));
            self.refused = None;
        }
    }
}

/// The name of a kind in the window.
fn name(kind: Kind) -> Text {
    match kind {
        Kind::Height => words::HEIGHT,
        Kind::Moisture => words::MOISTURE,
        Kind::Square => words::SQUARE,
        Kind::LockUp => words::LOCK_UP,
        Kind::Minutes => words::MINUTES,
        Kind::Losses => words::LOSSES,
    }
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    egui::Panel::left("notebook")
        .exact_size(NOTEBOOK_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| notebook(ui, desk, state));
    state.judge();
    egui::CentralPanel::default()
        .frame(theme::panel(&palette).fill(palette.paper))
        .show(ui, |ui| outcome(ui, desk, state));
}

fn notebook(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    remark(ui, words::KIND);
    ui.horizontal_wrapped(|ui| {
        for kind in Kind::ALL {
            ui.selectable_value(&mut state.kind, kind, name(kind));
        }
    });
    ui.horizontal(|ui| {
        if ui.button(words::OPEN).clicked() {
            desk.wishes.open_readings = true;
        }
        if ui.button(words::SAVE).clicked() {
            desk.wishes.save_readings = true;
        }
    });
    begin(ui, desk, state);
    let kind = state.kind;
    let label = ui.label(RichText::new(words::READINGS).color(Palette::of(ui).quiet));
    let below = 84.0;
    let Some(text) = state.text() else {
        return;
    };
    let is_example = text.as_str() == example(kind);
    egui::ScrollArea::vertical()
        .max_height((ui.available_height() - below).max(120.0))
        .show(ui, |ui| {
            let field = TextEdit::multiline(text)
                .code_editor()
                .desired_rows(18)
                .desired_width(f32::INFINITY);
            ui.add(field).labelled_by(label.id);
        });
    if is_example {
        remark(ui, words::OVERWRITE);
    }
    remark(ui, words::CAUTION);
}

/// Begins the notebook from the order that is open, where that says something for it.
fn begin(ui: &mut Ui, desk: &Desk, state: &mut State) {
    let sorts = desk.drawn.map_or(&[][..], |drawn| &drawn.sorts);
    let sorts: Vec<&Sort> = sorts.iter().map(AsRef::as_ref).collect();
    let programs = desk.job.filter(|_| !desk.job_is_old);
    let order = Order {
        commission: desk.document.commission(),
        workshop: desk.document.workshop(),
        sorts: &sorts,
        programs: programs.map_or(&[], |job| &job.programs),
    };
    let is_said = match state.kind {
        Kind::Square => false,
        Kind::Minutes => !order.programs.is_empty(),
        Kind::Height | Kind::Moisture | Kind::LockUp | Kind::Losses => !sorts.is_empty(),
    };
    let button = ui.add_enabled(is_said, Button::new(words::BEGIN));
    if button.on_hover_text(words::BEGIN_HINT).clicked()
        && let (Some(text), Some(place)) = (begun(state.kind, order), state.text())
    {
        *place = text;
    }
}

fn outcome(ui: &mut Ui, desk: &Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let Some((_, judged)) = &state.judged else {
        return;
    };
    let judged = match judged {
        Ok(judged) => judged,
        Err(sentence) => {
            heading(ui, name(state.kind));
            ui.colored_label(palette.stop, sentence);
            return;
        }
    };
    heading(ui, name(judged.kind()));
    let lines = judged.in_words();
    if let Some((verdict, rest)) = lines.split_first() {
        ui.label(RichText::new(said(verdict)).size(17.0).color(palette.ink));
        ui.add_space(2.0);
        let tall = (ui.available_height() * 0.4).max(90.0);
        egui::ScrollArea::vertical()
            .max_height(tall)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                for line in rest {
                    ui.label(RichText::new(said(line)).color(palette.text));
                }
            });
    }
    if is_keepable(judged) {
        ui.add_space(4.0);
        if ui.button(words::KEEP).clicked() {
            match kept(desk.document.workshop(), judged) {
                Ok(keep) => state.keep = Some(keep),
                Err(sentence) => state.refused = Some(sentence),
            }
        }
    }
    if let Some(sentence) = &state.refused {
        ui.colored_label(palette.warning, sentence);
    }
    ui.add_space(10.0);
    picture::paint(ui, judged, &palette);
}
