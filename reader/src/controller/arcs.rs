//! Arcs and helices in the three planes.

use std::f64::consts::PI;

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};

use super::Controller;
use super::motion::Asked;
use crate::CHORD_WITHIN_MM;
use crate::arc::{self, Arc, Unit};
use crate::block::{AXIS_LETTERS, Located, OFFSET_LETTERS};
use crate::codes::Plane;
use crate::datum::Coordinate;
use crate::fault::Fault;
use crate::replay::{PathControl, ReadCourse, UprightArc};

/// The most straight pieces of one arc in an upright plane: a full turn of 40 m radius.
const MOST_PIECES: f64 = 20_000.0;

/// The fewest pieces of a full turn.
const FEWEST_PIECES: f64 = 16.0;

/// What the words of an arc say, in its plane, mm.
pub(super) struct ArcWords {
    pub start: Point,
    pub end: Point,
    pub form: Form,
}

/// How an arc tells its circle.
pub(super) enum Form {
    /// By its radius, positive for the way round of at most half a turn.
    Radius(f64),
    /// By the way from its start to its centre.
    Offset(Vec2),
}

impl ArcWords {
    /// The arc.
    ///
    /// # Errors
    /// No circle goes through both ends.
    pub fn arc(&self, turn: Turn, unit: Unit) -> Result<Arc, Fault> {
        let ArcWords { start, end, .. } = *self;
        let centre = match self.form {
            Form::Radius(radius_mm) => arc::centre_of_radius(start, end, radius_mm, turn, unit)?,
            Form::Offset(offset) => {
                let centre = start + offset;
                arc::check(start, end, centre, unit)?;
                centre
            }
        };
        Ok(Arc {
            start,
            end,
            centre,
            turn,
            sweep: arc::sweep(start, end, centre, turn),
        })
    }
}

impl Controller {
    /// Carries an arc out.
    pub(super) fn arc(&mut self, asked: &Asked<'_>, turn: Turn) -> Located<()> {
        let Asked {
            block,
            to,
            line,
            at,
        } = *asked;
        let words = self.arc_words(asked)?;
        if let Some(beside) = self.beside() {
            return self.arc_beside(beside, asked, &words, turn);
        }
        let flat = words.arc(turn, self.unit).map_err(|fault| (at, fault))?;
        let length_mm = |controller: &Controller| {
            let [_, _, normal] = controller.plane.axes();
            let from = controller.position[normal];
            let told = from.datum == to[normal].datum;
            let rise = if told { to[normal].mm - from.mm } else { 0.0 };
            flat.length_mm().hypot(rise)
        };
        let feed_mm_min = self.feed_for(length_mm, block, at)?;
        match self.plane {
            Plane::Xy => self.go(to, flat.course(feed_mm_min), line, at),
            Plane::Zx | Plane::Yz => self.upright(&flat, to, feed_mm_min, line, at),
        }
    }

    /// The words of an arc in its plane.
    fn arc_words(&self, asked: &Asked<'_>) -> Located<ArcWords> {
        let Asked { block, to, at, .. } = *asked;
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
        let from = self.programmed();
        if [first, second]
            .iter()
            .any(|&axis| from[axis].datum != to[axis].datum)
        {
            return Err((at, Fault::ArcFromUntold));
        }
        let form = match (block.word(b'R'), offsets) {
            (Some(radius), [None, None]) => Form::Radius(radius * self.unit.mm),
            (Some(_), _) => return Err((at, Fault::ArcMixedForms)),
            (None, [None, None]) => {
                let fault = Fault::ArcWithoutCentre(
                    letter(OFFSET_LETTERS, one),
                    letter(OFFSET_LETTERS, other),
                );
                return Err((at, fault));
            }
            (None, offsets) => {
                let [i, j] = offsets.map(|offset| offset.unwrap_or(0.0) * self.unit.mm);
                Form::Offset(Vec2::new(i, j))
            }
        };
        Ok(ArcWords {
            start: Point::new(from[first].mm, from[second].mm),
            end: Point::new(to[first].mm, to[second].mm),
            form,
        })
    }

    /// Tells an arc in an upright plane as straight pieces: a chord of angle a lies at most r·(1 − cos(a/2)) from its arc (textbook).
    fn upright(
        &mut self,
        flat: &Arc,
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
