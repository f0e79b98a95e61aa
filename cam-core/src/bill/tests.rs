mod setting;

use super::*;

fn line(character: char, count: u32) -> BillLine {
    plain("main", character, count)
}

fn of(glyph: GlyphChoice, count: u32) -> BillLine {
    BillLine {
        face: "main".to_owned(),
        glyph,
        count,
    }
}

fn ligature(text: &str) -> GlyphChoice {
    GlyphChoice::Ligature {
        text: text.to_owned(),
        features: vec!["liga".to_owned()],
    }
}

#[test]
fn pasted_lists_are_understood() {
    for text in [
        "A 3, B 2, & 1",
        "A 3\nB 2\n& 1\n",
        " A3; B: 2;; & = 1 ,",
        "A\t3,B 2,\r\n&  1",
    ] {
        assert_eq!(
            from_list("main", text),
            Ok(vec![line('A', 3), line('B', 2), line('&', 1)]),
            "{text}"
        );
    }
    assert_eq!(
        from_list(
            "main",
            "1 4, : 6, = 2, \",\" 31, \"\"\"\" 2, / 1, \"/\" 1, ffi 2, /ampersand.alt 1, É 1"
        ),
        Ok(vec![
            line('1', 4),
            line(':', 6),
            line('=', 2),
            line(',', 31),
            line('"', 2),
            line('/', 1),
            line('/', 1),
            of(ligature("ffi"), 2),
            of(GlyphChoice::Name("ampersand.alt".to_owned()), 1),
            line('É', 1),
        ])
    );
}

#[test]
fn what_cannot_be_understood_is_quoted() {
    let read = |text| from_list("main", text).expect_err(text);
    assert_eq!(read(""), BillError::Empty);
    assert_eq!(read(" ,;\n"), BillError::Empty);
    assert_eq!(read("A 3, B"), BillError::NoCount("B".to_owned()));
    assert_eq!(read("A -"), BillError::NoCount("A -".to_owned()));
    assert_eq!(read(", 31"), BillError::NoLetter("31".to_owned()));
    assert_eq!(
        read("A 99999999999999"),
        BillError::TooMany("A 99999999999999".to_owned())
    );
    assert_eq!(read("A 2, \"B 3"), BillError::OpenQuote("\"B 3".to_owned()));
    assert!(read("A 10001").to_string().contains("10000"));
}

#[test]
fn written_entries_are_read_as_the_same_line() {
    for entry in [
        line('A', 3),
        line('1', 4),
        line(',', 31),
        line(';', 2),
        line('"', 2),
        line('/', 1),
        line(':', 6),
        line('=', 6),
        line('ß', 0),
        of(ligature("ffi"), 2),
        of(ligature("a, b"), 2),
        of(ligature("a1"), 2),
        of(GlyphChoice::Name("ampersand.alt".to_owned()), 1),
    ] {
        let written = to_list(&entry).unwrap_or_else(|| panic!("{entry:?}"));
        assert_eq!(from_list("main", &written), Ok(vec![entry]), "{written}");
    }
    assert_eq!(to_list(&of(GlyphChoice::Index(7), 1)), None);
    assert_eq!(
        to_list(&line('\u{a0}', 1)).map(|text| from_list("main", &text)),
        Some(Ok(vec![line('\u{a0}', 1)]))
    );
    let styled = GlyphChoice::Character {
        character: 'A',
        features: vec!["ss01".to_owned()],
    };
    assert_eq!(to_list(&of(styled, 1)), None);
    // A name that ends in figures cannot be told from its count.
    assert_eq!(to_list(&of(GlyphChoice::Name("a,b".to_owned()), 1)), None);
}

#[test]
fn texts_need_the_most_of_a_line_or_the_sum() {
    let text = "NO ONE\nNONE\n";
    let any = from_text("main", text, Need::AnyLine, |_| true);
    assert_eq!(any, Ok(vec![line('E', 1), line('N', 2), line('O', 2)]));
    let all = from_text("main", text, Need::AllLines, |_| true);
    assert_eq!(all, Ok(vec![line('E', 2), line('N', 4), line('O', 3)]));
    let error = from_text("main", "NO ÖRE ß", Need::AnyLine, |c| c.is_ascii());
    assert_eq!(error, Err(BillError::NotInFont(vec!['Ö', 'ß'])));
    assert!(
        error
            .expect_err("missing")
            .to_string()
            .contains("“Ö” (U+00D6), “ß” (U+00DF)")
    );
    assert_eq!(
        from_text("main", " \n\t", Need::AnyLine, |_| true),
        Err(BillError::Empty)
    );
}

#[test]
fn a_bill_for_a_text_goes_part_by_part() {
    let bill = from_text("main", "24 & Ba, 4!", Need::AllLines, |_| true).expect("a bill");
    let letters = [
        ('B', 1),
        ('&', 1),
        ('a', 1),
        ('2', 1),
        ('4', 2),
        ('!', 1),
        (',', 1),
    ];
    assert_eq!(bill, letters.map(|(letter, count)| line(letter, count)));
}

/// # Source
/// A. A. Stewart, *Type: a primer*, 1918, p. 11, and its scaling to 3, 4 and 5 A by the stated rule.
#[test]
fn schemes_follow_the_trade() {
    let counts = |n| {
        let scheme = Scheme {
            capitals: n,
            ..Scheme::default()
        };
        let lines = from_scheme("main", scheme, &Proportions::JobFount.table()).expect("a scheme");
        lines
            .iter()
            .filter_map(|line| Some((to_list(line)?, line.count)))
            .filter(|(entry, _)| !entry.starts_with('&'))
            .map(|(entry, count)| (entry.replace(' ', ""), count))
            .unzip::<String, u32, Vec<String>, Vec<u32>>()
    };
    for (n, total) in [(15, 239), (3, 55), (4, 73), (5, 85)] {
        assert_eq!(counts(n).1.iter().sum::<u32>(), total, "{n}A");
    }
    assert_eq!(
        counts(3).0.join(" "),
        "A3 B2 C2 D2 E4 F2 G2 H2 I3 J1 K1 L2 M2 N3 O3 P2 Q1 R3 S3 T3 U2 V1 W2 X1 Y2 Z1"
    );
    assert_eq!(
        counts(15).0.join(" "),
        "A15 B6 C10 D8 E18 F7 G7 H8 I15 J5 K5 L10 M8 N15 O15 P8 Q3 R15 S15 T15 U8 V5 W6 X3 Y6 Z3"
    );
}

/// # Source
/// A. A. Stewart, *Type: a primer*, 1918, p. 11: 470 lower-case letters in a fount of 30 a; 44 figures in one of 15 A.
#[test]
fn the_other_parts_of_a_fount_follow_too() {
    let total = |scheme| -> u32 {
        from_scheme("main", scheme, &Proportions::JobFount.table())
            .expect("a scheme")
            .iter()
            .map(|line| line.count)
            .sum()
    };
    assert_eq!(
        total(Scheme {
            lower_case: 30,
            ..Scheme::default()
        }),
        470
    );
    assert_eq!(
        total(Scheme {
            figures: 15,
            ..Scheme::default()
        }),
        44
    );
    assert_eq!(
        total(Scheme {
            points: 15,
            ..Scheme::default()
        }),
        125
    );
    assert_eq!(
        from_scheme("main", Scheme::default(), &Proportions::JobFount.table()),
        Err(BillError::Empty)
    );
    let huge = Scheme {
        capitals: u32::MAX,
        ..Scheme::default()
    };
    assert!(matches!(
        from_scheme("main", huge, &Proportions::JobFount.table()),
        Err(BillError::TooMany(_))
    ));
}

/// Every table that is offered can be read, shown and read again, and has the letter that founts are counted by.
#[test]
fn tables_are_read_as_they_are_shown() {
    for proportions in Proportions::all() {
        let table = proportions.table();
        for (part, leading) in [
            (&table.capitals, "A"),
            (&table.lower_case, "a"),
            (&table.figures, "A"),
            (&table.points, "A"),
            (&table.ligatures, "a"),
        ] {
            let again = Part::read(&part.show(), leading, part.leading());
            assert_eq!(again.as_ref(), Ok(part), "{}", proportions.name());
        }
        assert_eq!(table.capitals.weights()[0].0, "A");
        assert_eq!(table.lower_case.weights()[0].0, "a");
        let rarest = table
            .capitals
            .weights()
            .iter()
            .take(26)
            .map(|(_, weight)| *weight)
            .min();
        assert!(
            rarest.is_some_and(|rarest| rarest > 0),
            "{}",
            proportions.name()
        );
    }
}

#[test]
fn tables_that_cannot_be_understood_are_refused() {
    let read = |text| Part::read(text, "A", 15);
    assert_eq!(read(""), Err(BillError::Empty));
    assert_eq!(read("A0"), Err(BillError::Empty));
    assert_eq!(read("A15 B"), Err(BillError::NoWeight("B".to_owned())));
    assert_eq!(read("A15 B-3"), Err(BillError::NoWeight("B-3".to_owned())));
    assert_eq!(
        read("A15 B9999999"),
        Err(BillError::NoWeight("B9999999".to_owned()))
    );
    assert_eq!(read("A15 B2 A3"), Err(BillError::Twice("A".to_owned())));
    // Without A the counts stand to what is said.
    assert_eq!(read("B5").map(|part| part.leading()), Ok(15));
}

#[test]
fn schemes_are_read_as_makers_write_them() {
    let scheme = |text: &str| text.parse::<Scheme>();
    assert_eq!(
        scheme("5A 10a"),
        Ok(Scheme {
            capitals: 5,
            lower_case: 10,
            figures: 5,
            points: 5,
            ligatures: 0,
        })
    );
    assert_eq!(
        scheme(" figures=3  4A points=0 ligatures=8 "),
        Ok(Scheme {
            capitals: 4,
            lower_case: 0,
            figures: 3,
            points: 0,
            ligatures: 8,
        })
    );
    for refused in ["", "A", "4", "-4A", "4A quads=3", "figures=x", "0A", "4AA"] {
        assert!(
            matches!(scheme(refused), Err(BillError::NoScheme(_))),
            "{refused}"
        );
    }
}

#[test]
fn proportions_are_found_by_name() {
    for proportions in Proportions::all() {
        assert_eq!(Proportions::named(proportions.name()), Ok(proportions));
    }
    assert_eq!(Proportions::named("job"), Ok(Proportions::JobFount));
    assert_eq!(Proportions::named("Wood"), Ok(Proportions::WoodLetter));
    assert_eq!(
        Proportions::named("ger"),
        Ok(Proportions::Language(Language::German))
    );
    for unknown in ["", "Martian", "x"] {
        let error = Proportions::named(unknown).expect_err(unknown);
        assert!(error.to_string().contains("Hungarian"), "{error}");
    }
}

#[test]
fn ligatures_are_a_part_of_their_own() {
    let scheme = Scheme {
        ligatures: 30,
        ..Scheme::default()
    };
    let lines = from_scheme("main", scheme, &Proportions::JobFount.table()).expect("a scheme");
    let printed = [("fi", 3), ("fl", 3), ("ff", 3), ("ffi", 2), ("ffl", 2)];
    assert_eq!(
        lines,
        printed.map(|(text, count)| of(ligature(text), count))
    );
}

/// Totals that are printed are come to whatever A, and every letter is there.
#[test]
fn wood_letter_comes_to_its_printed_totals() {
    let table = Proportions::WoodLetter.table();
    let total = |scheme| -> u32 {
        let lines = from_scheme("main", scheme, &table).expect("a printed fount");
        assert!(lines.iter().all(|line| line.count > 0));
        lines.iter().map(|line| line.count).sum()
    };
    for totals in table.totals {
        let capitals = Scheme {
            capitals: totals.a,
            ..Scheme::default()
        };
        assert_eq!(total(capitals), totals.capitals_and_points);
        let lines = from_scheme("main", capitals, &table).expect("a printed fount");
        assert_eq!(lines[0], line('A', totals.a));
        let whole = Scheme {
            lower_case: totals.a * 2,
            figures: totals.a,
            ..capitals
        };
        let all = totals.capitals_and_points + totals.lower_case + totals.figures;
        assert_eq!(total(whole), all);
    }
    let other = Scheme {
        capitals: 6,
        ..Scheme::default()
    };
    let error = from_scheme("main", other, &table).expect_err("6A is not printed");
    assert_eq!(error, BillError::NoTotals(6));
    assert!(error.to_string().contains("3A, 4A, 5A"), "{error}");
}

/// An accent typed by itself is joined to its letter, and what shows nothing is no letter.
#[test]
fn texts_are_read_as_they_are_printed() {
    let bill = |text: &str| from_text("main", text, Need::AllLines, |_| true);
    assert_eq!(bill("e\u{301}e\u{301}"), Ok(vec![line('é', 2)]));
    assert_eq!(
        bill("A\u{ad}B\u{200b}\u{feff}"),
        Ok(vec![line('A', 1), line('B', 1)])
    );
    assert_eq!(bill("\u{200b}"), Err(BillError::Empty));
}
