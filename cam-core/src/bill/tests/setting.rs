//! Spaces, and what can be set from a bill.

use super::*;
use crate::commission::{Commission, SetRounding, SpaceLine};
use crate::make::tests::order;
use crate::measure::{Length, System};
use crate::progress::Progress;
use crate::sort::{Sort, draw_up};

fn with(entries: &str) -> Commission {
    let (mut commission, _) = order("", 10.0, &[]);
    commission.bill = from_list("main", entries).expect("a list");
    commission
}

fn needed(what: &str, needed: u32, has: u32) -> Needed {
    Needed {
        what: what.to_owned(),
        needed,
        has,
    }
}

#[test]
fn a_text_is_laid_against_the_case() {
    let case = Case::of(&with("N 2, O 3, E 1, ! 1"), "main");
    let checked = case.check("NO ONE\nNONE", Need::AnyLine);
    assert!(checked.can_be_set());
    assert_eq!(checked.times(), Some(1));
    assert_eq!(
        checked.letters,
        [needed("E", 1, 1), needed("N", 2, 2), needed("O", 2, 3)]
    );
    assert_eq!((checked.gaps, checked.spaces), (1, None));
    let checked = case.check("NO ONE\nNONE", Need::AllLines);
    let short: Vec<&Needed> = checked.short().collect();
    assert_eq!(short, [&needed("E", 2, 1), &needed("N", 4, 2)]);
    assert_eq!(short[1].short(), 2);
    assert_eq!(checked.times(), Some(0));
    let other = case.check("ÖÖ", Need::AllLines);
    assert_eq!(other.letters, [needed("Ö", 2, 0)]);
    let other = Case::of(&with("N 2"), "another face");
    assert!(!other.check("N", Need::AllLines).can_be_set());
    assert_eq!(case.check("", Need::AllLines), Checked::default());
    assert_eq!(case.check("", Need::AllLines).times(), None);
}

#[test]
fn ligatures_serve_as_long_as_there_are_any() {
    let case = Case::of(&with("ffi 1, fi 1, f 3, i 2, o 2, c 1, e 3"), "main");
    let checked = case.check("office fief", Need::AllLines);
    assert!(checked.can_be_set(), "{checked:?}");
    let of = |what: &str| checked.letters.iter().find(|one| one.what == what);
    assert_eq!(of("ffi"), Some(&needed("ffi", 1, 1)));
    assert_eq!(of("fi"), Some(&needed("fi", 1, 1)));
    assert_eq!(of("f"), Some(&needed("f", 1, 3)));
    assert_eq!(of("i"), None);
    // The second office has to do with f, fi again: no ligature is left.
    let checked = case.check("office office", Need::AllLines);
    let of = |what: &str| checked.letters.iter().find(|one| one.what == what);
    assert_eq!(of("ffi"), Some(&needed("ffi", 1, 1)));
    assert_eq!(of("fi"), Some(&needed("fi", 1, 1)));
    assert_eq!(of("f"), Some(&needed("f", 1, 3)));
}

#[test]
fn several_sorts_that_print_the_same_are_counted_together() {
    let mut commission = with("A 1, /ampersand.alt 4");
    let styled = GlyphChoice::Character {
        character: 'A',
        features: vec!["ss01".to_owned()],
    };
    commission.bill.push(of(styled, 2));
    let checked = Case::of(&commission, "main").check("AAA", Need::AllLines);
    assert_eq!(checked.letters, [needed("A", 3, 3)]);
    assert_eq!(checked.unread, 4);
}

#[test]
fn spaces_between_words_are_counted_where_the_fount_has_any() {
    let mut commission = with("A 3");
    let space = |points, count| SpaceLine {
        set: Length::points_of(points, System::Pica),
        count,
    };
    // On a body of 120 points, 40 serve between words, and 120 do not.
    commission.spaces = vec![space(40.0, 1), space(120.0, 9)];
    let checked = Case::of(&commission, "main").check("A A A", Need::AllLines);
    assert_eq!((checked.gaps, checked.spaces), (2, Some(1)));
    assert_eq!(checked.short_of_spaces(), 1);
    assert!(checked.can_be_set());
}

/// # Source
/// A. A. Stewart, *Typesetting*, 1919, p. 18: widths in points of spaces on bodies of 8 to 18 points. They are printed to whole or
/// half points, not always the nearest; none lies further than half a point from the share of the body.
#[test]
fn spaces_are_as_wide_as_printed_ones_within_half_a_point() {
    use SpaceKind::{Em, En, Fifth, Quarter, Sixth, Third};
    let printed = [
        (8.0, [1.0, 1.5, 2.0, 3.0, 4.0, 8.0]),
        (10.0, [1.5, 2.0, 2.5, 3.0, 5.0, 10.0]),
        (12.0, [2.0, 2.5, 3.0, 4.0, 6.0, 12.0]),
        (14.0, [2.0, 3.0, 4.0, 5.0, 7.0, 14.0]),
        (18.0, [3.0, 4.0, 4.0, 6.0, 9.0, 18.0]),
    ];
    for (body, widths) in printed {
        for (kind, width) in [Sixth, Fifth, Quarter, Third, En, Em]
            .into_iter()
            .zip(widths)
        {
            let set = kind.set_pt(body, 0.5);
            assert!(
                (set - width).abs() <= 0.5,
                "{} on {body}: {set}",
                kind.name()
            );
        }
    }
    // Common bodies of wood letter come out whole.
    assert_eq!(
        SpaceKind::ALL.map(|kind| kind.set_pt(120.0, 1.0)),
        [120.0, 60.0, 40.0, 30.0, 24.0, 20.0]
    );
    assert_eq!(Fifth.set_pt(48.0, 6.0), 12.0);
    assert_eq!(Sixth.set_pt(6.0, 6.0), 6.0);
}

fn drawn(commission: &Commission) -> Vec<Sort> {
    let (_, fonts) = order("", 10.0, &[]);
    draw_up(commission, &fonts, &Progress::new())
        .expect("drawn up")
        .sorts
}

/// Every line comes to the measure exactly: letters, spaces, quads and material, in points.
#[test]
fn lines_are_filled_out_to_the_measure() {
    for rounding in [
        SetRounding::SixPoints,
        SetRounding::Point,
        SetRounding::HalfPoint,
        SetRounding::QuarterPoint,
    ] {
        let text = "NO MAN IS\nAN ISLAND\nNAMES";
        let mut commission = with("N 9, O 9, M 9, A 9, I 9, S 9, L 9, D 9, E 9");
        commission.block.rounding = rounding;
        let sorts = drawn(&commission);
        let sorts: Vec<&Sort> = sorts.iter().collect();
        let spacing = for_text(&sorts, &commission, text, Need::AllLines, None);
        assert_eq!(spacing.lines.len(), 3);
        assert!((spacing.measure_pt / 12.0).fract() < 1e-9);
        let unit = unit_pt(&commission.block);
        let mut spaces = 0;
        for line in &spacing.lines {
            assert!(line.missing.is_empty());
            let (between, gaps) = line.between;
            let quads = line.quads.iter().map(|kind| kind.set_pt(120.0, unit));
            let material = line
                .material
                .iter()
                .map(|piece| f64::from(piece.quarters) / 4.0);
            let all = line.letters_pt
                + f64::from(gaps) * between.set_pt(120.0, unit)
                + quads.sum::<f64>()
                + material.sum::<f64>();
            assert!(
                (all + line.left_pt - spacing.measure_pt).abs() < 1e-6
                    && (0.0..1.0).contains(&line.left_pt),
                "{rounding:?} {line:?}"
            );
            if matches!(rounding, SetRounding::SixPoints | SetRounding::Point) {
                assert_eq!(line.left_pt, 0.0, "{line:?}");
            }
            spaces += gaps as usize + line.quads.len();
        }
        let ordered: u32 = spacing.spaces.iter().map(|line| line.count).sum();
        assert_eq!(ordered as usize, spaces);
    }
}

#[test]
fn lines_that_do_not_fit_are_told() {
    let commission = with("N 9, O 9");
    let sorts = drawn(&commission);
    let sorts: Vec<&Sort> = sorts.iter().collect();
    let narrow = Some(Length::points_of(100.0, System::Pica));
    let spacing = for_text(&sorts, &commission, "NO ON\n\nX", Need::AllLines, narrow);
    assert!(spacing.lines[0].left_pt < 0.0);
    assert_eq!(spacing.lines[0].between, (SpaceKind::Sixth, 1));
    assert_eq!(spacing.lines[1].missing, ["X"]);
    // 100 points without a letter: 60 and 40.
    assert_eq!(spacing.lines[1].quads, [SpaceKind::En, SpaceKind::Third]);
    let one_at_a_time = for_text(&sorts, &commission, "N N\nO O", Need::AnyLine, None);
    let both = for_text(&sorts, &commission, "N N\nO O", Need::AllLines, None);
    let total = |spacing: &Spacing| spacing.spaces.iter().map(|line| line.count).sum::<u32>();
    assert!(total(&one_at_a_time) < total(&both));
    assert!(
        for_text(&sorts, &commission, "", Need::AllLines, None)
            .spaces
            .is_empty()
    );
}

/// # Source
/// T. MacKellar, *The American Printer*, 1893: the spaces beside 800 lb of pica.
#[test]
fn a_fount_has_spaces_in_the_proportion_of_a_book_fount() {
    let mut commission = with("A 1");
    let book = Proportions::BookFount.table();
    let letters = [book.capitals.weights(), book.lower_case.weights()].concat();
    commission.bill = letters
        .iter()
        .map(|(letters, count)| line_of("main", letters, *count))
        .collect();
    let counts: Vec<u32> = for_fount(&commission)
        .iter()
        .map(|line| line.count)
        .collect();
    // More than one commission may hold of the commonest.
    assert_eq!(counts, [3_000, 8_000, 10_000, 10_000, 5_000, 2_500]);
    commission.bill.truncate(1);
    commission.bill[0].count = 3;
    assert!(for_fount(&commission).iter().all(|line| line.count == 1));
}
