//! What the maker should know of borders before they are cut.

use std::collections::{BTreeMap, BTreeSet};

use super::frame::{Frame, Join, Side, frame};
use super::joins::{Meeting, Misfit, Shape};
use super::shapes_as_drawn;
use crate::commission::{Border, Commission};
use crate::finding::{Finding, Severity, Subject};
use crate::material;
use crate::measure::{Length, System, Unit, plain_number};
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
                    error.to_string(),
                    "Order the unit, or change the border.".to_owned(),
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
                text: format!("Its frames take {needed} of it, and {ordered} are ordered."),
                remedy: "Order as many, or fewer frames.".to_owned(),
            });
        }
    }
    findings
}

fn of_the_whole(kind: &'static str, text: String, remedy: String) -> Finding {
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
    let [body, set] = sizes.map(|points| plain_number(points, 3));
    Some(Finding {
        severity: Severity::Warning,
        subject: Subject::Sort(name.to_owned()),
        kind: "unit-off-body",
        text: format!(
            "It stands in a border, and its body is {body} points and its set {set}; units work with spacing material on multiples of {STEP_PT} points."
        ),
        remedy: "Give its drawing a body and a set of whole multiples.".to_owned(),
    })
}

/// A side that is not filled exactly; opposite ones alike are told once.
fn not_filled(border: &Border, frame: &Frame, system: System) -> Vec<Finding> {
    let mut told: Vec<(&Side, Vec<&str>)> = Vec::new();
    for side in frame.sides.iter().filter(|side| side.fill.rest_pt > 0.0) {
        let alike = told.iter_mut().find(|(other, _)| {
            other.pieces == side.pieces
                && other.fill == side.fill
                && other.nearest_mm == side.nearest_mm
        });
        match alike {
            Some((_, names)) => names.push(side.of.name()),
            None => told.push((side, vec![side.of.name()])),
        }
    }
    told.into_iter()
        .map(|(side, names)| {
            let rest = plain_number(side.fill.rest_pt, 2);
            let spacing = match &side.fill.spacing {
                Some(pieces) => format!(", made up by {}", material::in_words(pieces)),
                None => ", which no spacing material makes up".to_owned(),
            };
            let [below, above] = side.nearest_mm.map(|mm| exactly(mm, system));
            of_the_whole(
                "frame-not-filled",
                format!(
                    "In border {}, {} pieces along the {} leave {rest} points over{spacing}.",
                    border.id,
                    side.pieces.len(),
                    names.join(" and the ")
                ),
                format!("Whole units fill {below} or {above} exactly."),
            )
        })
        .collect()
}

/// A size in points and in millimetres.
fn exactly(mm: f64, system: System) -> String {
    let length = Length::mm(mm);
    format!(
        "{} ({})",
        length.show(Unit::Point, system),
        length.show(Unit::Millimetre, system)
    )
}

/// What there is to say of the joins round a frame.
pub fn join_findings(border: &Border, frame: &Frame) -> Vec<Finding> {
    let joins = frame.joins.iter();
    joins.flat_map(|join| of_join(border, join)).collect()
}

fn of_join(border: &Border, join: &Join) -> Vec<Finding> {
    let [first, second] = &join.sorts;
    let (side, after) = join.first;
    let place = format!(
        "In border {}, where {second} follows {first} ({}, first along the {}, after unit {after})",
        border.id,
        match join.times {
            1 => "once".to_owned(),
            times => format!("{times} times round the frame"),
        },
        side.name()
    );
    let finding = |severity, kind, what: String, remedy: &str| Finding {
        severity,
        subject: Subject::Sort(first.clone()),
        kind,
        text: format!("{place}, {what}."),
        remedy: remedy.to_owned(),
    };
    match &join.meeting {
        Meeting::Apart(gap) => {
            let is_nearly = gap.is_some_and(|gap| gap < NEARLY_MM);
            let by = gap.map_or_else(String::new, |gap| format!(" by {}", mm(gap)));
            let severity = if is_nearly {
                Severity::Warning
            } else {
                Severity::Note
            };
            let remedy = if is_nearly {
                "Draw both out to their edges, with no wood at the sides, if they are to join."
            } else {
                ""
            };
            let what = format!("they print apart{by}");
            vec![finding(severity, "border-apart", what, remedy)]
        }
        Meeting::Joined(misfits) => {
            let told = misfits.iter().map(|misfit| {
                let lacking = if misfit.second_lacks { second } else { first };
                let (kind, what) = in_words(misfit, lacking);
                finding(
                    Severity::Warning,
                    kind,
                    what,
                    "Mend the drawings so that their edges meet.",
                )
            });
            told.collect()
        }
    }
}

fn in_words(misfit: &Misfit, lacking: &str) -> (&'static str, String) {
    let [from, to] = misfit.stretch_mm;
    if misfit.is_step {
        return (
            "border-step",
            format!(
                "two edges lie {} apart, {} from the outer edge: {lacking} lacks it",
                mm(misfit.length_mm()),
                mm(from)
            ),
        );
    }
    let gap = match misfit.gap_mm {
        Some(gap) => format!("ends {} before its edge", mm(gap)),
        None => "prints nothing".to_owned(),
    };
    (
        "border-gap",
        format!(
            "ink from {} to {} from the outer edge meets none: {lacking} {gap} there",
            mm(from),
            mm(to)
        ),
    )
}

fn mm(mm: f64) -> String {
    format!("{} mm", plain_number(mm, 2))
}
