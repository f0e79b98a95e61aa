//! Sorts rejected and cutters broken, and so what part of a price's work is lost.
//!
//! ```text
//! bench losses
//! blocks 240                    # cut so far, good and bad
//! work 1850                     # what the work on them cost, in the workshop's currency
//! rejected 4 chipped serif
//! rejected 2 warped
//! broken 1 12.50 flat-0.8 in a plunge
//! ```

use said::{Said, Value};
use serde::Serialize;

use crate::notebook::{Entry, Kind, NotebookError, entries};
use crate::texts;
use crate::words::per_cent;

/// The part of the work that is lost where nothing has been counted yet, and how many blocks that is worth: what a workshop has
/// counted outweighs it once it is more.
///
/// # Source
/// Common practice, no source.
const USUAL_PART: f64 = 0.03;
const USUAL_BLOCKS: f64 = 100.0;

/// The most that breakage can be in a price. Common practice, no source.
const MOST_PART: f64 = 0.5;

/// What was lost for one reason.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Loss {
    /// How many.
    pub count: f64,
    /// Why, in the maker's words.
    pub reason: String,
}

/// What a notebook of losses holds.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Notes {
    /// Blocks cut, good and bad.
    pub blocks: f64,
    /// What the work on them cost; 0 if it was not said.
    pub work: f64,
    /// Blocks rejected.
    pub rejected: Vec<Loss>,
    /// Cutters broken.
    pub broken: Vec<Loss>,
    /// What the broken cutters cost.
    pub cutters_cost: f64,
}

/// What losses come to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// The part of the work that has to be reckoned on top, for prices.
    pub breakage: f64,
    /// The part of blocks that was rejected.
    pub rejected: f64,
    /// The range in which that part lies but for one case in twenty.
    pub range: [f64; 2],
    /// What broken cutters add, as a part of the work; `None` where the work's cost was not said.
    pub cutters: Option<f64>,
    /// Reasons with how many they cost, the worst first.
    pub reasons: Vec<Loss>,
    /// How many cutters broke.
    pub broken: f64,
}

const KNOWN: &str = "blocks, work, rejected, broken";

/// Reads a notebook.
///
/// # Errors
/// What cannot be read, with its line.
pub fn read(text: &str) -> Result<Notes, NotebookError> {
    let mut notes = Notes::default();
    let mut last = 1;
    for entry in entries(text, Kind::Losses)? {
        last = entry.line;
        match entry.key {
            "blocks" => notes.blocks += number(&entry, 0)?,
            "work" => notes.work += number(&entry, 0)?,
            "rejected" => notes.rejected.push(Loss {
                count: number(&entry, 0)?,
                reason: entry.words[1..].join(" "),
            }),
            "broken" => {
                let count = number(&entry, 0)?;
                notes.cutters_cost += count * number(&entry, 1)?;
                notes.broken.push(Loss {
                    count,
                    reason: entry.words[2..].join(" "),
                });
            }
            _ => return Err(entry.unknown(KNOWN)),
        }
    }
    if notes.blocks <= 0.0 {
        return Err(NotebookError::Missing(
            "Say how many blocks were cut in all, such as: blocks 240.".to_owned(),
        ));
    }
    let rejected: f64 = notes.rejected.iter().map(|loss| loss.count).sum();
    if rejected > notes.blocks {
        return Err(NotebookError::Line {
            line: last,
            what: "more blocks were rejected than cut.".to_owned(),
        });
    }
    Ok(notes)
}

/// The word at a place as a number, 0 or more.
fn number(entry: &Entry<'_>, place: usize) -> Result<f64, NotebookError> {
    let wanted = match entry.key {
        "broken" => "how many cutters broke and what one costs, such as: broken 1 12.50 flat-0.8.",
        "rejected" => "how many blocks were rejected and why, such as: rejected 4 chipped serif.",
        _ => "a number is wanted here.",
    };
    let word = entry.words.get(place).ok_or_else(|| entry.fault(wanted))?;
    match word.replace(',', ".").parse::<f64>() {
        Ok(number) if (0.0..=1e7).contains(&number) => Ok(number),
        Ok(_) | Err(_) => Err(entry.fault(wanted)),
    }
}

/// What losses come to.
///
/// Rejected blocks are counted beside what is usual, as if so many blocks had been cut before with the usual losses; a block that has
/// to be done again for each lost one is `p / (1 − p)` of the work. The range is that of the counted blocks alone.
///
/// # Source
/// The mean of a beta distribution, and the sum of a geometric series for blocks that are lost again: textbook. The range: E. B. Wilson, "Probable inference, the law of succession, and
/// statistical inference", 1927 (from memory).
pub fn judge(notes: &Notes) -> Judged {
    let rejected: f64 = notes.rejected.iter().map(|loss| loss.count).sum();
    let part = (rejected + USUAL_PART * USUAL_BLOCKS) / (notes.blocks + USUAL_BLOCKS);
    let again = part / (1.0 - part).max(MOST_PART);
    let cutters = (notes.work > 0.0).then(|| notes.cutters_cost / notes.work);
    let mut reasons = notes.rejected.clone();
    reasons.sort_by(|a, b| b.count.total_cmp(&a.count));
    Judged {
        breakage: (again + cutters.unwrap_or(0.0)).min(MOST_PART),
        rejected: rejected / notes.blocks.max(1.0),
        range: wilson(rejected, notes.blocks),
        cutters,
        reasons,
        broken: notes.broken.iter().map(|loss| loss.count).sum(),
    }
}

/// The range of a part that was counted.
///
/// # Source
/// E. B. Wilson, 1927, as [`judge`] says.
fn wilson(counted: f64, of: f64) -> [f64; 2] {
    /// Of the normal distribution, so that all but a twentieth lies within (textbook tables).
    const Z: f64 = 1.96;
    let of = of.max(1.0);
    let part = counted / of;
    let middle = part + Z * Z / (2.0 * of);
    let half = Z
        * (part * (1.0 - part) / of + Z * Z / (4.0 * of * of))
            .max(0.0)
            .sqrt();
    let whole = 1.0 + Z * Z / of;
    [
        ((middle - half) / whole).max(0.0),
        ((middle + half) / whole).min(1.0),
    ]
}

impl Judged {
    /// The outcome in lines: the verdict first.
    pub fn in_words(&self) -> Vec<Said> {
        let [least, most] = self.range.map(per_cent);
        let mut lines = vec![
            texts::reckon_breakage(per_cent(self.breakage)),
            texts::rejected(per_cent(self.rejected), least, most),
        ];
        if let Some(worst) = self.reasons.first().filter(|worst| worst.count > 0.0) {
            let reason = if worst.reason.is_empty() {
                texts::no_reason()
            } else {
                worst.reason.as_str().into()
            };
            lines.push(texts::most_lost(reason, Value::plain(worst.count, 0)));
        }
        match self.cutters {
            Some(part) if self.broken == 1.0 => lines.push(texts::one_cutter_broke(per_cent(part))),
            Some(part) if self.broken > 0.0 => {
                let broken = Value::plain(self.broken, 0);
                lines.push(texts::cutters_broke(broken, per_cent(part)));
            }
            None if self.broken > 0.0 => lines.push(texts::cutters_left_out()),
            Some(_) | None => {}
        }
        lines
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOTEBOOK: &str = "\
bench losses
blocks 200
blocks 100
work 2000
rejected 2 warped
rejected 9 chipped serif
broken 2 12,50 flat-0.8 in a plunge
";

    #[test]
    fn rejected_sorts_and_broken_cutters_make_the_breakage() {
        let judged = judge(&read(NOTEBOOK).unwrap());
        // (11 + 3) of (300 + 100) are lost, so 0.035 / 0.965 is done again; 25 of 2000 are cutters.
        assert!(
            (judged.breakage - (0.035 / 0.965 + 0.0125)).abs() < 1e-12,
            "{judged:?}"
        );
        assert_eq!(judged.reasons[0].reason, "chipped serif");
        assert!(judged.range[0] < 11.0 / 300.0 && judged.range[1] > 11.0 / 300.0);
        let words = judged.in_words();
        assert_eq!(words[0], "Reckon 4.9 % of the work on top for breakage.");
    }

    #[test]
    fn nothing_lost_is_not_nothing_to_fear() {
        let judged = judge(&read("bench losses\nblocks 20\n").unwrap());
        assert!(judged.breakage > 0.02 && judged.breakage < USUAL_PART);
        assert_eq!(judged.range[0], 0.0);
    }

    #[test]
    fn slips_of_the_pen_are_named_by_line() {
        for (from, to, said) in [
            ("rejected 2 warped", "rejected warped", "Line 5:"),
            ("broken 2 12,50", "broken 2", "Line 7:"),
            ("blocks 200\nblocks 100\n", "", "Say how many blocks"),
            (
                "blocks 200\nblocks 100\n",
                "blocks 5\n",
                "Line 6: more blocks",
            ),
            ("work", "worth", "Line 4: “worth”"),
        ] {
            let error = read(&NOTEBOOK.replace(from, to)).unwrap_err().to_string();
            assert!(error.starts_with(said), "{error}");
        }
    }
}
