//! What programs really took, and so how a machine differs from its model.
//!
//! ```text
//! bench minutes
//! # program, the estimate on the setup sheet, what it took, minutes
//! program plank-1-1-flat-6.ngc 41.2 46
//! program plank-1-2-flat-3.ngc 28.5 31.5
//! ```

#[cfg(test)]
mod tests;

use said::{Said, Value};
use serde::Serialize;

use crate::least_squares::fit;
use crate::notebook::{Entry, Kind, NotebookError, entries};
use crate::texts;

/// One run of a program.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Run {
    /// The program.
    pub program: String,
    /// What it was estimated to take, minutes.
    pub estimated: f64,
    /// What it took, minutes.
    pub took: f64,
}

/// How a machine differs from its model: a run takes `factor` times its estimate and `each` more.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// What an estimate is multiplied by.
    pub factor: f64,
    /// What each run takes besides, minutes.
    pub each: f64,
    /// How uncertain the factor is by the scatter of the runs: twice the standard deviation.
    pub uncertain: f64,
    /// How far runs scatter about this, minutes.
    pub scatter: f64,
    /// How many runs it was found from.
    pub runs: usize,
    /// Runs that do not fit and were left out.
    pub left_out: Vec<Run>,
}

/// Why minutes cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum MinutesError {
    /// Too few runs.
    #[error("At least {LEAST_RUNS} runs are needed; there are {0}. Log some more.")]
    TooFew(usize),
    /// A model that is no more than a guess.
    #[error(
        "Runs take {0:.1} times their estimates. That is more than a correction: check the machine's feeds and acceleration in the workshop, and that all minutes are minutes."
    )]
    FarOff(f64),
}

/// The fewest runs that show anything: common practice, no source.
const LEAST_RUNS: usize = 3;

/// The fewest runs from which the minutes that each takes besides are told from the factor, and how many times the shortest the longest
/// has to be for it. Common practice, no source.
const RUNS_FOR_EACH: usize = 6;
const SPREAD_FOR_EACH: f64 = 3.0;

/// Only the last runs count: machines change, and the pairs of more are many. Common practice, no source.
const MOST_RUNS: usize = 500;

/// Factors outside of this are no corrections. Common practice, no source.
const FACTORS: [f64; 2] = [0.5, 4.0];

/// A median of distances times this is the standard deviation of what scatters normally.
///
/// # Source
/// Textbook statistics: the reciprocal of the normal distribution's quartile.
const DEVIATION_OF_MEDIAN: f64 = 1.4826;

/// Runs further from the line than so many deviations are left out; nearer than this, minutes, never. Common practice, no source.
const OUTLYING: f64 = 3.0;
const NEAR_MIN: f64 = 0.5;

/// Reads a notebook.
///
/// # Errors
/// What cannot be read, with its line.
pub fn read(text: &str) -> Result<Vec<Run>, NotebookError> {
    let runs: Vec<Run> = entries(text, Kind::Minutes)?
        .iter()
        .map(run)
        .collect::<Result<_, _>>()?;
    if runs.is_empty() {
        return Err(NotebookError::Missing(
            "There are no runs. Write: program NAME ESTIMATED TOOK, in minutes.".to_owned(),
        ));
    }
    Ok(runs)
}

fn run(entry: &Entry<'_>) -> Result<Run, NotebookError> {
    if entry.key != "program" {
        return Err(entry.unknown("program"));
    }
    let numbers = entry.numbers_from(1)?;
    match (entry.words.first(), numbers.as_slice()) {
        (Some(name), [estimated, took]) if *estimated > 0.0 && *took > 0.0 => Ok(Run {
            program: (*name).to_owned(),
            estimated: *estimated,
            took: *took,
        }),
        _ => Err(entry.fault(
            "a program, the minutes estimated and the minutes that it took are wanted here, both above 0.",
        )),
    }
}

/// How the machine differs from its model.
///
/// First a line that no few runs can draw aside: the median of the slopes of all pairs of runs and the median of what is left (of few
/// or like runs: the median of the ratios alone). Runs far from it are left out; least squares of the others give the outcome.
///
/// # Errors
/// Too few runs, or a factor that is no correction.
///
/// # Source
/// H. Theil, "A rank-invariant method of linear and polynomial regression analysis", 1950, and P. K. Sen, 1968 (from memory); least
/// squares: textbook.
pub fn judge(runs: &[Run]) -> Result<Judged, MinutesError> {
    let runs = &runs[runs.len().saturating_sub(MOST_RUNS)..];
    if runs.len() < LEAST_RUNS {
        return Err(MinutesError::TooFew(runs.len()));
    }
    let start = robust(runs);
    let off = |run: &Run, line: [f64; 2]| run.took - line[0] * run.estimated - line[1];
    let scatter = DEVIATION_OF_MEDIAN * median(runs.iter().map(|run| off(run, start).abs()));
    let limit = (OUTLYING * scatter).max(NEAR_MIN);
    let (kept, left_out): (Vec<Run>, Vec<Run>) = runs
        .iter()
        .cloned()
        .partition(|run| off(run, start).abs() <= limit);
    let has_each = start[1] > 0.0;
    let ([factor, each], spread) = refined(&kept, has_each).unwrap_or((start, 0.0));
    let freedom = kept.len().saturating_sub(1 + usize::from(has_each)).max(1) as f64;
    let squares: f64 = kept
        .iter()
        .map(|run| off(run, [factor, each]).powi(2))
        .sum();
    let scatter = (squares / freedom).sqrt();
    if !(FACTORS[0]..=FACTORS[1]).contains(&factor) {
        return Err(MinutesError::FarOff(factor));
    }
    Ok(Judged {
        factor,
        each,
        uncertain: 2.0 * spread * scatter,
        scatter,
        runs: kept.len(),
        left_out,
    })
}

/// Factor and minutes besides, by medians.
fn robust(runs: &[Run]) -> [f64; 2] {
    let ratio = median(runs.iter().map(|run| run.took / run.estimated));
    let shortest = runs
        .iter()
        .map(|run| run.estimated)
        .fold(f64::INFINITY, f64::min);
    let longest = runs.iter().map(|run| run.estimated).fold(0.0, f64::max);
    if runs.len() < RUNS_FOR_EACH || longest < SPREAD_FOR_EACH * shortest {
        return [ratio, 0.0];
    }
    let slopes = runs.iter().enumerate().flat_map(|(place, a)| {
        runs[place + 1..]
            .iter()
            .filter(move |b| b.estimated != a.estimated)
            .map(move |b| (b.took - a.took) / (b.estimated - a.estimated))
    });
    let slope = median(slopes);
    let each = median(runs.iter().map(|run| run.took - slope * run.estimated));
    // Runs take time besides, they do not save it.
    if each > 0.0 && slope > 0.0 {
        [slope, each]
    } else {
        [ratio, 0.0]
    }
}

/// The same by least squares, with the spread of the factor.
fn refined(runs: &[Run], has_each: bool) -> Option<([f64; 2], f64)> {
    if has_each {
        let rows: Vec<([f64; 2], f64)> = runs
            .iter()
            .map(|run| ([run.estimated, 1.0], run.took))
            .collect();
        let fit = fit(&rows)?;
        if fit.values[1] > 0.0 {
            return Some((fit.values, fit.spread[0]));
        }
    }
    let rows: Vec<([f64; 1], f64)> = runs.iter().map(|run| ([run.estimated], run.took)).collect();
    let fit = fit(&rows)?;
    Some(([fit.values[0], 0.0], fit.spread[0]))
}

/// The middle value, or the mean of the two middle ones; 0 of none.
fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    match (values.get(half), values.len() % 2) {
        (None, _) => 0.0,
        (Some(middle), 1) => *middle,
        (Some(above), _) => (values[half - 1] + above) / 2.0,
    }
}

impl Judged {
    /// The outcome in lines: the verdict first.
    pub fn in_words(&self) -> Vec<Said> {
        let tenths = |minutes| Value::plain(minutes, 1);
        let (factor, uncertain) = (
            Value::plain(self.factor, 3),
            Value::plain(self.uncertain, 3),
        );
        let mut lines = vec![if self.each > 0.0 {
            texts::takes_times_and(factor, uncertain, tenths(self.each))
        } else {
            texts::takes_times(factor, uncertain)
        }];
        lines.push(texts::found_from_runs(self.runs, tenths(self.scatter)));
        lines.extend(
            self.left_out.iter().map(|run| {
                texts::run_left_out(&run.program, tenths(run.estimated), tenths(run.took))
            }),
        );
        lines
    }
}
