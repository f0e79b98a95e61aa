//! Sentences that can be said in other languages: a text with named places, and what stands in them.
//!
//! What is said is the same in every language; how, each [`Tongue`] knows. English is always there: a [`Said`] reads like the English
//! string that comes of it, is compared and ordered by it, and files, papers and the command line have nothing else.

use std::borrow::Borrow;
use std::cmp::Ordering;
use std::fmt;
use std::ops::Deref;

/// Texts as functions of what stands in their places, and `ALL`, the list of them.
///
/// ```
/// mod texts {
///     said::texts! {
///         hangs_out(what, by) = "{what} hangs out by {by}.";
///     }
/// }
/// let said = texts::hangs_out("A", said::Value::rounded(1.5, 2));
/// assert_eq!(said.as_str(), "A hangs out by 1.50.");
/// assert_eq!(texts::ALL[0].name, "hangs_out");
/// ```
#[macro_export]
macro_rules! texts {
    ($( $name:ident($($place:ident),*) = $english:literal; )*) => {
        $(
            #[doc = $english]
            pub(crate) fn $name($($place: impl Into<$crate::Value>),*) -> $crate::Said {
                const PHRASE: $crate::Phrase = $crate::Phrase {
                    name: stringify!($name),
                    english: $english,
                    places: &[$(stringify!($place)),*],
                };
                $crate::Said::of(&PHRASE, vec![$($place.into()),*])
            }
        )*

        /// All of these texts, in this order.
        pub(crate) const ALL: &[$crate::Phrase] = &[
            $($crate::Phrase {
                name: stringify!($name),
                english: $english,
                places: &[$(stringify!($place)),*],
            }),*
        ];
    };
}

/// A number rounded to so many decimals, without idle zeros and without a minus before zero.
pub fn plain_number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// A text with named places, such as `It takes {width}, more than its set of {set}.`
#[derive(Debug, PartialEq, Eq)]
pub struct Phrase {
    /// A stable name, unlike that of all others.
    pub name: &'static str,
    /// The text in English; a place is its name in braces.
    pub english: &'static str,
    /// The names of its places, in the order in which values are given.
    pub places: &'static [&'static str],
}

impl Phrase {
    /// Whether each place stands in the English text, and nothing else is in braces there.
    pub fn is_whole(&self) -> bool {
        let braced = |place: &&str| format!("{{{place}}}");
        let has_all = self
            .places
            .iter()
            .all(|place| self.english.contains(&braced(place)));
        let bare = self
            .places
            .iter()
            .fold(self.english.to_owned(), |text, place| {
                text.replace(&braced(place), "")
            });
        has_all && !bare.contains(['{', '}'])
    }
}

/// What stands in a place of a text.
#[derive(Clone, Debug)]
pub enum Value {
    /// Names, ids, and what is not put into other languages.
    Words(String),
    /// Numbers and their units alone, as English writes them, such as `12.5 mm`.
    Figures(String),
    /// A part of the sentence that has a text of its own.
    Said(Said),
    /// Several, one after the other.
    List(Vec<Value>, Joint),
}

/// What stands between the values of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// `a, b, c`
    Comma,
    /// `a; b; c`
    Semicolon,
    /// `a, b and c`
    And,
}

/// A sentence, or a part of one.
#[derive(Clone, Debug, Default)]
pub struct Said {
    english: Box<str>,
    /// What it was made from; `None` of words that are there in English alone.
    told: Option<Box<(&'static Phrase, Vec<Value>)>>,
}

/// A language that sentences can be said in.
pub trait Tongue {
    /// A text with the same places; `None` if it is not known in this language, and stays English.
    fn text(&self, phrase: &Phrase) -> Option<&'static str>;

    /// Numbers and units, from how English writes them.
    fn figures(&self, english: &str) -> String;

    /// What stands between values; of [`Joint::And`], before the last of them.
    fn joint(&self, joint: Joint) -> &'static str;
}

/// English, as everything outside the window has it.
struct English;

impl Tongue for English {
    fn text(&self, phrase: &Phrase) -> Option<&'static str> {
        Some(phrase.english)
    }

    fn figures(&self, english: &str) -> String {
        english.to_owned()
    }

    fn joint(&self, joint: Joint) -> &'static str {
        match joint {
            Joint::Comma => ", ",
            Joint::Semicolon => "; ",
            Joint::And => " and ",
        }
    }
}

impl Said {
    /// A text with values in its places, one for each.
    pub fn of(phrase: &'static Phrase, values: Vec<Value>) -> Said {
        Said {
            english: filled(phrase.english, phrase, &values, &English).into(),
            told: Some(Box::new((phrase, values))),
        }
    }

    /// What it was made from, and what stands in its places; `None` of words that are there in English alone.
    pub fn told(&self) -> Option<(&'static Phrase, &[Value])> {
        let (phrase, values) = self.told.as_deref()?;
        Some((phrase, values))
    }

    /// The sentence in a language. A part that the language does not know is English.
    pub fn in_tongue(&self, tongue: &impl Tongue) -> String {
        let known = self
            .told()
            .and_then(|(phrase, values)| Some((phrase, values, tongue.text(phrase)?)));
        match known {
            Some((phrase, values, text)) => filled(text, phrase, values, tongue),
            None => self.english.to_string(),
        }
    }

    /// The sentence in English.
    pub fn as_str(&self) -> &str {
        &self.english
    }
}

/// A text with values in its places; braces that name no place stay.
fn filled(text: &str, phrase: &Phrase, values: &[Value], tongue: &impl Tongue) -> String {
    let mut out = String::with_capacity(2 * text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        out += before;
        let place = after.split_once('}').and_then(|(name, after)| {
            let number = phrase.places.iter().position(|place| *place == name)?;
            Some((values.get(number)?, after))
        });
        rest = match place {
            Some((value, after)) => {
                out += &value.in_tongue(tongue);
                after
            }
            None => {
                out.push('{');
                after
            }
        };
    }
    out + rest
}

impl Value {
    /// Numbers and units alone, as English writes them.
    pub fn figures(english: impl Into<String>) -> Value {
        Value::Figures(english.into())
    }

    /// A number with so many decimals.
    pub fn rounded(value: f64, decimals: usize) -> Value {
        Value::Figures(format!("{value:.decimals$}"))
    }

    /// A number with as few digits as tell it from all others.
    pub fn short(value: f64) -> Value {
        Value::Figures(value.to_string())
    }

    /// A number with at most so many decimals.
    pub fn plain(value: f64, decimals: usize) -> Value {
        Value::Figures(plain_number(value, decimals))
    }

    /// Millimetres with at most so many decimals.
    pub fn plain_mm(value: f64, decimals: usize) -> Value {
        Value::Figures(format!("{} mm", plain_number(value, decimals)))
    }

    /// Several values.
    pub fn list(values: impl IntoIterator<Item = impl Into<Value>>, joint: Joint) -> Value {
        Value::List(values.into_iter().map(Into::into).collect(), joint)
    }

    fn in_tongue(&self, tongue: &impl Tongue) -> String {
        match self {
            Value::Words(words) => words.clone(),
            Value::Figures(english) => tongue.figures(english),
            Value::Said(said) => said.in_tongue(tongue),
            Value::List(values, joint) => {
                let said: Vec<String> =
                    values.iter().map(|value| value.in_tongue(tongue)).collect();
                joined(&said, *joint, tongue)
            }
        }
    }
}

/// In English.
impl fmt::Display for Value {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(&self.in_tongue(&English))
    }
}

fn joined(said: &[String], joint: Joint, tongue: &impl Tongue) -> String {
    match (joint, said) {
        (Joint::And, [first @ .., last]) if !first.is_empty() => {
            let first = first.join(tongue.joint(Joint::Comma));
            format!("{first}{}{last}", tongue.joint(joint))
        }
        (Joint::Comma | Joint::Semicolon | Joint::And, all) => all.join(tongue.joint(joint)),
    }
}

impl From<&str> for Value {
    fn from(words: &str) -> Value {
        Value::Words(words.to_owned())
    }
}

impl From<&&str> for Value {
    fn from(words: &&str) -> Value {
        Value::Words((*words).to_owned())
    }
}

impl From<String> for Value {
    fn from(words: String) -> Value {
        Value::Words(words)
    }
}

impl From<&String> for Value {
    fn from(words: &String) -> Value {
        Value::Words(words.clone())
    }
}

impl From<Said> for Value {
    fn from(said: Said) -> Value {
        Value::Said(said)
    }
}

macro_rules! whole_numbers {
    ($($number:ty),*) => {
        $(impl From<$number> for Value {
            fn from(number: $number) -> Value {
                Value::Figures(number.to_string())
            }
        })*
    };
}
whole_numbers!(u16, u32, i64, usize);

/// Words that are there in English alone.
impl From<String> for Said {
    fn from(english: String) -> Said {
        Said {
            english: english.into(),
            told: None,
        }
    }
}

/// Words that are there in English alone.
impl From<&str> for Said {
    fn from(english: &str) -> Said {
        Said::from(english.to_owned())
    }
}

impl Deref for Said {
    type Target = str;

    fn deref(&self) -> &str {
        &self.english
    }
}

impl Borrow<str> for Said {
    fn borrow(&self) -> &str {
        &self.english
    }
}

impl fmt::Display for Said {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(&self.english)
    }
}

impl PartialEq for Said {
    fn eq(&self, other: &Said) -> bool {
        self.english == other.english
    }
}

impl Eq for Said {}

impl PartialEq<&str> for Said {
    fn eq(&self, other: &&str) -> bool {
        *self.english == **other
    }
}

impl PartialOrd for Said {
    fn partial_cmp(&self, other: &Said) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Said {
    fn cmp(&self, other: &Said) -> Ordering {
        self.english.cmp(&other.english)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A language with other signs and another order.
    struct Backwards;

    impl Tongue for Backwards {
        fn text(&self, phrase: &Phrase) -> Option<&'static str> {
            match phrase.name {
                "hangs" => Some("{by}: {name}"),
                _ => None,
            }
        }

        fn figures(&self, english: &str) -> String {
            english.replace('.', ",")
        }

        fn joint(&self, joint: Joint) -> &'static str {
            match joint {
                Joint::Comma => " / ",
                Joint::Semicolon => " // ",
                Joint::And => " & ",
            }
        }
    }

    const HANGS: Phrase = Phrase {
        name: "hangs",
        english: "{name} hangs out by {by}",
        places: &["name", "by"],
    };
    const OWN: Phrase = Phrase {
        name: "own",
        english: "a {thing} of {size}",
        places: &["thing", "size"],
    };

    #[test]
    fn a_sentence_reads_as_english_and_can_be_said_otherwise() {
        let said = Said::of(&HANGS, vec!["A.b {by}".into(), Value::rounded(1.25, 2)]);
        assert_eq!(&*said, "A.b {by} hangs out by 1.25");
        assert_eq!(format!("{said:>28}"), "  A.b {by} hangs out by 1.25");
        assert_eq!(said.in_tongue(&Backwards), "1,25: A.b {by}");
        assert_eq!(said, Said::from("A.b {by} hangs out by 1.25"));
    }

    #[test]
    fn what_a_language_lacks_stays_english_alone() {
        let own = Said::of(&OWN, vec!["block".into(), Value::plain_mm(1.5, 2)]);
        let list = Value::list([own.clone(), own.clone(), "x".into()], Joint::And);
        let said = Said::of(&HANGS, vec![list, 3_usize.into()]);
        assert_eq!(
            said.as_str(),
            "a block of 1.5 mm, a block of 1.5 mm and x hangs out by 3"
        );
        assert_eq!(
            said.in_tongue(&Backwards),
            "3: a block of 1.5 mm / a block of 1.5 mm & x"
        );
    }

    #[test]
    fn lists_of_none_and_of_one_have_nothing_between() {
        for joint in [Joint::Comma, Joint::Semicolon, Joint::And] {
            let said = |words: &[&str]| Value::list(words, joint).in_tongue(&English);
            assert_eq!(said(&[]), "");
            assert_eq!(said(&["a"]), "a");
        }
        assert_eq!(
            Value::list(["a", "b"], Joint::Semicolon).in_tongue(&English),
            "a; b"
        );
    }

    #[test]
    fn plain_numbers_are_short() {
        assert_eq!(plain_number(1.500, 3), "1.5");
        assert_eq!(plain_number(-0.0001, 3), "0");
        assert_eq!(plain_number(100.0, 0), "100");
    }

    #[test]
    fn braces_that_name_no_place_stay() {
        const ODD: Phrase = Phrase {
            name: "odd",
            english: "{ {none} {name",
            places: &["name"],
        };
        assert_eq!(Said::of(&ODD, vec!["x".into()]).as_str(), "{ {none} {name");
        assert!(!ODD.is_whole() && HANGS.is_whole());
        let lacking = Phrase {
            english: "out by {by}",
            ..HANGS
        };
        assert!(!lacking.is_whole());
    }
}
