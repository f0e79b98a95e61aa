//! The set of cutters that makes a commission for the least cost: time of the machine, changes of cutter, and work by hand.
//!
//! What a cutter has to do depends on the cutters before it only through what they reach together, and a larger cutter's
//! reach lies within a smaller one's where both go as deep. So a cutter's passes are planned once for each cutter that can come
//! before it, and every set is priced by adding up: all sets of eight cutters take 36 plans a sort, not a thousand. Where even the
//! least time that clearing can take makes a set dear, it is not planned at all.
//!
//! Not counted, since it is the same for every set: cutting the blocks out, and all work on the wood before and after.

mod bound;
mod choice;
mod hand;
mod one_more;
mod price;
mod time;

#[cfg(test)]
mod tests;

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::commission::Commission;
use crate::finding::Finding;
use crate::make::{Fonts, MakeError, drawn_up};
use crate::plank::{self, Plank};
use crate::progress::Progress;
use crate::sort::Sort;
use crate::workshop::{Cutter, Workshop};

use choice::Step;

pub use choice::{LeftOut, MOST_CUTTERS};
pub use one_more::OneMore;

/// This many of the cheapest sets are always listed, if there are so many.
pub const MOST_LISTED: usize = 10;

/// The sets of the cutters compared, priced.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutterSets {
    /// The cheapest sets and the one that the commission names, the cheapest first; of equal ones that of fewer cutters first.
    pub sets: Vec<PricedSet>,
    /// How many sets more there are, each of which costs more than [`MOST_LISTED`] of those listed, whatever its passes.
    pub dearer: usize,
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

/// Prices every set of up to eight of the workshop's flat and conical cutters for a commission.
///
/// Exact for the time model: each set costs what its cutters, one after another, take. The machine's time is that of the passes on
/// each copy, and a rapid move on to the next one; links over a whole plank may save a little more. The work by hand is what the
/// survey finds: corners rounder than the commission's tolerance, and ground that is not reached. Cutters that cannot go down
/// to the least relief are left out, and so are those with a round end, which clear no ground. Cones sharpen the corners that the
/// smallest flat cutter leaves.
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
    let planks = plank::lay_out(&sorts, commission, workshop)?.planks;
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

impl Job<'_> {
    /// The commission with these cutters instead of its own.
    fn with_cutters(&self, set: &[usize], cutters: &[&Cutter]) -> Commission {
        let mut commission = self.commission.clone();
        commission.cutting.cutters = set
            .iter()
            .map(|&number| cutters[number].id.clone())
            .collect();
        commission
    }
}

fn compare(job: &Job<'_>, progress: &Progress) -> Result<CutterSets, MakeError> {
    let choice = choice::choose(job.commission, job.workshop);
    let cutters: Vec<&Cutter> = choice.cutters.clone();
    let depths = choice::depths(&cutters, job.commission);
    let sets = choice::all_sets(&cutters, &depths);
    if sets.is_empty() {
        return Err(MakeError::Pass(crate::pass::PassError::NoFlatCutter));
    }
    let named = choice.named(job.commission);
    let (grounds, findings) = time::map_grounds(job, progress)?;
    let by_hand = hand::by_hand(
        job,
        &grounds,
        &cutters,
        &choice::ends(&sets, &cutters),
        progress,
    )?;
    let pricing = timed(
        price::Pricing {
            job,
            cutters: &cutters,
            depths: &depths,
            by_hand: &by_hand,
            seconds: time::Seconds::new(),
        },
        &grounds,
        &sets,
        named.as_ref(),
        progress,
    )?;
    let all = sets.len();
    let mut priced: Vec<(Vec<usize>, PricedSet)> = sets
        .into_iter()
        .filter(|set| pricing.untimed(set).is_empty())
        .map(|set| {
            let price = pricing.price(&set);
            (set, price)
        })
        .collect();
    priced.sort_by(|a, b| {
        let by_cost = a.1.cost.total_cmp(&b.1.cost);
        by_cost.then(a.0.len().cmp(&b.0.len())).then(a.0.cmp(&b.0))
    });
    let one_more = one_more::one_more(&pricing, &grounds, &priced, progress)?;
    Ok(CutterSets {
        dearer: all - priced.len(),
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

/// Times all turns that are needed: first all but those of small cutters that clear everything alone, which take longest to plan
/// and to cut; then those of them that some cheap set may yet need.
fn timed<'a>(
    mut pricing: price::Pricing<'a>,
    grounds: &time::Grounds,
    sets: &[Vec<usize>],
    named: Option<&Vec<usize>>,
    progress: &Progress,
) -> Result<price::Pricing<'a>, MakeError> {
    let (job, cutters) = (pricing.job, (pricing.cutters, pricing.depths));
    let early = choice::steps(sets, pricing.cutters, pricing.depths)
        .into_iter()
        .filter(|step| step.len() > 1 || step[..] == [0])
        .collect();
    pricing.seconds = time::seconds(job, grounds, cutters, &early, progress)?;
    let late = still_wanted(&pricing, sets, named);
    let late = time::seconds(job, grounds, cutters, &late, progress)?;
    pricing.seconds.extend(late);
    Ok(pricing)
}

/// The turns without which some set cannot be priced that may yet be among the cheapest, or is the one named.
fn still_wanted(
    pricing: &price::Pricing<'_>,
    sets: &[Vec<usize>],
    named: Option<&Vec<usize>>,
) -> BTreeSet<Step> {
    let alone = bound::least_seconds_alone(
        pricing.job,
        pricing.cutters,
        pricing.depths,
        pricing.by_hand,
    );
    let mut known: Vec<f64> = sets
        .iter()
        .filter(|set| pricing.untimed(set).is_empty())
        .map(|set| pricing.price(set).cost)
        .collect();
    known.sort_by(f64::total_cmp);
    let most = known.get(MOST_LISTED - 1).copied().unwrap_or(f64::INFINITY);
    let may_be_cheap = |set: &Vec<usize>, untimed: &[Step]| {
        let least: f64 = untimed.iter().flatten().map(|&number| alone[number]).sum();
        pricing.price_with(set, least).cost <= most
    };
    sets.iter()
        .map(|set| (set, pricing.untimed(set)))
        .filter(|(set, untimed)| Some(*set) == named || may_be_cheap(set, untimed))
        .flat_map(|(_, untimed)| untimed)
        .collect()
}
