//! The only place that touches files.
//!
//! Reading gives sentences that name the file. Writing is atomic: a temporary file in the same folder, written whole and
//! flushed to the disk, then renamed; what stood there before is kept as `NAME.previous`. [`folder`] does the same for a whole
//! output folder.

pub mod folder;
pub mod open;

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

/// The largest file that is read, in bytes: fonts and commissions are far smaller, and a device that never ends must not fill memory.
const MOST_BYTES: u64 = 256 * 1024 * 1024;

/// Why a file could not be read or written.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// It could not be read.
    #[error("{} could not be read: {}.", shown(path), reason(source))]
    Read {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// It is too large to be what was asked for.
    #[error("{} is larger than {} MB and was not read.", shown(path), MOST_BYTES / 1024 / 1024)]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// It is not text.
    #[error(
        "{} is not a text file; a commission or workshop file was expected.",
        shown(path)
    )]
    NotText {
        /// The file.
        path: PathBuf,
    },
    /// It could not be written.
    #[error(
        "{} could not be written: {}. Nothing was changed.",
        shown(path),
        reason(source)
    )]
    Write {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// The path names no file.
    #[error("{} does not name a file.", shown(path))]
    NoName {
        /// The path.
        path: PathBuf,
    },
    /// The target folder holds what Sortwright did not make.
    #[error(
        "{} was not made by Sortwright, so it was left as it is. Choose a new or an empty folder.",
        shown(path)
    )]
    NotOurs {
        /// The folder.
        path: PathBuf,
    },
    /// The target folder was made by Sortwright, but something was added to it.
    #[error(
        "{} holds {file}, which Sortwright did not put there, so the folder was left as it is. Move that file away, or choose another folder.",
        shown(path)
    )]
    Foreign {
        /// The folder.
        path: PathBuf,
        /// The first such file, relative to the folder.
        file: String,
    },
    /// A file of the output would lie outside its folder.
    #[error("The file name {name:?} cannot be used inside an output folder.")]
    BadName {
        /// The name.
        name: String,
    },
    /// The maker stopped it.
    #[error("The work was stopped; nothing was written.")]
    Stopped,
}

/// A path as it is shown to people.
pub fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// What the system said, in a few plain words.
fn reason(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
            "it is protected, or you have no permission".to_owned()
        }
        ErrorKind::NotADirectory => "a part of its path is a file, not a folder".to_owned(),
        ErrorKind::IsADirectory => "it is a folder, not a file".to_owned(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "the disk is full".to_owned(),
        _ => {
            let text = error.to_string();
            let words = text.split(" (os error").next().unwrap_or(&text);
            words.trim_end_matches('.').to_lowercase()
        }
    }
}

/// Reads a whole file.
///
/// # Errors
/// [`FileError::Read`], or [`FileError::TooLarge`] above 256 MB.
pub fn read(path: &Path) -> Result<Vec<u8>, FileError> {
    let failed = |source| FileError::Read {
        path: path.to_owned(),
        source,
    };
    let file = File::open(path).map_err(failed)?;
    if file.metadata().map_err(failed)?.is_dir() {
        return Err(failed(io::Error::from(ErrorKind::IsADirectory)));
    }
    let mut bytes = Vec::new();
    file.take(MOST_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(FileError::TooLarge {
            path: path.to_owned(),
        });
    }
    Ok(bytes)
}

/// Reads a whole file of text; a byte-order mark at its start is dropped.
///
/// # Errors
/// As [`read`], and [`FileError::NotText`] if it is not UTF-8.
pub fn read_text(path: &Path) -> Result<String, FileError> {
    let bytes = read(path)?;
    let text = String::from_utf8(bytes).map_err(|_| FileError::NotText {
        path: path.to_owned(),
    })?;
    Ok(text
        .strip_prefix('\u{feff}')
        .map_or(text.clone(), str::to_owned))
}

/// Puts bytes into a new file so that they are on the disk when it returns. Tests put a full disk in its place.
pub trait Disk: Sync {
    /// Writes a file that does not exist yet.
    ///
    /// # Errors
    /// What the system said; a part of the file may then exist.
    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
}

/// The computer's own disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct RealDisk;

impl Disk for RealDisk {
    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
        file.write_all(bytes)?;
        file.flush()?;
        file.sync_all()
    }
}

/// Writes a file whole or not at all; what stood there before is kept as `NAME.previous`.
///
/// # Errors
/// [`FileError::Write`] with the file untouched, or [`FileError::NoName`].
pub fn write_atomic(path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    write_atomic_on(&RealDisk, path, bytes)
}

/// As [`write_atomic`], on the disk given.
///
/// # Errors
/// As [`write_atomic`].
pub fn write_atomic_on(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    let failed = |source| FileError::Write {
        path: path.to_owned(),
        source,
    };
    if path.is_dir() {
        return Err(failed(io::Error::from(ErrorKind::IsADirectory)));
    }
    let unfinished = beside(path, &format!("unfinished-{}", std::process::id()))?;
    let previous = beside(path, "previous")?;
    let written = write_and_rename(disk, path, &unfinished, &previous, bytes);
    if written.is_err() {
        // Nothing more can be done if even this fails; the name tells what the file is.
        let _ = fs::remove_file(&unfinished);
    }
    written.map_err(failed)
}

fn write_and_rename(
    disk: &dyn Disk,
    path: &Path,
    unfinished: &Path,
    previous: &Path,
    bytes: &[u8],
) -> io::Result<()> {
    disk.write_new(unfinished, bytes)?;
    if path.exists() {
        keep_previous(path, previous)?;
    }
    fs::rename(unfinished, path)?;
    sync_folder(parent(path))
}

/// Keeps a second name for the file at `path`, so that there is no moment without the file itself.
fn keep_previous(path: &Path, previous: &Path) -> io::Result<()> {
    let spare = beside(previous, "unfinished").map_err(io::Error::other)?;
    let _ = fs::remove_file(&spare);
    // A hard link is instant and takes no room; file systems without links get a copy.
    if fs::hard_link(path, &spare).is_err() {
        fs::copy(path, &spare)?;
    }
    fs::rename(&spare, previous)
}

/// The path with `.suffix` added to its name.
pub(crate) fn beside(path: &Path, suffix: &str) -> Result<PathBuf, FileError> {
    let name = path.file_name().ok_or_else(|| FileError::NoName {
        path: path.to_owned(),
    })?;
    let mut name = name.to_owned();
    name.push(".");
    name.push(suffix);
    Ok(path.with_file_name(name))
}

/// The folder a path lies in; the working folder for a bare name.
pub(crate) fn parent(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        Some(_) | None => Path::new("."),
    }
}

/// Flushes a folder's list of names to the disk, where the system can.
pub(crate) fn sync_folder(path: &Path) -> io::Result<()> {
    if cfg!(unix) {
        File::open(path)?.sync_all()
    } else {
        Ok(())
    }
}

/// A path to `target` as seen from the folder `base`, with `/`; absolute if they share nothing.
pub fn relative_to(target: &Path, base: &Path) -> String {
    let (Ok(target), Ok(base)) = (absolute(target), absolute(base)) else {
        return shown(target);
    };
    let shared = target
        .components()
        .zip(base.components())
        .take_while(|(a, b)| a == b)
        .count();
    // Only the root (or nothing) in common: a chain of `..` up to it would say less than the whole path.
    if shared <= 1 {
        return shown(&target);
    }
    let up = base.components().skip(shared).map(|_| "..".to_owned());
    let down = target
        .components()
        .skip(shared)
        .map(|part| part.as_os_str().to_string_lossy().into_owned());
    up.chain(down).collect::<Vec<_>>().join("/")
}

/// The path made absolute, with links and `..` resolved as far as it exists.
fn absolute(path: &Path) -> io::Result<PathBuf> {
    match path.canonicalize() {
        Ok(whole) => Ok(whole),
        Err(_) => {
            let name = path.file_name().map(PathBuf::from).unwrap_or_default();
            Ok(parent(path)
                .canonicalize()
                .or_else(|_| std::path::absolute(parent(path)))?
                .join(name))
        }
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A disk that is full after so many bytes, and leaves what fitted.
    pub(crate) struct FullDisk(pub usize);

    impl Disk for FullDisk {
        fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
            fs::write(path, &bytes[..bytes.len().min(self.0)])?;
            if bytes.len() > self.0 {
                return Err(io::Error::from(ErrorKind::StorageFull));
            }
            Ok(())
        }
    }

    fn names_in(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(folder)
            .expect("the test made the folder")
            .map(|entry| {
                entry
                    .expect("readable")
                    .file_name()
                    .to_string_lossy()
                    .into_owned()
            })
            .collect();
        names.sort();
        names
    }

    #[test]
    fn a_second_write_keeps_the_first_as_previous() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("fount.json");
        write_atomic(&path, b"one").unwrap();
        assert_eq!(names_in(folder.path()), ["fount.json"]);
        write_atomic(&path, b"two").unwrap();
        write_atomic(&path, b"three").unwrap();
        assert_eq!(read(&path).unwrap(), b"three");
        assert_eq!(
            read(&folder.path().join("fount.json.previous")).unwrap(),
            b"two"
        );
        assert_eq!(
            names_in(folder.path()),
            ["fount.json", "fount.json.previous"]
        );
    }

    #[test]
    fn a_full_disk_leaves_the_file_and_no_litter() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("fount.json");
        write_atomic(&path, b"one").unwrap();
        let error = write_atomic_on(&FullDisk(2), &path, b"two words").unwrap_err();
        assert!(error.to_string().contains("the disk is full"), "{error}");
        assert_eq!(read(&path).unwrap(), b"one");
        assert_eq!(names_in(folder.path()), ["fount.json"]);
    }

    #[test]
    fn a_path_under_a_file_and_a_folder_in_the_way_get_a_sentence() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("a file");
        fs::write(&file, b"x").unwrap();
        let error = write_atomic(&file.join("fount.json"), b"one").unwrap_err();
        assert!(
            error.to_string().contains("is a file, not a folder"),
            "{error}"
        );
        let error = write_atomic(folder.path(), b"one").unwrap_err();
        assert!(error.to_string().contains("it is a folder"), "{error}");
        let error = write_atomic(Path::new("/"), b"one").unwrap_err();
        assert!(matches!(
            error,
            FileError::Write { .. } | FileError::NoName { .. }
        ));
    }

    #[test]
    fn reading_says_what_is_missing() {
        let folder = tempfile::tempdir().unwrap();
        let missing = folder.path().join("none.json");
        let error = read_text(&missing).unwrap_err().to_string();
        assert!(
            error.contains("none.json could not be read: there is no such file"),
            "{error}"
        );
        assert!(
            read(folder.path())
                .unwrap_err()
                .to_string()
                .contains("it is a folder")
        );
        let bytes = folder.path().join("bytes");
        fs::write(&bytes, [0xff, 0xfe, 0x00]).unwrap();
        assert!(
            read_text(&bytes)
                .unwrap_err()
                .to_string()
                .contains("not a text file")
        );
        fs::write(&bytes, "\u{feff}{}").unwrap();
        assert_eq!(read_text(&bytes).unwrap(), "{}");
    }

    #[test]
    fn paths_are_told_from_the_commission() {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir_all(folder.path().join("orders/spring")).unwrap();
        fs::create_dir_all(folder.path().join("fonts")).unwrap();
        let font = folder.path().join("fonts/face.ttf");
        fs::write(&font, b"x").unwrap();
        assert_eq!(
            relative_to(&font, &folder.path().join("orders/spring")),
            "../../fonts/face.ttf"
        );
        assert_eq!(relative_to(&font, &folder.path().join("fonts")), "face.ttf");
        assert_eq!(relative_to(&font, folder.path()), "fonts/face.ttf");
    }
}
