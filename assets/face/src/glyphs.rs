//! The list of glyphs: name, character, fit and drawing, in the order in which they stand in the files.

use crate::lowercase::{rounds, slopes, stems};
use crate::parts::Drawing;
use crate::{capitals, figures, marks, ornaments, points};
use kurbo::Affine;

/// Draws a glyph.
pub type Draw = fn(&mut Drawing);

/// How a drawing stands on its set width, in font units.
#[derive(Clone, Copy, Debug)]
pub enum Fit {
    /// Between these side bearings.
    Beside(f64, f64),
    /// Centred on this set width.
    Centred(f64),
    /// As drawn, on this set width; nothing else may move it.
    AsDrawn(f64),
}

/// A glyph of the list.
#[derive(Clone, Copy)]
pub struct Entry {
    /// Its name in the files.
    pub name: &'static str,
    /// The characters that it stands for; none for alternates and ligatures.
    pub characters: &'static [char],
    /// How it stands on its set width.
    pub fit: Fit,
    /// Its drawing.
    pub draw: Draw,
}

/// A glyph ready for the files.
pub struct Glyph {
    /// The list's entry.
    pub entry: Entry,
    /// The drawing, at its place on the set width.
    pub drawing: Drawing,
    /// The set width.
    pub advance: f64,
}

impl Entry {
    /// Draws the glyph and sets it on its set width.
    pub fn drawn(self) -> Glyph {
        let mut raw = Drawing::default();
        (self.draw)(&mut raw);
        let bounds = raw.bounds();
        let (left, advance) = match self.fit {
            Fit::Beside(left, right) => (left, (bounds.width() + left + right).round()),
            Fit::Centred(set) => (((set - bounds.width()) / 2.0).round(), set),
            Fit::AsDrawn(set) => (bounds.x0, set),
        };
        let mut drawing = Drawing::default();
        drawing.place(&raw, Affine::translate((left - bounds.x0, 0.0)));
        Glyph {
            entry: self,
            drawing,
            advance,
        }
    }
}

const fn entry(name: &'static str, characters: &'static [char], fit: Fit, draw: Draw) -> Entry {
    Entry {
        name,
        characters,
        fit,
        draw,
    }
}

/// Every glyph, in the files' order.
pub fn all() -> Vec<Entry> {
    let lists = [
        BASIC, CAPITALS, SMALL, FIGURES, POINTS, ACCENTED, JOINED, ORNAMENTS,
    ];
    lists.into_iter().flatten().copied().collect()
}

/// Bearing beside a serif.
const S: f64 = 40.0;
/// Bearing beside a round.
const R: f64 = 62.0;
/// Bearing beside a thin arm or a sloping side.
const D: f64 = 22.0;
/// Bearing beside a serif of a small letter.
const SS: f64 = 30.0;
/// Bearing beside a round small letter.
const SR: f64 = 48.0;
/// Set width of a full point or comma.
const POINT: f64 = 410.0;

use Fit::{AsDrawn, Beside, Centred};

const BASIC: &[Entry] = &[
    entry(".notdef", &[], Beside(60.0, 60.0), points::notdef),
    entry("space", &[' ', '\u{A0}'], Centred(400.0), points::space),
];

const CAPITALS: &[Entry] = &[
    entry("A", &['A'], Beside(D, D), capitals::a),
    entry("B", &['B'], Beside(S, R), capitals::b),
    entry("C", &['C'], Beside(R, 55.0), capitals::c),
    entry("D", &['D'], Beside(S, R), capitals::d),
    entry("E", &['E'], Beside(S, 50.0), capitals::e),
    entry("F", &['F'], Beside(S, 40.0), capitals::f),
    entry("G", &['G'], Beside(R, S), capitals::g),
    entry("H", &['H'], Beside(S, S), capitals::h),
    entry("I", &['I'], Beside(S, S), capitals::i),
    entry("J", &['J'], Beside(45.0, S), capitals::j),
    entry("K", &['K'], Beside(S, D), capitals::k),
    entry("L", &['L'], Beside(S, 45.0), capitals::l),
    entry("M", &['M'], Beside(S, S), capitals::m),
    entry("N", &['N'], Beside(S, S), capitals::n),
    entry("O", &['O'], Beside(R, R), capitals::o),
    entry("P", &['P'], Beside(S, R), capitals::p),
    entry("Q", &['Q'], Beside(R, R - 15.0), capitals::q),
    entry("R", &['R'], Beside(S, D), capitals::r),
    entry("S", &['S'], Beside(62.0, 60.0), capitals::s),
    entry("T", &['T'], Beside(35.0, 35.0), capitals::t),
    entry("U", &['U'], Beside(S, S), capitals::u),
    entry("V", &['V'], Beside(D, D), capitals::v),
    entry("W", &['W'], Beside(D, D), capitals::w),
    entry("X", &['X'], Beside(D, D), capitals::x),
    entry("Y", &['Y'], Beside(D, D), capitals::y),
    entry("Z", &['Z'], Beside(45.0, 50.0), capitals::z),
];

const SMALL: &[Entry] = &[
    entry("a", &['a'], Beside(SR, SS - 6.0), rounds::a),
    entry("b", &['b'], Beside(SS - 6.0, SR), rounds::b),
    entry("c", &['c'], Beside(SR, 40.0), rounds::c),
    entry("d", &['d'], Beside(SR, SS), rounds::d),
    entry("e", &['e'], Beside(SR, SR - 6.0), rounds::e),
    entry("f", &['f'], Beside(SS, -20.0), stems::f),
    entry("g", &['g'], Beside(46.0, 10.0), rounds::g),
    entry("h", &['h'], Beside(SS, SS), stems::h),
    entry("i", &['i'], Beside(SS, SS), stems::i),
    entry("j", &['j'], Beside(SS, 50.0), stems::j),
    entry("k", &['k'], Beside(SS, D), slopes::k),
    entry("l", &['l'], Beside(SS, SS), stems::l),
    entry("m", &['m'], Beside(SS, SS), stems::m),
    entry("n", &['n'], Beside(SS, SS), stems::n),
    entry("o", &['o'], Beside(SR, SR), rounds::o),
    entry("p", &['p'], Beside(SS, SR), rounds::p),
    entry("q", &['q'], Beside(SR, SS), rounds::q),
    entry("r", &['r'], Beside(SS, 30.0), stems::r),
    entry("s", &['s'], Beside(50.0, 46.0), rounds::s),
    entry("t", &['t'], Beside(SS - 4.0, 26.0), stems::t),
    entry("u", &['u'], Beside(SS - 6.0, SS), stems::u),
    entry("v", &['v'], Beside(D, D), slopes::v),
    entry("w", &['w'], Beside(D, D), slopes::w),
    entry("x", &['x'], Beside(D, D), slopes::x),
    entry("y", &['y'], Beside(D, D), slopes::y),
    entry("z", &['z'], Beside(40.0, 44.0), slopes::z),
];

const FIGURES: &[Entry] = &[
    entry("zero", &['0'], Centred(figures::SET), figures::zero),
    entry("one", &['1'], Centred(figures::SET), figures::one),
    entry("two", &['2'], Centred(figures::SET), figures::two),
    entry("three", &['3'], Centred(figures::SET), figures::three),
    entry("four", &['4'], Centred(figures::SET), figures::four),
    entry("five", &['5'], Centred(figures::SET), figures::five),
    entry("six", &['6'], Centred(figures::SET), figures::six),
    entry("seven", &['7'], Centred(figures::SET), figures::seven),
    entry("eight", &['8'], Centred(figures::SET), figures::eight),
    entry("nine", &['9'], Centred(figures::SET), figures::nine),
];

const POINTS: &[Entry] = &[
    entry("period", &['.'], Centred(POINT), points::period),
    entry("comma", &[','], Centred(POINT), points::comma),
    entry("colon", &[':'], Centred(POINT), points::colon),
    entry("semicolon", &[';'], Centred(POINT), points::semicolon),
    entry("exclam", &['!'], Centred(450.0), points::exclam),
    entry("question", &['?'], Beside(60.0, 56.0), points::question),
    entry("quotesingle", &['\''], Centred(350.0), points::quotesingle),
    entry("quotedbl", &['"'], Beside(60.0, 60.0), points::quotedbl),
    entry(
        "quoteleft",
        &['\u{2018}'],
        Beside(50.0, 50.0),
        points::quoteleft,
    ),
    entry(
        "quoteright",
        &['\u{2019}'],
        Beside(50.0, 50.0),
        points::quoteright,
    ),
    entry(
        "quotedblleft",
        &['\u{201C}'],
        Beside(50.0, 50.0),
        points::quotedblleft,
    ),
    entry(
        "quotedblright",
        &['\u{201D}'],
        Beside(50.0, 50.0),
        points::quotedblright,
    ),
    entry(
        "hyphen",
        &['-', '\u{2010}'],
        Beside(60.0, 60.0),
        points::hyphen,
    ),
    entry("endash", &['\u{2013}'], Beside(50.0, 50.0), points::endash),
    entry("emdash", &['\u{2014}'], Beside(50.0, 50.0), points::emdash),
    entry("parenleft", &['('], Beside(60.0, 30.0), points::parenleft),
    entry("parenright", &[')'], Beside(30.0, 60.0), points::parenright),
    entry("ampersand", &['&'], Beside(50.0, 20.0), figures::ampersand),
];

const ACCENTED: &[Entry] = &[
    entry("Adieresis", &['Ä'], Beside(D, D), marks::a_dieresis_capital),
    entry("Odieresis", &['Ö'], Beside(R, R), marks::o_dieresis_capital),
    entry("Udieresis", &['Ü'], Beside(S, S), marks::u_dieresis_capital),
    entry("Eacute", &['É'], Beside(S, 50.0), marks::e_acute_capital),
    entry("Egrave", &['È'], Beside(S, 50.0), marks::e_grave_capital),
    entry("Ntilde", &['Ñ'], Beside(S, S), marks::n_tilde_capital),
    entry("Aring", &['Å'], Beside(D, D), marks::a_ring_capital),
    entry(
        "Ccedilla",
        &['Ç'],
        Beside(R, 55.0),
        marks::c_cedilla_capital,
    ),
    entry("Oslash", &['Ø'], Beside(R, R), marks::o_slash_capital),
    entry("adieresis", &['ä'], Beside(SR, SS - 6.0), marks::a_dieresis),
    entry("odieresis", &['ö'], Beside(SR, SR), marks::o_dieresis),
    entry("udieresis", &['ü'], Beside(SS - 6.0, SS), marks::u_dieresis),
    entry("eacute", &['é'], Beside(SR, SR - 6.0), marks::e_acute),
    entry("egrave", &['è'], Beside(SR, SR - 6.0), marks::e_grave),
    entry("ntilde", &['ñ'], Beside(SS, SS), marks::n_tilde),
    entry("aring", &['å'], Beside(SR, SS - 6.0), marks::a_ring),
    entry("ccedilla", &['ç'], Beside(SR, 40.0), marks::c_cedilla),
    entry("oslash", &['ø'], Beside(SR, SR), marks::o_slash),
    entry("germandbls", &['ß'], Beside(SS, SR), stems::sharp_s),
];

const JOINED: &[Entry] = &[
    entry("R.ss01", &[], Beside(S, D), capitals::r_straight),
    entry("g.ss01", &[], Beside(SR, SS), rounds::g_open),
    entry("f_f", &[], Beside(SS, -20.0), stems::ff),
    entry("f_i", &[], Beside(SS, SS), stems::fi),
    entry("dotlessi", &['ı'], Beside(SS, SS), stems::dotless_i),
];

const ORNAMENTS: &[Entry] = &[
    entry("star", &['\u{2605}'], Beside(60.0, 60.0), ornaments::star),
    entry(
        "diamond",
        &['\u{25C6}'],
        Beside(60.0, 60.0),
        ornaments::diamond,
    ),
    entry("sun", &['\u{2600}'], Beside(60.0, 60.0), ornaments::sun),
    entry("leaf", &['\u{2767}'], Beside(60.0, 60.0), ornaments::leaf),
    entry(
        "leafturned",
        &['\u{2619}'],
        Beside(60.0, 60.0),
        ornaments::leaf_turned,
    ),
    entry(
        "flourish",
        &['\u{2053}'],
        Beside(60.0, 60.0),
        ornaments::flourish,
    ),
    entry(
        "borderlevel",
        &['\u{2550}'],
        AsDrawn(ornaments::BORDER),
        ornaments::border_level,
    ),
    entry(
        "borderupright",
        &['\u{2551}'],
        AsDrawn(ornaments::BORDER),
        ornaments::border_upright,
    ),
    entry(
        "cornerupperleft",
        &['\u{2554}'],
        AsDrawn(ornaments::BORDER),
        ornaments::corner_upper_left,
    ),
    entry(
        "cornerupperright",
        &['\u{2557}'],
        AsDrawn(ornaments::BORDER),
        ornaments::corner_upper_right,
    ),
    entry(
        "cornerlowerleft",
        &['\u{255A}'],
        AsDrawn(ornaments::BORDER),
        ornaments::corner_lower_left,
    ),
    entry(
        "cornerlowerright",
        &['\u{255D}'],
        AsDrawn(ornaments::BORDER),
        ornaments::corner_lower_right,
    ),
];
