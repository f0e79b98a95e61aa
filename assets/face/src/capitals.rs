//! The capitals.

use crate::parts::{CAP, Drawing, FULL, FULL_COUNTER, HAIR, HAIR_UPRIGHT, OVER, REACH, STEM, meet};
use crate::pen::{Pen, half_turn, polygon, rectangle};
use kurbo::{CubicBez, Point};

/// Both serifs of a main stem.
const BOTH: Option<(f64, f64)> = Some((REACH, REACH));
/// Serifs of thin strokes reach as far again.
const THIN: Option<(f64, f64)> = Some((125.0, 125.0));
/// Main stroke of round capitals: a little more than a stem, because its full width is only reached at one height.
const BOW: f64 = 312.0;
/// From foot to head.
const TALL: (f64, f64) = (0.0, CAP);
const MIDDLE: f64 = CAP / 2.0;

/// A.
pub fn a(d: &mut Drawing) {
    let mut vee = Drawing::default();
    v_strokes(&mut vee);
    d.place(&vee, half_turn(480.0, MIDDLE));
    d.ink(rectangle(130.0, 318.0, 760.0, 318.0 + HAIR));
}

/// The strokes of V; A is the same turned half round.
fn v_strokes(d: &mut Drawing) {
    d.vee(0.0, 960.0, (452.0, 520.0), (-OVER, CAP), 330.0, 86.0);
    let (low, high) = (700.0, CAP);
    d.bare_stroke(
        0.0 + 452.0 * 700.0 / 1420.0,
        0.0,
        330.0,
        (low, high),
        None,
        Some((115.0, 120.0)),
    );
    d.bare_stroke(
        874.0 - 440.0 * 700.0 / 1420.0,
        874.0,
        86.0,
        (low, high),
        None,
        Some((125.0, 120.0)),
    );
}

/// B.
pub fn b(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, TALL, Some((REACH, 0.0)), Some((REACH, 0.0)));
    let waist = 730.0;
    bowl(d, 430.0, 820.0, (waist - HAIR / 2.0, CAP), 296.0);
    bowl(d, 440.0, 905.0, (0.0, waist + HAIR / 2.0), BOW);
}

/// The bowl of B, D, P and R: a bar from the stem at head and foot, and two quarters.
fn bowl(d: &mut Drawing, turn: f64, right: f64, (low, high): (f64, f64), thick: f64) {
    let middle = (low + high) / 2.0;
    let counter = turn - 40.0;
    for (level, inward) in [(low, 1.0), (high, -1.0)] {
        d.ink(polygon(&[
            (150.0, level),
            (turn, level),
            (counter, level + inward * HAIR),
            (150.0, level + inward * HAIR),
        ]));
        d.quarter((turn, level), (right, middle), HAIR, thick, counter);
    }
}

/// C.
pub fn c(d: &mut Drawing) {
    left_half(d, 495.0, BOW);
    beak(d, 495.0, 870.0, (CAP, 490.0), HAIR);
    d.ink(
        Pen::at(495.0, -OVER)
            .curve((740.0, -OVER), (862.0, 130.0), (890.0, 350.0))
            .line(844.0, 356.0)
            .curve((808.0, 150.0), (690.0, HAIR - OVER), (495.0, HAIR - OVER))
            .close(),
    );
}

/// The left half of a round capital.
fn left_half(d: &mut Drawing, middle: f64, thick: f64) {
    for level in [-OVER, CAP + OVER] {
        d.quarter((middle, level), (0.0, MIDDLE), HAIR, thick, middle);
    }
}

/// The upper hairline of round letters, `hair` thick, which runs into an upright beak from `top` down by `drop`.
pub fn beak(d: &mut Drawing, middle: f64, right: f64, (top, drop): (f64, f64), hair: f64) {
    let (over, under) = (top + OVER, top + OVER - hair);
    let left = right - 50.0;
    let run = left - middle;
    d.ink(
        Pen::at(middle, over)
            .curve(
                (middle + run * 0.5, over),
                (left - run * 0.14, over - drop * 0.15),
                (left - 4.0, over - drop * 0.46),
            )
            .line(left + 4.0, top)
            .line(right, top)
            .line(right, top - drop)
            .line(left + 6.0, top - drop)
            .curve(
                (left - 20.0, top - drop * 0.46),
                (middle + run * 0.6, under),
                (middle, under),
            )
            .close(),
    );
}

/// D.
pub fn d(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, TALL, Some((REACH, 0.0)), Some((REACH, 0.0)));
    bowl(d, 430.0, 960.0, TALL, BOW);
}

/// E.
pub fn e(d: &mut Drawing) {
    f_strokes(d, Some((REACH, 0.0)));
    d.arm(150.0, 850.0, 0.0, 420.0);
}

/// The stem, head and middle arm of E and F.
fn f_strokes(d: &mut Drawing, foot: Option<(f64, f64)>) {
    d.stroke(0.0, 0.0, STEM, TALL, foot, Some((REACH, 0.0)));
    d.arm(150.0, 800.0, CAP, -380.0);
    let bar = 720.0;
    d.arm(150.0, 640.0, bar - HAIR / 2.0, 210.0);
    d.arm(150.0, 640.0, bar + HAIR / 2.0, -210.0);
}

/// F.
pub fn f(d: &mut Drawing) {
    f_strokes(d, Some((REACH, 150.0)));
}

/// G.
pub fn g(d: &mut Drawing) {
    left_half(d, 495.0, BOW);
    beak(d, 495.0, 870.0, (CAP, 490.0), HAIR);
    let (left, right) = (620.0, 910.0);
    d.stroke(
        left,
        left,
        right - left,
        (0.0, 610.0),
        None,
        Some((120.0, 120.0)),
    );
    d.ink(
        Pen::at(495.0, -OVER)
            .curve((640.0, -OVER), (740.0, 40.0), (800.0, 150.0))
            .line(800.0, 330.0)
            .line(left, 330.0)
            .curve((left, 140.0), (590.0, HAIR - OVER), (495.0, HAIR - OVER))
            .close(),
    );
}

/// H.
pub fn h(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, TALL, BOTH, BOTH);
    d.stroke(720.0, 720.0, STEM, TALL, BOTH, BOTH);
    d.ink(rectangle(200.0, 700.0, 800.0, 700.0 + HAIR));
}

/// I.
pub fn i(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, TALL, BOTH, BOTH);
}

/// J.
pub fn j(d: &mut Drawing) {
    let (left, right) = (330.0, 630.0);
    d.bare_stroke(left, left, STEM, (400.0, CAP), None, BOTH);
    d.needle(
        Point::new(480.0, 330.0),
        Point::new(480.0, CAP - 120.0),
        STEM,
    );
    d.ink(
        Pen::at(left, 420.0)
            .line(left, 330.0)
            .curve((left, 120.0), (320.0, HAIR - OVER), (235.0, HAIR - OVER))
            .curve((150.0, HAIR - OVER), (100.0, 90.0), (100.0, 190.0))
            .line(0.0, 200.0)
            .curve((0.0, 60.0), (90.0, -OVER), (250.0, -OVER))
            .curve((480.0, -OVER), (right, 110.0), (right, 360.0))
            .line(right, 420.0)
            .close(),
    );
    d.ball(135.0, 200.0, 135.0);
}

/// K.
pub fn k(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, TALL, BOTH, BOTH);
    let arm = ((195.3, 400.0), (742.0, CAP));
    d.bare_stroke(
        arm.0.0,
        arm.1.0,
        90.0,
        (arm.0.1, arm.1.1),
        None,
        Some((125.0, 110.0)),
    );
    leg(d, ((295.0, 500.0), (787.0, CAP)), (640.0, 960.0), 0.46);
}

/// A heavy leg that falls from a thin arm (its middle line through two points) to the foot between `at.0` and `at.1`.
pub fn leg(d: &mut Drawing, arm: ((f64, f64), (f64, f64)), at: (f64, f64), slope: f64) {
    let edge = |x: f64| meet(((x, 0.0), (x - slope * 1000.0, 1000.0)), arm);
    let (low, high) = (edge(at.0), edge(at.1));
    d.ink(polygon(&[(at.0, 0.0), (at.1, 0.0), high, low]));
    d.bare_stroke(
        at.0,
        at.0 - slope * 300.0,
        at.1 - at.0,
        (0.0, 300.0),
        Some((115.0, 115.0)),
        None,
    );
    let middle = (at.0 + at.1) / 2.0;
    let head = meet(((middle, 0.0), (middle - slope * 1000.0, 1000.0)), arm);
    let towards = |y: f64| Point::new(middle - slope * y, y);
    d.needle(towards(120.0), towards(head.1 - 110.0), at.1 - at.0);
}

/// L.
pub fn l(d: &mut Drawing) {
    d.stroke(
        0.0,
        0.0,
        STEM,
        TALL,
        Some((REACH, 0.0)),
        Some((REACH, 140.0)),
    );
    d.arm(150.0, 830.0, 0.0, 470.0);
}

/// M.
pub fn m(d: &mut Drawing) {
    let (heavy, right) = (310.0, 920.0);
    d.stroke(60.0, 60.0, HAIR_UPRIGHT, TALL, THIN, None);
    d.stroke(right, right, STEM, TALL, BOTH, Some((0.0, REACH)));
    d.vee(60.0, right + 90.0, (520.0, 590.0), TALL, heavy, 90.0);
    d.bare_stroke(
        60.0 + 23.0,
        60.0,
        200.0,
        (CAP - 70.0 * 1.0, CAP),
        None,
        None,
    );
    d.bare_stroke(
        60.0,
        60.0,
        HAIR_UPRIGHT,
        (900.0, CAP),
        None,
        Some((REACH, 0.0)),
    );
}

/// N.
pub fn n(d: &mut Drawing) {
    let (left, right) = (70.0, 940.0);
    d.bare_stroke(left, left, HAIR_UPRIGHT, TALL, THIN, Some((REACH, 0.0)));
    d.bare_stroke(
        right - HAIR_UPRIGHT,
        right - HAIR_UPRIGHT,
        HAIR_UPRIGHT,
        (100.0, CAP),
        None,
        THIN,
    );
    let heavy = 320.0;
    let (head, foot) = ((left, CAP), (right - 74.0, -OVER));
    let (_, corner) = meet(
        ((left + heavy, CAP), (foot.0 + heavy, foot.1)),
        ((right, 0.0), (right, CAP)),
    );
    d.ink(polygon(&[
        head,
        (left + heavy, CAP),
        (right, corner),
        (right, -OVER),
        foot,
    ]));
    let middle = |y: f64| {
        Point::new(
            left + heavy / 2.0 + (foot.0 - head.0) * (CAP - y) / (CAP + OVER),
            y,
        )
    };
    d.needle(middle(CAP - 100.0), middle(corner + 40.0), heavy);
}

/// O.
pub fn o(d: &mut Drawing) {
    d.oval((0.0, 990.0), (-OVER, CAP + OVER), BOW, BOW, HAIR);
}

/// P.
pub fn p(d: &mut Drawing) {
    d.stroke(
        0.0,
        0.0,
        STEM,
        TALL,
        Some((REACH, 150.0)),
        Some((REACH, 0.0)),
    );
    bowl(d, 430.0, 885.0, (590.0, CAP), BOW);
}

/// Q.
pub fn q(d: &mut Drawing) {
    o(d);
    d.ink(
        Pen::at(420.0, 20.0)
            .curve((520.0, 20.0), (470.0, -300.0), (770.0, -300.0))
            .curve((900.0, -300.0), (985.0, -220.0), (1005.0, -70.0))
            .line(962.0, -62.0)
            .curve((945.0, -110.0), (920.0, -130.0), (870.0, -130.0))
            .curve((760.0, -130.0), (700.0, -50.0), (625.0, 60.0))
            .line(540.0, 15.0)
            .close(),
    );
}

/// R, with an upright leg that flicks up at its end.
pub fn r(d: &mut Drawing) {
    r_head(d);
    d.ink(
        Pen::at(400.0, 712.0)
            .curve((700.0, 712.0), (872.0, 620.0), (872.0, 440.0))
            .line(872.0, 170.0)
            .curve((872.0, 80.0), (890.0, 44.0), (930.0, 44.0))
            .curve((975.0, 44.0), (992.0, 90.0), (996.0, 170.0))
            .line(1042.0, 170.0)
            .curve((1042.0, 40.0), (985.0, -OVER), (860.0, -OVER))
            .curve((660.0, -OVER), (565.0, 60.0), (565.0, 240.0))
            .line(565.0, 450.0)
            .curve((565.0, 590.0), (520.0, 654.0), (400.0, 654.0))
            .close(),
    );
    d.needle(Point::new(718.0, 130.0), Point::new(718.0, 560.0), STEM);
}

/// The stem and bowl of R.
fn r_head(d: &mut Drawing) {
    d.stroke(
        0.0,
        0.0,
        STEM,
        TALL,
        Some((REACH, 105.0)),
        Some((REACH, 0.0)),
    );
    bowl(d, 430.0, 870.0, (654.0, CAP), BOW);
}

/// R with a straight sloping leg.
pub fn r_straight(d: &mut Drawing) {
    r_head(d);
    let slope = 0.5;
    leg(d, ((200.0, 683.0), (900.0, 683.0)), (640.0, 960.0), slope);
}

/// S.
pub fn s(d: &mut Drawing) {
    let spine_low = CubicBez::new((0.0, 1030.0), (0.0, 660.0), (548.0, 690.0), (548.0, 330.0));
    let spine_high = CubicBez::new(
        (286.0, 1085.0),
        (286.0, 790.0),
        (850.0, 790.0),
        (850.0, 390.0),
    );
    d.ink(
        Pen::at(430.0, CAP + OVER)
            .level_to_plumb(0.0, 1030.0, FULL)
            .curve(pair(spine_low.p1), pair(spine_low.p2), pair(spine_low.p3))
            .plumb_to_level(420.0, HAIR - OVER, FULL_COUNTER)
            .line(420.0, -OVER)
            .level_to_plumb(850.0, 390.0, FULL)
            .curve(
                pair(spine_high.p2),
                pair(spine_high.p1),
                pair(spine_high.p0),
            )
            .plumb_to_level(430.0, CAP + OVER - HAIR, FULL_COUNTER)
            .close(),
    );
    d.lens(spine_low, spine_high, (0.05, 0.95));
    beak(d, 430.0, 770.0, (CAP, 490.0), HAIR);
    let mut tail = Drawing::default();
    beak(&mut tail, 430.0, 860.0, (CAP, 490.0), HAIR);
    d.place(&tail, half_turn(425.0, MIDDLE));
}

/// A point as two numbers.
pub fn pair(point: Point) -> (f64, f64) {
    (point.x, point.y)
}

/// T.
pub fn t(d: &mut Drawing) {
    d.stroke(305.0, 305.0, STEM, TALL, Some((150.0, 150.0)), None);
    d.arm(455.0, 910.0, CAP, -335.0);
    d.arm(455.0, 0.0, CAP, -335.0);
}

/// U.
pub fn u(d: &mut Drawing) {
    let (right, turn) = (850.0, 440.0);
    d.bare_stroke(0.0, 0.0, STEM, (turn, CAP), None, BOTH);
    d.needle(
        Point::new(150.0, 330.0),
        Point::new(150.0, CAP - 120.0),
        STEM,
    );
    d.bare_stroke(
        right - HAIR_UPRIGHT,
        right - HAIR_UPRIGHT,
        HAIR_UPRIGHT,
        (turn, CAP),
        None,
        THIN,
    );
    d.ink(
        Pen::at(0.0, turn)
            .plumb_to_level(440.0, -OVER, FULL)
            .level_to_plumb(right, turn, FULL)
            .line(right - HAIR_UPRIGHT, turn)
            .plumb_to_level(510.0, HAIR + 10.0 - OVER, FULL)
            .level_to_plumb(STEM, turn, FULL)
            .close(),
    );
}

/// V.
pub fn v(d: &mut Drawing) {
    v_strokes(d);
}

/// W.
pub fn w(d: &mut Drawing) {
    let (low, heavy, thin) = (-OVER, 310.0, 86.0);
    d.vee(0.0, 760.0, (370.0, 436.0), (low, CAP), heavy, thin);
    d.vee(590.0, 1400.0, (960.0, 1026.0), (low, CAP), heavy, thin);
    let half = |from: f64, to: f64| from + (to - from) * 700.0 / (CAP + OVER);
    d.bare_stroke(
        half(0.0, 370.0),
        0.0,
        heavy,
        (700.0, CAP),
        None,
        Some((115.0, 105.0)),
    );
    d.bare_stroke(
        half(590.0, 960.0),
        590.0,
        heavy,
        (700.0, CAP),
        None,
        Some((105.0, 120.0)),
    );
    d.bare_stroke(
        half(1314.0, 940.0),
        1314.0,
        thin,
        (700.0, CAP),
        None,
        Some((125.0, 120.0)),
    );
}

/// X.
pub fn x(d: &mut Drawing) {
    d.stroke(
        630.0,
        10.0,
        325.0,
        TALL,
        Some((115.0, 110.0)),
        Some((110.0, 115.0)),
    );
    d.bare_stroke(
        80.0,
        790.0,
        88.0,
        TALL,
        Some((120.0, 130.0)),
        Some((130.0, 120.0)),
    );
}

/// Y.
pub fn y(d: &mut Drawing) {
    let (left, right, fork) = (330.0, 630.0, 560.0);
    let (heavy, thin, end) = (325.0, 86.0, 940.0);
    d.bare_stroke(left, left, STEM, (0.0, fork), Some((150.0, 150.0)), None);
    let crotch = meet(
        ((heavy, CAP), (left + heavy, fork)),
        ((end - thin, CAP), (right - thin, fork)),
    );
    d.ink(polygon(&[
        (0.0, CAP),
        (heavy, CAP),
        crotch,
        (end - thin, CAP),
        (end, CAP),
        (right, fork),
        (left, fork),
    ]));
    let half = |from: f64, to: f64| from + (to - from) * 0.5;
    let waist = (CAP + fork) / 2.0;
    d.bare_stroke(
        half(0.0, left),
        0.0,
        heavy,
        (waist, CAP),
        None,
        Some((110.0, 115.0)),
    );
    d.bare_stroke(
        half(end, right) - thin,
        end - thin,
        thin,
        (waist, CAP),
        None,
        Some((125.0, 120.0)),
    );
    d.needle(
        Point::new(480.0, 120.0),
        Point::new(480.0, fork - 10.0),
        STEM,
    );
    let middle = |y: f64| Point::new(heavy / 2.0 + left * (CAP - y) / (CAP - fork), y);
    d.needle(middle(fork + 120.0), middle(CAP - 110.0), heavy);
}

/// Z.
pub fn z(d: &mut Drawing) {
    d.arm(700.0, 20.0, CAP, -420.0);
    d.arm(140.0, 850.0, 0.0, 450.0);
    d.ink(polygon(&[
        (0.0, 0.0),
        (335.0, 0.0),
        (825.0, CAP),
        (490.0, CAP),
    ]));
    d.needle(
        Point::new(167.0 + 49.0, 140.0),
        Point::new(657.0 - 49.0, CAP - 140.0),
        335.0 * 0.9,
    );
}
