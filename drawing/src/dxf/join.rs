//! Joining ends that meet, or nearly do, into rings.

use std::collections::BTreeMap;

use kurbo::{BezPath, PathEl, Point};

use super::entities::Strand;
use crate::OpenEnd;

/// Ends nearer than this are one place whatever the gap, in millimetres.
const SAME_MM: f64 = 1e-6;
/// How many ends are paired with each, and looked at in each cell around it, so that a heap of ends in one place costs no more.
const MOST_NEAR: usize = 64;
const MOST_LOOKED_AT: usize = 512;

/// The rings of a drawing.
#[derive(Debug, Default)]
pub(super) struct Joined {
    /// All closed rings.
    pub path: BezPath,
    pub open_ends: Vec<OpenEnd>,
    /// How many joins bridge a gap, and the widest of them in millimetres.
    pub bridged: usize,
    pub widest_mm: f64,
}

/// An end of a strand: its number is twice the strand's, and one more at the strand's end.
type End = usize;

/// Joins strands whose ends lie at most `gap_mm` apart, the nearest first.
pub(super) fn joined<'a>(strands: impl Iterator<Item = &'a Strand>, gap_mm: f64) -> Joined {
    let mut joined = Joined::default();
    let mut open: Vec<&Strand> = Vec::new();
    for strand in strands {
        if strand.is_closed {
            joined.path.extend(strand.path.elements().iter().copied());
            joined.path.push(PathEl::ClosePath);
        } else {
            open.push(strand);
        }
    }
    let places: Vec<Point> = open
        .iter()
        .flat_map(|strand| [strand.start(), strand.end()])
        .collect();
    let partner = pair_up(&places, gap_mm.max(SAME_MM), &mut joined);
    follow(&open, &places, &partner, &mut joined);
    joined
}

/// Which end each end is joined to.
fn pair_up(places: &[Point], gap_mm: f64, joined: &mut Joined) -> Vec<Option<End>> {
    let cell = |place: Point| {
        (
            (place.x / gap_mm).floor() as i64,
            (place.y / gap_mm).floor() as i64,
        )
    };
    let mut cells: BTreeMap<(i64, i64), Vec<End>> = BTreeMap::new();
    for (end, &place) in places.iter().enumerate() {
        cells.entry(cell(place)).or_default().push(end);
    }
    let mut pairs: Vec<(f64, End, End)> = Vec::new();
    for (end, &place) in places.iter().enumerate() {
        let (column, row) = cell(place);
        let around = (-1..=1).flat_map(|across| {
            (-1..=1).map(move |up| (column.saturating_add(across), row.saturating_add(up)))
        });
        let near = around
            .filter_map(|cell| cells.get(&cell))
            .flat_map(|ends| ends.iter().take(MOST_LOOKED_AT))
            .copied()
            .filter(|&other| other > end && places[other].distance(place) <= gap_mm)
            .take(MOST_NEAR);
        pairs.extend(near.map(|other| (places[other].distance(place), end, other)));
    }
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.cmp(&b.2)));
    let mut partner: Vec<Option<End>> = vec![None; places.len()];
    for (distance, a, b) in pairs {
        if partner[a].is_none() && partner[b].is_none() {
            (partner[a], partner[b]) = (Some(b), Some(a));
            if distance > SAME_MM {
                joined.bridged += 1;
                joined.widest_mm = joined.widest_mm.max(distance);
            }
        }
    }
    partner
}

/// Follows joined strands to rings; what does not close is told by its ends.
fn follow(strands: &[&Strand], places: &[Point], partner: &[Option<End>], joined: &mut Joined) {
    let mut used = vec![false; strands.len()];
    let mut open_ends = Vec::new();
    // First from ends that meet nothing: their chains are open. What is left after them are rings.
    for (end, met) in partner.iter().enumerate() {
        if met.is_none() {
            open_ends.push(end);
            if !used[end / 2] {
                walk(strands, partner, end, &mut used);
            }
        }
    }
    for first in 0..strands.len() {
        if !used[first] {
            let ring = walk(strands, partner, first * 2, &mut used);
            joined.path.extend(ring);
            joined.path.push(PathEl::ClosePath);
        }
    }
    joined.open_ends = open_ends
        .iter()
        .map(|&end| OpenEnd {
            at: places[end],
            gap_mm: open_ends
                .iter()
                .take(MOST_TOLD)
                .filter(|&&other| other != end)
                .map(|&other| places[other].distance(places[end]))
                .min_by(f64::total_cmp),
        })
        .collect();
}

/// Open ends among which the nearest is looked for; a drawing with more is not one to be mended end by end.
const MOST_TOLD: usize = 2_000;

/// The path from one end through all that is joined to it, until it is back or ends.
fn walk(strands: &[&Strand], partner: &[Option<End>], from: End, used: &mut [bool]) -> BezPath {
    let mut path = BezPath::new();
    let mut at = Some(from);
    while let Some(end) = at {
        let strand = end / 2;
        if used[strand] {
            break;
        }
        used[strand] = true;
        let is_forward = end % 2 == 0;
        let piece = if is_forward {
            strands[strand].path.clone()
        } else {
            strands[strand].path.reverse_subpaths()
        };
        let mut elements = piece.elements().iter().copied();
        match (elements.next(), path.is_empty()) {
            (Some(PathEl::MoveTo(start)), true) => path.push(PathEl::MoveTo(start)),
            (Some(PathEl::MoveTo(start)), false) => {
                let last = path.elements().last().and_then(PathEl::end_point);
                if last.is_none_or(|last| last.distance(start) > 0.0) {
                    path.push(PathEl::LineTo(start));
                }
            }
            _ => {}
        }
        path.extend(elements);
        let far_end = if is_forward { end + 1 } else { end - 1 };
        at = partner[far_end];
    }
    path
}
