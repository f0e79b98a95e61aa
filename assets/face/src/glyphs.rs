//! The list of glyphs: name, character, side bearings and drawing, in the order in which they stand in the files.

use crate::parts::Drawing;
use crate::{capitals, points};
use kurbo::Affine;

/// Draws a glyph.
pub type Draw = fn(&mut Drawing);

/// A glyph of the list.
#[derive(Clone, Copy)]
pub struct Entry {
    /// Its name in the files.
    pub name: &'static str,
    /// The characters that it stands for; none for alternates and ligatures.
    pub characters: &'static [char],
    /// Space to the left and right of the drawing, in font units.
    pub bearings: (f64, f64),
    /// Its drawing.
    pub draw: Draw,
}

/// A glyph ready for the files.
pub struct Glyph {
    /// The list's entry.
    pub entry: Entry,
    /// The drawing, with its left bearing in place.
    pub drawing: Drawing,
    /// The set width.
    pub advance: f64,
}

impl Entry {
    /// Draws the glyph and sets it between its side bearings.
    pub fn drawn(self) -> Glyph {
        let mut raw = Drawing::default();
        (self.draw)(&mut raw);
        let bounds = raw.bounds();
        let mut drawing = Drawing::default();
        drawing.place(&raw, Affine::translate((self.bearings.0 - bounds.x0, 0.0)));
        let advance = (bounds.width() + self.bearings.0 + self.bearings.1).round();
        Glyph {
            entry: self,
            drawing,
            advance,
        }
    }
}

const fn entry(
    name: &'static str,
    characters: &'static [char],
    bearings: (f64, f64),
    draw: Draw,
) -> Entry {
    Entry {
        name,
        characters,
        bearings,
        draw,
    }
}

/// Every glyph, in the files' order.
pub fn all() -> Vec<Entry> {
    let lists: [&[Entry]; 2] = [BASIC, CAPITALS];
    lists.into_iter().flatten().copied().collect()
}

/// Bearing beside a serif.
const S: f64 = 40.0;
/// Bearing beside a round.
const R: f64 = 62.0;
/// Bearing beside a thin arm or a sloping side.
const D: f64 = 22.0;

const CAPITALS: &[Entry] = &[
    entry("A", &['A'], (D, D), capitals::a),
    entry("B", &['B'], (S, R), capitals::b),
    entry("C", &['C'], (R, 55.0), capitals::c),
    entry("D", &['D'], (S, R), capitals::d),
    entry("E", &['E'], (S, 50.0), capitals::e),
    entry("F", &['F'], (S, 40.0), capitals::f),
    entry("G", &['G'], (R, S), capitals::g),
    entry("H", &['H'], (S, S), capitals::h),
    entry("I", &['I'], (S, S), capitals::i),
    entry("J", &['J'], (45.0, S), capitals::j),
    entry("K", &['K'], (S, D), capitals::k),
    entry("L", &['L'], (S, 45.0), capitals::l),
    entry("M", &['M'], (S, S), capitals::m),
    entry("N", &['N'], (S, S), capitals::n),
    entry("O", &['O'], (R, R), capitals::o),
    entry("P", &['P'], (S, R), capitals::p),
    entry("Q", &['Q'], (R, R - 15.0), capitals::q),
    entry("R", &['R'], (S, D), capitals::r),
    entry("S", &['S'], (62.0, 60.0), capitals::s),
    entry("T", &['T'], (35.0, 35.0), capitals::t),
    entry("U", &['U'], (S, S), capitals::u),
    entry("V", &['V'], (D, D), capitals::v),
    entry("W", &['W'], (D, D), capitals::w),
    entry("X", &['X'], (D, D), capitals::x),
    entry("Y", &['Y'], (D, D), capitals::y),
    entry("Z", &['Z'], (45.0, 50.0), capitals::z),
];

const BASIC: &[Entry] = &[
    entry(".notdef", &[], (60.0, 60.0), points::notdef),
    entry("space", &[' ', '\u{A0}'], (210.0, 210.0), points::space),
    entry("period", &['.'], (60.0, 60.0), points::period),
];
