//! Where the cutter may come down below the face without cutting: into ground that earlier cuts have cleared.

use std::collections::BTreeMap;

use kurbo::{Point, Rect, Vec2};
use reader::{ReadCourse, ReadMotion};

use super::bench::{Bench, Near, ROUNDING_MM, overlaps};
use super::motion;
use super::runs::Run;
use crate::job_file::JobCutterKind;
use crate::progress::Stopped;

/// Wood this narrow at the rim of the cutter counts as none, mm: a sliver that any cut would leave.
const RIM_MM: f64 = 0.1;

/// Distance between the places looked at under the cutter, mm.
const LOOK_MM: f64 = 0.1;

/// The motions down that are `asked` for, by number of run and of motion, and whether motions that run before them have cleared the
/// place where they end. Those that come down in no room are left out.
pub fn judged(bench: &Bench, asked: Asked) -> Result<BTreeMap<(u32, u32), bool>, Stopped> {
    let found = bench.each_copy(|_, near| in_room(bench, near, asked))?;
    let mut judged: BTreeMap<(u32, u32), bool> = BTreeMap::new();
    for (descent, clear) in found {
        *judged.entry(descent).or_default() |= clear;
    }
    if bench.changed.is_some() {
        let unclear: Vec<(u32, u32)> = judged
            .iter()
            .filter(|(_, clear)| !**clear)
            .map(|(descent, _)| *descent)
            .collect();
        for descent in unclear {
            let clear = is_clear_elsewhere(bench, descent, asked)?;
            judged.insert(descent, clear);
        }
    }
    Ok(judged)
}

/// Which motions are asked for, by the number of their run.
pub type Asked<'a> = &'a (dyn Fn(u32, &ReadMotion) -> bool + Sync);

/// The descents in one room.
fn in_room(bench: &Bench, near: &[Near], asked: Asked) -> Vec<((u32, u32), bool)> {
    let mut lanes: Vec<Lane> = Vec::new();
    let mut found = Vec::new();
    for near in near {
        let (run, read) = bench.motion(near);
        if asked(near.run, read) {
            found.push(((near.run, near.motion), is_clear(&lanes, run, read)));
        }
        lanes.extend(Lane::of(run, read));
    }
    found
}

/// Whether a descent is clear by what runs in a room that is not judged for its own sake.
fn is_clear_elsewhere(bench: &Bench, descent: (u32, u32), asked: Asked) -> Result<bool, Stopped> {
    let run = &bench.runs[descent.0 as usize];
    let at = run.motions[descent.1 as usize].to.xy;
    let disc = Rect::from_center_size(at, (2.0 * run.radius, 2.0 * run.radius));
    for (index, copy) in bench.stock.copies.iter().enumerate() {
        let unjudged =
            copy.plank == run.plank && overlaps(copy.room, disc) && bench.near[index].is_empty();
        if unjudged
            && in_room(bench, &bench.near_unjudged(index)?, asked).contains(&(descent, true))
        {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Whether a motion is a rapid straight down to below the face.
pub fn is_descent(read: &ReadMotion) -> bool {
    read.course == ReadCourse::Rapid
        && read.known == [true; 3]
        && read.to.z < 0.0
        && read.to.z < read.from.z
        && read.from.xy == read.to.xy
}

/// What one motion of a flat cutter clears.
struct Lane<'m> {
    read: &'m ReadMotion,
    radius: f64,
    bounds: Rect,
    depth: f64,
}

impl<'m> Lane<'m> {
    fn of(run: &Run, read: &'m ReadMotion) -> Option<Lane<'m>> {
        let fed = match read.course {
            ReadCourse::Rapid => false,
            ReadCourse::Line { .. } | ReadCourse::Arc { .. } => true,
        };
        let flat = match run.cutter.kind {
            JobCutterKind::Flat => true,
            JobCutterKind::Ball | JobCutterKind::Conical => false,
        };
        let (_, shallow) = motion::depths(read);
        (fed && flat && shallow > 0.0).then(|| Lane {
            read,
            radius: run.radius,
            bounds: motion::extent(read).inflate(run.radius, run.radius),
            depth: shallow,
        })
    }

    fn covers(&self, place: Point) -> bool {
        let slack = ROUNDING_MM;
        self.bounds.inflate(slack, slack).contains(place)
            && motion::distance(self.read, place) <= self.radius + slack
    }
}

/// Whether lanes at least as deep cover all that the cutter comes down on.
fn is_clear(lanes: &[Lane], run: &Run, read: &ReadMotion) -> bool {
    let (at, depth) = (read.to.xy, -read.to.z);
    let disc = (run.radius - RIM_MM).max(0.0);
    let near: Vec<&Lane> = lanes
        .iter()
        .filter(|lane| lane.depth + ROUNDING_MM >= depth)
        .filter(|lane| lane.bounds.inflate(disc, disc).contains(at))
        .collect();
    let across = (disc / LOOK_MM).ceil() as i32;
    // The lane that covered the place before mostly covers the next.
    let mut last = 0;
    (-across..=across).all(|row| {
        (-across..=across).all(|column| {
            let arm = Vec2::new(f64::from(column), f64::from(row)) * LOOK_MM;
            let far = arm.hypot();
            if far > disc + LOOK_MM {
                return true;
            }
            // Places just outside the disc are drawn in to its rim.
            let place = at + if far > disc { arm * (disc / far) } else { arm };
            if near.get(last).is_some_and(|lane| lane.covers(place)) {
                return true;
            }
            let found = near.iter().position(|lane| lane.covers(place));
            last = found.unwrap_or(last);
            found.is_some()
        })
    })
}
