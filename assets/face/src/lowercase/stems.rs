//! The small letters of stems, arches and hooks, and the letters joined from them.

use super::{BALL, BOW, FLAG, HAIR, ROUND, SECOND, STEM};
use crate::parts::{ASCENDER, DESCENDER, Drawing, FULL, OVER, SERIF, X};
use crate::pen::{Pen, rectangle};
use kurbo::{Affine, Point};

/// f.
pub fn f(d: &mut Drawing) {
    f_stem(d, Some((100.0, 140.0)));
    hook(d, 0.0, 560.0);
    d.ink(rectangle(-105.0, X - SERIF, 420.0, X));
}

fn f_stem(d: &mut Drawing, foot: Option<(f64, f64)>) {
    d.bare_stroke(0.0, 0.0, STEM, (0.0, 1000.0), foot, None);
    d.needle(
        Point::new(STEM / 2.0, 120.0),
        Point::new(STEM / 2.0, 1160.0),
        STEM,
    );
}

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

/// Sharp s: a long s that runs into two bowls.
pub fn sharp_s(d: &mut Drawing) {
    let (top, waist) = (ASCENDER + OVER, 810.0);
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
            .line(380.0, top - HAIR)
            .curve((290.0, top - HAIR), (STEM, 1330.0), (STEM, 1170.0))
            .line(STEM, 900.0)
            .close(),
    );
    d.quarter((350.0, top), (700.0, 1150.0), HAIR, 222.0, 380.0);
    d.quarter(
        (450.0, waist - HAIR / 2.0),
        (700.0, 1150.0),
        HAIR,
        222.0,
        430.0,
    );
    d.quarter(
        (450.0, waist + HAIR / 2.0),
        (835.0, 400.0),
        HAIR,
        BOW,
        430.0,
    );
    d.quarter((540.0, -OVER), (835.0, 400.0), HAIR, BOW, 520.0);
    d.ink(rectangle(
        370.0,
        waist - HAIR / 2.0,
        452.0,
        waist + HAIR / 2.0,
    ));
    d.ink(
        Pen::at(540.0, -OVER)
            .curve((440.0, -OVER), (376.0, 40.0), (366.0, 180.0))
            .line(410.0, 186.0)
            .curve((420.0, 90.0), (460.0, HAIR - OVER), (520.0, HAIR - OVER))
            .close(),
    );
}

/// The tail of j and of the open g: from a stem at `left` round to a ball `reach` to the left of the stem's right side.
pub fn descending_hook(d: &mut Drawing, left: f64, reach: f64) {
    let right = left + STEM;
    let end = right - reach;
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
        Pen::at(edge - 30.0, 610.0)
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
                (edge, 810.0),
                (edge, 610.0),
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
    d.bare_stroke(0.0, 0.0, STEM, (-100.0, X), None, FLAG);
    d.needle(
        Point::new(STEM / 2.0, -210.0),
        Point::new(STEM / 2.0, X - 90.0),
        STEM,
    );
    descending_hook(d, 0.0, 510.0);
    d.ball(STEM / 2.0, 1275.0, 142.0);
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

/// r.
pub fn r(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, X), Some((100.0, 120.0)), FLAG);
    let right = 600.0;
    d.ink(
        Pen::at(222.0, 610.0)
            .line(234.0, 720.0)
            .curve((262.0, 880.0), (340.0, ROUND), (right - 128.0, ROUND))
            .line(right - 120.0, 800.0)
            .curve((right - 170.0, 1000.0), (STEM, 880.0), (STEM, 610.0))
            .close(),
    );
    d.ball(right - 128.0, ROUND - 128.0, 128.0);
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
