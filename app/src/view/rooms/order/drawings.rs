//! Drawings that are not fonts: named here, or traced from scans; each is cut as one sort.

use std::sync::Arc;

use cam_core::commission::{ColourRules, DrawingSize, Extent, GlyphChoice, NamedDrawing};
use cam_core::measure::{Length, System, Unit};
use drawing::Reading;
use egui::{RichText, Ui};

use super::super::super::Desk;
use super::super::super::fields::{self, choice, count, heading, remark, tick};
use crate::model::apply::count_of;
use crate::model::command::Command;
use crate::view::words::{Text, order::drawings as words};

/// A height or width to begin with.
const BEGINNING: Length = Length::mm(20.0);

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    heading(ui, words::DRAWINGS);
    if commission.drawings.is_empty() {
        remark(ui, words::WHAT);
    }
    for drawing in &commission.drawings {
        let many = count_of(&commission.bill, &drawing.id, &GlyphChoice::Drawing);
        egui::CollapsingHeader::new(RichText::new(format!("{}, {many}×", drawing.id)))
            .id_salt(("drawing", &drawing.id))
            .show(ui, |ui| one(ui, desk, drawing, many, commission.system));
    }
    let button = ui.button(words::NAME).on_hover_text(words::HINT);
    desk.wishes.name_drawing |= button.clicked();
}

fn one(ui: &mut Ui, desk: &mut Desk, before: &NamedDrawing, many: u32, system: System) {
    remark(ui, &before.file);
    if let Some(count) = count(ui, words::COUNT, many) {
        desk.send(Command::Count {
            face: before.id.clone(),
            glyph: GlyphChoice::Drawing,
            count,
        });
    }
    let mut drawing = before.clone();
    layer(ui, desk, &mut drawing);
    let extents = [
        (Extent::Drawing, words::ITSELF.to_string()),
        (Extent::Page, words::PAGE.to_string()),
    ];
    drawing.extent = choice(ui, words::EXTENT, &before.extent, &extents).unwrap_or(before.extent);
    size(ui, &mut drawing, system);
    for (own, label, value, unit) in [
        (words::OWN_BODY, words::BODY, &mut drawing.body, Unit::Point),
        (words::OWN_FOOT, words::FOOT, &mut drawing.foot, Unit::Point),
        (words::OWN_SET, words::SET, &mut drawing.set, Unit::Point),
        (
            words::OWN_SIDE,
            words::SIDE,
            &mut drawing.side,
            Unit::Millimetre,
        ),
    ] {
        stated(ui, own, label, value, unit, system);
    }
    let gap = fields::length(ui, words::GAP, before.join_gap, Unit::Millimetre, system);
    drawing.join_gap = gap.unwrap_or(before.join_gap);
    if let Some(by) = fields::text(ui, words::BY, &before.permission.by) {
        drawing.permission.by = by;
    }
    if let Some(on) = fields::text(ui, words::ON, &before.permission.on) {
        drawing.permission.on = on;
    }
    if drawing != *before {
        desk.send(Command::Drawing(drawing));
    }
    if ui.button(words::REMOVE).clicked() {
        desk.send(Command::RemoveDrawing(before.id.clone()));
    }
}

/// Which of its colours or layers is cut, of those that the file has; or a plate for each.
fn layer(ui: &mut Ui, desk: &mut Desk, drawing: &mut NamedDrawing) {
    let names = layers(ui, desk, drawing);
    let mut offered = vec![(None, words::ALL_LAYERS.to_string())];
    let named = names.iter().chain(&drawing.layer);
    for name in named {
        let layer = Some(name.clone());
        if offered.iter().all(|(known, _)| *known != layer) {
            offered.push((layer, name.clone()));
        }
    }
    if let Some(layer) = choice(ui, words::LAYER, &drawing.layer, &offered) {
        drawing.layer = layer;
    }
    let colours = desk.document.commission().colours.clone();
    let is_parted = |rules: &ColourRules| rules.drawings.contains(&drawing.id);
    if names.len() < 2 || colours.as_ref().is_some_and(is_parted) {
        return;
    }
    if ui.button(words::EACH_COLOUR).clicked() {
        let mut rules = colours.unwrap_or_else(ColourRules::starting);
        rules.drawings.push(drawing.id.clone());
        // A drawing in colours is all of it, so that comes first.
        if drawing.layer.take().is_some() {
            desk.send(Command::Drawing(drawing.clone()));
        }
        desk.send(Command::Colours(Some(rules)));
    }
}

/// The colours or layers of a drawing's file, read once for as long as it is the same.
fn layers(ui: &Ui, desk: &Desk, drawing: &NamedDrawing) -> Arc<Vec<String>> {
    /// Larger files are not read while the window waits: their layers are named in the commission's file.
    const MOST_BYTES: usize = 1 << 20;
    let Some(bytes) = desk.document.fonts().get(&drawing.id) else {
        return Arc::default();
    };
    if bytes.len() > MOST_BYTES {
        return Arc::default();
    }
    let id = egui::Id::unique(("layers", &drawing.id, bytes.as_ptr() as usize, bytes.len()));
    let known = ui.data(|data| data.get_temp::<Arc<Vec<String>>>(id));
    known.unwrap_or_else(|| {
        let reading = Reading {
            join_gap_mm: drawing.join_gap.in_mm(),
        };
        let read = drawing::read(bytes, &reading);
        let layers = read.map(|read| read.layers).unwrap_or_default();
        let names = Arc::new(layers.into_iter().map(|layer| layer.name).collect());
        ui.data_mut(|data| data.insert_temp(id, Arc::clone(&names)));
        names
    })
}

/// A length that is stated or left to the fount's rules.
fn stated(
    ui: &mut Ui,
    own: Text,
    label: Text,
    value: &mut Option<Length>,
    unit: Unit,
    system: System,
) {
    match tick(ui, own, value.is_some()) {
        Some(true) => *value = Some(Length::points_of(12.0, system)),
        Some(false) => *value = None,
        None => {}
    }
    if let Some(length) = value
        && let Some(typed) = fields::length(ui, label, *length, unit, system)
    {
        *length = typed;
    }
}

/// How the size is told, without its length.
#[derive(Clone, Copy, PartialEq)]
enum By {
    File,
    Height,
    Width,
}

fn size(ui: &mut Ui, drawing: &mut NamedDrawing, system: System) {
    let by = match drawing.size {
        DrawingSize::AsDrawn => By::File,
        DrawingSize::Height(_) => By::Height,
        DrawingSize::Width(_) => By::Width,
    };
    let ways = [
        (By::File, words::AS_DRAWN.to_string()),
        (By::Height, words::BY_HEIGHT.to_string()),
        (By::Width, words::BY_WIDTH.to_string()),
    ];
    if let Some(by) = choice(ui, words::SIZE, &by, &ways) {
        drawing.size = match by {
            By::File => DrawingSize::AsDrawn,
            By::Height => DrawingSize::Height(BEGINNING),
            By::Width => DrawingSize::Width(BEGINNING),
        };
    }
    let ask = |ui: &mut Ui, label: Text, length: &mut Length| {
        if let Some(typed) = fields::length(ui, label, *length, Unit::Millimetre, system) {
            *length = typed;
        }
    };
    match &mut drawing.size {
        DrawingSize::AsDrawn => {}
        DrawingSize::Height(height) => ask(ui, words::HEIGHT, height),
        DrawingSize::Width(width) => ask(ui, words::WIDTH, width),
    }
}
