//! Where a disc rolls along the walls, and the stretches of wall that it passes by.

use kurbo::{Point, Vec2};

use crate::diagram::{Diagram, NONE, SiteOf, steps};
use crate::offset::{Contour, Span};

/// A stretch of wall that the disc touches while its centre follows one span of the offset.
#[derive(Clone, Copy, Debug)]
pub(super) struct Touch {
    /// The centre's first and last place, in grid steps.
    pub(super) centres: [Point; 2],
    /// The wall's places touched from them.
    pub(super) feet: [Point; 2],
    /// The segment along which the wall's walk comes to this stretch, and the one along which it leaves; they differ at a corner.
    pub(super) segments: [u32; 2],
    /// Whether the next touch along the offset begins elsewhere on the wall, so that the disc stops here and turns.
    pub(super) turns_after: bool,
    /// The next and previous touch along the offset.
    pub(super) next: u32,
    pub(super) previous: u32,
    /// The next touch along the wall.
    pub(super) wall_next: u32,
    /// Whether that lies before this one on the walk's list: the walk has come round.
    pub(super) wraps: bool,
}

impl Touch {
    fn at_corner(&self) -> bool {
        self.segments[0] != self.segments[1]
    }
}

/// A disc's course along the walls.
pub(super) struct Opening {
    /// The disc's radius, in grid steps.
    pub(super) radius: f64,
    /// All touches, loop by loop.
    pub(super) touches: Vec<Touch>,
    /// The first touch of each loop of the offset.
    pub(super) loops: Vec<u32>,
    /// Closed walks along walls that the disc touches nowhere.
    pub(super) untouched: Vec<usize>,
}

impl Opening {
    /// Follows a disc of `radius` millimetres.
    pub(super) fn of(diagram: &Diagram, radius: f64) -> Opening {
        let contour = diagram.contour(radius);
        let mut opening = Opening {
            radius: steps(radius),
            touches: Vec::new(),
            loops: Vec::new(),
            untouched: Vec::new(),
        };
        let mut keys = Vec::new();
        for spans in &contour.loops {
            let first = opening.touches.len() as u32;
            let count = spans.len() as u32;
            opening.loops.push(first);
            for (index, span) in (0..count).zip(spans) {
                let (mut touch, key) = touch(diagram, &contour, *span);
                touch.next = first + (index + 1) % count;
                touch.previous = first + (index + count - 1) % count;
                keys.push((key, opening.touches.len() as u32));
                opening.touches.push(touch);
            }
        }
        opening.order_along_walls(diagram, keys);
        opening
    }

    fn order_along_walls(&mut self, diagram: &Diagram, mut keys: Vec<(Key, u32)>) {
        keys.sort_by(|(one, a), (other, b)| {
            one.element
                .cmp(&other.element)
                .then(one.along.total_cmp(&other.along))
                .then(a.cmp(b))
        });
        let mut at = 0;
        let mut end_of_walk = 0;
        for (number, walk) in diagram.walls.walks.iter().enumerate() {
            end_of_walk += walk.len() as u32;
            let start = at;
            while at < keys.len() && keys[at].0.element < 2 * end_of_walk {
                at += 1;
            }
            if start == at {
                self.untouched.push(number);
            }
            for index in start..at {
                let wraps = index + 1 == at;
                let next = if wraps { start } else { index + 1 };
                let touch = &mut self.touches[keys[index].1 as usize];
                touch.wall_next = keys[next].1;
                touch.wraps = wraps;
            }
        }
    }

    /// The wall's corners between a touch and the next one along the wall, both left out.
    pub(super) fn passed(&self, diagram: &Diagram, touch: u32) -> Vec<Point> {
        let from = &self.touches[touch as usize];
        let to = &self.touches[from.wall_next as usize];
        let segments = &diagram.walls.segments;
        let mut passed = Vec::new();
        let mut segment = from.segments[1];
        let goal = to.segments[0];
        let same = from.segments == to.segments && !from.wraps;
        if same {
            return passed;
        }
        // A whole walk round at most.
        for round in 0..segments.len() {
            let arrived = segment == goal && (round > 0 || !from.wraps || from.at_corner());
            if arrived {
                break;
            }
            passed.push(segments[segment as usize].b);
            segment = segments[segment as usize].next;
        }
        passed
    }
}

/// Where a touch lies in the order of the walls.
struct Key {
    /// Twice the segment's place in the walk; one more for the corner at its end.
    element: u32,
    /// Order within the segment or corner.
    along: f64,
}

fn touch(diagram: &Diagram, contour: &Contour, span: Span) -> (Touch, Key) {
    let centres = [span.from, span.to].map(|crossing| contour.crossings[crossing as usize].at);
    let shape = diagram.shape_of(span.cell);
    let feet = centres.map(|centre| shape.foot(centre));
    let cell = diagram.cells[span.cell as usize];
    let walls = &diagram.walls;
    let end_edge = contour.crossings[span.to as usize].rising;
    let (segments, key) = match cell.site {
        SiteOf::Segment => {
            let segment = &walls.segments[cell.segment as usize];
            let key = Key {
                element: 2 * walls.order[cell.segment as usize],
                along: segment
                    .direction
                    .dot(centres[0].midpoint(centres[1]) - segment.a),
            };
            ([cell.segment; 2], key)
        }
        SiteOf::Start | SiteOf::End => {
            let ending = match cell.site {
                SiteOf::End => cell.segment,
                SiteOf::Start | SiteOf::Segment => walls.before(cell.segment),
            };
            let out = half_way(centres[0] - feet[0], centres[1] - feet[0]);
            let ending = walls.wedge(ending, out);
            let normal = turned_left(walls.segments[ending as usize].direction);
            let key = Key {
                element: 2 * walls.order[ending as usize] + 1,
                along: clockwise(normal, out),
            };
            ([ending, walls.segments[ending as usize].next], key)
        }
    };
    let touch = Touch {
        centres,
        feet,
        segments,
        turns_after: diagram.edges[end_edge as usize].primary,
        next: NONE,
        previous: NONE,
        wall_next: NONE,
        wraps: false,
    };
    (touch, key)
}

/// The clockwise angle between two directions, above −1 and up to 2π − 1: a disc rolls clockwise about a corner, and rounding may
/// make no angle a little less.
fn clockwise(from: Vec2, to: Vec2) -> f64 {
    let angle = -from.cross(to).atan2(from.dot(to));
    if angle < -1.0 {
        angle + std::f64::consts::TAU
    } else {
        angle
    }
}

/// The direction half way from one to another, clockwise.
fn half_way(from: Vec2, to: Vec2) -> Vec2 {
    let (sin, cos) = (-clockwise(from, to) / 2.0).sin_cos();
    Vec2::new(from.x * cos - from.y * sin, from.x * sin + from.y * cos)
}

fn turned_left(way: Vec2) -> Vec2 {
    Vec2::new(-way.y, way.x)
}
