//! Small systems of linear equations.

/// The unknowns of as many equations, by elimination with the largest pivot; `None` where the equations do not tell them.
pub(super) fn solved(mut rows: Vec<Vec<f64>>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    /// Pivots smaller than this part of the largest number of all tell nothing.
    const LEAST_PIVOT: f64 = 1e-13;
    let many = right.len();
    let largest = rows
        .iter()
        .flatten()
        .fold(0.0_f64, |most, a| most.max(a.abs()));
    for column in 0..many {
        let pivot = (column..many)
            .max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))?;
        if !(rows[pivot][column].abs() > LEAST_PIVOT * largest) {
            return None;
        }
        rows.swap(column, pivot);
        right.swap(column, pivot);
        for row in column + 1..many {
            let part = rows[row][column] / rows[column][column];
            if part != 0.0 {
                for place in column..many {
                    rows[row][place] -= part * rows[column][place];
                }
                right[row] -= part * right[column];
            }
        }
    }
    for row in (0..many).rev() {
        let known: f64 = (row + 1..many)
            .map(|place| rows[row][place] * right[place])
            .sum();
        right[row] = (right[row] - known) / rows[row][row];
    }
    right
        .iter()
        .all(|unknown| unknown.is_finite())
        .then_some(right)
}
