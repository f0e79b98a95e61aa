//! What findings and the bench say, in the window's other languages: part by part and in the order of `cam_core::finding::texts` and `bench::texts`,
//! which have it in English.

mod bench;
mod blocks;
mod borders;
mod cutters;
mod cutting;
mod drawings;
mod faces;
mod job;
mod letters;
mod notches;
mod places;
mod planks;
mod programs;
mod replacement;
mod wood;

use said::{Joint, Phrase, Said, Tongue};
use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::{Language, SPOKEN, figures};

/// One text in the languages besides English.
struct Row {
    /// The name that it has where it is English.
    name: &'static str,
    french: &'static str,
    german: &'static str,
}

/// Texts in all languages but English, by name.
macro_rules! put_over {
    ($( $name:ident = $french:literal, $german:literal; )*) => {
        pub(super) const ROWS: &[super::Row] = &[
            $(super::Row {
                name: stringify!($name),
                french: $french,
                german: $german,
            }),*
        ];
    };
}
use put_over;

/// Every text there is, part by part.
const PARTS: [(&str, &[Row]); 15] = [
    ("places", places::ROWS),
    ("letters", letters::ROWS),
    ("faces", faces::ROWS),
    ("drawings", drawings::ROWS),
    ("blocks", blocks::ROWS),
    ("borders", borders::ROWS),
    ("notches", notches::ROWS),
    ("replacement", replacement::ROWS),
    ("planks", planks::ROWS),
    ("cutters", cutters::ROWS),
    ("cutting", cutting::ROWS),
    ("job", job::ROWS),
    ("programs", programs::ROWS),
    ("wood", wood::ROWS),
    ("bench", bench::ROWS),
];

static BY_NAME: LazyLock<BTreeMap<&'static str, &'static Row>> = LazyLock::new(|| {
    let rows = PARTS.iter().flat_map(|(_, rows)| *rows);
    rows.map(|row| (row.name, row)).collect()
});

/// What a finding or the bench says, in the language that is spoken.
pub fn said(said: &Said) -> String {
    said.in_tongue(&Spoken(SPOKEN.get()))
}

struct Spoken(Language);

impl Tongue for Spoken {
    fn text(&self, phrase: &Phrase) -> Option<&'static str> {
        let row = BY_NAME.get(phrase.name)?;
        match self.0 {
            Language::English => None,
            Language::French => Some(row.french),
            Language::German => Some(row.german),
        }
    }

    fn figures(&self, english: &str) -> String {
        figures(english)
    }

    fn joint(&self, joint: Joint) -> &'static str {
        match (joint, self.0) {
            (Joint::Comma, _) => ", ",
            (Joint::Semicolon, Language::French) => " ; ",
            (Joint::Semicolon, Language::English | Language::German) => "; ",
            (Joint::And, Language::English) => " and ",
            (Joint::And, Language::French) => " et ",
            (Joint::And, Language::German) => " und ",
        }
    }
}

#[cfg(test)]
mod tests;
