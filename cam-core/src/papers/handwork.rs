//! The handwork list: corners that stay rounder than the tolerance, to be sharpened with a knife, with pictures of them.

use kurbo::{BezPath, Circle, Point, Rect, Shape, Vec2};

use super::drawing::{Anchor, BLOCK, Drawing, EDGE, FACE, RED, RULE, rectangle, ring, straight};
use super::sheet::{Figure, Piece, Sheet};
use super::sorts::{as_cut, scale_within};
use super::words::{counted, hours, mm};
use super::{PaperParts, cautions};
use crate::sort::Sort;
use crate::survey::{CornerReport, Survey};

/// The picture of a whole sort at the side of the page at most, mm.
const WHOLE_MM: [f64; 2] = [33.0, 34.0];
/// Pictures of corners on the page, mm.
const DETAIL_MM: f64 = 20.0;
/// How much of the block a picture of a corner shows, in gaps, and at least and at most, mm.
const SHOWN_IN_GAPS: f64 = 5.0;
const SHOWN_MM: [f64; 2] = [2.5, 8.0];
/// Room for numbers at either side of the sort, how far from it their lines begin, the least distance between them, and half the
/// width of the dots at corners, mm on the paper.
const MARGIN_MM: f64 = 5.0;
const BESIDE_MM: f64 = 1.6;
const LINE_MM: f64 = 2.7;
const DOT_MM: f64 = 0.45;
/// Size of the marks' numbers, points.
const NUMBERS: f64 = 7.5;
/// How far the circles about corners are drawn from true ones, mm.
const NEAR_MM: f64 = 0.01;
const SECONDS_PER_MINUTE: f64 = 60.0;

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let listed: Vec<(&Sort, &Survey)> = parts
        .sorts
        .iter()
        .zip(parts.surveys)
        .map(|(sort, survey)| (sort.as_ref(), survey.as_ref()))
        .filter(|(_, survey)| !survey.corners.is_empty() || !survey.narrow_ground.is_empty())
        .collect();
    let limit = mm(parts.commission.cutting.corner_tolerance.in_mm());
    let mut facts = parts.order_facts();
    let mut pieces = Vec::new();
    if listed.is_empty() {
        pieces.push(Piece::text(format!(
            "None: no corner stays rounder than {limit} mm with the cutters of this commission."
        )));
    } else {
        let each = listed.iter();
        let total: usize = each
            .map(|(sort, survey)| survey.corners.len() * sort.count as usize)
            .sum();
        let minutes = total as f64 * parts.workshop.rates.corner_minutes;
        facts.push((
            "Corners in all",
            format!(
                "{total}, with every copy; about {} hours",
                hours(minutes * SECONDS_PER_MINUTE)
            ),
        ));
        pieces.extend([
            Piece::heading("How to read it"),
            Piece::text(format!(
                "These corners of the background stay rounder than {limit} mm. Blocks are shown as they lie face up, so letters are wrong-reading. What is red still stands and is to be cut away, down to the floor; the letter is dark, and nothing of it may be touched."
            )),
            Piece::text(
                "Places count from the block’s lower left corner, across and up; the gap is from the drawn corner to the nearest wood that was cut away.",
            ),
        ]);
        pieces.extend(cautions::at_the_bench());
        for (sort, survey) in &listed {
            pieces.push(Piece::heading(format!(
                "{}, {}",
                sort.name,
                if sort.count == 1 {
                    "1 copy".to_owned()
                } else {
                    format!("{} copies", sort.count)
                }
            )));
            pieces.push(one_sort(sort, survey));
        }
    }
    Some(Sheet {
        file: "handwork",
        name: "Handwork list",
        facts,
        pieces,
        as_text: true,
    })
}

/// Narrow ground that is no part of a corner listed: where it ends in a corner, the corner says it.
fn narrow(survey: &Survey) -> Vec<(Point, f64)> {
    let in_corner = |at: Point| {
        let mut corners = survey.corners.iter();
        corners.any(|corner| corner.at.distance(at) <= corner.gap_mm)
    };
    let places = survey.narrow_ground.iter().copied();
    places.filter(|(at, _)| !in_corner(*at)).collect()
}

/// What still stands on a block though it is ground.
fn standing(survey: &Survey) -> BezPath {
    let mut path = BezPath::new();
    for points in survey.unreached.rings() {
        path.extend(ring(points.iter().copied()));
    }
    path
}

fn one_sort(sort: &Sort, survey: &Survey) -> Piece {
    let standing = standing(survey);
    let mut whole = as_cut(sort);
    whole.fill(standing.clone(), RED);
    let scale = numbered(&mut whole, sort, survey);
    let mut details: Vec<Figure> = (1..)
        .zip(&survey.corners)
        .map(|(number, corner)| detail(number, corner, sort, &standing))
        .collect();
    let first = survey.corners.len() + 1;
    details.extend(
        (first..)
            .zip(narrow(survey))
            .map(|(number, (at, width))| narrow_ground(number, (at, width), sort, &standing)),
    );
    let several = counted(survey.corners.len(), "corner");
    Piece::Details {
        side: Figure {
            drawing: whole,
            scale,
            words: Vec::new(),
            told: several,
        },
        details,
    }
}

/// Numbers beside the block, each with a line to its corner; gives the scale at which the whole fits the side of the page.
fn numbered(whole: &mut Drawing, sort: &Sort, survey: &Survey) -> f64 {
    let scale = scale_within(whole, [WHOLE_MM[0] - 2.0 * MARGIN_MM, WHOLE_MM[1]]);
    let corners = survey.corners.iter().map(|corner| corner.at);
    let narrow = narrow(survey).into_iter().map(|(at, _)| at);
    let mut sides: [Vec<(usize, Point)>; 2] = [Vec::new(), Vec::new()];
    for (number, at) in (1..).zip(corners.chain(narrow)) {
        sides[usize::from(at.x > sort.block.set_mm / 2.0)].push((number, at));
    }
    let height = sort.block.body_mm;
    for (side, mut places) in sides.into_iter().enumerate() {
        places.sort_by(|(_, a), (_, b)| a.y.total_cmp(&b.y));
        // From the foot up, each at least a line above the one before; then from the head down, so that none stands too high.
        let line = LINE_MM / scale;
        let mut at_heights: Vec<f64> = Vec::new();
        for (_, at) in &places {
            let least = at_heights.last().map_or(0.0, |below| below + line);
            at_heights.push(at.y.max(least));
        }
        let mut most = height;
        for y in at_heights.iter_mut().rev() {
            *y = y.min(most);
            most = *y - line;
        }
        let (edge, anchor, outward) = if side == 0 {
            (0.0, Anchor::End, -1.0)
        } else {
            (sort.block.set_mm, Anchor::Start, 1.0)
        };
        for ((number, at), y) in places.iter().zip(at_heights) {
            let beside = Point::new(edge + outward * BESIDE_MM / scale, y);
            whole.line(straight(beside, *at), RED, 0.2);
            let dot = Circle::new(*at, DOT_MM / scale).to_path(NEAR_MM);
            whole.fill(dot, RED);
            let text = number.to_string();
            let moved = [outward * 0.6, -0.85];
            whole.coloured(beside, moved, anchor, (&text, NUMBERS), RED);
        }
    }
    whole.frame = whole.frame.inflate(MARGIN_MM / scale, 0.0);
    scale
}

/// A window on the block about a place, enlarged.
fn window(at: Point, shown: f64, sort: &Sort, standing: &BezPath) -> (Drawing, f64) {
    let half = shown / 2.0;
    let frame = Rect::from_center_size(at, (shown, shown));
    let scale = DETAIL_MM / shown;
    let mut drawing = Drawing::new(frame);
    drawing.fill(ring(sort.block.outline.iter().copied()), BLOCK);
    drawing.fill(standing.clone(), RED);
    drawing.fill(sort.outline.clone(), FACE);
    drawing.line(ring(sort.block.outline.iter().copied()), EDGE, 0.2);
    drawing.line(rectangle(frame), RULE, 0.3);
    // A millimetre, for the eye.
    let foot = at + Vec2::new(-half + 1.0 / scale, -half + 1.2 / scale);
    drawing.line(straight(foot, foot + Vec2::new(1.0, 0.0)), EDGE, 0.5);
    (drawing, scale)
}

fn detail(number: usize, corner: &CornerReport, sort: &Sort, standing: &BezPath) -> Figure {
    let shown = (corner.gap_mm * SHOWN_IN_GAPS).clamp(SHOWN_MM[0], SHOWN_MM[1]);
    let (drawing, scale) = window(corner.at, shown, sort, standing);
    Figure {
        drawing,
        scale,
        words: vec![
            format!(
                "{number}.  {:.0}°, gap {:.2}",
                corner.angle_deg, corner.gap_mm
            ),
            format!("at {:.1}, {:.1}", corner.at.x, corner.at.y),
        ],
        told: format!(
            "{number}. corner at {:.2}, {:.2} mm, angle {:.1}°, gap {:.3} mm (a cutter of {:.2} mm would do)",
            corner.at.x, corner.at.y, corner.angle_deg, corner.gap_mm, corner.wanted_diameter_mm
        ),
    }
}

fn narrow_ground(
    number: usize,
    (at, width): (Point, f64),
    sort: &Sort,
    standing: &BezPath,
) -> Figure {
    let shown = (width * 2.0 * SHOWN_IN_GAPS).clamp(SHOWN_MM[0], SHOWN_MM[1]);
    let (drawing, scale) = window(at, shown, sort, standing);
    Figure {
        drawing,
        scale,
        words: vec![
            format!("{number}.  narrow, {width:.2}"),
            format!("at {:.1}, {:.1}", at.x, at.y),
        ],
        told: format!(
            "{number}. narrow ground at {:.2}, {:.2} mm, {width:.3} mm wide, not entered by any cutter",
            at.x, at.y
        ),
    }
}
