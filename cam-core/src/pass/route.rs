//! Ways over cleared ground from one cut to the next, found on a lattice.

use std::collections::{BTreeMap, BinaryHeap};

use geometry::arc_path::{ArcPath, ArcStep};
use kurbo::{Point, Vec2};

use crate::pass::bench::Bench;

/// Spacing of the lattice, in radii of the cutter.
const LATTICE: f64 = 1.0 / 3.0;

/// The most places of the lattice looked at for one way.
const MOST_PLACES: usize = 6000;

/// A place of the lattice.
type Node = (i32, i32);

/// The places reached so far: how far it is to each, and from which it was reached.
type Known = BTreeMap<Node, (f64, Node)>;

/// A place to be looked at next; the one with the least estimate comes first.
#[derive(PartialEq)]
struct Open {
    estimate: f64,
    node: Node,
}

impl Eq for Open {}

impl Ord for Open {
    fn cmp(&self, other: &Open) -> std::cmp::Ordering {
        other
            .estimate
            .total_cmp(&self.estimate)
            .then(other.node.cmp(&self.node))
    }
}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Open) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

/// A way of straight lines from here to there over cleared ground, if one is known that takes no longer than lifting.
pub(super) fn route(bench: &Bench<'_>, from: Point, to: Point) -> Option<ArcPath> {
    let most = bench.longest_link(from, to);
    let spacing = bench.tool.radius * LATTICE;
    let place = |(x, y): Node| from + Vec2::new(f64::from(x), f64::from(y)) * spacing;
    let limit = bench.tool.limit;
    let mut known: Known = BTreeMap::new();
    let mut open = BinaryHeap::new();
    known.insert((0, 0), (0.0, (0, 0)));
    open.push(Open {
        estimate: from.distance(to),
        node: (0, 0),
    });
    let mut looked_at = 0;
    while let Some(Open { node, estimate }) = open.pop() {
        looked_at += 1;
        if looked_at > MOST_PLACES || estimate > most {
            return None;
        }
        let at = place(node);
        let (passed, _) = known[&node];
        if passed + at.distance(to) + 1e-9 < estimate {
            continue;
        }
        if at.distance(to) <= spacing * 1.5 && bench.may_pass(at, to, limit) {
            return straightened(bench, &back(&known, node), place, to);
        }
        for (dx, dy) in NEIGHBOURS {
            let next = (node.0 + dx, node.1 + dy);
            let there = place(next);
            let passed = passed + at.distance(there);
            let nearer = known
                .get(&next)
                .is_none_or(|&(known, _)| passed < known - 1e-9);
            if nearer && passed + there.distance(to) <= most && bench.may_pass(at, there, limit) {
                known.insert(next, (passed, node));
                open.push(Open {
                    estimate: passed + there.distance(to),
                    node: next,
                });
            }
        }
    }
    None
}

const NEIGHBOURS: [Node; 8] = [
    (1, 0),
    (0, 1),
    (-1, 0),
    (0, -1),
    (1, 1),
    (-1, 1),
    (-1, -1),
    (1, -1),
];

/// The nodes from the first to this one.
fn back(known: &Known, mut node: Node) -> Vec<Node> {
    let mut nodes = vec![node];
    // Bound: each node was reached from one nearer to the first.
    while let Some(&(_, before)) = known.get(&node).filter(|_| node != (0, 0)) {
        node = before;
        nodes.push(node);
    }
    nodes.reverse();
    nodes
}

/// The way with all corners left out that can be cut short.
fn straightened(
    bench: &Bench<'_>,
    nodes: &[Node],
    place: impl Fn(Node) -> Point,
    to: Point,
) -> Option<ArcPath> {
    let mut corners: Vec<Point> = nodes.iter().map(|&node| place(node)).collect();
    corners.push(to);
    let mut way = ArcPath::starting_at(*corners.first()?);
    let mut at = 0;
    // Bound: every round goes on by one corner at least.
    while at + 1 < corners.len() {
        let mut next = corners.len() - 1;
        while next > at + 1 && !bench.may_pass(corners[at], corners[next], bench.tool.limit) {
            next -= 1;
        }
        way.steps.push(ArcStep::Line { to: corners[next] });
        at = next;
    }
    Some(way)
}
