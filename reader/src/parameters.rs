//! The numbered parameters, as far as the program itself sets them.
//!
//! Machines keep parameters from one program to the next, so what an unset one holds cannot be told from the program: to use it
//! is a fault here, where the reference interpreter takes what its file holds.
//!
//! # Source
//! NISTIR 6556 (2000) §3.2.1 and table 2: parameters 5161 to 5390 hold reference points, G92's offsets, and the work coordinate
//! systems (table from memory).

use std::collections::BTreeMap;

use crate::fault::Fault;
use crate::lexer::whole;

/// The highest number (the reference interpreter's array holds 5400, counted from 0).
pub const MOST_PARAMETERS: u16 = 5399;

/// The parameters that hold places of the machine. This reader keeps those places itself, so the numbers are closed.
const PLACES: std::ops::RangeInclusive<u16> = 5161..=5390;

/// What the program has set.
#[derive(Debug, Default)]
pub(crate) struct Parameters(BTreeMap<u16, f64>);

impl Parameters {
    /// The parameter's number.
    ///
    /// # Errors
    /// A value that is no number of a parameter, or one that is closed.
    pub fn number(value: f64) -> Result<u16, Fault> {
        let number = whole(b'#', value).map_err(|_| Fault::ParameterNumber)?;
        match u16::try_from(number) {
            Ok(number) if PLACES.contains(&number) => Err(Fault::MachineParameter(number)),
            Ok(number @ 1..=MOST_PARAMETERS) => Ok(number),
            Ok(_) | Err(_) => Err(Fault::ParameterNumber),
        }
    }

    /// What a parameter holds.
    ///
    /// # Errors
    /// The program has not set it.
    pub fn get(&self, number: u16) -> Result<f64, Fault> {
        let found = self.0.get(&number).copied();
        found.ok_or(Fault::ParameterNotSet(number))
    }

    /// Sets a parameter.
    pub fn set(&mut self, number: u16, value: f64) {
        self.0.insert(number, value);
    }

    /// What a probe has found there is known to the machine alone.
    pub fn forget_probe(&mut self) {
        for number in PROBED {
            self.0.remove(&number);
        }
    }
}

/// Where G38.2 leaves the place it touched (§3.5.9, from memory).
const PROBED: std::ops::RangeInclusive<u16> = 5061..=5066;
