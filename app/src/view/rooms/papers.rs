//! The papers of the job, page by page as they will be printed.

use std::sync::Arc;

use egui::{Color32, RichText, ScrollArea, Stroke, Ui, Vec2, vec2};
use kurbo::{Point, Rect};

use super::super::Desk;
use super::super::canvas::{Camera, sheet};
use super::super::fields::{heading, remark};
use super::super::ink::Fill;
use super::super::theme::{self, Palette};
use crate::background::papers::{Page, Readable};
use crate::model::selection::Room;
use crate::view::words::{counted, papers as words};

/// How far a shown curve may lie from the true one, mm.
const TOLERANCE_MM: f64 = 0.02;

/// Where in a pixel a page is painted, px: no two in one row or column.
const SAMPLES: [Vec2; 4] = [
    vec2(-0.125, -0.375),
    vec2(0.375, -0.125),
    vec2(0.125, 0.375),
    vec2(-0.375, 0.125),
];

/// How much of what is below each of them covers; all together, 96 hundredths.
const SAMPLE_COVER: f32 = 0.55;

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    camera: Camera,
    paper: usize,
    page: usize,
    /// The page as it is painted, and of which papers and which page it is.
    kept: Option<Kept>,
}

struct Kept {
    papers: Arc<Vec<Readable>>,
    place: (usize, usize),
    fills: Vec<(Fill, Color32, Option<Rect>)>,
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let Some(job) = desk.job.cloned() else {
        say(ui, &desk.waiting());
        return;
    };
    if job.is_stopped() {
        say(ui, &words::STOPPED);
        return;
    }
    desk.wishes.papers = true;
    let papers = match desk.papers {
        Some(Ok(papers)) => Arc::clone(papers),
        Some(Err(sentence)) => {
            say(ui, sentence);
            return;
        }
        None => {
            say(ui, &words::LAYING);
            return;
        }
    };
    state.paper = state.paper.min(papers.len().saturating_sub(1));
    egui::Panel::left("papers")
        .exact_size(theme::SIDE_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| side(ui, desk, &papers, state));
        });
    let Some(paper) = papers.get(state.paper) else {
        return;
    };
    state.page = state.page.min(paper.pages.len().saturating_sub(1));
    let Some(page) = paper.pages.get(state.page) else {
        return;
    };
    keep(state, &papers, page);
    let name = format!(
        "{}, page {} of {}",
        paper.name,
        state.page + 1,
        paper.pages.len()
    );
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| paint(ui, &name, page, state, &palette));
}

/// A sentence in place of the pages.
fn say(ui: &mut Ui, text: &str) {
    egui::CentralPanel::default().show(ui, |ui| {
        ui.centered_and_justified(|ui| ui.label(text));
    });
}

fn side(ui: &mut Ui, desk: &mut Desk, papers: &Arc<Vec<Readable>>, state: &mut State) {
    desk.say_if_old(ui);
    heading(ui, words::PAPERS);
    for (number, paper) in papers.iter().enumerate() {
        let chosen = state.paper == number;
        if ui.selectable_label(chosen, paper.name).clicked() {
            (state.paper, state.page) = (number, 0);
            state.camera.fit();
        }
        remark(
            ui,
            counted(paper.pages.len(), words::ONE_PAGE, words::PAGES),
        );
    }
    let Some(paper) = papers.get(state.paper) else {
        return;
    };
    ui.add_space(8.0);
    let last = paper.pages.len().saturating_sub(1);
    ui.horizontal(|ui| {
        let before = egui::Button::new(words::BEFORE);
        if ui.add_enabled(state.page > 0, before).clicked() {
            state.page -= 1;
        }
        let next = egui::Button::new(words::NEXT);
        if ui.add_enabled(state.page < last, next).clicked() {
            state.page += 1;
        }
    });
    if ui.button(words::FIT).clicked() {
        state.camera.fit();
    }
    ui.add_space(8.0);
    let ready = !desk.job_is_old;
    let save = ui.add_enabled(ready, egui::Button::new(words::SAVE));
    if save.on_hover_text(words::SAVE_HINT).clicked() {
        desk.wishes.save_paper = Some(paper.files.clone());
    }
    let all = ui.add_enabled(ready, egui::Button::new(words::SAVE_ALL));
    if all.on_hover_text(words::SAVE_ALL_HINT).clicked() {
        desk.wishes.save_papers = true;
    }
    ui.add_space(8.0);
    let text = RichText::new(words::LOOK)
        .small()
        .color(Palette::of(ui).accent);
    if ui.add(egui::Button::new(text).frame(false)).clicked() {
        desk.selection.room = Room::Workshop;
    }
}

fn keep(state: &mut State, papers: &Arc<Vec<Readable>>, page: &Page) {
    let place = (state.paper, state.page);
    let same = |kept: &Kept| kept.place == place && Arc::ptr_eq(&kept.papers, papers);
    if state.kept.as_ref().is_some_and(same) {
        return;
    }
    let fills = page.shapes.iter().map(|shape| {
        let [red, green, blue] = shape.colour;
        let fill = Fill::of_path(&shape.path, TOLERANCE_MM);
        (fill, Color32::from_rgb(red, green, blue), shape.within)
    });
    state.kept = Some(Kept {
        papers: Arc::clone(papers),
        place,
        fills: fills.collect(),
    });
}

fn paint(ui: &mut Ui, name: &str, page: &Page, state: &mut State, palette: &Palette) {
    let [width, height] = page.size_mm;
    let bounds = Rect::new(0.0, 0.0, width, height);
    let view = sheet(ui, name, bounds, &mut state.camera, palette.desk);
    let paper = view.rect_at(bounds);
    // Paper is white by night as well: this is how it will be printed.
    view.painter.rect_filled(paper, 0.0, Color32::WHITE);
    let edge = Stroke::new(1.0, palette.line);
    view.painter
        .rect_stroke(paper, 0.0, edge, egui::StrokeKind::Outside);
    let Some(kept) = &state.kept else { return };
    // Pages are counted downwards, the sheet upwards.
    let turned = |place: Point| Point::new(place.x, height - place.y);
    for (fill, colour, within) in &kept.fills {
        let clip = within.map_or(paper, |frame| {
            view.rect_at(Rect::from_points(
                turned(Point::new(frame.x0, frame.y0)),
                turned(Point::new(frame.x1, frame.y1)),
            ))
        });
        let painter = view.painter.with_clip_rect(clip.intersect(view.rect));
        // Hairlines and small letters are too fine for softened edges: these would make them bold, and their joins stick out. Painted
        // once they would lose what falls between the pixels' middles; so they are painted thinly, several times within a pixel.
        let thin = colour.gamma_multiply(SAMPLE_COVER);
        for aside in SAMPLES {
            fill.paint_flat(&painter, |place| view.at(turned(place)) + aside, thin);
        }
    }
}
