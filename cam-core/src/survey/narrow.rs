//! Places where the ground is narrower than a cutter, or the letter thinner than it should be.

use std::collections::BTreeMap;

use kurbo::Point;

use geometry::diagram::Diagram;
use geometry::medial_axis::{AxisEdge, AxisPlace};
use geometry::reach::Reach;
use geometry::region::Region;

use super::LEAST_LEFT_MM;

/// Walls count as facing one another where they are seen at least this far apart, in degrees, from half way between: they then
/// close on one another by 1 in 3 at most. Blunter wedges are corners, not strokes or slots.
const FACING_DEG: f64 = 160.0;

/// Ground left that is nowhere wider than this, mm, holds no place worth naming.
const LEAST_WIDTH_MM: f64 = 0.02;

/// Ground narrower than a cutter.
#[derive(Debug, Default)]
pub(super) struct Narrow {
    /// One place and its width for each piece of ground.
    pub(super) places: Vec<(Point, f64)>,
}

impl Narrow {
    /// The ground inside the block that a disc of this radius does not enter: slots and necks at their narrowest, and closed
    /// ground, such as counters, at its widest.
    pub(super) fn of(ground: &Diagram, reach: &Reach, radius: f64, block: &Region) -> Narrow {
        let inside = |place: Point| block.contains(place);
        let mut places = runs(&ground.ground_axis(), radius, inside);
        // What the disc does not come to at all has no facing walls where it is round.
        let closed: Vec<&Region> = reach
            .left
            .iter()
            .filter(|left| left.stops.is_empty() && left.depth > LEAST_LEFT_MM)
            .map(|left| &left.region)
            .collect();
        if !closed.is_empty() {
            for widest in ground.widest(LEAST_WIDTH_MM / 2.0) {
                let named = |region: &&&Region| {
                    region.contains(widest.at)
                        && !places.iter().any(|&(place, _)| region.contains(place))
                };
                if inside(widest.at) && closed.iter().any(|region| named(&region)) {
                    places.push((widest.at, 2.0 * widest.clearance));
                }
            }
        }
        Narrow { places }
    }
}

/// The letter's strokes that are thinner than `least` (mm), each at its thinnest, with its thickness.
pub(super) fn thin_strokes(ground: &Diagram, least: f64) -> Vec<(Point, f64)> {
    if least.is_nan() || least <= 0.0 {
        return Vec::new();
    }
    runs(&ground.letter_axis(), least / 2.0, |_| true)
}

/// The connected runs of a centre line along which facing walls come nearer than the clearance: the narrowest place of each,
/// with its width, in the order of the centre line.
fn runs(axis: &[AxisEdge], clearance: f64, wanted: impl Fn(Point) -> bool) -> Vec<(Point, f64)> {
    let facing = FACING_DEG.to_radians();
    let narrowest = |edge: &AxisEdge| -> Option<AxisPlace> {
        [Some(edge.from), Some(edge.to), edge.narrowest]
            .into_iter()
            .flatten()
            .filter(|place| place.spread >= facing && place.clearance < clearance)
            .filter(|place| wanted(place.at))
            .min_by(|one, other| one.clearance.total_cmp(&other.clearance))
    };
    let narrow: Vec<(&AxisEdge, AxisPlace)> = axis
        .iter()
        .filter_map(|edge| narrowest(edge).map(|place| (edge, place)))
        .collect();
    let mut runs = Runs::of(narrow.len());
    let mut by_end: BTreeMap<(u64, u64), usize> = BTreeMap::new();
    for (number, (edge, _)) in narrow.iter().enumerate() {
        for end in [edge.from, edge.to] {
            // Edges that meet share their end to the last bit.
            let key = (end.at.x.to_bits(), end.at.y.to_bits());
            let known = *by_end.entry(key).or_insert(number);
            runs.join(known, number);
        }
    }
    let mut least: BTreeMap<usize, AxisPlace> = BTreeMap::new();
    for (number, &(_, place)) in narrow.iter().enumerate() {
        let known = least.entry(runs.root(number)).or_insert(place);
        if place.clearance < known.clearance {
            *known = place;
        }
    }
    least
        .into_values()
        .map(|place| (place.at, 2.0 * place.clearance))
        .collect()
}

/// Edges joined into runs; each run is known by its first edge.
struct Runs {
    first: Vec<usize>,
}

impl Runs {
    fn of(count: usize) -> Runs {
        Runs {
            first: (0..count).collect(),
        }
    }

    fn root(&mut self, mut edge: usize) -> usize {
        // Each step leads to a smaller number, so this ends.
        while self.first[edge] != edge {
            self.first[edge] = self.first[self.first[edge]];
            edge = self.first[edge];
        }
        edge
    }

    fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.root(one), self.root(other));
        self.first[one.max(other)] = one.min(other);
    }
}
