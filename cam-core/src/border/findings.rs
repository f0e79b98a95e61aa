//! What the maker should know of borders before they are cut.

use std::collections::{BTreeMap, BTreeSet};

use said::{Joint, Said, Value};

use super::frame::{Frame, Join, Side, frame};
use super::joins::{Meeting, Misfit, Shape};
use super::shapes_as_drawn;
use crate::commission::{Border, Commission};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::material;
use crate::measure::{Length, System, Unit};
use crate::sort::Sort;

/// Bodies and sets of units are whole multiples of this, in points: half a line.
///
/// # Source
/// A. A. Stewart, *Type: a primer*, 1918, p. 14: borders on bodies of 6, 12, 18 and 24 points and their multiples (and on 8, 10 and 14, which are
/// not asked for here). That they work with the spacing material of the trade so: common practice, no source.
const STEP_PT: f64 = 6.0;
/// What a block may differ from that by, in points: far less than any cutter does.
const NOTHING_PT: f64 = 1e-3;
/// Units that print short of their edges by as little as this together, in millimetres, are likely meant to join. Common practice, no source.
const NEARLY_MM: f64 = 1.0;

/// What there is to say of the commission's borders, from its sorts as they are drawn.
///
/// A commission that replaces sorts has few of a border's units, and is asked nothing.
pub fn findings<'a>(
    commission: &Commission,
    sorts: impl IntoIterator<Item = &'a Sort>,
) -> Vec<Finding> {
    if commission.borders.is_empty() || commission.replaces.is_some() {
        return Vec::new();
    }
    let sorts: Vec<&Sort> = sorts.into_iter().collect();
    let shapes = shapes_as_drawn(sorts.iter().copied());
    let mut findings = Vec::new();
    let mut taken: BTreeMap<String, u32> = BTreeMap::new();
    let mut measured = BTreeSet::new();
    for border in &commission.borders {
        let frame = match frame(border, &shapes, commission.system) {
            Ok(frame) => frame,
            Err(error) => {
                findings.push(of_the_whole(
                    "border-not-set",
                    error.said(),
                    texts::border_not_set_remedy(),
                ));
                continue;
            }
        };
        for (name, count) in &frame.counts {
            let all = taken.entry(name.clone()).or_default();
            *all = all.saturating_add(count.saturating_mul(border.count));
            if measured.insert(name.clone()) {
                findings.extend(off_body(name, shapes.get(name), commission.system));
            }
        }
        findings.extend(not_filled(border, &frame, commission.system));
        findings.extend(join_findings(border, &frame));
    }
    for (name, needed) in taken {
        let ordered = sorts.iter().find(|sort| sort.name == name);
        let ordered = ordered.map_or(0, |sort| sort.count);
        if ordered < needed {
            findings.push(Finding {
                severity: Severity::Warning,
                subject: Subject::Sort(name),
                kind: "border-short",
                text: texts::border_short(needed, ordered),
                remedy: texts::border_short_remedy(),
            });
        }
    }
    findings
}

fn of_the_whole(kind: &'static str, text: Said, remedy: Said) -> Finding {
    Finding {
        severity: Severity::Warning,
        subject: Subject::Commission,
        kind,
        text,
        remedy,
    }
}

fn off_body(name: &str, shape: Option<&Shape>, system: System) -> Option<Finding> {
    let shape = shape?;
    let point_mm = Length::points_of(1.0, system).in_mm();
    let sizes = [shape.body_mm / point_mm, shape.set_mm / point_mm];
    let is_whole = |points: &f64| {
        let steps = (points / STEP_PT).round().max(1.0);
        (points - steps * STEP_PT).abs() <= NOTHING_PT
    };
    if sizes.iter().all(is_whole) {
        return None;
    }
    let [body, set] = sizes.map(|points| Value::plain(points, 3));
    Some(Finding {
        severity: Severity::Warning,
        subject: Subject::Sort(name.to_owned()),
        kind: "unit-off-body",
        text: texts::unit_off_body(body, set, Value::plain(STEP_PT, 0)),
        remedy: texts::unit_off_body_remedy(),
    })
}

/// A side that is not filled exactly; opposite ones alike are told once.
fn not_filled(border: &Border, frame: &Frame, system: System) -> Vec<Finding> {
    let mut told: Vec<(&Side, Vec<Said>)> = Vec::new();
    for side in frame.sides.iter().filter(|side| side.fill.rest_pt > 0.0) {
        let alike = told.iter_mut().find(|(other, _)| {
            other.pieces == side.pieces
                && other.fill == side.fill
                && other.nearest_mm == side.nearest_mm
        });
        match alike {
            Some((_, names)) => names.push(side.of.said()),
            None => told.push((side, vec![side.of.said()])),
        }
    }
    told.into_iter()
        .map(|(side, names)| {
            let (pieces, along) = (side.pieces.len(), Value::list(names, Joint::And));
            let rest = Value::plain(side.fill.rest_pt, 2);
            let text = match &side.fill.spacing {
                Some(spacing) => {
                    let spacing = material::said(spacing);
                    texts::frame_made_up(&border.id, pieces, along, rest, spacing)
                }
                None => texts::frame_not_filled(&border.id, pieces, along, rest),
            };
            let [below, above] = side.nearest_mm.map(|mm| exactly(mm, system));
            let remedy = texts::frame_not_filled_remedy(below, above);
            of_the_whole("frame-not-filled", text, remedy)
        })
        .collect()
}

/// A size in points and in millimetres.
fn exactly(mm: f64, system: System) -> Said {
    let shown = |unit| Length::mm(mm).figures(unit, system);
    texts::two_units(shown(Unit::Point), shown(Unit::Millimetre))
}

/// What there is to say of the joins round a frame.
pub fn join_findings(border: &Border, frame: &Frame) -> Vec<Finding> {
    let joins = frame.joins.iter();
    joins.flat_map(|join| of_join(border, join)).collect()
}

fn of_join(border: &Border, join: &Join) -> Vec<Finding> {
    let [first, second] = &join.sorts;
    let (side, after) = join.first;
    let times = match join.times {
        1 => texts::once(),
        times => texts::times_round(times),
    };
    let place = texts::at_join(&border.id, second, first, times, side.said(), after);
    let finding = |severity, kind, text: Said, remedy: Said| Finding {
        severity,
        subject: Subject::Sort(first.clone()),
        kind,
        text,
        remedy,
    };
    match &join.meeting {
        Meeting::Apart(gap) => {
            let is_nearly = gap.is_some_and(|gap| gap < NEARLY_MM);
            let text = match gap {
                Some(gap) => texts::join_apart_by(place, mm(*gap)),
                None => texts::join_apart(place),
            };
            let (severity, remedy) = if is_nearly {
                (Severity::Warning, texts::join_nearly_remedy())
            } else {
                (Severity::Note, Said::default())
            };
            vec![finding(severity, "border-apart", text, remedy)]
        }
        Meeting::Joined(misfits) => {
            let told = misfits.iter().map(|misfit| {
                let lacking = if misfit.second_lacks { second } else { first };
                let (kind, text) = in_words(&place, misfit, lacking);
                finding(Severity::Warning, kind, text, texts::join_misfit_remedy())
            });
            told.collect()
        }
    }
}

fn in_words(place: &Said, misfit: &Misfit, lacking: &str) -> (&'static str, Said) {
    let place = place.clone();
    let [from, to] = misfit.stretch_mm.map(mm);
    if misfit.is_step {
        let by = mm(misfit.length_mm());
        return ("border-step", texts::join_step(place, by, from, lacking));
    }
    let text = match misfit.gap_mm {
        Some(gap) => texts::join_gap(place, from, to, lacking, mm(gap)),
        None => texts::join_nothing(place, from, to, lacking),
    };
    ("border-gap", text)
}

fn mm(mm: f64) -> Value {
    Value::plain_mm(mm, 2)
}
