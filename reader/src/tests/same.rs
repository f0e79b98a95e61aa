//! Programs that must do the same whatever words they use: other planes with the axes renamed, increments, inches, a shifted zero.

use std::fmt::Write as _;

use proptest::prelude::*;

use super::*;

/// One line of a program, in thousandths of a millimetre.
#[derive(Clone, Copy, Debug)]
enum Piece {
    /// To a place.
    Line([i32; 3]),
    /// A quarter turn or a full one about a centre beside the start, and along the normal axis.
    Turned {
        right: bool,
        full: bool,
        radius: i32,
        along: i32,
    },
    /// An arc by its radius, which is larger than half the way by a share.
    ByRadius {
        right: bool,
        long: bool,
        way: [i32; 2],
        more: i32,
    },
    /// A hole: how far on, how deep, pecked or not.
    Hole { on: [i32; 2], deep: i32, peck: bool },
}

fn pieces() -> impl Strategy<Value = Vec<Piece>> {
    let way = -40_000_i32..40_000;
    let piece = prop_oneof![
        [way.clone(), way.clone(), way.clone()].prop_map(Piece::Line),
        (
            any::<bool>(),
            any::<bool>(),
            100_i32..30_000,
            -2_000_i32..2_000
        )
            .prop_map(|(right, full, radius, along)| Piece::Turned {
                right,
                full,
                radius,
                along
            }),
        (
            any::<bool>(),
            any::<bool>(),
            [100_i32..20_000, 100_i32..20_000],
            1_i32..3_000
        )
            .prop_map(|(right, long, way, more)| Piece::ByRadius {
                right,
                long,
                way,
                more
            }),
        ([way.clone(), way], 100_i32..9_000, any::<bool>())
            .prop_map(|(on, deep, peck)| Piece::Hole { on, deep, peck }),
    ];
    prop::collection::vec(piece, 1..12)
}

/// How the pieces are put into words.
struct Words {
    plane: Plane,
    incremental: bool,
    inches: bool,
    /// Where G92 puts zero, in thousandths.
    zero: Option<[i32; 3]>,
}

/// The program: every piece is one line, the first of them line 5.
fn program(pieces: &[Piece], words: &Words) -> String {
    let axes = words.plane.axes().map(|axis| char::from(b"XYZ"[axis]));
    let offsets = words.plane.axes().map(|axis| char::from(b"IJK"[axis]));
    let say = |thousandths: i32| {
        let mm = f64::from(thousandths) / 1000.0;
        if words.inches {
            format!("{:.9}", mm / 25.4)
        } else {
            format!("{mm:.3}")
        }
    };
    let (mut at, mut out) = ([0, 0, 10_000], String::from("G98 F100 G21 G0 X0 Y0 Z0\n"));
    writeln!(out, "G0 {}10", axes[2]).expect("a String takes text");
    let unit = if words.inches { "G20" } else { "G21" };
    writeln!(out, "{} {unit} F100", words.plane.code()).expect("a String takes text");
    let zero = words.zero.unwrap_or_default();
    match words.zero {
        Some(zero) => {
            let named: Vec<String> = (0..3)
                .map(|axis| format!("{}{}", axes[axis], say(at[axis] - zero[axis])))
                .collect();
            writeln!(out, "G92 {}", named.join(" ")).expect("a String takes text");
        }
        None => out.push('\n'),
    }
    for piece in pieces {
        let from = at;
        let place = |at: [i32; 3]| -> String {
            (0..3)
                .map(|axis| {
                    let value = if words.incremental {
                        at[axis] - from[axis]
                    } else {
                        at[axis] - zero[axis]
                    };
                    format!(" {}{}", axes[axis], say(value))
                })
                .collect()
        };
        let mode = if words.incremental { "G91" } else { "G90" };
        let line = match *piece {
            Piece::Line(way) => {
                at = std::array::from_fn(|axis| at[axis] + way[axis]);
                format!("G1{}", place(at))
            }
            Piece::Turned {
                right,
                full,
                radius,
                along,
            } => {
                if !full {
                    let up = if right { radius } else { -radius };
                    at = [at[0] + radius, at[1] + up, at[2]];
                }
                at[2] += along;
                let code = if right { "G2" } else { "G3" };
                format!(
                    "{code}{} {}{} {}0",
                    place(at),
                    offsets[0],
                    say(radius),
                    offsets[1]
                )
            }
            Piece::ByRadius {
                right,
                long,
                way,
                more,
            } => {
                at = [at[0] + way[0], at[1] + way[1], at[2]];
                let half = (f64::from(way[0]).hypot(f64::from(way[1])) / 2.0).ceil() as i32 + more;
                let code = if right { "G2" } else { "G3" };
                let sign = if long { "-" } else { "" };
                format!("{code}{} R{sign}{}", place(at), say(half))
            }
            Piece::Hole { on, deep, peck } => {
                at = [at[0] + on[0], at[1] + on[1], at[2]];
                let r = at[2] - 500;
                let (level, bottom) = if words.incremental {
                    (-500, -deep)
                } else {
                    (r - zero[2], r - deep - zero[2])
                };
                let first: String = place(at).split(' ').take(3).collect::<Vec<_>>().join(" ");
                let code = if peck {
                    format!("G83 Q{}", say(2_500))
                } else {
                    "G81".to_owned()
                };
                format!("{code}{first} {}{} R{}", axes[2], say(bottom), say(level))
            }
        };
        writeln!(out, "{mode} {line}").expect("a String takes text");
    }
    out + "M2\n"
}

/// An arc as told of either kind: the line, the turn, the sweep, and the centre along the axes of its plane.
fn arcs(replay: &Replay, plane: Plane) -> Vec<(usize, Turn, f64, [f64; 2])> {
    let [first, second, _] = plane.axes();
    let level = replay
        .motions
        .iter()
        .filter_map(|motion| match motion.course {
            ReadCourse::Arc {
                centre,
                turn,
                sweep,
                ..
            } => Some((motion.line, turn, sweep, [centre.x, centre.y])),
            ReadCourse::Rapid | ReadCourse::Line { .. } => None,
        });
    let upright = replay.upright_arcs.iter();
    level
        .chain(upright.map(|arc| {
            (
                arc.line,
                arc.turn,
                arc.sweep,
                [arc.centre[first], arc.centre[second]],
            )
        }))
        .collect()
}

/// Where each line ends, along the plane's axes.
fn ends(replay: &Replay, plane: Plane) -> Vec<(usize, [f64; 3])> {
    let last_of_line = replay.motions.chunk_by(|one, next| one.line == next.line);
    last_of_line
        .filter_map(<[ReadMotion]>::last)
        .map(|motion| {
            let place = [motion.to.xy.x, motion.to.xy.y, motion.to.z];
            (motion.line, plane.axes().map(|axis| place[axis]))
        })
        .filter(|(line, _)| *line > 2)
        .collect()
}

/// Rounding of the numbers that the program is written with, mm.
const ROUNDING_MM: f64 = 1e-5;

fn check_same(pieces: &[Piece], words: &Words) {
    let plain = Words {
        plane: Plane::Xy,
        incremental: false,
        inches: false,
        zero: None,
    };
    let (text, other) = (program(pieces, &plain), program(pieces, words));
    let (one, two) = (replay_of(&text), replay_of(&other));
    let close = |a: f64, b: f64| (a - b).abs() < ROUNDING_MM;
    let (a, b) = (ends(&one, Plane::Xy), ends(&two, words.plane));
    assert_eq!(a.len(), pieces.len(), "{text}");
    assert_eq!(a.len(), b.len(), "{other}");
    for (a, b) in a.iter().zip(&b) {
        let same = (0..3).all(|axis| close(a.1[axis], b.1[axis]));
        assert!(a.0 == b.0 && same, "{a:?} and {b:?}\n{text}\n{other}");
    }
    for (a, b) in arcs(&one, Plane::Xy).iter().zip(arcs(&two, words.plane)) {
        // An arc by its radius near a half turn tells its centre the worse, the nearer.
        let near = a.3.iter().zip(b.3).all(|(a, b)| (a - b).abs() < 0.01);
        assert!(
            a.0 == b.0 && a.1 == b.1 && near,
            "{a:?} and {b:?}\n{text}\n{other}"
        );
        assert!((a.2 - b.2).abs() < 0.01, "{a:?} and {b:?}\n{text}\n{other}");
    }
    assert_eq!(arcs(&one, Plane::Xy).len(), arcs(&two, words.plane).len());
    assert_eq!(one.cycles.len(), two.cycles.len());
    let cut = |replay: &Replay| -> f64 {
        let motions = replay
            .motions
            .iter()
            .filter(|motion| motion.feed_mm_min().is_some());
        motions.map(ReadMotion::length_mm).sum()
    };
    let (a, b) = (cut(&one), cut(&two));
    assert!(
        (a - b).abs() < 1e-3 * a + 0.01 * pieces.len() as f64,
        "{a} and {b}\n{text}\n{other}"
    );
    assert!(
        two.frames
            .iter()
            .all(|frame| frame.datums.iter().all(|datum| *datum == Datum::Work(1)))
    );
}

proptest! {
    #![proptest_config(cases(400))]
    #[test]
    fn the_same_in_other_words(
        pieces in pieces(),
        plane in prop::sample::select(vec![Plane::Xy, Plane::Zx, Plane::Yz]),
        (incremental, inches) in any::<(bool, bool)>(),
        zero in prop::option::of([-9_000_i32..9_000, -9_000_i32..9_000, -9_000_i32..9_000]),
    ) {
        check_same(&pieces, &Words { plane, incremental, inches, zero });
    }
}
