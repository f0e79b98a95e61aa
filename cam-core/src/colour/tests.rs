use std::f64::consts::PI;

use geometry::boolean::{difference, intersection, union_all};
use geometry::grown::grown;
use geometry::region::{Region, region_from_outline};
use kurbo::{Circle, Rect, Shape};

use super::*;
use crate::commission::PlateSource;
use crate::measure::Length;

const SIDE: f64 = 10.0;
const RADIUS: f64 = 6.0;

fn square() -> Source {
    Source {
        letter: Rect::new(0.0, 0.0, SIDE, SIDE).to_path(1e-6),
        ..Source::default()
    }
}

fn disc() -> Source {
    Source {
        letter: Circle::new((2.0, 3.0), RADIUS).to_path(1e-6),
        ..Source::default()
    }
}

fn plate(source: PlateSource) -> Plate {
    Plate {
        name: "plate".to_owned(),
        ink: "red".to_owned(),
        source,
        overprinted: false,
    }
}

fn shadow(angle_deg: f64, length_mm: f64, gap_mm: f64) -> Plate {
    plate(PlateSource::Shadow {
        angle_deg,
        length: Length::mm(length_mm),
        gap: Length::mm(gap_mm),
    })
}

fn inline(inset_mm: f64, width_mm: Option<f64>) -> Plate {
    plate(PlateSource::Inline {
        inset: Length::mm(inset_mm),
        width: width_mm.map(Length::mm),
    })
}

fn outline(gap_mm: f64, width_mm: f64) -> Plate {
    plate(PlateSource::Outline {
        gap: Length::mm(gap_mm),
        width: Length::mm(width_mm),
    })
}

fn letter() -> Plate {
    plate(PlateSource::Letter)
}

/// What the plates print, with a trap.
fn printed(plates: &[Plate], source: &Source, trap_mm: f64) -> Vec<Region> {
    let areas = areas(plates, source).expect("areas");
    let apart = side_by_side(plates, &areas).expect("side by side");
    trapped(plates, &apart, trap_mm).expect("trapped")
}

/// What chords within a thousandth of a millimetre may lack along the edges of these figures, mm².
const CHORDS_MM2: f64 = 0.05;

fn assert_area(region: &Region, wanted: f64, what: &str) {
    let found = region.area();
    assert!(
        (found - wanted).abs() < CHORDS_MM2,
        "{what}: {found} is not {wanted}"
    );
}

#[test]
fn the_shadow_of_a_square_has_the_area_of_its_closed_form_at_every_angle() {
    for angle in [0.0, 17.0, 45.0, 90.0, 135.0, -45.0, -120.0, 200.0] {
        for length in [0.5, 3.0, 14.0] {
            let plates = [shadow(angle, length, 0.0), letter()];
            let found = printed(&plates, &square(), 0.0);
            let (sin, cos) = f64::to_radians(angle).sin_cos();
            assert_area(
                &found[0],
                SIDE * length * (sin.abs() + cos.abs()),
                &format!("a shadow at {angle}, {length} mm"),
            );
            assert_area(&found[1], SIDE * SIDE, "the square");
        }
    }
}

#[test]
fn the_shadow_of_a_disc_is_a_band_as_wide_as_the_disc() {
    // Moved by L, a disc passes over 2 r L more; of that the joined shadow keeps all.
    let found = printed(&[shadow(-30.0, 4.0, 0.0), letter()], &disc(), 0.0);
    assert_area(&found[0], 2.0 * RADIUS * 4.0, "a disc's shadow");
}

#[test]
fn lines_in_and_about_a_disc_and_a_square_have_the_areas_of_their_closed_forms() {
    let ring = |outer: f64, inner: f64| PI * (outer * outer - inner * inner);
    let made = |plate: Plate, source: &Source| printed(&[plate], source, 0.0).remove(0);
    assert_area(
        &made(inline(1.0, Some(0.8)), &disc()),
        ring(5.0, 4.2),
        "an inline",
    );
    assert_area(&made(inline(1.0, None), &disc()), ring(5.0, 0.0), "a core");
    assert_area(
        &made(inline(5.5, Some(2.0)), &disc()),
        ring(0.5, 0.0),
        "what the stroke has room for",
    );
    assert!(made(inline(RADIUS + 0.1, Some(1.0)), &disc()).is_empty());
    assert_area(
        &made(outline(0.0, 1.5), &disc()),
        ring(7.5, 6.0),
        "an outline",
    );
    assert_area(
        &made(outline(0.5, 1.0), &disc()),
        ring(7.5, 6.5),
        "an outline apart",
    );
    assert_area(
        &made(outline(0.0, 1.5), &square()),
        4.0 * SIDE * 1.5 + PI * 1.5 * 1.5,
        "a square's outline",
    );
    assert_area(
        &made(inline(1.0, Some(1.0)), &square()),
        64.0 - 36.0,
        "a square's inline",
    );
}

#[test]
fn a_shadow_that_stays_whole_lies_under_the_letter_as_well() {
    let mut whole = shadow(-30.0, 4.0, 0.0);
    whole.overprinted = true;
    let found = printed(&[whole, letter()], &disc(), 0.25);
    let moved = 2.0 * RADIUS * 4.0;
    assert_area(&found[0], moved + PI * RADIUS * RADIUS, "letter and shadow");
}

#[test]
fn a_shadow_apart_keeps_its_gap() {
    let gap = 0.7;
    let found = printed(&[shadow(-45.0, 4.0, gap), letter()], &square(), 0.25);
    let near = grown(&found[1], gap - 0.002, WORK_MM).expect("grown");
    assert!(intersection(&near, &found[0]).is_empty());
    assert_area(&found[1], SIDE * SIDE, "nothing is spread across the gap");
    // The square's edge on two sides, and the gap's strip along them, are not in the shadow.
    let joined = printed(&[shadow(-45.0, 4.0, 0.0), letter()], &square(), 0.0);
    assert!(difference(&found[0], &joined[0]).area() < 1e-3);
}

#[test]
fn what_lies_in_front_knocks_out_and_the_sum_is_the_letter() {
    for plates in [
        [letter(), inline(1.0, Some(0.8))],
        [inline(1.0, Some(0.8)), letter()],
    ] {
        let found = printed(&plates, &disc(), 0.0);
        assert!(intersection(&found[0], &found[1]).area() < 1e-3);
        let sum = found[0].area() + found[1].area();
        assert!((sum - PI * RADIUS * RADIUS).abs() < CHORDS_MM2, "{sum}");
    }
    let mut whole = letter();
    whole.overprinted = true;
    let found = printed(&[whole, inline(1.0, Some(0.8))], &disc(), 0.3);
    assert_area(&found[0], PI * RADIUS * RADIUS, "an overprinted letter");
}

#[test]
fn the_plate_printed_first_is_spread_by_the_trap_and_never_past_the_letter() {
    let trap = 0.25;
    let ring = |outer: f64, inner: f64| PI * (outer * outer - inner * inner);
    let found = printed(&[inline(1.0, Some(0.8)), letter()], &disc(), trap);
    assert_area(
        &found[0],
        ring(5.0 + trap, 4.2 - trap),
        "the line is spread",
    );
    assert_area(
        &found[1],
        ring(6.0, 5.0) + ring(4.2, 0.0),
        "the letter is not",
    );
    let found = printed(&[letter(), inline(1.0, Some(0.8))], &disc(), trap);
    assert_area(
        &found[0],
        ring(6.0, 5.0 - trap) + ring(4.2 + trap, 0.0),
        "the letter is spread",
    );
    assert_area(&found[1], ring(5.0, 4.2), "the line is not");
    // A joined shadow to the right and up meets the square along two whole sides.
    let plates = [shadow(30.0, 4.0, 0.0), letter()];
    let (bare, spread) = (
        printed(&plates, &square(), 0.0),
        printed(&plates, &square(), trap),
    );
    let strip = 2.0 * SIDE * trap - trap * trap;
    assert_area(&spread[0], bare[0].area() + strip, "a shadow spread");
    let (before, after) = (union_all(&bare), union_all(&spread));
    assert!(
        difference(&after, &before).area() < 1e-3,
        "past the outside"
    );
    assert!(difference(&before, &after).area() < 1e-3);
}

#[test]
fn a_fonts_own_colours_are_what_is_seen_of_them() {
    let rect = |x0, x1| Rect::new(x0, 0.0, x1, 4.0).to_path(1e-6);
    let own = |colour: &str, path| (colour.to_owned(), path);
    let source = Source {
        own: vec![
            own("#ff0000", rect(0.0, 6.0)),
            own("#0000ff", rect(2.0, 8.0)),
            own("#ff0000", rect(5.0, 6.0)),
        ],
        ..Source::default()
    };
    let of = |colour: &str| plate(PlateSource::FontColour(colour.to_owned()));
    let plates = [of("#ff0000"), of("#0000ff"), of("#00ff00")];
    let found = printed(&plates, &source, 0.0);
    assert_area(&found[0], 8.0 + 4.0, "red: its left end and the bar on top");
    assert_area(&found[1], 24.0 - 4.0, "blue, without the bar");
    assert!(found[2].is_empty());
}

#[test]
fn what_is_only_drawn_keeps_its_curves() {
    let rules = ColourRules::starting();
    let source = disc();
    let (layers, whole) =
        layers(&[letter(), shadow(0.0, 3.0, 0.0)], &rules, &source).expect("layers");
    assert_ne!(
        layers[0].outline, source.letter,
        "it is spread under the shadow"
    );
    let (drawn, _) =
        super::layers(&[shadow(0.0, 3.0, 0.0), letter()], &rules, &source).expect("layers");
    assert_eq!(drawn[1].outline, source.letter, "it is as it was drawn");
    let whole = region_from_outline(&whole, 0.001).expect("an area");
    assert_area(
        &whole,
        PI * RADIUS * RADIUS + 6.0 * RADIUS,
        "the whole letter",
    );
}
