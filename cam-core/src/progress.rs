//! Progress of long work, and the signal to stop it.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// The work was stopped on request.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("The work was stopped.")]
pub struct Stopped;

/// Shared between the worker, which reports, and the caller, which watches and may stop it.
#[derive(Debug, Default)]
pub struct Progress {
    stop: AtomicBool,
    done: AtomicUsize,
    total: AtomicUsize,
    step: Mutex<String>,
}

impl Progress {
    /// Progress that nobody watches.
    pub fn new() -> Progress {
        Progress::default()
    }

    /// Asks the work to end soon.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// To be called often by the work: an error once a stop was asked for.
    pub fn check(&self) -> Result<(), Stopped> {
        if self.stop.load(Ordering::Relaxed) {
            Err(Stopped)
        } else {
            Ok(())
        }
    }

    /// Starts a step of `total` parts, named for the maker ("Working out the passes").
    pub fn begin(&self, step: &str, total: usize) {
        if let Ok(mut name) = self.step.lock() {
            step.clone_into(&mut name);
        }
        self.done.store(0, Ordering::Relaxed);
        self.total.store(total, Ordering::Relaxed);
    }

    /// The step turns out to have more parts.
    pub fn extend(&self, more: usize) {
        self.total.fetch_add(more, Ordering::Relaxed);
    }

    /// One part of the step is done.
    pub fn advance(&self) {
        self.done.fetch_add(1, Ordering::Relaxed);
    }

    /// The step's name, parts done, and parts in all.
    pub fn state(&self) -> (String, usize, usize) {
        let name = self
            .step
            .lock()
            .map(|name| name.clone())
            .unwrap_or_default();
        (
            name,
            self.done.load(Ordering::Relaxed),
            self.total.load(Ordering::Relaxed),
        )
    }
}
