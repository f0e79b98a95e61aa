//! All texts of the window, in the languages it speaks.
//!
//! A text is a constant of type [`Text`], written in one of two ways: `spoken!` takes it in every language, so that one that lacks a
//! language does not compile; `english!` takes it in English alone, for what has not been put into the others yet. Views use a text
//! like a string; which language it comes in was said with [`speak`] at the beginning of the frame. Where values stand in a text, their
//! places are `{1}`, `{2}` and so on, in the order of [`Text::with`], since languages put them elsewhere. The spaces that French has beside
//! `;`, `:`, `?`, `!` and within `« »` are U+00A0, at which no line ends.
//!
//! A table in the program's own code is used, and no catalogue of messages: the texts are few hundred, all known when the program is
//! built, and none of them needs more than one plural.

mod actions;
mod asking;
pub mod bench;
pub mod block;
pub mod case;
mod changes;
pub mod cut;
mod findings;
mod frame;
mod handing;
mod joined;
mod numbers;
pub mod order;
pub mod papers;
pub mod plank;
mod plates;
pub mod proof;
mod run;
mod said;
pub mod sort_list;
mod start;
pub mod tracing;
pub mod workshop;

use std::cell::Cell;
use std::fmt;
use std::ops::Deref;

pub use crate::model::settings::Language;

pub use self::said::said;
pub use actions::*;
pub use asking::*;
pub use changes::change;
pub use findings::*;
pub use frame::*;
pub use handing::*;
pub use joined::*;
pub use numbers::*;
pub use plates::*;
pub use run::*;
pub use start::*;

/// One text in the languages there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Text {
    english: &'static str,
    french: Option<&'static str>,
    german: Option<&'static str>,
}

thread_local! {
    /// What the window on this thread speaks. Each frame says it anew, so windows in tests do not disturb each other.
    static SPOKEN: Cell<Language> = const { Cell::new(Language::English) };
}

/// Texts come in this language from now on, on this thread.
pub fn speak(language: Language) {
    SPOKEN.set(language);
}

impl Text {
    /// A text that is there in English alone.
    pub const fn english(english: &'static str) -> Text {
        Text {
            english,
            french: None,
            german: None,
        }
    }

    /// A text in all languages.
    pub const fn spoken(english: &'static str, french: &'static str, german: &'static str) -> Text {
        Text {
            english,
            french: Some(french),
            german: Some(german),
        }
    }

    /// The text in a language; in English if it was not put into that one yet.
    pub fn in_language(self, language: Language) -> &'static str {
        let known = match language {
            Language::English => None,
            Language::French => self.french,
            Language::German => self.german,
        };
        known.unwrap_or(self.english)
    }

    /// The text in the language that is spoken.
    pub fn said(self) -> &'static str {
        self.in_language(SPOKEN.get())
    }

    /// The text with values in its places.
    pub fn with(self, values: &[&str]) -> String {
        let mut text = self.said().to_owned();
        for (place, value) in values.iter().enumerate() {
            text = text.replace(&format!("{{{}}}", place + 1), value);
        }
        text
    }
}

impl Deref for Text {
    type Target = str;

    fn deref(&self) -> &str {
        self.said()
    }
}

impl AsRef<str> for Text {
    fn as_ref(&self) -> &str {
        self.said()
    }
}

impl fmt::Display for Text {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.said())
    }
}

impl From<Text> for String {
    fn from(text: Text) -> String {
        text.said().to_owned()
    }
}

impl From<Text> for egui::RichText {
    fn from(text: Text) -> egui::RichText {
        egui::RichText::new(text.said())
    }
}

impl From<Text> for egui::WidgetText {
    fn from(text: Text) -> egui::WidgetText {
        text.said().into()
    }
}

/// Texts in every language; one that lacks a language does not compile.
macro_rules! spoken {
    ($( $(#[$about:meta])* $name:ident = $english:literal, $french:literal, $german:literal; )*) => {
        $( $(#[$about])* pub const $name: $crate::view::words::Text = $crate::view::words::Text::spoken($english, $french, $german); )*
        #[cfg(test)]
        pub(in crate::view::words) const SPOKEN: &[(&str, $crate::view::words::Text)] = &[ $( (stringify!($name), $name) ),* ];
    };
}
use spoken;

/// The name of a language, in itself.
pub fn language(language: Language) -> &'static str {
    match language {
        Language::English => "English",
        Language::French => "Français",
        Language::German => "Deutsch",
    }
}

/// A number with its word.
pub fn counted(number: usize, one: Text, many: Text) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every text of the main path.
    fn main_path() -> Vec<(&'static str, Text)> {
        [
            actions::SPOKEN,
            asking::SPOKEN,
            bench::SPOKEN,
            block::SPOKEN,
            case::SPOKEN,
            changes::SPOKEN,
            cut::SPOKEN,
            order::again::SPOKEN,
            order::bill::SPOKEN,
            order::check::SPOKEN,
            order::customer::SPOKEN,
            order::cutter_sets::SPOKEN,
            order::cutting::SPOKEN,
            order::drawings::SPOKEN,
            order::face::SPOKEN,
            order::faces::SPOKEN,
            order::feeds::SPOKEN,
            order::notches::SPOKEN,
            order::otherwise::SPOKEN,
            order::planks::SPOKEN,
            order::price::SPOKEN,
            order::relief::SPOKEN,
            order::scheme::SPOKEN,
            order::size::SPOKEN,
            order::spaces::SPOKEN,
            order::specimen::SPOKEN,
            papers::SPOKEN,
            plank::SPOKEN,
            proof::SPOKEN,
            sort_list::SPOKEN,
            tracing::SPOKEN,
            findings::SPOKEN,
            frame::SPOKEN,
            handing::SPOKEN,
            joined::SPOKEN,
            plates::SPOKEN,
            run::SPOKEN,
            start::SPOKEN,
            workshop::clamps::SPOKEN,
            workshop::cutter::SPOKEN,
            workshop::cutter_picture::SPOKEN,
            workshop::list::SPOKEN,
            workshop::machine::SPOKEN,
            workshop::papers::SPOKEN,
            workshop::plank::SPOKEN,
            workshop::rates::SPOKEN,
            workshop::table::SPOKEN,
            workshop::wood::SPOKEN,
        ]
        .concat()
    }

    /// Whether no line can part from its word what French only sets off from it.
    fn parted_as_in_french(text: &str) -> bool {
        let before = |at: usize| text[..at].ends_with('\u{a0}');
        text.char_indices().all(|(at, sign)| match sign {
            ';' | ':' | '?' | '!' | '»' => before(at),
            '«' => text[at + sign.len_utf8()..].starts_with('\u{a0}'),
            _ => true,
        })
    }

    pub(super) fn assert_parted_as_in_french(name: &str, text: &str) {
        assert!(parted_as_in_french(text), "{name}: {text}");
    }

    /// The places for values in a text.
    fn places(text: &str) -> Vec<String> {
        let mut found: Vec<String> = (1..=9)
            .map(|number| format!("{{{number}}}"))
            .filter(|place| text.contains(place.as_str()))
            .collect();
        found.sort();
        found
    }

    #[test]
    fn the_main_path_is_whole_in_every_language() {
        let texts = main_path();
        assert!(texts.len() > 700, "{}", texts.len());
        for (name, text) in texts {
            assert!(text.french.is_some() && text.german.is_some(), "{name}");
            let english = text.english;
            assert_parted_as_in_french(name, text.in_language(Language::French));
            for language in Language::ALL {
                let said = text.in_language(language);
                assert!(
                    !said.trim().is_empty() && said.trim() == said,
                    "{name}: {said:?}"
                );
                assert_eq!(places(said), places(english), "{name}: {said}");
                assert_eq!(
                    said.ends_with('…'),
                    english.ends_with('…'),
                    "{name}: {said}"
                );
                assert_eq!(
                    said.ends_with('.'),
                    english.ends_with('.'),
                    "{name}: {said}"
                );
            }
        }
    }

    #[test]
    fn what_is_spoken_is_said_and_what_is_not_put_over_yet_is_english() {
        let text = Text::spoken(
            "Save {1} in {2}",
            "Dans {2}, enregistrer {1}",
            "{1} in {2} sichern",
        );
        let only = Text::english("Ramp");
        speak(Language::French);
        assert_eq!(text.with(&["a", "b"]), "Dans b, enregistrer a");
        assert_eq!(only.to_string(), "Ramp");
        speak(Language::German);
        assert_eq!(text.with(&["a", "b"]), "a in b sichern");
        speak(Language::English);
        assert_eq!(text.with(&["a", "b"]), "Save a in b");
    }
}
