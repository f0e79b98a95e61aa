//! Spaces and quads: their widths on a body, and how many a text or a fount needs, worked out from the sorts' sets.

use std::collections::BTreeMap;

use super::table::Proportions;
use super::text::{Need, lines_of};
use crate::commission::{BlockRules, Commission, SpaceLine};
use crate::material::{Piece, QUARTERS, Sums, WIDEST, pieces, quarters};
use crate::measure::{Length, POINTS_PER_LINE, System};
use crate::sort::Sort;

/// A space or quad, by its share of the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SpaceKind {
    /// As wide as the body.
    Em,
    /// Half of it.
    En,
    /// A third: the usual space between words.
    Third,
    /// A quarter.
    Quarter,
    /// A fifth.
    Fifth,
    /// A sixth.
    Sixth,
}

impl SpaceKind {
    /// All, the widest first.
    pub const ALL: [SpaceKind; 6] = [
        SpaceKind::Em,
        SpaceKind::En,
        SpaceKind::Third,
        SpaceKind::Quarter,
        SpaceKind::Fifth,
        SpaceKind::Sixth,
    ];

    /// The trade's name.
    ///
    /// # Source
    /// A. A. Stewart, *Typesetting*, 1919, p. 16–18.
    pub const fn name(self) -> &'static str {
        match self {
            SpaceKind::Em => "em quad",
            SpaceKind::En => "en quad",
            SpaceKind::Third => "3-to-em space",
            SpaceKind::Quarter => "4-to-em space",
            SpaceKind::Fifth => "5-to-em space",
            SpaceKind::Sixth => "6-to-em space",
        }
    }

    /// How many come to the body.
    const fn to_em(self) -> f64 {
        match self {
            SpaceKind::Em => 1.0,
            SpaceKind::En => 2.0,
            SpaceKind::Third => 3.0,
            SpaceKind::Quarter => 4.0,
            SpaceKind::Fifth => 5.0,
            SpaceKind::Sixth => 6.0,
        }
    }

    /// Its width in points on a body of so many points: its share of the body, to the nearest unit of the sets and at least one, so
    /// that lines come to whole units (common practice, no source).
    pub fn set_pt(self, body_pt: f64, unit_pt: f64) -> f64 {
        (body_pt / self.to_em() / unit_pt).round().max(1.0) * unit_pt
    }

    /// How many a fount for books has for 117,000 letters.
    ///
    /// # Source
    /// T. MacKellar, *The American Printer*, 1893: spaces of 800 lb of pica. That its thick, middle, thin and hair spaces are thirds, quarters,
    /// fifths and sixths: common practice, no source.
    const fn of_book_fount(self) -> u32 {
        match self {
            SpaceKind::Em => 2_500,
            SpaceKind::En => 5_000,
            SpaceKind::Third => 18_000,
            SpaceKind::Quarter => 12_000,
            SpaceKind::Fifth => 8_000,
            SpaceKind::Sixth => 3_000,
        }
    }
}

/// The unit in points that spaces are whole multiples of: that of the sets; a point where sets are not rounded.
pub fn unit_pt(rules: &BlockRules) -> f64 {
    rules.rounding.points().unwrap_or(1.0)
}

/// Spaces that are proposed, and how each line comes out with them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spacing {
    /// The spaces, the narrowest first.
    pub spaces: Vec<SpaceLine>,
    /// The measure that the lines are filled out to, in points.
    pub measure_pt: f64,
    /// Each line that has letters.
    pub lines: Vec<Filled>,
}

/// A line of a text filled out to the measure.
#[derive(Clone, Debug, PartialEq)]
pub struct Filled {
    /// The line.
    pub text: String,
    /// The letters' sets added up, in points.
    pub letters_pt: f64,
    /// What stands between words, and how often.
    pub between: (SpaceKind, u32),
    /// Spaces and quads at the ends, the widest first.
    pub quads: Vec<SpaceKind>,
    /// The printer's own leads and reglets for what spaces cannot fill.
    pub material: Vec<Piece>,
    /// What nothing fills, in points: less than a point if the line can be filled out at all; below zero, what it is too long.
    pub left_pt: f64,
    /// Letters that no sort prints; they are not in the sum.
    pub missing: Vec<String>,
}

/// The most pieces at the ends of one line; a line that takes more is mostly empty, and furniture fills it.
const MOST_QUADS: usize = 32;
/// The most lines that are filled out; what comes after is left to the reader.
const MOST_LINES: usize = 2_000;
/// The most characters that one sort joins.
const MOST_JOINED: usize = 8;

/// The spaces that a text takes, worked out from the sets of the sorts that print it.
///
/// Between words stands a third of the body, or the widest narrower space with which the line fits. Lines are filled out to the measure
/// by the fewest spaces and quads; what these cannot fill is left to the printer's leads and reglets. Without a `measure`, it is that
/// of the longest line, in whole lines of 12 points. A third between words, and a measure in whole lines: common practice, no source.
pub fn for_text(
    sorts: &[&Sort],
    commission: &Commission,
    text: &str,
    need: Need,
    measure: Option<Length>,
) -> Spacing {
    let bench = Bench::of(commission);
    let lines: Vec<Unspaced> = lines_of(text)
        .iter()
        .filter(|line| !line.trim().is_empty())
        .take(MOST_LINES)
        .map(|line| Unspaced::of(line, sorts, bench.point_mm))
        .collect();
    let measure_pt = match measure {
        Some(measure) => measure.in_mm() / bench.point_mm,
        None => {
            let long = lines
                .iter()
                .map(|line| line.length_pt(&bench, SpaceKind::Third));
            let longest = long.fold(0.0, f64::max);
            (longest / POINTS_PER_LINE - 1e-6).ceil() * POINTS_PER_LINE
        }
    };
    let widths = SpaceKind::ALL.map(|kind| bench.quarters_of(kind));
    let most = quarters(measure_pt.floor()).unwrap_or(WIDEST);
    let sums = Sums::up_to(most + QUARTERS, &widths);
    let lines: Vec<Filled> = lines
        .into_iter()
        .map(|line| line.filled(measure_pt, &bench, &sums))
        .collect();
    Spacing {
        spaces: bench.ordered(&counted(&lines, need)),
        measure_pt,
        lines,
    }
}

/// The spaces that belong to a fount of so many letters, whatever it sets.
///
/// # Source
/// As many to the letters as in T. MacKellar, *The American Printer*, 1893: 800 lb of pica for book work.
pub fn for_fount(commission: &Commission) -> Vec<SpaceLine> {
    let bench = Bench::of(commission);
    let book = Proportions::BookFount.table();
    let letters = [book.capitals.weights(), book.lower_case.weights()].concat();
    let of_book: u64 = letters.iter().map(|(_, count)| u64::from(*count)).sum();
    let first = commission.faces.first().map(|face| &face.id);
    let ordered = commission
        .bill
        .iter()
        .filter(|line| Some(&line.face) == first);
    let ordered: u64 = ordered.map(|line| u64::from(line.count)).sum();
    let counts = SpaceKind::ALL.map(|kind| {
        let count = (ordered * u64::from(kind.of_book_fount())).div_ceil(of_book.max(1));
        (kind, u32::try_from(count).unwrap_or(u32::MAX))
    });
    bench.ordered(&BTreeMap::from(counts))
}

/// Body and unit of a fount.
struct Bench {
    point_mm: f64,
    body_pt: f64,
    unit_pt: f64,
    system: System,
}

impl Bench {
    fn of(commission: &Commission) -> Bench {
        Bench {
            point_mm: commission.system.point_mm(),
            body_pt: commission.lines * POINTS_PER_LINE,
            unit_pt: unit_pt(&commission.block),
            system: commission.system,
        }
    }

    fn set_pt(&self, kind: SpaceKind) -> f64 {
        kind.set_pt(self.body_pt, self.unit_pt)
    }

    fn quarters_of(&self, kind: SpaceKind) -> u32 {
        // Units are whole quarters of a point; a body that is wider than anything made up is none.
        quarters(self.set_pt(kind)).unwrap_or(0)
    }

    /// Spaces as they are ordered, those of one width together, the narrowest first.
    fn ordered(&self, counts: &BTreeMap<SpaceKind, u32>) -> Vec<SpaceLine> {
        let mut by_width: BTreeMap<u64, (f64, u32)> = BTreeMap::new();
        for (&kind, &count) in counts.iter().filter(|(_, count)| **count > 0) {
            let points = self.set_pt(kind);
            let entry = by_width.entry((points * 1e3) as u64).or_insert((points, 0));
            entry.1 = entry.1.saturating_add(count).min(super::MOST_OF_ONE);
        }
        by_width
            .into_values()
            .map(|(points, count)| SpaceLine {
                set: Length::points_of(points, self.system),
                count,
            })
            .collect()
    }
}

fn counted(lines: &[Filled], need: Need) -> BTreeMap<SpaceKind, u32> {
    let mut counts: BTreeMap<SpaceKind, u32> = BTreeMap::new();
    for line in lines {
        let mut of_line: BTreeMap<SpaceKind, u32> = BTreeMap::new();
        let (between, gaps) = line.between;
        *of_line.entry(between).or_default() += gaps;
        for quad in &line.quads {
            *of_line.entry(*quad).or_default() += 1;
        }
        for (kind, count) in of_line {
            let total = counts.entry(kind).or_default();
            *total = match need {
                Need::AnyLine => count.max(*total),
                Need::AllLines => total.saturating_add(count),
            };
        }
    }
    counts
}

/// A line as its letters alone.
struct Unspaced {
    text: String,
    letters_pt: f64,
    gaps: u32,
    missing: Vec<String>,
}

impl Unspaced {
    fn of(line: &str, sorts: &[&Sort], point_mm: f64) -> Unspaced {
        let words: Vec<&str> = line.split_whitespace().collect();
        let gaps = u32::try_from(words.len().saturating_sub(1)).unwrap_or(u32::MAX);
        let mut found = Unspaced {
            text: words.join(" "),
            letters_pt: 0.0,
            gaps,
            missing: Vec::new(),
        };
        for word in words {
            let mut rest = word;
            // Each turn takes at least one character.
            while let Some(first) = rest.chars().next() {
                let length = match longest(rest, sorts) {
                    Some((length, set_mm)) => {
                        found.letters_pt += set_mm / point_mm;
                        length
                    }
                    None => {
                        found.missing.push(first.to_string());
                        first.len_utf8()
                    }
                };
                rest = &rest[length..];
            }
        }
        found
    }

    fn length_pt(&self, bench: &Bench, between: SpaceKind) -> f64 {
        self.letters_pt + f64::from(self.gaps) * bench.set_pt(between)
    }

    fn filled(self, measure_pt: f64, bench: &Bench, sums: &Sums) -> Filled {
        /// What is smaller is arithmetic, not wood, in points.
        const NOTHING_PT: f64 = 1e-4;
        let rest = |kind| measure_pt - self.length_pt(bench, kind);
        let narrower = SpaceKind::ALL.into_iter().skip(2);
        let between = narrower
            .clone()
            .find(|&kind| rest(kind) >= -NOTHING_PT)
            .unwrap_or(SpaceKind::Sixth);
        let rest_pt = rest(between).max(0.0);
        let whole = ((rest_pt + NOTHING_PT) * f64::from(QUARTERS)).floor() as u32;
        let (quads, material) = fill(whole, bench, sums);
        let filled: u32 = quads.iter().map(|&quad| bench.quarters_of(quad)).sum();
        let by_material: u32 = material.iter().map(|piece| piece.quarters).sum();
        let left_pt = rest(between) - f64::from(filled + by_material) / f64::from(QUARTERS);
        let left_pt = if left_pt.abs() <= NOTHING_PT {
            0.0
        } else {
            left_pt
        };
        Filled {
            text: self.text,
            letters_pt: self.letters_pt,
            between: (between, self.gaps),
            quads,
            material,
            left_pt,
            missing: self.missing,
        }
    }
}

/// Spaces and quads for a width, and material for the little that they leave; both empty where nothing fills it but for less than a
/// point, which is thinner than any lead.
fn fill(whole: u32, bench: &Bench, sums: &Sums) -> (Vec<SpaceKind>, Vec<Piece>) {
    // What is left to material is never more than an em: the em quad is among the spaces.
    let most_left = bench.quarters_of(SpaceKind::Em);
    let filled = |whole: u32| {
        (0..=most_left.min(whole)).find_map(|left| {
            let material = match left {
                0 => Vec::new(),
                _ => pieces(f64::from(left) / f64::from(QUARTERS))?,
            };
            let widths = sums.made_up(whole - left, MOST_QUADS)?;
            let kind = |width: &u32| {
                let mut all = SpaceKind::ALL.into_iter();
                all.find(|&kind| bench.quarters_of(kind) == *width)
            };
            Some((widths.iter().filter_map(kind).collect(), material))
        })
    };
    let nearly = (0..QUARTERS).filter_map(|less| whole.checked_sub(less));
    nearly.into_iter().find_map(filled).unwrap_or_default()
}

/// The longest text at the beginning that some sort prints: its bytes and the sort's set.
fn longest(rest: &str, sorts: &[&Sort]) -> Option<(usize, f64)> {
    let fits = |sort: &&&Sort| {
        !sort.text.is_empty()
            && rest.starts_with(sort.text.as_str())
            && sort.text.chars().count() <= MOST_JOINED
    };
    sorts
        .iter()
        .filter(fits)
        // Of several that print the same, the first.
        .min_by_key(|sort| std::cmp::Reverse(sort.text.len()))
        .map(|sort| (sort.text.len(), sort.block.set_mm))
}
