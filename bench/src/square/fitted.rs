//! Scales and skew from what was measured.

use said::{Said, Value};
use serde::Serialize;

use super::Map;
use crate::least_squares::fit;
use crate::texts;
use crate::words::fine_mm;

/// A test block as it was asked for and as it was measured, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Block {
    /// Width (x) and length (y) in the program.
    pub asked: [f64; 2],
    /// Its width measured, as often as one likes.
    pub widths: Vec<f64>,
    /// Its length.
    pub lengths: Vec<f64>,
    /// Its diagonal from lower left to upper right, as it lay on the machine with its face up.
    pub rising: Vec<f64>,
    /// Its diagonal from upper left to lower right.
    pub falling: Vec<f64>,
    /// How far the measuring tool may be off.
    pub tool: f64,
}

/// A square on the machine's table, and what a clock in the spindle reads along its blades, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Clocked {
    /// How far the clock was run along x.
    pub x_run: f64,
    /// How much further toward +y the blade's edge lay at the end of that than at its beginning.
    pub x_rise: f64,
    /// How far it was run along y.
    pub y_run: f64,
    /// How much further toward +x the other blade's edge lay at the end of that.
    pub y_rise: f64,
    /// How far a reading may be off.
    pub tool: f64,
}

/// How uncertain scales and skew are by the tool: twice the standard deviation; `None` where they were not measured.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Uncertain {
    /// Of the scale along x.
    pub scale_x: Option<f64>,
    /// Of the scale along y.
    pub scale_y: Option<f64>,
    /// Of the skew, radians.
    pub skew: f64,
}

/// Scales and skew found.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Found {
    /// What the machine does.
    pub map: Map,
    /// How uncertain that is.
    pub uncertain: Uncertain,
    /// How far the measures are from what this map would make them, root mean square, mm: 0 with no more measures than unknowns.
    pub left_over: f64,
}

/// Why squareness cannot be worked out.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum SquareError {
    /// A measure that is none.
    #[error("A side, diagonal or limit is not a number of millimetres above 0.")]
    NoSize,
    /// A kind of measure is missing.
    #[error(
        "Measure the width and the length once at least, and one diagonal at least; both diagonals are better."
    )]
    TooFew,
    /// Sides and diagonals that belong to no block.
    #[error(
        "Sides and diagonals do not belong together: they are off each other by {0:.3} mm, more than the tool can be. Measure again; burrs, tabs left on or a worn jaw are the usual cause."
    )]
    DoNotBelong(f64),
    /// So far off that it is no machine but a mistake.
    #[error(
        "The block is {0:.1} % off what was asked for. Check which side is which, and that the right program was run."
    )]
    FarOff(f64),
}

/// Scales further from 1 than this, and skews larger (as a part and in radians), are taken for mistakes. Common practice, no source.
pub const FAR_OFF: f64 = 0.02;

/// Twice the standard deviation covers all but a twentieth.
///
/// # Source
/// JCGM 100:2008, 6.2 and 6.3 (from memory): a coverage factor of 2 for a level of about 95 %.
const COVERAGE: f64 = 2.0;

/// The standard deviation of a tool that may be off by one at the most, anywhere in between alike.
///
/// # Source
/// JCGM 100:2008, *Guide to the expression of uncertainty in measurement*, 4.3.7 (from memory): one over the root of three.
const DEVIATION_OF_LIMIT: f64 = 0.577_350_269_189_625_8;

/// Steps of the fit: each squares the error, which begins at a few per cent.
const STEPS: usize = 12;

/// Scale and skew from a test block: the map for which sides and diagonals fit best, in the sense of least squares.
///
/// A side along x is `scale_x · a`, one along y `scale_y · b`; diagonals are the lengths of the sum and the difference of the two.
///
/// # Errors
/// Measures that are none, too few, do not belong together, or are far from what was asked for.
///
/// # Source
/// Textbook: the law of cosines, and least squares by linearising (Gauss and Newton).
pub fn from_block(block: &Block) -> Result<Found, SquareError> {
    let measures = measures(block)?;
    let mut map = Map::TRUE;
    let mut spread = [0.0; 3];
    for _ in 0..STEPS {
        let rows: Vec<([f64; 3], f64)> = measures
            .iter()
            .map(|measure| measure.row(block.asked, &map))
            .collect();
        let step = fit(&rows).ok_or(SquareError::TooFew)?;
        map.scale_x += step.values[0];
        map.scale_y += step.values[1];
        map.skew += step.values[2];
        spread = step.spread;
        refuse_far_off(&map)?;
    }
    let squares: f64 = measures
        .iter()
        .map(|measure| measure.row(block.asked, &map).1.powi(2))
        .sum();
    let count = measures.len() as f64;
    // If no reading is off by more than the tool may be, all of them together leave no more than this.
    if squares > count * block.tool.powi(2) {
        return Err(SquareError::DoNotBelong(squares.sqrt()));
    }
    let uncertain = spread.map(|spread| COVERAGE * DEVIATION_OF_LIMIT * block.tool * spread);
    Ok(Found {
        map,
        uncertain: Uncertain {
            scale_x: Some(uncertain[0]),
            scale_y: Some(uncertain[1]),
            skew: uncertain[2],
        },
        left_over: (squares / count).sqrt(),
    })
}

fn refuse_far_off(map: &Map) -> Result<(), SquareError> {
    let off = (map.scale_x - 1.0)
        .abs()
        .max((map.scale_y - 1.0).abs())
        .max(map.skew.abs());
    if off.is_finite() && off <= FAR_OFF {
        Ok(())
    } else {
        Err(SquareError::FarOff(off * 100.0))
    }
}

#[derive(Clone, Copy)]
enum Which {
    Width,
    Length,
    Rising,
    Falling,
}

#[derive(Clone, Copy)]
struct Measure {
    which: Which,
    length: f64,
}

impl Measure {
    /// How the measure changes with scale x, scale y and skew, and how far it is from what the map would make it.
    fn row(&self, [a, b]: [f64; 2], map: &Map) -> ([f64; 3], f64) {
        let (x, y) = (map.scale_x * a, map.scale_y * b);
        let (sin, cos) = map.skew.sin_cos();
        let sign = match self.which {
            Which::Width => return ([a, 0.0, 0.0], self.length - x),
            Which::Length => return ([0.0, b, 0.0], self.length - y),
            Which::Rising => 1.0,
            Which::Falling => -1.0,
        };
        let diagonal = (x * x + y * y + sign * 2.0 * x * y * sin).max(0.0).sqrt();
        let row = [
            a * (x + sign * y * sin) / diagonal,
            b * (y + sign * x * sin) / diagonal,
            sign * x * y * cos / diagonal,
        ];
        (row, self.length - diagonal)
    }
}

fn measures(block: &Block) -> Result<Vec<Measure>, SquareError> {
    let kinds = [
        (Which::Width, &block.widths),
        (Which::Length, &block.lengths),
        (Which::Rising, &block.rising),
        (Which::Falling, &block.falling),
    ];
    let measures: Vec<Measure> = kinds
        .into_iter()
        .flat_map(|(which, lengths)| lengths.iter().map(move |&length| Measure { which, length }))
        .collect();
    let sizes = measures.iter().map(|measure| measure.length);
    let mut sizes = sizes.chain(block.asked).chain([block.tool]);
    if sizes.any(|size| !(size.is_finite() && size > 0.0)) {
        return Err(SquareError::NoSize);
    }
    let no_diagonal = block.rising.is_empty() && block.falling.is_empty();
    if block.widths.is_empty() || block.lengths.is_empty() || no_diagonal {
        return Err(SquareError::TooFew);
    }
    Ok(measures)
}

/// Skew from a square and a clock. The scales are not seen and stay 1.
///
/// # Errors
/// Readings that are none, or far off.
///
/// # Source
/// Textbook trigonometry.
pub fn from_clock(clocked: Clocked) -> Result<Found, SquareError> {
    let sizes = [clocked.x_run, clocked.y_run, clocked.tool];
    let rises = [clocked.x_rise, clocked.y_rise];
    if sizes.iter().any(|size| !(size.is_finite() && *size > 0.0))
        || rises.iter().any(|rise| !rise.is_finite())
    {
        return Err(SquareError::NoSize);
    }
    // The square lies turned by the first angle; its other blade leans away from the machine's y axis by the second.
    let turned = (clocked.x_rise / clocked.x_run).atan();
    let leaning = (clocked.y_rise / clocked.y_run).atan();
    let map = Map {
        skew: -(turned + leaning),
        ..Map::TRUE
    };
    refuse_far_off(&map)?;
    // A rise is the difference of two readings.
    let of_run = |run: f64| COVERAGE * DEVIATION_OF_LIMIT * clocked.tool * 2.0_f64.sqrt() / run;
    Ok(Found {
        map,
        uncertain: Uncertain {
            scale_x: None,
            scale_y: None,
            skew: of_run(clocked.x_run).hypot(of_run(clocked.y_run)),
        },
        left_over: 0.0,
    })
}

impl Found {
    /// Whether anything is more than the tool can be wrong.
    pub fn is_seen(&self) -> bool {
        let is_scale_seen = |scale: f64, uncertain: Option<f64>| {
            uncertain.is_some_and(|uncertain| (scale - 1.0).abs() > uncertain)
        };
        is_scale_seen(self.map.scale_x, self.uncertain.scale_x)
            || is_scale_seen(self.map.scale_y, self.uncertain.scale_y)
            || self.map.skew.abs() > self.uncertain.skew
    }

    /// Scales and skew in a sentence, as what they do over 100 mm.
    pub(super) fn in_words(&self) -> Said {
        let per_100 = |part: f64| Value::plain(part * 100.0, 3);
        let scale = |axis: &str, scale: f64, uncertain: Option<f64>| match uncertain {
            Some(uncertain) => texts::axis_off(axis, per_100(scale - 1.0), per_100(uncertain)),
            None => texts::axis_not_measured(axis),
        };
        texts::off_over_100(
            scale("x", self.map.scale_x, self.uncertain.scale_x),
            scale("y", self.map.scale_y, self.uncertain.scale_y),
            per_100(self.map.skew.sin()),
            per_100(self.uncertain.skew),
            fine_mm(self.left_over),
        )
    }
}
