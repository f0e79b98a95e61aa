//! Letters cut apart and borders: what is written, what is left out, what is refused.

use super::{character, full};
use crate::commission::{
    Border, Commission, CutApart, CutLine, GlyphChoice, LineWay, Measured, MiddlePiece,
};
use crate::format::*;
use crate::measure::{Length, System};

/// A letter lengthened by a middle piece, and a drawing cut into four.
pub(super) fn cuts(system: System) -> Vec<CutApart> {
    let line = |way, at| CutLine {
        way,
        at,
        middle: None,
    };
    vec![
        CutApart {
            face: "roman".to_owned(),
            glyph: character('Q', &["ss01", "salt=2"]),
            lines: vec![CutLine {
                middle: Some(MiddlePiece {
                    length: Length::points_of(24.0, system),
                    count: 2,
                }),
                ..line(LineWay::Upright, Length::mm(12.25))
            }],
            counts: None,
        },
        CutApart {
            face: "leaf".to_owned(),
            glyph: GlyphChoice::Drawing,
            lines: vec![
                line(LineWay::Level, Length::points_of(12.0, system)),
                line(LineWay::Upright, Length::mm(7.0)),
            ],
            counts: Some(vec![4, 20, 0, 1]),
        },
    ]
}

pub(super) fn borders(system: System) -> Vec<Border> {
    let size = [34.0, 52.0].map(|picas| Length::points_of(12.0 * picas, system));
    vec![
        Border::starting("rope", "knot", "rope", size),
        Border {
            corners: ["a", "b", "c", "d"].map(str::to_owned).to_vec(),
            running: vec!["wave".to_owned(), "half wave".to_owned()],
            sides: vec!["reed".to_owned()],
            measured: Measured::Inside,
            count: 3,
            tolerance: Length::mm(0.1),
            ..Border::starting("wave", "a", "wave", size)
        },
    ]
}

fn places(commission: &Commission) -> Vec<String> {
    let faults = commission_faults(commission).into_iter();
    faults.map(|fault| fault.place).collect()
}

#[test]
fn lines_that_cannot_be_are_refused_with_their_place() {
    let mut commission = full(System::Pica);
    assert_eq!(places(&commission), [""; 0]);
    let first = commission.cut_apart[0].clone();
    commission.cut_apart[0].lines.push(CutLine {
        at: Length::mm(12.25),
        ..first.lines[0]
    });
    commission.cut_apart[0].lines.push(CutLine {
        way: LineWay::Level,
        at: Length::mm(0.0),
        middle: None,
    });
    commission.cut_apart[1].counts = Some(vec![1]);
    commission.cut_apart[1].face = "nothing".to_owned();
    commission.cut_apart.push(CutApart {
        lines: Vec::new(),
        ..first
    });
    let wanted = [
        "cut_apart[0].lines[0].middle",
        "cut_apart[0].lines[1]",
        "cut_apart[0].lines[1].middle",
        "cut_apart[0].lines[2]",
        "cut_apart[1].sort.drawing",
        "cut_apart[1].counts",
        "cut_apart[2].sort",
        "cut_apart[2].lines",
    ];
    assert_eq!(places(&commission), wanted);
}

#[test]
fn borders_that_cannot_be_are_refused_with_their_place() {
    let mut commission = full(System::Didot);
    commission.borders[0].corners.clear();
    commission.borders[0].running.clear();
    commission.borders[0].width = Length::mm(-1.0);
    commission.borders[1].id = "rope".to_owned();
    commission.borders[1].sides = vec![String::new()];
    commission.borders[1].count = 0;
    commission.borders[1].tolerance = Length::mm(2.0);
    let wanted = [
        "borders[1].id",
        "borders[0].corners",
        "borders[0].running",
        "borders[0].width",
        "borders[1].sides[0]",
        "borders[1].tolerance",
        "borders[1].count",
    ];
    assert_eq!(places(&commission), wanted);
}

#[test]
fn a_line_lies_one_way_and_orders_nothing() {
    let said = |cut: &str| {
        let text = format!(
            "{{\"format\": \"sortwright-commission\", \"version\": 1, \"lines\": 10, \
             \"faces\": [{{\"file\": \"a.ttf\"}}], \"cut_apart\": [{cut}]}}"
        );
        read_commission(&text).map_err(|error| error.to_string())
    };
    let read = said(
        r#"{"sort": {"character": "E"}, "lines": [{"upright": "20 pt", "middle": "2 picas"}]}"#,
    )
    .expect("read");
    assert_eq!(read.cut_apart[0].face, "main");
    let middle = read.cut_apart[0].lines[0].middle.expect("a middle piece");
    assert_eq!((middle.length, middle.count), (Length::picas(2.0), 1));
    for (cut, word) in [
        (
            r#"{"sort": {"character": "E"}, "lines": [{"upright": 3, "level": 4}]}"#,
            "exactly one",
        ),
        (
            r#"{"sort": {"character": "E"}, "lines": [{"upright": 3, "count": 4}]}"#,
            "no middle",
        ),
        (
            r#"{"sort": {"character": "E", "count": 2}, "lines": [{"upright": 3}]}"#,
            "bill",
        ),
        (r#"{"sort": {}, "lines": [{"upright": 3}]}"#, "exactly one"),
    ] {
        let error = said(cut).expect_err("refused");
        assert!(error.contains(word), "{error}");
    }
}
