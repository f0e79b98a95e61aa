//! The walls made ready for the diagram: on the grid, checked, without needless points, ground on the left.

use kurbo::{Point, Vec2};

use super::{DiagramError, MOST_SEGMENTS, NONE, Site, SiteKind, WIDEST_ROOM, Wall, steps};
use crate::boolean::{Contours, FillRule};
use crate::grid::{GridPoint, STEPS_PER_MM, double_area, place, ring_of, snapped_ring, turn};
use crate::region::{Piece, Region, Ring, winding};
use i_overlay::core::overlay_rule::OverlayRule;

/// A wall segment, directed so that the ground lies on its left, in grid steps from the local origin.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WallSegment {
    pub(crate) a: Point,
    pub(crate) b: Point,
    /// Unit vector from `a` to `b`.
    pub(crate) direction: Vec2,
    pub(crate) length: f64,
    pub(crate) site: Site,
    /// The segment that follows along the wall with the ground kept on the left.
    pub(crate) next: u32,
}

/// The walls of one letter in its room.
#[derive(Clone, Debug)]
pub(crate) struct Walls {
    /// Rings of the letter, by piece.
    pieces: Vec<Vec<Vec<GridPoint>>>,
    room: Vec<GridPoint>,
    /// The local origin, on the grid, amid the room.
    origin: GridPoint,
    /// Letter segments in ring order, then the room's.
    pub(crate) segments: Vec<WallSegment>,
    /// The first segment of each ring, the room's last, and the number of all.
    pub(super) starts: Vec<u32>,
    /// Each segment's place in the order in which the walls are walked, ground on the left, one closed walk after another.
    pub(crate) order: Vec<u32>,
    /// For each segment, the one before it on its walk.
    before: Vec<u32>,
    /// The segments in that order, walk by walk.
    pub(crate) walks: Vec<Vec<u32>>,
    /// The segments that end in points where walls touch, by point, in the order of [`key`].
    pub(super) touching: Vec<Vec<u32>>,
}

impl Walls {
    /// Rounds, resolves and checks.
    pub(crate) fn new(letter: &Region, room: &Ring) -> Result<Walls, DiagramError> {
        let room = clean_room(room)?;
        let count = room.len() + letter.rings().map(Vec::len).sum::<usize>();
        if count > MOST_SEGMENTS {
            return Err(DiagramError::TooManySegments(count));
        }
        let rings = letter.rings().map(|ring| snapped_ring(ring)).collect();
        Walls::of_rings(rings, room)
    }

    fn of_rings(rings: Vec<Vec<GridPoint>>, room: Vec<GridPoint>) -> Result<Walls, DiagramError> {
        let mut contours = Contours::new(rings.iter().map(Vec::len).sum());
        for ring in &rings {
            contours.add(ring);
        }
        let letter = contours.resolve(OverlayRule::Subject, FillRule::NonZero);
        let mut pieces: Vec<Vec<Vec<GridPoint>>> = letter
            .pieces
            .iter()
            .map(|piece| {
                std::iter::once(&piece.outer)
                    .chain(&piece.counters)
                    .map(|ring| snapped_ring(ring))
                    .collect()
            })
            .collect();
        drop_straight_points(&mut pieces);
        for rings in &mut pieces {
            rings.retain(|ring| ring.len() > 2);
        }
        pieces.retain(|rings| !rings.is_empty());
        check_inside(&pieces, &room)?;
        Ok(Walls::laid(pieces, room))
    }

    /// Lays the segments, all checks done.
    pub(super) fn laid(pieces: Vec<Vec<Vec<GridPoint>>>, room: Vec<GridPoint>) -> Walls {
        let middle = |low: i32, high: i32| ((i64::from(low) + i64::from(high)) / 2) as i32;
        let bounds = |of: fn(&GridPoint) -> i32| {
            let low = room.iter().map(of).min().unwrap_or(0);
            let high = room.iter().map(of).max().unwrap_or(0);
            middle(low, high)
        };
        let origin = GridPoint::new(bounds(|point| point.x), bounds(|point| point.y));
        let mut walls = Walls {
            pieces,
            room,
            origin,
            segments: Vec::new(),
            starts: Vec::new(),
            order: Vec::new(),
            before: Vec::new(),
            walks: Vec::new(),
            touching: Vec::new(),
        };
        let letter_rings: Vec<Vec<GridPoint>> = walls.pieces.iter().flatten().cloned().collect();
        for (number, ring) in letter_rings.iter().enumerate() {
            walls.add_ring(Wall::Letter, number as u32, ring);
        }
        let room = walls.room.clone();
        walls.add_ring(Wall::Room, 0, &room);
        walls.starts.push(walls.segments.len() as u32);
        walls.pair_touching_corners();
        walls.walk();
        walls
    }

    /// Orders the segments along closed walks.
    fn walk(&mut self) {
        let count = self.segments.len();
        self.order = vec![NONE; count];
        self.before = vec![NONE; count];
        for (index, segment) in (0_u32..).zip(&self.segments) {
            self.before[segment.next as usize] = index;
        }
        let mut position = 0;
        for first in 0..count as u32 {
            let mut walk = Vec::new();
            let mut at = first;
            while self.order[at as usize] == NONE {
                self.order[at as usize] = position;
                position += 1;
                walk.push(at);
                at = self.segments[at as usize].next;
            }
            if !walk.is_empty() {
                self.walks.push(walk);
            }
        }
    }

    /// The segment from whose end a segment starts, along the wall with the ground on the left.
    pub(crate) fn before(&self, segment: u32) -> u32 {
        self.before[segment as usize]
    }

    /// The segment that ends in a corner with the ground in a given direction from it, where `ending` is any that ends there.
    pub(crate) fn wedge(&self, ending: u32, toward: Vec2) -> u32 {
        let corner_of = |ending: u32| key(self.segments[ending as usize].b);
        let touching = self
            .touching
            .binary_search_by_key(&corner_of(ending), |ends| corner_of(ends[0]))
            .ok()
            .map(|index| &self.touching[index]);
        let Some(touching) = touching else {
            return ending;
        };
        // The wedge whose ground is met first, clockwise from the way back along the segment that ends.
        let clockwise =
            |ending: &u32| clockwise_angle(-self.segments[*ending as usize].direction, toward);
        touching
            .iter()
            .copied()
            .min_by(|one, other| clockwise(one).total_cmp(&clockwise(other)))
            .unwrap_or(ending)
    }

    fn add_ring(&mut self, wall: Wall, number: u32, ring: &[GridPoint]) {
        let first = self.segments.len() as u32;
        let count = ring.len() as u32;
        self.starts.push(first);
        for index in 0..count {
            let from = self.local(ring[index as usize]);
            let to = self.local(ring[((index + 1) % count) as usize]);
            // The letter's rings have the wood on their left, so its segments are turned about.
            let (a, b, next) = match wall {
                Wall::Letter => (to, from, first + (index + count - 1) % count),
                Wall::Room => (from, to, first + (index + 1) % count),
            };
            let length = a.distance(b);
            self.segments.push(WallSegment {
                a,
                b,
                direction: (b - a) / length,
                length,
                site: Site {
                    wall,
                    ring: number,
                    index,
                    kind: SiteKind::Segment,
                },
                next,
            });
        }
    }

    /// Where several rings (or one ring twice) meet in a point, joins each segment to the one across its own wedge of ground.
    fn pair_touching_corners(&mut self) {
        let mut ends: Vec<((i64, i64), u32)> = (0..self.segments.len() as u32)
            .map(|index| (key(self.segments[index as usize].b), index))
            .collect();
        ends.sort_unstable();
        let mut start = 0;
        while start < ends.len() {
            let mut end = start + 1;
            while end < ends.len() && ends[end].0 == ends[start].0 {
                end += 1;
            }
            if end - start > 1 {
                let incoming: Vec<u32> = ends[start..end].iter().map(|&(_, index)| index).collect();
                self.pair(&incoming);
                self.touching.push(incoming);
            }
            start = end;
        }
    }

    fn pair(&mut self, incoming: &[u32]) {
        let outgoing: Vec<u32> = incoming
            .iter()
            .map(|&index| self.segments[index as usize].next)
            .collect();
        for &index in incoming {
            let back = -self.segments[index as usize].direction;
            // The ground is on the left of the way in: clockwise from the way back.
            let clockwise =
                |out: &u32| clockwise_angle(back, self.segments[*out as usize].direction);
            let nearest = outgoing
                .iter()
                .min_by(|one, other| clockwise(one).total_cmp(&clockwise(other)));
            if let Some(&nearest) = nearest {
                self.segments[index as usize].next = nearest;
            }
        }
    }

    /// A grid point in local grid steps.
    pub(crate) fn local(&self, point: GridPoint) -> Point {
        Point::new(
            f64::from(point.x - self.origin.x),
            f64::from(point.y - self.origin.y),
        )
    }

    /// Millimetres from local grid steps.
    pub(crate) fn mm(&self, local: Point) -> Point {
        Point::new(
            (local.x + f64::from(self.origin.x)) / STEPS_PER_MM,
            (local.y + f64::from(self.origin.y)) / STEPS_PER_MM,
        )
    }

    /// The grid point nearest to a place in local grid steps.
    pub(crate) fn grid(&self, local: Point) -> GridPoint {
        GridPoint::new(
            local.x.round() as i32 + self.origin.x,
            local.y.round() as i32 + self.origin.y,
        )
    }

    /// The middle of a segment, in millimetres.
    pub(crate) fn place_of(&self, segment: u32) -> Point {
        self.segments
            .get(segment as usize)
            .map_or(Point::ZERO, |found| self.mm(found.a.midpoint(found.b)))
    }

    /// The letter's region.
    pub(crate) fn letter(&self) -> Region {
        let pieces = self
            .pieces
            .iter()
            .filter_map(|rings| {
                let mut rings = rings.iter().map(|ring| ring_of(ring));
                Some(Piece {
                    outer: rings.next()?,
                    counters: rings.collect(),
                })
            })
            .collect();
        Region { pieces }
    }

    /// The room's ring.
    pub(crate) fn room(&self) -> Ring {
        ring_of(&self.room)
    }

    /// The corner at the start of a directed segment.
    pub(crate) fn corner_at_start(&self, segment: u32) -> Site {
        self.corner(segment, matches!(self.wall(segment), Wall::Letter))
    }

    /// The corner at the end of a directed segment.
    pub(crate) fn corner_at_end(&self, segment: u32) -> Site {
        self.corner(segment, matches!(self.wall(segment), Wall::Room))
    }

    fn wall(&self, segment: u32) -> Wall {
        self.segments[segment as usize].site.wall
    }

    /// The point with the segment's own number, or the one after it.
    fn corner(&self, segment: u32, after: bool) -> Site {
        let site = self.segments[segment as usize].site;
        let ring = match site.wall {
            Wall::Letter => site.ring as usize,
            Wall::Room => self.starts.len() - 2,
        };
        let count = self.starts[ring + 1] - self.starts[ring];
        Site {
            index: (site.index + u32::from(after)) % count,
            kind: SiteKind::Corner,
            ..site
        }
    }

    /// The same walls with one corner moved by one grid step: a last resort where the exact ones cannot be mapped.
    pub(crate) fn nudged(&self, segment: u32, attempt: usize) -> Result<Walls, DiagramError> {
        let (dx, dy) = [(1, 0), (0, 1), (-1, 0), (0, -1)][attempt % 4];
        let corner = self.segments.get(segment as usize).map_or(0, |_| segment);
        let site = self.corner_at_start(corner);
        let move_point =
            |point: &mut GridPoint| *point = GridPoint::new(point.x + dx, point.y + dy);
        let mut room = self.room.clone();
        let mut rings: Vec<Vec<GridPoint>> = self.pieces.iter().flatten().cloned().collect();
        match site.wall {
            Wall::Letter => rings
                .get_mut(site.ring as usize)
                .and_then(|ring| ring.get_mut(site.index as usize))
                .into_iter()
                .for_each(move_point),
            Wall::Room => room
                .get_mut(site.index as usize)
                .into_iter()
                .for_each(move_point),
        }
        Walls::of_rings(rings, room)
    }
}

/// What corners are ordered by: their whole coordinates.
fn key(point: Point) -> (i64, i64) {
    (point.x as i64, point.y as i64)
}

/// The angle from one direction to another, clockwise, above 0 and up to a full turn.
fn clockwise_angle(from: Vec2, to: Vec2) -> f64 {
    let angle = from.cross(to).atan2(from.dot(to));
    if angle < 0.0 {
        -angle
    } else {
        std::f64::consts::TAU - angle
    }
}

/// The room on the grid: simple, counter-clockwise, without points on straight lines.
fn clean_room(room: &Ring) -> Result<Vec<GridPoint>, DiagramError> {
    if room.iter().any(|point| !point.is_finite()) {
        return Err(DiagramError::Room);
    }
    let mut points = snapped_ring(room);
    let widest = steps(WIDEST_ROOM);
    let extent = |of: fn(&GridPoint) -> i32| {
        let values = || points.iter().map(of).map(f64::from);
        values().fold(f64::MIN, f64::max) - values().fold(f64::MAX, f64::min)
    };
    if points.len() < 3
        || points.len() > MOST_SEGMENTS
        || extent(|point| point.x) > widest
        || extent(|point| point.y) > widest
    {
        return Err(DiagramError::Room);
    }
    if double_area(&points) < 0 {
        points.reverse();
    }
    let mut rings = vec![vec![points]];
    drop_straight_points(&mut rings);
    let points = rings
        .pop()
        .and_then(|mut rings| rings.pop())
        .unwrap_or_default();
    let resolved = Region::from_ring(&ring_of(&points));
    let simple = match resolved.pieces.as_slice() {
        [only] => only.counters.is_empty() && only.outer.len() == points.len(),
        _ => false,
    };
    if !simple {
        return Err(DiagramError::Room);
    }
    Ok(points)
}

/// Drops points that lie straight between their neighbours, except where rings touch.
///
/// At such a point the diagram would have a cell without width, and no vertex at the point itself.
fn drop_straight_points(pieces: &mut [Vec<Vec<GridPoint>>]) {
    let mut all: Vec<(i32, i32)> = pieces
        .iter()
        .flatten()
        .flatten()
        .map(|point| (point.x, point.y))
        .collect();
    all.sort_unstable();
    let touching: Vec<(i32, i32)> = all
        .windows(2)
        .filter(|pair| pair[0] == pair[1])
        .map(|pair| pair[0])
        .collect();
    for ring in pieces.iter_mut().flatten() {
        // Each round drops at least one point or is the last.
        loop {
            let before = ring.len();
            let mut kept: Vec<GridPoint> = Vec::with_capacity(before);
            for (index, &point) in ring.iter().enumerate() {
                let previous = *kept.last().unwrap_or(&ring[before - 1]);
                let next = ring[(index + 1) % before];
                let straight = turn(previous, point, next) == 0;
                if !straight || touching.binary_search(&(point.x, point.y)).is_ok() {
                    kept.push(point);
                }
            }
            let done = kept.len() == before || kept.len() < 3;
            *ring = kept;
            if done {
                break;
            }
        }
    }
}

/// The letter lies wholly inside the room, without touching it.
fn check_inside(pieces: &[Vec<Vec<GridPoint>>], room: &[GridPoint]) -> Result<(), DiagramError> {
    let room_ring = ring_of(room);
    for ring in pieces.iter().filter_map(|rings| rings.first()) {
        let Some(&first) = ring.first() else { continue };
        if winding(&room_ring, place(first)) == 0 {
            return Err(DiagramError::LetterLeavesRoom(place(first)));
        }
        for (index, &from) in ring.iter().enumerate() {
            let to = ring[(index + 1) % ring.len()];
            for (number, &a) in room.iter().enumerate() {
                let b = room[(number + 1) % room.len()];
                if meet(from, to, a, b) {
                    return Err(DiagramError::LetterLeavesRoom(place(from)));
                }
            }
        }
    }
    Ok(())
}

/// Whether two segments have a point in common; exact.
fn meet(p: GridPoint, q: GridPoint, a: GridPoint, b: GridPoint) -> bool {
    let apart =
        |p0: i32, p1: i32, a0: i32, a1: i32| p0.max(p1) < a0.min(a1) || p0.min(p1) > a0.max(a1);
    if apart(p.x, q.x, a.x, b.x) || apart(p.y, q.y, a.y, b.y) {
        return false;
    }
    let side = |u: GridPoint, v: GridPoint, w: GridPoint| turn(u, v, w).signum();
    side(p, q, a) * side(p, q, b) <= 0 && side(a, b, p) * side(a, b, q) <= 0
}
