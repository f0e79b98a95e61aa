//! A made job as others read it: its job file, the texts of its programs, and how they run.

use std::collections::BTreeMap;
use std::sync::Arc;

use cam_core::job_file::JobFile;
use cam_core::make::{JOB_FILE, Job};
use cam_core::progress::Progress;
use cam_core::proof::course::Course;

/// Side of the cells that a plank is shown in while it is cut, mm.
const CELL_MM: f64 = 0.2;

/// The most cells along one side: what every screen's memory takes as one picture.
const MOST_CELLS: f64 = 2_000.0;

/// The job file of a made job.
///
/// # Errors
/// A sentence.
pub fn job_file(job: &Job) -> Result<JobFile, String> {
    let file = job.papers.iter().find(|paper| paper.path == JOB_FILE);
    let text = file
        .map(|file| String::from_utf8_lossy(&file.bytes))
        .unwrap_or_default();
    JobFile::from_json(&text).map_err(|error| error.to_string())
}

/// The texts of its programs, by file name.
pub fn texts(job: &Job) -> BTreeMap<String, String> {
    job.programs
        .iter()
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect()
}

/// How the programs of one plank run.
#[derive(Clone)]
pub struct Running {
    /// The plank, by its place.
    pub plank: usize,
    /// What they do.
    pub course: Arc<Course>,
}

/// Lays out how the programs of a plank, given by its place, run.
///
/// # Errors
/// A sentence.
pub fn running(job: &Job, plank: usize, progress: &Progress) -> Result<Running, String> {
    let file = job_file(job)?;
    let Some(of) = file.planks.get(plank) else {
        return Err("There is no such plank any more.".to_owned());
    };
    let cell = CELL_MM.max(of.width_mm.max(of.length_mm) / MOST_CELLS);
    Course::lay(&file, &texts(job), &of.id, cell, progress)
        .map(|course| Running {
            plank,
            course: Arc::new(course),
        })
        .map_err(|error| error.to_string())
}
