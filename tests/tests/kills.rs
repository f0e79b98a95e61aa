//! The program's writing is ended by force at any moment; what is found afterwards is whole, and is what was last confirmed or newer.
//!
//! `SORTWRIGHT_KILLS=1000 cargo test -p sortwright-tests --test kills -- --nocapture` runs the long loop, and holds that no kill loses more
//! than two seconds of work. A usual run makes a few rounds and looks at everything but the clock.
#![expect(
    clippy::print_stdout,
    reason = "the counts are what the command is run for"
)]

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use sortwright::background::keeper::Keeper;
use sortwright::files::RealDisk;
use sortwright::files::keep::Keep;
use testkit::crash::{LAST_VERSION, Save, entry};

/// Names the folder that the child works in.
const PLACE: &str = "SORTWRIGHT_KILL_PLACE";
/// How many rounds are run.
const ROUNDS: &str = "SORTWRIGHT_KILLS";
/// Rounds of a usual run.
const FEW: u64 = 12;
/// A child that lives longer than this many changes was not killed.
const MOST_CHANGES: u32 = 1_000_000;
/// The most work that a kill may lose, in milliseconds of the child's clock.
const MOST_LOST: u128 = 2000;

/// The version that a change makes; they go round.
fn version(change: u32) -> u32 {
    change % LAST_VERSION + 1
}

/// What the killed program does: change after change, some of them saved, all of them told on standard output.
#[test]
fn a_child_that_changes_and_saves_until_it_is_killed() {
    let Some(place) = std::env::var_os(PLACE).map(PathBuf::from) else {
        // Only the other test has work for it.
        return;
    };
    let claim = Keep::at(&place.join("state"))
        .claim(&place.join("order.json"))
        .expect("nobody else has it");
    let keeper = Keeper::start(claim.journal().to_owned(), Arc::new(|| {}));
    let start = Instant::now();
    let (_never, pause) = channel::<()>();
    let tell = |word: &str, change: u32| {
        let mut out = std::io::stdout();
        let at = start.elapsed().as_millis();
        writeln!(out, "\n{word} {change} {at}").expect("the parent reads");
    };
    for change in 1..MOST_CHANGES {
        let kept = sortwright::files::journal::Entry {
            commission: cam_core::commission::Commission {
                reference: change.to_string(),
                ..entry(version(change)).commission
            },
            ..entry(version(change))
        };
        keeper.keep(kept);
        tell("changed", change);
        let saves = [(Save::Commission, 7, "saved"), (Save::Folder, 11, "made")];
        for (save, every, word) in saves {
            if change % every == 0 {
                save.save(&RealDisk, &place, version(change))
                    .expect("the disk is well");
                tell(word, change);
            }
        }
        // As long as a quick hand takes.
        let _ = pause.recv_timeout(Duration::from_millis(20));
    }
}

/// What a child said: word, change, its clock in ms.
type Said = (String, u32, u128);

fn lines_of(child: &mut Child) -> Receiver<Said> {
    let (sender, lines) = channel();
    let out = BufReader::new(child.stdout.take().expect("it is piped"));
    std::thread::spawn(move || {
        for line in out.lines().map_while(Result::ok) {
            let words: Vec<&str> = line.split(' ').collect();
            if let [word, change, at] = words[..]
                && let (Ok(change), Ok(at)) = (change.parse(), at.parse())
                && sender.send((word.to_owned(), change, at)).is_err()
            {
                return;
            }
        }
    });
    lines
}

/// Runs a child and kills it after so many lines; everything it said.
fn kill_after(place: &Path, lines: u64) -> Vec<Said> {
    let mut child = Command::new(std::env::current_exe().expect("this test"))
        .args([
            "--exact",
            "a_child_that_changes_and_saves_until_it_is_killed",
            "--nocapture",
        ])
        .env(PLACE, place)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("a child");
    let heard = lines_of(&mut child);
    let mut said: Vec<Said> = heard.iter().take(lines as usize).collect();
    child.kill().expect("it runs");
    child.wait().expect("it has ended");
    said.extend(heard);
    assert!(said.len() as u64 >= lines, "the child ended by itself");
    said
}

/// The last change that was told with a word.
fn last(said: &[Said], word: &str) -> Option<u32> {
    said.iter()
        .rfind(|(told, ..)| told == word)
        .map(|(_, change, _)| *change)
}

/// What was saved is there: the version last told, or that of the next save, which was not told any more.
fn check_saved(save: Save, place: &Path, told: Option<u32>, every: u32) {
    let found = save.reopen(&RealDisk, place);
    let next = told.map_or(every, |change| change + every);
    let allowed = [told.map(version), Some(version(next))];
    let good = matches!(found, Ok(found) if allowed.contains(&found));
    assert!(good, "{save:?}: found {found:?}, not of {allowed:?}");
}

/// How long before the kill the first change was made that was lost, in ms.
fn check_kept(place: &Path, said: &[Said]) -> u128 {
    let found = Keep::at(&place.join("state"))
        .leftovers()
        .expect("the folder can be read");
    assert!(found.len() <= 1);
    let kept: u32 = found.first().map_or(0, |leftover| {
        let reference = &leftover.entry.commission.reference;
        let change = reference.parse().expect("a number was kept");
        let whole = &leftover.entry.commission;
        assert_eq!(whole.bill, entry(version(change)).commission.bill);
        change
    });
    let end = said.last().map_or(0, |(.., at)| *at);
    let lost = said
        .iter()
        .find(|(word, change, _)| word == "changed" && *change > kept);
    lost.map_or(0, |(.., at)| end - at)
}

#[test]
fn whenever_it_is_killed_what_is_found_is_whole() {
    if std::env::var_os(PLACE).is_some() {
        return;
    }
    let long = std::env::var(ROUNDS)
        .ok()
        .and_then(|rounds| rounds.parse().ok());
    let mut most_lost = 0;
    let mut chance = 0x2545_F491_4F6C_DD1D_u64;
    for _ in 0..long.unwrap_or(FEW) {
        // A simple sequence that looks like chance (Marsaglia, "Xorshift RNGs", 2003).
        chance ^= chance << 13;
        chance ^= chance >> 7;
        chance ^= chance << 17;
        let place = tempfile::tempdir().expect("a temporary folder");
        let said = kill_after(place.path(), 1 + chance % 240);
        check_saved(Save::Commission, place.path(), last(&said, "saved"), 7);
        check_saved(Save::Folder, place.path(), last(&said, "made"), 11);
        most_lost = most_lost.max(check_kept(place.path(), &said));
    }
    println!("{most_lost} ms of work lost at most");
    if long.is_some() {
        assert!(most_lost <= MOST_LOST, "{most_lost} ms");
    }
}
