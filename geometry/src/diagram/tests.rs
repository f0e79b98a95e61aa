use kurbo::Point;

use super::*;
use crate::region::{Piece, Region};

pub(crate) fn ring(points: &[(f64, f64)]) -> Ring {
    points.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

pub(crate) fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Ring {
    ring(&[(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
}

fn region(rings: &[Ring]) -> Region {
    crate::boolean::union_all(
        &rings
            .iter()
            .map(|ring| Region::from_ring(ring))
            .collect::<Vec<_>>(),
    )
}

#[test]
fn an_empty_letter_leaves_the_whole_room() {
    let diagram = Diagram::build(&Region::default(), &rectangle(0.0, 0.0, 10.0, 6.0)).unwrap();
    let loops = diagram.offset(1.0);
    assert_eq!(loops.len(), 1);
    assert_eq!(loops[0].pieces.len(), 4);
    assert!(diagram.offset(3.1).is_empty());
    // Exactly half the room's width: a loop without width.
    assert_eq!(diagram.offset(3.0).len(), 1);
}

#[test]
fn sites_name_the_segments_of_the_letter_kept() {
    let letter = region(&[rectangle(3.0, 3.0, 5.0, 5.0)]);
    let diagram = Diagram::build(&letter, &rectangle(0.0, 0.0, 10.0, 10.0)).unwrap();
    for found in diagram.offset(0.5) {
        for piece in found.pieces {
            let (from, to) = diagram.segment(piece.site).unwrap();
            match piece.site.kind {
                SiteKind::Segment => {
                    let way = (to - from).normalize();
                    let off = way.cross(piece.from - from).abs();
                    assert!((off - 0.5).abs() < 1e-9, "{off}");
                    // The letter has its wood on the left of the ring, the room its ground.
                    let sense = way.dot(piece.to - piece.from);
                    assert!(match piece.site.wall {
                        Wall::Letter => sense < 0.0,
                        Wall::Room => sense > 0.0,
                    });
                }
                SiteKind::Corner => {
                    assert_eq!(piece.centre, Some(from));
                    assert!((piece.from.distance(from) - 0.5).abs() < 1e-9);
                    assert!((piece.to.distance(from) - 0.5).abs() < 1e-9);
                }
            }
        }
    }
}

#[test]
fn letters_that_touch_or_leave_the_room_are_refused() {
    let room = rectangle(0.0, 0.0, 10.0, 10.0);
    for letter in [
        rectangle(0.0, 3.0, 5.0, 5.0),
        rectangle(-1.0, 3.0, 5.0, 5.0),
        rectangle(20.0, 3.0, 25.0, 5.0),
        rectangle(-5.0, -5.0, 25.0, 25.0),
        ring(&[(5.0, 5.0), (10.0, 6.0), (5.0, 7.0)]),
    ] {
        let built = Diagram::build(&region(&[letter]), &room);
        assert!(
            matches!(built, Err(DiagramError::LetterLeavesRoom(_))),
            "{built:?}"
        );
    }
}

#[test]
fn rooms_that_are_no_plain_outline_are_refused() {
    for room in [
        ring(&[]),
        ring(&[(0.0, 0.0), (1.0, 1.0)]),
        ring(&[(0.0, 0.0), (4.0, 0.0), (8.0, 0.0)]),
        ring(&[(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)]),
        ring(&[(0.0, 0.0), (f64::NAN, 4.0), (4.0, 0.0)]),
        rectangle(0.0, 0.0, 900.0, 4.0),
    ] {
        let built = Diagram::build(&Region::default(), &room);
        assert!(matches!(built, Err(DiagramError::Room)), "{built:?}");
    }
}

#[test]
fn points_on_straight_lines_are_dropped_and_rooms_turned() {
    let letter = Region {
        pieces: vec![Piece {
            outer: ring(&[(3.0, 3.0), (4.0, 3.0), (5.0, 3.0), (5.0, 5.0), (3.0, 5.0)]),
            counters: vec![],
        }],
    };
    let room = ring(&[
        (0.0, 0.0),
        (0.0, 5.0),
        (0.0, 10.0),
        (10.0, 10.0),
        (10.0, 0.0),
    ]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    assert_eq!(diagram.letter().pieces[0].outer.len(), 4);
    assert_eq!(diagram.room().len(), 4);
    assert!(crate::region::signed_area(diagram.room()) > 0.0);
}

#[test]
fn shapes_that_touch_in_a_point_keep_their_ground_apart() {
    // Two squares corner to corner, and a counter that touches its outer ring.
    let squares = region(&[rectangle(3.0, 3.0, 5.0, 5.0), rectangle(5.0, 5.0, 7.0, 7.0)]);
    let room = rectangle(0.0, 0.0, 10.0, 10.0);
    let diagram = Diagram::build(&squares, &room).unwrap();
    assert!(!diagram.offset(0.2).is_empty());
    let holed = crate::boolean::difference(
        &region(&[rectangle(2.0, 2.0, 8.0, 8.0)]),
        &region(&[ring(&[(2.0, 5.0), (5.0, 3.0), (7.0, 5.0), (5.0, 7.0)])]),
    );
    let diagram = Diagram::build(&holed, &room).unwrap();
    assert_eq!(diagram.offset(0.2).len(), 3);
    // A touch in the middle of a straight edge.
    let leaning = region(&[
        rectangle(2.0, 2.0, 8.0, 3.0),
        ring(&[(5.0, 3.0), (6.0, 6.0), (4.0, 6.0)]),
    ]);
    let diagram = Diagram::build(&leaning, &room).unwrap();
    assert!(!diagram.offset(0.2).is_empty());
}
