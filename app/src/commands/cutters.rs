//! `sortwright cutters`.

use clap::Args;
use serde_json::{Value, json};

use cam_core::cutter_set::{CutterSets, OneMore, PricedSet, cutter_sets};

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};

/// Sets that are shown without --json: the cheapest.
const SHOWN: usize = 10;

/// Find the set of cutters that makes the commission for the least cost.
///
/// Every set of the workshop's cutters is priced: the machine's time, changes of cutter, and the corners and the ground that are
/// left to be done by hand, at the workshop's rates. The cheapest are listed, with the set that the commission names, and what
/// one more cutter beside the cheapest would save. Cutting the blocks out is the same for every set and is not counted.
#[derive(Debug, Args)]
pub struct Cutters {
    #[command(flatten)]
    source: Source,
    /// Print the sets as JSON.
    #[arg(long)]
    json: bool,
}

impl Cutters {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let opened = self.source.open()?;
        let sets = terminal
            .watch(|progress| {
                cutter_sets(
                    &opened.commission,
                    &opened.workshop,
                    &opened.fonts,
                    progress,
                )
            })
            .map_err(|error| error.to_string())?;
        if self.json {
            terminal.say(&format!("{:#}", as_json(&sets)));
        } else {
            terminal.findings(&sets.findings);
            terminal.say(&in_words(&sets));
        }
        Ok(Outcome::Done)
    }
}

fn in_words(sets: &CutterSets) -> String {
    let mut text = format!(
        "{:>10}{:>9}{:>9}{:>9}{:>9}  {}\n",
        sets.currency, "machine", "changes", "by hand", "corners", "cutters"
    );
    for (place, set) in sets.sets.iter().enumerate() {
        if place < SHOWN || sets.named == Some(place) {
            let named = if sets.named == Some(place) {
                "  (named in the commission)"
            } else {
                ""
            };
            text += &format!("{}{named}\n", set_line(set));
        }
    }
    text += &format!(
        "Machine, changes and work by hand in minutes; {} sets were compared.\n",
        sets.sets.len() + sets.dearer
    );
    if !sets.one_more.is_empty() {
        text += "\nBeside the cheapest set,\n";
    }
    for more in &sets.one_more {
        text += &format!("  {}\n", one_more_line(more, &sets.currency));
    }
    for left in &sets.left_out {
        text += &format!("  {} was not compared: {}\n", left.cutter, left.reason);
    }
    text.trim_end().to_owned()
}

fn set_line(set: &PricedSet) -> String {
    format!(
        "{:>10.2}{:>9.1}{:>9.1}{:>9.1}{:>9}  {}",
        set.cost,
        set.machine_minutes,
        set.change_minutes,
        set.hand_minutes,
        set.corners,
        set.cutters.join(", ")
    )
}

fn one_more_line(more: &OneMore, currency: &str) -> String {
    let verb = if more.saves > 0.0 {
        "would save"
    } else {
        "would cost"
    };
    let owned = if more.owned {
        ""
    } else {
        " (not owned, run as proposed)"
    };
    format!(
        "{}{owned} {verb} {:.2} {currency} and spare the knife {} corners",
        more.cutter,
        more.saves.abs(),
        more.corners_spared,
    )
}

fn as_json(sets: &CutterSets) -> Value {
    let one_more: Vec<Value> = sets
        .one_more
        .iter()
        .map(|more| {
            json!({
                "cutter": more.cutter,
                "owned": more.owned,
                "saves": more.saves,
                "corners_spared": more.corners_spared,
                "with_it": set_json(&more.with_it),
            })
        })
        .collect();
    let left_out: Vec<Value> = sets
        .left_out
        .iter()
        .map(|left| json!({ "cutter": left.cutter, "reason": left.reason }))
        .collect();
    json!({
        "currency": sets.currency,
        "sets": sets.sets.iter().map(set_json).collect::<Vec<_>>(),
        "dearer": sets.dearer,
        "named": sets.named,
        "one_more": one_more,
        "left_out": left_out,
        "findings": findings_json(&sets.findings),
    })
}

fn set_json(set: &PricedSet) -> Value {
    json!({
        "cutters": set.cutters,
        "cost": set.cost,
        "machine_minutes": set.machine_minutes,
        "changes": set.changes,
        "change_minutes": set.change_minutes,
        "hand_minutes": set.hand_minutes,
        "corners": set.corners,
        "ground_cm2": set.ground_cm2,
    })
}
