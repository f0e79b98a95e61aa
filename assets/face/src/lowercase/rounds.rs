//! The small letters with bowls.

use super::stems::descending_hook;
use super::{BALL, BOW, FLAG, HAIR, MIDDLE, ROUND, STEM};
use crate::capitals::{beak, pair};
use crate::parts::{ASCENDER, DESCENDER, Drawing, FULL, FULL_COUNTER, OVER, X};
use crate::pen::{Pen, half_turn, rectangle};
use kurbo::{Affine, CubicBez, Point};

/// a.
pub fn a(d: &mut Drawing) {
    let (left, right) = (392.0, 392.0 + STEM);
    d.bare_stroke(left, left, STEM, (0.0, 700.0), Some((0.0, 98.0)), None);
    d.needle(
        Point::new(left + STEM / 2.0, 100.0),
        Point::new(left + STEM / 2.0, 740.0),
        STEM,
    );
    d.ink(
        Pen::at(right, 600.0)
            .line(right, 690.0)
            .plumb_to_level(350.0, ROUND, FULL)
            .level_to_plumb(36.0, 745.0, 0.58)
            .line(170.0, 745.0)
            .curve((170.0, 880.0), (230.0, ROUND - HAIR), (310.0, ROUND - HAIR))
            .level_to_plumb(left, 760.0, FULL)
            .line(left, 600.0)
            .close(),
    );
    d.ball(36.0 + BALL, 745.0, BALL);
    d.quarter((410.0, 590.0), (0.0, 265.0), HAIR, 248.0, 430.0);
    d.quarter((225.0, -OVER), (0.0, 265.0), HAIR, 248.0, 280.0);
    d.ink(
        Pen::at(225.0, -OVER)
            .curve((330.0, -OVER), (395.0, 40.0), (420.0, 150.0))
            .line(420.0, 260.0)
            .curve((400.0, 130.0), (350.0, HAIR - OVER), (280.0, HAIR - OVER))
            .close(),
    );
}

/// b.
pub fn b(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, ASCENDER), None, FLAG);
    bowl(d);
}

fn bowl(d: &mut Drawing) {
    let (thin, right, counter) = (415.0, 755.0, 385.0);
    for (level, up) in [(ROUND, 1.0), (-OVER, -1.0)] {
        d.quarter((thin, level), (right, MIDDLE), HAIR, BOW, counter);
        let from = |share: f64| MIDDLE + up * share;
        d.ink(
            Pen::at(220.0, from(215.0))
                .line(236.0, from(300.0))
                .curve((258.0, from(430.0)), (320.0, level), (thin, level))
                .line(counter, level - up * HAIR)
                .curve(
                    (318.0, level - up * HAIR),
                    (STEM, from(340.0)),
                    (STEM, from(170.0)),
                )
                .close(),
        );
    }
}

/// The bowl of d and q, to the left of a stem that ends at `755`.
fn mirrored_bowl(d: &mut Drawing) {
    let mut right = Drawing::default();
    bowl(&mut right);
    d.place(&right, Affine::new([-1.0, 0.0, 0.0, 1.0, 755.0, 0.0]));
}

/// c.
pub fn c(d: &mut Drawing) {
    let middle = 380.0;
    left_half(d, middle);
    let right = 690.0;
    d.ink(
        Pen::at(middle, ROUND)
            .level_to_plumb(right, 745.0, 0.58)
            .line(right - 130.0, 745.0)
            .curve(
                (right - 120.0, 880.0),
                (middle + 110.0, ROUND - HAIR),
                (middle, ROUND - HAIR),
            )
            .close(),
    );
    d.ball(right - BALL, 745.0, BALL);
    tail(d, middle, right + 8.0);
}

fn left_half(d: &mut Drawing, middle: f64) {
    for level in [-OVER, ROUND] {
        d.quarter((middle, level), (0.0, MIDDLE), HAIR, BOW, middle);
    }
}

fn tail(d: &mut Drawing, middle: f64, right: f64) {
    d.ink(
        Pen::at(middle, -OVER)
            .curve(
                (middle + 190.0, -OVER),
                (right - 30.0, 90.0),
                (right, 270.0),
            )
            .line(right - 44.0, 278.0)
            .curve(
                (right - 76.0, 130.0),
                (middle + 130.0, HAIR - OVER),
                (middle, HAIR - OVER),
            )
            .close(),
    );
}

/// d.
pub fn d(d: &mut Drawing) {
    d.stroke(
        755.0 - STEM,
        755.0 - STEM,
        STEM,
        (0.0, ASCENDER),
        Some((0.0, 98.0)),
        FLAG,
    );
    mirrored_bowl(d);
}

/// e.
pub fn e(d: &mut Drawing) {
    let (middle, right) = (380.0, 735.0);
    left_half(d, middle);
    d.last_quarter((middle, ROUND), (right, MIDDLE), HAIR, 232.0, middle);
    d.ink(rectangle(200.0, MIDDLE, right - 60.0, MIDDLE + HAIR));
    tail(d, middle, right - 14.0);
}

/// g, with two bowls.
pub fn g(d: &mut Drawing) {
    d.oval((40.0, 640.0), (330.0, ROUND), 218.0, 218.0, HAIR);
    d.ink(
        Pen::at(340.0, 384.0)
            .curve((210.0, 384.0), (55.0, 300.0), (55.0, 165.0))
            .curve((55.0, 60.0), (130.0, 10.0), (240.0, -10.0))
            .line(330.0, 145.0)
            .curve((230.0, 145.0), (188.0, 170.0), (188.0, 215.0))
            .curve((188.0, 280.0), (260.0, 330.0), (340.0, 330.0))
            .close(),
    );
    let outer = Pen::at(-20.0, -190.0)
        .curve((-20.0, -60.0), (70.0, 145.0), (300.0, 145.0))
        .line(430.0, 145.0)
        .level_to_plumb(735.0, -110.0, FULL)
        .curve((735.0, -330.0), (560.0, DESCENDER), (340.0, DESCENDER))
        .level_to_plumb(-20.0, -190.0, FULL)
        .close();
    let inner = Pen::at(112.0, -200.0)
        .curve((112.0, -120.0), (160.0, -70.0), (240.0, -70.0))
        .line(470.0, -70.0)
        .curve((570.0, -70.0), (620.0, -110.0), (620.0, -190.0))
        .curve(
            (620.0, -300.0),
            (500.0, DESCENDER + HAIR),
            (360.0, DESCENDER + HAIR),
        )
        .level_to_plumb(112.0, -200.0, FULL)
        .close();
    d.ink(outer).counter(inner);
    d.light(
        Pen::at(200.0, 20.0)
            .curve((250.0, 54.0), (300.0, 54.0), (340.0, 54.0))
            .line(440.0, 54.0)
            .curve((560.0, 54.0), (620.0, 20.0), (660.0, -60.0))
            .curve((620.0, 0.0), (560.0, 22.0), (440.0, 22.0))
            .line(340.0, 22.0)
            .close(),
    );
    d.ink(
        Pen::at(540.0, 900.0)
            .curve((600.0, 960.0), (660.0, 1015.0), (755.0, 1015.0))
            .line(755.0, 900.0)
            .curve((700.0, 960.0), (640.0, 900.0), (590.0, 820.0))
            .close(),
    );
    d.ball(745.0, 928.0, 88.0);
}

/// g with one bowl and an open tail.
pub fn g_open(d: &mut Drawing) {
    let left = 755.0 - STEM;
    d.bare_stroke(left, left, STEM, (-100.0, X), None, Some((0.0, 98.0)));
    d.needle(
        Point::new(left + STEM / 2.0, -210.0),
        Point::new(left + STEM / 2.0, X - 90.0),
        STEM,
    );
    mirrored_bowl(d);
    descending_hook(d, left, 600.0);
}

/// o.
pub fn o(d: &mut Drawing) {
    d.oval((0.0, 765.0), (-OVER, ROUND), BOW, BOW, HAIR);
}

/// p.
pub fn p(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (DESCENDER, X), Some((100.0, 100.0)), FLAG);
    bowl(d);
}

/// q.
pub fn q(d: &mut Drawing) {
    d.stroke(
        755.0 - STEM,
        755.0 - STEM,
        STEM,
        (DESCENDER, X),
        Some((100.0, 100.0)),
        None,
    );
    mirrored_bowl(d);
}

/// s.
pub fn s(d: &mut Drawing) {
    let low = CubicBez::new((0.0, 720.0), (0.0, 470.0), (405.0, 500.0), (405.0, 240.0));
    let high = CubicBez::new(
        (228.0, 762.0),
        (228.0, 560.0),
        (650.0, 560.0),
        (650.0, 275.0),
    );
    d.ink(
        Pen::at(325.0, ROUND)
            .level_to_plumb(0.0, 720.0, FULL)
            .curve(pair(low.p1), pair(low.p2), pair(low.p3))
            .plumb_to_level(325.0, HAIR - OVER, FULL_COUNTER)
            .line(325.0, -OVER)
            .level_to_plumb(650.0, 275.0, FULL)
            .curve(pair(high.p2), pair(high.p1), pair(high.p0))
            .plumb_to_level(325.0, ROUND - HAIR, FULL_COUNTER)
            .close(),
    );
    d.lens(low, high, (0.05, 0.95));
    beak(d, 325.0, 588.0, (X, 330.0), HAIR);
    let mut foot = Drawing::default();
    beak(&mut foot, 325.0, 645.0, (X, 345.0), HAIR);
    d.place(&foot, half_turn(325.0, MIDDLE));
}
