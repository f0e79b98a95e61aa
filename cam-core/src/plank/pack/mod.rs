//! Blocks on as few equal planks as possible, so that straight cuts from edge to edge part them.
//!
//! Sizes are whole micrometres and hold a lane to the right and above, so that blocks may touch. Several ways are tried, and the best
//! is taken: the fewest planks, then the fewest blocks in rows of another body, then the emptiest last plank.

mod bound;
mod levels;
pub(super) mod line;
mod small;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

use crate::commission::RowsOf;

use self::levels::{Choice, Row};

/// A block with its lane.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Item {
    /// Size across, µm.
    pub w: i64,
    /// Size along, µm.
    pub h: i64,
}

/// Where a block's lower left corner lies in the room of a plank, µm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The block, by its place in the list.
    pub item: usize,
    /// From the left.
    pub x: i64,
    /// From below.
    pub y: i64,
}

/// Blocks on equal planks.
#[derive(Clone, Debug, Default)]
pub struct Packing {
    /// The spots on each plank, the fullest plank first.
    pub planks: Vec<Vec<Spot>>,
    /// No fewer planks could do under the rule for rows.
    pub at_least: usize,
}

/// Packs blocks onto planks with a room of `x` by `y`; each block is to fit.
pub fn pack(items: &[Item], (x, y): (i64, i64), rows: RowsOf) -> Packing {
    if items.is_empty() {
        return Packing::default();
    }
    let any = bound::at_least(items, x, y);
    let (of_one, rows_proven) = levels::one_body(items, x);
    let of_one = stacked(of_one, items, y);
    match rows {
        RowsOf::OneBody => {
            let at_least = any.max(if rows_proven {
                if of_one.1 {
                    of_one.0.len()
                } else {
                    rows_bound(items, x, y)
                }
            } else {
                rows_bound(items, x, y)
            });
            Packing {
                planks: fullest_first(of_one.0, items),
                at_least,
            }
        }
        RowsOf::Mixed => mixed(items, (x, y), any, of_one.0),
    }
}

/// No fewer planks with a room of `x` by `y` hold the blocks, however they lie.
pub fn at_least(items: &[Item], x: i64, y: i64) -> usize {
    bound::at_least(items, x, y)
}

/// The least number of planks for rows of one body: rows by their lengths, planks by the rows' heights.
fn rows_bound(items: &[Item], x: i64, y: i64) -> usize {
    let mut by_body: BTreeMap<i64, Vec<i64>> = BTreeMap::new();
    for item in items {
        by_body.entry(item.h).or_default().push(item.w);
    }
    let heights: Vec<i64> = by_body
        .iter()
        .flat_map(|(&h, widths)| std::iter::repeat_n(h, line::at_least(widths, x)))
        .collect();
    line::at_least(&heights, y)
}

fn mixed(items: &[Item], (x, y): (i64, i64), any: usize, of_one: Vec<Vec<Spot>>) -> Packing {
    let mut ways = vec![of_one];
    if ways[0].len() > any {
        ways.extend(in_rows(items, x, y));
        let turned: Vec<Item> = items
            .iter()
            .map(|item| Item {
                w: item.h,
                h: item.w,
            })
            .collect();
        ways.extend(in_rows(&turned, y, x).into_iter().map(turned_back));
    }
    let fewest = |ways: &[Vec<Vec<Spot>>]| ways.iter().map(Vec::len).min().unwrap_or(0);
    let mut at_least = any;
    if fewest(&ways) > any
        && let Some(way) = small::fewest(items, x, y)
    {
        at_least = way.len();
        ways.push(way);
    }
    let planks = ways
        .into_iter()
        .map(|way| fullest_first(way, items))
        .min_by_key(|way| {
            (
                way.len(),
                in_rows_of_another_body(way, items),
                way.last().map_or(0, |last| top(last, items)),
            )
        })
        .unwrap_or_default();
    Packing { planks, at_least }
}

/// Layouts in rows, each row as high as its highest block.
fn in_rows(items: &[Item], x: i64, y: i64) -> Vec<Vec<Vec<Spot>>> {
    [Choice::Next, Choice::First, Choice::Best]
        .map(|choice| levels::by_height(items, x, choice))
        .into_iter()
        .chain([levels::cascade(items, x)])
        .chain(levels::knapsacks(items, x))
        .map(|rows| stacked(rows, items, y).0)
        .collect()
}

fn turned_back(way: Vec<Vec<Spot>>) -> Vec<Vec<Spot>> {
    let turned = |spot: Spot| Spot {
        x: spot.y,
        y: spot.x,
        ..spot
    };
    way.into_iter()
        .map(|plank| plank.into_iter().map(turned).collect())
        .collect()
}

/// Rows onto planks, the highest at the bottom; and whether no fewer planks would take these rows.
fn stacked(rows: Vec<Row>, items: &[Item], y: i64) -> (Vec<Vec<Spot>>, bool) {
    let heights: Vec<i64> = rows.iter().map(|row| row.h).collect();
    let packed = line::pack(&heights, y);
    let planks = packed
        .rooms
        .into_iter()
        .map(|mut numbers| {
            numbers.sort_by_key(|&number| (-rows[number].h, number));
            let mut spots = Vec::new();
            let mut at_y = 0;
            for number in numbers {
                let mut at_x = 0;
                for &item in &rows[number].items {
                    spots.push(Spot {
                        item,
                        x: at_x,
                        y: at_y,
                    });
                    at_x += items[item].w;
                }
                at_y += rows[number].h;
            }
            spots
        })
        .collect();
    (planks, packed.proven)
}

/// The planks in the order of how much lies on them.
fn fullest_first(mut planks: Vec<Vec<Spot>>, items: &[Item]) -> Vec<Vec<Spot>> {
    let area = |plank: &[Spot]| -> i128 {
        plank
            .iter()
            .map(|spot| i128::from(items[spot.item].w) * i128::from(items[spot.item].h))
            .sum()
    };
    planks.sort_by_key(|plank| -area(plank));
    planks
}

/// How many blocks lie beside one of another body.
fn in_rows_of_another_body(planks: &[Vec<Spot>], items: &[Item]) -> usize {
    planks
        .iter()
        .map(|plank| {
            let mut highest: BTreeMap<i64, i64> = BTreeMap::new();
            for spot in plank {
                let h = highest.entry(spot.y).or_default();
                *h = items[spot.item].h.max(*h);
            }
            plank
                .iter()
                .filter(|spot| items[spot.item].h < highest[&spot.y])
                .count()
        })
        .sum()
}

/// How far blocks reach along a plank.
fn top(plank: &[Spot], items: &[Item]) -> i64 {
    plank
        .iter()
        .map(|spot| spot.y + items[spot.item].h)
        .max()
        .unwrap_or(0)
}
