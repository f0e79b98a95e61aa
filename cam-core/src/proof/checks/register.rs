//! All layers of a letter in colours lie on blocks alike, in the same place of them; and what shows where the press is out of register.

use std::collections::BTreeMap;

use geometry::boolean::{difference, intersection, union_all};
use geometry::grown::{grown, moved};
use geometry::region::Region;
use kurbo::Vec2;
use rayon::prelude::*;
use said::Value;

use super::super::bench::Bench;
use super::super::copies::Copy;
use super::super::report;
use crate::finding::{Finding, Severity, Subject, texts};
use crate::job_file::JobRegister;
use crate::progress::Stopped;

/// Blocks and faces of one letter may differ by no more, mm: a micrometre.
const ALIKE_MM: f64 = 0.001;

/// Ways in which a plate is thought to be out of register.
const WAYS: u32 = 16;

/// Chords of grown areas, mm.
const CHORD_MM: f64 = 0.001;

/// Slivers of less show nothing, mm²: a dot of a tenth of a millimetre. Common practice, no source, as the next.
const LEAST_MM2: f64 = 0.01;

/// Slivers that are thinner show nothing, mm.
const LEAST_WIDTH_MM: f64 = 0.01;

/// A letter in colours: a glyph of a font, or a drawing by what all of its layers are called.
type Letter<'a> = (&'a str, Option<u16>);

/// The letter that a sort prints one layer of; `None` of what is in one colour.
fn letter_of<'a>(copy: &Copy<'a>) -> Option<Letter<'a>> {
    let layer = copy.sort.layer.as_deref()?;
    match (&copy.sort.font, copy.sort.glyph, &copy.sort.art) {
        (Some(font), Some(glyph), _) => Some((font, Some(glyph))),
        (_, _, Some(art)) => {
            let drawing = art.strip_suffix(&format!(" ({layer})"));
            Some((drawing.unwrap_or(art), None))
        }
        _ => None,
    }
}

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut letters: BTreeMap<Letter, Vec<&Copy>> = BTreeMap::new();
    for copy in &bench.stock.copies {
        if let Some(letter) = letter_of(copy) {
            letters.entry(letter).or_default().push(copy);
        }
    }
    if letters.is_empty() {
        return Ok(Vec::new());
    }
    let Some(register) = &bench.job.register else {
        return Ok(vec![report::stop(
            Subject::Commission,
            "job-plates-unclear",
            texts::plates_unclear(),
            texts::do_not_run(),
        )]);
    };
    let mut findings: Vec<Finding> = letters
        .values()
        .flat_map(|copies| unlike(copies, register))
        .collect();
    let all: Vec<&Vec<&Copy>> = letters.values().collect();
    let shows = all
        .par_iter()
        .map(|copies| {
            bench.progress.check()?;
            Ok(slivers(bench, copies, register))
        })
        .collect::<Result<Vec<Vec<Sliver>>, Stopped>>()?;
    findings.extend(told(shows.into_iter().flatten().collect(), register));
    Ok(findings)
}

/// Copies that name no plate, or whose block or face lies otherwise than that of the letter's first copy.
fn unlike(copies: &[&Copy], register: &JobRegister) -> Vec<Finding> {
    let Some(first) = copies.first() else {
        return Vec::new();
    };
    let why = |copy: &Copy| {
        let (id, other) = (&copy.sort.id, &first.sort.id);
        let layer = copy.sort.layer.as_deref().unwrap_or_default();
        if !register.plates.iter().any(|plate| plate.name == layer) {
            return Some(texts::layer_of_no_plate(id, layer));
        }
        if !same_face(first, copy) {
            return Some(texts::layer_of_other_size(id, other));
        }
        let apart_mm = apart(first, copy);
        (apart_mm > ALIKE_MM).then(|| match apart_mm.is_finite() {
            true => texts::layer_elsewhere(id, Value::rounded(apart_mm, 3), other),
            false => texts::layer_otherwise(id, other),
        })
    };
    let found = copies.iter().filter_map(|copy| {
        Some(report::stop(
            Subject::Sort(copy.sort.id.clone()),
            "layers-unlike",
            why(copy)?,
            texts::make_again(),
        ))
    });
    found.collect()
}

/// Whether both faces have the same size.
fn same_face(one: &Copy, other: &Copy) -> bool {
    let size = |copy: &Copy| {
        let coefficients = copy.sort.source_to_plank.unwrap_or_default();
        [0, 1, 2, 3].map(|place| coefficients[place])
    };
    size(one) == size(other)
}

/// How far the corners of two blocks lie apart at most, seen from where the letter begins; infinite if they have not as many.
fn apart(one: &Copy, other: &Copy) -> f64 {
    if one.block.len() != other.block.len() {
        return f64::INFINITY;
    }
    let corners = one.block.iter().zip(&other.block);
    corners
        .map(|(&a, &b)| (a - one.shift).distance(b - other.shift))
        .fold(0.0, f64::max)
}

/// What shows between two plates of a letter at the worst.
struct Sliver<'a> {
    letter: &'a str,
    lower: usize,
    upper: usize,
    area_mm2: f64,
    width_mm: f64,
}

/// What shows between each two plates of a letter, where one is out of register by as much as the press may be.
fn slivers<'a>(bench: &Bench<'a>, copies: &[&Copy<'a>], register: &JobRegister) -> Vec<Sliver<'a>> {
    let far = register.misregister_mm;
    let faces: Vec<(usize, &'a str, &Region)> = register
        .plates
        .iter()
        .enumerate()
        .filter_map(|(order, plate)| {
            let copy = copies
                .iter()
                .find(|copy| copy.sort.layer.as_ref() == Some(&plate.name))?;
            let shape = &bench.stock.shapes[copy.shape?];
            Some((order, copy.sort.text.as_str(), &shape.letter))
        })
        .collect();
    let mut found = Vec::new();
    for (place, &(lower, letter, under)) in faces.iter().enumerate() {
        let after: Vec<Region> = faces[place + 1..]
            .iter()
            .map(|face| face.2.clone())
            .collect();
        let alone = difference(under, &union_all(&after));
        let Ok(near) = grown(&alone, far, CHORD_MM) else {
            continue;
        };
        for &(upper, _, over) in &faces[place + 1..] {
            let others: Vec<Region> = faces
                .iter()
                .filter(|face| face.0 != upper)
                .map(|face| face.2.clone())
                .collect();
            let at_risk = difference(&intersection(&near, over), &union_all(&others));
            if at_risk.area() < LEAST_MM2 {
                continue;
            }
            let worst = (0..WAYS)
                .map(|way| {
                    let angle = std::f64::consts::TAU * f64::from(way) / f64::from(WAYS);
                    difference(&at_risk, &moved(over, Vec2::from_angle(angle) * far))
                })
                .max_by(|a, b| a.area().total_cmp(&b.area()));
            found.extend(worst.and_then(|shown| {
                let (area_mm2, width_mm) = (shown.area(), width(&shown));
                (area_mm2 >= LEAST_MM2 && width_mm >= LEAST_WIDTH_MM).then_some(Sliver {
                    letter,
                    lower,
                    upper,
                    area_mm2,
                    width_mm,
                })
            }));
        }
    }
    found
}

/// Mean width of a thin region: twice its area for the length of its edge.
fn width(region: &Region) -> f64 {
    let around = region.perimeter();
    if around > 0.0 {
        2.0 * region.area() / around
    } else {
        0.0
    }
}

/// One warning for each two plates between which paper shows, with the letter where it shows most.
fn told(slivers: Vec<Sliver>, register: &JobRegister) -> Vec<Finding> {
    let mut pairs: BTreeMap<(usize, usize), Vec<Sliver>> = BTreeMap::new();
    for sliver in slivers {
        pairs
            .entry((sliver.lower, sliver.upper))
            .or_default()
            .push(sliver);
    }
    let found = pairs.into_iter().filter_map(|((lower, upper), slivers)| {
        let worst = slivers
            .iter()
            .max_by(|a, b| a.area_mm2.total_cmp(&b.area_mm2))?;
        let name = |order: usize| register.plates.get(order).map_or("", |plate| &plate.name);
        let (plate, below, letter) = (name(upper), name(lower), worst.letter);
        let hundredths = |value| Value::rounded(value, 2);
        let press = hundredths(register.misregister_mm);
        let (width, area) = (hundredths(worst.width_mm), hundredths(worst.area_mm2));
        Some(Finding {
            severity: Severity::Warning,
            subject: Subject::Commission,
            kind: "plates-part",
            text: match slivers.len() - 1 {
                0 => texts::plates_part(plate, press.clone(), below, letter, width, area),
                more => {
                    let press = press.clone();
                    texts::plates_part_further(plate, press, below, letter, width, area, more)
                }
            },
            remedy: texts::plates_part_remedy(press, hundredths(register.trap_mm)),
        })
    });
    found.collect()
}
