//! Points, quotes, dashes and brackets.

use crate::parts::{CAP, Drawing, HAIR, OVER, X};
use crate::pen::{Pen, half_turn, polygon, rectangle};
use kurbo::{Affine, CubicBez, Point};

/// Radius of the full point.
const DOT: f64 = 146.0;

/// The glyph for characters that the face lacks: an empty frame.
pub fn notdef(d: &mut Drawing) {
    d.ink(rectangle(0.0, 0.0, 700.0, CAP));
    d.cut(rectangle(70.0, 70.0, 630.0, CAP - 70.0));
}

/// A space: nothing.
pub fn space(_: &mut Drawing) {}

/// Full point.
pub fn period(d: &mut Drawing) {
    d.ball(DOT, DOT - OVER, DOT);
}

/// Comma.
pub fn comma(d: &mut Drawing) {
    comma_at(d, 0.0, DOT - OVER);
}

fn comma_at(d: &mut Drawing, left: f64, middle: f64) {
    d.ball(left + DOT, middle, DOT);
    d.ink(
        Pen::at(left + 2.0 * DOT, middle)
            .curve(
                (left + 2.0 * DOT, middle - 190.0),
                (left + 190.0, middle - 340.0),
                (left + 40.0, middle - 400.0),
            )
            .line(left + 20.0, middle - 362.0)
            .curve(
                (left + 150.0, middle - 300.0),
                (left + 225.0, middle - 200.0),
                (left + DOT + 60.0, middle - 60.0),
            )
            .close(),
    );
}

/// Colon.
pub fn colon(d: &mut Drawing) {
    period(d);
    d.ball(DOT, X - DOT, DOT);
}

/// Semicolon.
pub fn semicolon(d: &mut Drawing) {
    comma(d);
    d.ball(DOT, X - DOT, DOT);
}

/// Exclamation.
pub fn exclam(d: &mut Drawing) {
    period(d);
    let (left, right, round) = (-14.0, 2.0 * DOT + 14.0, 1260.0);
    d.ink(
        Pen::at(DOT - 30.0, 400.0)
            .line(DOT + 30.0, 400.0)
            .curve((DOT + 60.0, 720.0), (right, 1020.0), (right, round))
            .plumb_to_level(DOT, CAP + OVER, 0.58)
            .level_to_plumb(left, round, 0.58)
            .curve((left, 1020.0), (DOT - 60.0, 720.0), (DOT - 30.0, 400.0))
            .close(),
    );
    d.needle(Point::new(DOT, 640.0), Point::new(DOT, CAP - 90.0), 300.0);
}

/// Question.
pub fn question(d: &mut Drawing) {
    let top = CAP + OVER;
    d.ink(
        Pen::at(330.0, top)
            .level_to_plumb(0.0, 1070.0, 0.58)
            .line(140.0, 1070.0)
            .curve((130.0, 1210.0), (230.0, top - HAIR), (330.0, top - HAIR))
            .close(),
    );
    d.ball(126.0, 1070.0, 126.0);
    d.last_quarter((330.0, top), (700.0, 1050.0), HAIR, 282.0, 330.0);
    d.ink(
        Pen::at(700.0, 1050.0)
            .curve((700.0, 780.0), (400.0, 740.0), (346.0, 400.0))
            .line(290.0, 400.0)
            .curve((265.0, 720.0), (418.0, 830.0), (418.0, 1050.0))
            .close(),
    );
    d.ball(318.0, DOT - OVER, DOT);
}

/// Straight single quote.
pub fn quotesingle(d: &mut Drawing) {
    let (top, width) = (CAP + OVER, 230.0);
    d.ink(
        Pen::at(width / 2.0 - 26.0, 880.0)
            .line(width / 2.0 + 26.0, 880.0)
            .curve(
                (width / 2.0 + 40.0, 1040.0),
                (width, 1180.0),
                (width, 1305.0),
            )
            .plumb_to_level(width / 2.0, top, 0.56)
            .level_to_plumb(0.0, 1305.0, 0.56)
            .curve(
                (0.0, 1180.0),
                (width / 2.0 - 40.0, 1040.0),
                (width / 2.0 - 26.0, 880.0),
            )
            .close(),
    );
    d.needle(
        Point::new(width / 2.0, 1040.0),
        Point::new(width / 2.0, CAP - 40.0),
        230.0,
    );
}

/// Straight double quote.
pub fn quotedbl(d: &mut Drawing) {
    twice(d, quotesingle, 330.0);
}

/// Draws a mark twice, side by side.
fn twice(d: &mut Drawing, mark: fn(&mut Drawing), step: f64) {
    let mut one = Drawing::default();
    mark(&mut one);
    d.place(&one, Affine::IDENTITY);
    d.place(&one, Affine::translate((step, 0.0)));
}

/// Closing quote and apostrophe.
pub fn quoteright(d: &mut Drawing) {
    comma_at(d, 0.0, CAP + OVER - DOT);
}

/// Opening quote: the closing one turned half round.
pub fn quoteleft(d: &mut Drawing) {
    let mut turned = Drawing::default();
    quoteright(&mut turned);
    d.place(&turned, half_turn(DOT, 1147.0));
}

/// Closing double quote.
pub fn quotedblright(d: &mut Drawing) {
    twice(d, quoteright, 350.0);
}

/// Opening double quote.
pub fn quotedblleft(d: &mut Drawing) {
    twice(d, quoteleft, 350.0);
}

/// A dash with slightly flared ends.
fn dash(d: &mut Drawing, length: f64) {
    let (low, high, flare) = (400.0, 500.0, 14.0);
    d.ink(
        Pen::at(0.0, low - flare)
            .curve(
                (length * 0.2, low),
                (length * 0.3, low),
                (length * 0.5, low),
            )
            .curve(
                (length * 0.7, low),
                (length * 0.8, low),
                (length, low - flare),
            )
            .line(length, high + flare)
            .curve(
                (length * 0.8, high),
                (length * 0.7, high),
                (length * 0.5, high),
            )
            .curve(
                (length * 0.3, high),
                (length * 0.2, high),
                (0.0, high + flare),
            )
            .close(),
    );
    let middle = (low + high) / 2.0;
    d.light(polygon(&[
        (60.0, middle),
        (110.0, middle - 18.0),
        (length - 110.0, middle - 18.0),
        (length - 60.0, middle),
        (length - 110.0, middle + 18.0),
        (110.0, middle + 18.0),
    ]));
}

/// Hyphen.
pub fn hyphen(d: &mut Drawing) {
    dash(d, 420.0);
}

/// Dash of half an em.
pub fn endash(d: &mut Drawing) {
    dash(d, 800.0);
}

/// Dash of an em.
pub fn emdash(d: &mut Drawing) {
    dash(d, 1500.0);
}

/// Opening parenthesis.
pub fn parenleft(d: &mut Drawing) {
    let (top, foot) = (CAP + 60.0, -260.0);
    let middle = (top + foot) / 2.0;
    for end in [top, foot] {
        let outer = CubicBez::new(
            (400.0, end),
            (150.0, end * 0.75 + middle * 0.25),
            (0.0, end * 0.4 + middle * 0.6),
            (0.0, middle),
        );
        let inner = CubicBez::new(
            (430.0, end + (middle - end) * 0.035),
            (270.0, end * 0.72 + middle * 0.28),
            (190.0, end * 0.4 + middle * 0.6),
            (190.0, middle),
        );
        d.ink(
            Pen::at(400.0, end)
                .curve(
                    (outer.p1.x, outer.p1.y),
                    (outer.p2.x, outer.p2.y),
                    (0.0, middle),
                )
                .line(190.0, middle)
                .curve(
                    (inner.p2.x, inner.p2.y),
                    (inner.p1.x, inner.p1.y),
                    (inner.p0.x, inner.p0.y),
                )
                .close(),
        );
        d.crescent(outer, inner, 0.4);
    }
}

/// Closing parenthesis.
pub fn parenright(d: &mut Drawing) {
    let mut left = Drawing::default();
    parenleft(&mut left);
    d.place(&left, Affine::FLIP_X);
}
