//! Curves of lines and arcs, and the fitting of them.

use std::f64::consts::TAU;

use kurbo::{Point, Vec2};

mod fit;

pub use fit::fit;

/// The sense in which an arc runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turn {
    /// Counter-clockwise.
    Left,
    /// Clockwise.
    Right,
}

/// One step along a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ArcStep {
    /// A straight line.
    Line {
        /// Where it ends.
        to: Point,
    },
    /// A circular arc of less than a full turn, unless it ends where it starts, which is a full circle.
    Arc {
        /// Where it ends.
        to: Point,
        /// The centre of its circle.
        centre: Point,
        /// Which way it runs.
        turn: Turn,
    },
}

/// A curve of lines and arcs; closed if it ends where it starts.
#[derive(Clone, Debug, PartialEq)]
pub struct ArcPath {
    /// Where it starts.
    pub start: Point,
    /// The steps in order.
    pub steps: Vec<ArcStep>,
}

impl ArcStep {
    /// Where the step ends.
    pub fn to(&self) -> Point {
        match *self {
            ArcStep::Line { to } | ArcStep::Arc { to, .. } => to,
        }
    }

    /// The same step ending and turning elsewhere.
    pub fn shifted(&self, by: Vec2) -> ArcStep {
        match *self {
            ArcStep::Line { to } => ArcStep::Line { to: to + by },
            ArcStep::Arc { to, centre, turn } => ArcStep::Arc {
                to: to + by,
                centre: centre + by,
                turn,
            },
        }
    }

    /// Length of the step that begins at `from`.
    pub fn length(&self, from: Point) -> f64 {
        match *self {
            ArcStep::Line { to } => from.distance(to),
            ArcStep::Arc { to, centre, turn } => {
                sweep(from, to, centre, turn) * from.distance(centre)
            }
        }
    }

    /// The place at `along` from the beginning at `from`, and the unit direction of travel there.
    ///
    /// A step without length has the direction of the x axis.
    pub fn at(&self, from: Point, along: f64) -> (Point, Vec2) {
        match *self {
            ArcStep::Line { to } => {
                let whole = to - from;
                let length = whole.hypot();
                if length <= 0.0 {
                    return (to, Vec2::new(1.0, 0.0));
                }
                let direction = whole / length;
                if along >= length {
                    return (to, direction);
                }
                (from + direction * along, direction)
            }
            ArcStep::Arc { to, centre, turn } => {
                let arm = from - centre;
                let radius = arm.hypot();
                if radius <= 0.0 {
                    return (to, Vec2::new(1.0, 0.0));
                }
                let angle = (along / radius).min(sweep(from, to, centre, turn));
                let arm = rotate(arm, angle * turn.sign());
                let across = Vec2::new(-arm.y, arm.x) * (turn.sign() / radius);
                if along >= self.length(from) {
                    return (to, across);
                }
                (centre + arm, across)
            }
        }
    }

    /// The step's first `along`, as a step from the same beginning.
    fn first(&self, from: Point, along: f64) -> ArcStep {
        let (to, _) = self.at(from, along);
        match *self {
            ArcStep::Line { .. } => ArcStep::Line { to },
            ArcStep::Arc { centre, turn, .. } => ArcStep::Arc { to, centre, turn },
        }
    }
}

impl Turn {
    /// +1 counter-clockwise, -1 clockwise.
    pub fn sign(self) -> f64 {
        match self {
            Turn::Left => 1.0,
            Turn::Right => -1.0,
        }
    }

    /// The other way round.
    pub fn opposite(self) -> Turn {
        match self {
            Turn::Left => Turn::Right,
            Turn::Right => Turn::Left,
        }
    }
}

/// The angle that an arc runs through, positive, at most a full turn (which it is when both ends are the same point).
pub fn sweep(from: Point, to: Point, centre: Point, turn: Turn) -> f64 {
    if from == to {
        return TAU;
    }
    let (a, b) = (from - centre, to - centre);
    let angle = (turn.sign() * a.cross(b)).atan2(a.dot(b));
    if angle >= 0.0 {
        angle
    } else if angle > -FULL_TURN_NOISE {
        // Ends that differ by rounding alone are an arc of no length, not a full circle.
        0.0
    } else {
        angle + TAU
    }
}

/// Whether an arc runs past a direction from its centre; told without the angles, which take long.
pub fn runs_past(from: Point, to: Point, centre: Point, turn: Turn, direction: Vec2) -> bool {
    if from == to {
        return true;
    }
    let (a, b) = (from - centre, to - centre);
    let after_start = turn.sign() * a.cross(direction) >= 0.0;
    let before_end = turn.sign() * direction.cross(b) >= 0.0;
    let (sine, cosine) = (turn.sign() * a.cross(b), a.dot(b));
    let is_of_no_length = cosine > 0.0 && sine < 0.0 && sine > -FULL_TURN_NOISE * cosine;
    if sine >= 0.0 || is_of_no_length {
        after_start && before_end
    } else {
        after_start || before_end
    }
}

/// Radians: two ends nearer than this behind one another are an arc of no length.
const FULL_TURN_NOISE: f64 = 1e-9;

fn rotate(arm: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
}

impl ArcPath {
    /// A path without steps.
    pub fn starting_at(start: Point) -> ArcPath {
        ArcPath {
            start,
            steps: Vec::new(),
        }
    }

    /// A straight line.
    pub fn line(from: Point, to: Point) -> ArcPath {
        ArcPath {
            start: from,
            steps: vec![ArcStep::Line { to }],
        }
    }

    /// A full circle about `centre` from `start` back to it.
    pub fn circle(start: Point, centre: Point, turn: Turn) -> ArcPath {
        ArcPath {
            start,
            steps: vec![ArcStep::Arc {
                to: start,
                centre,
                turn,
            }],
        }
    }

    /// Where the path ends; its start if it has no steps.
    pub fn end(&self) -> Point {
        self.steps.last().map_or(self.start, ArcStep::to)
    }

    /// Whether it ends exactly where it starts, having gone somewhere.
    pub fn is_closed(&self) -> bool {
        !self.steps.is_empty() && self.end() == self.start
    }

    /// The steps, each with the place where it begins.
    pub fn from_and_steps(&self) -> impl Iterator<Item = (Point, &ArcStep)> {
        let mut from = self.start;
        self.steps.iter().map(move |step| {
            let begins = from;
            from = step.to();
            (begins, step)
        })
    }

    /// Length along the path.
    pub fn length(&self) -> f64 {
        self.from_and_steps()
            .map(|(from, step)| step.length(from))
            .sum()
    }

    /// The same curve, run the other way.
    pub fn reversed(&self) -> ArcPath {
        let mut steps: Vec<ArcStep> = self
            .from_and_steps()
            .map(|(from, step)| match *step {
                ArcStep::Line { .. } => ArcStep::Line { to: from },
                ArcStep::Arc { centre, turn, .. } => ArcStep::Arc {
                    to: from,
                    centre,
                    turn: turn.opposite(),
                },
            })
            .collect();
        steps.reverse();
        ArcPath {
            start: self.end(),
            steps,
        }
    }

    /// The same curve elsewhere.
    pub fn shifted(&self, by: Vec2) -> ArcPath {
        ArcPath {
            start: self.start + by,
            steps: self.steps.iter().map(|step| step.shifted(by)).collect(),
        }
    }

    /// The place at `along` from the start and the unit direction of travel there; the end's if `along` is beyond it.
    ///
    /// A path without steps has the direction of the x axis.
    pub fn at(&self, along: f64) -> (Point, Vec2) {
        let mut rest = along.max(0.0);
        let mut found = (self.start, Vec2::new(1.0, 0.0));
        for (from, step) in self.from_and_steps() {
            let length = step.length(from);
            found = step.at(from, rest.min(length));
            if rest < length {
                return found;
            }
            rest -= length;
        }
        found
    }

    /// The stretch from `from` to `to`, both measured along the path from its start and kept within it.
    ///
    /// Steps shorter than a nanometre are left out, unless nothing else is left.
    pub fn stretch(&self, from: f64, to: f64) -> ArcPath {
        let (start, _) = self.at(from);
        let mut taken = ArcPath::starting_at(start);
        let mut passed = 0.0;
        for (begins, step) in self.from_and_steps() {
            let length = step.length(begins);
            let (lower, upper) = ((from - passed).max(0.0), (to - passed).min(length));
            passed += length;
            if upper - lower < SHORTEST_STEP && !(lower <= 0.0 && upper >= length && length > 0.0) {
                continue;
            }
            taken.steps.push(if upper >= length {
                *step
            } else {
                step.first(begins, upper)
            });
        }
        taken
    }

    /// A closed path started at `along` from its present start; an open one unchanged.
    pub fn started_at(&self, along: f64) -> ArcPath {
        let length = self.length();
        if !self.is_closed() || along <= SHORTEST_STEP || along >= length - SHORTEST_STEP {
            return self.clone();
        }
        let mut path = self.stretch(along, length);
        path.append(&self.stretch(0.0, along));
        // The two halves were cut at the same place; closing it exactly keeps it a closed path.
        close_at(&mut path);
        path
    }

    /// Goes on along another path, by a straight line where that begins elsewhere.
    pub fn append(&mut self, other: &ArcPath) {
        if self.end().distance(other.start) > SHORTEST_STEP {
            self.steps.push(ArcStep::Line { to: other.start });
        }
        self.steps.extend_from_slice(&other.steps);
    }

    /// Points along the path, start and end included, such that no chord is further than `sagitta` from the curve.
    ///
    /// A `sagitta` of 0 or less counts as a thousandth of each arc's radius.
    pub fn points(&self, sagitta: f64) -> Vec<Point> {
        let mut points = vec![self.start];
        for (from, step) in self.from_and_steps() {
            if let ArcStep::Arc { to, centre, turn } = *step {
                let angle = sweep(from, to, centre, turn);
                let count = chords(angle, from.distance(centre), sagitta);
                let arm = from - centre;
                points.extend((1..count).map(|number| {
                    let part = angle * number as f64 / count as f64;
                    centre + rotate(arm, part * turn.sign())
                }));
            }
            points.push(step.to());
        }
        points
    }
}

/// Millimetres: shorter steps carry no direction worth keeping.
const SHORTEST_STEP: f64 = 1e-6;

/// The most chords that one arc is cut into; at a full turn their sagitta is 3·10⁻⁷ of the radius.
const MOST_CHORDS: f64 = 4096.0;

/// How many chords keep within `sagitta` of an arc of this angle and radius.
///
/// # Source
/// Textbook: a chord of angle a lies at most r·(1 − cos(a/2)) from its arc.
fn chords(angle: f64, radius: f64, sagitta: f64) -> usize {
    let relative = if sagitta > 0.0 && radius > 0.0 {
        (sagitta / radius).min(0.5)
    } else {
        1e-3
    };
    let step = 2.0 * (1.0 - relative).acos();
    let wanted = if step > 0.0 {
        (angle / step).ceil()
    } else {
        MOST_CHORDS
    };
    wanted.clamp(1.0, MOST_CHORDS) as usize
}

/// Moves the end onto the start, if they are the same but for rounding.
fn close_at(path: &mut ArcPath) {
    if path.end().distance(path.start) > SHORTEST_STEP {
        return;
    }
    let start = path.start;
    match path.steps.last_mut() {
        Some(ArcStep::Line { to } | ArcStep::Arc { to, .. }) => *to = start,
        None => {}
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;

    /// A straight edge, a quarter turn to the left, and a half turn to the right.
    fn hook() -> ArcPath {
        ArcPath {
            start: Point::ZERO,
            steps: vec![
                ArcStep::Line {
                    to: Point::new(4.0, 0.0),
                },
                ArcStep::Arc {
                    to: Point::new(6.0, 2.0),
                    centre: Point::new(4.0, 2.0),
                    turn: Turn::Left,
                },
                ArcStep::Arc {
                    to: Point::new(8.0, 2.0),
                    centre: Point::new(7.0, 2.0),
                    turn: Turn::Right,
                },
            ],
        }
    }

    #[test]
    fn an_arc_runs_past_the_directions_within_its_angle() {
        let centre = Point::new(3.0, -2.0);
        let arm = Vec2::new(5.0, 1.0);
        let from = centre + arm;
        for turn in [Turn::Left, Turn::Right] {
            for whole in (1..63).map(|tenth| f64::from(tenth) / 10.0) {
                let to = centre + rotate(arm, whole * turn.sign());
                for part in (0..63).map(|tenth| f64::from(tenth) / 10.0 + 0.05) {
                    let direction = rotate(arm, part * turn.sign()) * 0.3;
                    let is_within = part < whole;
                    assert_eq!(runs_past(from, to, centre, turn, direction), is_within);
                }
            }
            assert!(runs_past(from, from, centre, turn, Vec2::new(-1.0, 0.0)));
            let hardly_behind = centre + rotate(arm, -1e-12 * turn.sign());
            assert!(!runs_past(
                from,
                hardly_behind,
                centre,
                turn,
                Vec2::new(-1.0, 0.0)
            ));
        }
    }

    fn assert_near(found: Point, wanted: (f64, f64)) {
        assert!(
            found.distance(Point::from(wanted)) < 1e-12,
            "{found:?} is not {wanted:?}"
        );
    }

    #[test]
    fn lengths_and_places_along_a_path_are_those_of_its_lines_and_circles() {
        let path = hook();
        assert!((path.length() - (4.0 + PI + PI)).abs() < 1e-12);
        let (place, direction) = path.at(4.0 + PI / 2.0);
        let half = 2.0_f64.sqrt();
        assert_near(place, (4.0 + half, 2.0 - half));
        assert_near(direction.to_point(), (half / 2.0, half / 2.0));
        assert_near(path.at(4.0 + PI + PI / 2.0).0, (7.0, 3.0));
        assert_eq!(path.at(100.0).0, path.end());
    }

    #[test]
    fn a_reversed_path_is_as_long_and_reversing_twice_changes_nothing() {
        let path = hook();
        let back = path.reversed();
        assert!((back.length() - path.length()).abs() < 1e-12);
        assert_eq!(back.start, path.end());
        assert_eq!(back.reversed(), path);
        assert_near(back.at(1.0).0, path.at(path.length() - 1.0).0.into());
    }

    #[test]
    fn a_stretch_has_the_length_asked_for_and_lies_on_the_path() {
        let path = hook();
        let part = path.stretch(3.0, 9.0);
        assert!((part.length() - 6.0).abs() < 1e-9);
        assert_near(part.start, (3.0, 0.0));
        assert_near(part.end(), path.at(9.0).0.into());
        assert_near(part.at(2.5).0, path.at(5.5).0.into());
    }

    #[test]
    fn a_circle_can_be_started_anywhere_and_stays_closed() {
        let circle = ArcPath::circle(Point::new(2.0, 0.0), Point::ZERO, Turn::Right);
        assert!((circle.length() - 4.0 * PI).abs() < 1e-12);
        let turned = circle.started_at(PI);
        assert_near(turned.start, (0.0, -2.0));
        assert!(turned.is_closed());
        assert!((turned.length() - circle.length()).abs() < 1e-9);
    }

    #[test]
    fn points_keep_the_sagitta_and_include_both_ends() {
        let points = hook().points(0.001);
        assert_eq!(points.first(), Some(&Point::ZERO));
        assert_eq!(points.last(), Some(&Point::new(8.0, 2.0)));
        for pair in points.windows(2).filter(|pair| pair[0].x >= 6.0) {
            let middle = pair[0].midpoint(pair[1]);
            let sagitta = 1.0 - middle.distance(Point::new(7.0, 2.0));
            assert!((-1e-12..=0.001).contains(&sagitta), "{sagitta}");
        }
    }

    #[test]
    fn ends_that_differ_by_rounding_are_not_a_full_turn() {
        let from = Point::new(1.0, 0.0);
        let to = Point::new(1.0, -1e-13);
        assert_eq!(sweep(from, to, Point::ZERO, Turn::Left), 0.0);
        assert_eq!(sweep(from, from, Point::ZERO, Turn::Left), TAU);
    }
}
