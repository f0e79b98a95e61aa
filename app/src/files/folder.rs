//! Writing a whole output folder: complete, or not there.
//!
//! The new folder is built beside the target under an unfinished name, file by file, each flushed to the disk; then the two folders
//! exchange their names in one step, and the one that stood there before becomes `NAME.previous`. Where the system has no such step
//! there are two, and [`mend`] finishes what was cut off between them. A list of what was written, `contents.txt`, is how a folder is
//! known to be Sortwright's own; a folder without it is never replaced.

use std::collections::BTreeSet;
use std::io::{self, ErrorKind};
use std::path::{Component, Path, PathBuf};

use cam_core::digest::sha256_hex;
use cam_core::make::{Job, OutputFile};
use cam_core::progress::Progress;

use super::disk::{
    Disk, Kind, MOST_LEVELS, is_empty_folder, make_folders, remove_tree, sync_below, write_new,
};
use super::{FileError, RealDisk, beside, parent, read_on, text_of};

/// How the name of a folder that is being built ends, before the number of the process.
const UNFINISHED: &str = "unfinished-";

/// The same for a folder that only waits for its place.
const FINISHED: &str = "finished-";

/// The list of what was written, in the form that common checksum programs read: digest, two spaces, name.
pub const CONTENTS: &str = "contents.txt";

/// Writes the files into the folder at `target`, whole or not at all.
///
/// A folder that Sortwright made before is replaced and kept as `NAME.previous`; an empty one is used; any other is refused.
///
/// # Errors
/// [`FileError`], with whatever stood at `target` untouched; [`FileError::Unconfirmed`] with the new folder in place.
pub fn write_folder(
    disk: &dyn Disk,
    target: &Path,
    files: &[OutputFile],
    progress: &Progress,
) -> Result<(), FileError> {
    check_target_on(disk, target)?;
    let previous = beside(target, "previous")?;
    let replaces = is_filled(disk, target).map_err(|source| failed(target, source))?;
    if replaces {
        check_ours(disk, &previous)?;
    }
    let unfinished = beside(target, &format!("{UNFINISHED}{}", std::process::id()))?;
    let finished = beside(target, &format!("{FINISHED}{}", std::process::id()))?;
    let spare = beside(target, &format!("spare-{}", std::process::id()))?;
    let places = Places {
        target,
        unfinished: &unfinished,
        finished: &finished,
        previous: &previous,
        spare: &spare,
    };
    let placed = build(disk, &unfinished, target, files, progress).and_then(|()| {
        let placed = if replaces {
            places.exchange(disk)
        } else {
            places.put(disk)
        };
        placed.map_err(|source| failed(target, source))
    });
    if let Err(error) = placed {
        // Nothing more can be done if even this fails; the name tells what the folder is.
        let _ = remove_tree(disk, &unfinished, MOST_LEVELS);
        return Err(error);
    }
    places
        .confirm(disk, replaces)
        .map_err(|source| FileError::Unconfirmed {
            path: target.to_owned(),
            source,
        })
}

/// Writes a job into the folder at `target`, as [`write_folder`] does.
///
/// # Errors
/// As [`write_folder`].
pub fn write_job(
    disk: &dyn Disk,
    target: &Path,
    job: &Job,
    progress: &Progress,
) -> Result<(), FileError> {
    write_folder(disk, target, &job.files(), progress)
}

/// Says whether a folder may be written at `target`, before any long work is begun. A write that was cut off is finished first.
///
/// # Errors
/// [`FileError::NotOurs`], [`FileError::Foreign`], or [`FileError::Write`] if the place cannot hold a folder.
pub fn check_target(target: &Path) -> Result<(), FileError> {
    check_target_on(&RealDisk, target)
}

fn check_target_on(disk: &dyn Disk, target: &Path) -> Result<(), FileError> {
    mend(disk, target)?;
    check_ours(disk, target)
}

/// Finishes a write that was cut off between its last two steps: nothing stands at `target`, and the whole new folder waits beside it.
/// `true` if there was such a one.
///
/// # Errors
/// [`FileError::Write`].
pub fn mend(disk: &dyn Disk, target: &Path) -> Result<bool, FileError> {
    let failed = |source| failed(target, source);
    if disk.kind(target).map_err(failed)?.is_some() {
        return Ok(false);
    }
    let begins = beside(target, FINISHED)?;
    let begins = begins.file_name().unwrap_or_default().to_string_lossy();
    // No folder above means that nothing was ever begun.
    let mut names = disk.list(parent(target)).unwrap_or_default();
    names.sort();
    let whole = names
        .iter()
        .filter(|name| name.to_string_lossy().starts_with(&*begins))
        .map(|name| target.with_file_name(name))
        .find(|folder| is_whole(disk, folder));
    match whole {
        Some(folder) => {
            disk.rename(&folder, target).map_err(failed)?;
            disk.sync_folder(parent(target)).map_err(failed)?;
            Ok(true)
        }
        None => Ok(false),
    }
}

/// Whether a folder holds every file that its list names, as it was written.
fn is_whole(disk: &dyn Disk, folder: &Path) -> bool {
    let list = folder.join(CONTENTS);
    let Ok(list) = read_on(disk, &list).and_then(|bytes| text_of(&list, bytes)) else {
        return false;
    };
    !list.is_empty()
        && list.lines().all(|line| {
            line.split_once("  ").is_some_and(|(digest, name)| {
                place_inside(folder, name)
                    .and_then(|path| read_on(disk, &path))
                    .is_ok_and(|bytes| sha256_hex(&bytes) == digest)
            })
        })
}

fn check_ours(disk: &dyn Disk, target: &Path) -> Result<(), FileError> {
    let not_ours = || FileError::NotOurs {
        path: target.to_owned(),
    };
    match disk.kind(target).map_err(|source| failed(target, source))? {
        None => return Ok(()),
        Some(Kind::Folder) => {}
        Some(Kind::File | Kind::Link | Kind::Other) => return Err(not_ours()),
    }
    if !is_filled(disk, target).map_err(|source| failed(target, source))? {
        return Ok(());
    }
    let list = target.join(CONTENTS);
    let list = match read_on(disk, &list).and_then(|bytes| text_of(&list, bytes)) {
        Ok(list) => list,
        Err(FileError::Read { source, path }) if source.kind() != ErrorKind::NotFound => {
            return Err(FileError::Read { source, path });
        }
        Err(_) => return Err(not_ours()),
    };
    let listed: BTreeSet<&str> = list
        .lines()
        .filter_map(|line| line.split_once("  "))
        .map(|(_, name)| name)
        .chain([CONTENTS])
        .collect();
    let present =
        names_below(disk, target, MOST_LEVELS).map_err(|source| failed(target, source))?;
    match present.iter().find(|name| !listed.contains(name.as_str())) {
        Some(file) => Err(FileError::Foreign {
            path: target.to_owned(),
            file: file.clone(),
        }),
        None => Ok(()),
    }
}

/// Whether something stands there that is not an empty folder.
fn is_filled(disk: &dyn Disk, path: &Path) -> io::Result<bool> {
    Ok(disk.kind(path)?.is_some() && !is_empty_folder(disk, path)?)
}

fn failed(path: &Path, source: io::Error) -> FileError {
    FileError::Write {
        path: path.to_owned(),
        source,
    }
}

/// The files below a folder, relative to it, with `/`, in order.
fn names_below(disk: &dyn Disk, folder: &Path, levels: usize) -> io::Result<Vec<String>> {
    let mut names = Vec::new();
    for name in disk.list(folder)? {
        let path = folder.join(&name);
        let name = name.to_string_lossy().into_owned();
        if disk.kind(&path)? == Some(Kind::Folder) && levels > 0 {
            let below = names_below(disk, &path, levels - 1)?;
            names.extend(below.iter().map(|inner| format!("{name}/{inner}")));
        } else {
            names.push(name);
        }
    }
    names.sort();
    Ok(names)
}

fn build(
    disk: &dyn Disk,
    unfinished: &Path,
    target: &Path,
    files: &[OutputFile],
    progress: &Progress,
) -> Result<(), FileError> {
    // Left over from an earlier process of the same number that was cut off.
    make_folders(disk, parent(target))
        .and_then(|()| remove_tree(disk, unfinished, MOST_LEVELS))
        .and_then(|()| disk.make_folder(unfinished))
        .map_err(|source| failed(target, source))?;
    progress.begin("Writing the files", files.len() + 1);
    let mut contents = String::new();
    for file in files {
        progress.check().map_err(|_| FileError::Stopped)?;
        let path = place_inside(unfinished, &file.path)?;
        make_folders(disk, parent(&path))
            .and_then(|()| write_new(disk, &path, &file.bytes))
            .map_err(|source| failed(target, source))?;
        contents += &format!("{}  {}\n", sha256_hex(&file.bytes), file.path);
        progress.advance();
    }
    write_new(disk, &unfinished.join(CONTENTS), contents.as_bytes())
        .and_then(|()| sync_below(disk, unfinished, MOST_LEVELS))
        .and_then(|()| disk.sync_folder(parent(target)))
        .map_err(|source| failed(target, source))?;
    progress.check().map_err(|_| FileError::Stopped)
}

/// The path of an output file inside the folder; names that would lead out of it are refused.
fn place_inside(folder: &Path, name: &str) -> Result<PathBuf, FileError> {
    let relative = Path::new(name);
    let plain = relative
        .components()
        .all(|part| matches!(part, Component::Normal(_)));
    if name.is_empty() || !plain || name == CONTENTS || name.contains(['\n', '\\']) {
        return Err(FileError::BadName {
            name: name.to_owned(),
        });
    }
    Ok(folder.join(relative))
}

/// The names that a write changes.
struct Places<'a> {
    target: &'a Path,
    unfinished: &'a Path,
    /// The new folder while neither it nor the old one stands in its place.
    finished: &'a Path,
    previous: &'a Path,
    /// Where the folder before the previous one waits to be removed, so that what is half removed bears no name that counts.
    spare: &'a Path,
}

impl Places<'_> {
    /// Puts the finished folder where nothing, or an empty folder, stands.
    fn put(&self, disk: &dyn Disk) -> io::Result<()> {
        match disk.rename(self.unfinished, self.target) {
            // Some systems do not put a folder in place of an empty one.
            Err(_) if is_empty_folder(disk, self.target)? => {
                disk.remove_folder(self.target)?;
                disk.rename(self.unfinished, self.target)
            }
            other => other,
        }
    }

    /// Puts the finished folder in the place of the old one, which then stands under the unfinished or the previous name.
    fn exchange(&self, disk: &dyn Disk) -> io::Result<()> {
        match disk.exchange(self.unfinished, self.target) {
            Err(error) if error.kind() == ErrorKind::Unsupported => self.swap(disk),
            other => other,
        }
    }

    /// The exchange in two steps, each known to the disk before the next. If the second fails, the first is taken back.
    fn swap(&self, disk: &dyn Disk) -> io::Result<()> {
        let above = parent(self.target);
        self.make_room(disk)?;
        remove_tree(disk, self.finished, MOST_LEVELS)?;
        disk.rename(self.unfinished, self.finished)?;
        let moved = disk
            .sync_folder(above)
            .and_then(|()| disk.rename(self.target, self.previous));
        let second = moved.and_then(|()| {
            let placed = disk
                .sync_folder(above)
                .and_then(|()| disk.rename(self.finished, self.target));
            if placed.is_err() {
                // If this fails too, the finished folder is put in its place by `mend`.
                disk.rename(self.previous, self.target)?;
            }
            placed
        });
        if second.is_err() && disk.kind(self.target)?.is_some() {
            // Only once the disk is sure of the old folder may the new one go.
            disk.sync_folder(above)?;
            remove_tree(disk, self.finished, MOST_LEVELS)?;
        }
        second
    }

    /// Makes the new names last, and only then gives the old folder its name.
    fn confirm(&self, disk: &dyn Disk, replaced: bool) -> io::Result<()> {
        disk.sync_folder(parent(self.target))?;
        if replaced && disk.kind(self.unfinished)?.is_some() {
            self.make_room(disk)?;
            disk.rename(self.unfinished, self.previous)?;
            disk.sync_folder(parent(self.target))?;
        }
        // The job is written; what cannot be removed is only in the way.
        let _ = remove_tree(disk, self.spare, MOST_LEVELS);
        Ok(())
    }

    /// Frees the name of the previous folder.
    fn make_room(&self, disk: &dyn Disk) -> io::Result<()> {
        remove_tree(disk, self.spare, MOST_LEVELS)?;
        match disk.kind(self.previous)? {
            Some(_) => disk.rename(self.previous, self.spare),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::read_text;
    use super::*;

    use std::fs;

    fn names_below(folder: &Path, levels: usize) -> io::Result<Vec<String>> {
        super::names_below(&RealDisk, folder, levels)
    }

    fn output(path: &str, text: &str) -> OutputFile {
        OutputFile {
            path: path.to_owned(),
            bytes: text.as_bytes().to_vec(),
        }
    }

    fn write(target: &Path, files: &[OutputFile]) -> Result<(), FileError> {
        write_folder(&RealDisk, target, files, &Progress::new())
    }

    #[test]
    fn a_folder_is_written_whole_and_replaced_whole() {
        let place = tempfile::tempdir().unwrap();
        let target = place.path().join("out/spring fount");
        write(
            &target,
            &[output("job.json", "1"), output("papers/setup.html", "a")],
        )
        .unwrap();
        assert_eq!(
            names_below(&target, 3).unwrap(),
            [CONTENTS, "job.json", "papers/setup.html"]
        );
        write(&target, &[output("job.json", "2")]).unwrap();
        assert_eq!(names_below(&target, 3).unwrap(), [CONTENTS, "job.json"]);
        let previous = place.path().join("out/spring fount.previous");
        assert_eq!(fs::read(previous.join("job.json")).unwrap(), b"1");
        write(&target, &[output("job.json", "3")]).unwrap();
        assert_eq!(fs::read(previous.join("job.json")).unwrap(), b"2");
        assert_eq!(fs::read_dir(place.path().join("out")).unwrap().count(), 2);
    }

    #[test]
    fn the_list_holds_the_digest_of_every_file() {
        let place = tempfile::tempdir().unwrap();
        let target = place.path().join("out");
        write(&target, &[output("job.json", "abc")]).unwrap();
        // SHA-256 of "abc": FIPS 180-2, appendix B.1.
        assert_eq!(
            read_text(&target.join(CONTENTS)).unwrap(),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  job.json\n"
        );
    }

    #[test]
    fn folders_of_others_are_left_alone() {
        let place = tempfile::tempdir().unwrap();
        let target = place.path().join("notes");
        fs::create_dir(&target).unwrap();
        write(&target, &[output("job.json", "1")]).unwrap();
        fs::write(target.join("my notes.txt"), "mine").unwrap();
        let error = write(&target, &[output("job.json", "2")]).unwrap_err();
        assert!(error.to_string().contains("my notes.txt"), "{error}");
        assert_eq!(fs::read(target.join("job.json")).unwrap(), b"1");

        let foreign = place.path().join("photographs");
        fs::create_dir(&foreign).unwrap();
        fs::write(foreign.join("a.png"), "x").unwrap();
        let error = write(&foreign, &[output("job.json", "1")]).unwrap_err();
        assert!(matches!(error, FileError::NotOurs { .. }), "{error}");
        assert_eq!(names_below(&foreign, 1).unwrap(), ["a.png"]);
    }

    #[test]
    fn a_stop_leaves_nothing() {
        let place = tempfile::tempdir().unwrap();
        let progress = Progress::new();
        progress.stop();
        let target = place.path().join("out");
        let error = write_folder(&RealDisk, &target, &[output("a", "1")], &progress).unwrap_err();
        assert!(matches!(error, FileError::Stopped));
        assert_eq!(fs::read_dir(place.path()).unwrap().count(), 0);
    }

    #[test]
    fn names_that_lead_out_and_places_under_files_are_refused() {
        let place = tempfile::tempdir().unwrap();
        for name in [
            "../escape",
            "/etc/escape",
            "",
            "a/../../b",
            "contents.txt",
            "a\\b",
        ] {
            let error = write(&place.path().join("out"), &[output(name, "1")]).unwrap_err();
            assert!(
                matches!(error, FileError::BadName { .. }),
                "{name}: {error}"
            );
        }
        let file = place.path().join("file");
        fs::write(&file, "x").unwrap();
        let error = write(&file.join("out"), &[output("a", "1")]).unwrap_err();
        assert!(
            error.to_string().contains("is a file, not a folder"),
            "{error}"
        );
        let error = write(&file, &[output("a", "1")]).unwrap_err();
        assert!(matches!(error, FileError::NotOurs { .. }), "{error}");
        assert_eq!(fs::read(&file).unwrap(), b"x");
    }
}
