//! Points, marks and the space.

use crate::parts::{CAP, Drawing};
use crate::pen::rectangle;

/// The glyph for characters that the face lacks: an empty frame.
pub fn notdef(d: &mut Drawing) {
    d.ink(rectangle(0.0, 0.0, 700.0, CAP));
    d.cut(rectangle(70.0, 70.0, 630.0, CAP - 70.0));
}

/// A space: nothing.
pub fn space(_: &mut Drawing) {}

/// Full point.
pub fn period(d: &mut Drawing) {
    d.ball(150.0, 130.0, 150.0);
}
