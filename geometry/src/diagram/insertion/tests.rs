//! The builder against the library and against distances reckoned one by one, on letters and on shapes made to hurt it.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use kurbo::{Affine, Point, Vec2};

use super::super::cells::Side;
use super::super::voronoi::{self, Arrays};
use super::super::walls::Walls;
use super::super::{Diagram, Method, NONE};
use crate::boolean::{difference, union_all};
use crate::font::Font;
use crate::offset::OffsetLoop;
use crate::region::{Region, Ring, region_from_outline};
use crate::samples::{glyphs, polygon, rectangle, ring, room_around};

/// How far vertices may lie from one another, and clearances from the truth, in grid steps: 10⁻⁶ mm.
const SAME: f64 = 0.01;

fn cut(rings: &[Ring]) -> Region {
    union_all(
        &rings
            .iter()
            .map(|ring| Region::from_ring(ring))
            .collect::<Vec<_>>(),
    )
}

/// Numbers from 0 to 1, always the same ones.
struct Numbers(u64);

impl Numbers {
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn place(&mut self, width: f64) -> Point {
        Point::new(self.next() * width, self.next() * width)
    }
}

/// Circles, and rings of two circles, as polygons of few and of many sides.
fn rounds() -> Vec<(String, Region)> {
    let mut found = Vec::new();
    for count in [3, 4, 5, 6, 8, 12, 60, 100, 360, 500, 2000, 8000] {
        for radius in [0.01, 10.0, 100.0] {
            let disc = cut(&[polygon((0.0, 0.0), radius, count)]);
            let hole = cut(&[polygon((0.0, 0.0), radius / 2.0, count)]);
            found.push((
                format!("ring of {count} sides, {radius} mm"),
                difference(&disc, &hole),
            ));
        }
    }
    found
}

/// Squares in rows, apart, almost touching, and corner to corner.
fn squares() -> Vec<(String, Region)> {
    let mut found = Vec::new();
    for (count, pitch) in [(5, 2.0), (16, 1.5), (16, 1.0001)] {
        let places = (0..count * count).map(|n| (f64::from(n / count), f64::from(n % count)));
        let apart: Vec<Ring> = places
            .clone()
            .map(|(x, y)| rectangle(x * pitch, y * pitch, x * pitch + 1.0, y * pitch + 1.0))
            .collect();
        found.push((
            format!("{count} by {count} squares, {pitch} mm"),
            cut(&apart),
        ));
        let touching: Vec<Ring> = places
            .filter(|(x, y)| (x + y) % 2.0 == 0.0)
            .map(|(x, y)| rectangle(x, y, x + 1.0, y + 1.0))
            .collect();
        found.push((format!("{count} by {count} chequers"), cut(&touching)));
    }
    // A point that touches the middle of a straight edge, and a counter that touches its outer ring.
    found.push((
        "point on edge".to_owned(),
        cut(&[
            rectangle(2.0, 2.0, 8.0, 3.0),
            ring(&[(5.0, 3.0), (6.0, 6.0), (4.0, 6.0)]),
        ]),
    ));
    found.push((
        "counter on edge".to_owned(),
        difference(
            &cut(&[rectangle(2.0, 2.0, 8.0, 8.0)]),
            &cut(&[ring(&[(2.0, 5.0), (5.0, 3.0), (7.0, 5.0), (5.0, 7.0)])]),
        ),
    ));
    found
}

/// Islands, hairlines, tangles and shapes of a few grid steps, thrown about.
fn thrown() -> Vec<(String, Region)> {
    let mut found = Vec::new();
    let mut numbers = Numbers(88_172_645_463_325_252);
    for (count, size) in [(400, 0.001), (400, 0.5), (100, 3.0)] {
        let islands: Vec<Ring> = (0..count)
            .map(|_| {
                let centre = numbers.place(60.0);
                let radius = size * (0.1 + numbers.next());
                polygon(
                    (centre.x, centre.y),
                    radius,
                    3 + (numbers.next() * 20.0) as u32,
                )
            })
            .collect();
        found.push((format!("{count} islands of {size} mm"), cut(&islands)));
    }
    for count in [5, 50, 300] {
        let hairlines: Vec<Ring> = (0..count)
            .map(|_| {
                let from = numbers.place(60.0);
                let way = Vec2::from_angle(numbers.next() * TAU);
                let width = 1e-4 * (1.0 + (numbers.next() * 3.0).floor());
                let aside = Vec2::new(-way.y, way.x) * width;
                vec![
                    from,
                    from + way * 8.0,
                    from + way * 8.0 + aside,
                    from + aside,
                ]
            })
            .collect();
        let hairlines = cut(&hairlines);
        let plate = cut(&[rectangle(-10.0, -10.0, 70.0, 70.0)]);
        found.push((
            format!("{count} hairline cuts"),
            difference(&plate, &hairlines),
        ));
        found.push((format!("{count} hairlines"), hairlines));
        let tangle = (0..count).map(|_| numbers.place(60.0)).collect();
        found.push((format!("tangle of {count}"), cut(&[tangle])));
        for (span, step) in [(4.0, 1e-4), (20.0, 1e-4), (200.0, 1e-4), (200.0, 1.0)] {
            let scraps: Vec<Ring> = (0..count)
                .map(|_| {
                    let centre = numbers.place(span);
                    (0..3 + (numbers.next() * 4.0) as u32)
                        .map(|_| {
                            let off = numbers.place(span * 0.3);
                            let place = centre + off.to_vec2();
                            Point::new(place.x.round() * step, place.y.round() * step)
                        })
                        .collect()
                })
                .collect();
            found.push((format!("{count} scraps of {span} × {step}"), cut(&scraps)));
        }
    }
    found
}

/// Teeth: almost flat, deep, and vertices one grid step apart.
fn teeth() -> Vec<(String, Region)> {
    let mut found = Vec::new();
    for count in [10, 100, 1000] {
        let pitch = 60.0 / f64::from(count);
        for (name, tip, root) in [("saw", 10.0, 9.9999), ("comb", 30.0, 0.1)] {
            let mut points = vec![(0.0, 0.0), (60.0, 0.0)];
            for number in (0..count).rev() {
                points.push((pitch * (f64::from(number) + 0.5), tip));
                points.push((pitch * f64::from(number), root));
            }
            found.push((format!("{name} of {count}"), cut(&[ring(&points)])));
        }
        let twins: Ring = polygon((0.0, 0.0), 20.0, count)
            .into_iter()
            .zip([1e-4, 0.0].into_iter().cycle())
            .flat_map(|(point, up)| [point, point + Vec2::new(1e-4, up)])
            .collect();
        found.push((format!("{count} twins"), cut(&[twins])));
    }
    found
}

fn hostile() -> Vec<(String, Region)> {
    [rounds(), squares(), thrown(), teeth()].concat()
}

fn nearest(walls: &Walls, place: Point) -> f64 {
    walls
        .segments
        .iter()
        .map(|segment| {
            let along = segment.direction.dot(place - segment.a);
            (segment.a + segment.direction * along.clamp(0.0, segment.length)).distance(place)
        })
        .fold(f64::INFINITY, f64::min)
}

/// Clearances at vertices and along edges, some of them, against all walls one by one.
fn check_clearances(name: &str, diagram: &Diagram, count: usize) {
    let edges = diagram.edges.len();
    for edge in (0..edges).step_by((edges / count).max(1)) {
        let edge = edge as u32;
        let found = &diagram.edges[edge as usize];
        if !matches!(found.side, Side::Ground | Side::Letter) {
            continue;
        }
        assert!(
            found.origin != NONE && diagram.end_of(edge) != NONE,
            "{name}"
        );
        for part in [0.0, 0.3, 0.8] {
            let (at, clearance) = diagram.along_edge(edge, part);
            let truth = nearest(&diagram.walls, at);
            assert!(
                (clearance - truth).abs() < SAME,
                "{name}: {clearance} at {at:?}, but {truth}"
            );
        }
    }
}

#[test]
fn hostile_shapes_are_mapped_and_their_clearances_are_true() {
    for (name, letter) in hostile() {
        for lane in [0.0001, 4.0] {
            let diagram = Diagram::build(&letter, &room_around(&letter, lane))
                .unwrap_or_else(|error| panic!("{name}, {lane}: {error}"));
            assert_eq!(diagram.method(), Method::Insertion, "{name}, {lane}");
            check_clearances(&name, &diagram, 60);
        }
    }
}

/// Serif, bold, italic, mathematical and typewriter faces, all of ASCII.
#[test]
fn letters_of_many_fonts_are_mapped_by_our_own_builder() {
    let mut count = 0;
    for bytes in typst_assets::fonts() {
        let font = Font::parse(bytes, 0, &BTreeMap::new()).unwrap();
        let scale = crate::samples::EM / font.units_per_em();
        for glyph in ('!'..='~').filter_map(|character| font.glyph_for(character)) {
            let outline = Affine::scale_non_uniform(-scale, scale) * font.outline(glyph).unwrap();
            let letter = region_from_outline(&outline, 0.002).unwrap();
            let diagram = Diagram::build(&letter, &room_around(&letter, 3.0)).unwrap();
            assert_eq!(diagram.method(), Method::Insertion, "glyph {glyph:?}");
            check_clearances("letter", &diagram, 12);
            count += 1;
        }
    }
    assert!(count > 1000, "{count}");
}

/// The area within loops of arcs and lines, in square millimetres.
fn area(loops: &[OffsetLoop]) -> f64 {
    let piece_area = |piece: &crate::offset::OffsetPiece| {
        let chord = piece.from.to_vec2().cross(piece.to.to_vec2()) / 2.0;
        let bulge = piece.centre.map_or(0.0, |centre| {
            let (from, to) = (piece.from - centre, piece.to - centre);
            // Clockwise about its centre.
            let turn = -from.cross(to).atan2(from.dot(to));
            let turn = if turn < 0.0 { turn + TAU } else { turn };
            -(turn - turn.sin()) * from.hypot2() / 2.0
        });
        chord + bulge
    };
    loops
        .iter()
        .flat_map(|found| &found.pieces)
        .map(piece_area)
        .sum()
}

/// Whether every vertex in ground and letter of one lies at a vertex of the other.
fn check_same_vertices(name: &str, one: &Arrays, other: &Arrays) {
    let inner = |side: Side| matches!(side, Side::Ground | Side::Letter);
    let mut known: Vec<Point> = other
        .vertices
        .iter()
        .filter(|vertex| inner(vertex.side))
        .map(|vertex| vertex.at)
        .collect();
    known.sort_by(|a, b| a.x.total_cmp(&b.x));
    for vertex in one.vertices.iter().filter(|vertex| inner(vertex.side)) {
        let first = known.partition_point(|at| at.x < vertex.at.x - SAME);
        let near = known[first..]
            .iter()
            .take_while(|at| at.x < vertex.at.x + SAME)
            .any(|at| at.distance(vertex.at) < SAME);
        assert!(near, "{name}: {vertex:?}");
    }
}

/// # Source
/// The library is `boostvoronoi`, a port of Boost.Polygon's diagram of segments, whose decisions are exact.
#[test]
fn letters_and_shapes_agree_with_the_library() {
    let characters: String = ('!'..='~').step_by(8).collect();
    let small = |(_, letter): &(String, Region)| letter.rings().map(Vec::len).sum::<usize>() < 300;
    let shapes = hostile().into_iter().filter(small).step_by(2);
    for (name, letter) in glyphs(&characters, 0.005).into_iter().chain(shapes) {
        let walls = Walls::new(&letter, &room_around(&letter, 4.0)).unwrap();
        let own = voronoi::build(&walls, 0).unwrap();
        let Ok(library) = voronoi::build(&walls, 1) else {
            // It does not pass our checks on every shape.
            continue;
        };
        check_same_vertices(&name, &own, &library);
        check_same_vertices(&name, &library, &own);
        let own = Diagram::from_parts(walls.clone(), own, 0);
        let library = Diagram::from_parts(walls, library, 1);
        for distance in [0.05, 0.3, 0.7, 1.3, 1.9] {
            let (a, b) = (area(&own.offset(distance)), area(&library.offset(distance)));
            assert!((a - b).abs() < 1e-5, "{name}, {distance}: {a} {b}");
        }
        let length = |axis: &[crate::medial_axis::AxisEdge]| -> f64 {
            axis.iter()
                .map(|edge| edge.from.at.distance(edge.to.at))
                .sum()
        };
        for (a, b) in [
            (own.ground_axis(), library.ground_axis()),
            (own.letter_axis(), library.letter_axis()),
        ] {
            let (a, b) = (length(&a), length(&b));
            assert!((a - b).abs() < 1e-4, "{name}: axes of {a} and {b} mm");
        }
    }
}

/// The three sites of a vertex decide alone; here against circles known in closed form.
#[test]
fn vertices_of_plain_shapes_are_where_the_closed_forms_say() {
    let widest = |points: &[(f64, f64)]| {
        let letter = crate::samples::ground_within(&[ring(points)]);
        let diagram = Diagram::build(&letter.0, &letter.1).unwrap();
        let inside = |at: Point| crate::region::winding(&ring(points), at) != 0;
        diagram
            .widest(1e-3)
            .into_iter()
            .filter(|found| inside(found.at))
            .map(|found| (found.at, found.clearance))
            .next()
            .unwrap()
    };
    // The circle in a right triangle of sides 3, 4 and 5 has the radius 1.
    let (at, clearance) = widest(&[(0.0, 0.0), (4.0, 0.0), (0.0, 3.0)]);
    assert!(at.distance(Point::new(1.0, 1.0)) < 1e-9 && (clearance - 1.0).abs() < 1e-9);
    // In an L of width 2 the widest circle touches both outer walls and the inner corner: its centre is (r, r), and
    // √2·(2 − r) = r, so that r = 4 − 2√2.
    let arm = [
        (0.0, 0.0),
        (9.0, 0.0),
        (9.0, 2.0),
        (2.0, 2.0),
        (2.0, 9.0),
        (0.0, 9.0),
    ];
    let (at, clearance) = widest(&arm);
    let radius = 4.0 - 8.0_f64.sqrt();
    assert!(at.distance(Point::new(radius, radius)) < 1e-6, "{at:?}");
    assert!((clearance - radius).abs() < 1e-6, "{clearance}");
}
