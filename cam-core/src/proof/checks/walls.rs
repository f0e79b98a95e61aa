//! Every wall that a cutter surely touches is cut along the drawn line at full depth, or, where only a cone comes, at the face.

use kurbo::{Point, Rect};
use reader::ReadMotion;
use said::Value;

use super::super::bench::{Bench, LOOK_BEYOND_MM, Near, ROUNDING_MM};
use super::super::copies::Copy;
use super::super::motion;
use super::super::raster::{Due, Touch};
use super::super::report::{self, place};
use super::super::solid::Solid;
use crate::finding::{Finding, Subject, texts};
use crate::progress::Stopped;

/// How far beyond the tolerance a wall may stand, mm: the rounding of places and the chords of the outline.
const SLACK_MM: f64 = 0.003;

/// A cut along the wall, in the letter's own space.
struct Pass {
    read: ReadMotion,
    solid: Solid,
    depth: f64,
    swept: Rect,
}

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let most = bench.job.tolerance_mm + SLACK_MM;
    bench.each_ground(
        |copy, common| {
            let touches = bench.stock.grounds[copy.ground].touches.iter();
            uncut(touches, &passes(bench, copy, common), most)
        },
        |touches, copy, rest| {
            let uncut = uncut(touches.iter(), &passes(bench, copy, rest), most)?;
            let first = uncut.first()?;
            Some(finding(copy, first.at, uncut.len(), most))
        },
    )
}

/// The places of the wall that none of the passes cuts; `None` if there are none.
fn uncut<'a>(
    touches: impl Iterator<Item = &'a Touch>,
    passes: &[Pass],
    most: f64,
) -> Option<Vec<Touch>> {
    let uncut: Vec<Touch> = touches
        .filter(|touch| {
            !passes
                .iter()
                .any(|pass| pass.cuts(touch.at, touch.due, most))
        })
        .copied()
        .collect();
    (!uncut.is_empty()).then_some(uncut)
}

impl Pass {
    /// Whether this pass cuts the wall at a place to a depth, its edge no further off than `most`. Other than flat cutters cut
    /// it at the face alone.
    fn cuts(&self, at: Point, due: Due, most: f64) -> bool {
        if !self.swept.contains(at) {
            return false;
        }
        match (self.solid, due) {
            (Solid::Flat { radius }, Due::Depth(due)) => {
                self.depth + ROUNDING_MM >= due && motion::distance(&self.read, at) <= radius + most
            }
            (Solid::Flat { radius }, Due::Face) => {
                self.depth + ROUNDING_MM >= 0.0 && motion::distance(&self.read, at) <= radius + most
            }
            (Solid::Ball { .. } | Solid::Conical { .. }, Due::Depth(_)) => false,
            (Solid::Ball { .. } | Solid::Conical { .. }, Due::Face) => {
                self.solid.clear_of_place(&self.read, at) <= most
            }
        }
    }
}

/// The motions whose cutter comes to the wall, by the distance that was measured for the letter's sake.
fn passes(bench: &Bench, copy: &Copy, near: &[Near]) -> Vec<Pass> {
    near.iter()
        .filter(|near| near.gap < LOOK_BEYOND_MM)
        .map(|near| {
            let (run, read) = bench.motion(near);
            let read = motion::shifted(read, -copy.shift);
            let reach = run.widest(&read) + LOOK_BEYOND_MM;
            Pass {
                read,
                solid: run.solid,
                depth: motion::depths(&read).1,
                swept: motion::extent(&read).inflate(reach, reach),
            }
        })
        .collect()
}

fn finding(copy: &Copy, at: Point, count: usize, most: f64) -> Finding {
    report::stop(
        Subject::Sort(copy.sort.id.clone()),
        "wall-not-cut",
        texts::wall_not_cut(
            &copy.sort.id,
            Value::rounded(most, 3),
            place(at + copy.shift),
            count,
        ),
        texts::do_not_run_these(),
    )
}
