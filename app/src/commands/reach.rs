//! `sortwright reach`.

use clap::Args;
use serde_json::{Value, json};

use cam_core::make::Surveyed;
use cam_core::survey::{CornerReport, Survey};

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};

/// List the corners that each cutter leaves too round.
///
/// For every sort and cutter: how much ground is reached and left, and each corner that stays rounder than the commission's
/// tolerance, with its angle, the gap from the drawn corner to the nearest ground reached, and the diameter of a cutter that would
/// satisfy the tolerance there. Places are millimetres from the block's lower-left corner, seen from above.
#[derive(Debug, Args)]
pub struct Reach {
    #[command(flatten)]
    source: Source,
    /// Print the list as JSON.
    #[arg(long)]
    json: bool,
}

impl Reach {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let surveyed = self.source.survey(terminal)?;
        if self.json {
            terminal.say(&format!("{:#}", as_json(&surveyed)));
        } else {
            for (sort, survey) in surveyed.sorts.iter().zip(&surveyed.surveys) {
                if !sort.block.plain {
                    terminal.say(&in_words(&sort.name, survey));
                }
            }
            terminal.findings(&surveyed.findings);
        }
        Ok(Outcome::Done)
    }
}

fn in_words(name: &str, survey: &Survey) -> String {
    let mut text = format!("{name}\n");
    for cutter in &survey.cutters {
        text += &format!(
            "  {}: reaches {:.2} mm², leaves {:.2} mm², {} corners too tight\n",
            cutter.cutter,
            cutter.reached_mm2,
            cutter.left_mm2,
            cutter.corners.len()
        );
        for corner in &cutter.corners {
            text += &corner_line(corner);
        }
    }
    text += &format!(
        "  all together: leave {:.2} mm², {} corners for the knife",
        survey.unreached_mm2,
        survey.corners.len()
    );
    text
}

fn corner_line(corner: &CornerReport) -> String {
    format!(
        "    at {:.2}, {:.2}: {:.0}°, gap {:.3} mm, wants {:.2} mm\n",
        corner.at.x, corner.at.y, corner.angle_deg, corner.gap_mm, corner.wanted_diameter_mm
    )
}

fn as_json(surveyed: &Surveyed) -> Value {
    let sorts: Vec<Value> = surveyed
        .sorts
        .iter()
        .zip(&surveyed.surveys)
        .map(|(sort, survey)| {
            let cutters: Vec<Value> = survey
                .cutters
                .iter()
                .map(|cutter| {
                    json!({
                        "cutter": cutter.cutter,
                        "reached_mm2": cutter.reached_mm2,
                        "left_mm2": cutter.left_mm2,
                        "corners": corners_json(&cutter.corners),
                    })
                })
                .collect();
            json!({
                "sort": sort.name,
                "cutters": cutters,
                "unreached_mm2": survey.unreached_mm2,
                "corners": corners_json(&survey.corners),
            })
        })
        .collect();
    json!({ "sorts": sorts, "findings": findings_json(&surveyed.findings) })
}

fn corners_json(corners: &[CornerReport]) -> Value {
    corners
        .iter()
        .map(|corner| {
            json!({
                "at_mm": [corner.at.x, corner.at.y],
                "angle_deg": corner.angle_deg,
                "gap_mm": corner.gap_mm,
                "wanted_diameter_mm": corner.wanted_diameter_mm,
            })
        })
        .collect()
}
