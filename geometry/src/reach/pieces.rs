//! The ground reached and the ground left, as regions, from a disc's course along the walls.

use i_overlay::core::overlay_rule::OverlayRule;
use kurbo::{Point, Vec2};

use super::opening::{Opening, Touch};
use super::{ARC_SAGITTA, LEAST_DEPTH, Left, Reach, Stretch};
use crate::boolean::{Contours, FillRule};
use crate::diagram::{Diagram, Wall, steps};
use crate::grid::{GridPoint, STEPS_PER_MM, double_area, ring_of, snapped};
use crate::region::{Piece, Region, signed_area, winding};

/// A closed edge of ground left, before overlaps are resolved.
struct LeftRing {
    points: Vec<GridPoint>,
    /// Centres of the disc at the arcs of the edge.
    centres: Vec<Point>,
    /// The wall's corners along it.
    corners: Vec<Point>,
    /// Where the disc leaves the wall and comes to it again.
    feet: Vec<Point>,
}

/// What follows a touch on the edge of the ground reached: an arc, or the wall itself where hardly anything is left.
enum Link {
    Arc(Vec<GridPoint>),
    Wall(Vec<Point>),
}

impl LeftRing {
    /// The disc's only place on the edge, where there is but one: then the ring is a pocket with a single mouth.
    ///
    /// No other place of the disc can reach into a pocket: the mouth is at most half a circle, and the part of one disc that lies
    /// outside another of the same radius takes more of its edge than that. So pockets overlap nothing.
    fn only_stop(&self) -> Option<Point> {
        match self.centres.as_slice() {
            [only] => Some(*only),
            _ => None,
        }
    }
}

/// The reach of a disc.
pub(super) fn reach(diagram: &Diagram, radius: f64) -> Reach {
    let opening = Opening::of(diagram, radius);
    let (links, rings) = edges(diagram, &opening);
    Reach {
        reached: reached(diagram, &opening, &links, &rings),
        left: left(diagram, &opening, &rings),
        touched: stretches(diagram, &opening, &links),
    }
}

/// The stretches of wall that a disc touches.
pub(super) fn touched(diagram: &Diagram, radius: f64) -> Vec<Stretch> {
    let opening = Opening::of(diagram, radius);
    let (links, _) = edges(diagram, &opening);
    stretches(diagram, &opening, &links)
}

/// The edges of all ground left, and what follows each touch on the edge of the ground reached.
fn edges(diagram: &Diagram, opening: &Opening) -> (Vec<Link>, Vec<LeftRing>) {
    let mut links: Vec<Link> = opening
        .touches
        .iter()
        .map(|touch| {
            if touch.turns_after {
                Link::Arc(arc(diagram, opening, touch))
            } else {
                Link::Wall(Vec::new())
            }
        })
        .collect();
    let mut rings = Vec::new();
    let mut seen = vec![false; opening.touches.len()];
    for first in 0..opening.touches.len() as u32 {
        if seen[first as usize] || !opening.touches[first as usize].turns_after {
            continue;
        }
        // Along the wall to the next touch, back over the arc by which the disc came to it, and so on round.
        let mut ring = LeftRing {
            points: Vec::new(),
            centres: Vec::new(),
            corners: Vec::new(),
            feet: Vec::new(),
        };
        let mut at = first;
        while !seen[at as usize] {
            seen[at as usize] = true;
            let touch = &opening.touches[at as usize];
            let passed = opening.passed(diagram, at);
            ring.points.push(diagram.walls.grid(touch.feet[1]));
            ring.points
                .extend(passed.iter().map(|&corner| diagram.walls.grid(corner)));
            ring.corners.extend(passed);
            let landing = &opening.touches[touch.wall_next as usize];
            ring.points.push(diagram.walls.grid(landing.feet[0]));
            ring.centres.push(landing.centres[0]);
            ring.feet.extend([touch.feet[1], landing.feet[0]]);
            at = landing.previous;
            if let Link::Arc(points) = &links[at as usize] {
                ring.points.extend(points.iter().rev());
            }
        }
        let shallow = ring.only_stop().is_some_and(|only| {
            furthest(&ring.corners, &[only]) - opening.radius < steps(LEAST_DEPTH)
        });
        if shallow {
            links[first as usize] = Link::Wall(ring.corners);
        } else {
            rings.push(ring);
        }
    }
    for &walk in &opening.untouched {
        let corners: Vec<Point> = diagram.walls.walks[walk]
            .iter()
            .map(|&segment| diagram.walls.segments[segment as usize].b)
            .collect();
        rings.push(LeftRing {
            points: corners
                .iter()
                .map(|&corner| diagram.walls.grid(corner))
                .collect(),
            centres: Vec::new(),
            corners,
            feet: Vec::new(),
        });
    }
    (links, rings)
}

/// The distance of the furthest place from its nearest centre; infinite without centres.
fn furthest(places: &[Point], centres: &[Point]) -> f64 {
    places
        .iter()
        .map(|place| {
            centres
                .iter()
                .map(|centre| centre.distance(*place))
                .fold(f64::INFINITY, f64::min)
        })
        .fold(0.0, f64::max)
}

/// Places of a straight wall that lie as far from one centre as from another: between its ends, only these can be furthest.
fn between_centres(from: Point, to: Point, centres: &[Point]) -> Vec<Point> {
    // More stops than these about one piece are left to the ends alone.
    let few = &centres[..centres.len().min(MOST_STOPS)];
    let mut places = Vec::new();
    for (index, &one) in few.iter().enumerate() {
        for &other in &few[index + 1..] {
            let apart = other - one;
            let slope = (to - from).dot(apart);
            let part = (one.midpoint(other) - from).dot(apart) / slope;
            if (0.0..=1.0).contains(&part) {
                places.push(from.lerp(to, part));
            }
        }
    }
    places
}

/// The most stops whose bisectors are looked at: a crossing of slots has four.
const MOST_STOPS: usize = 8;

/// The places between the ends of the arc that the disc's edge makes where it turns from one touch to the next.
fn arc(diagram: &Diagram, opening: &Opening, touch: &Touch) -> Vec<GridPoint> {
    let centre = touch.centres[1];
    let from = touch.feet[1] - centre;
    let to = opening.touches[touch.next as usize].feet[0] - centre;
    let sweep = from.cross(to).atan2(from.dot(to));
    // Never more than half a turn; one that rounding made negative is none.
    let sweep = if sweep < -3.0 { -sweep } else { sweep.max(0.0) };
    let step = 2.0 * (1.0 - (steps(ARC_SAGITTA) / opening.radius).min(1.0)).acos();
    let count = (sweep / step.max(LEAST_STEP)).ceil().max(1.0) as u32;
    (1..count)
        .map(|number| {
            let (sin, cos) = (sweep * f64::from(number) / f64::from(count)).sin_cos();
            let out = Vec2::new(from.x * cos - from.y * sin, from.x * sin + from.y * cos);
            diagram.walls.grid(centre + out)
        })
        .collect()
}

/// The smallest step along an arc, in radians, whatever its radius: at most 3,142 points an arc.
const LEAST_STEP: f64 = 1e-3;

fn reached(diagram: &Diagram, opening: &Opening, links: &[Link], left: &[LeftRing]) -> Region {
    let mut rings = Vec::with_capacity(opening.loops.len());
    for (number, &first) in opening.loops.iter().enumerate() {
        let end = opening
            .loops
            .get(number + 1)
            .map_or(opening.touches.len(), |&next| next as usize);
        let range = first as usize..end;
        let mut ring = Vec::with_capacity(2 * range.len());
        for (touch, link) in opening.touches[range.clone()].iter().zip(&links[range]) {
            ring.push(diagram.walls.grid(touch.feet[0]));
            ring.push(diagram.walls.grid(touch.feet[1]));
            match link {
                Link::Arc(points) => ring.extend(points),
                Link::Wall(corners) => {
                    ring.extend(corners.iter().map(|&corner| diagram.walls.grid(corner)));
                }
            }
        }
        ring.dedup();
        rings.push(ring);
    }
    // Across a neck the disc's places overlap from both sides, and only there.
    let necks = left.iter().any(|ring| ring.centres.len() > 1);
    if let (false, Some(region)) = (necks, nested(&rings)) {
        return region;
    }
    let mut contours = Contours::new(rings.iter().map(Vec::len).sum());
    for ring in &rings {
        contours.add(ring);
    }
    // Where places overlap the winding is 2, and filled once.
    contours.resolve(OverlayRule::Subject, FillRule::Positive)
}

/// The most pairs of outer rings and counters for which it is quicker to see which lies in which one by one.
const FEW_PAIRS: usize = 64;

/// The region of rings that do not cross; `None` where it takes more to tell what lies in what.
fn nested(rings: &[Vec<GridPoint>]) -> Option<Region> {
    let mut pieces = Vec::new();
    let mut counters = Vec::new();
    for ring in rings {
        let area = double_area(ring);
        if area > 0 {
            pieces.push(Piece {
                outer: ring_of(ring),
                counters: Vec::new(),
            });
        } else if area < 0 {
            counters.push(ring_of(ring));
        }
    }
    if pieces.len() > 1 && pieces.len() * counters.len() > FEW_PAIRS {
        return None;
    }
    for counter in counters {
        let holder = match pieces.as_mut_slice() {
            [only] => only,
            several => {
                let inside = |piece: &&mut Piece| winding(&piece.outer, counter[0]) != 0;
                several.iter_mut().filter(inside).min_by(|one, other| {
                    signed_area(&one.outer).total_cmp(&signed_area(&other.outer))
                })?
            }
        };
        holder.counters.push(counter);
    }
    Some(Region { pieces })
}

fn left(diagram: &Diagram, opening: &Opening, rings: &[LeftRing]) -> Vec<Left> {
    let mut found = Vec::with_capacity(rings.len());
    let mut contours = Contours::new(0);
    let mut owners: Vec<((i32, i32), u32)> = Vec::new();
    let mut any = false;
    for (number, ring) in (0_u32..).zip(rings) {
        if let Some(stop) = ring.only_stop() {
            found.extend(pocket(diagram, opening, ring, stop));
            continue;
        }
        any = true;
        let mut points = ring.points.clone();
        points.dedup();
        contours.add(&points);
        owners.extend(ring.corners.iter().chain(&ring.feet).map(|&corner| {
            let corner = diagram.walls.grid(corner);
            ((corner.x, corner.y), number)
        }));
    }
    if any {
        owners.sort_unstable();
        let pieces = contours
            .resolve(OverlayRule::Subject, FillRule::Positive)
            .pieces;
        found.extend(
            pieces
                .into_iter()
                .map(|piece| described(diagram, opening, rings, &owners, piece)),
        );
    }
    found
}

/// A pocket, if it is more than a line.
fn pocket(diagram: &Diagram, opening: &Opening, ring: &LeftRing, stop: Point) -> Option<Left> {
    let mut points = ring.points.clone();
    points.dedup();
    while points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    let area = double_area(&points);
    if area <= 0 {
        return None;
    }
    let depth = (furthest(&ring.corners, &[stop]) - opening.radius).max(0.0);
    Some(Left {
        area: area as f64 / (2.0 * STEPS_PER_MM * STEPS_PER_MM),
        depth: depth / STEPS_PER_MM,
        stops: vec![diagram.mm(stop)],
        region: Region {
            pieces: vec![Piece {
                outer: ring_of(&points),
                counters: Vec::new(),
            }],
        },
    })
}

fn described(
    diagram: &Diagram,
    opening: &Opening,
    rings: &[LeftRing],
    owners: &[((i32, i32), u32)],
    piece: Piece,
) -> Left {
    let mut sources: Vec<u32> = Vec::new();
    // Runs of points on the wall, each place with the one after it.
    let mut walls: Vec<(Point, Point)> = Vec::new();
    for ring in std::iter::once(&piece.outer).chain(&piece.counters) {
        let mut on_wall: Vec<Option<Point>> = Vec::with_capacity(ring.len());
        for &point in ring {
            let point = snapped(point);
            let key = (point.x, point.y);
            let from = owners.partition_point(|&(owner, _)| owner < key);
            let before = sources.len();
            sources.extend(
                owners[from..]
                    .iter()
                    .take_while(|(owner, _)| *owner == key)
                    .map(|&(_, ring)| ring),
            );
            on_wall.push((sources.len() > before).then(|| diagram.walls.local(point)));
        }
        let after = on_wall.iter().cycle().skip(1);
        walls.extend(
            on_wall
                .iter()
                .zip(after)
                .filter_map(|(from, to)| from.map(|from| (from, to.unwrap_or(from)))),
        );
    }
    sources.sort_unstable();
    sources.dedup();
    let centres: Vec<Point> = sources
        .iter()
        .flat_map(|&ring| &rings[ring as usize].centres)
        .copied()
        .collect();
    let mut places: Vec<Point> = walls.iter().map(|&(from, _)| from).collect();
    for &(from, to) in &walls {
        places.extend(between_centres(from, to, &centres));
    }
    let depth = (furthest(&places, &centres) - opening.radius).max(0.0);
    Left {
        area: std::iter::once(&piece.outer)
            .chain(&piece.counters)
            .map(|ring| signed_area(ring))
            .sum(),
        depth: depth / STEPS_PER_MM,
        stops: centres.iter().map(|&centre| diagram.mm(centre)).collect(),
        region: Region {
            pieces: vec![piece],
        },
    }
}

fn stretches(diagram: &Diagram, opening: &Opening, links: &[Link]) -> Vec<Stretch> {
    let mut found: Vec<(u32, f64, f64)> = Vec::new();
    let segments = &diagram.walls.segments;
    let mut add = |number: u32, from: f64, to: f64| {
        let segment = &segments[number as usize];
        let (from, to) = (from / segment.length, to / segment.length);
        // The letter's segments are walked against their ring.
        let (from, to) = match segment.site.wall {
            Wall::Letter => (1.0 - to, 1.0 - from),
            Wall::Room => (from, to),
        };
        found.push((number, from.clamp(0.0, 1.0), to.clamp(0.0, 1.0)));
    };
    let along = |segment: u32, place: Point| {
        let segment = &segments[segment as usize];
        segment.direction.dot(place - segment.a)
    };
    for (touch, link) in opening.touches.iter().zip(links) {
        let [entry, exit] = touch.segments;
        if entry == exit {
            add(
                entry,
                along(entry, touch.feet[0]),
                along(entry, touch.feet[1]),
            );
        }
        let Link::Wall(corners) = link else { continue };
        // Wall that is passed so closely that it counts as touched.
        let landing = &opening.touches[touch.next as usize];
        let (mut segment, mut from) = (exit, along(exit, touch.feet[1]));
        for _ in corners {
            add(segment, from, segments[segment as usize].length);
            segment = segments[segment as usize].next;
            from = 0.0;
        }
        if segment == landing.segments[0] {
            add(segment, from, along(segment, landing.feet[0]));
        }
    }
    merged(diagram, found)
}

/// Stretches closer together than this part of their segment are one.
const SAME: f64 = 1e-9;

/// Segments are numbered in the order of the rings.
fn merged(diagram: &Diagram, mut found: Vec<(u32, f64, f64)>) -> Vec<Stretch> {
    found.retain(|&(_, from, to)| to > from);
    found.sort_unstable_by(|one, other| {
        one.0
            .cmp(&other.0)
            .then(one.1.total_cmp(&other.1))
            .then(one.2.total_cmp(&other.2))
    });
    let mut merged: Vec<Stretch> = Vec::with_capacity(found.len());
    for (number, from, to) in found {
        let site = diagram.walls.segments[number as usize].site;
        match merged.last_mut() {
            Some(last) if last.site == site && from <= last.to + SAME => {
                last.to = last.to.max(to);
            }
            _ => merged.push(Stretch { site, from, to }),
        }
    }
    merged
}
