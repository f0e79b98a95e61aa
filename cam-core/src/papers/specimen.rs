//! The specimen: the fount set in lines as it prints, true to size where a line of it fits the page.

use kurbo::{Affine, Rect};

use super::PaperParts;
use super::drawing::{Drawing, RULE, ring};
use super::plates;
use super::quote::described;
use super::sheet::{Figure, Piece, Sheet};
use super::sorts::{Kind, faces, ink, layers, letter_name, letters, reading_from_face};
use super::words::mm;
use crate::sort::Sort;

/// Between lines, mm on the paper.
const BETWEEN_MM: f64 = 1.0;
/// Scales where true size does not fit: one to so many.
const SMALLER: [f64; 5] = [2.0, 3.0, 4.0, 5.0, 10.0];

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let printing: Vec<&Sort> = parts
        .sorts
        .iter()
        .map(AsRef::as_ref)
        .filter(|sort| Kind::of(sort) != Kind::Spaces)
        .collect();
    if printing.is_empty() {
        return None;
    }
    let field = parts.field();
    let [width, height] = [field.whole_mm(), field.high_mm()];
    let fits = |one_to: f64| {
        printing.iter().all(|sort| {
            sort.block.set_mm / one_to <= width && sort.block.body_mm / one_to <= height / 2.0
        })
    };
    let one_to = if fits(1.0) {
        1.0
    } else {
        let last = SMALLER[SMALLER.len() - 1];
        SMALLER
            .into_iter()
            .find(|&one_to| fits(one_to))
            .unwrap_or(last)
    };
    let mut facts = parts.order_facts();
    facts.extend(described(parts));
    facts.push((
        "Shown",
        if one_to == 1.0 {
            "true to size when printed without scaling, block against block".to_owned()
        } else {
            format!("1 : {one_to} when printed without scaling, block against block")
        },
    ));
    let mut pieces = Vec::new();
    for group in letters(parts.sorts, &faces(parts)) {
        let sorts: Vec<&Sort> = group
            .sorts
            .iter()
            .map(|&place| parts.sorts[place].as_ref())
            .filter(|sort| !sort.block.plain)
            .collect();
        if sorts.is_empty() {
            continue;
        }
        pieces.push(Piece::heading(group.name));
        for line in lines(&sorts, width * one_to) {
            pieces.push(Piece::Drawing(set(parts, line, one_to)));
        }
    }
    pieces.push(Piece::text(format!(
        "Letters are shown as drawn. Corners of the ground that stay rounder than {} mm on the blocks are cut out by hand.",
        mm(parts.commission.cutting.corner_tolerance.in_mm())
    )));
    pieces.extend(plates::told(parts));
    Some(Sheet {
        file: "specimen",
        name: "Specimen",
        facts,
        pieces,
        as_text: false,
    })
}

/// The sorts in as few lines as can be, no wider than so much, and about equally long.
fn lines<'a>(sorts: &'a [&'a Sort], width: f64) -> Vec<&'a [&'a Sort]> {
    let fewest = filled(sorts, width).len();
    // The least width that needs no more lines, to half a millimetre.
    let (mut low, mut high) = (0.0, width);
    while high - low > 0.5 {
        let middle = f64::midpoint(low, high);
        if filled(sorts, middle).len() > fewest {
            low = middle;
        } else {
            high = middle;
        }
    }
    filled(sorts, high)
}

/// The sorts in lines no wider than so much, each line as full as can be; a wider sort has a line of its own.
fn filled<'a>(sorts: &'a [&'a Sort], width: f64) -> Vec<&'a [&'a Sort]> {
    let mut lines = Vec::new();
    let (mut from, mut used) = (0, 0.0);
    for (place, sort) in sorts.iter().enumerate() {
        if place > from && used + sort.block.set_mm > width {
            lines.push(&sorts[from..place]);
            (from, used) = (place, 0.0);
        }
        used += sort.block.set_mm;
    }
    lines.push(&sorts[from..]);
    lines
}

/// A line of blocks on one base line, with the edges of the blocks as fine rules, and how many there are of each; of letters in colours all
/// plates, each over those printed before it.
fn set(parts: &PaperParts, line: &[&Sort], one_to: f64) -> Figure {
    let above = line
        .iter()
        .map(|sort| sort.block.body_mm - sort.block.baseline_mm)
        .fold(0.0, f64::max);
    let below = line
        .iter()
        .map(|sort| sort.block.baseline_mm)
        .fold(0.0, f64::max);
    let width: f64 = line.iter().map(|sort| sort.block.set_mm).sum();
    let air = 0.2 * one_to;
    let mut drawing =
        Drawing::new(Rect::new(0.0, -below, width, above + BETWEEN_MM * one_to).inflate(air, air));
    let mut x = 0.0;
    let mut counts = Vec::new();
    for sort in line {
        let to_line = Affine::translate((x, -sort.block.baseline_mm)) * reading_from_face(sort);
        let edge = sort.block.outline.iter().map(|&at| to_line * at);
        drawing.line(ring(edge), RULE, 0.1);
        for layer in layers(parts.sorts, sort) {
            drawing.fill(to_line * layer.outline.clone(), ink(layer));
        }
        counts.push(format!("{} {}", letter_name(sort), sort.count));
        x += sort.block.set_mm;
    }
    Figure {
        drawing,
        scale: 1.0 / one_to,
        words: vec![counts.join("  ·  ")],
        told: String::new(),
    }
}
