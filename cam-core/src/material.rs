//! Spacing material that printers own: leads, reglets and furniture, and which pieces make up a width.
//!
//! Widths are whole quarters of a point here, so that sums are exact: half leads are 1½ points.

use said::{Joint, Said, Value};

use crate::finding::texts;

/// Quarters in a point.
pub const QUARTERS: u32 = 4;

/// Thicknesses of leads, in quarters of a point: 1, 1½, 2 and 3 points.
///
/// # Source
/// A. A. Stewart, *Typesetting*, Typographic Technical Series No. 16, 1919, p. 21.
pub const LEADS: [u32; 4] = [4, 6, 8, 12];

/// Thicknesses of reglets, in quarters of a point: 6, 12 and 18 points.
///
/// # Source
/// A. A. Stewart, *Typesetting*, 1919, p. 21: wood of these thicknesses, in yard lengths; what is thicker is furniture.
pub const REGLETS: [u32; 3] = [24, 48, 72];

/// Widths of furniture, in quarters of a point: 2, 3, 4, 5, 6, 8 and 10 picas. Common practice, no source.
pub const FURNITURE: [u32; 7] = [96, 144, 192, 240, 288, 384, 480];

/// The widest that is made up, in quarters of a point: two hundred picas, wider than any forme.
pub const WIDEST: u32 = 200 * 12 * QUARTERS;

/// A piece of spacing material.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Piece {
    /// What it is sold as.
    pub kind: PieceKind,
    /// Its width, in quarters of a point.
    pub quarters: u32,
}

/// What a piece is sold as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PieceKind {
    /// A strip of metal under six points.
    Lead,
    /// A strip of wood of six to eighteen points.
    Reglet,
    /// Wider wood.
    Furniture,
}

impl Piece {
    /// Every piece that is taken to be at hand, the widest first.
    pub fn all() -> Vec<Piece> {
        let of = |kind, widths: &[u32]| -> Vec<Piece> {
            let pieces = widths.iter().map(|&quarters| Piece { kind, quarters });
            pieces.collect()
        };
        let mut all = of(PieceKind::Lead, &LEADS);
        all.extend(of(PieceKind::Reglet, &REGLETS));
        all.extend(of(PieceKind::Furniture, &FURNITURE));
        all.reverse();
        all
    }

    /// Such as `6-point reglet` or `3-pica furniture`.
    pub fn name(self) -> String {
        self.said().to_string()
    }

    fn said(self) -> Said {
        let points = f64::from(self.quarters) / f64::from(QUARTERS);
        match self.kind {
            PieceKind::Lead => texts::lead(Value::plain(points, 2)),
            PieceKind::Reglet => texts::reglet(Value::plain(points, 2)),
            PieceKind::Furniture => texts::furniture(Value::plain(points / 12.0, 2)),
        }
    }
}

/// A width in points as quarters of a point, or `None` where it is none, or no whole number of them.
pub fn quarters(points: f64) -> Option<u32> {
    /// A width that differs from a whole quarter by no more than this part of one is that quarter: it is arithmetic, not wood.
    const NOTHING: f64 = 1e-3;
    let quarters = points * f64::from(QUARTERS);
    let whole = quarters.round();
    let fits = (1.0..=f64::from(WIDEST)).contains(&whole) && (quarters - whole).abs() <= NOTHING;
    fits.then_some(whole as u32)
}

/// Which sums some widths come to, each as often as wanted: sum by sum from those before it (textbook).
#[derive(Clone, Debug)]
pub struct Sums {
    /// The widest first.
    widths: Vec<usize>,
    /// How few widths come to each sum.
    fewest: Vec<Option<usize>>,
}

impl Sums {
    /// All sums up to `most`, and not above [`WIDEST`]. Widths of nothing are left out.
    pub fn up_to(most: u32, offered: &[u32]) -> Sums {
        let mut widths: Vec<usize> = offered.iter().map(|&width| width as usize).collect();
        widths.retain(|&width| width > 0);
        widths.sort_unstable_by(|a, b| b.cmp(a));
        let mut fewest: Vec<Option<usize>> = vec![None; most.min(WIDEST) as usize + 1];
        fewest[0] = Some(0);
        for sum in 1..fewest.len() {
            let before = |width: &usize| fewest[sum.checked_sub(*width)?];
            fewest[sum] = widths.iter().filter_map(before).min().map(|n| n + 1);
        }
        Sums { widths, fewest }
    }

    /// The fewest widths that come to `total`, the widest first; of equally few, those that begin with the widest. `None` where none
    /// do, or more than `most`.
    pub fn made_up(&self, total: u32, most: usize) -> Option<Vec<u32>> {
        let mut left = total as usize;
        let mut count = (*self.fewest.get(left)?)?;
        if count > most {
            return None;
        }
        let mut taken = Vec::new();
        // Each turn takes one of the count.
        while count > 0 {
            let next = self.widths.iter().copied().find(|&width| {
                let rest = left.checked_sub(width);
                rest.is_some_and(|rest| self.fewest[rest] == Some(count - 1))
            })?;
            taken.push(next as u32);
            left -= next;
            count -= 1;
        }
        Some(taken)
    }
}

/// The fewest widths out of `offered`, each as often as wanted, that come to `total`, as [`Sums::made_up`] says.
pub fn made_up(total: u32, offered: &[u32], most: usize) -> Option<Vec<u32>> {
    Sums::up_to(total, offered).made_up(total, most)
}

/// The fewest pieces of material that make up a width in points, the widest first; `None` where none do.
pub fn pieces(points: f64) -> Option<Vec<Piece>> {
    let all = Piece::all();
    let widths: Vec<u32> = all.iter().map(|piece| piece.quarters).collect();
    let taken = made_up(quarters(points)?, &widths, MOST_PIECES)?;
    let piece = |width: &u32| all.iter().find(|piece| piece.quarters == *width).copied();
    taken.iter().map(piece).collect()
}

/// More pieces than this side by side will not lock up well. Common practice, no source.
const MOST_PIECES: usize = 24;

/// Pieces in words, such as `2 × 10-pica furniture and 6-point reglet`; empty for none.
pub fn in_words(pieces: &[Piece]) -> String {
    said(pieces).to_string()
}

/// The same, to stand in a sentence of any language.
pub(crate) fn said(pieces: &[Piece]) -> Value {
    let mut counted: Vec<(Piece, usize)> = Vec::new();
    for &piece in pieces {
        match counted.last_mut() {
            Some((last, count)) if *last == piece => *count += 1,
            Some(_) | None => counted.push((piece, 1)),
        }
    }
    let said = counted.into_iter().map(|(piece, count)| match count {
        1 => piece.said(),
        _ => texts::some_pieces(count, piece.said()),
    });
    Value::list(said, Joint::And)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// # Source
    /// J. Southward, *A Dictionary of Typography*, 1870–75, "Combination leads": six lengths of 4 to 20 ems, of which three at most
    /// come to every whole em from 11 to 50.
    #[test]
    fn six_lengths_of_lead_come_to_every_em_from_11_to_50() {
        let lengths = [4, 7, 9, 13, 15, 20];
        for ems in 11..=50 {
            let taken = made_up(ems, &lengths, 3);
            let sum = taken.as_ref().map(|taken| taken.iter().sum::<u32>());
            assert_eq!(sum, Some(ems), "{taken:?}");
        }
        for ems in [1, 2, 3, 5, 6, 10] {
            assert_eq!(made_up(ems, &lengths, 3), None, "{ems}");
        }
    }

    /// # Source
    /// A. A. Stewart, *Typesetting*, 1919, p. 17: a table of what spaces of a fifth, a quarter, a third and half of an em come to.
    #[test]
    fn spaces_come_to_24_widths_under_an_em() {
        let spaces = [12, 15, 20, 30];
        let reached: Vec<u32> = (1..60)
            .filter(|&width| made_up(width, &spaces, 9).is_some())
            .collect();
        assert_eq!(
            reached,
            [
                12, 15, 20, 24, 27, 30, 32, 35, 36, 39, 40, 42, 44, 45, 47, 48, 50, 51, 52, 54, 55,
                56, 57, 59
            ]
        );
    }

    /// Against trying all sums of up to four widths.
    #[test]
    fn no_fewer_would_do() {
        let offered = [3, 5, 8, 14];
        for total in 1..=56 {
            let mut fewest = None;
            for number in 0..5_usize.pow(4) {
                let digits: Vec<usize> = (0..4).map(|n| number / 5_usize.pow(n) % 5).collect();
                let taken = digits.iter().filter(|digit| **digit > 0);
                let sum: u32 = taken.clone().map(|digit| offered[digit - 1]).sum();
                let count = taken.count();
                if sum == total && fewest.is_none_or(|fewest| count < fewest) {
                    fewest = Some(count);
                }
            }
            let found = made_up(total, &offered, 4).map(|taken| taken.len());
            assert_eq!(found, fewest, "{total}");
        }
    }

    #[test]
    fn widths_are_made_up_of_what_printers_own() {
        let words = |points| pieces(points).map(|pieces| in_words(&pieces));
        assert_eq!(words(6.0).as_deref(), Some("6-point reglet"));
        assert_eq!(words(24.0).as_deref(), Some("2-pica furniture"));
        assert_eq!(
            words(27.0).as_deref(),
            Some("2-pica furniture and 3-point lead")
        );
        assert_eq!(
            words(2.5).as_deref(),
            Some("1.5-point lead and 1-point lead")
        );
        assert_eq!(words(0.5), None);
        assert_eq!(
            words(7.5).as_deref(),
            Some("6-point reglet and 1.5-point lead")
        );
        assert_eq!(words(240.0).as_deref(), Some("2 × 10-pica furniture"));
        assert_eq!(words(0.0), None);
        assert_eq!(words(f64::NAN), None);
        assert_eq!(words(1e9), None);
        assert_eq!(words(6.1), None);
        assert_eq!(made_up(0, &LEADS, 3), Some(Vec::new()));
        assert_eq!(made_up(7, &[], 3), None);
        assert_eq!(made_up(7, &[0], 3), None);
        assert_eq!(in_words(&[]), "");
    }
}
