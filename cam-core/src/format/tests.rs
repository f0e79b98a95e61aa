mod colours;
mod found;
mod pieces;
mod settings;
mod wood;

use std::collections::BTreeMap;

use super::*;
use crate::commission::*;
use crate::measure::{Length, System};
use crate::workshop::CutterShape;

fn face(id: &str) -> Face {
    Face {
        id: id.to_owned(),
        file: format!("fonts/{id}.otf"),
        sha256: "ab".repeat(32),
        index: 1,
        variations: BTreeMap::from([("wght".to_owned(), 712.5)]),
        permission: Permission {
            by: "the foundry".to_owned(),
            on: "12 May".to_owned(),
            founts: Some(2),
        },
    }
}

fn line(face: &str, glyph: GlyphChoice, count: u32) -> BillLine {
    BillLine {
        face: face.to_owned(),
        glyph,
        count,
    }
}

fn character(character: char, features: &[&str]) -> GlyphChoice {
    GlyphChoice::Character {
        character,
        features: features.iter().map(|&feature| feature.to_owned()).collect(),
    }
}

/// A commission that uses everything.
fn full(system: System) -> Commission {
    let mut commission = Commission::starting("Bills “for” a \\ fair", system, 12.5, face("roman"));
    commission.reference = "Order 7\nurgent".to_owned();
    commission.faces.push(face("inline"));
    commission.cut_apart = pieces::cuts(system);
    commission.borders = pieces::borders(system);
    commission.drawings = vec![
        NamedDrawing::starting("leaf", "leaf.svg"),
        NamedDrawing {
            layer: Some("#b01020".to_owned()),
            extent: Extent::Page,
            size: DrawingSize::Height(Length::points_of(18.0, system)),
            body: Some(Length::points_of(24.0, system)),
            foot: Some(Length::mm(0.5)),
            set: Some(Length::points_of(24.0, system)),
            left: Some(Length::points_of(2.0, system)),
            side: Some(Length::mm(0.0)),
            join_gap: Length::mm(0.1),
            sha256: "ab".repeat(32),
            ..NamedDrawing::starting("corner", "art/corner.dxf")
        },
        NamedDrawing {
            size: DrawingSize::Width(Length::mm(12.5)),
            ..NamedDrawing::starting("rule", "rule.svg")
        },
    ];
    commission.bill = vec![
        line("roman", character('A', &[]), 3),
        line("roman", character(',', &[]), 9),
        line("roman", character('1', &[]), 4),
        line("roman", character('Q', &["ss01", "salt=2"]), 1),
        line(
            "roman",
            GlyphChoice::Ligature {
                text: "ffi".to_owned(),
                features: vec!["liga".to_owned()],
            },
            2,
        ),
        line(
            "roman",
            GlyphChoice::Ligature {
                text: "st".to_owned(),
                features: vec!["dlig".to_owned()],
            },
            2,
        ),
        line("roman", GlyphChoice::Name("ampersand.alt".to_owned()), 1),
        line("roman", GlyphChoice::Index(77), 0),
        line("leaf", GlyphChoice::Drawing, 3),
        line("corner", GlyphChoice::Drawing, 4),
        line("inline", character('A', &[]), 3),
        line("inline", character('B', &[]), 2),
        line("roman", character('"', &[]), 2),
    ];
    commission
        .bill
        .extend(('A'..='Z').map(|letter| line("inline", character(letter, &[]), 12)));
    commission.spaces = vec![SpaceLine {
        set: Length::points_of(30.0, system),
        count: 5,
    }];
    commission
}

#[test]
fn what_is_written_reads_back_the_same() {
    for system in System::ALL {
        let mut commission = full(system);
        let check = |commission: &Commission| {
            let text = write_commission(commission);
            assert_eq!(read_commission(&text).as_ref(), Ok(commission), "{text}");
            assert_eq!(
                write_commission(&read_commission(&text).expect("read")),
                text
            );
        };
        check(&commission);
        for fit in [
            Fit::Capitals {
                head: Length::mm(1.0 / 3.0),
                foot: Length::mm(0.0),
            },
            Fit::AscenderToDescender {
                head: Length::mm(1.0),
                foot: Length::inches(0.01),
            },
            Fit::EmOnBody,
            Fit::CapitalHeight {
                capitals: Length::inches(1.25),
                foot: Length::points_of(6.0, system),
            },
        ] {
            commission.fit = fit;
            check(&commission);
        }
        for rounding in [
            SetRounding::SixPoints,
            SetRounding::ThreePoints,
            SetRounding::Point,
            SetRounding::HalfPoint,
            SetRounding::QuarterPoint,
            SetRounding::Free,
        ] {
            commission.block.rounding = rounding;
            check(&commission);
        }
        commission.block = BlockRules {
            body_step: BodyStep::Line,
            set: SetRule::FaceAndMargin(Length::mm(0.75)),
            rounding: SetRounding::Free,
            share: RoundingShare::Left,
            least_side: Length::mm(0.0),
            common_figure_set: true,
        };
        commission.cutting.direction = Direction::Conventional;
        commission.cutting.files = ProgramFiles::WithPauses;
        for separation in [
            Separation::Saw,
            Separation::Router {
                cutter: "long".to_owned(),
                hold: Hold::Skin(Length::mm(0.4)),
            },
            Separation::Router {
                cutter: "long".to_owned(),
                hold: Hold::starting(),
            },
        ] {
            commission.planks.separation = separation;
            check(&commission);
        }
    }
}

#[test]
fn the_least_that_a_maker_need_write() {
    let read = read_commission(
        r#"{ "format": "sortwright-commission", "version": 1, "lines": 10,
             "faces": [{ "file": "face.ttf" }], "bill": [{ "letters": "A 3, B 2, & 1" }] }"#,
    )
    .expect("read");
    let mut wanted = Commission::starting(
        "",
        System::Pica,
        10.0,
        Face {
            id: "main".to_owned(),
            file: "face.ttf".to_owned(),
            sha256: String::new(),
            index: 0,
            variations: BTreeMap::new(),
            permission: Permission::default(),
        },
    );
    wanted.bill = vec![
        line("main", character('A', &[]), 3),
        line("main", character('B', &[]), 2),
        line("main", character('&', &[]), 1),
    ];
    assert_eq!(read, wanted);
}

#[test]
fn lengths_are_texts_with_units_or_millimetres() {
    let read = read_commission(
        r#"{ "format": "sortwright-commission", "version": 1, "system": "didot", "lines": 10, "height_to_paper": "62 2/3 pt",
             "cutting": { "relief": 2, "least_relief": 0.8, "tolerance": "10 µm" }, "planks": { "separation": { "by": "saw" } } }"#,
    );
    let error = read.expect_err("µm is no unit of ours").to_string();
    assert!(
        error.contains("cutting.tolerance") && error.contains("µm"),
        "{error}"
    );
    let read = read_commission(
        r#"{ "format": "sortwright-commission", "version": 1, "system": "didot", "lines": 10, "height_to_paper": "62 2/3 pt",
             "cutting": { "relief": 2, "least_relief": 0.8 }, "planks": { "separation": { "by": "saw" } } }"#,
    )
    .expect("read");
    assert!((read.height_to_paper.in_mm() - 23.566_74).abs() < 5e-6);
    assert_eq!(read.cutting.relief, Length::mm(2.0));
    assert_eq!(read.planks.lane, Length::mm(4.0));
}

/// A commission file with one piece put in place of another.
fn with(piece: &str, instead: &str) -> String {
    let text = write_commission(&full(System::Pica));
    assert!(text.contains(piece), "{piece} is not in {text}");
    text.replacen(piece, instead, 1)
}

#[track_caller]
fn refused(text: &str, words: &[&str]) {
    let error = read_commission(text).expect_err("refused").to_string();
    for word in words {
        assert!(error.contains(word), "“{word}” is not in: {error}");
    }
}

#[test]
fn errors_name_the_place() {
    refused("", &["Line 1", "EOF"]);
    refused(
        "{ \"format\": \"sortwright-commission\",\n \"version\": 1,\n \"lines\" 10 }",
        &["Line 3, column"],
    );
    refused("[1, 2]", &["not a commission file"]);
    refused("{}", &["format", "missing", "sortwright-commission"]);
    refused(
        r#"{ "format": "sortwright-workshop", "version": 1 }"#,
        &["“sortwright-workshop”", "not a commission file"],
    );
    refused(r#"{ "format": "sortwright-commission" }"#, &["version"]);
    refused(
        r#"{ "format": "sortwright-commission", "version": 2 }"#,
        &["version 2", "newer"],
    );
    refused(
        &with("\"index\": 1", "\"indx\": 1"),
        &["faces[0].indx", "unknown key", "indx"],
    );
    refused(
        &with("\"index\": 1", "\"index\": \"1\""),
        &["faces[0].index", "whole number"],
    );
    refused(
        &with("\"index\": 1", "\"index\": -1"),
        &["faces[0].index", "whole number"],
    );
    refused(
        &with("\"lines\": 12.5", "\"lines\": \"12\""),
        &["lines", "expected a number"],
    );
    refused(&with("\"lines\": 12.5,", ""), &["missing key", "lines"]);
    refused(
        &with("\"system\": \"pica\"", "\"system\": \"metric\""),
        &["system", "metric", "didot-rounded"],
    );
    refused(
        &with("\"relief\": ", "\"releif\": "),
        &["cutting.releif", "unknown key"],
    );
    refused(
        &with("\"width\": \"300 mm\"", "\"width\": true"),
        &["planks.width", "a length such as"],
    );
    refused(
        &with("\"width\": \"300 mm\"", "\"width\": \"300\""),
        &["planks.width", "no unit"],
    );
    refused(
        &with("A 3, \\\",\\\" 9", "A 3, \\\",\\\""),
        &["bill[0].letters", "no count"],
    );
    refused(
        &(write_commission(&full(System::Pica)) + "x"),
        &["trailing characters"],
    );
}

#[test]
fn values_out_of_range_are_told_with_the_range() {
    refused(
        &with("\"lines\": 12.5", "\"lines\": -12.5"),
        &["At lines", "found -12.5", "120"],
    );
    refused(
        &with("\"tolerance\": \"0.01 mm\"", "\"tolerance\": \"0 mm\""),
        &["cutting.tolerance", "0 mm", "0.001 mm"],
    );
    refused(
        &with("\"tolerance\": \"0.01 mm\"", "\"tolerance\": -0.01"),
        &["cutting.tolerance"],
    );
    refused(
        &with(
            "\"height_to_paper\": \"0.918 in\"",
            "\"height_to_paper\": \"0.918 mm\"",
        ),
        &["height_to_paper", "0.918 mm", "10 mm"],
    );
    refused(
        &with("\"least_relief\": \"1 mm\"", "\"least_relief\": \"4 mm\""),
        &["cutting.least_relief", "4 mm", "3 mm"],
    );
    refused(
        &with("\"flat-3\"", "\"flat-6\""),
        &["cutting.cutters[1]", "twice"],
    );
    refused(
        &with("\"id\": \"inline\"", "\"id\": \"roman\""),
        &["faces[1].id", "twice"],
    );
    refused(
        &with("\"sha256\": \"ab", "\"sha256\": \"xb"),
        &["faces[0].sha256"],
    );
    refused(
        &with("\"salt=2\"", "\"salt=0\""),
        &["bill[1].features", "salt=0"].map(|word| {
            if word.starts_with("bill") {
                "features[1]"
            } else {
                word
            }
        }),
    );
    refused(
        &with("\"face\": \"inline\"", "\"face\": \"outline\""),
        &["bill", "outline"],
    );
    refused(
        &with("\"count\": 5", "\"count\": 500000"),
        &["spaces[0].count", "10000"],
    );
    refused(
        &with("\"head\": ", "\"capitals\": \"3 mm\", \"head\": "),
        &["fit.capitals", "take it out"],
    );
    refused(
        &with("\"by\": \"router\"", "\"by\": \"saw\""),
        &["planks.separation.cutter", "saw"],
    );
    refused(
        &with("\"tabs\": {", "\"skin\": \"1 mm\", \"tabs\": {"),
        &["planks.separation", "not by both"],
    );
}

#[test]
fn every_fault_of_a_commission_in_memory_is_listed() {
    let mut commission = full(System::Pica);
    assert_eq!(commission_faults(&commission), []);
    commission.lines = f64::NAN;
    commission.cutting.cutters.clear();
    commission.planks.lane = Length::mm(-1.0);
    let places: Vec<String> = commission_faults(&commission)
        .into_iter()
        .map(|fault| fault.place)
        .collect();
    assert_eq!(places, ["lines", "cutting.cutters", "planks.lane"]);
}

#[test]
fn the_starting_workshop_is_sound_and_reads_back_the_same() {
    let workshop = Workshop::starting();
    assert_eq!(workshop_faults(&workshop), []);
    let text = write_workshop(&workshop);
    assert_eq!(read_workshop(&text).as_ref(), Ok(&workshop), "{text}");
    let starting = Commission::starting("", System::Pica, 10.0, face("main"));
    assert_eq!(commission_faults(&starting), []);
    for cutter in &starting.cutting.cutters {
        let owned = workshop.cutter(cutter).expect("the workshop owns it");
        assert!(owned.max_depth >= starting.cutting.relief, "{cutter}");
    }
    let Separation::Router { cutter, .. } = &starting.planks.separation else {
        panic!("the router cuts the blocks out")
    };
    let long = workshop.cutter(cutter).expect("the workshop owns it");
    assert!(long.max_depth > starting.height_to_paper && long.diameter < starting.planks.lane);
    assert!(workshop.wood(&starting.wood).is_some());
    let cone = workshop.cutter("cone-60").expect("a cone");
    let CutterShape::Conical {
        tip,
        included_angle_deg,
    } = cutter_shape(cone)
    else {
        panic!("conical")
    };
    // The flutes reach where the cone has its full diameter.
    let height =
        (cone.diameter.in_mm() - tip.in_mm()) / 2.0 / (included_angle_deg.to_radians() / 2.0).tan();
    assert!((height - cone.flute_length.in_mm()).abs() < 0.1, "{height}");
}

fn cutter_shape(cutter: &crate::workshop::Cutter) -> CutterShape {
    cutter.shape
}

#[test]
fn workshop_errors_name_the_place() {
    let text = write_workshop(&Workshop::starting());
    let refused = |piece: &str, instead: &str, words: &[&str]| {
        assert!(text.contains(piece), "{piece} is not in {text}");
        let error = read_workshop(&text.replacen(piece, instead, 1))
            .expect_err("refused")
            .to_string();
        for word in words {
            assert!(error.contains(word), "“{word}” is not in: {error}");
        }
    };
    refused(
        "\"max_depth\": \"20 mm\"",
        "\"max_depth\": \"25 mm\"",
        &["cutters[0].max_depth", "25 mm", "the flutes (22 mm)"],
    );
    refused(
        "\"diameter\": \"6 mm\"",
        "\"diameter\": \"-6 mm\"",
        &["cutters[0].diameter", "-6 mm"],
    );
    refused(
        "\"kind\": \"flat\"",
        "\"kind\": \"square\"",
        &["cutters[0].kind", "square"],
    );
    refused(
        "\"kind\": \"conical\"",
        "\"kind\": \"flat\"",
        &["cutters[6].tip_diameter"],
    );
    refused(
        "\"spindle_rpm\": [\n      8000.0",
        "\"spindle_rpm\": [\n      80000.0",
        &["machine.spindle_rpm", "first"],
    );
    refused(
        "\"id\": \"flat-3\"",
        "\"id\": \"flat-6\"",
        &["cutters[2].id", "twice"],
    );
    refused(
        "\"feed_mm_min\": 1800.0,",
        "",
        &["cutters[0]", "missing key", "feed_mm_min"],
    );
    let shortest = r#"{ "id": "f", "kind": "flat", "diameter": 3, "flute_length": 12, "stick_out": 20, "step_down": 1,
        "step_over": 1, "feed_mm_min": 900, "plunge_mm_min": 200, "spindle_rpm": 18000 }"#;
    let mut workshop = Workshop::starting();
    workshop.cutters.clear();
    let text =
        write_workshop(&workshop).replace("\"cutters\": []", &format!("\"cutters\": [{shortest}]"));
    let cutter = read_workshop(&text).expect("read").cutters.remove(0);
    assert_eq!(
        (cutter.max_depth, cutter.flutes, cutter.centre_cutting),
        (Length::mm(12.0), 2, false)
    );
}

#[test]
fn no_text_makes_the_reader_panic() {
    let text = write_commission(&full(System::Pica));
    for end in (0..text.len())
        .step_by(13)
        .filter(|&end| text.is_char_boundary(end))
    {
        assert!(read_commission(&text[..end]).is_err());
    }
}

#[test]
fn what_is_too_much_gets_a_sentence() {
    let said = |json: &str| read_commission(json).unwrap_err().to_string();
    let deep = format!("{{\"format\": {}", "[".repeat(100_000));
    assert!(said(&deep).contains("nested too deeply"), "{}", said(&deep));
    let unknown = format!("{{\"x\": {}1{}}}", "[".repeat(5000), "]".repeat(5000));
    assert!(!said(&unknown).is_empty());
    let long = format!("{{\"title\": \"{}\"}}", "a".repeat(20 * 1024 * 1024));
    assert!(said(&long).contains("too long"), "{}", said(&long));
    let bill = |lines: usize, count: usize| {
        let line = format!("{{\"glyph_index\": 1, \"count\": {count}}}");
        let lines = vec![line; lines].join(",");
        format!(
            "{{\"format\": \"sortwright-commission\", \"version\": 1, \"lines\": 10, \
             \"faces\": [{{\"file\": \"a.ttf\"}}], \"bill\": [{lines}]}}"
        )
    };
    assert!(read_commission(&bill(10, 10_000)).is_ok());
    let blocks = said(&bill(11, 10_000));
    assert!(blocks.contains("110000 blocks"), "{blocks}");
    let lines = said(&bill(10_001, 1));
    assert!(lines.contains("10001 entries"), "{lines}");
}
