use std::sync::Arc;

use kurbo::{Affine, BezPath, ParamCurve, Vec2};

use super::*;
use crate::commission::{CutApart, CutLine, LineWay, SetRule};
use crate::finding::{Finding, Severity};
use crate::format::{read_commission, read_record, write_commission, write_record};
use crate::make::tests::{order, programs_of};
use crate::make::{Fonts, drawn_up, work_out_one};
use crate::measure::System;
use crate::pass::SortPasses;
use crate::plank::lay_out;
use crate::progress::Progress;
use crate::sort::{DrawnUp, Sort};
use crate::workshop::Workshop;

/// A fount whose figures share a set, which the widest of them decides.
fn fount() -> (Commission, Fonts) {
    let (mut commission, fonts) = order("A&0123456789g", 6.0, &[]);
    commission.block.common_figure_set = true;
    // The font's figures are of one advance; their faces are not of one width.
    commission.block.set = SetRule::FaceAndMargin(Length::mm(1.0));
    commission.spaces = vec![SpaceLine {
        set: Length::points_of(24.0, System::Pica),
        count: 5,
    }];
    (commission, fonts)
}

fn drawn(commission: &Commission, workshop: &Workshop, fonts: &Fonts) -> DrawnUp {
    drawn_up(commission, workshop, fonts, &Progress::new()).expect("drawn up")
}

fn made() -> (Commission, Fonts, Workshop, DrawnUp, Record) {
    let (commission, fonts) = fount();
    let workshop = Workshop::starting();
    let first = drawn(&commission, &workshop, &fonts);
    let record = Record::of(&commission, &workshop, &first.sorts);
    // As it is on the shelf a year later.
    let record = read_record(&write_record(&record)).expect("a record");
    (commission, fonts, workshop, first, record)
}

fn kinds(drawn: &DrawnUp, severity: Severity) -> Vec<&str> {
    let of = |finding: &&Finding| finding.severity == severity;
    let found = drawn.findings.iter().filter(of);
    found.map(|finding| finding.kind).collect()
}

#[test]
fn sorts_come_out_as_they_did() {
    let (commission, fonts, workshop, first, record) = made();
    let again =
        replacement(&commission, &record, "1 2, & 1, space 24 pt 3, & 1").expect("known sorts");
    // As it is opened from its file.
    let again = read_commission(&write_commission(&again)).expect("a commission");
    let second = drawn(&again, &workshop, &fonts);
    let counts: Vec<(&str, u32)> = second
        .sorts
        .iter()
        .map(|sort| (sort.name.as_str(), sort.count))
        .collect();
    assert_eq!(counts, [("&", 2), ("1", 2), ("space 24 pt", 3)]);
    for sort in &second.sorts {
        let before = first.sorts.iter().find(|before| before.name == sort.name);
        let before = before.expect("it was on the first bill");
        assert_eq!(sort.block, before.block);
        assert_eq!(sort.outline, before.outline);
        assert_eq!(sort.face, before.face);
    }
    assert_eq!(kinds(&second, Severity::Stop), Vec::<&str>::new());
    // Without the others, figure 1 alone would have a set of its own.
    let mut alone = again.clone();
    alone.replaces = None;
    alone
        .bill
        .retain(|line| line.glyph == crate::bill::from_list("main", "1 1").unwrap()[0].glyph);
    let alone = drawn(&alone, &workshop, &fonts);
    assert!(alone.sorts[0].block.set_mm < second.sorts[1].block.set_mm);
}

/// One copy of a sort by itself at a place, and the programs that cut it there.
fn programs_at(
    place: Vec2,
    sort: &Sort,
    commission: &Commission,
    workshop: &Workshop,
) -> Vec<(String, String)> {
    let sort = Arc::new(Sort {
        count: 1,
        ..sort.clone()
    });
    let (_, passes, _) = work_out_one(&sort, commission, workshop).expect("passes");
    let passes: Vec<Arc<Vec<SortPasses>>> = vec![Arc::new(passes)];
    let sorts = [sort];
    let mut planks = lay_out(&sorts, commission, workshop)
        .expect("one plank")
        .planks;
    planks[0].places[0].at = place;
    programs_of(&planks, &sorts, &passes, commission, workshop)
}

/// The bytes of a sort's programs are the same for the same place of a plank.
#[test]
fn programs_are_the_same_for_the_same_place() {
    let (commission, fonts, workshop, first, record) = made();
    let again = replacement(&commission, &record, "1 1, g 1").expect("known sorts");
    let again = read_commission(&write_commission(&again)).expect("a commission");
    let second = drawn(&again, &workshop, &fonts);
    let place = Vec2::new(31.25, 40.5);
    for sort in &second.sorts {
        let before = first.sorts.iter().find(|before| before.name == sort.name);
        let before = programs_at(place, before.expect("known"), &commission, &workshop);
        let after = programs_at(place, sort, &again, &workshop);
        assert!(before.len() > 1 && before.iter().all(|(_, text)| text.len() > 100));
        assert_eq!(before, after, "{}", sort.name);
    }
    let elsewhere = programs_at(Vec2::new(31.5, 40.5), &second.sorts[0], &again, &workshop);
    assert_ne!(
        elsewhere,
        programs_at(place, &second.sorts[0], &again, &workshop)
    );
}

/// The same chords of one ring, with as many elements, begun at another corner.
fn begun_elsewhere(chords: &BezPath) -> BezPath {
    let mut corners: Vec<_> = chords.segments().map(|chord| chord.start()).collect();
    corners.rotate_left(5);
    let mut path = BezPath::new();
    path.move_to(corners[0]);
    corners[1..].iter().for_each(|&corner| path.line_to(corner));
    path.close_path();
    path
}

#[test]
fn parts_recorded_by_their_chords_are_matched() {
    let (mut commission, fonts) = order("O", 6.0, &[]);
    commission.cut_apart.push(CutApart {
        face: "main".to_owned(),
        glyph: commission.bill[0].glyph.clone(),
        lines: vec![CutLine {
            way: LineWay::Upright,
            at: Length::mm(6.0),
            middle: None,
        }],
        counts: None,
    });
    let workshop = Workshop::starting();
    let first = drawn(&commission, &workshop, &fonts);
    let mut record = Record::of(&commission, &workshop, &first.sorts);
    for (made, sort) in record.sorts.iter_mut().zip(&first.sorts) {
        made.outline = begun_elsewhere(&compare::chords_of(&sort.face));
    }
    let stops_of = |record: &Record| {
        let again = replacement(&commission, record, "O part 1 1, O part 2 2").expect("its parts");
        let again = drawn(&again, &workshop, &fonts);
        kinds(&again, Severity::Stop).len()
    };
    assert_eq!(stops_of(&record), 0);
    let aside = Affine::translate((0.004, 0.0));
    record.sorts[1].outline = aside * record.sorts[1].outline.clone();
    assert_eq!(stops_of(&record), 1);
}

#[test]
fn what_changed_since_then_is_told_with_a_comparison() {
    let (commission, fonts, workshop, _, record) = made();
    let changed = |change: &dyn Fn(&mut Commission), sorts: &str| {
        let mut now = commission.clone();
        change(&mut now);
        let again = replacement(&now, &record, sorts).expect("known sorts");
        drawn(&again, &workshop, &fonts)
    };
    let larger = changed(&|now| now.lines = 8.0, "A 1");
    assert_eq!(kinds(&larger, Severity::Stop), ["not-as-first-made"]);
    let texts: Vec<&str> = larger
        .findings
        .iter()
        .map(|finding| finding.text.as_str())
        .collect();
    assert!(
        texts
            .iter()
            .any(|text| text.contains("lines was 6; now it is 8")),
        "{texts:#?}"
    );
    assert!(
        texts
            .iter()
            .any(|text| text.contains("(72 pt) and is 33.74 mm (96 pt)")),
        "{texts:#?}"
    );
    assert!(
        texts
            .iter()
            .any(|text| text.contains("the face lies up to")),
        "{texts:#?}"
    );
    // The figures' common set matters to figures alone.
    let set = |now: &mut Commission| now.block.common_figure_set = false;
    assert_eq!(
        kinds(&changed(&set, "1 1"), Severity::Stop),
        ["not-as-first-made"]
    );
    let ampersand = changed(&set, "& 1");
    assert_eq!(kinds(&ampersand, Severity::Stop), Vec::<&str>::new());
    assert!(kinds(&ampersand, Severity::Warning).contains(&"setting-changed-since"));
    // Planks, titles and counts are no matter.
    let idle = |now: &mut Commission| {
        now.title.push_str(" again");
        now.planks.lane = Length::mm(7.0);
        now.faces[0].permission.by = "someone".to_owned();
        now.bill.truncate(1);
    };
    let same = changed(&idle, "g 2");
    assert!(
        !kinds(&same, Severity::Warning).contains(&"setting-changed-since"),
        "{:#?}",
        same.findings
    );
    assert_eq!(kinds(&same, Severity::Stop), Vec::<&str>::new());
    // A relief that is another is a warning: the face is the same.
    let deeper = changed(&|now| now.cutting.relief = Length::mm(4.0), "A 1");
    assert!(deeper.findings.iter().any(|f| {
        f.text
            .contains("cutting.relief was “3 mm”; now it is “4 mm”")
    }));
}

#[test]
fn another_cutter_and_another_font_are_told() {
    let (commission, fonts, mut workshop, _, record) = made();
    let again = replacement(&commission, &record, "A 1").expect("known sorts");
    let small = workshop
        .cutters
        .iter_mut()
        .find(|cutter| cutter.id == "flat-0.8");
    let small = small.expect("the starting workshop has it");
    small.diameter = Length::mm(1.0);
    small.feed_mm_min /= 2.0;
    let drawn_again = drawn(&again, &workshop, &fonts);
    let told: Vec<&Finding> = drawn_again
        .findings
        .iter()
        .filter(|finding| finding.kind == "cutter-changed-since")
        .collect();
    assert_eq!(told.len(), 1, "{told:#?}");
    assert!(
        told[0]
            .text
            .contains("diameter was “0.8 mm”; now it is “1 mm”"),
        "{}",
        told[0].text
    );
    let other: Fonts = fonts
        .keys()
        .map(|id| (id.clone(), Arc::from(epaint_default_fonts::HACK_REGULAR)))
        .collect();
    let drawn_again = drawn(&again, &Workshop::starting(), &other);
    assert_eq!(kinds(&drawn_again, Severity::Stop), ["not-as-first-made"]);
}

#[test]
fn sorts_are_asked_for_by_their_names() {
    let (commission, _, workshop, first, record) = made();
    let refused = |sorts: &str| replacement(&commission, &record, sorts).expect_err(sorts);
    let unknown = refused("A 1, Z 2");
    assert!(unknown.to_string().contains("no sort “Z”"), "{unknown}");
    assert!(unknown.to_string().contains("A, &, 0, 1"), "{unknown}");
    assert!(matches!(refused("A"), ReplacementError::List(_)));
    assert!(matches!(
        refused("A 0"),
        ReplacementError::List(BillError::Empty)
    ));
    assert!(matches!(
        refused("A 6000, A 6000"),
        ReplacementError::TooMany(_)
    ));
    // What replaces once replaces again, by the record of the first making.
    let again = replacement(&commission, &record, "A 1").expect("a known sort");
    let second = Record::of(&again, &workshop, &first.sorts);
    assert_eq!(Some(&second), again.replaces.as_deref());
    assert_eq!(second.commission, commission);
}

#[test]
fn a_record_that_is_spoiled_is_refused_with_its_place() {
    let (_, _, _, _, record) = made();
    let text = write_record(&record);
    assert!(read_record(&text).is_ok_and(|read| read == record));
    for (good, bad, place) in [
        ("\"sortwright-record\"", "\"sortwright-job\"", "record"),
        ("\"lines\": 6.0", "\"lines\": -6.0", "commission.lines"),
        ("\"outline\": \"M", "\"outline\": \"?", "sorts[0].outline"),
        (
            "\"outline\": \"M",
            "\"outline\": \"M1e300 0 L",
            "sorts[0].outline",
        ),
        (
            "\"block_mm\": [",
            "\"block_mm\": [ 1.0,",
            "sorts[0].block_mm",
        ),
        (
            "\"kind\": \"flat\"",
            "\"kind\": \"conical\"",
            "cutters[0].tip_diameter",
        ),
    ] {
        let spoiled = text.replacen(good, bad, 1);
        assert_ne!(spoiled, text, "{good}");
        let error = read_record(&spoiled)
            .map(|_| ())
            .expect_err(bad)
            .to_string();
        assert!(error.contains(place), "{error}");
    }
}

#[test]
fn drawings_are_on_record_too() {
    let (_, _, _, _, mut record) = made();
    let drawing = crate::commission::GlyphChoice::Drawing;
    record.sorts[0].source = Some(("anchor".to_owned(), drawing));
    assert!(read_record(&write_record(&record)).is_ok_and(|read| read == record));
}
