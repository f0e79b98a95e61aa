//! Tables of proportions: how many of each letter belong to so many A.

use super::BillError;
use super::language::Language;

/// One part of a table: letters with their counts, and the count that they stand to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    weights: Vec<(String, u32)>,
    leading: u32,
}

/// The largest count of a table; the largest printed one is 18,000.
const MOST_WEIGHT: u32 = 1_000_000;

impl Part {
    /// From entries such as `A15 B6 Q3`: each a letter and its count without a blank between; several letters are their ligature
    /// (`ffi2`). The part's counts stand to so many of the letter `leading`, or, where the entries do not have it, to `otherwise`.
    ///
    /// # Errors
    /// An entry without letter or count, a count that cannot be meant, or no entries.
    pub fn read(entries: &str, leading: &str, otherwise: u32) -> Result<Part, BillError> {
        let mut weights: Vec<(String, u32)> = Vec::new();
        for entry in entries.split_whitespace() {
            let (letter, weight) = read_entry(entry)?;
            if weights.iter().any(|(known, _)| known == letter) {
                return Err(BillError::Twice(letter.to_owned()));
            }
            weights.push((letter.to_owned(), weight));
        }
        weights.retain(|(_, weight)| *weight > 0);
        if weights.is_empty() {
            return Err(BillError::Empty);
        }
        let found = weights.iter().find(|(letter, _)| letter == leading);
        let leading = found.map_or(otherwise.max(1), |(_, weight)| *weight);
        Ok(Part { weights, leading })
    }

    /// As [`Part::read`] takes it.
    pub fn show(&self) -> String {
        let entries = self.weights.iter();
        let entries = entries.map(|(letter, weight)| format!("{letter}{weight}"));
        entries.collect::<Vec<_>>().join(" ")
    }

    /// The letters, or letters joined, and their counts, in the order of the table; none is 0.
    pub fn weights(&self) -> &[(String, u32)] {
        &self.weights
    }

    /// The count of the leading letter that the others stand to; more than 0.
    pub fn leading(&self) -> u32 {
        self.leading
    }
}

/// The letter or letters of an entry, and its count. The first character is always the letter's: `15` is five of figure 1.
fn read_entry(entry: &str) -> Result<(&str, u32), BillError> {
    let first = entry.chars().next();
    let first = first.ok_or_else(|| BillError::NoLetter(entry.to_owned()))?;
    let rest = &entry[first.len_utf8()..];
    let more = rest.trim_start_matches(char::is_alphabetic);
    let (letter, count) = entry.split_at(entry.len() - more.len());
    let weight = count.parse().ok().filter(|&weight| weight <= MOST_WEIGHT);
    match weight {
        Some(weight) => Ok((letter, weight)),
        None => Err(BillError::NoWeight(entry.to_owned())),
    }
}

/// The proportions of a whole fount.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// Capitals and ampersand, by the count of A.
    pub capitals: Part,
    /// Lower-case, by the count of a.
    pub lower_case: Part,
    /// Figures, by the count of A.
    pub figures: Part,
    /// Points, by the count of A.
    pub points: Part,
    /// Ligatures, by the count of a.
    pub ligatures: Part,
    /// What founts hold in all, where that is printed instead of the letters' counts; empty elsewhere.
    pub totals: &'static [Totals],
}

/// A maker's own table of proportions, kept in the workshop: entries as [`Part::read`] takes them, by what each part is called. A part
/// that is left empty is the job fount's.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OwnTable {
    /// What the maker calls it.
    pub name: String,
    /// Where it comes from, as the maker wrote it.
    pub source: String,
    /// Capitals and ampersand, by the count of A.
    pub capitals: String,
    /// Lower-case, by the count of a.
    pub lower_case: String,
    /// Figures, by the count of A among the capitals.
    pub figures: String,
    /// Points, by the count of A among the capitals.
    pub points: String,
    /// Ligatures, by the count of a.
    pub ligatures: String,
}

impl OwnTable {
    /// The table.
    ///
    /// # Errors
    /// A part that cannot be read.
    pub fn table(&self) -> Result<Table, BillError> {
        let job = Proportions::JobFount.table();
        let part = |entries: &str, leading: &str, otherwise: &Part, of: u32| {
            if entries.trim().is_empty() {
                Ok(otherwise.clone())
            } else {
                Part::read(entries, leading, of)
            }
        };
        let capitals = part(&self.capitals, "A", &job.capitals, JOB_A)?;
        let lower_case = part(&self.lower_case, "a", &job.lower_case, JOB_SMALL_A)?;
        let [a, small_a] = [capitals.leading(), lower_case.leading()];
        Ok(Table {
            figures: part(&self.figures, "A", &job.figures, a)?,
            points: part(&self.points, "A", &job.points, a)?,
            ligatures: part(&self.ligatures, "a", &job.ligatures, small_a)?,
            capitals,
            lower_case,
            totals: &[],
        })
    }
}

/// How many sorts a fount holds, as printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Totals {
    /// The fount has so many A.
    pub a: u32,
    /// Capitals, with ampersand and points.
    pub capitals_and_points: u32,
    /// Lower-case.
    pub lower_case: u32,
    /// Figures.
    pub figures: u32,
}

/// Whose proportions.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Proportions {
    /// A job fount as a primer of 1918 prints it: few of each, so that single lines can be set.
    #[default]
    JobFount,
    /// Wood letter as it was sold about 1870: the whole number of sorts is printed, the share of each is the job fount's.
    WoodLetter,
    /// A fount for books, 800 lb of pica, of 1893: nearer to running English.
    BookFount,
    /// Running words of a language, the rare letters raised as in the job fount.
    Language(Language),
}

impl Proportions {
    /// All, in the order in which they are offered.
    pub fn all() -> Vec<Proportions> {
        let languages = Language::ALL.into_iter().map(Proportions::Language);
        [
            Proportions::JobFount,
            Proportions::WoodLetter,
            Proportions::BookFount,
        ]
        .into_iter()
        .chain(languages)
        .collect()
    }

    /// The one that a word stands for: the beginning of its name, or `job`, `wood`, `book`; capitals and small letters are the same.
    ///
    /// # Errors
    /// No name begins like that.
    pub fn named(word: &str) -> Result<Proportions, BillError> {
        let word = word.trim().to_lowercase();
        let short = |proportions: Proportions| match proportions {
            Proportions::JobFount => "job",
            Proportions::WoodLetter => "wood",
            Proportions::BookFount => "book",
            Proportions::Language(_) => "",
        };
        let meant = |proportions: &Proportions| {
            let name = proportions.name().to_lowercase();
            short(*proportions) == word || name.starts_with(&word)
        };
        let unknown = || BillError::UnknownProportions(word.clone());
        if word.is_empty() {
            return Err(unknown());
        }
        let found = Proportions::all().into_iter().find(meant);
        found.ok_or_else(unknown)
    }

    /// A name to choose it by.
    pub fn name(self) -> &'static str {
        match self {
            Proportions::JobFount => "English, job fount",
            Proportions::WoodLetter => "English, wood letter of 3A, 4A or 5A",
            Proportions::BookFount => "English, book fount",
            Proportions::Language(language) => language.name(),
        }
    }

    /// Where the table comes from, in a sentence.
    pub fn source(self) -> &'static str {
        match self {
            Proportions::JobFount => {
                "Proportions of a job fount 15A 30a: A. A. Stewart, Type: a primer, 1918, p. 11."
            }
            Proportions::WoodLetter => {
                "Founts of wood letter, 3A to 5A: J. Southward, A Dictionary of Typography, 1870–75, prints how many capitals with \
                 points, lower-case and figures each held in all. How they are shared out is after the job fount of 1918."
            }
            Proportions::BookFount => {
                "Proportions of 800 lb of pica for book work: T. MacKellar, The American Printer, 1893."
            }
            Proportions::Language(_) => {
                "Letters in running words after the word list wordfreq 3.1.1; no base letter less than a fifth of A, as in the job \
                 fount of 1918. Figures and points as there; points of the language alone as many as brackets, common practice."
            }
        }
    }

    /// The table.
    pub fn table(self) -> Table {
        match self {
            Proportions::JobFount => {
                table(JOB_CAPITALS, JOB_LOWER_CASE, JOB_FIGURES, JOB_POINTS, JOB_A)
            }
            Proportions::WoodLetter => Table {
                totals: &WOOD_LETTER,
                ..Proportions::JobFount.table()
            },
            Proportions::BookFount => table(
                BOOK_CAPITALS,
                BOOK_LOWER_CASE,
                BOOK_FIGURES,
                BOOK_POINTS,
                BOOK_A,
            ),
            Proportions::Language(language) => {
                let points = format!("{JOB_POINTS} {}", language.points());
                let [capitals, lower_case] = [language.capitals(), language.lower_case()];
                table(&capitals, &lower_case, JOB_FIGURES, &points, JOB_A)
            }
        }
    }
}

fn table(capitals: &str, lower_case: &str, figures: &str, points: &str, a: u32) -> Table {
    let part = |entries: &str, leading: &str, a: u32| {
        Part::read(entries, leading, a).expect("the tables of this crate are read by its tests")
    };
    Table {
        capitals: part(capitals, "A", a),
        lower_case: part(lower_case, "a", a),
        figures: part(figures, "A", a),
        points: part(points, "A", a),
        ligatures: part(JOB_LIGATURES, "a", JOB_SMALL_A),
        totals: &[],
    }
}

/// A fount of 15 A and 30 a.
///
/// # Source
/// A. A. Stewart, *Type: a primer*, Typographic Technical Series No. 1, 1918, p. 11: scheme of a job fount, 15A 30a. Closing brackets as
/// many as opening ones: common practice, no source.
const JOB_CAPITALS: &str =
    "A15 B6 C10 D8 E18 F7 G7 H8 I15 J5 K5 L10 M8 N15 O15 P8 Q3 R15 S15 T15 U8 V5 W6 X3 Y6 Z3 &6";
const JOB_LOWER_CASE: &str = "a30 b12 c16 d18 e40 f12 g12 h20 i30 j8 k8 l20 m16 n30 o30 p12 q6 r30 s30 t30 u16 v8 w12 x6 y12 z6";
const JOB_FIGURES: &str = "15 24 34 44 54 64 74 84 95 06";
const JOB_POINTS: &str = ".31 ,31 :6 ;6 -9 ’13 !9 ?8 (6 )6";
const JOB_LIGATURES: &str = "fi3 fl3 ff3 ffi2 ffl2";
const JOB_A: u32 = 15;
const JOB_SMALL_A: u32 = 30;

/// Founts of wood letter. That the capitals' number holds the ampersand and the points is read from its size: the source prints none
/// beside it, and the job fount's capitals, ampersand and points, closing brackets counted, come to 370, which is 74 for three of fifteen A.
///
/// # Source
/// J. Southward, *A Dictionary of Typography*, 1870–75, "A. Wood Type".
const WOOD_LETTER: [Totals; 3] = [
    Totals {
        a: 3,
        capitals_and_points: 74,
        lower_case: 64,
        figures: 26,
    },
    Totals {
        a: 4,
        capitals_and_points: 106,
        lower_case: 90,
        figures: 26,
    },
    Totals {
        a: 5,
        capitals_and_points: 120,
        lower_case: 104,
        figures: 26,
    },
];

/// 800 lb of pica. The source prints no ampersand; one to twelve A is common practice, no source.
///
/// # Source
/// T. MacKellar, *The American Printer*, 1893: bill of a fount for book work. Closing brackets as many as opening ones, and the
/// apostrophe as many as the semicolon: common practice, no source.
const BOOK_CAPITALS: &str = "A600 B400 C500 D500 E600 F400 G400 H400 I800 J300 K300 L500 M400 N400 O400 P400 Q180 R400 S500 T650 U300 V300 W400 X180 Y300 Z80 &50";
const BOOK_LOWER_CASE: &str = "a8500 b1600 c3000 d4400 e12000 f2500 g1700 h6400 i8000 j400 k800 l4000 m3000 n8000 o8000 p1700 q500 r6200 s8000 t9000 u3400 v1200 w2000 x400 y2000 z200";
const BOOK_FIGURES: &str = "11300 21200 31100 41000 51000 61000 71000 81000 91000 01300";
const BOOK_POINTS: &str = ".2000 ,4500 :600 ;800 -1000 ’800 !150 ?200 (300 )300 [150 ]150";
const BOOK_A: u32 = 600;
