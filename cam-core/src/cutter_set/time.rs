//! The machine's time for each cutter's turn on each sort.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use geometry::diagram::Diagram;
use rayon::prelude::*;

use super::Job;
use super::choice::Step;
use crate::finding::Finding;
use crate::make::{MakeError, map_ground};
use crate::pass::Planning;
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
    cutters: &[&Cutter],
    steps: &BTreeSet<Step>,
    progress: &Progress,
) -> Result<Seconds, MakeError> {
    progress.begin("Timing the cutters", job.sorts.len());
    let sorts: Vec<(&Arc<Sort>, &Option<Diagram>)> = job.sorts.iter().zip(grounds).collect();
    let each: Vec<Vec<f64>> = sorts
        .into_par_iter()
        .map(|(sort, ground)| {
            let times = match ground {
                Some(ground) => on_one(job, sort, ground, cutters, steps, progress)?,
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
    cutters: &[&Cutter],
    steps: &BTreeSet<Step>,
    progress: &Progress,
) -> Result<Vec<f64>, MakeError> {
    let machine = &job.workshop.machine;
    let on = hop_s(sort, job.commission.planks.lane.in_mm(), machine);
    let mut states: BTreeMap<&[usize], Planning<'_>> = BTreeMap::new();
    states.insert(&[], Planning::new(sort, ground, job.commission, cutters));
    let mut times = Vec::new();
    for step in steps {
        let Some((&last, before)) = step.split_last() else {
            continue;
        };
        // Turns come in order, each after those that it begins with; what was not planned by itself is planned on the way.
        for end in 1..=before.len() {
            if !states.contains_key(&before[..end]) {
                progress.check()?;
                let mut state = states[&before[..end - 1]].clone();
                state.next(cutters[before[end - 1]]);
                states.insert(&before[..end], state);
            }
        }
        progress.check()?;
        let mut state = states[before].clone();
        let passes = state.next(cutters[last]);
        let toolpath = join_one(&passes, cutters[last], machine);
        let seconds = duration::of_motions(&toolpath.motions, machine);
        times.push(if toolpath.motions.is_empty() {
            0.0
        } else {
            seconds + on
        });
        states.insert(step, state);
    }
    Ok(times)
}

/// Seconds for a rapid move from one copy to the next beside it, from rest to rest.
fn hop_s(sort: &Sort, lane_mm: f64, machine: &Machine) -> f64 {
    const SECONDS_PER_MINUTE: f64 = 60.0;
    let distance = sort.block.set_mm + lane_mm;
    let speed = machine.rapid_mm_min[0] / SECONDS_PER_MINUTE;
    let acceleration = machine.acceleration_mm_s2[0];
    if distance >= speed * speed / acceleration {
        distance / speed + speed / acceleration
    } else {
        2.0 * (distance / acceleration).sqrt()
    }
}
