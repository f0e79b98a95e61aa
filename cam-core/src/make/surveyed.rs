//! Sorts and their surveys alone: what the cutters reach, without planning how they run.

use std::sync::Arc;

use geometry::diagram::Diagram;
use rayon::prelude::*;

use crate::border;
use crate::commission::Commission;
use crate::finding::{Finding, Severity, Subject, texts};
use crate::make::{Fonts, MakeError, refuse_unusable};
use crate::notch;
use crate::progress::Progress;
use crate::replacement::compare;
use crate::sort::{DrawnUp, Sort};
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
    let DrawnUp {
        sorts,
        mut findings,
        ..
    } = drawn_up(commission, workshop, fonts, progress)?;
    progress.begin("Surveying the sorts", sorts.len());
    let each: Vec<SurveyedSort> = sorts
        .par_iter()
        .map(|sort| {
            progress.check()?;
            let surveyed = survey_one(sort, commission, workshop);
            progress.advance();
            Ok(surveyed)
        })
        .collect::<Result<_, MakeError>>()?;
    let mut surveys = Vec::new();
    for one in each {
        surveys.push(Arc::new(one.survey));
        findings.extend(one.findings);
    }
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(Surveyed {
        sorts: sorts.into_iter().map(Arc::new).collect(),
        surveys,
        findings,
    })
}

/// Draws the sorts of a commission up, after refusing what no job can be made of, and compares those of a replacement with the fount that
/// was made first.
///
/// # Errors
/// When nothing can be drawn up at all, or the work was stopped.
pub fn drawn_up(
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<DrawnUp, MakeError> {
    refuse_unusable(commission, workshop)?;
    let mut drawn = notch::drawn_and_cut(commission, workshop, fonts, progress)?;
    drawn
        .findings
        .extend(border::findings(commission, &drawn.sorts));
    if let Some(record) = &commission.replaces {
        let compared = compare(record, commission, workshop, &drawn.sorts);
        drawn.findings.extend(compared);
    }
    Ok(drawn)
}

/// One sort surveyed.
pub(super) struct SurveyedSort {
    /// The sort's ground, if it can be mapped.
    pub ground: Option<Diagram>,
    /// The survey; empty without a ground.
    pub survey: Survey,
    pub findings: Vec<Finding>,
}

/// Maps a sort's ground and surveys it; a sort whose ground cannot be mapped gets a stop.
pub(super) fn survey_one(
    sort: &Sort,
    commission: &Commission,
    workshop: &Workshop,
) -> SurveyedSort {
    match map_ground(sort, commission) {
        Ok(ground) => {
            let (survey, findings) = survey::survey(sort, &ground, commission, workshop);
            SurveyedSort {
                ground: Some(ground),
                survey,
                findings,
            }
        }
        Err(stop) => SurveyedSort {
            ground: None,
            survey: Survey::default(),
            findings: vec![stop],
        },
    }
}

/// The ground of a sort, or the stop where it cannot be mapped.
pub(crate) fn map_ground(sort: &Sort, commission: &Commission) -> Result<Diagram, Finding> {
    survey::ground(sort, commission.planks.lane).map_err(|error| Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(sort.name.clone()),
        kind: "ground-not-mapped",
        text: error.to_string().into(),
        remedy: texts::ground_not_mapped_remedy(),
    })
}
