//! The plain dialect in millimetres.

use super::{Arcs, Comments, Dialect, Unit};

/// For any small three-axis controller: no codes beyond G0 G1 G2 G3 G4 G17 G21 G40 G49 G54 G80 G90 G94 M0 M3 M5 M30.
pub(super) static PLAIN: Dialect = Dialect {
    name: "plain",
    summary: "Millimetres, arcs by their centre; for any small three-axis controller.",
    unit: Unit::Millimetre,
    decimals: 3,
    feed_decimals: 1,
    arcs: Arcs::Centre,
    comments: Comments::Parentheses,
    line_numbers: None,
    head: &["G21", "G17 G40 G49 G80", "G54 G90 G94"],
    // Common practice, no source: small spindles come up to speed within three seconds.
    spin_up_s: 3.0,
    pause: &["M5", "M0"],
    end: &["M5", "M30"],
};
