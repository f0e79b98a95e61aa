//! Long work on threads of its own: progress, a stop, and the newest request winning.
//!
//! A [`Worker`] runs one piece of work on a named thread. [`Latest`] keeps the worker of the newest request and its last result,
//! each with the revision of the commission that it was made from.

pub mod catalogue;
pub mod drawing;
pub mod keeper;
pub mod otherwise;
pub mod papers;
pub mod picture;
pub mod read_back;
pub mod relief;
pub mod tasks;
pub mod tracing;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use cam_core::progress::Progress;

/// How often progress is looked at while something runs: 30 times a second at most.
pub const LOOK_AGAIN: Duration = Duration::from_millis(34);

/// Wakes the window once a result is there.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// The work ended without a result, which is our fault and not the maker's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "Something went wrong inside Sortwright while working on this. Your commission is unharmed; please save it, and change what you did last."
)]
pub struct Broken;

/// One piece of work on its own thread. Dropping it asks it to stop and does not wait.
pub struct Worker<T> {
    progress: Arc<Progress>,
    results: Receiver<Result<T, Broken>>,
    thread: Option<JoinHandle<()>>,
}

impl<T: Send + 'static> Worker<T> {
    /// Starts the work on a thread of this name. If the system has no thread to give, the worker answers [`Broken`].
    pub fn start(
        name: &str,
        wake: Wake,
        work: impl FnOnce(&Progress) -> T + Send + 'static,
    ) -> Worker<T> {
        let progress = Arc::new(Progress::new());
        let (sender, results) = channel();
        let seen = Arc::clone(&progress);
        let thread = thread::Builder::new().name(name.to_owned()).spawn(move || {
            // The work owns all that it touches, so nothing half-changed is seen after a panic.
            let result = catch_unwind(AssertUnwindSafe(|| work(&seen))).map_err(|_| Broken);
            // The receiver is gone if a newer request came; then nobody wants the result.
            if sender.send(result).is_ok() {
                wake();
            }
        });
        Worker {
            progress,
            results,
            thread: thread.ok(),
        }
    }

    /// The result, once.
    pub fn poll(&mut self) -> Option<Result<T, Broken>> {
        match self.results.try_recv() {
            Ok(result) => Some(result),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Err(Broken)),
        }
    }

    /// Step, parts done, parts in all.
    pub fn state(&self) -> (String, usize, usize) {
        self.progress.state()
    }

    /// Asks the work to end soon.
    pub fn stop(&self) {
        self.progress.stop();
    }

    /// Asks the work to end and waits for it; for work that writes, before the program ends.
    pub fn finish(mut self) {
        self.stop();
        if let Some(thread) = self.thread.take() {
            // A panic was already turned into `Broken`.
            let _ = thread.join();
        }
    }
}

impl<T> Drop for Worker<T> {
    fn drop(&mut self) {
        self.progress.stop();
    }
}

/// The newest request for one kind of result, and the last result that came of any.
pub struct Latest<T> {
    worker: Option<(u64, Worker<T>)>,
    result: Option<(u64, T)>,
    broken: Option<Broken>,
}

impl<T> Default for Latest<T> {
    fn default() -> Latest<T> {
        Latest {
            worker: None,
            result: None,
            broken: None,
        }
    }
}

impl<T: Send + 'static> Latest<T> {
    /// Starts work for a revision; work for earlier ones is stopped and its result never shown.
    pub fn request(
        &mut self,
        revision: u64,
        name: &str,
        wake: Wake,
        work: impl FnOnce(&Progress) -> T + Send + 'static,
    ) {
        self.broken = None;
        self.worker = Some((revision, Worker::start(name, wake, work)));
    }

    /// Takes a result that has come; `true` if there is a new one.
    pub fn poll(&mut self) -> bool {
        let Some((revision, worker)) = &mut self.worker else {
            return false;
        };
        let revision = *revision;
        match worker.poll() {
            None => false,
            Some(result) => {
                self.worker = None;
                match result {
                    Ok(result) => self.result = Some((revision, result)),
                    Err(broken) => self.broken = Some(broken),
                }
                true
            }
        }
    }

    /// The last result, which then is no longer kept here.
    pub fn take(&mut self) -> Option<T> {
        self.result.take().map(|(_, result)| result)
    }

    /// The last result, whichever revision it was made from.
    pub fn result(&self) -> Option<&T> {
        self.result.as_ref().map(|(_, result)| result)
    }

    /// The revision of the last result.
    pub fn made_from(&self) -> Option<u64> {
        self.result.as_ref().map(|(revision, _)| *revision)
    }

    /// Why the newest request has no result, if it broke.
    pub fn broken(&self) -> Option<Broken> {
        self.broken
    }

    /// The worker that runs, if one does.
    pub fn running(&self) -> Option<&Worker<T>> {
        self.worker.as_ref().map(|(_, worker)| worker)
    }

    /// Stops what runs and forgets the result.
    pub fn clear(&mut self) {
        *self = Latest::default();
    }

    /// Stops what runs; the last result stays.
    pub fn stop(&mut self) {
        self.worker = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    use std::sync::mpsc;
    use std::time::Instant;

    fn quiet() -> Wake {
        Arc::new(|| {})
    }

    fn wait_for(latest: &mut Latest<u32>) {
        let deadline = Instant::now() + Duration::from_secs(20);
        while !latest.poll() {
            assert!(Instant::now() < deadline, "no result came");
            thread::yield_now();
        }
    }

    #[test]
    fn the_newest_request_wins() {
        let (release, held) = mpsc::channel::<()>();
        let (ended, end) = mpsc::channel();
        let mut latest = Latest::default();
        latest.request(1, "first", quiet(), move |progress| {
            let _ = held.recv();
            let _ = ended.send(progress.check().is_err());
            1
        });
        latest.request(2, "second", quiet(), |_| 2);
        wait_for(&mut latest);
        assert_eq!((latest.made_from(), latest.result()), (Some(2), Some(&2)));
        release.send(()).unwrap();
        assert!(end.recv().unwrap(), "the first was asked to stop");
        assert!(!latest.poll());
        assert_eq!(latest.result(), Some(&2));
    }

    #[test]
    fn a_panic_becomes_a_sentence_and_the_last_result_stays() {
        let mut latest = Latest::default();
        latest.request(1, "good", quiet(), |_| 7);
        wait_for(&mut latest);
        latest.request(2, "bad", quiet(), |_| {
            std::panic::resume_unwind(Box::new("test"))
        });
        wait_for(&mut latest);
        assert_eq!(latest.broken(), Some(Broken));
        assert_eq!((latest.made_from(), latest.result()), (Some(1), Some(&7)));
        assert!(latest.running().is_none());
    }

    #[test]
    fn finishing_waits_for_the_end() {
        let (ended, end) = mpsc::channel();
        let worker = Worker::start("writer", quiet(), move |progress| {
            while progress.check().is_ok() {
                thread::yield_now();
            }
            let _ = ended.send(());
        });
        worker.finish();
        assert!(end.try_recv().is_ok());
    }
}
