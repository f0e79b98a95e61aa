//! Moving and pinning one block with the pointer or with keys.

use std::sync::Arc;

use egui::{Key, Stroke, StrokeKind, Ui};
use kurbo::{Point, Rect, Vec2};

use cam_core::commission::{Pin, PlankRules};
use cam_core::measure::Length;
use cam_core::plank::Plank;
use cam_core::sort::Sort;

use super::super::super::Desk;
use super::super::super::canvas::Sheet;
use super::super::super::theme::Palette;
use super::{block_at, shift};
use crate::model::command::Command;

/// A block that is dropped this near to where it would lie in line takes that place, mm.
const SNAP_MM: f64 = 3.0;
/// Places are kept to a tenth, mm.
const TENTHS: f64 = 10.0;
/// What one key press moves, mm: with Shift, and with Alt as well.
const STEP_MM: f64 = 1.0;
const FINE_MM: f64 = 0.1;

/// The chosen block and how it is being moved.
#[derive(Default)]
pub(super) struct Moving {
    chosen: Option<String>,
    /// From the block's lower left corner to the pointer, while it is dragged, mm.
    grip: Option<Vec2>,
    over_chosen: bool,
}

/// Where a block lies.
#[derive(Clone, Copy)]
struct Spot<'a> {
    plank: usize,
    sort: &'a Sort,
    at: Vec2,
}

impl Moving {
    /// Chooses a block, or none.
    pub(super) fn choose(&mut self, block: Option<String>) {
        self.chosen = block;
        self.grip = None;
    }

    /// Whether the pointer is to move the block rather than the sheet.
    pub(super) fn holds(&self) -> bool {
        self.grip.is_some() || self.over_chosen
    }

    /// Follows pointer and keys; leaves a command when the block has a new place.
    pub(super) fn steer(
        &mut self,
        ui: &Ui,
        sheet: &Sheet,
        desk: &mut Desk,
        planks: &[Plank],
        sorts: &[Arc<Sort>],
        palette: &Palette,
    ) {
        let Some(id) = self.chosen.clone() else {
            self.over_chosen = false;
            return;
        };
        let Some(spot) = spot_of(&id, planks, sorts) else {
            self.choose(None);
            return;
        };
        self.keys(ui, sheet, desk, planks, &id, spot);
        let pointer = sheet
            .response
            .hover_pos()
            .or(sheet.response.interact_pointer_pos());
        let place = pointer.map(|pointer| sheet.place(pointer));
        let over = |place: Point| {
            let found = block_at(planks, sorts, place);
            found.is_some_and(|(plank, place)| planks[plank].places[place].id == id)
        };
        if self.grip.is_none() {
            let pressed = ui.input(|input| input.pointer.press_origin());
            let from = pressed.map(|pressed| sheet.place(pressed));
            if sheet.response.drag_started_by(egui::PointerButton::Primary)
                && let Some(from) = from.filter(|&from| over(from))
            {
                let corner = Point::ORIGIN + spot.at + shift(planks, spot.plank);
                self.grip = Some(from - corner);
            }
            self.over_chosen = place.is_some_and(over);
        }
        let (Some(grip), Some(place)) = (self.grip, place) else {
            outline(sheet, spot, shift(planks, spot.plank), palette);
            return;
        };
        let corner = place - grip;
        let target = target_of(corner, spot, planks);
        let to = target.map(|plank| {
            let at = corner - Point::ORIGIN - shift(planks, plank);
            let at = snapped(at, &id, spot.sort, &planks[plank], sorts, desk);
            (plank, at)
        });
        if let Some((plank, at)) = to {
            let moved = Spot { plank, at, ..spot };
            outline(sheet, moved, shift(planks, plank), palette);
        }
        if sheet.response.drag_stopped() {
            self.grip = None;
            if let Some((plank, at)) = to {
                pin(desk, &id, &planks[plank].id, at);
            }
        }
    }

    fn keys(
        &self,
        ui: &Ui,
        sheet: &Sheet,
        desk: &mut Desk,
        planks: &[Plank],
        id: &str,
        spot: Spot,
    ) {
        let elsewhere = |focused: egui::Id| focused != sheet.response.id;
        if ui.memory(|memory| memory.focused().is_some_and(elsewhere)) {
            return;
        }
        let (by, pins) = ui.input(|input| {
            let step = if input.modifiers.alt {
                FINE_MM
            } else {
                STEP_MM
            };
            let pressed = |key| f64::from(i8::from(input.key_pressed(key)));
            let way = Vec2::new(
                pressed(Key::ArrowRight) - pressed(Key::ArrowLeft),
                pressed(Key::ArrowUp) - pressed(Key::ArrowDown),
            );
            let by = if input.modifiers.shift {
                way * step
            } else {
                Vec2::ZERO
            };
            (by, input.modifiers.is_none() && input.key_pressed(Key::P))
        });
        let plank = &planks[spot.plank].id;
        if by != Vec2::ZERO {
            let at = inside(spot.at + by, spot.sort, &planks[spot.plank]);
            pin(desk, id, plank, at);
        } else if pins {
            let rules = &desk.document.commission().planks;
            if rules.pins.iter().any(|pin| pin.block == id) {
                let mut rules = rules.clone();
                rules.pins.retain(|pin| pin.block != id);
                desk.send(Command::Planks(rules));
            } else {
                pin(desk, id, plank, spot.at);
            }
        }
    }
}

fn spot_of<'a>(id: &str, planks: &[Plank], sorts: &'a [Arc<Sort>]) -> Option<Spot<'a>> {
    planks.iter().enumerate().find_map(|(number, plank)| {
        let place = plank.places.iter().find(|place| place.id == id)?;
        Some(Spot {
            plank: number,
            sort: sorts.get(place.sort)?,
            at: place.at,
        })
    })
}

fn outline(sheet: &Sheet, spot: Spot, shift: Vec2, palette: &Palette) {
    let block = sheet.rect_at(spot.sort.block.rect() + (spot.at + shift));
    sheet.painter.rect_stroke(
        block.expand(1.5),
        1.0,
        Stroke::new(2.5, palette.accent),
        StrokeKind::Outside,
    );
}

/// The plank that the middle of a block is over.
fn target_of(corner: Point, spot: Spot, planks: &[Plank]) -> Option<usize> {
    let middle = (spot.sort.block.rect() + corner.to_vec2()).center();
    (0..planks.len()).find(|&number| {
        let plank = &planks[number];
        let whole = Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm) + shift(planks, number);
        whole.contains(middle)
    })
}

/// The place in line with its neighbours, where that is near; else to the tenth of a millimetre.
fn snapped(
    at: Vec2,
    id: &str,
    sort: &Sort,
    plank: &Plank,
    sorts: &[Arc<Sort>],
    desk: &Desk,
) -> Vec2 {
    let lane = desk.document.commission().planks.lane.in_mm();
    let others: Vec<Rect> = plank
        .places
        .iter()
        .filter(|place| place.id != id)
        .filter_map(|place| Some(sorts.get(place.sort)?.block.rect() + place.at))
        .collect();
    let (set, body) = (sort.block.set_mm, sort.block.body_mm);
    let mut xs = vec![plank.room.x0, plank.room.x1 - set];
    let mut ys = vec![plank.room.y0, plank.room.y1 - body];
    for other in &others {
        xs.extend([other.x0, other.x1 + lane, other.x0 - lane - set]);
        ys.extend([other.y0, other.y1 + lane, other.y0 - lane - body]);
    }
    inside(Vec2::new(near(at.x, &xs), near(at.y, &ys)), sort, plank)
}

/// The nearest place in the plank's room: nothing can be pinned in a margin.
fn inside(at: Vec2, sort: &Sort, plank: &Plank) -> Vec2 {
    let room = plank.room;
    Vec2::new(
        at.x.min(room.x1 - sort.block.set_mm).max(room.x0),
        at.y.min(room.y1 - sort.block.body_mm).max(room.y0),
    )
}

fn near(mm: f64, lines: &[f64]) -> f64 {
    lines
        .iter()
        .copied()
        .filter(|line| (line - mm).abs() <= SNAP_MM)
        .min_by(|a, b| (a - mm).abs().total_cmp(&(b - mm).abs()))
        .unwrap_or((mm * TENTHS).round() / TENTHS)
}

/// Pins a block at a place of a plank.
fn pin(desk: &mut Desk, block: &str, plank: &str, at: Vec2) {
    let mut rules: PlankRules = desk.document.commission().planks.clone();
    // To the step of programs, so that no place is lost in writing it.
    let mm = |mm: f64| Length::mm(((mm * 1000.0).round() / 1000.0).max(0.0));
    rules.pins.retain(|pin| pin.block != block);
    rules.pins.push(Pin {
        block: block.to_owned(),
        plank: plank.to_owned(),
        x: mm(at.x),
        y: mm(at.y),
    });
    desk.send(Command::Planks(rules));
}
