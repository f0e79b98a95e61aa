//! `sortwright bench`.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use bench::notebook::Kind;
use bench::{Judged, judge_as};
use cam_core::commission::ProgramFiles;
use cam_core::format::{read_workshop, write_workshop};
use cam_core::make::{OutputFile, make};
use cam_core::measure::{System, Unit};
use cam_core::sort::{Sort, draw_up};
use cam_core::workshop::Workshop;
use clap::{Args, Subcommand};
use said::Said;
use serde_json::json;

use super::Outcome;
use super::source::Source;
use super::terminal::Terminal;
use crate::background::tasks::{caution, stopping};
use crate::files::folder::{check_target, write_folder};
use crate::files::open::open_workshop;
use crate::files::{RealDisk, read_text, write_atomic};
use crate::model::begun::{Order, begun};
use crate::model::kept::kept;
use crate::model::test_block::{NOTEBOOK, TestBlock};
use crate::model::typed::read_length;

/// Judge what was measured at the bench.
///
/// Readings are small texts, written by hand or pasted from a caliper: notebooks. Their first line says what was measured; an example
/// of each is printed by `sortwright bench example KIND`.
#[derive(Debug, Args)]
pub struct Bench {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Heights of a plank while it is sanded: flat, tapered or twisted, what to take off, when to stop.
    Height(Notebook),
    /// Moisture: cut or wait, and how far blocks move in another climate.
    Moisture(Notebook),
    /// Squareness of the machine from a test block, or from a square and a clock.
    Square(Kept),
    /// Measured blocks against what they should be: what binds, what drops, how lines add up.
    Lockup(Notebook),
    /// What programs really took against their estimates.
    Minutes(Kept),
    /// Sorts rejected and cutters broken, for the price's breakage.
    Losses(Kept),
    /// Make the programs of a test block, to be measured for squareness, with a notebook for its readings.
    TestBlock(Block),
    /// Print a notebook of a kind begun from an order: what is wanted stands there, and readings are to be filled in.
    Begin {
        /// The kind: height, moisture, lockup, minutes or losses.
        #[arg(value_parser = kind)]
        kind: Kind,
        #[command(flatten)]
        source: Source,
    },
    /// Print a notebook of a kind, to be overwritten with your own readings.
    Example {
        /// The kind: height, moisture, square, lockup, minutes or losses.
        #[arg(value_parser = kind)]
        kind: Kind,
    },
}

/// A notebook to judge.
#[derive(Debug, Args)]
struct Notebook {
    /// The notebook.
    file: PathBuf,
    /// Print the outcome as JSON.
    #[arg(long)]
    json: bool,
}

/// A notebook of which the workshop keeps the outcome.
#[derive(Debug, Args)]
struct Kept {
    #[command(flatten)]
    notebook: Notebook,
    /// Keep the outcome in this workshop file; it is begun if it is not there.
    #[arg(long, value_name = "WORKSHOP")]
    keep: Option<PathBuf>,
}

/// A test block to make.
#[derive(Debug, Args)]
struct Block {
    /// The folder to write into; new, empty, or made by Sortwright before.
    out: PathBuf,
    /// The workshop file; without it, the workshop that a new shop starts with.
    #[arg(long, value_name = "FILE")]
    workshop: Option<PathBuf>,
    /// Width of the block (x).
    #[arg(long, default_value = "150 mm", value_name = "LENGTH")]
    width: String,
    /// Length of the block (y), in whole lines of 12 points.
    #[arg(long, default_value_t = 30)]
    lines: u32,
    /// Thickness of the board.
    #[arg(long, default_value = "12 mm", value_name = "LENGTH")]
    thickness: String,
}

/// A kind by its word.
fn kind(word: &str) -> Result<Kind, String> {
    Kind::ALL
        .into_iter()
        .find(|kind| kind.word() == word)
        .ok_or_else(|| {
            let words: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
            format!("choose one of: {}", words.join(", "))
        })
}

impl Bench {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let (notebook, keep, kind) = match &self.what {
            What::Height(notebook) => (notebook, None, Kind::Height),
            What::Moisture(notebook) => (notebook, None, Kind::Moisture),
            What::Square(kept) => (&kept.notebook, kept.keep.as_deref(), Kind::Square),
            What::Lockup(notebook) => (notebook, None, Kind::LockUp),
            What::Minutes(kept) => (&kept.notebook, kept.keep.as_deref(), Kind::Minutes),
            What::Losses(kept) => (&kept.notebook, kept.keep.as_deref(), Kind::Losses),
            What::TestBlock(block) => return block.make(terminal),
            What::Begin { kind, source } => {
                terminal.say(begin(*kind, source, terminal)?.trim_end());
                return Ok(Outcome::Done);
            }
            What::Example { kind } => {
                terminal.say(bench::example(*kind).trim_end());
                return Ok(Outcome::Done);
            }
        };
        let judged = judged(&notebook.file, kind)?;
        terminal.say(&notebook.told(&judged));
        if let Some(file) = keep {
            terminal.remark(&keep_in(file, &judged)?);
        }
        Ok(Outcome::Done)
    }
}

/// A notebook for an order. Minutes are those of its programs, so these are made.
fn begin(kind: Kind, source: &Source, terminal: &Terminal) -> Result<String, String> {
    let opened = source.open()?;
    let (commission, workshop) = (&opened.commission, &opened.workshop);
    let (sorts, programs) = if kind == Kind::Minutes {
        let job = terminal
            .watch(|progress| make(commission, workshop, &opened.fonts, progress))
            .map_err(|error| error.to_string())?;
        (job.sorts, job.programs)
    } else {
        let drawn = terminal
            .watch(|progress| draw_up(commission, &opened.fonts, progress))
            .map_err(|error| error.to_string())?;
        (drawn.sorts.into_iter().map(Arc::new).collect(), Vec::new())
    };
    let sorts: Vec<&Sort> = sorts.iter().map(AsRef::as_ref).collect();
    let order = Order {
        commission,
        workshop,
        sorts: &sorts,
        programs: &programs,
    };
    begun(kind, order).ok_or_else(|| {
        "A notebook of squareness comes with its test block: sortwright bench test-block FOLDER.".to_owned()
    })
}

/// Reads and judges a notebook; a sentence where that cannot be.
fn judged(file: &Path, kind: Kind) -> Result<Judged, String> {
    let text = read_text(file).map_err(|error| error.to_string())?;
    judge_as(&text, kind).map_err(|error| format!("{}: {error}", file.display()))
}

/// Keeps what a notebook came to in a workshop file.
fn keep_in(file: &Path, judged: &Judged) -> Result<String, String> {
    let workshop = if file.exists() {
        let text = read_text(file).map_err(|error| error.to_string())?;
        read_workshop(&text).map_err(|error| format!("{}: {error}", file.display()))?
    } else {
        Workshop::starting()
    };
    let (changed, sentence) = kept(&workshop, judged)?;
    write_atomic(file, write_workshop(&changed).as_bytes()).map_err(|error| error.to_string())?;
    Ok(format!("{sentence} Kept in {}.", file.display()))
}

impl Block {
    fn make(&self, terminal: &Terminal) -> Result<Outcome, String> {
        check_target(&self.out).map_err(|error| error.to_string())?;
        let workshop = open_workshop(self.workshop.as_deref(), Path::new(""))
            .map_err(|error| error.to_string())?;
        let length = |text: &str| read_length(text, Unit::Millimetre, System::Pica);
        let block = TestBlock {
            width: length(&self.width)?,
            lines: f64::from(self.lines),
            thickness: length(&self.thickness)?,
        };
        let mut commission = block.commission(&workshop);
        commission.cutting.files = ProgramFiles::PerCutter;
        let job = terminal
            .watch(|progress| make(&commission, &workshop, &Default::default(), progress))
            .map_err(|error| error.to_string())?;
        terminal.findings(&job.findings);
        if stopping(&job.findings).is_some() {
            terminal.complain("Nothing was written, because of the findings marked “stop”.");
            return Ok(Outcome::Stopped);
        }
        let mut files = job.files();
        files.push(OutputFile {
            path: NOTEBOOK.to_owned(),
            bytes: block
                .notebook(workshop.machine.squareness.as_ref())
                .into_bytes(),
        });
        terminal
            .watch(|progress| write_folder(&RealDisk, &self.out, &files, progress))
            .map_err(|error| error.to_string())?;
        terminal.remark(&format!(
            "A test block of {:.3} by {:.3} mm was written to {}. Measure it, and fill in {NOTEBOOK} there.",
            block.width.in_mm(),
            block.length_mm(),
            self.out.display()
        ));
        terminal.remark(caution());
        Ok(Outcome::Done)
    }
}

impl Notebook {
    fn told(&self, judged: &Judged) -> String {
        let words = judged.in_words();
        if self.json {
            let words: Vec<&str> = words.iter().map(Said::as_str).collect();
            let value = json!({ "kind": judged.kind(), "judged": judged, "words": words });
            format!("{value:#}")
        } else {
            words.join("\n")
        }
    }
}
