//! The sums of the bench against a linear-algebra library and against printed tables.
//!
//! # Source
//! - Plane, twist, squareness and line: the same problems solved by the crate `nalgebra` 0.34.2 (`svd` and `solve` with 1e-12; `try_inverse` of
//!   the normal matrix for the uncertainty). Its answers stand below; the problems are made here again, number by number. The crate
//!   itself is no part of the tests, because it would have most of the window's libraries built twice.
//! - Moisture that wood settles to: USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-282, 2021, table 4-2, in degrees
//!   Fahrenheit; the equation in Fahrenheit beside it, eq. 4-5 of FPL-GTR-190, 2010.
//! - Movement: FPL-GTR-190, 2010, tables 4-3 and 13-5, and the worked example after table 13-5 (a flat-grain board of white fir).

use bench::height::{Reading, shape};
use bench::moisture::{Climate, FIBRE_SATURATION, coefficient, movement};
use bench::species::{Grain, Species};
use bench::square::{Block, Map, from_block};
use bench::{minutes, species};

/// Numbers in −1 to 1 that look random and are the same every time.
struct Scatter(u64);

impl Scatter {
    fn next(&mut self) -> f64 {
        // An ordinary congruential sequence (D. Knuth's MMIX constants).
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    }
}

#[track_caller]
fn check(what: &str, found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "{what}: {found} against {wanted}"
    );
}

/// The library's answers for planes: rise along, rise across, twist.
#[rustfmt::skip]
const PLANES: [[f64; 3]; 24] = [
    [-0.320143554991, 0.256583639381, -1.821752593],
    [0.742400866702, 0.778399289703, 1.748758003],
    [0.588626821014, 0.536155076065, 0.423793973],
    [-0.318122176999, 0.234967138160, -0.529759809],
    [-0.098876756077, 0.326991855235, 3.346877533],
    [-0.005816905846, -0.107626703274, 0.514070150],
    [0.042251642071, 0.266712818928, 0.306085297],
    [-0.019130680648, -0.211991761337, 0.763498460],
    [-0.126627591212, -0.041853251364, 0.983642198],
    [0.260932863584, 0.218098248983, 0.871944237],
    [-0.070470302465, 0.009738610218, 0.438802521],
    [-0.394624683068, -0.007775718489, -0.573340855],
    [0.093323577137, -0.222294140541, 0.799638304],
    [0.002777749313, 0.227769348997, -0.175435459],
    [-0.073160521793, 0.038414490901, -0.731581313],
    [-0.208785610249, -0.205146925028, -0.397789837],
    [0.157005839736, 0.131970320591, 0.044618995],
    [-0.217630672362, 0.147810400368, 3.224353639],
    [-0.530032699974, 0.547557721589, -1.349479299],
    [0.608620914515, -0.097438708901, -0.301867783],
    [-0.168700267042, 0.311852114887, -1.265180694],
    [-0.623141175949, -0.138363901347, 0.415615549],
    [0.167400152639, 0.278375277659, 0.197344925],
    [0.146740520881, 0.095942671217, 0.305300121],
];

/// Its answers for squareness: scale x, scale y, skew, and how far the skew goes with an error of one in every measure.
#[rustfmt::skip]
const SQUARES: [[f64; 4]; 24] = [
    [1.003060872, 1.000680821, -0.005087068, 0.007441547],
    [0.997950357, 0.997025555, 0.000332811, 0.013810716],
    [0.998804189, 1.003568536, -0.001147009, 0.007761194],
    [0.997762197, 0.997654968, -0.000418418, 0.008533457],
    [0.998071457, 1.003222903, -0.004322460, 0.008612139],
    [1.002399417, 1.002839230, 0.002381738, 0.014264184],
    [1.003915346, 0.997577927, 0.000640772, 0.010665766],
    [1.003623977, 1.001586597, -0.004758291, 0.012481708],
    [0.998597576, 1.003101564, -0.003672572, 0.009747650],
    [1.000216852, 0.999310264, -0.005430603, 0.010693020],
    [1.002191306, 0.998815105, -0.005387169, 0.012497701],
    [0.998386157, 0.997971091, -0.001967969, 0.025667534],
    [0.999572406, 1.002879181, 0.000815513, 0.021832029],
    [1.002777876, 0.998848070, -0.004956921, 0.025776474],
    [0.998640601, 1.000909911, -0.004601786, 0.033336365],
    [1.001018827, 0.999262707, -0.004650181, 0.009284681],
    [0.996945540, 0.999442158, -0.005429952, 0.010148987],
    [1.003016380, 1.003999448, -0.001688445, 0.009258227],
    [0.997125201, 0.997639992, -0.004191951, 0.010000523],
    [1.002982933, 1.003587210, -0.005512781, 0.031318169],
    [1.002189746, 1.001392143, -0.004477850, 0.008975703],
    [1.002320162, 0.997926359, 0.002626351, 0.017279545],
    [1.000026082, 1.000499408, 0.002165987, 0.010439189],
    [1.001669982, 0.998372614, -0.002090823, 0.008513204],
];

/// Its answer for a line: factor and minutes besides.
const LINE: [f64; 2] = [1.150_158_427_240, 1.513_100_914_959];

#[test]
fn planes_and_twist_agree_with_the_library() {
    let mut scatter = Scatter(7);
    for (case, by_library) in PLANES.into_iter().enumerate() {
        let count = 4 + case % 17;
        // Planks far from the gauge's zero and long for their width, too.
        let (long, wide) = (
            50.0 + 800.0 * scatter.next().abs(),
            10.0 + 300.0 * scatter.next().abs(),
        );
        let (x0, y0) = (1e4 * scatter.next(), 1e3 * scatter.next());
        let readings: Vec<Reading> = (0..count)
            .map(|_| Reading {
                at: [x0 + long * scatter.next(), y0 + wide * scatter.next()],
                height: 23.3 + 0.4 * scatter.next(),
            })
            .collect();
        let Ok(found) = shape(&readings) else {
            panic!("case {case} has no shape");
        };
        check("along", found.along, by_library[0], 1e-9);
        check("across", found.across, by_library[1], 1e-9);
        let twist = found.twist.expect("places that show a twist");
        check(
            "twist",
            twist,
            by_library[2],
            1e-7 * by_library[2].abs().max(1.0),
        );
    }
}

/// The block that a machine cuts when asked for one: its sides and diagonals, each off by up to the tool.
fn measured(map: Map, asked: [f64; 2], tool: f64, scatter: &mut Scatter) -> Block {
    let [a, b] = asked;
    let mut length = |x: f64, y: f64| {
        let [x, y] = map.done([x, y]);
        x.hypot(y) + tool * scatter.next()
    };
    Block {
        asked,
        widths: vec![length(a, 0.0), length(a, 0.0)],
        lengths: vec![length(0.0, b), length(0.0, b)],
        rising: vec![length(a, b)],
        falling: vec![length(a, -b)],
        tool,
    }
}

#[test]
fn squareness_agrees_with_the_librarys_affine_fit() {
    let mut scatter = Scatter(11);
    let tool = 0.02;
    let mut skews_within = 0;
    for by_library in SQUARES {
        let map = Map {
            scale_x: 1.0 + 0.004 * scatter.next(),
            scale_y: 1.0 + 0.004 * scatter.next(),
            skew: 0.006 * scatter.next(),
        };
        let asked = [
            80.0 + 60.0 * scatter.next().abs(),
            100.0 + 80.0 * scatter.next(),
        ];
        let block = measured(map, asked, tool, &mut scatter);
        let found = from_block(&block).expect("readings within the tool");
        // The library was asked another way: squares of lengths are linear in the products of the map's columns, and rows are weighed
        // against the length.
        let [a, b] = asked;
        let [scale_x, scale_y, skew, spread] = by_library;
        // Both are least squares of nearly the same: they differ by the square of the tool's part of a length.
        let within = 4.0 * (tool / a.min(b)).powi(2);
        check("scale x", found.map.scale_x, scale_x, within);
        check("scale y", found.map.scale_y, scale_y, within);
        check("skew", found.map.skew, skew, within);
        skews_within += usize::from((found.map.skew - map.skew).abs() <= found.uncertain.skew);
        let of_tool = 2.0 * tool / 3.0_f64.sqrt();
        check(
            "uncertainty",
            found.uncertain.skew / (spread * of_tool),
            1.0,
            0.05,
        );
    }
    // Twice the standard deviation leaves out about a twentieth.
    assert!(skews_within + 3 >= SQUARES.len(), "{skews_within}");
}

#[test]
fn minutes_without_stray_runs_are_least_squares() {
    let mut scatter = Scatter(3);
    let runs: Vec<minutes::Run> = (1..30)
        .map(|number| {
            let estimated = f64::from(number) * 2.0;
            minutes::Run {
                program: format!("p{number}"),
                estimated,
                took: 1.15 * estimated + 1.5 + 0.2 * scatter.next(),
            }
        })
        .collect();
    let judged = minutes::judge(&runs).expect("a line");
    assert!(judged.left_out.is_empty());
    check("factor", judged.factor, LINE[0], 1e-10);
    check("besides", judged.each, LINE[1], 1e-9);
}

fn settles_to(fahrenheit: f64, humidity: f64) -> f64 {
    Climate {
        temperature_c: (fahrenheit - 32.0) / 1.8,
        humidity,
    }
    .equilibrium()
    .expect("air that wood is kept in")
}

#[test]
fn moistures_of_the_handbooks_table() {
    for (fahrenheit, humidity, printed) in [
        (70.0, 5.0, 1.3),
        (70.0, 30.0, 6.2),
        (70.0, 50.0, 9.2),
        (70.0, 75.0, 14.4),
        (70.0, 85.0, 17.9),
        (70.0, 95.0, 23.9),
        (30.0, 75.0, 14.9),
        (30.0, 95.0, 24.3),
        (100.0, 50.0, 8.7),
        (100.0, 90.0, 19.5),
    ] {
        // Half of the last digit printed, and a hundredth for what the two forms of the equation differ by.
        check("table 4-2", settles_to(fahrenheit, humidity), printed, 0.06);
    }
}

#[test]
fn both_forms_of_the_equation_agree() {
    for fahrenheit in (30..=100).step_by(5).map(f64::from) {
        for humidity in (5..=95).step_by(5).map(f64::from) {
            let (t, h) = (fahrenheit, humidity / 100.0);
            let w = 330.0 + 0.452 * t + 0.004_15 * t * t;
            let k = 0.791 + 0.000_463 * t - 0.000_000_844 * t * t;
            let k1 = 6.34 + 0.000_775 * t - 0.000_093_5 * t * t;
            let k2 = 1.09 + 0.0284 * t - 0.000_090_4 * t * t;
            let kh = k * h;
            let bound = (k1 * kh + 2.0 * k1 * k2 * kh * kh) / (1.0 + k1 * kh + k1 * k2 * kh * kh);
            let wanted = 1800.0 / w * (kh / (1.0 - kh) + bound);
            check("°C against °F", settles_to(t, humidity), wanted, 0.02);
        }
    }
}

#[test]
fn coefficients_of_the_handbooks_tables() {
    let woods = [
        ("hard maple", Grain::Tangential, 0.003_53),
        ("hard maple", Grain::Radial, 0.001_65),
        ("beech", Grain::Tangential, 0.004_31),
        ("beech", Grain::Radial, 0.001_90),
        ("black cherry", Grain::Tangential, 0.002_48),
        ("black cherry", Grain::Radial, 0.001_26),
        ("red maple", Grain::Tangential, 0.002_89),
        ("red maple", Grain::Radial, 0.001_37),
        ("yellow birch", Grain::Tangential, 0.003_38),
        ("yellow birch", Grain::Radial, 0.002_56),
    ];
    for (wood, grain, printed) in woods {
        let wood = Species::named(wood).expect("a known wood");
        check(
            wood.name,
            coefficient(wood.shrinkage(grain)),
            printed,
            0.000_005_1,
        );
    }
}

#[test]
fn worked_examples_of_movement() {
    // A board of white fir, 232 mm wide, from 8 to 11 %: the handbook prints 1.7 mm. Its shrinkage by the coefficient 0.00245.
    let fir = 0.002_45 * 3000.0 / (1.0 + 20.0 * 0.002_45);
    let grows = movement(232.0, fir, 8.0, 11.0).expect("within the range");
    check("white fir", grows, 1.7052, 1e-4);
    // A body of ten lines in hard maple from 8 to 6 %.
    let maple = Species::named("hard maple").expect("a known wood");
    let body = 42.175_176;
    for (grain, wanted) in [(Grain::Tangential, -0.2978), (Grain::Radial, -0.1392)] {
        let moves = movement(body, maple.shrinkage(grain), 8.0, 6.0).expect("within the range");
        // The printed coefficient is rounded to five decimals.
        check("ten lines", moves, wanted, 0.0004);
    }
    // A height on end, 4 %: at the most twice a third of a hundredth of a millimetre.
    let height = movement(23.3172, species::ALONG_GRAIN, 8.0, 12.0).expect("within the range");
    check("on end", height, 0.0062, 0.000_05);
    assert!(height < 0.0203, "less than 0.0008 in");
    assert!(movement(10.0, 5.0, 8.0, FIBRE_SATURATION + 1.0).is_err());
}
