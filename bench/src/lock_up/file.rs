//! Notebooks of a fount.

use serde::Serialize;

use super::{Block, CALIPER_MM, Line};
use crate::notebook::{Entry, Kind, NotebookError, entries};

/// A sort and its blocks.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sort {
    /// What the maker calls it.
    pub name: String,
    /// What it should be.
    pub nominal: Block,
    /// What its blocks measure.
    pub measured: Vec<Block>,
}

/// What a notebook of a fount holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fount {
    /// How far the caliper may be off, mm.
    pub caliper: f64,
    /// The sorts.
    pub sorts: Vec<Sort>,
    /// The lines to be added up.
    pub lines: Vec<Line>,
}

const KNOWN: &str =
    "body, height, caliper, sort, line, or body, set and height of a block as measured";

/// Reads a notebook. `body` and `height` hold for all sorts after them.
///
/// # Errors
/// What cannot be read, with its line.
pub fn read(text: &str) -> Result<Fount, NotebookError> {
    let (mut body, mut height, mut caliper) = (None, None, CALIPER_MM);
    let mut sorts: Vec<Sort> = Vec::new();
    let mut lines = Vec::new();
    // Numbers of a block that come one by one, as a caliper sends them, with the line of the first.
    let mut open: Vec<f64> = Vec::new();
    for entry in entries(text, Kind::LockUp)? {
        if !entry.key.is_empty() {
            close(&mut open, &mut sorts, &entry)?;
        }
        match entry.key {
            "body" => body = Some(entry.size("the body")?),
            "height" => height = Some(entry.size("the height")?),
            "caliper" => caliper = entry.size("what the caliper may be off")?,
            "sort" => sorts.push(sort(&entry, body, height)?),
            "line" => lines.push(Line {
                noted: entry.line,
                sorts: entry.words.iter().map(|word| (*word).to_owned()).collect(),
            }),
            "" => measured(&entry, &mut open, &mut sorts)?,
            _ => return Err(entry.unknown(KNOWN)),
        }
    }
    if let (true, Some(sort)) = (open.len() == 2, sorts.last_mut()) {
        sort.measured.push(block(&open));
        open.clear();
    }
    if !open.is_empty() {
        return Err(NotebookError::Missing(
            "The last block has no set. Write body, set and height of every block.".to_owned(),
        ));
    }
    if sorts.iter().all(|sort| sort.measured.is_empty()) {
        return Err(NotebookError::Missing(
            "There are no measured blocks. Write body, set and height of each on a line below its sort."
                .to_owned(),
        ));
    }
    for line in &lines {
        known(line, &sorts)?;
    }
    Ok(Fount {
        caliper,
        sorts,
        lines,
    })
}

fn sort(entry: &Entry<'_>, body: Option<f64>, height: Option<f64>) -> Result<Sort, NotebookError> {
    let Some(body) = body else {
        return Err(entry.fault("say the body first, such as: body 42.175."));
    };
    let (name, sizes) = match entry.words.as_slice() {
        [name, ..] => ((*name).to_owned(), entry.lengths_from(1)?),
        [] => return Err(entry.fault("a sort has a name and its nominal set.")),
    };
    let (set, body) = match sizes.as_slice() {
        [set] => (*set, body),
        [set, own_body] => (*set, *own_body),
        _ => {
            return Err(entry.fault(
                "a sort has a name and its nominal set, and its own body if that is another.",
            ));
        }
    };
    if !(set > 0.0 && body > 0.0) {
        return Err(entry.fault("body and set have to be above 0."));
    }
    Ok(Sort {
        name,
        nominal: Block { body, set, height },
        measured: Vec::new(),
    })
}

/// Takes a line of numbers: a whole block, or a part of one.
fn measured(
    entry: &Entry<'_>,
    open: &mut Vec<f64>,
    sorts: &mut [Sort],
) -> Result<(), NotebookError> {
    let Some(sort) = sorts.last_mut() else {
        return Err(entry.fault("say first which sort it is, such as: sort A 30.93."));
    };
    let numbers = entry.lengths_from(0)?;
    if numbers.iter().any(|number| *number <= 0.0) {
        return Err(entry.fault("a measured length has to be above 0."));
    }
    // A line of two is a block without height; numbers alone on their lines are gathered by threes.
    if open.is_empty() && numbers.len() == 2 {
        sort.measured.push(block(&numbers));
        return Ok(());
    }
    for number in numbers {
        open.push(number);
        if open.len() == 3 {
            sort.measured.push(block(open));
            open.clear();
        }
    }
    Ok(())
}

/// Before another line: numbers that are still open have to make a block.
fn close(open: &mut Vec<f64>, sorts: &mut [Sort], entry: &Entry<'_>) -> Result<(), NotebookError> {
    match (open.len(), sorts.last_mut()) {
        (0, _) => {}
        (2, Some(sort)) => sort.measured.push(block(open)),
        _ => {
            return Err(entry.fault(
                "the block before it has no set. Write body, set and height of every block.",
            ));
        }
    }
    open.clear();
    Ok(())
}

fn block(numbers: &[f64]) -> Block {
    let at = |place: usize| numbers.get(place).copied();
    Block {
        body: at(0).unwrap_or_default(),
        set: at(1).unwrap_or_default(),
        height: at(2),
    }
}

fn known(line: &Line, sorts: &[Sort]) -> Result<(), NotebookError> {
    let is_measured = |name: &str| {
        sorts
            .iter()
            .any(|sort| sort.name == name && !sort.measured.is_empty())
    };
    match line.sorts.iter().find(|name| !is_measured(name)) {
        Some(name) => Err(NotebookError::Line {
            line: line.noted,
            what: format!("no block of the sort {name} was measured."),
        }),
        None => Ok(()),
    }
}
