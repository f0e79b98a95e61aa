//! The way between cuts against a lower bound worked out apart: the 1-tree of Held and Karp.
//!
//! # Source
//! M. Held, R. M. Karp, "The traveling-salesman problem and minimum spanning trees", Operations Research 18 (1970) and
//! Mathematical Programming 1 (1971): no tour is shorter than the least 1-tree whose edges carry a penalty for each end, less
//! twice the penalties; good penalties are found by following the degrees. (Articles from memory.)

#![allow(clippy::print_stdout)] // The figures measured are worth reading.

use cam_core::toolpath::order::{Care, Ends, Stop, Visit, order, travel};
use kurbo::{Point, Vec2};

/// The most that the way may be longer than the bound.
const MOST: f64 = 1.05;

/// Rounds of the ascent.
const ROUNDS: usize = 400;

/// Evenly spread numbers, the same on every run (a linear congruential generator with Knuth's MMIX constants).
struct Spread(u64);

impl Spread {
    fn unit(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / (1_u64 << 31) as f64
    }

    fn point(&mut self, width: f64, length: f64) -> Point {
        Point::new(self.unit() * width, self.unit() * length)
    }
}

/// A lower bound of the length of any path through all nodes, by the 1-tree of the nodes and one more at no distance from
/// any; edges in `fixed` are in every path. `most` is the length of a path known.
fn bound(
    count: usize,
    distance: impl Fn(usize, usize) -> f64,
    fixed: &[(usize, usize)],
    most: f64,
) -> f64 {
    let mut mates = vec![usize::MAX; count];
    for &(a, b) in fixed {
        (mates[a], mates[b]) = (b, a);
    }
    let matrix: Vec<Vec<f64>> = (0..count)
        .map(|a| (0..count).map(|b| distance(a, b)).collect())
        .collect();
    // A fixed edge costs so little that every tree holds it.
    let cheap = -1e6;
    let mut penalty = vec![0.0; count];
    let mut last: Vec<f64> = vec![0.0; count];
    let mut best = f64::NEG_INFINITY;
    let mut step = 2.0;
    let mut since = 0;
    for _ in 0..ROUNDS {
        let cost = |a: usize, b: usize| {
            let way = if mates[a] == b { cheap } else { matrix[a][b] };
            way + penalty[a] + penalty[b]
        };
        let mut degree = vec![0_i32; count];
        let mut nearest = vec![(f64::INFINITY, 0_usize); count];
        let mut inside = vec![false; count];
        let (mut at, mut length) = (0, 0.0);
        inside[0] = true;
        for _ in 1..count {
            let mut next = (f64::INFINITY, 0);
            for node in 0..count {
                if inside[node] {
                    continue;
                }
                let cost = cost(at, node);
                if cost < nearest[node].0 {
                    nearest[node] = (cost, at);
                }
                if nearest[node].0 < next.0 {
                    next = (nearest[node].0, node);
                }
            }
            let (cost, node) = next;
            length += cost;
            inside[node] = true;
            degree[node] += 1;
            degree[nearest[node].1] += 1;
            at = node;
        }
        // The two edges of the node at no distance.
        let mut order: Vec<usize> = (0..count).collect();
        order.sort_by(|&a, &b| penalty[a].total_cmp(&penalty[b]));
        for &node in &order[..2] {
            length += penalty[node];
            degree[node] += 1;
        }
        let found = length - 2.0 * penalty.iter().sum::<f64>() - cheap * fixed.len() as f64;
        if found > best + 1e-9 {
            best = found;
            since = 0;
        } else {
            since += 1;
            if since > 30 {
                (step, since) = (step * 0.7, 0);
            }
        }
        let squares: f64 = degree
            .iter()
            .map(|&degree| f64::from(degree - 2).powi(2))
            .sum();
        if squares == 0.0 {
            break;
        }
        let size = step * (most - found).max(most * 1e-4) / squares;
        for node in 0..count {
            let off = f64::from(degree[node] - 2);
            // A part of the step before keeps the ascent from going to and fro.
            penalty[node] += size * (0.7 * off + 0.3 * last[node]);
            last[node] = off;
        }
    }
    best
}

fn in_order(stops: &[Stop]) -> Vec<Visit> {
    (0..stops.len())
        .map(|stop| Visit { stop, option: 0 })
        .collect()
}

/// The way found for stops, each stop visited once and none before those it must follow.
#[track_caller]
fn way(stops: &[Stop]) -> f64 {
    let visits = order(stops, Care::Thorough);
    let mut seen = vec![false; stops.len()];
    for visit in &visits {
        assert!(!seen[visit.stop], "stop {} twice", visit.stop);
        assert!(stops[visit.stop].after.iter().all(|&earlier| seen[earlier]));
        seen[visit.stop] = true;
    }
    assert!(seen.iter().all(|seen| *seen), "a stop is left out");
    travel(stops, &visits)
}

fn at(place: Point) -> Stop {
    Stop {
        options: vec![Ends {
            start: place,
            end: place,
        }],
        after: Vec::new(),
        better: Vec::new(),
    }
}

#[track_caller]
fn check(name: &str, found: f64, least: f64) {
    let ratio = found / least;
    println!("{name}: {found:.1} mm, bound {least:.1} mm, ratio {ratio:.4}");
    assert!(ratio >= 1.0 - 1e-6, "{name}: the bound is none: {ratio}");
    assert!(ratio <= MOST, "{name}: {ratio}");
}

fn check_points(name: &str, places: &[Point]) {
    let stops: Vec<Stop> = places.iter().map(|&place| at(place)).collect();
    let found = way(&stops);
    let distance = |a: usize, b: usize| places[a].distance(places[b]);
    check(name, found, bound(places.len(), distance, &[], found));
}

#[test]
fn places_spread_over_a_plank() {
    for (seed, count) in [(1, 200), (2, 200), (3, 120), (4, 25)] {
        let mut spread = Spread(seed);
        let places: Vec<Point> = (0..count).map(|_| spread.point(300.0, 150.0)).collect();
        check_points(&format!("{count} places"), &places);
    }
}

/// Spots in the corners of letters that stand in rows.
#[test]
fn places_in_clusters() {
    for seed in 10..12 {
        let mut spread = Spread(seed);
        let places: Vec<Point> = (0..40)
            .map(|letter| Vec2::new(f64::from(letter % 8) * 36.0, f64::from(letter / 8) * 48.0))
            .flat_map(|letter| {
                let corners: Vec<Point> =
                    (0..5).map(|_| spread.point(24.0, 38.0) + letter).collect();
                corners
            })
            .collect();
        check_points("40 letters of 5 places", &places);
    }
}

/// Cuts that run one way: each begins at one place and ends at another.
#[test]
fn cuts_with_two_ends() {
    for seed in 20..22 {
        let mut spread = Spread(seed);
        let cuts: Vec<Ends> = (0..100)
            .map(|_| {
                let start = spread.point(300.0, 150.0);
                let end = start + (spread.point(16.0, 16.0) - Point::new(8.0, 8.0));
                Ends { start, end }
            })
            .collect();
        let stops: Vec<Stop> = cuts
            .iter()
            .map(|&ends| Stop {
                options: vec![ends],
                after: Vec::new(),
                better: Vec::new(),
            })
            .collect();
        let found = way(&stops);
        // Two nodes for each cut, joined by it; from end to start only, so start to start is as good as closed.
        let distance = |a: usize, b: usize| match (a % 2, b % 2) {
            (0, 1) => cuts[b / 2].end.distance(cuts[a / 2].start),
            (1, 0) => cuts[a / 2].end.distance(cuts[b / 2].start),
            _ => 1e5,
        };
        let fixed: Vec<(usize, usize)> =
            (0..cuts.len()).map(|cut| (2 * cut, 2 * cut + 1)).collect();
        check(
            "100 cuts with two ends",
            found,
            bound(2 * cuts.len(), distance, &fixed, found),
        );
    }
}

/// A ring of places at which a closed cut may be begun.
fn ring(middle: Point, size: f64) -> Stop {
    let place =
        |part: u8| middle + Vec2::from_angle(f64::from(part) * std::f64::consts::FRAC_PI_4) * size;
    Stop {
        options: (0..8).map(|part| at(place(part)).options[0]).collect(),
        after: Vec::new(),
        better: Vec::new(),
    }
}

/// The least way from one of the options to one of the others.
fn nearest(from: &Stop, to: &Stop) -> f64 {
    let ways = from
        .options
        .iter()
        .flat_map(|from| to.options.iter().map(move |to| from.end.distance(to.start)));
    ways.fold(f64::INFINITY, f64::min)
}

/// Small closed cuts, begun at any of eight places: the bound takes every two by their nearest places, and so lies the lower
/// the larger they are.
#[test]
fn closed_cuts_begun_where_it_suits() {
    for seed in 30..32 {
        let mut spread = Spread(seed);
        let stops: Vec<Stop> = (0..60)
            .map(|_| ring(spread.point(300.0, 150.0), 0.5))
            .collect();
        let found = way(&stops);
        let distance = |a: usize, b: usize| nearest(&stops[a], &stops[b]);
        check(
            "60 closed cuts",
            found,
            bound(stops.len(), distance, &[], found),
        );
    }
}

/// Of six wide closed cuts every order is tried, with the best starts for each.
#[test]
fn starts_are_chosen_together_with_the_order() {
    for seed in 50..56 {
        let mut spread = Spread(seed);
        let stops: Vec<Stop> = (0..6)
            .map(|_| ring(spread.point(60.0, 60.0), 8.0))
            .collect();
        let found = way(&stops);
        let mut least = f64::INFINITY;
        every_order(&mut in_order(&stops), 0, &mut |visits| {
            least = least.min(with_best_starts(&stops, visits));
        });
        assert!(
            found <= least * MOST + 1e-9,
            "{found} mm where {least} mm is possible"
        );
    }
}

/// The least way in this order, whatever the options.
fn with_best_starts(stops: &[Stop], visits: &[Visit]) -> f64 {
    let mut so_far: Vec<f64> = vec![0.0; stops[visits[0].stop].options.len()];
    for pair in visits.windows(2) {
        let (from, to) = (&stops[pair[0].stop].options, &stops[pair[1].stop].options);
        let next = to.iter().map(|to| {
            let ways = from.iter().zip(&so_far);
            ways.map(|(from, so_far)| so_far + from.end.distance(to.start))
                .fold(f64::INFINITY, f64::min)
        });
        so_far = next.collect();
    }
    so_far.into_iter().fold(f64::INFINITY, f64::min)
}

/// With few stops every order can be tried, with what must come first kept.
#[test]
fn few_stops_are_ordered_as_well_as_can_be() {
    for seed in 40..48 {
        let mut spread = Spread(seed);
        let mut stops: Vec<Stop> = (0..7).map(|_| at(spread.point(100.0, 100.0))).collect();
        stops[4].after = vec![0, 3];
        stops[6].after = vec![4];
        let found = way(&stops);
        let mut least = f64::INFINITY;
        let mut visits = in_order(&stops);
        every_order(&mut visits, 0, &mut |visits| {
            let place = |stop: usize| visits.iter().position(|visit| visit.stop == stop);
            let kept = place(0) < place(4) && place(3) < place(4) && place(4) < place(6);
            if kept {
                least = least.min(travel(&stops, visits));
            }
        });
        assert!(
            found <= least * (1.0 + 1e-9),
            "{found} mm where {least} mm is possible"
        );
    }
}

fn every_order(visits: &mut Vec<Visit>, from: usize, look: &mut impl FnMut(&[Visit])) {
    if from == visits.len() {
        look(visits);
        return;
    }
    for other in from..visits.len() {
        visits.swap(from, other);
        every_order(visits, from + 1, look);
        visits.swap(from, other);
    }
}

/// With better ways than straight ones between some stops: never shorter than the shortest of all orders, tried one by one, and mostly that.
#[test]
fn better_ways_are_taken_where_they_make_the_whole_shorter() {
    const CASES: usize = 60;
    let mut spread = Spread(11);
    let (mut shortest_found, mut taken) = (0, 0);
    for _ in 0..CASES {
        let mut stops: Vec<Stop> = (0..7).map(|_| at(spread.point(60.0, 40.0))).collect();
        for (from, stop) in stops.iter_mut().enumerate() {
            let to = (from + 1 + (spread.unit() * 6.0) as usize) % 7;
            // From something spared to much spared, as where the cutter need not be lifted.
            stop.better = vec![(to, spread.unit() * 50.0 - 30.0)];
        }
        let length = |visits: &[Visit]| -> f64 {
            visits
                .windows(2)
                .map(|pair| {
                    let (from, to) = (&stops[pair[0].stop], &stops[pair[1].stop]);
                    let better = from.better.iter().find(|(other, _)| *other == pair[1].stop);
                    better.map_or(from.options[0].end.distance(to.options[0].start), |of| of.1)
                })
                .sum()
        };
        let visits = order(&stops, Care::Thorough);
        let found = length(&visits);
        let mut shortest = f64::INFINITY;
        every_order(&mut in_order(&stops), 0, &mut |visits| {
            shortest = shortest.min(length(visits));
        });
        assert!(found >= shortest - 1e-9, "{found} {shortest}");
        shortest_found += usize::from(found < shortest + 1e-6);
        taken += visits
            .windows(2)
            .filter(|pair| stops[pair[0].stop].better[0].0 == pair[1].stop)
            .count();
    }
    println!("{shortest_found} of {CASES} orders are the shortest, {taken} better ways taken");
    assert!(shortest_found * 10 >= CASES * 9, "{shortest_found}");
    assert!(taken > 2 * CASES, "{taken}");
}
