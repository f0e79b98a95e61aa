use said::Said;

use super::*;

const WANTED: Wanted = Wanted {
    height: 23.317,
    tolerance: 0.07,
    gauge: 0.01,
};

/// Readings on a grid of 4 by 3 places over 300 by 140 mm, of a surface given in parts from the middle.
fn grid(surface: impl Fn(f64, f64) -> f64) -> Vec<Reading> {
    let mut readings = Vec::new();
    for i in 0..4 {
        for j in 0..3 {
            let (x, y) = (f64::from(i) / 3.0, f64::from(j) / 2.0);
            readings.push(Reading {
                at: [x * 300.0, y * 140.0],
                height: surface(x - 0.5, y - 0.5),
            });
        }
    }
    readings
}

#[track_caller]
fn check_verdict(surface: impl Fn(f64, f64) -> f64, wanted: Verdict) {
    let shape = shape(&grid(surface)).unwrap();
    let found = verdict(&shape, WANTED);
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let same = match (found, wanted) {
        (Verdict::Stop, Verdict::Stop) => true,
        (Verdict::SandOn(a), Verdict::SandOn(b))
        | (Verdict::Flatten(a), Verdict::Flatten(b))
        | (Verdict::Uneven(a), Verdict::Uneven(b))
        | (Verdict::TooLow(a), Verdict::TooLow(b)) => near(a, b),
        (Verdict::Turn { high, by }, Verdict::Turn { high: end, by: b }) => {
            high == end && near(by, b)
        }
        _ => false,
    };
    assert!(same, "{found:?} for {wanted:?}");
}

#[test]
fn slopes_and_twist_are_told_apart() {
    let shape = shape(&grid(|x, y| 24.0 + 0.3 * x - 0.2 * y + 0.5 * x * y)).unwrap();
    for (found, wanted) in [
        (shape.mean, 24.0),
        (shape.along, 0.3),
        (shape.across, -0.2),
        (shape.twist.unwrap(), 0.5),
        (shape.uneven, 0.0),
    ] {
        assert!((found - wanted).abs() < 1e-9, "{found} {wanted}");
    }
    // The twist is the sum of two corners less that of the others.
    let corner = |x: f64, y: f64| 0.5 * x * y;
    let corners = corner(-0.5, -0.5) + corner(0.5, 0.5) - corner(-0.5, 0.5) - corner(0.5, -0.5);
    assert!((corners - 0.5).abs() < 1e-12);
}

#[test]
fn verdicts() {
    check_verdict(|_, _| 23.317, Verdict::Stop);
    check_verdict(|x, _| 23.317 + 0.13 * x, Verdict::Stop);
    check_verdict(|_, _| 23.9, Verdict::SandOn(0.583));
    check_verdict(
        |x, _| 23.9 + 0.2 * x,
        Verdict::Turn {
            high: End::Right,
            by: 0.2,
        },
    );
    check_verdict(
        |_, y| 23.9 - 0.2 * y,
        Verdict::Turn {
            high: End::Near,
            by: 0.2,
        },
    );
    check_verdict(|x, y| 23.9 + 0.4 * x * y, Verdict::Flatten(0.4));
    check_verdict(|_, _| 23.2, Verdict::TooLow(0.047));
    // A bow: 0.25 higher at the ends than in the middle, over 23.26 at the lowest.
    check_verdict(
        |x, _| 23.26 + if x.abs() > 0.4 { 0.25 } else { 0.0 },
        Verdict::Uneven(0.25),
    );
    // No lower than the lowest place allows, though the mean is higher.
    check_verdict(
        |x, y| 23.35 + if x < -0.4 && y < -0.4 { 0.075 } else { 0.0 },
        Verdict::SandOn(0.03925),
    );
}

#[test]
fn what_shows_no_plane_is_refused() {
    let line: Vec<Reading> = (0..5)
        .map(|i| Reading {
            at: [f64::from(i), 2.0 * f64::from(i)],
            height: 23.0,
        })
        .collect();
    assert_eq!(shape(&line), Err(HeightError::OneLine));
    assert_eq!(shape(&line[..2]), Err(HeightError::TooFew(2)));
    let mut bad = grid(|_, _| 23.0);
    bad[3].height = f64::NAN;
    assert_eq!(shape(&bad), Err(HeightError::NoHeight));
    // Three places show a plane and no twist.
    let three = [[0.0, 0.0], [300.0, 0.0], [0.0, 140.0]].map(|at| Reading { at, height: 23.0 });
    assert_eq!(shape(&three).unwrap().twist, None);
}

const NOTEBOOK: &str = "\
bench height
wanted 0.918 in
plank maple-3
pass 80 grit
10 10 23.85
290 10 23.85
10 140 23.85
290 140 23.85
pass 120 grit
10 10 23.65
290 10 23.65
10 140 23.65
290 140 23.65
";

#[test]
fn a_notebook_tells_the_passes_left() {
    let log = read(NOTEBOOK).unwrap();
    let judged = judge(&log).unwrap();
    assert_eq!(judged.len(), 1);
    assert!((judged[0].taken_off[0] - 0.2).abs() < 1e-9);
    assert_eq!(judged[0].passes_left, Some(2));
    let words = judged[0].in_words(log.wanted);
    assert_eq!(words[0], "Plank maple-3. Sand on: take 0.33 mm off evenly.");
    assert_eq!(words[1], "That is 2 passes like the last one.");
}

#[test]
fn slips_of_the_pen_are_named_by_line() {
    let slip = NOTEBOOK.replace("290 10 23.65", "290 10");
    assert_eq!(
        read(&slip).unwrap_err().to_string(),
        "Line 11: x, y and height are 3 wanted here; there are 2."
    );
    let slip = NOTEBOOK.replace("wanted", "height");
    assert!(
        read(&slip)
            .unwrap_err()
            .to_string()
            .starts_with("Line 2: “height”")
    );
    let none = read("bench height\nwanted 23.3\n").unwrap_err().to_string();
    assert!(none.starts_with("There are no readings."));
}

#[test]
fn places_may_be_marked_once_and_read_pass_by_pass() {
    let text = "bench height\nwanted 23.317\nmark A 10 10\nmark B 290 10\nmark C 10 140\nplank p\npass one\nA 24.0\nB 24.1\nC 24.0\n150 75 24.06\npass two\nA 23.5\nB 23.5\nC 23.52\n";
    let log = read(text).unwrap();
    assert_eq!(log.marks.len(), 3);
    let [first, second] = &log.planks[0].passes[..] else {
        panic!("two passes");
    };
    assert_eq!(first.readings.len(), 4);
    assert_eq!(
        second.readings[1],
        Reading {
            at: [290.0, 10.0],
            height: 23.5
        }
    );
    let judged = judge(&log).unwrap().swap_remove(0);
    let words = judged.in_words(log.wanted);
    let of_passes: Vec<&Said> = words
        .iter()
        .filter(|line| line.starts_with("Pass "))
        .collect();
    assert_eq!(of_passes.len(), 2);
    // 24.04 in the mean, then 23.5067.
    assert!(
        of_passes[0].starts_with("Pass 1 (one): mean 24.04 mm. Rise"),
        "{words:?}"
    );
    assert!(
        of_passes[1].starts_with("Pass 2 (two): mean 23.507 mm. Took 0.533 mm off. Rise"),
        "{words:?}"
    );
    assert!(
        words
            .iter()
            .any(|line| line.starts_with("Left to take off: 0.19 mm in the mean, 0.203 mm")),
        "{words:?}"
    );
    for (line, slip) in [
        ("mark A 1 2", "there is a mark “A” already"),
        ("mark pass 1 2", "a mark has a word of its own"),
        ("mark D 1", "a mark has a word, x and y"),
        ("Q 23.4", "“Q” is not known here"),
        ("A 0", "the height has to be above 0"),
    ] {
        let error = read(&format!("{text}{line}\n")).unwrap_err().to_string();
        assert!(error.contains(slip), "{error}");
    }
}
