//! Blocks on planks against the best that there is on small orders, against bounds, and against published ways of packing.
//!
//! # Source
//! - The best for small orders: every way of dividing the blocks among planks, and every sequence of straight cuts from edge to edge, tried
//!   from the plank downwards (P. C. Gilmore, R. E. Gomory, 1965, describe such cuts; the search here is by brute force).
//! - Next fit, first fit: E. G. Coffman, M. R. Garey, D. S. Johnson, R. E. Tarjan, "Performance bounds for level-oriented
//!   two-dimensional packing algorithms", 1980. Best fit, and rows onto planks by first fit: J. O. Berkey, P. Y. Wang,
//!   "Two-dimensional finite bin-packing algorithms", 1987. All written anew here, from memory.
//! - Sizes of instances, classes 1 to 6: the same Berkey and Wang, as later papers repeat them, from memory.

#![allow(clippy::print_stdout)] // The comparison is the test's result.

use std::collections::BTreeMap;

use cam_core::commission::RowsOf;
use cam_core::plank::pack::{Item, Packing, Spot, pack};

/// Numbers that look random and are the same every time: a multiply-with-carry sequence.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, low: i64, high: i64) -> i64 {
        self.0 = 4_294_957_665 * (self.0 & 0xffff_ffff) + (self.0 >> 32);
        low + i64::try_from(self.0 & 0x7fff_ffff).expect("31 bits") % (high - low + 1)
    }
}

fn blocks(dice: &mut Dice, count: usize, low: i64, high: i64) -> Vec<Item> {
    (0..count)
        .map(|_| Item {
            w: dice.roll(low, high),
            h: dice.roll(low, high),
        })
        .collect()
}

/// Whether some sequence of straight cuts makes these blocks from a piece; each set of blocks is one bit for each.
fn can_be_cut(
    set: u32,
    (w, h): (i64, i64),
    items: &[Item],
    known: &mut BTreeMap<(u32, i64, i64), bool>,
) -> bool {
    let members: Vec<usize> = (0..items.len()).filter(|at| set >> at & 1 == 1).collect();
    if members.iter().any(|&at| items[at].w > w || items[at].h > h) {
        return false;
    }
    if members.len() <= 1 {
        return true;
    }
    if let Some(&known) = known.get(&(set, w, h)) {
        return known;
    }
    let area: i64 = members.iter().map(|&at| items[at].w * items[at].h).sum();
    let mut possible = false;
    if area <= w * h {
        // Each division of the set, and each place of the cut along either side.
        let mut part = (set - 1) & set;
        while part > 0 && !possible {
            let rest = set & !part;
            possible = (1..w).any(|cut| {
                can_be_cut(part, (cut, h), items, known)
                    && can_be_cut(rest, (w - cut, h), items, known)
            }) || (1..h).any(|cut| {
                can_be_cut(part, (w, cut), items, known)
                    && can_be_cut(rest, (w, h - cut), items, known)
            });
            part = (part - 1) & set;
        }
    }
    known.insert((set, w, h), possible);
    possible
}

/// The fewest planks, by trying all.
fn fewest(items: &[Item], size: (i64, i64)) -> usize {
    let mut known = BTreeMap::new();
    let all = (1_u32 << items.len()) - 1;
    let mut best = vec![usize::MAX; all as usize + 1];
    best[0] = 0;
    for set in 1..=all {
        let mut part = set;
        while part > 0 {
            let before = best[(set & !part) as usize];
            if before + 1 < best[set as usize] && can_be_cut(part, size, items, &mut known) {
                best[set as usize] = before + 1;
            }
            part = (part - 1) & set;
        }
    }
    best[all as usize]
}

/// Whether what lies on a plank comes apart by straight cuts, told by its places alone.
fn comes_apart(spots: &[Spot], items: &[Item]) -> bool {
    if spots.len() <= 1 {
        return true;
    }
    let low = |spot: &Spot, across: bool| if across { spot.x } else { spot.y };
    let high = |spot: &Spot, across: bool| {
        let item = items[spot.item];
        if across {
            spot.x + item.w
        } else {
            spot.y + item.h
        }
    };
    [true, false].into_iter().any(|across| {
        spots.iter().map(|spot| low(spot, across)).any(|cut| {
            let clear = spots
                .iter()
                .all(|spot| high(spot, across) <= cut || low(spot, across) >= cut);
            let (before, after): (Vec<Spot>, Vec<Spot>) =
                spots.iter().partition(|spot| low(spot, across) < cut);
            clear && !before.is_empty() && comes_apart(&before, items) && comes_apart(&after, items)
        })
    })
}

fn check(packing: &Packing, items: &[Item], (w, h): (i64, i64)) {
    let mut seen = vec![0; items.len()];
    for plank in &packing.planks {
        assert!(comes_apart(plank, items), "{plank:?}");
        for (number, spot) in plank.iter().enumerate() {
            seen[spot.item] += 1;
            let item = items[spot.item];
            assert!(spot.x >= 0 && spot.y >= 0 && spot.x + item.w <= w && spot.y + item.h <= h);
            for other in &plank[..number] {
                let size = items[other.item];
                assert!(
                    spot.x >= other.x + size.w
                        || other.x >= spot.x + item.w
                        || spot.y >= other.y + size.h
                        || other.y >= spot.y + item.h
                );
            }
        }
    }
    assert!(seen.iter().all(|&times| times == 1));
}

#[test]
fn small_orders_take_the_fewest_planks_that_brute_force_finds() {
    let mut dice = Dice(20_250_101);
    let mut harder = 0;
    for round in 0..60 {
        let count = 4 + round % 4;
        let items = blocks(&mut dice, count, 2, 9);
        let size = (12 + dice.roll(0, 3), 11 + dice.roll(0, 3));
        let packing = pack(&items, size, RowsOf::Mixed);
        check(&packing, &items, size);
        let best = fewest(&items, size);
        assert_eq!(packing.planks.len(), best, "{items:?} on {size:?}");
        assert!(
            packing.at_least <= best,
            "the bound of {items:?} on {size:?}"
        );
        // Small orders are not only best, it is also known of them.
        assert_eq!(packing.at_least, best, "proven: {items:?} on {size:?}");
        let area: i64 = items.iter().map(|item| item.w * item.h).sum();
        harder += usize::from(
            best > usize::try_from((area + size.0 * size.1 - 1) / (size.0 * size.1)).expect("few"),
        );
    }
    assert!(
        harder >= 10,
        "only {harder} need more planks than their area tells"
    );
}

/// The fewest planks for rows of one body, by brute force: rows of each body, then rows onto planks.
fn fewest_in_rows(items: &[Item], (w, h): (i64, i64)) -> usize {
    fn rooms(lengths: &[i64], room: i64, free: &mut Vec<i64>, most: usize) -> usize {
        let Some((&first, rest)) = lengths.split_first() else {
            return free.len();
        };
        let mut best = most;
        for at in 0..free.len() {
            if free[at] >= first {
                free[at] -= first;
                best = best.min(rooms(rest, room, free, best));
                free[at] += first;
            }
        }
        if free.len() < best {
            free.push(room - first);
            best = best.min(rooms(rest, room, free, best));
            free.pop();
        }
        best
    }
    let mut bodies: BTreeMap<i64, Vec<i64>> = BTreeMap::new();
    for item in items {
        bodies.entry(item.h).or_default().push(item.w);
    }
    let rows: Vec<i64> = bodies
        .iter()
        .flat_map(|(&body, sets)| vec![body; rooms(sets, w, &mut Vec::new(), sets.len())])
        .collect();
    rooms(&rows, h, &mut Vec::new(), rows.len())
}

#[test]
fn rows_of_one_body_take_the_fewest_planks_that_such_rows_can() {
    let mut dice = Dice(77);
    for _ in 0..40 {
        let items: Vec<Item> = (0..9)
            .map(|_| Item {
                w: dice.roll(8, 40),
                h: [21, 25, 30][usize::try_from(dice.roll(0, 2)).expect("0 to 2")],
            })
            .collect();
        let size = (100, 60);
        let packing = pack(&items, size, RowsOf::OneBody);
        check(&packing, &items, size);
        let best = fewest_in_rows(&items, size);
        assert_eq!(packing.planks.len(), best, "{items:?}");
        assert_eq!(packing.at_least, best, "{items:?}");
        for plank in &packing.planks {
            for (one, other) in plank.iter().zip(plank.iter().skip(1)) {
                assert!(one.y != other.y || items[one.item].h == items[other.item].h);
            }
        }
    }
}

/// How a published way chooses the row for the next block.
#[derive(Clone, Copy)]
enum Fit {
    Next,
    First,
    Best,
}

/// Planks by a published way: blocks by decreasing height into rows, rows in that order onto planks by first fit.
fn published(items: &[Item], (w, h): (i64, i64), fit: Fit) -> usize {
    let mut order = items.to_vec();
    order.sort_by_key(|item| (-item.h, -item.w));
    let mut rows: Vec<(i64, i64)> = Vec::new();
    for item in order {
        let takes = |row: &(i64, i64)| row.1 + item.w <= w;
        let row = match fit {
            Fit::Next => rows.len().checked_sub(1).filter(|&last| takes(&rows[last])),
            Fit::First => rows.iter().position(takes),
            Fit::Best => (0..rows.len())
                .filter(|&at| takes(&rows[at]))
                .max_by_key(|&at| rows[at].1),
        };
        match row {
            Some(at) => rows[at].1 += item.w,
            None => rows.push((item.h, item.w)),
        }
    }
    let mut planks: Vec<i64> = Vec::new();
    for (row, _) in rows {
        match planks.iter_mut().find(|used| **used + row <= h) {
            Some(used) => *used += row,
            None => planks.push(row),
        }
    }
    planks.len()
}

#[test]
fn instances_of_published_sizes_take_no_more_planks_than_the_best_of_three_published_ways() {
    let classes = [
        (10, 10),
        (10, 30),
        (35, 40),
        (35, 100),
        (100, 100),
        (100, 300),
    ];
    let mut lines = Vec::new();
    let (mut ours_in_all, mut best_in_all, mut bound_in_all) = (0, 0, 0);
    for (class, (largest, side)) in (1..).zip(classes) {
        let (mut ours, mut bound, mut ways) = (0, 0, [0; 3]);
        let mut best = 0;
        for count in [20, 40, 60, 80, 100] {
            for seed in 1..=4 {
                let items = blocks(
                    &mut Dice(1_000 * class + 17 * seed + count),
                    count as usize,
                    1,
                    largest,
                );
                let size = (side, side);
                let packing = pack(&items, size, RowsOf::Mixed);
                check(&packing, &items, size);
                let planks =
                    [Fit::Next, Fit::First, Fit::Best].map(|fit| published(&items, size, fit));
                let least = planks.into_iter().min().expect("three");
                assert!(
                    packing.planks.len() <= least,
                    "class {class}, {count} blocks, seed {seed}"
                );
                assert!(packing.at_least <= packing.planks.len());
                ours += packing.planks.len();
                bound += packing.at_least;
                best += least;
                for (sum, planks) in ways.iter_mut().zip(planks) {
                    *sum += planks;
                }
            }
        }
        lines.push(format!(
            "class {class}: bound {bound}, here {ours}, next fit {}, first fit {}, best fit {}",
            ways[0], ways[1], ways[2]
        ));
        ours_in_all += ours;
        best_in_all += best;
        bound_in_all += bound;
    }
    println!("{}", lines.join("\n"));
    println!("in all: bound {bound_in_all}, here {ours_in_all}, best of three {best_in_all}");
    assert!(ours_in_all < best_in_all, "{lines:?}");
    // Within a fifth of what no packing can beat.
    assert!(5 * ours_in_all <= 6 * bound_in_all, "{lines:?}");
}

#[test]
fn founts_take_no_more_planks_than_the_best_of_three_published_ways() {
    // Bodies in steps of half a line, as a fount with descenders and accents has them; sets of a few dozen widths; in µm.
    let mut dice = Dice(4_711);
    let (mut ours, mut best, mut bound) = (0, 0, 0);
    for round in 0..24 {
        let body = dice.roll(24_000, 70_000);
        let count = usize::try_from(40 + 10 * round).expect("small");
        let items: Vec<Item> = (0..count)
            .map(|_| {
                let steps =
                    [0, 0, 0, 0, 1, 1, 2, 3][usize::try_from(dice.roll(0, 7)).expect("0 to 7")];
                Item {
                    w: 4_000 + 353 * dice.roll(10, 200) * body / 40_000,
                    h: 4_000 + body + 2_109 * steps,
                }
            })
            .collect();
        let size = (388_000, 208_000);
        let packing = pack(&items, size, RowsOf::Mixed);
        check(&packing, &items, size);
        let least = [Fit::Next, Fit::First, Fit::Best]
            .map(|fit| published(&items, size, fit))
            .into_iter()
            .min()
            .expect("three");
        assert!(packing.planks.len() <= least, "{round}");
        ours += packing.planks.len();
        best += least;
        bound += packing.at_least;
    }
    println!("24 founts: bound {bound}, here {ours}, best of three {best}");
    assert!(bound <= ours && ours <= best);
}
