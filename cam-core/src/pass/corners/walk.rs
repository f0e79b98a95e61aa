//! The way of the tip through grooves that hang together: into every branch, back only where there is more to cut.

use kurbo::Point;

use super::grooves::{Groove, Line};
use crate::cone::Cone;

/// A longer way back through a cut groove is made by lifting and moving rapidly, mm.
const LONGEST_WAY_BACK_MM: f64 = 4.0;

/// By how much less wide at the face a line may be than the places it leaves out, mm: a part of the usual tolerance.
const NARROWER_MM: f64 = 0.001;

/// By how much wider, which the distance kept from the walls allows for, mm.
pub(super) const WIDER_MM: f64 = 0.0003;

/// The most places that one line leaves out: a bound on the search for them.
const MOST_LEFT_OUT: usize = 64;

/// A place of the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    pub(super) at: Point,
    /// Depth below the face, mm; negative where the ground is narrower than the tip.
    pub(super) depth: f64,
}

impl Place {
    /// Where a line from here to another place passes a depth between the two.
    pub(super) fn at_depth(&self, other: &Place, depth: f64) -> Place {
        let part = ((depth - self.depth) / (other.depth - self.depth)).clamp(0.0, 1.0);
        Place {
            at: self.at.lerp(other.at, part),
            depth,
        }
    }
}

/// Where a run begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Begins {
    /// In ground cleared by the cutter before.
    AtMouth,
    /// In a groove that an earlier run has cut.
    InGroove,
    /// In the wood.
    InWood,
}

/// Places that the tip goes through without lifting.
#[derive(Clone, Debug)]
pub(super) struct Run {
    pub(super) begins: Begins,
    pub(super) places: Vec<Place>,
}

/// The runs through a groove, no deeper than `floor`.
pub(super) fn runs(groove: &Groove, floor: f64) -> Vec<Run> {
    let Some(root) = groove.root_number() else {
        return Vec::new();
    };
    let leaving = leaving(groove);
    let mut used = vec![false; groove.lines.len()];
    let node = &groove.nodes[root];
    let begins = if node.is_mouth {
        Begins::AtMouth
    } else {
        Begins::InWood
    };
    let mut run = Run {
        begins,
        places: vec![node.place],
    };
    let mut runs = Vec::new();
    // The lines by which the tip came to where it is, each with the node it left.
    let mut trail: Vec<(usize, usize)> = Vec::new();
    let mut at = root;
    // Bound: each round goes along a line not used before, or ends.
    loop {
        let onward = leaving[at].iter().copied().find(|&line| !used[line]);
        if let Some(line) = onward {
            used[line] = true;
            let (places, to) = from_node(&groove.lines[line], at);
            run.places.extend(places.into_iter().skip(1));
            trail.push((line, at));
            at = to;
            continue;
        }
        let mut back: Vec<Place> = Vec::new();
        let mut found = false;
        while let Some((line, from)) = trail.pop() {
            let (places, _) = from_node(&groove.lines[line], at);
            back.extend(places.into_iter().skip(1));
            at = from;
            if leaving[at].iter().any(|&line| !used[line]) {
                found = true;
                break;
            }
        }
        if !found {
            break;
        }
        let length: f64 = back
            .windows(2)
            .map(|pair| pair[0].at.distance(pair[1].at))
            .sum();
        if length > LONGEST_WAY_BACK_MM {
            runs.push(run);
            run = Run {
                begins: if groove.nodes[at].is_mouth {
                    Begins::AtMouth
                } else {
                    Begins::InGroove
                },
                places: vec![groove.nodes[at].place],
            };
        } else {
            run.places.extend(back);
        }
    }
    runs.push(run);
    for run in &mut runs {
        run.places = no_deeper(&run.places, floor.max(0.0));
    }
    runs
}

/// The same way, on the level where it would go deeper.
fn no_deeper(places: &[Place], floor: f64) -> Vec<Place> {
    let mut level: Vec<Place> = Vec::with_capacity(places.len());
    let mut before: Option<&Place> = None;
    for place in places {
        if let Some(before) = before
            && (before.depth > floor) != (place.depth > floor)
        {
            level.push(before.at_depth(place, floor));
        }
        level.push(Place {
            depth: place.depth.clamp(0.0, floor),
            ..*place
        });
        before = Some(place);
    }
    level
}

/// The numbers of the lines at each node, shallow ends first, so that the longest way is left for last more often than not.
fn leaving(groove: &Groove) -> Vec<Vec<usize>> {
    let mut leaving = vec![Vec::new(); groove.nodes.len()];
    for (number, line) in groove.lines.iter().enumerate() {
        for end in line.ends {
            leaving[end].push(number);
        }
    }
    leaving
}

/// A line's places from one of its nodes on, and the node it leads to.
fn from_node(line: &Line, node: usize) -> (Vec<Place>, usize) {
    let mut places = line.places.clone();
    if line.ends[0] == node {
        (places, line.ends[1])
    } else {
        places.reverse();
        (places, line.ends[0])
    }
}

/// The places without those that a straight line passes as well: within [`NARROWER_MM`] and [`WIDER_MM`] at the face.
pub(super) fn straightened(places: &[Place], cone: &Cone) -> Vec<Place> {
    let mut kept: Vec<Place> = places.first().copied().into_iter().collect();
    let mut from = 0;
    // Bound: each round goes on by one place at least.
    while from + 1 < places.len() {
        let most = (from + MOST_LEFT_OUT).min(places.len() - 1);
        let mut to = from + 1;
        while to < most && passes(&places[from..=to + 1], cone) {
            to += 1;
        }
        kept.push(places[to]);
        from = to;
    }
    kept
}

/// Whether the line from the first to the last place may stand for those between.
fn passes(places: &[Place], cone: &Cone) -> bool {
    let [first, between @ .., last] = places else {
        return false;
    };
    let way = last.at - first.at;
    let length2 = way.hypot2();
    if length2 == 0.0 {
        return false;
    }
    let mut before = 0.0;
    between.iter().all(|place| {
        let part = (place.at - first.at).dot(way) / length2;
        let forward = part >= before && part <= 1.0;
        before = part;
        let off = place.at.distance(first.at.lerp(last.at, part));
        let told = first.depth + (last.depth - first.depth) * part;
        let wider = cone.slope * (told - place.depth);
        forward && wider + off <= WIDER_MM && off - wider <= NARROWER_MM
    })
}
