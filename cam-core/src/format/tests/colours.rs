//! Letters in colours: what is written reads back, what cannot be is refused with its place.

use super::full;
use crate::commission::{ColourRules, Plate, PlateCount, PlateSource};
use crate::format::*;
use crate::measure::{Length, System};

fn plate(name: &str, source: PlateSource) -> Plate {
    Plate {
        name: name.to_owned(),
        ink: "red".to_owned(),
        source,
        overprinted: false,
    }
}

fn every_plate() -> Vec<Plate> {
    let system = System::Didot;
    vec![
        plate(
            "shadow",
            PlateSource::Shadow {
                angle_deg: -45.0,
                length: Length::points_of(6.0, system),
                gap: Length::mm(0.4),
            },
        ),
        plate(
            "edge",
            PlateSource::Outline {
                gap: Length::mm(0.5),
                width: Length::points_of(2.0, system),
            },
        ),
        Plate {
            overprinted: true,
            ink: "#c0a040".to_owned(),
            ..plate("body", PlateSource::Letter)
        },
        plate("second", PlateSource::Face("inline".to_owned())),
        plate("third", PlateSource::FontColour("#00a0ff".to_owned())),
        plate(
            "line",
            PlateSource::Inline {
                inset: Length::mm(1.0),
                width: Some(Length::mm(0.8)),
            },
        ),
        plate(
            "core",
            PlateSource::Inline {
                inset: Length::mm(2.0),
                width: None,
            },
        ),
    ]
}

#[test]
fn every_kind_of_plate_reads_back_the_same_and_there_are_none_unless_asked_for() {
    let mut commission = full(System::Didot);
    assert!(!write_commission(&commission).contains("colours"));
    commission.drawings[0].layer = None;
    commission.colours = Some(ColourRules {
        faces: vec!["roman".to_owned()],
        plates: every_plate(),
        drawings: vec![commission.drawings[0].id.clone()],
        palette: 1,
        cut: vec!["body".to_owned()],
        counts: vec![PlateCount {
            letter: "A".to_owned(),
            plate: "body".to_owned(),
            count: 2,
        }],
        trap: Length::mm(0.3),
        misregister: Length::mm(0.15),
    });
    let text = write_commission(&commission);
    assert_eq!(read_commission(&text).as_ref(), Ok(&commission), "{text}");
    commission.colours = Some(ColourRules::starting());
    let text = write_commission(&commission);
    assert_eq!(read_commission(&text).as_ref(), Ok(&commission), "{text}");
}

#[test]
fn plates_that_cannot_be_are_refused_with_their_place() {
    let check = |change: &dyn Fn(&mut ColourRules), place: &str| {
        let mut commission = full(System::Pica);
        let mut rules = ColourRules {
            plates: every_plate(),
            ..ColourRules::starting()
        };
        change(&mut rules);
        commission.colours = Some(rules);
        let faults = commission_faults(&commission);
        let places: Vec<&str> = faults.iter().map(|fault| fault.place.as_str()).collect();
        assert_eq!(places, [place]);
    };
    let long = || Length::mm(200.0);
    check(
        &|rules| rules.faces = vec!["none".to_owned()],
        "colours.faces[0]",
    );
    check(
        &|rules| rules.plates[0].name = String::new(),
        "colours.plates[0].name",
    );
    check(
        &|rules| rules.plates[1].name = "shadow".to_owned(),
        "colours.plates[1].name",
    );
    check(
        &|rules| rules.plates[1].name = "a (b)".to_owned(),
        "colours.plates[1].name",
    );
    check(
        &|rules| rules.plates[2].ink = "reddish".to_owned(),
        "colours.plates[2].ink",
    );
    check(
        &|rules| rules.plates[3].source = PlateSource::Face("none".to_owned()),
        "colours.plates[3].face",
    );
    check(
        &|rules| rules.plates[4].source = PlateSource::FontColour("red".to_owned()),
        "colours.plates[4].colour",
    );
    check(
        &|rules| {
            rules.plates[5].source = PlateSource::Inline {
                inset: long(),
                width: None,
            };
        },
        "colours.plates[5].inset",
    );
    check(
        &|rules| {
            rules.plates[1].source = PlateSource::Outline {
                gap: Length::mm(0.0),
                width: Length::mm(0.0),
            };
        },
        "colours.plates[1].width",
    );
    check(
        &|rules| {
            rules.plates[0].source = PlateSource::Shadow {
                angle_deg: f64::NAN,
                length: Length::mm(2.0),
                gap: Length::mm(0.0),
            };
        },
        "colours.plates[0].angle_deg",
    );
    check(&|rules| rules.trap = long(), "colours.trap");
    check(&|rules| rules.misregister = long(), "colours.misregister");
    check(
        &|rules| rules.cut = vec!["none".to_owned()],
        "colours.cut[0]",
    );
    check(
        &|rules| rules.drawings = vec!["none".to_owned()],
        "colours.drawings[0]",
    );
    let counted = |plate: &str, count| {
        vec![PlateCount {
            letter: "A".to_owned(),
            plate: plate.to_owned(),
            count,
        }]
    };
    check(
        &|rules| rules.counts = counted("none", 1),
        "colours.counts[0].plate",
    );
    check(
        &|rules| rules.counts = counted("body", 1_000_000),
        "colours.counts[0].count",
    );
}

#[test]
fn keys_that_a_plate_needs_or_does_not_use_are_told() {
    let check = |plate: &str, place: &str| {
        let text = format!(
            r#"{{"format": "sortwright-commission", "version": 1, "lines": 8, "faces": [{{"file": "a.ttf"}}],
            "colours": {{"plates": [{{"name": "one", "ink": "red", {plate}}}]}}}}"#
        );
        let said = read_commission(&text).expect_err(plate).to_string();
        assert!(
            said.contains(&format!("colours.plates[0].{place}:")),
            "{said}"
        );
    };
    check(r#""from": "shadow", "length": "3 pt""#, "angle_deg");
    check(r#""from": "shadow", "angle_deg": 10"#, "length");
    check(r#""from": "outline""#, "width");
    check(r#""from": "inline""#, "inset");
    check(r#""from": "face""#, "face");
    check(r#""from": "font-colour""#, "colour");
    check(r#""from": "letter", "gap": 1"#, "gap");
    check(
        r#""from": "inline", "inset": 1, "angle_deg": 1"#,
        "angle_deg",
    );
}
