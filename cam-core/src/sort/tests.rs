use std::collections::BTreeMap;
use std::sync::Arc;

use epaint_default_fonts::UBUNTU_LIGHT;
use kurbo::Shape;

use super::*;
use crate::commission::{
    BillLine, BlockRules, BodyStep, Commission, Cutting, Direction, Face, Fit, Permission,
    PlankRules, ProgramFiles, Roughing, RoundingShare, Separation, SetRounding, SetRule, SpaceLine,
};
use crate::digest::sha256_hex;
use crate::finding::{Severity, Subject};
use crate::make::Fonts;
use crate::measure::{Length, System};
use crate::progress::Progress;

fn character(character: char, count: u32) -> BillLine {
    BillLine {
        face: "main".to_owned(),
        glyph: GlyphChoice::Character {
            character,
            features: Vec::new(),
        },
        count,
    }
}

/// A 10-line commission of the given letters from one face.
pub(crate) fn commission(letters: &str) -> Commission {
    Commission {
        title: "Test".to_owned(),
        reference: String::new(),
        customer: Vec::new(),
        date: String::new(),
        system: System::Pica,
        lines: 10.0,
        height_to_paper: Length::inches(0.918),
        wood: "hard-maple-end".to_owned(),
        faces: vec![Face {
            id: "main".to_owned(),
            file: "main.ttf".to_owned(),
            sha256: sha256_hex(UBUNTU_LIGHT),
            index: 0,
            variations: BTreeMap::new(),
            permission: Permission {
                by: "the foundry".to_owned(),
                ..Permission::default()
            },
        }],
        drawings: Vec::new(),
        cut_apart: Vec::new(),
        borders: Vec::new(),
        fit: Fit::Capitals {
            head: Length::pica_points(3.0),
            foot: Length::pica_points(3.0),
        },
        block: BlockRules {
            body_step: BodyStep::HalfLine,
            set: SetRule::Advance,
            rounding: SetRounding::Point,
            share: RoundingShare::Even,
            least_side: Length::mm(0.5),
            common_figure_set: false,
        },
        notches: None,
        colours: None,
        bill: letters.chars().map(|letter| character(letter, 1)).collect(),
        spaces: Vec::new(),
        cutting: Cutting {
            cutters: vec!["flat-3".to_owned()],
            tolerance: Length::mm(0.01),
            relief: Length::mm(3.0),
            least_relief: Length::mm(1.0),
            narrow_width: Length::mm(2.0),
            wide_width: Length::mm(8.0),
            roughing: Roughing::Quicker,
            allowance: Length::mm(0.2),
            corner_tolerance: Length::mm(0.15),
            direction: Direction::Climb,
            least_stroke: Length::mm(0.8),
            files: ProgramFiles::PerCutter,
        },
        planks: PlankRules {
            width: Length::mm(300.0),
            length: Length::mm(150.0),
            margin: Length::mm(5.0),
            lane: Length::mm(6.4),
            separation: Separation::Saw,
            ..PlankRules::starting()
        },
        replaces: None,
    }
}

fn fonts() -> Fonts {
    BTreeMap::from([("main".to_owned(), Arc::from(UBUNTU_LIGHT))])
}

fn drawn(commission: &Commission) -> DrawnUp {
    draw_up(commission, &fonts(), &Progress::new()).expect("drawn up")
}

fn kinds(drawn: &DrawnUp) -> Vec<(&str, Severity)> {
    drawn
        .findings
        .iter()
        .map(|finding| (finding.kind, finding.severity))
        .collect()
}

#[track_caller]
fn assert_near(found: f64, wanted: f64, tolerance: f64) {
    assert!(
        (found - wanted).abs() <= tolerance,
        "{found} found, {wanted} wanted"
    );
}

#[test]
fn capitals_fill_the_body_less_the_shoulders() {
    let drawn = drawn(&commission("H"));
    let sort = &drawn.sorts[0];
    assert_near(sort.block.body_mm, 42.175_176, 1e-6);
    let bounds = sort.face.bounding_box().expect("an H is drawn");
    let shoulder = 3.0 * 0.351_459_8;
    // The font states its capitals to a unit of its em, which is 0.06 mm here.
    assert_near(bounds.y0, shoulder, 0.07);
    assert_near(bounds.y1, sort.block.body_mm - shoulder, 0.07);
    assert_near(sort.block.baseline_mm, shoulder, 1e-6);
    assert_eq!(drawn.findings, []);
}

#[test]
fn all_sorts_share_one_scale_and_one_base_line() {
    let drawn = drawn(&commission("HxgÉ"));
    let em = |sort: &Sort| sort.source.as_ref().expect("a letter").face_from_em;
    for sort in &drawn.sorts {
        let affine = em(sort).as_coeffs();
        assert_near(affine[0], -em(&drawn.sorts[0]).as_coeffs()[3], 1e-15);
        let foot = sort.block.extended_pt[0] * 0.351_459_8;
        assert_near(
            sort.block.baseline_mm - foot,
            drawn.sorts[0].block.baseline_mm,
            1e-6,
        );
        assert_near(affine[5], sort.block.baseline_mm, 1e-12);
    }
}

#[test]
fn what_hangs_out_gets_a_larger_body_in_whole_steps() {
    for (step, whole) in [(BodyStep::HalfLine, 6.0), (BodyStep::Line, 12.0)] {
        let mut commission = commission("HgÉ");
        commission.block.body_step = step;
        let drawn = drawn(&commission);
        let [capital, descender, accent] = &drawn.sorts[..] else {
            panic!("three sorts")
        };
        assert_eq!(capital.block.extended_pt, [0.0, 0.0]);
        assert_eq!(descender.block.extended_pt[1], 0.0);
        assert_eq!(accent.block.extended_pt[0], 0.0);
        for (sort, end) in [(descender, 0), (accent, 1)] {
            let extended = sort.block.extended_pt[end];
            assert!(extended > 0.0 && extended % whole == 0.0, "{extended}");
            let plain = capital.block.body_mm;
            assert_near(sort.block.body_mm - plain, extended * 0.351_459_8, 1e-6);
            let bounds = sort.face.bounding_box().expect("drawn");
            assert!(bounds.y0 >= 0.0 && bounds.y1 <= sort.block.body_mm);
            // One step less would not do.
            let spare = if end == 0 {
                bounds.y0
            } else {
                sort.block.body_mm - bounds.y1
            };
            assert!(spare < whole * 0.351_459_8, "{} spare", spare);
        }
    }
}

#[test]
fn sets_are_rounded_up_and_the_rounding_is_shared() {
    let set_of = |rounding, share| {
        let mut commission = commission("E");
        commission.block.rounding = rounding;
        commission.block.share = share;
        let sort = drawn(&commission).sorts.remove(0);
        let bounds = sort.face.bounding_box().expect("drawn");
        // In face space left and right are turned about.
        (sort.block.set_mm, sort.block.set_mm - bounds.x1, bounds.x0)
    };
    let (free, left, right) = set_of(SetRounding::Free, RoundingShare::Even);
    for (rounding, unit_pt) in [
        (SetRounding::SixPoints, 6.0),
        (SetRounding::ThreePoints, 3.0),
        (SetRounding::Point, 1.0),
        (SetRounding::HalfPoint, 0.5),
        (SetRounding::QuarterPoint, 0.25),
    ] {
        let (set, even_left, even_right) = set_of(rounding, RoundingShare::Even);
        let units = set / (unit_pt * 0.351_459_8);
        assert_near(units, units.round(), 1e-6);
        let more = set - free;
        assert!((0.0..unit_pt * 0.351_459_8).contains(&more), "{more}");
        assert_near(even_left, left + more / 2.0, 2e-4);
        assert_near(even_right, right + more / 2.0, 2e-4);
        let (_, all_left, right_kept) = set_of(rounding, RoundingShare::Left);
        assert_near(all_left, left + more, 2e-4);
        assert_near(right_kept, right, 2e-4);
        let (_, left_kept, all_right) = set_of(rounding, RoundingShare::Right);
        assert_near(left_kept, left, 2e-4);
        assert_near(all_right, right + more, 2e-4);
    }
}

#[test]
fn the_face_is_mirrored_once_and_keeps_its_area() {
    let sort = drawn(&commission("F")).sorts.remove(0);
    let affine = sort.source.as_ref().expect("a letter").face_from_em;
    assert!(affine.determinant() < 0.0);
    // The stem of F stands at the right when the type is looked at.
    let middle = sort.block.set_mm / 2.0;
    let stem = Point::new(
        sort.face.bounding_box().expect("drawn").x1 - 0.5,
        sort.block.baseline_mm + 5.0,
    );
    assert!(stem.x > middle);
    assert!(sort.outline.winding(stem) != 0);
    let area: f64 = sort.outline.area().abs();
    assert_near(sort.face.area(), area, 0.05);
}

#[test]
fn a_face_that_would_overhang_gets_a_wider_block_and_is_said() {
    let mut commission = commission("j");
    commission.block.least_side = Length::mm(0.0);
    let drawn = drawn(&commission);
    let sort = &drawn.sorts[0];
    let bounds = sort.face.bounding_box().expect("drawn");
    assert!(bounds.x0 >= -1e-9 && bounds.x1 <= sort.block.set_mm + 1e-9);
    assert!(
        kinds(&drawn).contains(&("face-overhangs-block", Severity::Warning)),
        "{:?}",
        drawn.findings
    );
}

#[test]
fn the_least_side_is_kept() {
    let mut commission = commission("AVjfMW");
    commission.block.least_side = Length::mm(1.5);
    commission.block.rounding = SetRounding::Free;
    for sort in drawn(&commission).sorts {
        let bounds = sort.face.bounding_box().expect("drawn");
        assert!(bounds.x0 >= 1.5 - 2e-4, "{}: {}", sort.name, bounds.x0);
        assert!(sort.block.set_mm - bounds.x1 >= 1.5 - 2e-4, "{}", sort.name);
    }
}

#[test]
fn margins_to_the_face_down_to_none() {
    let mut commission = commission("O");
    commission.block.set = SetRule::FaceAndMargin(Length::mm(0.0));
    commission.block.rounding = SetRounding::Free;
    commission.block.least_side = Length::mm(0.0);
    let drawn = drawn(&commission);
    let sort = &drawn.sorts[0];
    let bounds = sort.face.bounding_box().expect("drawn");
    assert_near(bounds.width(), sort.block.set_mm, 2e-3);
    assert_eq!(drawn.findings, []);
}

#[test]
fn a_letter_that_hangs_out_by_a_hair_is_said() {
    let mut commission = commission("O");
    commission.fit = Fit::Capitals {
        head: Length::mm(0.0),
        foot: Length::mm(0.0),
    };
    let drawn = drawn(&commission);
    assert_eq!(drawn.sorts[0].block.extended_pt, [6.0, 6.0]);
    assert_eq!(
        kinds(&drawn),
        [("body-grown-for-little", Severity::Warning); 2]
    );
}

#[test]
fn the_other_fits() {
    let fitted = |fit, letter: &str| {
        let mut commission = commission(letter);
        commission.fit = fit;
        drawn(&commission).sorts.remove(0)
    };
    let small = Length::mm(0.5);
    let whole = Fit::AscenderToDescender {
        head: small,
        foot: small,
    };
    let descender = fitted(whole, "gjpqy");
    assert_eq!(descender.block.extended_pt, [0.0, 0.0]);
    let tallest = fitted(whole, "l").face.bounding_box().expect("drawn");
    assert!(
        tallest.y1 <= 42.175_176 - 0.5 + 0.1 && tallest.y1 > 40.0,
        "{tallest:?}"
    );

    let em = fitted(Fit::EmOnBody, "H");
    assert_near(
        -em.source
            .as_ref()
            .expect("a letter")
            .face_from_em
            .as_coeffs()[0]
            * 1000.0,
        42.175_176,
        1e-6,
    );
    let stated = Fit::CapitalHeight {
        capitals: Length::mm(20.0),
        foot: Length::mm(4.0),
    };
    let stated = fitted(stated, "H").face.bounding_box().expect("drawn");
    assert_near(stated.height(), 20.0, 0.05);
    assert_near(stated.y0, 4.0, 1e-3);
}

#[test]
fn figures_get_one_set_when_asked() {
    let mut commission = commission("0123456789A");
    commission.block.common_figure_set = true;
    commission.block.set = SetRule::FaceAndMargin(Length::mm(1.0));
    let sorts = drawn(&commission).sorts;
    let widest = sorts[..10]
        .iter()
        .map(|sort| sort.block.set_mm)
        .fold(0.0, f64::max);
    for figure in &sorts[..10] {
        assert_near(figure.block.set_mm, widest, 1e-9);
        let bounds = figure.face.bounding_box().expect("drawn");
        assert_near(bounds.x0, figure.block.set_mm - bounds.x1, 0.36);
    }
    assert!((sorts[10].block.set_mm - widest).abs() > 1.0);
}

#[test]
fn spaces_are_plain_blocks_of_the_body() {
    let mut commission = commission("");
    let em = Length::pica_points(120.0);
    commission.spaces = vec![
        SpaceLine { set: em, count: 2 },
        SpaceLine {
            set: Length::pica_points(30.0),
            count: 5,
        },
        SpaceLine { set: em, count: 1 },
        SpaceLine {
            set: Length::mm(-1.0),
            count: 1,
        },
    ];
    let drawn = drawn(&commission);
    let names: Vec<_> = drawn
        .sorts
        .iter()
        .map(|sort| (sort.name.as_str(), sort.count))
        .collect();
    assert_eq!(names, [("space 120 pt", 3), ("space 30 pt", 5)]);
    assert!(
        drawn
            .sorts
            .iter()
            .all(|sort| sort.block.plain && sort.source.is_none())
    );
    assert_near(
        drawn.sorts[0].block.set_mm,
        drawn.sorts[0].block.body_mm,
        1e-9,
    );
    assert_eq!(kinds(&drawn), [("space-without-width", Severity::Stop)]);
}

#[test]
fn equal_glyphs_merge_and_names_stay_unique() {
    let mut commission = commission("AB");
    commission.bill.push(character('A', 3));
    commission.bill.push(BillLine {
        face: "main".to_owned(),
        glyph: GlyphChoice::Name("A".to_owned()),
        count: 2,
    });
    commission.bill.push(character('C', 0));
    let drawn = drawn(&commission);
    let counts: Vec<_> = drawn
        .sorts
        .iter()
        .map(|sort| (sort.name.as_str(), sort.count))
        .collect();
    assert_eq!(counts, [("A", 6), ("B", 1)]);
}

#[test]
fn one_bad_letter_never_loses_the_others() {
    let mut commission = commission("A\u{4E00} B");
    let more = |glyph| BillLine {
        face: "main".to_owned(),
        glyph,
        count: 1,
    };
    commission
        .bill
        .push(more(GlyphChoice::Name("nonesuch".to_owned())));
    commission.bill.push(more(GlyphChoice::Index(70_000)));
    commission.bill.push(more(GlyphChoice::Character {
        character: 'C',
        features: vec!["ss07".to_owned()],
    }));
    commission.bill.push(more(GlyphChoice::Ligature {
        text: "xq".to_owned(),
        features: vec!["liga".to_owned()],
    }));
    commission.bill.push(more(GlyphChoice::Ligature {
        text: "fi".to_owned(),
        features: vec!["liga".to_owned()],
    }));
    let mut elsewhere = character('D', 1);
    elsewhere.face = "other".to_owned();
    commission.bill.push(elsewhere);
    let drawn = drawn(&commission);
    let names: Vec<_> = drawn.sorts.iter().map(|sort| sort.name.as_str()).collect();
    assert_eq!(names, ["A", "B", "fi"]);
    let mut found = kinds(&drawn);
    found.sort_unstable();
    assert_eq!(
        found,
        [
            ("face-unknown", Severity::Stop),
            ("feature-without-effect", Severity::Stop),
            ("glyph-missing", Severity::Stop),
            ("glyph-missing", Severity::Stop),
            ("glyph-missing", Severity::Stop),
            ("ligature-missing", Severity::Stop),
            ("nothing-drawn", Severity::Stop),
        ]
    );
    assert!(
        drawn
            .findings
            .iter()
            .any(|finding| finding.text.contains("U+4E00"))
    );
}

#[test]
fn a_changed_font_is_said_and_a_missing_permission_too() {
    let mut commission = commission("A");
    commission.faces[0].sha256 = "0".repeat(64);
    assert_eq!(
        kinds(&drawn(&commission)),
        [("font-changed", Severity::Stop)]
    );
    commission.faces[0].sha256.clear();
    assert_eq!(
        kinds(&drawn(&commission)),
        [("font-not-recorded", Severity::Note)]
    );
    commission.faces[0].sha256 = sha256_hex(UBUNTU_LIGHT).to_uppercase();
    commission.faces[0].permission = Permission::default();
    let drawn = drawn(&commission);
    assert_eq!(
        kinds(&drawn),
        [("permission-not-recorded", Severity::Warning)]
    );
    assert_eq!(drawn.findings[0].subject, Subject::Face("main".to_owned()));
    assert!(
        drawn.findings[0].text.contains("Copyright"),
        "{}",
        drawn.findings[0].text
    );
}

#[test]
fn trouble_with_the_first_face_is_an_error_and_with_another_a_finding() {
    let mut two = commission("A");
    let mut second = two.faces[0].clone();
    second.id = "second".to_owned();
    two.faces.push(second);
    let mut line = character('A', 1);
    line.face = "second".to_owned();
    two.bill.push(line);
    let mut files = fonts();
    let drawn_two = draw_up(&two, &files, &Progress::new()).expect("the first is there");
    assert_eq!(kinds(&drawn_two), [("font-unusable", Severity::Stop)]);
    assert_eq!(drawn_two.sorts.len(), 1);

    files.insert("second".to_owned(), Arc::from(UBUNTU_LIGHT));
    let drawn_two = draw_up(&two, &files, &Progress::new()).expect("both are there");
    let names: Vec<_> = drawn_two
        .sorts
        .iter()
        .map(|sort| sort.name.as_str())
        .collect();
    assert_eq!(names, ["A", "A (second)"]);

    files.insert("main".to_owned(), Arc::from(&b"%PDF-1.7"[..]));
    let error = draw_up(&two, &files, &Progress::new())
        .expect_err("no font")
        .to_string();
    assert!(
        error.contains("main.ttf") && error.contains("PDF"),
        "{error}"
    );
    files.clear();
    assert!(matches!(
        draw_up(&two, &files, &Progress::new()),
        Err(SortError::NoFont { .. })
    ));
}

#[test]
fn impossible_orders_are_refused_in_a_sentence() {
    let refused = |commission: &Commission| {
        draw_up(commission, &fonts(), &Progress::new()).expect_err("refused")
    };
    assert_eq!(refused(&commission("")), SortError::NothingOrdered);
    for lines in [0.0, -4.0, f64::NAN, f64::INFINITY] {
        let mut sized = commission("A");
        sized.lines = lines;
        assert!(matches!(refused(&sized), SortError::Size(_)));
    }
    let mut shoulders = commission("A");
    shoulders.fit = Fit::Capitals {
        head: Length::mm(30.0),
        foot: Length::mm(30.0),
    };
    assert!(matches!(refused(&shoulders), SortError::NoRoom(_)));
    let progress = Progress::new();
    progress.stop();
    assert_eq!(
        draw_up(&commission("A"), &fonts(), &progress).map(|drawn| drawn.sorts.len()),
        Err(SortError::Stopped(Stopped))
    );
}

#[test]
fn the_same_commission_gives_the_same_sorts() {
    let commission = commission("ABCDEFGHIJKLMNOPQRSTUVWXYZ");
    let print = |drawn: DrawnUp| format!("{drawn:?}");
    assert_eq!(print(drawn(&commission)), print(drawn(&commission)));
}
