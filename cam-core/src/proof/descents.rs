//! Where the cutter may come down below the face without cutting, or be fed faster than it cuts: over ground that earlier cuts
//! have cleared.

use std::collections::BTreeMap;

use kurbo::Rect;
use reader::{ReadCourse, ReadMotion};

use super::bench::{Bench, Near, ROUNDING_MM, overlaps};
use super::heights::Footprint;
use super::motion;
use super::runs::Run;
use crate::job_file::JobCutterKind;
use crate::progress::Stopped;

/// Wood this narrow at the rim of the cutter counts as none, mm: a sliver that any cut would leave.
const RIM_MM: f64 = 0.1;

/// The same for a cutter that is fed across faster than it may cut, as a part of its diameter: a tenth of its radius is
/// less than any cut.
const SIDE_PART: f64 = 0.05;

/// How far a feed may pass a limit by rounding, as a share of it.
pub const FEED_SLACK: f64 = 0.001;

/// Wood this narrow between two cuts counts as none, mm: the rounding of their places.
const SLIVER_MM: f64 = 0.01;

/// After each of so many lanes it is asked whether they are enough; then only once more, when all are known.
const FIRST_LANES: usize = 8;

/// Distance between the rows looked at under the cutter, mm.
const LOOK_MM: f64 = 0.1;

/// The motions down or across that are `asked` for, by number of run and of motion, and whether motions that run before them have cleared the
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
    let passed = run.swept_by(&run.motions[descent.1 as usize]);
    for (index, copy) in bench.stock.copies.iter().enumerate() {
        let unjudged =
            copy.plank == run.plank && overlaps(copy.room, passed) && bench.near[index].is_empty();
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

/// Whether a motion goes straight across, below the face, faster than its cutter may cut.
pub fn is_swift(run: &Run, read: &ReadMotion) -> bool {
    let is_line = match read.course {
        ReadCourse::Line { .. } => true,
        ReadCourse::Rapid | ReadCourse::Arc { .. } => false,
    };
    let over = |feed: f64, limit: f64| feed > limit * (1.0 + FEED_SLACK);
    let fast = read.feed_mm_min().zip(run.cutter.feed_mm_min);
    is_line
        && read.known == [true; 3]
        && read.to.z < 0.0
        && read.to.z == read.from.z
        && fast.is_some_and(|(feed, most)| over(feed, most))
}

/// What one motion of a flat cutter clears.
struct Lane {
    footprint: Footprint,
    bounds: Rect,
    depth: f64,
}

impl Lane {
    fn of(run: &Run, read: &ReadMotion) -> Option<Lane> {
        let fed = match read.course {
            ReadCourse::Rapid => false,
            ReadCourse::Line { .. } | ReadCourse::Arc { .. } => true,
        };
        let flat = match run.cutter.kind {
            JobCutterKind::Flat => true,
            JobCutterKind::Ball | JobCutterKind::Conical => false,
        };
        let radius = run.radius + ROUNDING_MM;
        let (_, shallow) = motion::depths(read);
        (fed && flat && shallow > 0.0).then(|| Lane {
            footprint: Footprint::of(read, radius),
            bounds: motion::extent(read).inflate(radius, radius),
            depth: shallow,
        })
    }

    /// Notes what it clears of the level line at `y`.
    fn add_to(&self, y: f64, cleared: &mut Vec<(f64, f64)>) {
        if self.bounds.y0 <= y && y <= self.bounds.y1 {
            self.footprint
                .along_row(y, &mut |left, right| cleared.push((left, right)));
        }
    }
}

/// Whether lanes at least as deep cover all that the cutter comes down on or passes over.
fn is_clear(lanes: &[Lane], run: &Run, read: &ReadMotion) -> bool {
    let (from, to) = (read.from.xy, read.to.xy);
    let depth = -read.to.z;
    let rim = if from == to {
        RIM_MM
    } else {
        RIM_MM.max(2.0 * run.radius * SIDE_PART)
    };
    let disc = (run.radius - rim).max(0.0);
    let asked = Footprint::of(read, disc);
    let passed = Rect::from_points(from, to).inflate(disc, disc);
    let mut near: Vec<(f64, &Lane)> = lanes
        .iter()
        .filter(|lane| lane.depth + ROUNDING_MM >= depth)
        .filter(|lane| lane.bounds.overlaps(passed))
        .map(|lane| (lane.bounds.intersect(passed).area(), lane))
        .collect();
    // Those that clear most of it come first, so that few have to be looked at.
    near.sort_by(|one, other| other.0.total_cmp(&one.0));
    // Its lowest and its highest place are looked at as well, but for rounding.
    let rows = (passed.height() / LOOK_MM).ceil().max(1.0) as u32;
    let inside = passed.inset(-ROUNDING_MM.min(disc / 2.0));
    (0..=rows).all(|row| {
        let y = inside.y0 + inside.height() * f64::from(row) / f64::from(rows);
        is_row_clear(&near, &asked, y)
    })
}

/// Whether lanes cover all that is asked for on a level line.
fn is_row_clear(near: &[(f64, &Lane)], asked: &Footprint, y: f64) -> bool {
    let mut open = Vec::new();
    asked.along_row(y, &mut |left, right| open.push((left, right)));
    let mut cleared = Vec::new();
    for (number, (_, lane)) in near.iter().enumerate() {
        let before = cleared.len();
        lane.add_to(y, &mut cleared);
        let looked_at = number < FIRST_LANES && cleared.len() > before;
        if looked_at || number + 1 == near.len() {
            open.retain(|&(left, right)| !is_covered(left, right, &cleared));
            if open.is_empty() {
                return true;
            }
        }
    }
    open.is_empty()
}

/// Whether stretches leave nothing wider than a sliver of one.
fn is_covered(left: f64, right: f64, cleared: &[(f64, f64)]) -> bool {
    let mut reached = left;
    // Bound: every round but the last one goes further along the stretches.
    while reached + SLIVER_MM < right {
        let further = cleared
            .iter()
            .filter(|(from, _)| *from <= reached + SLIVER_MM)
            .map(|(_, to)| *to)
            .fold(reached, f64::max);
        if further <= reached {
            return false;
        }
        reached = further;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_is_covered_but_for_slivers() {
        let cleared = [(4.5, 9.0), (0.0, 2.0), (1.0, 1.5), (2.005, 4.0)];
        assert!(is_covered(0.5, 3.9, &cleared));
        assert!(is_covered(-0.005, 4.005, &cleared));
        assert!(!is_covered(-0.05, 1.0, &cleared));
        assert!(!is_covered(3.0, 5.0, &cleared));
        assert!(!is_covered(8.0, 9.1, &cleared));
        assert!(!is_covered(0.0, 1.0, &[]));
    }
}
