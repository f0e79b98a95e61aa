//! The depth asked for by the width of the ground, as far as it is sure.

use geometry::cells::{Grid, HALF_DIAGONAL, Marked};
use kurbo::{Point, Rect, Vec2};

use super::mark_letter;
use crate::job_file::JobRelief;
use crate::proof::copies::Shape;

/// Side of a cell on which widths are told, mm.
const CELL_MM: f64 = 0.25;

/// The most cells along one side.
const MOST_CELLS: f64 = 1_000.0;

/// How many widths between narrow and open are told apart over ground: depths are asked for a sixth of the rise too shallow at the
/// most.
const STEPS: u32 = 6;

/// How near to the largest disc against a wall the one is that is found, by its width, mm.
const WIDTH_MM: f64 = 0.01;

/// How much nearer another wall may be than the one touched, mm: rounding of the outline.
const TOUCH_ROUNDING_MM: f64 = 0.0005;

/// The depth asked for: by the relief of the job, or the same everywhere.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    /// Depth in open ground, mm.
    full: f64,
    by_width: Option<JobRelief>,
}

impl Wanted {
    /// `full` is the sort's own relief; what the job says by width never asks for more.
    pub fn new(full: f64, by_width: Option<JobRelief>) -> Wanted {
        let makes_sense = |relief: &JobRelief| {
            let widths =
                0.0 <= relief.narrow_width_mm && relief.narrow_width_mm < relief.wide_width_mm;
            widths && relief.wide_width_mm.is_finite() && relief.least_mm.is_finite()
        };
        Wanted {
            full,
            by_width: by_width.filter(makes_sense),
        }
    }

    /// Depth asked for where nothing is known of the width, mm.
    pub fn least(&self) -> f64 {
        self.by_width
            .map_or(self.full, |relief| relief.least_mm.min(self.full))
    }

    /// Widths from the widest down, each with the depth asked for there.
    fn steps(&self) -> impl Iterator<Item = (f64, f64)> + use<> {
        let Wanted { full, by_width } = *self;
        by_width.into_iter().flat_map(move |relief| {
            (1..=STEPS).rev().map(move |step| {
                let part = f64::from(step) / f64::from(STEPS);
                let width =
                    relief.narrow_width_mm + (relief.wide_width_mm - relief.narrow_width_mm) * part;
                let depth = relief.least_mm + (relief.full_mm - relief.least_mm) * part;
                (width, depth.min(full))
            })
        })
    }

    /// The depth surely asked for at a place of the wall, by the largest disc that can stand against it.
    pub fn at_wall(&self, shape: &Shape, at: Point, to_ground: Vec2) -> f64 {
        let Some(relief) = self.by_width else {
            return self.full;
        };
        let fits = |width: f64| {
            let radius = width / 2.0;
            let walls = &shape.walls;
            !walls.comes_within(at + to_ground * radius, radius - TOUCH_ROUNDING_MM)
        };
        let (mut fitting, mut beyond) = (relief.narrow_width_mm, relief.wide_width_mm);
        if fits(beyond) {
            return relief.full_mm.min(self.full);
        }
        // A disc that stands against a wall holds all smaller ones that do, so halving finds the largest.
        while beyond - fitting > WIDTH_MM {
            let middle = f64::midpoint(fitting, beyond);
            if fits(middle) {
                fitting = middle;
            } else {
                beyond = middle;
            }
        }
        let part =
            (fitting - relief.narrow_width_mm) / (relief.wide_width_mm - relief.narrow_width_mm);
        let depth = relief.least_mm + (relief.full_mm - relief.least_mm) * part;
        depth.min(self.full)
    }

    /// The depth surely asked for in each cell of a grid: what is nearer to a wall than a cell or two is asked for less.
    pub fn over(&self, grid: &Grid, room: Rect, shape: Option<&Shape>) -> Vec<f32> {
        let (Some(relief), Some(shape)) = (self.by_width, shape) else {
            return vec![self.full as f32; grid.count()];
        };
        let beyond = relief.wide_width_mm / 2.0 + CELL_MM;
        let coarse = Grid::over(room.inflate(beyond, beyond), CELL_MM, MOST_CELLS);
        let mut letter = vec![false; coarse.count()];
        mark_letter(&coarse, &shape.letter, &mut letter);
        let letter = Marked::new(&coarse, &letter);
        let slack = 2.0 * HALF_DIAGONAL * coarse.cell;
        let mut depths = vec![self.least() as f32; coarse.count()];
        for (width, depth) in self.steps() {
            let blocked = letter.within(width / 2.0 + slack / 2.0);
            let centres: Vec<bool> = blocked.iter().map(|blocked| !blocked).collect();
            let covered = Marked::new(&coarse, &centres).within(width / 2.0 - slack);
            for (known, covered) in depths.iter_mut().zip(covered) {
                if covered {
                    *known = known.max(depth as f32);
                }
            }
        }
        let least = self.least() as f32;
        let columns: Vec<Option<usize>> = (0..grid.columns)
            .map(|column| coarse.holding(Point::new(grid.centre(column).x, coarse.row_y(0))))
            .collect();
        let mut over = Vec::with_capacity(grid.count());
        for row in 0..grid.rows {
            let first = coarse.holding(Point::new(coarse.centre(0).x, grid.row_y(row)));
            over.extend(columns.iter().map(|column| match (first, column) {
                (Some(first), Some(column)) => depths[first + column],
                _ => least,
            }));
        }
        over
    }
}
