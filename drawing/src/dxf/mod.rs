//! DXF files: lines, arcs, circles, ellipses, polylines with bulges, splines and blocks, joined into closed outlines.
//!
//! Such a file holds lines without a fill. Ends that lie within the stated gap are joined, what closes is filled by the even-odd rule (so a
//! ring inside a ring is a counter), and ends that meet nothing are told with their places.
//!
//! Read by our own code, not by a library, since a drawing for wood type needs a dozen of the format's many kinds of records, and hostile files need
//! limits at each step.
//!
//! # Source
//! Autodesk, *DXF Reference*, 2018: group codes, entities, header variables, arbitrary axis algorithm (from memory).

mod curves;
mod entities;
mod join;
mod records;
mod spline;
mod unit;

use std::collections::BTreeSet;

use kurbo::Affine;

use crate::{Drawing, DrawingError, FillRule, Layer, MOST_BYTES, Outline, Reading};

use entities::{Strand, strands};
use join::joined;
use records::{pairs_of, parts};

/// What a binary file begins with.
const BINARY: &[u8] = b"AutoCAD Binary DXF";

/// More layers than this are not offered one by one.
const MOST_LAYERS: usize = 24;

/// Whether bytes begin as a DXF file does: with a pair of group code and value.
pub(crate) fn begins_like_one(bytes: &[u8]) -> bool {
    if bytes.starts_with(BINARY) {
        return true;
    }
    let start = String::from_utf8_lossy(&bytes[..bytes.len().min(1024)]);
    let mut lines = start.trim_start_matches('\u{feff}').lines().map(str::trim);
    matches!(
        (lines.next(), lines.next()),
        (Some("0"), Some("SECTION")) | (Some("999"), Some(_))
    )
}

/// Reads a DXF file.
///
/// Outlines are in millimetres by the file's unit, with the file's own origin. Arcs and splines become cubics within 0.0005 mm.
///
/// # Errors
/// [`DrawingError`]: binary, damaged or too large, with text, not flat, or without any line.
pub fn read(bytes: &[u8], reading: &Reading) -> Result<Drawing, DrawingError> {
    if bytes.len() > MOST_BYTES {
        return Err(DrawingError::TooLarge);
    }
    if bytes.starts_with(BINARY) {
        return Err(DrawingError::BinaryDxf);
    }
    let text = String::from_utf8_lossy(bytes);
    let pairs = pairs_of(&text)?;
    let file = parts(&pairs)?;
    let (mm_per_unit, unit_note) = unit::mm_per_unit(&file);
    let found = strands(&file, mm_per_unit)?;
    let mut notes: Vec<String> = unit_note.into_iter().chain(found.notes).collect();
    let (lines, doubled) = without_doubles(found.strands);
    if lines.is_empty() {
        return Err(DrawingError::Nothing);
    }
    if doubled > 0 {
        notes.push(format!(
            "{doubled} {} drawn twice and taken once.",
            if doubled == 1 {
                "line was"
            } else {
                "lines were"
            }
        ));
    }
    let gap_mm = reading.join_gap_mm.max(0.0);
    let whole = joined(lines.iter(), gap_mm);
    if whole.bridged > 0 {
        notes.push(format!(
            "{} of the ends did not quite meet and were joined; the widest gap was {:.4} mm.",
            whole.bridged, whole.widest_mm
        ));
    }
    let layers = layers(&lines, gap_mm, &mut notes);
    Ok(Drawing {
        whole: Outline {
            path: whole.path,
            rule: FillRule::EvenOdd,
        },
        layers,
        page: None,
        mm_from_source: Affine::scale(mm_per_unit),
        open_ends: whole.open_ends,
        notes,
    })
}

/// The layers, each joined by itself.
fn layers(lines: &[Strand], gap_mm: f64, notes: &mut Vec<String>) -> Vec<Layer> {
    let mut names: Vec<&str> = Vec::new();
    let mut seen = BTreeSet::new();
    for line in lines {
        if seen.insert(line.layer.as_str()) {
            names.push(&line.layer);
        }
    }
    if names.len() > MOST_LAYERS {
        notes.push(format!(
            "The drawing has {} layers; with more than {MOST_LAYERS} they are not offered one by one.",
            names.len()
        ));
        return Vec::new();
    }
    names
        .into_iter()
        .map(|name| Layer {
            name: name.to_owned(),
            outline: Outline {
                path: joined(lines.iter().filter(|line| line.layer == name), gap_mm).path,
                rule: FillRule::EvenOdd,
            },
        })
        .filter(|layer| !layer.outline.is_empty())
        .collect()
}

/// Drops lines that are drawn a second time: under the even-odd rule a doubled ring would fill nothing.
fn without_doubles(strands: Vec<Strand>) -> (Vec<Strand>, usize) {
    let before = strands.len();
    let mut seen = BTreeSet::new();
    let kept: Vec<Strand> = strands
        .into_iter()
        .filter(|strand| seen.insert(strand.print()))
        .collect();
    let doubled = before - kept.len();
    (kept, doubled)
}

#[cfg(test)]
mod tests;
