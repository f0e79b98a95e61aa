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

#[test]
fn all_ways_of_building_agree() {
    let characters: String = ('!'..='~').step_by(9).collect();
    for (name, letter) in crate::samples::glyphs(&characters, 0.002) {
        let room = crate::samples::room_around(&letter, 4.0);
        let walls = Walls::new(&letter, &room).unwrap();
        let lengths: Vec<f64> = (0..voronoi::EXACT_ATTEMPTS)
            .map(|attempt| {
                let arrays = voronoi::build(&walls, attempt).unwrap();
                let diagram = Diagram::from_parts(walls.clone(), arrays, attempt);
                length(&diagram.offset(0.7))
            })
            .collect();
        for found in &lengths {
            assert!((found - lengths[0]).abs() < 1e-6, "{name} {lengths:?}");
        }
    }
}

fn length(loops: &[crate::offset::OffsetLoop]) -> f64 {
    let chord = |piece: &crate::offset::OffsetPiece| piece.from.distance(piece.to);
    loops
        .iter()
        .flat_map(|found| &found.pieces)
        .map(chord)
        .sum()
}

#[test]
fn a_moved_point_changes_next_to_nothing() {
    let letter = region(&[rectangle(3.0, 3.0, 5.0, 5.0)]);
    let walls = Walls::new(&letter, &rectangle(0.0, 0.0, 10.0, 10.0)).unwrap();
    for segment in 0..walls.segments.len() as u32 {
        for attempt in 4..8 {
            let moved = walls.nudged(segment, attempt).unwrap();
            let arrays = voronoi::build(&moved, 0).unwrap();
            let diagram = Diagram::from_parts(moved, arrays, 0);
            let old = region(&[rectangle(3.0, 3.0, 5.0, 5.0)]);
            let changed = crate::boolean::symmetric_difference(diagram.letter(), &old).area();
            assert!(changed < 1e-3);
            let is_letter = segment < 4;
            assert_eq!(changed > 0.0, is_letter, "{segment} {changed}");
        }
    }
    assert!(walls.nudged(9999, 4).is_ok());
}

#[test]
fn the_same_letter_always_gives_the_same_diagram() {
    for (_, letter) in crate::samples::glyphs("S8%", 0.002) {
        let room = crate::samples::room_around(&letter, 4.0);
        let first = Diagram::build(&letter, &room).unwrap().offset(0.7);
        for _ in 0..3 {
            assert_eq!(Diagram::build(&letter, &room).unwrap().offset(0.7), first);
        }
    }
}

/// A polygon of which the library's diagram may lack a corner's vertex (boostorg/polygon, issue 43, as shipped with the library's
/// own examples; ten times wider than any letter): what passes the checks must be right, and some way of building must do.
#[test]
fn a_known_bad_case_of_the_library_is_noticed() {
    let points = [
        (0, 10_000_000),
        (700_000, 1),
        (700_000, 9_000_000),
        (9_100_000, 9_000_000),
        (9_100_000, 0),
        (10_000_000, 10_000_000),
    ];
    let room = points
        .map(|(x, y)| crate::grid::GridPoint::new(x, y))
        .to_vec();
    let walls = Walls::laid(Vec::new(), room);
    let mut sound = 0;
    for attempt in 0..voronoi::EXACT_ATTEMPTS {
        let Ok(arrays) = voronoi::build(&walls, attempt) else {
            continue;
        };
        sound += 1;
        let diagram = Diagram::from_parts(walls.clone(), arrays, attempt);
        let index = crate::distance::WallIndex::new([diagram.room()]);
        let loops = diagram.offset(20.0);
        assert!(!loops.is_empty());
        for piece in loops.iter().flat_map(|found| &found.pieces) {
            assert!((index.nearest(piece.from) - 20.0).abs() < 1e-6);
        }
    }
    assert!(sound > 0);
}
