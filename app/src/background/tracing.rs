//! Scans looked at and traced, and drawings named in a commission; the window and the command line both come here.

use std::path::Path;
use std::sync::Arc;

use cam_core::commission::{Face, NamedDrawing};
use cam_core::digest::sha256_hex;
use cam_core::progress::Progress;
use drawing::scan::{Settings, Traced, Watch, trace};
use drawing::{Kind, Reading, kind_of};

use crate::files::open::{face_of, is_font};
use crate::files::{read, shown};

/// Tells progress how far the work has come.
struct Told<'a>(&'a Progress);

impl Watch for Told<'_> {
    fn begin(&self, step: &str, parts: usize) {
        self.0.begin(step, parts);
    }

    fn advance(&self) {
        self.0.advance();
    }

    fn is_stopped(&self) -> bool {
        self.0.check().is_err()
    }
}

/// Traces a scan.
///
/// # Errors
/// A sentence.
pub fn traced(bytes: &[u8], settings: &Settings, progress: &Progress) -> Result<Traced, String> {
    trace(bytes, settings, &Told(progress)).map_err(|error| error.to_string())
}

/// A file that a commission is to name.
#[derive(Clone, Debug)]
pub enum Found {
    /// A drawing that can be read.
    Drawing {
        /// The drawing as it is to be named.
        drawing: Box<NamedDrawing>,
        /// Its file.
        bytes: Arc<[u8]>,
    },
    /// A scan, which is traced first.
    Scan(Arc<[u8]>),
    /// A font.
    Font {
        /// The face as it is to be named.
        face: Box<Face>,
        /// Its file.
        bytes: Arc<[u8]>,
    },
}

/// Looks at a file: a font or a drawing, which is named by its file's name and must be readable, or a scan.
///
/// # Errors
/// A sentence.
pub fn found(path: &Path) -> Result<Found, String> {
    let bytes: Arc<[u8]> = Arc::from(read(path).map_err(|error| error.to_string())?);
    if kind_of(&bytes) == Some(Kind::Scan) {
        return Ok(Found::Scan(bytes));
    }
    let whole = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    if is_font(&bytes) {
        let mut face = face_of(&shown(&whole), &bytes, path).map_err(|error| error.to_string())?;
        face.id = word_of(path);
        return Ok(Found::Font {
            face: Box::new(face),
            bytes,
        });
    }
    drawing::read(&bytes, &Reading::default())
        .map_err(|error| format!("{}: {error}", shown(path)))?;
    let mut drawing = NamedDrawing::starting(&word_of(path), &shown(&whole));
    drawing.sha256 = sha256_hex(&bytes);
    Ok(Found::Drawing {
        drawing: Box::new(drawing),
        bytes,
    })
}

/// A short word from a file's name: letters and figures, with single hyphens between.
pub fn word_of(path: &Path) -> String {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let parts = stem
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|part| !part.is_empty());
    let word = parts.collect::<Vec<_>>().join("-").to_lowercase();
    if word.is_empty() {
        "drawing".to_owned()
    } else {
        word
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_made_of_names() {
        for (name, word) in [
            ("Fleuron No. 3.svg", "fleuron-no-3"),
            ("--.dxf", "drawing"),
            ("scan_12.png", "scan-12"),
        ] {
            assert_eq!(word_of(Path::new(name)), word);
        }
    }
}
