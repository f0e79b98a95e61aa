use super::*;

const NOTEBOOK: &str = "\
bench moisture
wood hard maple
room 21.1 C 45 %
there 21.1 C 30 %
reading 8.2 8.6
8.4
body 42.175
set 30
height 23.317
";

#[test]
fn a_notebook_forecasts_every_size() {
    let notes = read(NOTEBOOK).unwrap();
    let judged = judge(&notes).unwrap();
    assert_eq!(judged.settled, Some(Settled::Cut));
    assert!((judged.from - 8.4).abs() < 1e-9);
    let to = judged.there_settles_to.unwrap();
    assert!((to - 6.17).abs() < 0.01, "{to}");
    let body = judged.movements[0];
    let [
        Some((Grain::Tangential, along)),
        Some((Grain::Radial, across)),
    ] = body.changes
    else {
        panic!("{body:?}");
    };
    assert!((along - 42.175 * coefficient(9.9) * (to - 8.4)).abs() < 1e-9);
    assert!((across - 42.175 * coefficient(4.8) * (to - 8.4)).abs() < 1e-9);
    let height = judged.movements[2];
    assert!(matches!(height.changes, [Some((Grain::Along, change)), None] if change.abs() < 0.01));
    let words = judged.in_words();
    assert!(words[0].starts_with("Cut:"), "{words:?}");
    assert!(
        words
            .iter()
            .any(|line| line.starts_with("That is more than 0.05 mm")),
        "{words:?}"
    );
}

#[test]
fn the_rings_tell_which_way_a_size_moves() {
    let known = format!("{NOTEBOOK}rings set\n");
    let judged = judge(&read(&known).unwrap()).unwrap();
    assert!(matches!(
        judged.movements[0].changes,
        [Some((Grain::Radial, _)), None]
    ));
    assert!(matches!(
        judged.movements[1].changes,
        [Some((Grain::Tangential, _)), None]
    ));
    let side = format!("{NOTEBOOK}face side set\nrings height\n");
    let judged = judge(&read(&side).unwrap()).unwrap();
    assert!(matches!(
        judged.movements[1].changes,
        [Some((Grain::Along, _)), None]
    ));
    assert!(matches!(
        judged.movements[2].changes,
        [Some((Grain::Tangential, _)), None]
    ));
}

#[test]
fn wood_waits() {
    assert_eq!(settled(&[], 8.0), None);
    assert_eq!(settled(&[8.9], 8.0), Some(Settled::Cut));
    assert_eq!(settled(&[11.0], 8.0), Some(Settled::WaitToDry(3.0)));
    assert_eq!(settled(&[6.0], 8.0), Some(Settled::WaitToTakeUp(2.0)));
    assert_eq!(settled(&[6.5, 9.5], 8.0), Some(Settled::WaitToEvenOut(3.0)));
}

#[test]
fn both_sums_of_movement_nearly_meet() {
    // The even sum and the other differ by less than a tenth where both hold.
    for shrinkage in [3.7, 4.8, 7.1, 11.9] {
        let even = movement(100.0, shrinkage, 6.0, 14.0).unwrap();
        let other = movement(100.0, shrinkage, 5.999, 14.0).unwrap();
        assert!((even / other - 1.0).abs() < 0.1, "{even} {other}");
    }
    assert_eq!(movement(100.0, 0.0, 2.0, 20.0).unwrap(), 0.0);
    assert!(movement(100.0, 5.0, 8.0, 31.0).is_err());
    assert!(movement(100.0, 5.0, f64::NAN, 8.0).is_err());
}

#[test]
fn odd_air_and_woods_are_named_by_line() {
    for (from, to, line) in [
        ("45 %", "145 %", "Line 3:"),
        ("there 21.1 C", "there 400 C", "Line 4:"),
        ("hard maple", "granite", "Line 2:"),
        ("body", "girth", "Line 7:"),
    ] {
        let error = read(&NOTEBOOK.replace(from, to)).unwrap_err().to_string();
        assert!(error.starts_with(line), "{error}");
    }
    assert!(matches!(
        judge(&read(&NOTEBOOK.replace("8.6", "86")).unwrap()),
        Err(MoistureError::Moisture(_))
    ));
}
