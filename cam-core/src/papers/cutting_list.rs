//! The cutting list: how each plank comes apart on the saw by straight cuts, rows first, then blocks.
//!
//! The kerf is to be as wide as the lane. Every fence setting is a measure of wood to be kept: between fence and blade.

use std::collections::BTreeMap;

use super::words::{heading, mm, paragraph};
use super::{PaperParts, cautions, text_file};
use crate::commission::Separation;
use crate::make::OutputFile;
use crate::plank::{Place, Plank};
use crate::sort::Sort;

/// Blocks whose places or sizes differ by less than this are cut with one setting, mm.
const SAME_MM: f64 = 0.005;

pub fn write(parts: &PaperParts) -> Vec<OutputFile> {
    match parts.commission.planks.separation {
        Separation::Router { .. } => return Vec::new(),
        Separation::Saw => {}
    }
    let lane = parts.job.lane_mm;
    let mut text = format!("Cutting list: {}\n\n", parts.commission.title);
    text += &paragraph(
        "",
        &format!(
            "Use a blade whose kerf is {} mm, the lane between blocks; measure it in a trial cut. With another kerf every block after the first in a row comes out wrong.",
            mm(lane)
        ),
        0,
    );
    text += &paragraph(
        "",
        "Fence settings are the wood kept between fence and blade. Keep the edge named first against the fence, face up. Cut all rows off a plank before cutting blocks from any row.",
        0,
    );
    for plank in parts.planks {
        text += &one_plank(parts, plank, lane);
    }
    text += &heading("Cautions");
    text += &cautions::cautions();
    vec![text_file("cutting-list.txt", text)]
}

/// A block on the plank, seen from above.
struct Placed<'a> {
    place: &'a Place,
    sort: &'a Sort,
}

impl Placed<'_> {
    fn left(&self) -> f64 {
        self.place.at.x
    }

    fn low(&self) -> f64 {
        self.place.at.y
    }
}

fn one_plank(parts: &PaperParts, plank: &Plank, lane: f64) -> String {
    let mut text = heading(&format!("Plank {}", plank.id));
    let rows = rows(parts, plank);
    let mut cut_off = 0.0;
    for (number, row) in (1..).zip(&rows) {
        let Some(first) = row.first() else { continue };
        text += &format!("Row {number}, {} blocks\n", row.len());
        // The waste before the row goes first, then the row itself; y counts from the plank's near edge.
        let waste = first.low() - lane - cut_off;
        text += &format!(
            "  rip along x: near edge to the fence, take off {} mm of waste, then set the fence to {} mm and rip the row off\n",
            mm(waste.max(0.0)),
            mm(first.sort.block.body_mm)
        );
        cut_off = first.low() + first.sort.block.body_mm + lane;
        text += &crosscuts(row, lane);
    }
    text
}

/// The cuts along one row: its blocks from left to right, like ones together.
fn crosscuts(row: &[Placed], lane: f64) -> String {
    let mut text = String::new();
    let mut cut_off = 0.0;
    let mut index = 0;
    while index < row.len() {
        let first = &row[index];
        let waste = first.left() - lane - cut_off;
        if waste > SAME_MM {
            text += &format!("  crosscut: take off {} mm of waste\n", mm(waste));
        }
        let set = first.sort.block.set_mm;
        let alike = 1 + row[index + 1..]
            .iter()
            .zip(&row[index..])
            .take_while(|(next, before)| {
                let follows = next.left() - (before.left() + set + lane);
                (next.sort.block.set_mm - set).abs() < SAME_MM && follows.abs() < SAME_MM
            })
            .count();
        let ids: Vec<&str> = row[index..index + alike]
            .iter()
            .map(|placed| placed.place.id.as_str())
            .collect();
        text += &paragraph(
            "  ",
            &format!(
                "crosscut: fence at {} mm, {alike} {}: {}",
                mm(set),
                if alike == 1 { "block" } else { "blocks" },
                ids.join(", ")
            ),
            6,
        );
        let last = &row[index + alike - 1];
        cut_off = last.left() + set + lane;
        index += alike;
    }
    text
}

/// The blocks of a plank in rows from near to far, each from left to right. A row is of one body, as planks are laid out.
fn rows<'a>(parts: &PaperParts<'a>, plank: &'a Plank) -> Vec<Vec<Placed<'a>>> {
    let mut rows: BTreeMap<(i64, i64), Vec<Placed>> = BTreeMap::new();
    for place in &plank.places {
        let Some(sort) = parts.sorts.get(place.sort) else {
            continue;
        };
        let key = (
            (place.at.y / SAME_MM).round() as i64,
            (sort.block.body_mm / SAME_MM).round() as i64,
        );
        rows.entry(key).or_default().push(Placed { place, sort });
    }
    rows.into_values()
        .map(|mut row| {
            row.sort_by(|a, b| a.left().total_cmp(&b.left()));
            row
        })
        .collect()
}
