//! The machine's time for each cutter's turn on each sort.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use geometry::diagram::Diagram;
use rayon::prelude::*;

use super::Job;
use super::choice::{Step, is_flat};
use crate::finding::Finding;
use crate::make::{MakeError, map_ground};
use crate::pass::{Planning, SortPasses, sharpen};
use crate::progress::Progress;
use crate::sort::Sort;
use crate::toolpath::{duration, join_one};
use crate::workshop::{Cutter, Machine};

/// The ground of each sort; `None` where it cannot be mapped.
pub(super) type Grounds = Vec<Option<Diagram>>;

/// Seconds of each turn, by sort.
pub(super) type Seconds = BTreeMap<Step, Vec<f64>>;

/// Maps the ground of every sort.
pub(super) fn map_grounds(
    job: &Job<'_>,
    progress: &Progress,
) -> Result<(Grounds, Vec<Finding>), MakeError> {
    progress.begin("Mapping the ground", job.sorts.len());
    let each: Vec<Result<Diagram, Finding>> = job
        .sorts
        .par_iter()
        .map(|sort| {
            progress.check()?;
            let ground = map_ground(sort, job.commission);
            progress.advance();
            Ok(ground)
        })
        .collect::<Result<_, MakeError>>()?;
    let mut findings = Vec::new();
    let grounds = each
        .into_iter()
        .map(|ground| ground.map_err(|finding| findings.push(finding)).ok())
        .collect();
    Ok((grounds, findings))
}

/// Seconds of every turn on every sort: the passes of one copy, from coming down to lifting, and the rapid move to the next
/// copy; nothing where the cutter has nothing to do.
pub(super) fn seconds(
    job: &Job<'_>,
    grounds: &Grounds,
    (cutters, depths): (&[&Cutter], &[f64]),
    steps: &BTreeSet<Step>,
    progress: &Progress,
) -> Result<Seconds, MakeError> {
    progress.begin("Timing the cutters", job.sorts.len());
    let sorts: Vec<(&Arc<Sort>, &Option<Diagram>)> = job.sorts.iter().zip(grounds).collect();
    let each: Vec<Vec<f64>> = sorts
        .into_par_iter()
        .map(|(sort, ground)| {
            let times = match ground {
                Some(ground) => on_one(job, sort, ground, (cutters, depths), steps, progress)?,
                None => vec![0.0; steps.len()],
            };
            progress.advance();
            Ok(times)
        })
        .collect::<Result<_, MakeError>>()?;
    let of_step = |place: usize| each.iter().map(|times| times[place]).collect();
    Ok(steps
        .iter()
        .enumerate()
        .map(|(place, step)| (step.clone(), of_step(place)))
        .collect())
}

/// Seconds of every turn on one sort, in the order of the turns.
fn on_one(
    job: &Job<'_>,
    sort: &Sort,
    ground: &Diagram,
    (cutters, depths): (&[&Cutter], &[f64]),
    steps: &BTreeSet<Step>,
    progress: &Progress,
) -> Result<Vec<f64>, MakeError> {
    let machine = &job.workshop.machine;
    let on = hop_s(sort, job.commission.planks.lane.in_mm(), machine);
    let mut planned = Planned::new(job, sort, ground, cutters, depths);
    let mut times = Vec::new();
    for step in steps {
        progress.check()?;
        let Some((passes, cutter)) = planned.turn(step) else {
            times.push(0.0);
            continue;
        };
        let toolpath = join_one(&passes, cutter, machine);
        let seconds = duration::of_motions(&toolpath.motions, machine);
        let idle = toolpath.motions.is_empty();
        times.push(if idle { 0.0 } else { seconds + on });
    }
    Ok(times)
}

/// What was planned on one sort so far, so that turns which begin alike go on from the same state.
struct Planned<'a> {
    job: &'a Job<'a>,
    sort: &'a Sort,
    ground: &'a Diagram,
    cutters: &'a [&'a Cutter],
    depths: &'a [f64],
    /// The flat cutter that is run first where there are all.
    largest: usize,
    /// Before any cutter.
    fresh: Planning<'a>,
    /// After the cutters of the key; after what comes to the same ground.
    states: BTreeMap<Step, Planning<'a>>,
}

impl<'a> Planned<'a> {
    fn new(
        job: &'a Job<'a>,
        sort: &'a Sort,
        ground: &'a Diagram,
        cutters: &'a [&'a Cutter],
        depths: &'a [f64],
    ) -> Planned<'a> {
        let flat: Vec<&Cutter> = cutters
            .iter()
            .copied()
            .filter(|cutter| is_flat(cutter))
            .collect();
        Planned {
            job,
            sort,
            ground,
            cutters,
            depths,
            largest: 0,
            fresh: Planning::new(sort, ground, job.commission, &job.workshop.machine, &flat),
            states: BTreeMap::new(),
        }
    }

    /// The passes of a turn and the cutter that makes them; `None` for no cutter.
    fn turn(&mut self, step: &[usize]) -> Option<(SortPasses, &'a Cutter)> {
        let (&last, before) = step.split_last()?;
        let cutter = self.cutters[last];
        if !is_flat(cutter) {
            return self.sharpened(step).map(|passes| (passes, cutter));
        }
        let mut state = self.after(before);
        let passes = state.next(cutter, None);
        if let [largest] = before
            && *largest == self.largest
            && self.clears_as_deep(last)
        {
            self.states.entry(vec![last]).or_insert(state);
        } else if before.is_empty() {
            self.states.insert(step.to_vec(), state);
        }
        Some((passes, cutter))
    }

    /// Whether what a cutter reaches is cleared alike by it alone and by it after the largest one.
    fn clears_as_deep(&self, number: usize) -> bool {
        number != self.largest && self.depths[self.largest] <= self.depths[number]
    }

    /// The passes of the last of a turn's cones, after the others of it.
    fn sharpened(&self, step: &[usize]) -> Option<SortPasses> {
        let smallest = self.cutters[*step.first()?];
        let commission = self.job.with_cutters(step, self.cutters);
        let (passes, _) = sharpen(
            self.sort,
            self.ground,
            &commission,
            self.job.workshop,
            smallest,
        );
        let last = &self.cutters[*step.last()?].id;
        passes.into_iter().find(|passes| passes.cutter == *last)
    }

    /// The state after these cutters.
    fn after(&mut self, before: &[usize]) -> Planning<'a> {
        if let Some(state) = self.states.get(before) {
            return state.clone();
        }
        let Some((&last, earlier)) = before.split_last() else {
            return self.fresh.clone();
        };
        // What comes after a cutter depends on the ground that is cleared by then. Alone, a small cutter would take long to
        // plan; after the largest one it comes to the same ground. Bound: the next call has the largest alone, or one less.
        let mut state = if earlier.is_empty() && self.clears_as_deep(last) {
            self.after(&[self.largest])
        } else {
            self.after(earlier)
        };
        state.next(self.cutters[last], None);
        self.states.insert(before.to_vec(), state.clone());
        state
    }
}

/// Seconds for a rapid move from one copy to the next beside it.
fn hop_s(sort: &Sort, lane_mm: f64, machine: &Machine) -> f64 {
    duration::rapid_from_rest_to_rest(sort.block.set_mm + lane_mm, machine, 0)
}
