//! Sorts and their surveys alone: what the cutters reach, without planning how they run.

use std::sync::Arc;

use rayon::prelude::*;

use crate::commission::Commission;
use crate::finding::Finding;
use crate::make::{Fonts, MakeError, refuse_unusable, sorts::unmapped};
use crate::progress::Progress;
use crate::sort::{self, DrawnUp, Sort};
use crate::survey::{self, Survey};
use crate::workshop::Workshop;

/// The sorts of a commission and what the cutters reach on each.
#[derive(Clone, Debug, Default)]
pub struct Surveyed {
    /// One entry per distinct sort.
    pub sorts: Vec<Arc<Sort>>,
    /// The survey of each; empty where a sort's ground could not be mapped.
    pub surveys: Vec<Arc<Survey>>,
    /// All findings so far, gravest first.
    pub findings: Vec<Finding>,
}

/// Draws the sorts up and surveys them, as [`make`](crate::make::make) does, and goes no further.
///
/// # Errors
/// When nothing can be made of the commission at all, or the work was stopped.
pub fn survey_sorts(
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<Surveyed, MakeError> {
    refuse_unusable(commission, workshop)?;
    let DrawnUp {
        sorts,
        mut findings,
    } = sort::draw_up(commission, fonts, progress)?;
    progress.begin("Surveying the sorts", sorts.len());
    let each: Vec<(Survey, Vec<Finding>)> = sorts
        .par_iter()
        .map(|sort| {
            progress.check()?;
            let surveyed = match survey::ground(sort, commission.planks.lane) {
                Ok(ground) => survey::survey(sort, &ground, commission, workshop),
                Err(error) => (Survey::default(), vec![unmapped(sort, &error.to_string())]),
            };
            progress.advance();
            Ok(surveyed)
        })
        .collect::<Result<_, MakeError>>()?;
    let mut surveys = Vec::new();
    for (survey, found) in each {
        surveys.push(Arc::new(survey));
        findings.extend(found);
    }
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(Surveyed {
        sorts: sorts.into_iter().map(Arc::new).collect(),
        surveys,
        findings,
    })
}
