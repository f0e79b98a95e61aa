//! Measuring on a sheet: from one place to another, in millimetres and in points of the commission.

use std::cell::Cell;

use egui::{Align2, FontId, Key, LayerId, Order, PointerButton, Pos2, Stroke, Ui, vec2};
use kurbo::Point;

use cam_core::measure::{Length, System, Unit};

use super::canvas::Sheet;
use super::theme::Palette;
use super::words::{self, figure};

/// Half the length of the marks at both ends, px.
const MARK: f32 = 5.0;

thread_local! {
    /// The points that are measured in. Each frame says it anew.
    static SYSTEM: Cell<System> = const { Cell::new(System::Pica) };
}

/// Sheets are measured in points of this system from now on, on this thread.
pub fn measure_in(system: System) {
    SYSTEM.set(system);
}

/// The points that are measured in.
pub fn measured_in() -> System {
    SYSTEM.get()
}

/// What is measured on a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measuring {
    from: Option<Point>,
    /// The other end; while there is none it is where the pointer is.
    to: Option<Point>,
}

impl Measuring {
    /// Takes what the maker does: a drag with the right button, or the key D at one place and at another; Escape, a click with that
    /// button, or D once more ends it.
    pub(super) fn steer(&mut self, ui: &Ui, sheet: &Sheet) {
        let response = &sheet.response;
        let pointer = ui.input(|input| input.pointer.hover_pos());
        let place = pointer.map(|at| sheet.place(at));
        if response.drag_started_by(PointerButton::Secondary) {
            let origin = ui.input(|input| input.pointer.press_origin());
            self.from = origin.map(|at| sheet.place(at));
            self.to = None;
        }
        if response.drag_stopped_by(PointerButton::Secondary) {
            self.to = place;
        }
        if response.secondary_clicked() {
            *self = Measuring::default();
        }
        let elsewhere = |id| id != response.id;
        if ui.memory(|memory| memory.focused().is_some_and(elsewhere)) {
            return;
        }
        let pressed = |key| ui.input(|input| input.modifiers.is_none() && input.key_pressed(key));
        if pressed(Key::Escape) {
            *self = Measuring::default();
        }
        if pressed(Key::D) && response.contains_pointer() {
            match (self.from, self.to) {
                (None, _) => self.from = place,
                (Some(_), None) => self.to = place,
                (Some(_), Some(_)) => *self = Measuring::default(),
            }
        }
    }

    /// Paints it over the sheet.
    pub(super) fn paint(&self, ui: &Ui, sheet: &Sheet) {
        let pointer = ui.input(|input| input.pointer.hover_pos());
        let end = self.to.or(pointer.map(|at| sheet.place(at)));
        let (Some(from), Some(to)) = (self.from, end) else {
            return;
        };
        let said = in_words(from, to, SYSTEM.get());
        ui.ctx()
            .accesskit_node_builder(sheet.response.id, |node| node.set_value(said.as_str()));
        let palette = Palette::of(ui);
        let layer = LayerId::new(Order::Middle, sheet.response.id.with("measuring"));
        let painter = ui.ctx().layer_painter(layer).with_clip_rect(sheet.rect);
        let stroke = Stroke::new(1.6, palette.accent);
        let (one, other) = (sheet.at(from), sheet.at(to));
        painter.line_segment([one, other], stroke);
        for at in [one, other] {
            let along = (other - one).normalized();
            let across = vec2(-along.y, along.x) * MARK;
            painter.line_segment([at - across, at + across], stroke);
        }
        let middle: Pos2 = one.lerp(other, 0.5);
        let font = FontId::proportional(13.5);
        let galley = painter.layout_no_wrap(said, font, palette.ink);
        let place = Align2::CENTER_BOTTOM.anchor_size(middle - vec2(0.0, 8.0), galley.size());
        painter.rect_filled(place.expand(4.0), 3.0, palette.paper);
        painter.galley(place.min, galley, palette.ink);
    }
}

/// How far it is, and how far across and along.
fn in_words(from: Point, to: Point, system: System) -> String {
    let way = to - from;
    let points = Length::mm(way.hypot()).in_unit(Unit::Point, system);
    let mm = |mm: f64| figure(mm, 2);
    words::MEASURED.with(&[
        &mm(way.hypot()),
        &figure(points, 2),
        &mm(way.x.abs()),
        &mm(way.y.abs()),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_is_told_whole_across_and_along() {
        let point = System::Pica.point_mm();
        let from = Point::new(1.0, 1.0);
        let to = from + kurbo::Vec2::new(3.0 * point, -4.0 * point);
        assert_eq!(
            in_words(from, to, System::Pica),
            "1.76 mm, 5.00 pt; across 1.05 mm, along 1.41 mm"
        );
    }
}
