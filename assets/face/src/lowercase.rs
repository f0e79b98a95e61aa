//! The small letters.

use crate::capitals::{beak, leg, pair};
use crate::parts::{ASCENDER, DESCENDER, Drawing, FULL, FULL_COUNTER, OVER, SERIF, X, meet};
use crate::pen::{Pen, ellipse, polygon, rectangle};
use kurbo::{Affine, CubicBez, Point};

/// Main stroke.
const STEM: f64 = 252.0;
/// Side stroke of round letters.
const BOW: f64 = 264.0;
/// Thin horizontal strokes.
const HAIR: f64 = 54.0;
/// Thin sloping strokes.
const HAIR_UPRIGHT: f64 = 74.0;
/// Top of the rounds.
const ROUND: f64 = X + OVER;
/// The flag at the head of a stem.
const FLAG: Option<(f64, f64)> = Some((112.0, 0.0));
/// Left edge of the second stem of n, h and u.
const SECOND: f64 = 452.0;
/// Middle height of the rounds.
const MIDDLE: f64 = X / 2.0;
/// Radius of the balls that end hairlines.
const BALL: f64 = 116.0;

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

/// The bowl of b and p, to the right of a stem that starts at nought.
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
                    (262.0, from(330.0)),
                    (240.0, from(180.0)),
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

/// b.
pub fn b(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, ASCENDER), None, FLAG);
    bowl(d);
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

/// The left half of c, e and o.
fn left_half(d: &mut Drawing, middle: f64) {
    for level in [-OVER, ROUND] {
        d.quarter((middle, level), (0.0, MIDDLE), HAIR, BOW, middle);
    }
}

/// The hairline that ends c and e at the foot.
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
    d.last_quarter((middle, ROUND), (right, 492.0), HAIR, 232.0, middle);
    d.ink(rectangle(200.0, 492.0, right - 60.0, 492.0 + HAIR));
    tail(d, middle, right - 14.0);
}

/// f.
pub fn f(d: &mut Drawing) {
    f_stem(d, Some((100.0, 140.0)));
    hook(d, 0.0, 560.0);
    d.ink(rectangle(-105.0, X - SERIF, 420.0, X));
}

/// The stem of f, up to where its hook starts.
fn f_stem(d: &mut Drawing, foot: Option<(f64, f64)>) {
    d.bare_stroke(0.0, 0.0, STEM, (0.0, 1000.0), foot, None);
    d.needle(
        Point::new(STEM / 2.0, 120.0),
        Point::new(STEM / 2.0, 1160.0),
        STEM,
    );
}

/// The hook at the head of f: from a stem at `left` over to a ball whose right side is at `right`.
fn hook(d: &mut Drawing, left: f64, right: f64) {
    let (top, ball) = (ASCENDER + OVER, 112.0);
    let inner = left + STEM;
    d.ink(
        Pen::at(left, 900.0)
            .line(left, 1120.0)
            .plumb_to_level(left + 335.0, top, FULL)
            .level_to_plumb(right, 1245.0, 0.58)
            .line(right - 120.0, 1245.0)
            .curve(
                (right - 120.0, 1350.0),
                (inner + 140.0, top - HAIR),
                (inner + 90.0, top - HAIR),
            )
            .curve((inner + 20.0, top - HAIR), (inner, 1320.0), (inner, 1170.0))
            .line(inner, 900.0)
            .close(),
    );
    d.ball(right - ball, 1245.0, ball);
}

/// ff, with one bar and a first hook that stops short of the second stem.
pub fn ff(d: &mut Drawing) {
    f_stem(d, Some((100.0, 80.0)));
    hook(d, 0.0, 490.0);
    let mut second = Drawing::default();
    f(&mut second);
    d.place(&second, Affine::translate((566.0, 0.0)));
    d.ink(rectangle(-105.0, X - SERIF, 600.0, X));
}

/// fi, with the hook's ball for a dot.
pub fn fi(d: &mut Drawing) {
    f_stem(d, Some((100.0, 80.0)));
    hook(d, 0.0, 690.0);
    d.ink(rectangle(-105.0, X - SERIF, 600.0, X));
    d.stroke(470.0, 470.0, STEM, (0.0, X), Some((80.0, 100.0)), FLAG);
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
    d.bare_stroke(left, left, STEM, (-150.0, X), None, Some((0.0, 98.0)));
    d.needle(
        Point::new(left + STEM / 2.0, -210.0),
        Point::new(left + STEM / 2.0, X - 90.0),
        STEM,
    );
    mirrored_bowl(d);
    descending_hook(d, left);
}

/// The tail of j and of the open g: from a stem at `left` round to a ball.
fn descending_hook(d: &mut Drawing, left: f64) {
    let right = left + STEM;
    let end = right - 600.0;
    let foot = DESCENDER - OVER;
    d.ink(
        Pen::at(right, 0.0)
            .line(right, -110.0)
            .curve(
                (right, -310.0),
                (right - 120.0, foot),
                (right - 320.0, foot),
            )
            .level_to_plumb(end, -235.0, 0.58)
            .line(end + 120.0, -235.0)
            .curve(
                (end + 120.0, -330.0),
                (end + 180.0, foot + HAIR),
                (left - 70.0, foot + HAIR),
            )
            .curve((left - 10.0, foot + HAIR), (left, -310.0), (left, -180.0))
            .line(left, 0.0)
            .close(),
    );
    d.ball(end + BALL, -235.0, BALL);
}

/// h.
pub fn h(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, ASCENDER), Some((100.0, 84.0)), FLAG);
    arch(d, 0.0, SECOND);
}

/// An arch from the stem at `first` to a stem at `second` with its foot.
fn arch(d: &mut Drawing, first: f64, second: f64) {
    arch_alone(d, first, second);
    d.bare_stroke(
        second,
        second,
        STEM,
        (0.0, 600.0),
        Some((84.0, 100.0)),
        None,
    );
}

fn arch_alone(d: &mut Drawing, first: f64, second: f64) {
    let (edge, right) = (first + STEM, second + STEM);
    let counter = second - edge;
    d.ink(
        Pen::at(edge - 30.0, 640.0)
            .line(edge - 18.0, 735.0)
            .curve(
                (edge + 4.0, 890.0),
                (second - 60.0, ROUND),
                (second + 60.0, ROUND),
            )
            .level_to_plumb(right, 690.0, FULL)
            .line(right, 560.0)
            .line(second, 560.0)
            .line(second, 730.0)
            .curve(
                (second, 870.0),
                (second - counter * 0.12, ROUND - HAIR - 16.0),
                (second - counter * 0.34, ROUND - HAIR - 16.0),
            )
            .curve(
                (edge + counter * 0.3, ROUND - HAIR - 16.0),
                (edge + 6.0, 800.0),
                (edge - 14.0, 620.0),
            )
            .close(),
    );
    d.needle(
        Point::new(second + STEM / 2.0, 120.0),
        Point::new(second + STEM / 2.0, 800.0),
        STEM,
    );
}

/// i.
pub fn i(d: &mut Drawing) {
    dotless_i(d);
    d.ball(STEM / 2.0, 1275.0, 142.0);
}

/// i without its dot.
pub fn dotless_i(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, X), Some((100.0, 100.0)), FLAG);
}

/// j.
pub fn j(d: &mut Drawing) {
    d.bare_stroke(0.0, 0.0, STEM, (-150.0, X), None, FLAG);
    d.needle(
        Point::new(STEM / 2.0, -210.0),
        Point::new(STEM / 2.0, X - 90.0),
        STEM,
    );
    descending_hook(d, 0.0);
    d.ball(STEM / 2.0, 1275.0, 142.0);
}

/// k.
pub fn k(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, ASCENDER), Some((100.0, 76.0)), FLAG);
    d.bare_stroke(160.5, 556.0, 78.0, (310.0, X), None, Some((100.0, 96.0)));
    leg(d, ((229.0, 360.0), (595.0, X)), (505.0, 778.0), 0.53);
}

/// l.
pub fn l(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, ASCENDER), Some((100.0, 100.0)), FLAG);
}

/// m.
pub fn m(d: &mut Drawing) {
    let step = 426.0;
    d.stroke(0.0, 0.0, STEM, (0.0, X), Some((100.0, 72.0)), FLAG);
    arch_alone(d, 0.0, step);
    d.bare_stroke(step, step, STEM, (0.0, 700.0), Some((72.0, 72.0)), None);
    arch_alone(d, step, 2.0 * step);
    d.bare_stroke(
        2.0 * step,
        2.0 * step,
        STEM,
        (0.0, 600.0),
        Some((72.0, 100.0)),
        None,
    );
}

/// n.
pub fn n(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, X), Some((100.0, 84.0)), FLAG);
    arch(d, 0.0, SECOND);
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

/// r.
pub fn r(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, X), Some((100.0, 120.0)), FLAG);
    let right = 600.0;
    d.ink(
        Pen::at(222.0, 640.0)
            .line(234.0, 720.0)
            .curve((262.0, 880.0), (340.0, ROUND), (right - 128.0, ROUND))
            .line(right - 120.0, 800.0)
            .curve((right - 170.0, 1010.0), (300.0, 860.0), (238.0, 600.0))
            .close(),
    );
    d.ball(right - 128.0, ROUND - 128.0, 128.0);
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
    beak(d, 325.0, 588.0, X, 330.0);
    let mut foot = Drawing::default();
    beak(&mut foot, 325.0, 645.0, X, 345.0);
    d.place(
        &foot,
        Affine::rotate_about(std::f64::consts::PI, Point::new(325.0, MIDDLE)),
    );
}

/// t.
pub fn t(d: &mut Drawing) {
    d.ink(
        Pen::at(0.0, X - SERIF)
            .line(0.0, 215.0)
            .plumb_to_level(275.0, -OVER, FULL)
            .curve((395.0, -OVER), (468.0, 60.0), (478.0, 225.0))
            .line(432.0, 228.0)
            .curve((424.0, 110.0), (385.0, 40.0), (330.0, 40.0))
            .curve((275.0, 40.0), (STEM, 90.0), (STEM, 175.0))
            .line(STEM, X - SERIF)
            .line(440.0, X - SERIF)
            .line(440.0, X)
            .line(STEM, X)
            .line(STEM, 1225.0)
            .line(STEM - 46.0, 1225.0)
            .curve((180.0, 1090.0), (90.0, X), (-100.0, X))
            .line(-100.0, X - SERIF)
            .close(),
    );
    d.needle(
        Point::new(STEM / 2.0, 130.0),
        Point::new(STEM / 2.0, 960.0),
        STEM,
    );
}

/// u.
pub fn u(d: &mut Drawing) {
    let mut turned = Drawing::default();
    arch_alone(&mut turned, 0.0, SECOND);
    let middle = Point::new((SECOND + STEM) / 2.0, X / 2.0);
    d.place(&turned, Affine::rotate_about(std::f64::consts::PI, middle));
    d.bare_stroke(0.0, 0.0, STEM, (380.0, X), None, FLAG);
    d.stroke(
        SECOND,
        SECOND,
        STEM,
        (0.0, X),
        Some((0.0, 98.0)),
        Some((100.0, 0.0)),
    );
}

/// The two strokes of v and y.
fn v_strokes(d: &mut Drawing) {
    let (point, low, heavy, thin, right) = ((356.0, 414.0), -OVER, 272.0, HAIR_UPRIGHT, 752.0);
    d.vee(0.0, right, point, (low, X), heavy, thin);
    let half = |from: f64, to: f64| from + (to - from) * 450.0 / (X + OVER);
    d.bare_stroke(
        half(0.0, point.0),
        0.0,
        heavy,
        (X - 450.0, X),
        None,
        Some((92.0, 96.0)),
    );
    let inner = right - thin;
    d.bare_stroke(
        half(inner, point.1 - thin),
        inner,
        thin,
        (X - 450.0, X),
        None,
        Some((104.0, 92.0)),
    );
}

/// v.
pub fn v(d: &mut Drawing) {
    v_strokes(d);
}

/// w.
pub fn w(d: &mut Drawing) {
    let (low, heavy, thin) = (-OVER, 262.0, HAIR_UPRIGHT);
    let (first, second) = ((304.0, 360.0), (794.0, 850.0));
    d.vee(0.0, 638.0, first, (low, X), heavy, thin);
    d.vee(490.0, 1180.0, second, (low, X), heavy, thin);
    let half = |from: f64, to: f64| from + (to - from) * 450.0 / (X + OVER);
    d.bare_stroke(
        half(0.0, first.0),
        0.0,
        heavy,
        (X - 450.0, X),
        None,
        Some((92.0, 84.0)),
    );
    d.bare_stroke(
        half(490.0, second.0),
        490.0,
        heavy,
        (X - 450.0, X),
        None,
        Some((84.0, 96.0)),
    );
    let inner = 1180.0 - thin;
    d.bare_stroke(
        half(inner, second.1 - thin),
        inner,
        thin,
        (X - 450.0, X),
        None,
        Some((104.0, 92.0)),
    );
}

/// x.
pub fn x(d: &mut Drawing) {
    d.stroke(
        488.0,
        16.0,
        268.0,
        (0.0, X),
        Some((90.0, 92.0)),
        Some((92.0, 90.0)),
    );
    d.bare_stroke(
        70.0,
        600.0,
        HAIR_UPRIGHT,
        (0.0, X),
        Some((104.0, 110.0)),
        Some((108.0, 100.0)),
    );
}

/// y.
pub fn y(d: &mut Drawing) {
    v_strokes(d);
    let foot = DESCENDER - OVER;
    let at = |y: f64| 414.0 + (752.0 - 414.0) * (y + OVER) / (X + OVER);
    d.ink(
        Pen::at(at(0.0), 0.0)
            .line(at(-90.0), -90.0)
            .curve((at(-260.0), -300.0), (290.0, foot), (140.0, foot))
            .level_to_plumb(-10.0, -280.0, 0.58)
            .line(110.0, -280.0)
            .curve((110.0, -350.0), (130.0, foot + HAIR), (170.0, foot + HAIR))
            .curve(
                (250.0, foot + HAIR),
                (at(-260.0) - 70.0, -250.0),
                (at(-60.0) - HAIR_UPRIGHT, -60.0),
            )
            .line(at(0.0) - HAIR_UPRIGHT, 0.0)
            .close(),
    );
    d.ball(-10.0 + BALL, -290.0, BALL);
}

/// z.
pub fn z(d: &mut Drawing) {
    d.arm(500.0, 10.0, X, -310.0);
    d.arm(110.0, 660.0, 0.0, 330.0);
    d.ink(polygon(&[(0.0, 0.0), (278.0, 0.0), (640.0, X), (362.0, X)]));
    let middle = |y: f64| Point::new(139.0 + 362.0 * y / X, y);
    d.needle(middle(110.0), middle(X - 110.0), 278.0 * 0.9);
}

/// Sharp s: a long s and two bowls.
pub fn sharp_s(d: &mut Drawing) {
    let top = ASCENDER + OVER;
    d.bare_stroke(0.0, 0.0, STEM, (0.0, 1000.0), Some((100.0, 70.0)), None);
    d.needle(
        Point::new(STEM / 2.0, 120.0),
        Point::new(STEM / 2.0, 1160.0),
        STEM,
    );
    d.ink(rectangle(-105.0, X - SERIF, 60.0, X));
    d.ink(
        Pen::at(0.0, 900.0)
            .line(0.0, 1120.0)
            .plumb_to_level(350.0, top, FULL)
            .line(370.0, top - HAIR)
            .curve((290.0, top - HAIR), (STEM, 1330.0), (STEM, 1170.0))
            .line(STEM, 900.0)
            .close(),
    );
    d.last_quarter((350.0, top), (690.0, 1150.0), HAIR, 215.0, 370.0);
    d.ink(
        Pen::at(690.0, 1150.0)
            .curve((690.0, 960.0), (590.0, 850.0), (400.0, 830.0))
            .line(400.0, 776.0)
            .curve((450.0, 850.0), (470.0, 980.0), (470.0, 1150.0))
            .close(),
    );
    d.quarter((400.0, 830.0), (840.0, 400.0), HAIR, BOW, 400.0);
    d.quarter((540.0, -OVER), (840.0, 400.0), HAIR, BOW, 510.0);
    d.ink(
        Pen::at(540.0, -OVER)
            .curve((460.0, -OVER), (385.0, 60.0), (385.0, 170.0))
            .line(505.0, 170.0)
            .curve((485.0, 90.0), (470.0, HAIR - OVER), (510.0, HAIR - OVER))
            .close(),
    );
    d.ball(385.0 + 92.0, 170.0, 92.0);
}

/// The thin slash through o, corner to corner of a box.
pub fn slash(d: &mut Drawing, x: (f64, f64), y: (f64, f64), width: f64) {
    let foot = meet(((x.0, y.0), (x.1, y.1)), ((0.0, y.0), (1.0, y.0)));
    d.ink(polygon(&[
        foot,
        (foot.0 + width, y.0),
        (x.1, y.1),
        (x.1 - width, y.1),
    ]));
}

/// A ring: the accent of å, and the body of small ornaments.
pub fn ring(d: &mut Drawing, cx: f64, cy: f64, outer: f64, inner: f64) {
    d.ink(ellipse(cx, cy, outer, outer, 0.5523));
    d.counter(ellipse(cx, cy, inner, inner, 0.5523));
}
