//! Where unsaved work is kept, and which window owns which commission.
//!
//! Every commission that is open has a claim: a small file in the program's state folder, locked by the window for as long as it lives. The
//! system frees the lock when the window's process ends, however it ends, so a claim that outlived its window is known by being free.
//! Beside it lies the commission's [`journal`]. A journal that nobody claims is work that was cut off.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};

use cam_core::commission::Commission;
use cam_core::digest::sha256_hex;
use cam_core::format::{read_commission, write_commission, write_workshop};
use cam_core::workshop::Workshop;

use super::disk::{Disk, RealDisk, make_folders};
use super::journal::{self, Entry};
use super::open::{WORKSHOP_FILE, workshop_at};
use super::{FileError, parent, read_text, shown, write_atomic};

/// What the names of claims and journals end in.
const CLAIM: &str = "claim";
const JOURNAL: &str = "journal";

/// The folder of what was put away, and how many are kept there: more than anyone looks through.
const PUT_AWAY: &str = "put-away";
const MOST_PUT_AWAY: usize = 50;

/// How many commissions without a file can be open at once.
const MOST_NEW: usize = 1000;

/// Letters of a digest that make a name: too many for two files ever to share one.
const NAME_LETTERS: usize = 40;

/// A note longer than this was not written here, bytes.
const LONGEST_NOTE: u64 = 1000;

/// Why a commission could not be claimed.
#[derive(Debug, thiserror::Error)]
pub enum ClaimError {
    /// Another window has it.
    #[error("This commission is open in another window of Sortwright{owner}.")]
    Taken {
        /// What the other window noted of itself, in parentheses; may be empty.
        owner: String,
    },
    /// The state folder cannot be used.
    #[error("No journal of unsaved work can be kept, so save often. {0}")]
    NoJournal(#[from] FileError),
}

/// The program's state folder.
#[derive(Clone, Debug)]
pub struct Keep {
    folder: PathBuf,
}

/// One window's claim on one commission. It ends when it is dropped, or with the process.
#[derive(Debug)]
pub struct Claim {
    journal: PathBuf,
    /// Locked while this lives.
    _lock: File,
}

impl Claim {
    /// The journal that goes with it.
    pub fn journal(&self) -> &Path {
        &self.journal
    }
}

/// Work that was cut off, with the claim on it.
#[derive(Debug)]
pub struct Leftover {
    /// What was last kept.
    pub entry: Entry,
    /// The claim, held while the maker decides.
    pub claim: Claim,
}

impl Keep {
    /// The folder that the system gives programs for their state; `None` if it gives none.
    pub fn usual() -> Option<Keep> {
        let folders = directories::ProjectDirs::from("", "", "sortwright")?;
        let folder = folders
            .state_dir()
            .unwrap_or_else(|| folders.data_local_dir());
        Some(Keep::at(folder))
    }

    /// A folder of the caller's choice, made when it is first needed.
    pub fn at(folder: &Path) -> Keep {
        Keep {
            folder: folder.to_owned(),
        }
    }

    /// Claims a commission for this window, by its file.
    ///
    /// # Errors
    /// [`ClaimError`].
    pub fn claim(&self, file: &Path) -> Result<Claim, ClaimError> {
        self.claim_name(&name_of(file))
    }

    /// Claims a name for a commission that has no file yet.
    ///
    /// # Errors
    /// [`ClaimError`].
    pub fn claim_new(&self) -> Result<Claim, ClaimError> {
        for number in 1..MOST_NEW {
            let name = format!("new-{number}");
            if self.path(&name, JOURNAL).exists() {
                continue;
            }
            match self.claim_name(&name) {
                Err(ClaimError::Taken { .. }) => {}
                // A window that ended in between may have left its journal.
                Ok(claim) if claim.journal.exists() => {}
                other => return other,
            }
        }
        Err(ClaimError::Taken {
            owner: String::new(),
        })
    }

    fn claim_name(&self, name: &str) -> Result<Claim, ClaimError> {
        let path = self.path(name, CLAIM);
        let failed = |source| FileError::Write {
            path: path.clone(),
            source,
        };
        make_folders(&RealDisk, &self.folder).map_err(failed)?;
        let mut lock = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .open(&path)
            .map_err(failed)?;
        match lock.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                return Err(ClaimError::Taken {
                    owner: note_in(&mut lock),
                });
            }
            Err(TryLockError::Error(source)) => return Err(failed(source).into()),
        }
        // The note is for people; without it the lock holds all the same.
        let _ = write_note(&mut lock);
        Ok(Claim {
            journal: self.path(name, JOURNAL),
            _lock: lock,
        })
    }

    /// The work that earlier windows left without saving it, in the order of their names. What is in use is passed over.
    ///
    /// # Errors
    /// [`FileError`] if the folder is there and cannot be read.
    pub fn leftovers(&self) -> Result<Vec<Leftover>, FileError> {
        let failed = |source| FileError::Read {
            path: self.folder.clone(),
            source,
        };
        if RealDisk.kind(&self.folder).map_err(failed)?.is_none() {
            return Ok(Vec::new());
        }
        let mut names: Vec<String> = RealDisk
            .list(&self.folder)
            .map_err(failed)?
            .into_iter()
            .filter_map(|name| name.into_string().ok())
            .filter_map(|name| name.strip_suffix(&format!(".{JOURNAL}")).map(str::to_owned))
            .collect();
        names.sort();
        Ok(names
            .iter()
            .filter_map(|name| self.claim_name(name).ok())
            .filter_map(|claim| self.leftover(claim).ok())
            .collect())
    }

    /// What a claim's journal holds beyond the commission's file.
    ///
    /// # Errors
    /// The claim, if there is nothing.
    pub fn leftover(&self, claim: Claim) -> Result<Leftover, Claim> {
        match journal::last(&RealDisk, claim.journal()) {
            Ok(Some(entry)) if is_saved(&entry) => {
                // The window ended between saving and forgetting. If this fails it is only found again.
                let _ = journal::forget(&RealDisk, claim.journal());
                Err(claim)
            }
            Ok(Some(entry)) => Ok(Leftover { entry, claim }),
            Ok(None) | Err(_) => Err(claim),
        }
    }

    /// Puts work that was cut off away, as an ordinary commission file, whose path is the answer; the claim ends.
    ///
    /// # Errors
    /// [`FileError`], with the work still where it was.
    pub fn put_away(&self, leftover: &Leftover) -> Result<PathBuf, FileError> {
        let folder = self.folder.join(PUT_AWAY);
        make_folders(&RealDisk, &folder).map_err(|source| FileError::Write {
            path: folder.clone(),
            source,
        })?;
        let mut names: Vec<String> = RealDisk
            .list(&folder)
            .unwrap_or_default()
            .into_iter()
            .filter_map(|name| name.into_string().ok())
            .collect();
        names.sort();
        let last = names.last().and_then(|name| name.get(..6)?.parse().ok());
        let number: u32 = last.unwrap_or(0) + 1;
        let path = folder.join(format!("{number:06}.json"));
        let commission = with_whole_names(&leftover.entry);
        write_atomic(&path, write_commission(&commission).as_bytes())?;
        if let Some(workshop) = &leftover.entry.workshop {
            let beside = folder.join(format!("{number:06} {WORKSHOP_FILE}"));
            write_atomic(&beside, write_workshop(workshop).as_bytes())?;
        }
        journal::forget(&RealDisk, leftover.claim.journal())?;
        let many = names.len().saturating_sub(MOST_PUT_AWAY - 1);
        for old in &names[..many] {
            // It stays one time longer.
            let _ = RealDisk.remove_file(&folder.join(old));
        }
        Ok(path)
    }

    fn path(&self, name: &str, ending: &str) -> PathBuf {
        self.folder.join(format!("{name}.{ending}"))
    }
}

/// The name of a commission's claim: the same whichever way the file is spelt.
fn name_of(file: &Path) -> String {
    let whole = file
        .canonicalize()
        .or_else(|_| std::path::absolute(file))
        .unwrap_or_else(|_| file.to_owned());
    let mut name = sha256_hex(whole.as_os_str().as_encoded_bytes());
    name.truncate(NAME_LETTERS);
    name
}

/// Whether a commission's file, and its workshop's, hold just what was kept.
fn is_saved(entry: &Entry) -> bool {
    entry.file.as_ref().is_some_and(|file| {
        let shop = file.with_file_name(WORKSHOP_FILE);
        let is_kept =
            |workshop: &Workshop| workshop_at(&shop).is_ok_and(|(there, _)| there == *workshop);
        entry.workshop.as_ref().is_none_or(is_kept)
            && read_text(file)
                .is_ok_and(|text| read_commission(&text).as_ref() == Ok(&entry.commission))
    })
}

/// The commission with its faces named whole, so that it can be opened from anywhere.
fn with_whole_names(entry: &Entry) -> Commission {
    let mut commission = entry.commission.clone();
    if let Some(file) = &entry.file {
        for name in commission.files_mut() {
            let whole = parent(file).join(&*name);
            *name = shown(&whole.canonicalize().unwrap_or(whole));
        }
    }
    commission
}

fn write_note(lock: &mut File) -> io::Result<()> {
    lock.set_len(0)?;
    lock.rewind()?;
    write!(lock, "process {}", std::process::id())
}

/// What the owner of a lock noted, for a sentence. Some systems do not let it be read.
fn note_in(lock: &mut File) -> String {
    let mut note = String::new();
    match lock.take(LONGEST_NOTE).read_to_string(&mut note) {
        Ok(_) if !note.is_empty() => format!(" ({note})"),
        Ok(_) | Err(_) => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::document::tests::commission;

    use std::fs;

    fn entry(file: &Path) -> Entry {
        Entry {
            file: Some(file.to_owned()),
            file_sha256: None,
            commission: commission(),
            workshop: None,
        }
    }

    #[test]
    fn a_claim_holds_until_it_ends() {
        let place = tempfile::tempdir().unwrap();
        let keep = Keep::at(&place.path().join("state/sortwright"));
        let file = place.path().join("a.json");
        fs::write(&file, "x").unwrap();
        let first = keep.claim(&file).unwrap();
        let again = place.path().join("../").join(place.path()).join("a.json");
        match keep.claim(&again) {
            Err(ClaimError::Taken { owner }) => {
                assert!(owner.contains(&std::process::id().to_string()));
            }
            other => panic!("{other:?}"),
        }
        assert!(keep.claim(&place.path().join("b.json")).is_ok());
        drop(first);
        assert!(keep.claim(&file).is_ok());
    }

    #[test]
    fn what_was_cut_off_is_found_once_and_what_was_saved_is_not() {
        let place = tempfile::tempdir().unwrap();
        let keep = Keep::at(place.path());
        let file = place.path().join("a.json");
        let claim = keep.claim(&file).unwrap();
        journal::append(&RealDisk, claim.journal(), &entry(&file)).unwrap();
        assert!(keep.leftovers().unwrap().is_empty(), "it is in use");
        drop(claim);
        let found = keep.leftovers().unwrap();
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].entry, entry(&file));
        assert!(keep.leftovers().unwrap().is_empty(), "it is being decided");
        drop(found);
        fs::write(&file, write_commission(&commission())).unwrap();
        assert!(keep.leftovers().unwrap().is_empty(), "it is saved");
        assert!(!keep.claim(&file).unwrap().journal().exists());
    }

    #[test]
    fn what_is_put_away_can_be_opened() {
        let place = tempfile::tempdir().unwrap();
        let keep = Keep::at(place.path());
        let claim = keep.claim_new().unwrap();
        assert_ne!(
            claim.journal(),
            keep.claim_new().unwrap().journal(),
            "two new ones are told apart"
        );
        let file = place.path().join("orders/a.json");
        journal::append(&RealDisk, claim.journal(), &entry(&file)).unwrap();
        let leftover = keep.leftover(claim).unwrap();
        let path = keep.put_away(&leftover).unwrap();
        let back = read_commission(&read_text(&path).unwrap()).unwrap();
        let font = place.path().join("orders/face.ttf");
        assert_eq!(back.faces[0].file, shown(&font));
        assert!(!leftover.claim.journal().exists());
        for _ in 0..MOST_PUT_AWAY + 5 {
            journal::append(&RealDisk, leftover.claim.journal(), &entry(&file)).unwrap();
            keep.put_away(&leftover).unwrap();
        }
        let many = fs::read_dir(place.path().join(PUT_AWAY)).unwrap().count();
        assert_eq!(many, MOST_PUT_AWAY);
    }

    #[test]
    fn a_state_folder_that_cannot_be_made_gets_a_sentence() {
        let place = tempfile::tempdir().unwrap();
        let in_the_way = place.path().join("state");
        fs::write(&in_the_way, "x").unwrap();
        let error = Keep::at(&in_the_way)
            .claim(Path::new("a.json"))
            .unwrap_err();
        assert!(error.to_string().contains("save often"), "{error}");
    }
}
