//! Prices of an order made otherwise, without writing its programs.
//!
//! What a sort takes is worked out once for each face, block and way of cutting, and known from then on; so another bill costs
//! no planning at all ([`Estimates::at_once`]). Programs also take ways between sorts and from plank to plank: the time of the passes is stretched by as
//! much as the programs of the order as it stands take longer than its passes.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

use crate::commission::{Commission, Separation};
use crate::digest::sha256_hex;
use crate::make::{Fonts, Job, MakeError, drawn_up, work_out_one};
use crate::pass;
use crate::plank::{self, Plank};
use crate::progress::Progress;
use crate::quote::by_sort::{alone, seconds_alone};
use crate::quote::{Made, Quote, priced};
use crate::sort::Sort;
use crate::survey::Survey;
use crate::toolpath::{duration, join_separation};
use crate::workshop::Workshop;

/// What is known of so many sorts is kept at the most; beyond it, what the newest job does not tell is forgotten.
const MOST_KNOWN: usize = 4_000;

/// What is known of sorts so far.
pub struct Estimates {
    known: BTreeMap<String, (Arc<Survey>, f64)>,
    /// Time of programs by time of passes.
    stretch: f64,
}

impl Estimates {
    /// What a job tells, that was made of this commission in this workshop.
    pub fn from(job: &Job, commission: &Commission, workshop: &Workshop) -> Estimates {
        let alone = seconds_alone(&job.sorts, &job.passes, workshop);
        Estimates::knowing(&alone, job, commission, workshop)
    }

    /// The same with the job's price, for which the same is worked out.
    pub fn with_quote(
        job: &Job,
        commission: &Commission,
        workshop: &Workshop,
    ) -> (Estimates, Quote) {
        let alone = seconds_alone(&job.sorts, &job.passes, workshop);
        (
            Estimates::knowing(&alone, job, commission, workshop),
            Quote::knowing(&alone, job, commission, workshop),
        )
    }

    /// Takes over what was known before of other sorts.
    pub fn remember(&mut self, earlier: Estimates) {
        if self.known.len() + earlier.known.len() <= MOST_KNOWN {
            for (key, known) in earlier.known {
                self.known.entry(key).or_insert(known);
            }
        }
    }

    fn knowing(
        alone: &[f64],
        job: &Job,
        commission: &Commission,
        workshop: &Workshop,
    ) -> Estimates {
        let separating = separation_seconds(&job.planks, &job.sorts, commission, workshop);
        let of_passes = of_planks(&job.planks, alone) + separating;
        let estimated: f64 = job.programs.iter().map(|program| program.estimate_s).sum();
        let of_programs = workshop
            .machine
            .real_seconds(estimated, job.programs.len() as u32);
        let known =
            job.sorts
                .iter()
                .zip(&job.surveys)
                .zip(alone)
                .map(|((sort, survey), &seconds)| {
                    (key(sort, commission, workshop), (survey.clone(), seconds))
                });
        Estimates {
            known: known.collect(),
            stretch: if of_passes > 0.0 {
                of_programs / of_passes
            } else {
                1.0
            },
        }
    }

    /// The price of a commission, estimated.
    ///
    /// # Errors
    /// When nothing can be made of it, or the work was stopped.
    pub fn quote(
        &mut self,
        commission: &Commission,
        workshop: &Workshop,
        fonts: &Fonts,
        progress: &Progress,
    ) -> Result<Quote, MakeError> {
        let (sorts, keys) = keyed(commission, workshop, fonts, progress)?;
        let new: Vec<(&String, &Arc<Sort>)> = keys
            .iter()
            .zip(&sorts)
            .filter(|(key, _)| !self.known.contains_key(*key))
            .collect();
        progress.begin("Estimating", new.len());
        let found: Vec<(String, (Arc<Survey>, f64))> = new
            .into_par_iter()
            .map(|(key, sort)| {
                progress.check()?;
                let (survey, passes, _) = work_out_one(sort, commission, workshop)?;
                progress.advance();
                Ok((key.clone(), (Arc::new(survey), alone(&passes, workshop))))
            })
            .collect::<Result<_, MakeError>>()?;
        self.known.extend(found);
        self.of_known(&sorts, &keys, commission, workshop)
    }

    /// The same without any planning: `None` if some sort is not known yet.
    ///
    /// # Errors
    /// When nothing can be made of it, or the work was stopped.
    pub fn at_once(
        &self,
        commission: &Commission,
        workshop: &Workshop,
        fonts: &Fonts,
        progress: &Progress,
    ) -> Result<Option<Quote>, MakeError> {
        let (sorts, keys) = keyed(commission, workshop, fonts, progress)?;
        if !keys.iter().all(|key| self.known.contains_key(key)) {
            return Ok(None);
        }
        self.of_known(&sorts, &keys, commission, workshop).map(Some)
    }

    /// The price of sorts all of which are known.
    fn of_known(
        &self,
        sorts: &[Arc<Sort>],
        keys: &[String],
        commission: &Commission,
        workshop: &Workshop,
    ) -> Result<Quote, MakeError> {
        let of_sorts: Vec<&(Arc<Survey>, f64)> =
            keys.iter().filter_map(|key| self.known.get(key)).collect();
        let alone: Vec<f64> = of_sorts.iter().map(|known| known.1).collect();
        let surveys: Vec<Arc<Survey>> = of_sorts.iter().map(|known| known.0.clone()).collect();
        let planks = plank::lay_out(sorts, commission, workshop)?.planks;
        let separating = separation_seconds(&planks, sorts, commission, workshop);
        let cutters = commission.cutting.cutters.len() as u32;
        let to_part = match commission.planks.separation {
            Separation::Router { .. } => 1,
            Separation::Saw => 0,
        };
        Ok(priced(
            &Made {
                sorts,
                surveys: &surveys,
                seconds_alone: &alone,
                seconds: (of_planks(&planks, &alone) + separating) * self.stretch,
                changes: (cutters + to_part) * planks.len() as u32,
                planks: &planks,
            },
            commission,
            workshop,
        ))
    }
}

/// The sorts of a commission, drawn up, with what they are known by.
fn keyed(
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<(Vec<Arc<Sort>>, Vec<String>), MakeError> {
    let drawn = drawn_up(commission, workshop, fonts, progress)?;
    let sorts: Vec<Arc<Sort>> = drawn.sorts.into_iter().map(Arc::new).collect();
    let keys = sorts
        .par_iter()
        .map(|sort| key(sort, commission, workshop))
        .collect();
    Ok((sorts, keys))
}

/// What all copies on planks take, each by itself, s.
fn of_planks(planks: &[Plank], alone: &[f64]) -> f64 {
    let places = planks.iter().flat_map(|plank| &plank.places);
    places.filter_map(|place| alone.get(place.sort)).sum()
}

/// What cutting the blocks out takes, s.
fn separation_seconds(
    planks: &[Plank],
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
) -> f64 {
    let Separation::Router { cutter, .. } = &commission.planks.separation else {
        return 0.0;
    };
    let Some(cutter) = workshop.cutter(cutter) else {
        return 0.0;
    };
    planks
        .par_iter()
        .map(|plank| {
            let passes = pass::separation(plank, sorts, commission, workshop).ok();
            passes.map_or(0.0, |passes| {
                let motions = join_separation(&passes, cutter, &workshop.machine).motions;
                duration::of_motions(&motions, &workshop.machine)
            })
        })
        .collect::<Vec<f64>>()
        .into_iter()
        .sum()
}

/// All that the passes over a sort depend on.
fn key(sort: &Sort, commission: &Commission, workshop: &Workshop) -> String {
    let cutters: Vec<_> = commission
        .cutting
        .cutters
        .iter()
        .map(|id| workshop.cutter(id))
        .collect();
    sha256_hex(
        format!(
            "{:?} {:?} {:?} {:?} {cutters:?} {:?}",
            sort.face, sort.block, commission.cutting, commission.planks.lane, workshop.machine,
        )
        .as_bytes(),
    )
}
