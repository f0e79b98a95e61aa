//! Fit and block rules in the commission file.

use serde::{Deserialize, Serialize};

use super::super::FormatError;
use super::super::json::FileLength;
use super::{fault, or_default};
use crate::commission::{BlockRules, BodyStep, Fit, RoundingShare, SetRounding, SetRule};
use crate::measure::{Length, System};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileFit {
    rule: FileFitRule,
    #[serde(skip_serializing_if = "Option::is_none")]
    capitals: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    head: Option<FileLength>,
    #[serde(skip_serializing_if = "Option::is_none")]
    foot: Option<FileLength>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileFitRule {
    Capitals,
    AscenderToDescender,
    EmOnBody,
    CapitalHeight,
}

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileBlock {
    body_step: Option<FileBodyStep>,
    set: Option<FileSetRule>,
    #[serde(skip_serializing_if = "Option::is_none")]
    margin: Option<FileLength>,
    rounding: Option<FileRounding>,
    share: Option<FileShare>,
    least_side: Option<FileLength>,
    common_figure_set: Option<bool>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileBodyStep {
    Line,
    HalfLine,
}

#[derive(Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileSetRule {
    Advance,
    FaceAndMargin,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
enum FileRounding {
    #[serde(rename = "6 pt")]
    SixPoints,
    #[serde(rename = "3 pt")]
    ThreePoints,
    #[serde(rename = "1 pt")]
    Point,
    #[serde(rename = "1/2 pt")]
    HalfPoint,
    #[serde(rename = "1/4 pt")]
    QuarterPoint,
    #[serde(rename = "free")]
    Free,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileShare {
    Even,
    Right,
    Left,
}

impl FileFit {
    pub(super) fn into_model(self, system: System) -> Result<Fit, FormatError> {
        let read = |length: &Option<FileLength>, place: &str| match length {
            Some(length) => length.length(place, system),
            None => Err(fault(
                place,
                "this fit needs it; give a length such as \"3 pt\"",
            )),
        };
        let (head, foot, capitals) = (
            |fit: &FileFit| read(&fit.head, "fit.head"),
            |fit: &FileFit| read(&fit.foot, "fit.foot"),
            |fit: &FileFit| read(&fit.capitals, "fit.capitals"),
        );
        let idle = |present: bool, place: &str| {
            if present {
                Err(fault(place, "this fit does not use it; take it out"))
            } else {
                Ok(())
            }
        };
        match self.rule {
            FileFitRule::Capitals => {
                idle(self.capitals.is_some(), "fit.capitals")?;
                Ok(Fit::Capitals {
                    head: head(&self)?,
                    foot: foot(&self)?,
                })
            }
            FileFitRule::AscenderToDescender => {
                idle(self.capitals.is_some(), "fit.capitals")?;
                Ok(Fit::AscenderToDescender {
                    head: head(&self)?,
                    foot: foot(&self)?,
                })
            }
            FileFitRule::EmOnBody => {
                idle(self.capitals.is_some(), "fit.capitals")?;
                idle(self.head.is_some(), "fit.head")?;
                idle(self.foot.is_some(), "fit.foot")?;
                Ok(Fit::EmOnBody)
            }
            FileFitRule::CapitalHeight => {
                idle(self.head.is_some(), "fit.head")?;
                Ok(Fit::CapitalHeight {
                    capitals: capitals(&self)?,
                    foot: foot(&self)?,
                })
            }
        }
    }

    pub(super) fn of(fit: Fit, system: System) -> FileFit {
        let length = |length: Length| Some(FileLength::of(length, system));
        let (rule, capitals, head, foot) = match fit {
            Fit::Capitals { head, foot } => {
                (FileFitRule::Capitals, None, length(head), length(foot))
            }
            Fit::AscenderToDescender { head, foot } => (
                FileFitRule::AscenderToDescender,
                None,
                length(head),
                length(foot),
            ),
            Fit::EmOnBody => (FileFitRule::EmOnBody, None, None, None),
            Fit::CapitalHeight { capitals, foot } => (
                FileFitRule::CapitalHeight,
                length(capitals),
                None,
                length(foot),
            ),
        };
        FileFit {
            rule,
            capitals,
            head,
            foot,
        }
    }
}

impl FileBlock {
    pub(super) fn into_model(self, system: System) -> Result<BlockRules, FormatError> {
        let starting = BlockRules::starting();
        let set = match (self.set, &self.margin) {
            (Some(FileSetRule::FaceAndMargin), Some(margin)) => {
                SetRule::FaceAndMargin(margin.length("block.margin", system)?)
            }
            (Some(FileSetRule::FaceAndMargin), None) => {
                return Err(fault(
                    "block.margin",
                    "a set by face and margin needs it; give a length such as \"1 mm\"",
                ));
            }
            (Some(FileSetRule::Advance) | None, Some(_)) => {
                return Err(fault(
                    "block.margin",
                    "only a set by \"face-and-margin\" uses it; take it out, or change block.set",
                ));
            }
            (Some(FileSetRule::Advance), None) => SetRule::Advance,
            (None, None) => starting.set,
        };
        Ok(BlockRules {
            body_step: match self.body_step {
                Some(FileBodyStep::Line) => BodyStep::Line,
                Some(FileBodyStep::HalfLine) => BodyStep::HalfLine,
                None => starting.body_step,
            },
            set,
            rounding: match self.rounding {
                Some(FileRounding::SixPoints) => SetRounding::SixPoints,
                Some(FileRounding::ThreePoints) => SetRounding::ThreePoints,
                Some(FileRounding::Point) => SetRounding::Point,
                Some(FileRounding::HalfPoint) => SetRounding::HalfPoint,
                Some(FileRounding::QuarterPoint) => SetRounding::QuarterPoint,
                Some(FileRounding::Free) => SetRounding::Free,
                None => starting.rounding,
            },
            share: match self.share {
                Some(FileShare::Even) => RoundingShare::Even,
                Some(FileShare::Right) => RoundingShare::Right,
                Some(FileShare::Left) => RoundingShare::Left,
                None => starting.share,
            },
            least_side: or_default(
                self.least_side.as_ref(),
                "block.least_side",
                system,
                starting.least_side,
            )?,
            common_figure_set: self.common_figure_set.unwrap_or(starting.common_figure_set),
        })
    }

    pub(super) fn of(rules: &BlockRules, system: System) -> FileBlock {
        let (set, margin) = match rules.set {
            SetRule::Advance => (FileSetRule::Advance, None),
            SetRule::FaceAndMargin(margin) => (
                FileSetRule::FaceAndMargin,
                Some(FileLength::of(margin, system)),
            ),
        };
        FileBlock {
            body_step: Some(match rules.body_step {
                BodyStep::Line => FileBodyStep::Line,
                BodyStep::HalfLine => FileBodyStep::HalfLine,
            }),
            set: Some(set),
            margin,
            rounding: Some(match rules.rounding {
                SetRounding::SixPoints => FileRounding::SixPoints,
                SetRounding::ThreePoints => FileRounding::ThreePoints,
                SetRounding::Point => FileRounding::Point,
                SetRounding::HalfPoint => FileRounding::HalfPoint,
                SetRounding::QuarterPoint => FileRounding::QuarterPoint,
                SetRounding::Free => FileRounding::Free,
            }),
            share: Some(match rules.share {
                RoundingShare::Even => FileShare::Even,
                RoundingShare::Right => FileShare::Right,
                RoundingShare::Left => FileShare::Left,
            }),
            least_side: Some(FileLength::of(rules.least_side, system)),
            common_figure_set: Some(rules.common_figure_set),
        }
    }
}
