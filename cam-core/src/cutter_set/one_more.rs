//! What one more cutter beside the cheapest set would save.

use std::collections::BTreeSet;

use said::plain_number;

use super::choice::{Step, depths, ends, is_flat, steps};
use super::hand::by_hand;
use super::price::Pricing;
use super::time::{Grounds, seconds};
use super::{Job, PricedSet};
use crate::feeds;
use crate::make::MakeError;
use crate::measure::Length;
use crate::progress::Progress;
use crate::workshop::{Cutter, CutterShape};

/// One more cutter beside the cheapest set.
#[derive(Clone, Debug, PartialEq)]
pub struct OneMore {
    /// The cutter: its id, or its size in words if it is not owned.
    pub cutter: String,
    /// Whether the workshop owns it.
    pub owned: bool,
    /// Corners that the knife is spared.
    pub corners_spared: u64,
    /// What it saves in all; less than nothing if it costs more than it spares.
    pub saves: f64,
    /// The price of the cheapest set with it.
    pub with_it: PricedSet,
}

/// Diameters that flat cutters are sold in, mm. Common practice, no source.
const SOLD_MM: [f64; 12] = [0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0];

/// How many sizes that are not owned are tried: those next below the smallest of the set.
const SIZES_TRIED: usize = 3;

/// A size this near to an owned one is the same, as a part of it.
const SAME_SIZE: f64 = 0.05;

/// What one more cutter would save beside the cheapest set: each of those compared, and some sizes not owned.
pub(super) fn one_more(
    pricing: &Pricing<'_>,
    grounds: &Grounds,
    priced: &[(Vec<usize>, PricedSet)],
    progress: &Progress,
) -> Result<Vec<OneMore>, MakeError> {
    let Some((best, price)) = priced.first() else {
        return Ok(Vec::new());
    };
    let mut found: Vec<OneMore> = (0..pricing.cutters.len())
        .filter(|number| !best.contains(number))
        .filter_map(|number| {
            let mut set = best.clone();
            set.push(number);
            set.sort_unstable();
            let (_, with_it) = priced.iter().find(|(other, _)| *other == set)?;
            let id = pricing.cutters[number].id.clone();
            Some(beside(price, id, true, with_it))
        })
        .collect();
    found.extend(not_owned(pricing, grounds, best, price, progress)?);
    found.sort_by(|a, b| {
        let by_owned = b.owned.cmp(&a.owned);
        by_owned.then(b.saves.total_cmp(&a.saves))
    });
    Ok(found)
}

fn beside(price: &PricedSet, cutter: String, owned: bool, with_it: &PricedSet) -> OneMore {
    OneMore {
        cutter,
        owned,
        corners_spared: price.corners.saturating_sub(with_it.corners),
        saves: price.cost - with_it.cost,
        with_it: with_it.clone(),
    }
}

/// Smaller sizes that the workshop does not own, run as proposed for the commission's wood.
fn not_owned(
    pricing: &Pricing<'_>,
    grounds: &Grounds,
    best: &[usize],
    price: &PricedSet,
    progress: &Progress,
) -> Result<Vec<OneMore>, MakeError> {
    let job = pricing.job;
    let set: Vec<&Cutter> = best.iter().map(|&number| pricing.cutters[number]).collect();
    let sizes = smaller(job, &set);
    let owned = pricing.cutters.len();
    let cutters: Vec<&Cutter> = pricing.cutters.iter().copied().chain(&sizes).collect();
    let depths = depths(&cutters, job.commission);
    // The new one comes after the flat ones of the set and before its cones.
    let place = set.iter().filter(|cutter| is_flat(cutter)).count();
    let sets: Vec<Vec<usize>> = (owned..cutters.len())
        .map(|number| {
            let mut with_it = best.to_vec();
            with_it.insert(place, number);
            with_it
        })
        .collect();
    let untimed: BTreeSet<Step> = sets
        .iter()
        .flat_map(|set| steps(std::slice::from_ref(set), &cutters, &depths))
        .filter(|step| !pricing.seconds.contains_key(step))
        .collect();
    let mut known = pricing.seconds.clone();
    known.extend(seconds(
        job,
        grounds,
        (&cutters, &depths),
        &untimed,
        progress,
    )?);
    let by_hand = by_hand(job, grounds, &cutters, &ends(&sets, &cutters), progress)?;
    let pricing = Pricing {
        job,
        cutters: &cutters,
        depths: &depths,
        seconds: known,
        by_hand: &by_hand,
    };
    Ok(sets
        .iter()
        .zip(&sizes)
        .map(|(set, size)| beside(price, size.id.clone(), false, &pricing.price(set)))
        .collect())
}

/// Cutters of sizes sold below the set's smallest flat one and not owned, of the same proportions, that go deep enough.
fn smaller(job: &Job<'_>, set: &[&Cutter]) -> Vec<Cutter> {
    let Some(pattern) = set.iter().rev().find(|cutter| is_flat(cutter)) else {
        return Vec::new();
    };
    let Some(wood) = job.workshop.wood(&job.commission.wood) else {
        return Vec::new();
    };
    let is_owned = |size: f64| {
        job.workshop.cutters.iter().any(|cutter| {
            is_flat(cutter) && (cutter.diameter.in_mm() / size - 1.0).abs() < SAME_SIZE
        })
    };
    let allowance_mm = job.commission.cutting.allowance.in_mm();
    let least = job.commission.cutting.least_relief.in_mm();
    SOLD_MM
        .iter()
        .rev()
        .copied()
        .filter(|&size| size < pattern.diameter.in_mm() && !is_owned(size))
        .map(|size| {
            let plain = scaled(pattern, size);
            feeds::propose(&plain, wood, &job.workshop.machine, allowance_mm).taken_over(&plain)
        })
        .filter(|cutter| cutter.max_depth.in_mm() >= least)
        .take(SIZES_TRIED)
        .collect()
}

/// A flat cutter of another size with flutes and depth in proportion (common practice, no source).
fn scaled(pattern: &Cutter, diameter_mm: f64) -> Cutter {
    let share = diameter_mm / pattern.diameter.in_mm();
    let part = |length: Length| Length::mm(length.in_mm() * share);
    let diameter = Length::mm(diameter_mm);
    Cutter {
        id: format!("flat, {} mm", plain_number(diameter_mm, 2)),
        shape: CutterShape::Flat,
        diameter,
        flute_length: part(pattern.flute_length),
        max_depth: part(pattern.max_depth),
        shank_diameter: Cutter::usual_shank(diameter),
        ..pattern.clone()
    }
}
