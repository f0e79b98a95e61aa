//! Planned cuts repeated for each layer.

use geometry::arc_path::ArcPath;
use kurbo::Point;

use crate::pass::bench::{Link, Planned, Way, may_turn_back};
use crate::pass::load::{Feeds, Kept};
use crate::pass::tool::Tool;
use crate::pass::{Cut, Entry, Heights, Purpose};

/// Places nearer than this are the same place, mm.
const SAME_PLACE_MM: f64 = 1e-6;

/// How far a cut goes on at the feed of the slope that led down to it, mm.
const FIRST_MM: f64 = 0.5;

/// All cuts of all layers. Cuts between which the cutter stays down belong together: they go through all layers before the
/// next ones begin, so that whatever a later cut finds cleared is cleared to every depth.
pub(super) fn in_layers(planned: &[Planned], tool: &Tool<'_>) -> Vec<Cut> {
    let mut cuts: Vec<Cut> = Vec::new();
    let groups = planned.chunk_by(|before, after| {
        after.way == Way::Stay
            && before.way != Way::Along
            && before.at_once == after.at_once
            && before.kept.layers == after.kept.layers
    });
    let mut planned_end: Option<Point> = None;
    for group in groups {
        let Some(first) = group.first() else { continue };
        // What was planned from where the cutter would stand holds only if it does stand there: after an even number of
        // layers forth and back it does not, and is lifted.
        let stands = cuts.last().map(|last| last.path.end()).zip(planned_end);
        if first.way == Way::Stay
            && stands.is_some_and(|(end, planned)| end.distance(planned) < SAME_PLACE_MM)
        {
            cuts.extend(first.link.as_ref().and_then(|link| linking(&cuts, link)));
        }
        planned_end = group.last().map(|last| match last.way {
            Way::Along => {
                let slope = tool.slope_round(last.path.length(), last.kept.layers).0;
                last.path.at(slope).0
            }
            Way::Stay | Way::Open | Way::Plunge | Way::Ramp(_) => last.path.end(),
        });
        match group {
            [only] if only.way == Way::Along => round_and_round(only, tool, &mut cuts),
            [only] if turns_back(only, tool) => to_and_fro(only, tool, &mut cuts),
            _ => layer_by_layer(group, tool, &mut cuts),
        }
    }
    cuts
}

fn layer_by_layer(group: &[Planned], tool: &Tool<'_>, cuts: &mut Vec<Cut>) {
    let Some(first) = group.first() else { return };
    for layer in 0..first.kept.layers {
        if layer > 0 {
            cuts.extend(first.back.as_ref().and_then(|link| linking(cuts, link)));
        }
        for (number, cut) in group.iter().enumerate() {
            if number > 0 {
                cuts.extend(cut.link.as_ref().and_then(|link| linking(cuts, link)));
            }
            let entry = match &cut.way {
                // What was planned for a cutter that is down holds at the depth it was planned for.
                Way::Stay if number > 0 => Entry::StayDown,
                Way::Stay | Way::Open => Entry::Open,
                Way::Plunge | Way::Along => Entry::Plunge,
                Way::Ramp(ramp) => Entry::Ramp {
                    path: ramp.clone(),
                    from_depth_mm: depth(cut, layer, tool),
                },
            };
            push(cut, layer, entry, cut.path.clone(), false, tool, cuts);
        }
    }
}

/// Whether the layers of a cut are run forth and back by turns. Walls are climbed, but where they are cut in thin layers.
fn turns_back(cut: &Planned, tool: &Tool<'_>) -> bool {
    let need_not_climb = cut.kept.layers > tool.layers || cut.purpose != Purpose::Finishing;
    !cut.at_once && cut.kept.layers > 1 && need_not_climb && may_turn_back(&cut.path, tool)
}

/// Layer by layer, forth and back by turns.
fn to_and_fro(cut: &Planned, tool: &Tool<'_>, cuts: &mut Vec<Cut>) {
    for layer in 0..cut.kept.layers {
        let back = layer % 2 == 1;
        let path = if back {
            cut.path.reversed()
        } else {
            cut.path.clone()
        };
        let entry = match &cut.way {
            Way::Ramp(ramp) if layer == 0 => Entry::Ramp {
                path: ramp.clone(),
                from_depth_mm: 0.0,
            },
            Way::Stay | Way::Open if !back => Entry::Open,
            Way::Stay | Way::Open | Way::Plunge | Way::Along | Way::Ramp(_) => Entry::Plunge,
        };
        push(cut, layer, entry, path, back, tool, cuts);
    }
}

/// Round after round of a closed path, each sloping down where the one before sloped, so that nothing is cut twice; only the
/// last levels out the slope.
fn round_and_round(cut: &Planned, tool: &Tool<'_>, cuts: &mut Vec<Cut>) {
    let length = cut.path.length();
    let (slope, layers) = tool.slope_round(length, cut.kept.layers);
    let thinner = f64::from(layers) / f64::from(cut.kept.layers);
    let cut = &Planned {
        kept: Kept {
            layers,
            feeds: feeds_from(slope, length, &cut.kept.feeds, thinner),
            back: Feeds::new(),
        },
        ..cut.clone()
    };
    let ramp = cut.path.stretch(0.0, slope);
    let mut rest = cut.path.stretch(slope, length);
    for layer in 0..layers {
        if layer + 1 == layers {
            rest.append(&ramp);
        }
        let entry = Entry::Ramp {
            path: ramp.clone(),
            from_depth_mm: depth(cut, layer, tool),
        };
        push(cut, layer, entry, rest.clone(), false, tool, cuts);
    }
}

/// The feeds along a closed path for a cut that begins so far along it and goes all the way round; in layers that are so much
/// thinner it may be fed as much faster.
///
/// The way down to where it begins runs at the feed of its first stretch, so that is no faster than anywhere on that way.
fn feeds_from(begins: f64, length: f64, feeds: &Feeds, thinner: f64) -> Feeds {
    let faster = |part: f64| (part * thinner).min(1.0);
    let along = || {
        let mut passed = 0.0;
        feeds
            .iter()
            .copied()
            .chain([(length, 1.0)])
            .map(move |(ends, part)| {
                let from = passed;
                passed = ends;
                (from, ends.min(length), faster(part))
            })
    };
    let slope = along().filter(|&(from, ends, _)| from < begins && ends > from);
    let slowest = slope
        .clone()
        .fold(1.0, |least: f64, (_, _, part)| least.min(part));
    let mut shifted = vec![(FIRST_MM.min(length), slowest)];
    let rest = along().filter(|&(_, ends, _)| ends > begins + FIRST_MM);
    shifted.extend(rest.map(|(_, ends, part)| (ends - begins, part)));
    shifted.extend(slope.map(|(_, ends, part)| (ends.min(begins) + length - begins, part)));
    shifted
}

/// A way over cleared ground, at the depth of the last cut.
fn linking(cuts: &[Cut], link: &Link) -> Option<Cut> {
    let last = cuts.last()?;
    Some(Cut {
        entry: Entry::StayDown,
        heights: Heights::Level,
        depth_mm: last.end_depth_mm(),
        path: link.path.clone(),
        feed_mm_min: link.feed_mm_min,
        ..last.clone()
    })
}

/// Depth of the floor after so many layers.
fn depth(planned: &Planned, after: u32, tool: &Tool<'_>) -> f64 {
    if after >= planned.kept.layers {
        tool.depth
    } else {
        tool.depth * f64::from(after) / f64::from(planned.kept.layers)
    }
}

/// Adds one layer of a cut, in as many pieces as it has feeds.
fn push(
    planned: &Planned,
    layer: u32,
    entry: Entry,
    path: ArcPath,
    reversed: bool,
    tool: &Tool<'_>,
    cuts: &mut Vec<Cut>,
) {
    let depth_mm = depth(planned, layer + 1, tool);
    // Thin layers are shown with the ordinary layer that they are part of.
    let shown = (depth_mm * f64::from(tool.layers) / tool.depth - 1e-9)
        .ceil()
        .max(1.0) as u32
        - 1;
    let whole = Cut {
        purpose: planned.purpose,
        layer: shown,
        depth_mm,
        heights: Heights::Level,
        entry,
        path,
        feed_mm_min: tool.cutter.feed_mm_min,
    };
    let slower = if reversed {
        &planned.kept.back
    } else {
        &planned.kept.feeds
    };
    if slower.is_empty() {
        cuts.push(whole);
        return;
    }
    let length = whole.path.length();
    let feeds = slower.iter().copied().chain([(length, 1.0)]);
    let mut begins = 0.0;
    let mut pieces: Vec<(f64, f64, f64)> = Vec::new();
    for (ends, part) in feeds {
        if ends.min(length) > begins {
            pieces.push((begins, ends.min(length), part));
            begins = ends;
        }
    }
    let mut end = whole.path.start;
    for (number, &(from, to, part)) in pieces.iter().enumerate() {
        let mut path = whole.path.stretch(from, to);
        path.start = end;
        end = path.end();
        cuts.push(Cut {
            entry: if number == 0 {
                whole.entry.clone()
            } else {
                Entry::StayDown
            },
            path,
            feed_mm_min: whole.feed_mm_min * part,
            ..whole.clone()
        });
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Round 100 mm from 20 mm on, fed at half its feed for the first 30 mm and at 0.8 of it up to 60 mm.
    #[test]
    fn feeds_go_with_the_places_round_a_path() {
        let feeds = vec![(30.0, 0.5), (60.0, 0.8)];
        let same = feeds_from(20.0, 100.0, &feeds, 1.0);
        assert_eq!(
            same,
            [
                (FIRST_MM, 0.5),
                (10.0, 0.5),
                (40.0, 0.8),
                (80.0, 1.0),
                (100.0, 0.5)
            ]
        );
        let thinner = feeds_from(20.0, 100.0, &feeds, 1.5);
        let parts: Vec<f64> = thinner.iter().map(|&(_, part)| part).collect();
        assert_eq!(parts, [0.75, 0.75, 1.0, 1.0, 0.75]);
    }

    /// The way down is as slow as its slowest place, and what follows it for a little as well.
    #[test]
    fn a_slope_is_fed_as_slowly_as_any_of_its_places() {
        let feeds = vec![(5.0, 0.4), (15.0, 0.6)];
        let found = feeds_from(20.0, 100.0, &feeds, 1.0);
        let slope = [(85.0, 0.4), (95.0, 0.6), (100.0, 1.0)];
        assert_eq!(found[0], (FIRST_MM, 0.4));
        assert_eq!(found[1], (80.0, 1.0));
        assert_eq!(found[2..], slope);
    }
}
