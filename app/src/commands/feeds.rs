//! `sortwright feeds`.

use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};

use cam_core::commission::{Commission, Separation};
use cam_core::feeds::{
    Proposal, Proposed, Trouble, Working, propose, troubles, wall_moves_mm, working,
};
use cam_core::format::write_workshop;
use cam_core::workshop::{Cutter, Wood, Workshop};

use super::Outcome;
use super::source::Source;
use super::terminal::Terminal;
use crate::background::tasks::caution;
use crate::files::write_atomic;

/// Propose feeds, speeds and steps for the commission's cutters, with the reasons.
///
/// For each cutter: what the workshop says, what is proposed for the commission's wood and the workshop's machine, and why it is no
/// more. Programs are cut with what the workshop says; the proposals are a place to start a trial cut from, within what the manuals
/// of machine and cutter allow.
#[derive(Debug, Args)]
pub struct Feeds {
    #[command(flatten)]
    source: Source,
    /// Write the workshop with all proposals taken over to this file.
    #[arg(long, value_name = "FILE")]
    take_over: Option<PathBuf>,
    /// Print the proposals as JSON.
    #[arg(long)]
    json: bool,
}

/// A cutter with what is proposed for it.
struct Row<'a> {
    cutter: &'a Cutter,
    wood: &'a Wood,
    proposal: Proposal,
    now: Working,
    /// How far walls move in finishing as the cutter is set, mm.
    wall_moves_mm: f64,
    troubles: Vec<Trouble>,
}

impl Feeds {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let opened = self.source.open()?;
        let rows = rows(&opened.commission, &opened.workshop)?;
        if let Some(file) = &self.take_over {
            let taken = taken_over(&opened.workshop, &rows);
            write_atomic(file, write_workshop(&taken).as_bytes())
                .map_err(|error| error.to_string())?;
            terminal.remark(&format!(
                "A workshop with the proposals taken over was written to {}.",
                file.display()
            ));
        }
        if self.json {
            let rows: Vec<Value> = rows.iter().map(as_json).collect();
            terminal.say(&format!("{:#}", json!({ "cutters": rows })));
        } else {
            for row in &rows {
                terminal.say(&in_words(row));
            }
            terminal.remark(caution());
        }
        Ok(Outcome::Done)
    }
}

/// The commission's cutters for the face, then the one that cuts the blocks out.
fn rows<'a>(commission: &Commission, workshop: &'a Workshop) -> Result<Vec<Row<'a>>, String> {
    let wood = workshop.wood(&commission.wood).ok_or_else(|| {
        format!(
            "The workshop has no wood {}. Add it to the workshop, or name another in the commission.",
            commission.wood
        )
    })?;
    let mut ids = commission.cutting.cutters.clone();
    match &commission.planks.separation {
        Separation::Router { cutter, .. } if !ids.contains(cutter) => ids.push(cutter.clone()),
        Separation::Router { .. } | Separation::Saw => {}
    }
    let allowance_mm = commission.cutting.allowance.in_mm();
    ids.iter()
        .map(|id| {
            let cutter = workshop.cutter(id).ok_or_else(|| {
                format!("The workshop has no cutter {id}. Add it to the workshop, or name another in the commission.")
            })?;
            Ok(Row {
                cutter,
                wood,
                proposal: propose(cutter, wood, &workshop.machine, allowance_mm),
                now: working(cutter, wood),
                wall_moves_mm: wall_moves_mm(
                    cutter,
                    wood,
                    allowance_mm,
                    commission.cutting.relief.in_mm(),
                ),
                troubles: troubles(cutter, wood, allowance_mm),
            })
        })
        .collect()
}

fn taken_over(workshop: &Workshop, rows: &[Row<'_>]) -> Workshop {
    let mut taken = workshop.clone();
    for cutter in &mut taken.cutters {
        if let Some(row) = rows.iter().find(|row| row.cutter.id == cutter.id) {
            *cutter = row.proposal.taken_over(cutter);
        }
    }
    taken
}

/// The settings proposed, each with its name, the value that the cutter has, its unit and decimals.
fn settings<'r>(row: &'r Row<'_>) -> [(&'static str, f64, &'r Proposed, &'static str, usize); 5] {
    let (cutter, proposal) = (row.cutter, &row.proposal);
    [
        (
            "spindle",
            cutter.spindle_rpm,
            &proposal.spindle_rpm,
            "turns/min",
            0,
        ),
        (
            "feed",
            cutter.feed_mm_min,
            &proposal.feed_mm_min,
            "mm/min",
            0,
        ),
        (
            "plunge",
            cutter.plunge_mm_min,
            &proposal.plunge_mm_min,
            "mm/min",
            0,
        ),
        (
            "layer",
            cutter.step_down.in_mm(),
            &proposal.step_down_mm,
            "mm",
            2,
        ),
        (
            "width",
            cutter.step_over.in_mm(),
            &proposal.step_over_mm,
            "mm",
            2,
        ),
    ]
}

fn in_words(row: &Row<'_>) -> String {
    let mut text = format!("{} in {}\n", row.cutter.id, row.wood.name);
    text += &format!("  {:<8}{:>8}{:>10}\n", "", "set", "proposed");
    for (name, now, proposed, unit, decimals) in settings(row) {
        text += &format!(
            "  {name:<8}{now:>8.decimals$}{:>10.decimals$} {unit:<9}  {}\n",
            proposed.value, proposed.reason
        );
    }
    text += &format!(
        "  as set, {}; walls move {:.3} mm in finishing\n",
        work_in_words(&row.now),
        row.wall_moves_mm
    );
    text += &format!("  as proposed, {}", work_in_words(&row.proposal.working));
    for trouble in &row.troubles {
        text += &format!("\n  take care: {} {}", trouble.text, trouble.remedy);
    }
    text
}

fn work_in_words(work: &Working) -> String {
    format!(
        "an edge takes {:.3} mm at {:.0} m/min; {:.1} N bend the cutter {:.3} mm",
        work.chip_mm, work.surface_speed_m_min, work.force_n, work.deflection_mm,
    )
}

fn as_json(row: &Row<'_>) -> Value {
    let mut proposed = serde_json::Map::new();
    let mut set = serde_json::Map::new();
    let keys = [
        "spindle_rpm",
        "feed_mm_min",
        "plunge_mm_min",
        "step_down_mm",
        "step_over_mm",
    ];
    for (key, (_, now, value, ..)) in keys.into_iter().zip(settings(row)) {
        set.insert(key.to_owned(), json!(now));
        proposed.insert(
            key.to_owned(),
            json!({ "value": value.value, "reason": value.reason }),
        );
    }
    let troubles: Vec<Value> = row
        .troubles
        .iter()
        .map(|trouble| json!({ "text": trouble.text.as_str(), "remedy": trouble.remedy.as_str() }))
        .collect();
    json!({
        "cutter": row.cutter.id,
        "wood": row.wood.id,
        "set": set,
        "proposed": proposed,
        "working_as_set": work_json(&row.now),
        "wall_moves_mm": row.wall_moves_mm,
        "working_as_proposed": work_json(&row.proposal.working),
        "troubles": troubles,
    })
}

fn work_json(work: &Working) -> Value {
    json!({
        "chip_load_mm": work.chip_load_mm,
        "chip_mm": work.chip_mm,
        "surface_speed_m_min": work.surface_speed_m_min,
        "force_n": work.force_n,
        "deflection_mm": work.deflection_mm,
        "power_w": work.power_w,
    })
}
