//! All texts of findings, in one place: each has a name, named places, and its English.
//!
//! A text is a function of what stands in its places, so that none can be left out; what comes of it is a [`Said`](said::Said), which the window says in the
//! language of its maker. [`PARTS`] has all of them, in the order of the files here, for those who put them into other languages.

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

use said::Phrase;

pub(crate) use blocks::*;
pub(crate) use borders::*;
pub(crate) use cutters::*;
pub(crate) use cutting::*;
pub(crate) use drawings::*;
pub(crate) use faces::*;
pub(crate) use job::*;
pub(crate) use letters::*;
pub(crate) use notches::*;
pub(crate) use places::*;
pub(crate) use planks::*;
pub(crate) use programs::*;
pub(crate) use replacement::*;
pub(crate) use wood::*;

/// Every text there is, part by part.
pub const PARTS: [(&str, &[Phrase]); 14] = [
    ("places", places::ALL),
    ("letters", letters::ALL),
    ("faces", faces::ALL),
    ("drawings", drawings::ALL),
    ("blocks", blocks::ALL),
    ("borders", borders::ALL),
    ("notches", notches::ALL),
    ("replacement", replacement::ALL),
    ("planks", planks::ALL),
    ("cutters", cutters::ALL),
    ("cutting", cutting::ALL),
    ("job", job::ALL),
    ("programs", programs::ALL),
    ("wood", wood::ALL),
];

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn each_text_has_a_name_of_its_own_and_every_place_it_is_given() {
        let mut names = BTreeSet::new();
        for phrase in PARTS.iter().flat_map(|(_, phrases)| *phrases) {
            assert!(names.insert(phrase.name), "{} is there twice", phrase.name);
            assert!(phrase.is_whole(), "{}", phrase.name);
        }
    }

    #[test]
    fn sentences_are_whole() {
        for phrase in PARTS.iter().flat_map(|(_, phrases)| *phrases) {
            let text = phrase.english;
            assert_eq!(text.trim(), text, "{}", phrase.name);
            assert!(!text.contains("  "), "{}", phrase.name);
            let begins = text.chars().next().is_some_and(char::is_uppercase);
            assert!(
                !begins || text.ends_with(['.', ')', ';', ':']),
                "{}: {text}",
                phrase.name
            );
        }
    }
}
