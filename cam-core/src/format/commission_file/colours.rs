//! Letters in colours, in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::super::json::FileLength;
use super::{fault, or_default};
use crate::commission::{ColourRules, Plate, PlateCount, PlateSource};
use crate::measure::{Length, System};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileColours {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    faces: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    drawings: Vec<String>,
    #[serde(default)]
    plates: Vec<FilePlate>,
    #[serde(default)]
    palette: u16,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    cut: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    counts: Vec<FileCount>,
    trap: Option<FileLength>,
    misregister: Option<FileLength>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileCount {
    letter: String,
    plate: String,
    count: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FilePlate {
    #[serde(default)]
    name: String,
    #[serde(default)]
    ink: String,
    from: FileFrom,
    #[serde(skip_serializing_if = "Option::is_none")]
    face: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    colour: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    inset: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    width: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    gap: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    length: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    angle_deg: Option<f64>,
    #[serde(default)]
    overprinted: bool,
}

#[derive(Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileFrom {
    Letter,
    Face,
    FontColour,
    Inline,
    Outline,
    Shadow,
}

impl FileFrom {
    /// The keys that it takes beside name, ink and `overprinted`.
    const fn keys(self) -> &'static [&'static str] {
        match self {
            FileFrom::Letter => &[],
            FileFrom::Face => &["face"],
            FileFrom::FontColour => &["colour"],
            FileFrom::Inline => &["inset", "width"],
            FileFrom::Outline => &["gap", "width"],
            FileFrom::Shadow => &["angle_deg", "length", "gap"],
        }
    }
}

impl FileColours {
    pub(super) fn into_model(self, system: System) -> Result<ColourRules, FormatError> {
        let starting = ColourRules::starting();
        let plates = self.plates.into_iter().enumerate();
        Ok(ColourRules {
            faces: self.faces,
            drawings: self.drawings,
            plates: plates
                .map(|(place, plate)| plate.into_model(&format!("colours.plates[{place}]"), system))
                .collect::<Result<_, _>>()?,
            palette: self.palette,
            cut: self.cut,
            counts: self
                .counts
                .into_iter()
                .map(|one| PlateCount {
                    letter: one.letter,
                    plate: one.plate,
                    count: one.count,
                })
                .collect(),
            trap: or_default(self.trap.as_ref(), "colours.trap", system, starting.trap)?,
            misregister: or_default(
                self.misregister.as_ref(),
                "colours.misregister",
                system,
                starting.misregister,
            )?,
        })
    }

    pub(super) fn of(rules: &ColourRules, system: System) -> FileColours {
        FileColours {
            faces: rules.faces.clone(),
            drawings: rules.drawings.clone(),
            plates: rules
                .plates
                .iter()
                .map(|plate| FilePlate::of(plate, system))
                .collect(),
            palette: rules.palette,
            cut: rules.cut.clone(),
            counts: rules
                .counts
                .iter()
                .map(|one| FileCount {
                    letter: one.letter.clone(),
                    plate: one.plate.clone(),
                    count: one.count,
                })
                .collect(),
            trap: Some(FileLength::of(rules.trap, system)),
            misregister: Some(FileLength::of(rules.misregister, system)),
        }
    }
}

impl FilePlate {
    fn into_model(self, place: &str, system: System) -> Result<Plate, FormatError> {
        let at = |key: &str| format!("{place}.{key}");
        for (key, given) in [
            ("face", self.face.is_some()),
            ("colour", self.colour.is_some()),
            ("inset", self.inset.is_some()),
            ("width", self.width.is_some()),
            ("gap", self.gap.is_some()),
            ("length", self.length.is_some()),
            ("angle_deg", self.angle_deg.is_some()),
        ] {
            if given && !self.from.keys().contains(&key) {
                return Err(fault(
                    &at(key),
                    "what this plate is made from does not use it; take it out",
                ));
            }
        }
        let optional = |length: &Option<FileLength>, key: &str| {
            let length = length.as_ref();
            length
                .map(|length| length.length(&at(key), system))
                .transpose()
        };
        let needed = |length: &Option<FileLength>, key: &str| {
            optional(length, key)?.ok_or_else(|| {
                fault(
                    &at(key),
                    "this plate needs it; give a length such as \"2 pt\"",
                )
            })
        };
        let word = |word: &Option<String>, key: &str, text: &str| {
            word.clone().ok_or_else(|| fault(&at(key), text))
        };
        let none = Length::mm(0.0);
        let source = match self.from {
            FileFrom::Letter => PlateSource::Letter,
            FileFrom::Face => PlateSource::Face(word(
                &self.face,
                "face",
                "name the companion face from which this plate comes",
            )?),
            FileFrom::FontColour => PlateSource::FontColour(
                word(
                    &self.colour,
                    "colour",
                    "say which of the font’s colours this plate prints, such as \"#b01020\"",
                )?
                .to_lowercase(),
            ),
            FileFrom::Inline => PlateSource::Inline {
                inset: needed(&self.inset, "inset")?,
                width: optional(&self.width, "width")?,
            },
            FileFrom::Outline => PlateSource::Outline {
                gap: optional(&self.gap, "gap")?.unwrap_or(none),
                width: needed(&self.width, "width")?,
            },
            FileFrom::Shadow => PlateSource::Shadow {
                angle_deg: self.angle_deg.ok_or_else(|| {
                    fault(
                        &at("angle_deg"),
                        "say which way the shadow falls: 0 is to the right, 90 up",
                    )
                })?,
                length: needed(&self.length, "length")?,
                gap: optional(&self.gap, "gap")?.unwrap_or(none),
            },
        };
        Ok(Plate {
            name: self.name,
            ink: self.ink,
            source,
            overprinted: self.overprinted,
        })
    }

    fn of(plate: &Plate, system: System) -> FilePlate {
        let length = |length: Length| Some(FileLength::of(length, system));
        let mut file = FilePlate {
            name: plate.name.clone(),
            ink: plate.ink.clone(),
            from: FileFrom::Letter,
            face: None,
            colour: None,
            inset: None,
            width: None,
            gap: None,
            length: None,
            angle_deg: None,
            overprinted: plate.overprinted,
        };
        match &plate.source {
            PlateSource::Letter => {}
            PlateSource::Face(face) => {
                file.from = FileFrom::Face;
                file.face = Some(face.clone());
            }
            PlateSource::FontColour(colour) => {
                file.from = FileFrom::FontColour;
                file.colour = Some(colour.clone());
            }
            PlateSource::Inline { inset, width } => {
                file.from = FileFrom::Inline;
                file.inset = length(*inset);
                file.width = width.and_then(length);
            }
            PlateSource::Outline { gap, width } => {
                file.from = FileFrom::Outline;
                file.gap = length(*gap);
                file.width = length(*width);
            }
            PlateSource::Shadow {
                angle_deg,
                length: far,
                gap,
            } => {
                file.from = FileFrom::Shadow;
                file.angle_deg = Some(*angle_deg);
                file.length = length(*far);
                file.gap = length(*gap);
            }
        }
        file
    }
}
