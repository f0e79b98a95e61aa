//! The commission's fonts, opened and compared with what was recorded.

use geometry::font::Font;
use said::{Joint, Said, Value};

use super::SortError;
use crate::commission::{Commission, Face};
use crate::digest::sha256_hex;
use crate::finding::{Finding, Severity, Subject, texts};
use crate::make::Fonts;

/// A face with its font, ready for use.
pub(super) struct OpenFace<'a> {
    pub face: &'a Face,
    pub font: Font<'a>,
}

/// Opens the fonts of all faces. Trouble with the first face is an error, since the whole fount takes its heights from it; trouble with
/// another is a finding, and only its own letters are lost.
pub(super) fn open<'a>(
    commission: &'a Commission,
    fonts: &'a Fonts,
    findings: &mut Vec<Finding>,
) -> Result<Vec<OpenFace<'a>>, SortError> {
    let mut opened = Vec::new();
    for (place, face) in commission.faces.iter().enumerate() {
        match open_one(face, fonts) {
            Ok((font, bytes)) => {
                findings.extend(compare_with_record(
                    &OF_FACE,
                    &face.id,
                    &face.file,
                    &face.sha256,
                    bytes,
                ));
                findings.extend(permission_not_recorded(face, &font));
                opened.push(OpenFace { face, font });
            }
            Err(error) if place == 0 => return Err(error),
            Err(error) => findings.push(Finding {
                severity: Severity::Stop,
                subject: Subject::Face(face.id.clone()),
                kind: "font-unusable",
                text: error.to_string().into(),
                remedy: texts::font_unusable_remedy(),
            }),
        }
    }
    Ok(opened)
}

fn open_one<'a>(face: &Face, fonts: &'a Fonts) -> Result<(Font<'a>, &'a [u8]), SortError> {
    let bytes = fonts.get(&face.id).ok_or_else(|| SortError::NoFont {
        face: face.id.clone(),
        file: face.file.clone(),
    })?;
    let font =
        Font::parse(bytes, face.index, &face.variations).map_err(|error| SortError::Font {
            face: face.id.clone(),
            file: face.file.clone(),
            error,
        })?;
    Ok((font, bytes))
}

/// How findings speak of a file.
pub(super) struct FileWords {
    /// Says that it is another: its name, its hash, and the recorded one.
    pub changed: fn(&str, &str, &str) -> Said,
    /// The kind of finding for one without a recorded hash, and for a changed one.
    pub kinds: [&'static str; 2],
}

const OF_FACE: FileWords = FileWords {
    changed: |file, found, recorded| texts::font_changed(file, found, recorded),
    kinds: ["font-not-recorded", "font-changed"],
};

/// A changed file is said, never used silently.
pub(super) fn compare_with_record(
    words: &FileWords,
    id: &str,
    file: &str,
    recorded: &str,
    bytes: &[u8],
) -> Option<Finding> {
    let found = sha256_hex(bytes);
    let subject = Subject::Face(id.to_owned());
    let FileWords { changed, kinds } = words;
    if recorded.is_empty() {
        return Some(Finding {
            severity: Severity::Note,
            subject,
            kind: kinds[0],
            text: texts::file_not_recorded(file),
            remedy: texts::file_not_recorded_remedy(found),
        });
    }
    (!recorded.eq_ignore_ascii_case(&found)).then(|| Finding {
        severity: Severity::Stop,
        subject,
        kind: kinds[1],
        text: changed(file, &found, recorded),
        remedy: texts::file_changed_remedy(),
    })
}

/// The font's own words are shown; they never decide, the maker's recorded permission does.
fn permission_not_recorded(face: &Face, font: &Font<'_>) -> Option<Finding> {
    face.permission.by.trim().is_empty().then(|| {
        let licence = font.licence();
        let short = |words: String| shortened(words.trim());
        let entries: Vec<Said> = [
            licence.copyright.map(short).map(texts::says_copyright),
            licence.trademark.map(short).map(texts::says_trademark),
            licence.licence.map(short).map(texts::says_licence),
            licence.licence_url.map(short).map(texts::says_licence_url),
            font.embedding()
                .map(|bits| texts::says_embedding(shortened(&bits.in_words()))),
        ]
        .into_iter()
        .flatten()
        .collect();
        Finding {
            severity: Severity::Warning,
            subject: Subject::Face(face.id.clone()),
            kind: "permission-not-recorded",
            text: if entries.is_empty() {
                texts::font_not_permitted()
            } else {
                texts::font_not_permitted_but_says(Value::list(entries, Joint::Semicolon))
            },
            remedy: texts::font_not_permitted_remedy(),
        }
    })
}

/// Licence texts can run to pages; the start is enough to know which one it is.
fn shortened(text: &str) -> String {
    const LONGEST: usize = 240;
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let line = line.trim_end_matches('.');
    if line.chars().count() <= LONGEST {
        line.to_owned()
    } else {
        let start: String = line.chars().take(LONGEST).collect();
        format!("{start}…")
    }
}
