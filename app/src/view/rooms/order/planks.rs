//! Planks: their size and stock, how blocks lie on them and come apart, and the clamps that hold them.

use std::sync::Arc;

use cam_core::commission::{GrainWanted, Hold, PlankRules, RowsOf, Separation};
use cam_core::measure::{Length, System, Unit};
use egui::Ui;

use super::super::super::Desk;
use super::super::super::fields::{self, choice, heading, remark};
use super::super::super::theme::Palette;
use super::super::workshop::clamps;
use crate::model::command::Command;
use crate::model::selection::Room;
use crate::view::words::{Text, order::planks as words};

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    let mut rules = commission.planks.clone();
    let system = commission.system;
    heading(ui, words::PLANKS);
    for (label, value) in [
        (words::WIDTH, &mut rules.width),
        (words::LENGTH, &mut rules.length),
        (words::MARGIN, &mut rules.margin),
    ] {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    }
    let lane = ui.scope(|ui| fields::length(ui, words::LANE, rules.lane, Unit::Millimetre, system));
    lane.response.on_hover_text(words::LANE_HINT);
    rules.lane = lane.inner.unwrap_or(rules.lane);
    lie(ui, &mut rules);
    apart(ui, desk, &mut rules, system);
    stock(ui, desk, &mut rules);
    ui.collapsing(words::CLAMPS, |ui| {
        clamps::clamps(ui, &mut rules.clamps, system);
    });
    if rules != commission.planks {
        desk.send(Command::Planks(rules));
    }
}

fn lie(ui: &mut Ui, rules: &mut PlankRules) {
    let grains = [
        (GrainWanted::Any, words::ANY.to_string()),
        (GrainWanted::AlongLine, words::ALONG_LINE.to_string()),
        (GrainWanted::UpBody, words::UP_BODY.to_string()),
    ];
    rules.grain = choice(ui, words::GRAIN, &rules.grain, &grains).unwrap_or(rules.grain);
    let rows = [
        (RowsOf::Mixed, words::MIXED.to_string()),
        (RowsOf::OneBody, words::ONE_BODY.to_string()),
    ];
    rules.rows = choice(ui, words::ROWS, &rules.rows, &rows).unwrap_or(rules.rows);
}

/// Which planks of the stock may be used.
fn stock(ui: &mut Ui, desk: &mut Desk, rules: &mut PlankRules) {
    let owned = &desk.document.workshop().stock;
    fields::row(ui, words::STOCK, |ui, _| {
        if owned.is_empty() {
            remark(ui, words::NO_STOCK);
        }
    });
    for plank in owned {
        let mut used = rules.stock.contains(&plank.id);
        let text = format!(
            "{}: {:.0} × {:.0} mm",
            plank.id,
            plank.width.in_mm(),
            plank.length.in_mm()
        );
        let changed = fields::row(ui, "", |ui, _| ui.checkbox(&mut used, text).changed());
        if changed {
            rules.stock.retain(|id| *id != plank.id);
            if used {
                rules.stock.push(plank.id.clone());
            }
        }
    }
    let missing: Vec<&String> = rules
        .stock
        .iter()
        .filter(|id| owned.iter().all(|plank| plank.id != **id))
        .collect();
    for id in missing {
        let stop = Palette::of(ui).stop;
        ui.colored_label(stop, words::NO_PLANK.with(&[id]));
    }
    let go = fields::row(ui, "", |ui, _| ui.button(words::TO_WORKSHOP).clicked());
    if go {
        desk.selection.room = Room::Workshop;
    }
}

fn apart(ui: &mut Ui, desk: &Desk, rules: &mut PlankRules, system: System) {
    let by_saw = rules.separation == Separation::Saw;
    let ways = [
        (true, words::SAW.to_string()),
        (false, words::ROUTER.to_string()),
    ];
    match choice(ui, words::APART, &by_saw, &ways) {
        Some(true) => {
            rules.separation = Separation::Saw;
            rules.lane = PlankRules::starting_lane(false);
        }
        Some(false) => {
            rules.separation = by_router(desk);
            rules.lane = PlankRules::starting_lane(true);
        }
        None => {}
    }
    if by_saw {
        let kerf = rules.kerf.unwrap_or(rules.lane);
        if let Some(kerf) = fields::length(ui, words::KERF, kerf, Unit::Millimetre, system) {
            rules.kerf = Some(kerf);
        }
    }
    if let Separation::Router { cutter, hold } = &mut rules.separation {
        let owned: Vec<(String, String)> = desk
            .document
            .workshop()
            .cutters
            .iter()
            .map(|cutter| {
                (
                    cutter.id.clone(),
                    format!("{} ({} mm)", cutter.id, cutter.diameter.in_mm()),
                )
            })
            .collect();
        if let Some(chosen) = choice(ui, words::CUTTER, cutter, &owned) {
            *cutter = chosen;
        }
        held(ui, hold, system);
    }
}

/// The deepest cutter and tabs, as a beginning.
fn by_router(desk: &Desk) -> Separation {
    let cutters = &desk.document.workshop().cutters;
    let deepest = cutters
        .iter()
        .max_by(|a, b| a.max_depth.in_mm().total_cmp(&b.max_depth.in_mm()));
    Separation::Router {
        cutter: deepest.map_or_else(String::new, |cutter| cutter.id.clone()),
        hold: Hold::starting(),
    }
}

fn held(ui: &mut Ui, hold: &mut Hold, system: System) {
    let has_tabs = matches!(hold, Hold::Tabs { .. });
    let ways = [
        (true, words::TABS.to_string()),
        (false, words::SKIN.to_string()),
    ];
    match choice(ui, words::HELD, &has_tabs, &ways) {
        Some(true) => *hold = Hold::starting(),
        Some(false) => *hold = Hold::Skin(Length::mm(0.5)),
        None => {}
    }
    let mut ask = |label: Text, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    match hold {
        Hold::Tabs { width, height } => {
            ask(words::TAB_WIDTH, width);
            ask(words::TAB_HEIGHT, height);
        }
        Hold::Skin(thickness) => ask(words::THICK, thickness),
    }
}
