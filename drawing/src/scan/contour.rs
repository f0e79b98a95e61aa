//! The line where ink ends, followed between the dots.

use kurbo::Point;

use super::field::Field;
use super::{MOST_LOOPS, ScanError, Watch, stop_point};

/// A closed line, ink on its left; the last point is not a repeat of the first.
pub(super) type Loop = Vec<Point>;

/// The part of ink at the edge.
const EDGE: f32 = 0.5;
/// More loops than this are not even looked through for spots.
const MOST_FOUND: usize = MOST_LOOPS * 40;

/// A dot by its column and row; one ring of them lies around the page as bare paper.
type Dot = (i64, i64);

/// All lines where ink ends, placed on the edges between neighbouring dots by their values.
///
/// # Source
/// W. E. Lorensen and H. E. Cline, "Marching cubes", *Computer Graphics* 21 (4), 1987, in two dimensions (from memory); where four dots leave it open which
/// are joined, their mean decides.
pub(super) fn loops(ink: &Field, watch: &dyn Watch) -> Result<Vec<Loop>, ScanError> {
    let (width, height) = (ink.width as i64, ink.height as i64);
    watch.begin("Following the outlines", ink.height);
    // Whether the pair of a dot and the one to its right was crossed already; the ring of paper has column 0.
    let columns = ink.width + 1;
    let mut crossed = vec![0_u64; (columns * ink.height).div_ceil(64)];
    let mut loops = Vec::new();
    for row in 0..height {
        stop_point(watch)?;
        for column in -1..width {
            let (a, b) = ((column, row), (column + 1, row));
            let (in_a, in_b) = (is_ink(ink, a), is_ink(ink, b));
            if in_a == in_b || mark(&mut crossed, columns, a) {
                continue;
            }
            let start = if in_a { (a, b) } else { (b, a) };
            loops.push(follow(ink, start, &mut crossed, columns));
            if loops.len() > MOST_FOUND {
                return Err(ScanError::TooManySpots);
            }
        }
        watch.advance();
    }
    Ok(loops)
}

/// Sets the mark of a pair, and says whether it was set.
fn mark(crossed: &mut [u64], columns: usize, left: Dot) -> bool {
    let place = left.1 as usize * columns + (left.0 + 1) as usize;
    let bit = 1 << (place % 64);
    let was = crossed[place / 64] & bit != 0;
    crossed[place / 64] |= bit;
    was
}

fn is_ink(ink: &Field, (x, y): Dot) -> bool {
    ink.at(x, y) >= EDGE
}

/// Follows the line from between an inked dot and a bare one until it is back. Each step crosses another pair of neighbours, so it ends at the
/// latest after all of them.
fn follow(ink: &Field, start: (Dot, Dot), crossed: &mut [u64], columns: usize) -> Loop {
    let mut line = Vec::new();
    let (mut left, mut right) = start;
    let pairs = 4 * (ink.width + 1) * (ink.height + 1);
    while line.len() <= pairs {
        line.push(crossing(ink, left, right));
        // Forward lies a quarter to the right of the way from the right dot to the left one.
        let side = (left.0 - right.0, left.1 - right.1);
        let ahead = (side.1, -side.0);
        let far_left = (left.0 + ahead.0, left.1 + ahead.1);
        let far_right = (right.0 + ahead.0, right.1 + ahead.1);
        (left, right) = match (is_ink(ink, far_left), is_ink(ink, far_right)) {
            (true, false) => (far_left, far_right),
            (true, true) => (far_right, right),
            (false, false) => (left, far_left),
            (false, true) => {
                // Added so that the sum is the same bit by bit from whichever side the four are entered; else a line could run into another.
                let at = |dot: Dot| ink.at(dot.0, dot.1);
                let mean = ((at(left) + at(far_right)) + (at(right) + at(far_left))) / 4.0;
                if mean >= EDGE {
                    (far_right, right)
                } else {
                    (left, far_left)
                }
            }
        };
        if (left, right) == start {
            break;
        }
        if left.1 == right.1 {
            mark(crossed, columns, (left.0.min(right.0), left.1));
        }
    }
    line
}

/// Where the value between two dots is that of the edge.
fn crossing(ink: &Field, left: Dot, right: Dot) -> Point {
    let (a, b) = (ink.at(left.0, left.1), ink.at(right.0, right.1));
    let part = f64::from((a - EDGE) / (a - b)).clamp(0.0, 1.0);
    let middle = |dot: Dot| Point::new(dot.0 as f64 + 0.5, dot.1 as f64 + 0.5);
    middle(left).lerp(middle(right), part)
}

/// The area inside a loop, positive where ink is inside (textbook).
pub(super) fn area(ring: &[Point]) -> f64 {
    geometry::region::signed_area(ring)
}
