//! Filled shapes on the screen: exact curves turned into triangles as fine as the zoom needs.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::epaint::{Mesh, Vertex, WHITE_UV};
use egui::{Color32, Pos2, Stroke};
use kurbo::{BezPath, PathEl, Point};
use lyon_tessellation::geometry_builder::{BuffersBuilder, Positions};
use lyon_tessellation::math::point;
use lyon_tessellation::path::Path;
use lyon_tessellation::path::iterator::PathIterator;
use lyon_tessellation::{FillOptions, FillRule, FillTessellator, VertexBuffers};

use cam_core::commission::Face;
use cam_core::sort::Sort;
use geometry::region::Region;

use crate::background::catalogue::parse;

/// How far a drawn curve may lie from the true one, px.
const TOLERANCE_PX: f64 = 0.05;

/// The most filled faces kept: a large fount at two zooms.
const MOST_KEPT: usize = 1024;

/// The most outlines of glyphs kept; they are drawn again when needed.
const MOST_GLYPHS: usize = 4096;
/// Flattening of glyphs, in parts of an em: a tenth of a pixel at the largest they are shown.
const GLYPH_FLATTENING: f64 = 0.0004;

/// The shortest step along a shown edge, px.
const LEAST_STEP_PX: f32 = 0.4;

/// The cosine of the turn from which a shown edge turns back: 120°, where a pointed join stands out by its own width.
const TURNS_BACK: f32 = -0.5;

/// A filled shape in its own millimetres.
#[derive(Clone, Debug, Default)]
pub struct Fill {
    vertices: Vec<Point>,
    triangles: Vec<u32>,
    edges: Vec<Vec<Point>>,
}

impl Fill {
    /// From exact curves, by the nonzero rule. `tolerance` is in the path's unit.
    pub fn of_path(path: &BezPath, tolerance: f64) -> Fill {
        fill(&lyon_path(path), tolerance)
    }

    /// From a region.
    pub fn of_region(region: &Region) -> Fill {
        let mut builder = Path::builder();
        for ring in region.rings().filter(|ring| ring.len() > 2) {
            let mut points = ring.iter().map(|at| point(at.x as f32, at.y as f32));
            if let Some(first) = points.next() {
                builder.begin(first);
                points.for_each(|at| {
                    builder.line_to(at);
                });
                builder.close();
            }
        }
        fill(&builder.build(), 0.01)
    }

    /// The middle of its bounding box; 0, 0 of nothing.
    pub fn middle(&self) -> Point {
        let mut points = self.edges.iter().flatten();
        let Some(&first) = points.next() else {
            return Point::ZERO;
        };
        let start = kurbo::Rect::from_points(first, first);
        points.fold(start, |found, &at| found.union_pt(at)).center()
    }

    /// Paints it: `place` takes its millimetres to the screen.
    pub fn paint(&self, painter: &egui::Painter, place: impl Fn(Point) -> Pos2, colour: Color32) {
        let Some(mesh) = self.mesh(painter, &place, colour) else {
            return;
        };
        painter.add(mesh);
        self.outline(painter, place, Stroke::new(0.6, colour));
    }

    /// As [`Fill::paint`], without the softened edge, for colours that are seen through.
    pub fn paint_flat(
        &self,
        painter: &egui::Painter,
        place: impl Fn(Point) -> Pos2,
        colour: Color32,
    ) {
        if let Some(mesh) = self.mesh(painter, place, colour) {
            painter.add(mesh);
        }
    }

    /// The triangles on the screen, if any can be seen.
    fn mesh(
        &self,
        painter: &egui::Painter,
        place: impl Fn(Point) -> Pos2,
        colour: Color32,
    ) -> Option<Mesh> {
        let vertices = self.vertices.iter().map(|&vertex| Vertex {
            pos: place(vertex),
            uv: WHITE_UV,
            color: colour,
        });
        let mesh = Mesh {
            vertices: vertices.collect(),
            indices: self.triangles.clone(),
            ..Mesh::default()
        };
        let seen = !mesh.indices.is_empty() && mesh.calc_bounds().intersects(painter.clip_rect());
        seen.then_some(mesh)
    }

    /// Paints its edge. Over a fill of the same colour it softens the steps of the pixels.
    pub fn outline(&self, painter: &egui::Painter, place: impl Fn(Point) -> Pos2, stroke: Stroke) {
        for edge in &self.edges {
            let mut points: Vec<Pos2> = edge.iter().map(|&at| place(at)).collect();
            // Steps smaller than a pixel turn so sharply that the line's joins would stick out as spikes.
            points.dedup_by(|next, last| next.distance(*last) < LEAST_STEP_PX);
            let pieces = pieces(&points);
            if pieces.is_empty() {
                painter.add(egui::Shape::closed_line(points, stroke));
            }
            for piece in pieces {
                painter.add(egui::Shape::line(piece, stroke));
            }
        }
    }
}

/// The pieces of a closed line between the points where it turns back; none if it nowhere does.
///
/// The painter joins lines in a point, which stands out by as much as their angle is sharp: at a hair's end, across the whole window.
fn pieces(points: &[Pos2]) -> Vec<Vec<Pos2>> {
    let many = points.len();
    let turns_back = |at: &usize| {
        let here = points[*at];
        let come = (here - points[(at + many - 1) % many]).normalized();
        let go = (points[(at + 1) % many] - here).normalized();
        come.dot(go) < TURNS_BACK
    };
    let breaks: Vec<usize> = (0..many).filter(turns_back).collect();
    let next = breaks.iter().cycle().skip(1);
    let between = breaks.iter().zip(next).map(|(&from, &to)| {
        let steps = if to > from {
            to - from
        } else {
            to + many - from
        };
        (0..=steps)
            .map(|step| points[(from + step) % many])
            .collect()
    });
    between.collect()
}

fn lyon_path(path: &BezPath) -> Path {
    let at = |p: Point| point(p.x as f32, p.y as f32);
    let mut builder = Path::builder();
    let mut open = false;
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => {
                if open {
                    builder.end(true);
                }
                builder.begin(at(p));
                open = true;
            }
            PathEl::LineTo(p) if open => {
                builder.line_to(at(p));
            }
            PathEl::QuadTo(c, p) if open => {
                builder.quadratic_bezier_to(at(c), at(p));
            }
            PathEl::CurveTo(c, d, p) if open => {
                builder.cubic_bezier_to(at(c), at(d), at(p));
            }
            PathEl::ClosePath if open => {
                builder.end(true);
                open = false;
            }
            // A path that draws before it starts has nothing to draw from.
            PathEl::LineTo(_) | PathEl::QuadTo(..) | PathEl::CurveTo(..) | PathEl::ClosePath => {}
        }
    }
    if open {
        builder.end(true);
    }
    builder.build()
}

fn fill(path: &Path, tolerance: f64) -> Fill {
    let options =
        FillOptions::tolerance(tolerance.max(1e-5) as f32).with_fill_rule(FillRule::NonZero);
    let mut buffers: VertexBuffers<lyon_tessellation::math::Point, u32> = VertexBuffers::new();
    let filled = FillTessellator::new().tessellate_path(
        path,
        &options,
        &mut BuffersBuilder::new(&mut buffers, Positions),
    );
    if filled.is_err() {
        // A shape that cannot be filled is still shown by its edge.
        buffers.indices.clear();
    }
    let wide = |p: lyon_tessellation::math::Point| Point::new(f64::from(p.x), f64::from(p.y));
    let mut edges: Vec<Vec<Point>> = Vec::new();
    for event in path.iter().flattened(options.tolerance) {
        match event {
            lyon_tessellation::path::Event::Begin { at } => edges.push(vec![wide(at)]),
            lyon_tessellation::path::Event::Line { to, .. } => {
                if let Some(edge) = edges.last_mut() {
                    edge.push(wide(to));
                }
            }
            lyon_tessellation::path::Event::Quadratic { .. }
            | lyon_tessellation::path::Event::Cubic { .. }
            | lyon_tessellation::path::Event::End { .. } => {}
        }
    }
    Fill {
        vertices: buffers.vertices.into_iter().map(wide).collect(),
        triangles: buffers.indices,
        edges,
    }
}

/// A key for a zoom: shapes are filled again when it doubles.
fn zoom_step(scale: f64) -> i32 {
    scale.max(1e-9).log2().ceil() as i32
}

/// The filled faces of sorts, kept while they are shown.
#[derive(Default)]
pub struct Faces {
    kept: BTreeMap<(String, i32), (Arc<Sort>, Arc<Fill>)>,
}

impl Faces {
    /// The face of a sort in its own face space, for a zoom in pixels to the millimetre.
    pub fn of(&mut self, sort: &Arc<Sort>, scale: f64) -> Arc<Fill> {
        let step = zoom_step(scale);
        let key = (sort.name.clone(), step);
        if let Some((kept, fill)) = self.kept.get(&key)
            && Arc::ptr_eq(kept, sort)
        {
            return Arc::clone(fill);
        }
        if self.kept.len() >= MOST_KEPT {
            self.kept.clear();
        }
        let tolerance = TOLERANCE_PX / f64::from(step).exp2();
        let fill = Arc::new(Fill::of_path(&sort.outline, tolerance));
        self.kept.insert(key, (Arc::clone(sort), Arc::clone(&fill)));
        fill
    }

    /// Forgets all, when other sorts come.
    pub fn clear(&mut self) {
        self.kept.clear();
    }
}

/// The filled outlines of a font's glyphs, in font units, kept while the font is shown.
#[derive(Default)]
pub struct Glyphs {
    kept: BTreeMap<u16, Arc<Fill>>,
    of: String,
}

impl Glyphs {
    /// The glyph of a face; `None` if the font cannot be read.
    pub fn of(
        &mut self,
        face: &Face,
        bytes: &[u8],
        units_per_em: f64,
        index: u16,
    ) -> Option<Arc<Fill>> {
        // Outlines of another font or of other axes are of no use.
        let now = format!(
            "{} {} {} {:?}",
            face.file, face.sha256, face.index, face.variations
        );
        if self.of != now || self.kept.len() > MOST_GLYPHS {
            self.kept.clear();
            self.of = now;
        }
        if let Some(fill) = self.kept.get(&index) {
            return Some(Arc::clone(fill));
        }
        let font = parse(face, bytes).ok()?;
        let outline = font.outline(index).unwrap_or_default();
        let fill = Arc::new(Fill::of_path(&outline, units_per_em * GLYPH_FLATTENING));
        self.kept.insert(index, Arc::clone(&fill));
        Some(fill)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Shape;

    fn area(fill: &Fill) -> f64 {
        fill.triangles
            .chunks(3)
            .map(|corner| {
                let [a, b, c] = [0, 1, 2].map(|i| fill.vertices[corner[i] as usize]);
                ((b - a).cross(c - a) / 2.0).abs()
            })
            .sum()
    }

    #[test]
    fn triangles_cover_the_shape() {
        let mut ring = kurbo::Circle::new((20.0, 20.0), 10.0).to_path(1e-6);
        ring.extend(
            kurbo::Circle::new((20.0, 20.0), 4.0)
                .to_path(1e-6)
                .reverse_subpaths(),
        );
        let exact = std::f64::consts::PI * (100.0 - 16.0);
        for tolerance in [0.1, 0.01, 0.001] {
            let error = (area(&Fill::of_path(&ring, tolerance)) - exact).abs();
            assert!(error < 2.0 * 88.0 * tolerance, "{tolerance}: {error}");
        }
    }

    #[test]
    fn an_edge_is_broken_where_it_turns_back_and_nowhere_else() {
        let line = |places: &[(f32, f32)]| -> Vec<Pos2> {
            let points = places.iter().map(|&(x, y)| Pos2::new(x, y));
            points.collect()
        };
        assert!(pieces(&[]).is_empty());
        let square = line(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        assert!(pieces(&square).is_empty());
        // A hair: sharp at one end, square at the other.
        let hair = line(&[(0.0, 0.0), (100.0, 0.5), (0.0, 1.0)]);
        let broken = pieces(&hair);
        assert_eq!(broken, [vec![hair[1], hair[2], hair[0], hair[1]]]);
        // Sharp at both ends: there and back.
        let splinter = line(&[(0.0, 0.0), (50.0, 1.0), (100.0, 0.0), (50.0, -1.0)]);
        let broken = pieces(&splinter);
        assert_eq!(broken.len(), 2);
        assert_eq!(broken[0], [splinter[0], splinter[1], splinter[2]]);
        assert_eq!(broken[1], [splinter[2], splinter[3], splinter[0]]);
    }

    #[test]
    fn nothing_and_nonsense_fill_nothing() {
        assert!(Fill::of_path(&BezPath::new(), 0.1).triangles.is_empty());
        let mut line = BezPath::new();
        line.move_to((0.0, 0.0));
        line.line_to((5.0, 5.0));
        assert_eq!(area(&Fill::of_path(&line, 0.1)), 0.0);
        assert!(Fill::of_region(&Region::default()).triangles.is_empty());
    }
}
