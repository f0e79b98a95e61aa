//! The licence record: what each font says of itself, and what permission to make type from it was recorded.
//!
//! The font's words decide nothing; what the maker recorded is repeated on every paper where it is missing.

use geometry::font::{Embedding, EmbeddingRight, Font};

use super::PaperParts;
use super::sheet::{Piece, Sheet};
use super::words::counted;
use crate::commission::{Commission, Face};
use crate::digest::sha256_hex;

/// What every paper says where no permission is recorded for a face; empty where all are.
pub fn not_recorded(commission: &Commission) -> String {
    let without: Vec<&str> = commission
        .faces
        .iter()
        .filter(|face| !is_recorded(face))
        .map(|face| face.id.as_str())
        .collect();
    match without.as_slice() {
        [] => String::new(),
        [one] => format!("Permission not recorded for face {one}"),
        several => format!("Permission not recorded for faces {}", several.join(", ")),
    }
}

fn is_recorded(face: &Face) -> bool {
    !face.permission.by.trim().is_empty()
}

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let commission = parts.commission;
    if commission.faces.is_empty() {
        return None;
    }
    let mut facts = parts.order_facts();
    let blocks: usize = parts.sorts.iter().map(|sort| sort.count as usize).sum();
    facts.push((
        "Made",
        format!(
            "One fount of {}; {}",
            counted(blocks, "block"),
            parts.wood()
        ),
    ));
    let mut pieces = vec![Piece::text(
        "This sheet lays what each font file says of itself beside the permission that was recorded for making physical type from it. \
         The embedding bits speak of documents alone: they neither grant nor forbid making type. Only the owner’s permission does.",
    )];
    for face in &commission.faces {
        pieces.extend(of_face(parts, face));
    }
    pieces.push(Piece::Rule);
    pieces.push(Piece::heading("For the workshop"));
    pieces.push(Piece::ToFill(vec!["Name", "Signed", "Date"]));
    Some(Sheet {
        file: "licence-record",
        name: "Licence record",
        facts,
        pieces,
        as_text: true,
    })
}

fn of_face(parts: &PaperParts, face: &Face) -> Vec<Piece> {
    let mut pieces = vec![Piece::Rule, Piece::heading(format!("Face {}", face.id))];
    let bytes = parts.fonts.get(&face.id);
    let font = bytes.and_then(|bytes| Font::parse(bytes, face.index, &face.variations).ok());
    let blocks: u32 = parts
        .sorts
        .iter()
        .filter(|sort| {
            sort.source
                .as_ref()
                .is_some_and(|source| source.face == face.id)
        })
        .map(|sort| sort.count)
        .sum();
    pieces.push(Piece::text(match &font {
        Some(font) => format!(
            "{} Cut from it: {}.",
            named(font),
            counted(blocks as usize, "block")
        ),
        None => "The font file could not be read.".to_owned(),
    }));
    pieces.push(Piece::heading("Permission recorded"));
    pieces.extend(permission(face));
    pieces.push(Piece::heading("What the font says"));
    pieces.push(match &font {
        Some(font) => Piece::Facts(own_words(font)),
        None => Piece::text("Nothing could be read."),
    });
    let mut file = vec![("File".to_owned(), face.file.clone())];
    if face.index > 0 {
        file.push(("Face of the collection".to_owned(), face.index.to_string()));
    }
    if let Some(bytes) = bytes {
        file.push(("SHA-256".to_owned(), sha256_hex(bytes)));
    }
    if !face.variations.is_empty() {
        let axes = face.variations.iter();
        let axes: Vec<String> = axes.map(|(tag, value)| format!("{tag} {value}")).collect();
        file.push(("Axes".to_owned(), axes.join(", ")));
    }
    pieces.push(Piece::heading("The file"));
    pieces.push(Piece::Facts(file));
    pieces
}

/// A sentence with the font's family and style.
fn named(font: &Font) -> String {
    let names = [font.family(), font.style()];
    let names: Vec<&str> = names
        .iter()
        .map(|name| name.trim())
        .filter(|name| !name.is_empty())
        .collect();
    if names.is_empty() {
        "The font gives itself no name.".to_owned()
    } else {
        format!("{}.", names.join(" "))
    }
}

fn permission(face: &Face) -> Vec<Piece> {
    let permission = &face.permission;
    if !is_recorded(face) {
        return vec![
            Piece::Loud("Permission not recorded.".to_owned()),
            Piece::text(
                "Ask the owner of the font whether type may be made from it, and for how many founts; then record who allowed it and when.",
            ),
        ];
    }
    let on = if permission.on.trim().is_empty() {
        "not recorded".to_owned()
    } else {
        permission.on.clone()
    };
    let founts = match permission.founts {
        Some(founts) => counted(founts as usize, "fount"),
        None => "no limit recorded".to_owned(),
    };
    vec![Piece::Facts(vec![
        ("Allowed by".to_owned(), permission.by.clone()),
        ("On".to_owned(), on),
        ("For".to_owned(), founts),
    ])]
}

/// The font's own entries, those that it leaves out named as such where they matter.
fn own_words(font: &Font) -> Vec<(String, String)> {
    const MISSING: &str = "The font says nothing.";
    let own = font.licence();
    let said = |entry: Option<String>| {
        let text = entry.unwrap_or_default();
        let paragraphs: Vec<String> = text
            .lines()
            .map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "))
            .filter(|line| !line.is_empty())
            .collect();
        paragraphs.join("\n")
    };
    let mut facts = Vec::new();
    for (label, entry) in [
        ("Copyright", own.copyright),
        ("Licence", own.licence),
        ("Licence on the web", own.licence_url),
    ] {
        let words = said(entry);
        let words = if words.is_empty() {
            MISSING.to_owned()
        } else {
            words
        };
        facts.push((label.to_owned(), words));
    }
    for (label, entry) in [
        ("Trademark", own.trademark),
        ("Made by", own.manufacturer),
        ("Drawn by", own.designer),
        ("Version", own.version),
        ("Seller’s id", own.vendor_id),
        ("Seller on the web", own.vendor_url),
        ("Designer on the web", own.designer_url),
    ] {
        let words = said(entry);
        if !words.is_empty() {
            facts.push((label.to_owned(), words));
        }
    }
    facts.push((
        "Embedding bits".to_owned(),
        font.embedding()
            .map_or_else(|| "The font has none.".to_owned(), |bits| explained(&bits)),
    ));
    facts
}

/// The bits as a number and in words.
///
/// # Source
/// OpenType specification, table `OS/2`, fsType.
fn explained(embedding: &Embedding) -> String {
    let right = match embedding.right {
        EmbeddingRight::Installable => {
            "documents may embed the font, and it may be installed from them for good"
        }
        EmbeddingRight::Restricted => "documents must not embed the font without its owner’s leave",
        EmbeddingRight::PreviewAndPrint => {
            "documents may embed the font to be read and printed, not to be changed"
        }
        EmbeddingRight::Editable => "documents may embed the font, and may be changed with it",
    };
    let mut text = format!(
        "fsType 0x{:04X}, {}: {right}.",
        embedding.bits,
        embedding.in_words()
    );
    if embedding.no_subsetting {
        text += " It must be embedded whole.";
    }
    if embedding.bitmaps_only {
        text += " Only its bitmaps may be embedded.";
    }
    for warning in &embedding.warnings {
        text += " ";
        text += warning;
    }
    text
}
