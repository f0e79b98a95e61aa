//! The case: all glyphs of the font, from which sorts are ordered.

use std::collections::BTreeSet;

use egui::{
    Align2, FontId, Rect, RichText, Role, ScrollArea, Sense, TextEdit, Ui, WidgetInfo, pos2, vec2,
};

use cam_core::bill::MOST_OF_ONE;
use cam_core::commission::{Face, GlyphChoice};

use super::super::Desk;
use super::super::fields::{choice, heading, remark};
use super::super::theme::{self, Palette};
use super::super::words::WORKING;
use crate::background::catalogue::{Catalogue, Glyph, parse};
use crate::model::apply::count_of;
use crate::model::command::Command;
use crate::view::words::case as words;

/// Size of a cell, px.
const CELL: egui::Vec2 = vec2(92.0, 112.0);
/// Height of the letter inside a cell, px.
const LETTER: f32 = 76.0;
/// The most letters of a title that find room below the letter.
const TITLE_LETTERS: usize = 14;

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    search: String,
    only_ordered: bool,
    looked_at: Option<u16>,
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let Some((_, catalogue)) = desk.cased else {
        if desk.document.commission().faces.len() > 1 {
            egui::Panel::top("faces").show(ui, |ui| faces(ui, desk));
        }
        egui::CentralPanel::default().show(ui, |ui| {
            ui.centered_and_justified(|ui| ui.label(WORKING));
        });
        return;
    };
    let shown: Vec<&Glyph> = catalogue
        .glyphs
        .iter()
        .filter(|glyph| glyph.answers(&state.search))
        .filter(|glyph| !state.only_ordered || ordered(desk, glyph) > 0)
        .collect();
    egui::Panel::right("glyph")
        .exact_size(theme::SIDE_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| side(ui, desk, catalogue, state));
        });
    egui::Panel::top("search")
        .frame(theme::panel(&palette))
        .show(ui, |ui| search(ui, desk, &shown, state));
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.paper).inner_margin(8))
        .show(ui, |ui| grid(ui, desk, &shown, state));
}

fn ordered(desk: &Desk, glyph: &Glyph) -> u32 {
    let face = desk.cased.map_or("", |(face, _)| face.id.as_str());
    count_of(&desk.document.commission().bill, face, &glyph.choice)
}

fn set_count(desk: &mut Desk, choice: &GlyphChoice, count: u32) {
    if let Some(face) = desk.cased.map(|(face, _)| face.id.clone()) {
        desk.send(Command::Count {
            face,
            glyph: choice.clone(),
            count: count.min(MOST_OF_ONE),
        });
    }
}

fn search(ui: &mut Ui, desk: &mut Desk, shown: &[&Glyph], state: &mut State) {
    faces(ui, desk);
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(words::SEARCH);
        let field = TextEdit::singleline(&mut state.search)
            .desired_width(220.0)
            .hint_text(words::HINT);
        ui.add(field).labelled_by(label.id);
        ui.checkbox(&mut state.only_ordered, words::ONLY_ORDERED);
        let few = !state.search.trim().is_empty() && !shown.is_empty();
        if ui
            .add_enabled(few, egui::Button::new(words::EVERY))
            .clicked()
        {
            for glyph in shown {
                let count = ordered(desk, glyph) + 1;
                set_count(desk, &glyph.choice, count);
            }
        }
        remark(ui, words::HOW);
    });
}

/// Which face is shown, where there are several.
fn faces(ui: &mut Ui, desk: &mut Desk) {
    let faces = &desk.document.commission().faces;
    if faces.len() < 2 {
        return;
    }
    let shown = desk.cased.map_or("", |(face, _)| face.id.as_str());
    let known = |face: &&Face| Some(&face.id) == desk.selection.face.as_ref();
    let shown = faces
        .iter()
        .find(known)
        .map_or(shown, |face| face.id.as_str());
    let options: Vec<(String, String)> = faces
        .iter()
        .map(|face| (face.id.clone(), face.id.clone()))
        .collect();
    if let Some(chosen) = choice(ui, words::FACE, &shown.to_owned(), &options) {
        desk.selection.face = Some(chosen);
    }
}

/// Lays out only the rows that are seen.
fn grid(ui: &mut Ui, desk: &mut Desk, shown: &[&Glyph], state: &mut State) {
    if shown.is_empty() {
        ui.centered_and_justified(|ui| ui.label(words::NONE));
        return;
    }
    ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
    let columns = ((ui.available_width() + 4.0) / (CELL.x + 4.0))
        .floor()
        .max(1.0) as usize;
    let rows = shown.len().div_ceil(columns);
    ScrollArea::vertical()
        .auto_shrink(false)
        .show_rows(ui, CELL.y, rows, |ui, range| {
            for row in range {
                ui.horizontal(|ui| {
                    for glyph in shown.iter().skip(row * columns).take(columns) {
                        cell(ui, desk, glyph, state);
                    }
                });
            }
        });
}

fn cell(ui: &mut Ui, desk: &mut Desk, glyph: &Glyph, state: &mut State) {
    let palette = Palette::of(ui);
    let count = ordered(desk, glyph);
    let (rect, response) = ui.allocate_exact_size(CELL, Sense::click());
    response.widget_info(|| {
        let label = words::GLYPH.with(&[&glyph.title(), &count.to_string()]);
        WidgetInfo::selected(Role::Button, true, count > 0, label)
    });
    let painter = ui.painter();
    if count > 0 {
        painter.rect_filled(rect, 3.0, palette.accent.gamma_multiply(0.14));
    }
    if response.hovered() || response.has_focus() {
        let stroke = egui::Stroke::new(1.0, palette.accent);
        painter.rect_stroke(rect, 3.0, stroke, egui::StrokeKind::Inside);
        state.looked_at = Some(glyph.index);
    }
    let letter = Rect::from_min_size(rect.min + vec2(0.0, 10.0), vec2(CELL.x, LETTER));
    if let Some(cased) = desk.cased {
        desk.paint_glyph_of(ui, cased, glyph.index, letter);
    }
    let painter = ui.painter();
    let under = pos2(rect.center().x, rect.bottom() - 5.0);
    let title = short(&glyph.title());
    painter.text(
        under,
        Align2::CENTER_BOTTOM,
        title,
        FontId::proportional(11.5),
        palette.quiet,
    );
    if count > 0 {
        let corner = rect.right_top() + vec2(-6.0, 4.0);
        let text = format!("{count}×");
        painter.text(
            corner,
            Align2::RIGHT_TOP,
            text,
            FontId::proportional(12.5),
            palette.accent,
        );
    }
    if response.clicked() {
        set_count(desk, &glyph.choice, count + 1);
    } else if response.secondary_clicked() && count > 0 {
        set_count(desk, &glyph.choice, count - 1);
    }
}

/// A title that fits below a glyph: of a long one the beginning and the end, in which names of one family differ.
fn short(title: &str) -> String {
    let letters: Vec<char> = title.chars().collect();
    if letters.len() <= TITLE_LETTERS {
        return title.to_owned();
    }
    let half = TITLE_LETTERS / 2;
    let (first, last) = (&letters[..half], &letters[letters.len() + 1 - half..]);
    let dots = ['…'];
    first.iter().chain(&dots).chain(last).collect()
}

fn side(ui: &mut Ui, desk: &mut Desk, catalogue: &Catalogue, state: &mut State) {
    heading(ui, &catalogue.title);
    let looked_at = state.looked_at;
    let found =
        looked_at.and_then(|index| catalogue.glyphs.iter().find(|glyph| glyph.index == index));
    let Some(glyph) = found else {
        remark(ui, words::NOTHING);
        return;
    };
    let size = vec2(ui.available_width(), 250.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| {
        WidgetInfo::labeled(Role::Image, true, words::LARGE.with(&[&glyph.title()]))
    });
    ui.painter().rect_filled(rect, 3.0, Palette::of(ui).paper);
    if let Some(cased) = desk.cased {
        desk.paint_glyph_of(ui, cased, glyph.index, rect.shrink(24.0));
    }
    ui.label(RichText::new(glyph.title()).size(18.0));
    remark(ui, description(glyph));
    let mut count = ordered(desk, glyph);
    ui.horizontal(|ui| {
        let label = ui.label(words::COUNT);
        let value = egui::DragValue::new(&mut count)
            .range(0..=MOST_OF_ONE)
            .speed(0.05);
        let value = ui.add(value).labelled_by(label.id);
        if value.on_hover_text(words::COUNT_HINT).changed() {
            set_count(desk, &glyph.choice, count);
        }
    });
    alternates(ui, desk, catalogue, glyph, state);
}

fn description(glyph: &Glyph) -> String {
    let codes = glyph
        .characters
        .iter()
        .map(|&c| format!("U+{:04X}", c as u32));
    let name = glyph.name.iter().cloned();
    let index = std::iter::once(words::GLYPH_NUMBER.with(&[&glyph.index.to_string()]));
    codes
        .take(4)
        .chain(name)
        .chain(index)
        .collect::<Vec<_>>()
        .join(" · ")
}

/// The glyphs that the font's features put in this one's place.
fn alternates(
    ui: &mut Ui,
    desk: &mut Desk,
    catalogue: &Catalogue,
    glyph: &Glyph,
    state: &mut State,
) {
    let Some(&character) = glyph.characters.first() else {
        return;
    };
    let found = alternates_of(desk, catalogue, glyph.index);
    if found.is_empty() {
        return;
    }
    heading(ui, words::ALTERNATES);
    ui.horizontal_wrapped(|ui| {
        for (feature, index) in found {
            let alternate = Glyph {
                index,
                characters: Vec::new(),
                name: Some(feature.clone()),
                features: BTreeSet::new(),
                choice: GlyphChoice::Character {
                    character,
                    features: vec![feature],
                },
            };
            let looked_at = state.looked_at;
            cell(ui, desk, &alternate, state);
            state.looked_at = looked_at;
        }
    });
}

fn alternates_of(desk: &Desk, catalogue: &Catalogue, glyph: u16) -> Vec<(String, u16)> {
    let font = desk.cased.and_then(|(face, _)| {
        let bytes = desk.document.fonts().get(&face.id)?;
        parse(face, bytes).ok()
    });
    let Some(font) = font else {
        return Vec::new();
    };
    let single = |feature: &String| match font.substitute(glyph, feature)?.as_slice() {
        &[one] if one != glyph => Some((feature.clone(), one)),
        _ => None,
    };
    catalogue.features.iter().filter_map(single).collect()
}
