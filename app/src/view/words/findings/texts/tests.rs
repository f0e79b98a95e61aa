use std::collections::BTreeSet;

use cam_core::finding::texts;

use super::super::super::speak;
use super::*;

/// The names of the places in a text.
fn places(text: &str) -> BTreeSet<&str> {
    let after_braces = text.split('{').skip(1);
    after_braces
        .filter_map(|rest| rest.split_once('}'))
        .map(|(name, _)| name)
        .collect()
}

#[test]
fn every_text_of_findings_is_there_in_every_language() {
    let names = |rows: &[Row]| -> Vec<&str> { rows.iter().map(|row| row.name).collect() };
    for ((part, phrases), (here, rows)) in texts::PARTS.iter().zip(PARTS) {
        assert_eq!(*part, here);
        let wanted: Vec<&str> = phrases.iter().map(|phrase| phrase.name).collect();
        assert_eq!(names(rows), wanted, "{part}");
    }
    assert_eq!(texts::PARTS.len(), PARTS.len());
}

#[test]
fn texts_in_other_languages_have_the_same_places_and_end_alike() {
    let phrases = texts::PARTS.iter().flat_map(|(_, phrases)| *phrases);
    let rows = PARTS.iter().flat_map(|(_, rows)| *rows);
    for (phrase, row) in phrases.zip(rows) {
        for text in [row.french, row.german] {
            assert_eq!(places(text), places(phrase.english), "{}: {text}", row.name);
            assert!(!text.is_empty() && text.trim() == text, "{}", row.name);
            let ends = |text: &str| text.ends_with('.');
            assert_eq!(ends(text), ends(phrase.english), "{}: {text}", row.name);
            assert!(!text.contains('\''), "{}: {text}", row.name);
        }
        // French parts these signs from the word before them.
        let close = row.french.char_indices().filter(|(at, sign)| {
            [';', ':', '?', '!', '»'].contains(sign) && !row.french[..*at].ends_with(' ')
        });
        assert_eq!(close.count(), 0, "{}: {}", row.name, row.french);
    }
}

#[test]
fn a_finding_of_several_parts_is_said_whole() {
    let worded = |english: &str| cam_core::finding::Said::from(english);
    speak(Language::German);
    // Words that have no text of their own stay.
    assert_eq!(said(&worded("It is 1.5 mm.")), "It is 1.5 mm.");
    assert_eq!(figures("1.5 lines"), "1,5 Zeilen");
    speak(Language::English);
    assert_eq!(figures("1.5 lines"), "1.5 lines");
}
