//! A sheet to look at: pan, zoom to the pointer, fit; and the way between millimetres and the screen.

use egui::{Color32, Pos2, Rect, Response, Role, Sense, Stroke, Ui, WidgetInfo, pos2};
use kurbo::Point;

use super::measuring::Measuring;

/// Pixels kept free around what is fitted.
const FIT_MARGIN: f32 = 36.0;
/// The least and the most pixels to a millimetre.
const SCALES: (f64, f64) = (0.05, 4000.0);
/// One step of a zoom key.
const KEY_ZOOM: f64 = 1.25;
/// How far an arrow key pans, px.
const KEY_PAN: f32 = 48.0;
/// Wheel travel, px, for a zoom by e.
const WHEEL_PER_E: f32 = 300.0;

/// Where the maker looks; until it is moved by hand, everything stays fitted.
#[derive(Clone, Copy, Debug)]
pub struct Camera {
    centre: Point,
    scale: f64,
    by_hand: bool,
    /// Dragging and arrow keys move something else than the sheet.
    pub held: bool,
    /// What is measured on the sheet.
    measuring: Measuring,
}

impl Default for Camera {
    fn default() -> Camera {
        Camera {
            centre: Point::ZERO,
            scale: 1.0,
            by_hand: false,
            held: false,
            measuring: Measuring::default(),
        }
    }
}

impl Camera {
    /// Shows everything again.
    pub fn fit(&mut self) {
        self.by_hand = false;
    }

    fn fit_to(&mut self, bounds: kurbo::Rect, screen: Rect) {
        let room = screen.shrink(
            FIT_MARGIN
                .min(screen.width() / 4.0)
                .min(screen.height() / 4.0),
        );
        let across = f64::from(room.width()) / bounds.width().max(1e-6);
        let along = f64::from(room.height()) / bounds.height().max(1e-6);
        self.scale = across.min(along).clamp(SCALES.0, SCALES.1);
        self.centre = bounds.center();
    }

    /// Zooms by a factor and keeps the place under the pointer where it is.
    fn zoom_at(&mut self, pointer: Pos2, screen: Rect, factor: f64) {
        let scale = (self.scale * factor).clamp(SCALES.0, SCALES.1);
        let off = pointer - screen.center();
        let (x, y) = (f64::from(off.x), -f64::from(off.y));
        self.centre.x += x / self.scale - x / scale;
        self.centre.y += y / self.scale - y / scale;
        self.scale = scale;
        self.by_hand = true;
    }

    fn pan(&mut self, by: egui::Vec2) {
        self.centre.x -= f64::from(by.x) / self.scale;
        self.centre.y += f64::from(by.y) / self.scale;
        self.by_hand = true;
    }
}

/// A painted sheet and the way from its millimetres (y up) to the screen.
pub struct Sheet {
    /// For hovering and clicking.
    pub response: Response,
    /// Clipped to the sheet.
    pub painter: egui::Painter,
    /// Its place on the screen.
    pub rect: Rect,
    centre: Point,
    /// Pixels to a millimetre.
    pub scale: f64,
}

impl Sheet {
    /// Where a place lies on the screen.
    pub fn at(&self, place: Point) -> Pos2 {
        let middle = self.rect.center();
        pos2(
            middle.x + ((place.x - self.centre.x) * self.scale) as f32,
            middle.y - ((place.y - self.centre.y) * self.scale) as f32,
        )
    }

    /// The place under a point of the screen.
    pub fn place(&self, at: Pos2) -> Point {
        let off = at - self.rect.center();
        Point::new(
            self.centre.x + f64::from(off.x) / self.scale,
            self.centre.y - f64::from(off.y) / self.scale,
        )
    }

    /// A rectangle on the screen.
    pub fn rect_at(&self, rect: kurbo::Rect) -> Rect {
        Rect::from_two_pos(
            self.at(Point::new(rect.x0, rect.y0)),
            self.at(Point::new(rect.x1, rect.y1)),
        )
    }

    /// A straight line between two places.
    pub fn line(&self, from: Point, to: Point, stroke: Stroke) {
        self.painter
            .line_segment([self.at(from), self.at(to)], stroke);
    }

    /// A line through places.
    pub fn polyline(&self, places: &[Point], stroke: Stroke) {
        let points: Vec<Pos2> = places.iter().map(|&place| self.at(place)).collect();
        let bounds = Rect::from_points(&points);
        if bounds.expand(stroke.width).intersects(self.rect) {
            self.painter.add(egui::Shape::line(points, stroke));
        }
    }

    /// Small text at a place.
    pub fn text(&self, at: Pos2, align: egui::Align2, text: &str, colour: Color32) {
        self.painter
            .text(at, align, text, egui::FontId::proportional(12.0), colour);
    }
}

/// Shows a sheet that fills what room there is, named `label` for those who cannot see it.
pub fn sheet(
    ui: &mut Ui,
    label: &str,
    bounds: kurbo::Rect,
    camera: &mut Camera,
    ground: Color32,
) -> Sheet {
    let (response, painter) = ui.allocate_painter(ui.available_size(), Sense::click_and_drag());
    response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, label));
    let rect = response.rect;
    painter.rect_filled(rect, 0.0, ground);
    if !camera.by_hand {
        camera.fit_to(bounds, rect);
    }
    steer(ui, &response, camera);
    if !camera.by_hand {
        camera.fit_to(bounds, rect);
    }
    let sheet = Sheet {
        centre: camera.centre,
        scale: camera.scale,
        painter,
        rect,
        response,
    };
    camera.measuring.steer(ui, &sheet);
    camera.measuring.paint(ui, &sheet);
    sheet
}

fn steer(ui: &Ui, response: &Response, camera: &mut Camera) {
    let rect = response.rect;
    let measures = response.dragged_by(egui::PointerButton::Secondary);
    if response.dragged() && !measures && !camera.held {
        camera.pan(response.drag_delta());
    }
    if response.double_clicked() {
        camera.fit();
    }
    if response.hovered() {
        let (wheel, pinch, pointer) = ui.input(|input| {
            (
                input.smooth_scroll_delta().y,
                input.zoom_delta(),
                input.pointer.hover_pos().unwrap_or(rect.center()),
            )
        });
        let factor = f64::from((wheel / WHEEL_PER_E).exp() * pinch);
        if (factor - 1.0).abs() > 1e-6 {
            camera.zoom_at(pointer, rect, factor);
        }
    }
    if ui.memory(|memory| memory.focused().is_some_and(|id| id != response.id)) {
        return;
    }
    let pressed = |key| ui.input(|input| input.modifiers.is_none() && input.key_pressed(key));
    if pressed(egui::Key::F) {
        camera.fit();
    }
    if pressed(egui::Key::Plus) || pressed(egui::Key::Equals) {
        camera.zoom_at(rect.center(), rect, KEY_ZOOM);
    }
    if pressed(egui::Key::Minus) {
        camera.zoom_at(rect.center(), rect, 1.0 / KEY_ZOOM);
    }
    for (key, by) in [
        (egui::Key::ArrowLeft, egui::vec2(KEY_PAN, 0.0)),
        (egui::Key::ArrowRight, egui::vec2(-KEY_PAN, 0.0)),
        (egui::Key::ArrowUp, egui::vec2(0.0, KEY_PAN)),
        (egui::Key::ArrowDown, egui::vec2(0.0, -KEY_PAN)),
    ] {
        if pressed(key) {
            camera.pan(by);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn screen() -> Rect {
        Rect::from_min_size(pos2(100.0, 50.0), egui::vec2(800.0, 600.0))
    }

    fn sheet_of(camera: &Camera) -> impl Fn(Pos2) -> Point {
        let (centre, scale, middle) = (camera.centre, camera.scale, screen().center());
        move |at| {
            let off = at - middle;
            Point::new(
                centre.x + f64::from(off.x) / scale,
                centre.y - f64::from(off.y) / scale,
            )
        }
    }

    #[test]
    fn everything_is_inside_when_fitted() {
        let mut camera = Camera::default();
        camera.fit_to(kurbo::Rect::new(0.0, 0.0, 30.0, 42.0), screen());
        let place = sheet_of(&camera);
        let (low, high) = (place(screen().left_bottom()), place(screen().right_top()));
        assert!(low.x < 0.0 && low.y < 0.0 && high.x > 30.0 && high.y > 42.0);
    }

    #[test]
    fn zooming_keeps_the_place_under_the_pointer() {
        let mut camera = Camera::default();
        camera.fit_to(kurbo::Rect::new(0.0, 0.0, 30.0, 42.0), screen());
        let pointer = pos2(217.0, 433.0);
        let before = sheet_of(&camera)(pointer);
        for factor in [1.5, 3.0, 0.2, 1e9, 1e-9] {
            camera.zoom_at(pointer, screen(), factor);
            let after = sheet_of(&camera)(pointer);
            assert!(
                (after - before).hypot() < 1e-6,
                "{factor}: {before:?} {after:?}"
            );
        }
        assert!(camera.by_hand);
    }
}
