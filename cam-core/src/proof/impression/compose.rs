//! Blocks set in lines, as they stand in the forme but right-reading, in one or several inks.

use std::collections::BTreeMap;
use std::sync::Arc;

use geometry::profile::{Profile, closes_up};
use kurbo::Point;

use super::text::{Item, lines_of};
use super::{Colour, Fount, Impression};

/// Paper about the lines, in bodies: a margin for the eye. Common practice, no source, as the next.
const PAPER: f64 = 0.4;

/// Measure that every sort is shown to where no text is set, in bodies.
const SHOWN_TO: f64 = 9.0;

/// A space of the fount serves for one that is asked for if it differs by less than this, mm.
const SAME_SPACE_MM: f64 = 0.01;

/// A space of the fount serves between words from a sixth to a half of the body; wider and narrower ones serve for what they are.
/// Common practice, no source.
const BETWEEN_WORDS: std::ops::RangeInclusive<f64> = 1.0 / 6.0..=0.5;

/// Lines and sorts of two layers that differ by more than this will be seen to, mm: what the trade allows for body and set.
/// Common practice, no source.
const REGISTER_MM: f64 = 0.05;

/// How a text is to be set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Setting {
    /// The text; lines end where it says. If it is empty, every sort that prints is set once.
    pub text: String,
    /// The measure: width at which lines are broken between words, mm; `None` to break them nowhere.
    pub measure_mm: Option<f64>,
    /// Where short lines stand in the measure, or beside the longest line.
    pub align: Align,
    /// Height of the leads between lines, mm.
    pub leads_mm: f64,
    /// Whether notched pairs are left apart, as blocks without notches would stand.
    pub apart: bool,
}

/// Where short lines stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// At the left.
    #[default]
    Left,
    /// In the middle.
    Centre,
    /// At the right.
    Right,
}

/// A sheet with lines of blocks printed on it, mm; y up from its lower edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Size across.
    pub width_mm: f64,
    /// Size along.
    pub height_mm: f64,
    /// The colour of the paper.
    pub paper: Colour,
    /// Whether the blocks are shown.
    pub blocks: bool,
    /// What is printed, in the order of printing.
    pub layers: Vec<Layer>,
}

/// One fount, or one plate of a fount in colours, printed in one ink.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// What the sorts print.
    pub fount: Arc<Fount>,
    /// The plate, by its place; `None` of a fount in one colour.
    pub plate: Option<usize>,
    /// The ink, as it looks on the paper; where inks lie over one another, their colours multiply.
    pub ink: Colour,
    /// The blocks in order, and the leads.
    pub set: Vec<SetBlock>,
    /// What the text asks for and no sort prints, each once.
    pub missing: Vec<String>,
    /// Widths of the lines, without what fills them up.
    pub lines_mm: Vec<f64>,
    /// By how much notched pairs close each line up, mm; what they would, if they are left apart.
    pub closed_mm: Vec<f64>,
}

/// Something set, and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetBlock {
    /// What.
    pub piece: Piece,
    /// Its lower-left corner.
    pub at: Point,
}

/// Something that a line is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// A sort of the fount, by the place of its impression.
    Sort(usize),
    /// Spacing material that is not of the fount: a space or a lead.
    Spacing {
        /// Size across, mm.
        set_mm: f64,
        /// Size along, mm.
        body_mm: f64,
    },
}

/// Sets the same text from one or several founts, each printed in its ink over the ones before.
///
/// Block stands against block, notched pairs closed up as far as their blocks allow, on one base line per line, common to all founts; blocks of larger bodies hang below or stand above the
/// others, as furniture makes good in the forme. A fount in colours is printed plate by plate, each in its own ink; where a letter has nothing on a plate, spacing
/// of its size stands for it. Spaces are those of the fount where it has one of the width; else spacing material
/// of a third of the body stands between words. Lines are broken, and ligatures chosen, by the first fount.
pub fn compose(
    founts: &[(Arc<Fount>, Colour)],
    setting: &Setting,
    paper: Colour,
    blocks: bool,
) -> Sheet {
    let lines = founts
        .first()
        .map_or_else(Vec::new, |(first, _)| lines(first, setting));
    let mut layers: Vec<(Layer, Vec<Line>)> = founts
        .iter()
        .flat_map(plate_by_plate)
        .map(|(fount, plate, ink)| {
            let mut missing = Vec::new();
            let case = Case { fount, plate };
            let set: Vec<Line> = lines
                .iter()
                .map(|line| Line::of(case, line, setting.apart, &mut missing))
                .collect();
            let layer = Layer {
                fount: Arc::clone(fount),
                plate,
                ink,
                set: Vec::new(),
                missing,
                lines_mm: set.iter().map(|line| line.width).collect(),
                closed_mm: set.iter().map(|line| line.closed).collect(),
            };
            (layer, set)
        })
        .collect();
    let margin = PAPER * founts.first().map_or(0.0, |(first, _)| first.body_mm());
    let widest = layers
        .iter()
        .flat_map(|(layer, _)| &layer.lines_mm)
        .copied()
        .fold(0.0, f64::max);
    let measure = setting
        .measure_mm
        .filter(|_| !is_empty(setting))
        .map_or(widest, |measure| measure.max(widest));
    let common = |number: usize, of: fn(&Line) -> f64| {
        let lines = layers.iter().filter_map(|(_, lines)| lines.get(number));
        lines.map(of).fold(0.0, f64::max)
    };
    let heights: Vec<[f64; 2]> = (0..lines.len())
        .map(|number| {
            [
                common(number, |line| line.above),
                common(number, |line| line.below),
            ]
        })
        .collect();
    let leads = if is_empty(setting) {
        0.0
    } else {
        setting.leads_mm.max(0.0)
    };
    let height =
        heights.iter().flatten().sum::<f64>() + leads * heights.len().saturating_sub(1) as f64;
    let mut top = margin + height;
    for (number, [above, below]) in heights.iter().enumerate() {
        let base = top - above;
        for (layer, lines) in &mut layers {
            if let Some(line) = lines.get(number) {
                layer
                    .set
                    .extend(line.stood(margin, measure, setting.align, base));
            }
        }
        top = base - below;
        if leads > 0.0 && number + 1 < heights.len() {
            top -= leads;
            if let Some((layer, _)) = layers.first_mut() {
                layer.set.push(SetBlock {
                    piece: Piece::Spacing {
                        set_mm: measure,
                        body_mm: leads,
                    },
                    at: Point::new(margin, top),
                });
            }
        }
    }
    Sheet {
        width_mm: measure + 2.0 * margin,
        height_mm: height + 2.0 * margin,
        paper,
        blocks,
        layers: layers.into_iter().map(|(layer, _)| layer).collect(),
    }
}

/// A fount with its ink, or each of its plates with the plate's own.
fn plate_by_plate(
    (fount, ink): &(Arc<Fount>, Colour),
) -> Vec<(&Arc<Fount>, Option<usize>, Colour)> {
    if fount.plates.is_empty() {
        return vec![(fount, None, *ink)];
    }
    let plates = fount.plates.iter().enumerate();
    plates
        .map(|(place, plate)| (fount, Some(place), plate.ink))
        .collect()
}

/// The case that a line is set from: a fount, or what of it is for one plate.
#[derive(Clone, Copy)]
struct Case<'a> {
    fount: &'a Fount,
    plate: Option<usize>,
}

fn is_empty(setting: &Setting) -> bool {
    setting.text.trim().is_empty()
}

/// The lines as items, broken at the measure.
fn lines(fount: &Fount, setting: &Setting) -> Vec<Vec<Item>> {
    if is_empty(setting) {
        let mut every: Vec<Item> = Vec::new();
        for place in fount.printing() {
            let letter = Item::Name(fount.impressions[place].letter.clone());
            // A letter in colours has a sort for each plate, and is shown once.
            if fount.plates.is_empty() || !every.contains(&letter) {
                every.push(letter);
            }
        }
        return broken(fount, every, SHOWN_TO * fount.body_mm(), true);
    }
    let lines = lines_of(fount, &setting.text);
    match setting.measure_mm {
        None => lines,
        Some(measure) => lines
            .into_iter()
            .flat_map(|line| broken(fount, line, measure, false))
            .collect(),
    }
}

/// A line broken so that its parts are no wider than the measure: between words, the spaces there falling away, or `anywhere`. A
/// word wider than the measure has a line of its own.
fn broken(fount: &Fount, line: Vec<Item>, measure: f64, anywhere: bool) -> Vec<Vec<Item>> {
    let mut lines = vec![Vec::new()];
    let mut width = 0.0;
    for word in words(line, anywhere) {
        let wide = |items: &[Item]| items.iter().map(|item| width_of(fount, item)).sum::<f64>();
        let [spaces, letters] = [wide(&word.spaces), wide(&word.letters)];
        let current = lines.last_mut();
        match current {
            Some(current)
                if current.is_empty() || width + spaces + letters <= measure + SAME_SPACE_MM =>
            {
                current.extend(word.spaces);
                current.extend(word.letters);
                width += spaces + letters;
            }
            Some(_) | None => {
                lines.push(word.letters);
                width = letters;
            }
        }
    }
    lines
}

/// A word with the spaces before it.
#[derive(Default)]
struct Word {
    spaces: Vec<Item>,
    letters: Vec<Item>,
}

fn words(line: Vec<Item>, anywhere: bool) -> Vec<Word> {
    let mut words: Vec<Word> = vec![Word::default()];
    for item in line {
        let is_space = matches!(item, Item::Space { breaks: true, .. });
        let ended = words.last().is_some_and(|word| !word.letters.is_empty());
        if ended && (is_space || anywhere) {
            words.push(Word::default());
        }
        if let Some(word) = words.last_mut() {
            if is_space {
                &mut word.spaces
            } else {
                &mut word.letters
            }
            .push(item);
        }
    }
    words
}

fn width_of(fount: &Fount, item: &Item) -> f64 {
    match found(Case { fount, plate: None }, item) {
        Some(Piece::Sort(place)) => fount.impressions[place].set_mm,
        Some(Piece::Spacing { set_mm, .. }) => set_mm,
        None => match item {
            Item::Text(text) => whole_set_mm(fount, text),
            Item::Name(_) | Item::Space { .. } => 0.0,
        },
    }
}

/// The set of a letter that is there in parts; none of any other.
fn whole_set_mm(fount: &Fount, text: &str) -> f64 {
    let first = fount.parts_of(text).next();
    let part = first.and_then(|(place, _)| fount.impressions[place].part.as_ref());
    part.map_or(0.0, |part| part.of_mm[0])
}

/// What is taken from the case for an item: on a plate, its sort for that plate, or spacing of its size if it has none there. What is in one
/// colour is printed with the first plate.
fn found(case: Case, item: &Item) -> Option<Piece> {
    let Case { fount, plate } = case;
    let is_wanted = |one: &Impression| match item {
        Item::Text(text) => one.baseline_mm.is_some() && one.text == *text,
        Item::Name(name) => one.name == *name || one.letter == *name,
        Item::Space { .. } => false,
    };
    if let Item::Space { ems, .. } = item {
        return Some(space(fount, *ems));
    }
    let is_here = |one: &Impression| match (plate, one.plate) {
        (None, _) => true,
        (Some(_), None) => one.baseline_mm.is_none() || plate == Some(0),
        (Some(here), Some(own)) => here == own,
    };
    let mut wanted = fount.impressions.iter().enumerate();
    let own = wanted.find(|(_, one)| is_wanted(one) && is_here(one));
    if let Some((place, _)) = own {
        return Some(Piece::Sort(place));
    }
    let other = fount.impressions.iter().find(|one| is_wanted(one))?;
    Some(Piece::Spacing {
        set_mm: other.set_mm,
        body_mm: other.body_mm,
    })
}

/// The fount's space nearest to a width if it serves for it, else spacing material.
fn space(fount: &Fount, ems: f64) -> Piece {
    let body = fount.body_mm();
    let wanted = ems * body;
    let serves = |set_mm: f64| {
        let between_words =
            ems == super::text::WORD_SPACE && BETWEEN_WORDS.contains(&(set_mm / body));
        between_words || (set_mm - wanted).abs() <= SAME_SPACE_MM
    };
    let nearest = fount
        .spaces()
        .filter(|(_, one)| serves(one.set_mm))
        .min_by(|(_, a), (_, b)| {
            (a.set_mm - wanted)
                .abs()
                .total_cmp(&(b.set_mm - wanted).abs())
        });
    match nearest {
        Some((place, _)) => Piece::Sort(place),
        None => Piece::Spacing {
            set_mm: wanted,
            body_mm: body,
        },
    }
}

/// By how much two blocks close up on one base line. Only blocks with notches do.
fn close_up(left: &Impression, right: &Impression) -> f64 {
    const RECTANGLE: usize = 4;
    if left.block.len() <= RECTANGLE || right.block.len() <= RECTANGLE {
        return 0.0;
    }
    let profile = |one: &Impression| {
        let base = one.baseline_mm.unwrap_or(0.0);
        Profile::of([squared(&one.block).as_slice()]).shifted(0.0, -base)
    };
    closes_up(&profile(left), &profile(right))
}

/// A block's outline with the corners that are cut off beside its notches made whole: they bear on nothing, and close nothing up.
fn squared(ring: &[Point]) -> Vec<Point> {
    const UPRIGHT_MM: f64 = 0.01;
    let after = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(after)
        .flat_map(|(&from, &to)| {
            let side = to - from;
            if side.x.abs().min(side.y.abs()) < UPRIGHT_MM {
                return vec![from];
            }
            let corners = [Point::new(from.x, to.y), Point::new(to.x, from.y)];
            // The wood lies on the left, so the corner lay on the right.
            let lost = corners
                .into_iter()
                .find(|&corner| side.cross(corner - from) < 0.0);
            std::iter::once(from).chain(lost).collect()
        })
        .collect()
}

/// A line being set: its pieces with their x and base line, and how far they reach above and below the base line.
struct Line {
    pieces: Vec<(Piece, f64, f64)>,
    width: f64,
    /// By how much notched pairs close up, or would if they are left apart.
    closed: f64,
    apart: bool,
    above: f64,
    below: f64,
}

impl Line {
    fn of(case: Case, items: &[Item], apart: bool, missing: &mut Vec<String>) -> Line {
        let fount = case.fount;
        let plain = fount.baseline_mm();
        // A line of nothing is as high as a plain body.
        let mut line = Line {
            pieces: Vec::new(),
            width: 0.0,
            closed: 0.0,
            apart,
            above: fount.body_mm() - plain,
            below: plain,
        };
        for item in items {
            match (found(case, item), item) {
                (Some(piece), _) => line.add(fount, piece, plain),
                (None, Item::Text(text)) if fount.parts_of(text).next().is_some() => {
                    line.add_parts(fount, text);
                }
                (None, Item::Text(word) | Item::Name(word)) if !missing.contains(word) => {
                    missing.push(word.clone())
                }
                (None, _) => {}
            }
        }
        line
    }

    fn add(&mut self, fount: &Fount, piece: Piece, plain: f64) {
        let (set_mm, body_mm, baseline) = match piece {
            Piece::Sort(place) => {
                let one = &fount.impressions[place];
                (one.set_mm, one.body_mm, one.baseline_mm.unwrap_or(plain))
            }
            Piece::Spacing { set_mm, body_mm } => (set_mm, body_mm, plain),
        };
        let closes = match (self.pieces.last(), piece) {
            (Some((Piece::Sort(last), ..)), Piece::Sort(place)) => {
                close_up(&fount.impressions[*last], &fount.impressions[place])
            }
            _ => 0.0,
        };
        self.closed += closes;
        if !self.apart {
            self.width -= closes;
        }
        self.pieces.push((piece, self.width, baseline));
        self.width += set_mm;
        self.above = self.above.max(body_mm - baseline);
        self.below = self.below.max(baseline);
    }

    /// A letter that was cut apart, put together from its parts.
    fn add_parts(&mut self, fount: &Fount, text: &str) {
        for (place, [x, _]) in fount.parts_of(text) {
            let one = &fount.impressions[place];
            // Of a part that lies above the base line it is below 0.
            let baseline = one.baseline_mm.unwrap_or(0.0);
            self.pieces
                .push((Piece::Sort(place), self.width + x, baseline));
            self.above = self.above.max(one.body_mm - baseline);
            self.below = self.below.max(baseline);
        }
        self.width += whole_set_mm(fount, text);
    }

    /// The line's pieces where they stand on the sheet.
    fn stood(
        &self,
        margin: f64,
        measure: f64,
        align: Align,
        base: f64,
    ) -> impl Iterator<Item = SetBlock> {
        let left = margin
            + match align {
                Align::Left => 0.0,
                Align::Centre => (measure - self.width) / 2.0,
                Align::Right => measure - self.width,
            };
        self.pieces
            .iter()
            .map(move |&(piece, x, baseline)| SetBlock {
                piece,
                at: Point::new(left + x, base - baseline),
            })
    }
}

impl Layer {
    /// The sorts set, with what they print and where they stand.
    pub fn sorts(&self) -> impl Iterator<Item = (usize, &Impression, Point)> {
        self.set.iter().filter_map(|block| match block.piece {
            Piece::Sort(place) => Some((place, self.fount.impressions.get(place)?, block.at)),
            Piece::Spacing { .. } => None,
        })
    }

    /// The outlines of all blocks, spaces and leads, on the sheet.
    pub fn edges(&self) -> impl Iterator<Item = Vec<Point>> {
        self.set.iter().map(|block| {
            let outline = match block.piece {
                Piece::Sort(place) => self.fount.impressions[place].block.clone(),
                Piece::Spacing { set_mm, body_mm } => {
                    let corners = [(0.0, 0.0), (set_mm, 0.0), (set_mm, body_mm), (0.0, body_mm)];
                    corners.map(Point::from).to_vec()
                }
            };
            outline
                .into_iter()
                .map(|corner| corner + block.at.to_vec2())
                .collect()
        })
    }

    /// Sorts of which more are set than are made: place, how many are set.
    fn short(&self) -> Vec<(usize, u32)> {
        let mut counts: BTreeMap<usize, u32> = BTreeMap::new();
        for (place, ..) in self.sorts() {
            *counts.entry(place).or_default() += 1;
        }
        counts.retain(|place, count| *count > self.fount.impressions[*place].copies);
        counts.into_iter().collect()
    }
}

impl Sheet {
    /// What the maker should know about the sheet, in sentences: what could not be set, what there are too few of, and what will not
    /// register.
    pub fn remarks(&self) -> Vec<String> {
        let mut remarks = Vec::new();
        for (number, layer) in self.layers.iter().enumerate() {
            let of = match number {
                0 => String::new(),
                other => format!(" of ink {}", other + 1),
            };
            if !layer.missing.is_empty() {
                remarks.push(format!("Not on the bill{of}: {}", layer.missing.join(" ")));
            }
            let short: Vec<String> = layer
                .short()
                .into_iter()
                .map(|(place, count)| {
                    let one = &layer.fount.impressions[place];
                    format!("{} ({count}, of {})", one.name, one.copies)
                })
                .collect();
            if !short.is_empty() {
                remarks.push(format!(
                    "Set more often than ordered{of}: {}",
                    short.join(", ")
                ));
            }
            remarks.extend(self.out_of_register(number));
        }
        remarks
    }

    /// The first line of a layer that is not as long as in the first layer.
    fn out_of_register(&self, number: usize) -> Option<String> {
        let (first, other) = (self.layers.first()?, self.layers.get(number)?);
        let mut pairs = first.lines_mm.iter().zip(&other.lines_mm).enumerate();
        let (line, (first, other)) = pairs.find(|(_, (a, b))| (*a - *b).abs() > REGISTER_MM)?;
        Some(format!(
            "Line {} is {first:.2} mm long in ink 1 and {other:.2} mm in ink {}, so the inks will not register",
            line + 1,
            number + 1
        ))
    }
}
