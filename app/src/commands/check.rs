//! `sortwright check`.

use std::path::PathBuf;
use std::str::FromStr;

use clap::Args;
use serde_json::json;

use cam_core::measure::{Length, System};
use cam_core::program::account::Account;
use cam_core::proof::check;
use reader::{CutterTable, Fault, read_with};

use super::Outcome;
use super::account::{account_json, in_words};
use super::terminal::{Terminal, findings_json};
use crate::background::tasks::{caution, counted, stopping};
use crate::files::folder::mend;
use crate::files::made::read_made;
use crate::files::open::open_workshop;
use crate::files::{RealDisk, parent, read_text, shown};

/// Check a folder that was made, from its programs and job file alone; or say what any one program would do.
///
/// The programs are read as a controller reads them and compared with what the job file promises. The exit code is 0 when
/// nothing was found that stops them from being cut, 1 when something was, and 2 when the folder could not be checked. What is
/// checked is listed in the setup sheet; it never says that a program is safe on your machine.
///
/// Of a program alone, whoever wrote it, the command says where it goes, how deep, with what cutters, speeds and feeds, and for how long
/// on the machine of the workshop beside it, and what of it only the machine knows; the exit code is 1 if it is not a program of the
/// standard that can be read.
#[derive(Debug, Args)]
pub struct Check {
    /// The folder, or a program.
    folder: PathBuf,
    /// The diameter of a cutter as the machine's table has it, by its slot, such as 3=6mm; once for each. A program alone needs it if it
    /// leaves the cutter's radius to the machine (G41, G42).
    #[arg(long = "cutter", value_name = "SLOT=DIAMETER")]
    cutters: Vec<CutterArg>,
    /// Print the answer as JSON on standard output.
    #[arg(long)]
    json: bool,
}

/// A cutter of the machine's table.
#[derive(Clone, Copy, Debug)]
struct CutterArg {
    slot: u32,
    diameter: Length,
}

impl FromStr for CutterArg {
    type Err = String;

    fn from_str(text: &str) -> Result<CutterArg, String> {
        let parts = text.split_once('=');
        let parts = parts.and_then(|(slot, diameter)| Some((slot.trim().parse().ok()?, diameter)));
        let (slot, diameter) = parts
            .ok_or_else(|| format!("“{text}” is not a slot and a diameter; write it like 3=6mm"))?;
        // Points stand for pica points.
        let diameter = Length::parse(diameter, System::Pica).map_err(|error| error.to_string())?;
        Ok(CutterArg { slot, diameter })
    }
}

impl Check {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        if mend(&RealDisk, &self.folder).map_err(|error| error.to_string())? {
            terminal.remark("The writing of this folder was cut off at its last step, which was made up for now.");
        }
        if self.folder.is_file() {
            return self.account(terminal);
        }
        if !self.cutters.is_empty() {
            return Err(
                "--cutter is for a program alone: programs of a made folder are written for the centre of the cutter. Leave it out."
                    .to_owned(),
            );
        }
        let (job, programs) = read_made(&self.folder)?;
        let findings = terminal
            .watch(|progress| check(&job, &programs, progress))
            .map_err(|stopped| stopped.to_string())?;
        let stopped = stopping(&findings).is_some();
        terminal.findings(&findings);
        if self.json {
            let answer = json!({ "accepted": !stopped, "findings": findings_json(&findings) });
            terminal.say(&format!("{answer:#}"));
        } else if stopped {
            terminal.say("Refused: do not cut from this folder.");
        } else {
            terminal.say(&format!(
                "{} read back and found to be what the job file promises.",
                counted(programs.len(), "program was", "programs were")
            ));
        }
        Ok(if stopped {
            Outcome::Stopped
        } else {
            Outcome::Done
        })
    }

    /// What is told of the machine's table of cutters.
    fn table(&self) -> Result<CutterTable, String> {
        let mut table = CutterTable::default();
        for CutterArg { slot, diameter } in &self.cutters {
            let told = table.tell(*slot, diameter.in_mm());
            told.map_err(|error| format!("--cutter: {error}."))?;
        }
        Ok(table)
    }

    /// Says what a program alone would do.
    fn account(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let text = read_text(&self.folder).map_err(|error| error.to_string())?;
        let workshop =
            open_workshop(None, parent(&self.folder)).map_err(|error| error.to_string())?;
        let replay = match read_with(&text, &self.table()?) {
            Ok(replay) => replay,
            Err(error) => {
                if self.json {
                    let fault = json!({
                        "line": error.line,
                        "column": error.column,
                        "text": error.fault.to_string(),
                    });
                    terminal.say(&format!(
                        "{:#}",
                        json!({ "accepted": false, "fault": fault })
                    ));
                }
                terminal.complain(&format!("{}, {error}.", shown(&self.folder)));
                if let Fault::CutterNotTold { slot, .. } = error.fault {
                    terminal.complain(&format!(
                        "If that cutter is 6 mm wide, write --cutter {slot}=6mm."
                    ));
                }
                return Ok(Outcome::Stopped);
            }
        };
        let account = Account::of(&replay, &workshop.machine);
        if self.json {
            terminal.say(&format!("{:#}", account_json(&account)));
        } else {
            for line in in_words(&account) {
                terminal.say(&line);
            }
            terminal.remark(caution());
        }
        Ok(Outcome::Done)
    }
}
