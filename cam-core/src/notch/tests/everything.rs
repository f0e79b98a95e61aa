//! Notches against trying everything: on letters of a real font, every seam, width and end is tried by looking at many places of the drawn
//! edge, and every way of giving a small fount its notches. Nothing here knows of silhouettes or of the search.
//!
//! Sizes of spacing material are from A. A. Stewart, *Typesetting*, Typographic Technical Series No. 16, 1919, p. 21 (leads and reglet);
//! furniture from 2 picas on is common practice, no source.

use geometry::font::Font;
use kurbo::{Point, Shape};

use crate::commission::{Commission, NotchRules};
use crate::make::Fonts;
use crate::make::tests::order as order_of;
use crate::measure::{Length, System};
use crate::notch::{End, Side, closed_pairs, cut};
use crate::progress::Progress;
use crate::sort::{Sort, draw_up};
use crate::workshop::Workshop;

/// A point, mm (13.837 thousandths of an inch; Stewart 1919, p. 15).
const POINT: f64 = 0.013837 * 25.4;
const STEP: f64 = 6.0 * POINT;
const WALL: f64 = 3.0;
const CLEARANCE: f64 = 0.15;
/// Radius of the starting workshop's long cutter.
const RADIUS: f64 = 3.0;
/// A neck that holds a block together; common practice.
const NECK: f64 = 6.0;
/// What one or two pieces of 6, 12, 18, 24, 36, 48, 60, 72 and 96 points come to, in steps of 6 points.
const WIDTHS: [u32; 16] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16];
/// Between looking at places of the edge and knowing all of it, mm.
const LOOKED: f64 = 0.05;

fn order(lines: f64, letters: &str, pairs: &[&str], kinds: u32) -> (Commission, Fonts) {
    let (mut commission, fonts) = order_of(letters, lines, &[]);
    commission.planks.lane = Length::mm(6.4);
    commission.notches = Some(NotchRules {
        pairs: pairs.iter().map(|pair| (*pair).to_owned()).collect(),
        least_wall: Length::mm(WALL),
        clearance: Length::mm(CLEARANCE),
        kinds,
        cutter: Some("flat-6-long".to_owned()),
        ..NotchRules::starting(System::Pica)
    });
    (commission, fonts)
}

fn notched(commission: &Commission, fonts: &Fonts) -> Vec<Sort> {
    let drawn = draw_up(commission, fonts, &Progress::new()).expect("a sound font");
    cut(drawn, commission, &Workshop::starting(), fonts).sorts
}

/// A letter as printed: places along its edge, and its block.
struct Letter {
    edge: Vec<(Point, Point)>,
    places: Vec<Point>,
    set: f64,
    foot: f64,
    head: f64,
}

impl Letter {
    fn of(sort: &Sort) -> Letter {
        let block = &sort.block;
        let below = block.extended_pt[0] * POINT;
        let printed = |at: Point| Point::new(block.set_mm - at.x, at.y - below);
        let mut edge = Vec::new();
        for ring in sort.face.rings() {
            for (index, &from) in ring.iter().enumerate() {
                edge.push((printed(from), printed(ring[(index + 1) % ring.len()])));
            }
        }
        let places = edge
            .iter()
            .flat_map(|&(from, to)| {
                let parts = (from.distance(to) / LOOKED).ceil().max(1.0) as u32;
                (0..parts).map(move |part| from.lerp(to, f64::from(part) / f64::from(parts)))
            })
            .collect();
        Letter {
            edge,
            places,
            set: block.set_mm,
            foot: -below,
            head: block.body_mm - below,
        }
    }

    /// Whether a notch leaves a wall of wood beside every place of the edge that was looked at.
    fn takes(&self, side: Side, end: End, seam: u32, width: u32, wall: f64) -> bool {
        let wider = if side == Side::Left { CLEARANCE } else { 0.0 };
        let (across, bevel) = (f64::from(width) * STEP + wider, RADIUS + 0.1);
        let half = CLEARANCE / 2.0;
        let seam = f64::from(seam) * STEP;
        let (kept, height) = match end {
            End::Head => (seam - half - self.foot, self.head - seam + half),
            End::Foot => (self.head - seam - half, seam + half - self.foot),
        };
        let narrowest = bevel + 0.3 * RADIUS;
        let held = kept >= NECK && across <= (self.set - NECK) / 2.0;
        if !held || across - wider < narrowest || height < narrowest {
            return false;
        }
        self.places.iter().all(|place| {
            // From the corner of the block: how far in, and how far down.
            let x = if side == Side::Left {
                place.x
            } else {
                self.set - place.x
            };
            let y = match end {
                End::Head => self.head - place.y,
                End::Foot => place.y - self.foot,
            };
            let step = (x - across).max(y - height);
            // The bevel's triangle: right-angled, so its corners say all.
            let beside = [
                x - bevel,
                y - height - bevel,
                (x + y - height - bevel) / 2.0,
            ];
            let bevelled = beside.into_iter().fold(f64::NEG_INFINITY, f64::max);
            step >= wall && bevelled.max(height - y) >= wall
        })
    }

    /// The least way across to a letter that stands at its right.
    fn gap_to(&self, other: &Letter) -> Option<f64> {
        let mut least: Option<f64> = None;
        let mut at = self.foot;
        while at < self.head {
            let crossings = |letter: &Letter| -> Vec<f64> {
                letter
                    .edge
                    .iter()
                    .filter(|(a, b)| (a.y <= at) != (b.y <= at))
                    .map(|(a, b)| a.x + (b.x - a.x) * (at - a.y) / (b.y - a.y))
                    .collect()
            };
            let right = crossings(self).into_iter().reduce(f64::max);
            let left = crossings(other).into_iter().reduce(f64::min);
            if let (Some(right), Some(left)) = (right, left) {
                let gap = self.set - right + left;
                least = Some(least.map_or(gap, |least| least.min(gap)));
            }
            at += 0.01;
        }
        least
    }
}

/// The widest notch of a pair, in steps, of all seams and both ways to keep the lower part.
fn widest(left: &Letter, right: &Letter, most: u32, wall: f64) -> u32 {
    let seams = (left.head / STEP) as u32;
    let mut best = 0;
    for &width in WIDTHS.iter().filter(|&&width| width <= most) {
        for seam in 1..=seams {
            for (one, other) in [(End::Head, End::Foot), (End::Foot, End::Head)] {
                if left.takes(Side::Right, one, seam, width, wall)
                    && right.takes(Side::Left, other, seam, width, wall)
                {
                    best = best.max(width);
                }
            }
        }
    }
    best
}

/// By how many steps a pair may close up for its drawn gap: until its letters are as near as two capitals H.
fn most(left: &Letter, right: &Letter, usual: f64) -> u32 {
    let gap = left.gap_to(right).map_or(f64::MAX, |gap| gap - usual);
    (gap / STEP + 0.5).floor().clamp(0.0, 1000.0) as u32
}

/// By how many steps the font's kerning asks a pair to close up.
fn kerned(left: &Sort, right: &Sort, fonts: &Fonts) -> u32 {
    let font = Font::parse(&fonts["main"], 0, &Default::default()).expect("a font");
    let (a, b) = (
        left.source.as_ref().expect("a letter"),
        right.source.as_ref().expect("a letter"),
    );
    let origin = |face_from_em: kurbo::Affine| face_from_em.as_coeffs()[4];
    let scale = a.face_from_em.as_coeffs()[0].abs();
    let kerning = font.kerning(a.glyph, b.glyph).min(0.0);
    let apart = origin(a.face_from_em) + right.block.set_mm - origin(b.face_from_em);
    let closer = apart - (font.advance(a.glyph) + kerning) * scale;
    (closer / STEP + 0.5).floor().max(0.0) as u32
}

/// The gap between two capitals H, from the font's own numbers.
fn usual(lines: f64) -> f64 {
    let (commission, fonts) = order_of("H", lines, &[]);
    let drawn = draw_up(&commission, &fonts, &Progress::new()).expect("a sound font");
    let source = drawn.sorts[0].source.as_ref().expect("a letter");
    let font = Font::parse(&fonts["main"], 0, &Default::default()).expect("a font");
    let bounds = font.outline(source.glyph).expect("drawn").bounding_box();
    let units = font.advance(source.glyph) - bounds.width();
    units * source.face_from_em.as_coeffs()[0].abs()
}

#[test]
fn pairs_close_up_as_far_as_trying_everything_allows() {
    let mut gained = 0;
    for lines in [12.0, 17.0, 24.0] {
        let usual = usual(lines);
        for pair in [
            "AV", "VA", "LT", "To", "TA", "AT", "Ty", "LV", "HH", "PA", "WA",
        ] {
            let (commission, fonts) = order(lines, pair, &[pair], 1);
            let sorts = notched(&commission, &fonts);
            let letters: Vec<Letter> = sorts.iter().map(Letter::of).collect();
            let (left, right) = (
                &letters[0],
                letters.last().expect("two letters, or one twice"),
            );
            let drawn = most(left, right, usual);
            let most = drawn.max(kerned(&sorts[0], &sorts[sorts.len() - 1], &fonts));
            // What is looked at leaves no doubt but within the distance between places.
            let surely = widest(left, right, most, WALL + LOOKED);
            let perhaps = widest(left, right, most, WALL - 1e-6);
            let found = closed_pairs(&sorts)
                .iter()
                .find(|found| found.left == 0 && found.right == sorts.len() - 1)
                .map_or(0.0, |found| found.gain_mm / STEP);
            assert!((found - found.round()).abs() < 1e-3, "{pair}: {found}");
            assert!(
                (surely..=perhaps).contains(&(found.round() as u32)),
                "{pair} at {lines} lines: {found} steps, and {surely} to {perhaps} by trying everything"
            );
            gained += found.round() as u32;
        }
    }
    assert!(gained >= 40, "{gained} steps in all");
}

/// The greatest sum over all pairs of four letters with one kind of notch, by trying every kind and every choice of every side.
#[test]
fn a_small_fount_gains_as_much_as_trying_everything_allows() {
    let (lines, text) = (20.0, "AVTL");
    let usual = usual(lines);
    let (commission, fonts) = order(lines, text, &[], 1);
    let sorts = notched(&commission, &fonts);
    let letters: Vec<Letter> = sorts.iter().map(Letter::of).collect();
    let count = letters.len();
    let mut allowed = vec![vec![0; count]; count];
    for (left, row) in allowed.iter_mut().enumerate() {
        for (right, most_of_pair) in row.iter_mut().enumerate() {
            *most_of_pair = most(&letters[left], &letters[right], usual);
        }
    }
    let best_with = |wall: f64| {
        let mut best = 0;
        for width in WIDTHS {
            for seam in 1..=(letters[0].head / STEP) as u32 {
                let choices = |side: Side| -> Vec<Vec<Option<End>>> {
                    letters
                        .iter()
                        .map(|letter| {
                            let ends = End::BOTH.into_iter();
                            let fit =
                                ends.filter(|&end| letter.takes(side, end, seam, width, wall));
                            std::iter::once(None).chain(fit.map(Some)).collect()
                        })
                        .collect()
                };
                let (rights, lefts) = (choices(Side::Right), choices(Side::Left));
                let all: Vec<Vec<Option<End>>> = rights.into_iter().chain(lefts).collect();
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
                            let interlock = match ends {
                                (Some(one), Some(other)) => one != other,
                                _ => false,
                            };
                            if interlock && width <= allowed[left][right] {
                                sum += width;
                            }
                        }
                    }
                    best = best.max(sum);
                }
            }
        }
        best
    };
    let gained: f64 = closed_pairs(&sorts)
        .iter()
        .filter(|pair| (pair.gain_mm / STEP).round() as u32 <= allowed[pair.left][pair.right])
        .map(|pair| pair.gain_mm / STEP)
        .sum();
    let (surely, perhaps) = (best_with(WALL + LOOKED), best_with(WALL - 1e-6));
    assert!(
        (surely..=perhaps).contains(&(gained.round() as u32)) && surely > 0,
        "{gained} steps, and {surely} to {perhaps} by trying everything"
    );
}

/// Set beside one another and closed up, two blocks touch and do not overlap, with the fillets that a round cutter leaves in their inner
/// corners.
#[test]
fn closed_blocks_clear_the_fillets_of_the_cutter() {
    let (commission, fonts) = order(20.0, "AVTLo", &[], 3);
    let sorts = notched(&commission, &fonts);
    let pairs = closed_pairs(&sorts);
    assert!(pairs.len() > 3, "{pairs:?}");
    let ring = |sort: &Sort| -> Vec<Point> {
        let corners = sort.block.outline.iter();
        corners
            .map(|at| Point::new(sort.block.set_mm - at.x, at.y - sort.block.baseline_mm))
            .collect()
    };
    let fillets = |sort: &Sort| -> Vec<Point> {
        let mut wood = Vec::new();
        for notch in &sort.block.notches {
            let x = match notch.side {
                Side::Left => (notch.width_mm, -1.0),
                Side::Right => (sort.block.set_mm - notch.width_mm, 1.0),
            };
            let y = match notch.end {
                End::Head => (sort.block.body_mm - notch.height_mm, 1.0),
                End::Foot => (notch.height_mm, -1.0),
            };
            for step in 0..=90 {
                let angle = f64::from(step).to_radians();
                let (out, up) = (RADIUS * (1.0 - angle.cos()), RADIUS * (1.0 - angle.sin()));
                wood.push(Point::new(
                    x.0 + x.1 * out,
                    y.0 + y.1 * up - sort.block.baseline_mm,
                ));
            }
        }
        wood
    };
    let inside = |ring: &[Point], at: Point| {
        let mut inside = false;
        for (index, a) in ring.iter().enumerate() {
            let b = ring[(index + 1) % ring.len()];
            if (a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x)
            {
                inside = !inside;
            }
        }
        inside
    };
    for pair in pairs {
        let (left, right) = (&sorts[pair.left], &sorts[pair.right]);
        let by = left.block.set_mm - pair.gain_mm;
        let moved = |points: Vec<Point>| -> Vec<Point> {
            points
                .into_iter()
                .map(|at| Point::new(at.x + by, at.y))
                .collect()
        };
        let (one, other) = (ring(left), moved(ring(right)));
        for at in fillets(left) {
            // A bearing face is shared: look a hair inside it.
            assert!(
                !inside(&other, Point::new(at.x - 1e-6, at.y)),
                "{} {}",
                left.name,
                right.name
            );
        }
        for at in moved(fillets(right)) {
            assert!(
                !inside(&one, Point::new(at.x + 1e-6, at.y)),
                "{} {}",
                left.name,
                right.name
            );
        }
        for (ring, corners) in [(&one, &other), (&other, &one)] {
            for corner in corners {
                for (x, y) in [(1e-6, 0.0), (-1e-6, 0.0)] {
                    let near = Point::new(corner.x + x, corner.y + y);
                    let far = Point::new(corner.x - 1000.0 * x, corner.y);
                    assert!(!(inside(ring, near) && inside(ring, far)), "{corner}");
                }
            }
        }
    }
}
