//! All ground that the cutters surely reach is cleared to its depth.

use kurbo::Point;
use said::Value;

use super::super::bench::{Bench, Near, ROUNDING_MM};
use super::super::copies::Copy;
use super::super::heights::Footprint;
use super::super::motion;
use super::super::raster::{Floor, Ground};
use super::super::report::{self, place};
use crate::finding::{Finding, Subject, texts};
use crate::progress::Stopped;

/// How far beyond its radius a cutter is taken to cut, mm: the rounding of a program's places.
const EDGE_MM: f64 = 0.001;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    bench.each_ground(
        |copy, common| {
            let ground = &bench.stock.grounds[copy.ground];
            let mut floor = Floor::uncut(ground.grid);
            cut(bench, copy, common, ground, &mut floor);
            left(ground, &floor).map(|_| floor)
        },
        |floor, copy, rest| {
            let ground = &bench.stock.grounds[copy.ground];
            let mut floor = floor.clone();
            cut(bench, copy, rest, ground, &mut floor);
            left(ground, &floor).map(|left| finding(copy, &left))
        },
    )
}

/// Lets motions in a copy's room pass over its floor, whichever program they are in. (A floor is as deep as the deepest of
/// them, in whatever order they come.)
fn cut(bench: &Bench, copy: &Copy, near: &[Near], ground: &Ground, floor: &mut Floor) {
    // What is shallower than the least depth due changes no verdict.
    let least = ground
        .due
        .iter()
        .copied()
        .filter(|due| *due > 0.0)
        .fold(f32::INFINITY, f32::min);
    let mut last = None;
    for near in near {
        let (run, read) = bench.motion(near);
        // Floors are the flat cutters' work; a groove deeper than the floor is judged by its depth, not here. Of a slope the whole
        // counts as cut as deep as its shallow end.
        let (_, shallow) = motion::depths(read);
        if !run.solid.is_flat() || shallow + ROUNDING_MM < f64::from(least) {
            continue;
        }
        let read = motion::shifted(read, -copy.shift);
        let mut covers = Footprint::of(&read, run.radius + EDGE_MM);
        let cut_before = last.is_some_and(|(before, depth)| {
            before == (near.run, near.motion.wrapping_sub(1)) && depth >= shallow
        });
        if cut_before && run.goes_on(near.motion) {
            covers = covers.beyond_start();
        }
        floor.cut(&covers, shallow);
        last = Some(((near.run, near.motion), shallow));
    }
}

/// Ground left standing.
struct Left {
    /// All of it, mm².
    area: f64,
    /// A place in the largest piece, in the letter's own space.
    at: Point,
    /// How deep it is, and should be, there, mm.
    depth: (f64, f64),
}

fn left(ground: &Ground, floor: &Floor) -> Option<Left> {
    let mut standing: Vec<bool> = (0..ground.grid.count())
        .map(|index| {
            let due = ground.due[index];
            due > 0.0 && floor.depth(index) + (ROUNDING_MM as f32) < due
        })
        .collect();
    let count = standing.iter().filter(|left| **left).count();
    let largest = largest_piece(&mut standing, ground.grid.columns)?;
    Some(Left {
        area: count as f64 * ground.grid.cell * ground.grid.cell,
        at: ground.grid.centre(largest),
        depth: (
            f64::from(floor.depth(largest)),
            f64::from(ground.due[largest]),
        ),
    })
}

/// The middle cell, in the order of finding, of the largest connected piece. Unmarks what it has seen.
fn largest_piece(marked: &mut [bool], columns: usize) -> Option<usize> {
    let mut largest: Vec<usize> = Vec::new();
    for start in 0..marked.len() {
        if !marked[start] {
            continue;
        }
        marked[start] = false;
        let mut piece = vec![start];
        let mut next = 0;
        while next < piece.len() {
            let cell = piece[next];
            next += 1;
            let column = cell % columns;
            let beside = [
                (column > 0).then(|| cell - 1),
                (column + 1 < columns).then(|| cell + 1),
                cell.checked_sub(columns),
                (cell + columns < marked.len()).then(|| cell + columns),
            ];
            for other in beside.into_iter().flatten() {
                if marked[other] {
                    marked[other] = false;
                    piece.push(other);
                }
            }
        }
        if piece.len() > largest.len() {
            largest = piece;
        }
    }
    largest.sort_unstable();
    largest.get(largest.len() / 2).copied()
}

fn finding(copy: &Copy, left: &Left) -> Finding {
    let (depth, due) = left.depth;
    report::stop(
        Subject::Sort(copy.sort.id.clone()),
        "ground-left",
        texts::ground_standing(
            Value::rounded(left.area, 2),
            &copy.sort.id,
            place(left.at + copy.shift),
            Value::rounded(depth, 2),
            Value::rounded(due, 2),
        ),
        texts::do_not_run_these(),
    )
}
