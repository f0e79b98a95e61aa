//! `sortwright make`.

use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};

use cam_core::make::{Job, make};

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};
use crate::background::tasks::{caution, counted, duration_in_words, stopping};
use crate::files::RealDisk;
use crate::files::folder::{check_target, write_job};

/// Make all programs and papers of a commission.
///
/// Every program is read back and checked before anything is written. The folder is written whole or not at all; one that
/// Sortwright made before is replaced and kept as NAME.previous.
///
/// The exit code is 0 when all is written, 1 when a finding stops it and nothing is written, and 2 when it could not run.
#[derive(Debug, Args)]
pub struct Make {
    #[command(flatten)]
    source: Source,
    /// The folder to write into; new, empty, or made by Sortwright before.
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Say nothing but errors and what stops the work.
    #[arg(long)]
    pub(super) quiet: bool,
    /// Print a summary as JSON on standard output.
    #[arg(long)]
    json: bool,
}

impl Make {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        check_target(&self.out).map_err(|error| error.to_string())?;
        let opened = self.source.open()?;
        let job = terminal
            .watch(|progress| {
                make(
                    &opened.commission,
                    &opened.workshop,
                    &opened.fonts,
                    progress,
                )
            })
            .map_err(|error| error.to_string())?;
        let stopped = stopping(&job.findings).is_some();
        if !stopped {
            terminal
                .watch(|progress| write_job(&RealDisk, &self.out, &job, progress))
                .map_err(|error| error.to_string())?;
        }
        terminal.findings(&job.findings);
        if self.json {
            terminal.say(&format!("{:#}", self.summary(&job, !stopped)));
        } else if !stopped {
            terminal.remark(&self.sentence(&job));
            terminal.remark(caution());
        }
        if stopped {
            terminal.complain("Nothing was written, because of the findings marked “stop”.");
            return Ok(Outcome::Stopped);
        }
        Ok(Outcome::Done)
    }

    fn sentence(&self, job: &Job) -> String {
        let seconds: f64 = job.programs.iter().map(|program| program.estimate_s).sum();
        let blocks: usize = job.planks.iter().map(|plank| plank.places.len()).sum();
        format!(
            "{} for {} on {} written to {}; the machine runs for about {}.",
            counted(job.programs.len(), "program", "programs"),
            counted(blocks, "block", "blocks"),
            counted(job.planks.len(), "plank", "planks"),
            self.out.display(),
            duration_in_words(seconds),
        )
    }

    fn summary(&self, job: &Job, written: bool) -> Value {
        let programs: Vec<Value> = job
            .programs
            .iter()
            .map(|program| {
                let cutters: Vec<&str> = program
                    .parts
                    .iter()
                    .map(|part| part.cutter.as_str())
                    .collect();
                json!({
                    "file": program.file,
                    "plank": job.planks.get(program.plank).map(|plank| plank.id.as_str()),
                    "cutters": cutters,
                    "estimate_s": program.estimate_s,
                })
            })
            .collect();
        let papers: Vec<&str> = job.papers.iter().map(|paper| paper.path.as_str()).collect();
        json!({
            "written": written,
            "out": self.out.display().to_string(),
            "sorts": job.sorts.len(),
            "blocks": job.planks.iter().map(|plank| plank.places.len()).sum::<usize>(),
            "planks": job.planks.len(),
            "programs": programs,
            "papers": papers,
            "findings": findings_json(&job.findings),
        })
    }
}
