//! Named spaces, and the one mirror.
//!
//! - `em`: font units, y up. - `reading`: millimetres, as printed. - `face`: millimetres, mirrored, as cut, seen from above.
//! - `plank`: millimetres from the plank's lower-left corner. Transforms are named `target_from_source`.

use kurbo::{Affine, Point};

/// The mirror: the only way from reading space to face space. It is a type of its own, so that it cannot be applied twice.
///
/// It turns left and right about x = 0, so a block from 0 to its set width in reading space lies from minus that to 0 in face space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceFromReading;

impl FaceFromReading {
    /// The transform itself.
    pub fn affine(self) -> Affine {
        Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0])
    }

    /// A place in face space.
    pub fn point(self, reading: Point) -> Point {
        self.affine() * reading
    }
}
