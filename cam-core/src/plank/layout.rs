//! A commission's blocks laid on planks.

use std::sync::Arc;

use kurbo::{Rect, Vec2};
use said::Value;

use super::board::{Board, item};
use super::pack::{self, Item};
use super::pins::{self, Lying, Order, place_mm};
use super::sawing::sawn;
use super::stock::{Offered, found, least_wood, offered, packed_on, to_dress};
use super::{MOST_BLOCKS, Place, Plank, PlankError};
use crate::commission::{Commission, GrainWanted, Separation};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::sort::Sort;
use crate::workshop::{Grain, Workshop};

/// An order laid on planks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Laid {
    /// The planks: those of the stock first.
    pub planks: Vec<Plank>,
    /// No layout that comes apart by straight cuts takes fewer planks; with rows of one body, none in such rows.
    pub at_least: usize,
    /// What the maker should know about them.
    pub findings: Vec<Finding>,
}

/// One copy of a sort, not yet placed.
pub struct Block {
    sort: usize,
    copy: u32,
    pub set_mm: f64,
    pub body_mm: f64,
}

/// Lays every copy of every sort on planks, as few as are found.
///
/// Planks of the stock that the commission names come first, in the ways in which their grain suits and some machine takes them;
/// what they do not hold lies on planks of the size that is told. Blocks lie in rows across the plank with a lane between neighbours
/// and between rows. No block lies on a bad place, a reserved end, or where a clamp would be in the cutter's way; blocks that the maker
/// pinned lie where they were put. The edge kept free is the margin, or the lane where that is wider, so that no cutter leaves
/// the plank.
///
/// Copies are named after their sort and numbered from 1: `A-1`, `A-2`. Places are listed row by row, from the lower left.
///
/// # Errors
/// A block is larger than any plank has room for, the plank rules are impossible, or far too many blocks are ordered.
pub fn lay_out(
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
) -> Result<Laid, PlankError> {
    let rules = &commission.planks;
    let ordered: u64 = sorts.iter().map(|sort| u64::from(sort.count)).sum();
    if ordered > MOST_BLOCKS {
        return Err(PlankError::TooManyBlocks(ordered));
    }
    let told = Board::told(rules)?;
    let (stock, mut findings) = offered(commission, workshop);
    let blocks = blocks(sorts);
    let items = items(&blocks, &told, rules.lane.in_mm());
    let (mut lying, at_least) = if stock.is_empty() {
        check(&blocks, sorts, &told)?;
        on_told(&items, &told, commission)
    } else {
        on_stock(&items, &stock, &told, commission, &blocks, sorts)?
    };
    let names: Vec<String> = blocks
        .iter()
        .map(|block| format!("{}-{}", sorts[block.sort].name, block.copy))
        .collect();
    let order = Order {
        items: &items,
        blocks: &blocks,
        names: &names,
        rules,
        told: &told,
    };
    findings.extend(pins::put(&mut lying, &order));
    let mut planks: Vec<Plank> = lying
        .iter()
        .enumerate()
        .map(|(number, (board, spots))| {
            let mut spots = spots.clone();
            spots.sort_by_key(|spot| (spot.y, spot.x));
            let places = spots.iter().map(|spot| Place {
                id: names[spot.item].clone(),
                sort: blocks[spot.item].sort,
                at: Vec2::from(place_mm(board, spot)),
            });
            plank(number, board, places.collect(), commission, workshop)
        })
        .collect();
    for plank in &mut planks {
        let lane = rules.lane.in_mm();
        plank.machine = workshop
            .machines()
            .position(|machine| plank.fits(machine, lane))
            .unwrap_or(0);
    }
    findings.extend(of_planks(&planks, &order, &lying, commission, workshop));
    Ok(Laid {
        planks,
        at_least,
        findings,
    })
}

/// All copies: larger bodies first, wider blocks first, then in the order of the commission.
fn blocks(sorts: &[Arc<Sort>]) -> Vec<Block> {
    let mut blocks: Vec<Block> = sorts
        .iter()
        .enumerate()
        .flat_map(|(place, sort)| {
            (1..=sort.count).map(move |copy| Block {
                sort: place,
                copy,
                set_mm: sort.block.set_mm,
                body_mm: sort.block.body_mm,
            })
        })
        .collect();
    blocks.sort_by(|a, b| {
        b.body_mm
            .total_cmp(&a.body_mm)
            .then(b.set_mm.total_cmp(&a.set_mm))
            .then(a.sort.cmp(&b.sort))
            .then(a.copy.cmp(&b.copy))
    });
    blocks
}

/// Sizes with lanes. What only just fits on a plank is not rounded beyond it.
fn items(blocks: &[Block], told: &Board, lane_mm: f64) -> Vec<Item> {
    let (x, y) = told.size();
    blocks
        .iter()
        .map(|block| {
            let size = item(block.set_mm, block.body_mm, lane_mm);
            if told.takes(block.set_mm, block.body_mm) {
                Item {
                    w: size.w.min(x),
                    h: size.h.min(y),
                }
            } else {
                size
            }
        })
        .collect()
}

/// Refuses blocks that the board does not take.
fn check(blocks: &[Block], sorts: &[Arc<Sort>], board: &Board) -> Result<(), PlankError> {
    let large = blocks
        .iter()
        .find(|block| !board.takes(block.set_mm, block.body_mm));
    match large {
        None => Ok(()),
        Some(block) => Err(too_large(block, sorts, board)),
    }
}

fn too_large(block: &Block, sorts: &[Arc<Sort>], board: &Board) -> PlankError {
    PlankError::BlockTooLarge {
        sort: sorts[block.sort].name.clone(),
        set_mm: block.set_mm,
        body_mm: block.body_mm,
        width_mm: board.width_mm,
        length_mm: board.length_mm,
        room_x_mm: board.room.width(),
        room_y_mm: board.room.height(),
    }
}

fn on_told(items: &[Item], told: &Board, commission: &Commission) -> (Lying, usize) {
    let all: Vec<usize> = (0..items.len()).collect();
    let packing = packed_on(items, &all, told, commission);
    let lying = packing
        .planks
        .into_iter()
        .map(|spots| (told.clone(), spots))
        .collect();
    (lying, packing.at_least)
}

fn on_stock(
    items: &[Item],
    stock: &[Offered],
    told: &Board,
    commission: &Commission,
    blocks: &[Block],
    sorts: &[Arc<Sort>],
) -> Result<(Lying, usize), PlankError> {
    // What no plank of the told size takes must find its place in the stock.
    let only_in_stock: Vec<usize> = (0..blocks.len())
        .filter(|&at| !told.takes(blocks[at].set_mm, blocks[at].body_mm))
        .collect();
    let way = least_wood(items, stock, told, commission);
    let lost = only_in_stock.iter().find(|at| {
        way.rest
            .planks
            .iter()
            .flatten()
            .any(|spot| spot.item == **at)
    });
    if let Some(&at) = lost {
        return Err(too_large(&blocks[at], sorts, told));
    }
    let at_least = fewest_of(items, stock, told);
    let mut lying = way.on_stock;
    lying.extend(
        way.rest
            .planks
            .into_iter()
            .map(|spots| (told.clone(), spots)),
    );
    Ok((lying, at_least))
}

/// No fewer planks hold the blocks: by area the largest planks first, and by shape as if all were as wide and as long as any.
fn fewest_of(items: &[Item], stock: &[Offered], told: &Board) -> usize {
    let boards = || stock.iter().flat_map(|plank| &plank.ways).chain([told]);
    let x = boards().map(|board| board.size().0).max().unwrap_or(1);
    let y = boards().map(|board| board.size().1).max().unwrap_or(1);
    let area = |(x, y): (i64, i64)| i128::from(x) * i128::from(y);
    let mut areas: Vec<i128> = stock
        .iter()
        .flat_map(|plank| {
            let largest = plank.ways.iter().map(|board| area(board.size())).max();
            std::iter::repeat_n(largest.unwrap_or(0), plank.count as usize)
        })
        .filter(|&size| size > area(told.size()))
        .collect();
    areas.sort_unstable();
    let mut wanted: i128 = items.iter().map(|item| area((item.w, item.h))).sum();
    let mut planks = 0;
    // Bound: each turn takes a plank's area off what is wanted.
    while wanted > 0 {
        wanted -= areas.pop().unwrap_or(area(told.size())).max(1);
        planks += 1;
    }
    planks.max(pack::at_least(items, x, y))
}

fn plank(
    number: usize,
    board: &Board,
    places: Vec<Place>,
    commission: &Commission,
    workshop: &Workshop,
) -> Plank {
    let stock = board
        .stock
        .and_then(|number| workshop.stock.get(number))
        .map(|plank| {
            if board.turned {
                plank.turned()
            } else {
                plank.clone()
            }
        });
    Plank {
        id: format!("plank-{}", number + 1),
        width_mm: board.width_mm,
        length_mm: board.length_mm,
        places,
        height_mm: stock
            .as_ref()
            .and_then(|plank| plank.height)
            .map(|height| height.in_mm()),
        grain: match &stock {
            Some(plank) => plank.grain,
            None => told_grain(commission, workshop),
        },
        stock: stock.map(|plank| plank.id),
        turned: board.turned,
        room: board.room,
        bad_places: board.bad_places.clone(),
        clamps: board.clamps.clone(),
        machine: 0,
    }
}

/// How the fibres of a plank are to run that is not in the stock.
fn told_grain(commission: &Commission, workshop: &Workshop) -> Option<Grain> {
    if workshop.wood(&commission.wood)?.end_grain {
        return Some(Grain::End);
    }
    match commission.planks.grain {
        GrainWanted::Any => None,
        GrainWanted::AlongLine => Some(Grain::Across),
        GrainWanted::UpBody => Some(Grain::Along),
    }
}

/// What is to be said of the planks as they are laid.
fn of_planks(
    planks: &[Plank],
    order: &Order,
    lying: &Lying,
    commission: &Commission,
    workshop: &Workshop,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    let stock = |id: &String| workshop.stock.iter().find(|plank| plank.id == *id);
    let mut said: Vec<&String> = Vec::new();
    for id in planks.iter().filter_map(|plank| plank.stock.as_ref()) {
        if !said.contains(&id) {
            said.push(id);
            findings.extend(stock(id).and_then(|plank| to_dress(plank, commission)));
        }
    }
    let beyond = planks.iter().filter(|plank| plank.stock.is_none()).count();
    if !commission.planks.stock.is_empty() && beyond > 0 {
        let Board {
            width_mm,
            length_mm,
            ..
        } = order.told;
        let size = Value::figures(format!("{width_mm:.0} × {length_mm:.0}"));
        findings.push(Finding {
            severity: Severity::Warning,
            subject: Subject::Commission,
            kind: "stock-short",
            text: match beyond {
                1 => texts::stock_short_of_one(size),
                _ => texts::stock_short(beyond, size),
            },
            remedy: texts::stock_short_remedy(),
        });
    }
    match commission.planks.separation {
        Separation::Router { .. } => {}
        Separation::Saw => findings.extend(lying.iter().zip(planks).filter_map(
            |((board, spots), plank)| {
                let rects: Vec<Rect> = spots.iter().map(|spot| order.rect(board, spot)).collect();
                let whole = rects.is_empty() || sawn(&rects, order.rules.kerf_mm()).is_some();
                (!whole).then(|| {
                    found(
                        Severity::Stop,
                        &plank.id,
                        "not-to-be-sawn",
                        texts::not_to_be_sawn(),
                        texts::not_to_be_sawn_remedy(),
                    )
                })
            },
        )),
    }
    findings
}
