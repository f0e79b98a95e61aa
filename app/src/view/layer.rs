//! A layer of a sheet that is too rich to be painted anew in every frame: it is drawn in the background into a picture somewhat larger than
//! the sheet. While the sheet is moved the picture moves with it, and nothing is rebuilt; once it no longer covers the sheet, or the sheet is
//! nearer or further, a new one is drawn, and the old one stands in for it until it has come.

use std::sync::Arc;

use egui::{Color32, TextureHandle, TextureOptions, Ui, pos2};

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

/// The view of a picture that would do for long. Where the screen is larger than a picture may be, it is coarser.
fn wanted(ui: &Ui, sheet: &Sheet) -> View {
    let most = ui.input(|input| input.max_texture_side).max(2) as f32;
    let size = sheet.rect.size();
    let sharp = ui.ctx().pixels_per_point();
    let per_point = sharp.min(most / size.max_elem().max(1.0));
    // Even, so that the middle lies between dots as the sheet's own does.
    let even = |points: f32| {
        let dots = (points * (1.0 + 2.0 * BEYOND) * per_point).min(most);
        2 * (dots / 2.0).floor().max(1.0) as usize
    };
    View {
        centre: sheet.place(sheet.rect.center()),
        scale: sheet.scale * f64::from(per_point),
        dots: [even(size.x), even(size.y)],
        per_point,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::canvas::{Camera, sheet};
    use kurbo::Point;
    use std::time::{Duration, Instant};

    /// A context in which sheets of this size are shown frame by frame.
    struct Shown {
        ctx: egui::Context,
        camera: Camera,
        layer: Layer<u8>,
        asked: usize,
    }

    impl Shown {
        fn new() -> Shown {
            let (ctx, camera) = (egui::Context::default(), Camera::default());
            let layer = Layer::default();
            Shown {
                ctx,
                camera,
                layer,
                asked: 0,
            }
        }

        fn frame(&mut self, side: f32, key: u8, events: Vec<egui::Event>) {
            let screen = egui::Rect::from_min_size(pos2(0.0, 0.0), egui::Vec2::splat(side));
            let input = egui::RawInput {
                screen_rect: Some(screen),
                events,
                ..egui::RawInput::default()
            };
            let Shown {
                ctx,
                camera,
                layer,
                asked,
            } = self;
            let mut output = ctx.run_ui(input, |ui| {
                let bounds = kurbo::Rect::new(0.0, 0.0, 10.0, 10.0);
                let sheet = sheet(ui, "sheet", bounds, camera, Color32::WHITE);
                layer.paint(ui, &sheet, key, || {
                    *asked += 1;
                    vec![Mark::Dot {
                        at: Point::new(5.0, 5.0),
                        colour: Color32::BLACK,
                        radius: 3.0,
                    }]
                });
            });
            output.textures_delta.clear();
        }

        fn settled(&mut self, side: f32, key: u8) -> View {
            let deadline = Instant::now() + Duration::from_secs(60);
            self.frame(side, key, Vec::new());
            while self.layer.is_busy() {
                assert!(Instant::now() < deadline, "it is never drawn");
                self.frame(side, key, Vec::new());
                std::thread::yield_now();
            }
            self.layer.shown.as_ref().expect("it was drawn").1
        }
    }

    #[test]
    fn what_is_moved_a_little_is_not_drawn_again() {
        let mut shown = Shown::new();
        let first = shown.settled(400.0, 1);
        let moved = |x: f32, y: f32| egui::Event::PointerMoved(pos2(x, y));
        let button = |pressed, x, y| egui::Event::PointerButton {
            pos: pos2(x, y),
            button: egui::PointerButton::Primary,
            pressed,
            modifiers: egui::Modifiers::NONE,
        };
        shown.frame(400.0, 1, vec![moved(200.0, 200.0)]);
        shown.frame(400.0, 1, vec![button(true, 200.0, 200.0)]);
        for step in 1..10_u8 {
            shown.frame(400.0, 1, vec![moved(200.0 + 8.0 * f32::from(step), 200.0)]);
            assert!(!shown.layer.is_busy(), "step {step}");
        }
        assert_eq!(shown.layer.shown.as_ref().map(|shown| shown.1), Some(first));
        assert_eq!(shown.asked, 1);
        // Further than the picture reaches, another is drawn; the marks are the same.
        shown.frame(400.0, 1, vec![moved(399.0, 399.0)]);
        shown.frame(400.0, 1, vec![button(false, 399.0, 399.0)]);
        assert_ne!(shown.settled(400.0, 1), first);
        assert_eq!(shown.asked, 1);
        shown.settled(400.0, 2);
        assert_eq!(shown.asked, 2);
    }

    #[test]
    fn a_picture_is_no_larger_than_the_screen_s_painter_takes() {
        let mut shown = Shown::new();
        let most = shown.ctx.input(|input| input.max_texture_side);
        for side in [100.0, 1900.0, 5000.0] {
            let view = shown.settled(side, 1);
            assert!(view.dots.iter().all(|&dots| dots <= most), "{view:?}");
            let covers = view.covers();
            assert!(covers.width() >= 10.0 && covers.height() >= 10.0, "{side}");
        }
    }
}
