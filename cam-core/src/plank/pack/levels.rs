//! Blocks in rows across a plank, each row as high as its highest block.
//!
//! # Source
//! Next fit and first fit by decreasing height: E. G. Coffman, M. R. Garey, D. S. Johnson, R. E. Tarjan, 1980. Best fit by decreasing
//! height, and rows onto planks: J. O. Berkey, P. Y. Wang, 1987. Rows filled as knapsacks: A. Lodi, S. Martello, D. Vigo, 1999. All from
//! memory.

use super::Item;
use super::line;

/// The most blocks for which rows are filled as knapsacks.
const MOST_FOR_KNAPSACKS: usize = 400;
/// Parts that a row's length is divided into for knapsacks: a tenth of a millimetre of an ordinary plank.
const KNAPSACK_PARTS: i64 = 4_000;

/// A row: its height, and its blocks from left to right.
#[derive(Clone)]
pub struct Row {
    pub h: i64,
    pub items: Vec<usize>,
}

/// How the row for the next block is chosen.
#[derive(Clone, Copy)]
pub enum Choice {
    /// The last row, or a new one.
    Next,
    /// The first row that takes it.
    First,
    /// The fullest row that takes it.
    Best,
}

/// Highest first, widest first among equals, then in their order.
pub fn highest_first(items: &[Item]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..items.len()).collect();
    order.sort_by_key(|&at| (-items[at].h, -items[at].w, at));
    order
}

/// Blocks highest first into rows.
pub fn by_height(items: &[Item], x: i64, choice: Choice) -> Vec<Row> {
    let mut rows: Vec<(i64, Row)> = Vec::new();
    for at in highest_first(items) {
        let item = &items[at];
        let takes = |(free, _): &(i64, Row)| *free >= item.w;
        let found = match choice {
            Choice::Next => rows.len().checked_sub(1).filter(|&last| takes(&rows[last])),
            Choice::First => rows.iter().position(takes),
            Choice::Best => (0..rows.len())
                .filter(|&row| takes(&rows[row]))
                .min_by_key(|&row| rows[row].0),
        };
        match found {
            Some(row) => {
                rows[row].0 -= item.w;
                rows[row].1.items.push(at);
            }
            None => rows.push((
                x - item.w,
                Row {
                    h: item.h,
                    items: vec![at],
                },
            )),
        }
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

/// Places of blocks, body by body, the highest first.
fn bodies(items: &[Item]) -> Vec<Vec<usize>> {
    let order = highest_first(items);
    order
        .chunk_by(|&a, &b| items[a].h == items[b].h)
        .map(<[usize]>::to_vec)
        .collect()
}

/// Rows of one body each, and whether no fewer rows of one body would do.
pub fn one_body(items: &[Item], x: i64) -> (Vec<Row>, bool) {
    let mut rows = Vec::new();
    let mut proven = true;
    for body in bodies(items) {
        let widths: Vec<i64> = body.iter().map(|&at| items[at].w).collect();
        let packed = line::pack(&widths, x);
        proven &= packed.proven;
        rows.extend(packed.rooms.into_iter().map(|room| Row {
            h: items[body[0]].h,
            items: room.into_iter().map(|place| body[place]).collect(),
        }));
    }
    (rows, proven)
}

/// Rows of one body as far as they fill; the emptiest row of each body takes blocks of smaller bodies.
pub fn cascade(items: &[Item], x: i64) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut left: Vec<usize> = highest_first(items);
    while let Some(&first) = left.first() {
        let h = items[first].h;
        let count = left.iter().take_while(|&&at| items[at].h == h).count();
        let body: Vec<usize> = left.drain(..count).collect();
        let widths: Vec<i64> = body.iter().map(|&at| items[at].w).collect();
        let mut made: Vec<Row> = line::pack(&widths, x)
            .rooms
            .into_iter()
            .map(|room| Row {
                h,
                items: room.into_iter().map(|place| body[place]).collect(),
            })
            .collect();
        let used = |row: &Row| row.items.iter().map(|&at| items[at].w).sum::<i64>();
        if let Some(row) = made.iter_mut().min_by_key(|row| used(row)) {
            let room = x - used(row);
            // Widest first: what is chosen then leaves the fewest blocks for rows of their own.
            left.sort_by_key(|&at| (-items[at].w, at));
            let others: Vec<i64> = left.iter().map(|&at| items[at].w).collect();
            let chosen = line::fullest(&others, room);
            row.items.extend(chosen.iter().map(|&at| left[at]));
            for at in chosen.into_iter().rev() {
                left.remove(at);
            }
            left.sort_by_key(|&at| (-items[at].h, -items[at].w, at));
        }
        rows.extend(made);
    }
    rows
}

/// Each row begins with the highest block left; the others in it are those that cover most.
pub fn knapsacks(items: &[Item], x: i64) -> Option<Vec<Row>> {
    if items.len() > MOST_FOR_KNAPSACKS {
        return None;
    }
    let mut left = highest_first(items);
    let mut rows = Vec::new();
    while !left.is_empty() {
        let first = left.remove(0);
        let chosen = covering_most(items, &left, x - items[first].w, x);
        let mut row = vec![first];
        row.extend(chosen.iter().map(|&at| left[at]));
        for at in chosen.into_iter().rev() {
            left.remove(at);
        }
        rows.push(Row {
            h: items[first].h,
            items: row,
        });
    }
    Some(rows)
}

/// Places in `left` of the blocks that together cover most and fit into the room, in order.
fn covering_most(items: &[Item], left: &[usize], room: i64, x: i64) -> Vec<usize> {
    let unit = (x / KNAPSACK_PARTS).max(1);
    let room = usize::try_from(room / unit).unwrap_or(0);
    let width = |at: usize| usize::try_from((items[at].w + unit - 1) / unit).unwrap_or(usize::MAX);
    // best[c]: the most area in a room of c; took[i][c]: whether block i is part of it.
    let mut best = vec![0_i64; room + 1];
    let mut took = vec![Vec::new(); left.len()];
    for (number, &at) in left.iter().enumerate() {
        let w = width(at);
        if w > room {
            continue;
        }
        let area = items[at].w.saturating_mul(items[at].h);
        let taken = &mut took[number];
        taken.resize(room + 1, false);
        for c in (w..=room).rev() {
            let with = best[c - w] + area;
            if with > best[c] {
                best[c] = with;
                taken[c] = true;
            }
        }
    }
    let mut chosen = Vec::new();
    let mut c = room;
    for (number, &at) in left.iter().enumerate().rev() {
        if took[number].get(c).copied().unwrap_or(false) {
            chosen.push(number);
            c -= width(at);
        }
    }
    chosen.reverse();
    chosen
}
