//! Stretches of a curve, given by lengths from its start.

/// What is wanted of a curve.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Wanted {
    /// All of a closed curve.
    Whole,
    /// Stretches in order. Of a closed curve the last may end beyond the curve's length, which means past its start.
    Parts(Vec<(f64, f64)>),
}

/// Joins stretches of a curve of this length: each grows by `more` at both ends, and gaps up to `gap` are closed.
///
/// The stretches must be in order and lie within the curve. A closed curve with no gap left is wanted whole.
pub(super) fn joined(
    stretches: &[(f64, f64)],
    length: f64,
    closed: bool,
    more: f64,
    gap: f64,
) -> Wanted {
    let mut parts: Vec<(f64, f64)> = Vec::new();
    for &(from, to) in stretches {
        let (from, to) = if closed {
            (from - more, to + more)
        } else {
            ((from - more).max(0.0), (to + more).min(length))
        };
        match parts.last_mut() {
            Some(last) if from - last.1 <= gap => last.1 = last.1.max(to),
            _ => parts.push((from, to)),
        }
    }
    if !closed || parts.is_empty() {
        return Wanted::Parts(parts);
    }
    let (first, last) = (parts[0], parts[parts.len() - 1]);
    if first.0 + length - last.1 <= gap {
        if parts.len() == 1 {
            return Wanted::Whole;
        }
        // The last stretch runs on over the start of the curve into the first one.
        parts.remove(0);
        if let Some(last) = parts.last_mut() {
            last.1 = last.1.max(first.1 + length);
        }
    }
    for part in &mut parts {
        if part.0 < 0.0 {
            *part = (part.0 + length, part.1 + length);
        }
    }
    Wanted::Parts(parts)
}

/// Adds an interval to a list of disjoint intervals in order, joining what touches.
pub(super) fn insert(intervals: &mut Vec<(f64, f64)>, from: f64, to: f64) {
    let first = intervals.partition_point(|interval| interval.1 < from);
    let end = intervals.partition_point(|interval| interval.0 <= to);
    let (mut from, mut to) = (from, to);
    if first < end {
        from = from.min(intervals[first].0);
        to = to.max(intervals[end - 1].1);
    }
    intervals.splice(first..end.max(first), [(from, to)]);
}

/// What of `from` to `to` the intervals, disjoint and in order, leave.
pub(super) fn gaps(intervals: &[(f64, f64)], from: f64, to: f64) -> Vec<(f64, f64)> {
    let mut left = Vec::new();
    let mut at = from;
    for &(lower, upper) in intervals {
        if upper <= at {
            continue;
        }
        if lower >= to {
            break;
        }
        if lower > at {
            left.push((at, lower));
        }
        at = upper;
    }
    if at < to {
        left.push((at, to));
    }
    left
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_near_one_another_become_one_and_others_stay() {
        let found = joined(&[(1.0, 2.0), (2.5, 3.0), (6.0, 7.0)], 10.0, false, 0.1, 0.4);
        assert_eq!(found, Wanted::Parts(vec![(0.9, 3.1), (5.9, 7.1)]));
    }

    #[test]
    fn stretches_on_both_sides_of_a_closed_curves_start_are_one() {
        let found = joined(&[(0.0, 1.0), (4.0, 5.0), (9.8, 10.0)], 10.0, true, 0.0, 0.5);
        assert_eq!(found, Wanted::Parts(vec![(4.0, 5.0), (9.8, 11.0)]));
    }

    #[test]
    fn a_closed_curve_without_a_gap_is_wanted_whole_and_an_open_one_in_one_part() {
        let all = [(0.0, 4.0), (4.2, 9.9)];
        assert_eq!(joined(&all, 10.0, true, 0.0, 0.5), Wanted::Whole);
        let open = joined(&all, 10.0, false, 0.0, 0.5);
        assert_eq!(open, Wanted::Parts(vec![(0.0, 9.9)]));
        assert_eq!(joined(&[], 10.0, true, 0.0, 0.5), Wanted::Parts(vec![]));
    }

    #[test]
    fn inserted_intervals_join_what_they_touch_and_gaps_are_the_rest() {
        let mut intervals = Vec::new();
        for (from, to) in [(4.0, 5.0), (1.0, 2.0), (8.0, 9.0), (2.0, 4.5)] {
            insert(&mut intervals, from, to);
        }
        assert_eq!(intervals, [(1.0, 5.0), (8.0, 9.0)]);
        assert_eq!(
            gaps(&intervals, 0.0, 10.0),
            [(0.0, 1.0), (5.0, 8.0), (9.0, 10.0)]
        );
        assert_eq!(gaps(&intervals, 2.0, 3.0), []);
    }
}
