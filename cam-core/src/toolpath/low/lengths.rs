//! About how long the ways at depth are from where features end to where others begin: for choosing their order.
//!
//! They are reckoned on a coarse lattice over the ground that is clear before the cutter comes; for the first cutter, over what it clears
//! itself. Whether a way is clear when it is to be gone is looked at then.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use kurbo::{Point, Vec2};

use crate::pass::{Cut, Entry};
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

/// Where the cutter comes down for a cut and starts to cut, mm below the face.
pub(in crate::toolpath) fn begins(first: &Cut) -> f64 {
    match first.entry {
        Entry::Ramp { from_depth_mm, .. } => from_depth_mm,
        Entry::StayDown | Entry::Open | Entry::Plunge => first.start_depth_mm(),
    }
}

/// The ways known from each of the features.
pub(in crate::toolpath) fn lengths(
    ground: &Ground,
    cuts: &[Cut],
    features: &[Feature],
    cleared: &[Floor],
) -> Vec<Vec<Reckoned>> {
    let mut fields = Fields {
        ground,
        cleared,
        known: Vec::new(),
    };
    let ends = |feature: &Feature| {
        let cut = cuts[feature.cuts.clone()].last();
        cut.map_or(0.0, Cut::end_depth_mm)
    };
    let comes_down = |feature: &Feature| {
        let cut = cuts[feature.cuts.clone()].first();
        cut.map_or(0.0, begins).min(feature.clear_mm)
    };
    features
        .iter()
        .enumerate()
        .map(|(number, from)| {
            let here = from.ends.end;
            let near: Vec<(usize, f64)> = features
                .iter()
                .enumerate()
                .filter(|&(other, to)| {
                    other != number && here.distance(to.ends.start) <= FURTHEST_MM
                })
                .map(|(other, to)| (other, comes_down(to).min(ends(from))))
                .filter(|&(_, depth)| depth > LEAST_LOW_MM)
                .collect();
            // Those of one depth are reckoned together.
            let mut own = Vec::new();
            for those in by_lanes(near, |depth| fields.lanes(depth)) {
                let field = fields.at(those[0].1);
                let starts: Vec<Point> = those.iter().map(|to| features[to.0].ends.start).collect();
                let found = field.lengths(ground, here, &starts);
                own.extend(
                    those
                        .iter()
                        .zip(found)
                        .filter_map(|(&(to, depth), length)| {
                            length.map(|length| Reckoned { to, length, depth })
                        }),
                );
            }
            own
        })
        .collect()
}

/// Features with their depths, those together that have equally many lanes.
fn by_lanes(near: Vec<(usize, f64)>, lanes: impl Fn(f64) -> usize) -> Vec<Vec<(usize, f64)>> {
    let mut groups: Vec<(usize, Vec<(usize, f64)>)> = Vec::new();
    for to in near {
        let deep = lanes(to.1);
        match groups.iter_mut().find(|(of, _)| *of == deep) {
            Some((_, group)) => group.push(to),
            None => groups.push((deep, vec![to])),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// The fields of one ground, by how many lanes are as deep.
struct Fields<'g> {
    ground: &'g Ground,
    cleared: &'g [Floor],
    known: Vec<(usize, Field)>,
}

impl Fields<'_> {
    fn lanes(&self, depth: f64) -> usize {
        self.ground.lanes_as_deep(depth, self.cleared)
    }

    fn at(&mut self, depth: f64) -> &Field {
        let lanes = self.lanes(depth);
        let known = self.known.iter().position(|(of, _)| *of == lanes);
        let at = known.unwrap_or_else(|| {
            let field = Field::new(self.ground, depth, self.cleared);
            self.known.push((lanes, field));
            self.known.len() - 1
        });
        &self.known[at].1
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
    origin: Point,
    spacing: f64,
    columns: usize,
    rows: usize,
    free: Vec<bool>,
}

impl Field {
    fn new(ground: &Ground, depth: f64, cleared: &[Floor]) -> Field {
        let wood = ground.reckoned_wood(depth, cleared);
        let spacing = (ground.radius * LATTICE).max(LEAST_LATTICE_MM);
        let inside = ground.centres;
        let columns = (inside.width() / spacing) as usize + 1;
        let rows = (inside.height() / spacing) as usize + 1;
        let disc = ground.cutting_disc(depth);
        let origin = inside.origin();
        let free = (0..rows * columns)
            .map(|number| {
                let at = place(origin, spacing, columns, number);
                !wood.any_near_line(at, at, disc)
            })
            .collect();
        Field {
            origin,
            spacing,
            columns,
            rows,
            free,
        }
    }

    fn place(&self, number: usize) -> Point {
        place(self.origin, self.spacing, self.columns, number)
    }

    /// The free places beside a point that the cutter gets to straight from it without touching the letter.
    fn beside(&self, ground: &Ground, at: Point) -> Vec<usize> {
        let reach = ground.radius * BESIDE + self.spacing;
        let from = (at - self.origin - Vec2::new(reach, reach)) / self.spacing;
        let to = (at - self.origin + Vec2::new(reach, reach)) / self.spacing;
        let range = |from: f64, to: f64, count: usize| {
            let last = (to.floor() + 1.0).clamp(0.0, count as f64) as usize;
            from.ceil().max(0.0) as usize..last
        };
        let limit = ground.limit();
        range(from.y, to.y, self.rows)
            .flat_map(|row| {
                range(from.x, to.x, self.columns).map(move |column| row * self.columns + column)
            })
            .filter(|&number| {
                let place = self.place(number);
                self.free[number]
                    && place.distance(at) <= reach
                    && ground.letter.nearest_to_line(at, place, limit) >= limit
            })
            .collect()
    }

    /// About how long it is from a point to each place: E. W. Dijkstra's shortest ways.
    fn flooded(&self, ground: &Ground, from: Point) -> Vec<f64> {
        let mut length = vec![f64::INFINITY; self.free.len()];
        // Lengths that are not negative are in the order of their bits.
        let mut open = BinaryHeap::new();
        for number in self.beside(ground, from) {
            length[number] = self.place(number).distance(from);
            open.push(Reverse((length[number].to_bits(), number)));
        }
        while let Some(Reverse((bits, number))) = open.pop() {
            let far = f64::from_bits(bits);
            if far > length[number] {
                continue;
            }
            for (next, way) in self.around(number) {
                let far = far + way;
                if far < length[next] && far <= FURTHEST_MM {
                    length[next] = far;
                    open.push(Reverse((far.to_bits(), next)));
                }
            }
        }
        length
    }

    /// About how long it is from a point to others, where a way is known.
    fn lengths(&self, ground: &Ground, from: Point, to: &[Point]) -> Vec<Option<f64>> {
        let length = self.flooded(ground, from);
        to.iter()
            .map(|&to| {
                let straight = from.distance(to);
                self.beside(ground, to)
                    .into_iter()
                    .map(|number| length[number] + self.place(number).distance(to))
                    .min_by(f64::total_cmp)
                    .filter(|far| far.is_finite())
                    .map(|far| far.max(straight))
            })
            .collect()
    }

    /// The free places around one, with how far they are.
    fn around(&self, number: usize) -> impl Iterator<Item = (usize, f64)> {
        let (row, column) = (number / self.columns, number % self.columns);
        let rows = row.saturating_sub(1)..=(row + 1).min(self.rows - 1);
        let columns = column.saturating_sub(1)..=(column + 1).min(self.columns - 1);
        rows.flat_map(move |row| columns.clone().map(move |column| (row, column)))
            .map(move |(next_row, next_column)| {
                let aslant = next_row != row && next_column != column;
                let way = if aslant {
                    self.spacing * std::f64::consts::SQRT_2
                } else {
                    self.spacing
                };
                (next_row * self.columns + next_column, way)
            })
            .filter(move |&(next, _)| next != number && self.free[next])
    }
}

fn place(origin: Point, spacing: f64, columns: usize, number: usize) -> Point {
    let (row, column) = (number / columns, number % columns);
    origin + Vec2::new(column as f64, row as f64) * spacing
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use geometry::arc_path::{ArcPath, ArcStep};
    use geometry::distance::WallIndex;

    use super::*;
    use crate::pass::{Heights, Purpose, SortPasses};
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
        lengths(&ground, &passes.cuts, &features, &cleared)
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
