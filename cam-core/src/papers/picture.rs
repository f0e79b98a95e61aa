//! Pictures of planks from above, to scale.

use kurbo::{Point, Rect, Vec2};

use super::PaperParts;
use super::drawing::{
    Anchor, BAD, BLOCK, Drawing, EDGE, FACE, GREY, INK, PLANK, RED, rectangle, ring, straight,
};
use super::sheet::Figure;
use super::sorts::ink;
use super::words::{mm, plank_name};
use crate::plank::Plank;

/// Room around the plank for its measures, mm on the paper: at the left, below, at the right, above.
const LEFT_MM: f64 = 9.0;
const BELOW_MM: f64 = 11.0;
const RIGHT_MM: f64 = 16.0;
const ABOVE_MM: f64 = 3.0;
/// Room above the plank for each program's name in the picture of true size, mm.
const ROW_MM: f64 = 5.0;
/// Sizes of words, points.
const WORDS: f64 = 8.5;
const NAMES: f64 = 10.0;
/// Scales of drawings, the largest first: those of ISO 5455 (from memory), with steps between them.
const SCALES: [f64; 9] = [1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 10.0, 20.0, 50.0];
/// Length of the bar that shows the scale, mm of the plank: the first that is at least 25 mm long on the paper.
const BARS_MM: [f64; 4] = [50.0, 100.0, 500.0, 1000.0];
const LEAST_BAR_MM: f64 = 25.0;

/// The plank true to size, with its programs in the order of running.
pub fn whole(parts: &PaperParts, plank: &Plank) -> Drawing {
    let mut drawing = drawn(parts, plank, 1.0);
    let programs = parts.job.programs.iter();
    let programs = programs.filter(|program| program.plank == plank.id);
    let mut lines = vec![format!(
        "{}, {} × {} mm, seen from above, printing face up",
        plank.id,
        mm(plank.width_mm),
        mm(plank.length_mm)
    )];
    lines.extend((1..).zip(programs).map(|(number, program)| {
        format!(
            "{number}. {} ({}, cutter {})",
            program.file,
            program.role.word(),
            program.cutter
        )
    }));
    for (row, line) in lines.iter().rev().enumerate() {
        let above = ABOVE_MM + ROW_MM * row as f64;
        let at = Point::new(0.0, plank.length_mm);
        drawing.words(at, [0.0, above], Anchor::Start, line, NAMES);
    }
    drawing.frame.y1 += ROW_MM * lines.len() as f64;
    drawing
}

/// The plank at the largest usual scale at which it fits a room, mm.
pub fn fitted(parts: &PaperParts, plank: &Plank, [width, height]: [f64; 2]) -> Figure {
    let room = [width - LEFT_MM - RIGHT_MM, height - BELOW_MM - ABOVE_MM];
    let fits =
        |one_to: f64| plank.width_mm / one_to <= room[0] && plank.length_mm / one_to <= room[1];
    let last = SCALES[SCALES.len() - 1];
    let one_to = SCALES
        .into_iter()
        .find(|&scale| fits(scale))
        .unwrap_or(last);
    Figure {
        drawing: drawn(parts, plank, 1.0 / one_to),
        scale: 1.0 / one_to,
        words: vec![format!(
            "{} from above, printing face up, 1 : {one_to}. Zero at the lower left corner; the broken line holds all cutting.{}",
            plank_name(&plank.id),
            match in_colours(parts, plank) {
                true => " Faces have the inks of their plates.",
                false => "",
            }
        )],
        told: format!("Picture: {}.svg", plank.id),
    }
}

/// Whether some block of a plank prints one colour of a letter.
fn in_colours(parts: &PaperParts, plank: &Plank) -> bool {
    let mut sorts = plank
        .places
        .iter()
        .filter_map(|place| parts.sorts.get(place.sort));
    sorts.any(|sort| sort.plate.is_some())
}

fn drawn(parts: &PaperParts, plank: &Plank, scale: f64) -> Drawing {
    let whole = Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm);
    let mut drawing = Drawing::new(Rect::new(
        whole.x0 - LEFT_MM / scale,
        whole.y0 - BELOW_MM / scale,
        whole.x1 + RIGHT_MM / scale,
        whole.y1 + ABOVE_MM / scale,
    ));
    drawing.fill(rectangle(whole), PLANK);
    for &bad in &plank.bad_places {
        drawing.fill(rectangle(bad), BAD);
        drawing.broken(rectangle(bad), EDGE, 0.3);
    }
    for place in &plank.places {
        let Some(sort) = parts.sorts.get(place.sort) else {
            continue;
        };
        let block = ring(sort.block.outline.iter().map(|&at| at + place.at));
        drawing.fill(block.clone(), BLOCK);
        drawing.line(block, EDGE, 0.1);
        let face = kurbo::Affine::translate(place.at) * sort.outline.clone();
        if sort.plate.is_some() {
            drawing.fill(face.clone(), ink(sort));
            drawing.line(face, EDGE, 0.1);
        } else {
            drawing.fill(face, FACE);
        }
    }
    drawing.line(rectangle(whole), EDGE, 0.35);
    if let Some(within) = cutting(parts, &plank.id) {
        drawing.broken(rectangle(within), GREY, 0.25);
    }
    clamps(&mut drawing, plank);
    let foot = Point::new(whole.center().x, 0.0);
    let width = format!("{} mm", mm(plank.width_mm));
    drawing.coloured(foot, [0.0, -4.0], Anchor::Middle, (&width, WORDS), GREY);
    let right = Point::new(whole.x1, whole.center().y);
    let length = format!("{} mm", mm(plank.length_mm));
    drawing.coloured(right, [1.5, -1.0], Anchor::Start, (&length, WORDS), GREY);
    bar(&mut drawing, whole, scale);
    zero(&mut drawing, scale);
    drawing
}

fn clamps(drawing: &mut Drawing, plank: &Plank) {
    for clamp in &plank.clamps {
        let corner = Point::new(clamp.x.in_mm(), clamp.y.in_mm());
        let size = Vec2::new(clamp.width.in_mm(), clamp.length.in_mm());
        let held = Rect::from_points(corner, corner + size);
        drawing.fill(rectangle(held), GREY);
        drawing.line(rectangle(held), INK, 0.3);
        let crossed = [
            straight((held.x0, held.y0), (held.x1, held.y1)),
            straight((held.x0, held.y1), (held.x1, held.y0)),
        ];
        for line in crossed {
            drawing.line(line, INK, 0.2);
        }
    }
}

/// A bar of a round length, for measuring what the paper shows.
fn bar(drawing: &mut Drawing, whole: Rect, scale: f64) {
    let length = BARS_MM
        .into_iter()
        .find(|&length| length * scale >= LEAST_BAR_MM)
        .unwrap_or(BARS_MM[BARS_MM.len() - 1]);
    let (right, y) = (whole.x1, whole.y0 - 8.0 / scale);
    let tick = 1.0 / scale;
    drawing.line(straight((right - length, y), (right, y)), INK, 0.25);
    for x in [right - length, right - length / 2.0, right] {
        drawing.line(straight((x, y - tick), (x, y + tick)), INK, 0.25);
    }
    let words = format!("{} mm", mm(length));
    drawing.words(
        Point::new(right, y),
        [1.5, -1.0],
        Anchor::Start,
        &words,
        WORDS,
    );
}

/// The zero: a cross at the plank's lower left corner with its axes named.
fn zero(drawing: &mut Drawing, scale: f64) {
    let [short, long] = [4.0 / scale, 11.0 / scale];
    drawing.line(straight((-short, 0.0), (long, 0.0)), RED, 0.5);
    drawing.line(straight((0.0, -short), (0.0, long)), RED, 0.5);
    let head = 1.0 / scale;
    drawing.fill(
        ring([(long + 2.0 * head, 0.0), (long, head), (long, -head)].map(Point::from)),
        RED,
    );
    drawing.fill(
        ring([(0.0, long + 2.0 * head), (head, long), (-head, long)].map(Point::from)),
        RED,
    );
    let words = [
        (
            Point::new(0.0, -short),
            [-LEFT_MM + 1.0, -3.2],
            "zero, z 0 on the face",
        ),
        (Point::new(long, 0.0), [1.5, -3.2], "x"),
        (Point::new(0.0, long), [-3.2, 0.0], "y"),
    ];
    for (at, moved, text) in words {
        drawing.coloured(at, moved, Anchor::Start, (text, WORDS), RED);
    }
}

/// What any cutter may come near on a plank: its blocks and the lanes about them; nothing of an empty plank.
pub fn cutting(parts: &PaperParts, plank: &str) -> Option<Rect> {
    let lane = parts.job.lane_mm;
    let sorts = parts.job.sorts.iter().filter(|sort| sort.plank == plank);
    sorts
        .flat_map(|sort| &sort.block_mm)
        .map(|&[x, y]| Rect::new(x - lane, y - lane, x + lane, y + lane))
        .reduce(|all, one| all.union(one))
}
