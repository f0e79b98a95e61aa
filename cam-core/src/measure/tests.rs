use super::*;

#[track_caller]
fn assert_near(found: f64, wanted: f64, tolerance: f64) {
    assert!(
        (found - wanted).abs() <= tolerance,
        "{found} found, {wanted} wanted"
    );
}

/// # Source
/// A. A. Stewart, *Typesetting*, 1919, p. 15; *Typo*, vol. 1, 1887, Type Standards.
#[test]
fn points_and_the_convention_of_1886() {
    assert_near(Length::pica_points(1.0).in_mm(), 0.351_459_8, 5e-8);
    assert_near(Length::picas(1.0).in_mm(), 4.217_517_6, 5e-8);
    assert_near(350.0 / 83.0, 4.216_867, 5e-7);
    let convention = HEIGHTS_TO_PAPER[1].height;
    assert_near(convention.in_mm(), 23.333_33, 5e-6);
}

/// # Source
/// Worked out from the same point: bodies by lines.
#[test]
fn bodies_by_lines() {
    assert_near(Length::lines(10.0, System::Pica).in_mm(), 42.175_176, 5e-7);
    assert_near(Length::lines(12.0, System::Pica).in_mm(), 50.610_211, 5e-7);
    let mammoth = Length::lines(72.0, System::Pica);
    assert_near(mammoth.in_mm(), 303.661_267, 5e-7);
    assert_near(mammoth.in_unit(Unit::Inch, System::Pica), 11.955_168, 5e-7);
}

/// # Source
/// A. A. Stewart, *Type: a primer*, 1918, p. 7.
#[test]
fn height_to_paper_in_inches() {
    let height = Length::inches(0.918);
    assert_near(height.in_mm(), 23.317_2, 5e-8);
    assert_near(height.in_unit(Unit::Point, System::Pica), 66.343_9, 5e-5);
    assert_eq!(
        HEIGHTS_TO_PAPER[0].height.show(Unit::Inch, System::Pica),
        "0.918 in"
    );
}

/// # Source
/// 62 2/3 Didot points as the normal height; ciceros in the usual and in the rounded system.
#[test]
fn didot_measures() {
    let normal = Length::parse("62 2/3 pt", System::Didot).expect("understood");
    assert_near(normal.in_mm(), 23.566_74, 5e-6);
    assert_near(normal.in_unit(Unit::Inch, System::Didot), 0.927_824, 5e-7);
    assert_near(Length::lines(20.0, System::Didot).in_mm(), 90.255_6, 5e-5);
    assert_near(
        Length::lines(20.0, System::DidotRounded).in_mm(),
        90.0,
        1e-12,
    );
    assert_near(Length::ciceros(20.0).in_mm(), 90.255_6, 5e-5);
}

#[test]
fn typed_lengths_are_understood() {
    for (text, system, mm) in [
        ("10 line", System::Pica, 42.175_176),
        ("10 lines", System::DidotRounded, 45.0),
        ("5 mm", System::Pica, 5.0),
        ("30pt", System::DidotRounded, 11.25),
        ("0.918 in", System::Pica, 23.317_2),
        ("2 picas 3 pt", System::Pica, 27.0 * 0.351_459_8),
        ("1 cicero", System::Didot, 4.512_78),
        ("1 cicero", System::Pica, 4.512_78),
        ("1/2 pt", System::DidotRounded, 0.1875),
        ("1 1/2 mm", System::Pica, 1.5),
        ("1.5cm", System::Pica, 15.0),
        ("1\"", System::Pica, 25.4),
        (" .5 MM ", System::Pica, 0.5),
        ("-3 mm", System::Pica, -3.0),
        ("0 mm", System::Pica, 0.0),
    ] {
        let read = Length::parse(text, system).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert_near(read.in_mm(), mm, 1e-9);
    }
}

#[test]
fn what_cannot_be_understood_is_quoted() {
    let read = |text| Length::parse(text, System::Pica).expect_err(text);
    assert_eq!(read(""), LengthError::Empty);
    assert_eq!(read("  "), LengthError::Empty);
    assert_eq!(read("-"), LengthError::Empty);
    assert_eq!(read("5"), LengthError::NoUnit("5".to_owned()));
    assert_eq!(read("5 mm 3"), LengthError::NoUnit("5 mm 3".to_owned()));
    assert_eq!(
        read("5 furlongs"),
        LengthError::UnknownUnit("furlongs".to_owned())
    );
    assert_eq!(read("five mm"), LengthError::NotANumber("five".to_owned()));
    assert_eq!(read("5 6 mm"), LengthError::UnknownUnit("6".to_owned()));
    assert_eq!(
        read("1.2.3 mm"),
        LengthError::NotANumber("1.2.3".to_owned())
    );
    assert_eq!(read("0,918 in"), LengthError::Comma("0,918".to_owned()));
    assert_eq!(read("1/0 mm"), LengthError::NotANumber("1/0".to_owned()));
    assert_eq!(read("inf mm"), LengthError::NotANumber("inf".to_owned()));
    assert_eq!(read("1e9 mm"), LengthError::UnknownUnit("e".to_owned()));
    assert_eq!(
        read("9999999 mm"),
        LengthError::TooLarge("9999999 mm".to_owned())
    );
}

#[test]
fn lengths_are_shown_without_idle_zeros() {
    let show = |length: Length, unit| length.show(unit, System::Pica);
    assert_eq!(show(Length::mm(5.0), Unit::Millimetre), "5 mm");
    assert_eq!(show(Length::mm(0.0001), Unit::Millimetre), "0 mm");
    assert_eq!(show(Length::mm(-0.0001), Unit::Millimetre), "0 mm");
    assert_eq!(show(Length::picas(1.0), Unit::Line), "1 line");
    assert_eq!(show(Length::picas(10.0), Unit::Line), "10 lines");
    assert_eq!(show(Length::mm(1200.0), Unit::Millimetre), "1200 mm");
}

#[test]
fn exact_texts_are_read_back_as_the_same_length() {
    for system in System::ALL {
        for length in [
            Length::mm(0.01),
            Length::mm(-7.3),
            Length::mm(1.0 / 3.0),
            Length::mm(0.0),
            Length::inches(0.918),
            Length::points_of(6.0, system),
            Length::lines(10.0, system),
            Length::pica_points(62.0 + 2.0 / 3.0),
            Length::mm(f64::MIN_POSITIVE),
        ] {
            let text = length.exact(system);
            assert_eq!(Length::parse(&text, system), Ok(length), "{text}");
        }
    }
    assert_eq!(Length::inches(0.918).exact(System::Pica), "0.918 in");
    assert_eq!(
        Length::points_of(6.0, System::Pica).exact(System::Pica),
        "6 pt"
    );
    assert_eq!(Length::mm(0.01).exact(System::Pica), "0.01 mm");
    assert_eq!(Length::mm(300.0).exact(System::Pica), "300 mm");
}

#[test]
fn every_height_to_paper_lies_where_heights_lie() {
    for height in HEIGHTS_TO_PAPER {
        assert!((23.0..26.0).contains(&height.height.in_mm()), "{height:?}");
    }
}
