//! Places on a plank as tables: clamps and bad places.

use cam_core::commission::Clamp;
use cam_core::measure::{Length, System, Unit};
use cam_core::workshop::BadPlace;
use egui::{RichText, Ui};

use super::super::super::fields::{length_cell, text_cell};
use super::super::super::theme::Palette;
use crate::view::words::{Text, workshop::clamps as words};

/// The head of a table.
fn head(ui: &mut Ui, titles: [Text; 5]) {
    let quiet = Palette::of(ui).quiet;
    for title in titles {
        ui.label(RichText::new(title).small().color(quiet));
    }
    ui.end_row();
}

fn cell(ui: &mut Ui, name: &str, value: &mut Length, system: System) {
    if let Some(length) = length_cell(ui, name, *value, Unit::Millimetre, system) {
        *value = length;
    }
}

/// A button that takes row `number` out of a table.
fn taking(ui: &mut Ui, what: &str) -> bool {
    let button = ui.small_button(words::TAKE);
    let label = words::TAKE_OUT.with(&[what]);
    button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &label));
    button.on_hover_text(label.clone()).clicked()
}

/// The clamps of a plank, or of all planks of an order.
pub(in crate::view::rooms) fn clamps(ui: &mut Ui, clamps: &mut Vec<Clamp>, system: System) {
    let mut out = None;
    if !clamps.is_empty() {
        egui::Grid::new("clamps").num_columns(6).show(ui, |ui| {
            head(
                ui,
                [
                    words::FROM_LEFT,
                    words::FROM_NEAR,
                    words::WIDTH,
                    words::LENGTH,
                    words::HEIGHT,
                ],
            );
            for (number, clamp) in clamps.iter_mut().enumerate() {
                let name = words::CLAMP.with(&[&(number + 1).to_string()]);
                for (key, value) in [
                    (words::FROM_LEFT, &mut clamp.x),
                    (words::FROM_NEAR, &mut clamp.y),
                    (words::WIDTH, &mut clamp.width),
                    (words::LENGTH, &mut clamp.length),
                    (words::HEIGHT, &mut clamp.height),
                ] {
                    cell(ui, &format!("{name}, {key}"), value, system);
                }
                if taking(ui, &name.to_lowercase()) {
                    out = Some(number);
                }
                ui.end_row();
            }
        });
    }
    if let Some(number) = out {
        clamps.remove(number);
    }
    if ui.small_button(words::ADD_CLAMP).clicked() {
        clamps.push(Clamp {
            x: Length::mm(0.0),
            y: Length::mm(0.0),
            width: Length::mm(25.0),
            length: Length::mm(25.0),
            height: Length::mm(15.0),
        });
    }
}

/// Knots, glue lines and checks.
pub(super) fn bad_places(ui: &mut Ui, places: &mut Vec<BadPlace>, system: System) {
    let mut out = None;
    if !places.is_empty() {
        egui::Grid::new("bad places").num_columns(6).show(ui, |ui| {
            head(
                ui,
                [
                    words::FROM_LEFT,
                    words::FROM_NEAR,
                    words::WIDTH,
                    words::LENGTH,
                    words::WHAT,
                ],
            );
            for (number, place) in places.iter_mut().enumerate() {
                let name = words::BAD_PLACE.with(&[&(number + 1).to_string()]);
                for (key, value) in [
                    (words::FROM_LEFT, &mut place.x),
                    (words::FROM_NEAR, &mut place.y),
                    (words::WIDTH, &mut place.width),
                    (words::LENGTH, &mut place.length),
                ] {
                    cell(ui, &format!("{name}, {key}"), value, system);
                }
                if let Some(what) = text_cell(ui, format!("{name}, what"), &place.what) {
                    place.what = what;
                }
                if taking(ui, &name.to_lowercase()) {
                    out = Some(number);
                }
                ui.end_row();
            }
        });
    }
    if let Some(number) = out {
        places.remove(number);
    }
    if ui.small_button(words::ADD_BAD).clicked() {
        places.push(BadPlace {
            x: Length::mm(20.0),
            y: Length::mm(20.0),
            width: Length::mm(10.0),
            length: Length::mm(10.0),
            what: "knot".to_owned(),
        });
    }
}
