//! Limits of planks in stock.

use super::{Faults, HEIGHTS_MM, LARGEST_MM, LEAST_MM};
use crate::commission::Clamp;
use crate::workshop::StockPlank;

/// The smallest plank, mm.
pub(super) const LEAST_PLANK_MM: f64 = 10.0;
/// The most planks of one kind.
const MOST_ALIKE: u32 = 1_000;
/// The most bad places of one plank, and the most clamps.
const MOST_ON_A_PLANK: usize = 200;

impl Faults {
    pub(super) fn stock_plank(&mut self, place: &str, plank: &StockPlank) {
        let at = |key: &str| format!("{place}.{key}");
        self.name(&at("wood"), &plank.wood, "a wood of the workshop");
        if !(1..=MOST_ALIKE).contains(&plank.count) {
            self.push(
                &at("count"),
                format!(
                    "found {}; give how many there are, 1 to {MOST_ALIKE}, or take the plank out",
                    plank.count
                ),
            );
        }
        self.length(&at("width"), plank.width, [LEAST_PLANK_MM, LARGEST_MM]);
        self.length(&at("length"), plank.length, [LEAST_PLANK_MM, LARGEST_MM]);
        if let Some(height) = plank.height {
            self.length(&at("height"), height, HEIGHTS_MM);
        }
        self.many(&at("bad_places"), plank.bad_places.len(), MOST_ON_A_PLANK);
        for (number, bad) in plank.bad_places.iter().enumerate() {
            let at = |key: &str| format!("{place}.bad_places[{number}].{key}");
            self.length(&at("x"), bad.x, [-LARGEST_MM, LARGEST_MM]);
            self.length(&at("y"), bad.y, [-LARGEST_MM, LARGEST_MM]);
            self.length(&at("width"), bad.width, [LEAST_MM, LARGEST_MM]);
            self.length(&at("length"), bad.length, [LEAST_MM, LARGEST_MM]);
        }
        let reserved = [
            ("left", plank.reserved.left),
            ("right", plank.reserved.right),
            ("near", plank.reserved.near),
            ("far", plank.reserved.far),
        ];
        for (key, length) in reserved {
            self.length(&at(&format!("reserved.{key}")), length, [0.0, LARGEST_MM]);
        }
        if let Some(clamps) = &plank.clamps {
            self.clamps(&at("clamps"), clamps);
        }
    }

    /// Clamps of a plank, or of every plank of a commission.
    pub(super) fn clamps(&mut self, place: &str, clamps: &[Clamp]) {
        const LONGEST_CLAMP_MM: f64 = 1_000.0;
        const HIGHEST_CLAMP_MM: f64 = 100.0;
        self.many(place, clamps.len(), MOST_ON_A_PLANK);
        for (number, clamp) in clamps.iter().enumerate() {
            let at = |key: &str| format!("{place}[{number}].{key}");
            self.length(&at("x"), clamp.x, [-LONGEST_CLAMP_MM, LARGEST_MM]);
            self.length(&at("y"), clamp.y, [-LONGEST_CLAMP_MM, LARGEST_MM]);
            self.length(&at("width"), clamp.width, [LEAST_MM, LONGEST_CLAMP_MM]);
            self.length(&at("length"), clamp.length, [LEAST_MM, LONGEST_CLAMP_MM]);
            self.length(&at("height"), clamp.height, [0.0, HIGHEST_CLAMP_MM]);
        }
    }
}
