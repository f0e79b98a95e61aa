//! What is told of the machine's table of cutters.

use std::collections::BTreeMap;

use thiserror::Error;

/// The highest carousel slot and length offset (the reference interpreter's tables hold 128).
pub const MOST_SLOTS: u32 = 128;

/// The largest diameter, mm: no mill turns a cutter of a metre.
const LARGEST_MM: f64 = 1000.0;

/// The diameters of cutters by the slots of the machine's carousel, as far as they are told.
///
/// A diameter below 0 makes the cutter run on the other side: so a table can hold by how much a cutter is smaller than the one that
/// a program was written for (NISTIR 6556 appendix B, from memory). Slot 0 stands for no cutter, and has no diameter.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutterTable(BTreeMap<u32, f64>);

/// Why a cutter cannot stand in the table.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum CutterTableError {
    /// A slot out of range.
    #[error("there is no slot {0}; slots are 1 to {MOST_SLOTS}")]
    Slot(u32),
    /// A diameter that no cutter has.
    #[error("{0} mm is no diameter of a cutter")]
    Diameter(f64),
    /// A slot with two cutters.
    #[error("the cutter of slot {0} is told twice")]
    Twice(u32),
}

impl CutterTable {
    /// Tells the diameter of the cutter in a slot.
    ///
    /// # Errors
    /// A slot that does not exist or was told before, or a diameter of more than a metre.
    pub fn tell(&mut self, slot: u32, diameter_mm: f64) -> Result<(), CutterTableError> {
        if !(1..=MOST_SLOTS).contains(&slot) {
            return Err(CutterTableError::Slot(slot));
        }
        if diameter_mm.is_nan() || diameter_mm.abs() > LARGEST_MM {
            return Err(CutterTableError::Diameter(diameter_mm));
        }
        match self.0.insert(slot, diameter_mm) {
            Some(_) => Err(CutterTableError::Twice(slot)),
            None => Ok(()),
        }
    }

    /// The diameter of the cutter in a slot, mm, if it is told.
    pub(crate) fn diameter_mm(&self, slot: u32) -> Option<f64> {
        if slot == 0 {
            return Some(0.0);
        }
        self.0.get(&slot).copied()
    }
}
