//! What a program would do, in figures: for programs that come without a job file, whoever wrote them.

use std::collections::BTreeSet;
use std::f64::consts::{FRAC_PI_2, TAU};

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use reader::{
    Compensation, CoolantWord, Datum, Doubt, Frame, ReadCourse, ReadMotion, Replay, Spindle,
};

use crate::toolpath::duration::duration;
use crate::workshop::Machine;

/// The most remarks of one kind: the first tell enough.
const MOST_REMARKS: usize = 5;

/// The most datums of one axis that extents are kept for: a hostile program may set a zero in every line.
const MOST_DATUMS: usize = 20;

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

/// A range and what its numbers are counted from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// What the numbers are counted from.
    pub datum: Datum,
    /// The range, mm.
    pub range: Range,
}

/// What a program would do. Lengths are mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Account {
    /// Where it goes in x, y and z, rapids included, for each datum in the order of first use; none for an axis that it never names.
    pub extents: [Vec<Extent>; 3],
    /// The heights at which it ends its feed motions; the least is the deepest. None if it never cuts.
    pub cut_heights: Vec<Extent>,
    /// The feeds it cuts with, mm/min.
    pub feeds: Option<Range>,
    /// The spindle speeds during its feed motions, turns a minute; `None` if the spindle never turns.
    pub speeds: Option<Range>,
    /// The slots of its cutters, in the order of first use; 0 where a program changes to none.
    pub cutters: Vec<u32>,
    /// The length offsets (H) that it moves under, in the order of first use.
    pub length_offsets: Vec<u8>,
    /// Where it switches cutter radius compensation on; the first few. All else told is then of the cutter's centre.
    pub compensations: Vec<Compensation>,
    /// How often it runs each cycle, in the order of first use.
    pub cycles: Vec<(&'static str, u64)>,
    /// The changes of zeros, with their lines; the first few.
    pub zero_changes: Vec<(&'static str, usize)>,
    /// Whether it turns mist on, and whether flood.
    pub coolant: [bool; 2],
    /// Length of its feed motions, mm.
    pub cut_mm: f64,
    /// Length of its rapid motions whose start it tells, mm.
    pub rapid_mm: f64,
    /// Time on the machine, s, without pauses and the changing of cutters.
    pub seconds: f64,
    /// How often it waits for a person.
    pub pauses: usize,
    /// What it says to the operator; the first few messages.
    pub messages: Vec<String>,
    /// Whether it says in which unit its lengths are.
    pub units_stated: bool,
    /// What could not be judged, each with its line; the first few.
    pub doubts: Vec<Doubt>,
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
    /// The knobs for feed and speed turned off.
    #[error("line {0}: from here on the knobs for feed and speed have no effect")]
    KnobsOff(usize),
    /// A line that a switch skips.
    #[error("line {0}: the optional-delete switch of the machine would skip it")]
    Optional(usize),
}

impl Account {
    /// The account of a program on a machine.
    pub fn of(replay: &Replay, machine: &Machine) -> Account {
        let few = MOST_REMARKS;
        let (messages, changes) = (replay.messages.iter(), replay.zero_changes.iter());
        let coolant = |wanted| replay.coolant.iter().any(|change| change.word == wanted);
        let mut account = Account {
            extents: [Vec::new(), Vec::new(), Vec::new()],
            cut_heights: Vec::new(),
            feeds: None,
            speeds: None,
            cutters: in_order(replay.tool_changes.iter().map(|change| change.tool)),
            length_offsets: in_order(replay.frames.iter().filter_map(|frame| frame.length_offset)),
            compensations: replay.compensations.iter().take(few).copied().collect(),
            cycles: Vec::new(),
            zero_changes: changes
                .take(few)
                .map(|change| (change.code, change.line))
                .collect(),
            coolant: [coolant(CoolantWord::Mist), coolant(CoolantWord::Flood)],
            cut_mm: 0.0,
            rapid_mm: 0.0,
            seconds: duration(replay, machine),
            pauses: replay.pauses.len(),
            messages: messages
                .take(few)
                .map(|message| message.text.clone())
                .collect(),
            units_stated: replay.units_stated,
            doubts: replay.doubts.iter().take(few).copied().collect(),
            remarks: remarks(replay),
        };
        for run in &replay.cycles {
            match account
                .cycles
                .iter_mut()
                .find(|(code, _)| *code == run.code)
            {
                Some((_, times)) => *times += u64::from(run.times),
                None => account.cycles.push((run.code, u64::from(run.times))),
            }
        }
        for (frame, motions) in replay.framed() {
            for motion in motions {
                account.add(frame, motion);
            }
        }
        account
    }

    /// What it counts from, in the order of first use.
    pub fn datums(&self) -> Vec<Datum> {
        in_order(self.extents.iter().flatten().map(|extent| extent.datum))
    }

    fn add(&mut self, frame: &Frame, motion: &ReadMotion) {
        let started = motion.known;
        for (axis, known) in started.into_iter().enumerate() {
            let datum = frame.datums[axis];
            let (from, to) = (of_axis(motion, axis, false), of_axis(motion, axis, true));
            if known {
                widen(&mut self.extents[axis], datum, from);
            }
            // An axis that the program has not told and that does not move was not named.
            if datum.is_told() || from != to {
                widen(&mut self.extents[axis], datum, to);
            }
        }
        for place in turning_points(motion) {
            widen(&mut self.extents[0], frame.datums[0], place.x);
            widen(&mut self.extents[1], frame.datums[1], place.y);
        }
        match motion.feed_mm_min() {
            None if started == [true; 3] => self.rapid_mm += motion.length_mm(),
            None => {}
            Some(feed) => {
                let length = motion.length_mm();
                self.cut_mm += length;
                // In inverse time a motion without length has a feed of 0.
                if length > 0.0 || feed > 0.0 {
                    self.feeds = Range::with(self.feeds, feed);
                }
                widen(&mut self.cut_heights, frame.datums[2], motion.to.z);
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

/// Widens the extent of a datum.
fn widen(extents: &mut Vec<Extent>, datum: Datum, value: f64) {
    let known = extents.iter().position(|extent| extent.datum == datum);
    let range = Range::with(known.map(|at| extents[at].range), value);
    match (known, range) {
        (Some(at), Some(range)) => extents[at].range = range,
        (None, Some(range)) if extents.len() < MOST_DATUMS => extents.push(Extent { datum, range }),
        (None | Some(_), None | Some(_)) => {}
    }
}

/// Each value once, in the order of first use.
fn in_order<T: Copy + Ord>(values: impl Iterator<Item = T>) -> Vec<T> {
    let mut seen = BTreeSet::new();
    values.filter(|value| seen.insert(*value)).collect()
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
    let of_motion = |frame: &Frame, motion: &ReadMotion| match (motion.course, motion.spindle) {
        (ReadCourse::Rapid, _) => {
            let from_work = matches!(frame.datums[2], Datum::Work(_) | Datum::Kept(_));
            (from_work && motion.known[2] && motion.to.z < 0.0)
                .then_some(Remark::LowRapid(motion.line))
        }
        (ReadCourse::Line { .. } | ReadCourse::Arc { .. }, Spindle::Off) => {
            Some(Remark::StandingSpindle(motion.line))
        }
        (ReadCourse::Line { .. } | ReadCourse::Arc { .. }, Spindle::Counterclockwise { .. }) => {
            Some(Remark::WrongWay(motion.line))
        }
        (ReadCourse::Line { .. } | ReadCourse::Arc { .. }, Spindle::Clockwise { .. }) => None,
    };
    let optional = replay.optional_lines.iter().copied().map(Remark::Optional);
    let knobs = replay.knobs_off.iter().copied().map(Remark::KnobsOff);
    let motions = replay.framed().flat_map(|(frame, motions)| {
        let of_motion = &of_motion;
        motions
            .iter()
            .filter_map(move |motion| of_motion(frame, motion))
    });
    let mut found: Vec<Remark> = motions.chain(knobs).chain(optional).collect();
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
    use reader::{CutterTable, read, read_with};

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
        let near = |found: &[Extent], least: f64, most: f64| {
            assert_eq!(found.len(), 1);
            assert_eq!(found[0].datum, Datum::Work(1));
            let found = found[0].range;
            assert!((found.least - least).abs() < 1e-9, "{found:?}");
            assert!((found.most - most).abs() < 1e-9, "{found:?}");
        };
        near(&found.extents[0], 0.0, 50.0);
        near(&found.extents[1], -20.0, 0.0);
        near(&found.extents[2], -2.0, 5.0);
        near(&found.cut_heights, -2.0, -2.0);
        assert_eq!(found.feeds, range(100.0, 900.0));
        assert_eq!(found.speeds, range(9000.0, 9000.0));
        assert_eq!(found.cutters, [3]);
        let length = 7.0 + 40.0 + 10.0 * std::f64::consts::PI + 40.0;
        assert!((found.cut_mm - length).abs() < 1e-9, "{}", found.cut_mm);
        assert!(found.seconds > 60.0 * 7.0 / 100.0);
        assert!(found.units_stated && found.remarks.is_empty());
    }

    #[test]
    fn under_compensation_the_cutters_centre_is_told() {
        // Round a disc of 5 mm, 3 mm beside it.
        let mut cutters = CutterTable::default();
        cutters.tell(2, 6.0).unwrap();
        let text = "G21 F100 G0 X-8 Y-4\nG41 D2 G1 X-5 Y0\nG2 X-5 Y0 I5\nM2\n";
        let replay = read_with(text, &cutters).unwrap();
        let found = Account::of(&replay, &Workshop::starting().machine);
        let across = found.extents[0][0].range;
        assert!((across.least + 8.0).abs() < 1e-9 && (across.most - 8.0).abs() < 1e-9);
        let on: Vec<(u32, usize)> = found
            .compensations
            .iter()
            .map(|on| (on.slot, on.line))
            .collect();
        assert_eq!(on, [(2, 2)]);
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
        assert_eq!(found.extents, [const { Vec::new() }; 3]);
        assert_eq!((found.cut_heights, found.feeds), (Vec::new(), None));
        assert_eq!((found.cut_mm, found.seconds), (0.0, 0.0));
    }

    #[test]
    fn each_zero_has_its_own_extent_and_what_moves_zeros_is_told() {
        let found = account(
            "G21 G90 G99 F60 S900 M3 M8\nG0 X0 Y0 Z5\nG81 X10 Z-2 R1 L3\nX20\nG80\nG55 G0 X-4 Z3\n\
             G53 G0 Z-1\nG92 Z0 (MSG, in the chuck)\nG43 H3 G0 Z2\nM49\nG38.2 Z-6\nM2\n",
        );
        let spans = |axis: usize| -> Vec<(Datum, f64, f64)> {
            let extents = found.extents[axis].iter();
            extents
                .map(|extent| (extent.datum, extent.range.least, extent.range.most))
                .collect()
        };
        assert_eq!(
            spans(0),
            [(Datum::Work(1), 0.0, 20.0), (Datum::Work(2), -4.0, -4.0)]
        );
        assert_eq!(
            spans(2),
            [
                (Datum::Work(1), -2.0, 5.0),
                (Datum::Work(2), 3.0, 3.0),
                (Datum::Machine, -7.0, 1.0)
            ]
        );
        assert_eq!(found.cycles, [("G81", 4)]);
        assert_eq!(found.length_offsets, [3]);
        assert_eq!(found.zero_changes, [("G92", 8)]);
        assert_eq!(found.coolant, [false, true]);
        assert_eq!(found.messages, ["in the chuck"]);
        assert_eq!(found.doubts.len(), 1);
        // A machine's own heights are below 0 everywhere: no rapid is low for that.
        assert_eq!(found.remarks, [Remark::KnobsOff(10)]);
        assert_eq!(
            found.datums(),
            [Datum::Work(1), Datum::Work(2), Datum::Machine]
        );
    }
}
