//! The proof: what the finished programs will do, judged from their text and the job file alone.
//!
//! Nothing here uses the passes, the planks or the toolpaths of the make that wrote the programs. The text is read back by
//! [`reader::read`], laid on the plank that the job file describes, and judged by the [`CHECKS`]. What the blocks will
//! print is drawn in [`impression`].

use std::collections::BTreeMap;

use crate::finding::{Finding, Severity};
use crate::job_file::JobFile;
use crate::progress::{Progress, Stopped};

mod bench;
mod checks;
mod copies;
pub mod course;
mod descents;
mod difference;
mod heights;
pub mod impression;
mod judge;
mod motion;
mod near;
mod raster;
mod report;
mod runs;
mod solid;
mod squareness;

pub use checks::{CHECKS, Check};
pub use difference::Difference;
pub use heights::{HeightMap, HeightMapError, height_map};
pub use judge::{Judge, Proven};

/// Judges the programs of a job: `programs` holds the text of each by its file name in the job file.
///
/// Findings come gravest first; among equals in the order of [`CHECKS`], of programs and of lines. The same job gives the same
/// findings on one thread or many. That there are none says only that nothing was found by these checks.
///
/// # Errors
/// When the work was stopped.
pub fn check(
    job: &JobFile,
    programs: &BTreeMap<String, String>,
    progress: &Progress,
) -> Result<Vec<Finding>, Stopped> {
    // Laying out the grounds and cutting the planks, which take longest, add their own parts.
    progress.begin("Reading the programs back", CHECKS.len() + 1);
    let judge = Judge::lay(job, progress)?;
    judge.check(programs, progress)
}

/// Whether no finding keeps the programs from being written or run.
pub fn passes(findings: &[Finding]) -> bool {
    findings
        .iter()
        .all(|finding| finding.severity != Severity::Stop)
}

#[cfg(test)]
mod tests;
