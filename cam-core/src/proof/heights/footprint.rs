//! What a passing cutter covers, row by row.

use std::ops::Range;

use geometry::arc_path::Turn;
use geometry::cells::Grid;
use kurbo::{Point, Vec2};

use crate::proof::motion;
use reader::{ReadCourse, ReadMotion};

/// The places within a radius of a motion.
#[derive(Clone, Copy, Debug)]
pub struct Footprint {
    radius: f64,
    /// Where the motion begins, if what lies within the radius of that place is left out ([`Footprint::beyond_start`]).
    without: Option<Point>,
    /// The lowest and the highest place.
    heights: [f64; 2],
    way: Way,
}

/// The way of the disc's middle.
#[derive(Clone, Copy, Debug)]
enum Way {
    /// Straight from one place to another; the third is the radius across the way.
    Line(Point, Point, Vec2),
    Arc(Band),
}

/// A band about a centre, counter-clockwise from one ray to another, with a disc at either end.
#[derive(Clone, Copy, Debug)]
struct Band {
    centre: Point,
    ends: [Point; 2],
    /// From the centre to the places where the rays begin and end.
    from: Vec2,
    to: Vec2,
    outer: f64,
    inner: f64,
    whole: bool,
    /// More than half a turn.
    wide: bool,
}

impl Footprint {
    /// What lies within a radius of a motion.
    pub fn of(read: &ReadMotion, radius: f64) -> Footprint {
        let extent = motion::extent(read);
        let (a, b) = (read.from.xy, read.to.xy);
        let way = match read.course {
            ReadCourse::Rapid | ReadCourse::Line { .. } => {
                let length = a.distance(b);
                let side = if length > 0.0 {
                    Vec2::new(a.y - b.y, b.x - a.x) * (radius / length)
                } else {
                    Vec2::ZERO
                };
                Way::Line(a, b, side)
            }
            ReadCourse::Arc {
                centre,
                turn,
                sweep,
                ..
            } => {
                let [start, end] = match turn {
                    Turn::Left => [a, b],
                    Turn::Right => [b, a],
                };
                let turning = start.distance(centre);
                Way::Arc(Band {
                    centre,
                    ends: [a, b],
                    from: start - centre,
                    to: end - centre,
                    outer: turning + radius,
                    inner: (turning - radius).max(0.0),
                    whole: sweep >= std::f64::consts::TAU - 1e-9,
                    wide: sweep > std::f64::consts::PI,
                })
            }
        };
        Footprint {
            radius,
            without: None,
            // Fitted arcs may belong to circles far larger than the block, so only their own box is looked at.
            heights: [extent.y0 - radius, extent.y1 + radius],
            way,
        }
    }

    /// What lies within a radius of a place.
    pub fn standing(at: Point, radius: f64) -> Footprint {
        Footprint {
            radius,
            without: None,
            heights: [at.y - radius, at.y + radius],
            way: Way::Line(at, at, Vec2::ZERO),
        }
    }

    /// Leaves out what the motion covers where it begins, because the motion before it has covered that.
    pub fn beyond_start(mut self) -> Footprint {
        self.without = Some(match self.way {
            Way::Line(from, ..) => from,
            Way::Arc(band) => band.ends[0],
        });
        self
    }

    /// Tells every stretch of a level line that is covered; they may overlap.
    pub fn along_row(&self, y: f64, tell: &mut impl FnMut(f64, f64)) {
        let without = self.without.and_then(|place| self.chord(place, y));
        let mut say = |left: f64, right: f64| match without {
            None => tell(left, right),
            Some((from, to)) => {
                if left < from {
                    tell(left, right.min(from));
                }
                if right > to {
                    tell(left.max(to), right);
                }
            }
        };
        match self.way {
            Way::Line(a, b, side) => {
                if let Some((left, right)) = self.lane(y, a, b, side) {
                    say(left, right);
                }
            }
            Way::Arc(band) => {
                let mut joined = Joined::default();
                let skipped = usize::from(self.without.is_some());
                for &end in &band.ends[skipped..] {
                    if let Some((left, right)) = self.chord(end, y) {
                        joined.add(left, right, &mut say);
                    }
                }
                band.along_row(y, &mut |left, right| {
                    if left <= right {
                        joined.add(left, right, &mut say);
                    }
                });
                joined.end(&mut say);
            }
        }
    }

    /// What a level line has in common with the disc about a place.
    fn chord(&self, place: Point, y: f64) -> Option<(f64, f64)> {
        let half2 = self.radius * self.radius - (y - place.y) * (y - place.y);
        (half2 >= 0.0).then(|| {
            let half = half2.sqrt();
            (place.x - half, place.x + half)
        })
    }

    /// A disc drawn along a straight line: every row of it is one stretch.
    fn lane(&self, y: f64, a: Point, b: Point, side: Vec2) -> Option<(f64, f64)> {
        let (mut left, mut right) = (f64::INFINITY, f64::NEG_INFINITY);
        for (from, to) in [a, b].into_iter().filter_map(|end| self.chord(end, y)) {
            left = left.min(from);
            right = right.max(to);
        }
        for (p, q) in [(a + side, b + side), (a - side, b - side)] {
            if p.y != q.y && (p.y > y) != (q.y > y) {
                let x = p.x + (y - p.y) / (q.y - p.y) * (q.x - p.x);
                left = left.min(x);
                right = right.max(x);
            }
        }
        (left <= right).then_some((left, right))
    }
}

/// Stretches that come one after the other, made one as long as they overlap: fewer are told then.
#[derive(Default)]
struct Joined(Option<(f64, f64)>);

impl Joined {
    fn add(&mut self, left: f64, right: f64, say: &mut impl FnMut(f64, f64)) {
        self.0 = match self.0 {
            Some((from, to)) if left <= to && from <= right => {
                Some((from.min(left), to.max(right)))
            }
            before => {
                if let Some((from, to)) = before {
                    say(from, to);
                }
                Some((left, right))
            }
        };
    }

    fn end(self, say: &mut impl FnMut(f64, f64)) {
        if let Some((from, to)) = self.0 {
            say(from, to);
        }
    }
}

impl Band {
    /// What lies between two circles, on the right side of two rays.
    fn along_row(&self, y: f64, say: &mut impl FnMut(f64, f64)) {
        let x = self.centre.x;
        let y = y - self.centre.y;
        let half_outer2 = self.outer * self.outer - y * y;
        if half_outer2 < 0.0 {
            return;
        }
        let half_outer = half_outer2.sqrt();
        let half_inner = (self.inner * self.inner - y * y).max(0.0).sqrt();
        let (from, to) = (self.from, self.to);
        // After the start: from.x y − from.y x ≥ 0. Before the end: x to.y − y to.x ≥ 0.
        let after = left_of(from.y, from.x * y);
        let before = left_of(-to.y, -to.x * y);
        let parts: [[f64; 2]; 2] = [[-half_outer, -half_inner], [half_inner, half_outer]];
        for part in parts {
            if self.whole {
                say(x + part[0], x + part[1]);
            } else if self.wide {
                for kept in [after, before] {
                    let [left, right] = both(part, kept);
                    say(x + left, x + right);
                }
            } else {
                let [left, right] = both(both(part, after), before);
                say(x + left, x + right);
            }
        }
    }
}

/// Tells every stretch of cells, among these rows, whose centres are covered; some cells may be told twice.
pub fn stretches(
    grid: &Grid,
    rows: Range<usize>,
    footprint: &Footprint,
    tell: &mut impl FnMut(usize, Range<usize>),
) {
    let [low, high] = footprint.heights;
    let found = grid.rows_between(low, high);
    for row in found.start.max(rows.start)..found.end.min(rows.end) {
        footprint.along_row(grid.row_y(row), &mut |left, right| {
            let columns = grid.columns_between(left, right);
            if !columns.is_empty() {
                tell(row, columns);
            }
        });
    }
}

/// Where `slope` · x is at most `most`.
fn left_of(slope: f64, most: f64) -> [f64; 2] {
    if slope > 0.0 {
        [f64::NEG_INFINITY, most / slope]
    } else if slope < 0.0 {
        [most / slope, f64::INFINITY]
    } else if most >= 0.0 {
        [f64::NEG_INFINITY, f64::INFINITY]
    } else {
        [f64::INFINITY, f64::NEG_INFINITY]
    }
}

/// What two stretches have in common; turned round if that is nothing.
fn both(one: [f64; 2], other: [f64; 2]) -> [f64; 2] {
    [one[0].max(other[0]), one[1].min(other[1])]
}

#[cfg(test)]
mod tests {
    use std::f64::consts::TAU;

    use super::*;
    use crate::proof::tests::{arc, line};

    const GRID: Grid = Grid {
        origin: Point::new(-6.0, -5.0),
        cell: 0.1,
        columns: 120,
        rows: 100,
    };

    fn covered(footprint: &Footprint) -> Vec<bool> {
        let mut covered = vec![false; GRID.count()];
        stretches(&GRID, 0..GRID.rows, footprint, &mut |row, columns| {
            let first = row * GRID.columns;
            covered[first + columns.start..first + columns.end].fill(true);
        });
        covered
    }

    fn courses() -> [ReadMotion; 10] {
        let at = Point::new;
        [
            line(at(-2.0, -1.0), at(2.0, 1.5)),
            line(at(-2.0, 1.0), at(2.0, 1.0)),
            line(at(0.3, -1.0), at(0.3, 2.0)),
            line(at(0.3, 0.4), at(0.3, 0.4)),
            line(at(-40.0, 0.0), at(40.0, 3.0)),
            arc(at(2.0, 0.0), at(0.0, 0.0), 1.0, Turn::Left),
            arc(at(2.0, 0.0), at(0.0, 0.0), 4.0, Turn::Left),
            arc(at(2.0, 0.0), at(0.0, 0.0), 2.5, Turn::Right),
            arc(at(0.5, 0.5), at(0.0, 0.0), 5.5, Turn::Right),
            arc(at(2.0, 1.0), at(0.0, 0.0), TAU, Turn::Left),
        ]
    }

    /// Cells differ from the exact distance only where it is within rounding of the radius.
    #[test]
    fn covers_what_lies_within_the_radius() {
        for course in courses() {
            for radius in [0.4, 1.5, 3.0] {
                let covered = covered(&Footprint::of(&course, radius));
                for (index, covered) in covered.into_iter().enumerate() {
                    let distance = motion::distance(&course, GRID.centre(index));
                    if (distance - radius).abs() > 1e-9 {
                        let at = GRID.centre(index);
                        assert_eq!(covered, distance < radius, "{course:?}, {radius}, {at}");
                    }
                }
            }
        }
    }

    #[test]
    fn what_goes_on_leaves_out_just_the_place_where_it_begins() {
        for course in courses() {
            for radius in [0.4, 1.5, 3.0] {
                let all = Footprint::of(&course, radius);
                let begun = Footprint::of(&line(course.from.xy, course.from.xy), radius);
                let on = covered(&all.beyond_start());
                let begun = covered(&begun);
                for (index, all) in covered(&all).into_iter().enumerate() {
                    assert_eq!(on[index] | begun[index], all, "{course:?}, {radius}");
                    let distance = course.from.xy.distance(GRID.centre(index));
                    if distance < radius - 1e-9 {
                        assert!(!on[index], "{course:?}, {radius}");
                    }
                }
            }
        }
    }
}
