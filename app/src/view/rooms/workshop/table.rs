//! A table of proportions of the maker's own.

use egui::Ui;

use super::super::super::fields::{self, heading, paragraph, remark};
use super::super::super::theme::Palette;
use super::Bench;
use crate::view::words::{order::scheme, workshop::table as words};

/// Shows the form; false if there is no such table.
pub(super) fn show(ui: &mut Ui, bench: &mut Bench, place: usize) -> bool {
    let Some(table) = bench.workshop.tables.get_mut(place) else {
        return false;
    };
    let before = table.clone();
    heading(ui, &table.name);
    if let Some(name) = fields::text(ui, words::NAME, &table.name) {
        table.name = name;
    }
    if let Some(source) = fields::text(ui, words::SOURCE, &table.source) {
        table.source = source;
    }
    remark(ui, words::HINT);
    for (label, entries) in [
        (scheme::CAPITALS, &mut table.capitals),
        (scheme::LOWER_CASE, &mut table.lower_case),
        (scheme::FIGURES, &mut table.figures),
        (scheme::STOPS, &mut table.points),
        (scheme::LIGATURES, &mut table.ligatures),
    ] {
        let shown: Vec<String> = entries.lines().map(str::to_owned).collect();
        if let Some(lines) = paragraph(ui, label, &shown) {
            *entries = lines.join(" ");
        }
    }
    if let Err(error) = table.table() {
        ui.colored_label(Palette::of(ui).stop, error.to_string());
    }
    if *table != before {
        bench.what = "a table";
    }
    true
}
