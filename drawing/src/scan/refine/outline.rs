//! The outline about corners, by a few unknowns, and the ink where it is blurred.

use kurbo::{CubicBez, ParamCurve, Point, Vec2};

/// One piece of the outline about the corners, by where its unknowns stand.
#[derive(Clone, Copy, Debug)]
pub(super) enum Piece {
    /// From one corner to the next; `turns` are those at its ends, off the chord, as an arc has them.
    Between {
        from: usize,
        to: usize,
        turns: usize,
    },
    /// A side that ends where the samples do: heading away from the corner, and bend if it has one.
    Free {
        corner: usize,
        shape: usize,
        is_bent: bool,
        reach: f64,
        ends_at_corner: bool,
    },
}

/// A short straight piece of the outline, and how it moves with the unknowns.
struct Segment {
    middle: Point,
    along: Vec2,
    moves: [(usize, Vec2); 6],
    count: usize,
}

/// By how much an unknown is changed to see what moves.
const DIFFERENCE: f64 = 1e-5;

impl Piece {
    fn unknowns(&self) -> Vec<usize> {
        match *self {
            Piece::Between { from, to, turns } => {
                vec![from, from + 1, to, to + 1, turns, turns + 1]
            }
            Piece::Free {
                corner,
                shape,
                is_bent,
                ..
            } => {
                let mut all = vec![corner, corner + 1, shape];
                all.extend(is_bent.then_some(shape + 1));
                all
            }
        }
    }

    /// Places along it, in the order of the loop.
    fn points(&self, unknowns: &[f64], many: usize) -> Vec<Point> {
        let at = |place: usize| Point::new(unknowns[place], unknowns[place + 1]);
        let parts = (0..=many).map(|step| step as f64 / many as f64);
        match *self {
            Piece::Between { from, to, turns } => {
                let curve = arc_like(at(from), at(to), [unknowns[turns], unknowns[turns + 1]]);
                parts.map(|part| curve.eval(part)).collect()
            }
            Piece::Free {
                corner,
                shape,
                is_bent,
                reach,
                ends_at_corner,
            } => {
                let along = Vec2::from_angle(unknowns[shape]);
                let aside = super::super::to_left(along);
                let bend = if is_bent { unknowns[shape + 1] } else { 0.0 };
                let place = |part: f64| {
                    let far = if ends_at_corner { 1.0 - part } else { part } * reach;
                    at(corner) + along * far + aside * (0.5 * bend * far * far)
                };
                parts.map(place).collect()
            }
        }
    }
}

/// The cubic from one place to another that leaves and comes in at these turns off the chord, positive to the right at the start; an arc, nearly, if
/// they are alike.
///
/// # Source
/// Handles of 4/3·tan(a/4) radii for an arc of angle a, told by its chord: textbook.
pub(super) fn arc_like(from: Point, to: Point, turns: [f64; 2]) -> CubicBez {
    let chord = to - from;
    let quarter = ((turns[0] + turns[1]) / 4.0).clamp(-1.2, 1.2).cos();
    let handle = chord / (3.0 * quarter * quarter);
    let turned = |by: f64| Vec2::from_angle(by);
    let rotated = |vector: Vec2, by: Vec2| {
        Vec2::new(
            vector.x * by.x - vector.y * by.y,
            vector.x * by.y + vector.y * by.x,
        )
    };
    CubicBez::new(
        from,
        from + rotated(handle, turned(-turns[0])),
        to - rotated(handle, turned(turns[1])),
        to,
    )
}

/// The outline about the corners, ink on its left.
pub(super) struct Outline {
    segments: Vec<Segment>,
    /// Where it begins and ends, if it is not closed.
    ends: Option<[Point; 2]>,
}

impl Outline {
    /// Of pieces, each with how many segments it is gone along in.
    pub(super) fn of(pieces: &[(Piece, usize)], unknowns: &[f64], is_closed: bool) -> Outline {
        let mut segments = Vec::new();
        let (mut start, mut end) = (Point::ZERO, Point::ZERO);
        for (number, (piece, many)) in pieces.iter().enumerate() {
            let indices = piece.unknowns();
            let points = piece.points(unknowns, *many);
            let moved: Vec<(usize, Vec<Point>)> = indices
                .iter()
                .map(|&index| {
                    let mut other = unknowns.to_vec();
                    other[index] += DIFFERENCE;
                    (index, piece.points(&other, *many))
                })
                .collect();
            for step in 0..*many {
                let mut moves = [(0, Vec2::ZERO); 6];
                for (slot, (index, other)) in moves.iter_mut().zip(&moved) {
                    let by = (other[step] - points[step]) + (other[step + 1] - points[step + 1]);
                    *slot = (*index, by * (0.5 / DIFFERENCE));
                }
                segments.push(Segment {
                    middle: points[step].midpoint(points[step + 1]),
                    along: points[step + 1] - points[step],
                    moves,
                    count: moved.len(),
                });
            }
            if number == 0 {
                start = points[0];
            }
            end = points[*many];
        }
        Outline {
            segments,
            ends: (!is_closed).then_some([start, end]),
        }
    }

    /// The ink at a place once it is blurred, and how that changes with the unknowns, added to `row`.
    ///
    /// # Source
    /// A bell curve is the divergence of r (1 − exp(−r²/2σ²)) / 2πr², so its integral over the ink is one along the outline; where the outline moves
    /// outward, the integral grows by the curve's height there: the divergence theorem, textbook.
    pub(super) fn ink(&self, place: Point, blur: f64, row: &mut [f64]) -> f64 {
        /// Beyond so many blurs, squared and halved, nothing is seen of the outline.
        const UNSEEN: f64 = 18.0;
        let mut turned = 0.0;
        let twice = 2.0 * blur * blur;
        for segment in &self.segments {
            let off = segment.middle - place;
            let square = off.hypot2();
            let far = square / twice;
            let swept = off.cross(segment.along);
            if far > UNSEEN {
                turned += swept / square;
                continue;
            }
            let bell = (-far).exp();
            turned += swept
                * if far < 1e-6 {
                    1.0 / twice
                } else {
                    (1.0 - bell) / square
                };
            let height = bell / (std::f64::consts::PI * twice);
            for &(index, by) in &segment.moves[..segment.count] {
                row[index] += height * by.cross(segment.along);
            }
        }
        if let Some([start, end]) = self.ends {
            let rest = super::super::corners::angle(end - place, start - place);
            turned += rest.rem_euclid(std::f64::consts::TAU);
        }
        turned / std::f64::consts::TAU
    }
}
