//! Numbers as the language writes them: the one place where a decimal comma takes the point's place, and a unit its name in that language.

use cam_core::measure::{Length, System, Unit};

use super::{Language, SPOKEN};

/// Units that have a name of their own, by the language: many of them before one.
const NAMES: [(Language, &str, &str); 4] = [
    (Language::French, "lines", "lignes"),
    (Language::French, "line", "ligne"),
    (Language::German, "lines", "Zeilen"),
    (Language::German, "line", "Zeile"),
];

/// The sign before the decimals in the language that is spoken.
fn sign() -> char {
    match SPOKEN.get() {
        Language::English => '.',
        Language::French | Language::German => ',',
    }
}

/// What the program's own formatting gave, with the decimal sign of the language. It must hold numbers and units alone, no names.
fn signed(text: String) -> String {
    match sign() {
        '.' => text,
        sign => text.replace('.', &sign.to_string()),
    }
}

/// A number with so many decimals.
pub fn figure(value: f64, decimals: usize) -> String {
    signed(format!("{value:.decimals$}"))
}

/// A number as short as it can be written.
pub fn short_figure(value: f64) -> String {
    signed(value.to_string())
}

/// A length with its unit.
pub fn measured(length: Length, unit: Unit, system: System) -> String {
    figures(&length.show(unit, system))
}

/// Numbers and a unit, from how English writes them.
pub fn figures(english: &str) -> String {
    let mut shown = signed(english.to_owned());
    for (_, name, here) in names() {
        if let Some(number) = shown.strip_suffix(name) {
            shown = format!("{number}{here}");
        }
    }
    shown
}

/// What the maker typed where a number is asked for, with the decimal point and the names of units that are read.
pub fn typed_figures(text: &str) -> String {
    let read = match sign() {
        '.' => text.to_owned(),
        sign => text.replace(sign, "."),
    };
    names().fold(read, |read, (_, name, here)| read.replace(here, name))
}

/// The units' names in the language that is spoken.
fn names() -> impl Iterator<Item = (Language, &'static str, &'static str)> {
    let spoken = SPOKEN.get();
    NAMES
        .into_iter()
        .filter(move |(language, _, _)| *language == spoken)
}

#[cfg(test)]
mod tests {
    use super::super::speak;
    use super::*;

    #[test]
    fn decimals_come_and_are_taken_as_the_language_writes_them() {
        let length = Length::mm(0.5);
        for (language, half, long) in [
            (Language::English, "1.50", "0.5 mm"),
            (Language::French, "1,50", "0,5 mm"),
            (Language::German, "1,50", "0,5 mm"),
        ] {
            speak(language);
            assert_eq!(figure(1.5, 2), half);
            assert_eq!(measured(length, Unit::Millimetre, System::Pica), long);
            assert_eq!(typed_figures(long), "0.5 mm");
            assert_eq!(typed_figures("0.5 mm"), "0.5 mm");
            assert_eq!(short_figure(10.0), "10");
            let eight = measured(Length::pica_points(96.0), Unit::Line, System::Pica);
            assert_eq!(typed_figures(&eight), "8 lines", "{eight}");
            let one = measured(Length::pica_points(12.0), Unit::Line, System::Pica);
            assert_eq!(typed_figures(&one), "1 line", "{one}");
        }
        speak(Language::English);
    }
}
