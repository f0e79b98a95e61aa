//! The planks as they are to be, at once after a change, before the programs are written anew.

use std::sync::Arc;

use cam_core::commission::Commission;
use cam_core::finding::Finding;
use cam_core::make::Job;
use cam_core::plank::{Plank, lay_out};
use cam_core::sort::Sort;

use super::super::super::Desk;

/// The most blocks that are laid out while the maker waits.
const MOST_AT_ONCE: u32 = 600;

/// What was laid out last.
#[derive(Default)]
pub(super) struct Preview {
    laid: Option<(Basis, Arc<Shown>)>,
}

/// What a layout was made from.
struct Basis {
    commission: Arc<Commission>,
    job: Arc<Job>,
    job_is_old: bool,
    drawn: Option<*const Arc<Sort>>,
}

/// Planks with the sorts that lie on them.
pub(super) struct Shown {
    pub planks: Vec<Plank>,
    pub sorts: Vec<Arc<Sort>>,
    pub at_least: usize,
    pub findings: Vec<Finding>,
}

impl Preview {
    /// The planks of the job, or while that is of an earlier revision those of the commission as it is now.
    pub(super) fn of(&mut self, desk: &Desk, job: &Arc<Job>) -> Arc<Shown> {
        let commission = desk.document.commission();
        let basis = Basis {
            commission: Arc::clone(commission),
            job: Arc::clone(job),
            job_is_old: desk.job_is_old,
            drawn: desk.drawn.map(|drawn| drawn.sorts.as_ptr()),
        };
        if let Some((of, shown)) = &self.laid
            && of.is(&basis)
        {
            return Arc::clone(shown);
        }
        let sorts = desk.drawn.map(|drawn| &drawn.sorts);
        let sorts = sorts.filter(|_| desk.job_is_old);
        let laid = sorts
            .filter(|sorts| sorts.iter().map(|sort| sort.count).sum::<u32>() <= MOST_AT_ONCE)
            .and_then(|sorts| {
                let laid = lay_out(sorts, commission, desk.document.workshop()).ok()?;
                Some((sorts.clone(), laid))
            });
        let shown = Arc::new(match laid {
            Some((sorts, laid)) => Shown {
                planks: laid.planks,
                sorts,
                at_least: laid.at_least,
                findings: laid.findings,
            },
            None => Shown {
                planks: job.planks.clone(),
                sorts: job.sorts.clone(),
                at_least: job.at_least_planks,
                findings: of_planks(job),
            },
        });
        self.laid = Some((basis, Arc::clone(&shown)));
        shown
    }
}

impl Basis {
    fn is(&self, other: &Basis) -> bool {
        Arc::ptr_eq(&self.commission, &other.commission)
            && Arc::ptr_eq(&self.job, &other.job)
            && self.job_is_old == other.job_is_old
            && self.drawn == other.drawn
    }
}

/// The findings of a job that speak of planks and pins.
fn of_planks(job: &Job) -> Vec<Finding> {
    let speaks = |finding: &&Finding| {
        ["stock", "pin", "plank", "not-to-be-sawn"]
            .iter()
            .any(|kind| finding.kind.starts_with(kind))
    };
    job.findings.iter().filter(speaks).cloned().collect()
}
