//! Moisture of wood: what it settles to in a room, whether to cut now, and how far blocks move in another climate.
//!
//! ```text
//! bench moisture
//! wood hard maple
//! room 21 C 45 %
//! there 23 C 30 %      # where the type will be kept
//! reading 7.9 8.2 8.0  # of a moisture meter
//! face end             # end or side grain
//! rings body           # which of body, set and height lies along the rings (at best known)
//! body 42.175
//! set 30
//! height 23.317
//! ```

mod file;
#[cfg(test)]
mod tests;

use said::{Said, Value};
use serde::Serialize;

pub use crate::species::Grain;
use crate::species::Species;
use crate::texts;
use crate::words::{change_mm, mm};
pub use file::{Face, Notes, Size, SizeKind, read};

/// Moisture between which wood moves evenly, per cent.
///
/// # Source
/// USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, eq. 13-2: from 6 to 14 % moisture.
const EVEN_RANGE: [f64; 2] = [6.0, 14.0];

/// Moisture above which wood swells no more, per cent.
///
/// # Source
/// The same, eq. 13-3: moisture of 30 % at most.
pub const FIBRE_SATURATION: f64 = 30.0;

/// How far wood may be from what it settles to in the room, and one reading from another, and still be cut, per cent of moisture.
///
/// # Source
/// Common practice, no source.
pub const SETTLED_WITHIN: f64 = 1.0;

/// How far a body or set may go before blocks bind or drop, mm: the limit of the lock-up check.
const MATTERS_MM: f64 = crate::lock_up::UNDER_MM;

/// A room's air.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Climate {
    /// Temperature, °C.
    pub temperature_c: f64,
    /// Relative humidity, per cent.
    pub humidity: f64,
}

/// Why something about moisture cannot be worked out.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum MoistureError {
    /// A temperature beyond what the formula is for.
    #[error("{0:.1} °C is no temperature that wood is kept at here. Give one from −10 to 60 °C.")]
    Temperature(f64),
    /// A humidity that is none.
    #[error("{0} % is no humidity that wood is kept in. Give one from 0 to 98 %.")]
    Humidity(f64),
    /// A moisture that the sums do not hold for.
    #[error(
        "Wood of {0:.1} % moisture is beyond these sums. Give a reading from 0 to {FIBRE_SATURATION} %."
    )]
    Moisture(f64),
}

impl Climate {
    /// The moisture that wood settles to in this air, per cent of its dry weight. To about 1 %: it depends on the wood, and on whether
    /// it comes from wetter or drier air.
    ///
    /// # Errors
    /// Air that no wood is kept in: beyond −10 to 60 °C, or damper than 98 %.
    ///
    /// # Source
    /// *Wood Handbook*, FPL-GTR-282, 2021, eq. 4-5, in degrees Celsius; how far woods lie from it: from memory. The limits of the air: common
    /// practice, no source.
    pub fn equilibrium(self) -> Result<f64, MoistureError> {
        let t = self.temperature_c;
        if !(-10.0..=60.0).contains(&t) {
            return Err(MoistureError::Temperature(t));
        }
        if !(0.0..=98.0).contains(&self.humidity) {
            return Err(MoistureError::Humidity(self.humidity));
        }
        let h = self.humidity / 100.0;
        let w = 349.0 + 1.29 * t + 0.0135 * t * t;
        let k = 0.805 + 0.000_736 * t - 0.000_002_73 * t * t;
        let k1 = 6.27 - 0.009_38 * t - 0.000_303 * t * t;
        let k2 = 1.91 + 0.0407 * t - 0.000_293 * t * t;
        let kh = k * h;
        let second = (k1 * kh + 2.0 * k1 * k2 * kh * kh) / (1.0 + k1 * kh + k1 * k2 * kh * kh);
        Ok(1800.0 / w * (kh / (1.0 - kh) + second))
    }
}

/// Change of size per per cent of moisture, as a part of the size, for a shrinkage (green to oven-dry) in per cent.
///
/// # Source
/// *Wood Handbook*, FPL-GTR-190, 2010: table 13-5 is table 4-3 by `C = S / (3000 − 20 S)` (found by comparing the tables).
pub fn coefficient(shrinkage: f64) -> f64 {
    shrinkage / (3000.0 - 20.0 * shrinkage)
}

/// By how much a size changes from one moisture to another, in the size's unit; positive is growth. `shrinkage` is that of its
/// direction, green to oven-dry, per cent.
///
/// # Errors
/// A moisture above saturation or below none.
///
/// # Source
/// *Wood Handbook*, FPL-GTR-190, 2010, eq. 13-2 from 6 to 14 %, eq. 13-3 beyond (the form of the second from memory).
pub fn movement(size: f64, shrinkage: f64, from: f64, to: f64) -> Result<f64, MoistureError> {
    for moisture in [from, to] {
        if !(0.0..=FIBRE_SATURATION).contains(&moisture) {
            return Err(MoistureError::Moisture(moisture));
        }
    }
    let [low, high] = EVEN_RANGE;
    let is_even = |moisture: f64| (low..=high).contains(&moisture);
    Ok(if is_even(from) && is_even(to) {
        size * coefficient(shrinkage) * (to - from)
    } else if shrinkage > 0.0 {
        size * (to - from) / (FIBRE_SATURATION * 100.0 / shrinkage - FIBRE_SATURATION + from)
    } else {
        0.0
    })
}

/// Whether to cut now.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "do", content = "percent")]
pub enum Settled {
    /// The wood is what the room makes it.
    Cut,
    /// It will dry by so many per cent, and shrink.
    WaitToDry(f64),
    /// It will take up so many per cent, and swell.
    WaitToTakeUp(f64),
    /// Its readings differ by so many per cent: it has not settled within itself.
    WaitToEvenOut(f64),
}

/// Whether wood with these readings has settled to a room's moisture; `None` without readings.
///
/// # Source
/// Common practice, no source, as [`SETTLED_WITHIN`].
pub fn settled(readings: &[f64], equilibrium: f64) -> Option<Settled> {
    let mean = mean(readings)?;
    let least = readings.iter().copied().fold(f64::INFINITY, f64::min);
    let most = readings.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let over = mean - equilibrium;
    Some(if over > SETTLED_WITHIN {
        Settled::WaitToDry(over)
    } else if -over > SETTLED_WITHIN {
        Settled::WaitToTakeUp(-over)
    } else if most - least > 2.0 * SETTLED_WITHIN {
        Settled::WaitToEvenOut(most - least)
    } else {
        Settled::Cut
    })
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

/// How one size moves.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Movement {
    /// What it is.
    pub kind: SizeKind,
    /// The size now, mm.
    pub size: f64,
    /// By how much it changes in each direction that it may lie in, mm.
    pub changes: [Option<(Grain, f64)>; 2],
}

/// What a notebook of moisture comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// What wood settles to in the workshop, per cent.
    pub room_settles_to: f64,
    /// The mean of the readings, per cent.
    pub reads: Option<f64>,
    /// Whether to cut now.
    pub settled: Option<Settled>,
    /// What wood settles to where the type will be kept, per cent.
    pub there_settles_to: Option<f64>,
    /// From what moisture the forecast starts: the readings', else the room's, per cent.
    pub from: f64,
    /// How far body, set and height move there.
    pub movements: Vec<Movement>,
}

/// Judges a notebook.
///
/// # Errors
/// A climate or reading that the sums do not hold for.
pub fn judge(notes: &Notes) -> Result<Judged, MoistureError> {
    let room_settles_to = notes.room.equilibrium()?;
    let reads = mean(&notes.readings);
    if let Some(moisture) = notes
        .readings
        .iter()
        .find(|moisture| !(0.0..=FIBRE_SATURATION).contains(*moisture))
    {
        return Err(MoistureError::Moisture(*moisture));
    }
    let from = reads.unwrap_or(room_settles_to);
    let there_settles_to = notes.there.map(Climate::equilibrium).transpose()?;
    let movements = match there_settles_to {
        Some(to) => notes
            .sizes
            .iter()
            .map(|size| moved(notes, size, from, to))
            .collect::<Result<_, _>>()?,
        None => Vec::new(),
    };
    Ok(Judged {
        room_settles_to,
        reads,
        settled: settled(&notes.readings, room_settles_to),
        there_settles_to,
        from,
        movements,
    })
}

fn moved(notes: &Notes, size: &Size, from: f64, to: f64) -> Result<Movement, MoistureError> {
    let mut changes = [None; 2];
    for (change, grain) in changes.iter_mut().zip(notes.lies(size.kind)) {
        *change = Some((grain, changed(&notes.wood, size.mm, grain, from, to)?));
    }
    Ok(Movement {
        kind: size.kind,
        size: size.mm,
        changes,
    })
}

fn changed(
    wood: &Species,
    size: f64,
    grain: Grain,
    from: f64,
    to: f64,
) -> Result<f64, MoistureError> {
    movement(size, wood.shrinkage(grain), from, to)
}

impl Settled {
    /// The verdict in a sentence or two.
    pub fn in_words(self) -> Said {
        match self {
            Settled::Cut => texts::dry_enough(),
            Settled::WaitToDry(by) => texts::wait_to_dry(tenths(by)),
            Settled::WaitToTakeUp(by) => texts::wait_to_take_up(tenths(by)),
            Settled::WaitToEvenOut(by) => texts::wait_to_even_out(tenths(by)),
        }
    }
}

fn tenths(value: f64) -> Value {
    Value::plain(value, 1)
}

impl Movement {
    /// The largest change, whichever way the size lies.
    pub fn largest(&self) -> f64 {
        self.changes
            .iter()
            .flatten()
            .map(|(_, change)| *change)
            .fold(0.0, |most: f64, change| {
                if change.abs() > most.abs() {
                    change
                } else {
                    most
                }
            })
    }

    fn in_words(&self) -> Said {
        let changes = self.changes.iter().flatten();
        let changes = changes.map(|(grain, change)| texts::moves(change_mm(*change), grain.said()));
        let changes = changes.reduce(texts::either);
        let changes = changes.unwrap_or_default();
        texts::size_moves(self.kind.said(), mm(self.size), changes)
    }
}

impl Judged {
    /// The outcome in lines: the verdict first.
    pub fn in_words(&self) -> Vec<Said> {
        let mut lines = Vec::new();
        lines.extend(self.settled.map(Settled::in_words));
        let settles_to = tenths(self.room_settles_to);
        lines.push(match self.reads {
            Some(reads) => texts::room_settles_and_reads(settles_to, tenths(reads)),
            None => texts::room_settles_to(settles_to),
        });
        if let Some(there) = self.there_settles_to {
            lines.push(texts::there_settles_to(tenths(there), tenths(self.from)));
            lines.extend(self.movements.iter().map(Movement::in_words));
            let worst = self
                .movements
                .iter()
                .map(Movement::largest)
                .fold(0.0, |most: f64, change| most.max(change.abs()));
            if worst > MATTERS_MM {
                lines.push(texts::moves_too_far(mm(MATTERS_MM)));
            }
        }
        lines.push(texts::moisture_is_good_to());
        lines
    }
}
