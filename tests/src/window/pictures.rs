//! Pictures of a window without a screen: its triangles filled on the processor, so that they come out the same everywhere.
//!
//! Colours are mixed as the window's own painter does: premultiplied, in the colours' own scale.

use std::collections::BTreeMap;

use egui::epaint::{ClippedPrimitive, ImageData, ImageDelta, Mesh, Primitive, Vertex};
use egui::{Color32, Pos2, Rect, TextureId, TexturesDelta};
use egui_kittest::TestRenderer;
use image::RgbaImage;

/// One texture, row by row.
struct Texture {
    width: usize,
    height: usize,
    dots: Vec<Color32>,
}

/// Fills triangles.
#[derive(Default)]
pub struct Painter {
    textures: BTreeMap<TextureId, Texture>,
}

impl TestRenderer for Painter {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        for (id, changes) in delta.set.drain() {
            for change in &changes {
                self.change(id, change);
            }
        }
        for id in delta.free.drain() {
            self.textures.remove(&id);
        }
    }

    fn render(
        &mut self,
        ctx: &egui::Context,
        output: &egui::FullOutput,
    ) -> Result<RgbaImage, String> {
        let scale = output.pixels_per_point;
        let size = ctx.content_rect().size() * scale;
        let (width, height) = (size.x.round() as u32, size.y.round() as u32);
        let mut dots = vec![[0.0_f32; 4]; (width * height) as usize];
        for ClippedPrimitive {
            clip_rect,
            primitive,
        } in ctx.tessellate(output.shapes.clone(), scale)
        {
            let Primitive::Mesh(mesh) = primitive else {
                return Err("what only a graphics card can draw cannot be pictured".to_owned());
            };
            let clip = clip_rect * scale;
            let page = Page {
                width: width as usize,
                clip: clip.intersect(Rect::from_min_size(Pos2::ZERO, size)),
                scale,
            };
            self.fill(&mesh, &page, &mut dots);
        }
        let bytes = dots
            .iter()
            .flat_map(|dot| dot.map(|part| part.round().clamp(0.0, 255.0) as u8));
        RgbaImage::from_raw(width, height, bytes.collect())
            .ok_or_else(|| "the picture has no size".to_owned())
    }
}

/// What is filled.
struct Page {
    width: usize,
    clip: Rect,
    scale: f32,
}

impl Painter {
    /// Takes a texture, or a part of one.
    fn change(&mut self, id: TextureId, change: &ImageDelta) {
        let ImageData::Color(image) = &change.image;
        let [width, height] = image.size;
        let Some([left, top]) = change.pos else {
            let dots = image.pixels.clone();
            let texture = Texture {
                width,
                height,
                dots,
            };
            self.textures.insert(id, texture);
            return;
        };
        if let Some(texture) = self.textures.get_mut(&id) {
            for (row, dots) in image.pixels.chunks_exact(width).enumerate() {
                let from = (top + row) * texture.width + left;
                texture.dots[from..from + width].copy_from_slice(dots);
            }
        }
    }

    fn fill(&self, mesh: &Mesh, page: &Page, dots: &mut [[f32; 4]]) {
        let Some(texture) = self.textures.get(&mesh.texture_id) else {
            return;
        };
        for corners in mesh.indices.chunks_exact(3) {
            let corner = |place: usize| {
                let mut corner = mesh.vertices[corners[place] as usize];
                corner.pos = (corner.pos.to_vec2() * page.scale).to_pos2();
                corner
            };
            triangle([corner(0), corner(1), corner(2)], texture, page, dots);
        }
    }
}

/// Twice the area of a triangle, counter-clockwise positive.
fn twice(a: Pos2, b: Pos2, c: Pos2) -> f32 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

fn triangle(mut corners: [Vertex; 3], texture: &Texture, page: &Page, dots: &mut [[f32; 4]]) {
    let mut area = twice(corners[0].pos, corners[1].pos, corners[2].pos);
    if area < 0.0 {
        corners.swap(1, 2);
        area = -area;
    }
    if area < 1e-9 {
        return;
    }
    let [a, b, c] = corners.map(|corner| corner.pos);
    let low = a.min(b).min(c);
    let high = a.max(b).max(c);
    let columns = range(low.x, high.x, page.clip.left(), page.clip.right());
    let rows = range(low.y, high.y, page.clip.top(), page.clip.bottom());
    // A place on an edge belongs to one of the two triangles that share it.
    let owns = |from: Pos2, to: Pos2| to.y < from.y || (to.y == from.y && to.x > from.x);
    let edges = [owns(b, c), owns(c, a), owns(a, b)];
    for row in rows {
        for column in columns.clone() {
            let at = Pos2::new(column as f32 + 0.5, row as f32 + 0.5);
            let parts = [twice(b, c, at), twice(c, a, at), twice(a, b, at)];
            let inside =
                (0..3).all(|edge| parts[edge] > 0.0 || (parts[edge] == 0.0 && edges[edge]));
            if !inside {
                continue;
            }
            let shares = parts.map(|part| part / area);
            let dot = &mut dots[row * page.width + column];
            mix(dot, colour_at(&corners, shares, texture));
        }
    }
}

/// The dots whose middles lie between two places and inside the page.
fn range(low: f32, high: f32, least: f32, most: f32) -> std::ops::Range<usize> {
    let first = (low.max(least) - 0.5).ceil().max(0.0) as usize;
    let end = ((high.min(most) - 0.5).floor() + 1.0).max(0.0) as usize;
    first..end.max(first)
}

fn colour_at(corners: &[Vertex; 3], shares: [f32; 3], texture: &Texture) -> [f32; 4] {
    let mut tint = [0.0_f32; 4];
    let mut uv = [0.0_f32; 2];
    for (corner, share) in corners.iter().zip(shares) {
        for (part, value) in tint.iter_mut().zip(corner.color.to_array()) {
            *part += f32::from(value) * share;
        }
        uv[0] += corner.uv.x * share;
        uv[1] += corner.uv.y * share;
    }
    let dot = texture.at(uv);
    std::array::from_fn(|part| tint[part] * dot[part] / 255.0)
}

impl Texture {
    /// The colour at a place between the dots.
    fn at(&self, uv: [f32; 2]) -> [f32; 4] {
        let x = uv[0] * self.width as f32 - 0.5;
        let y = uv[1] * self.height as f32 - 0.5;
        let (left, top) = (x.floor(), y.floor());
        let (across, along) = (x - left, y - top);
        let dot = |x: f32, y: f32| {
            let column = x.clamp(0.0, (self.width - 1) as f32) as usize;
            let row = y.clamp(0.0, (self.height - 1) as f32) as usize;
            self.dots[row * self.width + column]
                .to_array()
                .map(f32::from)
        };
        let corners = [
            (dot(left, top), (1.0 - across) * (1.0 - along)),
            (dot(left + 1.0, top), across * (1.0 - along)),
            (dot(left, top + 1.0), (1.0 - across) * along),
            (dot(left + 1.0, top + 1.0), across * along),
        ];
        let mut colour = [0.0; 4];
        for (dot, share) in corners {
            for (part, value) in colour.iter_mut().zip(dot) {
                *part += value * share;
            }
        }
        colour
    }
}

/// Lays a premultiplied colour over a dot.
fn mix(dot: &mut [f32; 4], colour: [f32; 4]) {
    let through = 1.0 - colour[3] / 255.0;
    for (part, value) in dot.iter_mut().zip(colour) {
        *part = value + *part * through;
    }
}
