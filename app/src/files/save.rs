//! Writing one file whole or not at all.

use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use super::disk::{Disk, Kind, RealDisk, write_new};
use super::{FileError, MOST_BYTES, beside, parent};

/// Writes a file whole or not at all; what stood there before is kept as `NAME.previous`.
///
/// # Errors
/// [`FileError::Write`] with the file untouched, [`FileError::Unconfirmed`] with the new file in place, or [`FileError::NoName`].
pub fn write_atomic(path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    write_atomic_on(&RealDisk, path, bytes)
}

/// As [`write_atomic`], on the disk given.
///
/// # Errors
/// As [`write_atomic`].
pub fn write_atomic_on(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    replace(disk, path, bytes, Previous::Kept)
}

/// What becomes of the file that stood there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Previous {
    /// It stays as `NAME.previous`.
    Kept,
    /// It goes.
    Dropped,
}

/// Writes a file whole or not at all.
pub(super) fn replace(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    previous: Previous,
) -> Result<(), FileError> {
    let failed = |source| FileError::Write {
        path: path.to_owned(),
        source,
    };
    let (target, present) = target_of(disk, path).map_err(failed)?;
    let unfinished = beside(&target, &format!("unfinished-{}", std::process::id()))?;
    let spare = beside(&target, &format!("spare-{}", std::process::id()))?;
    let kept = beside(&target, "previous")?;
    let place = || {
        // Left over from an earlier save of a process of the same number.
        remove_leftover(disk, &unfinished)?;
        write_new(disk, &unfinished, bytes)?;
        if present && previous == Previous::Kept {
            keep(disk, &target, &spare, &kept)?;
        }
        disk.rename(&unfinished, &target)
    };
    if let Err(source) = place() {
        // Nothing more can be done if even this fails; the names tell what the files are.
        let _ = remove_leftover(disk, &unfinished);
        let _ = remove_leftover(disk, &spare);
        return Err(failed(source));
    }
    disk.sync_folder(parent(&target))
        .map_err(|source| FileError::Unconfirmed {
            path: path.to_owned(),
            source,
        })
}

/// The file that is meant, links followed, and whether it exists.
fn target_of(disk: &dyn Disk, path: &Path) -> io::Result<(PathBuf, bool)> {
    let target = match disk.kind(path)? {
        Some(Kind::Link) => disk.follow(path)?,
        Some(Kind::File | Kind::Folder | Kind::Other) | None => path.to_owned(),
    };
    match disk.kind(&target)? {
        None => Ok((target, false)),
        Some(Kind::Folder) => Err(io::Error::from(ErrorKind::IsADirectory)),
        Some(Kind::File | Kind::Link | Kind::Other) if disk.is_protected(&target)? => {
            Err(io::Error::from(ErrorKind::PermissionDenied))
        }
        Some(Kind::File | Kind::Link | Kind::Other) => Ok((target, true)),
    }
}

/// Keeps a second name for a file, so that there is no moment without the file itself.
fn keep(disk: &dyn Disk, file: &Path, spare: &Path, kept: &Path) -> io::Result<()> {
    remove_leftover(disk, spare)?;
    // A link is instant and takes no room; file systems without links get a copy.
    if disk.link(file, spare).is_err() {
        let bytes = disk.read(file, MOST_BYTES)?;
        write_new(disk, spare, &bytes)?;
    }
    disk.rename(spare, kept)
}

fn remove_leftover(disk: &dyn Disk, path: &Path) -> io::Result<()> {
    match disk.remove_file(path) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        Ok(()) | Err(_) => Ok(()),
    }
}
