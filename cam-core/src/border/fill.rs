//! One side of a frame filled with whole units.

use crate::material::{Piece, QUARTERS, Sums, WIDEST, pieces, quarters};

/// How one side is filled between its corners.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// The running pieces in the order in which they stand, by their places in the list of kinds.
    pub pieces: Vec<usize>,
    /// What is left of the room, in points.
    pub rest_pt: f64,
    /// The spacing material that makes up the rest, the widest first; empty of no rest, `None` where none makes it up.
    pub spacing: Option<Vec<Piece>>,
    /// The nearest rooms that whole units fill exactly, in points: not above this one, and not below it.
    pub nearest_pt: [f64; 2],
}

/// What is less than this is arithmetic, not wood, in points.
const NOTHING_PT: f64 = 1e-3;

/// Fills a room with as few units as come nearest to it and not above it. `None` where a unit's length is no whole quarter of a point, the room
/// is none, or wider than a forme.
pub fn fill(room_pt: f64, lengths_pt: &[f64]) -> Option<Fill> {
    let lengths: Vec<u32> = lengths_pt
        .iter()
        .map(|&length| quarters(length))
        .collect::<Option<_>>()?;
    let longest = *lengths.iter().max()?;
    let room = ((room_pt + NOTHING_PT) * f64::from(QUARTERS)).floor();
    let most = f64::from(WIDEST - longest.min(WIDEST));
    if !(0.0..=most).contains(&room) {
        return None;
    }
    let room = room as u32;
    let sums = Sums::up_to(room + longest, &lengths);
    let any_number = usize::MAX;
    // Nothing at all is reached always, so this ends at the latest there; and one unit more than fits is reached too.
    let (below, taken) = (0..=room)
        .rev()
        .find_map(|sum| Some((sum, sums.made_up(sum, any_number)?)))?;
    let above = (room..=room + longest).find(|&sum| {
        let is_room = f64::from(sum) + NOTHING_PT >= room_pt * f64::from(QUARTERS);
        is_room && sums.made_up(sum, any_number).is_some()
    })?;
    let points = |quarters: u32| f64::from(quarters) / f64::from(QUARTERS);
    let rest_pt = room_pt - points(below);
    let is_full = rest_pt.abs() <= NOTHING_PT;
    Some(Fill {
        pieces: ordered(&taken, &lengths),
        rest_pt: if is_full { 0.0 } else { rest_pt },
        spacing: if is_full {
            Some(Vec::new())
        } else {
            pieces(rest_pt)
        },
        nearest_pt: [points(below), points(above)],
    })
}

/// The units with those that are fewer in the middle, so that both ends of a side look alike.
fn ordered(taken: &[u32], lengths: &[u32]) -> Vec<usize> {
    let kind = |length: u32| lengths.iter().position(|&other| other == length);
    let kinds: Vec<usize> = taken.iter().filter_map(|&length| kind(length)).collect();
    let Some(&main) = kinds.iter().max_by_key(|&&one| {
        let count = kinds.iter().filter(|&&other| other == one).count();
        (count, std::cmp::Reverse(one))
    }) else {
        return Vec::new();
    };
    let others: Vec<usize> = kinds.iter().copied().filter(|&kind| kind != main).collect();
    let mains = kinds.len() - others.len();
    let before = mains.div_ceil(2);
    std::iter::repeat_n(main, before)
        .chain(others)
        .chain(std::iter::repeat_n(main, mains - before))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::in_words;

    fn filled(room_pt: f64, lengths_pt: &[f64]) -> Fill {
        fill(room_pt, lengths_pt).expect("it can be filled")
    }

    #[test]
    fn whole_units_fill_a_room_of_their_multiple() {
        let full = filled(24.0 * 12.0, &[24.0]);
        assert_eq!(full.pieces, vec![0; 12]);
        assert_eq!(full.rest_pt, 0.0);
        assert_eq!(full.spacing, Some(Vec::new()));
        assert_eq!(full.nearest_pt, [288.0, 288.0]);
        assert_eq!(filled(0.0, &[24.0]).pieces, [0; 0]);
    }

    #[test]
    fn the_rest_is_made_up_and_the_nearest_sizes_are_told() {
        let with_rest = filled(100.0, &[24.0]);
        assert_eq!(with_rest.pieces.len(), 4);
        assert_eq!(with_rest.rest_pt, 4.0);
        let spacing = with_rest.spacing.expect("leads make it up");
        assert_eq!(in_words(&spacing), "3-point lead and 1-point lead");
        assert_eq!(with_rest.nearest_pt, [96.0, 120.0]);
        let odd = filled(96.3, &[24.0]);
        assert_eq!(odd.spacing, None);
        assert!((odd.rest_pt - 0.3).abs() < 1e-9);
        assert_eq!(odd.nearest_pt, [96.0, 120.0]);
    }

    #[test]
    fn shorter_units_fill_what_longer_ones_leave_and_stand_in_the_middle() {
        let both = filled(102.0, &[24.0, 6.0]);
        assert_eq!(both.rest_pt, 0.0);
        assert_eq!(both.pieces, [0, 0, 1, 0, 0]);
        // Two of 24 and five of 10.
        let near = filled(99.0, &[24.0, 10.0]);
        assert_eq!(near.nearest_pt, [98.0, 100.0]);
        assert_eq!(near.pieces, [1, 1, 1, 0, 0, 1, 1]);
    }

    /// Against trying all numbers of three lengths.
    #[test]
    fn no_other_numbers_come_nearer_or_need_fewer() {
        let lengths = [24.0, 18.0, 7.0];
        for room in 1..200 {
            let room = f64::from(room);
            let found = filled(room, &lengths);
            let (mut best, mut fewest) = (-1.0, 0);
            for a in 0..9 {
                for b in 0..12 {
                    for c in 0..29 {
                        let sum = 24.0 * f64::from(a) + 18.0 * f64::from(b) + 7.0 * f64::from(c);
                        let count = a + b + c;
                        if sum <= room && (sum > best || (sum == best && count < fewest)) {
                            (best, fewest) = (sum, count);
                        }
                    }
                }
            }
            assert_eq!(found.nearest_pt[0], best, "{room}");
            assert_eq!(found.pieces.len(), fewest as usize, "{room}");
        }
    }

    #[test]
    fn what_cannot_be_filled_is_refused() {
        assert_eq!(fill(-1.0, &[24.0]), None);
        assert_eq!(fill(f64::NAN, &[24.0]), None);
        assert_eq!(fill(100.0, &[]), None);
        assert_eq!(fill(100.0, &[24.1]), None);
        assert_eq!(fill(100.0, &[0.0]), None);
        assert_eq!(fill(1e9, &[24.0]), None);
    }
}
