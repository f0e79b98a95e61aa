use kurbo::Point;

use super::*;
use crate::arc_path::{Turn, sweep};
use crate::distance::WallIndex;
use crate::region::{Region, Ring, winding};
use crate::samples::{glyphs, ground_within, places, polygon, rectangle, ring, room_around};

/// Places along a piece, ends included.
fn along(piece: &OffsetPiece, count: u32) -> Vec<Point> {
    (0..=count)
        .map(|step| {
            let part = f64::from(step) / f64::from(count);
            match piece.centre {
                None => piece.from.lerp(piece.to, part),
                Some(centre) => {
                    let out = piece.from - centre;
                    let angle = sweep(piece.from, piece.to, centre, Turn::Right).abs() * part;
                    let (sin, cos) = (-angle).sin_cos();
                    centre + Vec2::new(out.x * cos - out.y * sin, out.x * sin + out.y * cos)
                }
            }
        })
        .collect()
}

/// Every place of the offset is at the distance from its nearest wall, and encloses all ground that is further off.
fn check_offset(letter: &Region, room: &Ring, distances: &[f64]) {
    let diagram = Diagram::build(letter, room).unwrap();
    let index = WallIndex::new(diagram.letter().rings().chain([diagram.room()]));
    for &distance in distances {
        let loops = diagram.offset(distance);
        let mut rings: Vec<Ring> = Vec::new();
        for found in &loops {
            let mut ring = Ring::new();
            for (piece, next) in found.pieces.iter().zip(found.pieces.iter().cycle().skip(1)) {
                assert_eq!(piece.to, next.from);
                for place in along(piece, 4) {
                    let nearest = index.nearest(place);
                    assert!(
                        (nearest - distance).abs() < 1e-6,
                        "{place} lies {nearest} from the walls, not {distance}"
                    );
                    ring.push(place);
                }
            }
            rings.push(ring);
        }
        let drawn = WallIndex::new(&rings);
        for place in places(diagram.room(), 400) {
            let inside = winding(diagram.room(), place) != 0 && !diagram.letter().contains(place);
            // The rings are chords of the arcs: leave out what lies near them.
            if drawn.nearest(place) < 0.2 * distance {
                continue;
            }
            let turns: i32 = rings.iter().map(|ring| winding(ring, place)).sum();
            let wanted = i32::from(inside && index.nearest(place) > distance);
            assert_eq!(turns, wanted, "{place} at {distance}");
        }
    }
}

#[test]
fn offsets_of_letters_keep_their_distance_everywhere() {
    for (_, letter) in glyphs("AEgsR&8@", 0.002) {
        check_offset(
            &letter,
            &room_around(&letter, 4.0),
            &[0.05, 0.4, 0.75, 1.5, 3.0],
        );
    }
}

#[test]
fn offsets_of_plain_shapes_keep_their_distance_everywhere() {
    for rings in [
        vec![rectangle(0.0, 0.0, 10.0, 10.0)],
        vec![ring(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 4.0),
            (4.0, 4.0),
            (4.0, 10.0),
            (0.0, 10.0),
        ])],
        vec![polygon((0.0, 0.0), 6.0, 400)],
        vec![ring(&[(0.0, 0.0), (20.0, 0.0), (1.0, 3.0)])],
        // A triangle of sides 3, 4, 5.
        vec![ring(&[(0.0, 0.0), (4.0, 0.0), (0.0, 3.0)])],
    ] {
        let (letter, room) = ground_within(&rings);
        check_offset(&letter, &room, &[0.1, 0.5, 0.75, 1.0, 1.25, 2.0, 2.5, 5.0]);
    }
}

#[test]
fn a_square_hole_gives_a_square_of_lines() {
    let (letter, room) = ground_within(&[rectangle(0.0, 0.0, 10.0, 10.0)]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    let loops = diagram.offset(2.0);
    assert_eq!(loops.len(), 1);
    assert_eq!(loops[0].pieces.len(), 4);
    for piece in &loops[0].pieces {
        assert!(piece.centre.is_none());
        assert!((piece.from.distance(piece.to) - 6.0).abs() < 1e-9);
    }
}

#[test]
fn a_lone_post_gives_rounded_corners() {
    let post = Region::from_ring(&rectangle(-1.0, -1.0, 1.0, 1.0));
    let diagram = Diagram::build(&post, &rectangle(-20.0, -20.0, 20.0, 20.0)).unwrap();
    let around: Vec<OffsetLoop> = diagram
        .offset(3.0)
        .into_iter()
        .filter(|found| found.pieces.iter().any(|piece| piece.centre.is_some()))
        .collect();
    assert_eq!(around.len(), 1);
    let (arcs, lines): (Vec<&OffsetPiece>, Vec<&OffsetPiece>) = around[0]
        .pieces
        .iter()
        .partition(|piece| piece.centre.is_some());
    assert_eq!((arcs.len(), lines.len()), (4, 4));
    for arc in arcs {
        let turned = sweep(arc.from, arc.to, arc.centre.unwrap(), Turn::Right).abs();
        assert!((turned - std::f64::consts::FRAC_PI_2).abs() < 1e-9);
    }
}

#[test]
fn distances_that_mean_nothing_give_nothing() {
    let (letter, room) = ground_within(&[rectangle(0.0, 0.0, 10.0, 10.0)]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    for distance in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
        assert!(diagram.offset(distance).is_empty());
    }
}
