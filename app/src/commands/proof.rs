//! `sortwright proof`.

use std::path::PathBuf;

use clap::Args;

use cam_core::make::survey_sorts;

use super::Outcome;
use super::terminal::Terminal;
use crate::background::picture::{PictureKind, picture};
use crate::files::open::open_commission;
use crate::files::write_atomic;

/// Print what will be cut, in ink, as a picture.
///
/// The print shows what the cutters leave standing, rounded corners and all, as the customer will see it. The ending of the file's
/// name says whether it is a PNG or an SVG.
#[derive(Debug, Args)]
pub struct Proof {
    /// The commission file.
    commission: PathBuf,
    /// The picture to write, ending in .png or .svg.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// The workshop file. Without it, workshop.json beside the commission is used, else the workshop that a new shop starts with.
    #[arg(long, value_name = "FILE")]
    workshop: Option<PathBuf>,
}

impl Proof {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let kind =
            PictureKind::of(&self.out).ok_or("The picture's name must end in .png or .svg.")?;
        let opened = open_commission(&self.commission, self.workshop.as_deref())
            .map_err(|error| error.to_string())?;
        let surveyed = terminal
            .watch(|progress| {
                survey_sorts(
                    &opened.commission,
                    &opened.workshop,
                    &opened.fonts,
                    progress,
                )
            })
            .map_err(|error| error.to_string())?;
        let bytes = picture(&surveyed.sorts, &surveyed.surveys, kind)?;
        terminal.findings(&surveyed.findings);
        write_atomic(&self.out, &bytes).map_err(|error| error.to_string())?;
        terminal.remark(&format!("The proof was written to {}.", self.out.display()));
        Ok(Outcome::Done)
    }
}
