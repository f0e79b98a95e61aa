//! Versioned files: commissions, workshops and records of founts that were made, read, written and migrated.
//!
//! All are JSON, made to be written by hand as well: the project's DEVELOPERS.md lists every key with its default. The file's
//! structures are kept apart from the model, so that the model may change while old files stay readable. Reading checks
//! everything that can be judged from the file alone; every complaint names the place, what was found, and what to do.

mod clamps;
mod commission_file;
mod json;
mod limits;
mod record_file;
mod stock_file;
mod table_file;
mod workshop_file;

#[cfg(test)]
mod tests;

use serde_json::Value;

use crate::commission::Commission;
use crate::record::Record;
use crate::workshop::{Cutter, Workshop};

pub use limits::{Fault, commission_faults, workshop_faults};

/// The word that marks a commission file.
pub const COMMISSION_FORMAT: &str = "sortwright-commission";
/// The version of commission files that is written.
pub const COMMISSION_VERSION: u32 = 1;
/// The word that marks a workshop file.
pub const WORKSHOP_FORMAT: &str = "sortwright-workshop";
/// The version of workshop files that is written.
pub const WORKSHOP_VERSION: u32 = 1;

/// The word that marks the record of a fount that was made.
pub const RECORD_FORMAT: &str = "sortwright-record";
/// The version of records that is written.
pub const RECORD_VERSION: u32 = 1;

/// Why a file cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FormatError {
    /// The text is no JSON, or a key is unknown, missing or of the wrong kind.
    #[error("Line {line}, column {column}{at}: {why}.", at = at(.place))]
    Json {
        /// Path of the place, such as `faces[0].index`; empty for the whole file.
        place: String,
        /// Line, counted from 1.
        line: usize,
        /// Column, counted from 1.
        column: usize,
        /// What is wrong, as a clause.
        why: String,
    },
    /// The file is far too long.
    #[error("This is too long to be a {wanted} file: it has more than 16 MB.")]
    TooLong {
        /// What was wanted: a commission or a workshop.
        wanted: &'static str,
    },
    /// The file is something else.
    #[error("This is not a {wanted} file: its “format” is {found}, it should be “{format}”.")]
    OtherFormat {
        /// What was wanted: a commission or a workshop.
        wanted: &'static str,
        /// The word that marks such files.
        format: &'static str,
        /// What the file says, in words.
        found: String,
    },
    /// The file was written by a later version.
    #[error(
        "This {wanted} file has version {found}; this program reads versions up to {known}. Use a newer Sortwright."
    )]
    TooNew {
        /// What was wanted: a commission or a workshop.
        wanted: &'static str,
        /// The file's version.
        found: u32,
        /// The latest version that is understood.
        known: u32,
    },
    /// A value cannot be used.
    #[error("{0}")]
    Value(Fault),
}

fn at(place: &str) -> String {
    if place.is_empty() {
        String::new()
    } else {
        format!(", at {place}")
    }
}

/// Reads a commission file.
///
/// # Errors
/// A sentence that names the place and says what to do.
pub fn read_commission(json: &str) -> Result<Commission, FormatError> {
    let json = json.trim_start_matches('\u{feff}');
    json::check_header(json, "commission", COMMISSION_FORMAT, COMMISSION_VERSION)?;
    let commission = json::read::<commission_file::CommissionFile>(json)?.into_model()?;
    match commission_faults(&commission).into_iter().next() {
        Some(fault) => Err(FormatError::Value(fault)),
        None => Ok(commission),
    }
}

/// Writes a commission file: every key, lengths in the unit that says them shortest. Reading it gives the same commission.
pub fn write_commission(commission: &Commission) -> String {
    json::write(&commission_file::CommissionFile::of(commission))
}

/// Reads a workshop file.
///
/// # Errors
/// A sentence that names the place and says what to do.
pub fn read_workshop(json: &str) -> Result<Workshop, FormatError> {
    let json = json.trim_start_matches('\u{feff}');
    json::check_header(json, "workshop", WORKSHOP_FORMAT, WORKSHOP_VERSION)?;
    let workshop = json::read::<workshop_file::WorkshopFile>(json)?.into_model()?;
    match workshop_faults(&workshop).into_iter().next() {
        Some(fault) => Err(FormatError::Value(fault)),
        None => Ok(workshop),
    }
}

/// Writes a workshop file. Reading it gives the same workshop.
pub fn write_workshop(workshop: &Workshop) -> String {
    json::write(&workshop_file::WorkshopFile::of(workshop))
}

/// Reads the record of a fount that was made.
///
/// # Errors
/// A sentence that names the place and says what to do.
pub fn read_record(json: &str) -> Result<Record, FormatError> {
    let json = json.trim_start_matches('\u{feff}');
    json::check_header(json, "record", RECORD_FORMAT, RECORD_VERSION)?;
    json::read::<record_file::RecordFile>(json)?.into_model("")
}

/// Writes the record of a fount that was made. Reading it gives the same record.
pub fn write_record(record: &Record) -> String {
    json::write(&record_file::RecordFile::of(record))
}

/// A commission as its file says it, to be compared key by key.
pub(crate) fn commission_value(commission: &Commission) -> Value {
    // Structures of text and numbers become values without fail.
    serde_json::to_value(commission_file::CommissionFile::of(commission)).unwrap_or_default()
}

/// A cutter as the workshop's file says it.
pub(crate) fn cutter_value(cutter: &Cutter) -> Value {
    serde_json::to_value(workshop_file::FileCutter::of(cutter)).unwrap_or_default()
}
