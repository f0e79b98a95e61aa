use super::*;
use crate::samples::{glyphs, polygon, rectangle};

fn area(region: &Region) -> f64 {
    (region.area() * 1e6).round() / 1e6
}

#[test]
fn two_squares_combine_as_on_paper() {
    let one = Region::from_ring(&rectangle(0.0, 0.0, 4.0, 4.0));
    let other = Region::from_ring(&rectangle(2.0, 2.0, 6.0, 6.0));
    assert_eq!(area(&union(&one, &other)), 28.0);
    assert_eq!(area(&intersection(&one, &other)), 4.0);
    assert_eq!(area(&difference(&one, &other)), 12.0);
    assert_eq!(area(&symmetric_difference(&one, &other)), 24.0);
    assert_eq!(symmetric_difference(&one, &other).pieces.len(), 2);
    assert_eq!(
        area(&union_all(&[one.clone(), other.clone(), one.clone()])),
        28.0
    );
    let nothing = Region::default();
    assert_eq!(union(&one, &nothing), one);
    assert!(intersection(&one, &nothing).is_empty());
    assert!(difference(&one, &one).is_empty());
    assert!(union_all(&[]).is_empty());
}

#[test]
fn a_ring_within_becomes_a_counter() {
    let plate = Region::from_ring(&rectangle(0.0, 0.0, 9.0, 9.0));
    let hole = Region::from_ring(&polygon((4.5, 4.5), 3.0, 100));
    let holed = difference(&plate, &hole);
    assert_eq!(holed.pieces.len(), 1);
    assert_eq!(holed.pieces[0].counters.len(), 1);
    assert!(crate::region::signed_area(&holed.pieces[0].counters[0]) < 0.0);
}

#[test]
fn areas_of_letters_add_up() {
    let letters = glyphs("Sg&", 0.002);
    for (_, one) in &letters {
        for (name, other) in &letters {
            let (both, either) = (intersection(one, other), union(one, other));
            let sum = one.area() + other.area();
            assert!((both.area() + either.area() - sum).abs() < 1e-3, "{name}");
            let apart = symmetric_difference(one, other).area();
            assert!((either.area() - both.area() - apart).abs() < 1e-3, "{name}");
            assert!((difference(one, other).area() - one.area() + both.area()).abs() < 1e-3);
        }
    }
}
