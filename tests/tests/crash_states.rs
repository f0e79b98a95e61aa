//! Every state in which a sudden end may leave a save, and every call of a save failing: what is opened again is old or new.
//!
//! `SORTWRIGHT_CRASH_SUBSETS=4096 cargo test -p sortwright-tests --test crash_states -- --nocapture` runs it in full, and prints how many states
//! were tried. A usual run saves less often, and tries fewer of the subsets of what large writes leave.
#![expect(
    clippy::print_stdout,
    reason = "the counts are what the command is run for"
)]

use std::path::Path;

use sortwright::files::{Disk, FileError};
use testkit::crash::{
    Fault, Grain, LAST_VERSION, ModelDisk, PLACE, Save, Tally, Trouble, crash_states, full_run,
};

/// How many versions are saved one after the other, in a usual and in the full run.
const VERSIONS: [u32; 2] = [3, 5];

/// Different states that each kind of save must have been seen in, in a usual and in the full run.
const LEAST_STATES: [usize; 2] = [1_000, 10_000];

/// What of the two is done here.
fn of<T: Copy>(usual_and_full: [T; 2]) -> T {
    usual_and_full[usize::from(full_run().is_some())]
}

fn save_in(save: Save, disk: &ModelDisk, version: u32) -> Result<(), FileError> {
    save.save(disk, Path::new(PLACE), version)
}

fn reopen(save: Save, disk: &ModelDisk) -> Result<Option<u32>, String> {
    save.reopen(disk, Path::new(PLACE))
}

/// Where a save begins and ends among the recorded calls.
struct Span {
    version: u32,
    begin: usize,
    end: usize,
}

/// What may be found if the disk stops before the call `end`.
fn allowed(spans: &[Span], end: usize) -> Vec<Option<u32>> {
    let done = spans.iter().rfind(|span| span.end <= end);
    let during = spans
        .iter()
        .find(|span| span.begin < end && end < span.end)
        .map(|span| Some(span.version));
    [done.map(|span| span.version)]
        .into_iter()
        .chain(during)
        .collect()
}

/// Opens what is there, finds it among what may be, and, where that was not tried yet, saves once more as if nothing had happened.
fn check_state(save: Save, state: &ModelDisk, allowed: &[Option<u32>], fresh: bool, when: &str) {
    let found = reopen(save, state);
    let good = matches!(&found, Ok(version) if allowed.contains(version));
    assert!(
        good,
        "{save:?}, {when}: found {found:?}, not of {allowed:?}"
    );
    if fresh {
        let again = save_in(save, state, LAST_VERSION);
        assert!(
            again.is_ok(),
            "{save:?}, {when}: cannot save again: {again:?}"
        );
        assert_eq!(
            reopen(save, state),
            Ok(Some(LAST_VERSION)),
            "{save:?}, {when}"
        );
    }
}

fn crash(save: Save, disk: ModelDisk, tally: &mut Tally) {
    let mut spans = Vec::new();
    for version in 1..=of(VERSIONS) {
        let begin = disk.recorded();
        save_in(save, &disk, version).expect("nothing fails yet");
        let end = disk.recorded();
        spans.push(Span {
            version,
            begin,
            end,
        });
    }
    for end in 0..=disk.recorded() {
        let allowed = allowed(&spans, end);
        crash_states(&disk, end, Grain::Sector, tally, |state, fresh| {
            check_state(save, state, &allowed, fresh, &format!("call {end}"));
        });
    }
}

#[test]
fn after_a_sudden_end_the_old_or_the_new_is_found() {
    let mut all = 0;
    for save in Save::ALL {
        let mut tally = Tally::default();
        crash(save, save.disk(), &mut tally);
        crash(save, save.disk().plain(), &mut tally);
        println!(
            "{save:?}: {} crash states tried, {} of them different, none lost",
            tally.tried,
            tally.distinct()
        );
        all += tally.distinct();
        assert!(
            tally.distinct() >= of(LEAST_STATES),
            "{save:?}: too few states"
        );
    }
    println!("{all} different crash states in all, none lost");
}

/// What may be found after a save that ended like this.
fn left_by(result: &Result<(), FileError>, save: Save, fault: Fault) -> Vec<Option<u32>> {
    match result {
        Ok(()) => vec![Some(3)],
        Err(FileError::Unconfirmed { .. }) => vec![Some(2), Some(3)],
        // A line of the journal may be whole before the disk says that it is.
        Err(_) if save == Save::Journal => vec![Some(2), Some(3)],
        // Two steps in place of an exchange cannot be taken back on a disk that has stopped working altogether.
        Err(_) if save == Save::Folder && fault.lasts => vec![Some(2), Some(3)],
        Err(_) => vec![Some(2)],
    }
}

/// A failed save names the place and the trouble.
fn check_sentence(error: &FileError, fault: Fault) {
    let said = error.to_string();
    let words = match fault.trouble {
        Trouble::Full | Trouble::Short | Trouble::ShortThenFull => "the disk is full",
        Trouble::Broken => "input/output error",
        Trouble::ReadOnly => "it is protected",
    };
    assert!(said.contains(words), "{fault:?}: {said}");
    assert!(said.contains(PLACE), "{fault:?}: {said}");
}

fn fail(save: Save, plain: bool, tally: &mut Tally) -> usize {
    let begin = || {
        let disk = if plain {
            save.disk().plain()
        } else {
            save.disk()
        };
        for version in [1, 2] {
            save_in(save, &disk, version).expect("nothing fails yet");
        }
        disk.set_fault(None);
        disk
    };
    let calls = {
        let disk = begin();
        save_in(save, &disk, 3).expect("nothing fails yet");
        disk.count()
    };
    let mut tried = 0;
    for call in 0..calls {
        for trouble in Trouble::ALL {
            for lasts in [false, true] {
                let fault = Fault {
                    call,
                    trouble,
                    lasts,
                };
                let disk = begin();
                disk.set_fault(Some(fault));
                let result = save_in(save, &disk, 3);
                disk.set_fault(None);
                tried += 1;
                if let Err(error) = &result {
                    check_sentence(error, fault);
                }
                let allowed = left_by(&result, save, fault);
                let when = format!("{fault:?}, answered {result:?}");
                crash_states(
                    &disk,
                    disk.recorded(),
                    Grain::Page,
                    tally,
                    |state, fresh| {
                        check_state(save, state, &allowed, fresh, &when);
                    },
                );
                check_state(save, &disk, &allowed, true, &when);
            }
        }
    }
    tried
}

#[test]
fn whatever_call_fails_the_old_or_the_new_is_found() {
    for save in Save::ALL {
        let mut tally = Tally::default();
        let tried = fail(save, false, &mut tally) + fail(save, true, &mut tally);
        println!(
            "{save:?}: {tried} failing calls tried, with {} crash states after them, {} of them different",
            tally.tried,
            tally.distinct()
        );
        assert!(tried >= 100);
    }
}

#[test]
fn a_disk_that_writes_in_place_would_be_caught() {
    let disk = Save::Commission.disk();
    save_in(Save::Commission, &disk, 1).expect("nothing fails yet");
    // The wrong way: the old file is removed before the new one is whole.
    let path = Path::new(PLACE).join("order.json");
    disk.remove_file(&path).expect("it is there");
    save_in(Save::Commission, &disk, 2).expect("nothing fails yet");
    let mut lost = 0;
    let mut tally = Tally::default();
    for end in 0..=disk.recorded() {
        crash_states(&disk, end, Grain::Page, &mut tally, |state, _fresh| {
            let found = reopen(Save::Commission, state);
            lost += usize::from(!matches!(found, Ok(Some(1 | 2))) && end > 5);
        });
    }
    assert!(lost > 0, "the states do not tell");
}
