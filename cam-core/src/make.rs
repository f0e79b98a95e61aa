//! A commission made whole: from fonts to proven programs, the job file and papers.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::finding::Finding;
use crate::pass::SortPasses;
use crate::plank::Plank;
use crate::sort::Sort;
use crate::survey::Survey;
use crate::toolpath::Toolpath;

/// The bytes of the commission's fonts, by the id of the face.
pub type Fonts = BTreeMap<String, Arc<[u8]>>;

/// Everything that came of a make.
#[derive(Clone, Debug, Default)]
pub struct Job {
    /// The sorts, one entry per distinct sort.
    pub sorts: Vec<Arc<Sort>>,
    /// The survey of each sort.
    pub surveys: Vec<Arc<Survey>>,
    /// The passes of each sort, one entry per cutter from the largest to the smallest.
    pub passes: Vec<Arc<Vec<SortPasses>>>,
    /// The planks with the copies on them.
    pub planks: Vec<Plank>,
    /// The programs, in the order of running.
    pub programs: Vec<Program>,
    /// Files to be written beside the programs: `job.json` and papers.
    pub papers: Vec<OutputFile>,
    /// All findings, gravest first.
    pub findings: Vec<Finding>,
}

/// A program and what it was made from.
#[derive(Clone, Debug)]
pub struct Program {
    /// File name, relative to the output folder.
    pub file: String,
    /// Index of the plank.
    pub plank: usize,
    /// The cutter, by id.
    pub cutter: String,
    /// The leading purpose, as in the job file.
    pub role: &'static str,
    /// The motions.
    pub toolpath: Toolpath,
    /// The text.
    pub text: String,
    /// Moving and dwelling time, seconds.
    pub estimate_s: f64,
}

/// A file to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutputFile {
    /// Path relative to the output folder, with `/`.
    pub path: String,
    /// The bytes.
    pub bytes: Vec<u8>,
}
