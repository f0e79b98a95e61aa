//! Survey and passes of every distinct sort, side by side.

use std::sync::Arc;

use rayon::prelude::*;

use crate::commission::Commission;
use crate::finding::Finding;
use crate::make::MakeError;
use crate::make::surveyed::{SurveyedSort, survey_one};
use crate::pass::{self, SortPasses};
use crate::progress::Progress;
use crate::sort::Sort;
use crate::survey::Survey;
use crate::workshop::Workshop;

/// What was worked out of the sorts, each list in their order.
pub struct Worked {
    pub surveys: Vec<Arc<Survey>>,
    pub passes: Vec<Arc<Vec<SortPasses>>>,
    pub findings: Vec<Finding>,
}

/// Surveys every sort and plans its passes. A sort whose ground cannot be mapped gets a stop and no passes.
pub fn work_out(
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
    progress: &Progress,
) -> Result<Worked, MakeError> {
    progress.begin("Working out the passes", sorts.len());
    let each: Vec<_> = sorts
        .par_iter()
        .map(|sort| {
            progress.check()?;
            let one = work_out_one(sort, commission, workshop);
            progress.advance();
            one
        })
        .collect::<Result<_, MakeError>>()?;

    let mut worked = Worked {
        surveys: Vec::new(),
        passes: Vec::new(),
        findings: Vec::new(),
    };
    for (survey, passes, findings) in each {
        worked.surveys.push(Arc::new(survey));
        worked.passes.push(Arc::new(passes));
        worked.findings.extend(findings);
    }
    Ok(worked)
}

/// Surveys one sort and plans its passes.
pub(crate) fn work_out_one(
    sort: &Sort,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<(Survey, Vec<SortPasses>, Vec<Finding>), MakeError> {
    let SurveyedSort {
        ground,
        survey,
        mut findings,
    } = survey_one(sort, commission, workshop);
    let Some(ground) = ground else {
        return Ok((survey, Vec::new(), findings));
    };
    let (passes, of_passes) = pass::plan(sort, &ground, commission, workshop)?;
    findings.extend(of_passes);
    Ok((survey, passes, findings))
}
