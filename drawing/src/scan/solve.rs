//! Small systems of linear equations.

/// The unknowns of as many equations, by elimination with the largest pivot (Gauss: textbook); `None` where the equations do not tell them.
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
        let size = rows[pivot][column].abs();
        if size.is_nan() || size <= LEAST_PIVOT * largest {
            return None;
        }
        rows.swap(column, pivot);
        right.swap(column, pivot);
        let (above, below) = rows.split_at_mut(column + 1);
        let leading = &above[column];
        for (row, place) in below.iter_mut().zip(column + 1..) {
            let part = row[column] / leading[column];
            for (number, lead) in row.iter_mut().zip(leading).skip(column) {
                *number -= part * lead;
            }
            right[place] -= part * right[column];
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

#[cfg(test)]
mod tests {
    use super::solved;

    #[test]
    fn equations_are_solved_whatever_their_order_and_none_where_they_do_not_tell() {
        let rows = vec![
            vec![0.0, 2.0, 1.0],
            vec![1.0, -1.0, 0.0],
            vec![3.0, 0.0, -2.0],
        ];
        // x = 3, y = 1, z = 4.
        let found = solved(rows, vec![6.0, 2.0, 1.0]).expect("three unknowns");
        for (unknown, wanted) in found.iter().zip([3.0, 1.0, 4.0]) {
            assert!((unknown - wanted).abs() < 1e-12, "{found:?}");
        }
        let alike = vec![vec![1.0, 2.0], vec![2.0, 4.0]];
        assert_eq!(solved(alike, vec![1.0, 2.0]), None);
        assert_eq!(solved(vec![vec![f64::NAN]], vec![1.0]), None);
    }
}
