//! Papers that go with the programs to the machine and the bench.

use std::sync::Arc;

use crate::commission::Commission;
use crate::finding::Finding;
use crate::job_file::JobFile;
use crate::make::OutputFile;
use crate::plank::Plank;
use crate::routers::Plan;
use crate::sort::Sort;
use crate::survey::Survey;
use crate::workshop::Workshop;

mod cautions;
mod cutting_list;
mod handwork;
mod picture;
mod setup_sheet;
mod wood;
mod words;

/// What papers are written from.
#[derive(Clone, Copy, Debug)]
pub struct PaperParts<'a> {
    /// The order.
    pub commission: &'a Commission,
    /// The workshop it is made in.
    pub workshop: &'a Workshop,
    /// The job file, with every program in the order of running.
    pub job: &'a JobFile,
    /// The sorts, one entry per distinct sort.
    pub sorts: &'a [Arc<Sort>],
    /// The survey of each sort.
    pub surveys: &'a [Arc<Survey>],
    /// The planks.
    pub planks: &'a [Plank],
    /// Which plank is cut on which router.
    pub routers: &'a Plan,
    /// All findings.
    pub findings: &'a [Finding],
}

/// A kind of paper.
pub struct Paper {
    /// What it is, in a few words.
    pub name: &'static str,
    /// Writes it: none, one or several files.
    write: fn(&PaperParts) -> Vec<OutputFile>,
}

/// Every kind of paper. A new one is a file here and an entry in this list.
pub const PAPERS: &[Paper] = &[
    Paper {
        name: "setup sheet",
        write: setup_sheet::write,
    },
    Paper {
        name: "picture of each plank",
        write: picture::write,
    },
    Paper {
        name: "cutting list for the saw",
        write: cutting_list::write,
    },
    Paper {
        name: "handwork list",
        write: handwork::write,
    },
];

/// Writes all papers, in the order of [`PAPERS`].
pub fn write_all(parts: &PaperParts) -> Vec<OutputFile> {
    PAPERS
        .iter()
        .flat_map(|paper| (paper.write)(parts))
        .collect()
}

/// A paper of plain text.
fn text_file(path: &str, text: String) -> OutputFile {
    OutputFile {
        path: path.to_owned(),
        bytes: text.into_bytes(),
    }
}

#[cfg(test)]
mod tests;
