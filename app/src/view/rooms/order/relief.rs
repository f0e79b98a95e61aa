//! The depth of the ground by its width, drawn as a cut through wood.

use egui::{Align2, FontId, Pos2, Shape, Stroke, Ui};

use cam_core::commission::Cutting;
use cam_core::relief::Relief;

use super::super::super::fields::remark;
use super::super::super::theme::Palette;
use crate::view::words::{figure, order::relief as words};

/// Height of the drawing, px.
const HEIGHT: f32 = 84.0;
/// The widest ground shown, in parts of what counts as wide.
const SHOWN: f64 = 1.5;
/// Wood shown below the floor, in parts of the relief.
const BELOW: f64 = 0.35;

/// Draws how deep ground of each width is cut, from narrow at the left to wide at the right.
pub(super) fn graph(ui: &mut Ui, cutting: &Cutting) {
    let relief = Relief::of(cutting);
    let palette = Palette::of(ui);
    let size = egui::vec2(ui.available_width().min(336.0), HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, egui::Sense::hover());
    let said = in_words(&relief);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &said));
    let widest = (relief.wide_width_mm * SHOWN).max(1e-3);
    let deepest = (relief.full_mm * (1.0 + BELOW)).max(1e-3);
    let place = |width: f64, depth: f64| {
        Pos2::new(
            rect.left() + (width / widest) as f32 * rect.width(),
            rect.top() + (depth / deepest) as f32 * rect.height(),
        )
    };
    let floor: Vec<Pos2> = [0.0, relief.narrow_width_mm, relief.wide_width_mm, widest]
        .into_iter()
        .map(|width| place(width, relief.depth_at_width(width)))
        .collect();
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 2.0, palette.paper);
    // The wood below the floor, in slices that are convex.
    for pair in floor.windows(2) {
        let slice = vec![
            pair[0],
            pair[1],
            Pos2::new(pair[1].x, rect.bottom()),
            Pos2::new(pair[0].x, rect.bottom()),
        ];
        painter.add(Shape::convex_polygon(slice, palette.wood, Stroke::NONE));
    }
    painter.add(Shape::line(floor, Stroke::new(1.6, palette.grain)));
    let small = FontId::proportional(11.0);
    for (width, depth, align) in [
        (relief.narrow_width_mm, relief.least_mm, Align2::LEFT_BOTTOM),
        (relief.wide_width_mm, relief.full_mm, Align2::LEFT_BOTTOM),
    ] {
        let at = place(width, depth);
        painter.circle_filled(at, 2.4, palette.measure);
        let text = words::WIDE_DEEP.with(&[&figure(width, 1), &figure(depth, 1)]);
        painter.text(
            at + egui::vec2(5.0, -3.0),
            align,
            text,
            small.clone(),
            palette.text,
        );
    }
    response.on_hover_text(said);
    remark(ui, words::FLOOR);
}

fn in_words(relief: &Relief) -> String {
    let figures = [
        relief.narrow_width_mm,
        relief.least_mm,
        relief.wide_width_mm,
        relief.full_mm,
    ];
    let [narrow, least, wide, full] = figures.map(|mm| figure(mm, 1));
    words::SAID.with(&[&narrow, &least, &wide, &full])
}
