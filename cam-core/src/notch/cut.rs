//! From the sorts of a fount to notched blocks.

use std::collections::BTreeMap;

use geometry::font::Font;
use geometry::profile::Profile;
use kurbo::Shape;
use said::{Joint, Said, Value};

use super::share::{Choice, Fount, Pair, Widths, best_of_pair, share};
use super::{End, Flank, Notch, Side, Sizes, closed_pairs, outline};
use crate::commission::{Commission, NotchRules};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::make::Fonts;
use crate::material::pieces;
use crate::measure::{Length, Unit};
use crate::progress::Progress;
use crate::sort::{DrawnUp, Sort, SortError, draw_up_fount};
use crate::workshop::{CutterShape, Workshop};

/// Pairs without a height in common, such as a comma under an apostrophe, may close up by so many points at the most.
const NO_GAP_PT: f64 = 600.0;

/// The most pieces of spacing material that fill a notch: more are a nuisance to keep together. Common practice, no source.
const MOST_PIECES: usize = 2;

/// How many pairs are named in a finding.
const NAMED_PAIRS: usize = 24;

/// More letters than that are not laid beside one another where no pairs are named: the rest of a bill that long is accents and signs.
const MOST_LETTERS: usize = 600;

/// More pairs than that are not searched: those that may close up by most are.
const MOST_PAIRS: usize = 10_000;

/// Draws the sorts of a commission up, with their notches, letters in colours parted into their plates. Notches are those of the whole letters, and
/// are shared among all sorts of the fount, whichever are cut now.
///
/// # Errors
/// As [`draw_up`](crate::sort::draw_up).
pub fn drawn_and_cut(
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
    progress: &Progress,
) -> Result<DrawnUp, SortError> {
    let drawn = draw_up_fount(commission, fonts, progress)?;
    let mut drawn = cut(drawn, commission, workshop, fonts);
    drawn.keep_ordered();
    Ok(drawn.parted(commission.colours.as_ref()))
}

/// Cuts the notches that the commission asks for out of the blocks of its sorts; all others stay as they are.
///
/// A pair closes up by whole steps, by no more than leaves its letters as near to one another as two capitals H of their font stand, or
/// as the font's kerning brings them. With few enough letters the sum over all pairs is the greatest there is ([`share`](super::share)).
pub fn cut(
    mut drawn: DrawnUp,
    commission: &Commission,
    workshop: &Workshop,
    fonts: &Fonts,
) -> DrawnUp {
    let Some(rules) = &commission.notches else {
        return drawn;
    };
    match sizes(rules, commission, workshop) {
        Ok(sizes) => {
            let work = Work {
                commission,
                rules,
                sizes,
            };
            let told = work.cut(&mut drawn.sorts, fonts);
            drawn.findings.extend(told);
        }
        Err(stop) => drawn.findings.push(stop),
    }
    drawn
}

/// What all notches have in common, or why they cannot be cut.
fn sizes(
    rules: &NotchRules,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<Sizes, Finding> {
    let stop = |id: &str, kind, text, remedy| Finding {
        severity: Severity::Stop,
        subject: Subject::Cutter(id.to_owned()),
        kind,
        text,
        remedy,
    };
    let id = commission.notch_cutter().unwrap_or_default();
    let Some(cutter) = workshop.cutter(id) else {
        return Err(stop(
            id,
            "notch-cutter-unknown",
            texts::notch_cutter_unknown(),
            texts::notch_cutter_unknown_remedy(),
        ));
    };
    match cutter.shape {
        CutterShape::Flat => {}
        CutterShape::Ball | CutterShape::Conical { .. } => {
            return Err(stop(
                id,
                "notch-cutter-not-flat",
                texts::notch_cutter_not_flat(),
                texts::notch_cutter_not_flat_remedy(),
            ));
        }
    }
    let sizes = Sizes {
        wall_mm: rules.least_wall.in_mm(),
        clearance_mm: rules.clearance.in_mm(),
        radius_mm: cutter.radius_mm(),
    };
    let lane_mm = commission.planks.lane.in_mm();
    if lane_mm < sizes.least_lane_mm() {
        return Err(stop(
            id,
            "notch-lane-narrow",
            texts::notch_lane_narrow(
                Value::rounded(lane_mm, 2),
                Value::rounded(sizes.least_lane_mm(), 2),
            ),
            texts::notch_lane_narrow_remedy(),
        ));
    }
    Ok(sizes)
}

struct Work<'a> {
    commission: &'a Commission,
    rules: &'a NotchRules,
    sizes: Sizes,
}

/// A pair of sorts with what it may close up by.
struct Wanted {
    left: usize,
    right: usize,
    most: u32,
}

/// What a search leaves out because it would take too long.
#[derive(Clone, Copy, Debug, Default)]
struct LeftOut {
    letters: usize,
    pairs: usize,
}

/// Says where the search was cut off.
fn cut_off(left_out: LeftOut, untried_kinds: usize) -> Option<Finding> {
    let LeftOut { letters, pairs } = left_out;
    let told: Vec<Said> = [
        (letters, texts::untried_letters(letters)),
        (pairs, texts::untried_pairs(pairs)),
        (untried_kinds, texts::untried_shapes(untried_kinds)),
    ]
    .into_iter()
    .filter(|(count, _)| *count > 0)
    .map(|(_, untried)| untried)
    .collect();
    (!told.is_empty()).then(|| Finding {
        severity: Severity::Warning,
        subject: Subject::Commission,
        kind: "notch-search-cut-off",
        text: texts::notch_search_cut_off(Value::list(told, Joint::Semicolon)),
        remedy: texts::notch_search_cut_off_remedy(),
    })
}

impl Work<'_> {
    fn cut(&self, sorts: &mut [Sort], fonts: &Fonts) -> Vec<Finding> {
        let profiles: Vec<Profile> = sorts
            .iter()
            .map(|sort| Profile::of(sort.face.rings().map(Vec::as_slice)))
            .collect();
        let (wanted, left_out) = self.wanted(sorts, &profiles, fonts);
        let fount = self.fount(sorts, &profiles, &wanted);
        let shared = share(&fount);
        for (place, sort) in sorts.iter_mut().enumerate() {
            let sides = [
                (Side::Left, shared.left_sides[place]),
                (Side::Right, shared.right_sides[place]),
            ];
            sort.block.notches = sides
                .into_iter()
                .filter_map(|(side, choice)| self.notch(sort, side, choice))
                .collect();
            if !sort.block.notches.is_empty() {
                let block = &sort.block;
                sort.block.outline = outline(block.set_mm, block.body_mm, &block.notches);
            }
        }
        let mut findings = vec![self.told(sorts)];
        findings.extend(cut_off(left_out, shared.untried));
        findings.extend(self.not_closed(sorts, &fount, &wanted));
        findings
    }

    fn points(&self, mm: f64) -> f64 {
        Length::mm(mm).in_unit(Unit::Point, self.commission.system)
    }

    fn step_mm(&self) -> f64 {
        self.rules.step.in_mm()
    }

    /// The pairs that are to close up, those named or all of one face that may close up by a step or more, and how many letters and pairs
    /// were left out because there are too many.
    fn wanted(
        &self,
        sorts: &[Sort],
        profiles: &[Profile],
        fonts: &Fonts,
    ) -> (Vec<Wanted>, LeftOut) {
        let faces = self.commission.faces.iter();
        let opened: BTreeMap<&str, Font> = faces
            .filter_map(|face| {
                let bytes = fonts.get(&face.id)?;
                let font = Font::parse(bytes, face.index, &face.variations).ok()?;
                Some((face.id.as_str(), font))
            })
            .collect();
        let reading: Vec<Profile> = sorts
            .iter()
            .zip(profiles)
            .map(|(sort, profile)| {
                let block = &sort.block;
                profile
                    .mirrored(true, false)
                    .shifted(block.set_mm, -block.baseline_mm)
            })
            .collect();
        // Parts of a letter join along plain edges.
        let is_whole = |sort: &Sort| {
            let source = sort.source.as_ref();
            source.is_some_and(|source| {
                source.part.is_none() && opened.contains_key(source.face.as_str())
            })
        };
        let mut letters: Vec<usize> = (0..sorts.len())
            .filter(|&place| is_whole(&sorts[place]) && self.is_in_pairs(&sorts[place]))
            .collect();
        let mut left_out = LeftOut::default();
        if self.rules.pairs.is_empty() {
            left_out.letters = letters.len().saturating_sub(MOST_LETTERS);
            letters.truncate(MOST_LETTERS);
        }
        let mut wanted = Vec::new();
        for &left in &letters {
            for &right in &letters {
                let (one, other) = (&sorts[left], &sorts[right]);
                let (Some(a), Some(b)) = (&one.source, &other.source) else {
                    continue;
                };
                let Some(font) = opened.get(a.face.as_str()).filter(|_| a.face == b.face) else {
                    continue;
                };
                if !self.is_asked_for(one, other) {
                    continue;
                }
                let gap = reading[left].gap_to(&reading[right].shifted(one.block.set_mm, 0.0));
                let kerned = by_kerning(font, one, other);
                let drawn = gap
                    .zip(usual_gap(font, one))
                    .map(|(gap, usual)| gap - usual);
                let most_mm = match (drawn, gap) {
                    (Some(drawn), _) => drawn.max(kerned),
                    (None, Some(_)) => kerned,
                    (None, None) => Length::points_of(NO_GAP_PT, self.commission.system).in_mm(),
                };
                let steps = (most_mm / self.step_mm() + 0.5).floor();
                if steps >= 1.0 {
                    let most = steps.min(f64::from(u16::MAX)) as u32;
                    wanted.push(Wanted { left, right, most });
                }
            }
        }
        left_out.pairs = wanted.len().saturating_sub(MOST_PAIRS);
        if left_out.pairs > 0 {
            wanted.sort_by_key(|pair| std::cmp::Reverse(pair.most));
            wanted.truncate(MOST_PAIRS);
            wanted.sort_by_key(|pair| (pair.left, pair.right));
        }
        (wanted, left_out)
    }

    /// Whether a letter takes part in a pair that is named, or no pairs are named.
    fn is_in_pairs(&self, sort: &Sort) -> bool {
        let pairs = &self.rules.pairs;
        let text = sort.text.as_str();
        let has = |pair: &String| pair.starts_with(text) || pair.ends_with(text);
        pairs.is_empty() || (!text.is_empty() && pairs.iter().any(has))
    }

    fn is_asked_for(&self, left: &Sort, right: &Sort) -> bool {
        let pairs = &self.rules.pairs;
        pairs.is_empty() || pairs.contains(&format!("{}{}", left.text, right.text))
    }

    fn fount(&self, sorts: &[Sort], profiles: &[Profile], wanted: &[Wanted]) -> Fount {
        let body = self.plain_body_mm(sorts);
        let seams = (body / self.step_mm()).round().clamp(0.0, 10_000.0) as u32;
        let deepest = sorts.iter().map(|sort| sort.block.set_mm);
        let most = (deepest.fold(0.0, f64::max) / self.step_mm()).ceil() as u32;
        let step_pt = self.points(self.step_mm());
        let least = self.sizes.least_width_mm();
        let widths: Vec<u32> = (1..=most.min(10_000))
            .filter(|&steps| f64::from(steps) * self.step_mm() >= least)
            .filter(|&steps| {
                let filled = pieces(tidy(f64::from(steps) * step_pt));
                filled.is_some_and(|pieces| pieces.len() <= MOST_PIECES)
            })
            .collect();
        let sides = |side: Side| -> Vec<Widths> {
            let sides = sorts.iter().zip(profiles);
            sides
                .map(|(sort, profile)| self.widths(sort, profile, side, seams, &widths))
                .collect()
        };
        Fount {
            right_sides: sides(Side::Right),
            left_sides: sides(Side::Left),
            pairs: wanted
                .iter()
                .map(|pair| Pair {
                    left: pair.left,
                    right: pair.right,
                    most: pair.most,
                })
                .collect(),
            body: seams,
            widths,
            kinds: self.rules.kinds as usize,
        }
    }

    /// The plain body: that of a block less what it was extended by.
    fn plain_body_mm(&self, sorts: &[Sort]) -> f64 {
        let plain = sorts.iter().map(|sort| {
            let [foot, head] = sort.block.extended_pt;
            let more = Length::points_of(foot + head, self.commission.system);
            sort.block.body_mm - more.in_mm()
        });
        plain.reduce(f64::min).unwrap_or(0.0)
    }

    fn widths(
        &self,
        sort: &Sort,
        profile: &Profile,
        side: Side,
        seams: u32,
        widths: &[u32],
    ) -> Widths {
        if sort.block.plain {
            return Widths::default();
        }
        let flank = Flank::of(sort, profile, side, self.commission.system);
        let at = |end: End| -> Vec<u32> {
            (1..=seams)
                .map(|seam| {
                    let seam_mm = f64::from(seam) * self.step_mm();
                    let deepest = flank.deepest_mm(end, seam_mm, &self.sizes);
                    let fitting = widths.iter().copied();
                    fitting
                        .filter(|&width| f64::from(width) * self.step_mm() <= deepest)
                        .max()
                        .unwrap_or(0)
                })
                .collect()
        };
        Widths {
            at_head: at(End::Head),
            at_foot: at(End::Foot),
        }
    }

    fn notch(&self, sort: &Sort, side: Side, choice: Choice) -> Option<Notch> {
        let (end, kind) = choice?;
        let width = f64::from(kind.width) * self.step_mm();
        let seam = f64::from(kind.seam) * self.step_mm();
        let below = Length::points_of(sort.block.extended_pt[0], self.commission.system).in_mm();
        let height = match end {
            End::Head => sort.block.body_mm - below - seam,
            End::Foot => seam + below,
        };
        Some(Notch {
            side,
            end,
            width_pt: tidy(self.points(width)),
            height_pt: tidy(self.points(height)),
            width_mm: width + self.sizes.wider_mm(side),
            height_mm: height + self.sizes.higher_mm(),
            bevel_mm: self.sizes.bevel_mm(),
        })
    }

    /// What was gained, in one sentence.
    fn told(&self, sorts: &[Sort]) -> Finding {
        let closed = closed_pairs(sorts.iter());
        let pairs = closed.iter().take(NAMED_PAIRS).map(|pair| {
            let by = tidy((self.points(pair.gain_mm) * 100.0).round() / 100.0);
            let by = Value::figures(by.to_string());
            texts::pair_closes(&sorts[pair.left].name, &sorts[pair.right].name, by)
        });
        let pairs = Value::list(pairs, Joint::Comma);
        let (text, remedy) = if closed.is_empty() {
            let wall = Value::rounded(self.sizes.wall_mm, 2);
            let least = Value::rounded(self.points(self.sizes.least_width_mm()), 1);
            let text = texts::none_notched(wall, least);
            (text, texts::none_notched_remedy())
        } else {
            let text = match closed.len().saturating_sub(NAMED_PAIRS) {
                0 => texts::notched(pairs),
                more => texts::notched_further(pairs, more),
            };
            (text, Said::default())
        };
        Finding {
            severity: Severity::Note,
            subject: Subject::Commission,
            kind: "notched",
            text,
            remedy,
        }
    }

    /// Pairs that were named and do not close up, with why.
    fn not_closed(&self, sorts: &[Sort], fount: &Fount, wanted: &[Wanted]) -> Vec<Finding> {
        let closed = closed_pairs(sorts.iter());
        let mut findings = Vec::new();
        for name in &self.rules.pairs {
            let named = |left: usize, right: usize| {
                *name == format!("{}{}", sorts[left].text, sorts[right].text)
            };
            if closed.iter().any(|pair| named(pair.left, pair.right)) {
                continue;
            }
            let asked = wanted.iter().zip(&fount.pairs);
            let mut asked = asked.filter(|(pair, _)| named(pair.left, pair.right));
            let text = match asked.next() {
                None => texts::pair_not_asked(name),
                Some((_, pair)) if best_of_pair(fount, pair).is_some() => {
                    texts::pair_given_up(name)
                }
                Some(_) => texts::pair_without_wood(name),
            };
            findings.push(Finding {
                severity: Severity::Warning,
                subject: Subject::Commission,
                kind: "pair-not-notched",
                text,
                remedy: texts::pair_not_notched_remedy(),
            });
        }
        findings
    }
}

/// By how much kerning closes a pair up, from where its blocks stand, mm; nothing if the font does not kern it closer.
fn by_kerning(font: &Font<'_>, left: &Sort, right: &Sort) -> f64 {
    let (Some(a), Some(b)) = (&left.source, &right.source) else {
        return 0.0;
    };
    let kerning = font.kerning(a.glyph, b.glyph);
    if kerning >= 0.0 {
        return 0.0;
    }
    let [x, _, _, _, left_edge, _] = a.face_from_em.as_coeffs();
    let [_, _, _, _, right_edge, _] = b.face_from_em.as_coeffs();
    // In face space a glyph's origin lies at its block's right edge, as printed.
    let apart = left_edge + right.block.set_mm - right_edge;
    apart - (font.advance(a.glyph) + kerning) * x.abs()
}

/// How far two capitals H stand apart, mm, at the size of a sort; `None` if the font has none.
fn usual_gap(font: &Font<'_>, sort: &Sort) -> Option<f64> {
    let glyph = font.glyph_for('H')?;
    let drawn = font.outline(glyph).ok()?.bounding_box();
    let [scale, ..] = sort.source.as_ref()?.face_from_em.as_coeffs();
    Some((font.advance(glyph) - drawn.width()) * scale.abs())
}

/// Without the noise of arithmetic, so that 12 points read as 12.
fn tidy(points: f64) -> f64 {
    (points * 1e6).round() / 1e6
}
