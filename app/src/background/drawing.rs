//! Many lines and shapes drawn on the processor, away from the window's thread: a path of a million points costs the window one picture.

use egui::{Color32, ColorImage, Rect, Vec2, pos2};
use kurbo::{BezPath, PathEl, Point};
use tiny_skia::{
    Color, FillRule, LineCap, LineJoin, Mask, Paint, Path, PathBuilder, Pixmap, Stroke, StrokeDash,
    Transform,
};

use cam_core::progress::Progress;

/// Steps of a line shorter than this are passed over, px: a third of what the eye could tell.
const LEAST_STEP: f64 = 0.3;
/// Lines are followed so far beyond the picture's edge, px: wider than any of them.
const BEYOND: f32 = 8.0;
/// The largest picture that is drawn, px along a side.
const MOST_DOTS: usize = 8192;

/// One thing to be drawn, in the millimetres of a sheet, y up.
pub enum Mark {
    /// A line through places.
    Line {
        /// The places.
        places: Vec<Point>,
        /// Its colour.
        colour: Color32,
        /// Its width, px.
        width: f32,
        /// Lengths of its dashes and of the gaps between them, px.
        dashes: Option<[f32; 2]>,
    },
    /// A filled shape, by the nonzero rule.
    Area {
        /// Its outline.
        path: BezPath,
        /// Its colour.
        colour: Color32,
        /// Only what lies in here is filled.
        within: Option<kurbo::Rect>,
    },
    /// A round dot.
    Dot {
        /// Its middle.
        at: Point,
        /// Its colour.
        colour: Color32,
        /// Its radius, px.
        radius: f32,
    },
}

/// What part of the sheet is drawn, and how large.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The place in the middle of the picture, mm.
    pub centre: Point,
    /// Dots to a millimetre.
    pub scale: f64,
    /// Dots across and down.
    pub dots: [usize; 2],
    /// Dots to a point of the window, which line widths are told in.
    pub per_point: f32,
}

impl View {
    fn at(&self, place: Point) -> (f32, f32) {
        let [across, down] = self.dots.map(|dots| dots as f64 / 2.0);
        let x = across + (place.x - self.centre.x) * self.scale;
        let y = down - (place.y - self.centre.y) * self.scale;
        (x as f32, y as f32)
    }

    /// What of the sheet the picture shows, mm.
    pub fn covers(&self) -> kurbo::Rect {
        let [across, down] = self.dots.map(|dots| dots as f64 / self.scale);
        kurbo::Rect::from_center_size(self.centre, (across, down))
    }

    /// The frame of the picture and a little more, px.
    fn frame(&self) -> Rect {
        let size = Vec2::new(self.dots[0] as f32, self.dots[1] as f32);
        Rect::from_min_size(pos2(0.0, 0.0), size).expand(BEYOND * self.per_point)
    }
}

/// Draws marks over nothing, the later over the earlier. What was drawn when the work is stopped is left as it is.
pub fn draw(marks: &[Mark], view: &View, progress: &Progress) -> ColorImage {
    let [width, height] = view.dots.map(|dots| dots.clamp(1, MOST_DOTS));
    let Some(mut pixels) = Pixmap::new(width as u32, height as u32) else {
        return ColorImage::filled([1, 1], Color32::TRANSPARENT);
    };
    for mark in marks {
        if progress.check().is_err() {
            break;
        }
        match mark {
            Mark::Line {
                places,
                colour,
                width,
                dashes,
            } => line(&mut pixels, view, places, *colour, *width, *dashes),
            Mark::Area {
                path,
                colour,
                within,
            } => area(&mut pixels, view, path, *colour, *within),
            Mark::Dot { at, colour, radius } => {
                let (x, y) = view.at(*at);
                if view.frame().contains(pos2(x, y))
                    && let Some(path) = PathBuilder::from_circle(x, y, radius * view.per_point)
                {
                    fill(&mut pixels, &path, *colour, None);
                }
            }
        }
    }
    let dots = pixels.pixels().iter().map(|dot| {
        Color32::from_rgba_premultiplied(dot.red(), dot.green(), dot.blue(), dot.alpha())
    });
    ColorImage::new([width, height], dots.collect())
}

fn paint(colour: Color32) -> Paint<'static> {
    let [red, green, blue, alpha] = colour.to_srgba_unmultiplied();
    let mut paint = Paint::default();
    paint.set_color(Color::from_rgba8(red, green, blue, alpha));
    paint
}

fn fill(pixels: &mut Pixmap, path: &Path, colour: Color32, mask: Option<&Mask>) {
    let rule = FillRule::Winding;
    pixels.fill_path(path, &paint(colour), rule, Transform::identity(), mask);
}

fn line(
    pixels: &mut Pixmap,
    view: &View,
    places: &[Point],
    colour: Color32,
    width: f32,
    dashes: Option<[f32; 2]>,
) {
    let Some(path) = line_path(view, places) else {
        return;
    };
    let stroke = Stroke {
        width: width * view.per_point,
        line_cap: LineCap::Round,
        line_join: LineJoin::Round,
        dash: dashes.and_then(|lengths| {
            StrokeDash::new(lengths.map(|px| px * view.per_point).to_vec(), 0.0)
        }),
        ..Stroke::default()
    };
    pixels.stroke_path(&path, &paint(colour), &stroke, Transform::identity(), None);
}

/// The runs of a line that can be seen, without steps too short to be seen.
fn line_path(view: &View, places: &[Point]) -> Option<Path> {
    let (&first, rest) = places.split_first()?;
    let frame = view.frame();
    let least_mm = LEAST_STEP / view.scale;
    let mut builder = PathBuilder::new();
    let mut last = first;
    // Whether the pen stands at `last`.
    let mut is_down = false;
    for (number, &place) in (1..).zip(rest) {
        let is_end = number == rest.len();
        if !is_end && (place - last).hypot2() < least_mm * least_mm {
            continue;
        }
        let (from, to) = (view.at(last), view.at(place));
        let step = Rect::from_two_pos(pos2(from.0, from.1), pos2(to.0, to.1));
        if step.intersects(frame) {
            if !is_down {
                builder.move_to(from.0, from.1);
            }
            builder.line_to(to.0, to.1);
            is_down = true;
        } else {
            is_down = false;
        }
        last = place;
    }
    builder.finish()
}

fn area(
    pixels: &mut Pixmap,
    view: &View,
    outline: &BezPath,
    colour: Color32,
    within: Option<kurbo::Rect>,
) {
    let mut builder = PathBuilder::new();
    for element in outline.elements() {
        match *element {
            PathEl::MoveTo(to) => {
                let (x, y) = view.at(to);
                builder.move_to(x, y);
            }
            PathEl::LineTo(to) => {
                let (x, y) = view.at(to);
                builder.line_to(x, y);
            }
            PathEl::QuadTo(control, to) => {
                let (control, to) = (view.at(control), view.at(to));
                builder.quad_to(control.0, control.1, to.0, to.1);
            }
            PathEl::CurveTo(one, two, to) => {
                let (one, two, to) = (view.at(one), view.at(two), view.at(to));
                builder.cubic_to(one.0, one.1, two.0, two.1, to.0, to.1);
            }
            PathEl::ClosePath => builder.close(),
        }
    }
    let Some(path) = builder.finish() else { return };
    let bounds = path.bounds();
    let bounds = Rect::from_min_max(
        pos2(bounds.left(), bounds.top()),
        pos2(bounds.right(), bounds.bottom()),
    );
    if bounds.intersects(view.frame()) {
        let mask = within.and_then(|frame| mask(pixels, view, frame));
        fill(pixels, &path, colour, mask.as_ref());
    }
}

/// Everything within a frame.
fn mask(pixels: &Pixmap, view: &View, frame: kurbo::Rect) -> Option<Mask> {
    let (left, top) = view.at(Point::new(frame.x0, frame.y1));
    let (right, bottom) = view.at(Point::new(frame.x1, frame.y0));
    let frame = tiny_skia::Rect::from_ltrb(left, top, right, bottom)?;
    let mut mask = Mask::new(pixels.width(), pixels.height())?;
    let path = PathBuilder::from_rect(frame);
    mask.fill_path(&path, FillRule::Winding, true, Transform::identity());
    Some(mask)
}

#[cfg(test)]
mod tests {
    use super::*;

    const VIEW: View = View {
        centre: Point::new(5.0, 5.0),
        scale: 10.0,
        dots: [100, 100],
        per_point: 1.0,
    };

    fn drawn(marks: &[Mark]) -> ColorImage {
        draw(marks, &VIEW, &Progress::new())
    }

    #[test]
    fn places_lie_where_the_view_puts_them() {
        let square = kurbo::Rect::new(1.0, 1.0, 3.0, 2.0);
        let image = drawn(&[Mark::Area {
            path: kurbo::Shape::to_path(&square, 0.1),
            colour: Color32::RED,
            within: None,
        }]);
        let count = image
            .pixels
            .iter()
            .filter(|dot| **dot == Color32::RED)
            .count();
        assert_eq!(count, 20 * 10);
        // y is up: the square lies at the lower left.
        assert_eq!(image[(15, 85)], Color32::RED);
        assert_eq!(image[(15, 15)], Color32::TRANSPARENT);
        assert_eq!(VIEW.covers(), kurbo::Rect::new(0.0, 0.0, 10.0, 10.0));
    }

    #[test]
    fn the_edge_of_a_face_is_round_however_near_it_is_looked_at() {
        let circle = kurbo::Circle::new((50.0, 50.0), 40.0);
        let path = kurbo::Shape::to_path(&circle, 1e-9);
        for scale in [20.0, 400.0, 4000.0] {
            let turned = 0.7_f64;
            let edge = circle.center + 40.0 * kurbo::Vec2::from_angle(turned);
            let view = View {
                centre: edge,
                scale,
                dots: [400, 400],
                per_point: 1.0,
            };
            let mark = Mark::Area {
                path: path.clone(),
                colour: Color32::BLACK,
                within: None,
            };
            let image = draw(&[mark], &view, &Progress::new());
            for x in 0..400 {
                for y in 0..400 {
                    let (across, down) = (x as f64 - 199.5, y as f64 - 199.5);
                    let place = edge + kurbo::Vec2::new(across, -down) / scale;
                    let inside = (40.0 - place.distance(circle.center)) * scale;
                    // Dots whose middle lies well off the edge are wholly one thing or the other.
                    if inside.abs() > 1.5 {
                        let alpha = if inside > 0.0 { 255 } else { 0 };
                        assert_eq!(image[(x, y)].a(), alpha, "{scale}: {x}, {y}, {inside}");
                    }
                }
            }
        }
    }

    #[test]
    fn an_area_keeps_within_its_frame() {
        let square = kurbo::Rect::new(0.0, 0.0, 10.0, 10.0);
        let image = drawn(&[Mark::Area {
            path: kurbo::Shape::to_path(&square, 0.1),
            colour: Color32::BLUE,
            within: Some(kurbo::Rect::new(0.0, 0.0, 5.0, 10.0)),
        }]);
        let count = image
            .pixels
            .iter()
            .filter(|dot| **dot == Color32::BLUE)
            .count();
        assert_eq!(count, 50 * 100);
    }

    #[test]
    fn short_steps_are_passed_over_and_the_end_is_kept() {
        let many: Vec<Point> = (0..=100_000)
            .map(|number| Point::new(f64::from(number) * 1e-4, 5.0))
            .collect();
        let path = line_path(&VIEW, &many).expect("a line");
        assert!(path.len() < 400, "{}", path.len());
        let end = path.points().last().expect("a point");
        assert!((end.x - 100.0).abs() < 1e-3 && (end.y - 50.0).abs() < 1e-3);
    }

    #[test]
    fn what_cannot_be_seen_is_left_out_and_nothing_is_no_line() {
        let far = [Point::new(1e6, 1e6), Point::new(2e6, 1e6)];
        assert!(line_path(&VIEW, &far).is_none());
        assert!(line_path(&VIEW, &[]).is_none());
        assert!(line_path(&VIEW, &far[..1]).is_none());
        // A step across the picture whose ends lie outside is drawn.
        let across = [Point::new(-50.0, 5.0), Point::new(50.0, 5.0)];
        assert!(line_path(&VIEW, &across).is_some());
    }

    #[test]
    fn lines_and_dots_are_as_wide_as_told() {
        let image = drawn(&[
            Mark::Line {
                places: vec![Point::new(0.0, 5.0), Point::new(10.0, 5.0)],
                colour: Color32::BLACK,
                width: 2.0,
                dashes: None,
            },
            Mark::Dot {
                at: Point::new(5.0, 8.0),
                colour: Color32::BLACK,
                radius: 5.0,
            },
        ]);
        let column = |x: usize| (0..100).filter(|&y| image[(x, y)].a() > 128).count();
        assert_eq!(column(20), 2);
        assert_eq!(column(50), 2 + 10);
    }
}
