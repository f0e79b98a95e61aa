//! Drawings that are not fonts: named here, or traced from scans; each is cut as one sort.

use std::sync::Arc;

use cam_core::commission::{DrawingSize, Extent, GlyphChoice, NamedDrawing};
use cam_core::measure::{Length, System, Unit};
use egui::{RichText, Ui};

use super::super::super::Desk;
use super::super::super::fields::{self, choice, count, heading, remark, tick};
use crate::model::apply::count_of;
use crate::model::command::Command;

/// Words of this view.
mod words {
    pub const DRAWINGS: &str = "Drawings";
    pub const WHAT: &str =
        "Ornaments, borders and letters that are in no font: SVG or DXF files, or scans.";
    pub const NAME: &str = "Name a drawing or a scan…";
    pub const HINT: &str = "A scan is traced first";
    pub const COUNT: &str = "Ordered";
    pub const LAYER: &str = "Colour or layer";
    pub const LAYER_HINT: &str = "All of it, if it is empty.";
    pub const EXTENT: &str = "Measured by";
    pub const ITSELF: &str = "the drawing itself";
    pub const PAGE: &str = "its page";
    pub const SIZE: &str = "Its size";
    pub const AS_DRAWN: &str = "as the file states it";
    pub const BY_HEIGHT: &str = "by its height";
    pub const BY_WIDTH: &str = "by its width";
    pub const HEIGHT: &str = "High";
    pub const WIDTH: &str = "Wide";
    pub const OWN_BODY: &str = "On a body of its own";
    pub const BODY: &str = "Body";
    pub const OWN_FOOT: &str = "At a stated height";
    pub const FOOT: &str = "Wood at foot";
    pub const OWN_SET: &str = "On a set of its own";
    pub const SET: &str = "Set";
    pub const OWN_SIDE: &str = "With stated sides";
    pub const SIDE: &str = "Wood at each side";
    pub const GAP: &str = "Ends joined within";
    pub const BY: &str = "Permission given by";
    pub const ON: &str = "Given on";
    pub const REMOVE: &str = "Take it out";
}

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
    let layer = drawing.layer.clone().unwrap_or_default();
    if let Some(layer) = fields::text(ui, words::LAYER, &layer) {
        drawing.layer = (!layer.is_empty()).then_some(layer);
    }
    remark(ui, words::LAYER_HINT);
    let extents = [
        (Extent::Drawing, words::ITSELF.to_owned()),
        (Extent::Page, words::PAGE.to_owned()),
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

/// A length that is stated or left to the fount's rules.
fn stated(
    ui: &mut Ui,
    own: &str,
    label: &str,
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
        (By::File, words::AS_DRAWN.to_owned()),
        (By::Height, words::BY_HEIGHT.to_owned()),
        (By::Width, words::BY_WIDTH.to_owned()),
    ];
    if let Some(by) = choice(ui, words::SIZE, &by, &ways) {
        drawing.size = match by {
            By::File => DrawingSize::AsDrawn,
            By::Height => DrawingSize::Height(BEGINNING),
            By::Width => DrawingSize::Width(BEGINNING),
        };
    }
    let ask = |ui: &mut Ui, label: &str, length: &mut Length| {
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
