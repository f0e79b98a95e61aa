//! A layer of a sheet that is too rich to be painted anew in every frame: it is drawn in the background into a picture somewhat larger than
//! the sheet. While the sheet is moved the picture moves with it, and nothing is rebuilt; once it no longer covers the sheet, or the sheet is
//! nearer or further, a new one is drawn, and the old one stands in for it until it has come.

use std::sync::Arc;

use egui::{Color32, TextureHandle, TextureOptions, Ui, pos2};
use kurbo::Point;

use super::canvas::Sheet;
use crate::background::drawing::{Mark, View, draw};
use crate::background::{LOOK_AGAIN, Latest, Wake};

/// How far the picture reaches beyond each edge of the sheet, as a part of the sheet.
const BEYOND: f32 = 0.25;

/// A layer that shows what `K` says.
pub struct Layer<K> {
    /// What is drawn, and of what.
    marks: Option<(K, Arc<Vec<Mark>>)>,
    /// How often the marks have changed.
    revision: u64,
    picture: Latest<(View, egui::ColorImage)>,
    /// The revision and the view of what was asked for last.
    asked: Option<(u64, View)>,
    shown: Option<(TextureHandle, View)>,
}

impl<K> Default for Layer<K> {
    fn default() -> Layer<K> {
        Layer {
            marks: None,
            revision: 0,
            picture: Latest::default(),
            asked: None,
            shown: None,
        }
    }
}

impl<K: PartialEq> Layer<K> {
    /// Whether something is being drawn.
    pub fn is_busy(&self) -> bool {
        self.picture.running().is_some()
    }

    /// Paints what there is of it. `marks` is asked only when `key` is another than before.
    pub fn paint(&mut self, ui: &Ui, sheet: &Sheet, key: K, marks: impl FnOnce() -> Vec<Mark>) {
        if self.marks.as_ref().is_none_or(|(known, _)| *known != key) {
            self.marks = Some((key, Arc::new(marks())));
            self.revision += 1;
        }
        self.take(ui);
        self.ask(ui, sheet);
        if let Some((texture, view)) = &self.shown {
            let whole = sheet.rect_at(view.covers());
            let all = egui::Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            sheet
                .painter
                .image(texture.id(), whole, all, Color32::WHITE);
        }
        if self.is_busy() {
            ui.ctx().request_repaint_after(LOOK_AGAIN);
        }
    }

    /// Takes a picture that has come.
    fn take(&mut self, ui: &Ui) {
        if !self.picture.poll() {
            return;
        }
        if let Some((view, image)) = self.picture.take() {
            let texture = ui
                .ctx()
                .load_texture("layer", image, TextureOptions::LINEAR);
            self.shown = Some((texture, view));
        }
    }

    /// Asks for a picture if what there is, or is being drawn, does not do.
    fn ask(&mut self, ui: &Ui, sheet: &Sheet) {
        let Some((_, marks)) = &self.marks else {
            return;
        };
        let view = wanted(ui, sheet);
        let does = self.asked.as_ref().is_some_and(|(revision, asked)| {
            let covers = asked.covers();
            let seen = seen(sheet);
            let same = asked.scale == view.scale && asked.per_point == view.per_point;
            *revision == self.revision && same && covers.union(seen) == covers
        });
        // What is being drawn of the same marks is let come, or nothing would be seen before the hand rests.
        let drawing = self.is_busy()
            && self
                .asked
                .is_some_and(|(revision, _)| revision == self.revision);
        if does || drawing {
            return;
        }
        self.asked = Some((self.revision, view));
        let marks = Arc::clone(marks);
        let ctx = ui.ctx().clone();
        let wake: Wake = Arc::new(move || ctx.request_repaint());
        let work = move |progress: &_| (view, draw(&marks, &view, progress));
        self.picture.request(self.revision, "layer", wake, work);
    }
}

/// What of the sheet is seen, mm.
fn seen(sheet: &Sheet) -> kurbo::Rect {
    let (one, other) = (
        sheet.place(sheet.rect.left_top()),
        sheet.place(sheet.rect.right_bottom()),
    );
    kurbo::Rect::from_points(one, other)
}

/// The view of a picture that would do for long.
fn wanted(ui: &Ui, sheet: &Sheet) -> View {
    let per_point = ui.ctx().pixels_per_point();
    let size = sheet.rect.size() * (1.0 + 2.0 * BEYOND) * per_point;
    // Even, so that the middle lies between dots as the sheet's own does.
    let even = |dots: f32| 2 * (dots / 2.0).ceil().max(1.0) as usize;
    let middle: Point = sheet.place(sheet.rect.center());
    View {
        centre: middle,
        scale: sheet.scale * f64::from(per_point),
        dots: [even(size.x), even(size.y)],
        per_point,
    }
}
