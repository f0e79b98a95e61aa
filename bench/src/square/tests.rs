use super::*;

/// The block that a machine cuts when asked for one, measured exactly.
fn cut_by(map: Map, asked: [f64; 2], tool: f64) -> Block {
    let [a, b] = asked;
    let corners = [[0.0, 0.0], [a, 0.0], [a, b], [0.0, b]].map(|corner| map.done(corner));
    let between = |i: usize, j: usize| {
        let ([x0, y0], [x1, y1]) = (corners[i], corners[j]);
        (x1 - x0).hypot(y1 - y0)
    };
    Block {
        asked,
        widths: vec![between(0, 1), between(3, 2)],
        lengths: vec![between(0, 3), between(1, 2)],
        rising: vec![between(0, 2)],
        falling: vec![between(3, 1)],
        tool,
    }
}

const LEANING: Map = Map {
    scale_x: 1.0004,
    scale_y: 0.9993,
    skew: 0.0021,
};

#[track_caller]
fn check_map(found: Map, wanted: Map, within: f64) {
    let differ = (found.scale_x - wanted.scale_x)
        .abs()
        .max((found.scale_y - wanted.scale_y).abs())
        .max((found.skew - wanted.skew).abs());
    assert!(differ <= within, "{found:?} {wanted:?}");
}

#[test]
fn the_map_is_found_from_an_exact_block() {
    for map in [
        Map::TRUE,
        LEANING,
        Map {
            scale_x: 0.985,
            scale_y: 1.015,
            skew: -0.018,
        },
    ] {
        let found = from_block(&cut_by(map, [180.0, 139.178], 0.02)).unwrap();
        check_map(found.map, map, 1e-12);
        assert!(found.left_over < 1e-10);
    }
}

#[test]
fn asked_undoes_done_and_maps_follow_one_another() {
    for place in [[0.0, 0.0], [120.0, -35.0], [3.0, 250.0]] {
        let back = LEANING.asked(LEANING.done(place));
        assert!((back[0] - place[0]).hypot(back[1] - place[1]) < 1e-12);
        let other = Map {
            scale_x: 0.999,
            scale_y: 1.002,
            skew: -0.004,
        };
        let both = other.after(LEANING).done(place);
        let one_by_one = other.done(LEANING.done(place));
        assert!((both[0] - one_by_one[0]).hypot(both[1] - one_by_one[1]) < 1e-12);
    }
}

#[test]
fn readings_off_by_the_tool_keep_within_the_uncertainty_that_is_told() {
    let tool = 0.02;
    let mut within = 0;
    let mut tried = 0;
    // All ways in which each of six readings may be off: three values that scatter as anything between the tool's limits does.
    let off = tool * 0.5_f64.sqrt();
    for code in 0..3_u32.pow(6) {
        let mut block = cut_by(LEANING, [180.0, 139.178], tool);
        let mut rest = code;
        for length in [
            &mut block.widths,
            &mut block.lengths,
            &mut block.rising,
            &mut block.falling,
        ]
        .into_iter()
        .flatten()
        {
            *length += off * (f64::from(rest % 3) - 1.0);
            rest /= 3;
        }
        let Ok(found) = from_block(&block) else {
            continue;
        };
        tried += 1;
        let is_within = (found.map.skew - LEANING.skew).abs() <= found.uncertain.skew;
        within += u32::from(is_within);
    }
    assert_eq!(tried, 729, "no reading within the tool is refused");
    assert!(within * 10 >= tried * 9, "{within} of {tried}");
}

#[test]
fn blocks_that_are_none_are_refused() {
    let mut block = cut_by(LEANING, [180.0, 139.178], 0.02);
    block.rising[0] += 0.2;
    block.falling[0] += 0.2;
    assert!(matches!(
        from_block(&block),
        Err(SquareError::DoNotBelong(_))
    ));
    let mut turned = cut_by(LEANING, [180.0, 139.178], 0.02);
    std::mem::swap(&mut turned.widths, &mut turned.lengths);
    assert!(matches!(from_block(&turned), Err(SquareError::FarOff(_))));
    let mut none = cut_by(LEANING, [180.0, 139.178], 0.02);
    none.lengths.clear();
    assert_eq!(from_block(&none), Err(SquareError::TooFew));
    none.lengths.push(f64::NAN);
    assert_eq!(from_block(&none), Err(SquareError::NoSize));
}

#[test]
fn a_square_with_a_clock_shows_the_skew_however_it_lies() {
    let skew = 0.0015_f64;
    for turned in [0.0_f64, 0.004, -0.003] {
        let found = from_clock(Clocked {
            x_run: 200.0,
            x_rise: 200.0 * turned.tan(),
            y_run: 150.0,
            // The blade leans by the square's turn; the machine's own y axis leans the other way by the skew.
            y_rise: -150.0 * (turned + skew).tan(),
            tool: 0.01,
        })
        .unwrap();
        assert!((found.map.skew - skew).abs() < 1e-7, "{}", found.map.skew);
        assert_eq!(found.uncertain.scale_x, None);
        assert!(found.is_seen());
    }
}

const NOTEBOOK: &str = "\
bench square
asked 180 139.178
width 180.07 180.07
length 139.08
rising 227.72
falling 227.26
tool 0.02
";

#[test]
fn a_notebook_gives_a_correction_and_the_next_block_shows_it_gone() {
    let judged = judge(&read(NOTEBOOK).unwrap()).unwrap();
    assert!(judged.is_seen);
    assert_eq!(judged.machine, judged.left.map);
    let words = judged.in_words();
    assert_eq!(words[0], "The machine is off. Keep the correction below.");
    let correction = format!(
        "corrected {} {} {}\n",
        judged.machine.scale_x,
        judged.machine.scale_y,
        judged.machine.skew_deg()
    );
    let second = format!(
        "bench square\nasked 180 139.178\nwidth 180.01\nlength 139.18\nrising 227.53\nfalling 227.53\n{correction}"
    );
    let second = judge(&read(&second).unwrap()).unwrap();
    assert!(!second.is_seen, "{second:?}");
    assert!((second.machine.skew - judged.machine.skew).abs() < 1e-12);
    assert!(second.in_words()[0].starts_with("The correction holds"));
}

#[test]
fn slips_of_the_pen_are_named() {
    for (from, to, said) in [
        ("asked 180 139.178", "", "Say what size"),
        ("falling 227.26", "", "Measure the falling diagonal"),
        ("width 180.07 180.07", "width", "Line 3: a measured length"),
        (
            "tool 0.02",
            "tool 0.02\nclock x 200 0 0.01",
            "The clock has to be run along both",
        ),
        ("tool 0.02", "clock z 200 0 0.01", "Line 7: say which way"),
        (
            "tool 0.02",
            "corrected 2 1 0",
            "Line 7: a correction is within 2 %",
        ),
    ] {
        let error = read(&NOTEBOOK.replace(from, to)).unwrap_err().to_string();
        assert!(error.starts_with(said), "{error}");
    }
}
