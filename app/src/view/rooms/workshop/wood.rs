//! A wood's form.

use egui::Ui;

use cam_core::workshop::Wood;

use super::super::super::fields::{self, heading, quantity, remark, tick};
use super::Bench;
use crate::model::shop::Named;
use crate::view::words::{Text, workshop::wood as words};

/// Shows the form; false if there is no such wood.
pub(super) fn show(ui: &mut Ui, bench: &mut Bench, place: usize) -> bool {
    let currency = bench.workshop.rates.currency.clone();
    let Some(wood) = bench.workshop.woods.get_mut(place) else {
        return false;
    };
    let before = wood.clone();
    heading(ui, &wood.name);
    if let Some(name) = fields::text(ui, words::NAME, &wood.name) {
        wood.name = name;
    }
    if let Some(id) = fields::text(ui, words::ID, &wood.id) {
        wood.id = id;
    }
    remark(ui, words::ID_HINT);
    if let Some(end_grain) = tick(ui, words::END, wood.end_grain) {
        wood.end_grain = end_grain;
    }
    let ask = |ui: &mut Ui, label: Text, value: &mut f64, unit: &str| {
        if let Some(number) = quantity(ui, label, *value, unit) {
            *value = number;
        }
    };
    ask(ui, words::DENSITY, &mut wood.density_kg_m3, "kg/m³");
    ask(ui, words::HARDNESS, &mut wood.hardness_n, "N");
    ask(ui, words::CHIP, &mut wood.chip_load_factor, "×");
    remark(ui, words::CHIP_HINT);
    ask(ui, words::FORCE, &mut wood.cutting_force_n_mm2, "N/mm²");
    let usual = Wood::usual_cutting_force(wood.density_kg_m3);
    if wood.cutting_force_n_mm2 != usual {
        let text = format!("{}: {usual} N/mm²", words::FORCE_HINT);
        if ui.small_button(text).clicked() {
            wood.cutting_force_n_mm2 = usual;
        }
    }
    ask(ui, words::PRICE, &mut wood.price_per_dm3, &currency);
    remark(ui, words::PRICE_HINT);
    let (is_changed, id) = (*wood != before, wood.id.clone());
    if is_changed {
        bench.what = "a wood";
    }
    if id != before.id {
        bench.rename(Named::Wood, &before.id, id);
    }
    true
}
