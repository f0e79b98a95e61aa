//! Rulers along the edges of a sheet: points above and at the left, millimetres below and at the right, counted from the sheet's own corner.

use egui::{Align2, FontId, Rect, Stroke, Ui, pos2, vec2};
use kurbo::Point;

use super::canvas::Sheet;
use super::measuring::measured_in;
use super::theme::Palette;
use super::words::short_figure;

/// Width of a ruler, px.
const WIDTH: f32 = 15.0;
/// The least distance between numbers, px.
const BETWEEN: f64 = 58.0;
/// Width of the corner that says which unit is which, px.
const CORNER: f32 = 1.5 * WIDTH;
/// Size of the numbers, px.
const LETTERS: f32 = 10.0;
/// Sheets smaller than this along a side have no rulers, px.
const LEAST: f32 = 180.0;
/// The most marks on one ruler: more than any screen has room for.
const MOST: i32 = 4000;

/// A step between numbers, and into how many parts it is divided.
type Step = (f64, i32);

const MILLIMETRES: [Step; 12] = [
    (0.01, 1),
    (0.05, 5),
    (0.1, 2),
    (0.5, 5),
    (1.0, 2),
    (5.0, 5),
    (10.0, 2),
    (50.0, 5),
    (100.0, 2),
    (500.0, 5),
    (1000.0, 2),
    (5000.0, 5),
];

const POINTS: [Step; 9] = [
    (0.05, 5),
    (0.1, 2),
    (0.5, 5),
    (1.0, 2),
    (6.0, 6),
    (12.0, 2),
    (60.0, 5),
    (240.0, 4),
    (1200.0, 5),
];

/// The finest step whose numbers do not crowd; `unit_px` is the size of the unit on the screen.
fn step(steps: &[Step], unit_px: f64) -> Step {
    let roomy = |step: &&Step| step.0 * unit_px >= BETWEEN;
    let coarsest = steps.last().copied().unwrap_or((1.0, 1));
    steps.iter().find(roomy).copied().unwrap_or(coarsest)
}

/// The marks between two places, each with its number where it has one.
fn marks(
    steps: &[Step],
    unit_mm: f64,
    scale: f64,
    from_mm: f64,
    to_mm: f64,
) -> Vec<(f64, Option<f64>)> {
    let (number, parts) = step(steps, unit_mm * scale);
    let each_mm = number * unit_mm / f64::from(parts);
    let first = (from_mm / each_mm).ceil();
    let many = ((to_mm / each_mm).floor() - first).clamp(-1.0, f64::from(MOST)) as i32;
    (0..=many)
        .map(|mark| {
            let count = first + f64::from(mark);
            let is_whole = count.rem_euclid(f64::from(parts)) < 0.5;
            let value = (count / f64::from(parts)).round() * number;
            (count * each_mm, is_whole.then_some(value))
        })
        .collect()
}

/// How long a mark is, px.
fn length(number: Option<f64>) -> f32 {
    if number.is_some() {
        WIDTH
    } else {
        WIDTH * 0.35
    }
}

/// A number as it stands beside its mark.
fn figure_of(number: f64) -> String {
    short_figure((number * 100.0).round() / 100.0)
}

/// Paints the rulers over the edges of a sheet.
pub(super) fn paint(ui: &Ui, sheet: &Sheet) {
    let rect = sheet.rect;
    if rect.width() < LEAST || rect.height() < LEAST {
        return;
    }
    let palette = Palette::of(ui);
    let point_mm = measured_in().point_mm();
    let low = sheet.place(rect.left_bottom());
    let high = sheet.place(rect.right_top());
    let lines = Stroke::new(1.0, palette.quiet);
    let font = FontId::proportional(LETTERS);
    let ground = |strip: Rect| {
        sheet.painter.rect_filled(strip, 0.0, palette.panel);
    };
    for (is_upper, steps, unit_mm) in [
        (true, &POINTS[..], point_mm),
        (false, &MILLIMETRES[..], 1.0),
    ] {
        // Across: at the upper or lower edge.
        let edge = if is_upper {
            rect.top()
        } else {
            rect.bottom() - WIDTH
        };
        let strip = Rect::from_min_size(pos2(rect.left(), edge), vec2(rect.width(), WIDTH));
        let end = strip.right() - if is_upper { 0.0 } else { CORNER };
        ground(strip);
        for (at, number) in marks(steps, unit_mm, sheet.scale, low.x, high.x) {
            let x = sheet.at(Point::new(at, 0.0)).x;
            let long = length(number);
            let (from, to) = if is_upper {
                (strip.bottom() - long, strip.bottom())
            } else {
                (strip.top(), strip.top() + long)
            };
            sheet.painter.vline(x, from..=to, lines);
            if let Some(number) = number {
                let text = figure_of(number);
                let galley = sheet
                    .painter
                    .layout_no_wrap(text, font.clone(), palette.text);
                let at = pos2(x + 3.0, strip.center().y - galley.size().y / 2.0);
                // Half a number would be another one.
                if at.x + galley.size().x <= end {
                    sheet.painter.galley(at, galley, palette.text);
                }
            }
        }
        // Along: at the left or right edge, between those across.
        let edge = if is_upper {
            rect.left()
        } else {
            rect.right() - WIDTH
        };
        let strip = Rect::from_min_size(
            pos2(edge, rect.top() + WIDTH),
            vec2(WIDTH, rect.height() - 2.0 * WIDTH),
        );
        ground(strip);
        let painter = sheet
            .painter
            .with_clip_rect(strip.intersect(sheet.painter.clip_rect()));
        for (at, number) in marks(steps, unit_mm, sheet.scale, low.y, high.y) {
            let y = sheet.at(Point::new(0.0, at)).y;
            let long = length(number);
            let (from, to) = if is_upper {
                (strip.right() - long, strip.right())
            } else {
                (strip.left(), strip.left() + long)
            };
            painter.hline(from..=to, y, lines);
            if let Some(number) = number {
                let text = figure_of(number);
                // Set upright letters would not fit: they run up the ruler.
                let galley = painter.layout_no_wrap(text, font.clone(), palette.text);
                let at = pos2(strip.center().x - galley.size().y / 2.0, y - 3.0);
                let mut shape = egui::epaint::TextShape::new(at, galley, palette.text);
                shape.angle = -std::f32::consts::FRAC_PI_2;
                painter.add(shape);
            }
        }
    }
    // Which unit is which.
    for (at, align, unit) in [
        (rect.left_top(), Align2::LEFT_TOP, "pt"),
        (rect.right_bottom(), Align2::RIGHT_BOTTOM, "mm"),
    ] {
        let size = vec2(CORNER, WIDTH);
        let corner = align.anchor_size(at, size);
        ground(corner);
        sheet.painter.text(
            corner.center(),
            Align2::CENTER_CENTER,
            unit,
            font.clone(),
            palette.accent,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_never_crowd_and_are_finer_the_nearer_one_looks() {
        for steps in [&MILLIMETRES[..], &POINTS[..]] {
            let mut last = f64::INFINITY;
            for zoom in 0..40 {
                let unit_px = 0.05 * 1.35_f64.powi(zoom);
                let (number, parts) = step(steps, unit_px);
                assert!(number <= last && parts >= 1);
                let coarsest = steps.last().map_or(0.0, |step| step.0);
                assert!(number * unit_px >= BETWEEN || number == coarsest);
                last = number;
            }
        }
    }

    #[test]
    fn marks_lie_at_whole_parts_and_every_so_many_bear_a_number() {
        let found = marks(&MILLIMETRES, 1.0, 10.0, -3.2, 12.3);
        let numbered: Vec<f64> = found.iter().filter_map(|mark| mark.1).collect();
        assert_eq!(numbered, [0.0, 10.0]);
        assert_eq!(found.len(), 3);
        for (at, number) in found {
            assert_eq!(at.rem_euclid(5.0), 0.0);
            assert!(number.is_none_or(|number| (number - at).abs() < 1e-9));
        }
        assert!(marks(&POINTS, 0.3514, 4.0, 5.0, 5.0001).is_empty());
    }
}
