//! The time of programs against a machine simulated step by step, written apart from the estimate (see `testkit::simulator`).
//!
//! # Source
//! Evenly accelerated motion, any textbook of mechanics; corners by S. K. Jeon's article of 2011, as the simulator states it.

#![allow(clippy::print_stdout)] // The figures measured are worth reading.

use std::f64::consts::TAU;
use std::fmt::Write as _;

use cam_core::make::make;
use cam_core::progress::Progress;
use cam_core::toolpath::duration::duration;
use cam_core::workshop::{Machine, Workshop};
use rayon::prelude::*;
use reader::read;
use testkit::simulator::{Axes, seconds};
use testkit::{fonts, orders};

/// How far estimate and simulation may differ.
const MOST: f64 = 0.02;

/// Programs made up here, beside those of real commissions.
const MADE_UP: u64 = 92;

fn axes(machine: &Machine) -> Axes {
    let a_second = |speeds: [f64; 3]| speeds.map(|speed| speed / 60.0);
    Axes {
        rapid: a_second(machine.rapid_mm_min),
        feed: a_second(machine.max_feed_mm_min),
        acceleration: machine.acceleration_mm_s2,
        deviation: machine.junction_deviation_mm,
    }
}

/// Machines from slow to fast.
fn machines() -> Vec<Machine> {
    let light = Workshop::starting().machine;
    let heavy = Machine {
        rapid_mm_min: [9000.0, 9000.0, 4000.0],
        max_feed_mm_min: [6000.0, 6000.0, 3000.0],
        acceleration_mm_s2: [1000.0, 1000.0, 600.0],
        junction_deviation_mm: 0.005,
        ..light.clone()
    };
    let uneven = Machine {
        acceleration_mm_s2: [250.0, 120.0, 60.0],
        max_feed_mm_min: [2500.0, 1200.0, 500.0],
        ..light.clone()
    };
    vec![light, heavy, uneven]
}

/// Evenly spread numbers, the same on every run (a linear congruential generator with Knuth's MMIX constants).
struct Spread(u64);

impl Spread {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * (self.0 >> 33) as f64 / (1_u64 << 31) as f64
    }
}

/// A program of one kind of motion after another, told by its number.
fn made_up(number: u64) -> String {
    let mut spread = Spread(number);
    let feed = spread.between(300.0, 3000.0);
    let mut text = format!(
        "G21 G90 G17\nM3 S12000\nG0 Z5\nG0 X10 Y10\nG0 Z0.5\nG1 Z-1 F{:.0}\n",
        feed / 4.0
    );
    let mut here = (10.0, 10.0, -1.0);
    match number % 8 {
        // A smooth curve in short chords.
        0 => {
            for piece in 1..300 {
                let angle = f64::from(piece) * 0.02;
                let (x, y) = (
                    30.0 + (20.0 + angle) * angle.cos(),
                    30.0 + 15.0 * (1.3 * angle).sin(),
                );
                let _ = writeln!(text, "G1 X{x:.4} Y{y:.4} F{feed:.0}");
            }
        }
        // Sharp zigzags of all lengths.
        1 => {
            for _ in 0..50 {
                here.0 += spread.between(-8.0, 8.0) * spread.between(0.01, 1.0);
                here.1 += spread.between(-8.0, 8.0);
                let _ = writeln!(text, "G1 X{:.4} Y{:.4} F{feed:.0}", here.0, here.1);
            }
        }
        // Arcs that touch one another, and some that do not.
        2 => {
            for _ in 0..40 {
                let (radius, from) = (spread.between(0.3, 12.0), spread.between(0.0, TAU));
                let turned = spread.between(0.2, 5.5);
                let (i, j) = (-radius * from.cos(), -radius * from.sin());
                let end = from + turned;
                here = (
                    here.0 + i + radius * end.cos(),
                    here.1 + j + radius * end.sin(),
                    -1.0,
                );
                let _ = writeln!(
                    text,
                    "G3 X{:.5} Y{:.5} I{i:.5} J{j:.5} F{feed:.0}",
                    here.0, here.1
                );
                here.0 = (here.0 * 1e5).round() / 1e5;
                here.1 = (here.1 * 1e5).round() / 1e5;
            }
        }
        // Helices down and full circles.
        3 => {
            for turn in 1..20 {
                let radius = spread.between(0.4, 6.0);
                let depth = -1.0 - f64::from(turn) * spread.between(0.0, 0.02);
                let sense = if turn % 2 == 0 { 2 } else { 3 };
                let _ = writeln!(
                    text,
                    "G{sense} X10 Y10 Z{depth:.4} I{radius:.4} J0 F{feed:.0}"
                );
            }
        }
        // Hops, with dwells and pauses between.
        4 => {
            for hop in 0..20 {
                let (x, y) = (spread.between(0.0, 90.0), spread.between(0.0, 60.0));
                let _ = writeln!(
                    text,
                    "G0 Z2\nG0 X{x:.3} Y{y:.3}\nG0 Z0.5\nG1 Z-1.5 F{:.0}",
                    feed / 5.0
                );
                let _ = writeln!(
                    text,
                    "G1 X{:.3} Y{y:.3} F{feed:.0}",
                    x + spread.between(0.1, 4.0)
                );
                if hop % 10 == 7 {
                    text.push_str("G4 P0.5\n");
                }
                if hop % 10 == 9 {
                    text.push_str("M0\n");
                }
            }
        }
        // Slopes to and fro.
        5 => {
            for leg in 1..40 {
                let x = if leg % 2 == 0 {
                    10.0
                } else {
                    10.0 + spread.between(0.3, 9.0)
                };
                let _ = writeln!(
                    text,
                    "G1 X{x:.4} Z{:.4} F{feed:.0}",
                    -1.0 - f64::from(leg) * 0.02
                );
            }
        }
        // Rounded rectangles: lines and arcs that touch.
        6 => {
            for ring in 0..10 {
                let (r, half) = (spread.between(0.2, 4.0), 6.0 + f64::from(ring) * 0.4);
                let _ = writeln!(
                    text,
                    "G1 X{:.4} Y{:.4} F{feed:.0}\nG1 X{:.4}\nG3 X{:.4} Y{:.4} I0 J{r:.4}\nG1 Y{:.4}",
                    40.0 - half + r,
                    40.0 - half,
                    40.0 + half - r,
                    40.0 + half,
                    40.0 - half + r,
                    40.0 + half
                );
            }
        }
        // Exact stops, then flowing again.
        _ => {
            for leg in 0..30 {
                let word = if leg % 10 < 5 { "G61.1" } else { "G64" };
                let (x, y) = (spread.between(0.0, 30.0), spread.between(0.0, 30.0));
                let z = spread.between(-2.0, -1.0);
                let _ = writeln!(text, "{word}\nG1 X{x:.4} Y{y:.4} Z{z:.4} F{feed:.0}");
            }
        }
    }
    text.push_str("G0 Z5\nM5\nM2\n");
    text
}

/// The programs of a few sorts of a real font, cut whole.
fn of_a_font(name: &str, lines: f64, letters: &str) -> Vec<String> {
    let (commission, fonts) = orders::of_text(fonts::text_font(name), lines, letters);
    let job = make(&commission, &Workshop::starting(), &fonts, &Progress::new())
        .expect("a small commission can be made");
    job.programs
        .into_iter()
        .map(|program| program.text)
        .collect()
}

#[test]
fn a_hundred_programs_take_the_time_that_was_estimated() {
    let mut programs: Vec<(String, String, Machine)> = Vec::new();
    let machines = machines();
    for (name, lines, letters) in [
        ("libertinus-serif", 6.0, "aS"),
        ("dejavu-sans-mono-bold", 4.0, "Me"),
    ] {
        for (number, text) in of_a_font(name, lines, letters).into_iter().enumerate() {
            programs.push((format!("{name} {number}"), text, machines[0].clone()));
        }
    }
    let real = programs.len();
    assert!(real >= 8, "{real} programs of fonts");
    for number in 0..MADE_UP {
        let machine = machines[number as usize / 8 % machines.len()].clone();
        programs.push((format!("made up {number}"), made_up(number), machine));
    }
    assert!(programs.len() >= 100);
    let off: Vec<(f64, String)> = programs
        .par_iter()
        .map(|(name, text, machine)| {
            let replay = read(text).unwrap_or_else(|error| panic!("{name}: {error}"));
            let (estimate, simulated) = (duration(&replay, machine), seconds(text, &axes(machine)));
            let off = estimate / simulated - 1.0;
            (
                off,
                format!(
                    "{name}: {estimate:.2} s, simulated {simulated:.2} s, {:.3} %",
                    100.0 * off
                ),
            )
        })
        .collect();
    let worst = off.iter().max_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
    let (worst, says) = worst.expect("there are programs");
    println!("the worst of {}: {says}", off.len());
    assert!(worst.abs() <= MOST, "{says}");
}

/// The estimate is not the sum of lengths through feeds, which such programs would show to be wrong by far.
#[test]
fn short_chords_and_zigzags_are_slower_than_their_feeds() {
    let machine = &machines()[0];
    for number in [8, 9] {
        let text = made_up(number);
        let replay = read(&text).expect("a program of the standard");
        let by_feeds: f64 = replay
            .motions
            .iter()
            .filter_map(|motion| Some(motion.length_mm() / motion.feed_mm_min()? * 60.0))
            .sum();
        let simulated = seconds(&text, &axes(machine));
        assert!(
            simulated > 1.02 * by_feeds,
            "{simulated} s, by feeds {by_feeds} s"
        );
    }
}
