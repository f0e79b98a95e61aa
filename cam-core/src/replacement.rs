//! The day after: sorts made again to match a fount that was made before.
//!
//! A replacement is a commission of its own that carries the first one's [`Record`]. Its sorts are drawn up among all the sorts of the
//! first bill, so that what these share (a common set of the figures) comes out as it did; only what is ordered is cut. Whatever
//! comes out otherwise than recorded is a finding of severity stop, and what was set otherwise since then is told beside it.

mod compare;
#[cfg(test)]
mod tests;

use crate::bill::{BillError, MOST_OF_ONE, read_entries};
use crate::commission::{BillLine, Commission, CutApart, PlateCount, SpaceLine};
use crate::measure::Length;
use crate::record::{MadeSort, Record};
use crate::sort::numbered;

pub(crate) use compare::compare;

/// Why sorts cannot be made again.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReplacementError {
    /// The list of sorts is not understood.
    #[error(transparent)]
    List(#[from] BillError),
    /// The fount has no such sort.
    #[error("The fount has no sort “{what}”. Its sorts are: {has}.")]
    NotInFount {
        /// What was asked for.
        what: String,
        /// The fount's sorts by name.
        has: String,
    },
    /// More than a bill may ask for.
    #[error("More than {most} of sort {0} are asked for. Lower the count.", most = MOST_OF_ONE)]
    TooMany(String),
}

/// A commission for some sorts of a fount that was made: `"A 2, & 1"`, each sort by its name on the papers.
///
/// Everything but the bill is the commission's as it stands now.
///
/// # Errors
/// The list is not understood, or names what the fount does not have.
pub fn replacement(
    commission: &Commission,
    record: &Record,
    sorts: &str,
) -> Result<Commission, ReplacementError> {
    let mut wanted: Vec<(&MadeSort, u32)> = Vec::new();
    for entry in read_entries(sorts)? {
        let sort = named(record, &entry.what).ok_or_else(|| ReplacementError::NotInFount {
            what: entry.what.clone(),
            has: names(record),
        })?;
        match wanted.iter_mut().find(|(known, _)| known.name == sort.name) {
            Some((_, count)) => *count = count.saturating_add(entry.count),
            None => wanted.push((sort, entry.count)),
        }
    }
    wanted.retain(|(_, count)| *count > 0);
    if wanted.is_empty() {
        return Err(BillError::Empty.into());
    }
    if let Some((sort, _)) = wanted.iter().find(|(_, count)| *count > MOST_OF_ONE) {
        return Err(ReplacementError::TooMany(sort.name.clone()));
    }
    let mut again = commission.clone();
    let plates = plates(record, &wanted);
    (again.bill, again.cut_apart) = ordered(record, &commission.cut_apart, &once(&wanted));
    if let Some(colours) = &mut again.colours {
        colours.counts = unlike_counts(&plates, &wanted);
        colours.cut = plates;
    }
    let spaces = wanted.iter().filter(|(sort, _)| sort.source.is_none());
    again.spaces = spaces
        .map(|&(sort, count)| SpaceLine {
            set: set_of(record, sort),
            count,
        })
        .collect();
    // Blocks were pinned to places of planks that are cut up.
    again.planks.pins.clear();
    again.replaces = Some(Box::new(Record {
        sorts: wanted.iter().map(|(sort, _)| (*sort).clone()).collect(),
        ..record.clone()
    }));
    Ok(again)
}

/// The lines of a bill that order these sorts, and how letters are cut apart for them: a part is made with its letter, and of the letter's
/// other parts none is.
fn ordered(
    record: &Record,
    cuts: &[CutApart],
    wanted: &[(&MadeSort, u32)],
) -> (Vec<BillLine>, Vec<CutApart>) {
    let mut bill: Vec<BillLine> = Vec::new();
    let mut cuts = cuts.to_vec();
    for cut in &mut cuts {
        cut.counts = Some(vec![0; cut.parts()]);
        for line in &mut cut.lines {
            if let Some(middle) = &mut line.middle {
                middle.count = 0;
            }
        }
    }
    for (sort, count) in wanted {
        let Some(line) = sort.ordered(*count) else {
            continue;
        };
        let was_cut = record.commission.cut_of(&line.face, &line.glyph).is_some();
        let mut cuts = cuts.iter_mut();
        let cut = cuts.find(|cut| cut.face == line.face && cut.glyph == line.glyph);
        match (cut, numbered(&sort.name)) {
            (Some(cut), Some(piece)) if was_cut => {
                cut.order(piece, *count);
                // Once for all its parts.
                let whole = BillLine { count: 1, ..line };
                if !bill.contains(&whole) {
                    bill.push(whole);
                }
            }
            _ => bill.push(line),
        }
    }
    (bill, cuts)
}

/// Each letter once, a letter in colours as often as it is ordered on the plate that has most of it.
fn once<'r>(wanted: &[(&'r MadeSort, u32)]) -> Vec<(&'r MadeSort, u32)> {
    let mut once: Vec<(&MadeSort, u32)> = Vec::new();
    for &(sort, count) in wanted {
        let is_same = |known: &&mut (&MadeSort, u32)| {
            sort.plate.is_some() && known.0.plate.is_some() && known.0.source == sort.source
        };
        match once.iter_mut().find(is_same) {
            Some((_, most)) => *most = count.max(*most),
            None => once.push((sort, count)),
        }
    }
    once
}

/// The plates that are named, in the order of printing.
fn plates(record: &Record, wanted: &[(&MadeSort, u32)]) -> Vec<String> {
    let mut plates: Vec<String> = Vec::new();
    for plate in record.sorts.iter().filter_map(|sort| sort.plate.as_ref()) {
        let is_named = |(sort, _): &(&MadeSort, u32)| sort.plate.as_ref() == Some(plate);
        if !plates.contains(plate) && wanted.iter().any(is_named) {
            plates.push(plate.clone());
        }
    }
    plates
}

/// How many of each letter in colours are cut for each of the plates, where it is not as many as the bill orders of it.
fn unlike_counts(plates: &[String], wanted: &[(&MadeSort, u32)]) -> Vec<PlateCount> {
    let mut counts = Vec::new();
    for (first, most) in once(wanted) {
        let Some(letter) = first.letter() else {
            continue;
        };
        for plate in plates {
            let on_plate = wanted.iter().find(|(sort, _)| {
                sort.source == first.source && sort.plate.as_ref() == Some(plate)
            });
            let count = on_plate.map_or(0, |(_, count)| *count);
            if count != most {
                counts.push(PlateCount {
                    letter: letter.to_owned(),
                    plate: plate.clone(),
                    count,
                });
            }
        }
    }
    counts
}

/// A sort by its name; a glyph's name may have its slash, as lists write it.
fn named<'a>(record: &'a Record, what: &str) -> Option<&'a MadeSort> {
    let bare = what.strip_prefix('/').filter(|name| !name.is_empty());
    record.sort(what).or_else(|| record.sort(bare?))
}

fn names(record: &Record) -> String {
    /// So many names fit into a sentence; the rest is on the papers.
    const MOST_NAMES: usize = 60;
    let names = record.sorts.iter().map(|sort| sort.name.as_str());
    let shown: Vec<&str> = names.take(MOST_NAMES).collect();
    let more = record.sorts.len() - shown.len();
    let rest = match more {
        0 => String::new(),
        _ => format!(" and {more} more"),
    };
    format!("{}{rest}", shown.join(", "))
}

/// The set of a space as it was ordered, to the last digit.
fn set_of(record: &Record, sort: &MadeSort) -> Length {
    /// What differs by less is the same length, written to a nanometre.
    const SAME_MM: f64 = 1e-5;
    let ordered = record.commission.spaces.iter().map(|line| line.set);
    let mut same = ordered.filter(|set| (set.in_mm() - sort.set_mm).abs() < SAME_MM);
    same.next().unwrap_or(Length::mm(sort.set_mm))
}

/// The lines of a bill among which sorts are drawn up: those ordered, and, of a replacement, all of the first bill. Lines that are not
/// to be cut have a count of none.
pub(crate) fn lines_of_fount(commission: &Commission) -> Vec<BillLine> {
    let first = commission.replaces.as_ref();
    let not_cut = first
        .into_iter()
        .flat_map(|record| &record.commission.bill)
        .filter(|line| line.count > 0)
        .map(|line| BillLine {
            count: 0,
            ..line.clone()
        });
    let ordered = commission.bill.iter().filter(|line| line.count > 0);
    not_cut.chain(ordered.cloned()).collect()
}
