//! Tests of the job file: keys, round trips, and what is said of damaged ones.

use std::collections::BTreeMap;
use std::sync::Arc;

use kurbo::{Affine, BezPath, Point, Vec2};

use super::*;
use crate::commission::{
    BlockRules, BodyStep, Commission, Cutting, Direction, Face, Fit, GlyphChoice, Hold, Permission,
    PlankRules, ProgramFiles, Roughing, RoundingShare, Separation, SetRounding, SetRule,
};
use crate::digest::sha256_hex;
use crate::make::Fonts;
use crate::measure::{Length, System};
use crate::plank::{Place, Plank};
use crate::sort::{Block, Sort, SortSource};
use crate::survey::{CornerReport, Survey};
use crate::workshop::{Cutter, CutterShape, Machine, PaperChoice, Rates, Workshop};

/// An order for a few letters.
pub(crate) fn commission() -> Commission {
    Commission {
        title: "Tide tables".into(),
        reference: "T 14".into(),
        customer: Vec::new(),
        date: String::new(),
        system: System::Pica,
        lines: 4.0,
        height_to_paper: Length::mm(23.3172),
        wood: "maple".into(),
        faces: vec![Face {
            id: "main".into(),
            file: "fonts/face.ttf".into(),
            sha256: String::new(),
            index: 0,
            variations: BTreeMap::from([("wght".to_owned(), 700.0)]),
            permission: Permission::default(),
        }],
        drawings: Vec::new(),
        cut_apart: Vec::new(),
        borders: Vec::new(),
        fit: Fit::EmOnBody,
        block: BlockRules {
            body_step: BodyStep::HalfLine,
            set: SetRule::Advance,
            rounding: SetRounding::Point,
            share: RoundingShare::Even,
            least_side: Length::mm(0.3),
            common_figure_set: true,
        },
        notches: None,
        colours: None,
        bill: Vec::new(),
        spaces: Vec::new(),
        cutting: Cutting {
            cutters: vec!["flat-3".into()],
            tolerance: Length::mm(0.01),
            relief: Length::mm(3.0),
            least_relief: Length::mm(1.0),
            narrow_width: Length::mm(2.0),
            wide_width: Length::mm(8.0),
            roughing: Roughing::Quicker,
            allowance: Length::mm(0.2),
            corner_tolerance: Length::mm(0.15),
            direction: Direction::Climb,
            least_stroke: Length::mm(0.5),
            files: ProgramFiles::PerCutter,
        },
        planks: PlankRules {
            width: Length::mm(200.0),
            length: Length::mm(400.0),
            margin: Length::mm(8.0),
            lane: Length::mm(3.2),
            separation: Separation::Router {
                cutter: "flat-3".into(),
                hold: Hold::Skin(Length::mm(0.4)),
            },
            ..PlankRules::starting()
        },
        replaces: None,
    }
}

/// A workshop with one cutter.
pub(crate) fn workshop() -> Workshop {
    Workshop {
        machine: Machine {
            name: "Bench router".into(),
            travel_mm: [400.0, 600.0, 80.0],
            rapid_mm_min: [4000.0, 4000.0, 1000.0],
            max_feed_mm_min: [3000.0, 3000.0, 800.0],
            acceleration_mm_s2: [300.0, 300.0, 100.0],
            junction_deviation_mm: 0.01,
            spindle_rpm: [8000.0, 24000.0],
            clear_height_mm: 4.0,
            hop_height_mm: 1.0,
            holder_diameter_mm: 30.0,
            change_minutes: 3.0,
            minutes_factor: 1.0,
            minutes_per_run: 0.0,
            squareness: None,
            dialect: "plain".into(),
        },
        cutters: vec![Cutter {
            id: "flat-3".into(),
            shape: CutterShape::Flat,
            diameter: Length::mm(3.0),
            flute_length: Length::mm(26.0),
            max_depth: Length::mm(25.0),
            stick_out: Length::mm(30.0),
            shank_diameter: Length::mm(3.175),
            modulus_gpa: 600.0,
            flutes: 2,
            centre_cutting: true,
            step_down: Length::mm(1.5),
            step_over: Length::mm(1.2),
            feed_mm_min: 1200.0,
            plunge_mm_min: 300.0,
            ramp_deg: 3.0,
            spindle_rpm: 18000.0,
        }],
        woods: Vec::new(),
        stock: Vec::new(),
        tables: Vec::new(),
        more_machines: Vec::new(),
        rates: Rates::starting(),
        papers: PaperChoice::default(),
    }
}

/// A sort whose letter is a triangle of whole font units.
pub(crate) fn triangle() -> Sort {
    let face_from_em = Affine::new([-0.021_087_59, 0.0, 0.0, 0.021_087_59, 15.2, 3.1]);
    let em = BezPath::from_svg("M100 0 L600 0 Q500 700 350 703 Z").expect("valid path data");
    Sort {
        name: "A".into(),
        text: "A".into(),
        count: 2,
        plate: None,
        source: Some(SortSource {
            face: "main".into(),
            choice: GlyphChoice::Character {
                character: 'A',
                features: Vec::new(),
            },
            glyph: 36,
            face_from_em,
            part: None,
        }),
        block: Block {
            outline: vec![
                Point::new(0.0, 0.0),
                Point::new(16.87, 0.0),
                Point::new(16.87, 21.0),
                Point::new(0.0, 21.0),
            ],
            body_mm: 21.0,
            set_mm: 16.87,
            baseline_mm: 3.1,
            extended_pt: [0.0, 0.0],
            plain: false,
            notches: Vec::new(),
        },
        outline: face_from_em * em,
        face: geometry::region::Region::default(),
    }
}

fn example() -> JobFile {
    let sorts = [Arc::new(triangle())];
    let surveys = [Arc::new(Survey {
        unreached_mm2: 0.25,
        corners: vec![CornerReport {
            at: Point::new(2.0, 3.0),
            angle_deg: 90.0,
            gap_mm: 0.621,
            wanted_diameter_mm: 0.7,
        }],
        ..Survey::default()
    })];
    let planks = [Plank {
        id: "plank-1".into(),
        width_mm: 200.0,
        length_mm: 400.0,
        places: vec![
            Place {
                id: "A-1".into(),
                sort: 0,
                at: Vec2::new(8.0, 8.0),
            },
            Place {
                id: "A-2".into(),
                sort: 0,
                at: Vec2::new(28.07, 8.0),
            },
        ],
        ..Plank::default()
    }];
    let programs = [JobProgram {
        file: "plank-1-flat-3.ngc".into(),
        sha256: sha256_hex(b"G0 X0\n"),
        plank: "plank-1".into(),
        cutter: "flat-3".into(),
        role: JobRole::Roughing,
        estimate_s: 90.0,
        changes: Vec::new(),
    }];
    let fonts: Fonts = BTreeMap::from([("main".to_owned(), Arc::from(&b"abc"[..]))]);
    job_file(&JobParts {
        commission: &commission(),
        workshop: &workshop(),
        fonts: &fonts,
        sorts: &sorts,
        surveys: &surveys,
        planks: &planks,
        programs: &programs,
    })
}

#[test]
fn text_reads_back_the_same() {
    let job = example();
    let text = job.to_json();
    assert!(text.ends_with("}\n"));
    assert_eq!(JobFile::from_json(&text), Ok(job.clone()));
    assert_eq!(job.to_json(), text);
}

#[test]
fn keys_are_those_of_the_open_format() {
    let json: serde_json::Value =
        serde_json::from_str(&example().to_json()).expect("the job file is JSON");
    for pointer in [
        "/format",
        "/version",
        "/tolerance_mm",
        "/fonts/0/sha256",
        "/fonts/0/index",
        "/fonts/0/variations/wght",
        "/art",
        "/cutters/0/kind",
        "/cutters/0/diameter_mm",
        "/cutters/0/flute_length_mm",
        "/cutters/0/max_depth_mm",
        "/planks/0/height_to_paper_mm",
        "/planks/0/program_zero",
        "/planks/0/program_origin_mm/1",
        "/sorts/1/source_to_plank/5",
        "/sorts/0/block_mm/3/1",
        "/sorts/0/layer",
        "/sorts/0/art",
        "/sorts/0/body_mm",
        "/sorts/0/set_mm",
        "/sorts/0/relief_mm",
        "/separation",
        "/relief/least_mm",
        "/relief/full_mm",
        "/relief/narrow_width_mm",
        "/relief/wide_width_mm",
        "/lane_mm",
        "/programs/0/role",
        "/programs/0/estimate_s",
        "/machine/rapid_mm_min/2",
        "/machine/max_feed_mm_min/0",
        "/machine/acceleration_mm_s2/0",
        "/machine/junction_deviation_mm",
        "/machine/spindle_rpm/1",
        "/machine/travel_mm/2",
        "/unreached/0/corners/0/at_mm/0",
        "/unreached/0/corners/0/angle_deg",
        "/unreached/0/corners/0/gap_mm",
        "/unreached/0/area_mm2",
        "/minutes/machine",
        "/minutes/planks/0",
        "/outlines/0/path",
    ] {
        assert!(json.pointer(pointer).is_some(), "{pointer} is missing");
    }
    assert_eq!(json["separation"], "router");
    assert_eq!(json["planks"][0]["program_zero"], "face");
    assert_eq!(json["cutters"][0]["kind"], "flat");
}

#[test]
fn outline_comes_back_in_whole_font_units() {
    let job = example();
    assert_eq!(job.outlines.len(), 1);
    let path = BezPath::from_svg(&job.outlines[0].path).expect("the path is SVG path data");
    assert_eq!(
        path,
        BezPath::from_svg("M100 0 L600 0 Q500 700 350 703 Z").expect("valid path data")
    );
}

#[test]
fn copies_lie_where_the_plank_has_them() {
    let job = example();
    let [first, second] = [&job.sorts[0], &job.sorts[1]];
    assert_eq!(first.block_mm[0], [8.0, 8.0]);
    assert_eq!(second.block_mm[2], [44.94, 29.0]);
    let affine = Affine::new(second.source_to_plank.expect("a letter has a transform"));
    assert!(affine.determinant() < 0.0);
    let placed = affine * Point::new(100.0, 0.0);
    assert!((placed - Point::new(28.07 + 15.2 - 2.108_759, 11.1)).hypot() < 1e-9);
    assert_eq!(job.unreached[1].corners[0].at_mm, [30.07, 11.0]);
    assert_eq!(job.minutes.machine, 1.5);
}

#[test]
fn damage_is_said_with_its_place() {
    let text = example().to_json();
    let cases = [
        (text[..text.len() / 2].to_owned(), "damaged at line"),
        (text.replace("\"lane_mm\"", "\"lane\""), "lane_mm"),
        (
            text.replace("\"sortwright-job\"", "\"other\""),
            "its format says \"other\"",
        ),
        (
            text.replace("\"version\": 1", "\"version\": 2"),
            "version 2",
        ),
        ("[]".to_owned(), "not a job file"),
        (String::new(), "damaged"),
    ];
    for (text, expected) in cases {
        let said = JobFile::from_json(&text)
            .expect_err("a damaged file is refused")
            .to_string();
        assert!(said.contains(expected), "{said}");
    }
}
