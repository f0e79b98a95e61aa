//! The writer against the reader: what is written is read back as it was meant, within rounding.

use std::f64::consts::{PI, TAU};

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use reader::{Ending, PauseKind, Place, ReadCourse, ReadMotion, Replay, Spindle, read};

use super::dialect::{Arcs, Comments};
use super::generator::Generator;
use super::*;
use crate::measure::Length;
use crate::pass::Purpose;
use crate::toolpath::{Course, Motion, Place3, Toolpath};
use crate::workshop::{Cutter, CutterShape};

const FEED: f64 = 1200.0;

fn cutter(id: &str) -> Cutter {
    Cutter {
        id: id.to_owned(),
        shape: CutterShape::Flat,
        diameter: Length::mm(3.0),
        flute_length: Length::mm(12.0),
        max_depth: Length::mm(10.0),
        stick_out: Length::mm(20.0),
        shank_diameter: Length::mm(3.175),
        modulus_gpa: 600.0,
        flutes: 2,
        centre_cutting: true,
        step_down: Length::mm(1.0),
        step_over: Length::mm(1.0),
        feed_mm_min: FEED,
        plunge_mm_min: 300.0,
        ramp_deg: 3.0,
        spindle_rpm: 18_000.0,
    }
}

fn place(x: f64, y: f64, z: f64) -> Place3 {
    Place3 {
        xy: Point::new(x, y),
        z,
    }
}

fn motion(to: Place3, course: Course) -> Motion {
    Motion {
        to,
        course,
        purpose: Some(Purpose::Finishing),
        layer: 0,
    }
}

fn rapid(to: Place3) -> Motion {
    Motion {
        to,
        course: Course::Rapid,
        purpose: None,
        layer: 0,
    }
}

fn line(to: Place3) -> Motion {
    motion(to, Course::Line { feed_mm_min: FEED })
}

fn arc(to: Place3, centre: Point, turn: Turn) -> Motion {
    let feed_mm_min = FEED;
    motion(
        to,
        Course::Arc {
            centre,
            turn,
            feed_mm_min,
        },
    )
}

fn toolpath(motions: Vec<Motion>) -> Toolpath {
    Toolpath {
        cutter: "flat-3".to_owned(),
        motions,
    }
}

fn written(motions: Vec<Motion>, dialect: &Dialect) -> String {
    let section = Section {
        cutter: &cutter("flat-3"),
        toolpath: &toolpath(motions),
    };
    write(&[section], dialect, &ProgramHeader::new("Test", "plank-1")).expect("can be written")
}

fn read_back(text: &str) -> Replay {
    read(text).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

fn plain() -> &'static Dialect {
    dialect("plain").expect("is in the list")
}

fn inch() -> &'static Dialect {
    dialect("plain-inch").expect("is in the list")
}

fn chords() -> Dialect {
    Dialect {
        arcs: Arcs::Chords { sagitta_mm: 0.002 },
        ..plain().clone()
    }
}

/// A place on the motion, `share` of the way along.
fn along(motion: &ReadMotion, share: f64) -> Place {
    let z = motion.from.z + (motion.to.z - motion.from.z) * share;
    Place {
        xy: motion.xy_at(share),
        z,
    }
}

/// Writes one arc, reads it back, and compares. `slack` is the greatest distance from the meant arc, mm.
#[track_caller]
fn check_arc(
    dialect: &Dialect,
    centre: Point,
    radius: f64,
    start_angle: f64,
    signed_sweep: f64,
    fall: f64,
    slack: f64,
) {
    let at = |angle: f64| centre + Vec2::from_angle(angle) * radius;
    let from = Place3 {
        xy: at(start_angle),
        z: 0.0,
    };
    let full = signed_sweep.abs() == TAU;
    let to = Place3 {
        xy: if full {
            from.xy
        } else {
            at(start_angle + signed_sweep)
        },
        z: -fall,
    };
    let turn = if signed_sweep > 0.0 {
        Turn::Left
    } else {
        Turn::Right
    };
    let text = written(
        vec![
            rapid(Place3 { z: 5.0, ..from }),
            line(from),
            arc(to, centre, turn),
        ],
        dialect,
    );
    let replay = read_back(&text);
    let what =
        || format!("centre {centre:?}, radius {radius}, {start_angle} + {signed_sweep}\n{text}");
    let mut turned = 0.0;
    // Rise, across, down, then the arc; then the rise at the end.
    let cuts = &replay.motions[3..replay.motions.len() - 1];
    for cut in cuts {
        for step in 0..=8 {
            let place = along(cut, f64::from(step) / 8.0);
            let off = (place.xy.distance(centre) - radius).abs();
            assert!(off <= slack, "{off} from the arc: {}", what());
        }
        let (a, b) = (cut.from.xy - centre, cut.to.xy - centre);
        let chord_angle = a.cross(b).atan2(a.dot(b));
        turned += match cut.course {
            ReadCourse::Arc {
                turn: Turn::Left,
                sweep,
                ..
            } => sweep,
            ReadCourse::Arc {
                turn: Turn::Right,
                sweep,
                ..
            } => -sweep,
            ReadCourse::Line { .. } | ReadCourse::Rapid => chord_angle,
        };
    }
    let angle_slack = 4.0 * slack / radius;
    assert!(
        (turned - signed_sweep).abs() <= angle_slack,
        "turned {turned}: {}",
        what()
    );
    let end = cuts.last().expect("it cuts").to;
    assert!(
        end.xy.distance(to.xy) <= 0.001 && (end.z - to.z).abs() <= 0.0006,
        "{}",
        what()
    );
}

#[test]
fn arcs_of_all_angles_and_sizes_come_back() {
    let mut generator = Generator::new(1);
    for _ in 0..20_000 {
        let radius = 10_f64.powf(generator.between(-1.5, 2.5));
        let centre = Point::new(
            generator.between(-300.0, 300.0),
            generator.between(-300.0, 300.0),
        );
        let start = generator.between(-PI, PI);
        let sweep = match generator.below(5) {
            0 => generator.between(-0.05, 0.05),
            1 => TAU * f64::from(generator.bits() & 1) * 2.0 - TAU,
            2 => [PI, -PI, PI / 2.0, -PI / 2.0][generator.below(4)],
            _ => generator.between(-6.2, 6.2),
        };
        if (radius * sweep).abs() < 0.002 {
            continue;
        }
        let fall = generator.between(0.0, 1.0) * f64::from(generator.bits() & 1);
        check_arc(plain(), centre, radius, start, sweep, fall, 0.0025);
        check_arc(inch(), centre, radius, start, sweep, fall, 0.0012);
        if radius * sweep.abs() < 30.0 {
            check_arc(&chords(), centre, radius, start, sweep, fall, 0.0035);
        }
    }
}

#[test]
fn axis_parallel_arcs_are_written_exactly() {
    let text = written(
        vec![
            rapid(place(10.0, 0.0, 5.0)),
            line(place(10.0, 0.0, -1.0)),
            arc(place(0.0, 10.0, -1.0), Point::ZERO, Turn::Left),
            arc(place(0.0, 10.0, -2.0), Point::new(0.0, 5.0), Turn::Right),
        ],
        plain(),
    );
    let cuts: Vec<&str> = text
        .lines()
        .filter(|line| line.starts_with("G2") || line.starts_with("G3 "))
        .collect();
    assert_eq!(
        cuts,
        [
            "G21",
            "G3 X0 Y10 I-10 J0",
            "G2 X0 Y0 Z-1.5 I0 J-5",
            "G2 X0 Y10 Z-2 I0 J5"
        ]
    );
}

#[test]
fn tiny_and_huge_arcs_become_lines() {
    let start = place(1.0, 0.0, 0.0);
    for (to, centre) in [
        // Radius 5 µm, half a turn.
        (place(1.01, 0.0, 0.0), Point::new(1.005, 0.0)),
        // Radius 5 m.
        (place(0.99, 10.0, 0.0), Point::new(-4999.0, 4.9)),
    ] {
        let text = written(
            vec![
                rapid(Place3 { z: 5.0, ..start }),
                line(start),
                arc(to, centre, Turn::Left),
            ],
            plain(),
        );
        assert!(!text.contains('I'), "{text}");
        let replay = read_back(&text);
        let end = replay.motions[replay.motions.len() - 2].to;
        assert!(end.xy.distance(to.xy) < 0.001, "{text}");
    }
}

#[test]
fn an_arc_that_rounds_to_nothing_is_not_a_full_circle() {
    let start = place(1.0, 0.0, -1.0);
    let to = place(1.000_000_2, 0.000_2, -1.0);
    let text = written(
        vec![
            rapid(Place3 { z: 5.0, ..start }),
            line(start),
            arc(to, Point::new(-9.0, 0.0), Turn::Left),
            line(place(1.0, 2.0, -1.0)),
        ],
        plain(),
    );
    let replay = read_back(&text);
    assert!(
        replay
            .motions
            .iter()
            .all(|motion| !matches!(motion.course, ReadCourse::Arc { .. })),
        "{text}"
    );
    assert_eq!(replay.motions.len(), 5, "{text}");
}

#[test]
fn lines_come_back_within_rounding_and_none_is_without_length() {
    let mut generator = Generator::new(2);
    for dialect in [plain(), inch()] {
        let half_step = match dialect.unit {
            super::dialect::Unit::Millimetre => 0.000_5,
            super::dialect::Unit::Inch => 0.000_127,
        };
        let mut motions = vec![rapid(place(0.0, 0.0, 5.0)), line(place(0.0, 0.0, -1.0))];
        let mut at = Point::ZERO;
        for _ in 0..5_000 {
            let step = 10_f64.powf(generator.between(-4.5, 0.5));
            at += Vec2::from_angle(generator.between(-PI, PI)) * step;
            motions.push(line(Place3 {
                xy: at,
                z: generator.between(-1.0, 0.0),
            }));
        }
        let text = written(motions.clone(), dialect);
        let replay = read_back(&text);
        let cuts = &replay.motions[2..];
        let mut next = 0;
        for meant in &motions[1..] {
            let near = |place: Place| {
                let off = place.xy - meant.to.xy;
                off.x
                    .abs()
                    .max(off.y.abs())
                    .max((place.z - meant.to.z).abs())
                    <= half_step * 1.000_001
            };
            if near(cuts[next].to) {
                next += 1;
            } else {
                assert!(next > 0 && near(cuts[next - 1].to), "{meant:?} is missing");
            }
        }
        assert_eq!(next, cuts.len() - 1);
        assert!(cuts.iter().all(|cut| cut.length_mm() > 0.0));
        assert!(cuts[..next].iter().all(|cut| {
            let feed = cut.feed_mm_min().unwrap_or(0.0);
            feed <= FEED && feed > FEED - 0.3
        }));
    }
}

#[test]
fn a_feed_change_survives_a_move_that_is_dropped() {
    let slow = |to| motion(to, Course::Line { feed_mm_min: 100.0 });
    let text = written(
        vec![
            rapid(place(0.0, 0.0, 5.0)),
            line(place(0.0, 0.0, -1.0)),
            slow(place(0.000_1, 0.0, -1.0)),
            slow(place(1.0, 0.0, -1.0)),
        ],
        plain(),
    );
    let feeds: Vec<Option<f64>> = read_back(&text)
        .motions
        .iter()
        .map(ReadMotion::feed_mm_min)
        .collect();
    assert_eq!(feeds, [None, None, Some(FEED), Some(100.0), None]);
}

#[test]
fn rapids_rise_before_they_cross_and_cross_before_they_come_down() {
    let text = written(
        vec![
            rapid(place(1.0, 2.0, 5.0)),
            line(place(1.0, 2.0, -1.0)),
            rapid(place(8.0, 9.0, 5.0)),
            rapid(place(3.0, 4.0, 1.0)),
            line(place(3.0, 4.0, -1.0)),
        ],
        plain(),
    );
    let moves: Vec<&str> = text
        .lines()
        .filter(|line| line.starts_with("G0") || line.starts_with("G1 "))
        .collect();
    assert_eq!(
        moves,
        [
            "G0 Z5",
            "G0 X1 Y2",
            "G1 Z-1 F1200",
            "G0 Z5",
            "G0 X8 Y9",
            "G0 X3 Y4",
            "G0 Z1",
            "G1 Z-1 F1200",
            "G0 Z5"
        ]
    );
}

#[test]
fn a_whole_program_reads_like_this() {
    let text = written(
        vec![rapid(place(1.0, 2.5, 5.0)), line(place(1.0, 2.5, -0.25))],
        inch(),
    );
    assert_eq!(
        text,
        "(Title: Test)\n\
         (Plank: plank-1)\n\
         (Cutter: flat-3, flat end, 3.000 mm, 18000 turns a minute)\n\
         (Zero: x0 y0 at the plank's lower left corner seen from above, z0 on its face, face up)\n\
         (Cautions: follow the machine's manual, wear eye and ear protection, keep hands, hair and sleeves clear, \
         clamp the plank and keep clamps out of the path, extract the dust, try the zero with the spindle off)\n\
         G20\n\
         G17 G40 G49 G80\n\
         G54 G90 G94\n\
         G0 Z0.19685\n\
         M3 S18000\n\
         G4 P3\n\
         G0 X0.03937 Y0.09843\n\
         G1 Z-0.00984 F47.24\n\
         G0 Z0.19685\n\
         M5\n\
         M30\n"
    );
}

#[test]
fn cutters_are_parted_by_a_stop_with_the_spindle_off() {
    let path = toolpath(vec![
        rapid(place(1.0, 1.0, 5.0)),
        line(place(1.0, 1.0, -1.0)),
    ]);
    let (first, second) = (cutter("flat-3"), cutter("flat-1"));
    let sections = [
        Section {
            cutter: &first,
            toolpath: &path,
        },
        Section {
            cutter: &second,
            toolpath: &path,
        },
    ];
    let text =
        write(&sections, plain(), &ProgramHeader::new("Test", "plank-1")).expect("can be written");
    let replay = read_back(&text);
    let [pause] = replay.pauses.as_slice() else {
        panic!("one pause\n{text}");
    };
    assert_eq!(
        (pause.kind, pause.spindle),
        (PauseKind::Always, Spindle::Off)
    );
    assert!(pause.comment.contains("flat-1"), "{text}");
    // Risen when it stops, and rising again before it goes across: a person has moved the machine.
    assert_eq!(replay.motions[pause.before - 1].to.z, 5.0);
    assert_eq!(replay.motions[pause.before].to.z, 5.0);
    assert_eq!(replay.dwells.len(), 2);
    assert!(
        replay
            .dwells
            .iter()
            .all(|dwell| dwell.spindle == Spindle::Clockwise { rpm: 18_000.0 })
    );
    assert_eq!(
        (replay.end.ending, replay.end.spindle),
        (Ending::M30, Spindle::Off)
    );
    assert!(
        text.lines()
            .skip_while(|line| *line != "M5")
            .any(|line| line == "G0 X1 Y1")
    );
}

#[test]
fn line_numbers_start_again_before_they_grow_too_long() {
    let numbered = Dialect {
        line_numbers: Some(40_000),
        comments: Comments::Omitted,
        ..plain().clone()
    };
    let text = written(
        vec![rapid(place(1.0, 1.0, 5.0)), line(place(1.0, 1.0, -1.0))],
        &numbered,
    );
    assert!(
        text.starts_with("N40000 G21\nN80000 G17 G40 G49 G80\nN40000 G54 G90 G94\n"),
        "{text}"
    );
    assert!(!text.contains('('));
    assert_eq!(read_back(&text).motions.len(), 4);
}

#[test]
fn plain_programs_keep_to_the_plain_codes() {
    let allowed = [
        "G0", "G1", "G2", "G3", "G4", "G17", "G20", "G21", "G40", "G49", "G54", "G80", "G90",
        "G94", "M0", "M3", "M5", "M30",
    ];
    let path = toolpath(vec![
        rapid(place(10.0, 0.0, 5.0)),
        line(place(10.0, 0.0, -1.0)),
        arc(place(0.0, 10.0, -1.0), Point::ZERO, Turn::Left),
        arc(place(0.0, -10.0, -2.0), Point::ZERO, Turn::Right),
    ]);
    let cutter = cutter("flat-3");
    let section = Section {
        cutter: &cutter,
        toolpath: &path,
    };
    for dialect in super::dialect::ALL {
        let header = ProgramHeader::new("Größe (neu); 100 %", "plank-1");
        let text = write(&[section, section], dialect, &header).expect("can be written");
        assert!(text.is_ascii());
        for line in text.lines() {
            assert!(line.len() <= 240, "{line}");
            let code = line.split('(').next().unwrap_or_default();
            for word in code.split_whitespace() {
                if word.starts_with(['G', 'M']) {
                    assert!(allowed.contains(&word), "{line}");
                }
            }
        }
        read_back(&text);
    }
}

#[test]
fn what_cannot_be_said_is_refused() {
    let good = vec![rapid(place(0.0, 0.0, 5.0)), line(place(1.0, 0.0, -1.0))];
    let error = |motions: Vec<Motion>, rpm: f64| {
        let mut cutter = cutter("flat-3");
        cutter.spindle_rpm = rpm;
        let toolpath = toolpath(motions);
        let section = Section {
            cutter: &cutter,
            toolpath: &toolpath,
        };
        write(&[section], plain(), &ProgramHeader::default()).expect_err("cannot be written")
    };
    assert!(matches!(
        error(vec![], 1.0),
        WriteError::NothingToCut { .. }
    ));
    assert!(matches!(
        error(good[1..].to_vec(), 1.0),
        WriteError::StartsInTheWood { .. }
    ));
    assert!(matches!(error(good.clone(), 0.0), WriteError::Speed { .. }));
    assert!(matches!(
        error(good.clone(), f64::NAN),
        WriteError::Speed { .. }
    ));
    for bad in [f64::NAN, f64::INFINITY, 1e7] {
        let mut motions = good.clone();
        motions.push(line(place(bad, 0.0, 0.0)));
        assert!(matches!(
            error(motions, 1.0),
            WriteError::Place { motion: 3, .. }
        ));
    }
    for bad in [f64::NAN, -1.0, 0.0, 0.01] {
        let mut motions = good.clone();
        motions.push(motion(
            place(2.0, 0.0, 0.0),
            Course::Line { feed_mm_min: bad },
        ));
        assert!(matches!(
            error(motions, 1.0),
            WriteError::Feed { motion: 3, .. }
        ));
    }
    assert!(matches!(
        write(&[], plain(), &ProgramHeader::default()),
        Err(WriteError::NothingToCut { .. })
    ));
}
