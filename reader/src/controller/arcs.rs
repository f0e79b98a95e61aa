//! Arcs and helices in the three planes.

use std::f64::consts::PI;

use geometry::arc_path::Turn;
use kurbo::Point;

use super::Controller;
use crate::CHORD_WITHIN_MM;
use crate::arc;
use crate::block::{AXIS_LETTERS, Block, Located, OFFSET_LETTERS};
use crate::codes::Plane;
use crate::datum::Coordinate;
use crate::fault::Fault;
use crate::replay::{PathControl, ReadCourse, UprightArc};

/// The most straight pieces of one arc in an upright plane: a full turn of 40 m radius.
const MOST_PIECES: f64 = 20_000.0;

/// The fewest pieces of a full turn.
const FEWEST_PIECES: f64 = 16.0;

/// An arc in its plane.
struct Flat {
    start: Point,
    end: Point,
    centre: Point,
    turn: Turn,
    sweep: f64,
}

impl Controller {
    /// Carries an arc out.
    pub(super) fn arc(
        &mut self,
        block: &Block,
        to: [Coordinate; 3],
        turn: Turn,
        line: usize,
        at: usize,
    ) -> Located<()> {
        let flat = self.flat_arc(block, to, turn, at)?;
        let length_mm = |controller: &Controller| {
            let [_, _, normal] = controller.plane.axes();
            let from = controller.position[normal];
            let told = from.datum == to[normal].datum;
            let rise = if told { to[normal].mm - from.mm } else { 0.0 };
            (flat.start.distance(flat.centre) * flat.sweep).hypot(rise)
        };
        let feed_mm_min = self.feed_for(length_mm, block, at)?;
        match self.plane {
            Plane::Xy => {
                let course = ReadCourse::Arc {
                    centre: flat.centre,
                    turn,
                    sweep: flat.sweep,
                    feed_mm_min,
                };
                self.go(to, course, line, at)
            }
            Plane::Zx | Plane::Yz => self.upright(&flat, to, feed_mm_min, line, at),
        }
    }

    /// The arc in its plane.
    fn flat_arc(&self, block: &Block, to: [Coordinate; 3], turn: Turn, at: usize) -> Located<Flat> {
        let [first, second, normal] = self.plane.axes();
        let letter = |letters: [u8; 3], axis: usize| char::from(letters[axis]);
        if block.word(OFFSET_LETTERS[normal]).is_some() {
            let fault = Fault::ArcOffset(letter(OFFSET_LETTERS, normal));
            return Err((block.place(OFFSET_LETTERS[normal]), fault));
        }
        // Named in the order of the alphabet.
        let (one, other) = (first.min(second), first.max(second));
        if block.axis(first).is_none() && block.axis(second).is_none() {
            let fault =
                Fault::ArcWithoutEnd(letter(AXIS_LETTERS, one), letter(AXIS_LETTERS, other));
            return Err((at, fault));
        }
        let offsets = [first, second].map(|axis| block.word(OFFSET_LETTERS[axis]));
        let [from_first, from_second] = [first, second].map(|axis| self.position[axis]);
        if from_first.datum != to[first].datum || from_second.datum != to[second].datum {
            return Err((at, Fault::ArcFromUntold));
        }
        let start = Point::new(from_first.mm, from_second.mm);
        let end = Point::new(to[first].mm, to[second].mm);
        let centre = match (block.word(b'R'), offsets) {
            (Some(radius), [None, None]) => {
                arc::centre_of_radius(start, end, radius * self.unit.mm, turn, self.unit)
            }
            (Some(_), _) => Err(Fault::ArcMixedForms),
            (None, [None, None]) => Err(Fault::ArcWithoutCentre(
                letter(OFFSET_LETTERS, one),
                letter(OFFSET_LETTERS, other),
            )),
            (None, offsets) => {
                let [i, j] = offsets.map(|offset| offset.unwrap_or(0.0) * self.unit.mm);
                let centre = Point::new(start.x + i, start.y + j);
                arc::check(start, end, centre, self.unit).map(|()| centre)
            }
        }
        .map_err(|fault| (at, fault))?;
        Ok(Flat {
            start,
            end,
            centre,
            turn,
            sweep: arc::sweep(start, end, centre, turn),
        })
    }

    /// Tells an arc in an upright plane as straight pieces: a chord of angle a lies at most r·(1 − cos(a/2)) from its arc (textbook).
    fn upright(
        &mut self,
        flat: &Flat,
        to: [Coordinate; 3],
        feed_mm_min: f64,
        line: usize,
        at: usize,
    ) -> Located<()> {
        let [first, second, normal] = self.plane.axes();
        let from = self.position;
        let (arm, last) = (flat.start - flat.centre, flat.end - flat.centre);
        // The chord of twice this angle stays within the tolerance of its arc.
        let half = (1.0 - CHORD_WITHIN_MM / arm.hypot())
            .clamp(-1.0, 1.0)
            .acos();
        let widest = (2.0 * half).min(2.0 * PI / FEWEST_PIECES);
        let pieces = (flat.sweep / widest).ceil().max(1.0);
        if pieces > MOST_PIECES || pieces.is_nan() {
            return Err((at, Fault::UprightArcTooLarge));
        }
        let mut centre = from.map(|coordinate| coordinate.mm);
        centre[first] = flat.centre.x;
        centre[second] = flat.centre.y;
        self.replay.upright_arcs.push(UprightArc {
            first: self.replay.motions.len(),
            pieces: pieces as usize,
            plane: self.plane,
            centre,
            turn: flat.turn,
            sweep: flat.sweep,
            line,
        });
        let course = ReadCourse::Line { feed_mm_min };
        let signed = match flat.turn {
            Turn::Left => flat.sweep,
            Turn::Right => -flat.sweep,
        };
        let tells_height = to[normal].datum == from[normal].datum;
        // The pieces are one motion: what is said of corners holds for its end alone.
        let control = std::mem::replace(&mut self.path_control, PathControl::Continuous);
        for piece in 1..pieces as usize {
            let share = piece as f64 / pieces;
            let (sin, cos) = (signed * share).sin_cos();
            // Start and end may lie a little differently far from the centre.
            let stretch = 1.0 + (last.hypot() / arm.hypot() - 1.0) * share;
            let mut place = to;
            place[first].mm = flat.centre.x + (arm.x * cos - arm.y * sin) * stretch;
            place[second].mm = flat.centre.y + (arm.x * sin + arm.y * cos) * stretch;
            if tells_height {
                place[normal].mm = from[normal].mm + (to[normal].mm - from[normal].mm) * share;
            }
            self.go(place, course, line, at)?;
        }
        self.path_control = control;
        self.go(to, course, line, at)
    }
}
