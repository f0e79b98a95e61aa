use super::*;
use crate::distance::WallIndex;
use crate::samples::{glyphs, ground_within, polygon, rectangle, ring, room_around};

#[test]
fn the_axis_of_a_slot_is_its_middle() {
    let (letter, room) = ground_within(&[rectangle(0.0, 0.0, 10.0, 2.0)]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    let inside: Vec<AxisEdge> = diagram
        .ground_axis()
        .into_iter()
        .filter(|edge| {
            (0.0..=10.0).contains(&edge.from.at.x) && (0.0..=2.0).contains(&edge.from.at.y)
        })
        .collect();
    // Four branches into the corners, and the middle line.
    assert_eq!(inside.len(), 5);
    let middle: Vec<&AxisEdge> = inside
        .iter()
        .filter(|edge| (edge.least().clearance - 1.0).abs() < 1e-9)
        .collect();
    assert_eq!(middle.len(), 1);
    assert!((middle[0].from.at.distance(middle[0].to.at) - 8.0).abs() < 1e-9);
    assert!((middle[0].from.spread - std::f64::consts::PI).abs() < 1e-9);
    for branch in inside.iter().filter(|edge| edge.least().clearance < 1e-9) {
        assert!((branch.from.spread - branch.to.spread).abs() < 1e-9);
        assert!((branch.to.spread - std::f64::consts::FRAC_PI_2).abs() < 1e-9);
    }
}

#[test]
fn clearances_on_the_axes_are_distances_to_the_walls() {
    for (name, letter) in glyphs("MaG%", 0.002) {
        let diagram = Diagram::build(&letter, &room_around(&letter, 4.0)).unwrap();
        let index = WallIndex::new(diagram.letter().rings().chain([diagram.room()]));
        for (edges, in_letter) in [
            (diagram.ground_axis(), false),
            (diagram.letter_axis(), true),
        ] {
            assert!(!edges.is_empty());
            for edge in edges {
                for place in [Some(edge.from), Some(edge.to), edge.narrowest]
                    .into_iter()
                    .flatten()
                {
                    let nearest = index.nearest(place.at);
                    assert!((nearest - place.clearance).abs() < 1e-6, "{name} {place:?}");
                    if nearest > 1e-3 {
                        assert_eq!(diagram.letter().contains(place.at), in_letter, "{name}");
                    }
                }
            }
        }
    }
}

#[test]
fn each_part_of_the_ground_has_its_widest_place() {
    // Two rooms of 6 and 4 mm joined by a passage 1 mm wide, and a round hole of 5 mm.
    let dumbbell = ring(&[
        (0.0, 0.0),
        (6.0, 0.0),
        (6.0, 2.5),
        (9.0, 2.5),
        (9.0, 1.0),
        (13.0, 1.0),
        (13.0, 5.0),
        (9.0, 5.0),
        (9.0, 3.5),
        (6.0, 3.5),
        (6.0, 6.0),
        (0.0, 6.0),
    ]);
    let (letter, room) = ground_within(&[dumbbell, polygon((20.0, 3.0), 2.5, 200)]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    let at = |distance: f64| -> Vec<f64> {
        diagram
            .widest(distance)
            .into_iter()
            .map(|part| (part.clearance * 100.0).round() / 100.0)
            .collect()
    };
    assert_eq!(at(0.6), [3.0, 2.5, 2.0]);
    // The passage joins the two rooms; the lane around the plate has 0.25 mm.
    assert_eq!(at(0.4), [3.0, 2.5]);
    assert_eq!(at(2.2), [3.0, 2.5]);
    assert_eq!(at(3.5), [0.0; 0]);
    assert_eq!(at(0.2).len(), 3);
    assert!(diagram.widest(-1.0).is_empty());
    let widest = diagram.widest(0.6)[0];
    assert!(widest.at.distance(Point::new(3.0, 3.0)) < 0.6);
}

#[test]
fn a_post_beside_a_wall_is_narrowest_between_them() {
    // Ground between a post's corner and a straight wall: the axis is a parabola with its apex half way.
    let (mut letter, room) = ground_within(&[rectangle(0.0, 0.0, 20.0, 10.0)]);
    let post = crate::region::Region::from_ring(&ring(&[(10.0, 2.0), (14.0, 6.0), (6.0, 6.0)]));
    letter = crate::boolean::union(&letter, &post);
    let diagram = Diagram::build(&letter, &room).unwrap();
    let narrowest = diagram
        .ground_axis()
        .into_iter()
        .filter_map(|edge| edge.narrowest)
        .find(|place| place.at.distance(Point::new(10.0, 1.0)) < 1e-9)
        .expect("the apex below the post");
    assert!((narrowest.clearance - 1.0).abs() < 1e-9);
    assert!((narrowest.spread - std::f64::consts::PI).abs() < 1e-9);
}
