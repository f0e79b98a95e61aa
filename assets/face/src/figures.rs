//! The figures, as tall as the capitals and all on one set width.

use crate::parts::{CAP, Drawing, HAIR, OVER, meet};
use crate::pen::{Pen, half_turn, polygon, rectangle};
use kurbo::{CubicBez, Point};

/// The set width of every figure.
pub const SET: f64 = 900.0;
const STEM: f64 = 285.0;
const BOW: f64 = 284.0;
const ROUND: f64 = CAP + OVER;

/// 0.
pub fn zero(d: &mut Drawing) {
    d.oval((0.0, 780.0), (-OVER, ROUND), 268.0, 268.0, HAIR);
}

/// 1.
pub fn one(d: &mut Drawing) {
    d.stroke(0.0, 0.0, STEM, (0.0, CAP), Some((165.0, 165.0)), None);
    d.ink(
        Pen::at(30.0, CAP)
            .curve((0.0, 1290.0), (-90.0, 1240.0), (-210.0, 1236.0))
            .line(-210.0, 1188.0)
            .curve((-120.0, 1180.0), (-40.0, 1140.0), (0.0, 1060.0))
            .line(100.0, 1060.0)
            .line(100.0, CAP)
            .close(),
    );
}

/// The hairline from the head of 2 and 3 to the ball on their left.
fn head_ball(d: &mut Drawing, thin: f64, ball_y: f64, radius: f64) {
    d.ink(
        Pen::at(thin, ROUND)
            .level_to_plumb(10.0, ball_y, 0.58)
            .line(150.0, ball_y)
            .curve(
                (140.0, ball_y + 150.0),
                (thin - 100.0, ROUND - HAIR),
                (thin, ROUND - HAIR),
            )
            .close(),
    );
    d.ball(10.0 + radius, ball_y, radius);
}

/// 2.
pub fn two(d: &mut Drawing) {
    head_ball(d, 370.0, 1050.0, 132.0);
    d.last_quarter((370.0, ROUND), (765.0, 1030.0), HAIR, BOW, 370.0);
    d.ink(
        Pen::at(765.0, 1030.0)
            .curve((765.0, 640.0), (300.0, 520.0), (150.0, 200.0))
            .line(0.0, 0.0)
            .curve((0.0, 420.0), (481.0, 700.0), (481.0, 1030.0))
            .close(),
    );
    d.ink(
        Pen::at(0.0, 0.0)
            .line(740.0, 0.0)
            .line(775.0, 430.0)
            .line(727.0, 430.0)
            .curve((710.0, 290.0), (650.0, 232.0), (560.0, 232.0))
            .line(120.0, 232.0)
            .line(0.0, 60.0)
            .close(),
    );
    d.needle(Point::new(150.0, 116.0), Point::new(600.0, 116.0), 240.0);
}

/// 3.
pub fn three(d: &mut Drawing) {
    let waist = 745.0;
    head_ball(d, 370.0, 1090.0, 126.0);
    d.quarter((370.0, ROUND), (725.0, 1075.0), HAIR, 262.0, 370.0);
    d.quarter(
        (350.0, waist - HAIR / 2.0),
        (725.0, 1075.0),
        HAIR,
        262.0,
        330.0,
    );
    d.quarter(
        (350.0, waist + HAIR / 2.0),
        (775.0, 385.0),
        HAIR,
        BOW,
        330.0,
    );
    d.quarter((370.0, -OVER), (775.0, 385.0), HAIR, BOW, 370.0);
    d.ink(rectangle(
        240.0,
        waist - HAIR / 2.0,
        352.0,
        waist + HAIR / 2.0,
    ));
    foot_ball(d, 370.0, 320.0, 138.0);
}

/// The hairline from the foot of 3 and 5 to the ball on their left.
fn foot_ball(d: &mut Drawing, thin: f64, ball_y: f64, radius: f64) {
    d.ink(
        Pen::at(thin, -OVER)
            .level_to_plumb(0.0, ball_y, 0.58)
            .line(150.0, ball_y)
            .curve(
                (130.0, ball_y - 150.0),
                (thin - 100.0, HAIR - OVER),
                (thin, HAIR - OVER),
            )
            .close(),
    );
    d.ball(radius, ball_y, radius);
}

/// 4.
pub fn four(d: &mut Drawing) {
    let (left, bar) = (410.0, 350.0);
    let right = left + STEM;
    d.bare_stroke(left, left, STEM, (0.0, 500.0), Some((115.0, 115.0)), None);
    let (tip, head, thin) = ((0.0, bar), (505.0, CAP), 104.0);
    let slope = (head.0 - tip.0) / (head.1 - tip.1);
    let edge = ((tip.0 + thin, tip.1), (head.0 + thin, head.1));
    let (_, crotch) = meet(edge, ((left, 0.0), (left, CAP)));
    d.ink(polygon(&[
        (left, 400.0),
        (right, 400.0),
        (right, CAP),
        head,
        (left, CAP - (head.0 - left) / slope),
    ]));
    let inner = tip.0 + thin + slope * HAIR;
    d.ink(polygon(&[
        tip,
        (inner, bar + HAIR),
        (left, crotch),
        (left + 90.0, crotch + 90.0 / slope),
        head,
    ]));
    d.ink(rectangle(0.0, bar, 830.0, bar + HAIR));
    d.needle(
        Point::new(left + STEM / 2.0, 120.0),
        Point::new(left + STEM / 2.0, CAP - 220.0),
        STEM,
    );
}

/// 5.
pub fn five(d: &mut Drawing) {
    d.ink(
        Pen::at(88.0, 1190.0)
            .line(640.0, 1190.0)
            .curve((700.0, 1190.0), (715.0, 1270.0), (722.0, CAP + 40.0))
            .line(676.0, CAP + 40.0)
            .curve((666.0, CAP), (640.0, CAP), (600.0, CAP))
            .line(88.0, CAP)
            .close(),
    );
    d.needle(Point::new(150.0, 1295.0), Point::new(620.0, 1295.0), 230.0);
    d.ink(
        Pen::at(88.0, 1300.0)
            .line(88.0, 620.0)
            .line(134.0, 620.0)
            .curve((190.0, 790.0), (280.0, 832.0), (400.0, 832.0))
            .line(400.0, 890.0)
            .curve((300.0, 890.0), (220.0, 870.0), (160.0, 810.0))
            .line(160.0, 1300.0)
            .close(),
    );
    d.quarter((400.0, 890.0), (775.0, 440.0), HAIR, BOW, 400.0);
    d.quarter((370.0, -OVER), (775.0, 440.0), HAIR, BOW, 370.0);
    foot_ball(d, 370.0, 310.0, 138.0);
}

/// 6.
pub fn six(d: &mut Drawing) {
    let (middle, left) = (390.0, 620.0);
    for level in [-OVER, ROUND] {
        d.quarter((middle, level), (0.0, left), HAIR, BOW, middle);
    }
    for level in [-OVER, 850.0] {
        d.quarter((430.0, level), (780.0, 415.0), HAIR, 258.0, 420.0);
    }
    d.ink(rectangle(middle - 2.0, -OVER, 430.0, HAIR - OVER));
    d.ink(
        Pen::at(430.0, 850.0)
            .curve((330.0, 850.0), (270.0, 760.0), (250.0, 640.0))
            .line(250.0, 580.0)
            .line(BOW, 580.0)
            .curve((BOW, 700.0), (330.0, 792.0), (420.0, 792.0))
            .close(),
    );
    d.ink(
        Pen::at(middle, ROUND)
            .level_to_plumb(728.0, 1160.0, 0.58)
            .line(600.0, 1160.0)
            .curve(
                (600.0, 1280.0),
                (middle + 100.0, ROUND - HAIR),
                (middle, ROUND - HAIR),
            )
            .close(),
    );
    d.ball(728.0 - 122.0, 1160.0, 122.0);
}

/// 7.
pub fn seven(d: &mut Drawing) {
    let (outer, inner) = (
        CubicBez::new(
            (770.0, 1330.0),
            (560.0, 960.0),
            (520.0, 560.0),
            (520.0, 0.0),
        ),
        CubicBez::new(
            (640.0, 1180.0),
            (360.0, 860.0),
            (205.0, 540.0),
            (205.0, 0.0),
        ),
    );
    d.ink(
        Pen::at(8.0, CAP)
            .line(770.0, CAP)
            .line(770.0, 1330.0)
            .curve((560.0, 960.0), (520.0, 560.0), (520.0, 0.0))
            .line(205.0, 0.0)
            .curve((205.0, 540.0), (360.0, 860.0), (640.0, 1180.0))
            .line(180.0, 1180.0)
            .curve((100.0, 1180.0), (65.0, 1110.0), (48.0, 960.0))
            .line(0.0, 960.0)
            .close(),
    );
    d.lens(outer, inner, (0.2, 0.93));
    d.needle(Point::new(140.0, 1290.0), Point::new(600.0, 1290.0), 230.0);
}

/// 8.
pub fn eight(d: &mut Drawing) {
    let waist = 742.0;
    d.oval(
        (50.0, 740.0),
        (waist - HAIR / 2.0, ROUND),
        238.0,
        238.0,
        HAIR,
    );
    d.oval(
        (0.0, 790.0),
        (-OVER, waist + HAIR / 2.0),
        268.0,
        268.0,
        HAIR,
    );
}

/// 9, the 6 turned half round.
pub fn nine(d: &mut Drawing) {
    let mut turned = Drawing::default();
    six(&mut turned);
    d.place(&turned, half_turn(390.0, CAP / 2.0));
}

/// &.
pub fn ampersand(d: &mut Drawing) {
    let (top, bow) = (ROUND, 300.0);
    // The lower bowl and the hairlines that leave it.
    d.last_quarter((420.0, -OVER), (0.0, 350.0), HAIR, bow, 450.0);
    d.ink(
        Pen::at(0.0, 350.0)
            .curve((0.0, 560.0), (160.0, 680.0), (400.0, 800.0))
            .curve((540.0, 870.0), (620.0, 970.0), (620.0, 1140.0))
            .line(700.0, 1140.0)
            .curve((700.0, 960.0), (620.0, 850.0), (470.0, 770.0))
            .curve((340.0, 700.0), (bow, 560.0), (bow, 350.0))
            .close(),
    );
    // The upper bowl, whose left side runs down into the heavy diagonal.
    d.last_quarter((450.0, top), (190.0, 1110.0), HAIR, 236.0, 480.0);
    d.bare_quarter((450.0, top), (700.0, 1140.0), HAIR, 80.0, 480.0);
    d.ink(
        Pen::at(190.0, 1110.0)
            .curve((190.0, 930.0), (270.0, 790.0), (360.0, 640.0))
            .line(735.0, 0.0)
            .line(1085.0, 0.0)
            .line(560.0, 830.0)
            .curve((470.0, 960.0), (426.0, 1010.0), (426.0, 1110.0))
            .close(),
    );
    d.bare_stroke(
        785.0,
        785.0 - 0.6325 * 300.0,
        300.0,
        (0.0, 300.0),
        Some((0.0, 110.0)),
        None,
    );
    d.needle(Point::new(860.0, 90.0), Point::new(400.0, 830.0), 290.0);
    // The arm.
    d.ink(
        Pen::at(420.0, -OVER)
            .curve((720.0, -OVER), (925.0, 260.0), (975.0, 750.0))
            .line(897.0, 750.0)
            .curve((850.0, 300.0), (660.0, HAIR - OVER), (450.0, HAIR - OVER))
            .close(),
    );
    d.ink(rectangle(770.0, 742.0, 1090.0, 790.0));
}
