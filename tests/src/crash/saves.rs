//! The kinds of save, each able to write a numbered version and to tell which one it finds.

use std::path::Path;
use std::sync::LazyLock;

use cam_core::bill::MOST_OF_ONE;
use cam_core::commission::{BillLine, Commission, Face, GlyphChoice};
use cam_core::format::{write_commission, write_workshop};
use cam_core::make::OutputFile;
use cam_core::measure::System;
use cam_core::progress::Progress;
use cam_core::workshop::Workshop;
use sortwright::files::disk::{Disk, Kind};
use sortwright::files::folder::{CONTENTS, mend, write_folder};
use sortwright::files::journal::{self, Entry};
use sortwright::files::{FileError, read_on, write_atomic_on};

use super::{Image, ModelDisk};

/// A kind of save.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Save {
    /// A commission file.
    Commission,
    /// A workshop file.
    Workshop,
    /// The output folder of a make.
    Folder,
    /// The journal of unsaved work.
    Journal,
}

/// The highest version that is ever written.
pub const LAST_VERSION: u32 = 9;

/// The names of what is saved, in the place of the save.
const FILE: &str = "order.json";
const FOLDER: &str = "programs";

/// The place on a disk in memory.
pub const PLACE: &str = "/shop";

/// Every version's bytes, written once: they are compared many thousand times.
static COMMISSIONS: LazyLock<Vec<Vec<u8>>> =
    LazyLock::new(|| all_bytes(|version| write_commission(&commission(version))));
static WORKSHOPS: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    all_bytes(|version| {
        let mut workshop = Workshop::starting();
        workshop.machine.name = format!("Version {version}");
        write_workshop(&workshop)
    })
});
static ENTRIES: LazyLock<Vec<Entry>> = LazyLock::new(|| versions().map(entry).collect());
static JOBS: LazyLock<Vec<Vec<OutputFile>>> = LazyLock::new(|| versions().map(job).collect());

fn all_bytes(text: impl Fn(u32) -> String) -> Vec<Vec<u8>> {
    versions()
        .map(|version| text(version).into_bytes())
        .collect()
}

/// The place of a version in a list of them all.
fn place_of(version: u32) -> usize {
    version as usize - 1
}

/// Reading stops here, bytes; far above what is written.
const MOST: u64 = 1 << 30;

impl Save {
    /// All of them.
    pub const ALL: [Save; 4] = [
        Save::Commission,
        Save::Workshop,
        Save::Folder,
        Save::Journal,
    ];

    /// An empty disk to save to.
    pub fn disk(self) -> ModelDisk {
        ModelDisk::new(&Image::with_folders(&["shop"]))
    }

    /// Saves a version in a place.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn save(self, disk: &dyn Disk, place: &Path, version: u32) -> Result<(), FileError> {
        match self {
            Save::Commission | Save::Workshop => {
                write_atomic_on(disk, &place.join(FILE), self.bytes(version))
            }
            Save::Folder => {
                let files = &JOBS[place_of(version)];
                write_folder(disk, &place.join(FOLDER), files, &Progress::new())
            }
            Save::Journal => journal::append(disk, &place.join(FILE), &ENTRIES[place_of(version)]),
        }
    }

    /// The version found when it is opened again; `None` if there is nothing.
    ///
    /// # Errors
    /// A sentence, if what is found is no version.
    pub fn reopen(self, disk: &dyn Disk, place: &Path) -> Result<Option<u32>, String> {
        match self {
            Save::Commission | Save::Workshop => {
                let previous = self.version_at(disk, &place.join(format!("{FILE}.previous")))?;
                let found = self.version_at(disk, &place.join(FILE))?;
                match (found, previous) {
                    (None, Some(_)) => Err("only the previous file is left".to_owned()),
                    (found, _) => Ok(found),
                }
            }
            Save::Folder => {
                let folder = place.join(FOLDER);
                mend(disk, &folder).map_err(|error| error.to_string())?;
                let found = files_below(disk, &folder, "")?;
                if found.is_empty() {
                    return Ok(None);
                }
                versions()
                    .find(|version| holds(&found, &JOBS[place_of(*version)]))
                    .map(Some)
                    .ok_or_else(|| "the folder holds a mixture".to_owned())
            }
            Save::Journal => {
                let found = journal::last(disk, &place.join(FILE)).map_err(|e| e.to_string())?;
                match found {
                    None => Ok(None),
                    Some(found) => versions()
                        .find(|version| ENTRIES[place_of(*version)] == found)
                        .map(Some)
                        .ok_or_else(|| "the journal holds what was never kept".to_owned()),
                }
            }
        }
    }

    fn bytes(self, version: u32) -> &'static [u8] {
        let all = match self {
            Save::Workshop => &WORKSHOPS,
            Save::Commission | Save::Folder | Save::Journal => &COMMISSIONS,
        };
        &all[place_of(version)]
    }

    fn version_at(self, disk: &dyn Disk, path: &Path) -> Result<Option<u32>, String> {
        if disk
            .kind(path)
            .map_err(|error| error.to_string())?
            .is_none()
        {
            return Ok(None);
        }
        let found = read_on(disk, path).map_err(|error| error.to_string())?;
        versions()
            .find(|version| self.bytes(*version) == found)
            .map(Some)
            .ok_or_else(|| format!("{} is damaged", path.display()))
    }
}

fn versions() -> std::ops::RangeInclusive<u32> {
    1..=LAST_VERSION
}

/// A commission of several pages.
fn commission(version: u32) -> Commission {
    let face = Face {
        id: "main".to_owned(),
        file: "face.ttf".to_owned(),
        sha256: String::new(),
        index: 0,
        variations: Default::default(),
        permission: Default::default(),
    };
    let title = format!("Version {version}");
    let mut commission = Commission::starting(&title, System::Pica, 10.0, face);
    commission.bill = (1..=100)
        .map(|index| BillLine {
            face: "main".to_owned(),
            glyph: GlyphChoice::Index(index),
            count: (index * version) % MOST_OF_ONE + 1,
        })
        .collect();
    commission
}

/// What the journal keeps of a version.
pub fn entry(version: u32) -> Entry {
    Entry {
        file: Some(FILE.into()),
        file_sha256: None,
        commission: commission(version),
        workshop: None,
    }
}

/// The files of a small job. Later versions have a file more, so that none is taken for another.
fn job(version: u32) -> Vec<OutputFile> {
    let file = |path: &str, text: String| OutputFile {
        path: path.to_owned(),
        bytes: text.into_bytes(),
    };
    let program = |lines: usize| format!("(version {version})\n").repeat(lines);
    let mut files = vec![
        file("job.json", format!("{{\"version\": {version}}}\n")),
        file("plank-1-1-wide.nc", program(900)),
        file("plank-1-2-fine.nc", program(1000)),
        file("papers/setup.html", format!("<p>{version}</p>")),
    ];
    if version.is_multiple_of(2) {
        files.push(file("plank-2.nc", format!("(version {version})\nM2\n")));
    }
    files
}

/// Files by name relative to a folder, the list of contents left out.
fn files_below(
    disk: &dyn Disk,
    folder: &Path,
    before: &str,
) -> Result<Vec<(String, Vec<u8>)>, String> {
    let said = |error: std::io::Error| error.to_string();
    if disk.kind(folder).map_err(said)?.is_none() {
        return Ok(Vec::new());
    }
    let mut found = Vec::new();
    for name in disk.list(folder).map_err(said)? {
        let path = folder.join(&name);
        let name = format!("{before}{}", name.to_string_lossy());
        if disk.kind(&path).map_err(said)? == Some(Kind::Folder) {
            found.extend(files_below(disk, &path, &format!("{name}/"))?);
        } else if name != CONTENTS {
            found.push((name, disk.read(&path, MOST).map_err(said)?));
        }
    }
    Ok(found)
}

fn holds(found: &[(String, Vec<u8>)], job: &[OutputFile]) -> bool {
    found.len() == job.len()
        && job.iter().all(|file| {
            found
                .iter()
                .any(|(name, bytes)| *name == file.path && *bytes == file.bytes)
        })
}
