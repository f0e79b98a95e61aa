//! Ornaments, and border units that join on all sides.

use crate::parts::{CAP, Drawing};
use crate::pen::{Pen, ellipse, inked, polygon, quarter_turn, rectangle};
use kurbo::{Affine, Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Side of the square that a border unit fills.
pub const BORDER: f64 = 1000.0;
const MIDDLE: f64 = CAP / 2.0;

fn around(centre: Point, radius: f64, angle: f64) -> (f64, f64) {
    let at = centre + Vec2::from_angle(angle) * radius;
    (at.x, at.y)
}

/// A star with five points, each with one side lit.
pub fn star(d: &mut Drawing) {
    let centre = Point::new(700.0, MIDDLE - 30.0);
    let (long, short) = (720.0, 300.0);
    let corner = |k: usize| {
        around(
            centre,
            if k.is_multiple_of(2) { long } else { short },
            FRAC_PI_2 + PI / 5.0 * k as f64,
        )
    };
    let outline: Vec<(f64, f64)> = (0..10).map(corner).collect();
    d.ink(polygon(&outline));
    for k in 0..5 {
        let angle = FRAC_PI_2 + TAU / 5.0 * k as f64;
        let tip = around(centre, long - 190.0, angle);
        let side = around(centre, short - 80.0, angle - PI / 5.0);
        let heart = around(centre, 70.0, angle - PI / 10.0);
        let inner = around(centre, 150.0, angle);
        d.light(polygon(&[tip, inner, heart, side]));
    }
}

/// A diamond with a smaller one in it.
pub fn diamond(d: &mut Drawing) {
    d.ink(polygon(&[
        (350.0, MIDDLE - 560.0),
        (700.0, MIDDLE),
        (350.0, MIDDLE + 560.0),
        (0.0, MIDDLE),
    ]));
    d.light(polygon(&[
        (350.0, MIDDLE - 320.0),
        (550.0, MIDDLE),
        (350.0, MIDDLE + 320.0),
        (150.0, MIDDLE),
    ]));
}

/// A sun: a disc in a ring of twelve rays, long and short.
pub fn sun(d: &mut Drawing) {
    let centre = Point::new(720.0, MIDDLE);
    d.ring(centre.x, centre.y, 370.0, 312.0);
    d.ball(centre.x, centre.y, 250.0);
    for k in 0..16 {
        let angle = TAU / 16.0 * k as f64;
        let (length, width) = if k % 2 == 0 {
            (720.0, 0.155)
        } else {
            (560.0, 0.11)
        };
        let ray = [
            around(centre, 415.0, angle - width),
            around(centre, length, angle),
            around(centre, 415.0, angle + width),
        ];
        d.ink(polygon(&ray));
        if k % 2 == 0 {
            let light = [
                around(centre, 450.0, angle - 0.05),
                around(centre, 600.0, angle),
                around(centre, 450.0, angle + 0.05),
            ];
            d.light(polygon(&light));
        }
    }
}

/// A leaf on a curled stalk.
pub fn leaf(d: &mut Drawing) {
    let blade = Pen::at(80.0, 330.0)
        .curve((40.0, 760.0), (330.0, 1240.0), (1010.0, 1330.0))
        .curve((1130.0, 860.0), (900.0, 330.0), (420.0, 260.0))
        .curve((300.0, 243.0), (180.0, 265.0), (80.0, 330.0))
        .close();
    d.ink(blade);
    // The midrib and two veins are open ground.
    d.cut(
        Pen::at(150.0, 372.0)
            .curve((420.0, 560.0), (650.0, 800.0), (830.0, 1120.0))
            .curve((600.0, 850.0), (380.0, 640.0), (120.0, 440.0))
            .close(),
    );
    d.cut(
        Pen::at(400.0, 590.0)
            .curve((560.0, 610.0), (700.0, 600.0), (850.0, 660.0))
            .curve((700.0, 655.0), (560.0, 680.0), (440.0, 640.0))
            .close(),
    );
    d.cut(
        Pen::at(400.0, 620.0)
            .curve((370.0, 760.0), (400.0, 880.0), (480.0, 1000.0))
            .curve((450.0, 880.0), (440.0, 780.0), (460.0, 680.0))
            .close(),
    );
    d.ink(
        Pen::at(120.0, 400.0)
            .curve((20.0, 250.0), (0.0, 120.0), (60.0, 0.0))
            .curve((130.0, -140.0), (320.0, -170.0), (420.0, -80.0))
            .line(390.0, -50.0)
            .curve((310.0, -100.0), (180.0, -70.0), (130.0, 30.0))
            .curve((90.0, 120.0), (110.0, 240.0), (180.0, 330.0))
            .close(),
    );
    d.ball(395.0, -10.0, 92.0);
    d.light(
        Pen::at(700.0, 420.0)
            .curve((850.0, 560.0), (930.0, 760.0), (930.0, 960.0))
            .curve((880.0, 780.0), (800.0, 600.0), (700.0, 420.0))
            .close(),
    );
    d.light(
        Pen::at(160.0, 560.0)
            .curve((220.0, 840.0), (400.0, 1060.0), (640.0, 1160.0))
            .curve((470.0, 1020.0), (290.0, 820.0), (160.0, 560.0))
            .close(),
    );
}

/// The leaf the other way round.
pub fn leaf_turned(d: &mut Drawing) {
    let mut other = Drawing::default();
    leaf(&mut other);
    d.place(&other, Affine::FLIP_X);
}

/// A flourish: two scrolls with a diamond between them.
pub fn flourish(d: &mut Drawing) {
    let mut half = Drawing::default();
    half.ink(
        Pen::at(60.0, 700.0)
            .curve((160.0, 660.0), (260.0, 560.0), (420.0, 500.0))
            .curve((640.0, 420.0), (900.0, 480.0), (900.0, 720.0))
            .curve((900.0, 860.0), (800.0, 940.0), (690.0, 940.0))
            .curve((570.0, 940.0), (490.0, 850.0), (520.0, 740.0))
            .line(570.0, 750.0)
            .curve((560.0, 830.0), (610.0, 885.0), (680.0, 885.0))
            .curve((760.0, 885.0), (790.0, 810.0), (780.0, 730.0))
            .curve((760.0, 590.0), (600.0, 560.0), (450.0, 620.0))
            .curve((320.0, 670.0), (220.0, 720.0), (60.0, 700.0))
            .close(),
    );
    half.ball(602.0, 752.0, 84.0);
    half.light(
        Pen::at(360.0, 590.0)
            .curve((540.0, 500.0), (780.0, 510.0), (840.0, 690.0))
            .curve((770.0, 550.0), (560.0, 530.0), (360.0, 590.0))
            .close(),
    );
    d.place(&half, Affine::IDENTITY);
    d.place(&half, Affine::FLIP_X);
    d.ink(polygon(&[
        (0.0, 480.0),
        (105.0, 700.0),
        (0.0, 920.0),
        (-105.0, 700.0),
    ]));
    d.light(polygon(&[
        (0.0, 590.0),
        (52.0, 700.0),
        (0.0, 810.0),
        (-52.0, 700.0),
    ]));
}

/// The rules of a border, as far from the head as from the foot, so that one unit serves both and any two units meet.
const RULES: [(f64, f64); 4] = [
    (50.0, 170.0),
    (220.0, 264.0),
    (736.0, 780.0),
    (830.0, 950.0),
];
/// The light lines in its heavy rules.
const LIGHTS: [(f64, f64); 2] = [(94.0, 126.0), (874.0, 906.0)];

/// A border unit along the head or foot: rules with a lozenge and two dots between them.
pub fn border_level(d: &mut Drawing) {
    for (low, high) in RULES {
        d.ink(rectangle(0.0, low, BORDER, high));
    }
    lozenge(d, BORDER / 2.0, BORDER / 2.0);
    d.ink(ellipse(0.0, BORDER / 2.0, 92.0, 92.0, 0.5523));
    d.ink(ellipse(BORDER, BORDER / 2.0, 92.0, 92.0, 0.5523));
    d.cut(rectangle(-200.0, 0.0, 0.0, BORDER));
    d.cut(rectangle(BORDER, 0.0, BORDER + 200.0, BORDER));
    for (low, high) in LIGHTS {
        d.light(rectangle(0.0, low, BORDER, high));
    }
}

fn lozenge(d: &mut Drawing, x: f64, y: f64) {
    d.ink(
        Pen::at(x - 300.0, y)
            .curve((x - 150.0, y + 20.0), (x - 60.0, y + 80.0), (x, y + 205.0))
            .curve((x + 60.0, y + 80.0), (x + 150.0, y + 20.0), (x + 300.0, y))
            .curve((x + 150.0, y - 20.0), (x + 60.0, y - 80.0), (x, y - 205.0))
            .curve((x - 60.0, y - 80.0), (x - 150.0, y - 20.0), (x - 300.0, y))
            .close(),
    );
    d.light(polygon(&[
        (x - 90.0, y),
        (x, y + 90.0),
        (x + 90.0, y),
        (x, y - 90.0),
    ]));
}

/// A border unit down the left side.
pub fn border_upright(d: &mut Drawing) {
    turned(d, border_level, 1);
}

/// The corner at the lower left: the rules turn, and a disc stands in the elbow.
pub fn corner_lower_left(d: &mut Drawing) {
    for (low, high) in RULES {
        let (outer, inner) = (corner_turn(low), corner_turn(high));
        d.ink(outer).counter(inner);
    }
    d.ring(BORDER / 2.0, BORDER / 2.0, 165.0, 128.0);
    d.ball(BORDER / 2.0, BORDER / 2.0, 86.0);
    d.ink(ellipse(BORDER, BORDER / 2.0, 92.0, 92.0, 0.5523));
    d.ink(ellipse(BORDER / 2.0, BORDER, 92.0, 92.0, 0.5523));
    d.cut(rectangle(BORDER, -10.0, BORDER + 600.0, BORDER + 600.0));
    d.cut(rectangle(-10.0, BORDER, BORDER + 600.0, BORDER + 600.0));
    for (low, high) in LIGHTS {
        d.light(corner_turn(low));
        d.lights.push(inked(corner_turn(high)).reverse_subpaths());
    }
}

/// The ground inside a rule that comes down the left side and turns along the foot, out past the unit's edge.
fn corner_turn(at: f64) -> kurbo::BezPath {
    let far = BORDER + 300.0;
    let soft = at + (800.0 - at).max(60.0) * 0.3;
    Pen::at(at, far)
        .line(at, soft)
        .plumb_to_level(soft, at, 0.55)
        .line(far, at)
        .line(far, far)
        .close()
}

fn turned(d: &mut Drawing, unit: fn(&mut Drawing), quarters: usize) {
    let mut flat = Drawing::default();
    unit(&mut flat);
    // Turned clockwise: the foot goes to the left side.
    let quarter = quarter_turn(BORDER / 2.0, BORDER / 2.0);
    let turn = (0..quarters).fold(Affine::IDENTITY, |turn, _| quarter * turn);
    d.place(&flat, turn);
}

/// The corner at the upper left.
pub fn corner_upper_left(d: &mut Drawing) {
    turned(d, corner_lower_left, 1);
}

/// The corner at the upper right.
pub fn corner_upper_right(d: &mut Drawing) {
    turned(d, corner_lower_left, 2);
}

/// The corner at the lower right.
pub fn corner_lower_right(d: &mut Drawing) {
    turned(d, corner_lower_left, 3);
}
