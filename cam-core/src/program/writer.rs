//! From toolpaths to program text.
//!
//! The writer leans to the safe side where the standard leaves a choice:
//! - every motion line names its own motion, so that a line means the same if the one before it is lost;
//! - the feed is said again after every rapid;
//! - rapids never slant: they rise before they go across, and go across before they come down;
//! - feeds are rounded down, so that no limit is passed by rounding.

use bench::square::Map;
use geometry::arc_path::Turn;
use kurbo::Point;
use thiserror::Error;

use super::arcs::{Meant, Piece};
use super::comment;
use super::dialect::{Comments, Dialect};
use super::numbers::{Grid, spell};
use super::squareness;
use crate::toolpath::{Course, Motion, Place3, Toolpath};
use crate::workshop::{Cutter, CutterShape};

/// What one cutter does in a program. Several in one program are parted by pauses for changing the cutter.
#[derive(Clone, Copy, Debug)]
pub struct Section<'a> {
    /// The cutter.
    pub cutter: &'a Cutter,
    /// Its motions. The first is a rapid at clear height.
    pub toolpath: &'a Toolpath,
}

/// What a program says of itself in its opening comments.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ProgramHeader {
    /// The order's title.
    pub title: String,
    /// The plank, with its size.
    pub plank: String,
    /// Where the program's zero lies.
    pub zero: String,
    /// What it is corrected for, if the machine is not square and true.
    pub corrected: Option<String>,
}

impl ProgramHeader {
    /// A header for a program in plank coordinates.
    pub fn new(title: &str, plank: &str) -> ProgramHeader {
        ProgramHeader {
            title: title.to_owned(),
            plank: plank.to_owned(),
            zero: "x0 y0 at the plank's lower left corner seen from above, z0 on its face, face up"
                .to_owned(),
            corrected: None,
        }
    }

    /// The same for a program that is corrected for the machine.
    pub fn corrected_for(self, machine: Option<&Map>) -> ProgramHeader {
        ProgramHeader {
            corrected: machine.map(squareness::in_words),
            ..self
        }
    }
}

/// The cautions at the head of every program (common practice, no source).
const CAUTIONS: &str = "follow the machine's manual, wear eye and ear protection, keep hands, hair and sleeves clear, \
    clamp the plank and keep clamps out of the path, extract the dust, try the zero with the spindle off";

/// Why a program cannot be written.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum WriteError {
    /// No section, or one without motions.
    #[error("there is nothing to cut for {what}; leave the program out")]
    NothingToCut {
        /// The cutter, or the program.
        what: String,
    },
    /// The first motion is not a rapid.
    #[error(
        "the toolpath of cutter {cutter} does not begin with a rapid at clear height, so the cutter could start in the wood"
    )]
    StartsInTheWood {
        /// The cutter.
        cutter: String,
    },
    /// A place that is no place.
    #[error("motion {motion} of cutter {cutter} leads to a place that no machine can reach")]
    Place {
        /// The cutter.
        cutter: String,
        /// Number of the motion, from 1.
        motion: usize,
    },
    /// A feed that rounds to nothing, or is none.
    #[error(
        "motion {motion} of cutter {cutter} has a feed of {feed_mm_min} mm/min; set a feed that the machine can run"
    )]
    Feed {
        /// The cutter.
        cutter: String,
        /// Number of the motion, from 1.
        motion: usize,
        /// The feed.
        feed_mm_min: f64,
    },
    /// No spindle speed.
    #[error(
        "cutter {cutter} has a spindle speed of {rpm} turns a minute; set one that the spindle can run"
    )]
    Speed {
        /// The cutter.
        cutter: String,
        /// The speed.
        rpm: f64,
    },
}

/// Places farther out than this are no places on a router, mm.
const FARTHEST_MM: f64 = 10_000.0;

/// The highest line number before numbering starts again (NISTIR 6556 §3.3.1: five digits).
const LAST_LINE_NUMBER: u32 = 99_999;

/// Feeds above this are no feeds, mm/min.
const FASTEST_MM_MIN: f64 = 1e6;

/// Speeds above this are no speeds, turns a minute.
const FASTEST_RPM: f64 = 1e6;

/// Writes a program.
///
/// Coordinates are those of the toolpaths, rounded once to the dialect's decimals. Motions that rounding leaves without
/// length are left out.
///
/// # Errors
/// A toolpath that holds something no program can say; see [`WriteError`].
pub fn write(
    sections: &[Section<'_>],
    dialect: &Dialect,
    header: &ProgramHeader,
) -> Result<String, WriteError> {
    let mut writer = Writer::new(dialect);
    let Some(first) = sections.first() else {
        return Err(WriteError::NothingToCut {
            what: header.plank.clone(),
        });
    };
    writer.header(header, first.cutter);
    for line in dialect.head {
        writer.line(line);
    }
    for (index, section) in sections.iter().enumerate() {
        if index > 0 {
            writer.pause(section.cutter);
        }
        writer.section(section)?;
    }
    for line in dialect.end {
        writer.line(line);
    }
    Ok(writer.out)
}

/// The text so far, and what is modal at its end.
struct Writer<'a> {
    dialect: &'a Dialect,
    grid: Grid,
    out: String,
    /// Where the program stands, in steps; `None` while it has not said.
    stand: [Option<i64>; 3],
    /// The feed last said, in steps of its last decimal.
    feed: Option<i64>,
    line_number: u32,
}

impl<'a> Writer<'a> {
    fn new(dialect: &'a Dialect) -> Writer<'a> {
        Writer {
            dialect,
            grid: Grid::new(dialect),
            out: String::new(),
            stand: [None; 3],
            feed: None,
            line_number: 0,
        }
    }

    fn header(&mut self, header: &ProgramHeader, cutter: &Cutter) {
        self.comment(&format!("Title: {}", header.title));
        self.comment(&format!("Plank: {}", header.plank));
        self.comment(&format!("Cutter: {}", describe(cutter)));
        self.comment(&format!("Zero: {}", header.zero));
        if let Some(corrected) = &header.corrected {
            self.comment(&format!(
                "Corrected for the squareness of the machine: {corrected}. Run it on that machine alone"
            ));
        }
        self.comment(&format!("Cautions: {CAUTIONS}"));
    }

    fn section(&mut self, section: &Section<'_>) -> Result<(), WriteError> {
        let cutter = section.cutter;
        let motions = &section.toolpath.motions;
        let Some(first) = motions.first() else {
            return Err(WriteError::NothingToCut {
                what: cutter.id.clone(),
            });
        };
        if !matches!(first.course, Course::Rapid) {
            return Err(WriteError::StartsInTheWood {
                cutter: cutter.id.clone(),
            });
        }
        check_places(cutter, motions)?;
        let clear = self.grid.step(first.to.z);
        self.rise(clear);
        self.start_spindle(cutter)?;
        let mut from = first.to;
        for (index, motion) in motions.iter().enumerate() {
            self.motion(from, motion)
                .map_err(|feed_mm_min| WriteError::Feed {
                    cutter: cutter.id.clone(),
                    motion: index + 1,
                    feed_mm_min,
                })?;
            from = motion.to;
        }
        if self.stand[2].is_none_or(|z| z < clear) {
            self.rise(clear);
        }
        Ok(())
    }

    /// Goes up, whether or not the program believes the cutter to be there already.
    fn rise(&mut self, clear: i64) {
        self.begin_line();
        self.out.push_str("G0");
        self.axis('Z', clear);
        self.end_line();
        self.stand[2] = Some(clear);
        self.feed = None;
    }

    fn start_spindle(&mut self, cutter: &Cutter) -> Result<(), WriteError> {
        let rpm = cutter.spindle_rpm;
        let wanted = rpm.round();
        if !(1.0..=FASTEST_RPM).contains(&wanted) {
            return Err(WriteError::Speed {
                cutter: cutter.id.clone(),
                rpm,
            });
        }
        self.begin_line();
        self.out.push_str("M3 S");
        spell(&mut self.out, wanted as i64, 0);
        self.end_line();
        let dwell = (self.dialect.spin_up_s * 10.0).ceil();
        if dwell > 0.0 {
            self.begin_line();
            self.out.push_str("G4 P");
            spell(&mut self.out, dwell as i64, 1);
            self.end_line();
        }
        Ok(())
    }

    /// Stops spindle and program for a change of cutter. The section before has ended risen.
    fn pause(&mut self, next: &Cutter) {
        let comments = comment::lines(&format!(
            "Change the cutter to {}, set z0 on the face again, then go on",
            describe(next)
        ));
        let last = self.dialect.pause.len().saturating_sub(1);
        for (index, line) in self.dialect.pause.iter().enumerate() {
            self.begin_line();
            self.out.push_str(line);
            if index == last && self.dialect.comments == Comments::Parentheses {
                for text in comments.iter().take(1) {
                    self.out.push_str(" (");
                    self.out.push_str(text);
                    self.out.push(')');
                }
            }
            self.end_line();
        }
        self.stand = [None; 3];
        self.feed = None;
    }

    /// Writes one motion; the error is its feed.
    fn motion(&mut self, from: Place3, motion: &Motion) -> Result<(), f64> {
        match motion.course {
            Course::Rapid => {
                self.rapid(self.grid.place(motion.to));
                Ok(())
            }
            Course::Line { feed_mm_min } => {
                let feed = self.feed_steps(feed_mm_min)?;
                self.line_to(self.grid.place(motion.to), feed);
                Ok(())
            }
            Course::Arc {
                centre,
                turn,
                feed_mm_min,
            } => {
                let feed = self.feed_steps(feed_mm_min)?;
                self.arc(from, motion.to, centre, turn, feed);
                Ok(())
            }
        }
    }

    fn rapid(&mut self, to: [i64; 3]) {
        let rises = self.stand[2].is_none_or(|z| to[2] > z);
        if rises {
            self.rapid_along([None, None, Some(to[2])]);
        }
        self.rapid_along([Some(to[0]), Some(to[1]), None]);
        if !rises {
            self.rapid_along([None, None, Some(to[2])]);
        }
    }

    /// A rapid along the axes named, if it has any length.
    fn rapid_along(&mut self, to: [Option<i64>; 3]) {
        let moves = |axis: usize| to[axis].is_some() && to[axis] != self.stand[axis];
        if !(0..3).any(moves) {
            return;
        }
        self.begin_line();
        self.out.push_str("G0");
        self.axes(to);
        self.end_line();
        self.feed = None;
    }

    fn line_to(&mut self, to: [i64; 3], feed: i64) {
        if self.stand == to.map(Some) {
            return;
        }
        self.begin_line();
        self.out.push_str("G1");
        self.axes(to.map(Some));
        self.feed_word(feed);
        self.end_line();
    }

    fn arc(&mut self, from: Place3, to: Place3, centre: Point, turn: Turn, feed: i64) {
        let meant = Meant {
            from,
            to,
            centre,
            turn,
        };
        let (grid, arcs) = (self.grid, self.dialect.arcs);
        let start = grid.place(from);
        meant.pieces(grid, arcs, start, |piece| match piece {
            Piece::Line(to) => self.line_to(to, feed),
            Piece::Arc { to, offset, turn } => self.arc_to(to, offset, turn, feed),
        });
    }

    /// X, Y, I and J are always said: leaving one out is legal, but not every controller takes it well.
    fn arc_to(&mut self, to: [i64; 3], offset: [i64; 2], turn: Turn, feed: i64) {
        self.begin_line();
        self.out.push_str(match turn {
            Turn::Left => "G3",
            Turn::Right => "G2",
        });
        self.axis('X', to[0]);
        self.axis('Y', to[1]);
        if self.stand[2] != Some(to[2]) {
            self.axis('Z', to[2]);
        }
        self.axis('I', offset[0]);
        self.axis('J', offset[1]);
        self.stand = to.map(Some);
        self.feed_word(feed);
        self.end_line();
    }

    /// Says the axes that change, and stands there.
    fn axes(&mut self, to: [Option<i64>; 3]) {
        for (axis, letter) in ['X', 'Y', 'Z'].into_iter().enumerate() {
            if let Some(steps) = to[axis]
                && self.stand[axis] != Some(steps)
            {
                self.axis(letter, steps);
                self.stand[axis] = Some(steps);
            }
        }
    }

    fn axis(&mut self, letter: char, steps: i64) {
        self.out.push(' ');
        self.out.push(letter);
        self.grid.spell(&mut self.out, steps);
    }

    /// A feed in steps of its last decimal, rounded down; the error is the feed itself.
    fn feed_steps(&self, feed_mm_min: f64) -> Result<i64, f64> {
        /// Keeps a whole number whole that floating point has brought a little below itself.
        const NEARLY_WHOLE: f64 = 1e-6;
        if !(0.0..=FASTEST_MM_MIN).contains(&feed_mm_min) {
            return Err(feed_mm_min);
        }
        let steps_per_unit = 10_f64.powi(i32::from(self.dialect.feed_decimals));
        let steps = feed_mm_min / self.dialect.unit.in_mm() * steps_per_unit + NEARLY_WHOLE;
        if steps < 1.0 {
            return Err(feed_mm_min);
        }
        Ok(steps.floor() as i64)
    }

    fn feed_word(&mut self, feed: i64) {
        if self.feed != Some(feed) {
            self.out.push_str(" F");
            spell(&mut self.out, feed, self.dialect.feed_decimals);
            self.feed = Some(feed);
        }
    }

    fn comment(&mut self, text: &str) {
        if self.dialect.comments == Comments::Omitted {
            return;
        }
        for line in comment::lines(text) {
            self.begin_line();
            self.out.push('(');
            self.out.push_str(&line);
            self.out.push(')');
            self.end_line();
        }
    }

    fn line(&mut self, text: &str) {
        self.begin_line();
        self.out.push_str(text);
        self.end_line();
    }

    fn begin_line(&mut self) {
        if let Some(step) = self.dialect.line_numbers {
            self.line_number += step;
            if self.line_number > LAST_LINE_NUMBER {
                self.line_number = step;
            }
            self.out.push('N');
            spell(&mut self.out, i64::from(self.line_number), 0);
            self.out.push(' ');
        }
    }

    fn end_line(&mut self) {
        self.out.push('\n');
    }
}

/// Refuses places that cannot be written.
fn check_places(cutter: &Cutter, motions: &[Motion]) -> Result<(), WriteError> {
    let within = |value: f64| value.abs() <= FARTHEST_MM;
    let reachable = |motion: &Motion| {
        let centre = match motion.course {
            Course::Rapid | Course::Line { .. } => true,
            Course::Arc { centre, .. } => centre.is_finite(),
        };
        centre && within(motion.to.xy.x) && within(motion.to.xy.y) && within(motion.to.z)
    };
    match motions.iter().position(|motion| !reachable(motion)) {
        Some(index) => Err(WriteError::Place {
            cutter: cutter.id.clone(),
            motion: index + 1,
        }),
        None => Ok(()),
    }
}

/// A cutter in a few words, sizes in millimetres.
fn describe(cutter: &Cutter) -> String {
    let shape = match cutter.shape {
        CutterShape::Flat => "flat end",
        CutterShape::Ball => "ball end",
        CutterShape::Conical { .. } => "conical",
    };
    format!(
        "{}, {shape}, {:.3} mm, {:.0} turns a minute",
        cutter.id,
        cutter.diameter.in_mm(),
        cutter.spindle_rpm
    )
}
