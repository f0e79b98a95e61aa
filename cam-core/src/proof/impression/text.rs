//! A text parted into what a compositor takes from the case: sorts and spaces, line by line.

use std::collections::BTreeSet;

use super::{Fount, Impression};

/// One thing to be set.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// The sort that prints this text: a letter, or several joined in a ligature.
    Text(String),
    /// The sort of this name.
    Name(String),
    /// Spacing of a share of the body, and whether a line may be broken there.
    Space {
        /// Width, in bodies.
        ems: f64,
        /// Whether it is a space between words, at which a line may be broken.
        breaks: bool,
    },
}

/// Width of the space between words, in bodies: a third. Common practice, no source.
pub const WORD_SPACE: f64 = 1.0 / 3.0;

/// Spaces of other widths, in bodies (the Unicode Standard, block General Punctuation: en and em quad, en and em space,
/// three-, four- and six-per-em space, thin space as a fifth), and the tab as an em.
const OTHER_SPACES: [(char, f64); 9] = [
    ('\t', 1.0),
    ('\u{2000}', 0.5),
    ('\u{2001}', 1.0),
    ('\u{2002}', 0.5),
    ('\u{2003}', 1.0),
    ('\u{2004}', 1.0 / 3.0),
    ('\u{2005}', 0.25),
    ('\u{2006}', 1.0 / 6.0),
    ('\u{2009}', 0.2),
];

/// The most letters that one sort joins.
const MOST_JOINED: usize = 8;

/// The lines of a text as items. The longest text that some sort of the fount prints is taken first, so that ligatures are used
/// where there are any; `{name}` is the sort of that name, if there is one.
pub fn lines_of(fount: &Fount, text: &str) -> Vec<Vec<Item>> {
    let texts: BTreeSet<&str> = fount
        .impressions
        .iter()
        .map(Impression::whole_text)
        .collect();
    let names: BTreeSet<&str> = fount
        .impressions
        .iter()
        .flat_map(|one| [one.name.as_str(), one.letter.as_str()])
        .collect();
    text.lines()
        .map(|line| items(&texts, &names, line))
        .collect()
}

fn items(texts: &BTreeSet<&str>, names: &BTreeSet<&str>, line: &str) -> Vec<Item> {
    let mut items = Vec::new();
    let mut rest = line;
    // Each turn takes at least one character.
    while let Some(first) = rest.chars().next() {
        let (item, length) = braced(names, rest)
            .or_else(|| space(first))
            .unwrap_or_else(|| joined(texts, rest, first));
        items.push(item);
        rest = &rest[length..];
    }
    items
}

fn braced(names: &BTreeSet<&str>, rest: &str) -> Option<(Item, usize)> {
    let (name, _) = rest.strip_prefix('{')?.split_once('}')?;
    names
        .contains(name)
        .then(|| (Item::Name(name.to_owned()), name.len() + 2))
}

fn space(first: char) -> Option<(Item, usize)> {
    let other = OTHER_SPACES.iter().find(|(space, _)| *space == first);
    let (ems, breaks) = match other {
        Some((_, ems)) => (*ems, true),
        None if first.is_whitespace() => (WORD_SPACE, first != '\u{a0}'),
        None => return None,
    };
    Some((Item::Space { ems, breaks }, first.len_utf8()))
}

fn joined(texts: &BTreeSet<&str>, rest: &str, first: char) -> (Item, usize) {
    let ends = rest
        .char_indices()
        .map(|(at, character)| at + character.len_utf8());
    let lengths: Vec<usize> = ends.take(MOST_JOINED).collect();
    let longest = lengths
        .into_iter()
        .rev()
        .find(|&length| texts.contains(&rest[..length]));
    let length = longest.unwrap_or(first.len_utf8());
    (Item::Text(rest[..length].to_owned()), length)
}
