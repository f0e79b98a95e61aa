//! The plank's surface in light and shadow, brought up to date where it changes.

use egui::{Color32, ColorImage, TextureHandle, TextureOptions, pos2};
use kurbo::Rect;

use cam_core::proof::course::{Changed, Course, Surface};

use super::super::super::canvas::Sheet;
use super::super::super::theme::Palette;

/// Where the light comes from: across, along and above; from the upper left, as on maps.
const LIGHT: [f32; 3] = [-0.5, 0.6, 0.9];

/// How dark the darkest slope and how bright the brightest is, as a part of level wood.
const SHADES: [f32; 2] = [0.35, 1.35];

/// The depth from which the wood gets no darker, mm.
const DARKEST_MM: f32 = 6.0;

/// How dark the wood is just under the face and at that depth: 0 is wood, 1 is the colour of its grain.
const DEPTHS: [f32; 2] = [0.2, 0.75];

/// Cells no lower than this are not cut, mm.
const FACE_MM: f32 = -1e-4;

/// Cells within this of the plank's underside are cut through, mm.
const THROUGH_MM: f32 = 0.01;

/// A picture of the plank as it stands at a moment.
pub struct Picture {
    surface: Surface,
    texture: Option<(Palette, TextureHandle)>,
}

impl Picture {
    /// Of the bare plank.
    pub fn of(course: &Course) -> Picture {
        Picture {
            surface: course.bare(),
            texture: None,
        }
    }

    /// Brings the plank to a moment and paints it.
    pub fn paint(&mut self, view: &Sheet, course: &Course, at_s: f64, palette: &Palette) {
        let changed = course.bring(&mut self.surface, at_s);
        let same = |known: &Palette| known == palette;
        match &mut self.texture {
            Some((known, texture)) if same(known) => {
                if let Some(changed) = changed {
                    let cells = with_border(&changed, course);
                    let (place, image) = part(&self.surface, course, &cells, palette);
                    texture.set_partial(place, image, TextureOptions::LINEAR);
                }
            }
            Some(_) | None => {
                let everything = Changed {
                    rows: 0..course.grid.rows,
                    columns: 0..course.grid.columns,
                };
                let (_, image) = part(&self.surface, course, &everything, palette);
                let texture =
                    view.painter
                        .ctx()
                        .load_texture("plank", image, TextureOptions::LINEAR);
                self.texture = Some((*palette, texture));
            }
        }
        if let Some((_, texture)) = &self.texture {
            let grid = &course.grid;
            let size = kurbo::Size::new(
                grid.columns as f64 * grid.cell,
                grid.rows as f64 * grid.cell,
            );
            let whole = view.rect_at(Rect::from_origin_size(grid.origin, size));
            let all = egui::Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            view.painter.image(texture.id(), whole, all, Color32::WHITE);
        }
    }
}

/// Slopes are told by neighbours, so these change as well.
fn with_border(changed: &Changed, course: &Course) -> Changed {
    let wider = |range: &std::ops::Range<usize>, most: usize| {
        range.start.saturating_sub(1)..(range.end + 1).min(most)
    };
    Changed {
        rows: wider(&changed.rows, course.grid.rows),
        columns: wider(&changed.columns, course.grid.columns),
    }
}

/// A part of the picture, and its place in it, from the upper left.
fn part(
    surface: &Surface,
    course: &Course,
    cells: &Changed,
    palette: &Palette,
) -> ([usize; 2], ColorImage) {
    let shades = Shades::of(course, palette);
    let mut pixels = Vec::with_capacity(cells.rows.len() * cells.columns.len());
    for row in cells.rows.clone().rev() {
        for column in cells.columns.clone() {
            pixels.push(shades.at(surface, course, row, column));
        }
    }
    let size = [cells.columns.len(), cells.rows.len()];
    let place = [cells.columns.start, course.grid.rows - cells.rows.end];
    (place, ColorImage::new(size, pixels))
}

/// What colours are made from.
struct Shades {
    wood: [f32; 3],
    grain: [f32; 3],
    through: Color32,
    bottom_mm: f32,
    per_mm: f32,
    light: [f32; 3],
}

impl Shades {
    fn of(course: &Course, palette: &Palette) -> Shades {
        let length = LIGHT.iter().map(|part| part * part).sum::<f32>().sqrt();
        Shades {
            wood: floats(palette.wood),
            grain: floats(palette.grain),
            through: palette.desk,
            bottom_mm: THROUGH_MM - course.thickness_mm as f32,
            per_mm: 0.5 / course.grid.cell as f32,
            light: LIGHT.map(|part| part / length),
        }
    }

    fn at(&self, surface: &Surface, course: &Course, row: usize, column: usize) -> Color32 {
        let (rows, columns) = (course.grid.rows, course.grid.columns);
        let height = |row: usize, column: usize| surface.heights[row * columns + column];
        let here = height(row, column);
        if here <= self.bottom_mm {
            return self.through;
        }
        let across = (height(row, (column + 1).min(columns - 1))
            - height(row, column.saturating_sub(1)))
            * self.per_mm;
        let along = (height((row + 1).min(rows - 1), column)
            - height(row.saturating_sub(1), column))
            * self.per_mm;
        let [lx, ly, lz] = self.light;
        let steep = (across * across + along * along + 1.0).sqrt();
        let bright = (lz - across * lx - along * ly) / steep / lz;
        let bright = bright.clamp(SHADES[0], SHADES[1]);
        let dark = if here >= FACE_MM {
            0.0
        } else {
            DEPTHS[0] + (DEPTHS[1] - DEPTHS[0]) * (-here / DARKEST_MM).min(1.0)
        };
        let [r, g, b] = std::array::from_fn(|at| {
            let colour = self.wood[at] + (self.grain[at] - self.wood[at]) * dark;
            (colour * bright).clamp(0.0, 255.0) as u8
        });
        Color32::from_rgb(r, g, b)
    }
}

fn floats(colour: Color32) -> [f32; 3] {
    [colour.r(), colour.g(), colour.b()].map(f32::from)
}
