//! Hand-made letters whose reach is known in closed form, in millimetres.

use geometry::region::{Piece, Region, Ring};
use kurbo::{Point, Vec2};

/// A rectangle as a counter-clockwise ring.
pub fn rectangle(left: f64, foot: f64, right: f64, head: f64) -> Ring {
    vec![
        Point::new(left, foot),
        Point::new(right, foot),
        Point::new(right, head),
        Point::new(left, head),
    ]
}

/// A region of one piece without counters.
pub fn solid(outer: Ring) -> Region {
    Region {
        pieces: vec![Piece {
            outer,
            counters: Vec::new(),
        }],
    }
}

/// A letter of 30 × 30 mm at 0, 0 with one crotch cut into its head: a triangle of ground with its point at (15, 5),
/// whose walls stand at `angle` radians and reach the head.
///
/// # Panics
/// If the crotch would not fit between the letter's sides.
pub fn crotch(angle: f64) -> Region {
    let half_width = 25.0 * (angle / 2.0).tan();
    assert!(half_width < 15.0, "the crotch is wider than the letter");
    solid(vec![
        Point::new(0.0, 0.0),
        Point::new(30.0, 0.0),
        Point::new(30.0, 30.0),
        Point::new(15.0 + half_width, 30.0),
        Point::new(15.0, 5.0),
        Point::new(15.0 - half_width, 30.0),
        Point::new(0.0, 30.0),
    ])
}

/// A letter of 20 × 30 mm at 0, 0 with a slot of ground of a width, 20 mm deep from the head.
pub fn slot(width: f64) -> Region {
    let (left, right) = (10.0 - width / 2.0, 10.0 + width / 2.0);
    solid(vec![
        Point::new(0.0, 0.0),
        Point::new(20.0, 0.0),
        Point::new(20.0, 30.0),
        Point::new(right, 30.0),
        Point::new(right, 10.0),
        Point::new(left, 10.0),
        Point::new(left, 30.0),
        Point::new(0.0, 30.0),
    ])
}

/// A frame of 20 × 20 mm at 0, 0 around a square counter with sides of a length.
pub fn frame(counter: f64) -> Region {
    let (low, high) = (10.0 - counter / 2.0, 10.0 + counter / 2.0);
    let mut hole = rectangle(low, low, high, high);
    hole.reverse();
    Region {
        pieces: vec![Piece {
            outer: rectangle(0.0, 0.0, 20.0, 20.0),
            counters: vec![hole],
        }],
    }
}

/// A region moved.
pub fn moved(region: &Region, by: Vec2) -> Region {
    let shift = |ring: &Ring| ring.iter().map(|&at| at + by).collect::<Ring>();
    Region {
        pieces: region
            .pieces
            .iter()
            .map(|piece| Piece {
                outer: shift(&piece.outer),
                counters: piece.counters.iter().map(shift).collect(),
            })
            .collect(),
    }
}
