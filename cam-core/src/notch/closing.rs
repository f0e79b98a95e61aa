//! By how much pairs of blocks close up, read from their outlines.

use geometry::profile::{Profile, closes_up};
use kurbo::Point;

use super::{Notch, outline};
use crate::sort::Sort;

/// Closing up by less is none, mm.
const NOTHING_MM: f64 = 0.01;

/// A pair whose blocks close up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClosedPair {
    /// The left one, by its place among the sorts.
    pub left: usize,
    /// The right one.
    pub right: usize,
    /// By how much, mm.
    pub gain_mm: f64,
}

/// By how much two blocks close up when they stand beside one another on one base line, mm: until some part of one bears on the other.
///
/// Outlines are as printed, without bevels, from the block's lower-left corner, each with the height of its base line. Rectangles do not close up;
/// nor do blocks without a height in common.
pub fn closes_up_mm(
    (left, left_base): (&[Point], f64),
    (right, right_base): (&[Point], f64),
) -> f64 {
    let profile = |outline: &[Point], base: f64| Profile::of([outline]).shifted(0.0, -base);
    closes_up(&profile(left, left_base), &profile(right, right_base))
}

/// A notched block as it stands in the forme.
struct Stands {
    /// The plate that it is for, if it prints one colour of a letter.
    plate: Option<usize>,
    /// Its outline as printed, and its base line.
    block: (Vec<Point>, f64),
}

/// All pairs of sorts of one plate whose blocks close up, in the order of the sorts.
pub fn closed_pairs<'s>(sorts: impl IntoIterator<Item = &'s Sort>) -> Vec<ClosedPair> {
    let plate = |sort: &Sort| sort.plate.as_ref().map(|plate| plate.order);
    let blocks: Vec<Option<Stands>> = sorts
        .into_iter()
        .map(|sort| {
            let is_notched = !sort.block.notches.is_empty();
            is_notched.then(|| Stands {
                plate: plate(sort),
                block: as_printed(sort),
            })
        })
        .collect();
    let notched = || {
        let blocks = blocks.iter().enumerate();
        blocks.filter_map(|(place, block)| Some((place, block.as_ref()?)))
    };
    notched()
        .flat_map(|left| notched().map(move |right| (left, right)))
        .filter(|((_, a), (_, b))| a.plate == b.plate)
        .map(|((left, a), (right, b))| {
            let (a, b) = (&a.block, &b.block);
            ClosedPair {
                left,
                right,
                gain_mm: closes_up_mm((&a.0, a.1), (&b.0, b.1)),
            }
        })
        .filter(|pair| pair.gain_mm > NOTHING_MM)
        .collect()
}

/// A block's outline as printed, and its base line. Its corners are whole: what is cut off beside a notch bears on nothing, and closes
/// nothing up.
fn as_printed(sort: &Sort) -> (Vec<Point>, f64) {
    let block = &sort.block;
    let notches: Vec<Notch> = block
        .notches
        .iter()
        .map(|&notch| Notch {
            bevel_mm: 0.0,
            ..notch
        })
        .collect();
    let whole = outline(block.set_mm, block.body_mm, &notches);
    let printed = whole
        .into_iter()
        .rev()
        .map(|corner| Point::new(block.set_mm - corner.x, corner.y));
    (printed.collect(), block.baseline_mm)
}
