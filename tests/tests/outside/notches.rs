//! Notches against brute force, for letters of four fonts with straight, bent and slanting sides.
//!
//! Every width and every seam on the grid is tried, with either letter keeping its lower part: the notch is an area, the letter's outline
//! is grown by the wall across and along, and Clipper2 says whether the two meet. Nothing here knows of silhouettes or of the search.
//!
//! # Source
//! - Areas and sums of areas: crate `clipper2-rust`, the Rust port of Clipper2.
//! - Outlines and widths: crate `ttf-parser`. Kerning: crate `harfrust`, which sets each pair with and without the feature `kern`.
//! - Sizes of spacing material: A. A. Stewart, *Typesetting*, Typographic Technical Series No. 16, 1919, p. 21 (leads and reglet); furniture
//!   from 2 picas on is common practice, no source.

#![allow(clippy::print_stdout)] // What is gained is the test's result.

use cam_core::commission::{Commission, NotchRules};
use cam_core::make::Fonts;
use cam_core::measure::{Length, System};
use cam_core::notch::{End, Side, closed_pairs, drawn_and_cut};
use cam_core::progress::Progress;
use cam_core::sort::Sort;
use cam_core::workshop::Workshop;
use harfrust::{Feature, FontRef, ShapeOptions, ShaperData, Tag, UnicodeBuffer};
use kurbo::{Affine, BezPath, Point, Vec2};
use testkit::fonts::{TestFont, text_font};
use testkit::orders::of_text;
use testkit::referee::Area;

/// A point, mm (13.837 thousandths of an inch; Stewart 1919, p. 15).
const POINT: f64 = 0.013_837 * 25.4;
const STEP: f64 = 6.0 * POINT;
const WALL: f64 = 2.0;
const CLEARANCE: f64 = 0.15;
/// Radius of the starting workshop's long cutter, and what a bevel clears more.
const RADIUS: f64 = 3.0;
const BEVEL: f64 = RADIUS + 0.1;
/// A neck that holds a block together; common practice.
const NECK: f64 = 6.0;
/// What one or two pieces of 6, 12, 18, 24, 36, 48, 60, 72 and 96 points come to, in steps of 6 points, the widest that is tried first.
const WIDTHS: [u32; 20] = [
    20, 19, 18, 17, 16, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1,
];
/// Chords of drawn curves, and grids: walls nearer to the asked one than this are neither kept nor not, mm.
const DOUBT: f64 = 0.01;
/// Areas that are smaller are rounding, mm².
const NOTHING: f64 = 1e-5;

const FONTS: [&str; 4] = [
    "libertinus-serif",
    "libertinus-serif-bold-italic",
    "ubuntu-light",
    "new-computer-modern-italic",
];

/// The outline of a character in the font's own units.
struct Drawing(BezPath);

impl ttf_parser::OutlineBuilder for Drawing {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0
            .quad_to((f64::from(x1), f64::from(y1)), (f64::from(x), f64::from(y)));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.0.curve_to(
            (f64::from(x1), f64::from(y1)),
            (f64::from(x2), f64::from(y2)),
            (f64::from(x), f64::from(y)),
        );
    }
    fn close(&mut self) {
        self.0.close_path();
    }
}

/// A letter as printed: its outline grown by a wall, and its block, from the left of the block and the foot of the plain body.
struct Letter {
    drawn: BezPath,
    surely_kept: Area,
    perhaps_kept: Area,
    set: f64,
    foot: f64,
    head: f64,
}

impl Letter {
    fn of(sort: &Sort, font: TestFont) -> Letter {
        let face = ttf_parser::Face::parse(font.bytes, font.index).expect("a font");
        let character = sort.text.chars().next().expect("a letter");
        let glyph = face.glyph_index(character).expect("it is there");
        let mut drawing = Drawing(BezPath::new());
        face.outline_glyph(glyph, &mut drawing).expect("drawn");
        let block = &sort.block;
        let below = block.extended_pt[0] * POINT;
        let source = sort.source.as_ref().expect("a letter");
        let printed_from_face = Affine::new([-1.0, 0.0, 0.0, 1.0, block.set_mm, -below]);
        let drawn = printed_from_face * source.face_from_em * drawing.0;
        let kept = |wall: f64| {
            let corner = Affine::translate((-wall, -wall)) * drawn.clone();
            Area::drawn(&corner, 0.001)
                .passed_over(Vec2::new(2.0 * wall, 0.0))
                .passed_over(Vec2::new(0.0, 2.0 * wall))
        };
        Letter {
            surely_kept: kept(WALL + DOUBT),
            perhaps_kept: kept(WALL - DOUBT),
            drawn,
            set: block.set_mm,
            foot: -below,
            head: block.body_mm - below,
        }
    }

    /// Whether a notch leaves the letter its wall: surely, and perhaps.
    fn takes(&self, side: Side, end: End, seam: u32, width: u32) -> [bool; 2] {
        let wider = if side == Side::Left { CLEARANCE } else { 0.0 };
        let (plain, across) = (f64::from(width) * STEP, f64::from(width) * STEP + wider);
        let (seam, half) = (f64::from(seam) * STEP, CLEARANCE / 2.0);
        let (floor, outer, away) = match end {
            End::Head => (seam - half, self.head, -1.0),
            End::Foot => (seam + half, self.foot, 1.0),
        };
        let height = (outer - floor).abs();
        let kept = self.head - self.foot - height;
        let narrowest = BEVEL + 0.3 * RADIUS;
        let held = kept >= NECK && across <= (self.set - NECK) / 2.0;
        if !held || plain < narrowest || height < narrowest {
            return [false, false];
        }
        let x = |depth: f64| match side {
            Side::Left => depth,
            Side::Right => self.set - depth,
        };
        let at = |depth: f64, y: f64| Point::new(x(depth), y);
        let step = [
            at(0.0, floor),
            at(across, floor),
            at(across, outer),
            at(0.0, outer),
        ];
        let bevel = [
            at(0.0, floor),
            at(BEVEL, floor),
            at(0.0, floor + away * BEVEL),
        ];
        let notch = Area::filled([step.as_slice(), bevel.as_slice()]);
        let is_clear = |kept: &Area| notch.intersection(kept).square_mm() < NOTHING;
        let perhaps = is_clear(&self.perhaps_kept);
        [perhaps && is_clear(&self.surely_kept), perhaps]
    }

    /// The least way across to a letter at its right on the same base line, by looking at every hundredth of a millimetre.
    fn gap_to(&self, other: &Letter) -> Option<f64> {
        let edges = |letter: &Letter| -> Vec<(Point, Point)> {
            let mut edges = Vec::new();
            let (mut first, mut last) = (Point::ZERO, Point::ZERO);
            kurbo::flatten(&letter.drawn, 0.001, |element| match element {
                kurbo::PathEl::MoveTo(at) => (first, last) = (at, at),
                kurbo::PathEl::LineTo(at) => {
                    edges.push((last, at));
                    last = at;
                }
                kurbo::PathEl::ClosePath => edges.push((last, first)),
                kurbo::PathEl::QuadTo(..) | kurbo::PathEl::CurveTo(..) => {}
            });
            edges
        };
        let (ours, theirs) = (edges(self), edges(other));
        let crossings = |edges: &[(Point, Point)], y: f64| -> Vec<f64> {
            edges
                .iter()
                .filter(|(a, b)| (a.y <= y) != (b.y <= y))
                .map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
                .collect()
        };
        let from = (self.foot / 0.01).floor() as i64;
        let to = (self.head / 0.01).ceil() as i64;
        (from..to)
            .filter_map(|place| {
                let y = (place as f64 + 0.5) * 0.01;
                let right = crossings(&ours, y).into_iter().reduce(f64::max)?;
                let left = crossings(&theirs, y).into_iter().reduce(f64::min)?;
                Some(self.set - right + left)
            })
            .reduce(f64::min)
    }
}

/// How far two capitals H stand apart, mm, at the size of a sort.
fn usual(font: TestFont, sort: &Sort) -> f64 {
    let face = ttf_parser::Face::parse(font.bytes, font.index).expect("a font");
    let glyph = face.glyph_index('H').expect("an H");
    let bounds = face.glyph_bounding_box(glyph).expect("drawn");
    let advance = face.glyph_hor_advance(glyph).expect("a width");
    let units = f64::from(advance) - f64::from(bounds.width());
    units * scale(sort)
}

fn scale(sort: &Sort) -> f64 {
    let source = sort.source.as_ref().expect("a letter");
    source.face_from_em.as_coeffs()[0].abs()
}

/// From origin to origin of two letters set beside one another, in the font's units, with kerning or without.
fn set_apart(font: TestFont, text: &str, kern: bool) -> f64 {
    let read = FontRef::from_index(font.bytes, font.index).expect("a font");
    let data = ShaperData::new(&read);
    let shaper = data.shaper(&read).build();
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(text);
    buffer.guess_segment_properties();
    let features = [Feature::new(Tag::new(b"kern"), u32::from(kern), ..)];
    let set = shaper.shape(buffer, ShapeOptions::new().features(&features));
    let places = set.glyph_positions();
    f64::from(places[0].x_advance) + f64::from(places[1].x_offset - places[0].x_offset)
}

/// By how many steps a pair may close up: at the least and at the most, since some gaps come near to half a step.
fn allowed(font: TestFont, (one, other): (&Sort, &Sort), letters: (&Letter, &Letter)) -> [u32; 2] {
    let text = format!("{}{}", one.text, other.text);
    let origin = |sort: &Sort| {
        let source = sort.source.as_ref().expect("a letter");
        sort.block.set_mm - source.face_from_em.as_coeffs()[4]
    };
    let apart = one.block.set_mm + origin(other) - origin(one);
    let kerned = set_apart(font, &text, true);
    let by_kerning = if kerned < set_apart(font, &text, false) {
        apart - kerned * scale(one)
    } else {
        0.0
    };
    let drawn = letters.0.gap_to(letters.1);
    let drawn = drawn.map_or(600.0 * POINT, |gap| gap - usual(font, one));
    [-DOUBT, DOUBT].map(|doubt| {
        let steps = (drawn.max(by_kerning) + doubt) / STEP;
        (steps + 0.5).floor().clamp(0.0, 1000.0) as u32
    })
}

/// The widest notch of a pair, in steps: surely, and perhaps.
fn widest(left: &Letter, right: &Letter, most: [u32; 2]) -> [u32; 2] {
    let seams = ((left.head.min(right.head)) / STEP) as u32;
    [0, 1].map(|doubt| {
        let fits = |width: u32| {
            (1..=seams).any(|seam| {
                [(End::Head, End::Foot), (End::Foot, End::Head)]
                    .into_iter()
                    .any(|(one, other)| {
                        left.takes(Side::Right, one, seam, width)[doubt]
                            && right.takes(Side::Left, other, seam, width)[doubt]
                    })
            })
        };
        let mut widths = WIDTHS.into_iter().filter(|&width| width <= most[doubt]);
        widths.find(|&width| fits(width)).unwrap_or(0)
    })
}

fn notched(font: TestFont, lines: f64, text: &str, pairs: &[&str]) -> Vec<Sort> {
    let (mut commission, fonts): (Commission, Fonts) = of_text(font, lines, text);
    commission.planks.lane = Length::mm(6.4);
    commission.notches = Some(NotchRules {
        pairs: pairs.iter().map(|pair| (*pair).to_owned()).collect(),
        least_wall: Length::mm(WALL),
        clearance: Length::mm(CLEARANCE),
        kinds: 1,
        cutter: Some("flat-6-long".to_owned()),
        ..NotchRules::starting(System::Pica)
    });
    drawn_and_cut(&commission, &Workshop::starting(), &fonts, &Progress::new())
        .unwrap_or_else(|error| panic!("{error}"))
        .sorts
}

#[test]
fn pairs_of_four_fonts_close_up_as_far_as_trying_every_notch_allows() {
    let mut gained = 0;
    for name in FONTS {
        let font = text_font(name);
        for (lines, pair) in [
            (20.0, "AV"),
            (14.0, "VA"),
            (20.0, "To"),
            (20.0, "LT"),
            (14.0, "Yo"),
            (20.0, "PA"),
            (20.0, "OA"),
        ] {
            let sorts = notched(font, lines, pair, &[pair]);
            let letters: Vec<Letter> = sorts.iter().map(|sort| Letter::of(sort, font)).collect();
            let most = allowed(font, (&sorts[0], &sorts[1]), (&letters[0], &letters[1]));
            let [surely, perhaps] = widest(&letters[0], &letters[1], most);
            let found = closed_pairs(&sorts)
                .iter()
                .find(|found| (found.left, found.right) == (0, 1))
                .map_or(0.0, |found| found.gain_mm / STEP);
            assert!(
                (found - found.round()).abs() < 1e-3,
                "{name} {pair}: {found}"
            );
            let found = found.round() as u32;
            assert!(
                (surely..=perhaps).contains(&found),
                "{name} {pair} at {lines} lines: {found} steps, and {surely} to {perhaps} by trying everything up to {most:?}"
            );
            println!("{name} {pair} at {lines} lines: {} pt", 6 * found);
            gained += found;
        }
    }
    assert!(gained >= 40, "{gained} steps in all");
}

/// The greatest sum over all pairs of three letters with one kind of notch, by trying every kind and every choice of every side.
#[test]
fn small_founts_of_four_fonts_gain_as_much_as_trying_everything_allows() {
    for name in FONTS {
        let font = text_font(name);
        let sorts = notched(font, 20.0, "AVo", &[]);
        let letters: Vec<Letter> = sorts.iter().map(|sort| Letter::of(sort, font)).collect();
        let count = letters.len();
        let most: Vec<Vec<[u32; 2]>> = (0..count)
            .map(|left| {
                let pair = |right: usize| {
                    let pair = (&letters[left], &letters[right]);
                    allowed(font, (&sorts[left], &sorts[right]), pair)
                };
                (0..count).map(pair).collect()
            })
            .collect();
        let seams = (letters[0].head / STEP) as u32;
        let best = [0, 1].map(|doubt| {
            let mut best = 0;
            for width in WIDTHS {
                for seam in 1..=seams {
                    let choices = |side: Side, letter: &Letter| -> Vec<Option<End>> {
                        let ends = End::BOTH.into_iter();
                        let fit = ends.filter(|&end| letter.takes(side, end, seam, width)[doubt]);
                        std::iter::once(None).chain(fit.map(Some)).collect()
                    };
                    let of_side =
                        |side: Side| letters.iter().map(move |letter| choices(side, letter));
                    let all: Vec<Vec<Option<End>>> =
                        of_side(Side::Right).chain(of_side(Side::Left)).collect();
                    let ways: usize = all.iter().map(Vec::len).product();
                    for way in 0..ways {
                        let mut rest = way;
                        let chosen: Vec<Option<End>> = all
                            .iter()
                            .map(|of| {
                                let choice = of[rest % of.len()];
                                rest /= of.len();
                                choice
                            })
                            .collect();
                        let mut sum = 0;
                        for left in 0..count {
                            for right in 0..count {
                                let ends = (chosen[left], chosen[count + right]);
                                let (Some(one), Some(other)) = ends else {
                                    continue;
                                };
                                if one != other && width <= most[left][right][doubt] {
                                    sum += width;
                                }
                            }
                        }
                        best = best.max(sum);
                    }
                }
            }
            best
        });
        let gained: f64 = closed_pairs(&sorts)
            .iter()
            .map(|pair| (pair, (pair.gain_mm / STEP).round() as u32))
            .filter(|(pair, steps)| *steps <= most[pair.left][pair.right][1])
            .map(|(_, steps)| f64::from(steps))
            .sum();
        let gained = gained.round() as u32;
        println!("{name}: A, V and o gain {} pt over all pairs", 6 * gained);
        assert!(
            (best[0]..=best[1]).contains(&gained),
            "{name}: {gained} steps, and {best:?} by trying everything"
        );
    }
}
