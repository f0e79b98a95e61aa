//! Laying the papers of a job out to be looked at, and saving them.

use std::path::Path;
use std::sync::Arc;

use super::Wishes;
use super::tasks::Purpose;
use super::workbench::Workbench;
use crate::background::Latest;
use crate::background::papers::{Readable, readable};
use crate::background::tasks::counted;
use crate::files::{shown, write_atomic};

/// The papers of the job.
#[derive(Default)]
pub(super) struct Papers {
    pages: Latest<Result<Arc<Vec<Readable>>, String>>,
    /// The revision whose job was last asked to be laid out.
    asked: Option<u64>,
    /// The files of the paper that is being saved.
    saving: Vec<String>,
}

impl Papers {
    pub(super) fn is_running(&self) -> bool {
        self.pages.running().is_some()
    }

    pub(super) fn poll(&mut self) {
        self.pages.poll();
    }

    /// The pages of the job of this revision.
    pub(super) fn of(&self, revision: Option<u64>) -> Option<&Result<Arc<Vec<Readable>>, String>> {
        let same = self.pages.made_from() == revision;
        self.pages.result().filter(|_| same)
    }
}

impl Workbench {
    /// Begins what the room of papers asked for.
    pub(super) fn grant_papers(&mut self, wishes: &Wishes) {
        if wishes.papers {
            self.lay_papers();
        }
        if let Some(files) = wishes.save_paper.clone() {
            self.papers.saving = files;
            self.ask(Purpose::Paper);
        }
        if wishes.save_papers {
            self.ask(Purpose::AllPapers);
        }
    }

    /// Lays the pages out, once for each job.
    fn lay_papers(&mut self) {
        let (Some(job), Some(snapshot)) = (self.present_job(), self.snapshot()) else {
            return;
        };
        let Some(revision) = self.job.made_from() else {
            return;
        };
        if self.papers.asked == Some(revision) {
            return;
        }
        self.papers.asked = Some(revision);
        let work = move |progress: &_| readable(&job, &snapshot, progress);
        let wake = Arc::clone(&self.wake);
        self.papers.pages.request(revision, "papers", wake, work);
    }

    pub(super) fn save_asked_paper(&mut self, path: &Path) {
        let files = std::mem::take(&mut self.papers.saving);
        let ending = path.extension().unwrap_or_default().to_string_lossy();
        let ending = format!(".{}", ending.to_lowercase());
        let wanted = files.iter().find(|file| file.ends_with(&ending));
        match wanted.or(files.first()) {
            Some(file) => self.save_paper(&file.clone(), path),
            None => self.complain("This paper has no file."),
        }
    }

    /// Saves a file of the job's papers, such as `papers/quote.pdf`, under another name.
    pub fn save_paper(&mut self, file: &str, path: &Path) {
        let job = self.present_job();
        let found = job.as_ref().and_then(|job| {
            let mut papers = job.papers.iter();
            papers.find(|paper| paper.path == file)
        });
        let Some(found) = found else {
            self.complain("The papers are being worked out again; save them once they are there.");
            return;
        };
        match write_atomic(path, &found.bytes) {
            Ok(()) => self.say(format!("Saved to {}.", shown(path))),
            Err(error) => self.complain(error.to_string()),
        }
    }

    /// Saves all papers of the job into a folder; what stands there under their names is kept beside them.
    pub fn save_papers(&mut self, folder: &Path) {
        let Some(job) = self.present_job() else {
            self.complain("The papers are being worked out again; save them once they are there.");
            return;
        };
        let inside = format!("{}/", cam_core::papers::FOLDER);
        let papers = job
            .papers
            .iter()
            .filter_map(|paper| Some((paper.path.strip_prefix(&inside)?, &paper.bytes)));
        let mut many = 0;
        for (name, bytes) in papers {
            if let Err(error) = write_atomic(&folder.join(name), bytes) {
                self.complain(error.to_string());
                return;
            }
            many += 1;
        }
        let files = counted(many, "file", "files");
        self.say(format!("{files} saved to {}.", shown(folder)));
    }
}
