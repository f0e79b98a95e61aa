//! Notebooks of moisture.

use said::Said;
use serde::Serialize;

use super::{Climate, Grain};
use crate::notebook::{Entry, Kind, NotebookError, entries};
use crate::species::{Species, names};
use crate::texts;

/// Which way the printing face looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Face {
    /// The fibres stand upright: height keeps, body and set move.
    End,
    /// The fibres lie in the face, along this size: the two others move.
    Side(SizeKind),
}

/// A size of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SizeKind {
    /// From foot to head.
    Body,
    /// Across.
    Set,
    /// From bed to face.
    Height,
    /// Of a row of blocks side by side.
    Row,
}

impl SizeKind {
    /// As at the start of a sentence.
    pub fn said(self) -> Said {
        match self {
            SizeKind::Body => texts::body(),
            SizeKind::Set => texts::set(),
            SizeKind::Height => texts::height(),
            SizeKind::Row => texts::row(),
        }
    }

    fn of(word: &str) -> Option<SizeKind> {
        match word {
            "body" => Some(SizeKind::Body),
            "set" => Some(SizeKind::Set),
            "height" => Some(SizeKind::Height),
            _ => None,
        }
    }

    /// A row runs the way sets do.
    const fn lies_as(self) -> SizeKind {
        match self {
            SizeKind::Row | SizeKind::Set => SizeKind::Set,
            SizeKind::Body => SizeKind::Body,
            SizeKind::Height => SizeKind::Height,
        }
    }
}

/// A size whose movement is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Size {
    /// What it is.
    pub kind: SizeKind,
    /// The size, mm.
    pub mm: f64,
}

/// What a notebook of moisture holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Notes {
    /// The wood.
    pub wood: Species,
    /// The workshop's air.
    pub room: Climate,
    /// The air where the type will be kept.
    pub there: Option<Climate>,
    /// Readings of a moisture meter, per cent.
    pub readings: Vec<f64>,
    /// Which way the face looks; end grain unless something else is said (common practice for wood type).
    pub face: Face,
    /// The size that lies along the rings, if known.
    pub rings: Option<SizeKind>,
    /// The sizes whose movement is wanted.
    pub sizes: Vec<Size>,
}

impl Notes {
    /// Which ways a size may lie in the tree.
    pub(super) fn lies(&self, kind: SizeKind) -> Vec<Grain> {
        let kind = kind.lies_as();
        let fibres = match self.face {
            Face::End => SizeKind::Height,
            Face::Side(along) => along,
        };
        if kind == fibres {
            return vec![Grain::Along];
        }
        match self.rings {
            Some(rings) if rings == kind => vec![Grain::Tangential],
            Some(_) => vec![Grain::Radial],
            None => vec![Grain::Tangential, Grain::Radial],
        }
    }
}

const KNOWN: &str = "wood, room, there, reading, face, rings, body, set, height, row";

/// Reads a notebook.
///
/// # Errors
/// What cannot be read, with its line.
pub fn read(text: &str) -> Result<Notes, NotebookError> {
    let (mut wood, mut room, mut there) = (None, None, None);
    let mut readings = Vec::new();
    let (mut face, mut rings) = (Face::End, None);
    let mut sizes = Vec::new();
    let mut size = |entry: &Entry<'_>, kind, what| -> Result<(), NotebookError> {
        sizes.push(Size {
            kind,
            mm: entry.size(what)?,
        });
        Ok(())
    };
    for entry in entries(text, Kind::Moisture)? {
        match entry.key {
            "wood" => wood = Some(species(&entry)?),
            "room" => room = Some(climate(&entry)?),
            "there" => there = Some(climate(&entry)?),
            "" | "reading" => readings.extend(entry.percents()?),
            "face" => face = face_of(&entry)?,
            "rings" => rings = Some(rings_of(&entry)?),
            "body" => size(&entry, SizeKind::Body, "the body")?,
            "set" => size(&entry, SizeKind::Set, "the set")?,
            "height" => size(&entry, SizeKind::Height, "the height")?,
            "row" => size(&entry, SizeKind::Row, "the row")?,
            _ => return Err(entry.unknown(KNOWN)),
        }
    }
    let missing = |text: &str| NotebookError::Missing(text.to_owned());
    Ok(Notes {
        wood: wood.ok_or_else(|| missing("Say which wood it is, such as: wood hard maple."))?,
        room: room.ok_or_else(|| missing("Say what air it lies in, such as: room 21 C 45 %."))?,
        there,
        readings,
        face,
        rings,
        sizes,
    })
}

fn species(entry: &Entry<'_>) -> Result<Species, NotebookError> {
    let name = entry.text();
    Species::named(&name).ok_or_else(|| {
        entry.fault(format!(
            "the movement of “{name}” is not known here. Known are: {}.",
            names()
        ))
    })
}

fn climate(entry: &Entry<'_>) -> Result<Climate, NotebookError> {
    let [temperature_c, humidity] = entry.climate()?;
    let climate = Climate {
        temperature_c,
        humidity,
    };
    climate
        .equilibrium()
        .map_err(|error| entry.fault(error.to_string()))?;
    Ok(climate)
}

fn face_of(entry: &Entry<'_>) -> Result<Face, NotebookError> {
    match entry.words.as_slice() {
        ["end"] => Ok(Face::End),
        ["side", "body"] => Ok(Face::Side(SizeKind::Body)),
        ["side", "set"] => Ok(Face::Side(SizeKind::Set)),
        _ => Err(entry.fault(
            "the face is “end”, or “side body” or “side set” where the grain runs along the body or the set.",
        )),
    }
}

fn rings_of(entry: &Entry<'_>) -> Result<SizeKind, NotebookError> {
    SizeKind::of(&entry.text())
        .ok_or_else(|| entry.fault("the rings run along body, set or height."))
}
