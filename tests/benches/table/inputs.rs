//! Letters in their rooms, for the kernel and for the libraries alike.

use std::collections::BTreeMap;

use geometry::font::Font;
use geometry::region::{Region, Ring, region_from_outline};
use kurbo::{Affine, Point, Rect, Shape};
use testkit::fonts::{TestFont, ascii, text_font};
use testkit::letters::rectangle;
use testkit::referee::Area;

/// A letter in its room.
pub struct Lettered {
    pub letter: Region,
    pub room: Ring,
}

impl Lettered {
    /// The rings of the ground: the room's, and the letter's the other way round.
    pub fn ground(&self) -> Vec<Ring> {
        Area::of_rings([self.room.as_slice()])
            .without(&Area::of(&self.letter))
            .rings()
    }
}

/// The 65 sorts of a plank: A–Z, a–z, 0–9, & ? ! of a serif face, its em 100 mm, each in a block as wide as its advance
/// and 10 mm and 120 mm high, wider where the letter hangs out; curves within 5 µm.
pub fn plank() -> Vec<Lettered> {
    let letters = ('A'..='Z')
        .chain('a'..='z')
        .chain('0'..='9')
        .chain("&?!".chars());
    let font = text_font("libertinus-serif");
    letters
        .map(|letter| {
            lettered(font, letter, 100.0, 0.005, |advance, drawn| {
                Rect::new(-5.0, -35.0, advance + 5.0, 85.0).union(drawn.inflate(5.0, 5.0))
            })
        })
        .collect()
}

/// 240 sorts of ten lines from three faces, curves within 1 µm, with a lane around.
pub fn sorts() -> Vec<Lettered> {
    const BODY_MM: f64 = 42.175;
    const LANE_MM: f64 = 6.4;
    ["libertinus-serif", "dejavu-sans-mono-bold", "ubuntu-light"]
        .into_iter()
        .flat_map(|name| {
            ascii()
                .take(80)
                .map(move |letter| (text_font(name), letter))
        })
        .map(|(font, letter)| {
            lettered(font, letter, BODY_MM, 0.001, |advance, drawn| {
                let block = Rect::new(0.0, -0.25 * BODY_MM, advance, 0.75 * BODY_MM);
                block.union(drawn).inflate(LANE_MM, LANE_MM)
            })
        })
        .collect()
}

fn lettered(
    font: TestFont,
    character: char,
    em_mm: f64,
    tolerance: f64,
    room: impl Fn(f64, Rect) -> Rect,
) -> Lettered {
    let read = Font::parse(font.bytes, font.index, &BTreeMap::new()).expect("a sound font");
    let scale = em_mm / read.units_per_em();
    let glyph = read.glyph_for(character).expect("the font holds ASCII");
    let drawn = Affine::scale(scale) * read.outline(glyph).expect("a sound glyph");
    let letter = region_from_outline(&drawn, tolerance).expect("a plain outline");
    let room = room(read.advance(glyph) * scale, drawn.bounding_box());
    Lettered {
        letter,
        room: rectangle(room.x0, room.y0, room.x1, room.y1),
    }
}

/// All points of rings in whole steps of 0.1 µm, moved by a number of steps, as segments.
pub fn whole_segments(rings: &[Ring], by: i32) -> Vec<[i32; 4]> {
    let whole = |value: f64| (value * 1e4).round() as i32 + by;
    rings
        .iter()
        .flat_map(|ring| {
            ring.iter()
                .zip(ring.iter().cycle().skip(1))
                .map(|(from, to): (&Point, &Point)| {
                    [whole(from.x), whole(from.y), whole(to.x), whole(to.y)]
                })
        })
        .filter(|line| (line[0], line[1]) != (line[2], line[3]))
        .collect()
}
