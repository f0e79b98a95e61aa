//! Least squares for a few unknowns.

/// What a fit gives for `N` unknowns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit<const N: usize> {
    /// The unknowns.
    pub values: [f64; N],
    /// How far each unknown goes with an error of one in every row, as a standard deviation: the roots of the diagonal of the inverse of
    /// the normal matrix. Times the deviation of a row it is the deviation of the unknown.
    pub spread: [f64; N],
}

/// A column whose part that other columns do not explain is less than this share of it cannot be told from them.
const LEAST_OWN_PART: f64 = 1e-7;

/// The unknowns for which the rows (coefficients and right side) fit best, in the sense of least squares; `None` where rows do not
/// determine them.
///
/// By orthogonal columns (Gram and Schmidt, each column cleared twice), so that nothing is squared that need not be.
///
/// # Source
/// Textbook linear algebra.
pub fn fit<const N: usize>(rows: &[([f64; N], f64)]) -> Option<Fit<N>> {
    if rows.len() < N {
        return None;
    }
    let mut columns: Vec<Vec<f64>> = (0..N)
        .map(|column| rows.iter().map(|(row, _)| row[column]).collect())
        .collect();
    let mut right: Vec<f64> = rows.iter().map(|(_, right)| *right).collect();
    let mut upper = [[0.0; N]; N];
    let mut sides = [0.0; N];
    for this in 0..N {
        let whole = length(&columns[this]);
        for _ in 0..2 {
            for before in 0..this {
                let (done, open) = columns.split_at_mut(this);
                let share = dot(&done[before], &open[0]);
                upper[before][this] += share;
                take_off(&mut open[0], share, &done[before]);
            }
        }
        let own = length(&columns[this]);
        if !own.is_finite() || own <= LEAST_OWN_PART * whole {
            return None;
        }
        upper[this][this] = own;
        columns[this].iter_mut().for_each(|value| *value /= own);
        sides[this] = dot(&columns[this], &right);
        take_off(&mut right, sides[this], &columns[this]);
    }
    let values = solved(&upper, sides);
    let spread = spread(&upper);
    let is_finite = values.iter().chain(&spread).all(|value| value.is_finite());
    is_finite.then_some(Fit { values, spread })
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn length(a: &[f64]) -> f64 {
    dot(a, a).sqrt()
}

fn take_off(from: &mut [f64], share: f64, what: &[f64]) {
    for (value, part) in from.iter_mut().zip(what) {
        *value -= share * part;
    }
}

/// Back substitution.
fn solved<const N: usize>(upper: &[[f64; N]; N], sides: [f64; N]) -> [f64; N] {
    let mut values = [0.0; N];
    for row in (0..N).rev() {
        let known: f64 = (row + 1..N)
            .map(|column| upper[row][column] * values[column])
            .sum();
        values[row] = (sides[row] - known) / upper[row][row];
    }
    values
}

/// The roots of the diagonal of (UᵀU)⁻¹: the lengths of the rows of U⁻¹.
fn spread<const N: usize>(upper: &[[f64; N]; N]) -> [f64; N] {
    let mut squares = [0.0; N];
    for column in 0..N {
        let mut unit = [0.0; N];
        unit[column] = 1.0;
        for (square, value) in squares.iter_mut().zip(solved(upper, unit)) {
            *square += value * value;
        }
    }
    squares.map(f64::sqrt)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plane_through_its_own_points_is_found() {
        let rows: Vec<([f64; 3], f64)> = (0..7)
            .map(|i| {
                let (x, y) = (f64::from(i * i % 5), f64::from(i));
                ([1.0, x, y], 3.0 + 0.5 * x - 0.25 * y)
            })
            .collect();
        let fit = fit(&rows).expect("seven points not in a line");
        for (found, wanted) in fit.values.into_iter().zip([3.0, 0.5, -0.25]) {
            assert!((found - wanted).abs() < 1e-12, "{found} {wanted}");
        }
    }

    #[test]
    fn the_spread_of_a_mean_is_one_over_the_root_of_the_number() {
        let rows: Vec<([f64; 1], f64)> = [1.0, 2.0, 4.0, 5.0].map(|value| ([1.0], value)).to_vec();
        let fit = fit(&rows).expect("four numbers have a mean");
        assert!((fit.values[0] - 3.0).abs() < 1e-12);
        assert!((fit.spread[0] - 0.5).abs() < 1e-12);
    }

    #[test]
    fn what_rows_do_not_determine_is_not_made_up() {
        let line: Vec<([f64; 3], f64)> = (0..9)
            .map(|i| ([1.0, f64::from(i), 2.0 * f64::from(i)], 1.0))
            .collect();
        assert_eq!(fit(&line), None);
        assert_eq!(fit::<2>(&[([1.0, 1.0], 1.0)]), None);
        assert_eq!(fit::<1>(&[([0.0], 1.0)]), None);
        assert_eq!(fit::<1>(&[([f64::NAN], 1.0), ([1.0], 1.0)]), None);
    }
}
