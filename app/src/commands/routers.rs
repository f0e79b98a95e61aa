//! `sortwright routers`.

use clap::Args;
use serde_json::{Value, json};

use cam_core::make::{Job, make};
use cam_core::routers::Plan;
use cam_core::workshop::Workshop;

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};
use crate::background::tasks::{counted, duration_in_words};

/// Share a commission's planks out among the workshop's routers.
///
/// Tells which plank is cut on which router, when all is cut, with fixing planks and changes of cutter, and what one router more
/// would save. A plank goes only where the machine's travel reaches over it.
#[derive(Debug, Args)]
pub struct Routers {
    #[command(flatten)]
    source: Source,
    /// Print the plan as JSON.
    #[arg(long)]
    json: bool,
}

impl Routers {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let opened = self.source.open()?;
        let job = terminal
            .watch(|progress| {
                make(
                    &opened.commission,
                    &opened.workshop,
                    &opened.fonts,
                    progress,
                )
            })
            .map_err(|error| error.to_string())?;
        if self.json {
            terminal.say(&format!("{:#}", as_json(&job, &opened.workshop)));
        } else {
            terminal.findings(&job.findings);
            terminal.say(&in_words(&job, &opened.workshop));
        }
        if job.is_stopped() {
            return Ok(Outcome::Stopped);
        }
        Ok(Outcome::Done)
    }
}

fn hours(minutes: f64) -> String {
    duration_in_words(minutes * 60.0)
}

fn name_of(workshop: &Workshop, router: usize) -> String {
    let name = workshop
        .machines()
        .nth(router)
        .map(|machine| machine.name.clone());
    name.filter(|name| !name.is_empty())
        .unwrap_or_else(|| format!("router {}", router + 1))
}

fn planks_of<'a>(job: &'a Job, plan: &Plan, router: usize) -> Vec<&'a str> {
    plan.on
        .get(router)
        .into_iter()
        .flatten()
        .filter_map(|&plank| Some(job.planks.get(plank)?.id.as_str()))
        .collect()
}

fn in_words(job: &Job, workshop: &Workshop) -> String {
    let plan = &job.routers;
    let mut text = String::new();
    for router in 0..plan.on.len() {
        let planks = planks_of(job, plan, router);
        let planks = if planks.is_empty() {
            "nothing".to_owned()
        } else {
            planks.join(", ")
        };
        text += &format!(
            "{}: {planks}; done after {}\n",
            name_of(workshop, router),
            hours(plan.done_minutes.get(router).copied().unwrap_or(0.0))
        );
    }
    let bound = if plan.proven {
        "no other way is done sooner".to_owned()
    } else {
        format!(
            "no other way is done before {}",
            hours(plan.at_least_minutes)
        )
    };
    text += &format!(
        "All is cut after {}, with {}; {bound}.\n",
        hours(plan.finish_minutes),
        counted(
            plan.changes as usize,
            "change of cutter",
            "changes of cutter"
        )
    );
    for more in &plan.one_more {
        text += &format!(
            "With one more {}: after {}, {} sooner.\n",
            name_of(workshop, more.machine),
            hours(more.finish_minutes),
            hours(more.saved_minutes)
        );
    }
    text.trim_end().to_owned()
}

fn as_json(job: &Job, workshop: &Workshop) -> Value {
    let plan = &job.routers;
    let routers: Vec<Value> = (0..plan.on.len())
        .map(|router| {
            json!({
                "router": name_of(workshop, router),
                "planks": planks_of(job, plan, router),
                "done_minutes": plan.done_minutes.get(router),
            })
        })
        .collect();
    let one_more: Vec<Value> = plan
        .one_more
        .iter()
        .map(|more| {
            json!({
                "router": name_of(workshop, more.machine),
                "finish_minutes": more.finish_minutes,
                "saved_minutes": more.saved_minutes,
            })
        })
        .collect();
    json!({
        "routers": routers,
        "finish_minutes": plan.finish_minutes,
        "at_least_minutes": plan.at_least_minutes,
        "proven": plan.proven,
        "changes": plan.changes,
        "one_more": one_more,
        "findings": findings_json(&job.findings),
    })
}
