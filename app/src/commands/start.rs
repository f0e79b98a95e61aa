//! `sortwright start`.

use std::path::PathBuf;

use clap::Args;

use cam_core::bill::{Need, from_text};
use cam_core::commission::Fit;
use cam_core::measure::System;

use super::Outcome;
use super::terminal::Terminal;
use crate::background::catalogue::parse;
use crate::files::open::{face_of, open_workshop, save};
use crate::files::{parent, read, relative_to};
use crate::model::apply::apply;
use crate::model::command::Command;
use crate::model::start::new_commission;
use crate::model::typed::read_lines;

/// Begin a new commission from a font and a text.
///
/// The bill gets as many of each letter as the text needs. All other settings are those that a small shop begins with; open the
/// commission in the window, or edit the file, to change them.
#[derive(Debug, Args)]
pub struct Start {
    /// The font: TrueType or OpenType.
    font: PathBuf,
    /// The text to be set; the bill has the letters that it needs.
    #[arg(long)]
    text: String,
    /// The size: a number of lines, or a length such as "42 mm".
    #[arg(long)]
    lines: String,
    /// The commission file to write.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
}

impl Start {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let bytes = read(&self.font).map_err(|error| error.to_string())?;
        let folder = parent(&self.out);
        let workshop = open_workshop(None, folder).map_err(|error| error.to_string())?;
        let file = relative_to(&self.font, folder);
        let face = face_of(&file, &bytes, &self.font).map_err(|error| error.to_string())?;
        let mut commission = new_commission(face.clone(), System::Pica, &workshop);
        let font = parse(&face, &bytes).map_err(|error| error.to_string())?;
        let has = |character| font.glyph_for(character).is_some();
        let bill = from_text(&face.id, &self.text, Need::AllLines, has)
            .map_err(|error| error.to_string())?;
        let lines = read_lines(&self.lines, commission.system)?;
        commission.fit = Fit::starting(commission.system, lines);
        let commands = [Command::Lines(lines), Command::Raise(bill)];
        for command in &commands {
            commission = apply(&commission, command).map_err(|error| error.to_string())?;
        }
        // Named from the output's folder already, so there is nothing to move it from.
        save(&commission, Some(&self.out), &self.out).map_err(|error| error.to_string())?;
        let sorts: u32 = commission.bill.iter().map(|line| line.count).sum();
        terminal.remark(&format!(
            "A commission for {sorts} {} was written to {}.",
            if sorts == 1 { "sort" } else { "sorts" },
            self.out.display()
        ));
        Ok(Outcome::Done)
    }
}
