//! An inked print of what will be cut, set in lines with the real blocks.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{Stroke, TextEdit, Ui};
use kurbo::{Point, Rect};

use cam_core::make::Job;
use cam_core::sort::Sort;

use super::super::Desk;
use super::super::canvas::{Camera, Sheet, sheet};
use super::super::fields::remark;
use super::super::ink::Fill;
use super::super::theme::{self, Palette};
use crate::background::picture::{MEASURE_BODIES, PAPER};

/// Words of this view.
mod words {
    pub const LINES: &str = "Set these lines";
    pub const HINT: &str = "Leave empty to see every sort once";
    pub const BLOCKS: &str = "Show the blocks";
    pub const DRAWN: &str = "Show what was drawn but cannot be cut";
    pub const SAVE: &str = "Save as picture…";
    pub const FIT: &str = "Show all";
    pub const WHAT: &str =
        "Printed from what the cutters leave: corners are as round as they will be.";
}

/// Space between words where no space is ordered, as a part of the body.
const WORD_SPACE: f64 = 0.25;

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    camera: Camera,
    text: String,
    blocks: bool,
    drawn: bool,
    kept: Option<(Arc<Job>, Vec<Fill>)>,
}

/// A block in the set lines: which sort, and where its lower-left corner lies.
struct Placed {
    sort: usize,
    at: Point,
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let Some(job) = desk.job.cloned() else {
        let text = desk.waiting();
        egui::CentralPanel::default().show(ui, |ui| {
            ui.centered_and_justified(|ui| ui.label(text));
        });
        return;
    };
    if !state
        .kept
        .as_ref()
        .is_some_and(|(kept, _)| Arc::ptr_eq(kept, &job))
    {
        let unreached = job
            .surveys
            .iter()
            .map(|survey| Fill::of_region(&survey.unreached));
        state.kept = Some((Arc::clone(&job), unreached.collect()));
    }
    egui::Panel::top("lines")
        .frame(theme::panel(&palette))
        .show(ui, |ui| controls(ui, desk, state));
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| {
            let (placed, missing) = set(&job.sorts, &state.text);
            let bounds = bounds(&job.sorts, &placed);
            let sheet = sheet(ui, "Proof", bounds, &mut state.camera, palette.desk);
            sheet
                .painter
                .rect_filled(sheet.rect_at(bounds), 1.0, palette.sheet);
            for place in &placed {
                paint(&sheet, desk, &job.sorts, place, state, &palette);
            }
            if !missing.is_empty() {
                let text: String = missing.iter().map(|c| format!("{c} ")).collect();
                let at = sheet.rect.left_bottom() + egui::vec2(14.0, -12.0);
                let sentence = format!("Not on the bill: {text}");
                sheet.text(at, egui::Align2::LEFT_BOTTOM, &sentence, palette.stop);
            }
        });
}

fn controls(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    ui.horizontal(|ui| {
        let label = ui.label(words::LINES);
        let field = TextEdit::multiline(&mut state.text)
            .desired_rows(1)
            .desired_width(340.0)
            .hint_text(words::HINT);
        ui.add(field).labelled_by(label.id);
        ui.checkbox(&mut state.blocks, words::BLOCKS);
        ui.checkbox(&mut state.drawn, words::DRAWN);
        if ui.button(words::FIT).clicked() {
            state.camera.fit();
        }
        let ready = desk.job.is_some() && !desk.job_is_old;
        if ui
            .add_enabled(ready, egui::Button::new(words::SAVE))
            .clicked()
        {
            desk.wishes.picture = true;
        }
    });
    remark(ui, words::WHAT);
    desk.say_if_old(ui);
}

fn paint(
    sheet: &Sheet,
    desk: &mut Desk,
    sorts: &[Arc<Sort>],
    placed: &Placed,
    state: &State,
    palette: &Palette,
) {
    let Some(sort) = sorts.get(placed.sort) else {
        return;
    };
    let block = sheet.rect_at(sort.block.rect() + placed.at.to_vec2());
    if !block.intersects(sheet.rect) {
        return;
    }
    // The print is the mirror of the block.
    let set = sort.block.set_mm;
    let place = |p: Point| sheet.at(Point::new(placed.at.x + set - p.x, placed.at.y + p.y));
    let face = desk.faces.of(sort, sheet.scale);
    if let Some(unreached) = state
        .kept
        .as_ref()
        .and_then(|(_, fills)| fills.get(placed.sort))
    {
        let colour = if state.drawn {
            palette.left
        } else {
            palette.print
        };
        // Slivers of ground have edges too sharp to be softened.
        unreached.paint_flat(&sheet.painter, place, colour);
    }
    face.paint(&sheet.painter, place, palette.print);
    if state.blocks {
        let stroke = Stroke::new(0.8, palette.quiet);
        sheet
            .painter
            .rect_stroke(block, 0.0, stroke, egui::StrokeKind::Middle);
    }
}

/// Sets a text in lines, or every sort once if there is none. Answers with the blocks and the characters that no sort prints.
fn set(sorts: &[Arc<Sort>], text: &str) -> (Vec<Placed>, Vec<char>) {
    let body = sorts
        .iter()
        .map(|sort| sort.block.body_mm)
        .fold(0.0, f64::max);
    let below = sorts
        .iter()
        .map(|sort| sort.block.baseline_mm)
        .fold(0.0, f64::max);
    if text.trim().is_empty() {
        return (every_sort(sorts, body, below), Vec::new());
    }
    let by_text: BTreeMap<&str, usize> = sorts
        .iter()
        .enumerate()
        .rev()
        .map(|(place, sort)| (sort.text.as_str(), place))
        .collect();
    let mut placed = Vec::new();
    let mut missing = Vec::new();
    for (number, line) in text.lines().enumerate() {
        let base = -(number as f64) * body;
        let mut x = 0.0;
        for character in line.chars() {
            let mut buffer = [0; 4];
            match by_text.get(&*character.encode_utf8(&mut buffer)) {
                Some(&sort) => {
                    placed.push(stand(sorts, sort, x, base));
                    x += sorts[sort].block.set_mm;
                }
                None if character.is_whitespace() => x += body * WORD_SPACE,
                None if missing.contains(&character) => {}
                None => missing.push(character),
            }
        }
    }
    (placed, missing)
}

fn every_sort(sorts: &[Arc<Sort>], body: f64, below: f64) -> Vec<Placed> {
    let measure = body * MEASURE_BODIES;
    let (mut x, mut base) = (0.0, below);
    let mut placed = Vec::new();
    for (place, sort) in sorts
        .iter()
        .enumerate()
        .filter(|(_, sort)| !sort.block.plain)
    {
        if x > 0.0 && x + sort.block.set_mm > measure {
            x = 0.0;
            base -= body;
        }
        placed.push(stand(sorts, place, x, base));
        x += sort.block.set_mm;
    }
    placed
}

/// Blocks of all bodies stand on one base line.
fn stand(sorts: &[Arc<Sort>], sort: usize, x: f64, base: f64) -> Placed {
    Placed {
        sort,
        at: Point::new(x, base - sorts[sort].block.baseline_mm),
    }
}

fn bounds(sorts: &[Arc<Sort>], placed: &[Placed]) -> Rect {
    let blocks = placed
        .iter()
        .filter_map(|place| Some(sorts.get(place.sort)?.block.rect() + place.at.to_vec2()));
    let whole = blocks
        .reduce(|a, b| a.union(b))
        .unwrap_or(Rect::new(0.0, 0.0, 10.0, 10.0));
    let body = sorts
        .iter()
        .map(|sort| sort.block.body_mm)
        .fold(1.0, f64::max);
    whole.inflate(body * PAPER, body * PAPER)
}

#[cfg(test)]
mod tests {
    use super::*;
    use cam_core::sort::Block;
    use geometry::region::Region;

    fn sort(text: &str, set_mm: f64, baseline_mm: f64) -> Arc<Sort> {
        Arc::new(Sort {
            name: text.to_owned(),
            text: text.to_owned(),
            count: 1,
            source: None,
            block: Block {
                outline: Vec::new(),
                body_mm: 40.0,
                set_mm,
                baseline_mm,
                extended_pt: [0.0, 0.0],
                plain: false,
            },
            outline: kurbo::BezPath::new(),
            face: Region::default(),
        })
    }

    #[test]
    fn lines_stand_on_their_base_lines_block_against_block() {
        let sorts = [sort("A", 20.0, 10.0), sort("g", 15.0, 14.0)];
        let (placed, missing) = set(&sorts, "Ag?\nA ?A");
        assert_eq!(missing, ['?']);
        let corners: Vec<(f64, f64)> = placed
            .iter()
            .map(|place| (place.at.x, place.at.y))
            .collect();
        assert_eq!(
            corners,
            [(0.0, -10.0), (20.0, -14.0), (0.0, -50.0), (30.0, -50.0)]
        );
    }

    #[test]
    fn without_a_text_every_sort_is_set_once() {
        let sorts: Vec<_> = (0..40).map(|_| sort("A", 20.0, 10.0)).collect();
        let (placed, missing) = set(&sorts, " ");
        assert_eq!((placed.len(), missing.len()), (40, 0));
        assert!(
            placed
                .iter()
                .all(|place| place.at.x + 20.0 <= 40.0 * MEASURE_BODIES)
        );
        assert!(set(&[], "").0.is_empty());
    }
}
