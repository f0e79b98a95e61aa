//! All blocks on their planks.

use std::sync::Arc;

use egui::{Align2, RichText, ScrollArea, Stroke, Ui, vec2};
use kurbo::{Point, Rect, Vec2};

use cam_core::job_file::JobRole;
use cam_core::make::{Job, Program, ProgramPart};
use cam_core::plank::Plank;
use cam_core::toolpath::Course;
use geometry::arc_path::{ArcPath, ArcStep};

use super::super::Desk;
use super::super::canvas::{Camera, Sheet, sheet};
use super::super::fields::{heading, remark};
use super::super::theme::{self, Palette};
use super::super::words::NO_SORTS;
use crate::background::tasks::{counted, duration_in_words};
use crate::model::selection::Room;

/// Words of this view.
mod words {
    pub const PLANKS: &str = "Planks";
    pub const PROGRAMS: &str = "Programs, in the order of running";
    pub const ALL: &str = "Show all";
    pub const PATH: &str = "Show the path of this program";
    pub const HOW: &str = "Double-click a block to see how it is cut.";
    pub const YIELD: &str = "of the wood becomes blocks";
}

/// Distance between planks that are shown side by side, mm.
const BETWEEN_MM: f64 = 24.0;
/// Width to height of the sheet that planks are arranged on: about that of the window's free part.
const SHAPE: f64 = 1.35;
/// How far the shown line may lie from an arc, mm.
const SAGITTA_MM: f64 = 0.02;

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    camera: Camera,
    program: Option<usize>,
    path: Option<ProgramPath>,
}

/// A program's motions as lines, with the job they came from.
struct ProgramPath {
    job: Arc<Job>,
    program: usize,
    parts: Vec<PartPath>,
}

/// What one cutter does, as lines.
struct PartPath {
    cutter: String,
    feeds: Vec<Vec<Point>>,
    rapids: Vec<[Point; 2]>,
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
        .show(ui, |ui| {
            let bounds = bounds(&job.planks);
            let sheet = sheet(ui, "All planks", bounds, &mut state.camera, palette.desk);
            for (number, plank) in job.planks.iter().enumerate() {
                paint_plank(
                    &sheet,
                    desk,
                    &job,
                    plank,
                    shift(&job.planks, number),
                    &palette,
                );
            }
            if let Some(path) = &state.path {
                paint_path(&sheet, &job, path, &palette);
            }
            select_block(&sheet, desk, &job);
        });
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

fn paint_plank(
    sheet: &Sheet,
    desk: &mut Desk,
    job: &Job,
    plank: &Plank,
    shift: Vec2,
    palette: &Palette,
) {
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
        &plank.id,
        palette.quiet,
    );
    let selected = desk.selection.sort.clone();
    for place in &plank.places {
        let Some(sort) = job.sorts.get(place.sort) else {
            continue;
        };
        let at = place.at + shift;
        let block = sheet.rect_at(sort.block.rect() + at);
        if !block.intersects(sheet.rect) {
            continue;
        }
        sheet.painter.rect_filled(block, 0.0, palette.wood);
        let chosen = selected.as_ref() == Some(&sort.name);
        let stroke = if chosen {
            Stroke::new(2.0, palette.accent)
        } else {
            Stroke::new(0.8, palette.grain)
        };
        sheet
            .painter
            .rect_stroke(block, 0.0, stroke, egui::StrokeKind::Inside);
        let fill = desk.faces.of(sort, sheet.scale);
        fill.paint(&sheet.painter, |p: Point| sheet.at(p + at), palette.face);
    }
}

/// Selects the block under the pointer on a click, and shows its cuts on a double click.
fn select_block(sheet: &Sheet, desk: &mut Desk, job: &Job) {
    if !sheet.response.clicked() && !sheet.response.double_clicked() {
        return;
    }
    let Some(pointer) = sheet.response.interact_pointer_pos() else {
        return;
    };
    let at = sheet.place(pointer);
    for (number, plank) in job.planks.iter().enumerate() {
        let shift = shift(&job.planks, number);
        let found = plank.places.iter().find_map(|place| {
            let sort = job.sorts.get(place.sort)?;
            let block = sort.block.rect() + (place.at + shift);
            block.contains(at).then(|| sort.name.clone())
        });
        if let Some(name) = found {
            desk.selection.sort = Some(name);
            if sheet.response.double_clicked() {
                desk.selection.room = Room::Cut;
            }
            return;
        }
    }
}

fn side(ui: &mut Ui, desk: &mut Desk, job: &Job, state: &mut State) {
    desk.say_if_old(ui);
    heading(ui, words::PLANKS);
    for plank in &job.planks {
        let wood = plank.width_mm * plank.length_mm;
        let blocks: f64 = plank
            .places
            .iter()
            .filter_map(|place| job.sorts.get(place.sort))
            .map(|sort| sort.block.body_mm * sort.block.set_mm)
            .sum();
        ui.label(format!(
            "{}: {}",
            plank.id,
            counted(plank.places.len(), "block", "blocks")
        ));
        let part = 100.0 * blocks / wood.max(1e-9);
        remark(
            ui,
            &format!(
                "{:.0} × {:.0} mm; {part:.0} % {}",
                plank.width_mm,
                plank.length_mm,
                words::YIELD
            ),
        );
    }
    if ui.button(words::ALL).clicked() {
        state.camera.fit();
    }
    heading(ui, words::PROGRAMS);
    for (number, program) in job.programs.iter().enumerate() {
        program_line(ui, desk, program, number, state);
    }
    ui.add_space(8.0);
    remark(ui, words::HOW);
}

fn program_line(ui: &mut Ui, desk: &Desk, program: &Program, number: usize, state: &mut State) {
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
        &format!(
            "{}; {}",
            parts.join(", then "),
            duration_in_words(program.estimate_s)
        ),
    );
}

fn part_in_words(desk: &Desk, part: &ProgramPart) -> String {
    let cutter = desk.document.workshop.cutter(&part.cutter);
    let cutter = cutter.map_or_else(
        || part.cutter.clone(),
        |cutter| format!("{} mm", cutter.diameter.in_mm()),
    );
    let role = match part.role {
        JobRole::Roughing => "roughing",
        JobRole::Finishing => "finishing",
        JobRole::Rest => "rest",
        JobRole::Corners => "corners",
        JobRole::Notches => "notches",
        JobRole::Separation => "separation",
    };
    format!("{role} with {cutter}")
}

/// Works the chosen program's lines out once.
fn keep_path(job: &Arc<Job>, state: &mut State) {
    let Some(number) = state.program.filter(|&number| number < job.programs.len()) else {
        state.path = None;
        return;
    };
    let same = |path: &ProgramPath| Arc::ptr_eq(&path.job, job) && path.program == number;
    if state.path.as_ref().is_some_and(same) {
        return;
    }
    let shift = shift(&job.planks, job.programs[number].plank);
    let program = &job.programs[number];
    let parts = program
        .parts
        .iter()
        .map(|part| part_path(part, shift))
        .collect();
    state.path = Some(ProgramPath {
        job: Arc::clone(job),
        program: number,
        parts,
    });
}

fn part_path(part: &ProgramPart, shift: Vec2) -> PartPath {
    let mut path = PartPath {
        cutter: part.cutter.clone(),
        feeds: Vec::new(),
        rapids: Vec::new(),
    };
    let mut from: Option<Point> = None;
    let mut feed: Option<ArcPath> = None;
    for motion in &part.toolpath.motions {
        let to = motion.to.xy + shift;
        let start = from.unwrap_or(to);
        let step = match motion.course {
            Course::Rapid => {
                path.rapids.push([start, to]);
                path.feeds
                    .extend(feed.take().map(|feed| feed.points(SAGITTA_MM)));
                None
            }
            Course::Line { .. } => Some(ArcStep::Line { to }),
            Course::Arc { centre, turn, .. } => Some(ArcStep::Arc {
                to,
                centre: centre + shift,
                turn,
            }),
        };
        if let Some(step) = step {
            let feed = feed.get_or_insert_with(|| ArcPath::starting_at(start));
            feed.steps.push(step);
        }
        from = Some(to);
    }
    path.feeds.extend(feed.map(|feed| feed.points(SAGITTA_MM)));
    path
}

fn paint_path(sheet: &Sheet, job: &Job, path: &ProgramPath, palette: &Palette) {
    let cutters: Vec<&str> = job.surveys.first().map_or_else(Vec::new, |survey| {
        survey
            .cutters
            .iter()
            .map(|cutter| cutter.cutter.as_str())
            .collect()
    });
    for part in &path.parts {
        let place = cutters
            .iter()
            .position(|id| *id == part.cutter)
            .unwrap_or(cutters.len());
        let colour = palette.cutter(place);
        for line in &part.feeds {
            sheet.polyline(line, Stroke::new(1.1, colour));
        }
        for [from, to] in &part.rapids {
            sheet.line(
                *from,
                *to,
                Stroke::new(0.7, palette.air.gamma_multiply(0.6)),
            );
        }
    }
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
