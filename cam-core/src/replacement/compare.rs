//! A sort beside the one it is to match, and the settings beside those of then.

use geometry::region::Region;
use kurbo::{BezPath, ParamCurveNearest, PathEl, PathSeg, Point};
use said::{Joint, Said, Value as Told};
use serde_json::Value;

use crate::commission::Commission;
use crate::finding::{Finding, Severity, Subject, texts};
use crate::format::{commission_value, cutter_value};
use crate::measure::{Length, System, Unit};
use crate::record::{MadeSort, Record, to_nanometre};
use crate::sort::{FLATTENING_MM, Sort};
use crate::workshop::Workshop;

/// What differs by no more comes out the same to the micrometre, in millimetres.
const SAME_MM: f64 = 0.0005;
/// The same for faces told by chords, each flattened in its own way.
const SAME_BY_CHORDS_MM: f64 = SAME_MM + 2.0 * FLATTENING_MM;

/// Compares sorts that are drawn up again with the record of the first making, and the settings of now with those of then.
pub(crate) fn compare<'a>(
    record: &Record,
    commission: &Commission,
    workshop: &Workshop,
    sorts: impl IntoIterator<Item = &'a Sort>,
) -> Vec<Finding> {
    let mut findings = settings(&record.commission, commission);
    findings.extend(cutters(record, workshop));
    for sort in sorts {
        findings.extend(match record.sort(&sort.name) {
            Some(made) => differs(made, sort, commission.system),
            None => Some(not_recorded(sort)),
        });
    }
    findings
}

fn not_recorded(sort: &Sort) -> Finding {
    Finding {
        severity: Severity::Warning,
        subject: Subject::Sort(sort.name.clone()),
        kind: "not-on-record",
        text: texts::not_on_record(),
        remedy: texts::not_on_record_remedy(),
    }
}

/// What a finding says of a size that was another.
type Another = fn(Said, Said) -> Said;

/// The stop where a sort would not match the one made first.
fn differs(made: &MadeSort, sort: &Sort, system: System) -> Option<Finding> {
    let block = &sort.block;
    let shown = |mm: f64, unit| Length::mm(mm).figures(unit, system);
    let sizes: [(Another, f64, f64); 3] = [
        (texts::another_set, made.set_mm, block.set_mm),
        (texts::another_body, made.body_mm, block.body_mm),
        (
            texts::another_base_line,
            made.baseline_mm,
            block.baseline_mm,
        ),
    ];
    let mut told = Vec::new();
    for (another, was, is) in sizes {
        if !is_within((was - is).abs(), SAME_MM) {
            let both = |mm| texts::two_units(shown(mm, Unit::Millimetre), shown(mm, Unit::Point));
            told.push(another(both(was), both(is)));
        }
    }
    if told.is_empty() && !same_block(&made.block, &block.outline) {
        told.push(texts::another_block());
    }
    let (apart_mm, most_mm) = faces_apart(made, sort);
    if !is_within(apart_mm, most_mm) {
        told.push(match apart_mm.is_finite() {
            true => texts::face_moved(shown(apart_mm, Unit::Millimetre)),
            false => texts::another_face(),
        });
    }
    (!told.is_empty()).then(|| Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(sort.name.clone()),
        kind: "not-as-first-made",
        text: texts::not_as_first_made(Told::list(told, Joint::Semicolon)),
        remedy: texts::not_as_first_made_remedy(),
    })
}

/// Whether a difference is small enough; what is no number is not.
fn is_within(apart_mm: f64, most_mm: f64) -> bool {
    apart_mm <= most_mm
}

fn same_block(was: &[Point], is: &[Point]) -> bool {
    was.len() == is.len()
        && was
            .iter()
            .zip(is)
            .all(|(a, b)| is_within(a.distance(*b), SAME_MM))
}

/// How far the faces lie apart at most, and how far they may.
///
/// Parts that were cut from letters have been recorded by the chords of their faces; those are compared with the chords of now.
fn faces_apart(made: &MadeSort, sort: &Sort) -> (f64, f64) {
    let source = sort.source.as_ref();
    let is_part = source.is_some_and(|source| source.part.is_some());
    if is_part && has_curves(&sort.outline) && !has_curves(&made.outline) {
        let chords = chords_of(&sort.face);
        (apart_by_places(&made.outline, &chords), SAME_BY_CHORDS_MM)
    } else {
        (apart(&made.outline, &sort.outline), SAME_MM)
    }
}

fn has_curves(outline: &BezPath) -> bool {
    let mut elements = outline.elements().iter();
    elements.any(|element| matches!(element, PathEl::QuadTo(..) | PathEl::CurveTo(..)))
}

pub(super) fn chords_of(face: &Region) -> BezPath {
    let mut path = BezPath::new();
    for ring in face.rings() {
        let ends = ring.iter().enumerate().map(|(index, &at)| match index {
            0 => PathEl::MoveTo(at),
            _ => PathEl::LineTo(at),
        });
        path.extend(ends.chain([PathEl::ClosePath]));
    }
    path
}

/// How far two outlines lie apart at most: exactly an upper bound where they are drawn alike, by places along both where not.
/// Infinite where one is empty and the other is not.
fn apart(was: &BezPath, is: &BezPath) -> f64 {
    alike(was, is).unwrap_or_else(|| apart_by_places(was, is))
}

/// How far places along two outlines lie from the other outline at most; infinite where one is empty and the other is not.
fn apart_by_places(was: &BezPath, is: &BezPath) -> f64 {
    let (a, b): (Vec<PathSeg>, Vec<PathSeg>) = (was.segments().collect(), is.segments().collect());
    if a.is_empty() != b.is_empty() {
        return f64::INFINITY;
    }
    furthest(&a, &b).max(furthest(&b, &a))
}

/// The largest distance between points of two outlines drawn with the same elements: no point of the one curve is further from the
/// other. `None` where they are drawn otherwise.
fn alike(was: &BezPath, is: &BezPath) -> Option<f64> {
    if was.elements().len() != is.elements().len() {
        return None;
    }
    let mut most = 0.0_f64;
    for pair in was.elements().iter().zip(is.elements()) {
        let apart = match pair {
            (PathEl::MoveTo(a), PathEl::MoveTo(b)) | (PathEl::LineTo(a), PathEl::LineTo(b)) => {
                a.distance(*b)
            }
            (PathEl::QuadTo(a, b), PathEl::QuadTo(c, d)) => a.distance(*c).max(b.distance(*d)),
            (PathEl::CurveTo(a, b, c), PathEl::CurveTo(d, e, f)) => {
                a.distance(*d).max(b.distance(*e)).max(c.distance(*f))
            }
            (PathEl::ClosePath, PathEl::ClosePath) => 0.0,
            _ => return None,
        };
        most = most.max(apart);
    }
    Some(most)
}

/// Places along each segment that are looked at.
const PLACES: usize = 8;
/// The most pairs of place and segment that are looked at; more are thinned out evenly.
const MOST_PAIRS: usize = 20_000_000;

fn furthest(from: &[PathSeg], to: &[PathSeg]) -> f64 {
    use kurbo::ParamCurve;
    /// Accuracy of a nearest distance, mm: far below the micrometre.
    const ACCURACY_MM: f64 = 1e-6;
    let pairs = (from.len() * PLACES).saturating_mul(to.len());
    let step = pairs.div_ceil(MOST_PAIRS).max(1);
    let mut most = 0.0_f64;
    for segment in from.iter().step_by(step) {
        for place in 0..PLACES {
            let point = segment.eval(place as f64 / PLACES as f64);
            let near = to
                .iter()
                .map(|other| other.nearest(point, ACCURACY_MM).distance_sq)
                .fold(f64::INFINITY, f64::min);
            most = most.max(near.sqrt());
        }
    }
    most
}

/// Keys that say nothing of how a sort comes out.
const IDLE_KEYS: [&str; 10] = [
    "title",
    "reference",
    "customer",
    "date",
    "bill",
    "spaces",
    "borders",
    "planks",
    "replaces",
    "version",
];
/// Keys of a face or drawing that say nothing of it either; a font that was moved is the same font.
const IDLE_KEYS_OF_FILES: [&str; 2] = ["file", "permission"];
/// Keys of a cutter that say what it leaves, not how it is run.
const SHAPE_KEYS: [&str; 6] = [
    "kind",
    "diameter",
    "tip_diameter",
    "included_angle_deg",
    "flute_length",
    "max_depth",
];

fn settings(then: &Commission, now: &Commission) -> Vec<Finding> {
    let mut changes = Vec::new();
    differences(
        "",
        &commission_value(then),
        &commission_value(now),
        &mut changes,
    );
    changes.retain(|change| !is_idle(&change.key));
    let finding = |change: Change| {
        let is_font = change.key.ends_with(".sha256");
        Finding {
            severity: Severity::Warning,
            subject: Subject::Commission,
            kind: if is_font {
                "font-changed-since"
            } else {
                "setting-changed-since"
            },
            text: texts::setting_changed(change.key, change.was, change.is),
            remedy: texts::setting_changed_remedy(),
        }
    };
    changes.into_iter().map(finding).collect()
}

fn is_idle(key: &str) -> bool {
    let first = key.split(['.', '[']).next().unwrap_or_default();
    let is_file = matches!(first, "faces" | "drawings");
    let last = |idle: &str| is_file && key.split('.').nth(1) == Some(idle);
    let is_count = first == "cut_apart" && (key.ends_with(".counts") || key.ends_with(".count"));
    let is_of_plates = key.starts_with("colours.cut") || key.starts_with("colours.counts");
    is_count
        || is_of_plates
        || IDLE_KEYS.contains(&first)
        || IDLE_KEYS_OF_FILES.iter().any(|idle| last(idle))
}

fn cutters(record: &Record, workshop: &Workshop) -> Vec<Finding> {
    let faces = &record.commission.cutting.cutters;
    let mut findings = Vec::new();
    for then in record
        .cutters
        .iter()
        .filter(|then| faces.contains(&then.id))
    {
        let mut changes = Vec::new();
        match workshop.cutter(&then.id) {
            Some(now) => differences("", &cutter_value(then), &cutter_value(now), &mut changes),
            None => continue,
        }
        changes.retain(|change| SHAPE_KEYS.contains(&change.key.as_str()));
        findings.extend(changes.into_iter().map(|change| Finding {
            severity: Severity::Warning,
            subject: Subject::Cutter(then.id.clone()),
            kind: "cutter-changed-since",
            text: texts::cutter_changed(change.key, change.was, change.is),
            remedy: texts::cutter_changed_remedy(),
        }));
    }
    findings
}

/// A setting that was another.
struct Change {
    key: String,
    was: Told,
    is: Told,
}

/// Where two files say something else, key by key.
fn differences(key: &str, was: &Value, is: &Value, changes: &mut Vec<Change>) {
    match (was, is) {
        (Value::Object(a), Value::Object(b)) => {
            let mut keys: Vec<&String> = a.keys().chain(b.keys()).collect();
            keys.sort_unstable();
            keys.dedup();
            for inner in keys {
                let path = if key.is_empty() {
                    inner.clone()
                } else {
                    format!("{key}.{inner}")
                };
                let of = |map: &serde_json::Map<String, Value>| {
                    map.get(inner).cloned().unwrap_or_default()
                };
                differences(&path, &of(a), &of(b), changes);
            }
        }
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            for (place, (a, b)) in a.iter().zip(b).enumerate() {
                differences(&format!("{key}[{place}]"), a, b, changes);
            }
        }
        _ if was == is => {}
        _ => changes.push(Change {
            key: key.to_owned(),
            was: shown(was),
            is: shown(is),
        }),
    }
}

fn shown(value: &Value) -> Told {
    match value {
        Value::Null => texts::not_set().into(),
        Value::String(text) => format!("“{text}”").into(),
        Value::Number(number) => Told::figures(number.as_f64().map_or_else(
            || number.to_string(),
            |number| to_nanometre(number).to_string(),
        )),
        Value::Bool(_) | Value::Array(_) | Value::Object(_) => value.to_string().into(),
    }
}
