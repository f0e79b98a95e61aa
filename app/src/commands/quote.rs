//! `sortwright quote`.

use clap::Args;
use serde_json::{Value, json};

use cam_core::make::make;
use cam_core::quote::{Estimates, Quote, changed, changes};

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};
use crate::background::tasks::duration_in_words;

/// Price a commission, before any wood is cut.
///
/// The machine's minutes are those of the programs; work by hand, wood, breakage and margin are reckoned at the workshop's rates,
/// without tax. With --if, the order is priced as it would be otherwise: with another size, bill, set of cutters, tolerance or
/// wood.
#[derive(Debug, Args)]
pub struct QuoteOf {
    #[command(flatten)]
    source: Source,
    /// Price the order otherwise as well, such as "lines=8, bill=4A"; may be given several times. Changes: lines, bill, cutters
    /// (with plus signs between), tolerance, wood.
    #[arg(long = "if", value_name = "CHANGES")]
    otherwise: Vec<String>,
    /// Print the prices as JSON.
    #[arg(long)]
    json: bool,
}

impl QuoteOf {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let opened = self.source.open()?;
        let (commission, workshop) = (&opened.commission, &opened.workshop);
        // What cannot be understood is told before the long work.
        let mut asked = Vec::new();
        for text in &self.otherwise {
            let changes = changes(text).map_err(|error| error.to_string())?;
            let changed = changed(commission, &changes).map_err(|error| error.to_string())?;
            asked.push((text.as_str(), changed));
        }
        let job = terminal
            .watch(|progress| make(commission, workshop, &opened.fonts, progress))
            .map_err(|error| error.to_string())?;
        if job.is_stopped() {
            terminal.findings(&job.findings);
            return Ok(Outcome::Stopped);
        }
        let quote = Quote::of(&job, commission, workshop);
        let mut otherwise = Vec::new();
        if !asked.is_empty() {
            let mut estimates = Estimates::from(&job, commission, workshop);
            for (text, changed) in asked {
                let priced = terminal
                    .watch(|progress| estimates.quote(&changed, workshop, &opened.fonts, progress))
                    .map_err(|error| format!("With {text}: {error}"))?;
                otherwise.push((text, priced));
            }
        }
        if self.json {
            let otherwise: Vec<Value> = otherwise
                .iter()
                .map(|(text, priced)| json!({ "if": text, "estimate": as_json(priced) }))
                .collect();
            terminal.say(&format!(
                "{:#}",
                json!({
                    "quote": as_json(&quote),
                    "otherwise": otherwise,
                    "findings": findings_json(&job.findings),
                })
            ));
        } else {
            terminal.findings(&job.findings);
            terminal.say(&in_words(&quote));
            if !otherwise.is_empty() {
                terminal.say(&side_by_side(&quote, &otherwise));
            }
        }
        Ok(Outcome::Done)
    }
}

fn hours(minutes: f64) -> String {
    duration_in_words(minutes * 60.0)
}

fn in_words(quote: &Quote) -> String {
    let mut text = format!("{:<34}{:>14}  {:>10}\n", "", "time", quote.currency);
    let mut line = |what: &str, time: &str, money: f64| {
        text += &format!("{what:<34}{time:>14}  {money:>10.2}\n");
    };
    let [machine, by_hand, wood, breakage, margin] =
        quote.amounts().map(|amount| amount as f64 / 100.0);
    line(
        &format!("Machine, {} changes of cutter", quote.changes),
        &hours(quote.machine_minutes + quote.change_minutes),
        machine,
    );
    line(
        "By hand, changes included",
        &hours(quote.hand_minutes() + quote.change_minutes),
        by_hand,
    );
    let planks = if quote.planks == 1 { "plank" } else { "planks" };
    line(
        &format!("Wood, {} {planks}, {:.2} dm³", quote.planks, quote.wood_dm3),
        "",
        wood,
    );
    line("Breakage", "", breakage);
    line("Margin", "", margin);
    line(
        &format!("Price of {} blocks, without tax", quote.blocks),
        "",
        quote.price,
    );
    text += "\nBy hand:\n";
    for work in &quote.hand {
        text += &format!(
            "  {:<32}{:>14}  {}\n",
            work.what,
            hours(work.minutes),
            work.of
        );
    }
    text += "\nEach sort:\n";
    for sort in &quote.sorts {
        text += &format!(
            "  {:<20}{:>4} at {:>8.2}   machine {:>5.1} min, knife {:>4.1} min\n",
            sort.sort, sort.count, sort.price, sort.machine_minutes, sort.knife_minutes
        );
    }
    text.trim_end().to_owned()
}

fn side_by_side(quote: &Quote, otherwise: &[(&str, Quote)]) -> String {
    let mut text = format!(
        "\n{:<32}{:>8}{:>8}{:>15}{:>15}{:>12}\n",
        "Otherwise, estimated", "blocks", "planks", "machine", "by hand", quote.currency
    );
    let rows = std::iter::once(("as ordered", quote)).chain(otherwise.iter().map(|(a, b)| (*a, b)));
    for (what, priced) in rows {
        text += &format!(
            "{what:<32}{:>8}{:>8}{:>15}{:>15}{:>12.2}\n",
            priced.blocks,
            priced.planks,
            hours(priced.machine_minutes + priced.change_minutes),
            hours(priced.hand_minutes() + priced.change_minutes),
            priced.price
        );
    }
    text.trim_end().to_owned()
}

fn as_json(quote: &Quote) -> Value {
    let hand: Vec<Value> = quote
        .hand
        .iter()
        .map(|work| json!({ "what": work.what, "of": work.of, "minutes": work.minutes }))
        .collect();
    let sorts: Vec<Value> = quote
        .sorts
        .iter()
        .map(|sort| {
            json!({
                "sort": sort.sort,
                "count": sort.count,
                "machine_minutes": sort.machine_minutes,
                "knife_minutes": sort.knife_minutes,
                "price": sort.price,
            })
        })
        .collect();
    json!({
        "currency": quote.currency,
        "blocks": quote.blocks,
        "planks": quote.planks,
        "wood_dm3": quote.wood_dm3,
        "machine_minutes": quote.machine_minutes,
        "changes": quote.changes,
        "change_minutes": quote.change_minutes,
        "hand_minutes": quote.hand_minutes(),
        "hand": hand,
        "costs": {
            "machine": quote.costs.machine,
            "hand": quote.costs.hand,
            "wood": quote.costs.wood,
            "breakage": quote.costs.breakage,
        },
        "margin": quote.margin(),
        "price": quote.price,
        "sorts": sorts,
    })
}
