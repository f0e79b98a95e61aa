//! An inked print of what will be cut, set in lines with the real blocks.

mod framed;

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{Color32, Stroke, TextEdit, Ui};
use kurbo::{Point, Rect};

use cam_core::make::Job;
use cam_core::measure::{Length, System, Unit};
use cam_core::proof::impression::{Align, Colour, Fount, INKS, PAPERS, Sheet};

use super::super::Desk;
use super::super::canvas::{Camera, Sheet as View, sheet};
use super::super::fields::{self, heading, remark};
use super::super::ink::Fill;
use super::super::rulers;
use super::super::theme::{self, Palette};
use crate::background::picture::Look;
use crate::view::words::{Text, measured, proof as words};
use framed::Framed;

/// Width of the panel, px: a long field with its label.
const SETTING_WIDTH: f32 = 384.0;

/// The measure to begin with, lines: a poster's.
const USUAL_MEASURE: f64 = 60.0;

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    camera: Camera,
    pub look: Look,
    drawn: bool,
    kept: Option<Kept>,
}

/// What is painted, until another job comes.
struct Kept {
    fount: Arc<Fount>,
    /// What each sort prints, as triangles.
    inked: Vec<Fill>,
    /// Ground of each sort that no cutter reaches, in face space.
    left: Vec<Fill>,
    /// The sheet as it was last set, for which look, and of a border its frame.
    sheet: Option<(Look, Sheet, Option<Framed>)>,
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let Some(job) = desk.job.cloned() else {
        say(ui, &desk.waiting());
        return;
    };
    desk.wishes.print = true;
    let fount = match desk.print {
        Some(Ok(fount)) => Arc::clone(fount),
        Some(Err(sentence)) => {
            say(ui, sentence);
            return;
        }
        None => {
            say(ui, &words::READING);
            return;
        }
    };
    framed::follow(desk, &mut state.look);
    keep(state, &job, &fount);
    egui::Panel::right("setting")
        .exact_size(SETTING_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            egui::ScrollArea::vertical().show(ui, |ui| controls(ui, desk, state));
        });
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| paint(ui, state, &palette));
}

/// A sentence in place of the print.
fn say(ui: &mut Ui, text: &str) {
    egui::CentralPanel::default().show(ui, |ui| {
        ui.centered_and_justified(|ui| ui.label(text));
    });
}

fn keep(state: &mut State, job: &Job, fount: &Arc<Fount>) {
    if !state
        .kept
        .as_ref()
        .is_some_and(|kept| Arc::ptr_eq(&kept.fount, fount))
    {
        let surveys: BTreeMap<&str, _> = job
            .sorts
            .iter()
            .zip(&job.surveys)
            .map(|(sort, survey)| (sort.name.as_str(), survey))
            .collect();
        let left = |name: &str| {
            let survey = surveys.get(name);
            survey.map_or_else(Fill::default, |survey| Fill::of_region(&survey.unreached))
        };
        state.kept = Some(Kept {
            fount: Arc::clone(fount),
            inked: fount
                .impressions
                .iter()
                .map(|one| Fill::of_region(&one.inked))
                .collect(),
            left: fount
                .impressions
                .iter()
                .map(|one| left(&one.name))
                .collect(),
            sheet: None,
        });
    }
    if let Some(kept) = &mut state.kept
        && kept
            .sheet
            .as_ref()
            .is_none_or(|(look, ..)| *look != state.look)
    {
        let sheet = state.look.sheet(fount);
        let framed = Framed::of(&state.look, fount, &sheet);
        kept.sheet = Some((state.look.clone(), sheet, framed));
    }
}

fn controls(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    framed::choose(ui, desk, &mut state.look);
    if state.look.border.is_none() {
        lines(ui, desk, &mut state.look);
    }
    let look = &mut state.look;
    heading(ui, words::SHEET);
    colour(ui, words::PAPER, &mut look.paper, &PAPERS);
    colour(ui, words::INK, &mut look.ink, &INKS);
    ui.add_space(4.0);
    ui.checkbox(&mut look.blocks, words::BLOCKS);
    if look.border.is_none() {
        ui.checkbox(&mut state.drawn, words::DRAWN);
        closing_up(ui, desk, state);
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let ready = !desk.job_is_old;
        if ui
            .add_enabled(ready, egui::Button::new(words::SAVE))
            .clicked()
        {
            desk.wishes.picture = true;
        }
        if ui.button(words::FIT).clicked() {
            state.camera.fit();
        }
    });
    remark(ui, words::KINDS);
    ui.add_space(8.0);
    remark(ui, words::WHAT);
    desk.say_if_old(ui);
    if let Some((_, sheet, framed)) = state.kept.as_ref().and_then(|kept| kept.sheet.as_ref()) {
        for sentence in sheet.remarks() {
            ui.add_space(4.0);
            ui.colored_label(Palette::of(ui).warning, sentence);
        }
        if let Some(framed) = framed {
            framed.told(ui, desk.document.commission().system);
        }
    }
}

/// The text, and how it is set.
fn lines(ui: &mut Ui, desk: &Desk, look: &mut Look) {
    let label = ui.label(words::LINES);
    let field = TextEdit::multiline(&mut look.setting.text)
        .desired_rows(4)
        .desired_width(f32::INFINITY)
        .hint_text(words::HINT);
    ui.add(field).labelled_by(label.id);
    remark(ui, words::NAMED);
    let aligns = [
        (Align::Left, words::AT_LEFT.to_string()),
        (Align::Centre, words::IN_MIDDLE.to_string()),
        (Align::Right, words::AT_RIGHT.to_string()),
    ];
    if let Some(align) = fields::choice(ui, words::ALIGN, &look.setting.align, &aligns) {
        look.setting.align = align;
    }
    let system = desk.document.commission().system;
    measure(ui, look, system);
    let leads = Length::mm(look.setting.leads_mm);
    if let Some(leads) = fields::length(ui, words::LEADS, leads, Unit::Point, system) {
        look.setting.leads_mm = leads.in_mm().max(0.0);
    }
}

/// The measure in which lines are broken, if they are.
fn measure(ui: &mut Ui, look: &mut Look, system: System) {
    let is_broken = look.setting.measure_mm.is_some();
    if let Some(breaks) = fields::tick(ui, words::BREAK, is_broken) {
        let usual = Length::lines(USUAL_MEASURE, system).in_mm();
        look.setting.measure_mm = breaks.then_some(usual);
    }
    if let Some(mm) = look.setting.measure_mm
        && let Some(wider) = fields::length(ui, words::MEASURE, Length::mm(mm), Unit::Line, system)
        && wider.in_mm() > 0.0
    {
        look.setting.measure_mm = Some(wider.in_mm());
    }
}

/// Notched pairs apart or closed up, and by how much; nothing where no line has such a pair.
fn closing_up(ui: &mut Ui, desk: &Desk, state: &mut State) {
    let sheet = state.kept.as_ref().and_then(|kept| kept.sheet.as_ref());
    let layer = sheet.and_then(|(_, sheet, _)| sheet.layers.first());
    let closed: Vec<f64> = layer.map_or_else(Vec::new, |layer| layer.closed_mm.clone());
    if closed.iter().all(|&closed| closed <= 0.0) {
        return;
    }
    let mut close = !state.look.setting.apart;
    ui.checkbox(&mut close, words::CLOSED);
    state.look.setting.apart = !close;
    let system = desk.document.commission().system;
    let several = closed.len() > 1;
    for (number, closed) in (1..).zip(closed).filter(|(_, closed)| *closed > 0.0) {
        let gain = measured(Length::mm(closed), Unit::Point, system);
        let said = if several {
            words::LINE_CLOSES.with(&[&number.to_string(), &gain])
        } else {
            words::THE_LINE_CLOSES.with(&[&gain])
        };
        remark(ui, said);
    }
}

/// A colour by its name, or any other.
fn colour(ui: &mut Ui, label: Text, value: &mut Colour, named: &[(&str, Colour)]) {
    fields::row(ui, label, |ui, label_id| {
        let mut parts = [value.red, value.green, value.blue];
        let button = ui
            .color_edit_button_srgb(&mut parts)
            .on_hover_text(words::ANY_COLOUR);
        let edge = Stroke::new(1.0, Palette::of(ui).quiet);
        ui.painter()
            .rect_stroke(button.rect, 2.0, edge, egui::StrokeKind::Inside);
        button.labelled_by(label_id);
        *value = Colour::new(parts[0], parts[1], parts[2]);
        let name = named.iter().find(|(_, colour)| colour == value);
        egui::ComboBox::from_id_salt(label.said())
            .selected_text(name.map_or(words::OTHER.said(), |(name, _)| name))
            .width(104.0)
            .show_ui(ui, |ui| {
                for (name, colour) in named {
                    ui.selectable_value(value, *colour, *name);
                }
            })
            .response
            .labelled_by(label_id);
    });
}

fn paint(ui: &mut Ui, state: &mut State, palette: &Palette) {
    let Some(Kept {
        inked,
        left,
        sheet: Some((_, set, framed)),
        ..
    }) = &state.kept
    else {
        return;
    };
    let bounds = Rect::new(0.0, 0.0, set.width_mm.max(1.0), set.height_mm.max(1.0));
    let view = sheet(ui, &words::PRINT, bounds, &mut state.camera, palette.desk);
    view.painter
        .rect_filled(view.rect_at(bounds), 1.0, on_screen(set.paper));
    // Units of a frame are turned, and so are their own.
    let inked = framed.as_ref().map_or(inked, |framed| &framed.inked);
    for layer in &set.layers {
        let ink = on_screen(layer.ink);
        for (place, one, at) in layer.sorts() {
            let block = Rect::new(0.0, 0.0, one.set_mm, one.body_mm) + at.to_vec2();
            if !view.rect_at(block).intersects(view.rect) {
                continue;
            }
            if let Some(fill) = inked.get(place) {
                fill.paint(&view.painter, |p| view.at(p + at.to_vec2()), ink);
            }
            if let (true, None, Some(fill)) = (state.drawn, framed, left.get(place)) {
                // The print is the mirror of the face.
                let mirrored = |p: Point| view.at(Point::new(at.x + one.set_mm - p.x, at.y + p.y));
                // Slivers of ground have edges too sharp to be softened.
                fill.paint_flat(&view.painter, mirrored, palette.left_in_print);
            }
        }
    }
    if set.blocks {
        edges(&view, set, palette);
    }
    if let Some(framed) = framed {
        framed.marks(&view, palette);
    }
    rulers::paint(ui, &view);
}

fn edges(view: &View, set: &Sheet, palette: &Palette) {
    let stroke = Stroke::new(0.8, palette.quiet);
    for ring in set.layers.iter().flat_map(|layer| layer.edges()) {
        let points = ring.into_iter().map(|corner| view.at(corner)).collect();
        view.painter.add(egui::Shape::closed_line(points, stroke));
    }
}

fn on_screen(colour: Colour) -> Color32 {
    Color32::from_rgb(colour.red, colour.green, colour.blue)
}
