//! Findings: what was made, but must be read.
//!
//! An error means that the thing asked for could not be made. A finding means that it was, and that the maker should know
//! something about it; one of severity [`Severity::Stop`] keeps programs from being written.

pub mod texts;

use std::fmt;

use said::Said;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Good to know.
    Note,
    /// Look at this before cutting.
    Warning,
    /// No program is written while this stands.
    Stop,
}

/// What a finding speaks of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// The commission as a whole.
    Commission,
    /// A face of the commission, by its id.
    Face(String),
    /// A sort, by its name in the commission ("A", "ampersand", "space 12 pt").
    Sort(String),
    /// A cutter, by its id.
    Cutter(String),
    /// A plank, by its id.
    Plank(String),
    /// A program and the line in it, if one line is meant.
    Program {
        /// The program's file name.
        file: String,
        /// The line, counted from 1.
        line: Option<usize>,
    },
}

/// Something the maker should read.
///
/// `kind` is a short stable word in kebab-case for programs and tests; `text` is the sentence for the maker; `remedy` says
/// what to do next, and is empty where nothing needs doing.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// What it speaks of.
    pub subject: Subject,
    /// A stable word for the kind, such as `face-overhangs-block`.
    pub kind: &'static str,
    /// One sentence in the maker's words.
    pub text: Said,
    /// What to do next.
    pub remedy: Said,
}

impl fmt::Display for Subject {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Subject::Commission => write!(out, "commission"),
            Subject::Face(id) => write!(out, "face {id}"),
            Subject::Sort(name) => write!(out, "sort {name}"),
            Subject::Cutter(id) => write!(out, "cutter {id}"),
            Subject::Plank(id) => write!(out, "plank {id}"),
            Subject::Program {
                file,
                line: Some(line),
            } => write!(out, "{file}, line {line}"),
            Subject::Program { file, line: None } => write!(out, "{file}"),
        }
    }
}

/// The gravest severity among findings, or `None` where there are none.
pub fn gravest(findings: &[Finding]) -> Option<Severity> {
    findings.iter().map(|finding| finding.severity).max()
}
