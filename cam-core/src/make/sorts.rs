//! Survey and passes of every distinct sort, side by side.

use std::sync::Arc;

use rayon::prelude::*;

use crate::commission::Commission;
use crate::finding::{Finding, Severity, Subject};
use crate::make::MakeError;
use crate::pass::{self, SortPasses};
use crate::progress::Progress;
use crate::sort::Sort;
use crate::survey::{self, Survey};
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

fn work_out_one(
    sort: &Sort,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<(Survey, Vec<SortPasses>, Vec<Finding>), MakeError> {
    let ground = match survey::ground(sort, commission.planks.lane) {
        Ok(ground) => ground,
        Err(error) => {
            return Ok((
                Survey::default(),
                Vec::new(),
                vec![unmapped(sort, &error.to_string())],
            ));
        }
    };
    let (survey, mut findings) = survey::survey(sort, &ground, commission, workshop);
    let (passes, of_passes) = pass::plan(sort, &ground, commission, workshop)?;
    findings.extend(of_passes);
    Ok((survey, passes, findings))
}

/// The stop of a sort whose ground cannot be mapped.
pub fn unmapped(sort: &Sort, why: &str) -> Finding {
    Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(sort.name.clone()),
        kind: "ground-not-mapped",
        text: why.to_owned(),
        remedy: "Change the drawing or the block, or leave this sort out.".to_owned(),
    }
}
