//! The only place that touches files.
//!
//! Reading gives sentences that name the file. Writing is atomic: a temporary file in the same folder, written whole and
//! flushed to the disk, then renamed; what stood there before is kept as `NAME.previous` ([`save`]). [`folder`] does the same for a
//! whole output folder. [`journal`] keeps what is not saved yet, and [`keep`] knows where, and which window owns what. All of it goes
//! through [`disk`], whose calls can be made to fail one by one. [`home`] knows where the window keeps what is its own: settings, the [`log`],
//! a [`report`] of each crash, and the font of the [`demo`].

pub mod demo;
pub mod disk;
pub mod folder;
pub mod home;
pub mod journal;
pub mod keep;
pub mod log;
pub mod made;
pub mod open;
pub mod report;
pub mod save;

use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

pub use disk::{Disk, RealDisk};
pub use save::{write_atomic, write_atomic_on};

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
        "{} could not be written: {}. What stood there before is as it was; mend that, or choose another place.",
        shown(path),
        reason(source)
    )]
    Write {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// It was written, but the disk did not say that it will last.
    #[error(
        "{} was written, but the disk did not confirm that it is kept: {}. What stood there before is kept beside it. Write it again, or to another disk.",
        shown(path),
        reason(source)
    )]
    Unconfirmed {
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
    read_on(&RealDisk, path)
}

/// As [`read`], on the disk given.
///
/// # Errors
/// As [`read`].
pub fn read_on(disk: &dyn Disk, path: &Path) -> Result<Vec<u8>, FileError> {
    let bytes = disk
        .read(path, MOST_BYTES + 1)
        .map_err(|source| FileError::Read {
            path: path.to_owned(),
            source,
        })?;
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
    text_of(path, read(path)?)
}

/// The text that bytes read from `path` are.
pub(crate) fn text_of(path: &Path, bytes: Vec<u8>) -> Result<String, FileError> {
    let text = String::from_utf8(bytes).map_err(|_| FileError::NotText {
        path: path.to_owned(),
    })?;
    Ok(text
        .strip_prefix('\u{feff}')
        .map_or(text.clone(), str::to_owned))
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
mod tests {
    use super::*;

    use std::fs;

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
    fn a_protected_file_is_not_replaced_and_a_link_is_followed() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("fount.json");
        write_atomic(&path, b"one").unwrap();
        let mut rights = fs::metadata(&path).unwrap().permissions();
        rights.set_readonly(true);
        fs::set_permissions(&path, rights).unwrap();
        let error = write_atomic(&path, b"two").unwrap_err();
        assert!(error.to_string().contains("it is protected"), "{error}");
        assert_eq!(read(&path).unwrap(), b"one");
        #[cfg(unix)]
        {
            let (real, link) = (folder.path().join("real"), folder.path().join("link"));
            write_atomic(&real, b"one").unwrap();
            std::os::unix::fs::symlink(&real, &link).unwrap();
            write_atomic(&link, b"two").unwrap();
            assert_eq!(read(&real).unwrap(), b"two");
            assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        }
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
