//! The form of a plank in stock.

use cam_core::measure::{Length, Unit};
use cam_core::workshop::{Grain, StockPlank};
use egui::Ui;

use super::super::super::Desk;
use super::super::super::fields::{self, choice, count, heading, remark, tick};
use super::super::super::theme::Palette;
use super::{Bench, clamps};
use crate::model::command::Command;
use crate::model::shop::Named;
use crate::view::words::{Text, workshop::plank as words};

/// Shows the form; false if there is no such plank.
pub(super) fn show(ui: &mut Ui, desk: &mut Desk, bench: &mut Bench, place: usize) -> bool {
    let commission = std::sync::Arc::clone(desk.document.commission());
    let system = commission.system;
    let woods: Vec<(String, String)> = bench
        .workshop
        .woods
        .iter()
        .map(|wood| (wood.id.clone(), wood.name.clone()))
        .collect();
    let Some(plank) = bench.workshop.stock.get_mut(place) else {
        return false;
    };
    let before = plank.clone();
    heading(ui, &plank.id);
    if let Some(id) = fields::text(ui, words::ID, &plank.id) {
        plank.id = id;
    }
    let is_used = commission.planks.stock.contains(&before.id);
    if let Some(wanted) = tick(ui, words::USE, is_used) {
        let mut rules = commission.planks.clone();
        rules.stock.retain(|id| *id != before.id);
        if wanted {
            rules.stock.push(before.id.clone());
        }
        desk.send(Command::Planks(rules));
    }
    remark(ui, words::USE_HINT);
    if let Some(wood) = choice(ui, words::WOOD, &plank.wood, &woods) {
        plank.wood = wood;
    }
    if let Some(many) = count(ui, words::COUNT, plank.count) {
        plank.count = many;
    }
    let ask = |ui: &mut Ui, label: Text, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    ask(ui, words::WIDTH, &mut plank.width);
    ask(ui, words::LENGTH, &mut plank.length);
    match tick(ui, words::MEASURED, plank.height.is_some()) {
        Some(true) => plank.height = Some(commission.height_to_paper),
        Some(false) => plank.height = None,
        None => {}
    }
    if let Some(height) = &mut plank.height {
        ask(ui, words::HEIGHT, height);
    }
    let grains = [
        (None, words::NOT_TOLD.to_string()),
        (Some(Grain::End), words::END.to_string()),
        (Some(Grain::Across), words::ACROSS.to_string()),
        (Some(Grain::Along), words::ALONG.to_string()),
    ];
    if let Some(grain) = choice(ui, words::GRAIN, &plank.grain, &grains) {
        plank.grain = grain;
    }
    heading(ui, words::BAD);
    remark(ui, words::BAD_HINT);
    clamps::bad_places(ui, &mut plank.bad_places, system);
    heading(ui, words::RESERVED);
    ask(ui, words::LEFT, &mut plank.reserved.left);
    ask(ui, words::RIGHT, &mut plank.reserved.right);
    ask(ui, words::NEAR, &mut plank.reserved.near);
    ask(ui, words::FAR, &mut plank.reserved.far);
    own_clamps(ui, plank, &commission.planks.clamps, system);
    outside(ui, plank);
    let (is_changed, id) = (*plank != before, plank.id.clone());
    if is_changed {
        bench.what = "a plank";
    }
    if id != before.id {
        bench.rename(Named::Plank, &before.id, id);
    }
    true
}

fn own_clamps(
    ui: &mut Ui,
    plank: &mut StockPlank,
    of_order: &[cam_core::commission::Clamp],
    system: cam_core::measure::System,
) {
    heading(ui, words::CLAMPS);
    match tick(ui, words::OWN_CLAMPS, plank.clamps.is_some()) {
        Some(true) => plank.clamps = Some(of_order.to_vec()),
        Some(false) => plank.clamps = None,
        None => {}
    }
    match &mut plank.clamps {
        Some(list) => clamps::clamps(ui, list, system),
        None => remark(ui, words::SAME_CLAMPS),
    }
}

/// Says which bad places lie beside the wood, where they keep nothing free.
fn outside(ui: &mut Ui, plank: &StockPlank) {
    let (width, length) = (plank.width.in_mm(), plank.length.in_mm());
    let lost = plank.bad_places.iter().filter(|bad| {
        bad.x.in_mm() >= width
            || bad.y.in_mm() >= length
            || bad.x.in_mm() + bad.width.in_mm() <= 0.0
            || bad.y.in_mm() + bad.length.in_mm() <= 0.0
    });
    let lost = lost.count();
    if lost > 0 {
        let said = if lost == 1 {
            words::ONE_OUTSIDE
        } else {
            words::OUTSIDE
        };
        let said = said.with(&[&lost.to_string()]);
        ui.colored_label(Palette::of(ui).warning, said);
    }
}
