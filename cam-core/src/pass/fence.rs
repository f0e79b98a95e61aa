//! The walls that no path may come near, and the question whether one does.

use geometry::arc_path::{ArcPath, ArcStep};
use geometry::diagram::Diagram;
use geometry::distance::WallIndex;
use kurbo::Point;

/// The letter's edge and the room's edge.
pub(super) struct Fence {
    index: WallIndex,
}

impl Fence {
    pub(super) fn around(ground: &Diagram) -> Fence {
        Fence {
            index: WallIndex::new(
                ground
                    .letter()
                    .rings()
                    .chain(std::iter::once(ground.room())),
            ),
        }
    }

    /// Distance of a place from the nearest wall.
    pub(super) fn nearest_to(&self, place: Point) -> f64 {
        self.index.nearest(place)
    }

    /// Distance of a place from the nearest wall, or `cutoff` where none is nearer.
    pub(super) fn nearest_within(&self, place: Point, cutoff: f64) -> f64 {
        self.index.nearest_within(place, cutoff)
    }

    /// Whether every place on the line keeps at least `distance` from the walls.
    pub(super) fn clears_line(&self, from: Point, to: Point, distance: f64) -> bool {
        self.index.nearest_to_line(from, to, distance) >= distance
    }

    /// Whether every place on the path keeps at least `distance` from the walls.
    pub(super) fn clears(&self, path: &ArcPath, distance: f64) -> bool {
        self.index.nearest(path.start) >= distance
            && path
                .from_and_steps()
                .all(|(from, step)| self.nearest(from, step, distance) >= distance)
    }

    fn nearest(&self, from: Point, step: &ArcStep, cutoff: f64) -> f64 {
        match *step {
            ArcStep::Line { to } => self.index.nearest_to_line(from, to, cutoff),
            ArcStep::Arc { to, centre, turn } => {
                self.index.nearest_to_arc(from, to, centre, turn, cutoff)
            }
        }
    }
}
