//! How deep the ground is to be, place by place: least where it is narrow, full where it is wide.
//!
//! Between large walls a roller or the paper dips, so open ground must be deep; in narrow ground it cannot dip, and small
//! cutters cannot go deep. The depth wanted at a place is a function of the **local width** there: the diameter of the
//! largest disc inside the ground that holds the place. The room's edge is no wall: beyond it the ground is taken to be open.
//!
//! # Source
//! That open ground must be deeper: common practice, no source; local width by largest discs is worked out here.

use geometry::cells::{Grid, HALF_DIAGONAL, Marked, edges};
use geometry::diagram::{Diagram, Site, SiteKind, Wall};
use geometry::medial_axis::AxisEdge;
use kurbo::{Point, Rect};

use crate::commission::Cutting;

/// Side of the cells on which local widths are kept, mm: finer than any step of depth that shows.
const CELL_MM: f64 = 0.2;

/// The most cells along one side; larger sorts get larger cells.
const MOST_CELLS: f64 = 1_024.0;

/// The most places taken along one edge of a centre line.
const MOST_STAMPS: f64 = 4_096.0;

/// How far apart, as a part of the width between narrow and wide, widths are told apart where a disc would cross the room's
/// edge.
const OPEN_STEP: f64 = 0.1;

/// The depth wanted, as a function of local width: `least_mm` up to `narrow_width_mm`, from there rising evenly to `full_mm`
/// at `wide_width_mm`, and `full_mm` beyond. All in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relief {
    /// Depth in narrow ground.
    pub least_mm: f64,
    /// Depth in open ground.
    pub full_mm: f64,
    /// Ground up to this width is narrow.
    pub narrow_width_mm: f64,
    /// Ground from this width on is open.
    pub wide_width_mm: f64,
}

impl Relief {
    /// What the commission asks for.
    pub fn of(cutting: &Cutting) -> Relief {
        Relief {
            least_mm: cutting.least_relief.in_mm(),
            full_mm: cutting.relief.in_mm(),
            narrow_width_mm: cutting.narrow_width.in_mm(),
            wide_width_mm: cutting.wide_width.in_mm(),
        }
    }

    /// The depth wanted where the ground is so wide, mm.
    pub fn depth_at_width(&self, width_mm: f64) -> f64 {
        if width_mm >= self.wide_width_mm {
            return self.full_mm;
        }
        if width_mm <= self.narrow_width_mm {
            return self.least_mm;
        }
        let part = (width_mm - self.narrow_width_mm) / (self.wide_width_mm - self.narrow_width_mm);
        self.least_mm + (self.full_mm - self.least_mm) * part
    }

    /// The width above which ground is wanted deeper than this, mm; `None` where no ground is, 0 where all is.
    pub fn width_deeper_than(&self, depth_mm: f64) -> Option<f64> {
        if depth_mm >= self.full_mm {
            return None;
        }
        if depth_mm < self.least_mm {
            return Some(0.0);
        }
        let part = (depth_mm - self.least_mm) / (self.full_mm - self.least_mm);
        Some(self.narrow_width_mm + (self.wide_width_mm - self.narrow_width_mm) * part)
    }

    /// Whether the depth is the same everywhere.
    fn is_even(&self) -> bool {
        self.full_mm <= self.least_mm || self.wide_width_mm <= 0.0
    }
}

/// The local width of the ground around a letter, and the depth wanted there, cell by cell.
///
/// A cell has the greatest width of any place in it, so by up to a cell (0.2 mm, or a thousandth of a large room) depths lean
/// to the deeper side. Widths under the narrow one are told as 0, those over the wide one as the wide one: they make no
/// difference to the depth.
#[derive(Clone, Debug, PartialEq)]
pub struct ReliefMap {
    relief: Relief,
    grid: Grid,
    widths: Vec<f32>,
}

impl ReliefMap {
    /// Lays the wanted depth over a letter's room.
    pub fn of(ground: &Diagram, relief: &Relief) -> ReliefMap {
        let wide = relief.wide_width_mm.max(0.0);
        let room = bounds(ground.room());
        let beyond = wide / 2.0 + CELL_MM;
        let grid = Grid::over(room.inflate(beyond, beyond), CELL_MM, MOST_CELLS);
        let mut map = ReliefMap {
            relief: *relief,
            grid,
            widths: vec![0.0; if relief.is_even() { 0 } else { grid.count() }],
        };
        if !relief.is_even() {
            map.open(ground);
            map.stamp_centre_lines(ground);
        }
        map
    }

    /// What is asked for.
    pub fn relief(&self) -> &Relief {
        &self.relief
    }

    /// The local width at a place, mm, between 0 and the wide width.
    pub fn width_at(&self, place: Point) -> f64 {
        match self.grid.holding(place) {
            Some(cell) if !self.widths.is_empty() => f64::from(self.widths[cell]),
            Some(_) | None => self.relief.wide_width_mm,
        }
    }

    /// The depth wanted at a place, mm below the face.
    pub fn depth_at(&self, place: Point) -> f64 {
        self.relief.depth_at_width(self.width_at(place))
    }

    /// Open ground: what a disc of the wide width covers, also from beyond the room's edge; and near that edge, where no centre
    /// line tells, smaller discs too.
    fn open(&mut self, ground: &Diagram) {
        let mut letter = vec![false; self.grid.count()];
        let rings = || ground.letter().rings().flat_map(|ring| edges(ring));
        self.grid.mark_inside(rings(), &mut letter);
        self.grid.mark_along(rings(), &mut letter);
        let letter = Marked::new(&self.grid, &letter);
        let (narrow, wide) = (self.relief.narrow_width_mm, self.relief.wide_width_mm);
        self.open_to(&letter, wide);
        // A disc that crosses the room's edge and touches the letter has at least half the lane and margin for its radius.
        let to_letter = nearest_to_room(ground);
        let steps = (1.0 / OPEN_STEP) as u32;
        for step in (0..steps).rev() {
            let width = narrow + (wide - narrow) * f64::from(step) / f64::from(steps);
            if width > to_letter {
                self.open_to(&letter, width);
            }
        }
    }

    /// Gives this width at least to what a disc of that diameter covers.
    fn open_to(&mut self, letter: &Marked, width: f64) {
        let slack = HALF_DIAGONAL * self.grid.cell;
        let blocked = letter.within((width / 2.0 - slack).max(0.0));
        let centres: Vec<bool> = blocked.iter().map(|blocked| !blocked).collect();
        let covered = Marked::new(&self.grid, &centres).within(width / 2.0 + slack);
        for (known, covered) in self.widths.iter_mut().zip(covered) {
            if covered {
                *known = known.max(width as f32);
            }
        }
    }

    /// Stamps the largest discs along the ground's centre lines.
    fn stamp_centre_lines(&mut self, ground: &Diagram) {
        let (narrow, wide) = (self.relief.narrow_width_mm, self.relief.wide_width_mm);
        let telling = |clearance: f64| (narrow / 2.0..wide / 2.0).contains(&clearance);
        for edge in ground.ground_axis() {
            let least = edge.least().clearance;
            let most = edge.from.clearance.max(edge.to.clearance);
            if most <= narrow / 2.0 || least >= wide / 2.0 {
                continue;
            }
            for (at, clearance) in places(ground, &edge, self.grid.cell / 2.0) {
                if telling(clearance) {
                    self.stamp(at, clearance);
                }
            }
        }
        // Round counters have no centre line, only a centre.
        for widest in ground.widest(narrow / 2.0) {
            if telling(widest.clearance) {
                self.stamp(widest.at, widest.clearance);
            }
        }
    }

    fn stamp(&mut self, at: Point, clearance: f64) {
        let width = (2.0 * clearance) as f32;
        let radius = clearance + HALF_DIAGONAL * self.grid.cell;
        for row in self.grid.rows_between(at.y - radius, at.y + radius) {
            let up = self.grid.row_y(row) - at.y;
            let half = (radius * radius - up * up).max(0.0).sqrt();
            let columns = self.grid.columns_between(at.x - half, at.x + half);
            let first = row * self.grid.columns;
            for known in &mut self.widths[first + columns.start..first + columns.end] {
                *known = known.max(width);
            }
        }
    }
}

/// Places along an edge of a centre line, no further apart than `step`, each with its distance to the nearer of the edge's two
/// walls. On the chord of a parabola that is a little less than on the parabola itself.
fn places<'a>(
    ground: &'a Diagram,
    edge: &'a AxisEdge,
    step: f64,
) -> impl Iterator<Item = (Point, f64)> + 'a {
    let middle = edge.narrowest.map_or(edge.to.at, |place| place.at);
    let chords = [(edge.from.at, middle), (middle, edge.to.at)];
    chords.into_iter().flat_map(move |(a, b)| {
        let parts = (a.distance(b) / step).ceil().clamp(1.0, MOST_STAMPS) as u32;
        (0..=parts).map(move |part| {
            let at = a.lerp(b, f64::from(part) / f64::from(parts));
            let clearance = edge
                .sites
                .iter()
                .filter_map(|&site| distance_to(ground, site, at))
                .fold(f64::INFINITY, f64::min);
            (at, clearance)
        })
    })
}

/// Distance of a place from a wall's segment or corner.
fn distance_to(ground: &Diagram, site: Site, place: Point) -> Option<f64> {
    let (from, to) = ground.segment(site)?;
    Some(match site.kind {
        SiteKind::Corner => from.distance(place),
        SiteKind::Segment => {
            let along = to - from;
            let part = ((place - from).dot(along) / along.hypot2()).clamp(0.0, 1.0);
            place.distance(from + along * part)
        }
    })
}

/// The least distance from the letter to the room's edge; infinite without a letter.
fn nearest_to_room(ground: &Diagram) -> f64 {
    let between = |edge: &AxisEdge| {
        let walls = edge.sites.map(|site| site.wall);
        walls.contains(&Wall::Letter) && walls.contains(&Wall::Room)
    };
    ground
        .ground_axis()
        .iter()
        .filter(|edge| between(edge))
        .map(|edge| 2.0 * edge.least().clearance)
        .fold(f64::INFINITY, f64::min)
}

fn bounds(ring: &[Point]) -> Rect {
    let first = ring.first().copied().unwrap_or(Point::ORIGIN);
    ring.iter()
        .fold(Rect::from_points(first, first), |found, &corner| {
            found.union_pt(corner)
        })
}

#[cfg(test)]
mod tests {
    use geometry::distance::WallIndex;
    use geometry::region::Region;

    use super::*;

    const RELIEF: Relief = Relief {
        least_mm: 1.0,
        full_mm: 3.0,
        narrow_width_mm: 2.0,
        wide_width_mm: 8.0,
    };

    fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<Point> {
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec()
    }

    fn map(letter: &[Vec<Point>], room: [f64; 4]) -> (Diagram, ReliefMap) {
        let regions: Vec<Region> = letter.iter().map(|ring| Region::from_ring(ring)).collect();
        let letter = geometry::boolean::union_all(&regions);
        let [x0, y0, x1, y1] = room;
        let ground =
            Diagram::build(&letter, &rectangle(x0, y0, x1, y1)).expect("the letter lies inside");
        let map = ReliefMap::of(&ground, &RELIEF);
        (ground, map)
    }

    #[test]
    fn depth_rises_evenly_from_narrow_to_wide() {
        for (width, depth) in [
            (0.0, 1.0),
            (2.0, 1.0),
            (3.5, 1.5),
            (5.0, 2.0),
            (8.0, 3.0),
            (50.0, 3.0),
        ] {
            assert!(
                (RELIEF.depth_at_width(width) - depth).abs() < 1e-12,
                "{width}"
            );
        }
        for depth in [1.0, 1.3, 2.0, 2.9] {
            let width = RELIEF.width_deeper_than(depth).expect("some is deeper");
            assert!((RELIEF.depth_at_width(width) - depth).abs() < 1e-12);
        }
        assert_eq!(RELIEF.width_deeper_than(0.9), Some(0.0));
        assert_eq!(RELIEF.width_deeper_than(3.0), None);
    }

    #[test]
    fn a_slot_is_as_wide_as_it_is() {
        let bars = [
            rectangle(5.0, 5.0, 10.0, 25.0),
            rectangle(14.0, 5.0, 19.0, 25.0),
        ];
        let (_, map) = map(&bars, [0.0, 0.0, 24.0, 30.0]);
        for y in [9.0, 15.0, 21.0] {
            for x in [10.2, 12.0, 13.8] {
                assert!(
                    (map.width_at(Point::new(x, y)) - 4.0).abs() < 1e-3,
                    "{x}, {y}"
                );
            }
        }
        let depth = map.depth_at(Point::new(12.0, 15.0));
        assert!((depth - (1.0 + 2.0 / 3.0)).abs() < 1e-3, "{depth}");
    }

    #[test]
    fn the_edge_of_the_room_is_no_wall() {
        // Half a millimetre from the letter to the room's edge.
        let (_, map) = map(&[rectangle(0.5, 0.5, 9.5, 9.5)], [0.0, 0.0, 10.0, 10.0]);
        for at in [(0.25, 5.0), (9.75, 0.25), (5.0, 9.8)] {
            assert_eq!(map.width_at(Point::new(at.0, at.1)), 8.0);
        }
    }

    #[test]
    fn a_round_counter_is_as_wide_as_its_circle() {
        let circle: Vec<Point> = (0..180)
            .map(|part| {
                let (sin, cos) = f64::to_radians(f64::from(part) * 2.0).sin_cos();
                Point::new(10.0 + 2.5 * cos, 10.0 + 2.5 * sin)
            })
            .collect();
        let letter = geometry::boolean::difference(
            &Region::from_ring(&rectangle(5.0, 5.0, 15.0, 15.0)),
            &Region::from_ring(&circle),
        );
        let ground =
            Diagram::build(&letter, &rectangle(0.0, 0.0, 20.0, 20.0)).expect("it lies inside");
        let map = ReliefMap::of(&ground, &RELIEF);
        for at in [(10.0, 10.0), (12.0, 10.0), (9.0, 8.5)] {
            let width = map.width_at(Point::new(at.0, at.1));
            assert!((width - 5.0).abs() < 0.01, "{width}");
        }
    }

    /// Never less than the largest disc found by trying every centre, and hardly more than what one finds within a cell.
    #[test]
    fn widths_are_those_of_the_largest_disc() {
        let letter = [
            rectangle(6.0, 6.0, 9.0, 26.0),
            rectangle(6.0, 6.0, 20.0, 9.0),
            rectangle(6.0, 14.0, 17.0, 16.0),
            rectangle(6.0, 23.5, 20.0, 26.0),
            vec![
                Point::new(18.0, 12.0),
                Point::new(22.0, 16.0),
                Point::new(19.0, 19.0),
            ],
        ];
        let (ground, map) = map(&letter, [2.0, 1.0, 25.0, 31.0]);
        let walls = WallIndex::new(ground.letter().rings());
        let inside = |at: Point| ground.letter().contains(at);
        let mut centres = Vec::new();
        for i in -40..=310 {
            for j in -40..=360 {
                let at = Point::new(f64::from(i) * 0.1, f64::from(j) * 0.1);
                let clearance = if inside(at) {
                    0.0
                } else {
                    walls.nearest_within(at, 4.0)
                };
                centres.push((at, clearance));
            }
        }
        let largest = |place: Point, near: f64| {
            let held = centres
                .iter()
                .filter(|(at, clearance)| at.distance(place) <= clearance + near)
                .map(|(_, clearance)| 2.0 * clearance);
            held.fold(0.0, f64::max)
        };
        let mut seen = 0;
        for i in 0..23 {
            for j in 0..30 {
                let place = Point::new(2.5 + f64::from(i), 1.5 + f64::from(j));
                if inside(place) {
                    continue;
                }
                let told = map.width_at(place);
                let (least, most) = (largest(place, 0.0), largest(place, 0.45));
                if least >= RELIEF.narrow_width_mm + 0.2 {
                    assert!(told >= least - 0.15, "{told}, not {least} at {place:?}");
                    seen += 1;
                }
                assert!(
                    told <= most.max(RELIEF.narrow_width_mm) + 0.4,
                    "{told}, not {most} at {place:?}"
                );
            }
        }
        assert!(seen > 200, "{seen} places");
    }
}
