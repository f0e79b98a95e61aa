//! What a disc covers on its way along a line, row by row.

use kurbo::{Point, Vec2};

use super::{Frame, ceiling};

/// The places within a radius of a line. All of it is in cells from the middle of the frame's first cell.
pub(super) struct Strip {
    /// The end that lies lower; of two as low, the one to the left.
    low: Point,
    high: Point,
    radius: f64,
    radius2: f64,
    left: Flank,
    right: Flank,
    /// Below this height the disc about the lower end bounds both sides.
    low_to: f64,
    /// Above this one the disc about the higher end does.
    high_from: f64,
    frame: Frame,
}

/// The straight part of a strip's side. Below it, the disc about the lower end bounds the strip, above it that about the higher.
struct Flank {
    /// Which side it is: how far half a chord to the right lies to its direction.
    side: f64,
    /// Heights between which the side is straight.
    from: f64,
    to: f64,
    /// Where it starts, and how far it goes to the right for each step up.
    x: f64,
    slope: f64,
}

impl Strip {
    pub(super) fn new(frame: Frame, a: Point, b: Point, radius: f64) -> Strip {
        let [a, b] = [a, b].map(|at| frame.in_cells(at));
        let radius = radius * frame.per_mm;
        let (low, high) = if (a.y, a.x) <= (b.y, b.x) {
            (a, b)
        } else {
            (b, a)
        };
        let line = high - low;
        let length = line.hypot();
        let straight = |side: f64, start: Point| Flank {
            side,
            from: start.y,
            to: start.y + line.y,
            x: start.x,
            slope: line.x / line.y,
        };
        // A level line has only the disc about its left end on the left, and only that about its right end on the right.
        let round = |side: f64, height: f64| Flank {
            side,
            from: height,
            to: height,
            x: low.x,
            slope: 0.0,
        };
        let (left, right) = if length > SHORTEST_LINE && line.y > 0.0 {
            let aside = Vec2::new(-line.y, line.x) * (radius / length);
            (straight(-1.0, low + aside), straight(1.0, low - aside))
        } else {
            (round(-1.0, f64::INFINITY), round(1.0, f64::NEG_INFINITY))
        };
        let is_point = low == high;
        Strip {
            low_to: if is_point {
                f64::INFINITY
            } else {
                left.from.min(right.from)
            },
            high_from: left.to.max(right.to),
            low,
            high,
            radius,
            radius2: radius * radius,
            left,
            right,
            frame,
        }
    }

    /// The first row, and the one after the last.
    pub(super) fn rows(&self) -> (usize, usize) {
        if self.radius < 0.0 {
            return (0, 0);
        }
        (
            ceiling(self.low.y - self.radius, self.frame.rows),
            ceiling(self.high.y + self.radius, self.frame.rows),
        )
    }

    /// The first column of one of its rows, and the one after the last; none if that is not further.
    pub(super) fn columns(&self, row: usize) -> (usize, usize) {
        let y = f64::from(row as u32);
        let (least, most) = if y < self.low_to {
            self.disc(self.low, y)
        } else if y > self.high_from {
            self.disc(self.high, y)
        } else {
            (self.bound(&self.left, y), self.bound(&self.right, y))
        };
        (
            ceiling(least, self.frame.columns),
            ceiling(most, self.frame.columns),
        )
    }

    /// Where the strip ends at a height on the side of a flank.
    fn bound(&self, flank: &Flank, y: f64) -> f64 {
        if y < flank.from {
            self.low.x + flank.side * self.half_chord(self.low, y)
        } else if y > flank.to {
            self.high.x + flank.side * self.half_chord(self.high, y)
        } else {
            flank.x + (y - flank.from) * flank.slope
        }
    }

    /// From where to where the disc about an end lies at a height.
    fn disc(&self, centre: Point, y: f64) -> (f64, f64) {
        let half = self.half_chord(centre, y);
        (centre.x - half, centre.x + half)
    }

    fn half_chord(&self, centre: Point, y: f64) -> f64 {
        let away = y - centre.y;
        let square = self.radius2 - away * away;
        // Rows are chosen to meet the strip, so less than nothing is rounding.
        if square > 0.0 { square.sqrt() } else { 0.0 }
    }
}

/// Shorter lines are points, in cells.
const SHORTEST_LINE: f64 = 1e-11;
