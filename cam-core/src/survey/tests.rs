use geometry::reach::{corner_area, corner_gap};
use geometry::region::region_from_outline;
use kurbo::{BezPath, Rect, Shape};

use super::*;
use crate::commission::{Face, Permission};
use crate::finding::Severity;
use crate::measure::System;

fn commission(cutters: &[f64]) -> Commission {
    let face = Face {
        id: "face".into(),
        file: "face.ttf".into(),
        sha256: String::new(),
        index: 0,
        variations: std::collections::BTreeMap::new(),
        permission: Permission::default(),
    };
    let mut commission = Commission::starting("Trial", System::Pica, 10.0, face);
    commission.cutting.cutters = cutters.iter().map(|diameter| id(*diameter)).collect();
    commission.cutting.corner_tolerance = Length::mm(0.1);
    commission.cutting.relief = Length::mm(2.0);
    commission.cutting.least_stroke = Length::mm(0.5);
    commission
}

fn id(diameter: f64) -> String {
    format!("flat-{diameter}")
}

fn workshop(diameters: &[f64]) -> Workshop {
    let mut workshop = Workshop::starting();
    let pattern = workshop.cutters[0].clone();
    workshop.cutters = diameters
        .iter()
        .map(|&diameter| Cutter {
            id: id(diameter),
            shape: CutterShape::Flat,
            diameter: Length::mm(diameter),
            max_depth: Length::mm(if diameter < 1.0 { 1.2 } else { 3.0 }),
            ..pattern.clone()
        })
        .collect();
    workshop
}

/// A sort of 30 by 42 mm with a face.
fn sort(outline: BezPath) -> Sort {
    Sort {
        name: "H".into(),
        text: "H".into(),
        count: 1,
        plate: None,
        source: None,
        block: Block {
            outline: vec![
                Point::new(0.0, 0.0),
                Point::new(30.0, 0.0),
                Point::new(30.0, 42.0),
                Point::new(0.0, 42.0),
            ],
            body_mm: 42.0,
            set_mm: 30.0,
            baseline_mm: 4.0,
            extended_pt: [0.0, 0.0],
            plain: false,
            notches: Vec::new(),
        },
        face: region_from_outline(&outline, FLATTENING_MM).unwrap(),
        outline,
    }
}

fn rectangles(all: &[(f64, f64, f64, f64)]) -> BezPath {
    all.iter()
        .flat_map(|&(x0, y0, x1, y1)| Rect::new(x0, y0, x1, y1).to_path(0.1))
        .collect()
}

/// An H: two stems of 6 mm and a bar.
fn letter_h() -> Sort {
    sort(rectangles(&[
        (3.0, 4.0, 9.0, 38.0),
        (21.0, 4.0, 27.0, 38.0),
        (9.0, 19.0, 21.0, 23.0),
    ]))
}

fn surveyed_with(sort: &Sort, diameters: &[f64]) -> (Survey, Vec<Finding>) {
    let ground = ground(sort, Length::mm(7.0)).unwrap();
    survey(sort, &ground, &commission(diameters), &workshop(diameters))
}

fn kinds(findings: &[Finding]) -> Vec<&str> {
    findings.iter().map(|finding| finding.kind).collect()
}

#[test]
fn each_cutter_leaves_the_corners_of_its_own_radius() {
    let sort = letter_h();
    let (survey, findings) = surveyed_with(&sort, &[3.0, 6.0, 1.5]);
    let open = 30.0 * 42.0 - sort.face.area();
    let ids: Vec<&str> = survey
        .cutters
        .iter()
        .map(|made| made.cutter.as_str())
        .collect();
    assert_eq!(ids, ["flat-6", "flat-3", "flat-1.5"]);
    let right = std::f64::consts::FRAC_PI_2;
    for (made, radius) in survey.cutters.iter().zip([3.0, 1.5, 0.75]) {
        assert!((made.reached_mm2 + made.left_mm2 - open).abs() < 1e-2);
        assert!((made.left_mm2 - 4.0 * corner_area(radius, right)).abs() < 0.05);
        assert_eq!(made.corners.len(), 4);
        for corner in &made.corners {
            assert!((corner.angle_deg - 90.0).abs() < 1e-6);
            // The reach is asked for with a radius smaller by the flattening.
            assert!((corner.gap_mm - corner_gap(radius, right)).abs() < 0.001);
            let wanted = 2.0 * 0.1 / corner_gap(1.0, right);
            assert!((corner.wanted_diameter_mm - wanted).abs() < 1e-4);
        }
    }
    assert_eq!(survey.corners, survey.cutters[2].corners);
    assert_eq!(survey.unreached_mm2, survey.cutters[2].left_mm2);
    assert_eq!(kinds(&findings), ["corners-round"]);
    assert!(
        findings[0]
            .text
            .starts_with("4 corners stay rounder than 0.1 mm"),
        "{}",
        findings[0].text
    );
}

#[test]
fn a_cutter_small_enough_satisfies_the_tolerance() {
    // 0.1 mm at a right angle asks for 0.48 mm.
    let (survey, findings) = surveyed_with(&letter_h(), &[6.0, 0.48]);
    assert!(survey.corners.is_empty(), "{:?}", survey.corners);
    // The small cutter goes down 1.2 mm of 2 mm.
    assert_eq!(kinds(&findings), ["ground-shallow"]);
}

#[test]
fn slots_and_counters_too_narrow_are_named() {
    // A plate with a slot of 0.6 mm open to the side, one exactly as wide as the cutter, and a round counter of 0.5 mm.
    let mut outline = rectangles(&[
        (3.0, 4.0, 20.0, 10.0),
        (3.0, 10.6, 20.0, 20.0),
        (3.0, 20.8, 20.0, 30.0),
        (3.0, 4.0, 6.0, 30.0),
    ]);
    let counter = kurbo::Circle::new((12.0, 15.0), 0.25)
        .to_path(1e-4)
        .reverse_subpaths();
    outline.extend(counter);
    let (survey, findings) = surveyed_with(&sort(outline), &[6.0, 0.8]);
    let mut widths: Vec<f64> = survey.narrow_ground.iter().map(|place| place.1).collect();
    widths.sort_by(f64::total_cmp);
    assert_eq!(widths.len(), 2, "{:?}", survey.narrow_ground);
    assert!((widths[0] - 0.5).abs() < 0.005 && (widths[1] - 0.6).abs() < 1e-6);
    assert!((survey.unreached_mm2 - (14.0 * 0.6 + 0.0625 * std::f64::consts::PI)).abs() < 0.3);
    assert!(kinds(&findings).contains(&"ground-narrow"));
}

#[test]
fn hairlines_are_named_once() {
    let outline = rectangles(&[
        (3.0, 4.0, 9.0, 38.0),
        (21.0, 4.0, 27.0, 38.0),
        (9.0, 20.0, 21.0, 20.4),
    ]);
    let (survey, findings) = surveyed_with(&sort(outline), &[3.0]);
    assert_eq!(survey.thin_strokes.len(), 1, "{:?}", survey.thin_strokes);
    let (at, thickness) = survey.thin_strokes[0];
    assert!((thickness - 0.4).abs() < 1e-6 && (at.y - 20.2).abs() < 1e-6);
    assert!(kinds(&findings).contains(&"stroke-thin"));
    let (survey, _) = surveyed_with(&letter_h(), &[3.0]);
    assert!(survey.thin_strokes.is_empty());
}

#[test]
fn plain_blocks_and_missing_cutters() {
    let plain = sort(BezPath::new());
    let (survey_of_plain, findings) = surveyed_with(&plain, &[6.0]);
    assert!(findings.is_empty());
    assert!((survey_of_plain.cutters[0].reached_mm2 - 30.0 * 42.0).abs() < 1e-6);
    let ground = ground(&plain, Length::mm(7.0)).unwrap();
    let (none, findings) = survey(&plain, &ground, &commission(&[9.0]), &workshop(&[6.0]));
    assert_eq!(findings[0].severity, Severity::Stop);
    assert_eq!(findings[0].kind, "cutter-unknown");
    assert!((none.unreached_mm2 - 30.0 * 42.0).abs() < 1e-6);
}

#[test]
fn rooms_follow_notched_blocks_and_lanes_must_have_width() {
    let mut notched = letter_h();
    notched.block.outline = vec![
        Point::new(0.0, 0.0),
        Point::new(30.0, 0.0),
        Point::new(30.0, 30.0),
        Point::new(28.0, 30.0),
        Point::new(28.0, 42.0),
        Point::new(0.0, 42.0),
    ];
    let ground_of_notched = ground(&notched, Length::mm(2.0)).unwrap();
    let area = geometry::region::signed_area(ground_of_notched.room());
    assert!((area - (34.0 * 34.0 + 32.0 * 12.0)).abs() < 1e-6, "{area}");
    for lane in [0.0, -1.0, f64::NAN] {
        assert!(matches!(
            ground(&notched, Length::mm(lane)),
            Err(SurveyError::Lane(_))
        ));
    }
    let overhanging = sort(rectangles(&[(-9.0, 4.0, 9.0, 38.0)]));
    let refused = ground(&overhanging, Length::mm(7.0)).unwrap_err();
    assert!(
        refused
            .to_string()
            .starts_with("Sort H: The letter reaches the edge"),
        "{refused}"
    );
}
