//! Everything the checks judge by, worked out once.

use std::collections::BTreeSet;
use std::sync::Arc;

use geometry::distance::WallIndex;
use kurbo::{Point, Rect};
use rayon::prelude::*;
use reader::{ReadCourse, ReadMotion};

use super::copies::{Copy, Stock};
use super::near;
use super::runs::{self, ReadProgram, Run};
use crate::job_file::{JobCutter, JobFile};
use crate::progress::{Progress, Stopped};

/// How far beyond the cutter's edge the letter is still looked for, mm; further away a motion counts as clear of it.
pub const LOOK_BEYOND_MM: f64 = 0.05;

/// Rounding of places in a program, mm: half of the last of three decimals or four in inches, and a little for sums.
pub const ROUNDING_MM: f64 = 0.002;

/// The job, its programs as read, and which motions come near which sort.
///
/// What is *fresh* on it is judged by itself; the rest was judged before, and lies here because it cuts the same wood.
pub struct Bench<'a> {
    /// The job file.
    pub job: &'a JobFile,
    /// The fresh programs, in the order of the job file.
    pub programs: Vec<ReadProgram<'a>>,
    /// The runs, in the order of running.
    pub runs: Vec<Arc<Run<'a>>>,
    /// What is ordered.
    pub stock: &'a Stock<'a>,
    /// For each copy that is judged, the motions below the face that come into its room, in the order of running.
    pub near: Vec<Vec<Near>>,
    /// The copies that are judged, ground by ground.
    alike: Vec<Vec<usize>>,
    /// What has changed since all was judged; `None` where all is judged for the first time.
    pub changed: Option<Changed>,
    /// The signal to stop.
    pub progress: &'a Progress,
}

/// What has changed since a job was judged.
pub struct Changed {
    /// For each run, whether it is fresh.
    pub fresh: Vec<bool>,
    /// The boxes swept below the face by motions that have come or gone, with their planks.
    pub boxes: Vec<(usize, Rect)>,
}

impl Changed {
    /// Whether a box of a plank has changed.
    pub fn touches(&self, plank: usize, area: Rect) -> bool {
        self.boxes
            .iter()
            .any(|&(other, swept)| other == plank && overlaps(swept, area))
    }
}

/// A motion below the face in the room of a copy.
#[derive(Clone, Copy, Debug)]
pub struct Near {
    /// Index of the run.
    pub run: u32,
    /// Index of the motion in it.
    pub motion: u32,
    /// From the cutter's edge to the letter's, mm; negative where it cuts into the letter; infinite where it stays further
    /// away than [`LOOK_BEYOND_MM`].
    pub gap: f64,
    /// Whether it starts inside the letter (looked at only where the motion before it was elsewhere).
    pub inside: bool,
    /// Whether every copy on the same ground has this very motion near it, seen from its own place.
    pub common: bool,
}

impl<'a> Bench<'a> {
    /// Lays out what the checks judge by.
    pub fn lay(
        job: &'a JobFile,
        programs: Vec<ReadProgram<'a>>,
        runs: Vec<Arc<Run<'a>>>,
        stock: &'a Stock<'a>,
        changed: Option<Changed>,
        progress: &'a Progress,
    ) -> Result<Bench<'a>, Stopped> {
        let alike = near::alike(stock, |index| {
            let copy = &stock.copies[index];
            changed
                .as_ref()
                .is_none_or(|changed| changed.touches(copy.plank, copy.room))
        });
        let near = near::find(&runs, stock, &alike, progress)?;
        Ok(Bench {
            job,
            programs,
            runs,
            stock,
            near,
            alike,
            changed,
            progress,
        })
    }

    /// Whether a run is fresh.
    pub fn is_fresh(&self, run: usize) -> bool {
        self.changed
            .as_ref()
            .is_none_or(|changed| changed.fresh.get(run) == Some(&true))
    }

    /// Whether what a motion is judged by has not changed since all was judged; `by_ground` if that is also what ran before it.
    pub fn was_judged(&self, run: usize, read: &ReadMotion, by_ground: bool) -> bool {
        match &self.changed {
            None => false,
            Some(changed) if by_ground => {
                let of = &self.runs[run];
                !changed.touches(of.plank, of.swept_by(read))
            }
            Some(_) => !self.is_fresh(run),
        }
    }

    /// The fresh runs.
    pub fn fresh_runs(&self) -> impl Iterator<Item = &Run<'a>> {
        self.runs
            .iter()
            .enumerate()
            .filter(|(index, _)| self.is_fresh(*index))
            .map(|(_, run)| run.as_ref())
    }

    /// The motions below the face in the room of a copy that is not judged, in the order of running.
    pub fn near_unjudged(&self, copy: usize) -> Result<Vec<Near>, Stopped> {
        let mut near = near::find(&self.runs, self.stock, &[vec![copy]], self.progress)?;
        Ok(near.swap_remove(copy))
    }

    /// The run and the motion.
    pub fn motion(&self, near: &Near) -> (&Run<'a>, &ReadMotion) {
        let run = self.runs[near.run as usize].as_ref();
        (run, &run.motions[near.motion as usize])
    }

    /// Judges copy by copy, on as many threads as there are, and gathers the findings in the job's order.
    pub fn each_copy<T: Send>(
        &self,
        judge: impl Fn(&Copy<'a>, &[Near]) -> Vec<T> + Sync,
    ) -> Result<Vec<T>, Stopped> {
        let mut judged: Vec<usize> = self.alike.iter().flatten().copied().collect();
        judged.sort_unstable();
        let found = judged
            .into_par_iter()
            .map(|index| {
                self.progress.check()?;
                Ok(judge(&self.stock.copies[index], &self.near[index]))
            })
            .collect::<Result<Vec<Vec<T>>, Stopped>>()?;
        Ok(found.into_iter().flatten().collect())
    }

    /// Judges copies on one ground together, for checks that each further cut can only satisfy: `together` says what the
    /// motions common to all of them leave undone, `alone` what is then left of it by each copy's other motions. Findings come
    /// in the job's order.
    pub fn each_ground<S: Sync, T: Send>(
        &self,
        together: impl Fn(&Copy<'a>, &[Near]) -> Option<S> + Sync,
        alone: impl Fn(&S, &Copy<'a>, &[Near]) -> Option<T> + Sync,
    ) -> Result<Vec<T>, Stopped> {
        let found = self
            .alike
            .par_iter()
            .filter_map(|copies| copies.first().map(|first| (copies, *first)))
            .map(|(copies, first)| {
                self.progress.check()?;
                let (common, _) = self.near_parted(first);
                let Some(undone) = together(&self.stock.copies[first], &common) else {
                    return Ok(Vec::new());
                };
                let found = copies.iter().filter_map(|&index| {
                    let (_, rest) = self.near_parted(index);
                    alone(&undone, &self.stock.copies[index], &rest).map(|found| (index, found))
                });
                Ok(found.collect())
            })
            .collect::<Result<Vec<Vec<(usize, T)>>, Stopped>>()?;
        let mut found: Vec<(usize, T)> = found.into_iter().flatten().collect();
        found.sort_by_key(|(index, _)| *index);
        Ok(found.into_iter().map(|(_, found)| found).collect())
    }

    /// The motions near a copy: those common to all copies on its ground, and its others.
    fn near_parted(&self, index: usize) -> (Vec<Near>, Vec<Near>) {
        self.near[index].iter().partition(|near| near.common)
    }
}

/// The cutters that the job's programs clear ground with, whatever the plank.
pub fn clearing_cutters(job: &JobFile) -> Vec<&JobCutter> {
    let used: BTreeSet<&str> = job
        .programs
        .iter()
        .flat_map(|program| {
            std::iter::once((program.role, program.cutter.as_str())).chain(
                program
                    .changes
                    .iter()
                    .map(|change| (change.role, change.cutter.as_str())),
            )
        })
        .filter(|(role, _)| !runs::cuts_sides(*role))
        .map(|(_, cutter)| cutter)
        .collect();
    job.cutters
        .iter()
        .filter(|cutter| used.contains(cutter.id.as_str()))
        .collect()
}

/// Least distance of the cutter's centre from the walls; at least `cutoff` where it is further.
pub fn distance_to_walls(walls: &WallIndex, read: &ReadMotion, cutoff: f64) -> f64 {
    match read.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => {
            walls.nearest_to_line(read.from.xy, read.to.xy, cutoff)
        }
        ReadCourse::Arc { centre, turn, .. } => {
            walls.nearest_to_arc(read.from.xy, read.to.xy, centre, turn, cutoff)
        }
    }
}

/// Whether two boxes have more than an edge in common.
pub fn overlaps(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// Whether a place lies in a polygon, by counting crossings; places on the edge may fall either way.
pub fn in_polygon(polygon: &[Point], place: Point) -> bool {
    let mut inside = false;
    for (index, &a) in polygon.iter().enumerate() {
        let b = polygon[(index + 1) % polygon.len()];
        if (a.y > place.y) != (b.y > place.y) {
            let x = a.x + (place.y - a.y) / (b.y - a.y) * (b.x - a.x);
            inside ^= place.x < x;
        }
    }
    inside
}
