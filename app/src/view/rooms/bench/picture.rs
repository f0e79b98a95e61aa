//! The small picture of what was measured.

mod bars;
mod fount;
mod plank;
mod runs;
mod square;

use bench::Judged;
use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Role, Sense, Ui, WidgetInfo, vec2};

use super::Palette;

/// Space about a picture, px.
const MARGIN: f32 = 34.0;
/// The largest picture, px: more would make it no clearer.
const LARGEST: [f32; 2] = [900.0, 520.0];

/// Where a picture is painted.
struct Canvas<'a> {
    painter: Painter,
    /// Its room, without the margin.
    room: Rect,
    palette: &'a Palette,
}

impl Canvas<'_> {
    fn text(&self, at: Pos2, align: Align2, text: impl ToString, colour: Color32) {
        self.painter
            .text(at, align, text, FontId::proportional(12.5), colour);
    }

    /// A remark below the picture.
    fn below(&self, text: impl ToString) {
        let at = self.room.center_bottom() + vec2(0.0, MARGIN * 0.75);
        self.text(at, Align2::CENTER_CENTER, text, self.palette.quiet);
    }
}

/// Paints what a notebook holds.
pub(super) fn paint(ui: &mut Ui, judged: &Judged, palette: &Palette) {
    let room = ui.available_size().min(vec2(LARGEST[0], LARGEST[1]));
    if room.x < 4.0 * MARGIN || room.y < 3.0 * MARGIN {
        return;
    }
    let (response, painter) = ui.allocate_painter(room, Sense::hover());
    response.widget_info(|| {
        WidgetInfo::labeled(Role::Canvas, true, crate::view::words::bench::PICTURE)
    });
    let canvas = Canvas {
        painter,
        room: response.rect.shrink(MARGIN),
        palette,
    };
    match judged {
        Judged::Height { log, planks } => plank::paint(&canvas, log, planks),
        Judged::Moisture { outcome, .. } => bars::moisture(&canvas, outcome),
        Judged::Square { outcome, .. } => square::paint(&canvas, outcome),
        Judged::LockUp { fount, outcome } => fount::paint(&canvas, fount, outcome),
        Judged::Minutes { runs, outcome } => runs::paint(&canvas, runs, outcome),
        Judged::Losses { outcome, .. } => bars::losses(&canvas, outcome),
    }
}

/// A number with its sign, to a hundredth.
fn signed(value: f64) -> String {
    format!("{value:+.2}")
}
