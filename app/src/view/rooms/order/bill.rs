//! The bill: the sorts ordered and how many of each.

mod check;
mod scheme;
mod spaces;

use std::sync::Arc;

use egui::{RichText, TextEdit, Ui};

use cam_core::bill::{BillError, MOST_OF_ONE, Need, from_list, from_text};
use cam_core::commission::{BillLine, GlyphChoice};

use super::super::super::Desk;
use super::super::super::fields::{choice, heading, remark};
use super::super::super::theme::Palette;
use crate::background::catalogue::parse;
use crate::model::command::Command;
use crate::model::selection::Room;
use crate::view::words::{Text, order::bill as words};

/// Width of a card with its frame, and the gap between cards, px.
const CARD: f32 = 92.0;
const GAP: f32 = 6.0;
/// Width of the letters on a card, px.
const LETTERS: f32 = 30.0;

/// Where sorts are taken from.
#[derive(Clone, Copy, Default, PartialEq)]
enum Way {
    #[default]
    Text,
    List,
    Scheme,
}

/// What this view keeps for itself.
#[derive(Default)]
pub(super) struct State {
    way: Way,
    text: String,
    list: String,
    need: Option<Need>,
    scheme: scheme::State,
    error: Option<String>,
    spaces: spaces::State,
}

pub(super) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    heading(ui, words::BILL);
    add(ui, desk, state);
    let commission = Arc::clone(desk.document.commission());
    let total: u32 = commission.bill.iter().map(|line| line.count).sum();
    if commission.bill.is_empty() {
        remark(ui, words::EMPTY);
    } else {
        remark(
            ui,
            words::KINDS.with(&[&total.to_string(), &commission.bill.len().to_string()]),
        );
    }
    let columns = ((ui.available_width() + GAP) / (CARD + GAP))
        .floor()
        .max(1.0) as usize;
    for row in commission.bill.chunks(columns) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            for line in row {
                bill_line(ui, desk, line);
            }
        });
    }
    ui.horizontal(|ui| {
        if ui.button(words::CASE).clicked() {
            desk.selection.room = Room::Case;
        }
        if !commission.bill.is_empty() && ui.button(words::CLEAR).clicked() {
            desk.send(Command::ClearBill);
        }
    });
    let need = state.need.unwrap_or(Need::AllLines);
    let text = (!state.text.trim().is_empty()).then_some((state.text.as_str(), need));
    spaces::show(ui, desk, &mut state.spaces, text);
}

fn add(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    ui.horizontal(|ui| {
        ui.selectable_value(&mut state.way, Way::Text, words::TEXT);
        ui.selectable_value(&mut state.way, Way::List, words::LIST);
        ui.selectable_value(&mut state.way, Way::Scheme, words::SCHEME);
    });
    let ready = match state.way {
        Way::Text => {
            let needs = [
                (Need::AllLines, words::ALL_LINES.to_string()),
                (Need::AnyLine, words::ANY_LINE.to_string()),
            ];
            let need = state.need.unwrap_or(Need::AllLines);
            state.need = choice(ui, words::NEED, &need, &needs).or(state.need);
            let ready = typed(
                ui,
                (words::TEXT_FIELD, words::TEXT_HINT),
                &mut state.text,
                &mut state.error,
            );
            check::show(ui, desk, &state.text, state.need.unwrap_or(Need::AllLines));
            ready
        }
        Way::List => typed(
            ui,
            (words::LIST_FIELD, words::LIST_HINT),
            &mut state.list,
            &mut state.error,
        ),
        Way::Scheme => {
            let own = &desk.document.workshop().tables;
            if scheme::show(ui, &mut state.scheme, own) {
                state.error = None;
            }
            state.scheme.is_ready()
        }
    };
    let button = ui.add_enabled(ready, egui::Button::new(words::ADD));
    if button.clicked() || state.scheme.is_entered() {
        match lines(desk, state) {
            Ok(lines) => {
                desk.send(Command::Raise(lines));
                // A text stays: it is laid against the bill, and spaces are worked out for it.
                state.list.clear();
                state.error = None;
            }
            Err(error) => state.error = Some(error.to_string()),
        }
    }
    if let Some(error) = &state.error {
        ui.colored_label(Palette::of(ui).stop, error);
    }
}

fn typed(
    ui: &mut Ui,
    (name, hint): (Text, Text),
    text: &mut String,
    error: &mut Option<String>,
) -> bool {
    let label = ui.label(RichText::new(name).small().color(Palette::of(ui).quiet));
    let field = TextEdit::multiline(text)
        .desired_rows(2)
        .desired_width(f32::INFINITY)
        .hint_text(hint);
    if ui.add(field).labelled_by(label.id).changed() {
        *error = None;
    }
    !text.trim().is_empty()
}

fn lines(desk: &Desk, state: &State) -> Result<Vec<BillLine>, BillError> {
    let face = desk.main_face().unwrap_or_default();
    match state.way {
        Way::Text => {
            let main = desk.document.commission().faces.first();
            let font = main.and_then(|main| {
                let bytes = desk.document.fonts().get(&main.id)?;
                parse(main, bytes).ok()
            });
            let has = |character| {
                font.as_ref()
                    .is_some_and(|font| font.glyph_for(character).is_some())
            };
            from_text(face, &state.text, state.need.unwrap_or(Need::AllLines), has)
        }
        Way::List => from_list(face, &state.list),
        Way::Scheme => state.scheme.lines(face, &desk.document.workshop().tables),
    }
}

/// One kind of sort with its count, as a small card.
fn bill_line(ui: &mut Ui, desk: &mut Desk, line: &BillLine) {
    let palette = Palette::of(ui);
    let frame = egui::Frame::new()
        .fill(palette.paper)
        .stroke(egui::Stroke::new(1.0, palette.line))
        .corner_radius(3.0)
        .inner_margin(egui::Margin::symmetric(6, 2));
    frame.show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            // The frame's margins and line are 14 px.
            ui.set_width(CARD - 14.0);
            let label = letters(ui, desk, line);
            let mut count = line.count;
            let value = egui::DragValue::new(&mut count)
                .range(0..=MOST_OF_ONE)
                .speed(0.05);
            let response = ui.add(value).labelled_by(label.id);
            let response = response.on_hover_text(words::COUNT_HINT);
            if response.changed() {
                desk.send(Command::Count {
                    face: line.face.clone(),
                    glyph: line.glyph.clone(),
                    count,
                });
            }
        });
    });
}

/// The letter of a line of the bill as it is drawn, or how it was chosen if that is not known.
fn letters(ui: &mut Ui, desk: &mut Desk, line: &BillLine) -> egui::Response {
    let name = choice_in_words(line);
    let glyph = desk.catalogue.and_then(|catalogue| {
        let found = catalogue
            .glyphs
            .iter()
            .find(|glyph| glyph.choice == line.glyph);
        found.map(|glyph| glyph.index)
    });
    let size = egui::vec2(LETTERS, ui.spacing().interact_size.y);
    let Some(glyph) = glyph else {
        let text = RichText::new(&name).strong().size(15.0);
        return ui.add_sized(size, egui::Label::new(text).truncate());
    };
    let (rect, response) = ui.allocate_exact_size(size, egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &name));
    desk.paint_glyph(ui, glyph, rect.expand2(egui::vec2(0.0, 1.0)));
    response
}

/// How a glyph was chosen, in a few words.
fn choice_in_words(line: &BillLine) -> String {
    match &line.glyph {
        GlyphChoice::Character {
            character,
            features,
        } if features.is_empty() => character.to_string(),
        GlyphChoice::Character {
            character,
            features,
        } => format!("{character} {}", features.join(" ")),
        GlyphChoice::Ligature { text, .. } => text.clone(),
        GlyphChoice::Name(name) => name.clone(),
        GlyphChoice::Index(index) => words::NUMBERED.with(&[&index.to_string()]),
        GlyphChoice::Drawing => line.face.clone(),
    }
}
