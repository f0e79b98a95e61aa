//! The state of the controller while it carries out a program line by line.
//!
//! # Source
//! NISTIR 6556 (2000), table 8 for the order of the steps, §3.5 and §3.6 for what each does.

mod arcs;
mod compensation;
mod cycles;
mod motion;
mod zeros;

use crate::arc::Unit;
use crate::block::{Block, Located, set};
use crate::codes::{Action, Cycle, Group, Mode, Plane, ReturnLevel, SpindleWord, Step};
use crate::cutters::{CutterTable, MOST_SLOTS};
use crate::datum::{Coordinate, Datum};
use crate::fault::Fault;
use crate::lexer::whole;
use crate::parameters::Parameters;
use crate::replay::{
    CoolantChange, Doubt, DoubtKind, Dwell, End, Ending, Message, PathControl, Pause, PauseKind,
    Replay, Spindle, ToolChange,
};
use compensation::Compensating;
use cycles::Sticky;
use zeros::WorkZeros;

/// The controller: where the machine stands, and what is modal.
pub(crate) struct Controller {
    replay: Replay,
    pub parameters: Parameters,
    position: [Coordinate; 3],
    zeros: WorkZeros,
    mode: Mode,
    plane: Plane,
    unit: Unit,
    incremental: bool,
    inverse_time: bool,
    /// The F word as it was written: on a change of units it keeps its number, not its speed.
    feed: f64,
    speed: f64,
    turning: SpindleWord,
    tool: u32,
    /// The slot of the cutter in the spindle; none before the program has changed it.
    in_spindle: Option<u32>,
    /// What is told of the machine's cutters; none if nothing can be.
    cutters: Option<CutterTable>,
    compensation: Option<Compensating>,
    length_offset: Option<u8>,
    path_control: PathControl,
    return_level: Option<ReturnLevel>,
    sticky: Option<Sticky>,
    units_said: bool,
    ended: Option<Ending>,
}

impl Controller {
    pub fn new(cutters: Option<CutterTable>) -> Controller {
        Controller {
            replay: Replay {
                motions: Vec::new(),
                frames: Vec::new(),
                dwells: Vec::new(),
                pauses: Vec::new(),
                tool_changes: Vec::new(),
                coolant: Vec::new(),
                zero_changes: Vec::new(),
                cycles: Vec::new(),
                compensations: Vec::new(),
                upright_arcs: Vec::new(),
                messages: Vec::new(),
                knobs_off: Vec::new(),
                optional_lines: Vec::new(),
                doubts: Vec::new(),
                units_stated: true,
                end: End {
                    line: 0,
                    ending: Ending::M2,
                    spindle: Spindle::Off,
                },
            },
            parameters: Parameters::default(),
            position: [Coordinate {
                datum: Datum::Untold(0),
                mm: 0.0,
            }; 3],
            zeros: WorkZeros::new(),
            mode: Mode::None,
            plane: Plane::Xy,
            unit: Unit { mm: 1.0 },
            incremental: false,
            inverse_time: false,
            feed: 0.0,
            speed: 0.0,
            turning: SpindleWord::Stop,
            tool: 0,
            in_spindle: None,
            cutters,
            compensation: None,
            length_offset: None,
            path_control: PathControl::Continuous,
            return_level: None,
            sticky: None,
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
        for &(number, value) in &block.settings {
            self.parameters.set(number, value);
        }
        Controller::refuse_two_users_of_axes(block)?;
        self.refuse_idle_words(block)?;
        let mut steps = block.steps;
        if Controller::takes_axes(block).is_some() && block.code(Group::Motion).is_none() {
            steps &= !Step::Motion.bit();
        }
        // One turn for each of the twenty-one bits at most.
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
        let (mut own, mut dwell) = (0, false);
        match block.action(Group::OwnLine) {
            Some(Action::Dwell) => dwell = true,
            Some(Action::Zeros(crate::codes::Zeros::SetSystem)) => own = set(b"LP"),
            _ => {}
        }
        let motion = match self.motion_of(block) {
            Some(Mode::Arc(_)) => set(b"IJKR"),
            Some(Mode::Cycle(cycle)) => cycle_words(cycle),
            Some(Mode::Rapid | Mode::Line | Mode::Probe | Mode::None) | None => 0,
        };
        let offset = match block.action(Group::LengthOffset) {
            Some(Action::LengthOffset { on: true }) => set(b"H"),
            _ => 0,
        };
        let radius = match block.action(Group::RadiusCompensation) {
            Some(Action::Compensation(Some(_))) => set(b"D"),
            _ => 0,
        };
        let used = own | motion | offset | radius | if dwell { set(b"P") } else { 0 };
        let idle = set(b"DHIJKLPQR") & !used;
        match block.first_of(idle) {
            Some(letter) => Err((block.place(letter), Fault::UnusedWord(char::from(letter)))),
            None => Ok(()),
        }
    }

    /// The motion that a line makes: its own code, else the active one if axis words stand on it for it.
    fn motion_of(&self, block: &Block) -> Option<Mode> {
        if let Some(Action::Motion(mode)) = block.action(Group::Motion) {
            return Some(mode);
        }
        (block.has_axes() && Controller::takes_axes(block).is_none()).then_some(self.mode)
    }

    fn perform(&mut self, step: Step, block: &Block, line: usize, text: &str) -> Located<()> {
        match step {
            Step::Comment => self.message(block, line, text),
            Step::FeedMode => self.set_feed_mode(block),
            Step::Feed => self.set_feed(block)?,
            Step::Speed => self.speed = not_negative(block, b'S')?,
            Step::Tool => self.tool = slot(block, b'T')?,
            Step::ChangeTool => self.change_tool(line),
            Step::Spindle => {
                if let Some(Action::Spindle(word)) = block.action(Group::Spindle) {
                    self.turning = word;
                }
            }
            Step::Coolant => self.set_coolant(block, line),
            Step::Overrides => {
                if let Some(Action::Overrides { on: false }) = block.action(Group::Overrides) {
                    self.replay.knobs_off.push(line);
                }
            }
            Step::Dwell => self.dwell(block, line)?,
            Step::Plane => {
                if let Some(Action::Plane(plane)) = block.action(Group::Plane) {
                    if plane != Plane::Xy {
                        self.keep_from_compensation(block, Group::Plane)?;
                    }
                    self.sticky = self.sticky.filter(|_| plane == self.plane);
                    self.plane = plane;
                }
            }
            Step::Units => {
                self.keep_from_compensation(block, Group::Units)?;
                if let Some(Action::Units { mm }) = block.action(Group::Units) {
                    self.sticky = self.sticky.filter(|_| mm == self.unit.mm);
                    self.unit = Unit { mm };
                    self.units_said = true;
                }
            }
            Step::RadiusCompensation => {
                if let Some(Action::Compensation(side)) = block.action(Group::RadiusCompensation) {
                    self.compensate(side, block, line)?;
                }
            }
            Step::LengthOffset => self.set_length_offset(block, line)?,
            Step::WorkSystem => {
                self.keep_from_compensation(block, Group::WorkSystem)?;
                self.set_work_system(block, line);
            }
            Step::PathControl => {
                if let Some(Action::PathControl(control)) = block.action(Group::PathControl) {
                    self.path_control = control;
                }
            }
            Step::DistanceMode => {
                if let Some(Action::Incremental(incremental)) = block.action(Group::DistanceMode) {
                    self.sticky = self.sticky.filter(|_| incremental == self.incremental);
                    self.incremental = incremental;
                }
            }
            Step::ReturnMode => {
                if let Some(Action::Return(level)) = block.action(Group::ReturnMode) {
                    self.return_level = Some(level);
                }
            }
            Step::Zeros => {
                self.keep_from_compensation(block, Group::OwnLine)?;
                self.zeros(block, line)?;
            }
            Step::Motion => self.motion(block, line)?,
            Step::Stop => self.stop(block, line, text),
        }
        Ok(())
    }

    /// Keeps a comment that is a message.
    fn message(&mut self, block: &Block, line: usize, text: &str) {
        if let Some(message) = comment(block, text).and_then(message_of) {
            self.replay.messages.push(Message {
                before: self.replay.motions.len(),
                text: message.trim().to_owned(),
                line,
            });
        }
    }

    /// After inverse time the report does not say which feed holds, so it has to be told anew.
    fn set_feed_mode(&mut self, block: &Block) {
        if let Some(Action::InverseTime(inverse)) = block.action(Group::FeedMode) {
            if inverse != self.inverse_time {
                self.feed = 0.0;
            }
            self.inverse_time = inverse;
        }
    }

    /// In inverse time the word counts for its own line alone, where the motion takes it.
    fn set_feed(&mut self, block: &Block) -> Located<()> {
        let feed = not_negative(block, b'F')?;
        if !self.inverse_time {
            self.feed = feed;
        }
        Ok(())
    }

    fn change_tool(&mut self, line: usize) {
        self.turning = SpindleWord::Stop;
        self.in_spindle = Some(self.tool);
        if self.beside().is_some() {
            self.doubt(DoubtKind::CutterUnderCompensation, line);
        }
        self.replay.tool_changes.push(ToolChange {
            before: self.replay.motions.len(),
            tool: self.tool,
            line,
        });
    }

    fn set_coolant(&mut self, block: &Block, line: usize) {
        if let Some(Action::Coolant(word)) = block.action(Group::Coolant) {
            self.replay.coolant.push(CoolantChange {
                before: self.replay.motions.len(),
                word,
                line,
            });
        }
    }

    fn dwell(&mut self, block: &Block, line: usize) -> Located<()> {
        let at = block.code(Group::OwnLine).map_or(0, |(_, at)| at);
        if block.word(b'P').is_none() {
            return Err((at, Fault::DwellWithoutTime));
        }
        let seconds = not_negative(block, b'P')?;
        self.wait(seconds, line);
        Ok(())
    }

    fn wait(&mut self, seconds: f64, line: usize) {
        self.replay.dwells.push(Dwell {
            before: self.replay.motions.len(),
            seconds,
            spindle: self.spindle(),
            line,
        });
    }

    /// An offset shifts the tip by a length that the machine keeps, so the height is told anew only by the next Z word.
    fn set_length_offset(&mut self, block: &Block, line: usize) -> Located<()> {
        let Some((code, at)) = block.code(Group::LengthOffset) else {
            return Ok(());
        };
        let wanted = if matches!(code.action, Action::LengthOffset { on: true }) {
            if block.word(b'H').is_none() {
                return Err((at, Fault::OffsetWithoutIndex));
            }
            Some(slot(block, b'H')? as u8)
        } else {
            None
        };
        if wanted != self.length_offset {
            self.length_offset = wanted;
            self.leave(2, line);
        }
        Ok(())
    }

    /// From here on the program no longer tells where the machine stands on an axis.
    fn leave(&mut self, axis: usize, line: usize) {
        self.position[axis] = Coordinate {
            datum: Datum::Untold(line as u32),
            mm: 0.0,
        };
    }

    fn stop(&mut self, block: &Block, line: usize, text: &str) {
        match block.action(Group::Stop) {
            Some(Action::End(ending)) => self.ended = Some(ending),
            Some(Action::Pause(kind)) => {
                let why = comment(block, text).unwrap_or_default();
                self.pause(kind, why.trim().to_owned(), line);
            }
            _ => {}
        }
    }

    fn pause(&mut self, kind: PauseKind, comment: String, line: usize) {
        self.replay.pauses.push(Pause {
            before: self.replay.motions.len(),
            kind,
            spindle: self.spindle(),
            comment,
            line,
        });
    }

    fn doubt(&mut self, kind: DoubtKind, line: usize) {
        self.replay.doubts.push(Doubt {
            before: self.replay.motions.len(),
            kind,
            line,
        });
    }

    fn spindle(&self) -> Spindle {
        match self.turning {
            SpindleWord::Stop => Spindle::Off,
            SpindleWord::Clockwise => Spindle::Clockwise { rpm: self.speed },
            SpindleWord::Counterclockwise => Spindle::Counterclockwise { rpm: self.speed },
        }
    }
}

/// The words that a cycle takes beside the axes'.
fn cycle_words(cycle: Cycle) -> u32 {
    let common = set(b"LR");
    match cycle {
        Cycle::Drill | Cycle::Tap | Cycle::BoreFeedOut => common,
        Cycle::DrillAndDwell
        | Cycle::BoreStopRapidOut
        | Cycle::BoreByHandOut
        | Cycle::BoreDwellFeedOut => common | set(b"P"),
        Cycle::Peck => common | set(b"Q"),
        Cycle::BackBore => common | set(b"IJK"),
    }
}

/// The text of the line's last comment.
fn comment<'a>(block: &Block, text: &'a str) -> Option<&'a str> {
    let (start, end) = block.comment?;
    text.get(start..end)
}

/// What follows `MSG,` in a comment; blanks among these characters count for nothing (§3.3.4).
fn message_of(comment: &str) -> Option<&str> {
    let mut wanted = "MSG,".chars().peekable();
    for (at, character) in comment.char_indices() {
        if matches!(character, ' ' | '\t') {
            continue;
        }
        if wanted.next() != Some(character.to_ascii_uppercase()) {
            return None;
        }
        if wanted.peek().is_none() {
            return comment.get(at + character.len_utf8()..);
        }
    }
    None
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
    whole_up_to(block, letter, MOST_SLOTS)
}

/// A whole number with a limit after a letter that stands on the line.
fn whole_up_to(block: &Block, letter: u8, most: u32) -> Located<u32> {
    let at = block.place(letter);
    let value = block.word(letter).unwrap_or(0.0);
    let number = whole(letter, value).map_err(|fault| (at, fault))?;
    if number > most {
        return Err((
            at,
            Fault::AboveLimit {
                letter: char::from(letter),
                most,
            },
        ));
    }
    Ok(number)
}
