//! The drilling and boring cycles, written out as the motions that they make.
//!
//! Words in this file are for the XY plane; in the other planes the axis normal to the plane takes the place of Z.
//!
//! # Source
//! NISTIR 6556 (2000) §3.5.16 (the steps of each cycle and their errors, from memory), and its reference interpreter.

use super::{Controller, not_negative, whole_up_to};
use crate::block::{AXIS_LETTERS, Block, Located, OFFSET_LETTERS};
use crate::codes::{Cycle, ReturnLevel, SpindleWord};
use crate::datum::Coordinate;
use crate::fault::Fault;
use crate::replay::{CycleRun, DoubtKind, PathControl, PauseKind, ReadCourse};
use crate::{MOST_PECKS, MOST_REPEATS};

/// How far above the last bottom a peck goes over from rapid to feed, mm (the reference interpreter: 0.010 inch).
const PECK_CLEARANCE_MM: f64 = 0.254;

/// The words that a cycle keeps for the lines after it, in the program's units.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sticky {
    cycle: Cycle,
    bottom: f64,
    r: f64,
    seconds: f64,
    peck: f64,
    /// I, J and K of G87.
    offsets: [f64; 3],
}

/// One cycle with all that it needs, mm.
struct Plan {
    cycle: Cycle,
    axes: [usize; 3],
    /// What heights are counted from.
    height: Coordinate,
    r: f64,
    bottom: f64,
    /// Where it stands when it begins, R or above.
    start: f64,
    /// Where it rises to.
    clear: f64,
    seconds: f64,
    peck: f64,
    /// How far G87 steps aside, along the axes of the plane.
    aside: [f64; 2],
    /// How far G87 bores up.
    up_to: f64,
    feed: ReadCourse,
    line: usize,
    at: usize,
}

impl Controller {
    /// Runs a cycle as often as the line asks.
    pub(super) fn cycle(
        &mut self,
        cycle: Cycle,
        block: &Block,
        line: usize,
        at: usize,
    ) -> Located<()> {
        if self.inverse_time {
            return Err((at, Fault::NotInInverseTime(cycle.name())));
        }
        self.check_spindle(cycle, at)?;
        let times = times(block)?;
        let words = self.sticky_words(cycle, block, at)?;
        let plan = self.plan(&words, line, at)?;
        self.sticky = Some(words);
        self.replay.cycles.push(CycleRun {
            code: cycle.name(),
            first: self.replay.motions.len(),
            times,
            line,
        });
        let control = self.path_control;
        // The reference interpreter follows the path exactly in cycles.
        if control == PathControl::Continuous {
            self.path_control = PathControl::ExactPath;
        }
        let done = self.run(&plan, block, times);
        self.path_control = control;
        done
    }

    fn check_spindle(&self, cycle: Cycle, at: usize) -> Located<()> {
        let needs = |what| Err((at, Fault::CycleNeedsSpindle(cycle.name(), what)));
        match (cycle, self.turning) {
            (Cycle::Tap, SpindleWord::Counterclockwise | SpindleWord::Stop) => needs("M3"),
            (
                Cycle::BoreStopRapidOut | Cycle::BackBore | Cycle::BoreByHandOut,
                SpindleWord::Stop,
            ) => needs("M3 or M4"),
            _ => Ok(()),
        }
    }

    /// The cycle's words, those that the line leaves out taken from the line before if that ran the same cycle.
    fn sticky_words(&self, cycle: Cycle, block: &Block, at: usize) -> Located<Sticky> {
        let kept = self.sticky.filter(|sticky| sticky.cycle == cycle);
        let word = |letter: u8, kept: Option<f64>| {
            block.word(letter).or(kept).ok_or((
                at,
                Fault::CycleWithout {
                    code: cycle.name(),
                    letter: char::from(letter),
                },
            ))
        };
        let [_, _, normal] = self.plane.axes();
        let mut words = Sticky {
            cycle,
            bottom: word(AXIS_LETTERS[normal], kept.map(|sticky| sticky.bottom))?,
            r: word(b'R', kept.map(|sticky| sticky.r))?,
            seconds: 0.0,
            peck: 0.0,
            offsets: [0.0; 3],
        };
        if cycle.dwells() {
            words.seconds = word(b'P', kept.map(|sticky| sticky.seconds))?;
            not_negative(block, b'P')?;
        }
        if cycle == Cycle::Peck {
            words.peck = word(b'Q', kept.map(|sticky| sticky.peck))?;
            if words.peck <= 0.0 {
                return Err((block.place(b'Q'), Fault::NotPositive('Q')));
            }
        }
        if cycle == Cycle::BackBore {
            for (axis, letter) in OFFSET_LETTERS.into_iter().enumerate() {
                words.offsets[axis] = word(letter, kept.map(|sticky| sticky.offsets[axis]))?;
            }
        }
        Ok(words)
    }

    /// Places the levels of a cycle.
    fn plan(&mut self, words: &Sticky, line: usize, at: usize) -> Located<Plan> {
        let axes @ [first, second, normal] = self.plane.axes();
        let (unit, height) = (self.unit.mm, self.position[normal]);
        let zero = self.zeros.zero(normal);
        if !self.incremental && height.datum != zero.datum {
            return Err((at, Fault::CycleFromUntold));
        }
        let (r, bottom) = if self.incremental {
            let r = height.mm + words.r * unit;
            (r, r + words.bottom * unit)
        } else {
            (zero.mm + words.r * unit, zero.mm + words.bottom * unit)
        };
        if r < bottom {
            let of_zero = |level: f64| (level - zero.mm) / unit;
            return Err((
                at,
                Fault::CycleUpsideDown {
                    code: words.cycle.name(),
                    r: of_zero(r),
                    bottom: of_zero(bottom),
                },
            ));
        }
        let start = height.mm.max(r);
        let clear = match self.return_level {
            Some(ReturnLevel::R) => r,
            Some(ReturnLevel::Start) => start,
            None => {
                if start > r {
                    self.doubt(DoubtKind::ReturnLevel, line);
                }
                start
            }
        };
        let above = words.offsets[normal] * unit;
        let up_to = if self.incremental {
            bottom + above
        } else {
            zero.mm + above
        };
        if words.cycle == Cycle::BackBore && !(bottom..=r).contains(&up_to) {
            return Err((at, Fault::BackBoreLevel));
        }
        Ok(Plan {
            cycle: words.cycle,
            axes,
            height,
            r,
            bottom,
            start,
            clear,
            seconds: words.seconds,
            peck: words.peck * unit,
            aside: [first, second].map(|axis| words.offsets[axis] * unit),
            up_to,
            feed: ReadCourse::Line {
                feed_mm_min: self.cutting_feed(at)?,
            },
            line,
            at,
        })
    }

    /// Runs the cycle at each of its places.
    fn run(&mut self, plan: &Plan, block: &Block, times: u32) -> Located<()> {
        let [first, second, normal] = plan.axes;
        if plan.start > plan.height.mm {
            self.rise(plan, plan.start, ReadCourse::Rapid)?;
        }
        let mut level = plan.start;
        for _ in 0..times {
            // In incremental distances each turn goes on from the last; in absolute ones all are at the same place.
            let mut to = self.destination(block);
            to[normal] = Coordinate {
                mm: level,
                ..plan.height
            };
            self.go(to, ReadCourse::Rapid, plan.line, plan.at)?;
            if level != plan.r {
                self.rise(plan, plan.r, ReadCourse::Rapid)?;
            }
            match plan.cycle {
                Cycle::Drill => {
                    self.rise(plan, plan.bottom, plan.feed)?;
                    self.rise(plan, plan.clear, ReadCourse::Rapid)?;
                }
                Cycle::DrillAndDwell => {
                    self.rise(plan, plan.bottom, plan.feed)?;
                    self.wait(plan.seconds, plan.line);
                    self.rise(plan, plan.clear, ReadCourse::Rapid)?;
                }
                Cycle::Peck => self.peck(plan)?,
                Cycle::Tap => {
                    self.rise(plan, plan.bottom, plan.feed)?;
                    self.turning = SpindleWord::Counterclockwise;
                    self.rise(plan, plan.clear, plan.feed)?;
                    self.turning = SpindleWord::Clockwise;
                }
                Cycle::BoreFeedOut => {
                    self.rise(plan, plan.bottom, plan.feed)?;
                    self.rise(plan, plan.clear, plan.feed)?;
                }
                Cycle::BoreStopRapidOut => {
                    self.rise(plan, plan.bottom, plan.feed)?;
                    self.wait(plan.seconds, plan.line);
                    let turning = std::mem::replace(&mut self.turning, SpindleWord::Stop);
                    self.rise(plan, plan.clear, ReadCourse::Rapid)?;
                    self.turning = turning;
                }
                Cycle::BackBore => self.back_bore(plan, [first, second])?,
                Cycle::BoreByHandOut => self.bore_by_hand_out(plan)?,
                Cycle::BoreDwellFeedOut => {
                    self.rise(plan, plan.bottom, plan.feed)?;
                    self.wait(plan.seconds, plan.line);
                    self.rise(plan, plan.clear, plan.feed)?;
                }
            }
            level = plan.clear;
        }
        Ok(())
    }

    /// Moves up or down to a level.
    fn rise(&mut self, plan: &Plan, level: f64, course: ReadCourse) -> Located<()> {
        let mut to = self.position;
        to[plan.axes[2]].mm = level;
        self.go(to, course, plan.line, plan.at)
    }

    /// G83: down by Q, out to R to clear the chips, back to just above, and on.
    fn peck(&mut self, plan: &Plan) -> Located<()> {
        if (plan.r - plan.bottom) / plan.peck > f64::from(MOST_PECKS) {
            return Err((plan.at, Fault::TooManyPecks));
        }
        let mut depth = plan.r - plan.peck;
        // Bounded by the number of pecks checked above.
        while depth > plan.bottom {
            self.rise(plan, depth, plan.feed)?;
            self.rise(plan, plan.r, ReadCourse::Rapid)?;
            self.rise(plan, depth + PECK_CLEARANCE_MM, ReadCourse::Rapid)?;
            depth -= plan.peck;
        }
        self.rise(plan, plan.bottom, plan.feed)?;
        self.rise(plan, plan.clear, ReadCourse::Rapid)
    }

    /// G87: through the hole with the spindle stopped, and boring upwards from below.
    fn back_bore(&mut self, plan: &Plan, axes: [usize; 2]) -> Located<()> {
        let turning = self.turning;
        self.step_aside(plan, axes, 1.0)?;
        self.turning = SpindleWord::Stop;
        self.rise(plan, plan.bottom, ReadCourse::Rapid)?;
        self.step_aside(plan, axes, -1.0)?;
        self.turning = turning;
        self.rise(plan, plan.up_to, plan.feed)?;
        self.rise(plan, plan.bottom, plan.feed)?;
        self.turning = SpindleWord::Stop;
        self.step_aside(plan, axes, 1.0)?;
        self.rise(plan, plan.clear, ReadCourse::Rapid)?;
        self.step_aside(plan, axes, -1.0)?;
        self.turning = turning;
        Ok(())
    }

    /// Steps by I and J, or back.
    fn step_aside(&mut self, plan: &Plan, axes: [usize; 2], sign: f64) -> Located<()> {
        let mut to = self.position;
        for (axis, aside) in axes.into_iter().zip(plan.aside) {
            to[axis].mm += sign * aside;
        }
        self.go(to, ReadCourse::Rapid, plan.line, plan.at)
    }

    /// G88: down, and out by the hand of a person while the program pauses.
    fn bore_by_hand_out(&mut self, plan: &Plan) -> Located<()> {
        self.rise(plan, plan.bottom, plan.feed)?;
        self.wait(plan.seconds, plan.line);
        let turning = std::mem::replace(&mut self.turning, SpindleWord::Stop);
        self.pause(PauseKind::Always, String::new(), plan.line);
        self.doubt(DoubtKind::DrawnByHand, plan.line);
        self.turning = turning;
        self.position[plan.axes[2]].mm = plan.clear;
        Ok(())
    }
}

/// How often the line runs its cycle.
fn times(block: &Block) -> Located<u32> {
    if block.word(b'L').is_none() {
        return Ok(1);
    }
    match whole_up_to(block, b'L', MOST_REPEATS)? {
        0 => Err((
            block.place(b'L'),
            Fault::BelowLimit {
                letter: 'L',
                least: 1,
            },
        )),
        times => Ok(times),
    }
}
