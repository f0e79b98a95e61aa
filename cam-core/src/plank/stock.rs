//! Which planks of the stock may be used for a commission, and on which of them the blocks lie with the least wood.

use said::{Said, Value};

use super::board::Board;
use super::fill::fill;
use super::pack::{Item, Packing, Spot, pack};
use crate::commission::{Commission, GrainWanted};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::workshop::{Grain, StockPlank, Workshop};

/// How far a plank may lie under the height to paper, mm: the working limit for height (common practice, no source).
const HEIGHT_MM: f64 = 0.07;
/// The most planks of one kind that are looked at; more could not be used for one commission.
const MOST_ALIKE: u32 = 200;

/// One plank of the stock, in each of the ways that it may lie.
#[derive(Clone)]
pub struct Offered {
    pub ways: Vec<Board>,
    pub count: u32,
}

/// The planks that the commission names and that can be used, with what is to be said of the others.
pub fn offered(commission: &Commission, workshop: &Workshop) -> (Vec<Offered>, Vec<Finding>) {
    let mut findings = Vec::new();
    let mut offered = Vec::new();
    for id in &commission.planks.stock {
        let Some(number) = workshop.stock.iter().position(|plank| plank.id == *id) else {
            findings.push(found(
                Severity::Stop,
                id,
                "stock-unknown",
                texts::stock_unknown(id),
                texts::stock_unknown_remedy(),
            ));
            continue;
        };
        let plank = &workshop.stock[number];
        if let Some(finding) = unfit(plank, commission) {
            findings.push(finding);
            continue;
        }
        let ways: Vec<Board> = [false, true]
            .into_iter()
            .filter(|&turned| grain_suits(plank, turned, commission, workshop))
            .filter_map(|turned| Board::of_stock(plank, number, turned, &commission.planks).ok())
            .filter(|board| some_machine_takes(board, commission, workshop))
            .collect();
        if ways.is_empty() {
            findings.push(found(
                Severity::Warning,
                id,
                "stock-not-used",
                texts::stock_not_used(id),
                texts::stock_not_used_remedy(),
            ));
            continue;
        }
        offered.push(Offered {
            ways,
            count: plank.count.min(MOST_ALIKE),
        });
    }
    (offered, findings)
}

fn unfit(plank: &StockPlank, commission: &Commission) -> Option<Finding> {
    if plank.wood != commission.wood {
        return Some(found(
            Severity::Warning,
            &plank.id,
            "stock-other-wood",
            texts::stock_other_wood(&plank.id, &plank.wood, &commission.wood),
            texts::stock_other_wood_remedy(),
        ));
    }
    let wanted = commission.height_to_paper.in_mm();
    let height = plank.height.map_or(wanted, |height| height.in_mm());
    (height < wanted - HEIGHT_MM).then(|| {
        found(
            Severity::Warning,
            &plank.id,
            "stock-too-low",
            texts::stock_too_low(
                &plank.id,
                Value::rounded(height, 2),
                Value::rounded(wanted - height, 2),
            ),
            texts::stock_too_low_remedy(),
        )
    })
}

/// Whether a plank's fibres run the way that is asked for, as it lies.
fn grain_suits(
    plank: &StockPlank,
    turned: bool,
    commission: &Commission,
    workshop: &Workshop,
) -> bool {
    let grain = if turned {
        plank.turned().grain
    } else {
        plank.grain
    };
    let end_grain = workshop
        .wood(&plank.wood)
        .is_some_and(|wood| wood.end_grain);
    match (commission.planks.grain, grain) {
        (GrainWanted::Any, _) | (_, Some(Grain::End)) => true,
        (GrainWanted::AlongLine, Some(grain)) => grain == Grain::Across,
        (GrainWanted::UpBody, Some(grain)) => grain == Grain::Along,
        (GrainWanted::AlongLine | GrainWanted::UpBody, None) => end_grain,
    }
}

fn some_machine_takes(board: &Board, commission: &Commission, workshop: &Workshop) -> bool {
    let lane = commission.planks.lane.in_mm();
    let over = board.room.inflate(lane, lane);
    workshop.machines().any(|machine| {
        over.width() <= machine.travel_mm[0] && over.height() <= machine.travel_mm[1]
    })
}

/// What a plank of the stock needs before it is cut.
pub fn to_dress(plank: &StockPlank, commission: &Commission) -> Option<Finding> {
    let more = plank.height?.in_mm() - commission.height_to_paper.in_mm();
    (more > HEIGHT_MM).then(|| {
        found(
            Severity::Note,
            &plank.id,
            "plank-to-dress",
            texts::plank_to_dress(&plank.id, Value::rounded(more, 2)),
            texts::plank_to_dress_remedy(),
        )
    })
}

pub fn found(
    severity: Severity,
    plank: &str,
    kind: &'static str,
    text: Said,
    remedy: Said,
) -> Finding {
    Finding {
        severity,
        subject: Subject::Plank(plank.to_owned()),
        kind,
        text,
        remedy,
    }
}

/// Blocks on boards of the stock, and the rest on boards of the size that is told.
pub struct Way {
    pub on_stock: Vec<(Board, Vec<Spot>)>,
    pub rest: Packing,
}

/// The way with the fewest planks beyond the stock, then the least of its wood, then the fewest planks.
///
/// The stock is tried in the order named, from small to large and from large to small; each plank is filled as well as may be, in each
/// of the ways it may lie, and the last gives way to a smaller one that takes as much.
pub fn least_wood(
    items: &[Item],
    offered: &[Offered],
    told: &Board,
    commission: &Commission,
) -> Way {
    let mut named: Vec<usize> = (0..offered.len()).collect();
    let area = |&number: &usize| offered[number].ways[0].area_mm2();
    let mut orders = vec![named.clone()];
    named.sort_by(|a, b| area(a).total_cmp(&area(b)).then(a.cmp(b)));
    orders.push(named.clone());
    named.reverse();
    orders.push(named);
    orders.dedup();
    let ways = orders
        .into_iter()
        .map(|order| in_order(items, &order, offered, told, commission));
    let wood = |way: &Way| -> f64 { way.on_stock.iter().map(|(board, _)| board.area_mm2()).sum() };
    ways.min_by(|a, b| {
        let (beyond_a, beyond_b) = (a.rest.planks.len(), b.rest.planks.len());
        beyond_a
            .cmp(&beyond_b)
            .then(wood(a).total_cmp(&wood(b)))
            .then(a.on_stock.len().cmp(&b.on_stock.len()))
    })
    .unwrap_or(Way {
        on_stock: Vec::new(),
        rest: Packing::default(),
    })
}

fn in_order(
    items: &[Item],
    order: &[usize],
    offered: &[Offered],
    told: &Board,
    commission: &Commission,
) -> Way {
    let rows = commission.planks.rows;
    let mut left: Vec<usize> = (0..items.len()).collect();
    let mut on_stock: Vec<(Board, Vec<Spot>)> = Vec::new();
    let mut free: Vec<u32> = offered.iter().map(|plank| plank.count).collect();
    for &number in order {
        while free[number] > 0 && !left.is_empty() {
            let filled = offered[number].ways.iter().map(|board| {
                let mut still = left.clone();
                let spots = fill(items, &mut still, board, rows);
                (board, better(items, &left, board, spots, commission))
            });
            // Of ways that hold as much the first is taken: the plank as it lies.
            let fullest = filled.rev().max_by_key(|(_, spots)| covered(items, spots));
            let Some((board, spots)) = fullest else {
                break;
            };
            if spots.is_empty() {
                break;
            }
            left.retain(|at| spots.iter().all(|spot| spot.item != *at));
            on_stock.push((board.clone(), spots));
            free[number] -= 1;
        }
    }
    if left.is_empty() {
        smaller_last(items, &mut on_stock, offered, &free, commission);
    }
    let rest = packed_on(items, &left, told, commission);
    Way { on_stock, rest }
}

fn covered(items: &[Item], spots: &[Spot]) -> i128 {
    spots
        .iter()
        .map(|spot| i128::from(items[spot.item].w) * i128::from(items[spot.item].h))
        .sum()
}

/// The spots, or on a board without bad places those of the fullest plank of a whole packing, if that holds more.
fn better(
    items: &[Item],
    left: &[usize],
    board: &Board,
    spots: Vec<Spot>,
    commission: &Commission,
) -> Vec<Spot> {
    let (x, y) = board.size();
    let all_fit = left.iter().all(|&at| items[at].w <= x && items[at].h <= y);
    if !board.blocked().is_empty() || !all_fit || spots.len() == left.len() {
        return spots;
    }
    let whole = packed_on(items, left, board, commission);
    whole
        .planks
        .into_iter()
        .next()
        .filter(|fullest| covered(items, fullest) > covered(items, &spots))
        .unwrap_or(spots)
}

/// Some of the blocks on boards all alike.
pub fn packed_on(
    items: &[Item],
    some: &[usize],
    board: &Board,
    commission: &Commission,
) -> Packing {
    let of_some: Vec<Item> = some.iter().map(|&at| items[at]).collect();
    let mut packing = pack(&of_some, board.size(), commission.planks.rows);
    for spot in packing.planks.iter_mut().flatten() {
        spot.item = some[spot.item];
    }
    packing
}

/// Takes a smaller board for the last one, if a free one holds all that lies on it.
fn smaller_last(
    items: &[Item],
    on_stock: &mut [(Board, Vec<Spot>)],
    offered: &[Offered],
    free: &[u32],
    commission: &Commission,
) {
    let Some((last, spots)) = on_stock.last_mut() else {
        return;
    };
    let mut on_it: Vec<usize> = spots.iter().map(|spot| spot.item).collect();
    on_it.sort_unstable();
    let fits = offered
        .iter()
        .zip(free)
        .filter(|(_, free)| **free > 0)
        .flat_map(|(plank, _)| &plank.ways)
        .filter(|board| board.area_mm2() < last.area_mm2())
        .filter_map(|board| {
            let mut still = on_it.clone();
            let spots = fill(items, &mut still, board, commission.planks.rows);
            still.is_empty().then_some((board, spots))
        })
        .min_by(|a, b| a.0.area_mm2().total_cmp(&b.0.area_mm2()));
    if let Some((board, lying)) = fits {
        *last = board.clone();
        *spots = lying;
    }
}
