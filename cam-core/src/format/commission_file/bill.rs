//! The bill in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::{ONLY_FACE, fault};
use crate::bill::{from_list, to_list};
use crate::commission::{BillLine, Commission, GlyphChoice};

/// Letters of a bill that are written into one text, in characters, so that lines stay readable.
const LONGEST_LETTERS: usize = 80;

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::format) struct FileBillLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    face: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    letters: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    character: Option<char>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ligature: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    glyph: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    glyph_index: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    drawing: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    features: Option<Vec<String>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    count: Option<u32>,
}

pub(super) fn bill_of(
    lines: &[FileBillLine],
    first_face: &str,
) -> Result<Vec<BillLine>, FormatError> {
    let mut bill = Vec::new();
    for (place, line) in lines.iter().enumerate() {
        let place = format!("bill[{place}]");
        let face = line.face.as_deref().unwrap_or(first_face);
        match &line.letters {
            Some(letters) => bill.extend(line.listed(letters, face, &place)?),
            None => bill.push(BillLine {
                face: line.drawing.as_deref().unwrap_or(face).to_owned(),
                glyph: line.choice(&place)?,
                count: line
                    .count
                    .ok_or_else(|| fault(&format!("{place}.count"), "say how many are ordered"))?,
            }),
        }
    }
    Ok(bill)
}

impl FileBillLine {
    fn listed(&self, letters: &str, face: &str, place: &str) -> Result<Vec<BillLine>, FormatError> {
        let alone = self.count.is_none() && self.features.is_none() && self.ways() == 0;
        if !alone {
            return Err(fault(
                place,
                "“letters” holds letters and counts already; take out the other keys but “face”",
            ));
        }
        from_list(face, letters).map_err(|error| {
            fault(
                &format!("{place}.letters"),
                error.to_string().trim_end_matches('.'),
            )
        })
    }

    /// One glyph of a face that the line names.
    pub(in crate::format) fn into_line(self, place: &str) -> Result<BillLine, FormatError> {
        let glyph = self.choice(place)?;
        let face = self.drawing.or(self.face);
        Ok(BillLine {
            face: face.ok_or_else(|| fault(&format!("{place}.face"), "name the face"))?,
            glyph,
            count: self.count.unwrap_or_default(),
        })
    }

    /// The face, or drawing, and the glyph that the line names and does not order; of the face `otherwise` where it names none.
    pub(super) fn named(
        &self,
        place: &str,
        otherwise: &str,
    ) -> Result<(String, GlyphChoice), FormatError> {
        if self.letters.is_some() || self.count.is_some() {
            return Err(fault(
                place,
                "name one sort, and leave it to the bill how many are ordered; take “letters” and “count” out",
            ));
        }
        let glyph = self.choice(place)?;
        let face = self.drawing.as_deref().or(self.face.as_deref());
        Ok((face.unwrap_or(otherwise).to_owned(), glyph))
    }

    /// A line that names a glyph and orders none.
    pub(super) fn naming(face: &str, glyph: &GlyphChoice) -> FileBillLine {
        let line = BillLine {
            face: face.to_owned(),
            glyph: glyph.clone(),
            count: 0,
        };
        FileBillLine {
            count: None,
            ..FileBillLine::of(&line, Some(line.face.clone()))
        }
    }

    /// In how many ways the line names a glyph.
    fn ways(&self) -> usize {
        usize::from(self.character.is_some())
            + usize::from(self.ligature.is_some())
            + usize::from(self.glyph.is_some())
            + usize::from(self.glyph_index.is_some())
            + usize::from(self.drawing.is_some())
    }

    fn choice(&self, place: &str) -> Result<GlyphChoice, FormatError> {
        if self.ways() != 1 {
            return Err(fault(
                place,
                "name the glyph by exactly one of “letters”, “character”, “ligature”, “glyph”, “glyph_index” or “drawing”",
            ));
        }
        let features = || self.features.clone();
        let without_features = || match &self.features {
            None => Ok(()),
            Some(_) => Err(fault(
                &format!("{place}.features"),
                "only a character or a ligature takes features; take them out",
            )),
        };
        if self.drawing.is_some() {
            without_features()?;
            if self.face.is_some() {
                return Err(fault(
                    &format!("{place}.face"),
                    "a drawing belongs to no face; take the face out",
                ));
            }
            Ok(GlyphChoice::Drawing)
        } else if let Some(character) = self.character {
            Ok(GlyphChoice::Character {
                character,
                features: features().unwrap_or_default(),
            })
        } else if let Some(text) = &self.ligature {
            Ok(GlyphChoice::Ligature {
                text: text.clone(),
                features: features().unwrap_or_else(|| vec!["liga".to_owned()]),
            })
        } else if let Some(name) = &self.glyph {
            without_features()?;
            Ok(GlyphChoice::Name(name.clone()))
        } else {
            without_features()?;
            Ok(GlyphChoice::Index(self.glyph_index.unwrap_or_default()))
        }
    }

    pub(in crate::format) fn of(line: &BillLine, face: Option<String>) -> FileBillLine {
        let mut file = FileBillLine {
            face,
            count: Some(line.count),
            ..FileBillLine::default()
        };
        match &line.glyph {
            GlyphChoice::Character {
                character,
                features,
            } => {
                file.character = Some(*character);
                file.features = (!features.is_empty()).then(|| features.clone());
            }
            GlyphChoice::Ligature { text, features } => {
                file.ligature = Some(text.clone());
                file.features = Some(features.clone());
            }
            GlyphChoice::Name(name) => file.glyph = Some(name.clone()),
            GlyphChoice::Index(index) => file.glyph_index = Some(*index),
            GlyphChoice::Drawing => {
                file.face = None;
                file.drawing = Some(line.face.clone());
            }
        }
        file
    }
}

/// The bill with neighbouring plain letters of one face put into lists.
pub(super) fn file_bill(commission: &Commission) -> Vec<FileBillLine> {
    let first_face = commission.faces.first().map_or(ONLY_FACE, |face| &face.id);
    let mut file: Vec<FileBillLine> = Vec::new();
    for line in &commission.bill {
        let face = (line.face != first_face).then(|| line.face.clone());
        let Some(entry) = to_list(line) else {
            file.push(FileBillLine::of(line, face));
            continue;
        };
        let open = file.last_mut().filter(|last| last.face == face);
        match open.and_then(|last| last.letters.as_mut()) {
            Some(letters) if letters.chars().count() + entry.chars().count() < LONGEST_LETTERS => {
                letters.push_str(", ");
                letters.push_str(&entry);
            }
            Some(_) | None => file.push(FileBillLine {
                face,
                letters: Some(entry),
                ..FileBillLine::default()
            }),
        }
    }
    file
}
