//! Arcs as a program can hold them: on the grid, and sure to pass the standard's check of their ends.
//!
//! # Source
//! NISTIR 6556 (2000) §3.5.3.2 for the check; circles and chords: elementary.

use std::f64::consts::{PI, TAU};

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};

use super::dialect::Arcs;
use super::numbers::Grid;
use crate::toolpath::Place3;

/// A piece of an arc as it is written. Places and offsets are in steps of the grid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Piece {
    /// A straight line to a place.
    Line([i64; 3]),
    /// An arc of at most a little over half a turn.
    Arc {
        /// Where it ends.
        to: [i64; 3],
        /// From the start to the centre.
        offset: [i64; 2],
        /// Which way.
        turn: Turn,
    },
}

/// An arc as it is meant, unrounded, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Meant {
    /// Where it starts.
    pub from: Place3,
    /// Where it ends.
    pub to: Place3,
    /// Its centre.
    pub centre: Point,
    /// Which way it runs.
    pub turn: Turn,
}

/// An arc no farther than this from its chord is written as the chord: the difference is lost in rounding, mm.
const STRAIGHT_MM: f64 = 0.0005;

/// Ends nearer than this are one place, so that the arc is a full circle, mm.
const SAME_PLACE_MM: f64 = 1e-9;

/// Arcs below this radius are written as lines: rounding would make up much of them, mm.
const LEAST_RADIUS_MM: f64 = 0.01;

/// Arcs above this radius are written as lines: a controller that computes in single precision (IEEE 754)
/// holds 1000 mm to 0.06 µm, and loses more above, mm.
const LARGEST_RADIUS_MM: f64 = 1000.0;

/// The share of the standard's tolerance that an arc may use up; the rest is left to the controller's own rounding.
const TOLERANCE_SHARE: f64 = 0.6;

/// How far the written arc's middle may lie from the meant arc, beside the rounding of its ends, in steps.
const MIDDLE_STEPS: f64 = 1.5;

/// How much the written arc's angle may differ from the meant one: a guard against going the long way round, radians.
const SWEEP_GUARD: f64 = 0.5;

/// The most lines that one arc becomes: a bound for odd input; a full turn of 1 m at 0.1 µm needs fewer.
const MOST_CHORDS: f64 = 20_000.0;

impl Meant {
    /// Cuts the arc into pieces that can be written, one after the other. `start` is where the program stands, on the grid.
    pub fn pieces(self, grid: Grid, arcs: Arcs, start: [i64; 3], mut write: impl FnMut(Piece)) {
        let sweep = self.sweep();
        // Two parts at least where the arc is over half a turn: a short chord would leave its centre undetermined.
        let parts = if sweep > PI + 1e-9 { 2 } else { 1 };
        let mut stand = start;
        for part in 0..parts {
            let (a, b) = (
                f64::from(part) / f64::from(parts),
                f64::from(part + 1) / f64::from(parts),
            );
            let piece = Part {
                meant: self,
                sweep,
                a,
                b,
            };
            match arcs {
                Arcs::Centre => match piece.as_arc(grid, stand) {
                    Some(arc) => {
                        stand = grid.place(piece.at(1.0));
                        write(arc);
                    }
                    None => piece.as_chords(grid, STRAIGHT_MM, &mut stand, &mut write),
                },
                Arcs::Chords { sagitta_mm } => {
                    piece.as_chords(grid, sagitta_mm, &mut stand, &mut write)
                }
            }
        }
    }

    /// The angle turned through, radians, up to a full turn.
    pub(super) fn sweep(self) -> f64 {
        if self.from.xy.distance(self.to.xy) < SAME_PLACE_MM {
            return TAU;
        }
        angle_between(
            self.from.xy - self.centre,
            self.to.xy - self.centre,
            self.turn,
        )
    }

    /// The place after a share of the arc, 0 to 1.
    pub(super) fn at(self, sweep: f64, share: f64) -> Place3 {
        if share <= 0.0 {
            return self.from;
        }
        if share >= 1.0 {
            return self.to;
        }
        let arm = self.from.xy - self.centre;
        let angle = match self.turn {
            Turn::Left => sweep * share,
            Turn::Right => -sweep * share,
        };
        let (sin, cos) = angle.sin_cos();
        let turned = Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos);
        // Where the ends lie unequally far from the centre, the radius changes evenly between them.
        let start_radius = arm.hypot();
        let radius = start_radius + (self.to.xy.distance(self.centre) - start_radius) * share;
        let scale = if start_radius > 0.0 {
            radius / start_radius
        } else {
            1.0
        };
        Place3 {
            xy: self.centre + turned * scale,
            z: self.from.z + (self.to.z - self.from.z) * share,
        }
    }
}

/// A stretch of an arc, between the shares `a` and `b` of it.
#[derive(Clone, Copy)]
struct Part {
    meant: Meant,
    sweep: f64,
    a: f64,
    b: f64,
}

impl Part {
    fn at(self, share: f64) -> Place3 {
        self.meant
            .at(self.sweep, self.a + (self.b - self.a) * share)
    }

    fn own_sweep(self) -> f64 {
        self.sweep * (self.b - self.a)
    }

    fn radius(self) -> f64 {
        self.meant.from.xy.distance(self.meant.centre)
    }

    /// The stretch as one written arc, if it can be one.
    fn as_arc(self, grid: Grid, start: [i64; 3]) -> Option<Piece> {
        let radius = self.radius();
        let sagitta = radius * (1.0 - (self.own_sweep() / 2.0).cos());
        let fit = (LEAST_RADIUS_MM..=LARGEST_RADIUS_MM).contains(&radius) && sagitta > STRAIGHT_MM;
        if !fit {
            return None;
        }
        let to = grid.place(self.at(1.0));
        let chord = Vec2::new((to[0] - start[0]) as f64, (to[1] - start[1]) as f64);
        if chord == Vec2::ZERO {
            return None;
        }
        let in_steps = |point: Point| {
            Vec2::new(
                point.x * grid.steps_per_mm - start[0] as f64,
                point.y * grid.steps_per_mm - start[1] as f64,
            )
        };
        let middle = in_steps(self.at(0.5).xy);
        // Equally far from both written ends, and as near as can be to the meant centre.
        let meant = in_steps(self.meant.centre);
        let along = (meant - chord / 2.0).dot(chord) / chord.hypot2();
        let centre = meant - chord * along;
        let mut best: Option<(f64, Vec2)> = None;
        for x in [centre.x.floor(), centre.x.ceil()] {
            for y in [centre.y.floor(), centre.y.ceil()] {
                let offset = Vec2::new(x, y);
                if let Some(cost) = Part::cost(grid, offset, chord, middle)
                    && best.is_none_or(|(least, _)| cost < least)
                {
                    best = Some((cost, offset));
                }
            }
        }
        let (_, offset) = best?;
        let sweep = angle_between(-offset, chord - offset, self.meant.turn);
        if (sweep - self.own_sweep()).abs() > SWEEP_GUARD {
            return None;
        }
        Some(Piece::Arc {
            to,
            offset: [offset.x as i64, offset.y as i64],
            turn: self.meant.turn,
        })
    }

    /// How badly a centre fits, in steps; `None` if it may not be used. All places are seen from the written start.
    fn cost(grid: Grid, centre: Vec2, chord: Vec2, middle: Vec2) -> Option<f64> {
        let (at_start, at_end) = (centre.hypot(), (chord - centre).hypot());
        let gap = (at_end - at_start).abs();
        let bulge = ((middle - centre).hypot() - (at_start + at_end) / 2.0).abs();
        let usable =
            at_start > 0.0 && gap <= grid.arc_tolerance * TOLERANCE_SHARE && bulge <= MIDDLE_STEPS;
        usable.then(|| gap.max(bulge))
    }

    /// The stretch as straight lines, none farther from it than `sagitta_mm` beside rounding.
    fn as_chords(
        self,
        grid: Grid,
        sagitta_mm: f64,
        stand: &mut [i64; 3],
        write: &mut impl FnMut(Piece),
    ) {
        let radius = self.radius();
        let cosine = (1.0 - sagitta_mm / radius).clamp(-1.0, 1.0);
        let step = 2.0 * cosine.acos();
        let count = (self.own_sweep() / step).ceil().clamp(1.0, MOST_CHORDS);
        for index in 1..=count as u32 {
            let to = grid.place(self.at(f64::from(index) / count));
            if to != *stand {
                write(Piece::Line(to));
                *stand = to;
            }
        }
    }
}

/// The angle from `a` to `b` in the sense of `turn`, from 0 up to a full turn.
fn angle_between(a: Vec2, b: Vec2, turn: Turn) -> f64 {
    let left = a.cross(b).atan2(a.dot(b));
    let angle = match turn {
        Turn::Left => left,
        Turn::Right => -left,
    };
    if angle < 0.0 { angle + TAU } else { angle }
}
