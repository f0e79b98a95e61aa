//! Prices of the order made otherwise, and sorts made again to match a fount: long work that the window and the commands share.

use std::path::Path;
use std::sync::{Mutex, PoisonError};

use cam_core::commission::Commission;
use cam_core::finding::Finding;
use cam_core::format::read_record;
use cam_core::make::{RECORD_FILE, drawn_up};
use cam_core::progress::Progress;
use cam_core::quote::{Change, Estimates, Quote, changed};
use cam_core::record::Record;
use cam_core::replacement::replacement;

use super::tasks::Snapshot;
use crate::files::{read_text, shown};

/// The order made otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Otherwise {
    /// What is changed.
    pub changes: Vec<Change>,
    /// What it costs then, or why that cannot be said.
    pub priced: Result<Quote, String>,
}

/// Prices the order as it would be otherwise, for each list of changes. What is known of sorts is kept in the estimates.
pub fn priced_otherwise(
    snapshot: &Snapshot,
    estimates: &Mutex<Estimates>,
    asked: Vec<Vec<Change>>,
    progress: &Progress,
) -> Vec<Otherwise> {
    let price = |changes: &[Change]| {
        let order = changed(&snapshot.commission, changes).map_err(|error| error.to_string())?;
        // What an earlier request knew of sorts is whole, however it ended.
        let mut estimates = estimates.lock().unwrap_or_else(PoisonError::into_inner);
        estimates
            .quote(&order, &snapshot.workshop, &snapshot.fonts, progress)
            .map_err(|error| error.to_string())
    };
    asked
        .into_iter()
        .map(|changes| Otherwise {
            priced: price(&changes),
            changes,
        })
        .collect()
}

/// A commission for sorts of a fount that was made before.
#[derive(Clone, Debug)]
pub struct Again {
    /// The commission, which carries what it is to match.
    pub commission: Commission,
    /// How its sorts compare with those that were made.
    pub findings: Vec<Finding>,
    /// How many sorts it orders.
    pub sorts: u32,
    /// Nothing told how the fount was made: its sorts are taken as they come out now.
    pub is_first_record: bool,
}

/// Begins a commission for sorts by name with their counts, such as `A 2, & 1`, to match the fount that was made into the folder `made`
/// (or whose record that is); without it, the fount that the commission itself is to match, or what its sorts come out as now.
///
/// # Errors
/// A sentence.
pub fn again(
    snapshot: &Snapshot,
    made: Option<&Path>,
    sorts: &str,
    progress: &Progress,
) -> Result<Again, String> {
    let (commission, workshop) = (&snapshot.commission, &snapshot.workshop);
    let draw = |commission: &Commission| {
        drawn_up(commission, workshop, &snapshot.fonts, progress).map_err(|error| error.to_string())
    };
    let (record, is_first_record) = match (made, &commission.replaces) {
        (Some(made), _) => (recorded(made)?, false),
        (None, Some(first)) => ((**first).clone(), false),
        (None, None) => {
            let drawn = draw(commission)?;
            (Record::of(commission, workshop, &drawn.sorts), true)
        }
    };
    let commission = replacement(commission, &record, sorts).map_err(|error| error.to_string())?;
    let drawn = draw(&commission)?;
    Ok(Again {
        commission,
        sorts: drawn.sorts.iter().map(|sort| sort.count).sum(),
        findings: drawn.findings,
        is_first_record,
    })
}

/// The record in a folder that was made, or the record itself.
fn recorded(made: &Path) -> Result<Record, String> {
    let path = if made.is_dir() {
        made.join(RECORD_FILE)
    } else {
        made.to_owned()
    };
    let text = read_text(&path).map_err(|error| error.to_string())?;
    read_record(&text).map_err(|error| format!("{}: {error}", shown(&path)))
}
