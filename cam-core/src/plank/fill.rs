//! One plank filled as well as may be, in rows that step over and aside of bad places.

use std::collections::BTreeMap;

use super::board::{Blocked, Board};
use super::pack::{Item, Spot, line};
use crate::commission::RowsOf;

/// A row that could be laid next.
struct Row {
    y: i64,
    h: i64,
    /// Blocks, and where each begins.
    blocks: Vec<(usize, i64)>,
    area: i128,
}

/// Fills a board with blocks out of `left`; what is not laid stays there, in its order.
///
/// Rows are laid from below. For each the body, and the height at which it begins (at once, or above some bad place), are chosen that
/// cover most of the wood that is used up by it.
pub fn fill(items: &[Item], left: &mut Vec<usize>, board: &Board, rows: RowsOf) -> Vec<Spot> {
    let size = board.size();
    let blocked = board.blocked();
    let mut spots = Vec::new();
    let mut from = 0;
    // Bound: every row takes at least one block.
    while !left.is_empty() {
        let Some(row) = best_row(items, left, size, &blocked, from, rows) else {
            break;
        };
        from = row.y + row.h;
        for &(item, x) in &row.blocks {
            spots.push(Spot { item, x, y: row.y });
        }
        left.retain(|at| row.blocks.iter().all(|(item, _)| item != at));
    }
    spots
}

fn best_row(
    items: &[Item],
    left: &[usize],
    (x, y): (i64, i64),
    blocked: &[Blocked],
    from: i64,
    rows: RowsOf,
) -> Option<Row> {
    let mut bodies: BTreeMap<i64, Vec<usize>> = BTreeMap::new();
    for &at in left {
        bodies.entry(items[at].h).or_default().push(at);
    }
    let mut starts: Vec<i64> = blocked
        .iter()
        .map(|bad| bad.y1)
        .filter(|&y| y > from)
        .collect();
    starts.push(from);
    starts.sort_unstable();
    starts.dedup();
    let mut best: Option<Row> = None;
    for (&h, body) in bodies.iter().rev() {
        for &at in starts.iter().filter(|&&at| at + h <= y) {
            let row = row_at(items, body, &bodies, (at, h), x, blocked, rows);
            let used = |row: &Row| i128::from(row.y + row.h - from);
            let better = best
                .as_ref()
                .is_none_or(|best| row.area * used(best) > best.area * used(&row));
            if !row.blocks.is_empty() && better {
                best = Some(row);
            }
        }
    }
    best
}

/// The fullest row of a body at a height; where the body runs out, smaller ones follow if they may.
fn row_at(
    items: &[Item],
    body: &[usize],
    bodies: &BTreeMap<i64, Vec<usize>>,
    (y, h): (i64, i64),
    x: i64,
    blocked: &[Blocked],
    rows: RowsOf,
) -> Row {
    let mut across: Vec<&Blocked> = blocked
        .iter()
        .filter(|bad| y < bad.y1 && y + h > bad.y0)
        .collect();
    across.sort_by_key(|bad| (bad.x0, bad.x1));
    let smaller = bodies.range(..h).rev().flat_map(|(_, body)| body.iter());
    let mut stock: Vec<usize> = body.to_vec();
    stock.sort_by_key(|&at| (-items[at].w, at));
    let mut others: Vec<usize> = match rows {
        RowsOf::OneBody => Vec::new(),
        RowsOf::Mixed => smaller.copied().collect(),
    };
    others.sort_by_key(|&at| (-items[at].w, at));
    let mut row = Row {
        y,
        h,
        blocks: Vec::new(),
        area: 0,
    };
    let mut start = 0;
    let ends = across.iter().map(|bad| (bad.x0, bad.x1)).chain([(x, x)]);
    for (end, next) in ends {
        let mut end_of_blocks = start;
        for from in [&mut stock, &mut others] {
            let lengths: Vec<i64> = from.iter().map(|&at| items[at].w).collect();
            let chosen = line::fullest(&lengths, end - end_of_blocks);
            for &place in &chosen {
                let item = from[place];
                row.blocks.push((item, end_of_blocks));
                row.area += i128::from(items[item].w) * i128::from(items[item].h);
                end_of_blocks += items[item].w;
            }
            for place in chosen.into_iter().rev() {
                from.remove(place);
            }
            // Smaller bodies come only where this one has run out.
            if !from.is_empty() {
                break;
            }
        }
        start = next.max(end_of_blocks);
    }
    row
}
