//! Planned cuts repeated for each layer.

use geometry::arc_path::ArcPath;

use crate::pass::bench::{Planned, Way};
use crate::pass::tool::Tool;
use crate::pass::{Cut, Entry};

/// All cuts of all layers. Cuts between which the cutter stays down belong together: they go through all layers before the
/// next ones begin, so that whatever a later cut finds cleared is cleared to every depth.
pub(super) fn in_layers(planned: &[Planned], tool: &Tool<'_>) -> Vec<Cut> {
    let mut cuts = Vec::new();
    for group in
        planned.chunk_by(|before, after| after.way == Way::Stay && before.at_once == after.at_once)
    {
        let at_once = group.first().is_some_and(|first| first.at_once);
        let layers = if at_once { 1 } else { tool.layers };
        for layer in 0..layers {
            for cut in group {
                cuts.push(one(cut, layer, layers, tool));
            }
        }
    }
    cuts
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
