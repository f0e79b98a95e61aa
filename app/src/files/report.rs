//! Reports of crashes: what went wrong inside the program, where, and on what, written by a panic hook.
//!
//! Unsaved work is not in a report: its journal is written by a thread of its own and is found again at the next start. A report that
//! nobody was told of is told at the next start; after that it stays in its folder, among the last few.

use std::backtrace::Backtrace;
use std::panic::PanicHookInfo;
use std::path::{Path, PathBuf};

use super::disk::{Disk, RealDisk};
use super::log::now;
use super::write_atomic;

/// How many reports are kept.
const MOST: usize = 20;

/// What the names of reports end in: new ones, and those that were told of.
const NEW: &str = "new.txt";
const TOLD: &str = "txt";

/// From now on, a panic leaves a report in this folder, before what was done so far about panics.
pub fn install(folder: &Path) {
    let folder = folder.to_owned();
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        write(&folder, &text_of(panic));
        before(panic);
    }));
}

/// What is known of a panic.
fn text_of(panic: &PanicHookInfo) -> String {
    let said = panic
        .payload_as_str()
        .unwrap_or("something that is no text");
    let place = panic
        .location()
        .map_or_else(|| "an unknown place".to_owned(), ToString::to_string);
    let thread = std::thread::current();
    log::error!("a fault at {place}: {said}");
    format!(
        "Sortwright {}\n{}\nSystem: {} {}\nThread: {}\nPlace: {place}\nWhat was said: {said}\n\n{}\n",
        env!("CARGO_PKG_VERSION"),
        now(),
        std::env::consts::OS,
        std::env::consts::ARCH,
        thread.name().unwrap_or("without a name"),
        Backtrace::force_capture()
    )
}

/// Writes a report. If even that fails, nothing more can be done.
fn write(folder: &Path, text: &str) -> Option<PathBuf> {
    super::home::folder(folder).ok()?;
    let names = names(folder);
    let last = names.last().and_then(|name| name.get(..6)?.parse().ok());
    let number: u32 = last.unwrap_or(0) + 1;
    for old in names.iter().take((names.len() + 1).saturating_sub(MOST)) {
        // It stays one time longer.
        let _ = RealDisk.remove_file(&folder.join(old));
    }
    let path = folder.join(format!("{number:06}.{NEW}"));
    write_atomic(&path, text.as_bytes()).ok()?;
    Some(path)
}

/// The names of reports, from the oldest to the newest.
fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = RealDisk
        .list(folder)
        .unwrap_or_default()
        .into_iter()
        .filter_map(|name| name.into_string().ok())
        .filter(|name| name.ends_with(TOLD))
        .collect();
    names.sort();
    names
}

/// A report that nobody was told of yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Untold {
    /// When it was written.
    pub when: String,
    /// Its file.
    pub path: PathBuf,
}

/// The newest report of an earlier run that nobody was told of; from now on, all have been.
pub fn untold(folder: &Path) -> Option<Untold> {
    let mut newest = None;
    for name in names(folder) {
        let Some(bare) = name.strip_suffix(NEW) else {
            continue;
        };
        let told = folder.join(format!("{bare}{TOLD}"));
        // What cannot be renamed is told of again.
        let path = match RealDisk.rename(&folder.join(&name), &told) {
            Ok(()) => told,
            Err(_) => folder.join(&name),
        };
        let text = super::read_text(&path).unwrap_or_default();
        newest = Some(Untold {
            when: text.lines().nth(1).unwrap_or("?").to_owned(),
            path,
        });
    }
    newest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_report_is_told_once_and_few_are_kept() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("reports");
        assert_eq!(untold(&folder), None);
        let first = write(&folder, "Sortwright\n2026-11-26 04:00:00\n").unwrap();
        let told = untold(&folder).unwrap();
        assert_eq!(told.when, "2026-11-26 04:00:00");
        assert!(told.path.exists() && !first.exists());
        assert_eq!(untold(&folder), None);
        for _ in 0..MOST + 7 {
            write(&folder, "Sortwright\nlater\n").unwrap();
        }
        assert_eq!(names(&folder).len(), MOST);
        assert!(untold(&folder).unwrap().path.ends_with("000028.txt"));
        assert_eq!(names(&folder).len(), MOST);
    }
}
