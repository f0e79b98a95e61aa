//! What is left to be done by hand.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use super::Job;
use super::choice::is_flat;
use super::time::Grounds;
use crate::commission::Commission;
use crate::make::MakeError;
use crate::progress::Progress;
use crate::survey;
use crate::workshop::{Cutter, Workshop};

/// The cutters that decide what is left: the smallest flat one, and all conical ones, as indexes in rising order.
pub(super) type End = Vec<usize>;

/// What is left on all copies.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Left {
    pub corners: u64,
    pub ground_mm2: f64,
}

pub(super) type ByHand = BTreeMap<End, Left>;

/// What decides what a set leaves.
pub(super) fn end(set: &[usize], cutters: &[&Cutter]) -> End {
    let smallest = set
        .iter()
        .copied()
        .filter(|&number| is_flat(cutters[number]))
        .next_back();
    let cones = set
        .iter()
        .copied()
        .filter(|&number| !is_flat(cutters[number]));
    smallest.into_iter().chain(cones).collect()
}

/// Every end that any of the sets has.
pub(super) fn ends(sets: &[Vec<usize>], cutters: &[&Cutter]) -> BTreeSet<End> {
    sets.iter().map(|set| end(set, cutters)).collect()
}

/// What is left on all copies after each of the ends, as the survey finds it.
pub(super) fn by_hand(
    job: &Job<'_>,
    grounds: &Grounds,
    cutters: &[&Cutter],
    ends: &BTreeSet<End>,
    progress: &Progress,
) -> Result<ByHand, MakeError> {
    let workshop = Workshop {
        cutters: cutters.iter().map(|&cutter| cutter.clone()).collect(),
        ..job.workshop.clone()
    };
    let orders: Vec<(&End, Commission)> = ends
        .iter()
        .map(|end| {
            let mut commission = job.commission.clone();
            commission.cutting.cutters = end
                .iter()
                .map(|&number| cutters[number].id.clone())
                .collect();
            (end, commission)
        })
        .collect();
    progress.begin("Surveying the corners", job.sorts.len());
    let each: Vec<Vec<Left>> = job
        .sorts
        .par_iter()
        .zip(grounds)
        .map(|(sort, ground)| {
            let left = orders
                .iter()
                .map(|(_, commission)| {
                    progress.check()?;
                    let Some(ground) = ground else {
                        return Ok(Left::default());
                    };
                    let (survey, _) = survey::survey(sort, ground, commission, &workshop);
                    Ok(Left {
                        corners: survey.corners.len() as u64 * u64::from(sort.count),
                        ground_mm2: survey.unreached_mm2 * f64::from(sort.count),
                    })
                })
                .collect::<Result<_, MakeError>>();
            progress.advance();
            left
        })
        .collect::<Result<_, MakeError>>()?;
    let total = |place: usize| {
        each.iter().fold(Left::default(), |sum, left| Left {
            corners: sum.corners + left[place].corners,
            ground_mm2: sum.ground_mm2 + left[place].ground_mm2,
        })
    };
    Ok(orders
        .iter()
        .enumerate()
        .map(|(place, (end, _))| ((*end).clone(), total(place)))
        .collect())
}
