//! Maps of small cells: what must be cleared around a letter, and what was.
//!
//! They share nothing with the exact curves that the passes are made from, and err on the side of asking for less: within
//! about 1½ cells of what a cutter just can or cannot enter, nothing is asked. The walls themselves are judged by
//! distance, at places along the letter's edge ([`Touch`]).

use geometry::cells::{Grid, HALF_DIAGONAL, Marked, edges};
use geometry::region::Region;
use kurbo::{Point, Rect, Vec2};

use super::bench::in_polygon;
use super::copies::{Shape, bounds};
use crate::job_file::JobCutter;

mod cones;
mod floor;
mod wanted;

pub use cones::following;
pub use floor::Floor;
pub use wanted::Wanted;

#[cfg(test)]
mod tests;

/// Side of a cell, mm.
const CELL_MM: f64 = 0.1;

/// The most cells along one side; larger blocks get larger cells.
const MOST_CELLS: f64 = 2_000.0;

/// How much further than its radius a cutter must be able to stand off for a place to count as surely reached, mm: twice
/// the usual tolerance.
const REACH_SLACK_MM: f64 = 0.02;

/// Furthest apart of the places along a wall that are looked at, mm.
const WALL_STEP_MM: f64 = 0.3;

/// How much nearer another wall may be than the one touched, mm: rounding of the outline.
const TOUCH_ROUNDING_MM: f64 = 0.0005;

/// How much larger a disc must still touch for a place to count as surely touched, mm.
const TOUCH_SLACK_MM: f64 = 0.02;

/// Where, in radii of a tip from the end of a straight wall, its touch is looked for besides: a disc touches both walls of a corner of
/// 150°, 90°, 50° and 25° at 0.27, 1, 2.1 and 4.5 radii from its point (the cotangent of half the angle: elementary).
const END_STEPS: [f64; 5] = [0.5, 1.3, 2.8, 5.6, 8.0];

/// What must be cut around one letter, in the letter's own space.
pub struct Ground {
    /// The cells, over the room.
    pub grid: Grid,
    /// Depth that each cell must have, mm; 0 where nothing is asked.
    pub due: Vec<f32>,
    /// Places of the wall that a cutter surely touches.
    pub touches: Vec<Touch>,
}

/// A place of the wall that must be cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touch {
    /// The place.
    pub at: Point,
    /// How deep.
    pub due: Due,
}

/// How deep a wall must be cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Due {
    /// To this depth below the face, mm.
    Depth(f64),
    /// At the face, as a cone cuts it.
    Face,
}

/// Works out what the cutters must cut, each staying in the room of block and lane: flat ones clear ground, and the tips of
/// cones, given by their radii, cut walls at the face that no flat cutter touches.
pub fn ground(
    shape: Option<&Shape>,
    block: &[Point],
    wanted: &Wanted,
    lane: f64,
    cutters: &[&JobCutter],
    tips: &[f64],
) -> Ground {
    let room = bounds(block).inflate(lane, lane);
    let grid = Grid::over(room, CELL_MM, MOST_CELLS);
    let mut wall = vec![false; grid.count()];
    if let Some(shape) = shape {
        mark_letter(&grid, &shape.letter, &mut wall);
    }
    let inside = block_cells(&grid, block);
    if !is_rectangle(block) {
        mark_beyond_lane(&grid, &inside, lane, &mut wall);
    }
    let wall = Marked::new(&grid, &wall);
    let asked = wanted.over(&grid, room, shape);
    let mut due = vec![0.0f32; grid.count()];
    for cutter in cutters {
        let most = cutter.max_depth_mm as f32;
        let radius = cutter.diameter_mm / 2.0;
        let centres = free_centres(&grid, &wall, room, radius);
        let reached = Marked::new(&grid, &centres).within(radius - REACH_SLACK_MM);
        for (((due, inside), reached), asked) in
            due.iter_mut().zip(&inside).zip(reached).zip(&asked)
        {
            if *inside && reached {
                *due = due.max(asked.min(most));
            }
        }
    }
    let touches = shape.map_or_else(Vec::new, |shape| {
        touches(shape, block, room, wanted, cutters, tips)
    });
    Ground { grid, due, touches }
}

/// Marks every cell whose centre lies in the letter, and every cell that its edge runs through.
fn mark_letter(grid: &Grid, letter: &Region, wall: &mut [bool]) {
    grid.mark_inside(letter.rings().flat_map(|ring| edges(ring)), wall);
    grid.mark_along(letter.rings().flat_map(|ring| edges(ring)), wall);
}

/// Which cells' centres lie in the block.
fn block_cells(grid: &Grid, block: &[Point]) -> Vec<bool> {
    let mut cells = vec![false; grid.count()];
    grid.mark_inside(edges(block), &mut cells);
    cells
}

/// Whether a block is an upright rectangle, so that its room is one too.
fn is_rectangle(block: &[Point]) -> bool {
    let bounds = bounds(block);
    block.len() == 4
        && block.iter().all(|corner| {
            (corner.x == bounds.x0 || corner.x == bounds.x1)
                && (corner.y == bounds.y0 || corner.y == bounds.y1)
        })
}

/// Marks what lies further from a notched block than the lane: cutters have no business there.
fn mark_beyond_lane(grid: &Grid, inside: &[bool], lane: f64, wall: &mut [bool]) {
    let near = Marked::new(grid, inside).within(lane);
    for (wall, near) in wall.iter_mut().zip(near) {
        *wall |= !near;
    }
}

/// Where a cutter's centre surely may stand.
fn free_centres(grid: &Grid, wall: &Marked, room: Rect, radius: f64) -> Vec<bool> {
    let blocked = wall.within(radius + HALF_DIAGONAL * grid.cell);
    let held = room.inset(-radius);
    let mut free = vec![false; grid.count()];
    if held.x0 > held.x1 || held.y0 > held.y1 {
        return free;
    }
    let columns = grid.columns_between(held.x0, held.x1);
    for row in grid.rows_between(held.y0, held.y1) {
        let first = row * grid.columns;
        let cells = first + columns.start..first + columns.end;
        for (free, blocked) in free[cells.clone()].iter_mut().zip(&blocked[cells]) {
            *free = !blocked;
        }
    }
    free
}

/// Places along the letter's edge that some cutter surely touches, with the depth due there.
fn touches(
    shape: &Shape,
    block: &[Point],
    room: Rect,
    wanted: &Wanted,
    cutters: &[&JobCutter],
    tips: &[f64],
) -> Vec<Touch> {
    let mut touches = Vec::new();
    let mut deepest_first = cutters.to_vec();
    deepest_first.sort_by(|a, b| b.max_depth_mm.total_cmp(&a.max_depth_mm));
    for (a, b) in shape.letter.rings().flat_map(|ring| edges(ring)) {
        let length = a.distance(b);
        if length == 0.0 {
            continue;
        }
        // The filled side lies on the left, so the ground is to the right.
        let to_ground = Vec2::new(b.y - a.y, a.x - b.x) / length;
        let parts = (length / WALL_STEP_MM).ceil().max(1.0) as u32;
        let evenly = (0..parts).map(|part| (f64::from(part) + 0.5) / f64::from(parts));
        // Into a corner a tip goes further than even steps tell.
        let ends = tips
            .iter()
            .flat_map(|tip| END_STEPS.map(|step| step * tip / length))
            .filter(|&part| part < 0.5)
            .flat_map(|part| [part, 1.0 - part]);
        for part in evenly.chain(ends) {
            let at = a.lerp(b, part);
            if !in_polygon(block, at) {
                continue;
            }
            let touching = deepest_first.iter().find(|cutter| {
                surely_touches(shape, room, at, to_ground, cutter.diameter_mm / 2.0)
            });
            let deepest = touching.map_or(0.0, |cutter| cutter.max_depth_mm);
            let due = if deepest > 0.0 {
                Due::Depth(deepest.min(wanted.at_wall(shape, at, to_ground)))
            } else if tips
                .iter()
                .any(|&tip| surely_touches(shape, room, at, to_ground, tip))
            {
                Due::Face
            } else {
                continue;
            };
            touches.push(Touch { at, due });
        }
    }
    touches
}

/// Whether a disc of a radius, and one slightly larger, can stand against the wall at a place. In a crack no wider than the rounding
/// that is allowed for, it would stand inside the letter.
fn surely_touches(shape: &Shape, room: Rect, at: Point, to_ground: Vec2, radius: f64) -> bool {
    [radius, radius + TOUCH_SLACK_MM].into_iter().all(|radius| {
        let centre = at + to_ground * radius;
        let disc = Rect::from_center_size(centre, (2.0 * radius, 2.0 * radius));
        let in_room =
            room.x0 <= disc.x0 && room.y0 <= disc.y0 && disc.x1 <= room.x1 && disc.y1 <= room.y1;
        in_room
            && !shape.walls.comes_within(centre, radius - TOUCH_ROUNDING_MM)
            && !shape.walls.contains(centre)
    })
}
