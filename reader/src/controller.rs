//! The state of the controller while it carries out a program line by line.
//!
//! # Source
//! NISTIR 6556 (2000), table 8 for the order of the steps, §3.5 and §3.6 for what each does.

use geometry::arc_path::Turn;
use kurbo::Point;

use super::arc::{self, Unit};
use super::block::{Block, Located, set};
use super::codes::{Action, Mode, Plane, SpindleWord, Step};
use super::fault::Fault;
use super::lexer::whole;
use super::replay::{
    Dwell, End, Ending, PathControl, Pause, Place, ReadCourse, ReadMotion, Replay, Spindle,
    ToolChange,
};

/// The highest carousel slot and length offset (the reference interpreter's tables hold 128).
const MOST_SLOTS: u32 = 128;

/// Words that only a code on the same line gives a meaning to.
const ARC_WORDS: u32 = set(b"IJKR");

/// Words of the standard that no code taken here uses.
const IDLE_WORDS: u32 = set(b"DLQ");

/// The controller: where the machine stands, and what is modal.
pub(super) struct Controller {
    replay: Replay,
    place: Place,
    known: [bool; 3],
    mode: Mode,
    plane: Plane,
    unit: Unit,
    incremental: bool,
    /// The F word as it was written: on a change of units it keeps its number, not its speed.
    feed: f64,
    speed: f64,
    turning: SpindleWord,
    tool: u32,
    length_offset: Option<u32>,
    path_control: PathControl,
    units_said: bool,
    ended: Option<Ending>,
}

impl Controller {
    pub fn new() -> Controller {
        Controller {
            replay: Replay {
                motions: Vec::new(),
                dwells: Vec::new(),
                pauses: Vec::new(),
                tool_changes: Vec::new(),
                optional_lines: Vec::new(),
                units_stated: true,
                work_system: 1,
                end: End {
                    line: 0,
                    ending: Ending::M2,
                    spindle: Spindle::Off,
                },
            },
            place: Place {
                xy: Point::ZERO,
                z: 0.0,
            },
            known: [false; 3],
            mode: Mode::None,
            plane: Plane::Xy,
            unit: Unit { mm: 1.0 },
            incremental: false,
            feed: 0.0,
            speed: 0.0,
            turning: SpindleWord::Stop,
            tool: 0,
            length_offset: None,
            path_control: PathControl::Continuous,
            units_said: false,
            ended: None,
        }
    }

    /// What has ended the program, if anything has.
    pub fn ended(&self) -> Option<Ending> {
        self.ended
    }

    /// Closes the record.
    pub fn finish(mut self, line: usize, ending: Ending) -> Replay {
        self.replay.end = End {
            line,
            ending,
            spindle: self.spindle(),
        };
        self.replay
    }

    /// Carries out one line, step by step in the standard's order; `see` is told each step.
    pub fn execute(
        &mut self,
        block: &Block,
        line: usize,
        text: &str,
        see: &mut impl FnMut(usize, Step),
    ) -> Located<()> {
        if block.optional {
            self.replay.optional_lines.push(line);
        }
        self.refuse_idle_words(block)?;
        let mut steps = block.steps;
        // One turn for each of the at most twenty bits.
        while steps != 0 {
            let step = Step::ALL[steps.trailing_zeros() as usize];
            steps &= steps - 1;
            see(line, step);
            self.perform(step, block, line, text)?;
        }
        Ok(())
    }

    /// Refuses words that no code on the line uses.
    fn refuse_idle_words(&self, block: &Block) -> Located<()> {
        let mut idle = IDLE_WORDS;
        if block.code(Step::Dwell).is_none() {
            idle |= set(b"P");
        }
        if !matches!(
            block.action(Step::LengthOffset),
            Some(Action::LengthOffset { on: true })
        ) {
            idle |= set(b"H");
        }
        if !matches!(self.motion_of(block), Some(Mode::Arc(_))) {
            idle |= ARC_WORDS;
        }
        match block.first_of(idle) {
            Some(letter) => Err((block.place(letter), Fault::UnusedWord(char::from(letter)))),
            None => Ok(()),
        }
    }

    /// The motion that a line makes: its own code, else the active one if axis words stand on it.
    fn motion_of(&self, block: &Block) -> Option<Mode> {
        if let Some(Action::Motion(mode)) = block.action(Step::Motion) {
            return Some(mode);
        }
        block.has_axes().then_some(self.mode)
    }

    fn perform(&mut self, step: Step, block: &Block, line: usize, text: &str) -> Located<()> {
        match step {
            Step::Comment
            | Step::FeedMode
            | Step::Coolant
            | Step::Overrides
            | Step::RadiusCompensation
            | Step::ReturnMode => Ok(()),
            Step::Feed => self.set_feed(block),
            Step::Speed => self.set_speed(block),
            Step::Tool => self.select_tool(block),
            Step::ChangeTool => {
                self.change_tool(line);
                Ok(())
            }
            Step::Spindle => {
                if let Some(Action::Spindle(word)) = block.action(step) {
                    self.turning = word;
                }
                Ok(())
            }
            Step::Dwell => self.dwell(block, line),
            Step::Plane => {
                if let Some(Action::Plane(plane)) = block.action(step) {
                    self.plane = plane;
                }
                Ok(())
            }
            Step::Units => {
                if let Some(Action::Units { mm }) = block.action(step) {
                    self.unit = Unit { mm };
                    self.units_said = true;
                }
                Ok(())
            }
            Step::LengthOffset => self.set_length_offset(block),
            Step::WorkSystem => self.set_work_system(block),
            Step::PathControl => {
                if let Some(Action::PathControl(control)) = block.action(step) {
                    self.path_control = control;
                }
                Ok(())
            }
            Step::DistanceMode => {
                if let Some(Action::Incremental(incremental)) = block.action(step) {
                    self.incremental = incremental;
                }
                Ok(())
            }
            Step::Motion => self.motion(block, line),
            Step::Stop => {
                self.stop(block, line, text);
                Ok(())
            }
        }
    }

    fn set_feed(&mut self, block: &Block) -> Located<()> {
        self.feed = not_negative(block, b'F')?;
        Ok(())
    }

    fn set_speed(&mut self, block: &Block) -> Located<()> {
        self.speed = not_negative(block, b'S')?;
        Ok(())
    }

    fn select_tool(&mut self, block: &Block) -> Located<()> {
        self.tool = slot(block, b'T')?;
        Ok(())
    }

    fn change_tool(&mut self, line: usize) {
        self.turning = SpindleWord::Stop;
        self.replay.tool_changes.push(ToolChange {
            before: self.replay.motions.len(),
            tool: self.tool,
            line,
        });
    }

    fn dwell(&mut self, block: &Block, line: usize) -> Located<()> {
        let at = block.code(Step::Dwell).map_or(0, |(_, at)| at);
        if block.word(b'P').is_none() {
            return Err((at, Fault::DwellWithoutTime));
        }
        self.replay.dwells.push(Dwell {
            before: self.replay.motions.len(),
            seconds: not_negative(block, b'P')?,
            spindle: self.spindle(),
            line,
        });
        Ok(())
    }

    /// An offset shifts z by a length that the machine keeps, so the height is told anew only by the next Z word.
    fn set_length_offset(&mut self, block: &Block) -> Located<()> {
        let Some((code, at)) = block.code(Step::LengthOffset) else {
            return Ok(());
        };
        let wanted = if matches!(code.action, Action::LengthOffset { on: true }) {
            if block.word(b'H').is_none() {
                return Err((at, Fault::OffsetWithoutIndex));
            }
            Some(slot(block, b'H')?)
        } else {
            None
        };
        if wanted != self.length_offset {
            self.length_offset = wanted;
            self.known[2] = false;
        }
        Ok(())
    }

    fn set_work_system(&mut self, block: &Block) -> Located<()> {
        let Some((code, at)) = block.code(Step::WorkSystem) else {
            return Ok(());
        };
        if let Action::WorkSystem(system) = code.action {
            if system != self.replay.work_system && !self.replay.motions.is_empty() {
                return Err((at, Fault::WorkSystemChanged));
            }
            self.replay.work_system = system;
        }
        Ok(())
    }

    fn motion(&mut self, block: &Block, line: usize) -> Located<()> {
        let own = block.code(Step::Motion);
        let at = own.map_or_else(
            || {
                block
                    .first_of(set(b"XYZ"))
                    .map_or(0, |letter| block.place(letter))
            },
            |(_, at)| at,
        );
        if let Some((code, at)) = own {
            let Action::Motion(mode) = code.action else {
                return Ok(());
            };
            self.mode = mode;
            if mode == Mode::None && !block.has_axes() {
                return Ok(());
            }
            if mode != Mode::None && !block.has_axes() {
                return Err((at, Fault::MotionWithoutAxes(code.name)));
            }
        }
        let to = self.destination(block);
        let course = match self.mode {
            Mode::None => return Err((at, Fault::AxesWithoutMotion)),
            Mode::Rapid => ReadCourse::Rapid,
            Mode::Line => ReadCourse::Line {
                feed_mm_min: self.cutting_feed(at)?,
            },
            Mode::Arc(turn) => self.arc(block, to, turn, at)?,
        };
        self.go(block, to, course, line);
        Ok(())
    }

    /// Where the axis words lead, mm.
    fn destination(&self, block: &Block) -> Place {
        let axis = |letter, now: f64| match block.word(letter) {
            Some(value) if self.incremental => now + value * self.unit.mm,
            Some(value) => value * self.unit.mm,
            None => now,
        };
        Place {
            xy: Point::new(axis(b'X', self.place.xy.x), axis(b'Y', self.place.xy.y)),
            z: axis(b'Z', self.place.z),
        }
    }

    /// The feed for a cut, mm/min.
    fn cutting_feed(&self, at: usize) -> Located<f64> {
        if self.feed == 0.0 {
            return Err((at, Fault::NoFeed));
        }
        Ok(self.feed * self.unit.mm)
    }

    fn arc(&self, block: &Block, to: Place, turn: Turn, at: usize) -> Located<ReadCourse> {
        let feed_mm_min = self.cutting_feed(at)?;
        if self.plane != Plane::Xy {
            return Err((at, Fault::ArcPlane));
        }
        if block.word(b'K').is_some() {
            return Err((block.place(b'K'), Fault::ArcOffsetK));
        }
        if block.word(b'X').is_none() && block.word(b'Y').is_none() {
            return Err((at, Fault::ArcWithoutEnd));
        }
        let (start, end) = (self.place.xy, to.xy);
        let offsets = (block.word(b'I'), block.word(b'J'));
        let centre = match (block.word(b'R'), offsets) {
            (Some(radius), (None, None)) => {
                arc::centre_of_radius(start, end, radius * self.unit.mm, turn, self.unit)
            }
            (Some(_), _) => Err(Fault::ArcMixedForms),
            (None, (None, None)) => Err(Fault::ArcWithoutCentre),
            (None, (i, j)) => {
                let along = |offset: Option<f64>| offset.unwrap_or(0.0) * self.unit.mm;
                let centre = Point::new(start.x + along(i), start.y + along(j));
                arc::check(start, end, centre, self.unit).map(|()| centre)
            }
        }
        .map_err(|fault| (at, fault))?;
        Ok(ReadCourse::Arc {
            centre,
            turn,
            sweep: arc::sweep(start, end, centre, turn),
            feed_mm_min,
        })
    }

    /// Records a motion and stands at its end.
    fn go(&mut self, block: &Block, to: Place, course: ReadCourse, line: usize) {
        if self.replay.motions.is_empty() {
            self.replay.units_stated = self.units_said;
        }
        self.replay.motions.push(ReadMotion {
            from: self.place,
            to,
            known: self.known,
            course,
            spindle: self.spindle(),
            path_control: self.path_control,
            line,
        });
        self.place = to;
        if !self.incremental {
            for (known, letter) in self.known.iter_mut().zip(*b"XYZ") {
                *known |= block.word(letter).is_some();
            }
        }
    }

    fn stop(&mut self, block: &Block, line: usize, text: &str) {
        let action = block.action(Step::Stop);
        if let Some(Action::End(ending)) = action {
            self.ended = Some(ending);
        }
        if let Some(Action::Pause(kind)) = action {
            self.replay.pauses.push(Pause {
                before: self.replay.motions.len(),
                kind,
                spindle: self.spindle(),
                comment: block
                    .comment
                    .and_then(|(start, end)| text.get(start..end))
                    .unwrap_or_default()
                    .trim()
                    .to_owned(),
                line,
            });
        }
    }

    fn spindle(&self) -> Spindle {
        match self.turning {
            SpindleWord::Stop => Spindle::Off,
            SpindleWord::Clockwise => Spindle::Clockwise { rpm: self.speed },
            SpindleWord::Counterclockwise => Spindle::Counterclockwise { rpm: self.speed },
        }
    }
}

/// The number after a letter that stands on the line.
fn not_negative(block: &Block, letter: u8) -> Located<f64> {
    let value = block.word(letter).unwrap_or(0.0);
    if value < 0.0 {
        return Err((block.place(letter), Fault::Negative(char::from(letter))));
    }
    Ok(value)
}

/// A slot number after a letter that stands on the line.
fn slot(block: &Block, letter: u8) -> Located<u32> {
    let at = block.place(letter);
    let value = block.word(letter).unwrap_or(0.0);
    let number = whole(letter, value).map_err(|fault| (at, fault))?;
    if number > MOST_SLOTS {
        return Err((
            at,
            Fault::AboveLimit {
                letter: char::from(letter),
                most: MOST_SLOTS,
            },
        ));
    }
    Ok(number)
}
