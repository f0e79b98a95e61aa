//! The outline of a notched block.

use kurbo::{Point, Vec2};

use super::{End, Notch, Side};

/// A block's outline in face space, counter-clockwise, its lower-left corner at 0, 0: a rectangle less its notches, the corners beside
/// them bevelled.
pub fn outline(set_mm: f64, body_mm: f64, notches: &[Notch]) -> Vec<Point> {
    // Seen from above, left and right are not what they are in print.
    let corners = [
        (Point::new(0.0, 0.0), Side::Right, End::Foot),
        (Point::new(set_mm, 0.0), Side::Left, End::Foot),
        (Point::new(set_mm, body_mm), Side::Left, End::Head),
        (Point::new(0.0, body_mm), Side::Right, End::Head),
    ];
    corners
        .into_iter()
        .flat_map(|(at, side, end)| {
            let notch = notches
                .iter()
                .find(|notch| notch.side == side && notch.end == end);
            notch.map_or_else(|| vec![at], |notch| stepped(at, notch))
        })
        .collect()
}

/// What stands in place of a corner, counter-clockwise.
fn stepped(corner: Point, notch: &Notch) -> Vec<Point> {
    let inward = Vec2::new(
        match notch.side {
            Side::Right => 1.0,
            Side::Left => -1.0,
        },
        match notch.end {
            End::Foot => 1.0,
            End::Head => -1.0,
        },
    );
    let at = |across: f64, along: f64| corner + Vec2::new(inward.x * across, inward.y * along);
    let Notch {
        width_mm: width,
        height_mm: height,
        bevel_mm: bevel,
        ..
    } = *notch;
    let mut points = vec![
        at(0.0, height + bevel),
        at(bevel, height),
        at(width, height),
        at(width, 0.0),
    ];
    // From the side to the end is counter-clockwise at the lower left and the upper right.
    if inward.x * inward.y < 0.0 {
        points.reverse();
    }
    points
}
