//! Cutters drawn to scale: one large, as deep in the wood as it goes, and all side by side.

use cam_core::measure::{Length, System, Unit};
use cam_core::workshop::{Cutter, CutterShape, Workshop};
use egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2,
    vec2,
};

use super::super::super::Desk;
use super::super::super::theme::Palette;
use crate::view::words::{measured, short_figure, workshop::cutter_picture as words};

/// Height of the rack of all cutters, px.
const RACK_HEIGHT: f32 = 190.0;
/// Space around a drawing, px.
const AROUND: f32 = 26.0;
/// Height of the collet's nut as it is drawn, mm.
const NUT_MM: f64 = 12.0;
/// Wood that is drawn below the deepest cut, mm.
const BELOW_MM: f64 = 5.0;
/// Points on the round end of a ball cutter.
const ROUND_POINTS: usize = 24;
/// Room for the measures beside a cutter, px.
const MEASURES: f32 = 150.0;

/// Half a cutter's outline from the tip up to the top of its edges: height and half width, mm.
fn half(cutter: &Cutter) -> Vec<(f64, f64)> {
    let (radius, top) = (cutter.radius_mm(), cutter.flute_length.in_mm());
    match cutter.shape {
        CutterShape::Flat => vec![(0.0, radius), (top, radius)],
        CutterShape::Ball => {
            let quarter = (0..=ROUND_POINTS).map(|step| {
                let angle = std::f64::consts::FRAC_PI_2 * step as f64 / ROUND_POINTS as f64;
                (radius * (1.0 - angle.cos()), radius * angle.sin())
            });
            quarter.chain([(top.max(radius), radius)]).collect()
        }
        CutterShape::Conical {
            tip,
            included_angle_deg,
        } => {
            let tip = (tip.in_mm() / 2.0).min(radius);
            let slope = (included_angle_deg.to_radians() / 2.0).tan().max(1e-3);
            let full = (radius - tip) / slope;
            if full < top {
                vec![(0.0, tip), (full, radius), (top, radius)]
            } else {
                vec![(0.0, tip), (top, tip + top * slope)]
            }
        }
    }
}

/// Draws a cutter with its tip at `tip`, at so many pixels to a millimetre.
fn paint(
    painter: &Painter,
    cutter: &Cutter,
    tip: Pos2,
    scale: f64,
    edge: Color32,
    palette: &Palette,
) {
    let at = |height: f64, half: f64| {
        pos2(
            tip.x + (half * scale) as f32,
            tip.y - (height * scale) as f32,
        )
    };
    let outline = half(cutter);
    let line = Stroke::new(1.0, palette.ink);
    // Slices of the edges, each of them convex.
    for pair in outline.windows(2) {
        let slice = vec![
            at(pair[0].0, -pair[0].1),
            at(pair[0].0, pair[0].1),
            at(pair[1].0, pair[1].1),
            at(pair[1].0, -pair[1].1),
        ];
        painter.add(Shape::convex_polygon(slice, edge, Stroke::NONE));
    }
    let (top, _) = outline.last().copied().unwrap_or_default();
    let out = cutter.stick_out.in_mm().max(top);
    let shank = cutter.shank_diameter.in_mm() / 2.0;
    let shaft = Rect::from_two_pos(at(top, -shank), at(out, shank));
    painter.rect_filled(shaft, 0.0, palette.line);
    painter.rect_stroke(shaft, 0.0, line, egui::StrokeKind::Inside);
    for side in [-1.0, 1.0] {
        let path: Vec<Pos2> = outline
            .iter()
            .map(|&(height, half)| at(height, side * half))
            .collect();
        painter.add(Shape::line(path, line));
    }
    if let Some(&(height, half)) = outline.first() {
        painter.line_segment([at(height, -half), at(height, half)], line);
    }
}

/// The nut of the collet above a cutter.
fn paint_nut(painter: &Painter, across_mm: f64, foot: Pos2, scale: f64, palette: &Palette) {
    let half = (across_mm / 2.0 * scale) as f32;
    let nut = Rect::from_min_max(
        pos2(foot.x - half, foot.y - (NUT_MM * scale) as f32),
        pos2(foot.x + half, foot.y),
    );
    painter.rect_filled(nut, 2.0, palette.quiet);
    let line = Stroke::new(1.0, palette.ink);
    painter.rect_stroke(nut, 2.0, line, egui::StrokeKind::Inside);
    for part in [-0.5, 0.5] {
        painter.vline(foot.x + half * part, nut.y_range(), line);
    }
}

/// Shows a cutter large and all of them below; the one that was clicked among these.
pub(super) fn show(ui: &mut Ui, desk: &Desk, workshop: &Workshop, place: usize) -> Option<usize> {
    let palette = Palette::of(ui);
    let available = ui.available_size();
    let large = vec2(available.x, (available.y - RACK_HEIGHT).max(120.0));
    if let Some(cutter) = workshop.cutters.get(place) {
        one(
            ui,
            workshop,
            cutter,
            large,
            desk.document.commission().system,
            &palette,
        );
    }
    rack(ui, desk, workshop, Some(place), &palette)
}

/// Shows all cutters side by side, where nothing else is drawn.
pub(super) fn rack_alone(ui: &mut Ui, desk: &Desk, workshop: &Workshop) {
    let palette = Palette::of(ui);
    ui.add_space((ui.available_height() - RACK_HEIGHT).max(0.0));
    rack(ui, desk, workshop, None, &palette);
}

fn one(
    ui: &mut Ui,
    workshop: &Workshop,
    cutter: &Cutter,
    size: egui::Vec2,
    system: System,
    palette: &Palette,
) {
    let (response, painter) = ui.allocate_painter(size, Sense::hover());
    response
        .widget_info(|| WidgetInfo::labeled(Role::Image, true, format!("{} to scale", cutter.id)));
    let rect = response.rect;
    let nut_mm = workshop.machine.holder_diameter_mm;
    let deep = cutter.max_depth.in_mm();
    let out = cutter.stick_out.in_mm().max(cutter.flute_length.in_mm());
    let height_mm = out + NUT_MM + BELOW_MM;
    let width_mm = nut_mm.max(cutter.diameter.in_mm()) * 1.2;
    let tall = rect.height() - 2.0 * AROUND;
    let wide = rect.width() - 2.0 * (AROUND + MEASURES);
    let scale = f64::from((tall / height_mm as f32).min(wide.max(40.0) / width_mm as f32));
    let px = |mm: f64| (mm * scale) as f32;
    let tip = pos2(rect.center().x, rect.bottom() - AROUND - px(BELOW_MM));
    let face = tip.y - px(deep);
    paint_wood(&painter, cutter, tip, scale, rect, palette);
    paint(
        &painter,
        cutter,
        tip,
        scale,
        palette.accent.gamma_multiply(0.55),
        palette,
    );
    let collet = pos2(tip.x, tip.y - px(out));
    paint_nut(&painter, nut_mm, collet, scale, palette);
    let show = |length: Length| measured(length, Unit::Millimetre, system);
    let measures = Measures {
        painter: &painter,
        palette,
    };
    let right = tip.x + px(width_mm / 2.0) + 14.0;
    measures.upright(
        right,
        tip.y,
        collet.y,
        &words::STANDS_OUT.with(&[&show(cutter.stick_out)]),
        1.0,
    );
    let edges = tip.y - px(cutter.flute_length.in_mm());
    let left = tip.x - px(width_mm / 2.0) - 14.0;
    measures.upright(
        left,
        tip.y,
        edges,
        &words::EDGES.with(&[&show(cutter.flute_length)]),
        -1.0,
    );
    // From the face down, so that its words stand at the tip.
    measures.upright(
        left - 26.0,
        face,
        tip.y,
        &words::DEEP.with(&[&show(cutter.max_depth)]),
        -1.0,
    );
    let below = pos2(tip.x, tip.y + px(BELOW_MM) + 4.0);
    let across = match cutter.shape {
        CutterShape::Flat | CutterShape::Ball => format!("Ø {}", show(cutter.diameter)),
        CutterShape::Conical {
            tip,
            included_angle_deg,
        } => words::CONE.with(&[
            &show(cutter.diameter),
            &short_figure(included_angle_deg),
            &show(tip),
        ]),
    };
    measures.text(below, Align2::CENTER_TOP, &across);
    let nut = words::NUT.with(&[&show(Length::mm(nut_mm))]);
    measures.text(
        collet - vec2(0.0, px(NUT_MM) + 3.0),
        Align2::CENTER_BOTTOM,
        &nut,
    );
}

/// Wood with the slot that a cutter leaves at its deepest.
fn paint_wood(
    painter: &Painter,
    cutter: &Cutter,
    tip: Pos2,
    scale: f64,
    rect: Rect,
    palette: &Palette,
) {
    let px = |mm: f64| (mm * scale) as f32;
    let deep = cutter.max_depth.in_mm();
    let (left, right) = (rect.left() + AROUND, rect.right() - AROUND);
    let foot = Rect::from_min_max(pos2(left, tip.y), pos2(right, tip.y + px(BELOW_MM)));
    painter.rect_filled(foot, 0.0, palette.wood);
    let outline = half(cutter);
    let width_at = |height: f64| {
        let above = outline.windows(2).find(|pair| height <= pair[1].0);
        above.map_or_else(
            || outline.last().map_or(0.0, |last| last.1),
            |pair| {
                let run = (pair[1].0 - pair[0].0).max(1e-9);
                pair[0].1 + (pair[1].1 - pair[0].1) * ((height - pair[0].0) / run).clamp(0.0, 1.0)
            },
        )
    };
    let heights: Vec<f64> = outline
        .iter()
        .map(|point| point.0)
        .filter(|height| *height < deep)
        .chain([deep])
        .collect();
    for pair in heights.windows(2) {
        let (low, high) = (tip.y - px(pair[0]), tip.y - px(pair[1]));
        for side in [-1.0_f32, 1.0] {
            let edge = if side < 0.0 { left } else { right };
            let slice = vec![
                pos2(tip.x + side * px(width_at(pair[0])), low),
                pos2(tip.x + side * px(width_at(pair[1])), high),
                pos2(edge, high),
                pos2(edge, low),
            ];
            painter.add(Shape::convex_polygon(slice, palette.wood, Stroke::NONE));
        }
    }
    let face = tip.y - px(deep);
    let half = px(width_at(deep));
    let line = Stroke::new(1.2, palette.grain);
    painter.hline(left..=tip.x - half, face, line);
    painter.hline(tip.x + half..=right, face, line);
}

/// Measures beside a drawing.
struct Measures<'a> {
    painter: &'a Painter,
    palette: &'a Palette,
}

impl Measures<'_> {
    fn upright(&self, x: f32, from: f32, to: f32, text: &str, side: f32) {
        let stroke = Stroke::new(1.0, self.palette.measure);
        self.painter.vline(x, from..=to, stroke);
        for y in [from, to] {
            self.painter.hline(x - 4.0..=x + 4.0, y, stroke);
        }
        let align = if side > 0.0 {
            Align2::LEFT_CENTER
        } else {
            Align2::RIGHT_CENTER
        };
        let inward = 8.0 * (from - to).signum();
        self.text(pos2(x + side * 7.0, to + inward), align, text);
    }

    fn text(&self, at: Pos2, align: Align2, text: &str) {
        let font = FontId::proportional(13.0);
        self.painter.text(at, align, text, font, self.palette.text);
    }
}

/// All cutters at one scale; the one that was clicked.
fn rack(
    ui: &mut Ui,
    desk: &Desk,
    workshop: &Workshop,
    shown: Option<usize>,
    palette: &Palette,
) -> Option<usize> {
    let many = workshop.cutters.len();
    if many == 0 {
        return None;
    }
    let size = vec2(ui.available_width(), RACK_HEIGHT.min(ui.available_height()));
    let (response, painter) = ui.allocate_painter(size, Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, words::ALL));
    let rect = response.rect;
    painter.hline(rect.x_range(), rect.top(), Stroke::new(1.0, palette.line));
    let room = rect.shrink2(vec2(AROUND, 22.0));
    let tallest = workshop
        .cutters
        .iter()
        .map(|cutter| cutter.stick_out.in_mm().max(cutter.flute_length.in_mm()))
        .fold(1.0, f64::max);
    let widest: f64 = workshop
        .cutters
        .iter()
        .map(|cutter| cutter.diameter.in_mm().max(cutter.shank_diameter.in_mm()))
        .fold(1.0, f64::max);
    let column = room.width() / many as f32;
    let scale = f64::from(room.height() / tallest as f32).min(f64::from(column) / (widest * 1.4));
    let used = &desk.document.commission().cutting.cutters;
    for (place, cutter) in workshop.cutters.iter().enumerate() {
        let middle = room.left() + (place as f32 + 0.5) * column;
        let out = cutter.stick_out.in_mm().max(cutter.flute_length.in_mm());
        // All hang from one line, as from their collets.
        let tip = pos2(middle, room.top() + (out * scale) as f32);
        let edge = if shown == Some(place) {
            palette.accent
        } else {
            palette.quiet.gamma_multiply(0.6)
        };
        paint(&painter, cutter, tip, scale, edge, palette);
        let colour = if used.contains(&cutter.id) {
            palette.text
        } else {
            palette.quiet
        };
        let at = pos2(middle, rect.bottom() - 4.0);
        let font = FontId::proportional(11.5);
        painter.text(at, Align2::CENTER_BOTTOM, &cutter.id, font, colour);
    }
    let line = Stroke::new(1.5, palette.ink);
    painter.hline(room.x_range(), room.top(), line);
    let pointer = response
        .interact_pointer_pos()
        .filter(|_| response.clicked())?;
    let place = ((pointer.x - room.left()) / column).floor();
    (place >= 0.0 && (place as usize) < many).then_some(place as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outlines_are_as_wide_as_their_cutters() {
        for cutter in Workshop::starting().cutters {
            let outline = half(&cutter);
            let (height, width) = outline.last().copied().unwrap();
            assert!(width <= cutter.radius_mm() + 1e-9, "{}", cutter.id);
            assert!(
                height <= cutter.flute_length.in_mm() + 1e-9,
                "{}",
                cutter.id
            );
            assert!(outline.windows(2).all(|pair| pair[0].0 <= pair[1].0));
        }
        let mut ball = Workshop::starting().cutters.swap_remove(0);
        ball.shape = CutterShape::Ball;
        let outline = half(&ball);
        assert!(outline[0].1.abs() < 1e-12);
        assert!((outline[ROUND_POINTS].0 - 3.0).abs() < 1e-9);
    }
}
