//! How woods move with moisture.

use said::Said;
use serde::Serialize;

use crate::texts;

/// Which way a size lies in the tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Grain {
    /// Along the growth rings: moves most.
    Tangential,
    /// Across the growth rings, from the middle of the tree outward: about half as much.
    Radial,
    /// Along the fibres: hardly at all.
    Along,
}

impl Grain {
    /// As in "along the rings".
    pub fn said(self) -> Said {
        match self {
            Grain::Tangential => texts::along_rings(),
            Grain::Radial => texts::across_rings(),
            Grain::Along => texts::along_grain(),
        }
    }
}

/// A wood, by how much it shrinks from green to oven-dry.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Species {
    /// Its name.
    pub name: &'static str,
    /// Across the rings, per cent.
    pub radial: f64,
    /// Along the rings, per cent.
    pub tangential: f64,
}

const fn species(name: &'static str, radial: f64, tangential: f64) -> Species {
    Species {
        name,
        radial,
        tangential,
    }
}

/// Woods that type is cut from.
///
/// # Source
/// USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, table 4-3: hard maple, beech, black cherry, yellow birch. European
/// boxwood: a public data base of woods. Red maple, holly and pear: from memory (red maple agrees with table 13-5 of the same).
pub const SPECIES: [Species; 8] = [
    species("hard maple", 4.8, 9.9),
    species("beech", 5.5, 11.9),
    species("black cherry", 3.7, 7.1),
    species("red maple", 4.0, 8.2),
    species("holly", 4.8, 9.9),
    species("boxwood", 6.2, 9.8),
    species("pear", 3.9, 11.4),
    species("yellow birch", 7.3, 9.5),
];

/// Shrinkage along the grain from green to oven-dry, per cent: the most of normal wood; the least is half of it. Wood from about a knot,
/// from the middle of the tree or from a leaning tree moves up to ten times as much.
///
/// # Source
/// The same, p. 4-5: 0.1 to 0.2 %.
pub const ALONG_GRAIN: f64 = 0.2;

impl Species {
    /// The wood of a name, in upper or lower case.
    pub fn named(name: &str) -> Option<Species> {
        SPECIES
            .into_iter()
            .find(|species| species.name.eq_ignore_ascii_case(name.trim()))
    }

    /// Shrinkage from green to oven-dry, per cent.
    pub const fn shrinkage(&self, grain: Grain) -> f64 {
        match grain {
            Grain::Tangential => self.tangential,
            Grain::Radial => self.radial,
            Grain::Along => ALONG_GRAIN,
        }
    }
}

/// All names, for a sentence.
pub fn names() -> String {
    SPECIES.map(|species| species.name).join(", ")
}
