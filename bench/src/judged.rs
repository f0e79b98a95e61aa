//! A notebook of any kind, read and judged.

use said::Said;
use serde::Serialize;

use crate::notebook::{Kind, NotebookError};
use crate::{height, lock_up, losses, minutes, moisture, square};

/// A notebook with what it comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Judged {
    /// Heights.
    Height {
        /// What was read.
        log: height::Log,
        /// What each plank comes to.
        planks: Vec<height::Judged>,
    },
    /// Moisture.
    Moisture {
        /// What was read.
        notes: moisture::Notes,
        /// What it comes to.
        outcome: moisture::Judged,
    },
    /// Squareness.
    Square {
        /// What was read.
        notes: square::Notes,
        /// What it comes to.
        outcome: square::Judged,
    },
    /// A fount.
    LockUp {
        /// What was read.
        fount: lock_up::Fount,
        /// What it comes to.
        outcome: lock_up::Judged,
    },
    /// Minutes.
    Minutes {
        /// What was read.
        runs: Vec<minutes::Run>,
        /// What they come to.
        outcome: minutes::Judged,
    },
    /// Losses.
    Losses {
        /// What was read.
        notes: losses::Notes,
        /// What they come to.
        outcome: losses::Judged,
    },
}

/// Why a notebook comes to nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BenchError {
    /// It cannot be read.
    #[error(transparent)]
    Notebook(#[from] NotebookError),
    /// Its heights show no shape.
    #[error(transparent)]
    Height(#[from] height::HeightError),
    /// Its moistures are none.
    #[error(transparent)]
    Moisture(#[from] moisture::MoistureError),
    /// Its measures belong to no block.
    #[error(transparent)]
    Square(#[from] square::SquareError),
    /// Its minutes show nothing.
    #[error(transparent)]
    Minutes(#[from] minutes::MinutesError),
}

/// Reads a notebook of whatever kind its first line names, and judges it.
///
/// # Errors
/// What cannot be read, with its line; readings that come to nothing.
pub fn judge(text: &str) -> Result<Judged, BenchError> {
    Ok(match Kind::of(text)? {
        Kind::Height => {
            let log = height::read(text)?;
            let planks = height::judge(&log)?;
            Judged::Height { log, planks }
        }
        Kind::Moisture => {
            let notes = moisture::read(text)?;
            let outcome = moisture::judge(&notes)?;
            Judged::Moisture { notes, outcome }
        }
        Kind::Square => {
            let notes = square::read(text)?;
            let outcome = square::judge(&notes)?;
            Judged::Square { notes, outcome }
        }
        Kind::LockUp => {
            let fount = lock_up::read(text)?;
            let outcome = lock_up::judge(&fount);
            Judged::LockUp { fount, outcome }
        }
        Kind::Minutes => {
            let runs = minutes::read(text)?;
            let outcome = minutes::judge(&runs)?;
            Judged::Minutes { runs, outcome }
        }
        Kind::Losses => {
            let notes = losses::read(text)?;
            let outcome = losses::judge(&notes);
            Judged::Losses { notes, outcome }
        }
    })
}

/// The same, of one kind alone.
///
/// # Errors
/// As [`judge`], and a notebook of another kind.
pub fn judge_as(text: &str, wanted: Kind) -> Result<Judged, BenchError> {
    let found = Kind::of(text)?;
    if found != wanted {
        return Err(NotebookError::OtherKind { wanted, found }.into());
    }
    judge(text)
}

impl Judged {
    /// What was measured.
    pub const fn kind(&self) -> Kind {
        match self {
            Judged::Height { .. } => Kind::Height,
            Judged::Moisture { .. } => Kind::Moisture,
            Judged::Square { .. } => Kind::Square,
            Judged::LockUp { .. } => Kind::LockUp,
            Judged::Minutes { .. } => Kind::Minutes,
            Judged::Losses { .. } => Kind::Losses,
        }
    }

    /// The outcome in lines: the verdict first.
    pub fn in_words(&self) -> Vec<Said> {
        match self {
            Judged::Height { log, planks } => planks
                .iter()
                .flat_map(|plank| plank.in_words(log.wanted))
                .collect(),
            Judged::Moisture { outcome, .. } => outcome.in_words(),
            Judged::Square { outcome, .. } => outcome.in_words(),
            Judged::LockUp { outcome, .. } => outcome.in_words(),
            Judged::Minutes { outcome, .. } => outcome.in_words(),
            Judged::Losses { outcome, .. } => outcome.in_words(),
        }
    }
}

/// A notebook of a kind to begin with: invented readings, to be overwritten.
pub const fn example(kind: Kind) -> &'static str {
    match kind {
        Kind::Height => include_str!("../examples/height.txt"),
        Kind::Moisture => include_str!("../examples/moisture.txt"),
        Kind::Square => include_str!("../examples/square.txt"),
        Kind::LockUp => include_str!("../examples/lockup.txt"),
        Kind::Minutes => include_str!("../examples/minutes.txt"),
        Kind::Losses => include_str!("../examples/losses.txt"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_is_read_and_judged() {
        for kind in Kind::ALL {
            let judged = judge(example(kind)).unwrap_or_else(|error| panic!("{kind}: {error}"));
            assert_eq!(judged.kind(), kind);
            assert!(judged.in_words().iter().all(|line| !line.is_empty()));
        }
    }

    #[test]
    fn broken_notebooks_are_refused_without_a_panic() {
        for kind in Kind::ALL {
            let text = example(kind);
            for (end, _) in text.char_indices() {
                let _ = judge(&text[..end]);
            }
            for word in text.split_whitespace() {
                for other in ["", "0", "-1", "1e400", "#", "999999", "mm", "line"] {
                    let _ = judge(&text.replace(word, other));
                }
            }
        }
    }

    #[test]
    fn a_notebook_of_another_kind_is_refused() {
        let error = judge_as(example(Kind::Losses), Kind::Height).unwrap_err();
        assert!(error.to_string().starts_with("This notebook is of losses"));
    }
}
