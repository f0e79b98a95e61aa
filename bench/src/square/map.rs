//! What a machine does to places.

use serde::{Deserialize, Serialize};

/// What a machine does to places that it is asked for: it moves too far or not far enough along x and y, and its y axis leans. The x
/// axis is what the y axis is judged by.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Map {
    /// Millimetres moved along x for each that was asked for.
    pub scale_x: f64,
    /// The same along y.
    pub scale_y: f64,
    /// By how much the angle between the axes is less than a right one, radians: positive where y leans toward +x.
    pub skew: f64,
}

impl Map {
    /// A machine that is true.
    pub const TRUE: Map = Map {
        scale_x: 1.0,
        scale_y: 1.0,
        skew: 0.0,
    };

    /// Where the machine goes when asked for a place.
    ///
    /// # Source
    /// Textbook: a linear map with x along x, written by two lengths and an angle.
    pub fn done(&self, asked: [f64; 2]) -> [f64; 2] {
        let [x, y] = asked;
        let (sin, cos) = self.skew.sin_cos();
        [
            self.scale_x * x + self.scale_y * sin * y,
            self.scale_y * cos * y,
        ]
    }

    /// What to ask for so that the machine goes to a place.
    pub fn asked(&self, wanted: [f64; 2]) -> [f64; 2] {
        let [x, y] = wanted;
        let (sin, cos) = self.skew.sin_cos();
        let along = y / (self.scale_y * cos);
        [(x - self.scale_y * sin * along) / self.scale_x, along]
    }

    /// What both do one after the other: `first`, then this one. Of two such maps that is one again, for x stays along x.
    pub fn after(&self, first: Map) -> Map {
        let [scale_x, _] = self.done(first.done([1.0, 0.0]));
        let [lean, rise] = self.done(first.done([0.0, 1.0]));
        Map {
            scale_x,
            scale_y: lean.hypot(rise),
            skew: lean.atan2(rise),
        }
    }

    /// The skew in degrees.
    pub fn skew_deg(&self) -> f64 {
        self.skew.to_degrees()
    }
}
