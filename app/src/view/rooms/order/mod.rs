//! The order: what is wanted, and how it is to be made.

mod again;
mod apart;
mod bill;
mod borders;
mod customer;
mod cutter_sets;
mod cutting;
mod drawings;
mod face;
mod faces;
mod feeds;
mod findings;
mod notches;
mod otherwise;
mod planks;
mod price;
mod relief;
mod size;
mod specimen;

use egui::{ScrollArea, Ui};

use super::super::Desk;
use super::super::theme::{self, Palette};

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    bill: bill::State,
    otherwise: otherwise::State,
    pub again: again::State,
}

/// Width of a column of settings, px.
const COLUMN: f32 = 352.0;

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    specimen::show(ui, desk);
    // On a narrow screen, or a much enlarged one, the settings stand below one another, so that the bill has room.
    let narrow = ui.available_width() < 3.0 * COLUMN + 80.0;
    let columns = if narrow { 1.0 } else { 2.0 };
    egui::Panel::left("settings")
        .exact_size(COLUMN * columns + 52.0)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                if narrow {
                    ui.set_width(COLUMN);
                    letters(ui, desk);
                    cutting::show(ui, desk);
                    planks::show(ui, desk);
                    return;
                }
                ui.horizontal_top(|ui| {
                    ui.vertical(|ui| {
                        ui.set_width(COLUMN);
                        letters(ui, desk);
                    });
                    ui.add_space(10.0);
                    ui.vertical(|ui| {
                        ui.set_width(COLUMN);
                        cutting::show(ui, desk);
                        planks::show(ui, desk);
                    });
                });
            });
        });
    egui::CentralPanel::default()
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                price::show(ui, desk);
                otherwise::show(ui, desk, &mut state.otherwise);
                bill::show(ui, desk, &mut state.bill);
                again::show(ui, desk, &mut state.again);
                findings::show(ui, desk);
            });
        });
}

/// What the letters are and how they stand on their blocks.
fn letters(ui: &mut Ui, desk: &mut Desk) {
    size::show(ui, desk);
    notches::show(ui, desk);
    face::show(ui, desk);
    faces::show(ui, desk);
    drawings::show(ui, desk);
    apart::show(ui, desk);
    borders::show(ui, desk);
}
