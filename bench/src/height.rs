//! The height log: gauge readings over a plank while it is sanded, and what to do next.
//!
//! ```text
//! bench height
//! wanted 0.918 in
//! tolerance 0.07 mm
//! gauge 0.01 mm
//! mark A 10 10     # a marked place: x from the left end, y from the near edge
//! mark B 290 10
//! plank maple-3
//! pass 80 grit
//! A 23.85          # the height there
//! B 23.90
//! 150 140 23.87    # or x, y and height of any place
//! ```

mod shape;
#[cfg(test)]
mod tests;

use said::Said;
use serde::Serialize;

use crate::notebook::{Entry, Kind, NotebookError, entries};
use crate::texts;
use crate::words::{fine_mm, mm};
pub use shape::{HeightError, Reading, Shape, shape};

/// The usual limit for the height of type, mm: common practice, no source.
pub const TOLERANCE_MM: f64 = 0.07;

/// How far a gauge in the workshop may be off, mm: common practice, no source.
pub const GAUGE_MM: f64 = 0.01;

/// What the readings are held against.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Wanted {
    /// The height, mm.
    pub height: f64,
    /// How far any place may be off, mm.
    pub tolerance: f64,
    /// How far the gauge may be off, mm.
    pub gauge: f64,
}

/// The readings taken after one pass.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pass {
    /// What the maker calls it.
    pub name: String,
    /// The readings.
    pub readings: Vec<Reading>,
}

/// A plank, pass by pass.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plank {
    /// What the maker calls it.
    pub name: String,
    /// The passes in order.
    pub passes: Vec<Pass>,
}

/// A marked place of the planks, where each pass is measured.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mark {
    /// What is written beside it on the plank.
    pub name: String,
    /// Where it is, as of [`Reading::at`].
    pub at: [f64; 2],
}

/// A notebook of heights.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Log {
    /// What is wanted.
    pub wanted: Wanted,
    /// The marked places.
    pub marks: Vec<Mark>,
    /// The planks.
    pub planks: Vec<Plank>,
}

/// An end or edge of the plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum End {
    /// The left end.
    Left,
    /// The right end.
    Right,
    /// The near edge.
    Near,
    /// The far edge.
    Far,
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "do", content = "mm")]
pub enum Verdict {
    /// Every reading is within the tolerance: no more sanding.
    Stop,
    /// Take off so much, evenly.
    SandOn(f64),
    /// One end or edge is high by so much: turn the plank, and take more off there.
    Turn {
        /// The end that is high.
        high: End,
        /// By how much, mm.
        by: f64,
    },
    /// Twisted by so much: it rocks on the table and has to be flattened first.
    Flatten(f64),
    /// So uneven, beyond slope and twist, that no even pass brings all of it within the tolerance; from highest to lowest, mm.
    Uneven(f64),
    /// A place is lower than the tolerance allows, by so much.
    TooLow(f64),
}

/// What one plank's readings say.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// The plank.
    pub plank: String,
    /// The shape after each pass.
    pub shapes: Vec<(String, Shape)>,
    /// How much the passes took off in the mean, each against the one before, mm.
    pub taken_off: Vec<f64>,
    /// The shape now.
    pub now: Shape,
    /// What to do next.
    pub verdict: Verdict,
    /// How many passes like the last are left, rounded up; `None` where there was none, or it took nothing off.
    pub passes_left: Option<u32>,
}

const KNOWN: &str =
    "wanted, tolerance, gauge, mark, plank, pass, a mark and the height there, or x, y and height";

/// Words that begin lines of their own, and so are no marks.
const TAKEN: [&str; 7] = [
    "wanted",
    "tolerance",
    "gauge",
    "mark",
    "plank",
    "pass",
    "reading",
];

/// Reads a notebook.
///
/// # Errors
/// What cannot be read, with its line.
pub fn read(text: &str) -> Result<Log, NotebookError> {
    let mut height = None;
    let (mut tolerance, mut gauge) = (TOLERANCE_MM, GAUGE_MM);
    let mut planks: Vec<Plank> = Vec::new();
    let mut marks: Vec<Mark> = Vec::new();
    for entry in entries(text, Kind::Height)? {
        match entry.key {
            "wanted" => height = Some(entry.size("the wanted height")?),
            "tolerance" => tolerance = entry.size("the tolerance")?,
            "gauge" => gauge = entry.size("what the gauge may be off")?,
            "plank" => planks.push(Plank {
                name: entry.text(),
                passes: Vec::new(),
            }),
            "pass" => plank(&mut planks).passes.push(Pass {
                name: entry.text(),
                readings: Vec::new(),
            }),
            "mark" => marks.push(mark(&entry, &marks)?),
            "" | "reading" => pass(&mut planks).readings.push(reading(&entry)?),
            name => match marks.iter().find(|mark| mark.name == name) {
                Some(mark) => pass(&mut planks).readings.push(Reading {
                    at: mark.at,
                    height: entry.size("the height")?,
                }),
                None => return Err(entry.unknown(KNOWN)),
            },
        }
    }
    let height = height.ok_or_else(|| {
        NotebookError::Missing("Say what height is wanted, such as: wanted 0.918 in.".to_owned())
    })?;
    planks.retain(|plank| plank.passes.iter().any(|pass| !pass.readings.is_empty()));
    if planks.is_empty() {
        return Err(NotebookError::Missing(
            "There are no readings. Write a mark and the height there on a line, or x, y and height of any place."
                .to_owned(),
        ));
    }
    Ok(Log {
        wanted: Wanted {
            height,
            tolerance,
            gauge,
        },
        marks,
        planks,
    })
}

fn mark(entry: &Entry<'_>, others: &[Mark]) -> Result<Mark, NotebookError> {
    let name = match entry.words.first() {
        Some(name) if !TAKEN.contains(name) => (*name).to_owned(),
        Some(_) | None => {
            return Err(entry.fault("a mark has a word of its own, such as: mark A 10 10."));
        }
    };
    if others.iter().any(|other| other.name == name) {
        return Err(entry.fault(format!("there is a mark “{name}” already.")));
    }
    match entry.lengths_from(1)?[..] {
        [x, y] => Ok(Mark { name, at: [x, y] }),
        _ => Err(entry.fault("a mark has a word, x and y, such as: mark A 10 10.")),
    }
}

fn reading(entry: &Entry<'_>) -> Result<Reading, NotebookError> {
    let [x, y, height] = entry.lengths("x, y and height")?;
    if height <= 0.0 {
        return Err(entry.fault("a height has to be above 0."));
    }
    Ok(Reading { at: [x, y], height })
}

/// The plank that is being read; the first needs no name.
fn plank(planks: &mut Vec<Plank>) -> &mut Plank {
    if planks.is_empty() {
        planks.push(Plank {
            name: String::new(),
            passes: Vec::new(),
        });
    }
    let last = planks.len() - 1;
    &mut planks[last]
}

/// The pass that is being read; the first needs no name.
fn pass(planks: &mut Vec<Plank>) -> &mut Pass {
    let passes = &mut plank(planks).passes;
    if passes.is_empty() {
        passes.push(Pass {
            name: String::new(),
            readings: Vec::new(),
        });
    }
    let last = passes.len() - 1;
    &mut passes[last]
}

/// Judges every plank of a notebook.
///
/// # Errors
/// The first plank whose readings show no shape, by name.
pub fn judge(log: &Log) -> Result<Vec<Judged>, HeightError> {
    log.planks
        .iter()
        .map(|plank| judge_plank(plank, log.wanted))
        .collect()
}

fn judge_plank(plank: &Plank, wanted: Wanted) -> Result<Judged, HeightError> {
    let shapes: Vec<(String, Shape)> = plank
        .passes
        .iter()
        .filter(|pass| !pass.readings.is_empty())
        .map(|pass| Ok((pass.name.clone(), shape(&pass.readings)?)))
        .collect::<Result<_, HeightError>>()?;
    let Some((_, now)) = shapes.last().cloned() else {
        return Err(HeightError::TooFew(0));
    };
    let taken_off: Vec<f64> = shapes
        .windows(2)
        .map(|pair| pair[0].1.mean - pair[1].1.mean)
        .collect();
    let verdict = verdict(&now, wanted);
    let passes_left = match (verdict, taken_off.last()) {
        // Below what the gauge tells there is no rate.
        (Verdict::SandOn(left), Some(&taken)) if taken > wanted.gauge => {
            Some((left / taken).ceil().clamp(1.0, 1000.0) as u32)
        }
        _ => None,
    };
    Ok(Judged {
        plank: plank.name.clone(),
        shapes,
        taken_off,
        now,
        verdict,
        passes_left,
    })
}

/// What to do next. What the gauge itself may be off is allowed for: a plank is too low only when it surely is.
///
/// # Source
/// Turning end for end and flattening first, and what is allowed for before each: common practice, no source.
pub fn verdict(shape: &Shape, wanted: Wanted) -> Verdict {
    let low = wanted.height - wanted.tolerance - shape.lowest;
    let high = shape.highest - wanted.height - wanted.tolerance;
    if low > wanted.gauge {
        return Verdict::TooLow(low);
    }
    if high <= 0.0 {
        return Verdict::Stop;
    }
    let most = wanted.tolerance + wanted.gauge;
    let twist = shape.twist.unwrap_or(0.0).abs();
    let slope = shape.along.abs().max(shape.across.abs());
    if twist > most && twist > slope {
        return Verdict::Flatten(twist);
    }
    if slope > most {
        return Verdict::Turn {
            high: high_end(shape),
            by: slope,
        };
    }
    let can = shape.lowest - (wanted.height - wanted.tolerance);
    if high > can + wanted.gauge {
        return Verdict::Uneven(shape.highest - shape.lowest);
    }
    // To the wanted height in the mean, as far as the lowest place allows and the highest asks.
    Verdict::SandOn((shape.mean - wanted.height).min(can).max(high))
}

fn high_end(shape: &Shape) -> End {
    if shape.along.abs() >= shape.across.abs() {
        if shape.along > 0.0 {
            End::Right
        } else {
            End::Left
        }
    } else if shape.across > 0.0 {
        End::Far
    } else {
        End::Near
    }
}

impl Verdict {
    /// The verdict in a sentence or two.
    pub fn in_words(self) -> Said {
        match self {
            Verdict::Stop => texts::sanded_enough(),
            Verdict::SandOn(by) => texts::sand_on(mm(by)),
            Verdict::Turn { high, by } => match high {
                End::Left => texts::turn_for_left(mm(by)),
                End::Right => texts::turn_for_right(mm(by)),
                End::Near => texts::turn_for_near(mm(by)),
                End::Far => texts::turn_for_far(mm(by)),
            },
            Verdict::Flatten(by) => texts::flatten_twist(mm(by)),
            Verdict::Uneven(by) => texts::flatten_uneven(mm(by)),
            Verdict::TooLow(by) => texts::sanded_too_low(mm(by)),
        }
    }
}

impl Judged {
    /// The outcome in lines: the verdict first.
    pub fn in_words(&self, wanted: Wanted) -> Vec<Said> {
        let verdict = self.verdict.in_words();
        let mut lines = vec![if self.plank.is_empty() {
            verdict
        } else {
            texts::plank_verdict(&self.plank, verdict)
        }];
        lines.extend(self.passes_left.map(|left| match left {
            1 => texts::one_pass_left(),
            _ => texts::passes_left(left),
        }));
        lines.push(texts::heights_found(
            fine_mm(self.now.mean),
            fine_mm(wanted.height),
            mm(wanted.tolerance),
            fine_mm(self.now.lowest),
            fine_mm(self.now.highest),
        ));
        lines.push(texts::left_to_sand(
            fine_mm((self.now.mean - wanted.height).max(0.0)),
            fine_mm((self.now.highest - wanted.height).max(0.0)),
        ));
        lines.push(self.now.in_words());
        if self.shapes.len() > 1 {
            lines.extend((0..self.shapes.len()).map(|place| self.history(place)));
        }
        lines
    }

    /// What a pass left, and what it took off.
    fn history(&self, place: usize) -> Said {
        let (name, shape) = &self.shapes[place];
        let name = if name.is_empty() {
            texts::no_name()
        } else {
            name.as_str().into()
        };
        let (number, mean) = (place + 1, fine_mm(shape.mean));
        let before = place.checked_sub(1);
        match before.and_then(|before| self.taken_off.get(before)) {
            Some(taken) => texts::pass_took(number, name, mean, fine_mm(*taken), shape.in_words()),
            None => texts::pass_left(number, name, mean, shape.in_words()),
        }
    }
}

impl Shape {
    /// How it lies, in a sentence.
    fn in_words(&self) -> Said {
        let twist = match self.twist {
            Some(twist) => texts::twisted(fine_mm(twist)),
            None => texts::twist_unseen(),
        };
        texts::plank_lies(
            fine_mm(self.along),
            fine_mm(self.across),
            twist,
            fine_mm(self.uneven),
        )
    }
}
