//! The plain dialect in inches.

use super::{Arcs, Comments, Dialect, Unit};

/// As the plain dialect, with G20 in place of G21; a hundred-thousandth of an inch is 0.25 µm.
pub(super) static PLAIN_INCH: Dialect = Dialect {
    name: "plain-inch",
    summary: "Inches, arcs by their centre; for any small three-axis controller.",
    unit: Unit::Inch,
    decimals: 5,
    feed_decimals: 2,
    arcs: Arcs::Centre,
    comments: Comments::Parentheses,
    line_numbers: None,
    head: &["G20", "G17 G40 G49 G80", "G54 G90 G94"],
    // Common practice, no source: small spindles come up to speed within three seconds.
    spin_up_s: 3.0,
    pause: &["M5", "M0"],
    end: &["M5", "M30"],
};
