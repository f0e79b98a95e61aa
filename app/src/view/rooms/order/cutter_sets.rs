//! Which set of the cutters owned makes the commission for the least cost.

use egui::{RichText, Ui};

use cam_core::commission::Cutting;
use cam_core::cutter_set::{CutterSets, OneMore, PricedSet};

use super::super::super::Desk;
use super::super::super::fields::remark;
use super::super::super::theme::Palette;
use crate::view::words::{figure, order::cutter_sets as words};

/// How many sets are listed; the one in use is listed wherever it stands.
const LISTED: usize = 5;
/// Height of the list, px.
const LIST_HEIGHT: f32 = 190.0;
/// Width in which the cutters of a set are named, px; what is longer is broken.
const CUTTERS_WIDTH: f32 = 144.0;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk, cutting: &mut Cutting) {
    let palette = Palette::of(ui);
    if let Some(worker) = desk.sets.running() {
        let (step, done, total) = worker.state();
        ui.horizontal(|ui| {
            ui.label(RichText::new(format!("{step} {done}/{total}")).small());
            if ui.small_button(words::STOP).clicked() {
                desk.wishes.no_sets = true;
            }
        });
    } else if !desk.document.orders_nothing()
        && ui
            .button(words::PRICE)
            .on_hover_text(words::PRICE_HINT)
            .clicked()
    {
        desk.wishes.sets = true;
    }
    if let Some(broken) = desk.sets.broken() {
        ui.colored_label(palette.stop, broken.to_string());
    }
    match desk.sets.result() {
        None => {}
        Some(Err(sentence)) => {
            ui.colored_label(palette.stop, sentence);
        }
        Some(Ok(sets)) => {
            if desk.sets.made_from() != Some(desk.document.revision()) {
                remark(ui, words::OLD);
            }
            egui::ScrollArea::both()
                .id_salt("sets of cutters")
                .max_height(LIST_HEIGHT)
                .show(ui, |ui| list(ui, sets, cutting));
        }
    }
}

fn list(ui: &mut Ui, sets: &CutterSets, cutting: &mut Cutting) {
    egui::Grid::new("sets of cutters")
        .striped(true)
        .max_col_width(CUTTERS_WIDTH)
        .show(ui, |ui| {
            for title in [
                sets.currency.as_str(),
                &words::MACHINE,
                &words::HAND,
                "",
                &words::CUTTERS,
            ] {
                ui.label(RichText::new(title).small().color(Palette::of(ui).quiet));
            }
            ui.end_row();
            let listed = sets.sets.iter().enumerate();
            for (place, set) in
                listed.filter(|(place, _)| *place < LISTED || sets.named == Some(*place))
            {
                row(ui, sets, set, sets.named == Some(place), cutting);
                ui.end_row();
            }
        });
    for more in sets.one_more.iter().filter(|more| more.saves > 0.0) {
        remark(ui, one_more(more, &sets.currency));
    }
}

fn row(ui: &mut Ui, sets: &CutterSets, set: &PricedSet, is_named: bool, cutting: &mut Cutting) {
    ui.label(figure(set.cost, 2));
    ui.label(format!(
        "{:.0} min",
        set.machine_minutes + set.change_minutes
    ));
    ui.label(format!("{:.0} min", set.hand_minutes));
    if is_named {
        ui.label(RichText::new(words::NAMED).small());
    } else if ui
        .small_button(words::TAKE)
        .on_hover_text(words::CUT_WITH.with(&[&set.cutters.join(", ")]))
        .clicked()
    {
        // Cutters that were not compared stay with the commission.
        let kept = cutting.cutters.iter().filter(|id| {
            let left_out = &sets.left_out;
            left_out.iter().any(|left| left.cutter == **id)
        });
        cutting.cutters = set.cutters.iter().chain(kept).cloned().collect();
    }
    // Last, so that a long set does not push the button out of sight.
    ui.label(set.cutters.join(", "));
}

fn one_more(more: &OneMore, currency: &str) -> String {
    let said = if more.owned {
        words::WOULD_SAVE
    } else {
        words::NOT_OWNED_WOULD_SAVE
    };
    let saves = format!("{} {currency}", figure(more.saves, 2));
    said.with(&[&more.cutter, &saves, &more.corners_spared.to_string()])
}
