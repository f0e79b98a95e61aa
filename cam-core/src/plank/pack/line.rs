//! Lengths into as few equal rooms as possible: blocks into rows, rows onto planks.
//!
//! # Source
//! Best-fit decreasing: D. S. Johnson, thesis, 1973. Fullest room first (minimum bin slack): J. N. D. Gupta, J. C. Ho, 1999, with the
//! largest length fixed as K. Fleszar, K. S. Hindi, 2002, propose. The bound L2: S. Martello, P. Toth, *Knapsack Problems*, 1990. All from
//! memory; the tests compare with brute force.

/// Steps of one search for the fullest room.
const FULLEST_STEPS: usize = 4_000;
/// Steps of one search for fewer rooms than the quick ways need.
const FEWER_STEPS: usize = 60_000;
/// The most lengths that the slower ways are tried for.
const MOST_FOR_FULLEST: usize = 3_000;
const MOST_FOR_SEARCH: usize = 400;

/// Rooms with the places of the lengths in them, longest first.
pub struct Packed {
    pub rooms: Vec<Vec<usize>>,
    /// Whether no fewer rooms could hold them.
    pub proven: bool,
}

/// Puts lengths into rooms. Each length is to be at most `room`.
pub fn pack(lengths: &[i64], room: i64) -> Packed {
    let order = longest_first(lengths);
    let bound = at_least(lengths, room);
    let mut rooms = best_fit(lengths, &order, room);
    if rooms.len() > bound && lengths.len() <= MOST_FOR_FULLEST {
        let fuller = fullest_first(lengths, &order, room);
        if fuller.len() < rooms.len() {
            rooms = fuller;
        }
    }
    let mut proven = rooms.len() <= bound;
    if !proven && lengths.len() <= MOST_FOR_SEARCH {
        let mut search = Search::new(lengths, &order, room, bound, rooms.len());
        search.go(0);
        proven = search.steps < FEWER_STEPS;
        rooms = search.best.unwrap_or(rooms);
        proven |= rooms.len() <= bound;
    }
    Packed { rooms, proven }
}

/// Places of the lengths, the longest first; equal ones in their order.
fn longest_first(lengths: &[i64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..lengths.len()).collect();
    order.sort_by_key(|&place| (-lengths[place], place));
    order
}

/// No fewer rooms can hold the lengths.
///
/// For each threshold t: lengths above room − t need a room each, those above half as well, and what the latter leave
/// free can take no more of those from t up to half than fits by length.
pub fn at_least(lengths: &[i64], room: i64) -> usize {
    let mut sorted: Vec<i64> = lengths
        .iter()
        .copied()
        .filter(|&length| length > 0)
        .collect();
    sorted.sort_unstable();
    let sums = running_sums(&sorted);
    let between = |low: usize, high: usize| sums[high] - sums[low];
    let half = sorted.partition_point(|&length| 2 * length <= room);
    let mut most = ceil_div(sums[sorted.len()], room);
    let thresholds = std::iter::once(0).chain(sorted[..half].iter().copied());
    let mut before = -1;
    for t in thresholds {
        if t == before {
            continue;
        }
        before = t;
        let small = sorted.partition_point(|&length| length < t).min(half);
        let large = sorted
            .partition_point(|&length| length <= room - t)
            .max(half);
        let own = sorted.len() - half;
        let free = (large - half) as i64 * room - between(half, large);
        let more = ceil_div((between(small, half) - free).max(0), room);
        most = most.max(own as i64 + more);
    }
    usize::try_from(most).unwrap_or(0)
}

fn running_sums(lengths: &[i64]) -> Vec<i64> {
    let mut sums = vec![0];
    let mut sum = 0;
    for length in lengths {
        sum += length;
        sums.push(sum);
    }
    sums
}

fn ceil_div(a: i64, b: i64) -> i64 {
    (a + b - 1).div_euclid(b.max(1))
}

/// Longest first, each into the fullest room that still takes it.
fn best_fit(lengths: &[i64], order: &[usize], room: i64) -> Vec<Vec<usize>> {
    let mut rooms: Vec<(i64, Vec<usize>)> = Vec::new();
    for &place in order {
        let length = lengths[place];
        let fullest = rooms
            .iter_mut()
            .filter(|(free, _)| *free >= length)
            .min_by_key(|(free, _)| *free);
        match fullest {
            Some((free, inside)) => {
                *free -= length;
                inside.push(place);
            }
            None => rooms.push((room - length, vec![place])),
        }
    }
    rooms.into_iter().map(|(_, inside)| inside).collect()
}

/// One room after the other: the longest length left, and the others that fill the rest best.
fn fullest_first(lengths: &[i64], order: &[usize], room: i64) -> Vec<Vec<usize>> {
    let mut left = order.to_vec();
    let mut rooms = Vec::new();
    while !left.is_empty() {
        let first = left.remove(0);
        let others: Vec<i64> = left.iter().map(|&place| lengths[place]).collect();
        let chosen = fullest(&others, room - lengths[first]);
        let mut inside = vec![first];
        inside.extend(chosen.iter().map(|&at| left[at]));
        for at in chosen.into_iter().rev() {
            left.remove(at);
        }
        rooms.push(inside);
    }
    rooms
}

/// The lengths, told longest first, that fill a room best: their places, in order. Ends early where that would take long.
pub fn fullest(lengths: &[i64], room: i64) -> Vec<usize> {
    let mut filling = Filling {
        lengths,
        left: {
            let mut sums = running_sums(&lengths.iter().rev().copied().collect::<Vec<_>>());
            sums.reverse();
            sums
        },
        chosen: Vec::new(),
        best: (-1, Vec::new()),
        room,
        steps: 0,
    };
    filling.go(0, 0);
    filling.best.1
}

struct Filling<'a> {
    lengths: &'a [i64],
    /// The sum of the lengths from each place on.
    left: Vec<i64>,
    chosen: Vec<usize>,
    best: (i64, Vec<usize>),
    room: i64,
    steps: usize,
}

impl Filling<'_> {
    fn go(&mut self, mut at: usize, sum: i64) {
        if sum > self.best.0 {
            self.best = (sum, self.chosen.clone());
        }
        while at < self.lengths.len() {
            self.steps += 1;
            let hopeless = sum + self.left[at] <= self.best.0;
            if self.steps > FULLEST_STEPS || hopeless || self.best.0 == self.room {
                return;
            }
            let length = self.lengths[at];
            if sum + length <= self.room {
                self.chosen.push(at);
                self.go(at + 1, sum + length);
                self.chosen.pop();
            }
            // Another of the same length would do no better in its place.
            let same = |other: &i64| *other == length;
            at += self.lengths[at..]
                .iter()
                .take_while(|other| same(other))
                .count();
        }
    }
}

/// A search through all ways of putting lengths, longest first, into rooms.
struct Search<'a> {
    lengths: &'a [i64],
    order: &'a [usize],
    room: i64,
    bound: usize,
    /// Only fewer rooms than this are looked for.
    fewer_than: usize,
    left: Vec<i64>,
    free: Vec<i64>,
    inside: Vec<Vec<usize>>,
    best: Option<Vec<Vec<usize>>>,
    steps: usize,
}

impl<'a> Search<'a> {
    fn new(
        lengths: &'a [i64],
        order: &'a [usize],
        room: i64,
        bound: usize,
        fewer_than: usize,
    ) -> Search<'a> {
        let shortest_first: Vec<i64> = order.iter().rev().map(|&place| lengths[place]).collect();
        let mut left = running_sums(&shortest_first);
        left.reverse();
        Search {
            lengths,
            order,
            room,
            bound,
            fewer_than,
            left,
            free: Vec::new(),
            inside: Vec::new(),
            best: None,
            steps: 0,
        }
    }

    fn go(&mut self, at: usize) {
        self.steps += 1;
        if self.steps >= FEWER_STEPS || self.fewer_than <= self.bound {
            return;
        }
        let Some(&place) = self.order.get(at) else {
            self.fewer_than = self.inside.len();
            self.best = Some(self.inside.clone());
            return;
        };
        let free: i64 = self.free.iter().sum();
        let more = ceil_div((self.left[at] - free).max(0), self.room);
        if self.free.len() as i64 + more >= self.fewer_than as i64 {
            return;
        }
        let length = self.lengths[place];
        // Equal lengths are interchangeable: each goes no earlier than the one before it.
        let first = match at.checked_sub(1).map(|before| self.order[before]) {
            Some(before) if self.lengths[before] == length => self
                .inside
                .iter()
                .position(|inside| inside.contains(&before))
                .unwrap_or(0),
            Some(_) | None => 0,
        };
        let mut tried = Vec::new();
        for number in first..self.free.len() {
            let free = self.free[number];
            if free < length || tried.contains(&free) {
                continue;
            }
            tried.push(free);
            self.free[number] -= length;
            self.inside[number].push(place);
            self.go(at + 1);
            self.inside[number].pop();
            self.free[number] += length;
        }
        if self.free.len() + 1 < self.fewer_than {
            self.free.push(self.room - length);
            self.inside.push(vec![place]);
            self.go(at + 1);
            self.free.pop();
            self.inside.pop();
        }
    }
}
