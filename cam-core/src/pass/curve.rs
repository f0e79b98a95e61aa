//! Curves that the cutter's centre may run along: parallel curves of the walls, or stretches of them.

use std::f64::consts::TAU;

use geometry::arc_path::{ArcPath, Turn, fit, sweep};
use geometry::diagram::Wall;
use geometry::offset::{OffsetLoop, OffsetPiece};
use kurbo::{Point, Vec2};

/// A parallel curve or a stretch of one; the ground further from the walls lies on its left, the wall on its right.
#[derive(Clone, Debug)]
pub(super) struct Curve {
    pub(super) pieces: Vec<OffsetPiece>,
    /// Length from the start of the curve to the end of each piece.
    ends: Vec<f64>,
    pub(super) closed: bool,
    /// The wall it follows.
    pub(super) wall: Wall,
}

/// A place on a curve.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sample {
    /// Length from the start of the curve.
    pub(super) along: f64,
    pub(super) at: Point,
}

impl Curve {
    fn new(pieces: Vec<OffsetPiece>, closed: bool, wall: Wall) -> Curve {
        let mut total = 0.0;
        let ends = pieces
            .iter()
            .map(|piece| {
                total += length(piece);
                total
            })
            .collect();
        Curve {
            pieces,
            ends,
            closed,
            wall,
        }
    }

    /// Curves one after the other along the letter, joined by straight lines; `closed` leads the last back to the first.
    pub(super) fn joined(parts: &[Curve], closed: bool) -> Curve {
        let mut pieces: Vec<OffsetPiece> = Vec::new();
        let lead_to = |pieces: &mut Vec<OffsetPiece>, to: Point| {
            if let Some(&last) = pieces.last()
                && last.to != to
            {
                pieces.push(OffsetPiece {
                    from: last.to,
                    to,
                    centre: None,
                    ..last
                });
            }
        };
        for part in parts {
            if let Some(first) = part.pieces.first() {
                lead_to(&mut pieces, first.from);
            }
            pieces.extend(&part.pieces);
        }
        if let Some(first) = pieces.first().copied().filter(|_| closed) {
            lead_to(&mut pieces, first.from);
        }
        Curve::new(pieces, closed, Wall::Letter)
    }

    /// The whole of a loop, whatever walls it follows; it counts as following the letter.
    pub(super) fn whole(of: &OffsetLoop) -> Curve {
        Curve::new(of.pieces.clone(), true, Wall::Letter)
    }

    /// A loop cut where it changes from one wall to the other.
    pub(super) fn by_wall(of: &OffsetLoop) -> Vec<Curve> {
        let pieces = &of.pieces;
        let Some(first) = pieces.first() else {
            return Vec::new();
        };
        let change = (0..pieces.len())
            .find(|&at| at > 0 && pieces[at].site.wall != pieces[at - 1].site.wall);
        let Some(change) = change else {
            return vec![Curve::new(pieces.clone(), true, first.site.wall)];
        };
        let mut turned = pieces.clone();
        turned.rotate_left(change);
        turned
            .chunk_by(|a, b| a.site.wall == b.site.wall)
            .map(|run| Curve::new(run.to_vec(), false, run[0].site.wall))
            .collect()
    }

    /// The pieces with the lengths from the curve's start at which they begin and end.
    pub(super) fn pieces_along(&self) -> impl Iterator<Item = (&OffsetPiece, f64, f64)> {
        let mut begins = 0.0;
        self.pieces
            .iter()
            .zip(&self.ends)
            .map(move |(piece, &ends)| (piece, std::mem::replace(&mut begins, ends), ends))
    }

    pub(super) fn length(&self) -> f64 {
        self.ends.last().copied().unwrap_or(0.0)
    }

    /// Places along the curve, never further apart than `spacing`, the start and (of an open curve) the end included.
    pub(super) fn samples(&self, spacing: f64) -> Vec<Sample> {
        let mut samples = Vec::with_capacity((self.length() / spacing) as usize + 2);
        let mut begins = 0.0;
        let mut last = f64::NEG_INFINITY;
        for (piece, &ends) in self.pieces.iter().zip(&self.ends) {
            // Pieces much shorter than the spacing are passed over together.
            let mut along = (last + spacing).max(begins);
            while along < ends {
                samples.push(Sample {
                    along,
                    at: place(piece, along - begins),
                });
                last = along;
                along += spacing;
            }
            begins = ends;
        }
        if let Some(piece) = self.pieces.last()
            && (!self.closed || samples.is_empty())
        {
            samples.push(Sample {
                along: begins,
                at: piece.to,
            });
        }
        samples
    }

    /// The stretch from `from` to `to`; of a closed curve `to` may lie up to a whole round beyond its end.
    pub(super) fn stretch(&self, from: f64, to: f64) -> Curve {
        let length = self.length();
        let mut pieces = Vec::new();
        self.take(from, to.min(length), &mut pieces);
        if self.closed && to > length {
            self.take((from - length).max(0.0), to - length, &mut pieces);
        }
        Curve::new(pieces, false, self.wall)
    }

    fn take(&self, from: f64, to: f64, into: &mut Vec<OffsetPiece>) {
        let first = self.ends.partition_point(|&end| end <= from);
        for at in first..self.pieces.len() {
            let begins = if at == 0 { 0.0 } else { self.ends[at - 1] };
            if begins >= to {
                break;
            }
            let mut piece = self.pieces[at];
            if to < self.ends[at] {
                piece.to = place(&self.pieces[at], to - begins);
            }
            if from > begins {
                piece.from = place(&self.pieces[at], from - begins);
            }
            // Neighbouring pieces must meet exactly, so a cut end is joined to what was taken before.
            if let Some(last) = into.last() {
                let last: &OffsetPiece = last;
                if last.to.distance(piece.from) < 1e-9 {
                    piece.from = last.to;
                }
            }
            into.push(piece);
        }
    }

    /// Few lines and arcs within `tolerance` of the curve.
    pub(super) fn fitted(&self, tolerance: f64) -> ArcPath {
        fit(&self.pieces, tolerance)
    }

    /// Points of the curve such that no chord is further than `sagitta` from it: a chord over the angle `2 acos(1 − s/r)` has the
    /// sagitta `s` on the radius `r` (geometry).
    pub(super) fn points(&self, sagitta: f64) -> Vec<Point> {
        let mut points = Vec::with_capacity(self.pieces.len() + 1);
        points.extend(self.pieces.first().map(|piece| piece.from));
        for piece in &self.pieces {
            if let Some(centre) = piece.centre.filter(|_| piece.from != piece.to) {
                let radius = piece.from.distance(centre);
                let step = 2.0 * (1.0 - (sagitta / radius).min(0.5)).acos();
                let angle = sweep(piece.from, piece.to, centre, Turn::Right);
                let count = (angle / step).ceil().clamp(1.0, 1024.0);
                points.extend(
                    (1..count as usize)
                        .map(|number| place(piece, angle * radius * number as f64 / count)),
                );
            }
            points.push(piece.to);
        }
        points
    }

    /// Twice the area that a closed curve goes round, counter-clockwise positive, by its points.
    pub(super) fn goes_round(&self, sagitta: f64) -> f64 {
        let points = self.points(sagitta);
        points
            .windows(2)
            .map(|pair| pair[0].to_vec2().cross(pair[1].to_vec2()))
            .sum()
    }
}

fn length(piece: &OffsetPiece) -> f64 {
    match piece.centre {
        None => piece.from.distance(piece.to),
        Some(centre) => {
            let angle = sweep(piece.from, piece.to, centre, Turn::Right);
            // A corner's arc of a whole turn cannot be: that is a piece without length.
            if angle >= TAU {
                0.0
            } else {
                angle * piece.from.distance(centre)
            }
        }
    }
}

/// The place so far along a piece.
pub(super) fn place(piece: &OffsetPiece, along: f64) -> Point {
    match piece.centre {
        None => {
            let whole = piece.from.distance(piece.to);
            if whole > 0.0 {
                piece.from.lerp(piece.to, (along / whole).min(1.0))
            } else {
                piece.to
            }
        }
        Some(centre) => {
            let arm = piece.from - centre;
            let angle = -along / arm.hypot().max(1e-12);
            let (sin, cos) = angle.sin_cos();
            centre + Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
        }
    }
}
