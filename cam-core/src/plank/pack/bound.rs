//! Fewer planks than this cannot hold the blocks, however they lie.
//!
//! A function that maps parts of a room to weights, such that what fits into the room side by side never weighs more than one, is applied
//! to widths and another to heights; the products' sum is then no more than the planks' number. With the plain sizes this is the
//! area; with one of the functions plain it is the one-dimensional bound along the other side.
//!
//! # Source
//! S. P. Fekete, J. Schepers, "New classes of fast lower bounds for bin packing problems", 2001 (from memory; the tests compare with brute
//! force).

use std::collections::BTreeMap;

use super::Item;

/// Thresholds tried on each side: more would hardly raise the bound.
const MOST_THRESHOLDS: usize = 24;
/// The functions that round to parts of the room, up to this many parts.
const MOST_PARTS: i64 = 6;
/// A sum that is a whole number must not be rounded up for what floating point adds to it.
const NOISE: f64 = 1e-7;

/// Weights of sizes: never more than 1 in all for what fits side by side.
#[derive(Clone, Copy)]
enum Weight {
    Plain,
    /// Above the room less the threshold: all of the room. Below the threshold: nothing.
    Threshold(i64),
    /// Rounded down to parts, of which the room has one fewer than its sizes would have.
    Parts(i64),
}

impl Weight {
    fn of(self, size: i64, room: i64) -> f64 {
        let plain = size as f64 / room as f64;
        match self {
            Weight::Plain => plain,
            Weight::Threshold(t) if size > room - t => 1.0,
            Weight::Threshold(t) if size < t => 0.0,
            Weight::Threshold(_) => plain,
            Weight::Parts(k) => {
                let scaled = i128::from(size) * i128::from(k + 1);
                if scaled % i128::from(room) == 0 {
                    plain
                } else {
                    (scaled / i128::from(room)) as f64 / k as f64
                }
            }
        }
    }
}

/// The least number of planks.
pub fn at_least(items: &[Item], x: i64, y: i64) -> usize {
    let mut kinds: BTreeMap<(i64, i64), u32> = BTreeMap::new();
    for item in items {
        *kinds.entry((item.w, item.h)).or_default() += 1;
    }
    if kinds.is_empty() {
        return 0;
    }
    let across = weights(kinds.keys().map(|&(w, _)| w), x);
    let along = weights(kinds.keys().map(|&(_, h)| h), y);
    let mut most = 1.0_f64;
    for wide in &across {
        let by_kind: Vec<(i64, f64)> = kinds
            .iter()
            .map(|(&(w, h), &count)| (h, f64::from(count) * wide.of(w, x)))
            .collect();
        for high in &along {
            let sum: f64 = by_kind
                .iter()
                .map(|&(h, weight)| weight * high.of(h, y))
                .sum();
            most = most.max(sum);
        }
    }
    (most - NOISE).ceil() as usize
}

fn weights(sizes: impl Iterator<Item = i64>, room: i64) -> Vec<Weight> {
    let mut thresholds: Vec<i64> = sizes
        .map(|size| size.min(room - size + 1))
        .filter(|&t| t > 0 && 2 * t <= room)
        .collect();
    thresholds.sort_unstable();
    thresholds.dedup();
    let step = thresholds.len().div_ceil(MOST_THRESHOLDS).max(1);
    std::iter::once(Weight::Plain)
        .chain(thresholds.into_iter().step_by(step).map(Weight::Threshold))
        .chain((1..=MOST_PARTS).map(Weight::Parts))
        .collect()
}
