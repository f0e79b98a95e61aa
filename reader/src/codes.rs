//! The G and M codes of the standard, their modal groups, and the order in which a line is carried out.
//!
//! # Source
//! NISTIR 6556 (2000): table 4 (modal groups, p. 20), table 5 (G codes), table 7 (M codes), table 8 (order, p. 41).

use std::fmt;

use geometry::arc_path::Turn;

use crate::fault::Fault;
use crate::replay::{CoolantWord, Ending, PathControl, PauseKind, Side};

/// One step of carrying out a line, in the standard's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Step {
    /// A comment or message.
    Comment,
    /// G93 or G94.
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
    /// G40, G41 or G42.
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
    /// G28, G30, G10 or G92 to G92.3.
    Zeros,
    /// G0 to G3, G38.2 or G80 to G89, perhaps with G53, or axis words alone.
    Motion,
    /// M0, M1, M2, M30 or M60.
    Stop,
}

impl Step {
    /// All steps in the standard's order.
    pub const ALL: [Step; 21] = [
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
        Step::Zeros,
        Step::Motion,
        Step::Stop,
    ];

    /// The step's bit in a set of steps.
    pub(crate) fn bit(self) -> u32 {
        1 << self as u8
    }
}

/// A modal group: of each a line can hold one code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Group {
    /// Group 0 of G: codes for their own line alone.
    OwnLine,
    /// Group 1 of G.
    Motion,
    /// Group 2 of G.
    Plane,
    /// Group 3 of G.
    DistanceMode,
    /// Group 5 of G.
    FeedMode,
    /// Group 6 of G.
    Units,
    /// Group 7 of G.
    RadiusCompensation,
    /// Group 8 of G.
    LengthOffset,
    /// Group 10 of G.
    ReturnMode,
    /// Group 12 of G.
    WorkSystem,
    /// Group 13 of G.
    PathControl,
    /// Group 4 of M.
    Stop,
    /// Group 6 of M.
    ChangeTool,
    /// Group 7 of M.
    Spindle,
    /// Group 8 of M.
    Coolant,
    /// Group 9 of M.
    Overrides,
}

/// The number of groups.
pub(crate) const GROUPS: usize = 16;

/// What codes of the group set, for a sentence.
impl fmt::Display for Group {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Group::OwnLine => "codes for one line alone",
            Group::Motion => "motion",
            Group::Plane => "plane",
            Group::DistanceMode => "distance mode",
            Group::FeedMode => "feed mode",
            Group::Units => "units",
            Group::RadiusCompensation => "cutter radius compensation",
            Group::LengthOffset => "length offset",
            Group::ReturnMode => "return level",
            Group::WorkSystem => "work coordinate system",
            Group::PathControl => "path control",
            Group::Stop => "stop",
            Group::ChangeTool => "cutter change",
            Group::Spindle => "spindle",
            Group::Coolant => "coolant",
            Group::Overrides => "overrides",
        })
    }
}

/// A code and its name.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Code {
    pub name: &'static str,
    pub action: Action,
}

/// What a code does.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Action {
    Motion(Mode),
    Dwell,
    Zeros(Zeros),
    MachinePlaces,
    Plane(Plane),
    Units {
        mm: f64,
    },
    /// On, and on which side, or off.
    Compensation(Option<Side>),
    LengthOffset {
        on: bool,
    },
    WorkSystem(u8),
    PathControl(PathControl),
    Incremental(bool),
    InverseTime(bool),
    Return(ReturnLevel),
    ChangeTool,
    Spindle(SpindleWord),
    Coolant(CoolantWord),
    Overrides {
        on: bool,
    },
    Pause(PauseKind),
    End(Ending),
}

/// The motion that axis words call for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mode {
    Rapid,
    Line,
    Arc(Turn),
    Probe,
    Cycle(Cycle),
    None,
}

/// The drilling and boring cycles.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Cycle {
    Drill,
    DrillAndDwell,
    Peck,
    Tap,
    BoreFeedOut,
    BoreStopRapidOut,
    BackBore,
    BoreByHandOut,
    BoreDwellFeedOut,
}

/// What G10, G28, G30 and G92 to G92.3 do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Zeros {
    SetSystem,
    GoToFirstReference,
    GoToSecondReference,
    SetShift,
    ForgetShift,
    SuspendShift,
    RestoreShift,
}

impl Zeros {
    /// Whether it takes the axis words of its line.
    pub fn takes_axes(self) -> bool {
        match self {
            Zeros::SetSystem
            | Zeros::GoToFirstReference
            | Zeros::GoToSecondReference
            | Zeros::SetShift => true,
            Zeros::ForgetShift | Zeros::SuspendShift | Zeros::RestoreShift => false,
        }
    }
}

/// How far a cycle rises between holes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum ReturnLevel {
    Start,
    R,
}

/// The plane of arcs and cycles.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Plane {
    /// G17.
    Xy,
    /// G18.
    Zx,
    /// G19.
    Yz,
}

impl Plane {
    /// The axes, 0 for x to 2 for z: the first turns towards the second counter-clockwise, seen from the positive end of the third.
    pub(crate) fn axes(self) -> [usize; 3] {
        match self {
            Plane::Xy => [0, 1, 2],
            Plane::Zx => [2, 0, 1],
            Plane::Yz => [1, 2, 0],
        }
    }

    /// The plane's code.
    pub fn code(self) -> &'static str {
        match self {
            Plane::Xy => "G17",
            Plane::Zx => "G18",
            Plane::Yz => "G19",
        }
    }
}

/// M3, M4 and M5.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SpindleWord {
    Clockwise,
    Counterclockwise,
    Stop,
}

impl Action {
    /// The step that carries the code out.
    pub fn step(self) -> Step {
        match self {
            Action::Motion(_) | Action::MachinePlaces => Step::Motion,
            Action::Dwell => Step::Dwell,
            Action::Zeros(_) => Step::Zeros,
            Action::Plane(_) => Step::Plane,
            Action::Units { .. } => Step::Units,
            Action::Compensation(_) => Step::RadiusCompensation,
            Action::LengthOffset { .. } => Step::LengthOffset,
            Action::WorkSystem(_) => Step::WorkSystem,
            Action::PathControl(_) => Step::PathControl,
            Action::Incremental(_) => Step::DistanceMode,
            Action::InverseTime(_) => Step::FeedMode,
            Action::Return(_) => Step::ReturnMode,
            Action::ChangeTool => Step::ChangeTool,
            Action::Spindle(_) => Step::Spindle,
            Action::Coolant(_) => Step::Coolant,
            Action::Overrides { .. } => Step::Overrides,
            Action::Pause(_) | Action::End(_) => Step::Stop,
        }
    }

    /// The modal group of the code.
    pub fn group(self) -> Group {
        match self {
            Action::Motion(_) => Group::Motion,
            Action::Dwell | Action::Zeros(_) | Action::MachinePlaces => Group::OwnLine,
            Action::Plane(_) => Group::Plane,
            Action::Units { .. } => Group::Units,
            Action::Compensation(_) => Group::RadiusCompensation,
            Action::LengthOffset { .. } => Group::LengthOffset,
            Action::WorkSystem(_) => Group::WorkSystem,
            Action::PathControl(_) => Group::PathControl,
            Action::Incremental(_) => Group::DistanceMode,
            Action::InverseTime(_) => Group::FeedMode,
            Action::Return(_) => Group::ReturnMode,
            Action::ChangeTool => Group::ChangeTool,
            Action::Spindle(_) => Group::Spindle,
            Action::Coolant(_) => Group::Coolant,
            Action::Overrides { .. } => Group::Overrides,
            Action::Pause(_) | Action::End(_) => Group::Stop,
        }
    }
}

/// Why compensation is refused where nothing is told of the machine's cutters.
pub(crate) const NO_COMPENSATION: &str = "how far it moves the path is kept in the machine's table of cutters; write the path of the cutter's centre under G40";

/// The G code of a number in tenths.
///
/// # Errors
/// A code that the standard does not know.
pub(crate) fn g_code(tenths: u32) -> Result<Code, Fault> {
    let code = |name, action| Ok(Code { name, action });
    let cycle = |name, cycle| code(name, Action::Motion(Mode::Cycle(cycle)));
    match tenths {
        0 => code("G0", Action::Motion(Mode::Rapid)),
        10 => code("G1", Action::Motion(Mode::Line)),
        20 => code("G2", Action::Motion(Mode::Arc(Turn::Right))),
        30 => code("G3", Action::Motion(Mode::Arc(Turn::Left))),
        40 => code("G4", Action::Dwell),
        100 => code("G10", Action::Zeros(Zeros::SetSystem)),
        170 => code("G17", Action::Plane(Plane::Xy)),
        180 => code("G18", Action::Plane(Plane::Zx)),
        190 => code("G19", Action::Plane(Plane::Yz)),
        200 => code("G20", Action::Units { mm: 25.4 }),
        210 => code("G21", Action::Units { mm: 1.0 }),
        280 => code("G28", Action::Zeros(Zeros::GoToFirstReference)),
        300 => code("G30", Action::Zeros(Zeros::GoToSecondReference)),
        382 => code("G38.2", Action::Motion(Mode::Probe)),
        400 => code("G40", Action::Compensation(None)),
        410 => code("G41", Action::Compensation(Some(Side::Left))),
        420 => code("G42", Action::Compensation(Some(Side::Right))),
        430 => code("G43", Action::LengthOffset { on: true }),
        490 => code("G49", Action::LengthOffset { on: false }),
        530 => code("G53", Action::MachinePlaces),
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
        810 => cycle("G81", Cycle::Drill),
        820 => cycle("G82", Cycle::DrillAndDwell),
        830 => cycle("G83", Cycle::Peck),
        840 => cycle("G84", Cycle::Tap),
        850 => cycle("G85", Cycle::BoreFeedOut),
        860 => cycle("G86", Cycle::BoreStopRapidOut),
        870 => cycle("G87", Cycle::BackBore),
        880 => cycle("G88", Cycle::BoreByHandOut),
        890 => cycle("G89", Cycle::BoreDwellFeedOut),
        900 => code("G90", Action::Incremental(false)),
        910 => code("G91", Action::Incremental(true)),
        920 => code("G92", Action::Zeros(Zeros::SetShift)),
        921 => code("G92.1", Action::Zeros(Zeros::ForgetShift)),
        922 => code("G92.2", Action::Zeros(Zeros::SuspendShift)),
        923 => code("G92.3", Action::Zeros(Zeros::RestoreShift)),
        930 => code("G93", Action::InverseTime(true)),
        940 => code("G94", Action::InverseTime(false)),
        980 => code("G98", Action::Return(ReturnLevel::Start)),
        990 => code("G99", Action::Return(ReturnLevel::R)),
        _ => Err(Fault::UnknownCode {
            letter: 'G',
            value: f64::from(tenths) / 10.0,
        }),
    }
}

impl Cycle {
    /// The cycle's code.
    pub fn name(self) -> &'static str {
        match self {
            Cycle::Drill => "G81",
            Cycle::DrillAndDwell => "G82",
            Cycle::Peck => "G83",
            Cycle::Tap => "G84",
            Cycle::BoreFeedOut => "G85",
            Cycle::BoreStopRapidOut => "G86",
            Cycle::BackBore => "G87",
            Cycle::BoreByHandOut => "G88",
            Cycle::BoreDwellFeedOut => "G89",
        }
    }

    /// Whether it dwells at the bottom.
    pub fn dwells(self) -> bool {
        match self {
            Cycle::DrillAndDwell
            | Cycle::BoreStopRapidOut
            | Cycle::BoreByHandOut
            | Cycle::BoreDwellFeedOut => true,
            Cycle::Drill | Cycle::Peck | Cycle::Tap | Cycle::BoreFeedOut | Cycle::BackBore => false,
        }
    }
}

/// The M code of a number.
///
/// # Errors
/// A code that the standard does not know.
pub(crate) fn m_code(number: u32) -> Result<Code, Fault> {
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
        7 => code("M7", Action::Coolant(CoolantWord::Mist)),
        8 => code("M8", Action::Coolant(CoolantWord::Flood)),
        9 => code("M9", Action::Coolant(CoolantWord::Off)),
        30 => code("M30", Action::End(Ending::M30)),
        48 => code("M48", Action::Overrides { on: true }),
        49 => code("M49", Action::Overrides { on: false }),
        60 => code("M60", Action::Pause(PauseKind::PalletExchange)),
        _ => Err(Fault::UnknownCode {
            letter: 'M',
            value: f64::from(number),
        }),
    }
}
