//! `sortwright bench`.

use std::path::{Path, PathBuf};

use bench::notebook::Kind;
use bench::{Judged, judge_as};
use clap::{Args, Subcommand};
use serde_json::json;

use super::Outcome;
use super::terminal::Terminal;
use crate::files::read_text;

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
    Square(Notebook),
    /// Measured blocks against what they should be: what binds, what drops, how lines add up.
    Lockup(Notebook),
    /// What programs really took against their estimates.
    Minutes(Notebook),
    /// Sorts rejected and cutters broken, for the price's breakage.
    Losses(Notebook),
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
        let (notebook, kind) = match &self.what {
            What::Height(notebook) => (notebook, Kind::Height),
            What::Moisture(notebook) => (notebook, Kind::Moisture),
            What::Square(notebook) => (notebook, Kind::Square),
            What::Lockup(notebook) => (notebook, Kind::LockUp),
            What::Minutes(notebook) => (notebook, Kind::Minutes),
            What::Losses(notebook) => (notebook, Kind::Losses),
            What::Example { kind } => {
                terminal.say(bench::example(*kind).trim_end());
                return Ok(Outcome::Done);
            }
        };
        let judged = judged(&notebook.file, kind)?;
        terminal.say(&notebook.told(&judged));
        Ok(Outcome::Done)
    }
}

/// Reads and judges a notebook; a sentence where that cannot be.
fn judged(file: &Path, kind: Kind) -> Result<Judged, String> {
    let text = read_text(file).map_err(|error| error.to_string())?;
    judge_as(&text, kind).map_err(|error| format!("{}: {error}", file.display()))
}

impl Notebook {
    fn told(&self, judged: &Judged) -> String {
        let words = judged.in_words();
        if self.json {
            let value = json!({ "kind": judged.kind(), "judged": judged, "words": words });
            format!("{value:#}")
        } else {
            words.join("\n")
        }
    }
}
