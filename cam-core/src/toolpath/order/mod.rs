//! The order in which things are cut, and where each is begun, so that the way between them is short.
//!
//! A generalised travelling salesman's path with free ends: every stop is visited once, at one of its options, after the stops
//! that it must follow. A path by nearest neighbours (or the order given, if shorter) is improved by moving and reversing
//! runs of stops, then shaken and improved again until that is in vain or a budget is used up. Between some stops there are better ways than straight
//! ones. Nothing depends on chance: the shaking follows a fixed sequence.
//!
//! # Source
//! Reversing runs: G. A. Croes, 1958; moving short runs: I. Or, 1976; shaking by exchanging two runs that follow one another: O. Martin,
//! S. W. Otto and E. W. Felten, 1991. All from memory; the tests compare with the bound of Held and Karp. Options by a shortest path: textbook.

mod path;
mod ways;

use kurbo::Point;

use crate::toolpath::order::path::Path;

/// Something to be cut with the cutter down all the while.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stop {
    /// Where it may be begun, and where it then ends; at least one.
    pub options: Vec<Ends>,
    /// The stops that come before it, by number; each less than its own.
    pub after: Vec<usize>,
    /// The stops to which there is a better way from its end than straight on, by number, and as how long that counts, mm: less than
    /// nothing where it spares more than all of the travel.
    pub better: Vec<(usize, f64)>,
}

/// Where a cut begins and ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends {
    /// Where the cutter comes down.
    pub start: Point,
    /// Where it is lifted.
    pub end: Point,
}

/// A stop in its turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Visit {
    /// The stop's number.
    pub stop: usize,
    /// The number of its option.
    pub option: usize,
}

/// The most stops that are ordered together; more are ordered piece by piece, since the work grows with the square.
const MOST_TOGETHER: usize = 6000;

/// How much work an order is worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Care {
    /// For an estimate: no shaking.
    Quick,
    /// For a program.
    Thorough,
}

/// All stops in a good order, none before those that it must follow. Stops without options are left out.
///
/// The order given must be a possible one. The same stops give the same order.
pub fn order(stops: &[Stop], care: Care) -> Vec<Visit> {
    let numbers: Vec<usize> = (0..stops.len())
        .filter(|&stop| !stops[stop].options.is_empty())
        .collect();
    numbers
        .chunks(MOST_TOGETHER)
        .flat_map(|chunk| Path::new(stops, chunk).improved(care))
        .collect()
}

/// Length of the way between the stops in an order, mm.
pub fn travel(stops: &[Stop], visits: &[Visit]) -> f64 {
    let ends = |visit: &Visit| stops[visit.stop].options[visit.option];
    visits
        .windows(2)
        .map(|pair| ends(&pair[0]).end.distance(ends(&pair[1]).start))
        .fold(0.0, |sum, way| sum + way)
}
