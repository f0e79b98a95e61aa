//! A path over stops and the moves that shorten it.

use kurbo::Point;

use crate::toolpath::order::ways::{Leg, Ways};
use crate::toolpath::order::{Care, Ends, Stop, Visit};

/// The longest run of stops that is moved elsewhere.
const LONGEST_RUN: usize = 3;
/// Gains below this are rounding, mm.
const LEAST_GAIN: f64 = 1e-6;
/// The length of a way that is not to be tried.
const NEVER: f64 = f64::INFINITY;
/// Moves per stop in one improvement: never met, since every move gains.
const MOST_MOVES: usize = 500;
/// Shakings for each stop without any gain after which no more are tried.
const VAIN_SHAKES: usize = 10;
/// Shakings times stops: what bounds the work on a path of many.
const SHAKE_WORK: usize = 500_000;
/// The longest of the two runs that a shaking exchanges.
const SHAKEN_RUN: usize = 30;
/// How often the options are chosen anew for the order, and the order for the options.
const ROUNDS: usize = 4;

/// A path: stops by their place in `stops` of this path, in order.
pub(super) struct Path {
    /// The outer numbers of the stops.
    numbers: Vec<usize>,
    before: Vec<Vec<usize>>,
    behind: Vec<Vec<usize>>,
    ways: Ways,
    tour: Tour,
}

/// What changes while a path is shortened.
#[derive(Clone)]
struct Tour {
    /// The option in use of each stop, and where it begins and ends.
    chosen: Vec<usize>,
    ends: Vec<Ends>,
    order: Vec<usize>,
    /// Where each stop stands in the order.
    place: Vec<usize>,
    /// The way to each place of the order from the one before, and the way back; nothing at the first place and beyond the last.
    legs: Vec<Leg>,
    /// Sums of the ways between neighbours in the order, forward and as they would be with the order reversed.
    forward: Vec<f64>,
    backward: Vec<f64>,
}

/// Where a run that is moved comes to lie beside a stop, and the length of the way between them, mm.
#[derive(Clone, Copy)]
enum Seam {
    Head(f64),
    Tail(f64),
}

impl Path {
    /// The stops of these numbers; what they must follow outside of them counts as done.
    pub(super) fn new(stops: &[Stop], numbers: &[usize]) -> Path {
        let count = numbers.len();
        let inner = |outer: usize| numbers.binary_search(&outer).ok();
        let before: Vec<Vec<usize>> = numbers
            .iter()
            .map(|&number| {
                let after = stops[number].after.iter();
                after.filter_map(|&outer| inner(outer)).collect()
            })
            .collect();
        let mut behind = vec![Vec::new(); count];
        for (stop, before) in before.iter().enumerate() {
            for &earlier in before {
                behind[earlier].push(stop);
            }
        }
        let ways = Ways::new(stops, numbers);
        let mut path = Path {
            tour: Tour {
                chosen: vec![0; count],
                ends: (0..count).map(|stop| ways.options(stop)[0]).collect(),
                order: (0..count).collect(),
                place: vec![0; count],
                legs: vec![Leg::default(); count + 1],
                forward: vec![0.0; count],
                backward: vec![0.0; count],
            },
            ways,
            numbers: numbers.to_vec(),
            before,
            behind,
        };
        path.renumber();
        path
    }

    /// The best path found.
    pub(super) fn improved(mut self, care: Care) -> Vec<Visit> {
        let given = (self.tour.order.clone(), self.length());
        self.by_nearest();
        if given.1 < self.length() {
            self.tour.order = given.0;
            self.tour.chosen.fill(0);
            self.renumber();
        }
        for _ in 0..ROUNDS {
            let before = self.length();
            self.choose_options();
            self.improve((0..self.tour.order.len()).collect());
            if self.length() > before - LEAST_GAIN {
                break;
            }
        }
        match care {
            Care::Quick => {}
            Care::Thorough => {
                self.shake();
                self.choose_options();
            }
        }
        let visit = |&stop: &usize| Visit {
            stop: self.numbers[stop],
            option: self.tour.chosen[stop],
        };
        self.tour.order.iter().map(visit).collect()
    }

    fn ends(&self, stop: usize) -> Ends {
        self.tour.ends[stop]
    }

    fn choose(&mut self, stop: usize, option: usize) {
        self.tour.chosen[stop] = option;
        self.tour.ends[stop] = self.ways.options(stop)[option];
    }

    /// The way from one stop to the next.
    fn way(&self, from: usize, to: usize) -> f64 {
        self.ways.between(from, self.ends(from), to, self.ends(to))
    }

    fn leg(&self, from: usize, to: usize) -> Leg {
        Leg {
            there: self.way(from, to),
            back: self.way(to, from),
        }
    }

    /// The way between two places of the order of which either may lie beyond its ends.
    fn gap(&self, from: Option<usize>, to: Option<usize>) -> f64 {
        match (from, to) {
            (Some(from), Some(to)) => self.way(from, to),
            (Some(_) | None, Some(_) | None) => 0.0,
        }
    }

    /// No way between two places of the order, of which either may lie beyond its ends, is shorter than this.
    fn least_gap(&self, from: Option<usize>, to: Option<usize>) -> f64 {
        match (from, to) {
            (Some(from), Some(to)) => self.ways.least_between(from, to),
            (Some(_) | None, Some(_) | None) => 0.0,
        }
    }

    fn length(&self) -> f64 {
        self.tour.forward.last().copied().unwrap_or(0.0)
    }

    fn at(&self, place: usize) -> Option<usize> {
        self.tour.order.get(place).copied()
    }

    fn ahead_of(&self, place: usize) -> Option<usize> {
        place.checked_sub(1).and_then(|place| self.at(place))
    }

    /// After many stops or options have changed.
    fn renumber(&mut self) {
        let count = self.tour.order.len();
        for stop in 0..count {
            self.choose(stop, self.tour.chosen[stop]);
        }
        self.renumber_from(0, count);
    }

    /// Brings all up to date after stops between two places of the order have changed.
    fn renumber_from(&mut self, from: usize, to: usize) {
        let count = self.tour.order.len();
        for place in from..to {
            self.tour.place[self.tour.order[place]] = place;
        }
        for place in from.max(1)..(to + 1).min(count) {
            let (earlier, later) = (self.tour.order[place - 1], self.tour.order[place]);
            self.tour.legs[place] = self.leg(earlier, later);
        }
        let Tour {
            legs,
            forward,
            backward,
            ..
        } = &mut self.tour;
        for place in from.max(1)..count {
            forward[place] = forward[place - 1] + legs[place].there;
            backward[place] = backward[place - 1] + legs[place].back;
        }
    }

    /// Always the nearest stop next that may come.
    fn by_nearest(&mut self) {
        let count = self.tour.order.len();
        let mut waits: Vec<usize> = self.before.iter().map(Vec::len).collect();
        let mut left: Vec<usize> = (0..count).collect();
        let mut order = Vec::with_capacity(count);
        let mut here: Option<Point> = None;
        while !left.is_empty() {
            let mut best = (f64::INFINITY, 0, 0);
            for (index, &stop) in left.iter().enumerate() {
                if waits[stop] > 0 {
                    continue;
                }
                for (option, ends) in self.ways.options(stop).iter().enumerate() {
                    let far = here.map_or(ends.start.x + ends.start.y, |here| {
                        here.distance(ends.start)
                    });
                    if far < best.0 {
                        best = (far, index, option);
                    }
                }
            }
            let stop = left.remove(best.1);
            self.choose(stop, best.2.min(self.ways.options(stop).len() - 1));
            here = Some(self.ends(stop).end);
            order.push(stop);
            for &later in &self.behind[stop] {
                waits[later] = waits[later].saturating_sub(1);
            }
        }
        self.tour.order = order;
        self.renumber();
    }

    /// For the order as it is, the options with the shortest way (a shortest path through layers of options).
    fn choose_options(&mut self) {
        if self.ways.have_one_option() {
            return;
        }
        // For each place and option: the least way so far, and the option before.
        let mut table: Vec<Vec<(f64, usize)>> = Vec::with_capacity(self.tour.order.len());
        for (place, &stop) in self.tour.order.iter().enumerate() {
            let row = self.ways.options(stop).iter().map(|ends| {
                let Some(earlier) = self.ahead_of(place) else {
                    return (0.0, 0);
                };
                let from = self.ways.options(earlier).iter().zip(&table[place - 1]);
                from.enumerate()
                    .map(|(number, (from, so_far))| {
                        let way = self.ways.between(earlier, *from, stop, *ends);
                        (so_far.0 + way, number)
                    })
                    .min_by(|a, b| a.0.total_cmp(&b.0))
                    .unwrap_or((0.0, 0))
            });
            let row = row.collect();
            table.push(row);
        }
        let Some(last) = table.last() else { return };
        let mut option = (0..last.len())
            .min_by(|&a, &b| last[a].0.total_cmp(&last[b].0))
            .unwrap_or(0);
        for (place, row) in table.iter().enumerate().rev() {
            self.tour.chosen[self.tour.order[place]] = option;
            option = row[option].1;
        }
        self.renumber();
    }

    /// Moves and reverses runs around the stops given, and around those that this touches, until nothing gains.
    fn improve(&mut self, mut queue: Vec<usize>) {
        let mut queued = vec![false; self.tour.order.len()];
        for &stop in &queue {
            queued[stop] = true;
        }
        let mut moves = MOST_MOVES * self.tour.order.len();
        // Bound: stops are queued by moves alone, and the moves are counted.
        while let Some(stop) = queue.pop() {
            queued[stop] = false;
            while moves > 0
                && let Some(touched) = self.shorten_at(stop)
            {
                moves -= 1;
                for stop in touched {
                    if !queued[stop] {
                        queued[stop] = true;
                        queue.push(stop);
                    }
                }
            }
        }
    }

    /// One move that gains, if any, with a stop beside one of its neighbours; the stops at the seams.
    fn shorten_at(&mut self, stop: usize) -> Option<Vec<usize>> {
        let at = self.tour.place[stop];
        let (to_here, from_here) = (self.tour.legs[at].there, self.tour.legs[at + 1].there);
        for index in 0..self.ways.near(stop).len() {
            let near = &self.ways.near(stop)[index];
            let other = near.stop;
            let leg = near.legs.unwrap_or_else(|| self.leg(stop, other));
            // What gains puts a way to or from one of its stops that is shorter than the one that it takes away there.
            let shorter = |way: f64, than: f64| if way > than - LEAST_GAIN { NEVER } else { way };
            let leg = Leg {
                there: shorter(leg.there, from_here),
                back: shorter(leg.back, to_here),
            };
            if leg.there.min(leg.back).is_infinite() {
                continue;
            }
            let found = self
                .try_moving(stop, other, leg)
                .or_else(|| self.try_moving(other, stop, leg.turned()))
                .or_else(|| self.try_reversing(stop, other))
                .or_else(|| self.try_reversing(other, stop));
            if found.is_some() {
                return found;
            }
        }
        None
    }

    /// Moves a run that begins or ends with `stop` to right after or right before `other`, to which `leg` leads from it.
    fn try_moving(&mut self, stop: usize, other: usize, leg: Leg) -> Option<Vec<usize>> {
        let (at, by) = (self.tour.place[stop], self.tour.place[other]);
        for length in 1..=LONGEST_RUN {
            for (first, last, target, seam) in [
                (at, at + length - 1, by + 1, Seam::Head(leg.back)),
                ((at + 1).wrapping_sub(length), at, by, Seam::Tail(leg.there)),
            ] {
                if first > last || last >= self.tour.order.len() {
                    continue;
                }
                // The run goes between the stops at `target - 1` and `target`.
                if target >= first && target <= last + 1 {
                    continue;
                }
                if self.cannot_gain(first, last, target, seam) {
                    continue;
                }
                if let Some(touched) = self.move_run(first, last, target) {
                    return Some(touched);
                }
            }
        }
        None
    }

    /// Whether moving a run takes no less way than it frees even if the way that closes its gap were the shortest possible. What takes
    /// least to tell comes first.
    fn cannot_gain(&self, first: usize, last: usize, target: usize, seam: Seam) -> bool {
        let (head, tail) = (self.tour.order[first], self.tour.order[last]);
        // A single stop may be begun elsewhere in its new place.
        if first == last && !self.ways.has_one_option(head) {
            return false;
        }
        let (seam, from, to) = match seam {
            Seam::Head(way) => (way, Some(tail), self.at(target)),
            Seam::Tail(way) => (way, self.ahead_of(target), Some(head)),
        };
        let taken = [first, last + 1, target].map(|place| self.tour.legs[place].there);
        let [ahead, behind, between] = taken;
        let closed = self.least_gap(self.ahead_of(first), self.at(last + 1));
        let spared = ahead + behind + between - seam - closed;
        self.least_gap(from, to) > spared || self.gap(from, to) > spared
    }

    fn move_run(&mut self, first: usize, last: usize, target: usize) -> Option<Vec<usize>> {
        let (head, tail) = (self.tour.order[first], self.tour.order[last]);
        let (ahead, behind) = (self.ahead_of(first), self.at(last + 1));
        let (left, right) = (self.ahead_of(target), self.at(target));
        let leg = |place: usize| self.tour.legs[place].there;
        let freed = leg(first) + leg(last + 1) - self.gap(ahead, behind) + leg(target);
        if first == last {
            // A single stop may be begun elsewhere in its new place.
            let into = |option: &Ends| {
                let from = left.map_or(0.0, |left| {
                    self.ways.between(left, self.ends(left), head, *option)
                });
                let to = right.map_or(0.0, |right| {
                    self.ways.between(head, *option, right, self.ends(right))
                });
                from + to
            };
            let best = self
                .ways
                .options(head)
                .iter()
                .enumerate()
                .map(|(number, option)| (into(option), number))
                .min_by(|a, b| a.0.total_cmp(&b.0))?;
            if best.0 > freed - LEAST_GAIN || !self.may_move(first, last, target) {
                return None;
            }
            self.choose(head, best.1);
        } else {
            let needed = self.gap(left, Some(head)) + self.gap(Some(tail), right);
            if needed > freed - LEAST_GAIN || !self.may_move(first, last, target) {
                return None;
            }
        }
        self.shift_run(first, last, target);
        Some(
            [ahead, behind, left, right, Some(head), Some(tail)]
                .into_iter()
                .flatten()
                .collect(),
        )
    }

    /// Whether a run may hop over the stops between it and its target.
    fn may_move(&self, first: usize, last: usize, target: usize) -> bool {
        let run = &self.tour.order[first..=last];
        if target > last {
            let hopped = last + 1..target;
            run.iter()
                .flat_map(|&stop| &self.behind[stop])
                .all(|&later| !hopped.contains(&self.tour.place[later]))
        } else {
            let hopped = target..first;
            run.iter()
                .flat_map(|&stop| &self.before[stop])
                .all(|&earlier| !hopped.contains(&self.tour.place[earlier]))
        }
    }

    fn shift_run(&mut self, first: usize, last: usize, target: usize) {
        let length = last + 1 - first;
        if target > last {
            self.tour.order[first..target].rotate_left(length);
            self.renumber_from(first, target);
        } else {
            self.tour.order[target..=last].rotate_right(length);
            self.renumber_from(target, last + 1);
        }
    }

    /// Reverses the run after `stop` that ends with `other`, so that `other` follows `stop`; or the run from the first on.
    fn try_reversing(&mut self, stop: usize, other: usize) -> Option<Vec<usize>> {
        let (a, b) = (self.tour.place[stop], self.tour.place[other]);
        // `other` next after `stop`: the run behind `stop` up to `other`. The other way about: the run from `stop` up to
        // before `other`, so that `stop` comes right before `other`.
        let (first, last) = if a < b { (a + 1, b) } else { (b, a - 1) };
        [(first, last), (first, self.tour.order.len() - 1), (0, last)]
            .into_iter()
            .find_map(|(first, last)| self.reverse_run(first, last))
    }

    fn reverse_run(&mut self, first: usize, last: usize) -> Option<Vec<usize>> {
        if first >= last || last >= self.tour.order.len() {
            return None;
        }
        let (ahead, behind) = (self.ahead_of(first), self.at(last + 1));
        let (head, tail) = (self.tour.order[first], self.tour.order[last]);
        let now = self.tour.legs[first].there + self.tour.forward[last] - self.tour.forward[first]
            + self.tour.legs[last + 1].there;
        let then = self.gap(ahead, Some(tail)) + self.tour.backward[last]
            - self.tour.backward[first]
            + self.gap(Some(head), behind);
        if then > now - LEAST_GAIN {
            return None;
        }
        let run = first..=last;
        let fixed = self.tour.order[first..=last]
            .iter()
            .flat_map(|&stop| &self.behind[stop])
            .any(|&later| run.contains(&self.tour.place[later]));
        if fixed {
            return None;
        }
        self.tour.order[first..=last].reverse();
        self.renumber_from(first, last + 1);
        Some(
            [ahead, behind, Some(head), Some(tail)]
                .into_iter()
                .flatten()
                .collect(),
        )
    }

    /// Exchanges two neighbouring runs here and there, improves, and keeps what is shorter.
    fn shake(&mut self) {
        let count = self.tour.order.len();
        if count < 4 {
            return;
        }
        let mut spread = Spread(1);
        let mut in_vain = 0;
        for _ in 0..SHAKE_WORK / count {
            if in_vain > VAIN_SHAKES * count {
                break;
            }
            in_vain += 1;
            let first = spread.below(count - 3);
            let middle = first + 1 + spread.below(SHAKEN_RUN.min(count - first - 2));
            let last = middle + 1 + spread.below(SHAKEN_RUN.min(count - middle - 1));
            if !self.may_move(first, middle - 1, last) {
                continue;
            }
            let (kept, length) = (self.tour.clone(), self.length());
            let seams = [
                self.ahead_of(first),
                self.at(first),
                self.at(middle - 1),
                self.at(middle),
                self.at(last - 1),
                self.at(last),
            ];
            self.shift_run(first, middle - 1, last);
            self.improve(seams.into_iter().flatten().collect());
            if self.length() > length - LEAST_GAIN {
                self.tour = kept;
            } else {
                in_vain = 0;
            }
        }
    }
}

/// Evenly spread numbers (a linear congruential sequence with Knuth's MMIX constants).
struct Spread(u64);

impl Spread {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % count.max(1)
    }
}
