//! The small letters of sloping strokes.

use super::{BALL, FLAG, HAIR, HAIR_UPRIGHT, STEM};
use crate::capitals::leg;
use crate::parts::{ASCENDER, DESCENDER, Drawing, OVER, X};
use crate::pen::{Pen, polygon};
use kurbo::Point;

/// k.
pub fn k(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, ASCENDER), Some((100.0, 76.0)), FLAG);
    d.bare_stroke(160.5, 556.0, 78.0, (310.0, X), None, Some((100.0, 96.0)));
    leg(d, ((229.0, 360.0), (595.0, X)), (505.0, 778.0), 0.53);
}

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
            .curve((at(-250.0), -250.0), (290.0, foot), (140.0, foot))
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
    d.ball(-10.0 + BALL, -280.0, BALL);
}

/// z.
pub fn z(d: &mut Drawing) {
    d.arm(500.0, 10.0, X, -310.0);
    d.arm(110.0, 660.0, 0.0, 330.0);
    d.ink(polygon(&[(0.0, 0.0), (278.0, 0.0), (640.0, X), (362.0, X)]));
    let middle = |y: f64| Point::new(139.0 + 362.0 * y / X, y);
    d.needle(middle(110.0), middle(X - 110.0), 278.0 * 0.9);
}
