//! The long work of the window: each function takes a snapshot and answers with a result or a sentence.

use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};

use cam_core::commission::Commission;
use cam_core::cutter_set::{CutterSets, cutter_sets};
use cam_core::finding::{Finding, Severity, gravest};
use cam_core::make::{Fonts, Job, make};
use cam_core::notch::drawn_and_cut;
use cam_core::progress::Progress;
use cam_core::quote::{Estimates, Quote};
use cam_core::sort::Sort;
use cam_core::workshop::Workshop;
use rayon::ThreadPoolBuilder;

use crate::files::RealDisk;
use crate::files::folder::{check_target, write_job};

/// The sorts of a commission, before anything is worked out about cutting them.
#[derive(Clone, Debug, Default)]
pub struct Drawn {
    /// One for each distinct sort.
    pub sorts: Vec<Arc<Sort>>,
    /// What was found on the way.
    pub findings: Vec<Finding>,
}

/// A snapshot of everything that a make needs.
#[derive(Clone, Debug)]
pub struct Snapshot {
    /// The commission.
    pub commission: Arc<Commission>,
    /// The workshop.
    pub workshop: Arc<Workshop>,
    /// The fonts.
    pub fonts: Arc<Fonts>,
}

/// Does work that is looked for at once on threads of its own: the job is made at the same time, and would have it wait.
fn beside_the_job<T: Send>(work: impl FnOnce() -> T + Send) -> T {
    match ThreadPoolBuilder::new().build() {
        Ok(threads) => threads.install(work),
        // A system that is out of threads.
        Err(_) => work(),
    }
}

/// Draws the sorts up.
///
/// # Errors
/// A sentence.
pub fn drawn(snapshot: &Snapshot, progress: &Progress) -> Result<Drawn, String> {
    let Snapshot {
        commission,
        workshop,
        fonts,
    } = snapshot;
    let drawn = beside_the_job(|| drawn_and_cut(commission, workshop, fonts, progress))
        .map_err(|error| error.to_string())?;
    Ok(Drawn {
        sorts: drawn.sorts.into_iter().map(Arc::new).collect(),
        findings: drawn.findings,
    })
}

/// Makes the whole job.
///
/// # Errors
/// A sentence.
pub fn made(snapshot: &Snapshot, progress: &Progress) -> Result<Arc<Job>, String> {
    make(
        &snapshot.commission,
        &snapshot.workshop,
        &snapshot.fonts,
        progress,
    )
    .map(Arc::new)
    .map_err(|error| error.to_string())
}

/// Prices all sets of the workshop's cutters.
///
/// # Errors
/// A sentence.
pub fn priced_sets(snapshot: &Snapshot, progress: &Progress) -> Result<Arc<CutterSets>, String> {
    cutter_sets(
        &snapshot.commission,
        &snapshot.workshop,
        &snapshot.fonts,
        progress,
    )
    .map(Arc::new)
    .map_err(|error| error.to_string())
}

/// What is known of sorts that were made, for prices at once; nothing before the first job.
pub type Known = Arc<Mutex<Option<Estimates>>>;

/// Prices a job that was made of a snapshot, and keeps what it tells of its sorts.
pub fn quoted(job: &Job, snapshot: &Snapshot, known: &Known) -> Quote {
    let (mut estimates, quote) =
        Estimates::with_quote(job, &snapshot.commission, &snapshot.workshop);
    // What an earlier job told of its sorts is whole, however that ended.
    let mut known = known.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(earlier) = known.take() {
        estimates.remember(earlier);
    }
    *known = Some(estimates);
    quote
}

/// Prices an order all of whose sorts are known, without planning; `None` if some are not, or it cannot be made.
pub fn priced_at_once(snapshot: &Snapshot, known: &Known, progress: &Progress) -> Option<Quote> {
    let known = known.lock().unwrap_or_else(PoisonError::into_inner);
    let estimates = known.as_ref()?;
    let Snapshot {
        commission,
        workshop,
        fonts,
    } = snapshot;
    beside_the_job(|| estimates.at_once(commission, workshop, fonts, progress))
        .ok()
        .flatten()
}

/// Writes the job of a snapshot into a folder; `present` is the job, if it was made already. Answers with the sentence to show.
///
/// # Errors
/// A sentence.
pub fn exported(
    snapshot: &Snapshot,
    present: Option<Arc<Job>>,
    target: &Path,
    progress: &Progress,
) -> Result<String, String> {
    check_target(target).map_err(|error| error.to_string())?;
    let job = match present {
        Some(job) => job,
        None => made(snapshot, progress)?,
    };
    if let Some(stop) = stopping(&job.findings) {
        return Err(format!(
            "Nothing was written, because {} stops it: {}",
            stop.subject, stop.text
        ));
    }
    write_job(&RealDisk, target, &job, progress).map_err(|error| error.to_string())?;
    Ok(format!(
        "{} for {} written to {}. {}",
        counted(job.programs.len(), "program", "programs"),
        counted(job.planks.len(), "plank", "planks"),
        target.display(),
        caution()
    ))
}

/// The first finding that keeps programs from being written.
pub fn stopping(findings: &[Finding]) -> Option<&Finding> {
    if gravest(findings) < Some(Severity::Stop) {
        return None;
    }
    findings
        .iter()
        .find(|finding| finding.severity == Severity::Stop)
}

/// A number and its noun.
pub fn counted(number: usize, one: &str, many: &str) -> String {
    if number == 1 {
        format!("1 {one}")
    } else {
        format!("{number} {many}")
    }
}

/// What is said wherever programs are handed over.
pub fn caution() -> &'static str {
    "Read the setup sheet and its cautions before cutting; your machine's manual comes first."
}

/// Seconds as hours and minutes.
pub fn duration_in_words(seconds: f64) -> String {
    let minutes = (seconds.max(0.0) / 60.0).ceil() as u64;
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, minutes) => format!("{hours} h {minutes:02} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cam_core::finding::Subject;
    use said::Said;

    #[test]
    fn durations_are_rounded_up_to_minutes() {
        assert_eq!(duration_in_words(0.0), "0 min");
        assert_eq!(duration_in_words(59.0), "1 min");
        assert_eq!(duration_in_words(3601.0), "1 h 01 min");
        assert_eq!(duration_in_words(f64::NAN), "0 min");
    }

    #[test]
    fn only_a_stop_stops() {
        let finding = |severity| Finding {
            severity,
            subject: Subject::Commission,
            kind: "test",
            text: Said::default(),
            remedy: Said::default(),
        };
        assert!(stopping(&[]).is_none());
        assert!(stopping(&[finding(Severity::Warning), finding(Severity::Note)]).is_none());
        assert!(stopping(&[finding(Severity::Note), finding(Severity::Stop)]).is_some());
    }
}
