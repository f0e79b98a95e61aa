//! Programs of our writer read by an independent parser: the crate `gcode` 0.7.0 (crates.io, MIT or Apache-2.0).
//!
//! The parser takes text apart into words alone; the few lines of modal state around it are this test's own. It keeps
//! numbers in single precision, as small controllers do, so places are compared to 0.0001 mm.

use std::f64::consts::PI;
use std::fs;

use cam_core::make::make;
use cam_core::measure::Length;
use cam_core::program::{ProgramHeader, Section, dialect, write};
use cam_core::progress::Progress;
use cam_core::toolpath::{Course, Motion, Place3, Toolpath};
use cam_core::workshop::{Cutter, CutterShape};
use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use reader::{ReadCourse, Replay, read};
use sortwright::files::open::open_commission;
use testkit::told::{PLACE_MM, told};

/// Both readings of a program must tell the same moves.
#[track_caller]
fn check_same_moves(text: &str) -> Replay {
    let replay = read(text).unwrap_or_else(|error| panic!("{error}\n{text}"));
    let (motions, stops) = told(text);
    assert_eq!(replay.motions.len(), motions.len());
    for (ours, theirs) in replay.motions.iter().zip(&motions) {
        let (code, centre) = match ours.course {
            ReadCourse::Rapid => (0, None),
            ReadCourse::Line { .. } => (1, None),
            ReadCourse::Arc { centre, turn, .. } => match turn {
                Turn::Right => (2, Some(centre)),
                Turn::Left => (3, Some(centre)),
            },
        };
        assert_eq!((ours.line, code), (theirs.line, theirs.code));
        for (ours, theirs) in [ours.to.xy.x, ours.to.xy.y, ours.to.z]
            .iter()
            .zip(theirs.to)
        {
            assert!((ours - theirs).abs() < PLACE_MM, "{ours} and {theirs}");
        }
        assert_eq!(centre.is_some(), theirs.centre.is_some());
        if let (Some(ours), Some(theirs)) = (centre, theirs.centre) {
            assert!(
                ours.distance(theirs) < 2.0 * PLACE_MM,
                "{ours:?} and {theirs:?}"
            );
        }
        if let Some(feed) = ours.feed_mm_min() {
            assert!(
                (feed / theirs.feed_mm_min - 1.0).abs() < 1e-6,
                "line {}",
                ours.line
            );
        }
    }
    let pauses = stops.iter().filter(|code| **code == 0).count();
    assert_eq!(pauses, replay.pauses.len());
    assert_eq!(stops.first(), Some(&3));
    assert_eq!(stops.last(), Some(&30));
    replay
}

fn cutter(id: &str) -> Cutter {
    Cutter {
        id: id.to_owned(),
        shape: CutterShape::Flat,
        diameter: Length::mm(1.5),
        flute_length: Length::mm(6.0),
        max_depth: Length::mm(5.0),
        stick_out: Length::mm(15.0),
        shank_diameter: Length::mm(3.175),
        modulus_gpa: 600.0,
        flutes: 2,
        centre_cutting: true,
        step_down: Length::mm(0.5),
        step_over: Length::mm(0.5),
        feed_mm_min: 900.0,
        plunge_mm_min: 250.0,
        ramp_deg: 3.0,
        spindle_rpm: 20_000.0,
    }
}

/// A toolpath of rapids, lines, arcs and helices in all directions.
fn wandering(cuts: u32) -> Toolpath {
    let mut motions = Vec::new();
    let mut place = Place3 {
        xy: Point::new(20.0, 30.0),
        z: 5.0,
    };
    let mut go = |to: Place3, course: Course| {
        motions.push(Motion {
            to,
            course,
            purpose: None,
            layer: 0,
        });
    };
    go(place, Course::Rapid);
    for cut in 0..cuts {
        // Golden angles spread directions and sizes evenly without repeating.
        let angle = f64::from(cut) * 2.399_963;
        let size = 0.05 + 40.0 * (f64::from(cut) * 0.618_034).fract().powi(3);
        let feed_mm_min = 200.0 + 13.7 * f64::from(cut % 50);
        match cut % 5 {
            0 => {
                place = Place3 {
                    xy: Point::new(150.0, 150.0) + Vec2::from_angle(angle) * size * 3.0,
                    z: 5.0,
                };
                go(place, Course::Rapid);
            }
            1 => {
                place.z = -3.0 * (f64::from(cut) * 0.414_214).fract();
                go(place, Course::Line { feed_mm_min });
            }
            2 => {
                place.xy += Vec2::from_angle(angle) * size;
                go(place, Course::Line { feed_mm_min });
            }
            three_or_four => {
                let centre = place.xy + Vec2::from_angle(angle) * size;
                let turn = if cut % 2 == 0 {
                    Turn::Left
                } else {
                    Turn::Right
                };
                if three_or_four == 3 {
                    let sweep = 0.1 + 2.0 * PI * (f64::from(cut) * 0.732_051).fract() * 0.95;
                    let signed = match turn {
                        Turn::Left => sweep,
                        Turn::Right => -sweep,
                    };
                    let arm = place.xy - centre;
                    place.xy = centre + Vec2::from_angle(arm.angle() + signed) * arm.hypot();
                } else {
                    place.z -= 0.4;
                }
                let course = Course::Arc {
                    centre,
                    turn,
                    feed_mm_min,
                };
                go(place, course);
            }
        }
    }
    Toolpath {
        cutter: "flat-1.5".to_owned(),
        motions,
    }
}

#[test]
fn lines_arcs_and_helices_in_both_units() {
    let (path, cutter) = (wandering(4_000), cutter("flat-1.5"));
    let section = Section {
        cutter: &cutter,
        toolpath: &path,
    };
    for name in ["plain", "plain-inch"] {
        let dialect = dialect(name).expect("is in the list");
        let text = write(
            &[section],
            dialect,
            &ProgramHeader::new("Wandering", "plank-1"),
        )
        .expect("can be written");
        let replay = check_same_moves(&text);
        let arcs = replay.motions.iter();
        let arcs = arcs.filter(|motion| matches!(motion.course, ReadCourse::Arc { .. }));
        assert!(arcs.count() > 1_500, "{name}");
    }
}

#[test]
fn several_cutters_in_one_program() {
    let (path, first, second) = (wandering(50), cutter("flat-1.5"), cutter("flat-0.8"));
    let sections = [&first, &second].map(|cutter| Section {
        cutter,
        toolpath: &path,
    });
    let dialect = dialect("plain").expect("is in the list");
    let text = write(
        &sections,
        dialect,
        &ProgramHeader::new("Two cutters", "plank-1"),
    )
    .expect("can be written");
    assert_eq!(check_same_moves(&text).pauses.len(), 1);
}

#[test]
fn a_changed_sign_shows() {
    let (path, cutter) = (wandering(20), cutter("flat-1.5"));
    let section = Section {
        cutter: &cutter,
        toolpath: &path,
    };
    let dialect = dialect("plain").expect("is in the list");
    let text = write(&[section], dialect, &ProgramHeader::default()).expect("can be written");
    let changed = text.replacen("G1 Z-", "G1 Z", 1);
    let (ours, theirs) = (read(&text).expect("a program"), told(&changed).0);
    let differ = ours.motions.iter().zip(&theirs);
    let differ = differ.filter(|(ours, theirs)| (ours.to.z - theirs.to[2]).abs() > PLACE_MM);
    assert!(differ.count() > 0);
}

/// Makes a demonstration and compares both readings of each of its programs; gives how many motions they have.
fn check_demo(name: &str) -> usize {
    let path = testkit::repository::top().join(format!("demo-projects/{name}/commission.json"));
    let opened = open_commission(&path, None).unwrap_or_else(|error| panic!("{name}: {error}"));
    let job = make(
        &opened.commission,
        &opened.workshop,
        &opened.fonts,
        &Progress::new(),
    )
    .unwrap_or_else(|error| panic!("{name}: {error}"));
    assert!(!job.programs.is_empty() && !job.is_stopped(), "{name}");
    let motions = job.programs.iter();
    motions
        .map(|program| check_same_moves(&program.text).motions.len())
        .sum()
}

#[test]
fn every_program_of_the_small_demonstration() {
    assert!(check_demo("ferry-notice") > 10_000);
}

#[test]
fn every_program_of_the_large_demonstration() {
    assert!(check_demo("harvest-fount") > 100_000);
}

#[test]
fn every_program_of_the_demonstration_in_colours() {
    assert!(check_demo("market-poster") > 10_000);
}

#[test]
fn every_program_of_the_demonstration_with_a_border() {
    assert!(check_demo("barn-supper") > 10_000);
}

/// What has a commission among the demonstrations is read above.
#[test]
fn no_demonstration_is_left_out() {
    let read = [
        "barn-supper",
        "ferry-notice",
        "harvest-fount",
        "market-poster",
    ];
    let mut found: Vec<String> = fs::read_dir(testkit::repository::top().join("demo-projects"))
        .expect("the demonstrations are there")
        .filter_map(Result::ok)
        .filter(|entry| entry.path().join("commission.json").exists())
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    found.sort();
    assert_eq!(found, read);
}
