//! What an hour costs, and how long handwork takes.

use egui::Ui;

use super::super::super::fields::{self, heading, quantity, remark};
use super::Bench;
use crate::view::words::{Text, workshop::rates as words};

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let before = bench.workshop.rates.clone();
    let rates = &mut bench.workshop.rates;
    heading(ui, words::RATES);
    if let Some(currency) = fields::text(ui, words::CURRENCY, &rates.currency) {
        rates.currency = currency;
    }
    let currency = rates.currency.clone();
    let ask = |ui: &mut Ui, label: Text, value: &mut f64, unit: &str| {
        if let Some(number) = quantity(ui, label, *value, unit) {
            *value = number;
        }
    };
    ask(ui, words::MACHINE, &mut rates.machine_per_hour, &currency);
    ask(ui, words::HAND, &mut rates.hand_per_hour, &currency);
    heading(ui, words::HANDWORK);
    for (label, minutes) in [
        (words::CORNER, &mut rates.corner_minutes),
        (words::GROUND, &mut rates.ground_minutes_per_cm2),
        (words::FIXING, &mut rates.fixing_minutes_per_plank),
        (words::SANDING, &mut rates.sanding_minutes_per_plank),
        (words::SEALING, &mut rates.sealing_minutes_per_plank),
        (words::PARTING, &mut rates.parting_minutes_per_block),
        (words::PACKING, &mut rates.packing_minutes),
        (words::PACKING_BLOCK, &mut rates.packing_minutes_per_block),
    ] {
        ask(ui, label, minutes, "min");
        if label == words::GROUND {
            remark(ui, words::GROUND_HINT);
        }
    }
    heading(ui, words::PRICE);
    percent(ui, words::BREAKAGE, &mut rates.breakage);
    remark(ui, words::BREAKAGE_HINT);
    percent(ui, words::MARGIN, &mut rates.margin);
    remark(ui, words::MARGIN_HINT);
    if *rates != before {
        bench.what = "the rates";
    }
}

/// A part of the whole, as so many of a hundred.
fn percent(ui: &mut Ui, label: Text, part: &mut f64) {
    /// Finer than anyone reckons a part of a price.
    const SHOWN: f64 = 1e4;
    let shown = (*part * 100.0 * SHOWN).round() / SHOWN;
    if let Some(number) = quantity(ui, label, shown, "%") {
        *part = number / 100.0;
    }
}
