//! Keeps unsaved work in its journal, on a thread of its own, at most two seconds after it was done.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::Wake;
use crate::files::RealDisk;
use crate::files::journal::{Entry, append, forget};

/// A change is written once nothing has changed for so long, so that typing does not write at every key.
const QUIET: Duration = Duration::from_millis(400);

/// A change is written after so long whatever follows. With half a second for a slow disk this stays below two seconds.
const LONGEST: Duration = Duration::from_millis(1500);

/// What the thread is told.
enum Order {
    /// This is unsaved.
    Keep(Box<Entry>),
    /// Nothing is unsaved any more.
    Forget,
}

/// The keeper of one commission's journal. Dropping it writes what waits, and does not come back before that.
pub struct Keeper {
    orders: Option<Sender<Order>>,
    thread: Option<JoinHandle<()>>,
    trouble: Arc<Mutex<Option<String>>>,
}

impl Keeper {
    /// Starts keeping in the journal given. If the system has no thread to give, [`Keeper::trouble`] says so.
    pub fn start(journal: PathBuf, wake: Wake) -> Keeper {
        let (orders, received) = channel();
        let trouble = Arc::new(Mutex::new(None));
        let told = Arc::clone(&trouble);
        let thread = thread::Builder::new()
            .name("journal".to_owned())
            .spawn(move || {
                keep(&received, |waiting| {
                    let done = match waiting {
                        Some(entry) => append(&RealDisk, &journal, entry),
                        None => forget(&RealDisk, &journal),
                    };
                    if let Err(error) = done {
                        let sentence =
                            format!("Unsaved work is not being kept, so save it now. {error}");
                        *told.lock().unwrap_or_else(PoisonError::into_inner) = Some(sentence);
                        wake();
                    }
                });
            });
        let mut keeper = Keeper {
            orders: Some(orders),
            thread: None,
            trouble,
        };
        match thread {
            Ok(thread) => keeper.thread = Some(thread),
            Err(error) => {
                *keeper.lock() = Some(format!(
                    "Unsaved work is not being kept, so save it often: {error}."
                ));
            }
        }
        keeper
    }

    /// Keeps this soon, in place of anything that still waits.
    pub fn keep(&self, entry: Entry) {
        self.tell(Order::Keep(Box::new(entry)));
    }

    /// Forgets what was kept: it is saved, or the maker gave it up.
    pub fn forget(&self) {
        self.tell(Order::Forget);
    }

    /// Why something could not be kept, once.
    pub fn trouble(&self) -> Option<String> {
        self.lock().take()
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, Option<String>> {
        self.trouble.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn tell(&self, order: Order) {
        if let Some(orders) = &self.orders {
            // Without a thread the trouble was told already.
            let _ = orders.send(order);
        }
    }
}

impl Drop for Keeper {
    fn drop(&mut self) {
        self.orders = None;
        if let Some(thread) = self.thread.take() {
            // Nothing is left to be told if it broke.
            let _ = thread.join();
        }
    }
}

/// When something that waits is due.
#[derive(Clone, Copy, Debug)]
struct Waiting {
    first: Instant,
    last: Instant,
}

impl Waiting {
    fn due(self) -> Instant {
        (self.last + QUIET).min(self.first + LONGEST)
    }
}

/// Carries orders out until nobody gives any more. `write` gets the entry to append, or `None` to forget.
fn keep(orders: &Receiver<Order>, mut write: impl FnMut(Option<&Entry>)) {
    let mut waiting: Option<(Entry, Waiting)> = None;
    loop {
        let order = match &waiting {
            None => orders.recv().map_err(|_| RecvTimeoutError::Disconnected),
            Some((_, times)) => {
                orders.recv_timeout(times.due().saturating_duration_since(Instant::now()))
            }
        };
        match order {
            Ok(Order::Keep(entry)) => {
                let now = Instant::now();
                let first = waiting.take().map_or(now, |(_, times)| times.first);
                let times = Waiting { first, last: now };
                waiting = Some((*entry, times));
                // Changes that never pause must not put it off.
                if now >= times.due() {
                    write(waiting.take().as_ref().map(|(entry, _)| entry));
                }
            }
            Ok(Order::Forget) => {
                waiting = None;
                write(None);
            }
            Err(RecvTimeoutError::Timeout) => {
                if let Some((entry, _)) = waiting.take() {
                    write(Some(&entry));
                }
            }
            Err(RecvTimeoutError::Disconnected) => {
                if let Some((entry, _)) = waiting.take() {
                    write(Some(&entry));
                }
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::journal::last;
    use crate::model::document::tests::commission;

    fn entry(title: &str) -> Entry {
        Entry {
            file: None,
            file_sha256: None,
            commission: cam_core::commission::Commission {
                title: title.to_owned(),
                ..commission()
            },
            workshop: None,
        }
    }

    #[test]
    fn it_is_due_after_a_pause_and_never_later_than_its_longest() {
        let first = Instant::now();
        let ms = Duration::from_millis;
        let due = |last: u64| {
            Waiting {
                first,
                last: first + ms(last),
            }
            .due()
                - first
        };
        assert_eq!(due(0), ms(400));
        assert_eq!(due(300), ms(700));
        for typing in [1200, 1500, 60_000] {
            assert_eq!(due(typing), ms(1500));
        }
    }

    #[test]
    fn what_waits_is_written_at_the_end_and_what_is_forgotten_is_not() {
        let mut written = Vec::new();
        let (orders, received) = channel();
        for title in ["one", "two"] {
            orders.send(Order::Keep(Box::new(entry(title)))).unwrap();
        }
        orders.send(Order::Forget).unwrap();
        orders.send(Order::Keep(Box::new(entry("three")))).unwrap();
        drop(orders);
        keep(&received, |entry| {
            written.push(entry.map(|entry| entry.commission.title.clone()));
        });
        assert_eq!(written.last(), Some(&Some("three".to_owned())));
        assert!(written.contains(&None));
    }

    #[test]
    fn dropping_the_keeper_leaves_the_journal_written() {
        let place = tempfile::tempdir().unwrap();
        let journal = place.path().join("a.journal");
        let keeper = Keeper::start(journal.clone(), Arc::new(|| {}));
        keeper.keep(entry("one"));
        keeper.keep(entry("two"));
        assert_eq!(keeper.trouble(), None);
        drop(keeper);
        assert_eq!(last(&RealDisk, &journal).unwrap(), Some(entry("two")));
    }

    #[test]
    fn a_journal_that_cannot_be_written_is_told_once() {
        let place = tempfile::tempdir().unwrap();
        let keeper = Keeper::start(place.path().join("none/a.journal"), Arc::new(|| {}));
        keeper.keep(entry("one"));
        let mut told = None;
        let deadline = Instant::now() + Duration::from_secs(60);
        while told.is_none() && Instant::now() < deadline {
            told = keeper.trouble();
            thread::yield_now();
        }
        assert!(told.unwrap().contains("save it now"));
        assert_eq!(keeper.trouble(), None);
    }
}
