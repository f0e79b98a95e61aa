//! Tests of setting in lines.

use super::*;

/// Where the sorts stand, and which they are.
fn stood(sheet: &Sheet) -> Vec<(String, f64, f64)> {
    let sorts = sheet.layers[0].sorts();
    sorts
        .map(|(_, one, at)| (one.name.clone(), at.x, at.y))
        .collect()
}

fn fount() -> Vec<Impression> {
    vec![
        bar("A", 10.0, 20.0, 5.0),
        bar("g", 9.0, 26.0, 11.0),
        bar("fi", 13.0, 20.0, 5.0),
        bar("f", 7.0, 20.0, 5.0),
    ]
}

#[test]
fn block_stands_against_block_on_one_base_line() {
    let sheet = sheet(fount(), &text("Ag\nA"), false);
    // Margins of 0.4 bodies; the first line is 15 above and 11 below the base line, the second 15 and 5.
    assert_eq!(
        (sheet.width_mm, sheet.height_mm),
        (19.0 + 16.0, 46.0 + 16.0)
    );
    assert_eq!(
        stood(&sheet),
        [
            ("A".into(), 8.0, 34.0),
            ("g".into(), 18.0, 28.0),
            ("A".into(), 8.0, 8.0)
        ]
    );
}

#[test]
fn sets_and_spaces_add_up() {
    let mut sorts = fount();
    let plain = sheet(sorts.clone(), &text("A A"), true);
    // No space of the fount: a third of the body, as spacing material.
    assert!((plain.layers[0].lines_mm[0] - (20.0 + 20.0 / 3.0)).abs() < 1e-9);
    assert_eq!(plain.layers[0].set.len(), 3);
    assert_eq!(plain.layers[0].edges().count(), 3);
    sorts.extend([space(5.0), space(8.0), space(20.0), space(2.0)]);
    let set = sheet(sorts, &text("A A\u{2003}A\u{2002}A"), true);
    // The nearest of the fount between words, its quad for the em, material for the en.
    assert_eq!(set.layers[0].lines_mm, [40.0 + 8.0 + 20.0 + 10.0]);
    let names: Vec<String> = stood(&set).into_iter().map(|(name, ..)| name).collect();
    assert_eq!(names, ["A", "space 8", "A", "space 20", "A", "A"]);
}

#[test]
fn leads_and_alignment() {
    let mut setting = text("AA\nA");
    setting.leads_mm = 3.0;
    let xs = |align| {
        let set = sheet(
            fount(),
            &Setting {
                align,
                ..setting.clone()
            },
            true,
        );
        assert_eq!(set.height_mm, 43.0 + 16.0);
        stood(&set)
            .into_iter()
            .map(|(_, x, y)| (x, y))
            .collect::<Vec<_>>()
    };
    assert_eq!(xs(Align::Left), [(8.0, 31.0), (18.0, 31.0), (8.0, 8.0)]);
    assert_eq!(xs(Align::Centre)[2], (13.0, 8.0));
    assert_eq!(xs(Align::Right)[2], (18.0, 8.0));
    setting.measure_mm = Some(50.0);
    let wide = sheet(
        fount(),
        &Setting {
            align: Align::Right,
            ..setting
        },
        true,
    );
    assert_eq!((wide.width_mm, stood(&wide)[2].1), (66.0, 48.0));
    let leads = wide.layers[0]
        .edges()
        .find(|ring| ring[1].x - ring[0].x == 50.0)
        .expect("a lead");
    assert_eq!(leads[2].y - leads[0].y, 3.0);
}

#[test]
fn lines_break_between_words_at_the_measure() {
    let mut setting = text("A A AAA A");
    setting.measure_mm = Some(27.0);
    let set = sheet(fount(), &setting, false);
    let lines = &set.layers[0].lines_mm;
    assert_eq!(lines.len(), 3, "{lines:?}");
    assert_eq!(
        lines[1..],
        [30.0, 10.0],
        "a word too long has a line of its own"
    );
    let unbroken = text("A\u{a0}A");
    let unbroken = Setting {
        measure_mm: Some(12.0),
        ..unbroken
    };
    assert_eq!(sheet(fount(), &unbroken, false).layers[0].lines_mm.len(), 1);
}

#[test]
fn ligatures_names_and_what_is_missing() {
    let set = sheet(fount(), &text("fif{A}{B}?\nAA"), false);
    let names: Vec<String> = stood(&set).into_iter().map(|(name, ..)| name).collect();
    assert_eq!(names, ["fi", "f", "A", "A", "A"]);
    assert_eq!(set.layers[0].missing, ["{", "B", "}", "?"]);
    let remarks = set.remarks();
    assert_eq!(
        remarks,
        [
            "Not on the bill: { B } ?",
            "Set more often than ordered: A (3, of 2)"
        ]
    );
    assert!(sheet(fount(), &text("A"), false).remarks().is_empty());
}

#[test]
fn without_a_text_every_sort_is_set_once() {
    let mut sorts: Vec<Impression> = (0..40)
        .map(|number| bar(&number.to_string(), 10.0, 20.0, 5.0))
        .collect();
    sorts.push(space(5.0));
    let set = sheet(sorts, &text(" "), true);
    assert_eq!(stood(&set).len(), 40);
    assert!(set.layers[0].lines_mm.iter().all(|&width| width <= 180.0));
    assert_eq!(set.layers[0].lines_mm[0], 180.0);
}

#[test]
fn two_founts_stand_on_common_base_lines() {
    let under = in_one_colour(vec![bar("A", 10.0, 20.0, 5.0)]);
    let over = in_one_colour(vec![bar("A", 10.0, 26.0, 11.0)]);
    let set = compose(
        &[(under, BLACK), (over, CREAM)],
        &text("A\nA"),
        CREAM,
        false,
    );
    let base = |layer: usize, number: usize| {
        let (_, one, at) = set.layers[layer].sorts().nth(number).expect("it is set");
        at.y + one.baseline_mm.expect("a letter")
    };
    for number in 0..2 {
        assert!((base(0, number) - base(1, number)).abs() < 1e-9);
    }
    assert!(set.remarks().is_empty());
}
