//! The sums of the bench against a linear-algebra library and against printed tables.
//!
//! # Source
//! - Plane, twist, squareness and line: the same problems solved here and now with the library `glam`, by its inverse of the normal matrix.
//! - Moisture that wood settles to: USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-282, 2021, table 4-2, in degrees
//!   Fahrenheit; the equation in Fahrenheit beside it, eq. 4-5 of FPL-GTR-190, 2010.
//! - Movement: FPL-GTR-190, 2010, tables 4-3 and 13-5, and the worked example after table 13-5 (a flat-grain board of white fir).

use bench::height::{Reading, shape};
use bench::moisture::{Climate, FIBRE_SATURATION, coefficient, movement};
use bench::species::{Grain, Species};
use bench::square::{Block, Map, from_block};
use bench::{minutes, species};
use glam::{DMat4, DVec4};

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

/// The normal matrix of rows of at most four coefficients; what is left over stays that of the identity.
fn normal_matrix<'a>(rows: impl Iterator<Item = &'a Vec<f64>>) -> DMat4 {
    let mut unknowns = 0;
    let mut normal = DMat4::ZERO;
    for row in rows {
        unknowns = row.len();
        let of_row = padded(row);
        normal += DMat4::from_cols(
            of_row * of_row.x,
            of_row * of_row.y,
            of_row * of_row.z,
            of_row * of_row.w,
        );
    }
    for spare in unknowns..4 {
        normal.col_mut(spare)[spare] = 1.0;
    }
    normal
}

fn padded(row: &[f64]) -> DVec4 {
    let at = |place: usize| row.get(place).copied().unwrap_or(0.0);
    DVec4::new(at(0), at(1), at(2), at(3))
}

/// The library's least squares: the unknowns for which the rows (coefficients and right side) fit best.
fn by_library(rows: &[(Vec<f64>, f64)]) -> Vec<f64> {
    let normal = normal_matrix(rows.iter().map(|(row, _)| row));
    let right: DVec4 = rows.iter().map(|(row, right)| padded(row) * *right).sum();
    let solved = normal.inverse() * right;
    solved.to_array()[..rows[0].0.len()].to_vec()
}

/// How far an unknown goes with an error of one in every row, as a standard deviation, by the library's inverse of the normal matrix.
fn spread_by_library(rows: &[Vec<f64>], unknown: usize) -> f64 {
    let inverse = normal_matrix(rows.iter()).inverse();
    inverse.col(unknown)[unknown].sqrt()
}

/// Problems of each kind.
const CASES: usize = 24;

#[test]
fn planes_and_twist_agree_with_the_library() {
    let mut scatter = Scatter(7);
    for case in 0..CASES {
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
        // Over the extent of the readings, counted from its middle: rises and twist are those of the corners.
        let extent = |axis: usize| {
            let places = readings.iter().map(|reading| reading.at[axis]);
            let least = places.clone().fold(f64::INFINITY, f64::min);
            let most = places.fold(f64::NEG_INFINITY, f64::max);
            (f64::midpoint(least, most), most - least)
        };
        let ((x_middle, x_extent), (y_middle, y_extent)) = (extent(0), extent(1));
        let rows = |is_twisted: bool| -> Vec<(Vec<f64>, f64)> {
            let row = |reading: &Reading| {
                let x = (reading.at[0] - x_middle) / x_extent;
                let y = (reading.at[1] - y_middle) / y_extent;
                let mut row = vec![1.0, x, y];
                row.extend(is_twisted.then_some(x * y));
                (row, reading.height)
            };
            readings.iter().map(row).collect()
        };
        let plane = by_library(&rows(false));
        check("along", found.along, plane[1], 1e-9);
        check("across", found.across, plane[2], 1e-9);
        let twist = found.twist.expect("places that show a twist");
        let wanted = by_library(&rows(true))[3];
        check("twist", twist, wanted, 1e-7 * wanted.abs().max(1.0));
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

/// Where the ends of each length that was measured lie, as asked for.
fn kinds_of(block: &Block, a: f64, b: f64) -> Vec<(f64, f64)> {
    let kinds = [
        (block.widths.len(), (a, 0.0)),
        (block.lengths.len(), (0.0, b)),
        (block.rising.len(), (a, b)),
        (block.falling.len(), (a, -b)),
    ];
    let each = kinds.into_iter();
    each.flat_map(|(count, end)| std::iter::repeat_n(end, count))
        .collect()
}

#[test]
fn squareness_agrees_with_the_librarys_affine_fit() {
    let mut scatter = Scatter(11);
    let tool = 0.02;
    let mut skews_within = 0;
    for _ in 0..CASES {
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
        // The library is asked another way: squares of lengths are linear in the products of the map's columns, and rows are weighed against
        // the length.
        let [a, b] = asked;
        let products = |x: f64, y: f64| vec![x * x, 2.0 * x * y, y * y];
        let kinds = [
            (&block.widths, a, 0.0),
            (&block.lengths, 0.0, b),
            (&block.rising, a, b),
            (&block.falling, a, -b),
        ];
        let rows: Vec<(Vec<f64>, f64)> = kinds
            .into_iter()
            .flat_map(|(lengths, x, y)| {
                lengths.iter().map(move |&length| {
                    let weighed = products(x, y).into_iter().map(|part| part / length);
                    (weighed.collect(), length)
                })
            })
            .collect();
        let solved = by_library(&rows);
        let [xx, xy, yy] = solved[..] else {
            panic!("three unknowns");
        };
        let (scale_x, scale_y) = (xx.sqrt(), yy.sqrt());
        let skew = (xy / (scale_x * scale_y)).asin();
        // How lengths change with scale x, scale y and skew, at what was found.
        let lengths = |map: [f64; 3], x: f64, y: f64| {
            let [sx, sy, skew] = map;
            (sx * x + sy * skew.sin() * y).hypot(sy * skew.cos() * y)
        };
        let slopes: Vec<Vec<f64>> = kinds_of(&block, a, b)
            .into_iter()
            .map(|(x, y)| {
                const STEP: f64 = 1e-6;
                (0..3)
                    .map(|unknown| {
                        let moved = |by: f64| {
                            let mut map = [scale_x, scale_y, skew];
                            map[unknown] += by;
                            lengths(map, x, y)
                        };
                        (moved(STEP) - moved(-STEP)) / (2.0 * STEP)
                    })
                    .collect()
            })
            .collect();
        let spread = spread_by_library(&slopes, 2);
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
    assert!(skews_within + 3 >= CASES, "{skews_within}");
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
    let rows: Vec<(Vec<f64>, f64)> = runs
        .iter()
        .map(|run| (vec![run.estimated, 1.0], run.took))
        .collect();
    let line = by_library(&rows);
    check("factor", judged.factor, line[0], 1e-10);
    check("besides", judged.each, line[1], 1e-9);
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
