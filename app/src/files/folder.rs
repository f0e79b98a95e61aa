//! Writing a whole output folder: complete, or not there.
//!
//! The new folder is built beside the target under an unfinished name, file by file, each flushed to the disk; then the two names are
//! changed. The folder that stood there before is kept as `NAME.previous`. A list of what was written, `contents.txt`, is how a
//! folder is known to be Sortwright's own; a folder without it is never replaced.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

use cam_core::digest::sha256_hex;
use cam_core::make::{Job, OutputFile};
use cam_core::progress::Progress;

use super::{Disk, FileError, beside, parent, read_text, sync_folder};

/// The list of what was written, in the form that common checksum programs read: digest, two spaces, name.
pub const CONTENTS: &str = "contents.txt";

/// How deep folders are searched for files that are not ours; output has one level.
const MOST_LEVELS: usize = 8;

/// Writes the files into the folder at `target`, whole or not at all.
///
/// A folder that Sortwright made before is replaced and kept as `NAME.previous`; an empty one is used; any other is refused.
///
/// # Errors
/// [`FileError`], with whatever stood at `target` untouched.
pub fn write_folder(
    disk: &dyn Disk,
    target: &Path,
    files: &[OutputFile],
    progress: &Progress,
) -> Result<(), FileError> {
    check_target(target)?;
    let previous = beside(target, "previous")?;
    if target.exists() && !is_empty_folder(target) {
        check_target(&previous)?;
    }
    let unfinished = beside(target, &format!("unfinished-{}", std::process::id()))?;
    let built = build(disk, &unfinished, target, files, progress).and_then(|()| {
        swap(&unfinished, target, &previous).map_err(|source| failed(target, source))
    });
    if built.is_err() {
        // Nothing more can be done if even this fails; the name tells what the folder is.
        let _ = fs::remove_dir_all(&unfinished);
    }
    built
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

/// Says whether a folder may be written at `target`, before any long work is begun.
///
/// # Errors
/// [`FileError::NotOurs`], [`FileError::Foreign`], or [`FileError::Write`] if the place cannot hold a folder.
pub fn check_target(target: &Path) -> Result<(), FileError> {
    let found = match fs::symlink_metadata(target) {
        Ok(found) => found,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(source) => return Err(failed(target, source)),
    };
    if !found.is_dir() {
        return Err(FileError::NotOurs {
            path: target.to_owned(),
        });
    }
    if is_empty_folder(target) {
        return Ok(());
    }
    let Ok(list) = read_text(&target.join(CONTENTS)) else {
        return Err(FileError::NotOurs {
            path: target.to_owned(),
        });
    };
    let listed: BTreeSet<&str> = list
        .lines()
        .filter_map(|line| line.split_once("  "))
        .map(|(_, name)| name)
        .chain([CONTENTS])
        .collect();
    let present = names_below(target, MOST_LEVELS).map_err(|source| failed(target, source))?;
    match present.iter().find(|name| !listed.contains(name.as_str())) {
        Some(file) => Err(FileError::Foreign {
            path: target.to_owned(),
            file: file.clone(),
        }),
        None => Ok(()),
    }
}

fn failed(path: &Path, source: io::Error) -> FileError {
    FileError::Write {
        path: path.to_owned(),
        source,
    }
}

fn is_empty_folder(path: &Path) -> bool {
    fs::read_dir(path).is_ok_and(|mut entries| entries.next().is_none())
}

/// The files below a folder, relative to it, with `/`.
fn names_below(folder: &Path, levels: usize) -> io::Result<Vec<String>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if entry.file_type()?.is_dir() && levels > 0 {
            let below = names_below(&entry.path(), levels - 1)?;
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
    fs::create_dir_all(parent(target)).map_err(|source| failed(target, source))?;
    // Left over from an earlier process of the same number that was cut off.
    let _ = fs::remove_dir_all(unfinished);
    fs::create_dir(unfinished).map_err(|source| failed(target, source))?;
    progress.begin("Writing the files", files.len() + 1);
    let mut contents = String::new();
    for file in files {
        progress.check().map_err(|_| FileError::Stopped)?;
        let path = place_inside(unfinished, &file.path)?;
        fs::create_dir_all(parent(&path)).map_err(|source| failed(target, source))?;
        disk.write_new(&path, &file.bytes)
            .map_err(|source| failed(target, source))?;
        contents += &format!("{}  {}\n", sha256_hex(&file.bytes), file.path);
        progress.advance();
    }
    disk.write_new(&unfinished.join(CONTENTS), contents.as_bytes())
        .and_then(|()| sync_below(unfinished, MOST_LEVELS))
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

fn sync_below(folder: &Path, levels: usize) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() && levels > 0 {
            sync_below(&entry.path(), levels - 1)?;
        }
    }
    sync_folder(folder)
}

/// Puts the finished folder in its place. If that fails half way, the old one is put back.
fn swap(finished: &Path, target: &Path, previous: &Path) -> io::Result<()> {
    let replaces = target.exists();
    if replaces && is_empty_folder(target) {
        fs::remove_dir(target)?;
    } else if replaces {
        if previous.exists() {
            fs::remove_dir_all(previous)?;
        }
        fs::rename(target, previous)?;
    }
    if let Err(error) = fs::rename(finished, target) {
        if replaces {
            let _ = fs::rename(previous, target);
        }
        return Err(error);
    }
    sync_folder(parent(target))
}

#[cfg(test)]
mod tests {
    use super::super::RealDisk;
    use super::super::tests::FullDisk;
    use super::*;

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
    fn a_full_disk_leaves_the_old_folder_and_no_litter() {
        let place = tempfile::tempdir().unwrap();
        let target = place.path().join("out");
        write(&target, &[output("job.json", "1")]).unwrap();
        let files = [output("job.json", "22"), output("long.nc", "G0 X0 Y0")];
        let error = write_folder(&FullDisk(4), &target, &files, &Progress::new()).unwrap_err();
        assert!(error.to_string().contains("the disk is full"), "{error}");
        assert_eq!(fs::read(target.join("job.json")).unwrap(), b"1");
        assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1);
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
