//! Splines: B-splines with or without weights, as cubics.

use kurbo::{BezPath, PathEl, Point, Vec2};

use super::curves::WITHIN_MM;

/// The highest degree taken; programs write 3, seldom 5 (common practice, no source).
const HIGHEST_DEGREE: usize = 15;
/// How often a span may be halved while it is fitted: to a part in a thousand of it.
const MOST_HALVINGS: u32 = 10;

/// A B-spline.
#[derive(Clone, Debug)]
pub(super) struct Spline {
    pub degree: usize,
    pub knots: Vec<f64>,
    pub points: Vec<Point>,
    /// As many as points, all above 0.
    pub weights: Vec<f64>,
}

impl Spline {
    /// What is wrong with its numbers, if anything.
    pub(super) fn fault(&self) -> Option<&'static str> {
        if self.degree == 0 || self.degree > HIGHEST_DEGREE {
            return Some("the spline's degree is not from 1 to 15");
        }
        if self.points.len() <= self.degree {
            return Some("the spline has fewer control points than its degree asks for");
        }
        if self.knots.len() != self.points.len() + self.degree + 1 {
            return Some("the spline's knots do not fit its control points");
        }
        if self.knots.windows(2).any(|pair| pair[0] > pair[1]) {
            return Some("the spline's knots do not rise");
        }
        if self.weights.len() != self.points.len()
            || self.weights.iter().any(|&weight| weight <= 0.0)
        {
            return Some(
                "the spline's weights are not numbers above 0, one for each control point",
            );
        }
        None
    }

    /// The spline as cubics within the tolerance of arcs. Splines of degree 3 and less without weights are taken exactly.
    pub(super) fn path(&self, mm_per_unit: f64) -> BezPath {
        let mut path = BezPath::new();
        let is_plain = self.weights.windows(2).all(|pair| pair[0] == pair[1]);
        let spans = self.degree..self.points.len();
        for span in spans {
            let (from, to) = (self.knots[span], self.knots[span + 1]);
            if to - from <= 0.0 {
                continue;
            }
            if path.is_empty() {
                path.push(PathEl::MoveTo(self.at(span, from)));
            }
            if is_plain && self.degree <= 3 {
                path.push(self.exact(span, from, to));
            } else {
                self.fitted(span, [from, to], mm_per_unit, MOST_HALVINGS, &mut path);
            }
        }
        path
    }

    /// The polar form of the span's polynomial at as many values as its degree: affine in each, and the curve's point where all are one.
    ///
    /// # Source
    /// L. Ramshaw, "Blossoms are polar forms", *Computer Aided Geometric Design* 6, 1989; from memory.
    fn polar(&self, span: usize, values: &[f64]) -> Point {
        let degree = self.degree;
        let mut points: Vec<Vec2> = (span - degree..=span)
            .map(|place| self.points[place].to_vec2())
            .collect();
        for (round, &value) in values.iter().enumerate().take(degree) {
            for place in 0..degree - round {
                let low = self.knots[span - degree + round + 1 + place];
                let high = self.knots[span + 1 + place];
                let part = (value - low) / (high - low);
                points[place] = points[place].lerp(points[place + 1], part);
            }
        }
        points[0].to_point()
    }

    fn exact(&self, span: usize, from: f64, to: f64) -> PathEl {
        match self.degree {
            1 => PathEl::LineTo(self.polar(span, &[to])),
            2 => PathEl::QuadTo(self.polar(span, &[from, to]), self.polar(span, &[to, to])),
            _ => PathEl::CurveTo(
                self.polar(span, &[from, from, to]),
                self.polar(span, &[from, to, to]),
                self.polar(span, &[to, to, to]),
            ),
        }
    }

    /// The curve's place at a value of the span, by de Boor's scheme on weighted points.
    ///
    /// # Source
    /// C. de Boor, "On calculating with B-splines", *Journal of Approximation Theory* 6, 1972; weights: textbook (from memory).
    fn at(&self, span: usize, value: f64) -> Point {
        let degree = self.degree;
        let mut points: Vec<(Vec2, f64)> = (span - degree..=span)
            .map(|place| {
                let weight = self.weights[place];
                (self.points[place].to_vec2() * weight, weight)
            })
            .collect();
        for round in 0..degree {
            for place in 0..degree - round {
                let low = self.knots[span - degree + round + 1 + place];
                let high = self.knots[span + 1 + place];
                let part = (value - low) / (high - low);
                let (a, b) = (points[place], points[place + 1]);
                points[place] = (a.0.lerp(b.0, part), a.1 + (b.1 - a.1) * part);
            }
        }
        (points[0].0 / points[0].1).to_point()
    }

    /// How the place changes with the value.
    fn slope(&self, span: usize, value: f64, [from, to]: [f64; 2]) -> Vec2 {
        let step = (to - from) * 1e-4;
        let (a, b) = ((value - step).max(from), (value + step).min(to));
        (self.at(span, b) - self.at(span, a)) / (b - a)
    }

    /// Adds cubics with the curve's own ends and slopes (Hermite's form: textbook), halved until they lie near enough.
    fn fitted(
        &self,
        span: usize,
        [from, to]: [f64; 2],
        mm_per_unit: f64,
        halvings: u32,
        path: &mut BezPath,
    ) {
        let whole = [self.knots[span], self.knots[span + 1]];
        let third = (to - from) / 3.0;
        let (start, end) = (self.at(span, from), self.at(span, to));
        let one = start + self.slope(span, from, whole) * third;
        let two = end - self.slope(span, to, whole) * third;
        let cubic = kurbo::CubicBez::new(start, one, two, end);
        let is_near = [0.25, 0.5, 0.75].iter().all(|&part| {
            let drawn = kurbo::ParamCurve::eval(&cubic, part);
            let meant = self.at(span, from + (to - from) * part);
            drawn.distance(meant) * mm_per_unit <= WITHIN_MM
        });
        if is_near || halvings == 0 {
            path.push(PathEl::CurveTo(one, two, end));
            return;
        }
        let middle = (from + to) / 2.0;
        self.fitted(span, [from, middle], mm_per_unit, halvings - 1, path);
        self.fitted(span, [middle, to], mm_per_unit, halvings - 1, path);
    }
}
