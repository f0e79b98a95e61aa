//! A set's price, added up from its cutters' turns.

use super::choice::{Step, end, step};
use super::hand::ByHand;
use super::time::Seconds;
use super::{Job, PricedSet};
use crate::workshop::Cutter;

const SECONDS_PER_MINUTE: f64 = 60.0;
const MINUTES_PER_HOUR: f64 = 60.0;
const MM2_PER_CM2: f64 = 100.0;

/// Everything that prices are added up from.
pub(super) struct Pricing<'a> {
    pub job: &'a Job<'a>,
    pub cutters: &'a [&'a Cutter],
    pub depths: &'a [f64],
    pub by_hand: &'a ByHand,
    pub seconds: Seconds,
}

impl Pricing<'_> {
    /// The turns of a set that are not timed.
    pub(super) fn untimed(&self, set: &[usize]) -> Vec<Step> {
        (0..set.len())
            .map(|place| step(set, place, self.cutters, self.depths))
            .filter(|step| !self.seconds.contains_key(step))
            .collect()
    }

    /// The price of a set whose turns are all timed.
    pub(super) fn price(&self, set: &[usize]) -> PricedSet {
        self.price_with(set, 0.0)
    }

    /// The price of a set whose turns are all timed but for those that take `more_seconds` together; they change no cutter.
    pub(super) fn price_with(&self, set: &[usize], more_seconds: f64) -> PricedSet {
        let mut seconds = more_seconds;
        let mut changes = 0;
        for place in 0..set.len() {
            let step = step(set, place, self.cutters, self.depths);
            let Some(by_sort) = self.seconds.get(&step) else {
                continue;
            };
            for plank in self.job.planks {
                let on_plank: f64 = plank
                    .places
                    .iter()
                    .filter_map(|place| by_sort.get(place.sort))
                    .sum();
                seconds += on_plank;
                changes += u32::from(on_plank > 0.0);
            }
        }
        let left = self
            .by_hand
            .get(&end(set, self.cutters))
            .copied()
            .unwrap_or_default();
        let rates = &self.job.workshop.rates;
        let machine_minutes = seconds / SECONDS_PER_MINUTE;
        let change_minutes = f64::from(changes) * self.job.workshop.machine.change_minutes;
        let ground_cm2 = left.ground_mm2 / MM2_PER_CM2;
        let hand_minutes =
            left.corners as f64 * rates.corner_minutes + ground_cm2 * rates.ground_minutes_per_cm2;
        let machine = (machine_minutes + change_minutes) * rates.machine_per_hour;
        let hand = (hand_minutes + change_minutes) * rates.hand_per_hour;
        PricedSet {
            cutters: set
                .iter()
                .map(|&number| self.cutters[number].id.clone())
                .collect(),
            machine_minutes,
            changes,
            change_minutes,
            corners: left.corners,
            ground_cm2,
            hand_minutes,
            cost: (machine + hand) / MINUTES_PER_HOUR,
        }
    }
}
