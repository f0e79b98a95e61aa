//! `sortwright border`.

use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};

use cam_core::border::{Frame, frame, join_findings, shapes_as_cut, sheet};
use cam_core::commission::{BillLine, Border, Commission, GlyphChoice};
use cam_core::finding::Finding;
use cam_core::make::make;
use cam_core::material;
use cam_core::measure::{Length, System, Unit};
use cam_core::proof::impression::Colour;

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};
use crate::background::picture::{DPI, PictureKind, picture, printed};
use crate::background::tasks::counted;
use crate::files::open::{Opened, save};
use crate::files::shown;
use crate::files::write_atomic;

/// Set a border of the commission round its frame.
///
/// The blocks are taken as the programs leave them: the ink at each unit's edge is laid beside that of the next, all round the frame, corners and
/// turned pieces included, and where they do not meet is told with its place and by how much. It is told how many units fill each side, what
/// spacing makes up the rest, and how many of each sort to order.
#[derive(Debug, Args)]
pub struct BorderOf {
    #[command(flatten)]
    source: Source,
    /// The border, by its id; without it the commission's first.
    #[arg(long, value_name = "ID")]
    border: Option<String>,
    /// The picture to write, ending in .png, .svg or .pdf.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Write a commission whose bill orders what all frames of the border take.
    #[arg(long, value_name = "FILE")]
    order: Option<PathBuf>,
    /// The paper of the picture: natural, white, cream, buff, grey, pink, blue, or any colour as "#rrggbb".
    #[arg(long, value_name = "COLOUR", default_value = "natural")]
    paper: String,
    /// The ink: black, red, orange, yellow, green, blue, brown, grey, white, or any colour as "#rrggbb".
    #[arg(long, value_name = "COLOUR", default_value = "black")]
    ink: String,
    /// Show the blocks, with spacing.
    #[arg(long)]
    blocks: bool,
    /// Dots an inch of a PNG.
    #[arg(long, value_name = "NUMBER", default_value_t = DPI)]
    dpi: u32,
    /// Print the frame as JSON.
    #[arg(long)]
    json: bool,
}

impl BorderOf {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        // What cannot be understood is told before the long work.
        let kind = self.out.as_deref().map(PictureKind::of).transpose()?;
        let paper = Colour::paper(&self.paper).map_err(|error| error.to_string())?;
        let ink = Colour::ink(&self.ink).map_err(|error| error.to_string())?;
        let opened = self.source.open()?;
        let commission = &opened.commission;
        let border = self.border(commission)?;
        let (made, fount) = terminal.watch(|progress| {
            let made = make(commission, &opened.workshop, &opened.fonts, progress)
                .map_err(|error| error.to_string())?;
            let fount = printed(&made, progress)?;
            Ok::<_, String>((made, fount))
        })?;
        let set = frame(border, &shapes_as_cut(&fount), commission.system)
            .map_err(|error| error.to_string())?;
        let joins = join_findings(border, &set);
        if self.json {
            terminal.say(&format!(
                "{:#}",
                as_json(border, &set, commission, &made.findings, &joins)
            ));
        } else {
            terminal.findings(&made.findings);
            terminal.say(&in_words(border, &set, commission));
            // What the drawings have already was told with the job.
            let new = joins.iter().filter(|join| !made.findings.contains(join));
            terminal.findings(&new.cloned().collect::<Vec<_>>());
        }
        if let (Some(kind), Some(out)) = (kind, &self.out) {
            let sheet = sheet(&set, &fount, ink, paper, self.blocks);
            let bytes = picture(&sheet, kind, self.dpi)?;
            write_atomic(out, &bytes).map_err(|error| error.to_string())?;
            terminal.remark(&format!("The frame was written to {}.", out.display()));
        }
        if let Some(out) = &self.order {
            order(&opened, border, &set, out)?;
            terminal.remark(&format!(
                "A commission that orders what its frames take was written to {}.",
                shown(out)
            ));
        }
        Ok(if made.is_stopped() {
            Outcome::Stopped
        } else {
            Outcome::Done
        })
    }

    fn border<'a>(&self, commission: &'a Commission) -> Result<&'a Border, String> {
        let borders = &commission.borders;
        match &self.border {
            None => borders
                .first()
                .ok_or_else(|| "The commission has no border. Name one under borders.".to_owned()),
            Some(id) => borders
                .iter()
                .find(|border| border.id == *id)
                .ok_or_else(|| {
                    let ids: Vec<&str> = borders.iter().map(|border| border.id.as_str()).collect();
                    format!(
                        "The commission has no border “{id}”. It has: {}.",
                        ids.join(", ")
                    )
                }),
        }
    }
}

/// How many of each sort all frames of a border take.
fn needed(border: &Border, set: &Frame) -> Vec<(String, u32)> {
    let counts = set.counts.iter();
    counts
        .map(|(name, count)| (name.clone(), count.saturating_mul(border.count)))
        .collect()
}

/// Writes the commission with a bill that orders at least what the border takes. Parts of what is cut apart have counts of their own.
fn order(
    opened: &Opened,
    border: &Border,
    set: &Frame,
    out: &std::path::Path,
) -> Result<(), String> {
    let mut commission = opened.commission.clone();
    for (name, count) in needed(border, set) {
        let is_drawing = commission.drawings.iter().any(|drawing| drawing.id == name);
        if !is_drawing {
            return Err(format!(
                "“{name}” is no drawing of the commission, so its count is not entered; order {count} of it by hand."
            ));
        }
        let mut lines = commission.bill.iter_mut();
        let line = lines.find(|line| line.face == name && line.glyph == GlyphChoice::Drawing);
        match line {
            Some(line) => line.count = line.count.max(count),
            None => commission.bill.push(BillLine {
                face: name,
                glyph: GlyphChoice::Drawing,
                count,
            }),
        }
    }
    save(&commission, opened.path.as_deref(), out)
        .map(|_| ())
        .map_err(|error| error.to_string())
}

fn size(mm: f64, system: System) -> String {
    let length = Length::mm(mm);
    format!(
        "{} ({})",
        length.show(Unit::Millimetre, system),
        length.show(Unit::Point, system)
    )
}

fn in_words(border: &Border, set: &Frame, commission: &Commission) -> String {
    let system = commission.system;
    let [width, height] = set.size_mm.map(|mm| size(mm, system));
    let [wide, high] = set.inside_mm.map(|mm| size(mm, system));
    let mut text = format!(
        "Border {}: a frame of {width} by {height}, {wide} by {high} inside.\n",
        border.id
    );
    for side in &set.sides {
        let rest = if side.fill.rest_pt > 0.0 {
            let spacing = match &side.fill.spacing {
                Some(pieces) => material::in_words(pieces),
                None => "no spacing material comes to it".to_owned(),
            };
            let [below, above] = side.nearest_mm.map(|mm| size(mm, system));
            format!(
                "{:.2} points over ({spacing}); filled exactly at {below} and at {above}",
                side.fill.rest_pt
            )
        } else {
            "filled exactly".to_owned()
        };
        text += &format!(
            "  {}: {} between the corners, {rest}\n",
            side.of.name(),
            counted(side.pieces.len(), "piece", "pieces")
        );
    }
    let joins: u32 = set.joins.iter().map(|join| join.times).sum();
    let open: u32 = set
        .joins
        .iter()
        .filter(|join| !join.meets())
        .map(|join| join.times)
        .sum();
    text += &format!(
        "  {} as cut, within {}: {}\n",
        counted(joins as usize, "join", "joins"),
        border.tolerance.show(Unit::Millimetre, system),
        match open {
            0 => "all meet".to_owned(),
            open => format!("{open} do not meet"),
        }
    );
    let counts: Vec<String> = needed(border, set)
        .into_iter()
        .map(|(name, count)| format!("{count} × {name}"))
        .collect();
    let frames = counted(border.count as usize, "frame takes", "frames take");
    text += &format!("  {frames} {}", counts.join(", "));
    text
}

fn as_json(
    border: &Border,
    set: &Frame,
    commission: &Commission,
    findings: &[Finding],
    joins: &[Finding],
) -> Value {
    let sides: Vec<Value> = set
        .sides
        .iter()
        .map(|side| {
            json!({
                "side": side.of.name(),
                "pieces": side.pieces,
                "rest_pt": side.fill.rest_pt,
                "spacing": side.fill.spacing.as_ref().map(|pieces| {
                    pieces.iter().map(|piece| piece.name()).collect::<Vec<_>>()
                }),
                "filled_exactly_at_mm": side.nearest_mm,
            })
        })
        .collect();
    let units: Vec<Value> = set
        .units
        .iter()
        .map(|unit| {
            json!({
                "sort": unit.sort,
                "quarters_clockwise": unit.turned,
                "at_mm": [unit.place.x0, unit.place.y0],
                "size_mm": [unit.place.width(), unit.place.height()],
            })
        })
        .collect();
    let joined: Vec<Value> = set
        .joins
        .iter()
        .map(|join| json!({ "sorts": join.sorts, "times": join.times, "meet": join.meets() }))
        .collect();
    let bill: Vec<Value> = needed(border, set)
        .into_iter()
        .map(|(name, count)| json!({ "sort": name, "count": count }))
        .collect();
    json!({
        "border": border.id,
        "system": commission.system.name(),
        "size_mm": set.size_mm,
        "inside_mm": set.inside_mm,
        "sides": sides,
        "units": units,
        "joins": joined,
        "bill": bill,
        "findings": findings_json(&[findings, joins].concat()),
    })
}
