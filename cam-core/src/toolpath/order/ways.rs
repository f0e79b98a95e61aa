//! The ways between stops, as they are given: by where stops begin and end, and by the better ways between some of them.

use std::ops::RangeInclusive;

use crate::toolpath::order::{Ends, Stop};

/// How many near neighbours are tried as the next of a stop.
const NEIGHBOURS: usize = 10;

/// What is known of the ways between the stops of a path.
pub(super) struct Ways {
    /// Options of each stop.
    options: Vec<Vec<Ends>>,
    /// The stops to which a better way leads than straight on, and how long it counts.
    better: Vec<Vec<(usize, f64)>>,
    /// The first and the last stop to which a better way leads from each.
    better_to: Vec<RangeInclusive<usize>>,
    least: Vec<Least>,
    near: Vec<Vec<Near>>,
}

/// A stop near another one.
pub(super) struct Near {
    pub(super) stop: usize,
    /// The ways from that one to it and from it, where each of them has one option alone.
    pub(super) legs: Option<Leg>,
}

/// Lengths of a way and of the way back, mm.
#[derive(Clone, Copy, Default)]
pub(super) struct Leg {
    pub(super) there: f64,
    pub(super) back: f64,
}

impl Leg {
    pub(super) fn turned(self) -> Leg {
        Leg {
            there: self.back,
            back: self.there,
        }
    }
}

/// What ways from a stop and to it are never less than, mm: nothing, or less where better ways are.
#[derive(Clone, Copy, Default)]
struct Least {
    from: f64,
    to: f64,
}

impl Ways {
    /// Between the stops of these numbers, which are counted anew.
    pub(super) fn new(stops: &[Stop], numbers: &[usize]) -> Ways {
        let options: Vec<Vec<Ends>> = numbers
            .iter()
            .map(|&number| stops[number].options.clone())
            .collect();
        let inner = |&(outer, way): &(usize, f64)| Some((numbers.binary_search(&outer).ok()?, way));
        let better: Vec<Vec<(usize, f64)>> = numbers
            .iter()
            .map(|&number| stops[number].better.iter().filter_map(inner).collect())
            .collect();
        let mut ways = Ways {
            better_to: better.iter().map(|better| range(better)).collect(),
            least: least(&better),
            near: Vec::new(),
            options,
            better,
        };
        ways.near = ways.neighbours();
        ways
    }

    /// Options of a stop.
    pub(super) fn options(&self, stop: usize) -> &[Ends] {
        &self.options[stop]
    }

    /// Whether a stop may begin in one place alone.
    pub(super) fn has_one_option(&self, stop: usize) -> bool {
        self.options[stop].len() == 1
    }

    /// Whether all may.
    pub(super) fn have_one_option(&self) -> bool {
        self.options.iter().all(|options| options.len() == 1)
    }

    /// The stops to which better ways lead from one, and those nearest to it, by where they begin and end, in order.
    pub(super) fn near(&self, stop: usize) -> &[Near] {
        &self.near[stop]
    }

    /// The way from one stop to the next, with these options of them.
    pub(super) fn between(&self, from: usize, left: Ends, to: usize, reached: Ends) -> f64 {
        if self.better_to[from].contains(&to) {
            let better = self.better[from].iter().find(|(other, _)| *other == to);
            if let Some((_, way)) = better {
                return *way;
            }
        }
        left.end.distance(reached.start)
    }

    /// No way from one stop to the next is shorter than this.
    pub(super) fn least_between(&self, from: usize, to: usize) -> f64 {
        self.least[from].from.max(self.least[to].to)
    }

    fn neighbours(&self) -> Vec<Vec<Near>> {
        let ends: Vec<Ends> = self.options.iter().map(|of| of[0]).collect();
        let mut far: Vec<(f64, usize)> = Vec::with_capacity(ends.len());
        let nearer = |a: &(f64, usize), b: &(f64, usize)| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1));
        (0..ends.len())
            .map(|stop| {
                far.clear();
                far.extend((0..ends.len()).filter(|&other| other != stop).map(|other| {
                    let to = ends[stop].end.distance_squared(ends[other].start);
                    let from = ends[other].end.distance_squared(ends[stop].start);
                    (to.min(from), other)
                }));
                if far.len() > NEIGHBOURS {
                    far.select_nth_unstable_by(NEIGHBOURS, nearer);
                    far.truncate(NEIGHBOURS);
                }
                far.sort_by(nearer);
                let reached: Vec<usize> = self.better[stop].iter().map(|way| way.0).collect();
                let straight = far.iter().map(|&(_, other)| other);
                let straight = straight.filter(|other| !reached.contains(other));
                let near = reached.iter().copied().chain(straight);
                near.map(|other| Near {
                    stop: other,
                    legs: self.only_legs(stop, other),
                })
                .collect()
            })
            .collect()
    }

    /// The ways between two stops if each of them has one option alone.
    fn only_legs(&self, from: usize, to: usize) -> Option<Leg> {
        let ([left], [reached]) = (self.options(from), self.options(to)) else {
            return None;
        };
        Some(Leg {
            there: self.between(from, *left, to, *reached),
            back: self.between(to, *reached, from, *left),
        })
    }
}

/// The first and the last of the stops to which better ways lead from one.
fn range(better: &[(usize, f64)]) -> RangeInclusive<usize> {
    let stops = || better.iter().map(|&(stop, _)| stop);
    match (stops().min(), stops().max()) {
        (Some(first), Some(last)) => first..=last,
        (Some(_) | None, Some(_) | None) => RangeInclusive::new(1, 0),
    }
}

/// The shortest that ways from and to each stop may be. Only better ways are less than nothing.
fn least(better: &[Vec<(usize, f64)>]) -> Vec<Least> {
    let mut least = vec![Least::default(); better.len()];
    for (from, better) in better.iter().enumerate() {
        for &(to, way) in better {
            least[from].from = way.min(least[from].from);
            least[to].to = way.min(least[to].to);
        }
    }
    least
}
