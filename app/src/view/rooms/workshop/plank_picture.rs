//! A plank in stock, seen from above with the face up; bad places are marked by dragging over them.

use cam_core::measure::Length;
use cam_core::workshop::{BadPlace, Grain, StockPlank};
use egui::{Align2, Color32, Stroke, Ui, vec2};
use kurbo::{Point, Rect};

use super::super::super::canvas::{Camera, Sheet, sheet};
use super::super::super::theme::Palette;
use super::super::plank::hatched;

/// Marked places are taken to half millimetres.
const STEP_MM: f64 = 0.5;
/// A smaller drag marks nothing, mm.
const LEAST_MARK_MM: f64 = 2.0;
/// Between two lines of grain, px.
const GRAIN_PX: f32 = 9.0;

/// What this view keeps for itself.
#[derive(Default)]
pub(super) struct State {
    camera: Camera,
    /// Where the place that is being marked begins.
    from: Option<Point>,
}

/// Shows the plank; true if a bad place was marked on it.
pub(super) fn show(ui: &mut Ui, plank: &mut StockPlank, state: &mut State) -> bool {
    let palette = Palette::of(ui);
    let whole = Rect::new(0.0, 0.0, plank.width.in_mm(), plank.length.in_mm());
    // Dragging marks; the plank is always seen whole unless it is zoomed into.
    state.camera.held = true;
    let label = crate::view::words::workshop::plank::PLANK.with(&[&plank.id]);
    let sheet = sheet(ui, &label, whole, &mut state.camera, palette.paper);
    let area = sheet.rect_at(whole);
    sheet.painter.rect_filled(area, 0.0, palette.plank);
    grain(&sheet, area, plank.grain, palette.grain);
    reserved(&sheet, plank, whole, &palette);
    for bad in &plank.bad_places {
        let place = rect_of(bad.x, bad.y, bad.width, bad.length);
        hatched(&sheet, place, &bad.what, palette.grain, palette.face);
    }
    for clamp in plank.clamps.iter().flatten() {
        let place = rect_of(clamp.x, clamp.y, clamp.width, clamp.length);
        sheet
            .painter
            .rect_filled(sheet.rect_at(place), 2.0, palette.quiet);
    }
    let edge = Stroke::new(1.2, palette.grain);
    sheet
        .painter
        .rect_stroke(area, 0.0, edge, egui::StrokeKind::Outside);
    let size = format!("{:.0} × {:.0} mm", whole.width(), whole.height());
    sheet.text(
        area.left_bottom() + vec2(0.0, 6.0),
        Align2::LEFT_TOP,
        &size,
        palette.text,
    );
    mark(&sheet, plank, whole, state, &palette)
}

fn rect_of(x: Length, y: Length, width: Length, length: Length) -> Rect {
    let (x, y) = (x.in_mm(), y.in_mm());
    Rect::new(x, y, x + width.in_mm(), y + length.in_mm())
}

/// Lines along the fibres; dots where they stand upright.
fn grain(sheet: &Sheet, area: egui::Rect, grain: Option<Grain>, colour: Color32) {
    let stroke = Stroke::new(0.8, colour.gamma_multiply(0.45));
    let painter = sheet.painter.with_clip_rect(area.intersect(sheet.rect));
    let across = (area.width() / GRAIN_PX).ceil() as u32;
    let along = (area.height() / GRAIN_PX).ceil() as u32;
    match grain {
        None => {}
        Some(Grain::Across) => {
            for line in 1..along {
                painter.hline(area.x_range(), area.top() + line as f32 * GRAIN_PX, stroke);
            }
        }
        Some(Grain::Along) => {
            for line in 1..across {
                painter.vline(area.left() + line as f32 * GRAIN_PX, area.y_range(), stroke);
            }
        }
        Some(Grain::End) => {
            for row in 1..along {
                for column in 1..across {
                    let shifted = if row % 2 == 0 { 0.5 } else { 0.0 };
                    let at = area.left_top() + vec2(column as f32 + shifted, row as f32) * GRAIN_PX;
                    painter.circle_filled(at, 1.0, stroke.color);
                }
            }
        }
    }
}

fn reserved(sheet: &Sheet, plank: &StockPlank, whole: Rect, palette: &Palette) {
    let kept = plank.reserved;
    let (left, right) = (kept.left.in_mm(), whole.x1 - kept.right.in_mm());
    let (near, far) = (kept.near.in_mm(), whole.y1 - kept.far.in_mm());
    for strip in [
        Rect::new(0.0, 0.0, left, whole.y1),
        Rect::new(right, 0.0, whole.x1, whole.y1),
        Rect::new(0.0, 0.0, whole.x1, near),
        Rect::new(0.0, far, whole.x1, whole.y1),
    ] {
        if strip.width() > 0.0 && strip.height() > 0.0 {
            let shade = palette.quiet.gamma_multiply(0.35);
            sheet.painter.rect_filled(sheet.rect_at(strip), 0.0, shade);
        }
    }
}

/// Marks the place that is dragged over.
fn mark(
    sheet: &Sheet,
    plank: &mut StockPlank,
    whole: Rect,
    state: &mut State,
    palette: &Palette,
) -> bool {
    let pointer = sheet.response.interact_pointer_pos();
    if sheet.response.drag_started() {
        // The pointer has moved a little before it counts as dragged.
        let began = sheet
            .response
            .ctx
            .input(|input| input.pointer.press_origin());
        state.from = began.or(pointer).map(|at| sheet.place(at));
    }
    let (Some(from), Some(to)) = (state.from, pointer.map(|at| sheet.place(at))) else {
        return false;
    };
    let inside = Rect::from_points(from, to).intersect(whole);
    let stepped = |mm: f64| (mm / STEP_MM).round() * STEP_MM;
    let place = Rect::new(
        stepped(inside.x0),
        stepped(inside.y0),
        stepped(inside.x1),
        stepped(inside.y1),
    );
    if sheet.response.drag_stopped() {
        state.from = None;
        if place.width() < LEAST_MARK_MM || place.height() < LEAST_MARK_MM {
            return false;
        }
        plank.bad_places.push(BadPlace {
            x: Length::mm(place.x0),
            y: Length::mm(place.y0),
            width: Length::mm(place.width()),
            length: Length::mm(place.height()),
            what: "knot".to_owned(),
        });
        return true;
    }
    hatched(sheet, place, "", palette.accent, palette.face);
    false
}
