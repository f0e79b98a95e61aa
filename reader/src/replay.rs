//! What a program does, as read.

use geometry::arc_path::Turn;
use kurbo::Point;

/// Everything that a program does, in order.
///
/// Dwells, pauses and cutter changes say by `before` where they fall: the number of motions that come ahead of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Replay {
    /// The motions, some perhaps of no length.
    pub motions: Vec<ReadMotion>,
    /// The dwells.
    pub dwells: Vec<Dwell>,
    /// The stops at which a person presses a key.
    pub pauses: Vec<Pause>,
    /// The changes of cutter.
    pub tool_changes: Vec<ToolChange>,
    /// Lines that a switch on the machine can skip (`/`), carried out here.
    pub optional_lines: Vec<usize>,
    /// Whether the program said G20 or G21 before its first motion; else millimetres were assumed.
    pub units_stated: bool,
    /// The work coordinate system that all motions lie in: 1 for G54, up to 9 for G59.3.
    pub work_system: u8,
    /// How it ended.
    pub end: End,
}

/// A place of the cutter's tip.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// Across and along, mm.
    pub xy: Point,
    /// Height, mm.
    pub z: f64,
}

/// One motion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadMotion {
    /// Where it starts; 0 on axes that are not [`known`](ReadMotion::known).
    pub from: Place,
    /// Where it ends.
    pub to: Place,
    /// Whether the program itself has told where the motion starts, in x, y and z.
    pub known: [bool; 3],
    /// How it gets there.
    pub course: ReadCourse,
    /// The spindle during the motion.
    pub spindle: Spindle,
    /// How closely corners are followed.
    pub path_control: PathControl,
    /// The line, counted from 1.
    pub line: usize,
}

/// The course of a motion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReadCourse {
    /// As fast as the machine can.
    Rapid,
    /// Straight.
    Line {
        /// Feed along the path, mm/min.
        feed_mm_min: f64,
    },
    /// An arc in x and y, a helix if z changes.
    Arc {
        /// Centre.
        centre: Point,
        /// Which way, seen from above.
        turn: Turn,
        /// Angle turned through, radians, above 0 and at most a full turn.
        sweep: f64,
        /// Feed along the path (along the helix too), mm/min.
        feed_mm_min: f64,
    },
}

/// What the spindle does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spindle {
    /// Stopped.
    Off,
    /// Turning clockwise, as common cutters need (M3).
    Clockwise {
        /// Turns a minute.
        rpm: f64,
    },
    /// Turning counter-clockwise (M4).
    Counterclockwise {
        /// Turns a minute.
        rpm: f64,
    },
}

/// How closely the controller follows corners.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PathControl {
    /// Corners may be rounded to keep up speed (G64; assumed if the program says nothing).
    Continuous,
    /// The path is followed exactly, at the cost of speed (G61).
    ExactPath,
    /// The machine stops at the end of each motion (G61.1).
    ExactStop,
}

/// A dwell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dwell {
    /// Number of motions ahead of it.
    pub before: usize,
    /// How long, s.
    pub seconds: f64,
    /// The spindle during the dwell.
    pub spindle: Spindle,
    /// The line, counted from 1.
    pub line: usize,
}

/// A stop at which a person presses a key.
#[derive(Clone, Debug, PartialEq)]
pub struct Pause {
    /// Number of motions ahead of it.
    pub before: usize,
    /// What kind of stop.
    pub kind: PauseKind,
    /// The spindle during the pause.
    pub spindle: Spindle,
    /// The comment on the line, empty if none.
    pub comment: String,
    /// The line, counted from 1.
    pub line: usize,
}

/// Kinds of stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PauseKind {
    /// Always (M0).
    Always,
    /// Only with the switch for it on (M1).
    IfAsked,
    /// Always, after exchanging pallets (M60).
    PalletExchange,
}

/// A change of cutter (M6). The spindle is stopped by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ToolChange {
    /// Number of motions ahead of it.
    pub before: usize,
    /// The carousel slot; 0 for none.
    pub tool: u32,
    /// The line, counted from 1.
    pub line: usize,
}

/// Where and how a program ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// The line, counted from 1. What follows it is not carried out.
    pub line: usize,
    /// By what.
    pub ending: Ending,
    /// The spindle just before the end.
    pub spindle: Spindle,
}

/// What ended a program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ending {
    /// M2.
    M2,
    /// M30.
    M30,
    /// The second percent sign. It does not stop the spindle.
    Percent,
}

impl ReadMotion {
    /// Length of the path, mm.
    pub fn length_mm(&self) -> f64 {
        let rise = self.to.z - self.from.z;
        self.flat_length_mm().hypot(rise)
    }

    /// Length of the path seen from above, mm.
    pub fn flat_length_mm(&self) -> f64 {
        match self.course {
            ReadCourse::Rapid | ReadCourse::Line { .. } => self.from.xy.distance(self.to.xy),
            ReadCourse::Arc { centre, sweep, .. } => self.from.xy.distance(centre) * sweep,
        }
    }

    /// The feed, mm/min; `None` for rapids.
    pub fn feed_mm_min(&self) -> Option<f64> {
        match self.course {
            ReadCourse::Rapid => None,
            ReadCourse::Line { feed_mm_min } | ReadCourse::Arc { feed_mm_min, .. } => {
                Some(feed_mm_min)
            }
        }
    }
}
