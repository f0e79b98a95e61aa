//! All blocks on their planks; blocks are pinned and moved here.

mod blocks;
mod moving;
mod path;
mod preview;
mod wood;

use std::sync::Arc;

use egui::{Align2, RichText, ScrollArea, Stroke, Ui, vec2};
use kurbo::{Point, Rect, Vec2};

use cam_core::job_file::JobRole;
use cam_core::make::{Job, Program, ProgramPart};
use cam_core::plank::Plank;
use cam_core::sort::Sort;

use super::super::Desk;
use super::super::canvas::{Camera, Sheet, sheet};
use super::super::fields::{heading, remark};
use super::super::layer::Layer;
use super::super::marks;
use super::super::rulers;
use super::super::theme::{self, Palette};
use super::super::words::NO_SORTS;
use crate::background::tasks::duration_in_words;
use crate::commands::planks::against_the_least;
use crate::model::command::Command;
use crate::model::selection::Room;
use crate::view::words::{counted, figure, plank as words, short_figure};
use blocks::Blocks;
use moving::Moving;
use path::{ProgramPath, keep_path};
use preview::Preview;
pub(in crate::view::rooms) use wood::hatched;

/// Distance between planks that are shown side by side, mm.
const BETWEEN_MM: f64 = 24.0;
/// Width to height of the sheet that planks are arranged on: about that of the window's free part.
const SHAPE: f64 = 1.35;

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    camera: Camera,
    program: Option<usize>,
    path: Option<ProgramPath>,
    blocks: Blocks,
    /// The path as it is painted.
    drawn: Layer<Palette>,
    moving: Moving,
    preview: Preview,
}

impl State {
    /// Whether blocks or a path are being drawn.
    pub(super) fn is_busy(&self) -> bool {
        self.blocks.is_busy() || self.drawn.is_busy()
    }
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let Some(job) = desk.job.cloned() else {
        egui::CentralPanel::default().show(ui, |ui| {
            let text = desk.waiting();
            ui.centered_and_justified(|ui| ui.label(text));
        });
        return;
    };
    if job.planks.is_empty() {
        egui::CentralPanel::default().show(ui, |ui| {
            ui.centered_and_justified(|ui| ui.label(NO_SORTS));
        });
        return;
    }
    egui::Panel::right("programs")
        .exact_size(theme::SIDE_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| side(ui, desk, &job, state));
        });
    keep_path(&job, state);
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| board(ui, desk, &job, state, &palette));
}

/// The planks themselves.
fn board(ui: &mut Ui, desk: &mut Desk, job: &Arc<Job>, state: &mut State, palette: &Palette) {
    let shown = state.preview.of(desk, job);
    let (planks, sorts) = (&shown.planks, &shown.sorts);
    let bounds = bounds(planks);
    state.camera.held = state.moving.holds();
    let sheet = sheet(
        ui,
        &words::ALL_PLANKS,
        bounds,
        &mut state.camera,
        palette.desk,
    );
    for (number, plank) in planks.iter().enumerate() {
        let shift = shift(planks, number);
        paint_plank(&sheet, plank, shift, palette);
    }
    state.blocks.paint(ui, &sheet, desk, &shown, palette);
    for (number, plank) in planks.iter().enumerate() {
        let shift = shift(planks, number);
        wood::paint_pins(&sheet, desk, sorts, plank, shift, palette);
    }
    if let Some(path) = state.path.as_ref().filter(|_| !desk.job_is_old) {
        let marks = || path::marks(job, path, palette);
        state.drawn.paint(ui, &sheet, *palette, marks);
    }
    select_block(&sheet, desk, planks, sorts, &mut state.moving);
    state.moving.steer(ui, &sheet, desk, planks, sorts, palette);
    rulers::paint(ui, &sheet);
}

/// The largest plank's size with the space beside it.
fn cell(planks: &[Plank]) -> (f64, f64) {
    let width = planks
        .iter()
        .map(|plank| plank.width_mm)
        .fold(0.0, f64::max);
    let length = planks
        .iter()
        .map(|plank| plank.length_mm)
        .fold(0.0, f64::max);
    (width + BETWEEN_MM, length + BETWEEN_MM)
}

/// How many planks stand side by side, so that all of them fill a sheet of the wanted shape best.
fn columns(planks: &[Plank]) -> usize {
    let (width, length) = cell(planks);
    let off = |columns: usize| {
        let rows = planks.len().div_ceil(columns);
        let shape = columns as f64 * width / (rows as f64 * length);
        (shape / SHAPE).ln().abs()
    };
    (1..=planks.len())
        .min_by(|&a, &b| off(a).total_cmp(&off(b)))
        .unwrap_or(1)
}

/// Where a plank's lower-left corner is shown: from left to right, then row by row downwards.
fn shift(planks: &[Plank], number: usize) -> Vec2 {
    let (width, length) = cell(planks);
    let columns = columns(planks);
    let (row, column) = (number / columns, number % columns);
    Vec2::new(column as f64 * width, -(row as f64) * length)
}

fn bounds(planks: &[Plank]) -> Rect {
    let places = planks.iter().enumerate().map(|(number, plank)| {
        Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm) + shift(planks, number)
    });
    places
        .reduce(|a, b| a.union(b))
        .unwrap_or(Rect::new(0.0, 0.0, 1.0, 1.0))
}

fn paint_plank(sheet: &Sheet, plank: &Plank, shift: Vec2, palette: &Palette) {
    let whole = sheet.rect_at(Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm) + shift);
    if !whole.intersects(sheet.rect) {
        return;
    }
    sheet.painter.rect_filled(whole, 2.0, palette.plank);
    let edge = Stroke::new(1.0, palette.grain);
    sheet
        .painter
        .rect_stroke(whole, 2.0, edge, egui::StrokeKind::Outside);
    sheet.text(
        whole.left_top() - vec2(0.0, 6.0),
        Align2::LEFT_BOTTOM,
        &plank.stock.as_ref().map_or_else(
            || plank.id.clone(),
            |stock| format!("{}, {stock} from stock", plank.id),
        ),
        palette.quiet,
    );
    wood::paint(sheet, plank, shift, palette);
}

/// Selects the block under the pointer on a click, and shows its cuts on a double click.
fn select_block(
    sheet: &Sheet,
    desk: &mut Desk,
    planks: &[Plank],
    sorts: &[Arc<Sort>],
    moving: &mut Moving,
) {
    if !sheet.response.clicked() && !sheet.response.double_clicked() {
        return;
    }
    let Some(pointer) = sheet.response.interact_pointer_pos() else {
        return;
    };
    let at = sheet.place(pointer);
    moving.choose(None);
    if let Some((number, place)) = block_at(planks, sorts, at) {
        let place = &planks[number].places[place];
        desk.selection.sort = sorts.get(place.sort).map(|sort| sort.name.clone());
        moving.choose(Some(place.id.clone()));
        if sheet.response.double_clicked() {
            desk.selection.room = Room::Cut;
        }
    }
}

/// The block at a place of the sheet: its plank, and its place in the plank's list.
fn block_at(planks: &[Plank], sorts: &[Arc<Sort>], at: Point) -> Option<(usize, usize)> {
    planks.iter().enumerate().find_map(|(number, plank)| {
        let shift = shift(planks, number);
        let found = plank.places.iter().position(|place| {
            sorts.get(place.sort).is_some_and(|sort| {
                let block = sort.block.rect() + (place.at + shift);
                block.contains(at)
            })
        });
        found.map(|place| (number, place))
    })
}

fn side(ui: &mut Ui, desk: &mut Desk, job: &Arc<Job>, state: &mut State) {
    desk.say_if_old(ui);
    heading(ui, words::PLANKS);
    let shown = state.preview.of(desk, job);
    ui.label(against_the_least(shown.planks.len(), shown.at_least));
    for plank in &shown.planks {
        ui.label(format!(
            "{}: {}",
            plank.id,
            counted(plank.places.len(), words::ONE_BLOCK, words::BLOCKS)
        ));
        remark(
            ui,
            format!(
                "{:.0} × {:.0} mm; {:.0} % {}",
                plank.width_mm,
                plank.length_mm,
                100.0 * plank.used_part(&shown.sorts),
                words::YIELD
            ),
        );
    }
    for finding in &shown.findings {
        marks::one(ui, desk, finding, false);
    }
    if ui.button(words::ALL).clicked() {
        state.camera.fit();
    }
    pinned(ui, desk);
    routers(ui, desk, job);
    heading(ui, words::PROGRAMS);
    for (number, program) in job.programs.iter().enumerate() {
        program_line(ui, desk, program, number, state);
    }
    ui.add_space(8.0);
    remark(ui, words::HOW);
}

/// The pins, each to be taken out.
fn pinned(ui: &mut Ui, desk: &mut Desk) {
    let rules = &desk.document.commission().planks;
    if rules.pins.is_empty() {
        return;
    }
    heading(ui, words::PINNED);
    let mut out = None;
    for (number, pin) in rules.pins.iter().enumerate() {
        ui.horizontal(|ui| {
            ui.label(format!("{} on {}", pin.block, pin.plank));
            if ui.small_button(words::UNPIN).clicked() {
                out = Some(number);
            }
        });
        remark(
            ui,
            words::PLACE.with(&[&figure(pin.x.in_mm(), 2), &figure(pin.y.in_mm(), 2)]),
        );
    }
    let all = rules.pins.len() > 1 && ui.button(words::UNPIN_ALL).clicked();
    let mut rules = rules.clone();
    match out {
        Some(number) => {
            rules.pins.remove(number);
        }
        None if all => rules.pins.clear(),
        None => return,
    }
    desk.send(Command::Planks(rules));
}

/// Which plank is cut on which router, where there are several.
fn routers(ui: &mut Ui, desk: &Desk, job: &Job) {
    let workshop = desk.document.workshop();
    if workshop.more_machines.is_empty() {
        return;
    }
    heading(ui, words::ROUTERS);
    let plan = &job.routers;
    for (machine, on) in workshop.machines().zip(&plan.on) {
        let planks: Vec<&str> = on
            .iter()
            .filter_map(|&plank| Some(job.planks.get(plank)?.id.as_str()))
            .collect();
        ui.label(format!("{}: {}", machine.name, planks.join(", ")));
    }
    remark(
        ui,
        words::ALL_CUT.with(&[
            &duration_in_words(plan.finish_minutes * 60.0),
            &counted(plan.changes as usize, words::ONE_CHANGE, words::CHANGES),
        ]),
    );
}

fn program_line(ui: &mut Ui, desk: &mut Desk, program: &Program, number: usize, state: &mut State) {
    let palette = Palette::of(ui);
    let chosen = state.program == Some(number);
    let text =
        RichText::new(&program.file).color(if chosen { palette.accent } else { palette.text });
    let response = ui.selectable_label(chosen, text).on_hover_text(words::PATH);
    if response.clicked() {
        state.program = (!chosen).then_some(number);
    }
    let parts: Vec<String> = program
        .parts
        .iter()
        .map(|part| part_in_words(desk, part))
        .collect();
    remark(
        ui,
        format!(
            "{}; {}",
            parts.join(&format!("{} ", words::THEN)),
            duration_in_words(program.estimate_s)
        ),
    );
    for finding in marks::of_program(desk, &program.file) {
        marks::one(ui, desk, &finding, true);
    }
}

fn part_in_words(desk: &Desk, part: &ProgramPart) -> String {
    let cutter = desk.document.workshop().cutter(&part.cutter);
    let cutter = cutter.map_or_else(
        || part.cutter.clone(),
        |cutter| format!("{} mm", short_figure(cutter.diameter.in_mm())),
    );
    let role = match part.role {
        JobRole::Roughing => words::ROUGHING,
        JobRole::Finishing => words::FINISHING,
        JobRole::Rest => words::REST,
        JobRole::Corners => words::CORNERS,
        JobRole::Notches => words::NOTCHES,
        JobRole::Separation => words::SEPARATION,
    };
    words::ROLE_WITH.with(&[&role, &cutter])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn planks(count: usize) -> Vec<Plank> {
        let plank = |number| Plank {
            id: format!("plank-{number}"),
            width_mm: 400.0,
            length_mm: 220.0,
            places: Vec::new(),
            ..Plank::default()
        };
        (0..count).map(plank).collect()
    }

    #[test]
    fn planks_do_not_lie_on_one_another() {
        for count in [1, 2, 5, 12, 31] {
            let planks = planks(count);
            let at = |number| Rect::new(0.0, 0.0, 400.0, 220.0) + shift(&planks, number);
            for a in 0..count {
                assert!(bounds(&planks).union(at(a)) == bounds(&planks));
                for b in 0..a {
                    assert!(
                        at(a).intersect(at(b)).area() <= 0.0,
                        "{a} and {b} of {count}"
                    );
                }
            }
        }
        assert_eq!(columns(&planks(1)), 1);
        assert_eq!(columns(&planks(6)), 2);
    }
}
