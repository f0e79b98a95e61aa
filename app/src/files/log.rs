//! The log: what happened, line by line, in a file of bounded size.
//!
//! Everything that this program and its libraries say through the `log` crate goes there, from `info` on. When the file has grown, it
//! becomes `NAME.previous` and a new one begins, so that both together stay bounded.

use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use log::{LevelFilter, Log, Metadata, Record};

use super::disk::{Disk, RealDisk, write_all};
use super::{beside, parent};

/// A log of this size makes room for a new one, bytes: some thousands of lines.
const MOST_BYTES: usize = 256 * 1024;

/// The longest line, letters: libraries may say a great deal.
const LONGEST_LINE: usize = 2000;

/// A log in a file.
pub struct FileLog {
    file: PathBuf,
    /// How much stands in the file, bytes; not known before the first line.
    grown: Mutex<Option<usize>>,
}

impl FileLog {
    /// A log that writes to a file, which is made when it is first needed.
    pub fn to(file: &Path) -> FileLog {
        FileLog {
            file: file.to_owned(),
            grown: Mutex::new(None),
        }
    }

    /// Writes one line, with the time before it. A log that cannot be written is done without.
    pub fn note(&self, level: &str, text: &str) {
        let text: String = text.chars().take(LONGEST_LINE).collect();
        let line = format!("{} {level} {}\n", now(), text.replace('\n', " / "));
        // A panic while it was held has left a number, which is good enough.
        let mut grown = self.grown.lock().unwrap_or_else(PoisonError::into_inner);
        let before = match *grown {
            Some(before) => before,
            None => self.begin(),
        };
        if before > 0 && before + line.len() > MOST_BYTES {
            *grown = Some(if self.make_room() { 0 } else { before });
        } else {
            *grown = Some(before);
        }
        let written = RealDisk
            .append(&self.file)
            .and_then(|mut file| write_all(file.as_mut(), line.as_bytes()));
        if written.is_ok() {
            *grown = grown.map(|size| size + line.len());
        }
    }

    /// The size of what stands there from before.
    fn begin(&self) -> usize {
        // If this fails, so does the writing, and the log is done without.
        let _ = super::home::folder(parent(&self.file));
        let known = RealDisk.read(&self.file, MOST_BYTES as u64 + 1);
        known.map_or(0, |bytes| bytes.len())
    }

    fn make_room(&self) -> bool {
        beside(&self.file, "previous")
            .is_ok_and(|previous| RealDisk.rename(&self.file, &previous).is_ok())
    }
}

impl Log for FileLog {
    fn enabled(&self, metadata: &Metadata) -> bool {
        metadata.level() <= LevelFilter::Info
    }

    fn log(&self, record: &Record) {
        if self.enabled(record.metadata()) {
            let text = format!("{}: {}", record.target(), record.args());
            self.note(record.level().as_str(), &text);
        }
    }

    fn flush(&self) {}
}

/// The time here, to the second.
pub(super) fn now() -> String {
    let now = jiff::Timestamp::now();
    now.to_zoned(jiff::tz::TimeZone::system())
        .strftime("%Y-%m-%d %H:%M:%S")
        .to_string()
}

/// Sends what is said through the `log` crate to a file, from now on.
pub fn install(file: &Path) {
    // If a log is there already, that one goes on.
    if log::set_boxed_logger(Box::new(FileLog::to(file))).is_ok() {
        log::set_max_level(LevelFilter::Info);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_log_stays_bounded_and_its_last_lines_are_there() {
        let place = tempfile::tempdir().unwrap();
        let file = place.path().join("state/sortwright.log");
        let long = "x".repeat(1500);
        for number in 0..600 {
            // A new one now and then, as a window that is opened again.
            let log = FileLog::to(&file);
            log.note("INFO", &format!("{number} {long}"));
        }
        let text = super::super::read_text(&file).unwrap();
        let previous = super::super::read_text(&beside(&file, "previous").unwrap()).unwrap();
        assert!(text.len() <= MOST_BYTES && previous.len() <= MOST_BYTES);
        assert!(text.lines().last().unwrap().contains("INFO 599 x"));
        let first = text.lines().next().unwrap();
        let last = previous.lines().last().unwrap();
        let number = |line: &str| line.split(' ').nth(3).unwrap().parse::<u32>().unwrap();
        assert_eq!(number(first), number(last) + 1, "no line is lost between");
    }

    #[test]
    fn a_line_is_one_line_and_a_log_that_cannot_be_written_is_done_without() {
        let place = tempfile::tempdir().unwrap();
        let file = place.path().join("a.log");
        FileLog::to(&file).note("WARN", "one\ntwo");
        assert_eq!(super::super::read_text(&file).unwrap().lines().count(), 1);
        FileLog::to(&file.join("below a file")).note("WARN", "nowhere");
    }
}
