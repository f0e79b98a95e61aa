//! Opening a commission or a font, with everything that belongs to it; and saving.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use cam_core::commission::{Commission, Face};
use cam_core::digest::sha256_hex;
use cam_core::format::{read_commission, read_workshop, write_commission, write_workshop};
use cam_core::make::Fonts;
use cam_core::measure::System;
use cam_core::workshop::Workshop;

use super::journal::Entry;
use super::{FileError, parent, read, relative_to, shown, text_of, write_atomic};
use crate::model::settings::Settings;
use crate::model::start::new_commission;

/// The workshop's file, looked for beside the commission.
pub const WORKSHOP_FILE: &str = "workshop.json";

/// Why something could not be opened or saved.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    /// A file could not be read or written.
    #[error(transparent)]
    File(#[from] FileError),
    /// A commission or workshop file says something wrong.
    #[error("{file}: {said}")]
    Format {
        /// The file.
        file: String,
        /// What is wrong, and where in it.
        said: String,
    },
    /// The file of a face or drawing could not be read.
    #[error(
        "The file of {face} is missing. {source} Put it back, or change the file's name in the commission."
    )]
    Face {
        /// The face or drawing, by its id.
        face: String,
        /// What happened.
        source: FileError,
    },
    /// A font file that is no font.
    #[error("{} is not a font that can be read: {said}", shown(path))]
    Font {
        /// The file.
        path: PathBuf,
        /// What is wrong with it.
        said: String,
    },
}

/// A commission with all that belongs to it.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The commission.
    pub commission: Commission,
    /// Its file; `None` for a new one.
    pub path: Option<PathBuf>,
    /// The bytes of its fonts and drawings.
    pub fonts: Fonts,
    /// The workshop it is cut in.
    pub workshop: Workshop,
    /// SHA-256 of its file as it was read.
    pub file_sha256: Option<String>,
    /// SHA-256 of its workshop's file as it was read; `None` where there is none.
    pub shop_sha256: Option<String>,
    /// What the workshop's file holds, where that is something else: of work that was found again.
    pub shop_on_disk: Option<Workshop>,
    /// What its file holds, where that is something else: of work that was found again.
    pub on_disk: Option<Commission>,
}

/// Opens a commission, or a font as a new commission with an empty bill.
///
/// # Errors
/// [`OpenError`].
pub fn open(path: &Path, workshop: Option<&Path>) -> Result<Opened, OpenError> {
    let bytes = read(path)?;
    if is_font(&bytes) {
        let shop = read_shop(workshop, parent(path))?;
        open_font(path, &bytes, shop, System::Pica)
    } else {
        open_commission(path, workshop)
    }
}

/// As [`open`]; a new commission begins as the settings say, with their router if no workshop lies beside the font.
///
/// # Errors
/// [`OpenError`].
pub fn open_as(path: &Path, settings: &Settings) -> Result<Opened, OpenError> {
    let bytes = read(path)?;
    if !is_font(&bytes) {
        return open_commission(path, None);
    }
    let (mut workshop, sha256) = read_shop(None, parent(path))?;
    if sha256.is_none() {
        workshop = settings.workshop();
    }
    open_font(path, &bytes, (workshop, sha256), settings.points.system())
}

/// Opens a commission file.
///
/// # Errors
/// [`OpenError`].
pub fn open_commission(path: &Path, workshop: Option<&Path>) -> Result<Opened, OpenError> {
    let (commission, sha256) = commission_at(path)?;
    let (workshop, shop_sha256) = read_shop(workshop, parent(path))?;
    Ok(Opened {
        fonts: fonts_of(&commission, Some(path))?,
        workshop,
        commission,
        path: Some(path.to_owned()),
        file_sha256: Some(sha256),
        shop_sha256,
        shop_on_disk: None,
        on_disk: None,
    })
}

/// A commission's file, read, and its SHA-256.
fn commission_at(path: &Path) -> Result<(Commission, String), OpenError> {
    let bytes = read(path)?;
    let sha256 = sha256_hex(&bytes);
    let text = text_of(path, bytes)?;
    match read_commission(&text) {
        Ok(commission) => Ok((commission, sha256)),
        Err(error) => Err(OpenError::Format {
            file: shown(path),
            said: error.to_string(),
        }),
    }
}

/// The fonts and drawings of a commission whose file is `path`.
fn fonts_of(commission: &Commission, path: Option<&Path>) -> Result<Fonts, OpenError> {
    let mut fonts = Fonts::new();
    for (id, file) in commission.files() {
        let bytes = read(&file_path(path, file)).map_err(|source| OpenError::Face {
            face: id.to_owned(),
            source,
        })?;
        fonts.insert(id.to_owned(), Arc::from(bytes));
    }
    Ok(fonts)
}

/// Opens work that was found again, with what its file holds now, if that can still be read.
///
/// # Errors
/// [`OpenError`] if a font is missing or the workshop beside it cannot be read.
pub fn open_leftover(entry: &Entry) -> Result<Opened, OpenError> {
    let file = entry.file.as_deref();
    let font = entry.commission.faces.first();
    let folder = match (file, font) {
        (Some(file), _) => parent(file).to_owned(),
        (None, Some(face)) => parent(Path::new(&face.file)).to_owned(),
        (None, None) => PathBuf::from("."),
    };
    let (workshop, shop_sha256) = read_shop(None, &folder)?;
    let (workshop, shop_on_disk) = match &entry.workshop {
        Some(unsaved) => (unsaved.clone(), Some(workshop)),
        None => (workshop, None),
    };
    Ok(Opened {
        fonts: fonts_of(&entry.commission, file)?,
        workshop,
        commission: entry.commission.clone(),
        path: entry.file.clone(),
        file_sha256: entry.file_sha256.clone(),
        shop_sha256,
        shop_on_disk,
        on_disk: file.and_then(|file| Some(commission_at(file).ok()?.0)),
    })
}

/// What was opened as a copy that has no file yet, its faces named whole.
pub fn as_copy(mut opened: Opened) -> Opened {
    if let Some(path) = opened.path.take() {
        for file in opened.commission.files_mut() {
            let whole = file_path(Some(&path), file);
            *file = shown(&whole.canonicalize().unwrap_or(whole));
        }
    }
    opened.file_sha256 = None;
    opened.shop_sha256 = None;
    opened
}

/// Whether two paths lead to one file.
pub fn is_same(one: &Path, other: &Path) -> bool {
    let whole = |path: &Path| {
        let absolute = || std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        path.canonicalize().unwrap_or_else(|_| absolute())
    };
    one == other || whole(one) == whole(other)
}

/// Whether a file is there and is no longer the one with this SHA-256.
pub fn differs(file: &Path, sha256: &str) -> bool {
    read(file).is_ok_and(|bytes| sha256_hex(&bytes) != sha256)
}

/// How many names are tried for a second file.
const MOST_NAMES: u32 = 1000;

/// A name like the one given that is still free: `order 2.json`.
pub fn second_name(path: &Path) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path
        .extension()
        .map(|ending| format!(".{}", ending.to_string_lossy()))
        .unwrap_or_default();
    let named = |number| path.with_file_name(format!("{stem} {number}{ending}"));
    (2..MOST_NAMES)
        .map(named)
        .find(|name| !name.exists())
        .unwrap_or_else(|| named(MOST_NAMES))
}

fn open_font(
    path: &Path,
    bytes: &[u8],
    (workshop, shop_sha256): (Workshop, Option<String>),
    system: System,
) -> Result<Opened, OpenError> {
    // Whole until the commission has a file that it can be relative to.
    let file = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let face = face_of(&shown(&file), bytes, path)?;
    let mut fonts = Fonts::new();
    fonts.insert(face.id.clone(), Arc::from(bytes));
    Ok(Opened {
        commission: new_commission(face, system, &workshop),
        path: None,
        fonts,
        workshop,
        file_sha256: None,
        shop_sha256,
        shop_on_disk: None,
        on_disk: None,
    })
}

/// A face from a font file, named `file` in the commission; the font must be readable.
///
/// # Errors
/// [`OpenError::Font`].
pub fn face_of(file: &str, bytes: &[u8], path: &Path) -> Result<Face, OpenError> {
    let face = Face {
        id: "main".to_owned(),
        file: file.to_owned(),
        sha256: sha256_hex(bytes),
        index: 0,
        variations: Default::default(),
        permission: Default::default(),
    };
    match crate::background::catalogue::parse(&face, bytes) {
        Ok(_) => Ok(face),
        Err(error) => Err(OpenError::Font {
            path: path.to_owned(),
            said: error.to_string(),
        }),
    }
}

/// The workshop: the file named, else the one beside the commission, else the one a new shop starts with.
///
/// # Errors
/// [`OpenError`].
pub fn open_workshop(named: Option<&Path>, folder: &Path) -> Result<Workshop, OpenError> {
    Ok(read_shop(named, folder)?.0)
}

/// As [`open_workshop`], with the SHA-256 of its file; `None` where there is none.
fn read_shop(named: Option<&Path>, folder: &Path) -> Result<(Workshop, Option<String>), OpenError> {
    let beside = folder.join(WORKSHOP_FILE);
    match named {
        Some(path) => workshop_at(path).map(|(workshop, sha256)| (workshop, Some(sha256))),
        None if beside.exists() => {
            workshop_at(&beside).map(|(workshop, sha256)| (workshop, Some(sha256)))
        }
        None => Ok((Workshop::starting(), None)),
    }
}

/// A workshop's file, read, and its SHA-256.
///
/// # Errors
/// [`OpenError`].
pub fn workshop_at(path: &Path) -> Result<(Workshop, String), OpenError> {
    let bytes = read(path)?;
    let sha256 = sha256_hex(&bytes);
    match read_workshop(&text_of(path, bytes)?) {
        Ok(workshop) => Ok((workshop, sha256)),
        Err(error) => Err(OpenError::Format {
            file: shown(path),
            said: error.to_string(),
        }),
    }
}

/// Writes a workshop's file; its SHA-256.
///
/// # Errors
/// [`FileError`], with the old file untouched.
pub fn save_workshop(workshop: &Workshop, to: &Path) -> Result<String, FileError> {
    let text = write_workshop(workshop);
    write_atomic(to, text.as_bytes())?;
    Ok(sha256_hex(text.as_bytes()))
}

/// SHA-256 of a file; `None` where there is none that can be read.
pub fn sha256_at(path: &Path) -> Option<String> {
    read(path).ok().map(|bytes| sha256_hex(&bytes))
}

/// A commission as it was written.
#[derive(Clone, Debug)]
pub struct Saved {
    /// The commission, its faces named as seen from its file.
    pub commission: Commission,
    /// SHA-256 of the file.
    pub sha256: String,
}

/// Saves a commission; its faces are named as seen from its file.
///
/// # Errors
/// [`FileError`], with the old file untouched.
pub fn save(commission: &Commission, from: Option<&Path>, to: &Path) -> Result<Saved, FileError> {
    let mut commission = commission.clone();
    for file in commission.files_mut() {
        *file = relative_to(&file_path(from, file), parent(to));
    }
    let text = write_commission(&commission);
    write_atomic(to, text.as_bytes())?;
    Ok(Saved {
        commission,
        sha256: sha256_hex(text.as_bytes()),
    })
}

/// Where the file of a face or drawing lies, for a commission at `path`.
fn file_path(path: Option<&Path>, file: &str) -> PathBuf {
    match path {
        Some(path) => parent(path).join(file),
        None => PathBuf::from(file),
    }
}

/// Whether bytes begin as an OpenType font or a collection of them does.
///
/// # Source
/// OpenType specification, "Organization of an OpenType font": the sfnt versions and the collection's tag.
pub fn is_font(bytes: &[u8]) -> bool {
    const STARTS: [&[u8; 4]; 4] = [b"\0\x01\0\0", b"OTTO", b"true", b"ttcf"];
    STARTS.iter().any(|start| bytes.starts_with(*start))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn what_cannot_be_opened_is_named() {
        let place = tempfile::tempdir().unwrap();
        let said = |path: &Path| open(path, None).unwrap_err().to_string();
        assert!(said(&place.path().join("none.json")).contains("there is no such file"));
        let broken = place.path().join("broken.ttf");
        fs::write(&broken, b"\0\x01\0\0 and then nothing").unwrap();
        assert!(said(&broken).contains("broken.ttf is not a font that can be read"));
        let corrupt = place.path().join("corrupt.json");
        fs::write(&corrupt, "{\"title\": ").unwrap();
        assert!(
            said(&corrupt).contains("corrupt.json"),
            "{}",
            said(&corrupt)
        );
    }

    #[test]
    fn a_workshop_that_was_named_must_be_there() {
        let place = tempfile::tempdir().unwrap();
        let named = place.path().join("shop.json");
        assert!(open_workshop(Some(&named), place.path()).is_err());
        assert_eq!(
            open_workshop(None, place.path()).unwrap(),
            Workshop::starting()
        );
        fs::write(place.path().join(WORKSHOP_FILE), "not a workshop").unwrap();
        assert!(open_workshop(None, place.path()).is_err());
    }
}
