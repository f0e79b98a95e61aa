//! `sortwright planks`.

use std::path::PathBuf;
use std::sync::Arc;

use clap::Args;
use serde_json::{Value, json};

use cam_core::format::write_workshop;
use cam_core::make::laid_out;
use cam_core::plank::{Laid, left_over, stock_after};
use cam_core::sort::Sort;
use cam_core::workshop::{StockPlank, Workshop};

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};
use crate::background::tasks::counted;
use crate::files::open::{Opened, WORKSHOP_FILE};
use crate::files::parent;
use crate::files::save::write_atomic;

/// Lay a commission on planks, without cutting anything: which planks it takes, how full they are, and what is left of them.
///
/// The number of planks is shown against the least that could do. With --book, once the planks are cut, those taken from stock are
/// taken off the workshop's stock and what is left of them is entered; the workshop file is written, the old one kept beside it.
#[derive(Debug, Args)]
pub struct Planks {
    #[command(flatten)]
    source: Source,
    /// Enter in the workshop's stock what was used and what is left; do so once for each order, when its planks are cut.
    #[arg(long)]
    book: bool,
    /// Print the planks as JSON.
    #[arg(long)]
    json: bool,
}

impl Planks {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let opened = self.source.open()?;
        let (sorts, laid) = terminal
            .watch(|progress| {
                laid_out(
                    &opened.commission,
                    &opened.workshop,
                    &opened.fonts,
                    progress,
                )
            })
            .map_err(|error| error.to_string())?;
        let left = left_over(&laid.planks, &sorts, &opened.commission, &opened.workshop);
        if self.json {
            terminal.say(&format!("{:#}", as_json(&laid, &sorts, &left)));
        } else {
            terminal.findings(&laid.findings);
            terminal.say(&in_words(&laid, &sorts, &left));
        }
        let stopped = laid
            .findings
            .iter()
            .any(|finding| finding.severity == cam_core::finding::Severity::Stop);
        if stopped {
            return Ok(Outcome::Stopped);
        }
        if self.book {
            let file = self.book(&opened, &sorts, &laid)?;
            terminal.remark(&format!("The stock in {} is as it is now.", file.display()));
        }
        Ok(Outcome::Done)
    }

    fn book(&self, opened: &Opened, sorts: &[Arc<Sort>], laid: &Laid) -> Result<PathBuf, String> {
        let workshop = Workshop {
            stock: stock_after(&laid.planks, sorts, &opened.commission, &opened.workshop),
            ..opened.workshop.clone()
        };
        let file = match &self.source.workshop {
            Some(file) => file.clone(),
            None => parent(&self.source.commission).join(WORKSHOP_FILE),
        };
        write_atomic(&file, write_workshop(&workshop).as_bytes())
            .map_err(|error| error.to_string())?;
        Ok(file)
    }
}

/// How the number of planks stands to the least there could be.
pub fn against_the_least(planks: usize, at_least: usize) -> String {
    if planks <= at_least {
        format!(
            "{}; no layout takes fewer",
            counted(planks, "plank", "planks")
        )
    } else {
        format!(
            "{}; no layout takes fewer than {at_least}",
            counted(planks, "plank", "planks")
        )
    }
}

fn in_words(laid: &Laid, sorts: &[Arc<Sort>], left: &[StockPlank]) -> String {
    let mut text = format!("{}.\n", against_the_least(laid.planks.len(), laid.at_least));
    for plank in &laid.planks {
        let from = match &plank.stock {
            Some(stock) if plank.turned => format!(", {stock} from stock, turned a quarter"),
            Some(stock) => format!(", {stock} from stock"),
            None => String::new(),
        };
        text += &format!(
            "  {}: {:.0} × {:.0} mm{from}; {}, {:.0} % of the wood\n",
            plank.id,
            plank.width_mm,
            plank.length_mm,
            counted(plank.places.len(), "block", "blocks"),
            100.0 * plank.used_part(sorts)
        );
    }
    if !left.is_empty() {
        text += "Left over, large enough for a block of this order:\n";
    }
    for piece in left {
        text += &format!(
            "  {}: {} × {} mm\n",
            piece.id,
            piece.width.in_mm(),
            piece.length.in_mm()
        );
    }
    text.trim_end().to_owned()
}

fn as_json(laid: &Laid, sorts: &[Arc<Sort>], left: &[StockPlank]) -> Value {
    let planks: Vec<Value> = laid
        .planks
        .iter()
        .map(|plank| {
            let places: Vec<Value> = plank
                .places
                .iter()
                .map(|place| json!({ "block": place.id, "at_mm": [place.at.x, place.at.y] }))
                .collect();
            json!({
                "id": plank.id,
                "stock": plank.stock,
                "turned": plank.turned,
                "size_mm": [plank.width_mm, plank.length_mm],
                "used_part": plank.used_part(sorts),
                "blocks": places,
            })
        })
        .collect();
    let left: Vec<Value> = left
        .iter()
        .map(|piece| {
            json!({
                "id": piece.id,
                "wood": piece.wood,
                "size_mm": [piece.width.in_mm(), piece.length.in_mm()],
            })
        })
        .collect();
    json!({
        "planks": planks,
        "at_least": laid.at_least,
        "left_over": left,
        "findings": findings_json(&laid.findings),
    })
}
