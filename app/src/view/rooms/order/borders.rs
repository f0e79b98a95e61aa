//! Borders: their corner and running pieces, and the frame that they are set round.

use std::sync::Arc;

use cam_core::commission::{Border, Measured};
use cam_core::measure::{Length, System, Unit};
use egui::Ui;

use super::super::super::Desk;
use super::super::super::fields::{self, choice, count, heading, remark};
use super::super::super::words;
use crate::model::command::Command;

/// Sides of a frame to begin with, in points: whole units of 6 and of 12 points fill it.
const BEGINNING_PT: [f64; 2] = [192.0, 144.0];

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    let mut borders = commission.borders.clone();
    heading(ui, &words::BORDERS);
    if borders.is_empty() {
        remark(ui, &words::BORDERS_ARE);
    }
    let mut taken_out = None;
    for (place, border) in borders.iter_mut().enumerate() {
        let title = format!("{}: {}", &*words::BORDERS, border.id);
        egui::CollapsingHeader::new(title)
            .id_salt(("border", place))
            .show(ui, |ui| {
                one(ui, border, commission.system);
                if ui.button(words::NO_BORDER).clicked() {
                    taken_out = Some(place);
                }
            });
    }
    if let Some(place) = taken_out {
        borders.remove(place);
    }
    // Parts of what is cut apart, and drawings, are likelier pieces than letters.
    let sorts = desk.drawn.map_or(&[][..], |drawn| &drawn.sorts);
    let piece = sorts
        .iter()
        .find(|sort| !sort.block.plain && sort.text.is_empty())
        .or_else(|| sorts.iter().find(|sort| !sort.block.plain));
    match piece {
        None => remark(ui, &words::NO_BORDER_SORTS),
        Some(piece) => {
            if ui.button(words::SET_BORDER).clicked() {
                let size = BEGINNING_PT.map(|points| Length::points_of(points, commission.system));
                let id = free_word(&borders);
                borders.push(Border::starting(&id, &piece.name, &piece.name, size));
            }
        }
    }
    if borders != commission.borders {
        desk.send(Command::Borders(borders));
    }
}

/// A word that no border has yet.
fn free_word(borders: &[Border]) -> String {
    let numbered = |number: usize| format!("border-{number}");
    let free = (1..=borders.len() + 1)
        .map(numbered)
        .find(|word| borders.iter().all(|border| border.id != *word));
    free.unwrap_or_else(|| numbered(borders.len() + 1))
}

fn one(ui: &mut Ui, border: &mut Border, system: System) {
    for (label, hint, names) in [
        (
            words::CORNER_PIECES,
            Some(words::CORNERS_ARE),
            &mut border.corners,
        ),
        (words::RUNNING_PIECES, None, &mut border.running),
        (
            words::SIDE_PIECES,
            Some(words::SIDES_ARE),
            &mut border.sides,
        ),
    ] {
        if let Some(typed) = fields::text(ui, &label, &names.join(", ")) {
            *names = typed
                .split(',')
                .map(|name| name.trim().to_owned())
                .filter(|name| !name.is_empty())
                .collect();
        }
        if let Some(hint) = hint {
            remark(ui, &hint);
        }
    }
    for (label, length, unit) in [
        (words::FRAME_WIDTH, &mut border.width, Unit::Point),
        (words::FRAME_HEIGHT, &mut border.height, Unit::Point),
        (words::JOIN_WITHIN, &mut border.tolerance, Unit::Millimetre),
    ] {
        if let Some(typed) = fields::length(ui, &label, *length, unit, system) {
            *length = typed;
        }
    }
    let ways = [
        (Measured::Outside, words::FRAME_OUTSIDE.to_string()),
        (Measured::Inside, words::FRAME_INSIDE.to_string()),
    ];
    if let Some(measured) = choice(ui, &words::FRAME_MEASURED, &border.measured, &ways) {
        border.measured = measured;
    }
    if let Some(frames) = count(ui, &words::FRAMES, border.count) {
        border.count = frames.max(1);
    }
}
