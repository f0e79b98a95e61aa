//! Body and set of one letter, in reading space with the glyph's origin on the base line at 0, 0.

use kurbo::Rect;
use said::{Joint, Said, Value};

use super::Lining;
use crate::commission::{BlockRules, RoundingShare, SetRule};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::measure::{Length, System, Unit};

/// Differences smaller than this are arithmetic, not wood, in millimetres.
const NOTHING_MM: f64 = 1e-6;
/// A letter that hangs out by less than this part of the body is a round letter's overshoot, not a descender or an accent; a
/// wider shoulder would serve better than a larger body. Common practice, no source: round letters are drawn 1 to 3 % over.
const OVERSHOOT: f64 = 0.03;

/// Where a block's edges lie, in reading space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Edges {
    pub left_mm: f64,
    pub right_mm: f64,
    /// Points added to the plain body at the foot and at the head.
    pub extended_pt: [f64; 2],
}

impl Edges {
    pub fn set_mm(&self) -> f64 {
        self.right_mm - self.left_mm
    }

    /// Widens to a set, half at each side.
    pub fn widen_evenly(&mut self, set_mm: f64) {
        let more_mm = (set_mm - self.set_mm()).max(0.0);
        self.left_mm -= more_mm / 2.0;
        self.right_mm += more_mm / 2.0;
    }
}

/// Body and set of a letter whose face fills `face`, and what the maker should know about them.
pub(super) fn edges(
    name: &str,
    face: Rect,
    advance_mm: f64,
    lining: &Lining,
    rules: &BlockRules,
    system: System,
) -> (Edges, Vec<Finding>) {
    let mut findings = Vec::new();
    let body = body(name, face, lining, rules, system, &mut findings);
    let (left_mm, right_mm) = sides(name, face, advance_mm, rules, &mut findings);
    let (left_mm, right_mm) = rounded(left_mm, right_mm, rules, system);
    let edges = Edges {
        left_mm,
        right_mm,
        extended_pt: body,
    };
    (edges, findings)
}

/// The points by which the body grows at foot and head.
fn body(
    name: &str,
    face: Rect,
    lining: &Lining,
    rules: &BlockRules,
    system: System,
    findings: &mut Vec<Finding>,
) -> [f64; 2] {
    let step_pt = rules.body_step.points();
    let step_mm = Length::points_of(step_pt, system).in_mm();
    let hangs_out_mm = [
        -lining.baseline_mm - face.y0,
        face.y1 - (lining.body_mm - lining.baseline_mm),
    ];
    let sides: [fn() -> Said; 2] = [texts::at_foot, texts::at_head];
    for (out_mm, side) in hangs_out_mm.into_iter().zip(sides) {
        if out_mm > NOTHING_MM && out_mm < OVERSHOOT * lining.body_mm {
            findings.push(Finding {
                severity: Severity::Warning,
                subject: Subject::Sort(name.to_owned()),
                kind: "body-grown-for-little",
                text: texts::body_grown(
                    millimetres(out_mm),
                    side(),
                    Length::mm(step_mm).figures(Unit::Point, system),
                ),
                remedy: texts::body_grown_remedy(side(), millimetres(out_mm)),
            });
        }
    }
    hangs_out_mm.map(|out_mm| steps(out_mm, step_mm) * step_pt)
}

/// The left and right edge before rounding: never closer to the face than the least side.
fn sides(
    name: &str,
    face: Rect,
    advance_mm: f64,
    rules: &BlockRules,
    findings: &mut Vec<Finding>,
) -> (f64, f64) {
    let (left_mm, right_mm) = match rules.set {
        SetRule::Advance => (0.0, advance_mm),
        SetRule::FaceAndMargin(margin) => (face.x0 - margin.in_mm(), face.x1 + margin.in_mm()),
    };
    let least_mm = rules.least_side.in_mm().max(0.0);
    let wanted = (
        left_mm.min(face.x0 - least_mm),
        right_mm.max(face.x1 + least_mm),
    );
    let grown_mm = [left_mm - wanted.0, wanted.1 - right_mm];
    if grown_mm.iter().all(|&grown| grown <= NOTHING_MM) {
        return (left_mm, right_mm);
    }
    let overhang_mm = [left_mm - face.x0, face.x1 - right_mm];
    let overhangs = overhang_mm.iter().any(|&over| over > NOTHING_MM);
    let wider = millimetres(grown_mm.iter().map(|grown| grown.max(0.0)).sum());
    let (severity, kind, text, remedy) = if overhangs {
        (
            Severity::Warning,
            "face-overhangs-block",
            texts::face_would_overhang(by_side(overhang_mm), wider),
            texts::face_would_overhang_remedy(),
        )
    } else {
        (
            Severity::Note,
            "side-widened",
            texts::side_widened(by_side(grown_mm), wider),
            Said::default(),
        )
    };
    findings.push(Finding {
        severity,
        subject: Subject::Sort(name.to_owned()),
        kind,
        text,
        remedy,
    });
    wanted
}

fn by_side(amounts_mm: [f64; 2]) -> Value {
    let sides: [fn(Value) -> Said; 2] = [texts::at_left, texts::at_right];
    let amounts = amounts_mm.into_iter().zip(sides);
    let told = amounts.filter(|(amount, _)| *amount > NOTHING_MM);
    Value::list(told.map(|(amount, at)| at(millimetres(amount))), Joint::And)
}

/// To the micrometre, but never down to nothing.
fn millimetres(mm: f64) -> Value {
    Length::mm(mm.max(0.001)).figures(Unit::Millimetre, System::Pica)
}

fn rounded(left_mm: f64, right_mm: f64, rules: &BlockRules, system: System) -> (f64, f64) {
    let Some(unit_pt) = rules.rounding.points() else {
        return (left_mm, right_mm);
    };
    let unit_mm = Length::points_of(unit_pt, system).in_mm();
    let set_mm = steps(right_mm - left_mm, unit_mm) * unit_mm;
    let more_mm = set_mm - (right_mm - left_mm);
    match rules.share {
        RoundingShare::Even => (left_mm - more_mm / 2.0, right_mm + more_mm / 2.0),
        RoundingShare::Right => (left_mm, left_mm + set_mm),
        RoundingShare::Left => (right_mm - set_mm, right_mm),
    }
}

/// How many whole steps cover a length; none for a length of nothing or less.
fn steps(length_mm: f64, step_mm: f64) -> f64 {
    ((length_mm - NOTHING_MM) / step_mm).ceil().max(0.0)
}
