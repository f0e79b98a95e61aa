//! The parts that letters are made of: strokes with bracketed serifs, arms, quarter bowls, balls; each also draws the
//! light line that runs down its middle in the companion layer.

use crate::pen::{Pen, ellipse, inked, polygon};
use kurbo::{Affine, BezPath, CubicBez, ParamCurve, Point, Rect, Shape};

/// Height of the capitals and figures, in font units.
pub const CAP: f64 = 1400.0;
/// Height of the small letters.
pub const X: f64 = 980.0;
/// Height of the ascenders.
pub const ASCENDER: f64 = 1450.0;
/// Foot of the descenders.
pub const DESCENDER: f64 = -420.0;
/// How far rounds pass the lines that flat letters stand on.
pub const OVER: f64 = 20.0;
/// Main stroke of the capitals.
pub const STEM: f64 = 300.0;
/// Thin horizontal strokes.
pub const HAIR: f64 = 58.0;
/// Thin upright and sloping strokes; a little more, because thin uprights look thinner.
pub const HAIR_UPRIGHT: f64 = 80.0;
/// Thickness of serifs.
pub const SERIF: f64 = 48.0;
/// Reach of a capital's serif past its stem.
pub const REACH: f64 = 130.0;
/// Fullness of outer curves: squarer than an ellipse.
pub const FULL: f64 = 0.62;
/// Fullness of counters: squarer still, so that their sides run straight.
pub const FULL_COUNTER: f64 = 0.70;
/// Strokes from this width upward carry a light line.
const LIT: f64 = 180.0;

/// A letter as drawn: parts that add ink, cuts taken out of them, and the companion layer's light lines.
#[derive(Default)]
pub struct Drawing {
    /// Overlapping parts that are inked.
    pub parts: Vec<BezPath>,
    /// What is taken away once the parts are merged.
    pub cuts: Vec<BezPath>,
    /// Light lines of the companion layer.
    pub lights: Vec<BezPath>,
}

/// How far a stroke's serif reaches to its left and right.
pub type Serif = Option<(f64, f64)>;

impl Drawing {
    /// Adds an inked part.
    pub fn ink(&mut self, part: BezPath) -> &mut Self {
        self.parts.push(inked(part));
        self
    }

    /// Takes a part away.
    pub fn cut(&mut self, part: BezPath) -> &mut Self {
        self.cuts.push(inked(part));
        self
    }

    /// Takes the inside of a part that was just inked out of it again; other parts over the same ground stay.
    pub fn counter(&mut self, hollow: BezPath) -> &mut Self {
        self.parts.push(inked(hollow).reverse_subpaths());
        self
    }

    /// Adds a light line.
    pub fn light(&mut self, part: BezPath) -> &mut Self {
        self.lights.push(inked(part));
        self
    }

    /// Adds all of another drawing, transformed.
    pub fn place(&mut self, other: &Drawing, transform: Affine) -> &mut Self {
        // A mirrored contour is run backward, so that ink stays ink and counters stay counters.
        let mirrored = transform.determinant() < 0.0;
        let moved = |paths: &[BezPath]| {
            let turn = |path: BezPath| {
                if mirrored {
                    path.reverse_subpaths()
                } else {
                    path
                }
            };
            paths
                .iter()
                .map(|path| turn(transform * path.clone()))
                .collect::<Vec<_>>()
        };
        self.parts.extend(moved(&other.parts));
        self.cuts.extend(moved(&other.cuts));
        self.lights.extend(moved(&other.lights));
        self
    }

    /// The box around the inked parts.
    pub fn bounds(&self) -> Rect {
        self.parts
            .iter()
            .map(Shape::bounding_box)
            .reduce(|a, b| a.union(b))
            .unwrap_or_default()
    }

    /// A straight stroke of horizontal width `width`, its left edge at `foot_x` at height `low` and at `head_x` at height
    /// `high`, with bracketed serifs at either end.
    pub fn stroke(
        &mut self,
        foot_x: f64,
        head_x: f64,
        width: f64,
        (low, high): (f64, f64),
        foot: Serif,
        head: Serif,
    ) -> &mut Self {
        self.bare_stroke(foot_x, head_x, width, (low, high), foot, head);
        let clear = |serif: Serif| if serif.is_some() { 120.0 } else { 60.0 };
        let slope = (head_x - foot_x) / (high - low);
        let (from, to) = (low + clear(foot), high - clear(head));
        let middle = |y: f64| Point::new(foot_x + slope * (y - low) + width / 2.0, y);
        self.needle(middle(from), middle(to), width)
    }

    /// The same without the light line.
    pub fn bare_stroke(
        &mut self,
        foot_x: f64,
        head_x: f64,
        width: f64,
        (low, high): (f64, f64),
        foot: Serif,
        head: Serif,
    ) -> &mut Self {
        let slope = (head_x - foot_x) / (high - low);
        let left = |y: f64| foot_x + slope * (y - low);
        let right = |y: f64| left(y) + width;
        let mut pen = Pen::at(left(low) - foot.map_or(0.0, |s| s.0), low);
        let (foot_left, foot_right) = foot.unwrap_or_default();
        let (head_left, head_right) = head.unwrap_or_default();
        pen = pen.line(right(low) + foot_right, low);
        pen = bracket_from_tip(pen, right, low, 1.0, foot_right, 1.0);
        pen = bracket_to_tip(pen, right, high, -1.0, head_right, 1.0);
        pen = pen.line(left(high) - head_left, high);
        pen = bracket_from_tip(pen, left, high, -1.0, head_left, -1.0);
        pen = bracket_to_tip(pen, left, low, 1.0, foot_left, -1.0);
        self.ink(pen.close())
    }

    /// The light line of a straight stroke: a needle with a diamond in its middle when it is long.
    pub fn needle(&mut self, from: Point, to: Point, width: f64) -> &mut Self {
        let length = from.distance(to);
        if width < LIT || length < 160.0 {
            return self;
        }
        let along = (to - from) / length;
        let across = along.turn_90() * (width * 0.075);
        let point = along * 70.0_f64.min(length / 3.0);
        let mut edge = vec![
            from,
            from + point - across,
            to - point - across,
            to,
            to - point + across,
            from + point + across,
        ];
        if length > 700.0 {
            let middle = from.midpoint(to);
            let (long, wide) = (along * width * 0.42, across * 3.0);
            self.light(polygon(
                &[middle - long, middle - wide, middle + long, middle + wide].map(|p| (p.x, p.y)),
            ));
        }
        let edge: Vec<(f64, f64)> = edge.drain(..).map(|p| (p.x, p.y)).collect();
        self.light(polygon(&edge))
    }

    /// A thin arm from `from_x` to its serif at `end_x`; the arm's outer edge is at `y`, and the serif reaches `length`
    /// upward, or downward when negative.
    pub fn arm(&mut self, from_x: f64, end_x: f64, y: f64, length: f64) -> &mut Self {
        let (sx, sy) = ((end_x - from_x).signum(), length.signum());
        let tip = end_x - sx * 52.0;
        let reach = (length.abs() * 0.62).min((end_x - from_x).abs() - 60.0);
        self.ink(
            Pen::at(from_x, y)
                .line(end_x - sx * 14.0, y)
                .line(end_x, y + length)
                .line(tip, y + length)
                .curve(
                    (tip - sx * 8.0, y + length * 0.45),
                    (tip - sx * reach * 0.45, y + sy * HAIR),
                    (tip - sx * reach, y + sy * HAIR),
                )
                .line(from_x, y + sy * HAIR)
                .close(),
        )
    }

    /// A quarter of a bowl between its thin place (`thin_at`, stroke `thin`) and its thick place (`thick_at`, stroke `thick`).
    /// `counter_x` is where the counter's thin place lies. Its light line runs on into the quarter beyond the thick place.
    pub fn quarter(
        &mut self,
        thin_at: (f64, f64),
        thick_at: (f64, f64),
        thin: f64,
        thick: f64,
        counter_x: f64,
    ) -> &mut Self {
        let (outer, inner) = self.bare_quarter(thin_at, thick_at, thin, thick, counter_x);
        self.crescent(outer, inner, 0.42)
    }

    /// A quarter whose stroke runs on into something else: its light line ends in a point.
    pub fn last_quarter(
        &mut self,
        thin_at: (f64, f64),
        thick_at: (f64, f64),
        thin: f64,
        thick: f64,
        counter_x: f64,
    ) -> &mut Self {
        let (outer, inner) = self.bare_quarter(thin_at, thick_at, thin, thick, counter_x);
        self.lens(outer, inner, (0.36, 0.98))
    }

    /// A quarter without a light line; its two edges, from thin to thick.
    pub fn bare_quarter(
        &mut self,
        thin_at: (f64, f64),
        thick_at: (f64, f64),
        thin: f64,
        thick: f64,
        counter_x: f64,
    ) -> (CubicBez, CubicBez) {
        let down = (thin_at.1 - thick_at.1).signum();
        let out = (thick_at.0 - thin_at.0).signum();
        let inner_thin = (counter_x, thin_at.1 - down * thin);
        let inner_thick = (thick_at.0 - out * thick, thick_at.1);
        self.ink(
            Pen::at(thin_at.0, thin_at.1)
                .level_to_plumb(thick_at.0, thick_at.1, FULL)
                .line(inner_thick.0, inner_thick.1)
                .plumb_to_level(inner_thin.0, inner_thin.1, FULL_COUNTER)
                .close(),
        );
        (
            quarter_curve(thin_at, thick_at, FULL),
            quarter_curve(inner_thin, inner_thick, FULL_COUNTER),
        )
    }

    /// The light line of a curved stroke between its two edges, pointed at both ends.
    pub fn lens(
        &mut self,
        outer: CubicBez,
        inner: CubicBez,
        (start, end): (f64, f64),
    ) -> &mut Self {
        let middle = between(outer, inner, 0.5);
        let near = between(outer, inner, 0.40).subsegment(start..end);
        let far = between(outer, inner, 0.60).subsegment(start..end);
        self.light(leaf(near, far, middle.eval(start), Some(middle.eval(end))))
    }

    /// The light line of a curved stroke between its two edges, from a point at `start` to the full width at the end.
    pub fn crescent(&mut self, outer: CubicBez, inner: CubicBez, start: f64) -> &mut Self {
        let near = between(outer, inner, 0.425).subsegment(start..1.0);
        let far = between(outer, inner, 0.575).subsegment(start..1.0);
        self.light(leaf(
            near,
            far,
            between(outer, inner, 0.5).eval(start),
            None,
        ))
    }

    /// The four quarters of an upright oval; `left` and `right` are its side strokes.
    pub fn oval(
        &mut self,
        x: (f64, f64),
        y: (f64, f64),
        left: f64,
        right: f64,
        thin: f64,
    ) -> &mut Self {
        let counter = (x.0 + left + x.1 - right) / 2.0;
        let (cx, cy) = ((x.0 + x.1) / 2.0, (y.0 + y.1) / 2.0);
        for level in [y.0, y.1] {
            self.quarter((cx, level), (x.0, cy), thin, left, counter);
            self.quarter((cx, level), (x.1, cy), thin, right, counter);
        }
        self
    }

    /// A round ball, with a small light in it.
    pub fn ball(&mut self, cx: f64, cy: f64, radius: f64) -> &mut Self {
        self.ink(ellipse(cx, cy, radius, radius, 0.5523));
        self.light(ellipse(cx, cy, radius * 0.34, radius * 0.34, 0.5523))
    }

    /// A ring.
    pub fn ring(&mut self, cx: f64, cy: f64, outer: f64, inner: f64) -> &mut Self {
        self.ink(ellipse(cx, cy, outer, outer, 0.5523));
        self.counter(ellipse(cx, cy, inner, inner, 0.5523))
    }

    /// Two strokes that meet in a point at the foot: the heavy one from `left`, the thin one from `right`, both outer edges
    /// at height `high`; the point is flat from `point.0` to `point.1` at height `low`.
    pub fn vee(
        &mut self,
        left: f64,
        right: f64,
        point: (f64, f64),
        (low, high): (f64, f64),
        heavy: f64,
        thin: f64,
    ) -> &mut Self {
        let crotch = meet(
            ((left + heavy, high), (point.0 + heavy, low)),
            ((right - thin, high), (point.1 - thin, low)),
        );
        self.ink(polygon(&[
            (left, high),
            (left + heavy, high),
            crotch,
            (right - thin, high),
            (right, high),
            (point.1, low),
            (point.0, low),
        ]));
        let slope = (point.0 - left) / (low - high);
        let middle = |y: f64| Point::new(left + slope * (y - high) + heavy / 2.0, y);
        self.needle(
            middle(crotch.1 * 0.6 + low * 0.4),
            middle(high - 120.0),
            heavy,
        )
    }
}

/// The point where two lines, each through two points, meet; the second's start if they run side by side.
pub fn meet(a: ((f64, f64), (f64, f64)), b: ((f64, f64), (f64, f64))) -> (f64, f64) {
    let (p, q) = (Point::from(a.0), Point::from(b.0));
    let (u, v) = (Point::from(a.1) - p, Point::from(b.1) - q);
    let det = u.cross(v);
    if det.abs() < 1e-9 {
        return b.0;
    }
    let met = p + u * ((q - p).cross(v) / det);
    (met.x, met.y)
}

/// The ground between two curves drawn together to a point at the start, and at the end too if there is one.
fn leaf(near: CubicBez, far: CubicBez, start: Point, end: Option<Point>) -> BezPath {
    let (near_end, far_end) = end.map_or((near.p3, far.p3), |point| (point, point));
    let pair = |p: Point| (p.x, p.y);
    Pen::at(start.x, start.y)
        .curve(pair(near.p1), pair(near.p2), pair(near_end))
        .line(far_end.x, far_end.y)
        .curve(pair(far.p2), pair(far.p1), pair(start))
        .close()
}

/// The curve that lies this share of the way from one edge of a stroke to the other.
fn between(outer: CubicBez, inner: CubicBez, share: f64) -> CubicBez {
    let mix = |a: Point, b: Point| a.lerp(b, share);
    CubicBez::new(
        mix(outer.p0, inner.p0),
        mix(outer.p1, inner.p1),
        mix(outer.p2, inner.p2),
        mix(outer.p3, inner.p3),
    )
}

fn quarter_curve(thin: (f64, f64), thick: (f64, f64), fullness: f64) -> CubicBez {
    CubicBez::new(
        thin,
        (thin.0 + fullness * (thick.0 - thin.0), thin.1),
        (thick.0, thick.1 - fullness * (thick.1 - thin.1)),
        thick,
    )
}

/// Height of the bracket of a serif that reaches this far.
fn bracket_height(reach: f64) -> f64 {
    (reach * 1.05).clamp(40.0, 170.0)
}

const BRACKET: f64 = 0.66;

fn bracket_from_tip(
    pen: Pen,
    edge: impl Fn(f64) -> f64,
    level: f64,
    up: f64,
    reach: f64,
    out: f64,
) -> Pen {
    if reach <= 0.0 {
        return pen;
    }
    let (top, tip) = (level + up * SERIF, edge(level) + out * reach);
    let end = top + up * bracket_height(reach);
    let soft = top + up * bracket_height(reach) * (1.0 - BRACKET);
    pen.line(tip, top).curve(
        (tip + BRACKET * (edge(top) - tip), top),
        (edge(soft), soft),
        (edge(end), end),
    )
}

fn bracket_to_tip(
    pen: Pen,
    edge: impl Fn(f64) -> f64,
    level: f64,
    up: f64,
    reach: f64,
    out: f64,
) -> Pen {
    if reach <= 0.0 {
        return pen.line(edge(level), level);
    }
    let (top, tip) = (level + up * SERIF, edge(level) + out * reach);
    let start = top + up * bracket_height(reach);
    let soft = top + up * bracket_height(reach) * (1.0 - BRACKET);
    pen.line(edge(start), start)
        .curve(
            (edge(soft), soft),
            (tip + BRACKET * (edge(top) - tip), top),
            (tip, top),
        )
        .line(tip, level)
}
