//! What the survey tells the maker.

use kurbo::Point;

use super::{Reaching, Survey};
use crate::commission::Cutting;
use crate::finding::{Finding, Severity, Subject};
use crate::measure::plain_number;
use crate::sort::Sort;
use crate::workshop::Cutter;

/// Ground left of less than this, mm², is not worth a sentence.
const LEAST_AREA_MM2: f64 = 0.01;

/// The findings of a survey; `cutters` are all that reach anything, in the order of cutting, `flat` the flat ones among them.
pub(super) fn findings(
    sort: &Sort,
    survey: &Survey,
    cutters: &[Reaching],
    flat: &[&Cutter],
    cutting: &Cutting,
) -> Vec<Finding> {
    let Some(smallest) = cutters.last() else {
        return Vec::new();
    };
    [
        round_corners(survey, smallest, cutting),
        narrow_ground(survey, smallest),
        thin_strokes(survey, cutting),
        shallow_ground(survey, flat, cutting),
    ]
    .into_iter()
    .flatten()
    .map(|told| Finding {
        severity: told.severity,
        subject: Subject::Sort(sort.name.clone()),
        kind: told.kind,
        text: told.text,
        remedy: told.remedy,
    })
    .collect()
}

/// A finding whose subject is the sort.
struct Told {
    severity: Severity,
    kind: &'static str,
    text: String,
    remedy: String,
}

/// A cutter that the commission names and the workshop lacks.
pub(super) fn unknown_cutter(id: &str) -> Finding {
    Finding {
        severity: Severity::Stop,
        subject: Subject::Cutter(id.to_owned()),
        kind: "cutter-unknown",
        text: format!("The commission is to be cut with {id}, which the workshop does not have."),
        remedy: "Add the cutter to the workshop, or take it off the commission.".to_owned(),
    }
}

fn mm(length: f64) -> String {
    format!("{} mm", plain_number(length, 2))
}

fn place(at: Point) -> String {
    format!("{}, {}", plain_number(at.x, 1), plain_number(at.y, 1))
}

fn round_corners(survey: &Survey, smallest: &Reaching, cutting: &Cutting) -> Option<Told> {
    let worst = survey
        .corners
        .iter()
        .max_by(|one, other| one.gap_mm.total_cmp(&other.gap_mm))?;
    let finest = survey
        .corners
        .iter()
        .map(|corner| corner.wanted_diameter_mm)
        .fold(f64::INFINITY, f64::min);
    let count = survey.corners.len();
    let corners = if count == 1 {
        "One corner stays".to_owned()
    } else {
        format!("{count} corners stay")
    };
    Some(Told {
        severity: Severity::Note,
        kind: "corners-round",
        text: format!(
            "{corners} rounder than {} after the smallest cutter, {}; the most, {}, at {} on the block as cut, where the walls \
             meet at {}°.",
            mm(cutting.corner_tolerance.in_mm()),
            smallest.cutter.id,
            mm(worst.gap_mm),
            place(worst.at),
            plain_number(worst.angle_deg, 0),
        ),
        remedy: format!(
            "Cut them out with a knife; a cutter of {} or less would reach into all of them.",
            mm((finest * 100.0).floor() / 100.0)
        ),
    })
}

fn narrow_ground(survey: &Survey, smallest: &Reaching) -> Option<Told> {
    let &(at, width) = survey
        .narrow_ground
        .iter()
        .min_by(|one, other| one.1.total_cmp(&other.1))?;
    if survey.unreached_mm2 < LEAST_AREA_MM2 {
        return None;
    }
    let count = survey.narrow_ground.len();
    let places = if count == 1 {
        "The ground is narrower than the smallest cutter in one place".to_owned()
    } else {
        format!("The ground is narrower than the smallest cutter in {count} places")
    };
    Some(Told {
        severity: Severity::Warning,
        kind: "ground-narrow",
        text: format!(
            "{places} ({}, {}); the narrowest is {} wide, at {} on the block as cut. It stays uncut and will print.",
            smallest.cutter.id,
            mm(2.0 * smallest.radius),
            mm(width),
            place(at),
        ),
        remedy: "Take a smaller cutter or a larger size, or clear it by hand.".to_owned(),
    })
}

fn thin_strokes(survey: &Survey, cutting: &Cutting) -> Option<Told> {
    let &(at, thickness) = survey
        .thin_strokes
        .iter()
        .min_by(|one, other| one.1.total_cmp(&other.1))?;
    let count = survey.thin_strokes.len();
    let places = if count == 1 {
        "A stroke is".to_owned()
    } else {
        format!("{count} strokes are")
    };
    Some(Told {
        severity: Severity::Warning,
        kind: "stroke-thin",
        text: format!(
            "{places} thinner than {}; the thinnest place is {}, at {} on the block as cut. The wood may break there.",
            mm(cutting.least_stroke.in_mm()),
            mm(thickness),
            place(at),
        ),
        remedy: "Cut it larger, with less relief, or in a harder wood.".to_owned(),
    })
}

/// Ground that only a cutter reaches which may not go down to the full relief.
fn shallow_ground(survey: &Survey, cutters: &[&Cutter], cutting: &Cutting) -> Option<Told> {
    let relief = cutting.relief.in_mm();
    let mut left_by_deeper = survey
        .cutters
        .first()
        .map_or(0.0, |first| first.left_mm2 + first.reached_mm2);
    let mut shallow: Option<(f64, f64)> = None;
    for (made, cutter) in survey.cutters.iter().zip(cutters) {
        let depth = cutter.max_depth.in_mm();
        if depth >= relief {
            left_by_deeper = left_by_deeper.min(made.left_mm2);
        } else {
            let more = left_by_deeper - made.left_mm2;
            if more > LEAST_AREA_MM2 {
                let least = shallow.map_or(depth, |(least, _)| least.min(depth));
                shallow = Some((least, more));
            }
        }
    }
    let (depth, area) = shallow?;
    Some(Told {
        severity: Severity::Note,
        kind: "ground-shallow",
        text: format!(
            "{} mm² of ground is cut less deep than the full relief of {}, {} at the least, because the cutters that fit there go \
             no deeper.",
            plain_number(area, 1),
            mm(relief),
            mm(depth),
        ),
        remedy: String::new(),
    })
}
