//! What lies in the case, and whether a text can be set from it.

use std::collections::BTreeMap;

use super::text::{Need, lines_of};
use crate::commission::{Commission, GlyphChoice};
use crate::measure::Length;

/// The most characters that one sort joins.
const MOST_JOINED: usize = 8;
/// The longest text that is checked, in characters: longer than a book is set from one fount.
const LONGEST_TEXT: usize = 1_000_000;

/// The sorts of one face by what they print, and the spaces.
///
/// Sorts that were chosen by a glyph's name or index print what only the font knows; they are counted apart and set no text here.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Case {
    sorts: BTreeMap<String, u32>,
    spaces: u32,
    has_spaces: bool,
    unread: u32,
}

/// What a text takes of one thing, and how much of it there is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Needed {
    /// A letter, or several joined in one sort.
    pub what: String,
    /// How many the text takes at one time.
    pub needed: u32,
    /// How many there are.
    pub has: u32,
}

impl Needed {
    /// How many are lacking.
    pub fn short(&self) -> u32 {
        self.needed.saturating_sub(self.has)
    }
}

/// A text laid against a case.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Checked {
    /// What the text takes, in the order of the characters' codes.
    pub letters: Vec<Needed>,
    /// Spaces between words that it takes at one time.
    pub gaps: u32,
    /// How many spaces for that the fount has; `None` if no spaces are ordered at all, so that the printer's own serve.
    pub spaces: Option<u32>,
    /// Sorts whose text only the font knows; none of them was counted on.
    pub unread: u32,
}

impl Checked {
    /// What is short, in the order of the characters' codes.
    pub fn short(&self) -> impl Iterator<Item = &Needed> {
        self.letters.iter().filter(|needed| needed.short() > 0)
    }

    /// How many spaces between words are lacking of those the fount was to have.
    pub fn short_of_spaces(&self) -> u32 {
        let has = self.spaces.unwrap_or(u32::MAX);
        self.gaps.saturating_sub(has)
    }

    /// Whether the letters suffice; spaces may be the printer's own.
    pub fn can_be_set(&self) -> bool {
        self.short().next().is_none()
    }

    /// How often the letters would set the text at one time; `None` for a text of none.
    pub fn times(&self) -> Option<u32> {
        let times = self.letters.iter().map(|one| one.has / one.needed.max(1));
        times.min()
    }
}

/// A space serves between words from a sixth to a half of the body. Common practice, no source.
const BETWEEN_WORDS: [f64; 2] = [1.0 / 6.0, 0.5];

impl Case {
    /// The case of one face of a commission.
    pub fn of(commission: &Commission, face: &str) -> Case {
        let mut case = Case::default();
        for line in commission.bill.iter().filter(|line| line.face == face) {
            let text = match &line.glyph {
                GlyphChoice::Character { character, .. } => character.to_string(),
                GlyphChoice::Ligature { text, .. } => text.clone(),
                GlyphChoice::Name(_) | GlyphChoice::Index(_) | GlyphChoice::Drawing => {
                    case.unread = case.unread.saturating_add(line.count);
                    continue;
                }
            };
            // Typed alike by everyone: an accent that stands by itself is joined to its letter.
            let text = lines_of(&text).concat();
            let count = case.sorts.entry(text).or_default();
            *count = count.saturating_add(line.count);
        }
        let body_mm = Length::lines(commission.lines, commission.system).in_mm();
        for line in commission.spaces.iter().filter(|line| line.count > 0) {
            case.has_spaces = true;
            let share = line.set.in_mm() / body_mm;
            if (BETWEEN_WORDS[0]..=BETWEEN_WORDS[1]).contains(&share) {
                case.spaces = case.spaces.saturating_add(line.count);
            }
        }
        case
    }

    /// Lays a text against the case: one line at a time, or all lines at once.
    ///
    /// Ligatures are used as long as there are any, the longest first; after that their letters are. A text that can be set only by
    /// taking a shorter ligature in one place, so that a longer one is free for another, is told as short.
    pub fn check(&self, text: &str, need: Need) -> Checked {
        let text: String = text.chars().take(LONGEST_TEXT).collect();
        let lines = lines_of(&text);
        let at_once: Vec<Vec<String>> = match need {
            Need::AnyLine => lines.into_iter().map(|line| vec![line]).collect(),
            Need::AllLines => vec![lines],
        };
        let mut most: BTreeMap<String, u32> = BTreeMap::new();
        let mut gaps = 0;
        for lines in at_once {
            let mut taken = BTreeMap::new();
            let mut of_lines = 0_u32;
            for line in &lines {
                self.take(line, &mut taken);
                of_lines = of_lines.saturating_add(gaps_of(line));
            }
            for (what, count) in taken {
                let needed = most.entry(what).or_default();
                *needed = count.max(*needed);
            }
            gaps = of_lines.max(gaps);
        }
        let letters = most.into_iter().map(|(what, needed)| Needed {
            has: self.sorts.get(&what).copied().unwrap_or(0),
            what,
            needed,
        });
        Checked {
            letters: letters.collect(),
            gaps,
            spaces: self.has_spaces.then_some(self.spaces),
            unread: self.unread,
        }
    }

    /// Takes a line's sorts out of the case.
    fn take(&self, line: &str, taken: &mut BTreeMap<String, u32>) {
        let mut rest = line;
        // Each turn takes at least one character.
        while let Some(first) = rest.chars().next() {
            if first.is_whitespace() || first.is_control() {
                rest = &rest[first.len_utf8()..];
                continue;
            }
            let length = self.joined(rest, taken).unwrap_or(first.len_utf8());
            let count = taken.entry(rest[..length].to_owned()).or_default();
            *count = count.saturating_add(1);
            rest = &rest[length..];
        }
    }

    /// Bytes of the longest beginning of several characters for which a sort is left.
    fn joined(&self, rest: &str, taken: &BTreeMap<String, u32>) -> Option<usize> {
        let ends = rest
            .char_indices()
            .map(|(at, character)| at + character.len_utf8());
        let lengths: Vec<usize> = ends.take(MOST_JOINED).skip(1).collect();
        lengths.into_iter().rev().find(|&length| {
            let what = &rest[..length];
            let has = self.sorts.get(what).copied().unwrap_or(0);
            has > taken.get(what).copied().unwrap_or(0)
        })
    }
}

/// Spaces between words: runs of blanks with letters on both sides.
fn gaps_of(line: &str) -> u32 {
    let words = line.split_whitespace().count();
    u32::try_from(words.saturating_sub(1)).unwrap_or(u32::MAX)
}
