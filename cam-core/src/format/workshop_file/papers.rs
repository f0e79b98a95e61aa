//! How papers look, as the workshop file has it.

use serde::{Deserialize, Serialize};

use crate::measure::System;
use crate::workshop::{PageSize, PaperChoice};

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FilePapers {
    page: Option<FilePage>,
    measure: Option<FileMeasure>,
    #[serde(default)]
    maker: Vec<String>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FilePage {
    A4,
    Letter,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FileMeasure {
    Commission,
    Pica,
    Didot,
    DidotRounded,
}

impl FilePapers {
    pub(super) fn into_model(self) -> PaperChoice {
        PaperChoice {
            page: match self.page {
                Some(FilePage::A4) | None => PageSize::A4,
                Some(FilePage::Letter) => PageSize::Letter,
            },
            measure: match self.measure {
                Some(FileMeasure::Commission) | None => None,
                Some(FileMeasure::Pica) => Some(System::Pica),
                Some(FileMeasure::Didot) => Some(System::Didot),
                Some(FileMeasure::DidotRounded) => Some(System::DidotRounded),
            },
            maker: self.maker,
        }
    }

    pub(super) fn of(papers: &PaperChoice) -> FilePapers {
        FilePapers {
            page: Some(match papers.page {
                PageSize::A4 => FilePage::A4,
                PageSize::Letter => FilePage::Letter,
            }),
            measure: Some(match papers.measure {
                None => FileMeasure::Commission,
                Some(System::Pica) => FileMeasure::Pica,
                Some(System::Didot) => FileMeasure::Didot,
                Some(System::DidotRounded) => FileMeasure::DidotRounded,
            }),
            maker: papers.maker.clone(),
        }
    }
}
