//! Letters for tests: outlines of the fonts that registry crates carry, and plain shapes.

use std::collections::BTreeMap;

use epaint_default_fonts::{HACK_REGULAR, UBUNTU_LIGHT};
use kurbo::{Affine, Point, Vec2};

use crate::font::Font;
use crate::region::{Region, Ring, region_from_outline};

/// Size of the em in [`glyphs`], in millimetres: ten lines.
pub(crate) const EM: f64 = 42.0;

/// The letters' regions, mirrored as they are cut, flattened within `tolerance`, each with its name.
pub(crate) fn glyphs(characters: &str, tolerance: f64) -> Vec<(String, Region)> {
    let mut found = Vec::new();
    for (name, bytes) in [("light", UBUNTU_LIGHT), ("mono", HACK_REGULAR)] {
        let font = Font::parse(bytes, 0, &BTreeMap::new()).unwrap();
        let scale = EM / font.units_per_em();
        for character in characters.chars() {
            let glyph = font.glyph_for(character).unwrap();
            let outline = Affine::scale_non_uniform(-scale, scale) * font.outline(glyph).unwrap();
            let region = region_from_outline(&outline, tolerance).unwrap();
            found.push((format!("{name} {character}"), region));
        }
    }
    found
}

/// A room that leaves `lane` around a region's bounding box.
pub(crate) fn room_around(region: &Region, lane: f64) -> Ring {
    let bounds = region
        .bounding_box()
        .unwrap_or_default()
        .inflate(lane, lane);
    rectangle(bounds.x0, bounds.y0, bounds.x1, bounds.y1)
}

/// A ring of places.
pub(crate) fn ring(points: &[(f64, f64)]) -> Ring {
    points.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

/// A rectangle, counter-clockwise.
pub(crate) fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Ring {
    ring(&[(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
}

/// A regular polygon about a centre.
pub(crate) fn polygon(centre: (f64, f64), radius: f64, count: u32) -> Ring {
    (0..count)
        .map(|step| {
            let angle = std::f64::consts::TAU * f64::from(step) / f64::from(count);
            Point::from(centre) + Vec2::from_angle(angle) * radius
        })
        .collect()
}

/// A room with a plate of wood in it, from which the rings are cut away: the ground is what the rings enclose, and a lane.
pub(crate) fn ground_within(rings: &[Ring]) -> (Region, Ring) {
    let cut = crate::boolean::union_all(
        &rings
            .iter()
            .map(|ring| Region::from_ring(ring))
            .collect::<Vec<_>>(),
    );
    let bounds = cut.bounding_box().unwrap_or_default().inflate(5.0, 5.0);
    let plate = Region::from_ring(&rectangle(bounds.x0, bounds.y0, bounds.x1, bounds.y1));
    let letter = crate::boolean::difference(&plate, &cut);
    let room = room_around(&letter, 0.5);
    (letter, room)
}

/// Places spread evenly, and in no grid, over a ring's bounding box, always the same: multiples of one over the plastic number and over
/// its square, less their wholes (a sequence of R2 kind, from memory).
pub(crate) fn places(room: &Ring, count: u32) -> impl Iterator<Item = Point> {
    let bounds = Region::from_ring(room).bounding_box().unwrap_or_default();
    (1..=count).map(move |n| {
        let part = |base: f64| (f64::from(n) * base).fract();
        Point::new(
            bounds.x0 + bounds.width() * part(0.754_877_666),
            bounds.y0 + bounds.height() * part(0.569_840_291),
        )
    })
}
