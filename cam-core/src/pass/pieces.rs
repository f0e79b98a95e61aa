//! The separate pieces of a cutter's work on a sort: pockets that it cannot leave at depth, and in a pocket places that lie far from
//! one another. Each is cut from beginning to end before the next, and only as deep as is asked for in it.

use std::collections::BTreeMap;

use kurbo::Point;

use crate::forest::Forest;
use crate::pass::curve::Curve;
use crate::pass::entry::inside;
use crate::pass::finishing::Own;
use crate::pass::tool::Tool;
use crate::raster::Raster;
use crate::relief::ReliefMap;

/// The most pockets told apart, and the most pieces of one pocket: with hundreds of islands the rest is one piece.
const MOST_POCKETS: usize = 24;
const MOST_PIECES: usize = 16;

/// Depths of pieces are rounded up to this, mm, so that there are not too many of them to keep account of.
const DEPTH_STEP_MM: f64 = 0.05;

/// Where the cutter can go without lifting, had it cleared all.
#[derive(Clone, Debug, Default)]
pub(super) struct Pocket {
    /// The finishing curves around and in it.
    pub(super) walls: Vec<Curve>,
    /// The outermost of them; empty where pockets are not told apart.
    outer: Vec<Point>,
}

impl Pocket {
    /// Whether a curve on which the cutter may run lies in this pocket.
    pub(super) fn holds(&self, curve: &Curve) -> bool {
        let middle = || {
            let piece = curve.pieces.get(curve.pieces.len() / 2)?;
            Some(piece.from.midpoint(piece.to))
        };
        self.outer.is_empty() || middle().is_some_and(|at| inside(&self.outer, at))
    }
}

/// What is to be done in one piece.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) pocket: Pocket,
    /// Ground to be cleared.
    pub(super) todo: Raster,
    /// Wall to be finished.
    pub(super) own: Vec<Own>,
    /// The greatest depth asked for, mm.
    pub(super) depth: f64,
}

impl Piece {
    /// How far from a place it lies, mm, as its pocket or its wall tells.
    pub(super) fn distance(&self, from: Point, spacing: f64) -> f64 {
        let near = |curve: &Curve| {
            let samples = curve.samples(spacing).into_iter();
            samples
                .map(|sample| sample.at.distance(from))
                .fold(f64::INFINITY, f64::min)
        };
        let own = self.own.iter().map(|own| near(&own.curve));
        let cell = self.todo.middles().next().map(|at| at.distance(from));
        own.chain(cell).fold(f64::INFINITY, f64::min)
    }
}

/// Parts a cutter's work; `reach` tells what it sweeps within finishing curves.
pub(super) fn pieces(
    walls: &[Curve],
    mut own: Vec<Own>,
    mut todo: Raster,
    tool: &Tool<'_>,
    relief: &ReliefMap,
    reach: impl Fn(&[Curve]) -> Raster,
) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for (pocket, numbers) in pockets(walls, tool) {
        let (of_pocket, others) = own
            .into_iter()
            .partition(|stretch| numbers.contains(&stretch.number));
        own = others;
        let mut ground = todo.both(&reach(&pocket.walls));
        todo.remove(&ground);
        ground.refresh();
        pieces.extend(parted(&pocket, ground, of_pocket, tool, relief));
    }
    pieces
}

/// The pockets with the numbers of the curves that are their walls.
fn pockets(walls: &[Curve], tool: &Tool<'_>) -> Vec<(Pocket, Vec<usize>)> {
    let all = || {
        let pocket = Pocket {
            walls: walls.to_vec(),
            outer: Vec::new(),
        };
        vec![(pocket, (0..walls.len()).collect())]
    };
    let rings: Vec<Vec<Point>> = walls
        .iter()
        .map(|wall| wall.points(tool.rough_fit))
        .collect();
    let mut outer: Vec<(f64, usize)> = walls
        .iter()
        .map(|wall| wall.goes_round(tool.rough_fit))
        .zip(0..)
        .filter(|&(area, _)| area > 0.0)
        .collect();
    if outer.len() < 2 || outer.len() > MOST_POCKETS {
        return all();
    }
    // Of rings around one another the innermost that holds a wall is its pocket's.
    outer.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut members: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (number, ring) in rings.iter().enumerate() {
        let is_outer = outer.iter().any(|&(_, of)| of == number);
        let of = if is_outer {
            Some(number)
        } else {
            let holds =
                |&&(_, of): &&(f64, usize)| ring.first().is_some_and(|&at| inside(&rings[of], at));
            outer.iter().find(holds).map(|&(_, of)| of)
        };
        let Some(of) = of else { return all() };
        members.entry(of).or_default().push(number);
    }
    members
        .into_iter()
        .map(|(of, numbers)| {
            let pocket = Pocket {
                walls: numbers
                    .iter()
                    .map(|&number| walls[number].clone())
                    .collect(),
                outer: rings[of].clone(),
            };
            (pocket, numbers)
        })
        .collect()
}

/// Parts what is to be done in a pocket where nothing lies between, over more than a cutter's width.
fn parted(
    pocket: &Pocket,
    todo: Raster,
    own: Vec<Own>,
    tool: &Tool<'_>,
    relief: &ReliefMap,
) -> Vec<Piece> {
    let side = 2.0 * tool.radius;
    let square = |at: Point| ((at.x / side).floor() as i64, (at.y / side).floor() as i64);
    let mut forest = Forest::default();
    let mut trees: BTreeMap<(i64, i64), usize> = BTreeMap::new();
    let mut last = None;
    for at in todo.middles() {
        let square = square(at);
        if last != Some(square) {
            trees.entry(square).or_insert_with(|| forest.add());
            last = Some(square);
        }
    }
    let places: Vec<Vec<(i64, i64)>> = own
        .iter()
        .map(|own| {
            let samples = own.curve.samples(tool.radius / 2.0).into_iter();
            let mut squares: Vec<(i64, i64)> = samples.map(|sample| square(sample.at)).collect();
            squares.dedup();
            squares
        })
        .collect();
    for squares in &places {
        let mut before = None;
        for &square in squares {
            let tree = *trees.entry(square).or_insert_with(|| forest.add());
            if let Some(before) = before.replace(tree) {
                forest.unite(before, tree);
            }
        }
    }
    let neighbours = [(1, 0), (-1, 1), (0, 1), (1, 1)];
    let known: Vec<((i64, i64), usize)> = trees.iter().map(|(&at, &tree)| (at, tree)).collect();
    for ((x, y), tree) in known {
        for (across, up) in neighbours {
            if let Some(&other) = trees.get(&(x + across, y + up)) {
                forest.unite(tree, other);
            }
        }
    }
    let mut numbers: BTreeMap<usize, usize> = BTreeMap::new();
    let piece_of: BTreeMap<(i64, i64), usize> = trees
        .into_iter()
        .map(|(at, tree)| {
            let next = numbers.len().min(MOST_PIECES - 1);
            (at, *numbers.entry(forest.root(tree)).or_insert(next))
        })
        .collect();
    let count = numbers.len().min(MOST_PIECES);
    let mut of_piece: Vec<Vec<Own>> = vec![Vec::new(); count];
    for (own, squares) in own.into_iter().zip(&places) {
        if let Some(piece) = squares.first().and_then(|square| piece_of.get(square)) {
            of_piece[*piece].push(own);
        }
    }
    let mut pieces = Vec::with_capacity(count);
    for (number, own) in of_piece.into_iter().enumerate() {
        let mut ground = todo.clone();
        let mut deepest = own.iter().map(|own| own.depth).fold(0.0, f64::max);
        let mut last = None;
        ground.retain(|at| {
            let square = square(at);
            let is_own = match last {
                Some((same, is_own)) if same == square => is_own,
                Some(_) | None => piece_of.get(&square) == Some(&number),
            };
            last = Some((square, is_own));
            if is_own {
                deepest = deepest.max(relief.depth_at(at));
            }
            is_own
        });
        ground.refresh();
        pieces.push(Piece {
            pocket: pocket.clone(),
            todo: ground,
            own,
            depth: (deepest / DEPTH_STEP_MM - 1e-6).ceil() * DEPTH_STEP_MM,
        });
    }
    pieces
}
