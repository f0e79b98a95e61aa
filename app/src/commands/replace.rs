//! `sortwright replace`.

use std::path::PathBuf;
use std::sync::Arc;

use clap::Args;

use cam_core::finding::{Severity, gravest};

use super::Outcome;
use super::source::Source;
use super::terminal::Terminal;
use crate::background::otherwise::again;
use crate::background::tasks::Snapshot;
use crate::files::open::save;
use crate::files::shown;

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
        let snapshot = Snapshot {
            commission: Arc::new(opened.commission),
            workshop: Arc::new(opened.workshop),
            fonts: Arc::new(opened.fonts),
        };
        let again = terminal
            .watch(|progress| again(&snapshot, self.made.as_deref(), &self.sorts, progress))?;
        if again.is_first_record {
            terminal.remark(
                "Nothing tells how the fount was made (--made), so its sorts are taken as they come out now.",
            );
        }
        terminal.findings(&again.findings);
        if gravest(&again.findings) == Some(Severity::Stop) {
            terminal.remark("Nothing was written.");
            return Ok(Outcome::Stopped);
        }
        save(&again.commission, opened.path.as_deref(), &self.out)
            .map_err(|error| error.to_string())?;
        let sorts = again.sorts;
        terminal.remark(&format!(
            "A commission for {sorts} {} to match the fount was written to {}.",
            if sorts == 1 { "sort" } else { "sorts" },
            shown(&self.out)
        ));
        Ok(Outcome::Done)
    }
}
