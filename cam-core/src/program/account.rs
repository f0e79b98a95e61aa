//! What a program would do, in figures: for programs that come without a job file, whoever wrote them.

use std::collections::BTreeSet;
use std::f64::consts::{FRAC_PI_2, TAU};

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use reader::{ReadCourse, ReadMotion, Replay, Spindle};

use crate::toolpath::duration::duration;
use crate::workshop::Machine;

/// The most remarks of one kind: the first tell enough.
const MOST_REMARKS: usize = 5;

/// The least and the most of something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
}

impl Range {
    /// The range that holds another value as well.
    fn with(range: Option<Range>, value: f64) -> Option<Range> {
        let found = range.unwrap_or(Range {
            least: value,
            most: value,
        });
        Some(Range {
            least: found.least.min(value),
            most: found.most.max(value),
        })
    }
}

/// What a program would do. Lengths are mm in the program's own work coordinates.
#[derive(Clone, Debug, PartialEq)]
pub struct Account {
    /// Where it goes in x, y and z, rapids included; `None` for an axis that it never names.
    pub extent: [Option<Range>; 3],
    /// The heights at which it ends its feed motions; the least is the deepest. `None` if it never cuts.
    pub cut_heights: Option<Range>,
    /// The feeds it cuts with, mm/min.
    pub feeds: Option<Range>,
    /// The spindle speeds during its feed motions, turns a minute; `None` if the spindle never turns.
    pub speeds: Option<Range>,
    /// The slots of its cutters, in the order of first use; 0 where a program changes to none.
    pub cutters: Vec<u32>,
    /// Length of its feed motions, mm.
    pub cut_mm: f64,
    /// Length of its rapid motions whose start it tells, mm.
    pub rapid_mm: f64,
    /// Time on the machine, s, without pauses and the changing of cutters.
    pub seconds: f64,
    /// How often it waits for a person.
    pub pauses: usize,
    /// Whether it says in which unit its lengths are.
    pub units_stated: bool,
    /// What deserves a second look, each with its line.
    pub remarks: Vec<Remark>,
}

/// Something in a program that deserves a second look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, thiserror::Error)]
pub enum Remark {
    /// A cut without the spindle.
    #[error("line {0}: a feed motion while the spindle stands still")]
    StandingSpindle(usize),
    /// A cut with the spindle the other way round.
    #[error("line {0}: a feed motion while the spindle turns counter-clockwise")]
    WrongWay(usize),
    /// A rapid to a height below 0.
    #[error("line {0}: a rapid motion ends below height 0")]
    LowRapid(usize),
    /// A line that a switch skips.
    #[error("line {0}: the optional-delete switch of the machine would skip it")]
    Optional(usize),
}

impl Account {
    /// The account of a program on a machine.
    pub fn of(replay: &Replay, machine: &Machine) -> Account {
        let mut account = Account {
            extent: [None; 3],
            cut_heights: None,
            feeds: None,
            speeds: None,
            cutters: Vec::new(),
            cut_mm: 0.0,
            rapid_mm: 0.0,
            seconds: duration(replay, machine),
            pauses: replay.pauses.len(),
            units_stated: replay.units_stated,
            remarks: Vec::new(),
        };
        let mut seen = BTreeSet::new();
        for change in &replay.tool_changes {
            if seen.insert(change.tool) {
                account.cutters.push(change.tool);
            }
        }
        for motion in &replay.motions {
            account.add(motion);
        }
        account.remarks = remarks(replay);
        account
    }

    fn add(&mut self, motion: &ReadMotion) {
        let started = motion.known;
        for (axis, known) in started.into_iter().enumerate() {
            let (from, to) = (of_axis(motion, axis, false), of_axis(motion, axis, true));
            if known {
                self.extent[axis] = Range::with(self.extent[axis], from);
            }
            // An axis that is not known yet and does not move was not named.
            if known || from != to {
                self.extent[axis] = Range::with(self.extent[axis], to);
            }
        }
        for place in turning_points(motion) {
            self.extent[0] = Range::with(self.extent[0], place.x);
            self.extent[1] = Range::with(self.extent[1], place.y);
        }
        match motion.feed_mm_min() {
            None if started == [true; 3] => self.rapid_mm += motion.length_mm(),
            None => {}
            Some(feed) => {
                self.cut_mm += motion.length_mm();
                self.feeds = Range::with(self.feeds, feed);
                self.cut_heights = Range::with(self.cut_heights, motion.to.z);
                match motion.spindle {
                    Spindle::Off => {}
                    Spindle::Clockwise { rpm } | Spindle::Counterclockwise { rpm } => {
                        self.speeds = Range::with(self.speeds, rpm);
                    }
                }
            }
        }
    }
}

fn of_axis(motion: &ReadMotion, axis: usize, end: bool) -> f64 {
    let place = if end { motion.to } else { motion.from };
    match axis {
        0 => place.xy.x,
        1 => place.xy.y,
        _ => place.z,
    }
}

/// Where an arc turns back in x or y, between its ends.
fn turning_points(motion: &ReadMotion) -> impl Iterator<Item = Point> {
    let arc = match motion.course {
        ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        } => Some((centre, turn, sweep)),
        ReadCourse::Rapid | ReadCourse::Line { .. } => None,
    };
    let from = motion.from.xy;
    arc.into_iter().flat_map(move |(centre, turn, sweep)| {
        let arm = from - centre;
        (0..4_u8).filter_map(move |quarter| {
            let angle = f64::from(quarter) * FRAC_PI_2;
            let turned = match turn {
                Turn::Left => (angle - arm.angle()).rem_euclid(TAU),
                Turn::Right => (arm.angle() - angle).rem_euclid(TAU),
            };
            (turned <= sweep).then(|| centre + Vec2::from_angle(angle) * arm.hypot())
        })
    })
}

fn remarks(replay: &Replay) -> Vec<Remark> {
    let kind = |motion: &ReadMotion| match (motion.course, motion.spindle) {
        (ReadCourse::Rapid, _) if motion.known[2] && motion.to.z < 0.0 => {
            Some(Remark::LowRapid(motion.line))
        }
        (ReadCourse::Rapid, _) => None,
        (ReadCourse::Line { .. } | ReadCourse::Arc { .. }, Spindle::Off) => {
            Some(Remark::StandingSpindle(motion.line))
        }
        (ReadCourse::Line { .. } | ReadCourse::Arc { .. }, Spindle::Counterclockwise { .. }) => {
            Some(Remark::WrongWay(motion.line))
        }
        (ReadCourse::Line { .. } | ReadCourse::Arc { .. }, Spindle::Clockwise { .. }) => None,
    };
    let optional = replay.optional_lines.iter().copied().map(Remark::Optional);
    let mut found: Vec<Remark> = replay
        .motions
        .iter()
        .filter_map(kind)
        .chain(optional)
        .collect();
    found.sort();
    found.dedup();
    let mut kept: Vec<Remark> = Vec::new();
    for remark in found {
        let same =
            |other: &&Remark| std::mem::discriminant(*other) == std::mem::discriminant(&remark);
        if kept.iter().filter(same).count() < MOST_REMARKS {
            kept.push(remark);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::Workshop;
    use reader::read;

    fn account(text: &str) -> Account {
        Account::of(&read(text).unwrap(), &Workshop::starting().machine)
    }

    fn range(least: f64, most: f64) -> Option<Range> {
        Some(Range { least, most })
    }

    #[test]
    fn figures_of_a_slot_with_a_round_end() {
        let found = account(
            "G21 G90 T3 M6 S9000 M3\nG0 X0 Y0 Z5\nG1 Z-2 F100\nG1 X40 F900\n\
             G2 X40 Y-20 I0 J-10\nG1 X0\nG0 Z5\nM5\nM2\n",
        );
        let near = |found: Option<Range>, least: f64, most: f64| {
            let found = found.unwrap();
            assert!((found.least - least).abs() < 1e-9, "{found:?}");
            assert!((found.most - most).abs() < 1e-9, "{found:?}");
        };
        near(found.extent[0], 0.0, 50.0);
        near(found.extent[1], -20.0, 0.0);
        near(found.extent[2], -2.0, 5.0);
        assert_eq!(found.cut_heights, range(-2.0, -2.0));
        assert_eq!(found.feeds, range(100.0, 900.0));
        assert_eq!(found.speeds, range(9000.0, 9000.0));
        assert_eq!(found.cutters, [3]);
        let length = 7.0 + 40.0 + 10.0 * std::f64::consts::PI + 40.0;
        assert!((found.cut_mm - length).abs() < 1e-9, "{}", found.cut_mm);
        assert!(found.seconds > 60.0 * 7.0 / 100.0);
        assert!(found.units_stated && found.remarks.is_empty());
    }

    #[test]
    fn what_deserves_a_second_look_is_told_with_its_line() {
        let found = account("G0 X1 Y1 Z1\nG1 Z-1 F100\n/M4 S5000\nG1 X2\nG0 Z-0.5\nM2\n");
        assert_eq!(
            found.remarks,
            [
                Remark::StandingSpindle(2),
                Remark::WrongWay(4),
                Remark::LowRapid(5),
                Remark::Optional(3)
            ]
        );
        assert!(!found.units_stated);
        let many = format!("{}M2\n", "G1 X1 F9\n".repeat(40));
        assert_eq!(account(&many).remarks.len(), MOST_REMARKS);
    }

    #[test]
    fn a_program_that_does_nothing_has_no_figures() {
        let found = account("M2\n");
        assert_eq!(found.extent, [None; 3]);
        assert_eq!((found.cut_heights, found.feeds), (None, None));
        assert_eq!((found.cut_mm, found.seconds), (0.0, 0.0));
    }
}
