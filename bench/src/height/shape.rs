//! The shape that readings show.

use serde::Serialize;

use crate::least_squares::fit;

/// One reading of the gauge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Reading {
    /// Place along the plank (x, from its left end) and across (y, from the near edge), mm.
    pub at: [f64; 2],
    /// Height, mm.
    pub height: f64,
}

/// What readings say about a plank.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Shape {
    /// Mean height, mm.
    pub mean: f64,
    /// The highest reading, mm.
    pub highest: f64,
    /// The lowest reading, mm.
    pub lowest: f64,
    /// By how much the fitted plane rises from the leftmost to the rightmost reading, mm.
    pub along: f64,
    /// By how much it rises from the nearest to the farthest reading, mm.
    pub across: f64,
    /// Twist: by how much the corners near-left and far-right of the fitted surface stand above the other two, mm (the sum of the
    /// two less the sum of the other two). `None` where the readings do not tell: fewer than four, or not well spread.
    pub twist: Option<f64>,
    /// What plane and twist do not explain: root mean square, mm.
    pub uneven: f64,
}

/// Why readings cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum HeightError {
    /// Too few readings.
    #[error("At least three readings are needed, not in one line; there are {0}.")]
    TooFew(usize),
    /// All readings on one line.
    #[error(
        "All readings lie on one line. Take one to the side of it, or the plank's other slope is not seen."
    )]
    OneLine,
    /// A reading that is none.
    #[error("A reading is no number of millimetres above 0.")]
    NoHeight,
}

/// The shape that readings show: the plane, and then the plane with twist, that fit them best.
///
/// # Errors
/// Fewer than three readings, all on one line, or values that are no heights.
///
/// # Source
/// Least squares for a plane and for a hyperbolic paraboloid: textbook.
pub fn shape(readings: &[Reading]) -> Result<Shape, HeightError> {
    let is_usable = |reading: &Reading| {
        reading.at.iter().all(|value| value.is_finite())
            && reading.height.is_finite()
            && reading.height > 0.0
    };
    if !readings.iter().all(is_usable) {
        return Err(HeightError::NoHeight);
    }
    if readings.len() < 3 {
        return Err(HeightError::TooFew(readings.len()));
    }
    let [left, right] = extent(readings.iter().map(|reading| reading.at[0]));
    let [near, far] = extent(readings.iter().map(|reading| reading.at[1]));
    let [lowest, highest] = extent(readings.iter().map(|reading| reading.height));
    let (width, length) = (right - left, far - near);
    if !(width > 0.0 && length > 0.0) {
        return Err(HeightError::OneLine);
    }
    let mean = readings.iter().map(|reading| reading.height).sum::<f64>() / readings.len() as f64;
    // Places as parts of the extent from its middle, so that slopes are rises and the twist is that of the corners.
    let place = |reading: &Reading| {
        [
            (reading.at[0] - (left + right) / 2.0) / width,
            (reading.at[1] - (near + far) / 2.0) / length,
        ]
    };
    let flat: Vec<([f64; 3], f64)> = readings
        .iter()
        .map(|reading| {
            let [x, y] = place(reading);
            ([1.0, x, y], reading.height - mean)
        })
        .collect();
    let plane = fit(&flat).ok_or(HeightError::OneLine)?;
    let twisted: Vec<([f64; 4], f64)> = flat
        .iter()
        .map(|&([one, x, y], height)| ([one, x, y, x * y], height))
        .collect();
    let surface = fit(&twisted);
    let left_over = twisted.iter().map(|([one, x, y, xy], height)| {
        let fitted = surface.map_or_else(
            || plane.values[0] + plane.values[1] * x + plane.values[2] * y,
            |surface| {
                let [c, a, b, t] = surface.values;
                c * one + a * x + b * y + t * xy
            },
        );
        (height - fitted).powi(2)
    });
    Ok(Shape {
        mean,
        highest,
        lowest,
        along: plane.values[1],
        across: plane.values[2],
        // At the corners x·y is a quarter, twice with each sign.
        twist: surface.map(|surface| surface.values[3]),
        uneven: (left_over.sum::<f64>() / readings.len() as f64).sqrt(),
    })
}

fn extent(values: impl Iterator<Item = f64>) -> [f64; 2] {
    values.fold(
        [f64::INFINITY, f64::NEG_INFINITY],
        |[least, most], value| [least.min(value), most.max(value)],
    )
}
