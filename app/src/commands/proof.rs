//! `sortwright proof`.

use std::path::PathBuf;

use clap::Args;

use super::Outcome;
use super::source::Source;
use super::terminal::Terminal;
use crate::background::picture::{PictureKind, picture};
use crate::files::write_atomic;

/// Print what will be cut, in ink, as a picture.
///
/// The print shows what the cutters leave standing, rounded corners and all, as the customer will see it. The ending of the file's
/// name says whether it is a PNG or an SVG.
#[derive(Debug, Args)]
pub struct Proof {
    #[command(flatten)]
    source: Source,
    /// The picture to write, ending in .png or .svg.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
}

impl Proof {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let kind =
            PictureKind::of(&self.out).ok_or("The picture's name must end in .png or .svg.")?;
        let surveyed = self.source.survey(terminal)?;
        let bytes = picture(&surveyed.sorts, &surveyed.surveys, kind)?;
        terminal.findings(&surveyed.findings);
        write_atomic(&self.out, &bytes).map_err(|error| error.to_string())?;
        terminal.remark(&format!("The proof was written to {}.", self.out.display()));
        Ok(Outcome::Done)
    }
}
