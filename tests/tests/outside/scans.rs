//! Letters drawn, printed to a blurred, noisy, crooked scan, traced, and laid on what was drawn.
//!
//! # Source
//! Letters of fonts that registry packages carry, filled by the library `tiny-skia`, encoded and decoded by `image`. What counts is how far the
//! traced outline lies from the drawn one: a median under half a dot, and all corners within one and a half; on the worst of the scans, rougher than
//! flat beds make them (common practice, no source), 98 of 100.
#![expect(
    clippy::print_stdout,
    reason = "the distances are what the test is run for"
)]

use std::collections::BTreeMap;
use std::io::Cursor;

use drawing::scan::{Known, Settings, Traced, Unwatched, trace};
use geometry::font::Font;
use image::{GrayImage, ImageFormat, Luma};
use kurbo::{
    Affine, BezPath, ParamCurve, ParamCurveArclen, ParamCurveDeriv, ParamCurveNearest, PathEl,
    PathSeg, Point, Shape, Vec2,
};
use testkit::fonts::text_font;

/// The goals for the outline's median and for corners, in dots.
const MEDIAN: f64 = 0.5;
const CORNER: f64 = 1.5;
/// On the worst of scans two corners in a hundred may lie further off than the goal, but not further than this, in dots.
const MOST_OF_ROUGH: f64 = 0.98;
const FURTHEST: f64 = 2.0;
/// Height of the em on the scan, in dots: letters of 24 lines at 300 dots to the inch are three times as high.
const EM: f64 = 320.0;

/// What a scanner does.
#[derive(Clone, Copy, Debug)]
struct Scanner {
    turn_deg: f64,
    blur: f64,
    noise: f64,
    /// Whether every corner is held to the goal: on the worst of scans, noise hides where some blunt ones lie along their sides.
    shows_all: bool,
}

const SCANNERS: [Scanner; 3] = [
    Scanner {
        turn_deg: 0.0,
        blur: 0.6,
        noise: 4.0,
        shows_all: true,
    },
    Scanner {
        turn_deg: 2.3,
        blur: 1.0,
        noise: 10.0,
        shows_all: true,
    },
    Scanner {
        turn_deg: -4.1,
        blur: 1.4,
        noise: 18.0,
        shows_all: false,
    },
];

/// A letter in dots, y down, turned as it lies on the scan, and the size of the scan.
fn letter(font: &Font, character: char, scanner: Scanner) -> (BezPath, [u32; 2]) {
    let glyph = font.glyph_for(character).expect("the font has it");
    let scale = EM / font.units_per_em();
    let upright = Affine::new([scale, 0.0, 0.0, -scale, 0.0, 0.0])
        * font.outline(glyph).expect("it is drawn");
    let turned = Affine::rotate(-scanner.turn_deg.to_radians()) * upright;
    let bounds = turned.bounding_box().inflate(20.0, 20.0);
    // Not on whole dots.
    let place = Affine::translate(Vec2::new(0.37, 0.61) - bounds.origin().to_vec2());
    (
        place * turned,
        [bounds.width(), bounds.height()].map(|side| side.ceil() as u32 + 1),
    )
}

fn scanned(path: &BezPath, size: [u32; 2], scanner: Scanner) -> Vec<u8> {
    const FINER: u32 = 4;
    const PAPER: f64 = 232.0;
    const INK: f64 = 38.0;
    let mut mask = tiny_skia::Mask::new(size[0] * FINER, size[1] * FINER).expect("a size");
    let mut builder = tiny_skia::PathBuilder::new();
    let f = |value: f64| value as f32;
    for element in (Affine::scale(FINER.into()) * path.clone()).elements() {
        match *element {
            PathEl::MoveTo(p) => builder.move_to(f(p.x), f(p.y)),
            PathEl::LineTo(p) => builder.line_to(f(p.x), f(p.y)),
            PathEl::QuadTo(a, p) => builder.quad_to(f(a.x), f(a.y), f(p.x), f(p.y)),
            PathEl::CurveTo(a, b, p) => {
                builder.cubic_to(f(a.x), f(a.y), f(b.x), f(b.y), f(p.x), f(p.y))
            }
            PathEl::ClosePath => builder.close(),
        }
    }
    let filled = builder.finish().expect("a path");
    mask.fill_path(
        &filled,
        tiny_skia::FillRule::Winding,
        true,
        tiny_skia::Transform::identity(),
    );
    let (width, height) = (size[0] as usize, size[1] as usize);
    let mut ink = vec![0.0; width * height];
    let fine = width * FINER as usize;
    for (place, &cover) in mask.data().iter().enumerate() {
        let (x, y) = (place % fine / FINER as usize, place / fine / FINER as usize);
        ink[y * width + x] += f64::from(cover) / 255.0 / f64::from(FINER * FINER);
    }
    let ink = blurred(
        &blurred(&ink, width, height, scanner.blur, 1, width),
        width,
        height,
        scanner.blur,
        width,
        1,
    );
    let mut state = 7_u64;
    let picture = GrayImage::from_fn(size[0], size[1], |x, y| {
        // Twelve even numbers add up to nearly a bell curve.
        let mut noise = -6.0;
        for _ in 0..12 {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            noise += (state >> 40) as f64 / (1_u64 << 24) as f64;
        }
        let part = ink[y as usize * width + x as usize];
        let shade = PAPER + (INK - PAPER) * part + noise * scanner.noise;
        Luma([shade.round().clamp(0.0, 255.0) as u8])
    });
    let mut bytes = Cursor::new(Vec::new());
    picture
        .write_to(&mut bytes, ImageFormat::Png)
        .expect("memory takes it");
    bytes.into_inner()
}

/// One direction of a blur by a bell curve.
fn blurred(
    values: &[f64],
    width: usize,
    height: usize,
    deviation: f64,
    step: usize,
    stride: usize,
) -> Vec<f64> {
    let (length, lines) = if step == 1 {
        (width, height)
    } else {
        (height, width)
    };
    let half = (3.0 * deviation).ceil() as i64;
    let weights: Vec<f64> = (-half..=half)
        .map(|place| (-0.5 * (place as f64 / deviation).powi(2)).exp())
        .collect();
    let sum: f64 = weights.iter().sum();
    let mut result = vec![0.0; values.len()];
    for line in 0..lines {
        for place in 0..length {
            let mut mean = 0.0;
            for (number, weight) in weights.iter().enumerate() {
                let from =
                    (place as i64 + number as i64 - half).clamp(0, length as i64 - 1) as usize;
                mean += weight / sum * values[line * stride + from * step];
            }
            result[line * stride + place * step] = mean;
        }
    }
    result
}

/// Corners of a drawn outline that a scan can show: a turn of 40 to 150 degrees between pieces that run on for ten dots, with paper beside it.
fn corners(path: &BezPath) -> Vec<Point> {
    const SIDE: f64 = 10.0;
    let mut corners = Vec::new();
    let mut rings: Vec<Vec<PathSeg>> = Vec::new();
    for segment in path.segments() {
        match rings.last_mut() {
            Some(ring)
                if ring
                    .last()
                    .is_some_and(|last| last.end().distance(segment.start()) < 1e-9) =>
            {
                ring.push(segment)
            }
            Some(_) | None => rings.push(vec![segment]),
        }
    }
    for ring in rings {
        for place in 0..ring.len() {
            let (before, after) = (ring[place], ring[(place + 1) % ring.len()]);
            let is_long = |segment: PathSeg| segment.arclen(0.1) >= SIDE;
            let slope = |segment: PathSeg, t: f64| match segment {
                PathSeg::Line(line) => line.p1 - line.p0,
                PathSeg::Quad(quad) => quad.deriv().eval(t).to_vec2(),
                PathSeg::Cubic(cubic) => cubic.deriv().eval(t).to_vec2(),
            };
            let (a, b) = (slope(before, 1.0), slope(after, 0.0));
            let turn = a.cross(b).atan2(a.dot(b)).abs().to_degrees();
            let is_seen = |place: Point| {
                (0..16).any(|step| {
                    let aside = Vec2::from_angle(f64::from(step) * std::f64::consts::TAU / 16.0);
                    path.winding(place + aside) == 0
                })
            };
            if is_seen(after.start())
                && is_long(before)
                && is_long(after)
                && (40.0..=150.0).contains(&turn)
            {
                corners.push(after.start());
            }
        }
    }
    corners
}

/// Distances of the traced outline from the drawn one, and of drawn corners from traced ones, in dots.
fn distances(traced: &Traced, drawn: &BezPath) -> (Vec<f64>, Vec<f64>) {
    let segments: Vec<PathSeg> = drawn.segments().collect();
    let path = traced.dots_from_mm * traced.outline.path.clone();
    let mut outline = Vec::new();
    for segment in path.segments() {
        let steps = (segment.arclen(0.1) / 2.0).ceil().max(1.0);
        for step in 0..steps as usize {
            let place = segment.eval(step as f64 / steps);
            let nearest = segments
                .iter()
                .map(|drawn| drawn.nearest(place, 1e-3).distance_sq);
            outline.push(nearest.fold(f64::INFINITY, f64::min).sqrt());
        }
    }
    let found: Vec<Point> = traced
        .corners
        .iter()
        .map(|&corner| traced.dots_from_mm * corner)
        .collect();
    let off = corners(drawn)
        .into_iter()
        .map(|corner| {
            found
                .iter()
                .map(|found| found.distance(corner))
                .fold(f64::INFINITY, f64::min)
        })
        .collect();
    (outline, off)
}

fn part(sorted: &[f64], part: f64) -> f64 {
    sorted[((sorted.len() - 1) as f64 * part) as usize]
}

/// Letters that the ways of finding corners were tried on, and others.
const TRIED: &str = "AEGKMQRSXZaefgkty25&";
const OTHERS: &str = "BCDFHIJLNOPTUVWYbcdhijlmnopqrsuvwxz134678?!$%";

/// Sorted distances of all outlines, and of all corners.
fn all_distances(font: &str, letters: &str, scanner: Scanner) -> (Vec<f64>, Vec<f64>) {
    let bytes = text_font(font).bytes;
    let font = Font::parse(bytes, 0, &BTreeMap::new()).expect("a font from a package");
    let (mut outline, mut off) = (Vec::new(), Vec::new());
    for character in letters.chars() {
        let (drawn, size) = letter(&font, character, scanner);
        let page = scanned(&drawn, size, scanner);
        let known = Known {
            from: Point::ZERO,
            to: Point::new(EM, 0.0),
            mm: 40.0,
        };
        let traced = trace(&page, &Settings::starting(known), &Unwatched)
            .unwrap_or_else(|error| panic!("{character}: {error}"));
        let (at_outline, at_corners) = distances(&traced, &drawn);
        assert!(
            traced.fitted_within_mm <= 0.5 * traced.mm_per_dot + 1e-9,
            "{character}"
        );
        outline.extend(at_outline);
        off.extend(at_corners);
    }
    outline.sort_by(f64::total_cmp);
    off.sort_by(f64::total_cmp);
    println!(
        "{scanner:?}: outline median {:.3}, 99 % {:.3}, most {:.3}; {} corners, median {:.3}, 95 % {:.3}, 98 % {:.3}, most {:.3}",
        part(&outline, 0.5),
        part(&outline, 0.99),
        part(&outline, 1.0),
        off.len(),
        part(&off, 0.5),
        part(&off, 0.95),
        part(&off, 0.98),
        part(&off, 1.0)
    );
    (outline, off)
}

#[test]
fn letters_come_back_within_half_a_dot_and_their_corners_within_one_and_a_half() {
    for scanner in SCANNERS {
        let (outline, off) = all_distances("libertinus-serif", TRIED, scanner);
        assert!(part(&outline, 0.5) < MEDIAN, "{scanner:?}");
        assert!(part(&off, 0.5) < MEDIAN, "{scanner:?}");
        if scanner.shows_all {
            assert!(part(&off, 1.0) < CORNER, "{scanner:?}");
        } else {
            assert!(part(&off, MOST_OF_ROUGH) < CORNER, "{scanner:?}");
            assert!(part(&off, 1.0) < FURTHEST, "{scanner:?}");
        }
        assert!(off.len() > 100);
    }
}

#[test]
fn letters_that_nothing_was_tried_on_come_back_as_well() {
    for font in ["libertinus-serif", "hack", "new-computer-modern-bold"] {
        for scanner in SCANNERS.into_iter().filter(|scanner| scanner.shows_all) {
            let (outline, off) = all_distances(font, OTHERS, scanner);
            assert!(part(&outline, 0.5) < MEDIAN, "{font}, {scanner:?}");
            assert!(part(&off, 0.5) < MEDIAN, "{font}, {scanner:?}");
            assert!(part(&off, 1.0) < CORNER, "{font}, {scanner:?}");
            assert!(off.len() > 250);
        }
    }
}
