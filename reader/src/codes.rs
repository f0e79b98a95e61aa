//! The G and M codes of the standard, their modal groups, and the order in which a line is carried out.
//!
//! # Source
//! NISTIR 6556 (2000): table 4 (modal groups, p. 20), table 5 (G codes), table 7 (M codes), table 8 (order, p. 41).

use geometry::arc_path::Turn;

use super::fault::Fault;
use super::replay::{Ending, PathControl, PauseKind};

/// One step of carrying out a line, in the standard's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Step {
    /// A comment or message.
    Comment,
    /// G94.
    FeedMode,
    /// F.
    Feed,
    /// S.
    Speed,
    /// T.
    Tool,
    /// M6.
    ChangeTool,
    /// M3, M4 or M5.
    Spindle,
    /// M7, M8 or M9.
    Coolant,
    /// M48 or M49.
    Overrides,
    /// G4.
    Dwell,
    /// G17, G18 or G19.
    Plane,
    /// G20 or G21.
    Units,
    /// G40.
    RadiusCompensation,
    /// G43 or G49.
    LengthOffset,
    /// G54 to G59.3.
    WorkSystem,
    /// G61, G61.1 or G64.
    PathControl,
    /// G90 or G91.
    DistanceMode,
    /// G98 or G99.
    ReturnMode,
    /// G0 to G3 or G80, or axis words alone.
    Motion,
    /// M0, M1, M2, M30 or M60.
    Stop,
}

impl Step {
    /// All steps in the standard's order.
    pub const ALL: [Step; 20] = [
        Step::Comment,
        Step::FeedMode,
        Step::Feed,
        Step::Speed,
        Step::Tool,
        Step::ChangeTool,
        Step::Spindle,
        Step::Coolant,
        Step::Overrides,
        Step::Dwell,
        Step::Plane,
        Step::Units,
        Step::RadiusCompensation,
        Step::LengthOffset,
        Step::WorkSystem,
        Step::PathControl,
        Step::DistanceMode,
        Step::ReturnMode,
        Step::Motion,
        Step::Stop,
    ];

    /// The step's bit in a set of steps.
    pub(super) fn bit(self) -> u32 {
        1 << self as u8
    }
}

/// A code and its name.
#[derive(Clone, Copy, Debug)]
pub(super) struct Code {
    pub name: &'static str,
    pub action: Action,
}

/// What a code does.
#[derive(Clone, Copy, Debug)]
pub(super) enum Action {
    Motion(Mode),
    Dwell,
    Plane(Plane),
    Units { mm: f64 },
    CompensationOff,
    LengthOffset { on: bool },
    WorkSystem(u8),
    PathControl(PathControl),
    Incremental(bool),
    FeedPerMinute,
    ReturnMode,
    ChangeTool,
    Spindle(SpindleWord),
    Coolant,
    Overrides,
    Pause(PauseKind),
    End(Ending),
}

/// The motion that axis words call for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mode {
    Rapid,
    Line,
    Arc(Turn),
    None,
}

/// The plane of arcs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Plane {
    Xy,
    Other,
}

/// M3, M4 and M5.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SpindleWord {
    Clockwise,
    Counterclockwise,
    Stop,
}

impl Action {
    /// The step that carries the code out. Codes of one step form one modal group; G4, alone of its group here, too.
    pub fn step(self) -> Step {
        match self {
            Action::Motion(_) => Step::Motion,
            Action::Dwell => Step::Dwell,
            Action::Plane(_) => Step::Plane,
            Action::Units { .. } => Step::Units,
            Action::CompensationOff => Step::RadiusCompensation,
            Action::LengthOffset { .. } => Step::LengthOffset,
            Action::WorkSystem(_) => Step::WorkSystem,
            Action::PathControl(_) => Step::PathControl,
            Action::Incremental(_) => Step::DistanceMode,
            Action::FeedPerMinute => Step::FeedMode,
            Action::ReturnMode => Step::ReturnMode,
            Action::ChangeTool => Step::ChangeTool,
            Action::Spindle(_) => Step::Spindle,
            Action::Coolant => Step::Coolant,
            Action::Overrides => Step::Overrides,
            Action::Pause(_) | Action::End(_) => Step::Stop,
        }
    }

    /// What codes of the same step set, for a sentence.
    pub fn group(self) -> &'static str {
        match self {
            Action::Motion(_) => "motion",
            Action::Dwell => "dwell",
            Action::Plane(_) => "plane",
            Action::Units { .. } => "units",
            Action::CompensationOff => "cutter radius compensation",
            Action::LengthOffset { .. } => "length offset",
            Action::WorkSystem(_) => "work coordinate system",
            Action::PathControl(_) => "path control",
            Action::Incremental(_) => "distance mode",
            Action::FeedPerMinute => "feed mode",
            Action::ReturnMode => "return level",
            Action::ChangeTool => "cutter change",
            Action::Spindle(_) => "spindle",
            Action::Coolant => "coolant",
            Action::Overrides => "overrides",
            Action::Pause(_) | Action::End(_) => "stop",
        }
    }
}

const NO_CYCLES: &str = "drilling and boring cycles are not read; write their moves out";
const NO_COMPENSATION: &str = "the path must be that of the cutter's centre";
const NO_MACHINE_PLACES: &str = "where it leads is known to the machine alone";
const NO_OFFSETS: &str = "it shifts coordinates by values kept in the machine";

/// The G code of a number in tenths.
///
/// # Errors
/// A code that the standard does not know, or that this reader does not take.
pub(super) fn g_code(tenths: u32) -> Result<Code, Fault> {
    let code = |name, action| Ok(Code { name, action });
    let refuse = |code, reason| Err(Fault::Unsupported { code, reason });
    match tenths {
        0 => code("G0", Action::Motion(Mode::Rapid)),
        10 => code("G1", Action::Motion(Mode::Line)),
        20 => code("G2", Action::Motion(Mode::Arc(Turn::Right))),
        30 => code("G3", Action::Motion(Mode::Arc(Turn::Left))),
        40 => code("G4", Action::Dwell),
        100 => refuse("G10", NO_OFFSETS),
        170 => code("G17", Action::Plane(Plane::Xy)),
        180 => code("G18", Action::Plane(Plane::Other)),
        190 => code("G19", Action::Plane(Plane::Other)),
        200 => code("G20", Action::Units { mm: 25.4 }),
        210 => code("G21", Action::Units { mm: 1.0 }),
        280 => refuse("G28", NO_MACHINE_PLACES),
        300 => refuse("G30", NO_MACHINE_PLACES),
        382 => refuse(
            "G38.2",
            "probing ends where the machine touches, which no program tells",
        ),
        400 => code("G40", Action::CompensationOff),
        410 => refuse("G41", NO_COMPENSATION),
        420 => refuse("G42", NO_COMPENSATION),
        430 => code("G43", Action::LengthOffset { on: true }),
        490 => code("G49", Action::LengthOffset { on: false }),
        530 => refuse("G53", NO_MACHINE_PLACES),
        540 => code("G54", Action::WorkSystem(1)),
        550 => code("G55", Action::WorkSystem(2)),
        560 => code("G56", Action::WorkSystem(3)),
        570 => code("G57", Action::WorkSystem(4)),
        580 => code("G58", Action::WorkSystem(5)),
        590 => code("G59", Action::WorkSystem(6)),
        591 => code("G59.1", Action::WorkSystem(7)),
        592 => code("G59.2", Action::WorkSystem(8)),
        593 => code("G59.3", Action::WorkSystem(9)),
        610 => code("G61", Action::PathControl(PathControl::ExactPath)),
        611 => code("G61.1", Action::PathControl(PathControl::ExactStop)),
        640 => code("G64", Action::PathControl(PathControl::Continuous)),
        800 => code("G80", Action::Motion(Mode::None)),
        810 => refuse("G81", NO_CYCLES),
        820 => refuse("G82", NO_CYCLES),
        830 => refuse("G83", NO_CYCLES),
        840 => refuse("G84", NO_CYCLES),
        850 => refuse("G85", NO_CYCLES),
        860 => refuse("G86", NO_CYCLES),
        870 => refuse("G87", NO_CYCLES),
        880 => refuse("G88", NO_CYCLES),
        890 => refuse("G89", NO_CYCLES),
        900 => code("G90", Action::Incremental(false)),
        910 => code("G91", Action::Incremental(true)),
        920 => refuse("G92", NO_OFFSETS),
        921 => refuse("G92.1", NO_OFFSETS),
        922 => refuse("G92.2", NO_OFFSETS),
        923 => refuse("G92.3", NO_OFFSETS),
        930 => refuse("G93", "feeds are read as lengths a minute; use G94"),
        940 => code("G94", Action::FeedPerMinute),
        980 => code("G98", Action::ReturnMode),
        990 => code("G99", Action::ReturnMode),
        _ => Err(Fault::UnknownCode {
            letter: 'G',
            value: f64::from(tenths) / 10.0,
        }),
    }
}

/// The M code of a number.
///
/// # Errors
/// A code that the standard does not know.
pub(super) fn m_code(number: u32) -> Result<Code, Fault> {
    let code = |name, action| Ok(Code { name, action });
    match number {
        0 => code("M0", Action::Pause(PauseKind::Always)),
        1 => code("M1", Action::Pause(PauseKind::IfAsked)),
        2 => code("M2", Action::End(Ending::M2)),
        3 => code("M3", Action::Spindle(SpindleWord::Clockwise)),
        4 => code("M4", Action::Spindle(SpindleWord::Counterclockwise)),
        5 => code("M5", Action::Spindle(SpindleWord::Stop)),
        6 => code("M6", Action::ChangeTool),
        // The report lets mist and flood run together; its interpreter refuses both on one line, and so do we.
        7 => code("M7", Action::Coolant),
        8 => code("M8", Action::Coolant),
        9 => code("M9", Action::Coolant),
        30 => code("M30", Action::End(Ending::M30)),
        48 => code("M48", Action::Overrides),
        49 => code("M49", Action::Overrides),
        60 => code("M60", Action::Pause(PauseKind::PalletExchange)),
        _ => Err(Fault::UnknownCode {
            letter: 'M',
            value: f64::from(number),
        }),
    }
}
