//! Every cut stays on the blocks and the lanes about them.

use kurbo::{Point, Rect};
use rayon::prelude::*;
use reader::ReadMotion;

use super::super::bench::{Bench, ROUNDING_MM, overlaps};
use super::super::motion;
use super::super::report::{self, place};
use super::super::runs::Run;
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

/// How far apart places along a motion are looked at where it leaves one room for the next, mm.
const STEP_MM: f64 = 0.2;

/// How far a cutter may stand over the edge of a room, mm: rounding, and the tolerance of arcs.
const OVER_MM: f64 = 0.01 + ROUNDING_MM;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let rooms: Vec<Vec<Rect>> = (0..bench.job.planks.len())
        .map(|plank| {
            bench
                .stock
                .copies
                .iter()
                .filter(|copy| copy.plank == plank)
                .map(|copy| copy.room.inflate(OVER_MM, OVER_MM))
                .collect()
        })
        .collect();
    let fresh: Vec<&Run> = bench.fresh_runs().collect();
    let found = fresh
        .into_par_iter()
        .map(|run| {
            bench.progress.check()?;
            let rooms = &rooms[run.plank];
            let mut last = 0;
            Ok(run
                .motions
                .iter()
                .filter(|read| motion::is_below_face(read))
                .filter_map(|read| strays(run, read, rooms, &mut last).map(|at| (read, at)))
                .map(|(read, at)| {
                    report::program(
                        run.file,
                        Some(read.line),
                        "cut-beside-blocks",
                        texts::cut_beside_blocks(&run.cutter.id, place(at)),
                        texts::do_not_run(),
                    )
                })
                .collect())
        })
        .collect::<Result<Vec<Vec<Finding>>, Stopped>>()?;
    Ok(report::first_few(found.into_iter().flatten().collect()))
}

/// A place where the cutter is in no room; `last` is the room tried first, since motions mostly stay in one.
fn strays(run: &Run, read: &ReadMotion, rooms: &[Rect], last: &mut usize) -> Option<Point> {
    let widest = run.widest(read);
    let swept = motion::extent(read).inflate(widest, widest);
    if rooms.get(*last).is_some_and(|room| holds(*room, swept)) {
        return None;
    }
    if let Some(index) = rooms.iter().position(|room| holds(*room, swept)) {
        *last = index;
        return None;
    }
    let near: Vec<Rect> = rooms
        .iter()
        .copied()
        .filter(|room| overlaps(*room, swept))
        .collect();
    motion::places(read, STEP_MM).find(|&at| !covered(&near, at, widest))
}

/// Whether a disc lies in rooms taken together: its middle and its rim, at steps of an eighth of a turn.
fn covered(rooms: &[Rect], at: Point, radius: f64) -> bool {
    let rim = (0..8).map(|step| {
        let angle = f64::from(step) * std::f64::consts::FRAC_PI_4;
        at + kurbo::Vec2::from_angle(angle) * radius
    });
    std::iter::once(at)
        .chain(rim)
        .all(|place| rooms.iter().any(|room| in_box(*room, place)))
}

/// Whether a place lies in a box, its edges included.
fn in_box(room: Rect, place: Point) -> bool {
    (room.x0..=room.x1).contains(&place.x) && (room.y0..=room.y1).contains(&place.y)
}

/// Whether a box lies wholly in another.
fn holds(room: Rect, swept: Rect) -> bool {
    room.x0 <= swept.x0 && room.y0 <= swept.y0 && swept.x1 <= room.x1 && swept.y1 <= room.y1
}
