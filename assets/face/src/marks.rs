//! Letters with accents.

use crate::capitals;
use crate::lowercase::{rounds, stems};
use crate::parts::{CAP, Drawing, X, meet};
use crate::pen::{Pen, polygon};
use kurbo::Affine;

/// Foot of an accent over a capital.
const OVER_CAPITAL: f64 = CAP + 105.0;
/// Foot of an accent over a small letter.
const OVER_SMALL: f64 = X + 120.0;

/// Draws a letter with an accent at `foot`, centred `x` to the right of the letter's left edge.
fn accented(
    d: &mut Drawing,
    letter: fn(&mut Drawing),
    accent: fn(&mut Drawing),
    x: f64,
    foot: f64,
) {
    letter(d);
    let mut mark = Drawing::default();
    accent(&mut mark);
    d.place(&mark, Affine::translate((x, foot)));
}

fn dieresis(d: &mut Drawing) {
    d.ball(-170.0, 120.0, 118.0);
    d.ball(170.0, 120.0, 118.0);
}

fn acute(d: &mut Drawing) {
    d.ink(
        Pen::at(-130.0, 0.0)
            .line(-80.0, 0.0)
            .curve((20.0, 90.0), (140.0, 170.0), (190.0, 230.0))
            .curve((230.0, 280.0), (200.0, 345.0), (130.0, 345.0))
            .curve((80.0, 345.0), (50.0, 320.0), (30.0, 280.0))
            .close(),
    );
    d.light(polygon(&[
        (-40.0, 90.0),
        (62.0, 172.0),
        (140.0, 285.0),
        (38.0, 202.0),
    ]));
}

fn grave(d: &mut Drawing) {
    let mut mirrored = Drawing::default();
    acute(&mut mirrored);
    d.place(&mirrored, Affine::FLIP_X);
}

fn tilde(d: &mut Drawing) {
    d.ink(
        Pen::at(-290.0, 40.0)
            .line(-246.0, 30.0)
            .curve((-230.0, 90.0), (-200.0, 110.0), (-160.0, 110.0))
            .curve((-80.0, 110.0), (40.0, 10.0), (140.0, 10.0))
            .curve((230.0, 10.0), (275.0, 90.0), (290.0, 210.0))
            .line(246.0, 220.0)
            .curve((230.0, 160.0), (200.0, 140.0), (160.0, 140.0))
            .curve((80.0, 140.0), (-40.0, 240.0), (-140.0, 240.0))
            .curve((-230.0, 240.0), (-275.0, 160.0), (-290.0, 40.0))
            .close(),
    );
    d.light(
        Pen::at(-190.0, 180.0)
            .curve((-90.0, 190.0), (60.0, 92.0), (140.0, 60.0))
            .curve((170.0, 52.0), (180.0, 60.0), (190.0, 70.0))
            .curve((90.0, 60.0), (-60.0, 158.0), (-140.0, 190.0))
            .curve((-170.0, 198.0), (-180.0, 190.0), (-190.0, 180.0))
            .close(),
    );
}

fn ring(d: &mut Drawing) {
    d.ring(0.0, 165.0, 175.0, 88.0);
}

fn cedilla(d: &mut Drawing) {
    d.ink(
        Pen::at(-30.0, 10.0)
            .line(-60.0, -120.0)
            .curve((40.0, -90.0), (90.0, -130.0), (90.0, -205.0))
            .curve((90.0, -290.0), (20.0, -350.0), (-140.0, -340.0))
            .line(-145.0, -384.0)
            .curve((90.0, -410.0), (220.0, -330.0), (220.0, -215.0))
            .curve((220.0, -110.0), (130.0, -60.0), (30.0, -75.0))
            .line(45.0, 10.0)
            .close(),
    );
    d.light(polygon(&[
        (155.0, -140.0),
        (172.0, -210.0),
        (155.0, -285.0),
        (136.0, -210.0),
    ]));
}

/// Ä.
pub fn a_dieresis_capital(d: &mut Drawing) {
    accented(d, capitals::a, dieresis, 475.0, CAP + 110.0);
}

/// Ö.
pub fn o_dieresis_capital(d: &mut Drawing) {
    accented(d, capitals::o, dieresis, 495.0, OVER_CAPITAL);
}

/// Ü.
pub fn u_dieresis_capital(d: &mut Drawing) {
    accented(d, capitals::u, dieresis, 440.0, OVER_CAPITAL - 15.0);
}

/// É.
pub fn e_acute_capital(d: &mut Drawing) {
    accented(d, capitals::e, acute, 400.0, OVER_CAPITAL - 25.0);
}

/// È.
pub fn e_grave_capital(d: &mut Drawing) {
    accented(d, capitals::e, grave, 400.0, OVER_CAPITAL - 25.0);
}

/// Ñ.
pub fn n_tilde_capital(d: &mut Drawing) {
    accented(d, capitals::n, tilde, 505.0, OVER_CAPITAL - 10.0);
}

/// Å, with the ring resting on the point.
pub fn a_ring_capital(d: &mut Drawing) {
    accented(d, capitals::a, ring, 475.0, CAP - 20.0);
}

/// Ç.
pub fn c_cedilla_capital(d: &mut Drawing) {
    accented(d, capitals::c, cedilla, 490.0, -10.0);
}

/// Ø.
pub fn o_slash_capital(d: &mut Drawing) {
    capitals::o(d);
    slash(d, (95.0, 895.0), (-110.0, CAP + 110.0), 84.0);
}

/// ä.
pub fn a_dieresis(d: &mut Drawing) {
    accented(d, rounds::a, dieresis, 335.0, OVER_SMALL);
}

/// ö.
pub fn o_dieresis(d: &mut Drawing) {
    accented(d, rounds::o, dieresis, 382.0, OVER_SMALL);
}

/// ü.
pub fn u_dieresis(d: &mut Drawing) {
    accented(d, stems::u, dieresis, 330.0, OVER_SMALL);
}

/// é.
pub fn e_acute(d: &mut Drawing) {
    accented(d, rounds::e, acute, 370.0, OVER_SMALL - 20.0);
}

/// è.
pub fn e_grave(d: &mut Drawing) {
    accented(d, rounds::e, grave, 360.0, OVER_SMALL - 20.0);
}

/// ñ.
pub fn n_tilde(d: &mut Drawing) {
    accented(d, stems::n, tilde, 360.0, OVER_SMALL);
}

/// å.
pub fn a_ring(d: &mut Drawing) {
    accented(d, rounds::a, ring, 335.0, OVER_SMALL - 20.0);
}

/// ç.
pub fn c_cedilla(d: &mut Drawing) {
    accented(d, rounds::c, cedilla, 370.0, -10.0);
}

/// ø.
pub fn o_slash(d: &mut Drawing) {
    rounds::o(d);
    slash(d, (70.0, 695.0), (-110.0, X + 110.0), 74.0);
}

/// The thin slash through o, corner to corner of a box.
fn slash(d: &mut Drawing, x: (f64, f64), y: (f64, f64), width: f64) {
    let foot = meet(((x.0, y.0), (x.1, y.1)), ((0.0, y.0), (1.0, y.0)));
    d.ink(polygon(&[
        foot,
        (foot.0 + width, y.0),
        (x.1, y.1),
        (x.1 - width, y.1),
    ]));
}
