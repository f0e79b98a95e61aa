//! Cutters, depths and limits.

use std::cmp::Ordering;
use std::sync::Arc;

use egui::Ui;

use cam_core::commission::{Cutting, Direction, ProgramFiles, Roughing};
use cam_core::measure::{Length, System, Unit};
use cam_core::workshop::{Cutter, CutterShape};

use super::super::super::Desk;
use super::super::super::fields::{self, choice, heading, remark};
use super::super::super::theme::{Palette, spot};
use super::{cutter_sets, feeds, relief};
use crate::model::command::Command;
use crate::view::words::{Text, measured, order::cutting as words, short_figure};

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
}

fn cutters(ui: &mut Ui, desk: &Desk, cutting: &mut Cutting) {
    heading(ui, words::CUTTERS);
    let mut owned: Vec<&Cutter> = desk
        .document
        .workshop()
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
        .filter(|id| desk.document.workshop().cutter(id).is_none())
        .collect();
    for id in missing {
        ui.colored_label(palette.stop, words::NO_CUTTER.with(&[id]));
    }
}

/// Shape, size and depth of a cutter in a few words.
fn cutter_in_words(cutter: &Cutter) -> String {
    let depth = measured(cutter.max_depth, Unit::Millimetre, System::Pica);
    let diameter = short_figure(cutter.diameter.in_mm());
    match cutter.shape {
        CutterShape::Flat => words::FLAT.with(&[&diameter, &depth]),
        CutterShape::Ball => words::BALL.with(&[&diameter, &depth]),
        CutterShape::Conical {
            tip,
            included_angle_deg,
        } => words::CONE.with(&[
            &short_figure(included_angle_deg),
            &short_figure(tip.in_mm()),
        ]),
    }
}

fn settings(ui: &mut Ui, cutting: &mut Cutting, system: System) {
    heading(ui, words::CUTTING);
    let mut ask = |label: Text, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    ask(words::RELIEF, &mut cutting.relief);
    ask(words::LEAST_RELIEF, &mut cutting.least_relief);
    ask(words::NARROW, &mut cutting.narrow_width);
    ask(words::WIDE, &mut cutting.wide_width);
    relief::graph(ui, cutting);
    let mut ask = |label: Text, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    ask(words::ALLOWANCE, &mut cutting.allowance);
    ask(words::TOLERANCE, &mut cutting.tolerance);
    ask(words::CORNERS, &mut cutting.corner_tolerance);
    ask(words::STROKE, &mut cutting.least_stroke);
    let directions = [
        (Direction::Climb, words::CLIMB.to_string()),
        (Direction::Conventional, words::CONVENTIONAL.to_string()),
    ];
    cutting.direction =
        choice(ui, words::DIRECTION, &cutting.direction, &directions).unwrap_or(cutting.direction);
    let ways = [
        (Roughing::Quicker, words::QUICKER.to_string()),
        (Roughing::Steady, words::STEADY.to_string()),
        (Roughing::Contours, words::CONTOURS.to_string()),
    ];
    cutting.roughing =
        choice(ui, words::ROUGHING, &cutting.roughing, &ways).unwrap_or(cutting.roughing);
    let files = [
        (ProgramFiles::PerCutter, words::PER_CUTTER.to_string()),
        (ProgramFiles::WithPauses, words::WITH_PAUSES.to_string()),
    ];
    cutting.files = choice(ui, words::FILES, &cutting.files, &files).unwrap_or(cutting.files);
}
