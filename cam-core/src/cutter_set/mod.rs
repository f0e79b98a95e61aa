//! The set of cutters that makes a commission for the least cost: time of the machine, changes of cutter, and work by hand.
//!
//! What a cutter has to do depends on the cutters before it only through what they reach together, and a larger cutter's
//! reach lies within a smaller one's where both go as deep. So a cutter's passes are planned once for each cutter that can come
//! before it, and every set is priced by adding up: all sets of eight cutters take 36 plans a sort, not a thousand.
//!
//! Not counted, since it is the same for every set: cutting the blocks out, and all work on the wood before and after.

mod choice;
mod hand;
mod one_more;
mod price;
mod time;

#[cfg(test)]
mod tests;

use std::sync::Arc;

use crate::commission::Commission;
use crate::finding::Finding;
use crate::make::{Fonts, MakeError, drawn_up};
use crate::plank::{self, Plank};
use crate::progress::Progress;
use crate::sort::Sort;
use crate::workshop::{Cutter, Workshop};

pub use choice::{LeftOut, MOST_CUTTERS};
pub use one_more::OneMore;

/// Every set of the cutters compared, priced.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutterSets {
    /// All sets, the cheapest first; of equal ones that of fewer cutters first.
    pub sets: Vec<PricedSet>,
    /// Index of the set that the commission names, if all of its cutters were compared.
    pub named: Option<usize>,
    /// What one more cutter would save beside the cheapest set: first those owned, then sizes that are not.
    pub one_more: Vec<OneMore>,
    /// Cutters of the workshop that were not compared.
    pub left_out: Vec<LeftOut>,
    /// The currency of all costs, as a word.
    pub currency: String,
    /// What the maker should read about the sorts, such as one whose ground cannot be mapped, which is not counted.
    pub findings: Vec<Finding>,
}

impl CutterSets {
    /// The cheapest set.
    pub fn best(&self) -> Option<&PricedSet> {
        self.sets.first()
    }
}

/// What a set of cutters costs for a whole commission.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PricedSet {
    /// The cutters, by id, in the order of running.
    pub cutters: Vec<String>,
    /// Time of the machine, moving, minutes.
    pub machine_minutes: f64,
    /// Cutters put in, over all planks.
    pub changes: u32,
    /// Time for that, minutes.
    pub change_minutes: f64,
    /// Corners left to the knife, over all copies.
    pub corners: u64,
    /// Ground that no cutter of the set reaches, over all copies, cm².
    pub ground_cm2: f64,
    /// Work by hand on both, minutes.
    pub hand_minutes: f64,
    /// The cost: the machine's hours while it runs and while cutters are changed, and the hours by hand, those of the
    /// changes included.
    pub cost: f64,
}

/// Prices every set of up to eight of the workshop's flat cutters for a commission.
///
/// Exact for the time model: each set costs what its cutters, one after another, take. The machine's time is that of the passes on
/// each copy, and a rapid move on to the next one; links over a whole plank may save a little more. The work by hand is what the
/// survey finds: corners rounder than the commission's tolerance, and ground that is not reached. Cutters that cannot go down
/// to the least relief are left out, and so are those that are not flat.
///
/// # Errors
/// When nothing can be made of the commission at all, no cutter can be compared, or the work was stopped.
pub fn cutter_sets(
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<CutterSets, MakeError> {
    let drawn = drawn_up(commission, workshop, fonts, progress)?;
    let sorts: Vec<Arc<Sort>> = drawn.sorts.into_iter().map(Arc::new).collect();
    let planks = plank::lay_out(&sorts, commission)?;
    let job = Job {
        commission,
        workshop,
        planks: &planks,
        sorts: &sorts,
    };
    let mut sets = compare(&job, progress)?;
    sets.findings.extend(drawn.findings);
    sets.findings
        .sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(sets)
}

/// What is to be made.
struct Job<'a> {
    commission: &'a Commission,
    workshop: &'a Workshop,
    planks: &'a [Plank],
    sorts: &'a [Arc<Sort>],
}

fn compare(job: &Job<'_>, progress: &Progress) -> Result<CutterSets, MakeError> {
    let choice = choice::choose(job.commission, job.workshop);
    let cutters: Vec<&Cutter> = choice.cutters.clone();
    let sets = choice::all_sets(&cutters);
    if sets.is_empty() {
        return Err(MakeError::Pass(crate::pass::PassError::NoFlatCutter));
    }
    let (grounds, findings) = time::map_grounds(job, progress)?;
    let depths = choice::depths(&cutters, job.commission);
    let steps = choice::steps(&sets, &cutters, &depths);
    let seconds = time::seconds(job, &grounds, &cutters, &steps, progress)?;
    let by_hand = hand::by_hand(
        job,
        &grounds,
        &cutters,
        &hand::ends(&sets, &cutters),
        progress,
    )?;
    let pricing = price::Pricing {
        job,
        cutters: &cutters,
        depths: &depths,
        seconds: &seconds,
        by_hand: &by_hand,
    };
    let mut priced: Vec<(Vec<usize>, PricedSet)> = sets
        .into_iter()
        .map(|set| {
            let price = pricing.price(&set);
            (set, price)
        })
        .collect();
    priced.sort_by(|a, b| {
        let by_cost = a.1.cost.total_cmp(&b.1.cost);
        by_cost.then(a.0.len().cmp(&b.0.len())).then(a.0.cmp(&b.0))
    });
    let one_more = one_more::one_more(job, &grounds, &cutters, &priced, progress)?;
    let named = choice.named(job.commission);
    Ok(CutterSets {
        named: priced
            .iter()
            .position(|(set, _)| Some(set) == named.as_ref()),
        sets: priced.into_iter().map(|(_, price)| price).collect(),
        one_more,
        left_out: choice.left_out,
        currency: job.workshop.rates.currency.clone(),
        findings,
    })
}
