//! The pen: contours from straight lines and curves that start and end along the axes.

use kurbo::{Affine, BezPath, Point, Shape};

/// Draws one closed contour.
pub struct Pen {
    path: BezPath,
    at: Point,
}

impl Pen {
    /// Starts a contour.
    pub fn at(x: f64, y: f64) -> Pen {
        let mut path = BezPath::new();
        path.move_to((x, y));
        Pen {
            path,
            at: Point::new(x, y),
        }
    }

    /// A straight line.
    pub fn line(mut self, x: f64, y: f64) -> Pen {
        self.path.line_to((x, y));
        self.at = Point::new(x, y);
        self
    }

    /// A curve that leaves horizontally and arrives vertically; `fullness` 0.55 is a quarter of an ellipse, 1 a corner.
    pub fn level_to_plumb(self, x: f64, y: f64, fullness: f64) -> Pen {
        let from = self.at;
        let leaving = (from.x + fullness * (x - from.x), from.y);
        let arriving = (x, y - fullness * (y - from.y));
        self.curve(leaving, arriving, (x, y))
    }

    /// A curve that leaves vertically and arrives horizontally.
    pub fn plumb_to_level(self, x: f64, y: f64, fullness: f64) -> Pen {
        let from = self.at;
        let leaving = (from.x, from.y + fullness * (y - from.y));
        let arriving = (x - fullness * (x - from.x), y);
        self.curve(leaving, arriving, (x, y))
    }

    /// A curve with its two handles.
    pub fn curve(mut self, leaving: (f64, f64), arriving: (f64, f64), to: (f64, f64)) -> Pen {
        self.path.curve_to(leaving, arriving, to);
        self.at = to.into();
        self
    }

    /// Closes the contour.
    pub fn close(mut self) -> BezPath {
        self.path.close_path();
        self.path
    }
}

/// A closed contour through straight-line points.
pub fn polygon(points: &[(f64, f64)]) -> BezPath {
    let mut path = BezPath::new();
    for (i, &point) in points.iter().enumerate() {
        if i == 0 {
            path.move_to(point)
        } else {
            path.line_to(point)
        }
    }
    path.close_path();
    path
}

/// An upright rectangle.
pub fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> BezPath {
    polygon(&[(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
}

/// An ellipse with the given fullness.
pub fn ellipse(cx: f64, cy: f64, rx: f64, ry: f64, fullness: f64) -> BezPath {
    Pen::at(cx + rx, cy)
        .plumb_to_level(cx, cy + ry, fullness)
        .level_to_plumb(cx - rx, cy, fullness)
        .plumb_to_level(cx, cy - ry, fullness)
        .level_to_plumb(cx + rx, cy, fullness)
        .close()
}

/// The contour run counter-clockwise, so that it adds ink.
pub fn inked(path: BezPath) -> BezPath {
    if path.area() < 0.0 {
        path.reverse_subpaths()
    } else {
        path
    }
}

/// Half a turn about a point: exact, where a rotation by an angle would depend on the machine's sine.
pub fn half_turn(x: f64, y: f64) -> Affine {
    Affine::new([-1.0, 0.0, 0.0, -1.0, 2.0 * x, 2.0 * y])
}

/// A quarter turn clockwise about a point, exact.
pub fn quarter_turn(x: f64, y: f64) -> Affine {
    Affine::new([0.0, -1.0, 1.0, 0.0, x - y, x + y])
}
