//! The papers of the job, page by page as they will be printed.

use std::sync::Arc;

use egui::{Color32, RichText, ScrollArea, Stroke, Ui};
use kurbo::{Affine, Rect};

use super::super::Desk;
use super::super::canvas::{Camera, sheet};
use super::super::fields::{heading, remark};
use super::super::layer::Layer;
use super::super::theme::{self, Palette};
use crate::background::drawing::Mark;
use crate::background::papers::{Page, Readable};
use crate::model::selection::Room;
use crate::view::words::{counted, papers as words};

/// Papers, and the place of a paper and of a page among them.
type Shown = (Arc<Vec<Readable>>, (usize, usize));

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    camera: Camera,
    paper: usize,
    page: usize,
    /// The page as it is painted.
    page_drawn: Layer<()>,
    /// Which papers and which page that is.
    drawn: Option<Shown>,
}

impl State {
    /// Whether a page is being drawn.
    pub(super) fn is_busy(&self) -> bool {
        self.page_drawn.is_busy()
    }
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
    keep(state, &papers);
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

/// A page that is another than the one that was painted is drawn anew.
fn keep(state: &mut State, papers: &Arc<Vec<Readable>>) {
    let place = (state.paper, state.page);
    let same = |(known, at): &Shown| *at == place && Arc::ptr_eq(known, papers);
    if !state.drawn.as_ref().is_some_and(same) {
        state.drawn = Some((Arc::clone(papers), place));
        state.page_drawn = Layer::default();
    }
}

/// What stands on a page. Pages are counted downwards, the sheet upwards.
fn marks(page: &Page) -> Vec<Mark> {
    let height = page.size_mm[1];
    let sheet_from_page = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, height]);
    let shapes = page.shapes.iter().map(|shape| {
        let [red, green, blue] = shape.colour;
        Mark::Area {
            path: sheet_from_page * shape.path.clone(),
            colour: Color32::from_rgb(red, green, blue),
            within: shape
                .within
                .map(|frame| sheet_from_page.transform_rect_bbox(frame)),
        }
    });
    shapes.collect()
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
    state.page_drawn.paint(ui, &view, (), || marks(page));
}
