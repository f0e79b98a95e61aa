//! What an order costs: the machine's time, work by hand, wood and what breaks, for the fount and for each sort.
//!
//! The machine's minutes come from the programs. What one sort takes is told by its passes alone, strung together by
//! themselves; the programs' time, with the ways between sorts, is shared out in that proportion.
//!
//! # Source
//! Hours at their rates, wood, breakage on all of it, and a margin told as a part of the price, so that the price is the costs over one less
//! the margin: common practice, no source.

mod by_sort;
mod change;
mod estimate;
mod hand;

use std::sync::Arc;

use crate::commission::Commission;
use crate::make::Job;
use crate::plank::Plank;
use crate::quote::by_sort::shared_out;
use crate::quote::hand::by_hand;
use crate::sort::Sort;
use crate::survey::Survey;
use crate::workshop::Workshop;

pub use by_sort::SortPrice;
pub use change::{Change, ChangeError, changed, changes};
pub use estimate::Estimates;
pub use hand::HandWork;

const SECONDS_PER_MINUTE: f64 = 60.0;
const MINUTES_PER_HOUR: f64 = 60.0;
const MM3_PER_DM3: f64 = 1e6;
/// Prices are whole hundredths of the currency.
const HUNDREDTHS: f64 = 100.0;

/// An order priced. Money is in the workshop's currency, without tax.
#[derive(Clone, Debug, PartialEq)]
pub struct Quote {
    /// The currency, as a word.
    pub currency: String,
    /// Blocks in all, spaces among them.
    pub blocks: u32,
    /// Planks in all.
    pub planks: usize,
    /// Wood of the planks, dm³.
    pub wood_dm3: f64,
    /// Minutes of the machine while programs run.
    pub machine_minutes: f64,
    /// Times that a cutter is put in.
    pub changes: u32,
    /// Minutes of the machine and the hand for them.
    pub change_minutes: f64,
    /// Work by hand, kind by kind.
    pub hand: Vec<HandWork>,
    /// What it costs the workshop.
    pub costs: Costs,
    /// What is asked for it, in whole hundredths: the sorts' prices, each times its count.
    pub price: f64,
    /// What each sort is asked for.
    pub sorts: Vec<SortPrice>,
}

/// What an order costs the workshop.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Costs {
    /// The machine, changes of cutter included.
    pub machine: f64,
    /// The hand, changes of cutter included.
    pub hand: f64,
    /// Wood.
    pub wood: f64,
    /// Blocks that have to be made again.
    pub breakage: f64,
}

impl Costs {
    /// All of them.
    pub fn whole(&self) -> f64 {
        self.machine + self.hand + self.wood + self.breakage
    }
}

impl Quote {
    /// Work by hand, minutes, without changes of cutter.
    pub fn hand_minutes(&self) -> f64 {
        self.hand.iter().map(|work| work.minutes).sum()
    }

    /// The part of the price that is no cost.
    pub fn margin(&self) -> f64 {
        self.price - self.costs.whole()
    }

    /// The machine's cost, that of the hand, of wood, of breakage, and the margin, in hundredths that add up to the price.
    pub fn amounts(&self) -> [i64; 5] {
        let Costs {
            machine,
            hand,
            wood,
            breakage,
        } = self.costs;
        let (mut so_far, mut before) = (0.0, 0);
        [machine, hand, wood, breakage, self.margin()].map(|amount| {
            so_far += amount;
            let now = hundredths(so_far);
            let own = now - before;
            before = now;
            own
        })
    }

    /// Prices a job by its programs.
    pub fn of(job: &Job, commission: &Commission, workshop: &Workshop) -> Quote {
        let alone = by_sort::seconds_alone(&job.sorts, &job.passes, workshop);
        Quote::knowing(&alone, job, commission, workshop)
    }

    /// The same where it is known what one copy of each sort takes by itself, s.
    fn knowing(alone: &[f64], job: &Job, commission: &Commission, workshop: &Workshop) -> Quote {
        let estimated = job.programs.iter().map(|program| program.estimate_s).sum();
        let runs = job.programs.len() as u32;
        let changes = job
            .programs
            .iter()
            .map(|program| program.parts.len() as u32);
        priced(
            &Made {
                sorts: &job.sorts,
                surveys: &job.surveys,
                seconds_alone: alone,
                planks: &job.planks,
                seconds: workshop.machine.real_seconds(estimated, runs),
                changes: changes.sum(),
            },
            commission,
            workshop,
        )
    }
}

/// An amount in the nearest whole hundredths.
pub fn hundredths(amount: f64) -> i64 {
    (amount * HUNDREDTHS).round() as i64
}

/// What a price is worked out from. Lists of sorts count alike.
struct Made<'a> {
    sorts: &'a [Arc<Sort>],
    surveys: &'a [Arc<Survey>],
    /// What one copy of each sort takes by itself, s.
    seconds_alone: &'a [f64],
    planks: &'a [Plank],
    /// What all programs take, s.
    seconds: f64,
    changes: u32,
}

fn priced(made: &Made<'_>, commission: &Commission, workshop: &Workshop) -> Quote {
    let rates = &workshop.rates;
    let hand = by_hand(made, rates);
    let change_minutes = f64::from(made.changes) * workshop.machine.change_minutes;
    let machine_minutes = made.seconds / SECONDS_PER_MINUTE;
    let hand_minutes: f64 = hand.iter().map(|work| work.minutes).sum();
    let height = commission.height_to_paper.in_mm();
    let wood_dm3: f64 = made
        .planks
        .iter()
        .map(|plank| plank.width_mm * plank.length_mm * height / MM3_PER_DM3)
        .sum();
    let per_dm3 = workshop
        .wood(&commission.wood)
        .map_or(0.0, |wood| wood.price_per_dm3);
    let machine = (machine_minutes + change_minutes) * rates.machine_per_hour / MINUTES_PER_HOUR;
    let by_hand = (hand_minutes + change_minutes) * rates.hand_per_hour / MINUTES_PER_HOUR;
    let wood = wood_dm3 * per_dm3;
    let costs = Costs {
        machine,
        hand: by_hand,
        wood,
        breakage: (machine + by_hand + wood) * rates.breakage,
    };
    let sorts = shared_out(
        made,
        (&costs, &hand),
        costs.whole() / (1.0 - rates.margin),
        rates,
    );
    // A customer who multiplies and adds comes to this price; what rounding leaves is the margin's.
    let price: i64 = sorts
        .iter()
        .map(|sort| hundredths(sort.price) * i64::from(sort.count))
        .sum();
    let price = price as f64 / HUNDREDTHS;
    Quote {
        currency: rates.currency.clone(),
        blocks: made.sorts.iter().map(|sort| sort.count).sum(),
        planks: made.planks.len(),
        wood_dm3,
        machine_minutes,
        changes: made.changes,
        change_minutes,
        sorts,
        hand,
        costs,
        price,
    }
}

#[cfg(test)]
mod tests;
