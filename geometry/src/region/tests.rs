use kurbo::{Affine, Circle, Shape};

use super::*;
use crate::distance::WallIndex;
use crate::samples::{glyphs, places, rectangle, ring, room_around};

fn path(rings: &[Ring]) -> BezPath {
    let mut path = BezPath::new();
    for ring in rings {
        path.move_to(ring[0]);
        for &point in &ring[1..] {
            path.line_to(point);
        }
        path.close_path();
    }
    path
}

/// The guarantees of a region.
fn check_region(region: &Region) {
    for piece in &region.pieces {
        assert!(piece.outer.len() > 2 && signed_area(&piece.outer) > 0.0);
        for counter in &piece.counters {
            assert!(counter.len() > 2 && signed_area(counter) < 0.0);
        }
    }
    for &point in region.rings().flatten() {
        assert_eq!(point, on_grid(point));
    }
}

#[test]
fn chords_keep_within_the_tolerance_over_three_decades() {
    // Cubics that are a circle within 2e-5 of the radius.
    let circle = Circle::new((20.0, 20.0), 10.0).to_path(1e-6);
    for tolerance in [0.0005, 0.001, 0.01, 0.1] {
        let region = region_from_outline(&circle, tolerance).unwrap();
        check_region(&region);
        let ring = &region.pieces[0].outer;
        for (index, &from) in ring.iter().enumerate() {
            let to = ring[(index + 1) % ring.len()];
            let off = |place: Point| (place.distance(Point::new(20.0, 20.0)) - 10.0).abs();
            assert!(off(from) < 1e-6 + GRID);
            assert!(off(from.midpoint(to)) < tolerance + 1e-6 + GRID);
        }
        let area = std::f64::consts::PI * 100.0;
        assert!((region.area() - area).abs() < tolerance * 63.0);
    }
}

#[test]
fn overlaps_are_merged_whatever_way_they_are_wound() {
    let mut second = rectangle(2.0, 2.0, 6.0, 6.0);
    let same = path(&[rectangle(0.0, 0.0, 4.0, 4.0), second.clone()]);
    let region = region_from_outline(&same, 0.001).unwrap();
    check_region(&region);
    assert_eq!(region.pieces.len(), 1);
    assert!((region.area() - 28.0).abs() < 1e-9);
    // Clockwise outlines are filled all the same; a hole is what winds back to nothing.
    second.reverse();
    let turned = region_from_outline(&path(&[second]), 0.001).unwrap();
    check_region(&turned);
    assert!((turned.area() - 16.0).abs() < 1e-9);
    let mut hole = rectangle(1.0, 1.0, 2.0, 2.0);
    hole.reverse();
    let holed = region_from_outline(&path(&[rectangle(0.0, 0.0, 4.0, 4.0), hole]), 0.001).unwrap();
    check_region(&holed);
    assert_eq!(holed.pieces[0].counters.len(), 1);
    assert!(!holed.contains(Point::new(1.5, 1.5)) && holed.contains(Point::new(3.0, 1.5)));
    assert_eq!(holed.bounding_box(), Some(Rect::new(0.0, 0.0, 4.0, 4.0)));
}

#[test]
fn open_empty_and_flat_outlines_are_no_trouble() {
    let mut open = BezPath::new();
    open.move_to((0.0, 0.0));
    open.line_to((4.0, 0.0));
    open.line_to((4.0, 4.0));
    assert!((region_from_outline(&open, 0.001).unwrap().area() - 8.0).abs() < 1e-9);
    for outline in [
        BezPath::new(),
        path(&[ring(&[(1.0, 1.0)])]),
        path(&[ring(&[(0.0, 0.0), (9.0, 0.0), (4.0, 0.0)])]),
        path(&[rectangle(0.0, 0.0, 0.005, 0.005)]),
    ] {
        let region = region_from_outline(&outline, 0.001).unwrap();
        assert!(region.is_empty());
        assert_eq!((region.area(), region.bounding_box()), (0.0, None));
    }
    // A bow tie is two triangles.
    let tie = path(&[ring(&[(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)])]);
    let region = region_from_outline(&tie, 0.001).unwrap();
    check_region(&region);
    assert!((region.area() - 8.0).abs() < 1e-9);
}

#[test]
fn absurd_outlines_are_refused() {
    let of = |outline: &BezPath, tolerance| region_from_outline(outline, tolerance).unwrap_err();
    let plain = path(&[rectangle(0.0, 0.0, 4.0, 4.0)]);
    for tolerance in [0.0, -1.0, 1e-9, 5.0, f64::NAN] {
        assert!(matches!(of(&plain, tolerance), RegionError::Tolerance(_)));
    }
    let wide = Affine::scale(101.0) * plain.clone();
    assert_eq!(of(&wide, 0.001), RegionError::TooWide(404.0));
    let far = Affine::translate((2e7, 0.0)) * plain.clone();
    assert!(matches!(of(&far, 0.001), RegionError::TooWide(_)));
    for bad in [f64::NAN, f64::INFINITY] {
        let mut outline = plain.clone();
        outline.line_to((bad, 0.0));
        assert_eq!(of(&outline, 0.001), RegionError::NotFinite);
    }
    let mut many = BezPath::new();
    many.move_to((0.0, 0.0));
    for step in 0..=MOST_POINTS {
        many.line_to((f64::from((step % 7) as u32), f64::from((step % 11) as u32)));
    }
    assert_eq!(of(&many, 0.001), RegionError::TooManyPoints);
}

#[test]
fn regions_know_their_inside_like_the_index_of_their_walls() {
    for (name, letter) in glyphs("B@", 0.002) {
        check_region(&letter);
        let index = WallIndex::new(letter.rings());
        for place in places(&room_around(&letter, 2.0), 500) {
            assert_eq!(
                letter.contains(place),
                index.contains(place),
                "{name} {place}"
            );
        }
    }
}

#[test]
fn the_length_of_all_edges_counts_holes_as_well() {
    let square = |low: f64, high: f64| {
        Region::from_ring(&[
            Point::new(low, low),
            Point::new(high, low),
            Point::new(high, high),
            Point::new(low, high),
        ])
    };
    let frame = crate::boolean::difference(&square(0.0, 10.0), &square(4.0, 6.0));
    assert_eq!(frame.perimeter(), 48.0);
    assert_eq!(Region::default().perimeter(), 0.0);
}
