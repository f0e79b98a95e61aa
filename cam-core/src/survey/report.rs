//! What the survey tells the maker.

use kurbo::Point;
use said::{Said, Value};

use super::{Reaching, Survey};
use crate::commission::Cutting;
use crate::finding::{Finding, Severity, Subject, texts};
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
    text: Said,
    remedy: Said,
}

/// A cutter that the commission names and the workshop lacks.
pub(super) fn unknown_cutter(id: &str) -> Finding {
    Finding {
        severity: Severity::Stop,
        subject: Subject::Cutter(id.to_owned()),
        kind: "cutter-unknown",
        text: texts::cutter_unknown(id),
        remedy: texts::cutter_unknown_remedy(),
    }
}

fn mm(length: f64) -> Value {
    Value::plain_mm(length, 2)
}

fn place(at: Point) -> Said {
    texts::point(Value::plain(at.x, 1), Value::plain(at.y, 1))
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
    let (tolerance, cutter) = (mm(cutting.corner_tolerance.in_mm()), &smallest.cutter.id);
    let (gap, at) = (mm(worst.gap_mm), place(worst.at));
    let angle = Value::plain(worst.angle_deg, 0);
    Some(Told {
        severity: Severity::Note,
        kind: "corners-round",
        text: match survey.corners.len() {
            1 => texts::corner_round(tolerance, cutter, gap, at, angle),
            count => texts::corners_round(count, tolerance, cutter, gap, at, angle),
        },
        remedy: texts::corners_round_remedy(mm((finest * 100.0).floor() / 100.0)),
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
    let (cutter, diameter) = (&smallest.cutter.id, mm(2.0 * smallest.radius));
    let (width, at) = (mm(width), place(at));
    Some(Told {
        severity: Severity::Warning,
        kind: "ground-narrow",
        text: match survey.narrow_ground.len() {
            1 => texts::ground_narrow_once(cutter, diameter, width, at),
            count => texts::ground_narrow(count, cutter, diameter, width, at),
        },
        remedy: texts::ground_narrow_remedy(),
    })
}

fn thin_strokes(survey: &Survey, cutting: &Cutting) -> Option<Told> {
    let &(at, thickness) = survey
        .thin_strokes
        .iter()
        .min_by(|one, other| one.1.total_cmp(&other.1))?;
    let least = mm(cutting.least_stroke.in_mm());
    let (thickness, at) = (mm(thickness), place(at));
    Some(Told {
        severity: Severity::Warning,
        kind: "stroke-thin",
        text: match survey.thin_strokes.len() {
            1 => texts::stroke_thin(least, thickness, at),
            count => texts::strokes_thin(count, least, thickness, at),
        },
        remedy: texts::stroke_thin_remedy(),
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
        text: texts::ground_shallow(Value::plain(area, 1), mm(relief), mm(depth)),
        remedy: Said::default(),
    })
}
