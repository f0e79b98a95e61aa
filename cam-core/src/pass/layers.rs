//! Planned cuts repeated for each layer.

use geometry::arc_path::ArcPath;

use crate::pass::bench::{Planned, Way};
use crate::pass::tool::Tool;
use crate::pass::{Cut, Entry, Heights};

/// All cuts of all layers. Cuts between which the cutter stays down belong together: they go through all layers before the
/// next ones begin, so that whatever a later cut finds cleared is cleared to every depth.
pub(super) fn in_layers(planned: &[Planned], tool: &Tool<'_>) -> Vec<Cut> {
    let mut cuts: Vec<Cut> = Vec::new();
    for group in
        planned.chunk_by(|before, after| after.way == Way::Stay && before.at_once == after.at_once)
    {
        let Some(first) = group.first() else { continue };
        let layers = if first.at_once { 1 } else { tool.layers };
        for layer in 0..layers {
            if layer > 0 && first.back {
                cuts.extend(back(&cuts, tool));
            }
            let begins = cuts.len();
            cuts.extend(group.iter().map(|cut| one(cut, layer, layers, tool)));
            let is_down = begins > 0 && cuts[begins - 1].depth_mm == cuts[begins].depth_mm;
            // What was planned for a cutter that is down holds at the depth it was planned for.
            if cuts[begins].entry == Entry::StayDown && !is_down {
                cuts[begins].entry = Entry::Open;
            }
        }
    }
    cuts
}

/// The way back over cleared ground from the end of the last cut to the start of its layer.
fn back(cuts: &[Cut], tool: &Tool<'_>) -> Option<Cut> {
    let last = cuts.last()?;
    let first = cuts.iter().rev().find(|cut| cut.entry != Entry::StayDown)?;
    let start = match &first.entry {
        Entry::Ramp { path, .. } => path.start,
        Entry::Open | Entry::Plunge | Entry::StayDown => first.path.start,
    };
    Some(Cut {
        entry: Entry::StayDown,
        path: ArcPath::line(last.path.end(), start),
        feed_mm_min: tool.feed(false),
        ..last.clone()
    })
}

fn one(planned: &Planned, layer: u32, layers: u32, tool: &Tool<'_>) -> Cut {
    let above = tool.depth * f64::from(layer) / f64::from(layers);
    let mut path = planned.path.clone();
    let entry = match &planned.way {
        Way::Stay => Entry::StayDown,
        Way::Open => Entry::Open,
        Way::Plunge => Entry::Plunge,
        Way::Ramp(ramp) => Entry::Ramp {
            path: ramp.clone(),
            from_depth_mm: above,
        },
        Way::Along => {
            let (ramp, rest) = sloping_on(&planned.path, tool.ramp_length(), layer);
            path = rest;
            Entry::Ramp {
                path: ramp,
                from_depth_mm: above,
            }
        }
    };
    Cut {
        purpose: planned.purpose,
        layer: if planned.at_once {
            tool.layers - 1
        } else {
            layer
        },
        depth_mm: if layer + 1 == layers {
            tool.depth
        } else {
            tool.depth * f64::from(layer + 1) / f64::from(layers)
        },
        heights: Heights::Level,
        entry,
        path,
        feed_mm_min: tool.feed(planned.full_width),
    }
}

/// The slope of a layer along a closed path, and the round after it: each layer slopes on from where the one above ended.
pub(super) fn sloping_on(closed: &ArcPath, slope: f64, layer: u32) -> (ArcPath, ArcPath) {
    let length = closed.length();
    let from = (slope * f64::from(layer)) % length;
    let ramp = round(&closed.started_at(from), slope);
    (ramp, closed.started_at((from + slope) % length))
}

/// The most rounds of one slope: a thousand turns of the smallest loop.
const MOST_ROUNDS: f64 = 1000.0;

/// So much of a closed path, round and round from its start.
fn round(closed: &ArcPath, wanted: f64) -> ArcPath {
    let length = closed.length().max(wanted / MOST_ROUNDS);
    let mut path = ArcPath::starting_at(closed.start);
    for _ in 0..(wanted / length).floor() as usize {
        path.append(closed);
    }
    path.append(&closed.stretch(0.0, wanted % length));
    path
}
