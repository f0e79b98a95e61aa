use std::collections::BTreeSet;

use super::super::speak;
use super::super::tests::assert_parted_as_in_french;
use super::*;

/// Every text there is in English, part by part.
fn in_english() -> Vec<(&'static str, &'static [Phrase])> {
    let mut parts = cam_core::finding::texts::PARTS.to_vec();
    parts.push(("bench", ::bench::texts::EVERY));
    parts
}

/// The names of the places in a text.
fn places(text: &str) -> BTreeSet<&str> {
    let after_braces = text.split('{').skip(1);
    after_braces
        .filter_map(|rest| rest.split_once('}'))
        .map(|(name, _)| name)
        .collect()
}

#[test]
fn every_text_is_there_in_every_language() {
    let names = |rows: &[Row]| -> Vec<&str> { rows.iter().map(|row| row.name).collect() };
    for ((part, phrases), (here, rows)) in in_english().into_iter().zip(PARTS) {
        assert_eq!(part, here);
        let wanted: Vec<&str> = phrases.iter().map(|phrase| phrase.name).collect();
        assert_eq!(names(rows), wanted, "{part}");
    }
    assert_eq!(in_english().len(), PARTS.len());
    let all: usize = PARTS.iter().map(|(_, rows)| rows.len()).sum();
    assert_eq!(BY_NAME.len(), all, "a name is there twice");
}

#[test]
fn texts_in_other_languages_have_the_same_places_and_end_alike() {
    let phrases = in_english();
    let phrases = phrases.iter().flat_map(|(_, phrases)| *phrases);
    let rows = PARTS.iter().flat_map(|(_, rows)| *rows);
    for (phrase, row) in phrases.zip(rows) {
        for text in [row.french, row.german] {
            assert_eq!(places(text), places(phrase.english), "{}: {text}", row.name);
            assert!(!text.is_empty() && text.trim() == text, "{}", row.name);
            let ends = |text: &str| text.ends_with('.');
            assert_eq!(ends(text), ends(phrase.english), "{}: {text}", row.name);
            assert!(!text.contains('\''), "{}: {text}", row.name);
        }
        assert_parted_as_in_french(row.name, row.french);
    }
}

#[test]
fn what_the_bench_says_is_said_with_a_decimal_comma() {
    let notebook = ::bench::example(::bench::notebook::Kind::Height);
    let judged = ::bench::judge(notebook).expect("the example is judged");
    let lines = judged.in_words();
    let spoken = |language| {
        speak(language);
        lines.iter().map(said).collect::<Vec<String>>()
    };
    let in_english: Vec<String> = lines.iter().map(ToString::to_string).collect();
    assert_eq!(spoken(Language::English), in_english);
    let mean = |lines: &[String], word: &str| {
        let found = lines.iter().find(|line| line.starts_with(word));
        found.expect("a line of the mean").clone()
    };
    let english = mean(&in_english, "Mean ");
    let german = mean(&spoken(Language::German), "Mittel ");
    let french = mean(&spoken(Language::French), "Moyenne ");
    speak(Language::English);
    let numbers = |line: &str| -> Vec<String> {
        let words = line.split([' ', ';']);
        let found = words.filter(|word| word.starts_with(|sign: char| sign.is_ascii_digit()));
        found.map(str::to_owned).collect()
    };
    let with_commas: Vec<String> = numbers(&english)
        .iter()
        .map(|number| number.replace('.', ","))
        .collect();
    assert!(with_commas.len() >= 4, "{english}");
    assert_eq!(numbers(&german), with_commas);
    assert_eq!(numbers(&french), with_commas);
}

#[test]
fn figures_have_the_sign_and_the_units_of_the_language() {
    speak(Language::German);
    // Words that have no text of their own stay.
    assert_eq!(said(&Said::from("It is 1.5 mm.")), "It is 1.5 mm.");
    assert_eq!(figures("1.5 lines"), "1,5 Zeilen");
    speak(Language::English);
    assert_eq!(figures("1.5 lines"), "1.5 lines");
}
