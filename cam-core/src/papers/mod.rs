//! Papers that go with the programs to the machine, the bench and the customer: pages as PDF, and plain text where that serves.
//!
//! A paper is a `sheet::Sheet`, put together from what was made. The layout of pages knows nothing of type or wood.

use std::sync::Arc;

use rayon::prelude::*;

use crate::commission::Commission;
use crate::finding::Finding;
use crate::job_file::JobFile;
use crate::make::{Fonts, OutputFile};
use crate::measure::System;
use crate::plank::Plank;
use crate::quote::Quote;
use crate::routers::Plan;
use crate::sort::Sort;
use crate::survey::Survey;
use crate::workshop::Workshop;

mod cautions;
mod costing;
mod cutting_list;
mod drawing;
mod handwork;
mod licence;
mod measuring;
mod notches;
mod packing;
mod page;
mod picture;
mod plain;
mod plates;
mod quote;
mod setup_sheet;
mod sheet;
mod sorts;
mod specimen;
mod wood;
mod words;

pub use page::{Leaf, LeafMark, PageError};

use page::{Field, Letterhead, Typeface};
use sheet::Sheet;

/// The folder of papers within an output folder.
pub const FOLDER: &str = "papers";

/// What papers are written from.
#[derive(Clone, Copy, Debug)]
pub struct PaperParts<'a> {
    /// The order.
    pub commission: &'a Commission,
    /// The workshop it is made in.
    pub workshop: &'a Workshop,
    /// The commission's fonts.
    pub fonts: &'a Fonts,
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
    /// What the order costs.
    pub quote: &'a Quote,
}

impl PaperParts<'_> {
    /// The system in which papers give points.
    fn system(&self) -> System {
        self.workshop
            .papers
            .measure
            .unwrap_or(self.commission.system)
    }

    /// Which points papers give, and how large they are.
    fn points_fact(&self) -> (&'static str, String) {
        let system = self.system();
        let told = format!("{}, {:.4} mm each", system.name(), system.point_mm());
        ("Points", told)
    }

    /// Where things may stand on a page.
    fn field(&self) -> Field {
        Field::of(self.workshop.papers.page)
    }

    /// The wood's name.
    fn wood(&self) -> &str {
        let wood = self.workshop.wood(&self.commission.wood);
        wood.map_or(self.commission.wood.as_str(), |wood| wood.name.as_str())
    }

    /// The customer's name and address, reference and date, as far as they are told.
    fn order_facts(&self) -> Vec<(&'static str, String)> {
        let commission = self.commission;
        let mut facts = Vec::new();
        if !commission.customer.is_empty() {
            facts.push(("For", commission.customer.join("\n")));
        }
        if !commission.reference.is_empty() {
            facts.push(("Customer’s reference", commission.reference.clone()));
        }
        if !commission.date.is_empty() {
            facts.push(("Date", commission.date.clone()));
        }
        facts
    }

    fn letterhead(&self) -> Letterhead {
        let commission = self.commission;
        let foot: Vec<&str> = [&commission.reference, &commission.date]
            .into_iter()
            .map(String::as_str)
            .filter(|words| !words.trim().is_empty())
            .collect();
        Letterhead {
            page: self.workshop.papers.page,
            title: shortened(&commission.title),
            maker: self.workshop.papers.maker.clone(),
            foot: shortened(&foot.join(" · ")),
            warning: licence::not_recorded(commission),
        }
    }
}

/// The most characters of a title that papers bear: some lines of it.
const MOST_OF_TITLE: usize = 400;

/// A title as far as there is room for it.
fn shortened(title: &str) -> String {
    let title = title.trim();
    if title.chars().count() <= MOST_OF_TITLE {
        return title.to_owned();
    }
    let start: String = title.chars().take(MOST_OF_TITLE).collect();
    format!("{start}…")
}

/// A kind of paper.
pub struct Paper {
    /// What it is, in a few words.
    pub name: &'static str,
    /// Writes it; `None` where there is nothing to say.
    write: fn(&PaperParts) -> Option<Sheet>,
}

/// Every kind of paper. A new one is a file here and an entry in this list.
pub const PAPERS: &[Paper] = &[
    Paper {
        name: "quote for the customer",
        write: quote::write,
    },
    Paper {
        name: "costing for the workshop",
        write: costing::write,
    },
    Paper {
        name: "licence record",
        write: licence::write,
    },
    Paper {
        name: "setup sheet for each plank",
        write: setup_sheet::write,
    },
    Paper {
        name: "cutting list for the saw",
        write: cutting_list::write,
    },
    Paper {
        name: "handwork list",
        write: handwork::write,
    },
    Paper {
        name: "measuring sheet",
        write: measuring::write,
    },
    Paper {
        name: "packing list",
        write: packing::write,
    },
    Paper {
        name: "specimen",
        write: specimen::write,
    },
];

/// Writes all papers in the order of [`PAPERS`], and a picture of each plank.
///
/// # Errors
/// When a paper cannot be packed.
pub fn write_all(parts: &PaperParts) -> Result<Vec<OutputFile>, PageError> {
    let face = Typeface::open()?;
    let letterhead = parts.letterhead();
    let written: Vec<Result<Vec<OutputFile>, PageError>> = PAPERS
        .par_iter()
        .map(|paper| match (paper.write)(parts) {
            Some(sheet) => files_of(&sheet, &letterhead, &face),
            None => Ok(Vec::new()),
        })
        .collect();
    let mut files = Vec::new();
    for written in written {
        files.extend(written?);
    }
    files.extend(parts.planks.iter().map(|plank| OutputFile {
        path: format!("{FOLDER}/{}.svg", plank.id),
        bytes: picture::whole(parts, plank).to_svg().into_bytes(),
    }));
    Ok(files)
}

/// A paper to be looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenPaper {
    /// What it is: "Setup sheet".
    pub name: &'static str,
    /// Its files' name without their ending.
    pub file: &'static str,
    /// Its pages.
    pub leaves: Vec<Leaf>,
}

/// All papers in the order of [`PAPERS`], to be looked at; the same pages as [`write_all`] packs.
///
/// # Errors
/// When the face of papers is damaged.
pub fn seen(parts: &PaperParts) -> Result<Vec<SeenPaper>, PageError> {
    let face = Typeface::open()?;
    let letterhead = parts.letterhead();
    let papers = PAPERS.par_iter().filter_map(|paper| {
        let sheet = (paper.write)(parts)?;
        Some(SeenPaper {
            name: sheet.name,
            file: sheet.file,
            leaves: page::leaves(&sheet, &letterhead, &face),
        })
    });
    Ok(papers.collect())
}

/// A paper as pages, and as text if that serves.
fn files_of(
    sheet: &Sheet,
    letterhead: &Letterhead,
    face: &Typeface,
) -> Result<Vec<OutputFile>, PageError> {
    let mut files = vec![OutputFile {
        path: format!("{FOLDER}/{}.pdf", sheet.file),
        bytes: page::to_pdf(sheet, letterhead, face)?,
    }];
    if sheet.as_text {
        files.push(OutputFile {
            path: format!("{FOLDER}/{}.txt", sheet.file),
            bytes: plain::to_text(sheet, letterhead).into_bytes(),
        });
    }
    Ok(files)
}

#[cfg(test)]
mod tests;
