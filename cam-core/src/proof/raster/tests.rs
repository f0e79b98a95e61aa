use geometry::distance::WallIndex;
use geometry::region::Region;
use kurbo::{Point, Rect, Vec2};

use super::surely_touches;
use crate::proof::copies::Shape;

fn shape(ring: &[(f64, f64)]) -> Shape {
    let ring: Vec<Point> = ring.iter().map(|&place| place.into()).collect();
    let letter = Region::from_ring(&ring);
    let walls = WallIndex::new(letter.rings());
    Shape { letter, walls }
}

#[test]
fn no_cutter_is_asked_into_a_crack_thinner_than_rounding() {
    let split = shape(&[
        (0.0, 0.0),
        (10.0, 0.0),
        (10.0, 4.9999),
        (9.9, 5.0),
        (10.0, 5.0001),
        (10.0, 10.0),
        (0.0, 10.0),
    ]);
    let room = Rect::new(-5.0, -5.0, 15.0, 15.0);
    let touched = |at: (f64, f64), to_ground: (f64, f64)| {
        surely_touches(&split, room, at.into(), to_ground.into(), 0.4)
    };
    assert!(touched((10.0, 2.0), (1.0, 0.0)));
    assert!(touched((5.0, 10.0), (0.0, 1.0)));
    let beside = Vec2::new(0.0001, 0.1).normalize();
    assert!(!touched((9.95, 4.99995), (-beside.x, beside.y)));
    assert!(!touched((9.95, 5.00005), (-beside.x, -beside.y)));
}
