//! The letter's corners on the ground's side, judged by the largest disc that comes close enough.

use kurbo::{Point, Vec2};

use super::Corner;
use crate::diagram::{Diagram, NONE, Shape, Side, Wall, steps};
use crate::grid::STEPS_PER_MM;

/// Joints that turn by less than this, in degrees, are looked at only as part of their curve: curves of more than 3 mm radius
/// flattened within a micrometre have such joints, and no cutter of ours is stopped by them.
const LEAST_TURN_DEG: f64 = 1.0;

/// Joints that turn by less than this, in degrees, may be chords of one curve; sharper ones stand alone.
const CURVE_TURN_DEG: f64 = 30.0;

/// A curve whose joints together turn by less than this, in degrees, is no corner.
const LEAST_CORNER_DEG: f64 = 5.0;

/// Neighbouring joints of a curve have largest discs that waver by so much of their radius; a true second corner differs more.
const WAVER: f64 = 0.03;

/// Steps of the search for the place on an edge where the tolerance is just met: 2⁻⁴⁰ of the edge.
const HALVINGS: u32 = 40;

/// A convex joint of the ground's walls.
#[derive(Clone, Copy, Debug)]
struct Joint {
    /// The segment that ends in it.
    segment: u32,
    /// By how much the wall turns there, radians.
    turn: f64,
    /// The largest disc within the tolerance, grid steps.
    largest: f64,
}

pub(super) fn corners(diagram: &Diagram, tolerance: f64) -> Vec<Corner> {
    let tolerance = steps(tolerance);
    if !(tolerance > 0.0 && tolerance.is_finite()) {
        return Vec::new();
    }
    let joints = joints(diagram, tolerance);
    let mut found: Vec<(u32, Corner)> = Vec::new();
    for walk in &diagram.walls.walks {
        for run in runs(diagram, walk, &joints, tolerance) {
            found.extend(
                hardest_of_run(diagram, &run, tolerance)
                    .into_iter()
                    .map(|(joint, angle)| (joint.segment, reported(diagram, joint, angle))),
            );
        }
    }
    found = without_neighbours(found, 2.0 * tolerance / STEPS_PER_MM);
    found.sort_by_key(|&(segment, _)| {
        let site = diagram.walls.corner_at_end(segment);
        (site.ring, site.index)
    });
    found.into_iter().map(|(_, corner)| corner).collect()
}

fn reported(diagram: &Diagram, joint: Joint, angle: f64) -> Corner {
    Corner {
        at: diagram.mm(diagram.walls.segments[joint.segment as usize].b),
        angle,
        largest_radius: joint.largest / STEPS_PER_MM,
    }
}

/// The letter's convex joints, by the segment that ends there.
fn joints(diagram: &Diagram, tolerance: f64) -> Vec<Option<Joint>> {
    let mut search = Search::new(diagram);
    let mut joints = vec![None; diagram.walls.segments.len()];
    for (index, edge) in (0_u32..).zip(&diagram.edges) {
        let starts_at_wall = edge.side == Side::Ground
            && edge.primary
            && edge.origin != NONE
            && diagram.vertices[edge.origin as usize].side == Side::Wall;
        let sites = (
            diagram.shape_of(edge.cell),
            diagram.shape_of(diagram.edges[(index ^ 1) as usize].cell),
        );
        let (Shape::Line(_, along), Shape::Line(_, onward)) = sites else {
            continue;
        };
        // Its cell, on its left, is that of the segment that ends in the corner.
        let segment = diagram.cells[edge.cell as usize].segment;
        let turn = along.cross(onward).atan2(along.dot(onward));
        let wall = diagram.walls.segments[segment as usize].site.wall;
        if starts_at_wall && wall == Wall::Letter && turn >= LEAST_TURN_DEG.to_radians() {
            let corner = diagram.walls.segments[segment as usize].b;
            joints[segment as usize] = Some(Joint {
                segment,
                turn,
                largest: search.largest(corner, edge.origin, tolerance),
            });
        }
    }
    joints
}

/// The joints of one walk in runs of neighbours: chords of one curve, or closer than twice the tolerance.
fn runs(
    diagram: &Diagram,
    walk: &[u32],
    joints: &[Option<Joint>],
    tolerance: f64,
) -> Vec<Vec<Joint>> {
    let curve = CURVE_TURN_DEG.to_radians();
    let linked = |from: &Joint, to: &Joint| {
        let between = &diagram.walls.segments[to.segment as usize];
        diagram.walls.segments[from.segment as usize].next == to.segment
            && ((from.turn < curve && to.turn < curve) || between.length <= 2.0 * tolerance)
    };
    let mut runs: Vec<Vec<Joint>> = Vec::new();
    for joint in walk.iter().filter_map(|&segment| joints[segment as usize]) {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|last| linked(last, &joint)) => run.push(joint),
            _ => runs.push(vec![joint]),
        }
    }
    // The walk comes round: its last run may go on in its first.
    if runs.len() > 1 {
        let joins = match (
            runs.last().and_then(|run| run.last()),
            runs.first().and_then(|run| run.first()),
        ) {
            (Some(last), Some(first)) => linked(last, first),
            (None, _) | (_, None) => false,
        };
        if joins && let Some(mut last) = runs.pop() {
            last.append(&mut runs[0]);
            runs[0] = last;
        }
    }
    runs
}

/// The tightest places of a run, each with the angle of the ground there.
///
/// From the hardest joint on, a corner takes in its neighbours as long as the discs grow; what is left over may hold further ones.
fn hardest_of_run(diagram: &Diagram, run: &[Joint], tolerance: f64) -> Vec<(Joint, f64)> {
    let mut by_hardness: Vec<usize> = (0..run.len()).collect();
    by_hardness.sort_by(|&a, &b| run[a].largest.total_cmp(&run[b].largest).then(a.cmp(&b)));
    let mut taken = vec![false; run.len()];
    let mut found = Vec::new();
    for &hardest in &by_hardness {
        if taken[hardest] {
            continue;
        }
        let grows = |from: usize, to: usize| run[to].largest >= run[from].largest * (1.0 - WAVER);
        let (mut low, mut high) = (hardest, hardest);
        while low > 0 && !taken[low - 1] && grows(low, low - 1) {
            low -= 1;
        }
        while high + 1 < run.len() && !taken[high + 1] && grows(high, high + 1) {
            high += 1;
        }
        let is_shoulder = (low > 0 && taken[low - 1]) || (high + 1 < run.len() && taken[high + 1]);
        taken[low..=high].fill(true);
        // What lies beside a corner already found and only grows towards it is that corner's own flank.
        if is_shoulder && low == high {
            continue;
        }
        let middle = middle_of_plateau(run, hardest, low, high);
        let turn = turn_about(diagram, run, middle, low, high, tolerance);
        if turn >= LEAST_CORNER_DEG.to_radians() {
            found.push((run[middle], (std::f64::consts::PI - turn).max(0.0)));
        }
    }
    found
}

/// Of joints as hard as the hardest, side by side, the one in the middle.
fn middle_of_plateau(run: &[Joint], hardest: usize, low: usize, high: usize) -> usize {
    let level = run[hardest].largest * (1.0 + WAVER);
    let (mut first, mut last) = (hardest, hardest);
    while first > low && run[first - 1].largest <= level {
        first -= 1;
    }
    while last < high && run[last + 1].largest <= level {
        last += 1;
    }
    let curve = CURVE_TURN_DEG.to_radians();
    if run[hardest].turn >= curve {
        hardest
    } else {
        usize::midpoint(first, last)
    }
}

/// By how much the walls turn in a corner.
fn turn_about(
    diagram: &Diagram,
    run: &[Joint],
    middle: usize,
    low: usize,
    high: usize,
    tolerance: f64,
) -> f64 {
    let curve = CURVE_TURN_DEG.to_radians();
    if run[middle].turn < curve {
        return run[low..=high].iter().map(|joint| joint.turn).sum();
    }
    // A sharp corner, or a rounding of few sharp joints, with whatever curves run into it.
    let at = |joint: &Joint| diagram.walls.segments[joint.segment as usize].b;
    let beside: f64 = run[low..=high]
        .iter()
        .filter(|joint| joint.segment != run[middle].segment && joint.turn >= curve)
        .filter(|joint| at(joint).distance(at(&run[middle])) <= 2.0 * tolerance)
        .map(|joint| joint.turn)
        .sum();
    if beside > 0.0 {
        run[middle].turn + beside
    } else {
        turn_of_tangents(diagram, run[middle].segment)
    }
}

/// The turn at the end of a segment, between the tangents of the curves that its neighbours are chords of.
///
/// A chord leaves its arc's end by half of what the arc turns along it; the next joint tells how much that is.
fn turn_of_tangents(diagram: &Diagram, segment: u32) -> f64 {
    let segments = &diagram.walls.segments;
    let into = &segments[segment as usize];
    let out = &segments[into.next as usize];
    let before = &segments[diagram.walls.before(segment) as usize];
    let after = &segments[out.next as usize];
    let angle = |from: Vec2, to: Vec2| from.cross(to).atan2(from.dot(to));
    let bend = |end: f64, beyond: f64, joint: f64| {
        let is_curve =
            joint.abs() < CURVE_TURN_DEG.to_radians() / 2.0 && end <= MOST_UNLIKE * beyond;
        if is_curve {
            joint * end / (end + beyond)
        } else {
            0.0
        }
    };
    let chords = angle(into.direction, out.direction);
    let bend_in = bend(
        into.length,
        before.length,
        angle(before.direction, into.direction),
    );
    let bend_out = bend(
        out.length,
        after.length,
        angle(out.direction, after.direction),
    );
    // Curves that bend on towards the corner sharpen it less than their chords say.
    (chords - bend_in - bend_out).clamp(0.0, std::f64::consts::PI)
}

/// Chords of one curve differ in length by less than this factor; a straight line that runs into a curve is longer.
const MOST_UNLIKE: f64 = 4.0;

/// Of corners closer together than `apart` (mm), the hardest.
fn without_neighbours(mut found: Vec<(u32, Corner)>, apart: f64) -> Vec<(u32, Corner)> {
    found.sort_by(|(a, one), (b, other)| {
        one.largest_radius
            .total_cmp(&other.largest_radius)
            .then(a.cmp(b))
    });
    let mut kept: Vec<(u32, Corner)> = Vec::with_capacity(found.len());
    for (segment, corner) in found {
        if kept
            .iter()
            .all(|(_, known)| known.at.distance(corner.at) > apart)
        {
            kept.push((segment, corner));
        }
    }
    kept
}

/// The climb along the ground's centre lines from a corner to the largest disc that still comes close enough to it.
struct Search<'a> {
    diagram: &'a Diagram,
    /// Half-edges by the vertex that they start from.
    leaving: Vec<u32>,
    starts: Vec<u32>,
    /// The last search that came to each vertex.
    seen: Vec<u32>,
    number: u32,
    pending: Vec<u32>,
}

impl<'a> Search<'a> {
    fn new(diagram: &'a Diagram) -> Search<'a> {
        let count = diagram.vertices.len();
        let is_axis = |edge: &crate::diagram::Edge| {
            edge.side == Side::Ground && edge.primary && edge.origin != NONE
        };
        let mut starts = vec![0_u32; count + 1];
        for edge in diagram.edges.iter().filter(|edge| is_axis(edge)) {
            starts[edge.origin as usize + 1] += 1;
        }
        for vertex in 0..count {
            starts[vertex + 1] += starts[vertex];
        }
        let mut free = starts.clone();
        let mut leaving = vec![0; starts[count] as usize];
        for (index, edge) in (0_u32..).zip(&diagram.edges) {
            if is_axis(edge) {
                let slot = &mut free[edge.origin as usize];
                leaving[*slot as usize] = index;
                *slot += 1;
            }
        }
        Search {
            diagram,
            leaving,
            starts,
            seen: vec![0; count],
            number: 0,
            pending: Vec::new(),
        }
    }

    /// The largest clearance, in grid steps, among the places on the centre lines, joined to the corner's vertex by such places,
    /// whose disc comes within the tolerance of the corner.
    fn largest(&mut self, corner: Point, vertex: u32, tolerance: f64) -> f64 {
        self.number += 1;
        self.pending.clear();
        self.pending.push(vertex);
        self.seen[vertex as usize] = self.number;
        let mut best = 0.0_f64;
        // Each vertex is taken up once.
        while let Some(at) = self.pending.pop() {
            let range = self.starts[at as usize] as usize..self.starts[at as usize + 1] as usize;
            for slot in range {
                let edge = self.leaving[slot];
                let end = self.diagram.end_of(edge);
                if end == NONE || self.seen[end as usize] == self.number {
                    continue;
                }
                let to = &self.diagram.vertices[end as usize];
                if to.at.distance(corner) - to.clearance <= tolerance {
                    self.seen[end as usize] = self.number;
                    self.pending.push(end);
                    best = best.max(to.clearance);
                } else if to.clearance > best {
                    // Along an edge the clearance is greatest at its ends, so only a rising one can better the best.
                    best = best.max(self.last_within(edge, corner, tolerance));
                }
            }
        }
        best
    }

    /// The clearance at the last place along an edge within the tolerance.
    fn last_within(&self, edge: u32, corner: Point, tolerance: f64) -> f64 {
        let (mut within, mut beyond) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let part = f64::midpoint(within, beyond);
            let (at, clearance) = self.diagram.along_edge(edge, part);
            if at.distance(corner) - clearance <= tolerance {
                within = part;
            } else {
                beyond = part;
            }
        }
        self.diagram.along_edge(edge, within).1
    }
}
