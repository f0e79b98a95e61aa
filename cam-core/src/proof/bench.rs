//! Everything the checks judge by, worked out once.

use std::collections::{BTreeMap, BTreeSet};

use geometry::distance::WallIndex;
use kurbo::{Point, Rect};
use rayon::prelude::*;
use reader::{ReadCourse, ReadMotion};

use super::copies::{self, Copy, Stock};
use super::near;
use super::runs::{self, ReadProgram, Run};
use crate::job_file::{JobCutter, JobFile, JobRole};
use crate::progress::{Progress, Stopped};

/// How far beyond the cutter's edge the letter is still looked for, mm; further away a motion counts as clear of it.
pub const LOOK_BEYOND_MM: f64 = 0.05;

/// Rounding of places in a program, mm: half of the last of three decimals or four in inches, and a little for sums.
pub const ROUNDING_MM: f64 = 0.002;

/// The job, its programs as read, and which motions come near which sort.
pub struct Bench<'a> {
    /// The job file.
    pub job: &'a JobFile,
    /// The programs, in the order of the job file.
    pub programs: Vec<ReadProgram<'a>>,
    /// The runs, in the order of running.
    pub runs: Vec<Run<'a>>,
    /// What is ordered.
    pub stock: Stock<'a>,
    /// For each copy, the motions below the face that come into its room, in the order of running.
    pub near: Vec<Vec<Near>>,
    /// The signal to stop.
    pub progress: &'a Progress,
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
    /// Reads the programs and lays out what they are judged by.
    pub fn lay(
        job: &'a JobFile,
        texts: &'a BTreeMap<String, String>,
        progress: &'a Progress,
    ) -> Result<Bench<'a>, Stopped> {
        let programs = runs::read_all(job, texts);
        progress.check()?;
        let runs = runs::lay(job, &programs);
        let stock = copies::lay(job, &clearing_cutters(job), progress)?;
        let near = near::find(&runs, &stock, progress)?;
        Ok(Bench {
            job,
            programs,
            runs,
            stock,
            near,
            progress,
        })
    }

    /// The run and the motion.
    pub fn motion(&self, near: &Near) -> (&Run<'a>, &ReadMotion) {
        let run = &self.runs[near.run as usize];
        (run, &run.motions[near.motion as usize])
    }

    /// Judges every copy by itself, on as many threads as there are, and gathers the findings in the job's order.
    pub fn each_copy<T: Send>(
        &self,
        judge: impl Fn(&Copy<'a>, &[Near]) -> Vec<T> + Sync,
    ) -> Result<Vec<T>, Stopped> {
        let found = self
            .stock
            .copies
            .par_iter()
            .zip(&self.near)
            .map(|(copy, near)| {
                self.progress.check()?;
                Ok(judge(copy, near))
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
        let found = near::alike(&self.stock)
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
fn clearing_cutters(job: &JobFile) -> Vec<&JobCutter> {
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
        .filter(|(role, _)| *role != JobRole::Separation)
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
