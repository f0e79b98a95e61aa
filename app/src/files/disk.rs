//! The calls of a file system, one by one, so that every one of them can be made to fail in a test.
//!
//! Everything that writes takes a [`Disk`]. [`RealDisk`] is the computer's own. Tests put in its place one that records the calls
//! and builds every state in which a sudden end may leave a disk.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

/// What stands under a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A file.
    File,
    /// A folder.
    Folder,
    /// A link that leads elsewhere.
    Link,
    /// A device or the like.
    Other,
}

/// A file that is open for writing.
pub trait Writing {
    /// Writes as many bytes as the system takes at once; may be fewer than given.
    ///
    /// # Errors
    /// What the system said.
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize>;

    /// Waits until what was written lies on the disk.
    ///
    /// # Errors
    /// What the system said.
    fn sync(&mut self) -> io::Result<()>;
}

/// The calls of a file system.
pub trait Disk: Send + Sync {
    /// What stands under a name; `None` if nothing does.
    ///
    /// # Errors
    /// What the system said.
    fn kind(&self, path: &Path) -> io::Result<Option<Kind>>;

    /// Whether the maker has marked a file as not to be written to.
    ///
    /// # Errors
    /// What the system said.
    fn is_protected(&self, path: &Path) -> io::Result<bool>;

    /// Where a link leads in the end.
    ///
    /// # Errors
    /// What the system said.
    fn follow(&self, path: &Path) -> io::Result<PathBuf>;

    /// The bytes of a file, `most` at most.
    ///
    /// # Errors
    /// What the system said.
    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>>;

    /// The names in a folder, in no order.
    ///
    /// # Errors
    /// What the system said.
    fn list(&self, folder: &Path) -> io::Result<Vec<OsString>>;

    /// Begins a file that must not exist yet.
    ///
    /// # Errors
    /// What the system said.
    fn create(&self, path: &Path) -> io::Result<Box<dyn Writing>>;

    /// Opens a file to write at its end; it is begun if it does not exist.
    ///
    /// # Errors
    /// What the system said.
    fn append(&self, path: &Path) -> io::Result<Box<dyn Writing>>;

    /// Gives a file or folder another name, in place of a file or an empty folder that stood there.
    ///
    /// # Errors
    /// What the system said.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Exchanges two names in one step.
    ///
    /// # Errors
    /// [`ErrorKind::Unsupported`] where no such step exists, else what the system said.
    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()>;

    /// Gives a file a second name.
    ///
    /// # Errors
    /// What the system said.
    fn link(&self, file: &Path, second: &Path) -> io::Result<()>;

    /// Removes a file.
    ///
    /// # Errors
    /// What the system said.
    fn remove_file(&self, path: &Path) -> io::Result<()>;

    /// Makes one folder.
    ///
    /// # Errors
    /// What the system said.
    fn make_folder(&self, path: &Path) -> io::Result<()>;

    /// Removes an empty folder.
    ///
    /// # Errors
    /// What the system said.
    fn remove_folder(&self, path: &Path) -> io::Result<()>;

    /// Waits until a folder's list of names lies on the disk, where the system can.
    ///
    /// # Errors
    /// What the system said.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;
}

/// The computer's own disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct RealDisk;

impl Writing for File {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        Write::write(self, bytes)
    }

    fn sync(&mut self) -> io::Result<()> {
        self.sync_all()
    }
}

impl Disk for RealDisk {
    fn kind(&self, path: &Path) -> io::Result<Option<Kind>> {
        let found = match fs::symlink_metadata(path) {
            Ok(found) => found.file_type(),
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(error),
        };
        Ok(Some(if found.is_symlink() {
            Kind::Link
        } else if found.is_dir() {
            Kind::Folder
        } else if found.is_file() {
            Kind::File
        } else {
            Kind::Other
        }))
    }

    fn is_protected(&self, path: &Path) -> io::Result<bool> {
        Ok(fs::metadata(path)?.permissions().readonly())
    }

    fn follow(&self, path: &Path) -> io::Result<PathBuf> {
        path.canonicalize()
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        let file = File::open(path)?;
        if file.metadata()?.is_dir() {
            return Err(io::Error::from(ErrorKind::IsADirectory));
        }
        let mut bytes = Vec::new();
        file.take(most).read_to_end(&mut bytes)?;
        Ok(bytes)
    }

    fn list(&self, folder: &Path) -> io::Result<Vec<OsString>> {
        fs::read_dir(folder)?
            .map(|entry| Ok(entry?.file_name()))
            .collect()
    }

    fn create(&self, path: &Path) -> io::Result<Box<dyn Writing>> {
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        Ok(Box::new(file))
    }

    fn append(&self, path: &Path) -> io::Result<Box<dyn Writing>> {
        let file = OpenOptions::new().append(true).create(true).open(path)?;
        Ok(Box::new(file))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    #[cfg(any(target_os = "linux", target_os = "macos"))]
    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()> {
        use rustix::fs::{CWD, RenameFlags, renameat_with};
        renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).map_err(|error| {
            // Some file systems know the call and not the flag.
            match error {
                rustix::io::Errno::INVAL | rustix::io::Errno::NOSYS => {
                    io::Error::from(ErrorKind::Unsupported)
                }
                other => io::Error::from(other),
            }
        })
    }

    #[cfg(not(any(target_os = "linux", target_os = "macos")))]
    fn exchange(&self, _one: &Path, _other: &Path) -> io::Result<()> {
        Err(io::Error::from(ErrorKind::Unsupported))
    }

    fn link(&self, file: &Path, second: &Path) -> io::Result<()> {
        fs::hard_link(file, second)
    }

    fn remove_file(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn make_folder(&self, path: &Path) -> io::Result<()> {
        fs::create_dir(path)
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        fs::remove_dir(path)
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        if !cfg!(unix) {
            return Ok(());
        }
        match File::open(path)?.sync_all() {
            // Some file systems have no such step for folders; then there is nothing to wait for.
            Err(error)
                if matches!(
                    error.kind(),
                    ErrorKind::InvalidInput | ErrorKind::Unsupported
                ) =>
            {
                Ok(())
            }
            other => other,
        }
    }
}

/// The deepest nesting of folders that is walked; output has one level.
pub(super) const MOST_LEVELS: usize = 8;

/// Writes a file that does not exist yet, so that it lies on the disk when this returns. A part of it may exist after an error.
pub(super) fn write_new(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = disk.create(path)?;
    write_all(&mut *file, bytes)?;
    file.sync()
}

/// Writes all bytes, in as many calls as it takes.
pub(super) fn write_all(file: &mut dyn Writing, mut bytes: &[u8]) -> io::Result<()> {
    // Every turn writes at least one byte or ends.
    while !bytes.is_empty() {
        match file.write(bytes) {
            Ok(0) => return Err(io::Error::from(ErrorKind::WriteZero)),
            Ok(written) => bytes = &bytes[written.min(bytes.len())..],
            Err(error) if error.kind() == ErrorKind::Interrupted => {}
            Err(error) => return Err(error),
        }
    }
    Ok(())
}

/// Whether a folder stands there and holds nothing.
pub(super) fn is_empty_folder(disk: &dyn Disk, path: &Path) -> io::Result<bool> {
    Ok(disk.kind(path)? == Some(Kind::Folder) && disk.list(path)?.is_empty())
}

/// Makes a folder and those above it, each known to the disk when this returns.
pub(super) fn make_folders(disk: &dyn Disk, path: &Path) -> io::Result<()> {
    let missing: Vec<&Path> = path
        .ancestors()
        .filter(|above| !above.as_os_str().is_empty())
        .take_while(|above| !matches!(disk.kind(above), Ok(Some(Kind::Folder | Kind::Link))))
        .collect();
    for folder in missing.into_iter().rev() {
        match disk.make_folder(folder) {
            Ok(()) => disk.sync_folder(super::parent(folder))?,
            // Another program was quicker.
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Ok(())
}

/// Removes a folder and everything below it; nothing there is as good.
pub(super) fn remove_tree(disk: &dyn Disk, path: &Path, levels: usize) -> io::Result<()> {
    match disk.kind(path)? {
        None => Ok(()),
        Some(Kind::Folder) if levels > 0 => {
            for name in disk.list(path)? {
                remove_tree(disk, &path.join(name), levels - 1)?;
            }
            disk.remove_folder(path)
        }
        Some(Kind::Folder) => disk.remove_folder(path),
        Some(Kind::File | Kind::Link | Kind::Other) => disk.remove_file(path),
    }
}

/// Waits until the lists of names of a folder and of all folders below it lie on the disk.
pub(super) fn sync_below(disk: &dyn Disk, folder: &Path, levels: usize) -> io::Result<()> {
    for name in disk.list(folder)? {
        let path = folder.join(name);
        if disk.kind(&path)? == Some(Kind::Folder) && levels > 0 {
            sync_below(disk, &path, levels - 1)?;
        }
    }
    disk.sync_folder(folder)
}
