//! What a program does, as read.

use std::fmt;

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use thiserror::Error;

use crate::codes::Plane;
use crate::datum::Datum;

/// Everything that a program does, in order.
///
/// What happens between motions says by `before` where it falls: the number of motions that come ahead of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Replay {
    /// The motions, some perhaps of no length. Those of cycles are written out.
    pub motions: Vec<ReadMotion>,
    /// What the motions' numbers are counted from, wherever that changes; the first belongs to the first motion.
    pub frames: Vec<Frame>,
    /// The dwells.
    pub dwells: Vec<Dwell>,
    /// The stops at which a person presses a key.
    pub pauses: Vec<Pause>,
    /// The changes of cutter.
    pub tool_changes: Vec<ToolChange>,
    /// The coolant turned on and off.
    pub coolant: Vec<CoolantChange>,
    /// What changes a zero for the lines after it, and perhaps for the programs after this one.
    pub zero_changes: Vec<ZeroChange>,
    /// The drilling and boring cycles.
    pub cycles: Vec<CycleRun>,
    /// Where cutter radius compensation is switched on; the motions after it are those of the cutter's centre.
    pub compensations: Vec<Compensation>,
    /// The arcs in the planes of G18 and G19.
    pub upright_arcs: Vec<UprightArc>,
    /// The messages shown to the operator.
    pub messages: Vec<Message>,
    /// Lines from which the knobs for feed and speed have no effect (M49).
    pub knobs_off: Vec<usize>,
    /// Lines that a switch on the machine can skip (`/`), carried out here.
    pub optional_lines: Vec<usize>,
    /// What the program leaves to the machine or to a person; what is told here of the motions after it may not come true.
    pub doubts: Vec<Doubt>,
    /// Whether the program said G20 or G21 before its first motion; else millimetres were assumed.
    pub units_stated: bool,
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
    /// Where it starts. On axes that are not [`known`](ReadMotion::known): counted from 0 as long as the program has told nothing,
    /// and where the motion ends after a change of what the numbers are counted from.
    pub from: Place,
    /// Where it ends.
    pub to: Place,
    /// Whether the program itself has told where the motion starts, in x, y and z, counted from the same as its end.
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

impl ReadMotion {
    /// Where the cutter's centre is in x and y after a share of the motion, 0 to 1.
    pub fn xy_at(&self, share: f64) -> Point {
        match self.course {
            ReadCourse::Rapid | ReadCourse::Line { .. } => self.from.xy.lerp(self.to.xy, share),
            ReadCourse::Arc {
                centre,
                turn,
                sweep,
                ..
            } => {
                let angle = match turn {
                    Turn::Left => sweep * share,
                    Turn::Right => -sweep * share,
                };
                let (sin, cos) = angle.sin_cos();
                let arm = self.from.xy - centre;
                centre + Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
            }
        }
    }
}

/// The course of a motion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReadCourse {
    /// As fast as the machine can.
    Rapid,
    /// Straight. Arcs in the planes of G18 and G19 are told as straight pieces: see [`UprightArc`].
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

/// What the motions' numbers are counted from, from one motion on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Frame {
    /// Index of the first motion that it holds for.
    pub first: usize,
    /// The datum of the motions' ends, in x, y and z.
    pub datums: [Datum; 3],
    /// The length offset in force (G43 H); `None` under G49. Heights are then those of the tip only if the machine's table is right.
    pub length_offset: Option<u8>,
}

/// An arc in an upright plane. It is told as straight pieces, none further from it than [`crate::CHORD_WITHIN_MM`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UprightArc {
    /// Index of its first piece among the motions.
    pub first: usize,
    /// The number of pieces.
    pub pieces: usize,
    /// The plane.
    pub plane: Plane,
    /// Centre, x, y and z, at the height of the start along the axis normal to the plane.
    pub centre: [f64; 3],
    /// Which way, seen from the positive end of that axis.
    pub turn: Turn,
    /// Angle turned through, radians, above 0 and at most a full turn.
    pub sweep: f64,
    /// The line, counted from 1.
    pub line: usize,
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
    /// Always (M0, and at the bottom of G88).
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

/// Coolant turned on or off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CoolantChange {
    /// Number of motions ahead of it.
    pub before: usize,
    /// What is turned.
    pub word: CoolantWord,
    /// The line, counted from 1.
    pub line: usize,
}

/// A change of a zero: G10, or G92 to G92.3.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ZeroChange {
    /// Number of motions ahead of it.
    pub before: usize,
    /// The code, such as `G92.1`.
    pub code: &'static str,
    /// The line, counted from 1.
    pub line: usize,
}

/// M7, M8 and M9.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CoolantWord {
    /// Mist on (M7).
    Mist,
    /// Flood on (M8).
    Flood,
    /// Both off (M9).
    Off,
}

/// A line that runs a cycle, once or several times.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CycleRun {
    /// The cycle's code, such as `G83`.
    pub code: &'static str,
    /// Index of its first motion.
    pub first: usize,
    /// How often it runs (L).
    pub times: u32,
    /// The line, counted from 1.
    pub line: usize,
}

/// Cutter radius compensation switched on (G41, G42).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compensation {
    /// Number of motions ahead of it.
    pub before: usize,
    /// Where the cutter runs.
    pub side: Side,
    /// The slot of the cutter whose radius is taken; 0 for none.
    pub slot: u32,
    /// The radius, mm, not below 0.
    pub radius_mm: f64,
    /// The line, counted from 1.
    pub line: usize,
}

/// A side of a path, seen from above and along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The left (G41).
    Left,
    /// The right (G42).
    Right,
}

/// A short name, to be put after "the".
impl fmt::Display for Side {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Side::Left => "left",
            Side::Right => "right",
        })
    }
}

impl Side {
    /// The other side.
    pub(crate) fn other(self) -> Side {
        match self {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        }
    }
}

/// A message to the operator: `(MSG, …)`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// Number of motions ahead of it.
    pub before: usize,
    /// Its text.
    pub text: String,
    /// The line, counted from 1.
    pub line: usize,
}

/// Something that a program leaves to the machine or to a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("line {line}: {kind}")]
pub struct Doubt {
    /// Number of motions ahead of it.
    pub before: usize,
    /// What it is.
    pub kind: DoubtKind,
    /// The line, counted from 1.
    pub line: usize,
}

/// Kinds of doubt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Error)]
pub enum DoubtKind {
    /// G38.2.
    #[error("the probe stops where it touches; it is told here as if it went all the way")]
    Probe,
    /// The end of G88.
    #[error(
        "a person draws the spindle out of the hole by hand; it is taken to be back where the cycle began"
    )]
    DrawnByHand,
    /// A cycle that begins above R, without G98 or G99.
    #[error(
        "neither G98 nor G99 says how far this cycle rises; it is taken to rise to where it began"
    )]
    ReturnLevel,
    /// A G0 round an outer corner under compensation.
    #[error(
        "a rapid motion passes a corner under cutter radius compensation; it is told as going straight to its end, not round the corner"
    )]
    RapidAtCorner,
    /// M6 under compensation.
    #[error(
        "the cutter is changed while cutter radius compensation is on; the path goes on with the radius of the cutter before"
    )]
    CutterUnderCompensation,
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

impl Replay {
    /// The motions in groups that are counted from the same, in order.
    pub fn framed(&self) -> impl Iterator<Item = (&Frame, &[ReadMotion])> {
        let ends = self.frames.iter().skip(1).map(|frame| frame.first);
        let ends = ends.chain(std::iter::once(self.motions.len()));
        self.frames.iter().zip(ends).map(|(frame, end)| {
            let motions = self.motions.get(frame.first..end);
            (frame, motions.unwrap_or_default())
        })
    }
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
