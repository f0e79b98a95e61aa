use super::*;

const NOTEBOOK: &str = "\
bench lockup
body 42.175
height 23.317
caliper 0.02
sort A 30.93
42.16 30.92 23.31
42,25; 30,90; 23,33
sort V 28.0
42.05
28.0
23.40
sort space 10.54
42.15 10.53
line A V space A A
";

#[test]
fn a_notebook_finds_what_binds_and_what_drops() {
    let fount = read(NOTEBOOK).unwrap();
    let judged = judge(&fount);
    assert_eq!(judged.blocks, 4);
    let said: Vec<(&str, usize, usize)> = judged
        .faulty
        .iter()
        .map(|faulty| (faulty.sort.as_str(), faulty.number, faulty.troubles.len()))
        .collect();
    assert_eq!(said, [("A", 2, 1), ("V", 1, 2)]);
    assert!(
        matches!(judged.faulty[0].troubles[0], Trouble::BodyBinds(by) if (by - 0.075).abs() < 1e-9)
    );
    assert!(matches!(
        judged.faulty[1].troubles[..],
        [Trouble::BodyDrops(_), Trouble::High(_)]
    ));
    assert!((judged.heights_differ.unwrap() - 0.09).abs() < 1e-9);
}

#[test]
fn a_line_adds_up() {
    let judged = judge(&read(NOTEBOOK).unwrap());
    let line = &judged.lines[0];
    // −0.01 and −0.03, 0, −0.01, and the first A again.
    assert!((line.off + 0.06).abs() < 1e-9, "{}", line.off);
    assert!((line.uncertainty - 0.02 * 5.0_f64.sqrt()).abs() < 1e-12);
    assert!((line.bodies_differ - 0.2).abs() < 1e-9);
    assert_eq!(line.loose, ["A", "V", "space", "A"]);
    assert_eq!(line.again, ["A"]);
    let words = judged.in_words();
    assert!(
        words.iter().any(|line| line
            .starts_with("A line of 5 blocks, 131.33 mm nominal, comes out 0.06 mm short")),
        "{words:?}"
    );
}

#[test]
fn without_lines_all_blocks_are_one() {
    let text = NOTEBOOK.replace("line A V space A A\n", "");
    let judged = judge(&read(&text).unwrap());
    assert_eq!(judged.lines.len(), 1);
    assert_eq!(judged.lines[0].sorts.len(), 4);
}

#[test]
fn slips_of_the_pen_are_named_by_line() {
    for (from, to, line) in [
        ("body 42.175\n", "", "Line 4: say the body first"),
        ("line A V", "line A W", "Line 14: no block of the sort W"),
        ("23.40\n", "", ""),
        (
            "28.0\n23.40\n",
            "",
            "Line 10: the block before it has no set",
        ),
        ("sort A 30.93\n", "", "Line 5: say first which sort"),
        ("caliper 0.02", "caliper", "Line 4: what the caliper"),
    ] {
        let found = read(&NOTEBOOK.replacen(from, to, 1));
        if line.is_empty() {
            assert!(found.is_ok());
        } else {
            let error = found.unwrap_err().to_string();
            assert!(error.starts_with(line), "{error}");
        }
    }
}

#[test]
fn limits_leave_what_the_caliper_may_be_off() {
    let nominal = Block {
        body: 42.0,
        set: 30.0,
        height: Some(23.3),
    };
    let check = |body: f64, set: f64, height: f64, wanted: usize| {
        let measured = Block {
            body,
            set,
            height: Some(height),
        };
        assert_eq!(
            troubles(measured, nominal, 0.02).len(),
            wanted,
            "{body} {set} {height}"
        );
    };
    check(42.0, 30.0, 23.3, 0);
    check(42.019, 29.931, 23.369, 0);
    check(42.021, 30.0, 23.3, 1);
    check(41.929, 29.929, 23.371, 3);
    check(42.0, 30.021, 23.229, 2);
}
