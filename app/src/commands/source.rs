//! The commission that a command works on, and the workshop it is cut in.

use std::path::PathBuf;

use clap::Args;

use cam_core::make::{Surveyed, survey_sorts};

use super::terminal::Terminal;
use crate::files::open::{Opened, open_commission};

/// A commission and its workshop, as named on the command line.
#[derive(Debug, Args)]
pub struct Source {
    /// The commission file.
    pub(super) commission: PathBuf,
    /// The workshop file. Without it, workshop.json beside the commission is used, else the workshop that a new shop starts with.
    #[arg(long, value_name = "FILE")]
    pub(super) workshop: Option<PathBuf>,
}

impl Source {
    /// Opens both, with the fonts.
    pub(super) fn open(&self) -> Result<Opened, String> {
        open_commission(&self.commission, self.workshop.as_deref())
            .map_err(|error| error.to_string())
    }

    /// Opens both and surveys the sorts.
    pub(super) fn survey(&self, terminal: &Terminal) -> Result<Surveyed, String> {
        let opened = self.open()?;
        terminal
            .watch(|progress| {
                survey_sorts(
                    &opened.commission,
                    &opened.workshop,
                    &opened.fonts,
                    progress,
                )
            })
            .map_err(|error| error.to_string())
    }
}
