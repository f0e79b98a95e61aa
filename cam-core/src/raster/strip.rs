//! What a disc covers on its way along a line, row by row.

use kurbo::{Point, Vec2};

use super::Frame;

/// The places within a radius of a line.
pub(super) struct Strip {
    /// The end that lies lower; of two as low, the one to the left.
    low: Point,
    high: Point,
    radius: f64,
    left: Flank,
    right: Flank,
    /// Below this height the disc about the lower end bounds both sides.
    low_to: f64,
    /// Above this one the disc about the higher end does.
    high_from: f64,
}

/// The straight part of a strip's side. Below it, the disc about the lower end bounds the strip, above it that about the higher.
struct Flank {
    /// Heights between which the side is straight.
    from: f64,
    to: f64,
    /// Where it starts, and how far it goes to the right for each step up.
    x: f64,
    slope: f64,
}

impl Strip {
    pub(super) fn new(a: Point, b: Point, radius: f64) -> Strip {
        let (low, high) = if (a.y, a.x) <= (b.y, b.x) {
            (a, b)
        } else {
            (b, a)
        };
        let line = high - low;
        let length = line.hypot();
        let straight = |start: Point| Flank {
            from: start.y,
            to: start.y + line.y,
            x: start.x,
            slope: line.x / line.y,
        };
        // A level line has only the disc about its left end on the left, and only that about its right end on the right.
        let round = |height: f64| Flank {
            from: height,
            to: height,
            x: low.x,
            slope: 0.0,
        };
        let (left, right) = if length > SHORTEST_LINE_MM && line.y > 0.0 {
            let side = Vec2::new(-line.y, line.x) * (radius / length);
            (straight(low + side), straight(low - side))
        } else {
            (round(f64::INFINITY), round(f64::NEG_INFINITY))
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
            left,
            right,
        }
    }

    /// The first row, and the one after the last.
    pub(super) fn rows(&self, frame: Frame) -> (usize, usize) {
        if self.radius < 0.0 {
            return (0, 0);
        }
        (
            frame.row_from(self.low.y - self.radius),
            frame.row_from(self.high.y + self.radius),
        )
    }

    /// The first column of one of its rows, and the one after the last; none if that is not further.
    pub(super) fn columns(&self, frame: Frame, row: usize) -> (usize, usize) {
        let y = frame.middle_y(row);
        let (least, most) = if y < self.low_to {
            self.disc(self.low, y)
        } else if y > self.high_from {
            self.disc(self.high, y)
        } else {
            (self.bound(&self.left, y).0, self.bound(&self.right, y).1)
        };
        (frame.column_from(least), frame.column_from(most))
    }

    /// Where the strip would end at a height to the left and to the right, if this flank were that of both sides.
    fn bound(&self, flank: &Flank, y: f64) -> (f64, f64) {
        if y < flank.from {
            self.disc(self.low, y)
        } else if y > flank.to {
            self.disc(self.high, y)
        } else {
            let x = flank.x + (y - flank.from) * flank.slope;
            (x, x)
        }
    }

    /// From where to where the disc about an end lies at a height.
    fn disc(&self, centre: Point, y: f64) -> (f64, f64) {
        let away = y - centre.y;
        // Rows are chosen to meet the strip, so less than nothing is rounding.
        let half = (self.radius * self.radius - away * away).max(0.0).sqrt();
        (centre.x - half, centre.x + half)
    }
}

/// Shorter lines are points, mm.
const SHORTEST_LINE_MM: f64 = 1e-12;
