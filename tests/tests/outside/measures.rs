//! Trade measures against printed handbooks.
//!
//! # Source
//! - A. A. Stewart, *Typesetting*, Typographic Technical Series 16, 1919, p. 15: the point is 0.013837 inch.
//! - *Typo*, vol. 1, 1887, "Type Standards": 83 picas make 35 cm, and so do 15 heights of type.
//! - A. A. Stewart, *Type: a primer*, same series 3, 1918, p. 7: type is 0.918 inch high; p. 27: a line of wood type is a pica.
//! - Didot point of 0.376065 mm, as 1238 pica points (of 72.27 to the inch) are 1157 Didot points: D. Knuth, *TeX: The
//!   Program*, § 458, from memory; 62 2/3 of them are the French height: trade lists, read in copies.
//! - Bodies by lines: worked out from these.

use cam_core::measure::{DIDOT_POINT_MM, HEIGHTS_TO_PAPER, Length, PICA_POINT_MM, System, Unit};

/// Fails where a length differs from a printed figure by more than its last digit allows.
fn check_mm(what: &str, length: Length, printed_mm: f64, last_digit: f64) {
    let difference = (length.in_mm() - printed_mm).abs();
    assert!(
        difference <= last_digit * 0.500_001,
        "{what}: {} against {printed_mm}",
        length.in_mm()
    );
}

#[test]
fn a_pica_point_is_0_013837_inch() {
    check_mm("a point", Length::pica_points(1.0), 0.351_459_8, 1e-7);
    check_mm("a pica", Length::picas(1.0), 4.217_517_6, 1e-7);
    check_mm(
        "72 points",
        Length::pica_points(72.0),
        0.996_264 * 25.4,
        1e-9,
    );
    assert_eq!(Length::picas(1.0), Length::pica_points(12.0));
}

#[test]
fn the_convention_of_1886_is_within_a_micrometre_a_pica() {
    let convention = 350.0 / 83.0;
    check_mm("its pica", Length::mm(convention), 4.216_867, 1e-6);
    let difference_um = (Length::picas(1.0).in_mm() - convention) * 1000.0;
    assert!((difference_um - 0.65).abs() < 0.005, "{difference_um}");
    let height = HEIGHTS_TO_PAPER
        .iter()
        .find(|height| height.name.contains("1886"))
        .expect("the convention is among the presets");
    check_mm("its height", height.height, 23.333_33, 1e-5);
}

/// Lines, then the body in inches (pica), and in millimetres by pica, by cicero of 0.376065 and by cicero of 0.375.
const BODIES: [(f64, f64, f64, f64, f64); 10] = [
    (4.0, 0.664_176, 16.870_07, 18.051_12, 18.0),
    (6.0, 0.996_264, 25.305_11, 27.076_68, 27.0),
    (8.0, 1.328_352, 33.740_14, 36.102_24, 36.0),
    (10.0, 1.660_440, 42.175_18, 45.127_80, 45.0),
    (12.0, 1.992_528, 50.610_21, 54.153_36, 54.0),
    (15.0, 2.490_660, 63.262_76, 67.691_70, 67.5),
    (20.0, 3.320_880, 84.350_35, 90.255_60, 90.0),
    (30.0, 4.981_320, 126.525_53, 135.383_40, 135.0),
    (40.0, 6.641_760, 168.700_70, 180.511_20, 180.0),
    (72.0, 11.955_168, 303.661_27, 324.920_16, 324.0),
];

#[test]
fn bodies_by_lines_are_as_in_the_table() {
    for (lines, inches, pica, cicero, rounded) in BODIES {
        let body = |system| Length::lines(lines, system);
        check_mm("pica body", body(System::Pica), pica, 1e-5);
        check_mm(
            "pica body in inches",
            body(System::Pica),
            inches * 25.4,
            1e-6,
        );
        check_mm("cicero body", body(System::Didot), cicero, 1e-5);
        check_mm("rounded body", body(System::DidotRounded), rounded, 1e-9);
    }
}

#[test]
fn type_is_0_918_inch_high_where_the_pica_rules() {
    let height = Length::inches(0.918);
    check_mm("0.918 in", height, 23.3172, 1e-9);
    let points = height.in_unit(Unit::Point, System::Pica);
    assert!((points - 66.3439).abs() < 5e-5, "{points}");
    assert!(
        HEIGHTS_TO_PAPER
            .iter()
            .any(|preset| preset.height == height && preset.name.contains("USA"))
    );
}

#[test]
fn the_french_height_is_62_and_two_thirds_didot_points() {
    let height = Length::didot_points(62.0 + 2.0 / 3.0);
    check_mm("62 2/3 points", height, 23.566_74, 1e-5);
    let inches = height.in_unit(Unit::Inch, System::Didot);
    assert!((inches - 0.927_824).abs() < 5e-7, "{inches}");
    let preset = HEIGHTS_TO_PAPER
        .iter()
        .find(|height| height.name.contains("France"))
        .expect("France is among the presets");
    // The lists round to 23.56; the two Didot points in use give 23.5609 and 23.5667.
    assert!((preset.height.in_mm() - height.in_mm()).abs() < 0.01);
}

#[test]
fn twenty_cicero_are_as_long_as_each_didot_point_says() {
    check_mm("20 cicero", Length::ciceros(20.0), 90.2556, 1e-9);
    check_mm(
        "20 rounded cicero",
        Length::didot_rounded_points(240.0),
        90.0,
        1e-9,
    );
}

#[test]
fn a_didot_point_is_1_07001_pica_points() {
    assert!((DIDOT_POINT_MM / PICA_POINT_MM - 1.07001).abs() < 5e-6);
    let by_knuth = 1238.0 / 1157.0 * 25.4 / 72.27;
    assert!((DIDOT_POINT_MM - by_knuth).abs() < 5e-8, "{by_knuth}");
}

/// Heights by place: a word of the preset's name, millimetres, and how far apart the lists lie.
const HEIGHTS: [(&str, f64, f64); 11] = [
    ("USA", 23.3172, 1e-6),
    ("1886", 23.3333, 1e-4),
    ("France", 23.56, 0.01),
    ("Belgium", 23.70, 0.03),
    ("Bulgaria", 23.77, 0.005),
    ("Austria", 23.69, 0.005),
    ("Leipzig", 24.82, 0.005),
    ("Netherlands", 24.85, 0.005),
    ("Petersburg", 25.10, 0.005),
    ("Denmark", 25.20, 0.005),
    ("Italy", 23.56, 0.01),
];

#[test]
fn heights_to_paper_are_those_of_the_lists_and_say_where_they_come_from() {
    for (place, mm, spread) in HEIGHTS {
        let preset = HEIGHTS_TO_PAPER
            .iter()
            .find(|height| height.name.contains(place))
            .unwrap_or_else(|| panic!("{place} is not among the presets"));
        assert!(
            (preset.height.in_mm() - mm).abs() <= spread,
            "{place}: {} against {mm}",
            preset.height.in_mm()
        );
        assert!(!preset.source.is_empty(), "{place} names no source");
    }
}
