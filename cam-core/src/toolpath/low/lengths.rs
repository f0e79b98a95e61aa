//! About how long the ways at depth are from where features end to where others begin: for choosing their order.
//!
//! They are reckoned on a coarse lattice over the ground that is clear before the cutter comes; for the first cutter, over what it clears
//! itself. Whether a way is clear when it is to be gone is looked at then.
//!
//! # Source
//! The shortest ways from one place to all others: E. W. Dijkstra, 1959 (from memory).

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use kurbo::Point;

use crate::lattice::{Lattice, Node};
use crate::raster::Raster;
use crate::toolpath::features::{Feature, Floor};
use crate::toolpath::low::{Ground, LEAST_LOW_MM};

/// Spacing of the lattice, in radii of the cutter, and at least, mm.
const LATTICE: f64 = 1.0 / 3.0;
const LEAST_LATTICE_MM: f64 = 0.6;

/// Ways whose ends lie further apart are hardly ever worth it, and no longer ones are looked for, mm.
const FURTHEST_MM: f64 = 45.0;

/// How far, in radii, a place of the lattice may lie from where a feature ends or begins: its own cut is clear there.
const BESIDE: f64 = 2.0;

/// A way from where a feature ends to where another begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::toolpath) struct Reckoned {
    /// The other feature's number.
    pub to: usize,
    /// About its length, mm.
    pub length: f64,
    /// How deep it runs, mm.
    pub depth: f64,
}

/// The ways known from each of the features.
pub(in crate::toolpath) fn lengths(
    ground: &Ground,
    features: &[Feature],
    cleared: &[Floor],
) -> Vec<Vec<Reckoned>> {
    let mut fields = Fields {
        ground,
        features,
        cleared,
        at_depths: BTreeMap::new(),
        known: Vec::new(),
    };
    (0..features.len()).map(|from| fields.ways(from)).collect()
}

/// The fields of one ground, by how many lanes are as deep.
struct Fields<'g> {
    ground: &'g Ground,
    features: &'g [Feature],
    cleared: &'g [Floor],
    /// The number of the field at each depth that was asked for, told by its bits.
    at_depths: BTreeMap<u64, usize>,
    known: Vec<(usize, Field)>,
}

impl Fields<'_> {
    /// The ways from where a feature ends.
    fn ways(&mut self, from: usize) -> Vec<Reckoned> {
        let features = self.features;
        let Feature { ends, ends_mm, .. } = &features[from];
        // Those at one depth are reckoned together.
        let mut near: BTreeMap<usize, Vec<(usize, f64)>> = BTreeMap::new();
        for (to, feature) in features.iter().enumerate() {
            let depth = feature.begins_mm.min(feature.clear_mm).min(*ends_mm);
            let is_near = ends.end.distance(feature.ends.start) <= FURTHEST_MM;
            if to != from && is_near && depth > LEAST_LOW_MM {
                near.entry(self.at(depth)).or_default().push((to, depth));
            }
        }
        let mut ways = Vec::new();
        for (field, near) in near {
            let field = &mut self.known[field].1;
            let flooded = field.flooded(self.ground, ends.end);
            ways.extend(near.into_iter().filter_map(|(to, depth)| {
                let start = features[to].ends.start;
                let far = field.length_to(self.ground, &flooded, (to, start))?;
                let length = far.max(ends.end.distance(start));
                Some(Reckoned { to, length, depth })
            }));
        }
        ways
    }

    /// The number of the field at a depth.
    fn at(&mut self, depth: f64) -> usize {
        if let Some(&known) = self.at_depths.get(&depth.to_bits()) {
            return known;
        }
        let lanes = self.ground.lanes_as_deep(depth, self.cleared);
        let known = self.known.iter().position(|(of, _)| *of == lanes);
        let number = known.unwrap_or_else(|| {
            let field = Field::new(self.ground, depth, self.cleared);
            self.known.push((lanes, field));
            self.known.len() - 1
        });
        self.at_depths.insert(depth.to_bits(), number);
        number
    }
}

impl Ground {
    /// The wood by which ways are reckoned: what is left before the cutter, or, for the first one, after it.
    fn reckoned_wood(&self, depth: f64, cleared: &[Floor]) -> Raster {
        let mut wood = self.left_at(depth);
        if !self.is_cleared_before() {
            for (number, floor) in cleared.iter().enumerate() {
                if let Some(swath) = self.cleared_by(number, floor, depth) {
                    wood.clear(&swath);
                }
            }
            wood.refresh();
        }
        wood
    }

    /// Depths with as many lanes have the same wood.
    fn lanes_as_deep(&self, depth: f64, cleared: &[Floor]) -> usize {
        if self.is_cleared_before() {
            self.before.as_deep_as(depth)
        } else {
            cleared.iter().map(|floor| floor.as_deep_as(depth)).sum()
        }
    }
}

/// The places of a lattice at which a cutter is free at one depth.
struct Field {
    lattice: Lattice,
    columns: usize,
    free: Vec<bool>,
    /// The free places beside where features begin, by the features' numbers, as far as they were asked for.
    beside: BTreeMap<usize, Vec<Node>>,
}

impl Field {
    fn new(ground: &Ground, depth: f64, cleared: &[Floor]) -> Field {
        let wood = ground.reckoned_wood(depth, cleared);
        let inside = ground.centres;
        let lattice = Lattice {
            origin: inside.origin(),
            spacing: (ground.radius * LATTICE).max(LEAST_LATTICE_MM),
        };
        let columns = (inside.width() / lattice.spacing) as usize + 1;
        let rows = (inside.height() / lattice.spacing) as usize + 1;
        let disc = ground.cutting_disc(depth);
        let nodes = (0..rows).flat_map(|y| (0..columns).map(move |x| (x as i32, y as i32)));
        let free = nodes.map(|node| {
            let at = lattice.place(node);
            !wood.any_near_line(at, at, disc)
        });
        Field {
            lattice,
            columns,
            free: free.collect(),
            beside: BTreeMap::new(),
        }
    }

    /// The number of a place, if it is within the field and free.
    fn free(&self, (x, y): Node) -> Option<usize> {
        let (x, y) = (usize::try_from(x).ok()?, usize::try_from(y).ok()?);
        let number = y * self.columns + x;
        let is_free = x < self.columns && self.free.get(number).copied().unwrap_or(false);
        is_free.then_some(number)
    }

    /// The free places beside a point that the cutter gets to straight from it without touching the letter.
    fn beside(&self, ground: &Ground, at: Point) -> Vec<Node> {
        let reach = ground.radius * BESIDE + self.lattice.spacing;
        let side = (reach / self.lattice.spacing).ceil() as i32;
        let [(x, y), ..] = self.lattice.around(at);
        let limit = ground.limit();
        (y - side..=y + side + 1)
            .flat_map(|y| (x - side..=x + side + 1).map(move |x| (x, y)))
            .filter(|&node| {
                let place = self.lattice.place(node);
                self.free(node).is_some()
                    && place.distance(at) <= reach
                    && ground.letter.nearest_to_line(at, place, limit) >= limit
            })
            .collect()
    }

    /// About how long it is from a point to each place.
    fn flooded(&self, ground: &Ground, from: Point) -> Vec<f64> {
        let mut length = vec![f64::INFINITY; self.free.len()];
        // Lengths that are not negative are in the order of their bits.
        let mut open = BinaryHeap::new();
        let reached = self.beside(ground, from).into_iter();
        let mut next: Vec<(Node, f64)> = reached
            .map(|node| (node, self.lattice.place(node).distance(from)))
            .collect();
        loop {
            for (node, far) in next.drain(..) {
                if let Some(number) = self.free(node)
                    && far < length[number]
                    && far <= FURTHEST_MM
                {
                    length[number] = far;
                    open.push(Reverse((far.to_bits(), node)));
                }
            }
            let Some(Reverse((bits, node))) = open.pop() else {
                return length;
            };
            let (at, far) = (self.lattice.place(node), f64::from_bits(bits));
            if self.free(node).is_some_and(|number| far <= length[number]) {
                let beside = self.lattice.beside(node);
                next.extend(beside.map(|(node, place)| (node, far + at.distance(place))));
            }
        }
    }

    /// About how long it is to where a feature begins, if a way there is known.
    fn length_to(
        &mut self,
        ground: &Ground,
        flooded: &[f64],
        (feature, start): (usize, Point),
    ) -> Option<f64> {
        if !self.beside.contains_key(&feature) {
            let beside = self.beside(ground, start);
            self.beside.insert(feature, beside);
        }
        self.beside[&feature]
            .iter()
            .filter_map(|&node| {
                let far = flooded[self.free(node)?] + self.lattice.place(node).distance(start);
                far.is_finite().then_some(far)
            })
            .min_by(f64::total_cmp)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use geometry::arc_path::{ArcPath, ArcStep};
    use geometry::distance::WallIndex;

    use super::*;
    use crate::pass::{Cut, Entry, Heights, Purpose, SortPasses};
    use crate::toolpath::features::features;
    use crate::workshop::Workshop;

    const DEPTH: f64 = 1.5;

    fn cut(places: &[(f64, f64)]) -> Cut {
        let mut path = ArcPath::starting_at(Point::from(places[0]));
        let lines = places[1..]
            .iter()
            .map(|&to| ArcStep::Line { to: to.into() });
        path.steps = lines.collect();
        Cut {
            purpose: Purpose::Finishing,
            layer: 0,
            depth_mm: DEPTH,
            heights: Heights::Level,
            entry: Entry::Open,
            path,
            feed_mm_min: 900.0,
        }
    }

    /// The ways between two cuts of a cutter of 3 mm, left and right of a square letter, and one in wood, where one of 6 mm went before.
    fn ways(before: &[Cut]) -> Vec<Vec<Reckoned>> {
        let workshop = Workshop::starting();
        let [cutter, larger] =
            ["flat-3", "flat-6"].map(|id| workshop.cutter(id).expect("a starting cutter"));
        let square = [(20.0, 20.0), (30.0, 20.0), (30.0, 30.0), (20.0, 30.0)];
        let letter = Arc::new(WallIndex::new([&square.map(Point::from).to_vec()]));
        let mut floor = Floor::default();
        floor.add(before, larger);
        let passes = SortPasses {
            cutter: cutter.id.clone(),
            cuts: vec![
                cut(&[(17.5, 22.0), (17.5, 25.0)]),
                cut(&[(32.5, 25.0), (32.5, 22.0)]),
                cut(&[(50.0, 25.0), (50.0, 22.0)]),
            ],
        };
        let features = features(&passes, cutter, &floor);
        let cleared: Vec<Floor> = features
            .iter()
            .map(|feature| {
                let mut own = Floor::default();
                own.add(&passes.cuts[feature.cuts.clone()], cutter);
                own
            })
            .collect();
        let ground = Ground::new(&passes.cuts, &floor, letter, cutter).expect("there are cuts");
        lengths(&ground, &features, &cleared)
    }

    #[test]
    fn ways_go_round_the_letter_over_what_was_cleared() {
        let round = cut(&[(16.0, 20.0), (16.0, 34.0), (34.0, 34.0), (34.0, 20.0)]);
        let found = ways(&[round]);
        // The lanes, 6 mm wide, let its middle 1.5 mm to either side: up 7.5 mm, 15 across and down again; a little less where its rim may
        // meet a sliver in the corners, a little more on the lattice.
        let around = |way: &Reckoned| (28.0..31.0).contains(&way.length);
        assert_eq!(found[0].len(), 1, "{found:?}");
        assert_eq!((found[0][0].to, found[0][0].depth), (1, DEPTH));
        assert!(around(&found[0][0]), "{found:?}");
        // The third begins in wood, and where it ends no other ground is known.
        assert!(found[2].is_empty(), "{found:?}");
    }

    #[test]
    fn wood_between_leaves_no_way() {
        let apart = [
            cut(&[(16.0, 20.0), (16.0, 34.0)]),
            cut(&[(34.0, 34.0), (34.0, 20.0)]),
        ];
        assert!(ways(&apart).iter().all(Vec::is_empty));
    }
}
