//! The wood itself: bad places, clamps, where blocks may lie, and pins.

use std::sync::Arc;

use egui::{Align2, Color32, Shape, Stroke, vec2};
use kurbo::{Point, Rect, Vec2};

use cam_core::commission::Pin;
use cam_core::plank::Plank;
use cam_core::sort::Sort;

use super::super::super::Desk;
use super::super::super::canvas::Sheet;
use super::super::super::theme::Palette;

/// The word on a bad place.
const BAD: &str = "bad";
/// Between the lines that a bad place is hatched with, px.
const HATCH_PX: f32 = 7.0;
/// Length of dashes and of the gaps between them, px.
const DASH_PX: f32 = 5.0;
/// Places this near are the same, mm.
const SAME_PLACE_MM: f64 = 0.01;
/// A pin's head, px.
const PIN_PX: f32 = 4.0;

/// Paints what is not to be cut into, under the blocks.
pub(super) fn paint(sheet: &Sheet, plank: &Plank, shift: Vec2, palette: &Palette) {
    dashed(sheet, plank.room + shift, palette.grain);
    for bad in &plank.bad_places {
        hatched(sheet, *bad + shift, BAD, palette.grain, palette.text);
    }
    for clamp in &plank.clamps {
        let [x, y, width, length] =
            [clamp.x, clamp.y, clamp.width, clamp.length].map(|length| length.in_mm());
        let foot = sheet.rect_at(Rect::new(x, y, x + width, y + length) + shift);
        sheet.painter.rect_filled(foot, 2.0, palette.quiet);
    }
}

/// A mark on each block that lies where it is pinned.
pub(super) fn paint_pins(
    sheet: &Sheet,
    desk: &Desk,
    sorts: &[Arc<Sort>],
    plank: &Plank,
    shift: Vec2,
    palette: &Palette,
) {
    let pins = &desk.document.commission().planks.pins;
    if pins.is_empty() {
        return;
    }
    for place in &plank.places {
        let Some(sort) = sorts.get(place.sort) else {
            continue;
        };
        let kept = |pin: &Pin| {
            let off = Vec2::new(pin.x.in_mm(), pin.y.in_mm()) - place.at;
            pin.block == place.id && pin.plank == plank.id && off.hypot() < SAME_PLACE_MM
        };
        if pins.iter().any(kept) {
            let block = sheet.rect_at(sort.block.rect() + (place.at + shift));
            let at = block.right_top() + vec2(-2.0 * PIN_PX, 2.0 * PIN_PX);
            sheet.painter.circle_filled(at, PIN_PX, palette.accent);
            let foot = at + vec2(-1.5 * PIN_PX, 2.0 * PIN_PX);
            sheet
                .painter
                .line_segment([at, foot], Stroke::new(1.5, palette.accent));
        }
    }
}

fn dashed(sheet: &Sheet, rect: Rect, colour: Color32) {
    let corners = [
        (rect.x0, rect.y0),
        (rect.x1, rect.y0),
        (rect.x1, rect.y1),
        (rect.x0, rect.y1),
        (rect.x0, rect.y0),
    ];
    let path: Vec<egui::Pos2> = corners
        .iter()
        .map(|&corner| sheet.at(Point::from(corner)))
        .collect();
    let stroke = Stroke::new(0.8, colour.gamma_multiply(0.7));
    sheet
        .painter
        .extend(Shape::dashed_line(&path, stroke, DASH_PX, DASH_PX));
}

/// A rectangle with slanting lines in it, and a word where there is room.
pub(in crate::view::rooms) fn hatched(
    sheet: &Sheet,
    rect: Rect,
    word: &str,
    colour: Color32,
    text: Color32,
) {
    let area = sheet.rect_at(rect).intersect(sheet.rect);
    if !area.is_positive() {
        return;
    }
    let stroke = Stroke::new(1.0, colour);
    sheet
        .painter
        .rect_filled(area, 0.0, colour.gamma_multiply(0.35));
    sheet
        .painter
        .rect_stroke(area, 0.0, stroke, egui::StrokeKind::Inside);
    let painter = sheet.painter.with_clip_rect(area);
    let lines = ((area.width() + area.height()) / HATCH_PX).ceil() as u32;
    for number in 1..lines {
        let off = number as f32 * HATCH_PX;
        painter.line_segment(
            [
                area.left_top() + vec2(off, 0.0),
                area.left_top() + vec2(off - area.height(), area.height()),
            ],
            stroke,
        );
    }
    if area.width() > 34.0 && area.height() > 14.0 {
        sheet.text(area.center(), Align2::CENTER_CENTER, word, text);
    }
}
