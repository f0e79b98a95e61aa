//! Rows of one body, filled widest first.

use std::sync::Arc;

use kurbo::{Rect, Vec2};

use super::{MOST_BLOCKS, Place, Plank, PlankError};
use crate::commission::{Clamp, Commission, PlankRules};
use crate::sort::Sort;

/// Blocks lie on multiples of this, in millimetres: the last decimal of a program, so that every copy of a sort rounds alike.
const STEP_MM: f64 = 0.001;
/// Air kept between what may be cut and a clamp, in millimetres: what the proof asks for, and some more for setting clamps by hand.
const CLAMP_AIR_MM: f64 = 4.0;
/// Differences smaller than this are arithmetic, in millimetres.
const NOTHING_MM: f64 = 1e-9;

/// One copy of a sort, not yet placed.
struct Block {
    sort: usize,
    copy: u32,
    set_mm: f64,
    body_mm: f64,
}

/// Blocks of one body side by side.
struct Row {
    body_mm: f64,
    /// Where each block begins, from the start of the row.
    blocks: Vec<(f64, Block)>,
    /// Where the next block would begin.
    next_mm: f64,
}

/// Rows above one another.
struct Stack {
    /// Where each row begins, from the bottom of the room.
    rows: Vec<(f64, Row)>,
    next_mm: f64,
}

/// The part of a plank that blocks may lie on.
struct Room {
    /// Where it begins: past the free edge, and past the clamps there.
    from_mm: [f64; 2],
    x_mm: f64,
    y_mm: f64,
    lane_mm: f64,
}

/// Lays every copy of every sort on planks, as many as are needed.
///
/// Blocks of one body lie in rows with a lane between neighbours and between rows, the largest bodies at the bottom of the plank, so
/// that sawing is quick: every row comes away with one cut. Rows are filled widest block first, each block in the first row that
/// has room, and planks likewise. The edge kept free is the margin, or the lane where that is wider, so that no cutter leaves
/// the plank.
///
/// Copies are named after their sort and numbered from 1: `A-1`, `A-2`. Places are listed row by row, from the lower left.
///
/// # Errors
/// A block is larger than a plank has room for, the plank rules are impossible, or far too many blocks are ordered.
pub fn lay_out(sorts: &[Arc<Sort>], commission: &Commission) -> Result<Vec<Plank>, PlankError> {
    let rules = &commission.planks;
    let room = Room::of(rules)?;
    let ordered: u64 = sorts.iter().map(|sort| u64::from(sort.count)).sum();
    if ordered > MOST_BLOCKS {
        return Err(PlankError::TooManyBlocks(ordered));
    }
    for sort in sorts.iter().filter(|sort| sort.count > 0) {
        room.check(sort, rules)?;
    }
    let stacks = stacks(rows(blocks(sorts), &room), &room);
    Ok(stacks
        .into_iter()
        .enumerate()
        .map(|(number, stack)| plank(number, stack, sorts, &room, rules))
        .collect())
}

impl Room {
    fn of(rules: &PlankRules) -> Result<Room, PlankError> {
        let [width, length, margin, lane] =
            [rules.width, rules.length, rules.margin, rules.lane].map(|length| length.in_mm());
        let sizes = [
            ("the width", width, 0.0),
            ("the length", length, 0.0),
            ("the margin", margin, -NOTHING_MM),
            ("the lane", lane, -NOTHING_MM),
        ];
        for (what, value, above) in sizes {
            if !(value > above && value.is_finite()) {
                return Err(PlankError::BadRules(format!("{what} is {value} mm")));
            }
        }
        let edge_mm = margin.max(lane);
        let free = Rect::new(0.0, 0.0, width, length).inset(-edge_mm);
        let free = rules
            .clamps
            .iter()
            .fold(free, |free, clamp| beside(free, clamp, lane));
        let (x_mm, y_mm) = (free.x1 - free.x0, free.y1 - free.y0);
        if x_mm <= 0.0 || y_mm <= 0.0 {
            return Err(PlankError::BadRules(format!(
                "free edges of {edge_mm} mm and clamps leave nothing of {width} × {length} mm"
            )));
        }
        Ok(Room {
            from_mm: [free.x0, free.y0],
            x_mm,
            y_mm,
            lane_mm: lane,
        })
    }

    fn check(&self, sort: &Sort, rules: &PlankRules) -> Result<(), PlankError> {
        let block = &sort.block;
        if fits(block.set_mm, self.x_mm) && fits(block.body_mm, self.y_mm) {
            return Ok(());
        }
        Err(PlankError::BlockTooLarge {
            sort: sort.name.clone(),
            set_mm: block.set_mm,
            body_mm: block.body_mm,
            width_mm: rules.width.in_mm(),
            length_mm: rules.length.in_mm(),
            room_x_mm: self.x_mm,
            room_y_mm: self.y_mm,
        })
    }
}

/// What is left of a room beside a clamp, with the lane and some air between: of the four sides the one that leaves most.
fn beside(room: Rect, clamp: &Clamp, lane: f64) -> Rect {
    let [x, y, width, length] =
        [clamp.x, clamp.y, clamp.width, clamp.length].map(|length| length.in_mm());
    let kept = lane + CLAMP_AIR_MM;
    let foot = Rect::new(x, y, x + width, y + length).inflate(kept, kept);
    let meets = foot.x0 < room.x1 && room.x0 < foot.x1 && foot.y0 < room.y1 && room.y0 < foot.y1;
    if !meets {
        return room;
    }
    let sides = [
        Rect::new(foot.x1, room.y0, room.x1, room.y1),
        Rect::new(room.x0, room.y0, foot.x0, room.y1),
        Rect::new(room.x0, foot.y1, room.x1, room.y1),
        Rect::new(room.x0, room.y0, room.x1, foot.y0),
    ];
    let size = |side: &Rect| (side.x1 - side.x0).max(0.0) * (side.y1 - side.y0).max(0.0);
    sides.into_iter().fold(Rect::ZERO, |most, side| {
        if size(&side) > size(&most) {
            side
        } else {
            most
        }
    })
}

fn fits(size_mm: f64, room_mm: f64) -> bool {
    size_mm <= room_mm + NOTHING_MM
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

fn rows(blocks: Vec<Block>, room: &Room) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    // Rows before this one hold larger bodies.
    let mut first = 0;
    for block in blocks {
        if rows
            .get(first)
            .is_some_and(|row| (row.body_mm - block.body_mm).abs() > STEP_MM)
        {
            first = rows.len();
        }
        let fitting = rows[first..]
            .iter_mut()
            .find(|row| fits(row.next_mm + block.set_mm, room.x_mm));
        match fitting {
            Some(row) => row.add(block, room.lane_mm),
            None => {
                let mut row = Row {
                    body_mm: block.body_mm,
                    blocks: Vec::new(),
                    next_mm: 0.0,
                };
                row.add(block, room.lane_mm);
                rows.push(row);
            }
        }
    }
    rows
}

impl Row {
    fn add(&mut self, block: Block, lane_mm: f64) {
        let at_mm = self.next_mm;
        self.next_mm = after(at_mm + block.set_mm + lane_mm);
        self.blocks.push((at_mm, block));
    }
}

fn stacks(rows: Vec<Row>, room: &Room) -> Vec<Stack> {
    let mut stacks: Vec<Stack> = Vec::new();
    for row in rows {
        let place = stacks
            .iter()
            .position(|stack| fits(stack.next_mm + row.body_mm, room.y_mm))
            .unwrap_or_else(|| {
                stacks.push(Stack {
                    rows: Vec::new(),
                    next_mm: 0.0,
                });
                stacks.len() - 1
            });
        let stack = &mut stacks[place];
        let at_mm = stack.next_mm;
        stack.next_mm = after(at_mm + row.body_mm + room.lane_mm);
        stack.rows.push((at_mm, row));
    }
    stacks
}

/// The next place on the grid, not before `mm`.
fn after(mm: f64) -> f64 {
    ((mm - NOTHING_MM) / STEP_MM).ceil() * STEP_MM
}

fn plank(
    number: usize,
    stack: Stack,
    sorts: &[Arc<Sort>],
    room: &Room,
    rules: &PlankRules,
) -> Plank {
    let places = stack
        .rows
        .into_iter()
        .flat_map(|(y_mm, row)| {
            row.blocks.into_iter().map(move |(x_mm, block)| Place {
                id: format!("{}-{}", sorts[block.sort].name, block.copy),
                sort: block.sort,
                at: Vec2::new(room.from_mm[0] + x_mm, room.from_mm[1] + y_mm),
            })
        })
        .collect();
    Plank {
        id: format!("plank-{}", number + 1),
        width_mm: rules.width.in_mm(),
        length_mm: rules.length.in_mm(),
        places,
    }
}
