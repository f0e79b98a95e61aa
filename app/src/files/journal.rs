//! The journal of a commission: what is not saved yet, kept by appending.
//!
//! Every line is one whole commission with its digest before it. A line that was cut off, or whose digest is another, does not count; the
//! last one that counts is what is found again. Each append begins with a line end, so that a line cut off before it spoils nothing.
//! The file is written anew when it has grown.

use std::io;
use std::path::{Path, PathBuf};

use cam_core::commission::Commission;
use cam_core::digest::sha256_hex;
use cam_core::format::{read_commission, read_workshop, write_commission, write_workshop};
use cam_core::workshop::Workshop;
use serde::{Deserialize, Serialize};

use super::disk::{Disk, Kind, write_all};
use super::open::differs;
use super::save::{Previous, replace};
use super::{FileError, parent, read_on};

/// A journal that has grown beyond this is written anew, bytes: some dozens of large commissions, read in an instant.
const MOST_GROWN: u64 = 4 * 1024 * 1024;

/// One state of a commission that was not saved yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The commission's file; `None` if it never had one.
    pub file: Option<PathBuf>,
    /// SHA-256 of that file when it was last read or written here.
    pub file_sha256: Option<String>,
    /// The commission. Its faces are named from its file, or whole if it has none.
    pub commission: Commission,
    /// The workshop, where it is another than its file holds.
    pub workshop: Option<Workshop>,
}

/// An entry as it stands in a line.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    file: Option<PathBuf>,
    file_sha256: Option<String>,
    commission: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    workshop: Option<String>,
}

impl Entry {
    /// Whether its file is there and has changed since this was kept.
    pub fn is_out_of_step(&self) -> bool {
        match (&self.file, &self.file_sha256) {
            (Some(file), Some(sha256)) => differs(file, sha256),
            (Some(_) | None, _) => false,
        }
    }

    fn to_line(&self) -> io::Result<String> {
        let line = Line {
            file: self.file.clone(),
            file_sha256: self.file_sha256.clone(),
            commission: write_commission(&self.commission),
            workshop: self.workshop.as_ref().map(write_workshop),
        };
        // A path that is no text cannot be kept; the sentence says so.
        let json = serde_json::to_string(&line).map_err(io::Error::other)?;
        Ok(format!("{} {json}", sha256_hex(json.as_bytes())))
    }

    fn from_line(line: &[u8]) -> Option<Entry> {
        let (digest, json) = std::str::from_utf8(line).ok()?.split_once(' ')?;
        if sha256_hex(json.as_bytes()) != digest {
            return None;
        }
        let line: Line = serde_json::from_str(json).ok()?;
        Some(Entry {
            file: line.file,
            file_sha256: line.file_sha256,
            commission: read_commission(&line.commission).ok()?,
            workshop: match line.workshop {
                Some(text) => Some(read_workshop(&text).ok()?),
                None => None,
            },
        })
    }
}

/// Adds an entry, which lies on the disk when this returns.
///
/// # Errors
/// [`FileError`]; the entry before is then still the last that counts, or this one is.
pub fn append(disk: &dyn Disk, journal: &Path, entry: &Entry) -> Result<(), FileError> {
    let failed = |source| FileError::Write {
        path: journal.to_owned(),
        source,
    };
    let line = entry.to_line().map_err(failed)?;
    let before = match disk.kind(journal).map_err(failed)? {
        None => None,
        Some(Kind::File | Kind::Folder | Kind::Link | Kind::Other) => {
            Some(disk.read(journal, MOST_GROWN + 1).map_err(failed)?.len() as u64)
        }
    };
    if before.is_some_and(|grown| grown > MOST_GROWN) {
        return replace(
            disk,
            journal,
            format!("{line}\n").as_bytes(),
            Previous::Dropped,
        );
    }
    let add = || {
        let mut file = disk.append(journal)?;
        write_all(&mut *file, format!("\n{line}\n").as_bytes())?;
        file.sync()?;
        match before {
            Some(_) => Ok(()),
            None => disk.sync_folder(parent(journal)),
        }
    };
    add().map_err(failed)
}

/// The last entry that counts; `None` if there is no journal, or none in it.
///
/// # Errors
/// [`FileError`] if there is a journal and it cannot be read.
pub fn last(disk: &dyn Disk, journal: &Path) -> Result<Option<Entry>, FileError> {
    let present = disk.kind(journal).map_err(|source| FileError::Read {
        path: journal.to_owned(),
        source,
    })?;
    if present.is_none() {
        return Ok(None);
    }
    let bytes = read_on(disk, journal)?;
    let mut lines = bytes.rsplit(|&byte| byte == b'\n');
    Ok(lines.find_map(Entry::from_line))
}

/// Removes a journal whose commission is saved, or that the maker has given up.
///
/// # Errors
/// [`FileError`].
pub fn forget(disk: &dyn Disk, journal: &Path) -> Result<(), FileError> {
    let removed = match disk.remove_file(journal) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        other => other,
    };
    removed
        .and_then(|()| disk.sync_folder(parent(journal)))
        .map_err(|source| FileError::Write {
            path: journal.to_owned(),
            source,
        })
}

#[cfg(test)]
mod tests {
    use super::super::RealDisk;
    use super::*;
    use crate::model::document::tests::commission;

    use std::fs;

    fn entry(title: &str) -> Entry {
        Entry {
            file: Some(PathBuf::from("orders/handbill.json")),
            file_sha256: Some("00".to_owned()),
            commission: Commission {
                title: title.to_owned(),
                ..commission()
            },
            workshop: None,
        }
    }

    #[test]
    fn the_last_whole_entry_counts() {
        let place = tempfile::tempdir().unwrap();
        let journal = place.path().join("a.journal");
        assert_eq!(last(&RealDisk, &journal).unwrap(), None);
        append(&RealDisk, &journal, &entry("one")).unwrap();
        append(&RealDisk, &journal, &entry("two")).unwrap();
        assert_eq!(last(&RealDisk, &journal).unwrap(), Some(entry("two")));
        let whole = fs::read(&journal).unwrap();
        fs::write(&journal, &whole[..whole.len() - 9]).unwrap();
        assert_eq!(last(&RealDisk, &journal).unwrap(), Some(entry("one")));
        append(&RealDisk, &journal, &entry("three")).unwrap();
        assert_eq!(last(&RealDisk, &journal).unwrap(), Some(entry("three")));
        forget(&RealDisk, &journal).unwrap();
        forget(&RealDisk, &journal).unwrap();
        assert_eq!(last(&RealDisk, &journal).unwrap(), None);
    }

    #[test]
    fn a_changed_letter_spoils_its_own_entry_alone() {
        let place = tempfile::tempdir().unwrap();
        let journal = place.path().join("a.journal");
        append(&RealDisk, &journal, &entry("one")).unwrap();
        append(&RealDisk, &journal, &entry("other")).unwrap();
        let text = fs::read_to_string(&journal).unwrap();
        fs::write(&journal, text.replace("other", "0ther")).unwrap();
        assert_eq!(last(&RealDisk, &journal).unwrap(), Some(entry("one")));
    }

    #[test]
    fn a_grown_journal_is_written_anew() {
        let place = tempfile::tempdir().unwrap();
        let journal = place.path().join("a.journal");
        fs::write(&journal, vec![b'x'; MOST_GROWN as usize + 1]).unwrap();
        append(&RealDisk, &journal, &entry("one")).unwrap();
        assert!(fs::metadata(&journal).unwrap().len() < 20_000);
        assert_eq!(last(&RealDisk, &journal).unwrap(), Some(entry("one")));
        assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1);
    }
}
