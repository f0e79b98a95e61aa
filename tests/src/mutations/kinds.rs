//! The kinds of mutation.

use super::text::{everywhere, joined, number as value_of, with_number, with_word, without_word};
use super::{Choice, Mutation, Texts};

/// Axes and offsets.
const LETTERS: [char; 5] = ['X', 'Y', 'Z', 'I', 'J'];

/// Most lines of a stretch that is moved, lost or shifted.
const LONGEST_STRETCH: usize = 200;

macro_rules! kinds {
    ($($kind:ident $says:literal,)*) => {
        /// A kind of mutation.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Kind {
            $(#[doc = $says] $kind,)*
        }

        impl Kind {
            /// Every kind.
            pub const ALL: &[Kind] = &[$(Kind::$kind,)*];

            /// The kind in words.
            pub const fn says(self) -> &'static str {
                match self {
                    $(Kind::$kind => $says,)*
                }
            }
        }
    };
}

kinds! {
    LineLost "a line lost",
    LineDoubled "a line doubled",
    LinesSwapped "two lines that follow each other swapped",
    StretchLost "a stretch of up to 200 lines lost",
    StretchMoved "a stretch of up to 200 lines moved elsewhere",
    StretchOfOther "a stretch of another file put in",
    SignTurned "a sign turned",
    DigitChanged "a digit changed",
    PointMoved "a decimal point moved",
    WordLost "a word of an axis lost",
    LetterChanged "X for Y, Y for X or I for J",
    RapidForFeed "G0 for G1",
    FeedForRapid "G1 for G0",
    ArcReversed "G2 for G3, or G3 for G2",
    ArcForLine "G2 for G1",
    LineForArc "G1 for an arc",
    Inches "inches for millimetres",
    UnitsLost "no word on units",
    Incremental "G91 for G90",
    OtherPlane "G18 for G17",
    OtherZero "G55 for G54",
    FeedLost "a feed left out",
    FeedsLost "all feeds left out",
    FeedTimesTen "a feed ten times too high",
    FeedsHigher "all feeds higher by a half",
    SpindleOff "the spindle not started",
    SpindleBackward "the spindle backward",
    SpindleSlow "the spindle at a third of its speed",
    SpindleFast "the spindle at twice its speed",
    SpinUpLost "no time to spin up",
    SpindleNotStopped "the spindle not stopped",
    EndLost "no M30",
    DepthDoubled "a depth doubled",
    DepthsDoubled "all depths doubled",
    Deeper "all depths more by 0.05 mm",
    Shallower "all depths less by 0.05 mm",
    StretchAside "a stretch aside by 0.05 mm",
    FileAside "a whole file aside by 0.05 mm",
    Larger "a whole file larger by 0.1 %",
    Mirrored "a whole file mirrored",
    ClearLowered "the clear height lowered",
    HopLowered "a rapid move lowered",
    FilesSwapped "two files swapped",
    WrongCutter "another cutter's file",
    FileEmptied "a file emptied",
    FileCutOff "a file cut off",
    TailLost "the end of the cuts lost, with a proper end",
}

impl Kind {
    /// How many different ones there are at the most for so many files; `None` where they are without number.
    pub fn most(self, files: usize) -> Option<usize> {
        match self {
            Kind::Inches
            | Kind::UnitsLost
            | Kind::Incremental
            | Kind::OtherPlane
            | Kind::OtherZero
            | Kind::FeedsLost
            | Kind::FeedsHigher
            | Kind::SpindleOff
            | Kind::SpindleBackward
            | Kind::SpindleSlow
            | Kind::SpindleFast
            | Kind::SpinUpLost
            | Kind::SpindleNotStopped
            | Kind::EndLost
            | Kind::DepthsDoubled
            | Kind::Deeper
            | Kind::Shallower
            | Kind::Larger
            | Kind::Mirrored
            | Kind::ClearLowered
            | Kind::FileEmptied => Some(files),
            Kind::FileAside => Some(4 * files),
            Kind::FilesSwapped | Kind::WrongCutter => Some(files * files.saturating_sub(1) / 2),
            Kind::LineLost
            | Kind::LineDoubled
            | Kind::LinesSwapped
            | Kind::StretchLost
            | Kind::StretchMoved
            | Kind::StretchOfOther
            | Kind::SignTurned
            | Kind::DigitChanged
            | Kind::PointMoved
            | Kind::WordLost
            | Kind::LetterChanged
            | Kind::RapidForFeed
            | Kind::FeedForRapid
            | Kind::ArcReversed
            | Kind::ArcForLine
            | Kind::LineForArc
            | Kind::FeedLost
            | Kind::FeedTimesTen
            | Kind::DepthDoubled
            | Kind::StretchAside
            | Kind::HopLowered
            | Kind::FileCutOff
            | Kind::TailLost => None,
        }
    }

    /// Makes one.
    pub(super) fn apply(self, texts: &Texts, number: u64, choice: &mut Choice) -> Option<Mutation> {
        let files: Vec<&String> = texts.keys().collect();
        if files.is_empty() {
            return None;
        }
        // Each file in its turn where there is little to choose.
        let chosen = match self.most(files.len()) {
            Some(_) => number as usize % files.len(),
            None => choice.below(files.len()),
        };
        let file = files[chosen];
        let text = &texts[file];
        let by_line = |choice: &mut Choice,
                       change: &dyn Fn(&str, &mut Choice) -> Option<String>| {
            one_line(file, text, choice, change)
        };
        let whole = |what: &str, text: String| {
            Some(Mutation {
                what: format!("{file}: {what}"),
                texts: Texts::from([(file.clone(), text)]),
            })
        };
        let word = |from: &'static str, to: &'static str| {
            whole(
                &format!("{from} -> {to}"),
                everywhere(text, |line| with_word(line, from, to)),
            )
        };
        match self {
            Kind::LineLost => by_line(choice, &|_, _| Some(String::new())),
            Kind::LineDoubled => by_line(choice, &|line, _| Some(format!("{line}\n{line}"))),
            Kind::LinesSwapped => {
                let mut lines: Vec<&str> = text.lines().collect();
                let at = choice.below(lines.len() - 1);
                lines.swap(at, at + 1);
                whole(
                    &format!("lines {} and {} swapped", at + 1, at + 2),
                    joined(&lines),
                )
            }
            Kind::StretchLost => {
                let (mut lines, at, end) = stretch(text, choice);
                lines.drain(at..end);
                whole(&format!("lines {} to {end} lost", at + 1), joined(&lines))
            }
            Kind::StretchMoved => {
                let (mut lines, at, end) = stretch(text, choice);
                let moved: Vec<&str> = lines.drain(at..end).collect();
                let to = choice.below(lines.len());
                lines.splice(to..to, moved);
                whole(
                    &format!("lines {} to {end} moved to {}", at + 1, to + 1),
                    joined(&lines),
                )
            }
            Kind::StretchOfOther => {
                let other = files[choice.below(files.len())];
                let (from, at, end) = stretch(&texts[other], choice);
                let mut lines: Vec<&str> = text.lines().collect();
                let to = choice.below(lines.len());
                lines.splice(to..to, from[at..end].iter().copied());
                whole(
                    &format!("lines {} to {end} of {other} put in at {}", at + 1, to + 1),
                    joined(&lines),
                )
            }
            Kind::SignTurned => by_line(choice, &|line, choice| {
                with_number(line, *choice.one_of(&LETTERS), |value| -value)
            }),
            Kind::DigitChanged => by_line(choice, &digit_changed),
            Kind::PointMoved => by_line(choice, &|line, choice| {
                let by = *choice.one_of(&[0.1, 10.0]);
                with_number(line, *choice.one_of(&LETTERS), |value| value * by)
            }),
            Kind::WordLost => by_line(choice, &|line, choice| {
                without_word(line, *choice.one_of(&LETTERS))
            }),
            Kind::LetterChanged => by_line(choice, &|line, choice| {
                let (from, to) = *choice.one_of(&[("X", "Y"), ("Y", "X"), ("I", "J")]);
                let coded = line.starts_with('G') && line.contains(from);
                coded.then(|| line.replacen(from, to, 1))
            }),
            Kind::RapidForFeed => by_line(choice, &|line, _| {
                let line = with_word(line, "G1", "G0")?;
                Some(without_word(&line, 'F').unwrap_or(line))
            }),
            Kind::FeedForRapid => by_line(choice, &|line, _| with_word(line, "G0", "G1")),
            Kind::ArcReversed => by_line(choice, &|line, _| {
                with_word(line, "G2", "G3").or_else(|| with_word(line, "G3", "G2"))
            }),
            Kind::ArcForLine => by_line(choice, &|line, _| with_word(line, "G1", "G2")),
            Kind::LineForArc => by_line(choice, &|line, _| {
                let line = with_word(line, "G2", "G1").or_else(|| with_word(line, "G3", "G1"))?;
                without_word(&without_word(&line, 'I')?, 'J')
            }),
            Kind::Inches => word("G21", "G20"),
            Kind::UnitsLost => word("G21", ""),
            Kind::Incremental => word("G90", "G91"),
            Kind::OtherPlane => word("G17", "G18"),
            Kind::OtherZero => word("G54", "G55"),
            Kind::FeedLost => by_line(choice, &|line, _| without_word(line, 'F')),
            Kind::FeedsLost => whole("no feeds", everywhere(text, |line| without_word(line, 'F'))),
            Kind::FeedTimesTen => by_line(choice, &|line, _| {
                with_number(line, 'F', |feed| 10.0 * feed)
            }),
            Kind::FeedsHigher => whole(
                "feeds by a half",
                everywhere(text, |line| with_number(line, 'F', |feed| 1.5 * feed)),
            ),
            Kind::SpindleOff => word("M3", "M5"),
            Kind::SpindleBackward => word("M3", "M4"),
            Kind::SpindleSlow => whole(
                "a third of the speed",
                everywhere(text, |line| {
                    with_number(line, 'S', |speed| (speed / 3.0).round())
                }),
            ),
            Kind::SpindleFast => whole(
                "twice the speed",
                everywhere(text, |line| with_number(line, 'S', |speed| 2.0 * speed)),
            ),
            Kind::SpinUpLost => whole(
                "no G4",
                everywhere(text, |line| line.starts_with("G4").then(String::new)),
            ),
            Kind::SpindleNotStopped => {
                whole("no M5", everywhere(text, |line| with_word(line, "M5", "")))
            }
            Kind::EndLost => word("M30", ""),
            Kind::DepthDoubled => by_line(choice, &|line, _| {
                let (_, _, depth) = value_of(line, 'Z')?;
                (depth < 0.0).then(|| with_number(line, 'Z', |depth| 2.0 * depth))?
            }),
            Kind::DepthsDoubled => whole("depths doubled", depths(text, |depth| 2.0 * depth)),
            Kind::Deeper => whole("0.05 mm deeper", depths(text, |depth| depth - 0.05)),
            Kind::Shallower => whole("0.05 mm shallower", depths(text, |depth| depth + 0.05)),
            Kind::StretchAside => {
                let (lines, at, end) = stretch(text, choice);
                let letter = *choice.one_of(&['X', 'Y']);
                let by = *choice.one_of(&[0.05, -0.05]);
                let lines: Vec<String> = lines
                    .iter()
                    .enumerate()
                    .map(|(index, line)| {
                        let inside = (at..end).contains(&index);
                        inside
                            .then(|| with_number(line, letter, |place| place + by))
                            .flatten()
                            .unwrap_or_else(|| (*line).to_owned())
                    })
                    .collect();
                whole(
                    &format!("lines {} to {end} moved by {letter}{by}", at + 1),
                    joined(&lines),
                )
            }
            Kind::FileAside => {
                let letter = *choice.one_of(&['X', 'Y']);
                let by = *choice.one_of(&[0.05, -0.05]);
                whole(
                    &format!("moved by {letter}{by}"),
                    everywhere(text, |line| with_number(line, letter, |place| place + by)),
                )
            }
            Kind::Larger => whole("larger", scaled(text, 1.001)),
            Kind::Mirrored => whole("mirrored", mirrored(text)),
            Kind::ClearLowered => {
                let clear = text
                    .lines()
                    .filter_map(|line| value_of(line, 'Z'))
                    .map(|(_, _, height)| height)
                    .fold(0.0, f64::max);
                let lower = *choice.one_of(&[0.1, -0.5]);
                whole(
                    &format!("clear height {lower}"),
                    everywhere(text, |line| {
                        with_number(
                            line,
                            'Z',
                            |height| if height == clear { lower } else { height },
                        )
                    }),
                )
            }
            Kind::HopLowered => by_line(choice, &|line, _| {
                let (_, _, height) = value_of(line, 'Z')?;
                let rapid = line.starts_with("G0") && height > 0.0;
                rapid.then(|| with_number(line, 'Z', |height| height - 2.5))?
            }),
            Kind::FilesSwapped => {
                let other = files[choice.below(files.len())];
                Some(Mutation {
                    what: format!("{file} and {other} swapped"),
                    texts: Texts::from([
                        (file.clone(), texts[other].clone()),
                        (other.clone(), text.clone()),
                    ]),
                })
            }
            Kind::WrongCutter => {
                let other = files[choice.below(files.len())];
                whole(&format!("the text of {other}"), texts[other].clone())
            }
            Kind::FileEmptied => whole("emptied", String::new()),
            Kind::FileCutOff => {
                let lines: Vec<&str> = text.lines().collect();
                let kept = choice.below(lines.len());
                whole(
                    &format!("cut off after line {kept}"),
                    joined(&lines[..kept]),
                )
            }
            Kind::TailLost => {
                let mut lines: Vec<&str> = text.lines().collect();
                let kept = choice.below(lines.len().saturating_sub(12)) + 10;
                let tail = lines.len() - 3;
                if kept < tail {
                    lines.drain(kept..tail);
                }
                whole(
                    &format!("lines {} to {tail} lost", kept + 1),
                    joined(&lines),
                )
            }
        }
    }
}

/// Changes one line: the first from a place chosen that the change applies to. An empty line is a lost one.
fn one_line(
    file: &str,
    text: &str,
    choice: &mut Choice,
    change: &dyn Fn(&str, &mut Choice) -> Option<String>,
) -> Option<Mutation> {
    let lines: Vec<&str> = text.lines().collect();
    let start = choice.below(lines.len());
    (start..lines.len()).chain(0..start).find_map(|at| {
        let changed = change(lines[at], choice).filter(|changed| changed != lines[at])?;
        let text: String = lines
            .iter()
            .enumerate()
            .map(|(index, line)| if index == at { changed.as_str() } else { line })
            .filter(|line| !line.is_empty())
            .map(|line| format!("{line}\n"))
            .collect();
        Some(Mutation {
            what: format!("{file}:{}: {} -> {changed:?}", at + 1, lines[at]),
            texts: Texts::from([(file.to_owned(), text)]),
        })
    })
}

/// The lines of a text, and where a stretch of them begins and ends.
fn stretch<'t>(text: &'t str, choice: &mut Choice) -> (Vec<&'t str>, usize, usize) {
    let lines: Vec<&str> = text.lines().collect();
    let at = choice.below(lines.len());
    let end = (at + 1 + choice.below(LONGEST_STRETCH)).min(lines.len());
    (lines, at, end)
}

/// One digit of a number of an axis or a feed is another.
fn digit_changed(line: &str, choice: &mut Choice) -> Option<String> {
    if !line.starts_with('G') {
        return None;
    }
    let (start, end, _) = value_of(line, *choice.one_of(&['X', 'Y', 'Z', 'I', 'J', 'F']))?;
    let digits: Vec<usize> = (start..end)
        .filter(|at| line.as_bytes()[*at].is_ascii_digit())
        .collect();
    let at = *choice.one_of(&digits);
    let digit = line.as_bytes()[at] - b'0';
    let other = (digit + 1 + choice.below(9) as u8) % 10;
    Some(format!("{}{other}{}", &line[..at], &line[at + 1..]))
}

/// Every place below the face at another depth.
fn depths(text: &str, change: impl Fn(f64) -> f64) -> String {
    everywhere(text, |line| {
        with_number(line, 'Z', |height| {
            if height < 0.0 { change(height) } else { height }
        })
    })
}

/// Every place and every centre of an arc by a factor.
fn scaled(text: &str, by: f64) -> String {
    everywhere(text, |line| {
        let changed = ['X', 'I', 'Y', 'J']
            .into_iter()
            .fold(line.to_owned(), |line, letter| {
                with_number(&line, letter, |value| value * by).unwrap_or(line)
            });
        Some(changed)
    })
}

/// Left for right, about the middle of what it cuts.
fn mirrored(text: &str) -> String {
    let places = || text.lines().filter_map(|line| value_of(line, 'X'));
    let least = places().map(|(_, _, x)| x).fold(f64::INFINITY, f64::min);
    let most = places()
        .map(|(_, _, x)| x)
        .fold(f64::NEG_INFINITY, f64::max);
    everywhere(text, |line| {
        let line = with_word(line, "G2", "G3")
            .or_else(|| with_word(line, "G3", "G2"))
            .unwrap_or_else(|| line.to_owned());
        let line = with_number(&line, 'X', |x| least + most - x).unwrap_or(line);
        Some(with_number(&line, 'I', |i| -i).unwrap_or(line))
    })
}
