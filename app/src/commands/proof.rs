//! `sortwright proof`.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use clap::{Args, ValueEnum};

use cam_core::make::make;
use cam_core::measure::{System, Unit};
use cam_core::proof::impression::{Align, Colour, Fount, Setting, compose};

use super::Outcome;
use super::source::Source;
use super::terminal::Terminal;
use crate::background::picture::{DPI, PictureKind, USUAL_INKS, picture, print, printed};
use crate::files::made::read_made;
use crate::files::write_atomic;
use crate::model::typed::read_length;

/// Print what will be cut, in ink, as a picture.
///
/// The print is taken from the programs themselves, read back: it shows what the cutters leave standing, rounded corners and all,
/// true to size, as the customer will see it. The ending of the file's name says whether it is a PNG, an SVG or a PDF.
#[derive(Debug, Args)]
pub struct Proof {
    /// The commission, or a folder that was made of it.
    job: PathBuf,
    /// The workshop file. Without it, workshop.json beside the commission is used, else the workshop that a new shop starts with.
    #[arg(long, value_name = "FILE")]
    workshop: Option<PathBuf>,
    /// Another commission or folder, whose blocks are set with the same text and printed over the first in the next ink; may be given again.
    #[arg(long, value_name = "JOB")]
    over: Vec<PathBuf>,
    /// A line to set; may be given again for the next line. Ligatures are set where the bill has them; {NAME} is the sort of that name.
    /// Without it, every sort is set once.
    #[arg(long, value_name = "TEXT", allow_hyphen_values = true)]
    text: Vec<String>,
    /// The measure: the width at which lines are broken between words.
    #[arg(long, value_name = "LENGTH")]
    measure: Option<String>,
    /// Where short lines stand.
    #[arg(long, value_enum, default_value_t = Stand::Left)]
    align: Stand,
    /// Height of the leads between lines.
    #[arg(long, value_name = "LENGTH")]
    leads: Option<String>,
    /// Leave notched pairs apart, as blocks without notches would stand.
    #[arg(long)]
    apart: bool,
    /// The paper: natural, white, cream, buff, grey, pink, blue, or any colour as "#rrggbb".
    #[arg(long, value_name = "COLOUR", default_value = "natural")]
    paper: String,
    /// The ink: black, red, orange, yellow, green, blue, brown, grey, white, or any colour as "#rrggbb"; given again, that of the next job
    /// printed over. A fount in colours is printed plate by plate in the inks of its commission.
    #[arg(long, value_name = "COLOUR")]
    ink: Vec<String>,
    /// Show the blocks, with spaces and leads.
    #[arg(long)]
    blocks: bool,
    /// Dots an inch of a PNG.
    #[arg(long, value_name = "NUMBER", default_value_t = DPI)]
    dpi: u32,
    /// The picture to write, ending in .png, .svg or .pdf.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
}

/// Where short lines stand.
#[derive(Clone, Copy, Debug, ValueEnum)]
enum Stand {
    /// At the left.
    Left,
    /// In the middle.
    Centre,
    /// At the right.
    Right,
}

impl Proof {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let kind = PictureKind::of(&self.out)?;
        let paper = Colour::paper(&self.paper).map_err(|error| error.to_string())?;
        let inks = self.inks()?;
        let (first, system) = self.fount(&self.job, terminal)?;
        let setting = self.setting(system)?;
        let mut founts = vec![first];
        for job in &self.over {
            founts.push(self.fount(job, terminal)?.0);
        }
        let founts: Vec<(Arc<Fount>, Colour)> = founts.into_iter().zip(inks).collect();
        let sheet = compose(&founts, &setting, paper, self.blocks);
        for remark in sheet.remarks() {
            terminal.remark(&format!("{remark}."));
        }
        let bytes = picture(&sheet, kind, self.dpi)?;
        write_atomic(&self.out, &bytes).map_err(|error| error.to_string())?;
        terminal.remark(&format!("The proof was written to {}.", self.out.display()));
        Ok(Outcome::Done)
    }

    /// What a job prints, and the system of measure that lengths are read in.
    fn fount(&self, job: &Path, terminal: &Terminal) -> Result<(Arc<Fount>, System), String> {
        if job.is_dir() {
            let (file, programs) = read_made(job)?;
            let fount = terminal.watch(|progress| print(&file, &programs, progress))?;
            return Ok((fount, System::Pica));
        }
        let source = Source {
            commission: job.to_owned(),
            workshop: self.workshop.clone(),
        };
        let opened = source.open()?;
        let (made, fount) = terminal.watch(|progress| {
            let made = make(
                &opened.commission,
                &opened.workshop,
                &opened.fonts,
                progress,
            )
            .map_err(|error| error.to_string())?;
            let fount = printed(&made, progress)?;
            Ok::<_, String>((made, fount))
        })?;
        terminal.findings(&made.findings);
        Ok((fount, opened.commission.system))
    }

    /// One ink for each job.
    fn inks(&self) -> Result<Vec<Colour>, String> {
        let jobs = 1 + self.over.len();
        if self.ink.len() > jobs {
            return Err(format!(
                "There are more inks than jobs; give {jobs}, or name what to print over the first with --over."
            ));
        }
        let named = self.ink.iter().map(String::as_str);
        let words: Vec<&str> = named
            .chain(USUAL_INKS.into_iter().skip(self.ink.len()))
            .take(jobs)
            .collect();
        if words.len() < jobs {
            return Err("Name the ink of each job with --ink.".to_owned());
        }
        words
            .into_iter()
            .map(|word| Colour::ink(word).map_err(|error| error.to_string()))
            .collect()
    }

    fn setting(&self, system: System) -> Result<Setting, String> {
        let length = |text: &Option<String>| {
            let length = text
                .as_deref()
                .map(|text| read_length(text, Unit::Millimetre, system));
            length
                .transpose()
                .map(|length| length.map(|length| length.in_mm()))
        };
        Ok(Setting {
            text: self.text.join("\n"),
            measure_mm: length(&self.measure)?,
            align: match self.align {
                Stand::Left => Align::Left,
                Stand::Centre => Align::Centre,
                Stand::Right => Align::Right,
            },
            leads_mm: length(&self.leads)?.unwrap_or(0.0),
            apart: self.apart,
        })
    }
}
