//! Where the cutter may come down rapidly below the face: into ground that earlier cuts have cleared.

use std::collections::BTreeSet;

use kurbo::{Point, Rect, Vec2};
use reader::{ReadCourse, ReadMotion};

use super::bench::{Bench, Near, ROUNDING_MM};
use super::motion;
use super::runs::Run;
use crate::job_file::JobCutterKind;
use crate::progress::Stopped;

/// Wood this narrow at the rim of the cutter counts as none, mm: a sliver that any cut would leave.
const RIM_MM: f64 = 0.1;

/// Distance between the places looked at under the cutter, mm.
const LOOK_MM: f64 = 0.1;

/// The rapid moves straight down to below the face whose way was cleared by motions that run before them, by number of run
/// and of motion.
pub fn cleared(bench: &Bench) -> Result<BTreeSet<(u32, u32)>, Stopped> {
    let found = bench.each_copy(|_, near| {
        let mut lanes: Vec<Lane> = Vec::new();
        let mut cleared = Vec::new();
        for near in near {
            let (run, read) = bench.motion(near);
            if is_descent(read) {
                if is_clear(&lanes, run, read) {
                    cleared.push(number(near));
                }
            } else {
                lanes.extend(Lane::of(run, read));
            }
        }
        cleared
    })?;
    Ok(found.into_iter().collect())
}

fn number(near: &Near) -> (u32, u32) {
    (near.run, near.motion)
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
