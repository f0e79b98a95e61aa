//! A commission made whole: from fonts to proven programs, the job file and papers.
//!
//! [`make`] is the only way from a commission to programs; the window and the command line both call it.

mod programs;
mod sorts;
mod surveyed;

pub(crate) use sorts::work_out_one;
pub(crate) use surveyed::map_ground;
pub use surveyed::{Surveyed, drawn_up, survey_sorts};

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::commission::Commission;
use crate::feeds;
use crate::finding::{Finding, Severity, gravest};
use crate::format::{Fault, commission_faults, workshop_faults, write_record};
use crate::job_file::{JobParts, JobProgram, JobRole, files_of_parts, job_file};
use crate::papers::{self, PageError, PaperParts};
use crate::pass::{self, PassError, SortPasses};
use crate::plank::{self, Laid, Plank, PlankError};
use crate::program::WriteError;
use crate::progress::{Progress, Stopped};
use crate::proof;
use crate::quote::Quote;
use crate::record::Record;
use crate::routers;
use crate::sort::{DrawnUp, Sort, SortError};
use crate::survey::Survey;
use crate::toolpath::{Toolpath, Work};
use crate::workshop::Workshop;

/// The bytes of the commission's fonts and drawings, by the id of the face or drawing.
pub type Fonts = BTreeMap<String, Arc<[u8]>>;

/// The name of the job file in an output folder.
pub const JOB_FILE: &str = "job.json";

/// The name of the fount's record in an output folder: what the day after needs.
pub const RECORD_FILE: &str = "record.json";

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
    /// No fewer planks would hold the copies.
    pub at_least_planks: usize,
    /// Which plank is cut on which router, and until when.
    pub routers: routers::Plan,
    /// The programs, in the order of running.
    pub programs: Vec<Program>,
    /// Files to be written beside the programs: `job.json` and papers.
    pub papers: Vec<OutputFile>,
    /// All findings, gravest first.
    pub findings: Vec<Finding>,
}

impl Job {
    /// Whether a finding keeps the programs from being written.
    pub fn is_stopped(&self) -> bool {
        gravest(&self.findings) == Some(Severity::Stop)
    }

    /// The files of the output folder, or nothing while a finding stops the job.
    pub fn files(&self) -> Vec<OutputFile> {
        if self.is_stopped() {
            return Vec::new();
        }
        let programs = self.programs.iter().map(|program| OutputFile {
            path: program.file.clone(),
            bytes: program.text.clone().into_bytes(),
        });
        programs.chain(self.papers.iter().cloned()).collect()
    }
}

/// A program and what it was made from.
#[derive(Clone, Debug)]
pub struct Program {
    /// File name, relative to the output folder.
    pub file: String,
    /// Index of the plank.
    pub plank: usize,
    /// What it does, cutter by cutter; one part unless cutters are changed at pauses.
    pub parts: Vec<ProgramPart>,
    /// The text.
    pub text: String,
    /// Moving and dwelling time, seconds.
    pub estimate_s: f64,
}

/// What one cutter does in a program.
#[derive(Clone, Debug)]
pub struct ProgramPart {
    /// The cutter, by id.
    pub cutter: String,
    /// What it does.
    pub role: JobRole,
    /// The motions.
    pub toolpath: Toolpath,
}

/// A file to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutputFile {
    /// Path relative to the output folder, with `/`.
    pub path: String,
    /// The bytes.
    pub bytes: Vec<u8>,
}

/// Why a commission could not be made at all.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MakeError {
    /// The work was stopped on request.
    #[error(transparent)]
    Stopped(#[from] Stopped),
    /// A value of the commission that cannot be used.
    #[error("The commission cannot be made. {0}")]
    Commission(Fault),
    /// A value of the workshop that cannot be used.
    #[error("The workshop cannot be used. {0}")]
    Workshop(Fault),
    /// The workshop does not stock the wood.
    #[error(
        "The workshop has no wood {0}. Add it to the workshop, or name another in the commission."
    )]
    UnknownWood(String),
    /// No sorts.
    #[error(transparent)]
    Sort(SortError),
    /// No passes.
    #[error(transparent)]
    Pass(#[from] PassError),
    /// No planks.
    #[error(transparent)]
    Plank(#[from] PlankError),
    /// The workshop's machine reads a dialect that is not known.
    #[error(
        "The workshop's machine is set to the dialect “{0}”, which is not known. Choose one of: {known}.",
        known = known_dialects()
    )]
    UnknownDialect(String),
    /// A cutter is named that the workshop does not have.
    #[error(
        "The workshop has no cutter {0}. Add it to the workshop, or name another in the commission."
    )]
    UnknownCutter(String),
    /// A paper could not be laid out.
    #[error(transparent)]
    Paper(#[from] PageError),
    /// A program could not be written.
    #[error("The program {file} cannot be written: {error}.")]
    Write {
        /// The program.
        file: String,
        /// Why.
        error: WriteError,
    },
}

fn known_dialects() -> String {
    crate::program::dialect::ALL
        .map(|dialect| dialect.name)
        .join(", ")
}

impl From<SortError> for MakeError {
    fn from(error: SortError) -> MakeError {
        match error {
            SortError::Stopped(stopped) => MakeError::Stopped(stopped),
            SortError::NothingOrdered
            | SortError::NoFace
            | SortError::NoFont { .. }
            | SortError::Font { .. }
            | SortError::Size(_)
            | SortError::NoCapitals { .. }
            | SortError::NoRoom(_) => MakeError::Sort(error),
        }
    }
}

/// Makes a commission: sorts, surveys, passes, planks, programs, the proof of the programs, and papers.
///
/// One bad sort does not lose the others: it becomes a finding that stops the writing, and the rest is worked out for looking at.
/// Identical sorts are worked out once. The same commission, workshop and fonts give the same bytes.
///
/// # Errors
/// When nothing can be made of the commission at all, or the work was stopped.
pub fn make(
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<Job, MakeError> {
    let DrawnUp {
        sorts,
        mut findings,
        ..
    } = drawn_up(commission, workshop, fonts, progress)?;
    findings.extend(feeds::warnings(commission, workshop));
    let sorts: Vec<Arc<Sort>> = sorts.into_iter().map(Arc::new).collect();
    let worked = sorts::work_out(&sorts, commission, workshop, progress)?;
    findings.extend(worked.findings);
    let Laid {
        mut planks,
        at_least,
        findings: of_planks,
    } = plank::lay_out(&sorts, commission, workshop)?;
    findings.extend(of_planks);
    findings.extend(pass::narrow_tabs(&planks, &sorts, commission, workshop));
    let work = Work::new(&sorts, &worked.passes, workshop);
    let programs = programs::write_all(&planks, &work, commission, workshop, progress)?;
    let programs = programs::share_out(&mut planks, programs, &work, commission, workshop)?;
    drop(work);
    let routers = routers::plan(&planks, &programs, commission, workshop);

    let recorded = record(&programs, &planks);
    let job = job_file(&JobParts {
        commission,
        workshop,
        fonts,
        sorts: &sorts,
        surveys: &worked.surveys,
        planks: &planks,
        programs: &recorded,
    });
    findings.extend(proof::check(&job, &texts(&programs), progress)?);
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));

    let record = Record::of(commission, workshop, sorts.iter().map(|sort| &**sort));
    let of_parts = files_of_parts(&sorts).into_iter();
    let mut papers = vec![
        OutputFile {
            path: JOB_FILE.to_owned(),
            bytes: job.to_json().into_bytes(),
        },
        OutputFile {
            path: RECORD_FILE.to_owned(),
            bytes: write_record(&record).into_bytes(),
        },
    ];
    papers.extend(of_parts.map(|(path, text)| OutputFile {
        path,
        bytes: text.into_bytes(),
    }));
    let mut made = Job {
        sorts,
        surveys: worked.surveys,
        passes: worked.passes,
        planks,
        at_least_planks: at_least,
        routers,
        programs,
        papers,
        findings,
    };
    // What is stopped is not written, so it needs no papers.
    if !made.is_stopped() {
        progress.begin("Writing the papers", 1);
        let papers = papers::write_all(&PaperParts {
            commission,
            workshop,
            fonts,
            job: &job,
            sorts: &made.sorts,
            surveys: &made.surveys,
            planks: &made.planks,
            routers: &made.routers,
            findings: &made.findings,
            quote: &Quote::of(&made, commission, workshop),
        })?;
        made.papers.extend(papers);
        progress.advance();
    }
    Ok(made)
}

/// A commission's blocks on planks, without programs, with the sorts.
///
/// # Errors
/// When nothing can be made of the commission, or the work was stopped.
pub fn laid_out(
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<(Vec<Arc<Sort>>, Laid), MakeError> {
    let DrawnUp {
        sorts, findings, ..
    } = drawn_up(commission, workshop, fonts, progress)?;
    let sorts: Vec<Arc<Sort>> = sorts.into_iter().map(Arc::new).collect();
    let mut laid = plank::lay_out(&sorts, commission, workshop)?;
    laid.findings.extend(findings);
    Ok((sorts, laid))
}

/// Refuses values that a file would be refused for, and a wood that is not there: a commission may come from elsewhere than a file.
fn refuse_unusable(commission: &Commission, workshop: &Workshop) -> Result<(), MakeError> {
    if let Some(fault) = commission_faults(commission).into_iter().next() {
        return Err(MakeError::Commission(fault));
    }
    if let Some(fault) = workshop_faults(workshop).into_iter().next() {
        return Err(MakeError::Workshop(fault));
    }
    match workshop.wood(&commission.wood) {
        Some(_) => Ok(()),
        None => Err(MakeError::UnknownWood(commission.wood.clone())),
    }
}

/// The programs as the job file records them.
fn record(programs: &[Program], planks: &[Plank]) -> Vec<JobProgram> {
    programs
        .iter()
        .filter_map(|program| programs::recorded(program, planks))
        .collect()
}

/// The programs' texts by file name.
fn texts(programs: &[Program]) -> BTreeMap<String, String> {
    programs
        .iter()
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect()
}

#[cfg(test)]
pub(crate) mod tests;
