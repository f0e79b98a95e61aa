//! The grooves that a cone cuts: centre lines with the depth of the tip.

use geometry::medial_axis::{Clear, Rest};

use super::NOISE_MM;
use super::walk::Place;
use crate::cone::Cone;

/// Where grooves end or meet.
#[derive(Clone, Debug)]
pub(super) struct Node {
    pub(super) place: Place,
    /// Whether the ground here is cleared by the cutter before.
    pub(super) is_mouth: bool,
}

/// A stretch of groove between two nodes.
#[derive(Clone, Debug)]
pub(super) struct Line {
    pub(super) ends: [usize; 2],
    /// Both ends among them.
    pub(super) places: Vec<Place>,
}

/// All grooves of a sort.
#[derive(Clone, Debug, Default)]
pub(super) struct Grooves {
    nodes: Vec<Node>,
    lines: Vec<Line>,
}

/// Grooves that hang together.
#[derive(Clone, Debug)]
pub(super) struct Groove {
    pub(super) nodes: Vec<Node>,
    pub(super) lines: Vec<Line>,
}

impl Grooves {
    /// Grooves along the centre lines, as far as the ground is wider than the tip.
    pub(super) fn of(rest: &Rest, cone: &Cone, safety: f64) -> Grooves {
        let place = |clear: &Clear| Place {
            at: clear.at,
            depth: cone.depth_for(clear.clearance - safety).min(cone.deepest),
        };
        let mut grooves = Grooves {
            nodes: rest
                .nodes
                .iter()
                .map(|node| Node {
                    place: place(&node.place),
                    is_mouth: node.is_mouth,
                })
                .collect(),
            lines: rest
                .lines
                .iter()
                .map(|line| Line {
                    ends: line.ends,
                    places: line.places.iter().map(place).collect(),
                })
                .collect(),
        };
        grooves = grooves.deeper_than(0.0);
        grooves
    }

    /// What lies at or below a depth; lines end where they come up to it.
    fn deeper_than(self, depth: f64) -> Grooves {
        let mut nodes = Vec::new();
        let mut numbers = Vec::with_capacity(self.nodes.len());
        for node in self.nodes {
            let keeps = node.place.depth >= depth;
            numbers.push(keeps.then_some(nodes.len()));
            if keeps {
                nodes.push(node);
            }
        }
        let mut lines = Vec::new();
        for line in &self.lines {
            for (places, [from, to]) in below(line, depth) {
                let (Some(&first), Some(&last)) = (places.first(), places.last()) else {
                    continue;
                };
                let mut end = |known: bool, node: usize, place: Place| match numbers[node] {
                    Some(number) if known => number,
                    Some(_) | None => {
                        nodes.push(Node {
                            place,
                            is_mouth: false,
                        });
                        nodes.len() - 1
                    }
                };
                let ends = [end(from, line.ends[0], first), end(to, line.ends[1], last)];
                lines.push(Line { ends, places });
            }
        }
        Grooves { nodes, lines }
    }

    /// The grooves that hang together, in the order of their first nodes.
    pub(super) fn parts(self) -> Vec<Groove> {
        let mut first: Vec<usize> = (0..self.nodes.len()).collect();
        let root = |first: &mut Vec<usize>, mut at: usize| {
            // Each step leads to a smaller number, so this ends.
            while first[at] != at {
                first[at] = first[first[at]];
                at = first[at];
            }
            at
        };
        for line in &self.lines {
            let [a, b] = line.ends.map(|end| root(&mut first, end));
            first[a.max(b)] = a.min(b);
        }
        let mut parts: Vec<Groove> = Vec::new();
        let mut part_of = vec![usize::MAX; self.nodes.len()];
        let mut number_in = vec![0; self.nodes.len()];
        for (index, node) in self.nodes.into_iter().enumerate() {
            let own = root(&mut first, index);
            if own == index {
                part_of[index] = parts.len();
                parts.push(Groove {
                    nodes: Vec::new(),
                    lines: Vec::new(),
                });
            }
            part_of[index] = part_of[own];
            let part = &mut parts[part_of[own]];
            number_in[index] = part.nodes.len();
            part.nodes.push(node);
        }
        for mut line in self.lines {
            let part = part_of[line.ends[0]];
            line.ends = line.ends.map(|end| number_in[end]);
            parts[part].lines.push(line);
        }
        // A mouth that nothing leads from needs no cutting.
        parts.retain(|part| !part.lines.is_empty() || !part.has_mouth());
        parts
    }
}

impl Groove {
    pub(super) fn has_mouth(&self) -> bool {
        self.nodes.iter().any(|node| node.is_mouth)
    }

    /// The number of the node where it is entered: a mouth, or else the deepest.
    pub(super) fn root_number(&self) -> Option<usize> {
        let mouth = self.nodes.iter().position(|node| node.is_mouth);
        mouth.or_else(|| {
            let depth = |&number: &usize| self.nodes[number].place.depth;
            (0..self.nodes.len()).reduce(|best, other| {
                if depth(&other) > depth(&best) {
                    other
                } else {
                    best
                }
            })
        })
    }

    pub(super) fn root(&self) -> Option<Place> {
        self.root_number().map(|number| self.nodes[number].place)
    }

    pub(super) fn deepest(&self) -> f64 {
        self.places().map(|place| place.depth).fold(0.0, f64::max)
    }

    /// The height of wood that the cone meets at the most, mm, where discs of the cutter before have cleared the mouths.
    ///
    /// The tip itself meets none while it is within such a disc; further out its edge is higher.
    pub(super) fn deepest_bite(&self, cone: &Cone, before: f64) -> f64 {
        let mouths: Vec<Place> = self
            .nodes
            .iter()
            .filter(|node| node.is_mouth)
            .map(|node| node.place)
            .collect();
        self.places()
            .map(|place| {
                let inside = mouths
                    .iter()
                    .map(|mouth| before - mouth.at.distance(place.at))
                    .fold(0.0, f64::max);
                place.depth - cone.depth_for(inside).max(0.0)
            })
            .fold(0.0, f64::max)
    }

    fn places(&self) -> impl Iterator<Item = &Place> {
        self.nodes
            .iter()
            .map(|node| &node.place)
            .chain(self.lines.iter().flat_map(|line| &line.places))
    }

    /// What lies below a depth, in parts that hang together.
    pub(super) fn deeper_than(&self, depth: f64) -> Vec<Groove> {
        let all = Grooves {
            nodes: self.nodes.clone(),
            lines: self.lines.clone(),
        };
        let mut parts = all.deeper_than(depth + NOISE_MM).parts();
        parts.retain(|part| part.deepest() > depth + 2.0 * NOISE_MM);
        parts
    }
}

/// The stretches of a line at or below a depth, each with whether it goes to the line's own start and end.
fn below(line: &Line, depth: f64) -> Vec<(Vec<Place>, [bool; 2])> {
    let mut found: Vec<(Vec<Place>, [bool; 2])> = Vec::new();
    let mut open: Option<(Vec<Place>, bool)> = None;
    let last = line.places.len().saturating_sub(1);
    for (index, &place) in line.places.iter().enumerate() {
        let before = index.checked_sub(1).map(|before| line.places[before]);
        let is_below = place.depth >= depth;
        match (&mut open, is_below) {
            (Some((places, _)), true) => places.push(place),
            (None, true) => {
                let mut places = Vec::new();
                places.extend(before.map(|before| before.at_depth(&place, depth)));
                places.push(place);
                open = Some((places, index == 0));
            }
            (Some(_), false) => {
                if let (Some((mut places, starts)), Some(before)) = (open.take(), before) {
                    places.push(before.at_depth(&place, depth));
                    found.push((places, [starts, false]));
                }
            }
            (None, false) => {}
        }
        if index == last
            && let Some((places, starts)) = open.take()
        {
            found.push((places, [starts, true]));
        }
    }
    found.retain(|(places, _)| places.len() > 1);
    found
}
