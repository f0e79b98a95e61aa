//! The price shared out among the sorts.

use std::sync::Arc;

use rayon::prelude::*;

use crate::pass::SortPasses;
use crate::quote::hand::{By, HandWork, knife_minutes};
use crate::quote::{Costs, HUNDREDTHS, MINUTES_PER_HOUR, Made, hundredths};
use crate::sort::Sort;
use crate::toolpath::{duration, join_one};
use crate::workshop::{Rates, Workshop};

/// What a sort is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct SortPrice {
    /// The sort's name.
    pub sort: String,
    /// Copies.
    pub count: u32,
    /// Minutes of the machine for one copy, its share of ways between sorts included.
    pub machine_minutes: f64,
    /// Minutes with the knife for one copy.
    pub knife_minutes: f64,
    /// Price of one copy, in whole hundredths.
    pub price: f64,
}

/// What one copy of each sort takes on the machine by itself, s.
pub(super) fn seconds_alone(
    sorts: &[Arc<Sort>],
    passes: &[Arc<Vec<SortPasses>>],
    workshop: &Workshop,
) -> Vec<f64> {
    let each = (0..sorts.len()).into_par_iter();
    each.map(|sort| {
        passes
            .get(sort)
            .map_or(0.0, |passes| alone(passes, workshop))
    })
    .collect()
}

/// What the passes over one sort take, s.
pub(super) fn alone(passes: &[SortPasses], workshop: &Workshop) -> f64 {
    passes
        .iter()
        .filter_map(|passes| Some((passes, workshop.cutter(&passes.cutter)?)))
        .map(|(passes, cutter)| {
            let motions = join_one(passes, cutter, &workshop.machine).motions;
            duration::of_motions(&motions, &workshop.machine)
        })
        .sum()
}

/// Shares of the whole by weights; even shares where nothing weighs.
struct Shares {
    weights: Vec<f64>,
    whole: f64,
}

impl Shares {
    /// Weights of one copy each.
    fn of(made: &Made<'_>, weight: impl Fn(usize, &Sort) -> f64) -> Shares {
        let mut weights: Vec<f64> = made
            .sorts
            .iter()
            .enumerate()
            .map(|(number, sort)| weight(number, sort))
            .collect();
        let sum = |weights: &[f64]| -> f64 {
            let copies = made.sorts.iter().map(|sort| f64::from(sort.count));
            weights.iter().zip(copies).map(|(a, b)| a * b).sum()
        };
        if sum(&weights) <= 0.0 {
            weights.fill(1.0);
        }
        let whole = sum(&weights).max(f64::MIN_POSITIVE);
        Shares { weights, whole }
    }

    /// The part of the whole that one copy has.
    fn part(&self, sort: usize) -> f64 {
        self.weights[sort] / self.whole
    }
}

/// The price of each sort: in proportion to what it costs, so that all copies together come to the whole price but for rounding.
pub(super) fn shared_out(
    made: &Made<'_>,
    (costs, hand): (&Costs, &[HandWork]),
    price: f64,
    rates: &Rates,
) -> Vec<SortPrice> {
    let by_time = Shares::of(made, |sort, _| made.seconds_alone[sort]);
    let by_area = Shares::of(made, |_, sort| sort.block.set_mm * sort.block.body_mm);
    let by_block = Shares::of(made, |_, _| 1.0);
    let by_corners = Shares::of(made, |sort, _| knife_minutes(made, sort, rates)[0]);
    let by_ground = Shares::of(made, |sort, _| knife_minutes(made, sort, rates)[1]);
    let minutes: f64 = hand.iter().map(|work| work.minutes).sum();
    // Changes of cutter go with the machine's time.
    let changing = costs.hand - minutes * rates.hand_per_hour / MINUTES_PER_HOUR;
    let own = |sort: usize| {
        let hand: f64 = hand
            .iter()
            .map(|work| {
                let shares = match work.by {
                    By::Corners => &by_corners,
                    By::Ground => &by_ground,
                    By::Area => &by_area,
                    By::Blocks => &by_block,
                };
                work.minutes * shares.part(sort)
            })
            .sum();
        (costs.machine + changing) * by_time.part(sort)
            + hand * rates.hand_per_hour / MINUTES_PER_HOUR
            + costs.wood * by_area.part(sort)
    };
    let by_cost = Shares::of(made, |sort, _| own(sort));
    made.sorts
        .iter()
        .enumerate()
        .map(|(number, sort)| SortPrice {
            sort: sort.name.clone(),
            count: sort.count,
            machine_minutes: made.seconds / super::SECONDS_PER_MINUTE * by_time.part(number),
            knife_minutes: knife_minutes(made, number, rates).iter().sum(),
            price: hundredths(price * by_cost.part(number)) as f64 / HUNDREDTHS,
        })
        .collect()
}
