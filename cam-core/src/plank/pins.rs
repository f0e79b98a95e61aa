//! Blocks that the maker put somewhere stay there; what is in their way finds another place, and all others stay as well.

use super::board::{Board, STEP_MM};
use super::layout::Block;
use super::pack::{Item, Spot};
use super::sawing::sawn;
use super::stock::found;
use crate::commission::{Pin, PlankRules, Separation};
use crate::finding::{Finding, Severity, Subject, texts};

use kurbo::Rect;
use said::Said;

/// Sizes and rooms are rounded away from one another by less than so many steps.
const ROUNDING: i64 = 3;

/// Boards with what lies on them.
pub type Lying = Vec<(Board, Vec<Spot>)>;

/// What pinning needs to know of the order.
pub struct Order<'a> {
    pub items: &'a [Item],
    pub blocks: &'a [Block],
    /// The name of each block, such as `A-2`.
    pub names: &'a [String],
    pub rules: &'a PlankRules,
    /// What a further plank is like.
    pub told: &'a Board,
}

impl Order<'_> {
    /// The block itself, without its lane, mm from the plank's corner.
    pub fn rect(&self, board: &Board, spot: &Spot) -> Rect {
        let block = &self.blocks[spot.item];
        let (x, y) = place_mm(board, spot);
        Rect::new(x, y, x + block.set_mm, y + block.body_mm)
    }

    /// Whether a saw can take the plank apart, where a saw has to.
    fn comes_apart(&self, board: &Board, spots: &[Spot]) -> bool {
        match self.rules.separation {
            Separation::Router { .. } => true,
            Separation::Saw => {
                let rects: Vec<Rect> = spots.iter().map(|spot| self.rect(board, spot)).collect();
                rects.is_empty() || sawn(&rects, self.rules.kerf_mm()).is_some()
            }
        }
    }
}

/// Where a block's corner lies on its plank, mm.
pub fn place_mm(board: &Board, spot: &Spot) -> (f64, f64) {
    (
        board.room.x0 + spot.x as f64 * STEP_MM,
        board.room.y0 + spot.y as f64 * STEP_MM,
    )
}

/// Puts the pinned blocks where they are to lie.
pub fn put(lying: &mut Lying, order: &Order) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut pinned: Vec<(usize, Spot)> = Vec::new();
    for pin in &order.rules.pins {
        let Some(item) = order.names.iter().position(|name| *name == pin.block) else {
            findings.push(idle(pin));
            continue;
        };
        match spot_of(pin, item, lying, &pinned, order) {
            Ok(place) => pinned.push(place),
            Err(why) => findings.push(found(
                Severity::Stop,
                &pin.plank,
                "pin-without-room",
                texts::pin_without_room(&pin.block, why),
                texts::pin_without_room_remedy(),
            )),
        }
    }
    let at = |number: usize, spot: &Spot| {
        pinned
            .iter()
            .any(|(plank, pin)| *plank == number && pin == spot)
    };
    let stays = pinned.iter().all(|(plank, pin)| {
        lying
            .get(*plank)
            .is_some_and(|(_, spots)| spots.contains(pin))
    });
    if !stays {
        let taken: Vec<usize> = pinned.iter().map(|(_, pin)| pin.item).collect();
        for (_, spots) in lying.iter_mut() {
            spots.retain(|spot| !taken.contains(&spot.item));
        }
        let mut displaced = Vec::new();
        for (number, pin) in &pinned {
            if *number == lying.len() {
                lying.push((order.told.clone(), Vec::new()));
            }
            let spots = &mut lying[*number].1;
            spots.retain(|spot| {
                let keeps = at(*number, spot) || !overlap(order.items, spot, pin);
                if !keeps {
                    displaced.push(spot.item);
                }
                keeps
            });
            spots.push(*pin);
        }
        displaced.sort_unstable();
        for item in displaced {
            find_place(item, lying, order);
        }
        while lying.last().is_some_and(|(_, spots)| spots.is_empty()) {
            lying.pop();
        }
    }
    findings
}

fn idle(pin: &Pin) -> Finding {
    Finding {
        severity: Severity::Note,
        subject: Subject::Commission,
        kind: "pin-idle",
        text: texts::pin_idle(&pin.block),
        remedy: texts::pin_idle_remedy(),
    }
}

/// Where a pin puts its block, or why it cannot.
fn spot_of(
    pin: &Pin,
    item: usize,
    lying: &Lying,
    pinned: &[(usize, Spot)],
    order: &Order,
) -> Result<(usize, Spot), Said> {
    let number = pin
        .plank
        .strip_prefix("plank-")
        .and_then(|number| number.parse::<usize>().ok())
        .and_then(|number| number.checked_sub(1))
        .ok_or_else(|| texts::pin_on_no_plank(&pin.plank))?;
    let new = pinned.iter().map(|(plank, _)| plank + 1).max().unwrap_or(0);
    if number > lying.len().max(new) {
        return Err(texts::pin_beyond_planks(lying.len()));
    }
    let board = lying.get(number).map_or(order.told, |(board, _)| board);
    let steps = |mm: f64| (mm / STEP_MM).round() as i64;
    let size = &order.items[item];
    let (x, y) = board.size();
    let spot = Spot {
        item,
        x: at_edge(steps(pin.x.in_mm() - board.room.x0), size.w, x),
        y: at_edge(steps(pin.y.in_mm() - board.room.y0), size.h, y),
    };
    if spot.x < 0 || spot.y < 0 || spot.x + size.w > x || spot.y + size.h > y {
        return Err(texts::pin_in_margin());
    }
    if board
        .blocked()
        .iter()
        .any(|bad| bad.meets((spot.x, spot.y), size))
    {
        return Err(texts::pin_on_bad_place());
    }
    let other = pinned
        .iter()
        .find(|(plank, other)| *plank == number && overlap(order.items, &spot, other));
    match other {
        Some((_, other)) => Err(texts::pin_in_the_way(&order.names[other.item])),
        None => Ok((number, spot)),
    }
}

/// A place that only rounding has put beyond the edge of a room, at the edge.
fn at_edge(at: i64, size: i64, room: i64) -> i64 {
    if (-ROUNDING..0).contains(&at) {
        0
    } else if (1..=ROUNDING).contains(&(at + size - room)) {
        room - size
    } else {
        at
    }
}

/// Whether two blocks are nearer to one another than a lane.
fn overlap(items: &[Item], a: &Spot, b: &Spot) -> bool {
    let (of_a, of_b) = (&items[a.item], &items[b.item]);
    a.x < b.x + of_b.w && b.x < a.x + of_a.w && a.y < b.y + of_b.h && b.y < a.y + of_a.h
}

/// The first free place on the planks, low and left, or a further plank.
fn find_place(item: usize, lying: &mut Lying, order: &Order) {
    for (board, spots) in lying.iter_mut() {
        if let Some(spot) = free_spot(item, board, spots, order) {
            spots.push(spot);
            return;
        }
    }
    lying.push((order.told.clone(), vec![Spot { item, x: 0, y: 0 }]));
}

fn free_spot(item: usize, board: &Board, spots: &[Spot], order: &Order) -> Option<Spot> {
    let size = &order.items[item];
    let blocked = board.blocked();
    let (x, y) = board.size();
    let ends = |of: &dyn Fn(&Spot) -> [i64; 2], bad: &dyn Fn(usize) -> i64| {
        let mut ends: Vec<i64> = spots.iter().flat_map(of).collect();
        ends.extend((0..blocked.len()).map(bad));
        ends.push(0);
        ends.sort_unstable();
        ends.dedup();
        ends
    };
    let items = order.items;
    let xs = ends(&|spot| [spot.x, spot.x + items[spot.item].w], &|bad| {
        blocked[bad].x1
    });
    let ys = ends(&|spot| [spot.y, spot.y + items[spot.item].h], &|bad| {
        blocked[bad].y1
    });
    for &at_y in ys.iter().filter(|&&at| at + size.h <= y) {
        for &at_x in xs.iter().filter(|&&at| at + size.w <= x) {
            let spot = Spot {
                item,
                x: at_x,
                y: at_y,
            };
            let free = !blocked.iter().any(|bad| bad.meets((at_x, at_y), size))
                && !spots.iter().any(|other| overlap(items, &spot, other));
            if free {
                let mut with = spots.to_vec();
                with.push(spot);
                if order.comes_apart(board, &with) || !order.comes_apart(board, spots) {
                    return Some(spot);
                }
            }
        }
    }
    None
}
