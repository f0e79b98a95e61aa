//! Pricing the order as it stands and as it would be otherwise, and beginning an order of sorts made again.

use std::path::PathBuf;
use std::sync::{Arc, Mutex};

use cam_core::quote::{Change, Estimates};

use super::Wishes;
use super::leave::Then;
use super::tasks::Purpose;
use super::words;
use super::workbench::Workbench;
use crate::background::otherwise::{Again, Otherwise, again, priced_otherwise};
use crate::background::tasks::{Snapshot, counted, priced_at_once, quoted, stopping};
use crate::background::{Latest, Worker};
use crate::files::open::{Opened, as_copy};
use crate::model::document::Document;

/// Prices of the order made otherwise.
#[derive(Default)]
pub(super) struct Pricing {
    pub rows: Latest<Vec<Otherwise>>,
    /// What is known of sorts, and the revision whose job told it.
    estimates: Option<(u64, Arc<Mutex<Estimates>>)>,
}

/// Sorts made again, while they are worked out and until they are shown.
#[derive(Default)]
pub(super) struct Replacing {
    work: Option<Worker<Result<Again, String>>>,
    ready: Option<Again>,
}

impl Replacing {
    pub(super) fn is_running(&self) -> bool {
        self.work.is_some()
    }
}

impl Workbench {
    /// Prices the job that has come.
    pub(super) fn quote_job(&mut self) {
        let revision = self.job.made_from();
        if self.quoted_revision == revision {
            return;
        }
        let (Some(job), Some(snapshot)) = (self.present_job(), self.snapshot()) else {
            return;
        };
        self.quoted_revision = revision;
        if job.is_stopped() {
            return;
        }
        let known = Arc::clone(&self.known);
        let work = move |_: &_| quoted(&job, &snapshot, &known);
        self.quote.request(
            revision.unwrap_or_default(),
            "price",
            Arc::clone(&self.wake),
            work,
        );
    }

    /// Prices the order as it stands from what is known of its sorts, while its programs are made.
    pub(super) fn price_at_once(&mut self, revision: u64, order: Snapshot) {
        let known = Arc::clone(&self.known);
        let work = move |progress: &_| priced_at_once(&order, &known, progress);
        let wake = Arc::clone(&self.wake);
        self.at_once.request(revision, "price at once", wake, work);
    }

    /// Begins what a room asked for.
    pub(super) fn grant_otherwise(&mut self, wishes: &Wishes) {
        if wishes.no_otherwise {
            self.otherwise.rows.stop();
        }
        if let Some(asked) = wishes.otherwise.clone() {
            self.price_otherwise(asked);
        }
        if wishes.choose_made {
            self.ask(Purpose::MadeFolder);
        }
        if let Some((made, sorts)) = wishes.again.clone() {
            self.begin_again(made, sorts);
        }
    }

    fn price_otherwise(&mut self, asked: Vec<Vec<Change>>) {
        let (Some(job), Some(snapshot)) = (self.present_job(), self.snapshot()) else {
            return;
        };
        let revision = self.document.as_ref().map_or(0, Document::revision);
        let known = self.otherwise.estimates.take();
        let (_, estimates) = known.filter(|(of, _)| *of == revision).unwrap_or_else(|| {
            let estimates = Estimates::from(&job, &snapshot.commission, &snapshot.workshop);
            (revision, Arc::new(Mutex::new(estimates)))
        });
        self.otherwise.estimates = Some((revision, Arc::clone(&estimates)));
        let work = move |progress: &_| priced_otherwise(&snapshot, &estimates, asked, progress);
        let wake = Arc::clone(&self.wake);
        self.otherwise
            .rows
            .request(revision, "otherwise", wake, work);
    }

    fn begin_again(&mut self, made: Option<PathBuf>, sorts: String) {
        let Some(snapshot) = self.snapshot() else {
            return;
        };
        let work = move |progress: &_| again(&snapshot, made.as_deref(), &sorts, progress);
        self.again.work = Some(Worker::start("again", Arc::clone(&self.wake), work));
    }

    pub(super) fn poll_again(&mut self) {
        let Some(result) = self.again.work.as_mut().and_then(Worker::poll) else {
            return;
        };
        self.again.work = None;
        match result {
            Ok(Ok(ready)) => {
                if let Some(stop) = stopping(&ready.findings) {
                    let sentence = words::stopped(stop);
                    self.complain(sentence);
                    return;
                }
                self.again.ready = Some(ready);
                self.ask_to_leave(Then::Again);
            }
            Ok(Err(sentence)) => self.complain(sentence),
            Err(broken) => self.complain(broken.to_string()),
        }
    }

    /// Shows the commission for sorts made again, which has no file yet.
    pub(super) fn show_again(&mut self) {
        let (Some(ready), Some(document)) = (self.again.ready.take(), &self.document) else {
            return;
        };
        let first = ready.is_first_record;
        let sentence = format!(
            "A new order for {} to match the fount.{}",
            counted(ready.sorts as usize, "sort", "sorts"),
            if first {
                " Nothing told how the fount was made, so they are taken as they come out now."
            } else {
                ""
            }
        );
        let opened = Opened {
            commission: ready.commission,
            path: document.path.clone(),
            fonts: document.fonts().as_ref().clone(),
            workshop: document.workshop().as_ref().clone(),
            file_sha256: None,
            shop_sha256: None,
            shop_on_disk: None,
            on_disk: None,
        };
        self.arrive(as_copy(opened));
        self.say(sentence);
    }
}
