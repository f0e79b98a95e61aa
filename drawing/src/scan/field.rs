//! A grid of values, one for each dot, counted from the lower left; the dot at x, y has its middle at x + ½, y + ½.

/// Values of dots.
#[derive(Clone, Debug)]
pub(super) struct Field {
    pub width: usize,
    pub height: usize,
    pub values: Vec<f32>,
}

impl Field {
    /// The value of a dot; 0, bare paper, off the grid.
    pub(super) fn at(&self, x: i64, y: i64) -> f32 {
        let (Ok(x), Ok(y)) = (usize::try_from(x), usize::try_from(y)) else {
            return 0.0;
        };
        if x < self.width && y < self.height {
            self.values[y * self.width + x]
        } else {
            0.0
        }
    }

    /// The value between dots, by those of the four around it (bilinear: textbook).
    pub(super) fn between(&self, x: f64, y: f64) -> f32 {
        let (x, y) = (x - 0.5, y - 0.5);
        let (column, row) = (x.floor(), y.floor());
        let (across, up) = ((x - column) as f32, (y - row) as f32);
        let (column, row) = (column as i64, row as i64);
        let lower = self.at(column, row) * (1.0 - across) + self.at(column + 1, row) * across;
        let upper =
            self.at(column, row + 1) * (1.0 - across) + self.at(column + 1, row + 1) * across;
        lower * (1.0 - up) + upper * up
    }

    /// The field smoothed by a bell curve of this standard deviation, in dots, one way and then the other (textbook); its edges are held.
    pub(super) fn smoothed(&self, deviation: f64) -> Field {
        let kernel = kernel(deviation);
        let across = self.passed(&kernel, 1, self.width, self.width, self.height);
        across.passed(&kernel, self.width, self.height, 1, self.width)
    }

    /// One direction of smoothing: `lines` lines of `length` dots, `step` apart in a line and `stride` from line to line.
    fn passed(
        &self,
        kernel: &[f32],
        step: usize,
        length: usize,
        stride: usize,
        lines: usize,
    ) -> Field {
        let half = kernel.len() / 2;
        let mut values = vec![0.0; self.values.len()];
        for line in 0..lines {
            let start = line * stride;
            for place in 0..length {
                let mut sum = 0.0;
                for (number, weight) in kernel.iter().enumerate() {
                    let from = (place + number).saturating_sub(half).min(length - 1);
                    sum += weight * self.values[start + from * step];
                }
                values[start + place * step] = sum;
            }
        }
        Field {
            width: self.width,
            height: self.height,
            values,
        }
    }
}

fn kernel(deviation: f64) -> Vec<f32> {
    /// Beyond three deviations a bell curve adds a part in four hundred.
    const REACH: f64 = 3.0;
    let half = (deviation * REACH).ceil().max(1.0) as i64;
    let weights: Vec<f64> = (-half..=half)
        .map(|place| (-0.5 * (place as f64 / deviation).powi(2)).exp())
        .collect();
    let sum: f64 = weights.iter().sum();
    weights
        .into_iter()
        .map(|weight| (weight / sum) as f32)
        .collect()
}
