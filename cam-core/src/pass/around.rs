//! The way of a cutter's centre round a block.

use geometry::arc_path::{ArcPath, ArcStep, Turn};
use kurbo::{Point, Vec2};

/// A corner on the way, clockwise.
struct Corner {
    at: Point,
    /// Unit vectors out of the block, from the sides before and after.
    before: Vec2,
    after: Vec2,
    /// Length of the side after it.
    side: f64,
}

impl Corner {
    fn stands_out(&self) -> bool {
        self.before.cross(self.after) < 0.0
    }
}

/// Round a block at the cutter's radius from its edge: clockwise, with the block on the right, so as to climb; the outline is given
/// counter-clockwise. Begins and ends in the middle of the outline's last side.
///
/// Round corners that stand out the cutter's centre goes on an arc about the corner, which keeps the corner sharp; into inner corners it
/// goes as far as it can. Where a side between the two is shorter than the radius, as the floor of a narrow notch, the arc ends where
/// the cutter meets the wall beyond.
pub(super) fn around(outline: &[Point], radius: f64) -> ArcPath {
    let corners = corners(outline);
    let count = corners.len();
    let middle = corners
        .last()
        .zip(corners.first())
        .map_or(Point::ORIGIN, |(before, first)| {
            before.at.midpoint(first.at) + first.before * radius
        });
    let mut path = ArcPath::starting_at(middle);
    for (index, corner) in corners.iter().enumerate() {
        let last = &corners[(index + count - 1) % count];
        let next = &corners[(index + 1) % count];
        if corner.stands_out() {
            let start = if last.stands_out() || last.side >= radius {
                corner.before
            } else {
                short_of_wall(corner.before, last.before, last.side, radius)
            };
            let end = if next.stands_out() || corner.side >= radius {
                corner.after
            } else {
                short_of_wall(corner.after, next.after, corner.side, radius)
            };
            path.steps.push(ArcStep::Line {
                to: corner.at + start * radius,
            });
            path.steps.push(ArcStep::Arc {
                to: corner.at + end * radius,
                centre: corner.at,
                turn: Turn::Right,
            });
        } else {
            let beside_short = |other: &Corner, side: f64| other.stands_out() && side < radius;
            if beside_short(last, last.side) || beside_short(next, corner.side) {
                continue;
            }
            let both = corner.before + corner.after;
            path.steps.push(ArcStep::Line {
                to: corner.at + both * (radius / (1.0 + corner.before.dot(corner.after))),
            });
        }
    }
    path.steps.push(ArcStep::Line { to: middle });
    path
}

fn corners(outline: &[Point]) -> Vec<Corner> {
    let ring: Vec<Point> = outline.iter().rev().copied().collect();
    let count = ring.len();
    let outward = |from: Point, to: Point| {
        let side = to - from;
        Vec2::new(-side.y, side.x) / side.hypot().max(f64::MIN_POSITIVE)
    };
    // The first side ends at the second corner, and so does the last corner's.
    (1..=count)
        .map(|index| {
            let (last, at) = (ring[index - 1], ring[index % count]);
            let next = ring[(index + 1) % count];
            Corner {
                at,
                before: outward(last, at),
                after: outward(at, next),
                side: at.distance(next),
            }
        })
        .collect()
}

/// The direction from a corner that stands out to the cutter's centre where the cutter, on the corner, meets the wall at the other end of
/// a short floor; the wall stands square to it.
fn short_of_wall(floor: Vec2, wall: Vec2, length: f64, radius: f64) -> Vec2 {
    let along = ((radius - length) / radius).clamp(0.0, 1.0);
    floor * (1.0 - along * along).sqrt() + wall * along
}

#[cfg(test)]
mod tests {
    use geometry::distance::WallIndex;

    use super::*;
    use crate::notch::{End, Notch, Side, outline};
    use crate::pass::bench::places;

    fn notch(side: Side, end: End, width_mm: f64, radius: f64) -> Notch {
        Notch {
            side,
            end,
            width_pt: 0.0,
            height_pt: 0.0,
            width_mm,
            height_mm: 18.0,
            bevel_mm: radius + 0.1,
        }
    }

    /// The cutter touches the block all the way round and never enters it, also where the floor of a notch is shorter than its radius.
    #[test]
    fn the_cutter_goes_along_the_edge_and_never_into_it() {
        for radius in [1.5, 3.0] {
            for width in [
                1.31 * radius + 0.1,
                1.7 * radius,
                2.2 * radius,
                3.0 * radius,
            ] {
                let all = [
                    notch(Side::Left, End::Head, width, radius),
                    notch(Side::Right, End::Foot, width, radius),
                    notch(Side::Right, End::Head, width, radius),
                    notch(Side::Left, End::Foot, width, radius),
                ];
                for notches in [&all[..0], &all[..1], &all[..2], &all[1..3], &all[..4]] {
                    let block = outline(40.0, 60.0, notches);
                    let walls = WallIndex::new([&block]);
                    let path = around(&block, radius);
                    assert!(path.start.distance(path.end()) < 1e-12);
                    for (at, _) in places(&path, 0.05) {
                        let away = walls.nearest(at);
                        assert!(
                            (away - radius).abs() < 1e-9,
                            "{away} at {at}, radius {radius}, width {width}"
                        );
                        assert_eq!(geometry::region::winding(&block, at), 0);
                    }
                }
            }
        }
    }

    /// The longest way that is left out is the fillet in the inner corner: what the cutter cannot touch.
    #[test]
    fn all_of_the_edge_is_cut_but_the_fillets() {
        let radius = 3.0;
        let block = outline(40.0, 60.0, &[notch(Side::Left, End::Head, 4.2, radius)]);
        let centres: Vec<Point> = places(&around(&block, radius), 0.02)
            .into_iter()
            .map(|(at, _)| at)
            .collect();
        let inner = Point::new(40.0 - 4.2, 60.0 - 18.0);
        for (a, b) in geometry::cells::edges(&block) {
            for part in 0..100 {
                let at = a.lerp(b, f64::from(part) / 100.0);
                let nearest = centres
                    .iter()
                    .map(|centre| centre.distance(at))
                    .fold(f64::INFINITY, f64::min);
                let is_cut = (nearest - radius).abs() < 1e-3;
                assert!(is_cut || at.distance(inner) < radius, "{nearest} at {at}");
            }
        }
    }
}
