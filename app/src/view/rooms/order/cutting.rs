//! Cutters, depths and limits; planks and how blocks come apart.

use std::cmp::Ordering;
use std::sync::Arc;

use egui::Ui;

use cam_core::commission::{
    Cutting, Direction, Hold, PlankRules, ProgramFiles, Roughing, Separation,
};
use cam_core::measure::{Length, System, Unit};
use cam_core::workshop::{Cutter, CutterShape};

use super::super::super::Desk;
use super::super::super::fields::{self, choice, heading, remark};
use super::super::super::theme::{Palette, spot};
use super::{cutter_sets, feeds, relief};
use crate::model::command::Command;

/// Words of this view.
mod words {
    pub const CUTTERS: &str = "Cutters for the face";
    pub const NO_CUTTERS: &str = "The workshop file names no cutters.";
    pub const CUTTING: &str = "Cutting";
    pub const RELIEF: &str = "Relief";
    pub const LEAST_RELIEF: &str = "Least relief";
    pub const NARROW: &str = "Narrow ground";
    pub const WIDE: &str = "Wide ground";
    pub const ROUGHING: &str = "Ground is cleared";
    pub const QUICKER: &str = "the quicker way";
    pub const STEADY: &str = "at a steady load";
    pub const CONTOURS: &str = "along the walls";
    pub const ALLOWANCE: &str = "Allowance";
    pub const TOLERANCE: &str = "Tolerance";
    pub const CORNERS: &str = "Corner tolerance";
    pub const STROKE: &str = "Least stroke";
    pub const DIRECTION: &str = "Walls are cut";
    pub const CLIMB: &str = "climbing";
    pub const CONVENTIONAL: &str = "against the feed";
    pub const FILES: &str = "Programs";
    pub const PER_CUTTER: &str = "one for each cutter";
    pub const WITH_PAUSES: &str = "one a plank, with pauses";
    pub const PLANKS: &str = "Planks";
    pub const WIDTH: &str = "Width";
    pub const LENGTH: &str = "Length";
    pub const MARGIN: &str = "Free edge";
    pub const LANE: &str = "Lane";
    pub const APART: &str = "Cut apart by";
    pub const SAW: &str = "the saw";
    pub const ROUTER: &str = "the router";
    pub const CUTTER: &str = "Cutter";
    pub const HELD: &str = "Held by";
    pub const TABS: &str = "tabs";
    pub const SKIN: &str = "a skin";
    pub const TAB_WIDTH: &str = "Tabs are wide";
    pub const TAB_HEIGHT: &str = "Tabs are high";
    pub const THICK: &str = "Skin is thick";
}

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    let mut cutting = commission.cutting.clone();
    cutters(ui, desk, &mut cutting);
    cutter_sets::show(ui, desk, &mut cutting);
    feeds::show(ui, desk);
    settings(ui, &mut cutting, commission.system);
    if cutting != commission.cutting {
        desk.send(Command::Cutting(cutting));
    }
    let mut rules = commission.planks.clone();
    planks(ui, desk, &mut rules, commission.system);
    if rules != commission.planks {
        desk.send(Command::Planks(rules));
    }
}

fn cutters(ui: &mut Ui, desk: &Desk, cutting: &mut Cutting) {
    heading(ui, words::CUTTERS);
    let mut owned: Vec<&Cutter> = desk
        .document
        .workshop
        .cutters
        .iter()
        .filter(|cutter| match cutter.shape {
            CutterShape::Flat | CutterShape::Conical { .. } => true,
            CutterShape::Ball => cutting.cutters.contains(&cutter.id),
        })
        .collect();
    // Cones come last, as they do when cutting.
    let order = |cutter: &Cutter| (cutter.shape != CutterShape::Flat, -cutter.diameter.in_mm());
    owned.sort_by(|a, b| order(a).partial_cmp(&order(b)).unwrap_or(Ordering::Equal));
    if owned.is_empty() {
        remark(ui, words::NO_CUTTERS);
    }
    let palette = Palette::of(ui);
    let mut place = 0;
    for cutter in owned {
        let mut used = cutting.cutters.contains(&cutter.id);
        ui.horizontal(|ui| {
            spot(ui, used.then(|| palette.cutter(place)));
            let text = cutter_in_words(cutter);
            if ui
                .checkbox(&mut used, text)
                .on_hover_text(&cutter.id)
                .changed()
            {
                if used {
                    cutting.cutters.push(cutter.id.clone());
                } else {
                    cutting.cutters.retain(|id| *id != cutter.id);
                }
            }
        });
        place += usize::from(used);
    }
    let missing: Vec<&String> = cutting
        .cutters
        .iter()
        .filter(|id| desk.document.workshop.cutter(id).is_none())
        .collect();
    for id in missing {
        ui.colored_label(palette.stop, format!("The workshop has no cutter {id}."));
    }
}

/// Shape, size and depth of a cutter in a few words.
fn cutter_in_words(cutter: &Cutter) -> String {
    let depth = cutter.max_depth.show(Unit::Millimetre, System::Pica);
    match cutter.shape {
        CutterShape::Flat => format!("{} mm, to {depth} deep", cutter.diameter.in_mm()),
        CutterShape::Ball => format!("{} mm round, to {depth} deep", cutter.diameter.in_mm()),
        CutterShape::Conical {
            tip,
            included_angle_deg,
        } => format!("cone of {included_angle_deg}°, tip {} mm", tip.in_mm()),
    }
}

fn settings(ui: &mut Ui, cutting: &mut Cutting, system: System) {
    heading(ui, words::CUTTING);
    let mut ask = |label: &str, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    ask(words::RELIEF, &mut cutting.relief);
    ask(words::LEAST_RELIEF, &mut cutting.least_relief);
    ask(words::NARROW, &mut cutting.narrow_width);
    ask(words::WIDE, &mut cutting.wide_width);
    relief::graph(ui, cutting);
    let mut ask = |label: &str, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    ask(words::ALLOWANCE, &mut cutting.allowance);
    ask(words::TOLERANCE, &mut cutting.tolerance);
    ask(words::CORNERS, &mut cutting.corner_tolerance);
    ask(words::STROKE, &mut cutting.least_stroke);
    let directions = [
        (Direction::Climb, words::CLIMB.to_owned()),
        (Direction::Conventional, words::CONVENTIONAL.to_owned()),
    ];
    cutting.direction =
        choice(ui, words::DIRECTION, &cutting.direction, &directions).unwrap_or(cutting.direction);
    let ways = [
        (Roughing::Quicker, words::QUICKER.to_owned()),
        (Roughing::Steady, words::STEADY.to_owned()),
        (Roughing::Contours, words::CONTOURS.to_owned()),
    ];
    cutting.roughing =
        choice(ui, words::ROUGHING, &cutting.roughing, &ways).unwrap_or(cutting.roughing);
    let files = [
        (ProgramFiles::PerCutter, words::PER_CUTTER.to_owned()),
        (ProgramFiles::WithPauses, words::WITH_PAUSES.to_owned()),
    ];
    cutting.files = choice(ui, words::FILES, &cutting.files, &files).unwrap_or(cutting.files);
}

fn planks(ui: &mut Ui, desk: &Desk, rules: &mut PlankRules, system: System) {
    heading(ui, words::PLANKS);
    let mut ask = |label: &str, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    ask(words::WIDTH, &mut rules.width);
    ask(words::LENGTH, &mut rules.length);
    ask(words::MARGIN, &mut rules.margin);
    ask(words::LANE, &mut rules.lane);
    let by_saw = rules.separation == Separation::Saw;
    let ways = [
        (true, words::SAW.to_owned()),
        (false, words::ROUTER.to_owned()),
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
    if let Separation::Router { cutter, hold } = &mut rules.separation {
        let owned: Vec<(String, String)> = desk
            .document
            .workshop
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
    let cutters = &desk.document.workshop.cutters;
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
        (true, words::TABS.to_owned()),
        (false, words::SKIN.to_owned()),
    ];
    match choice(ui, words::HELD, &has_tabs, &ways) {
        Some(true) => *hold = Hold::starting(),
        Some(false) => *hold = Hold::Skin(Length::mm(0.5)),
        None => {}
    }
    let mut ask = |label: &str, value: &mut Length| {
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
