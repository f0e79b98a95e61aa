//! A finished block in light and shadow, seen from above, turned and tilted: drawn on the processor, line of sight by line of sight.
//!
//! The picture is an orthographic one. Heights come from the simulated cut of the programs' texts, so what is seen is what the proof
//! sees. Every column of the picture looks along one line over the block, from the near side to the far; what stands higher hides what lies
//! behind it. Shadows fall where something between a place and the light is higher than the light's way.

use std::f32::consts::FRAC_PI_2;
use std::sync::Arc;

use geometry::cells::Grid;
use kurbo::Rect;

use cam_core::make::Job;
use cam_core::progress::Progress;
use cam_core::proof::{HeightMap, height_map};

use super::read_back::{job_file, texts};

/// Side of the cells that heights are reckoned in, mm: a quarter of what a hair line of a large letter is thick.
const CELL_MM: f64 = 0.08;

/// Where the light comes from: across, along and above; from the upper left, as on maps.
const LIGHT: [f32; 3] = [-0.55, 0.5, 0.75];

/// How bright a place in the shadow is, and one that the light only grazes; 1 is level wood in the light.
const IN_SHADOW: f32 = 0.62;
const GRAZED: f32 = 0.55;
/// How bright the brightest slope is.
const BRIGHTEST: f32 = 1.28;

/// The depth from which wood gets no darker, mm, and how far it is then from wood to grain.
const DARKEST_MM: f32 = 6.0;
const DARKEST: f32 = 0.65;

/// Wood no lower than this is the printing face, mm.
const FACE_MM: f32 = -0.02;

/// The part of the picture that the block fills.
const FILLED: f32 = 0.88;

/// How far apart two looks along a line of sight may lie, in dots of the picture.
const STEP_DOTS: f32 = 0.5;

/// The finished surface of one plank, and where its blocks lie.
#[derive(Clone, Debug)]
pub struct Finished {
    /// The plank, by its place.
    pub plank: usize,
    /// Its thickness, mm.
    pub thickness_mm: f64,
    map: Arc<HeightMap>,
}

/// Reckons the finished surface of a plank, given by its place.
///
/// # Errors
/// A sentence.
pub fn finished(job: &Job, plank: usize, progress: &Progress) -> Result<Finished, String> {
    let file = job_file(job)?;
    let Some(of) = file.planks.get(plank) else {
        return Err("There is no such plank any more.".to_owned());
    };
    let map = height_map(&file, &texts(job), &of.id, CELL_MM, progress)
        .map_err(|error| error.to_string())?;
    Ok(Finished {
        plank,
        thickness_mm: of.height_to_paper_mm,
        map: Arc::new(map),
    })
}

/// From where a block is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// How far it is turned, radians; counter-clockwise.
    pub turn: f32,
    /// How far it is tilted, radians: 0 is from above.
    pub tilt: f32,
    /// How much larger than the whole of it is shown; at least 1.
    pub near: f32,
}

impl Default for Look {
    fn default() -> Look {
        Look {
            turn: 0.35,
            tilt: 0.75,
            near: 1.0,
        }
    }
}

/// The most that a block can be tilted: its side is seen, and still something of its face.
pub const MOST_TILT: f32 = FRAC_PI_2 * 0.9;
/// The most that it can be looked at from near.
pub const NEAREST: f32 = 8.0;

/// The colours of a picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wood {
    /// Wood.
    pub wood: [u8; 3],
    /// Its grain, and the depths.
    pub grain: [u8; 3],
    /// The printing face.
    pub face: [u8; 3],
    /// What lies around.
    pub ground: [u8; 3],
}

/// A block as it stands, lit.
#[derive(Clone, Debug)]
pub struct Block {
    grid: Grid,
    heights: Vec<f32>,
    colours: Vec<[f32; 3]>,
    side: [f32; 3],
    ground: [u8; 3],
    thickness: f32,
}

/// A picture: its dots row by row from the upper left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dots {
    /// Dots across.
    pub width: usize,
    /// Dots along.
    pub height: usize,
    /// Their colours.
    pub dots: Vec<[u8; 3]>,
}

impl Finished {
    /// One block of the plank, cut out and lit; `rect` is where it lies.
    pub fn block(&self, rect: Rect, wood: &Wood) -> Block {
        let whole = &self.map.grid;
        // Half a cell in, so that the lane beside the block is not part of it.
        let cell = whole.cell;
        let columns = cells(
            rect.x0 - whole.origin.x,
            rect.x1 - whole.origin.x,
            cell,
            whole.columns,
        );
        let rows = cells(
            rect.y0 - whole.origin.y,
            rect.y1 - whole.origin.y,
            cell,
            whole.rows,
        );
        let mut heights = Vec::with_capacity(columns.len() * rows.len());
        for row in rows.clone() {
            for column in columns.clone() {
                heights.push(self.map.heights[row * whole.columns + column]);
            }
        }
        let grid = Grid {
            origin: kurbo::Point::ZERO,
            cell,
            columns: columns.len(),
            rows: rows.len(),
        };
        Block::lit(grid, heights, self.thickness_mm as f32, wood)
    }
}

/// The cells whose middles lie between two places, of so many in all.
fn cells(from: f64, to: f64, cell: f64, most: usize) -> std::ops::Range<usize> {
    let first = ((from / cell - 0.5).ceil().max(0.0) as usize).min(most);
    let last = ((to / cell - 0.5).floor() + 1.0).max(0.0) as usize;
    first..last.clamp(first, most)
}

impl Block {
    /// A block with its cells' heights above the face, mm, row by row from the foot.
    pub fn lit(grid: Grid, heights: Vec<f32>, thickness: f32, wood: &Wood) -> Block {
        let length = LIGHT.iter().map(|part| part * part).sum::<f32>().sqrt();
        let light = LIGHT.map(|part| part / length);
        let shadow = shadows(&grid, &heights, light);
        let [plain, grain, face] = [wood.wood, wood.grain, wood.face].map(|one| one.map(f32::from));
        let at = |row: usize, column: usize| heights[row * grid.columns + column];
        let per_mm = 0.5 / grid.cell as f32;
        let mut colours = Vec::with_capacity(heights.len());
        for row in 0..grid.rows {
            for column in 0..grid.columns {
                let here = at(row, column);
                let east = at(row, (column + 1).min(grid.columns - 1));
                let west = at(row, column.saturating_sub(1));
                let north = at((row + 1).min(grid.rows - 1), column);
                let south = at(row.saturating_sub(1), column);
                let (across, along) = ((east - west) * per_mm, (north - south) * per_mm);
                let steep = (across * across + along * along + 1.0).sqrt();
                let lit = (light[2] - across * light[0] - along * light[1]) / steep / light[2];
                let lit = lit.clamp(GRAZED, BRIGHTEST);
                let in_shadow = shadow[row * grid.columns + column] > here + 0.01;
                let bright = if in_shadow {
                    lit.min(1.0) * IN_SHADOW
                } else {
                    lit
                };
                let (base, dark) = if here >= FACE_MM {
                    (face, 0.0)
                } else {
                    (plain, DARKEST * (-here / DARKEST_MM).min(1.0))
                };
                colours.push(std::array::from_fn(|part| {
                    (base[part] + (grain[part] - base[part]) * dark) * bright
                }));
            }
        }
        let side = std::array::from_fn(|part| (2.0 * plain[part] + grain[part]) / 3.0);
        Block {
            grid,
            heights,
            colours,
            side,
            ground: wood.ground,
            thickness,
        }
    }

    /// The block as it is seen, in a picture of so many dots.
    pub fn seen(&self, look: &Look, width: usize, height: usize) -> Dots {
        let mut dots = vec![self.ground; width * height];
        if self.heights.is_empty() || width == 0 || height == 0 {
            return Dots {
                width,
                height,
                dots,
            };
        }
        let eye = Eye::of(self, look, width, height);
        for column in 0..width {
            self.look_along(&eye, column, &mut dots);
        }
        Dots {
            width,
            height,
            dots,
        }
    }

    /// Fills one column of the picture, from the near side to the far.
    fn look_along(&self, eye: &Eye, column: usize, dots: &mut [[u8; 3]]) {
        let u = (column as f32 + 0.5 - eye.middle[0]) / eye.scale;
        let cell = self.grid.cell as f32;
        let (columns, rows) = (self.grid.columns, self.grid.rows);
        // What is filled already, in dots from the lower edge.
        let mut filled = 0.0_f32;
        let mut inside_before = false;
        for step in 0..eye.steps {
            let v = eye.nearest + step as f32 * eye.step;
            let (x, y) = (
                u * eye.cos - v * eye.sin + eye.half[0],
                u * eye.sin + v * eye.cos + eye.half[1],
            );
            let (across, along) = ((x / cell).floor(), (y / cell).floor());
            let inside =
                across >= 0.0 && along >= 0.0 && across < columns as f32 && along < rows as f32;
            if !inside {
                inside_before = false;
                continue;
            }
            let place = along as usize * columns + across as usize;
            let level = |z: f32| {
                (v * eye.flat + (z + self.thickness / 2.0) * eye.upright) * eye.scale
                    + eye.middle[1]
            };
            if !inside_before {
                // The side of the block that is turned to the eye.
                let foot = level(-self.thickness);
                filled = filled.max(foot);
                let top = level(self.heights[place]);
                self.fill(eye, column, &mut filled, top, eye.side, dots);
                inside_before = true;
            }
            let top = level(self.heights[place]);
            // What rises by more than the way over the block does is a wall.
            let wall = top - eye.step * eye.flat * eye.scale;
            if wall > filled + 1.0 {
                self.fill(eye, column, &mut filled, wall, eye.side, dots);
            }
            self.fill(eye, column, &mut filled, top, self.colours[place], dots);
        }
    }

    /// Fills the dots of a column between what is filled and `top`.
    fn fill(
        &self,
        eye: &Eye,
        column: usize,
        filled: &mut f32,
        top: f32,
        colour: [f32; 3],
        dots: &mut [[u8; 3]],
    ) {
        if top <= *filled {
            return;
        }
        let from = filled.round().clamp(0.0, eye.size[1] as f32) as usize;
        let to = top.round().clamp(0.0, eye.size[1] as f32) as usize;
        let colour = colour.map(|part| part.clamp(0.0, 255.0) as u8);
        for row in from..to {
            dots[(eye.size[1] - 1 - row) * eye.size[0] + column] = colour;
        }
        *filled = top;
    }
}

/// How the block lies before the eye.
struct Eye {
    size: [usize; 2],
    middle: [f32; 2],
    /// Dots to a millimetre.
    scale: f32,
    cos: f32,
    sin: f32,
    /// How much of a way over the block, and how much of a height, is seen upward.
    flat: f32,
    upright: f32,
    half: [f32; 2],
    nearest: f32,
    step: f32,
    steps: usize,
    /// Walls that are turned to the eye, as the light falls on them.
    side: [f32; 3],
}

impl Eye {
    fn of(block: &Block, look: &Look, width: usize, height: usize) -> Eye {
        let cell = block.grid.cell as f32;
        let half = [
            block.grid.columns as f32 * cell / 2.0,
            block.grid.rows as f32 * cell / 2.0,
        ];
        let (sin, cos) = look.turn.sin_cos();
        let (upright, flat) = look.tilt.clamp(0.0, MOST_TILT).sin_cos();
        // The box around the turned block.
        let across = half[0] * cos.abs() + half[1] * sin.abs();
        let along = half[0] * sin.abs() + half[1] * cos.abs();
        let up = along * flat + block.thickness / 2.0 * upright;
        let fits = (width as f32 / across).min(height as f32 / up) / 2.0;
        let scale = fits * FILLED * look.near.clamp(1.0, NEAREST);
        let [x, y, z] = LIGHT;
        let lit = (x * sin - y * cos) / (x * x + y * y + z * z).sqrt();
        let bright = GRAZED + (1.0 - GRAZED) * lit.max(0.0);
        let step = (STEP_DOTS / scale).max(cell / 8.0);
        Eye {
            size: [width, height],
            middle: [width as f32 / 2.0, height as f32 / 2.0],
            scale,
            cos,
            sin,
            flat,
            upright,
            half,
            nearest: -along,
            step,
            steps: (2.0 * along / step).ceil() as usize + 1,
            side: block.side.map(|part| part * bright),
        }
    }
}

/// For each cell, the height below which it lies in the shadow of what stands toward the light.
fn shadows(grid: &Grid, heights: &[f32], light: [f32; 3]) -> Vec<f32> {
    let (columns, rows) = (grid.columns as isize, grid.rows as isize);
    let mut shadow = vec![f32::MIN; heights.len()];
    // One step toward the light goes a whole cell along its larger part.
    let large = light[0].abs().max(light[1].abs()).max(1e-6);
    let (across, along) = (light[0] / large, light[1] / large);
    let falls = light[2] / large * grid.cell as f32;
    let reach = |row: isize, column: isize, shadow: &[f32]| {
        let inside = row >= 0 && row < rows && column >= 0 && column < columns;
        if inside {
            let place = (row * columns + column) as usize;
            heights[place].max(shadow[place]) - falls
        } else {
            f32::MIN
        }
    };
    // From the side of the light on, so that what a cell hands on is known.
    let order = |most: isize, from_end: bool| -> Vec<isize> {
        if from_end {
            (0..most).rev().collect()
        } else {
            (0..most).collect()
        }
    };
    let by_rows = along.abs() >= across.abs();
    let (outer, inner) = if by_rows {
        (order(rows, along > 0.0), order(columns, across > 0.0))
    } else {
        (order(columns, across > 0.0), order(rows, along > 0.0))
    };
    for &one in &outer {
        for &other in &inner {
            let (row, column) = if by_rows { (one, other) } else { (other, one) };
            // Between the two cells that the way toward the light passes.
            let (x, y) = (column as f32 + across, row as f32 + along);
            let (low_x, low_y) = (x.floor(), y.floor());
            let share = if by_rows { x - low_x } else { y - low_y };
            let (first, second) = if by_rows {
                ((y.round(), low_x), (y.round(), low_x + 1.0))
            } else {
                ((low_y, x.round()), (low_y + 1.0, x.round()))
            };
            let a = reach(first.0 as isize, first.1 as isize, &shadow);
            let b = reach(second.0 as isize, second.1 as isize, &shadow);
            let mixed = if a == f32::MIN || b == f32::MIN {
                a.max(b)
            } else {
                a * (1.0 - share) + b * share
            };
            shadow[(row * columns + column) as usize] = mixed;
        }
    }
    shadow
}

#[cfg(test)]
mod tests {
    use super::*;

    const WOOD: Wood = Wood {
        wood: [200, 160, 110],
        grain: [120, 90, 50],
        face: [30, 25, 20],
        ground: [255, 0, 255],
    };

    /// A block of 20 by 30 mm with a square face of 6 mm at its middle, 3 mm high.
    fn block() -> Block {
        let (columns, rows) = (200, 300);
        let mut heights = vec![-3.0_f32; columns * rows];
        for row in 120..180 {
            for column in 70..130 {
                heights[row * columns + column] = 0.0;
            }
        }
        let grid = Grid {
            origin: kurbo::Point::ZERO,
            cell: 0.1,
            columns,
            rows,
        };
        Block::lit(grid, heights, 23.3, &WOOD)
    }

    fn of_face(dots: &Dots) -> usize {
        dots.dots
            .iter()
            .filter(|dot| dot[0] < 45 && dot[1] < 40)
            .count()
    }

    fn of_ground(dots: &Dots) -> usize {
        dots.dots.iter().filter(|dot| **dot == WOOD.ground).count()
    }

    #[test]
    fn from_above_areas_are_true() {
        let look = Look {
            turn: 0.0,
            tilt: 0.0,
            near: 1.0,
        };
        let seen = block().seen(&look, 400, 400);
        // 0.88 of 400 dots for 30 mm.
        let per_mm = 0.88 * 400.0 / 30.0;
        let face = 6.0 * 6.0 * per_mm * per_mm;
        assert!(
            (of_face(&seen) as f64 - face).abs() < 0.02 * face,
            "{} {face}",
            of_face(&seen)
        );
        let whole = 20.0 * 30.0 * per_mm * per_mm;
        let shown = (400 * 400 - of_ground(&seen)) as f64;
        assert!((shown - whole).abs() < 0.02 * whole, "{shown} {whole}");
        // Turning by a quarter changes nothing but the sides.
        let turned = block().seen(
            &Look {
                turn: FRAC_PI_2,
                ..look
            },
            400,
            400,
        );
        assert!((of_face(&turned) as f64 - face).abs() < 0.03 * face);
    }

    #[test]
    fn tilted_a_face_is_foreshortened_and_the_side_of_the_block_comes_into_sight() {
        let at = |tilt| {
            let look = Look {
                turn: 0.0,
                tilt,
                near: 1.0,
            };
            let block = block();
            let eye = Eye::of(&block, &look, 400, 400);
            (block.seen(&look, 400, 400), f64::from(eye.scale))
        };
        let (seen, scale) = at(0.8);
        let face = 36.0 * scale * scale * 0.8_f64.cos();
        assert!((of_face(&seen) as f64 - face).abs() < 0.05 * face);
        // All of it: the top foreshortened, and the near side.
        let whole = (20.0 * 30.0 * 0.8_f64.cos() + 20.0 * 20.3 * 0.8_f64.sin()) * scale * scale;
        let shown = (400 * 400 - of_ground(&seen)) as f64;
        assert!((shown - whole).abs() < 0.05 * whole, "{shown} {whole}");
    }

    #[test]
    fn a_shadow_falls_away_from_the_light_and_is_as_long_as_the_light_is_low() {
        let block = block();
        let dark = |row: usize, column: usize| {
            let [r, _, _] = block.colours[row * 200 + column];
            let [open, _, _] = block.colours[10 * 200 + 190];
            r < open * 0.8
        };
        // The light comes from the left and from above, so the shadow lies to the lower right.
        assert!(dark(130, 140) && dark(110, 120));
        assert!(!dark(170, 50) && !dark(200, 100));
        // 3 mm high, it reaches 3 × 0.55 / 0.75 = 2.2 mm across: 22 cells.
        let row = 125;
        let long = (130..200).take_while(|column| dark(row, *column)).count();
        assert!((20..=24).contains(&long), "{long}");
    }

    #[test]
    fn hostile_sizes_give_a_picture_of_that_size() {
        let look = Look::default();
        for (width, height) in [(0, 0), (1, 1), (3, 200), (200, 3)] {
            let seen = block().seen(&look, width, height);
            assert_eq!(seen.dots.len(), width * height);
        }
        let grid = Grid {
            origin: kurbo::Point::ZERO,
            cell: 0.1,
            columns: 0,
            rows: 0,
        };
        let empty = Block::lit(grid, Vec::new(), 20.0, &WOOD);
        assert_eq!(of_ground(&empty.seen(&look, 5, 5)), 25);
    }
}
