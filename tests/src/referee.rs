//! A second geometry library as referee: Clipper2, in its Rust port, on integers of one nanometre.
//!
//! # Source
//! Crate `clipper2-rust`; the library's rounding of joins is set by [`ARC_TOLERANCE_MM`].

use clipper2_rust::{
    ClipType, EndType, FillRule, JoinType, Path64, Paths64, Point64, area_paths, boolean_op_64,
    inflate_paths_64, minkowski_sum,
};
use geometry::region::{self, Region};
use kurbo::{BezPath, PathEl, Point, Rect, Vec2};

/// Integer steps in a millimetre.
const STEPS_PER_MM: f64 = 1e6;

/// How far the referee's chords may lie from a round join, in millimetres.
pub const ARC_TOLERANCE_MM: f64 = 0.0004;

/// An area as the referee sees it.
#[derive(Clone, Debug, Default)]
pub struct Area(Paths64);

impl Area {
    /// The area of a region.
    pub fn of(region: &Region) -> Area {
        Area::of_rings(region.rings().map(|ring| ring.as_slice()))
    }

    /// The area where rings wind around more often to the left than to the right.
    pub fn of_rings<'a>(rings: impl IntoIterator<Item = &'a [Point]>) -> Area {
        let rings: Paths64 = rings.into_iter().map(path_of).collect();
        Area(boolean_op_64(
            ClipType::Union,
            FillRule::Positive,
            &rings,
            &Paths64::new(),
        ))
    }

    /// The area that rings go round at all, whichever way (the nonzero rule).
    pub fn filled<'a>(rings: impl IntoIterator<Item = &'a [Point]>) -> Area {
        let rings: Paths64 = rings.into_iter().map(path_of).collect();
        Area(boolean_op_64(
            ClipType::Union,
            FillRule::NonZero,
            &rings,
            &Paths64::new(),
        ))
    }

    /// What a drawing fills by the nonzero rule, its curves made chords that lie within a distance of them.
    pub fn drawn(drawn: &BezPath, chord_mm: f64) -> Area {
        // The library's flattening is known to exceed what is asked of it by up to 2.4 times.
        const EXCESS: f64 = 2.4;
        let mut rings: Vec<Vec<Point>> = Vec::new();
        kurbo::flatten(drawn, chord_mm / EXCESS, |element| match element {
            PathEl::MoveTo(at) => rings.push(vec![at]),
            PathEl::LineTo(at) => rings
                .iter_mut()
                .last()
                .into_iter()
                .for_each(|ring| ring.push(at)),
            PathEl::QuadTo(..) | PathEl::CurveTo(..) | PathEl::ClosePath => {}
        });
        Area::filled(rings.iter().map(Vec::as_slice))
    }

    /// What any of them covers.
    pub fn of_all(areas: impl IntoIterator<Item = Area>) -> Area {
        let paths: Paths64 = areas.into_iter().flat_map(|area| area.0).collect();
        Area(boolean_op_64(
            ClipType::Union,
            FillRule::NonZero,
            &paths,
            &Paths64::new(),
        ))
    }

    /// The same elsewhere.
    pub fn moved(&self, by: Vec2) -> Area {
        let by = path_of(&[by.to_point()])[0];
        let moved = self.0.iter().map(|ring| {
            let points = ring
                .iter()
                .map(|point| Point64::new(point.x + by.x, point.y + by.y));
            points.collect::<Path64>()
        });
        Area(moved.collect())
    }

    /// What either covers.
    pub fn joined(&self, other: &Area) -> Area {
        self.combined(ClipType::Union, other)
    }

    /// What both cover.
    pub fn intersection(&self, other: &Area) -> Area {
        self.combined(ClipType::Intersection, other)
    }

    /// What this covers and the other does not.
    pub fn without(&self, other: &Area) -> Area {
        self.combined(ClipType::Difference, other)
    }

    /// What exactly one of the two covers.
    pub fn symmetric_difference(&self, other: &Area) -> Area {
        self.combined(ClipType::Xor, other)
    }

    fn combined(&self, how: ClipType, other: &Area) -> Area {
        Area(boolean_op_64(how, FillRule::NonZero, &self.0, &other.0))
    }

    /// Grown by a distance in millimetres with round joins, or shrunk where it is negative.
    pub fn grown(&self, distance_mm: f64) -> Area {
        Area(inflate_paths_64(
            &self.0,
            distance_mm * STEPS_PER_MM,
            JoinType::Round,
            EndType::Polygon,
            2.0,
            ARC_TOLERANCE_MM * STEPS_PER_MM,
        ))
    }

    /// What a disc of a radius in millimetres covers whose middle goes along open lines.
    pub fn swept<'a>(lines: impl IntoIterator<Item = &'a [Point]>, radius_mm: f64) -> Area {
        let lines: Paths64 = lines.into_iter().map(path_of).collect();
        Area(inflate_paths_64(
            &lines,
            radius_mm * STEPS_PER_MM,
            JoinType::Round,
            EndType::Round,
            2.0,
            ARC_TOLERANCE_MM * STEPS_PER_MM,
        ))
    }

    /// What it passes over when it is moved, both places included: the sum of its edges with the way, and both places.
    pub fn passed_over(&self, by: Vec2) -> Area {
        let way = path_of(&[Point::ZERO, by.to_point()]);
        let mut swept = self.clone();
        for ring in &self.0 {
            swept = swept.joined(&Area(minkowski_sum(ring, &way, false)));
            let moved: Path64 = ring
                .iter()
                .map(|point| Point64::new(point.x + way[1].x, point.y + way[1].y))
                .collect();
            // A counter, moved, is filled by the edges' bands as far as it is passed over.
            if area_paths(&vec![ring.clone()]) > 0.0 {
                swept = swept.joined(&Area(vec![moved]).without(&self.counters_at(way[1])));
            }
        }
        swept
    }

    /// Its holes, filled and moved.
    fn counters_at(&self, by: Point64) -> Area {
        let holes = self
            .0
            .iter()
            .filter(|ring| area_paths(&vec![(*ring).clone()]) < 0.0);
        let moved = holes.map(|ring| {
            let points = ring
                .iter()
                .map(|point| Point64::new(point.x + by.x, point.y + by.y));
            points.collect::<Path64>()
        });
        Area(boolean_op_64(
            ClipType::Union,
            FillRule::NonZero,
            &moved.collect::<Paths64>(),
            &Paths64::new(),
        ))
    }

    /// What a disc of a radius in millimetres covers while it stays inside: shrunk, then grown.
    pub fn opened(&self, radius_mm: f64) -> Area {
        self.grown(-radius_mm).grown(radius_mm)
    }

    /// Square millimetres.
    pub fn square_mm(&self) -> f64 {
        area_paths(&self.0) / (STEPS_PER_MM * STEPS_PER_MM)
    }

    /// Length of all edges, in millimetres.
    pub fn perimeter_mm(&self) -> f64 {
        self.0
            .iter()
            .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)))
            .map(|(a, b)| ((b.x - a.x) as f64).hypot((b.y - a.y) as f64))
            .sum::<f64>()
            / STEPS_PER_MM
    }

    /// The smallest rectangle that holds it, in millimetres; `None` where there is nothing.
    pub fn bounds(&self) -> Option<Rect> {
        let rings = self.rings();
        let mut points = rings.iter().flatten();
        let first = points.next()?;
        Some(
            points.fold(Rect::from_points(*first, *first), |bounds, &at| {
                bounds.union_pt(at)
            }),
        )
    }

    /// Each connected piece with its holes.
    pub fn pieces(&self) -> Vec<Area> {
        let rings = self.rings();
        let size = |ring: &[Point]| region::signed_area(ring);
        let outers: Vec<usize> = (0..rings.len())
            .filter(|&ring| size(&rings[ring]) > 0.0)
            .collect();
        let mut pieces: Vec<Paths64> = outers
            .iter()
            .map(|&ring| vec![self.0[ring].clone()])
            .collect();
        for (hole, ring) in rings
            .iter()
            .enumerate()
            .filter(|(_, ring)| size(ring) < 0.0)
        {
            // The smallest outer ring around it: pieces may lie in holes of others.
            let around = (0..outers.len())
                .filter(|&outer| region::winding(&rings[outers[outer]], ring[0]) != 0)
                .min_by(|&one, &other| {
                    size(&rings[outers[one]]).total_cmp(&size(&rings[outers[other]]))
                });
            if let Some(around) = around {
                pieces[around].push(self.0[hole].clone());
            }
        }
        pieces.into_iter().map(Area).collect()
    }

    /// The rings, in millimetres.
    pub fn rings(&self) -> Vec<Vec<Point>> {
        self.0
            .iter()
            .map(|ring| {
                ring.iter()
                    .map(|at| Point::new(at.x as f64 / STEPS_PER_MM, at.y as f64 / STEPS_PER_MM))
                    .collect()
            })
            .collect()
    }
}

fn path_of(ring: &[Point]) -> Path64 {
    ring.iter()
        .map(|at| {
            Point64::new(
                (at.x * STEPS_PER_MM).round() as i64,
                (at.y * STEPS_PER_MM).round() as i64,
            )
        })
        .collect()
}

/// The area covered by exactly one of two areas, in square millimetres.
pub fn symmetric_difference_mm2(one: &Area, other: &Area) -> f64 {
    one.symmetric_difference(other).square_mm()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::letters;

    #[test]
    fn the_referee_knows_the_area_left_by_a_disc_in_a_square_room() {
        let room = letters::rectangle(0.0, 0.0, 10.0, 10.0);
        let room = Area::of_rings([room.as_slice()]);
        let left = room.square_mm() - room.opened(3.0).square_mm();
        let wanted = 9.0 * (4.0 - std::f64::consts::PI);
        assert!((left - wanted).abs() < 40.0 * ARC_TOLERANCE_MM, "{left}");
    }

    #[test]
    fn a_disc_along_a_line_sweeps_a_lane_with_round_ends() {
        let line = [Point::new(1.0, 2.0), Point::new(9.0, 2.0)];
        let swept = Area::swept([line.as_slice()], 1.5).square_mm();
        let wanted = 8.0 * 3.0 + std::f64::consts::PI * 1.5 * 1.5;
        assert!((swept - wanted).abs() < 10.0 * ARC_TOLERANCE_MM, "{swept}");
    }

    #[test]
    fn counters_count_as_empty() {
        let outer = letters::rectangle(0.0, 0.0, 10.0, 10.0);
        let mut counter = letters::rectangle(4.0, 4.0, 6.0, 6.0);
        counter.reverse();
        let ring = Area::of_rings([outer.as_slice(), counter.as_slice()]);
        assert_eq!(ring.square_mm(), 96.0);
        assert_eq!(ring.perimeter_mm(), 48.0);
        let outer = Area::of_rings([outer.as_slice()]);
        assert_eq!(symmetric_difference_mm2(&ring, &outer), 4.0);
    }
}
