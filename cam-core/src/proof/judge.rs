//! A job laid out once, so that programs for it can be judged again and again.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use kurbo::Rect;

use super::bench::{Bench, Changed, clearing_cutters};
use super::checks::CHECKS;
use super::copies::{self, Stock};
use super::difference::{self, Difference};
use super::runs::{self, ReadProgram, Run};
use crate::finding::Finding;
use crate::job_file::JobFile;
use crate::progress::{Progress, Stopped};
use reader::ReadMotion;

/// What a job orders, laid out for judging programs. It hangs on the job file alone.
pub struct Judge<'a> {
    job: &'a JobFile,
    stock: Stock<'a>,
}

/// Programs that were judged, as read, against which changed ones can be judged.
pub struct Proven<'a> {
    judge: &'a Judge<'a>,
    runs: Vec<Arc<Run<'a>>>,
}

impl<'a> Judge<'a> {
    /// Lays out what a job orders.
    ///
    /// # Errors
    /// When the work was stopped.
    pub fn lay(job: &'a JobFile, progress: &Progress) -> Result<Judge<'a>, Stopped> {
        let stock = copies::lay(job, &clearing_cutters(job), progress)?;
        Ok(Judge { job, stock })
    }

    /// Judges all programs, as [`check`](super::check) does.
    ///
    /// # Errors
    /// When the work was stopped.
    pub fn check(
        &self,
        programs: &BTreeMap<String, String>,
        progress: &Progress,
    ) -> Result<Vec<Finding>, Stopped> {
        let read = runs::read_all(self.job, programs, |_| true);
        progress.check()?;
        let runs = runs::lay(self.job, &read);
        let runs = runs.into_iter().map(Arc::new).collect();
        let bench = Bench::lay(self.job, read, runs, &self.stock, None, progress)?;
        progress.advance();
        judged(&bench)
    }

    /// Keeps programs in which [`check`](Judge::check) found no fault, to judge changes to them.
    pub fn keep(&'a self, programs: &'a BTreeMap<String, String>) -> Proven<'a> {
        let read = runs::read_all(self.job, programs, |_| true);
        Proven {
            judge: self,
            runs: runs::lay(self.job, &read)
                .into_iter()
                .map(Arc::new)
                .collect(),
        }
    }
}

impl<'a> Proven<'a> {
    /// Judges the programs with some of their texts changed: finds what the change brought about.
    ///
    /// Only the changed programs, and sorts in whose rooms a motion below the face has come, gone or become another one, are judged
    /// again. All others meet the very same motions in the same order as when they were judged; what is kept of them are readings
    /// of texts that are unchanged, and no verdict.
    ///
    /// # Errors
    /// When the work was stopped.
    pub fn recheck(
        &self,
        changed: &BTreeMap<String, String>,
        progress: &Progress,
    ) -> Result<Vec<Finding>, Stopped> {
        let job = self.judge.job;
        let read = runs::read_all(job, changed, |entry| changed.contains_key(&entry.file));
        let (runs, changed) = self.with(&read);
        judged(&Bench::lay(
            job,
            read,
            runs,
            &self.judge.stock,
            Some(changed),
            progress,
        )?)
    }

    /// Whether changed programs cut the same wood: see [`Difference`].
    ///
    /// `tolerance_mm` is how far apart surfaces may lie that count as the same, along and across; `excused` are differences that do not
    /// count.
    pub fn difference(
        &self,
        changed: &BTreeMap<String, String>,
        tolerance_mm: f64,
        excused: impl Fn(&Difference) -> bool,
    ) -> Option<Difference> {
        let job = self.judge.job;
        let read = runs::read_all(job, changed, |entry| changed.contains_key(&entry.file));
        let (runs, changed) = self.with(&read);
        let before: Vec<&Run> = self.runs.iter().map(AsRef::as_ref).collect();
        let after: Vec<&Run> = runs.iter().map(AsRef::as_ref).collect();
        difference::find(job, &before, &after, &changed.boxes, tolerance_mm, excused)
    }

    /// The runs on the planks of changed programs, those programs' own ones taken anew, and what has changed.
    fn with<'r>(&'r self, read: &[ReadProgram<'r>]) -> (Vec<Arc<Run<'r>>>, Changed) {
        let job = self.judge.job;
        let planks: BTreeSet<&str> = read
            .iter()
            .map(|program| program.entry.plank.as_str())
            .collect();
        let mut runs = Vec::new();
        let mut changed = Changed {
            fresh: Vec::new(),
            boxes: Vec::new(),
        };
        for entry in &job.programs {
            if !planks.contains(entry.plank.as_str()) {
                continue;
            }
            let before = self.runs.iter().filter(|run| run.file == entry.file);
            let now = read.iter().find(|program| program.entry.file == entry.file);
            let Some(now) = now else {
                for run in before {
                    runs.push(Arc::clone(run));
                    changed.fresh.push(false);
                }
                continue;
            };
            let now = runs::lay_one(job, now);
            let before: Vec<&Run> = before.map(AsRef::as_ref).collect();
            for stage in 0..before.len().max(now.len()) {
                let stages = [before.get(stage).copied(), now.get(stage)];
                changed.boxes.extend(differing(stages));
            }
            for run in now {
                runs.push(Arc::new(run));
                changed.fresh.push(true);
            }
        }
        (runs, changed)
    }
}

/// Puts every check to work, gravest findings first.
fn judged(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for check in CHECKS {
        bench.progress.check()?;
        findings.extend((check.judge)(bench)?);
        bench.progress.advance();
    }
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(findings)
}

/// The boxes of the motions between the first and the last that differ, one more at each end, with their plank.
fn differing(stages: [Option<&Run>; 2]) -> Vec<(usize, Rect)> {
    let motions = stages.map(|run| run.map_or(&[] as &[ReadMotion], |run| &run.motions));
    let [before, now] = motions;
    let same = |one: &ReadMotion, other: &ReadMotion| {
        ReadMotion { line: 0, ..*one } == ReadMotion { line: 0, ..*other }
    };
    let shorter = before.len().min(now.len());
    let first = (0..shorter)
        .find(|&at| !same(&before[at], &now[at]))
        .unwrap_or(shorter);
    if first == before.len() && first == now.len() {
        return Vec::new();
    }
    let last = (0..shorter - first)
        .find(|&back| !same(&before[before.len() - 1 - back], &now[now.len() - 1 - back]))
        .unwrap_or(shorter - first);
    let first = first.saturating_sub(1) as u32;
    stages
        .into_iter()
        .flatten()
        .flat_map(|run| {
            let end = (run.motions.len() - last + 1) as u32;
            run.swept
                .iter()
                .filter(move |(number, _)| (first..end).contains(number))
                .map(|&(_, swept)| (run.plank, swept))
        })
        .collect()
}
