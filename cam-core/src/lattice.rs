//! The shortest way over free ground, looked for on a square lattice of places.
//!
//! # Source
//! The place with the least way so far and straight on to the end comes next: P. E. Hart, N. J. Nilsson and B. Raphael, 1968 (from memory).

use std::cmp::Ordering;
use std::collections::{BTreeMap, BinaryHeap};

use kurbo::{Point, Vec2};

/// Lattice spacings within which the way leaves the lattice for its end.
const NEAR: f64 = 1.5;

/// Ways that differ by less are equally long, mm.
const NOISE_MM: f64 = 1e-9;

/// A place of the lattice.
pub(crate) type Node = (i32, i32);

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

/// A square lattice.
#[derive(Clone, Copy)]
pub(crate) struct Lattice {
    /// Where its place (0, 0) lies.
    pub origin: Point,
    /// From each place to the next, mm.
    pub spacing: f64,
}

impl Lattice {
    /// Where a place lies.
    pub fn place(self, (x, y): Node) -> Point {
        self.origin + Vec2::new(f64::from(x), f64::from(y)) * self.spacing
    }

    /// The four places around a point.
    pub fn around(self, at: Point) -> [Node; 4] {
        let arm = (at - self.origin) / self.spacing;
        let (x, y) = (arm.x.floor() as i32, arm.y.floor() as i32);
        [(x, y), (x + 1, y), (x, y + 1), (x + 1, y + 1)]
    }

    /// The eight places beside one, each with where it lies.
    pub fn beside(self, (x, y): Node) -> impl Iterator<Item = (Node, Point)> {
        NEIGHBOURS.into_iter().map(move |(dx, dy)| {
            let node = (x + dx, y + dy);
            (node, self.place(node))
        })
    }
}

/// From where a place was reached.
#[derive(Clone, Copy)]
enum Before {
    Start(usize),
    Node(Node),
}

/// A place to be looked at next; the one with the least estimate comes first.
#[derive(PartialEq)]
struct Open {
    estimate: f64,
    node: Node,
}

impl Eq for Open {}

impl Ord for Open {
    fn cmp(&self, other: &Open) -> Ordering {
        other
            .estimate
            .total_cmp(&self.estimate)
            .then(other.node.cmp(&self.node))
    }
}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Open) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// A search for the shortest way to a point.
pub(crate) struct Search {
    lattice: Lattice,
    to: Point,
    longest: f64,
    /// How far it is to each place that was reached, and from where.
    known: BTreeMap<Node, (f64, Before)>,
    open: BinaryHeap<Open>,
}

impl Search {
    /// For a way no longer than `longest`, mm.
    pub fn new(lattice: Lattice, to: Point, longest: f64) -> Search {
        Search {
            lattice,
            to,
            longest,
            known: BTreeMap::new(),
            open: BinaryHeap::new(),
        }
    }

    /// A way may begin at a place, which is `passed` mm from the start with this number, if `is_reached` says so.
    pub fn begin(
        &mut self,
        node: Node,
        passed: f64,
        start: usize,
        is_reached: impl FnOnce() -> bool,
    ) {
        if self.known.get(&node).is_none_or(|known| passed < known.0) {
            self.reach(node, passed, Before::Start(start), is_reached);
        }
    }

    /// The number of the start and the points of the way from its first place of the lattice to the end; `None` if there is none, or none
    /// was found among `most` places. `may_step` tells whether the cutter may go from a point to the place beside it, `may_end` whether it
    /// may go from a point to the end.
    pub fn find(
        mut self,
        most: usize,
        mut may_step: impl FnMut(Point, Node, Point) -> bool,
        may_end: impl Fn(Point) -> bool,
    ) -> Option<(usize, Vec<Point>)> {
        let Lattice { spacing, .. } = self.lattice;
        for _ in 0..most {
            let Open { node, estimate } = self.open.pop()?;
            let at = self.lattice.place(node);
            let passed = self.known[&node].0;
            if passed + at.distance(self.to) + NOISE_MM < estimate {
                continue;
            }
            if at.distance(self.to) <= spacing * NEAR && may_end(at) {
                return Some(self.way_to(node));
            }
            for (next, there) in self.lattice.beside(node) {
                let passed = passed + at.distance(there);
                let known = self.known.get(&next);
                if known.is_none_or(|known| passed < known.0 - NOISE_MM) {
                    self.reach(next, passed, Before::Node(node), || {
                        may_step(at, next, there)
                    });
                }
            }
        }
        None
    }

    fn reach(
        &mut self,
        node: Node,
        passed: f64,
        before: Before,
        is_reached: impl FnOnce() -> bool,
    ) {
        let estimate = passed + self.lattice.place(node).distance(self.to);
        if estimate <= self.longest && is_reached() {
            self.known.insert(node, (passed, before));
            self.open.push(Open { estimate, node });
        }
    }

    fn way_to(&self, mut node: Node) -> (usize, Vec<Point>) {
        let mut points = vec![self.to];
        // Bound: each place was reached from one nearer to the start.
        let start = loop {
            points.push(self.lattice.place(node));
            match self.known[&node].1 {
                Before::Node(before) => node = before,
                Before::Start(start) => break start,
            }
        };
        points.reverse();
        (start, points)
    }
}

/// The corners of a way through points after the first, with all that can be cut short left out; `None` where a step of it may not be taken.
pub(crate) fn cut_short(
    points: &[Point],
    may_pass: impl Fn(Point, Point) -> bool,
) -> Option<Vec<Point>> {
    let mut corners = Vec::new();
    let mut at = 0;
    // Bound: every round goes on by one point at least.
    while at + 1 < points.len() {
        at = (at + 1..points.len())
            .rev()
            .find(|&next| may_pass(points[at], points[next]))?;
        corners.push(points[at]);
    }
    Some(corners)
}

#[cfg(test)]
mod tests {
    use super::*;

    const LATTICE: Lattice = Lattice {
        origin: Point::new(0.0, 0.0),
        spacing: 1.0,
    };

    /// Whether a step stays clear of a wall from (5, −3) upward.
    fn is_clear(from: Point, to: Point) -> bool {
        let crosses = (from.x - 5.0) * (to.x - 5.0) <= 0.0 && from.x != to.x;
        let part = (5.0 - from.x) / (to.x - from.x);
        !crosses || from.y + part * (to.y - from.y) < -3.0
    }

    fn found(longest: f64, most: usize) -> Option<(usize, Vec<Point>)> {
        let to = Point::new(10.0, 0.0);
        let mut search = Search::new(LATTICE, to, longest);
        // The second start is further back, the third may not begin.
        search.begin((0, 0), 0.0, 0, || true);
        search.begin((0, 0), 2.0, 1, || true);
        search.begin((8, 0), 0.0, 2, || false);
        search.find(
            most,
            |from, _, there| is_clear(from, there),
            |from| is_clear(from, to),
        )
    }

    #[test]
    fn the_way_goes_round_a_wall_and_is_cut_short() {
        let (start, points) = found(100.0, 10_000).expect("a way below the wall");
        assert_eq!(start, 0);
        assert_eq!(points.first(), Some(&Point::ZERO));
        assert_eq!(points.last(), Some(&Point::new(10.0, 0.0)));
        let corners = cut_short(&points, is_clear).expect("all of it may be passed");
        assert!(corners.len() < points.len() - 1, "{corners:?}");
        let mut all = vec![Point::ZERO];
        all.extend(corners);
        assert!(all.windows(2).all(|step| is_clear(step[0], step[1])));
    }

    #[test]
    fn ways_too_long_and_searches_too_wide_are_given_up() {
        assert!(found(11.0, 10_000).is_none());
        assert!(found(100.0, 5).is_none());
        let blocked = [Point::ZERO, Point::new(10.0, 0.0)];
        assert_eq!(cut_short(&blocked, is_clear), None);
    }
}
