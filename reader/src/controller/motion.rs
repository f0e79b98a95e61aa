//! Motions: which one a line makes, where it leads, how fast.

use kurbo::Point;

use super::Controller;
use crate::MOST_MOTIONS;
use crate::block::{Block, Located, set};
use crate::codes::{Action, Group, Mode};
use crate::datum::{Coordinate, Datum};
use crate::fault::Fault;
use crate::replay::{DoubtKind, Frame, Place, ReadCourse, ReadMotion};

/// The least way of a probe, mm (NISTIR 6556 §3.5.9, from memory: 0.254 mm or 0.01 inch).
const LEAST_PROBE_MM: f64 = 0.254;

/// Rounding that a probe's way may lack, mm.
const PROBE_SLACK_MM: f64 = 1e-9;

/// What a line asks of the machine.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    pub block: &'a Block,
    /// Where the words lead.
    pub to: [Coordinate; 3],
    /// The line, counted from 1.
    pub line: usize,
    /// Where the motion stands in the line.
    pub at: usize,
}

impl Controller {
    /// The motion of a line.
    pub(super) fn motion(&mut self, block: &Block, line: usize) -> Located<()> {
        let own = block.code(Group::Motion);
        let axes_at = block
            .first_of(set(b"XYZ"))
            .map_or(0, |letter| block.place(letter));
        let at = own.map_or(axes_at, |(_, at)| at);
        let axes = block.has_axes() && Controller::takes_axes(block).is_none();
        let machine_places = self.machine_places(block)?;
        if let Some((code, at)) = own {
            let Action::Motion(mode) = code.action else {
                return Ok(());
            };
            if mode != Mode::None && !axes {
                return Err((at, Fault::MotionWithoutAxes(code.name)));
            }
            self.mode = mode;
            if mode == Mode::None && !axes {
                self.sticky = None;
                return Ok(());
            }
        }
        match self.mode {
            Mode::Cycle(_) => {}
            Mode::Rapid | Mode::Line | Mode::Arc(_) | Mode::Probe | Mode::None => {
                self.sticky = None;
            }
        }
        let to = if machine_places {
            self.machine_destination(block)
        } else {
            self.destination(block)
        };
        let asked = Asked {
            block,
            to,
            line,
            at,
        };
        match self.mode {
            Mode::None => Err((at, Fault::AxesWithoutMotion)),
            Mode::Rapid => self.straight(&asked, true),
            Mode::Line => self.straight(&asked, false),
            Mode::Arc(turn) => self.arc(&asked, turn),
            Mode::Probe => {
                self.refuse_under_compensation("G38.2", at)?;
                self.probe(block, to, line, at)
            }
            Mode::Cycle(cycle) => {
                self.refuse_under_compensation(cycle.name(), at)?;
                self.cycle(cycle, block, line, at)
            }
        }
    }

    /// A straight motion, with the cutter beside it if compensation is on.
    fn straight(&mut self, asked: &Asked<'_>, is_rapid: bool) -> Located<()> {
        if let Some(beside) = self.beside() {
            return self.straight_beside(beside, asked, is_rapid);
        }
        let course = if is_rapid {
            ReadCourse::Rapid
        } else {
            let length_mm = |controller: &Controller| controller.way_mm(asked.to);
            ReadCourse::Line {
                feed_mm_min: self.feed_for(length_mm, asked.block, asked.at)?,
            }
        };
        self.go(asked.to, course, asked.line, asked.at)
    }

    /// Whether the line names places of the machine (G53).
    fn machine_places(&self, block: &Block) -> Located<bool> {
        let Some((code, at)) = block.code(Group::OwnLine) else {
            return Ok(false);
        };
        if !matches!(code.action, Action::MachinePlaces) {
            return Ok(false);
        }
        if !matches!(self.motion_of(block), Some(Mode::Rapid | Mode::Line)) || !block.has_axes() {
            return Err((at, Fault::MachinePlacesWithoutLine));
        }
        if self.incremental {
            return Err((at, Fault::MachinePlacesIncremental));
        }
        self.refuse_under_compensation(code.name, at)?;
        Ok(true)
    }

    /// Where the axis words lead.
    pub(super) fn destination(&self, block: &Block) -> [Coordinate; 3] {
        let from = self.programmed();
        std::array::from_fn(|axis| match block.axis(axis) {
            Some(value) if self.incremental => from[axis].plus(value * self.unit.mm),
            Some(value) => self.zeros.zero(axis).plus(value * self.unit.mm),
            None => from[axis],
        })
    }

    /// Where the axis words lead, if they are places of the machine.
    fn machine_destination(&self, block: &Block) -> [Coordinate; 3] {
        std::array::from_fn(|axis| match block.axis(axis) {
            Some(value) => Coordinate {
                datum: Datum::Machine,
                mm: value * self.unit.mm,
            },
            None => self.position[axis],
        })
    }

    /// How far it is to a place in a straight line, as far as the program tells, mm.
    pub(super) fn way_mm(&self, to: [Coordinate; 3]) -> f64 {
        let along: [f64; 3] = std::array::from_fn(|axis| to[axis].mm - self.start_of(axis, to));
        along[0].hypot(along[1]).hypot(along[2])
    }

    /// Where a motion starts on an axis, counted from the datum of its end.
    pub(super) fn start_of(&self, axis: usize, to: [Coordinate; 3]) -> f64 {
        let from = self.position[axis];
        if from.datum == to[axis].datum || from.datum == Datum::Untold(0) {
            from.mm
        } else {
            to[axis].mm
        }
    }

    /// The feed for a cut of a length, mm/min; the length is asked for in inverse time alone.
    pub(super) fn feed_for(
        &self,
        length_mm: impl FnOnce(&Controller) -> f64,
        block: &Block,
        at: usize,
    ) -> Located<f64> {
        if !self.inverse_time {
            return self.cutting_feed(at);
        }
        match block.word(b'F') {
            None => Err((at, Fault::InverseTimeWithoutFeed)),
            Some(0.0) => Err((at, Fault::NoFeed)),
            Some(times_a_minute) => Ok(length_mm(self) * times_a_minute),
        }
    }

    /// The feed in lengths a minute, mm/min.
    pub(super) fn cutting_feed(&self, at: usize) -> Located<f64> {
        if self.feed == 0.0 {
            return Err((at, Fault::NoFeed));
        }
        Ok(self.feed * self.unit.mm)
    }

    /// G38.2: where it ends is known to the machine alone.
    fn probe(&mut self, block: &Block, to: [Coordinate; 3], line: usize, at: usize) -> Located<()> {
        if self.inverse_time {
            return Err((at, Fault::NotInInverseTime("G38.2")));
        }
        let told = (0..3).all(|axis| self.position[axis].datum == to[axis].datum);
        if told && self.way_mm(to) < LEAST_PROBE_MM - PROBE_SLACK_MM {
            return Err((at, Fault::ProbeTooShort));
        }
        let feed_mm_min = self.cutting_feed(at)?;
        self.doubt(DoubtKind::Probe, line);
        self.go(to, ReadCourse::Line { feed_mm_min }, line, at)?;
        for axis in 0..3 {
            if block.axis(axis).is_some() {
                self.leave(axis, line);
            }
        }
        self.parameters.forget_probe();
        Ok(())
    }

    /// Records a motion and stands at its end.
    pub(super) fn go(
        &mut self,
        to: [Coordinate; 3],
        course: ReadCourse,
        line: usize,
        at: usize,
    ) -> Located<()> {
        if self.replay.motions.len() >= MOST_MOTIONS {
            return Err((at, Fault::TooManyMotions));
        }
        if self.replay.motions.is_empty() {
            self.replay.units_stated = self.units_said;
        }
        let from: [f64; 3] = std::array::from_fn(|axis| self.start_of(axis, to));
        let known = std::array::from_fn(|axis| {
            let datum = to[axis].datum;
            self.position[axis].datum == datum && datum.is_told()
        });
        self.note_frame(to);
        self.replay.motions.push(ReadMotion {
            from: place(from),
            to: place(to.map(|coordinate| coordinate.mm)),
            known,
            course,
            spindle: self.spindle(),
            path_control: self.path_control,
            line,
        });
        self.position = to;
        Ok(())
    }

    /// Notes what the next motion's numbers are counted from, if it is not what the last one's are.
    fn note_frame(&mut self, to: [Coordinate; 3]) {
        let datums = to.map(|coordinate| coordinate.datum);
        let same = self.replay.frames.last().is_some_and(|frame| {
            frame.datums == datums && frame.length_offset == self.length_offset
        });
        if !same {
            self.replay.frames.push(Frame {
                first: self.replay.motions.len(),
                datums,
                length_offset: self.length_offset,
            });
        }
    }
}

fn place(axes: [f64; 3]) -> Place {
    Place {
        xy: Point::new(axes[0], axes[1]),
        z: axes[2],
    }
}
