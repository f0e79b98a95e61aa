//! `sortwright replace`.

use std::path::PathBuf;

use clap::Args;

use cam_core::finding::{Severity, gravest};
use cam_core::format::read_record;
use cam_core::make::{RECORD_FILE, drawn_up};
use cam_core::record::Record;
use cam_core::replacement::replacement;

use super::Outcome;
use super::source::Source;
use super::terminal::Terminal;
use crate::files::open::save;
use crate::files::{read_text, shown};

/// Begin a commission for sorts of a fount that was made before, to match them.
///
/// The sorts are drawn up as the commission stands now and compared with the record that was written when the fount was made: font,
/// settings, cutters, blocks and faces. What has changed is told; nothing is written if a sort would not match. The new commission
/// carries what it is to match, so making it compares again.
#[derive(Debug, Args)]
pub struct Replace {
    #[command(flatten)]
    source: Source,
    /// The sorts by name with their counts, such as "A 2, & 1, space 12 pt 3".
    #[arg(long, value_name = "LIST")]
    sorts: String,
    /// The folder that the fount was made into, or the record in it. Without it, the sorts are recorded as they come out now.
    #[arg(long, value_name = "FOLDER")]
    made: Option<PathBuf>,
    /// The new commission.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
}

impl Replace {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let opened = self.source.open()?;
        let (commission, workshop) = (&opened.commission, &opened.workshop);
        let record = match (&self.made, &commission.replaces) {
            (Some(made), _) => recorded(made)?,
            (None, Some(first)) => (**first).clone(),
            (None, None) => {
                let drawn = terminal
                    .watch(|progress| drawn_up(commission, workshop, &opened.fonts, progress))
                    .map_err(|error| error.to_string())?;
                terminal.remark(
                    "Nothing tells how the fount was made (--made), so its sorts are taken as they come out now.",
                );
                Record::of(commission, workshop, &drawn.sorts)
            }
        };
        let again =
            replacement(commission, &record, &self.sorts).map_err(|error| error.to_string())?;
        let drawn = terminal
            .watch(|progress| drawn_up(&again, workshop, &opened.fonts, progress))
            .map_err(|error| error.to_string())?;
        terminal.findings(&drawn.findings);
        if gravest(&drawn.findings) == Some(Severity::Stop) {
            terminal.remark("Nothing was written.");
            return Ok(Outcome::Stopped);
        }
        save(&again, opened.path.as_deref(), &self.out).map_err(|error| error.to_string())?;
        let sorts: u32 = drawn.sorts.iter().map(|sort| sort.count).sum();
        terminal.remark(&format!(
            "A commission for {sorts} {} to match the fount was written to {}.",
            if sorts == 1 { "sort" } else { "sorts" },
            shown(&self.out)
        ));
        Ok(Outcome::Done)
    }
}

/// The record in a folder that was made, or the record itself.
fn recorded(made: &std::path::Path) -> Result<Record, String> {
    let path = if made.is_dir() {
        made.join(RECORD_FILE)
    } else {
        made.to_owned()
    };
    let text = read_text(&path).map_err(|error| error.to_string())?;
    read_record(&text).map_err(|error| format!("{}: {error}", shown(&path)))
}
