//! Where the zeros of the work coordinates lie: G10, G54 to G59.3, G92 to G92.3, and the reference points of G28 and G30.
//!
//! # Source
//! NISTIR 6556 (2000) §3.5.5, §3.5.8, §3.5.13, §3.5.18 (numbers of sections from memory).

use super::Controller;
use crate::block::{Block, Located};
use crate::codes::{Action, Group, Mode, Zeros};
use crate::datum::{Coordinate, Datum};
use crate::fault::Fault;
use crate::lexer::whole;
use crate::replay::{ReadCourse, ZeroChange};

/// The number of work coordinate systems.
const SYSTEMS: usize = 9;

/// The zeros of work coordinates.
pub(super) struct WorkZeros {
    /// The system in force, 0 for G54.
    active: usize,
    /// Zeros that the program has set by G10, in the machine's coordinates; `None` where the machine's own holds.
    set: [[Option<f64>; 3]; SYSTEMS],
    /// How far G92 moves zero from the system's; `None` if only the machine knows.
    shift: [Option<f64>; 3],
    /// What G92.3 brings back.
    kept: [Option<f64>; 3],
    /// The zeros in force.
    zeros: [Coordinate; 3],
}

impl WorkZeros {
    /// G54 as the machine keeps it, without a shift.
    pub fn new() -> WorkZeros {
        WorkZeros {
            active: 0,
            set: [[None; 3]; SYSTEMS],
            shift: [Some(0.0); 3],
            kept: [None; 3],
            zeros: [Coordinate {
                datum: Datum::Work(1),
                mm: 0.0,
            }; 3],
        }
    }

    /// The zero of an axis.
    pub fn zero(&self, axis: usize) -> Coordinate {
        self.zeros[axis]
    }

    /// The zero of the active system on an axis, without the shift.
    fn unshifted(&self, axis: usize) -> Coordinate {
        match self.set[self.active][axis] {
            Some(mm) => Coordinate {
                datum: Datum::Machine,
                mm,
            },
            None => Coordinate {
                datum: Datum::Work(self.active as u8 + 1),
                mm: 0.0,
            },
        }
    }

    /// Takes the zero of an axis anew from its system and shift.
    fn renew(&mut self, axis: usize, line: u32) {
        self.zeros[axis] = match self.shift[axis] {
            Some(mm) => self.unshifted(axis).plus(mm),
            None => Coordinate {
                datum: Datum::Kept(line),
                mm: 0.0,
            },
        };
    }

    fn renew_all(&mut self, line: u32) {
        for axis in 0..3 {
            self.renew(axis, line);
        }
    }

    /// Makes another system the active one.
    fn select(&mut self, system: u8, line: u32) {
        let system = usize::from(system).saturating_sub(1).min(SYSTEMS - 1);
        if system != self.active {
            self.active = system;
            self.renew_all(line);
        }
    }
}

impl Controller {
    /// G54 to G59.3.
    pub(super) fn set_work_system(&mut self, block: &Block, line: usize) {
        if let Some(Action::WorkSystem(system)) = block.action(Group::WorkSystem) {
            self.zeros.select(system, line as u32);
        }
    }

    /// G10, G28, G30 and G92 to G92.3.
    pub(super) fn zeros(&mut self, block: &Block, line: usize) -> Located<()> {
        let Some((code, at)) = block.code(Group::OwnLine) else {
            return Ok(());
        };
        let Action::Zeros(zeros) = code.action else {
            return Ok(());
        };
        match zeros {
            Zeros::GoToFirstReference | Zeros::GoToSecondReference => {}
            Zeros::SetSystem
            | Zeros::SetShift
            | Zeros::ForgetShift
            | Zeros::SuspendShift
            | Zeros::RestoreShift => self.replay.zero_changes.push(ZeroChange {
                before: self.replay.motions.len(),
                code: code.name,
                line,
            }),
        }
        match zeros {
            Zeros::SetSystem => self.set_system(block, at, line),
            Zeros::GoToFirstReference => self.go_to(Datum::FirstReference, block, line, at),
            Zeros::GoToSecondReference => self.go_to(Datum::SecondReference, block, line, at),
            Zeros::SetShift => self.set_shift(block, at, line),
            Zeros::ForgetShift => {
                self.zeros.shift = [Some(0.0); 3];
                self.zeros.kept = [Some(0.0); 3];
                self.zeros.renew_all(line as u32);
                Ok(())
            }
            Zeros::SuspendShift => {
                self.zeros.shift = [Some(0.0); 3];
                self.zeros.renew_all(line as u32);
                Ok(())
            }
            Zeros::RestoreShift => {
                self.zeros.shift = self.zeros.kept;
                self.zeros.renew_all(line as u32);
                Ok(())
            }
        }
    }

    /// G10 L2: sets the zero of a system in the machine's coordinates.
    fn set_system(&mut self, block: &Block, at: usize, line: usize) -> Located<()> {
        match block.word(b'L') {
            Some(kind) if whole(b'L', kind) == Ok(2) => {}
            Some(_) => return Err((block.place(b'L'), Fault::SettingKind)),
            None => return Err((at, Fault::SettingKind)),
        }
        let Some(system) = block.word(b'P') else {
            return Err((at, Fault::SettingWithoutSystem));
        };
        let system = match whole(b'P', system) {
            Ok(system @ 1..=9) => system as usize - 1,
            Ok(_) | Err(_) => return Err((block.place(b'P'), Fault::SettingWithoutSystem)),
        };
        for axis in 0..3 {
            if let Some(value) = block.axis(axis) {
                self.zeros.set[system][axis] = Some(value * self.unit.mm);
                if system == self.zeros.active {
                    self.zeros.renew(axis, line as u32);
                }
            }
        }
        Ok(())
    }

    /// G92: shifts zero so that the place where the machine stands has the coordinates given.
    fn set_shift(&mut self, block: &Block, at: usize, line: usize) -> Located<()> {
        if !block.has_axes() {
            return Err((at, Fault::MotionWithoutAxes("G92")));
        }
        for axis in 0..3 {
            let Some(value) = block.axis(axis) else {
                continue;
            };
            if !self.position[axis].datum.is_told() {
                self.position[axis] = Coordinate {
                    datum: Datum::Kept(line as u32),
                    mm: 0.0,
                };
            }
            let zero = self.position[axis].plus(-value * self.unit.mm);
            let system = self.zeros.unshifted(axis);
            self.zeros.shift[axis] = (zero.datum == system.datum).then_some(zero.mm - system.mm);
            self.zeros.zeros[axis] = zero;
        }
        self.zeros.kept = self.zeros.shift;
        Ok(())
    }

    /// G28 and G30: rapidly to the place given, if one is, and from there, on all axes, to the reference point.
    fn go_to(&mut self, datum: Datum, block: &Block, line: usize, at: usize) -> Located<()> {
        if block.has_axes() {
            self.go(self.destination(block), ReadCourse::Rapid, line, at)?;
        }
        let reference = [Coordinate { datum, mm: 0.0 }; 3];
        self.go(reference, ReadCourse::Rapid, line, at)
    }

    /// The code, if any, that takes the axis words of the line away from the motion.
    pub(super) fn takes_axes(block: &Block) -> Option<&'static str> {
        let (code, _) = block.code(Group::OwnLine)?;
        match code.action {
            Action::Zeros(zeros) if zeros.takes_axes() => Some(code.name),
            _ => None,
        }
    }

    /// Refuses two codes that both want the axis words.
    pub(super) fn refuse_two_users_of_axes(block: &Block) -> Located<()> {
        let (Some(first), Some((code, at))) =
            (Controller::takes_axes(block), block.code(Group::Motion))
        else {
            return Ok(());
        };
        match code.action {
            Action::Motion(Mode::None) => Ok(()),
            _ => Err((
                at,
                Fault::TwoUsersOfAxes {
                    first,
                    second: code.name,
                },
            )),
        }
    }
}
