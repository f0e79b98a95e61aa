//! What is left to be done by hand.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use super::Job;
use super::choice::Step;
use super::time::Grounds;
use crate::commission::Commission;
use crate::make::MakeError;
use crate::progress::Progress;
use crate::survey;
use crate::workshop::{Cutter, Workshop};

/// What is left on all copies.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Left {
    pub corners: u64,
    pub ground_mm2: f64,
    /// Ground that the last of the cutters reaches.
    pub reached_mm2: f64,
}

pub(super) type ByHand = BTreeMap<Step, Left>;

/// What is left on all copies after each of the ends, as the survey finds it.
pub(super) fn by_hand(
    job: &Job<'_>,
    grounds: &Grounds,
    cutters: &[&Cutter],
    ends: &BTreeSet<Step>,
    progress: &Progress,
) -> Result<ByHand, MakeError> {
    let workshop = Workshop {
        cutters: cutters.iter().map(|&cutter| cutter.clone()).collect(),
        ..job.workshop.clone()
    };
    let orders: Vec<(&Step, Commission)> = ends
        .iter()
        .map(|end| (end, job.with_cutters(end, cutters)))
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
                        reached_mm2: survey
                            .cutters
                            .last()
                            .map_or(0.0, |made| made.reached_mm2 * f64::from(sort.count)),
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
            reached_mm2: sum.reached_mm2 + left[place].reached_mm2,
        })
    };
    Ok(orders
        .iter()
        .enumerate()
        .map(|(place, (end, _))| ((*end).clone(), total(place)))
        .collect())
}
