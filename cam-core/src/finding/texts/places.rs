//! Where something is, and what several sentences share.

use kurbo::Point;
use said::{Said, Value, texts};

texts! {
    place_mm(x, y) = "x {x}, y {y} mm";
    point(x, y) = "{x}, {y}";
    two_units(length, other) = "{length} ({other})";
    with_more_like_it(finding, count) = "{finding} ({count} more like it.)";
}

/// A place on the block as cut, in millimetres with so many decimals.
pub(crate) fn point_at(at: Point, decimals: usize) -> Said {
    let [x, y] = [at.x, at.y].map(|along| Value::rounded(along, decimals));
    point(x, y)
}
