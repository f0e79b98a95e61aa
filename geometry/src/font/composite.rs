//! How much is drawn for a glyph that is made of other glyphs, counted before it is drawn.
//!
//! A few glyphs that each name the next one twice make an outline that no memory holds. The library that draws them knows no limit but that of
//! nesting, so the parts are counted first.

use ttf_parser::GlyphId;

use super::Font;
use super::outline::glyf_data;

/// The most parts that one glyph may be made of: far more than any letter with its marks.
const MOST_PARTS: usize = 1000;

/// The most points of one glyph, its parts together: the table `maxp` counts them in 16 bits.
const MOST_POINTS: usize = 65_535;

/// The deepest nesting of parts that the library draws.
const MOST_LEVELS: u8 = 32;

/// Flags of a part: its places are 16 bits wide; it has a scale; another part follows; it has two scales; it has a matrix.
const WIDE_PLACES: u16 = 0x0001;
const ONE_SCALE: u16 = 0x0008;
const MORE_PARTS: u16 = 0x0020;
const TWO_SCALES: u16 = 0x0040;
const MATRIX: u16 = 0x0080;

/// What is too much about a glyph of table `glyf`, if something is.
///
/// # Source
/// OpenType specification, table `glyf`, composite glyph description.
pub(super) fn too_much(font: &Font<'_>, glyph: GlyphId) -> Option<&'static str> {
    let mut waiting = vec![(glyph, 0)];
    let mut parts = 0;
    let mut points = 0;
    // At most MOST_PARTS turns, and the list never holds more.
    while let Some((glyph, level)) = waiting.pop() {
        parts += 1;
        if level >= MOST_LEVELS {
            return Some("its parts are nested without end");
        }
        let Some(data) = glyf_data(font, glyph) else {
            continue;
        };
        match contours(data) {
            Some(count) if count < 0 => {
                let room = MOST_PARTS.saturating_sub(parts + waiting.len());
                let found = parts_of(data, room + 1);
                if found.len() > room {
                    return Some("it is made of too many parts");
                }
                waiting.extend(found.into_iter().map(|part| (part, level + 1)));
            }
            Some(count) => points += points_of(data, count),
            None => {}
        }
        if points > MOST_POINTS {
            return Some("it has too many points");
        }
    }
    None
}

fn contours(data: &[u8]) -> Option<i16> {
    Some(i16::from_be_bytes(*data.first_chunk()?))
}

/// Points of a simple glyph: one more than the last end of its contours; 0 if that lies outside the data.
fn points_of(data: &[u8], contours: i16) -> usize {
    let last = usize::try_from(contours)
        .ok()
        .and_then(|count| count.checked_sub(1))
        .and_then(|last| word(data, super::outline::HEADER + 2 * last));
    last.map_or(0, |end| usize::from(end) + 1)
}

/// The parts of a composite glyph, at most so many.
fn parts_of(data: &[u8], most: usize) -> Vec<GlyphId> {
    let mut found = Vec::new();
    let mut at = super::outline::HEADER;
    while found.len() < most {
        let (Some(flags), Some(glyph)) = (word(data, at), word(data, at + 2)) else {
            break;
        };
        found.push(GlyphId(glyph));
        at += 4 + if flags & WIDE_PLACES != 0 { 4 } else { 2 };
        at += if flags & ONE_SCALE != 0 {
            2
        } else if flags & TWO_SCALES != 0 {
            4
        } else if flags & MATRIX != 0 {
            8
        } else {
            0
        };
        if flags & MORE_PARTS == 0 {
            break;
        }
    }
    found
}

fn word(data: &[u8], at: usize) -> Option<u16> {
    let bytes = data.get(at..at.checked_add(2)?)?;
    Some(u16::from_be_bytes([bytes[0], bytes[1]]))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bytes of a composite glyph.
    fn made_of(parts: &[u16]) -> Vec<u8> {
        let mut data = vec![0xff, 0xff, 0, 0, 0, 0, 0, 0, 0, 0];
        for (place, part) in parts.iter().enumerate() {
            let more = if place + 1 < parts.len() {
                MORE_PARTS
            } else {
                0
            };
            data.extend((more | WIDE_PLACES | MATRIX).to_be_bytes());
            data.extend(part.to_be_bytes());
            data.extend([0; 12]);
        }
        data
    }

    #[test]
    fn parts_are_found_up_to_a_number() {
        let data = made_of(&[3, 5, 8]);
        let ids = |most| -> Vec<u16> { parts_of(&data, most).iter().map(|id| id.0).collect() };
        assert_eq!(ids(9), [3, 5, 8]);
        assert_eq!(ids(2), [3, 5]);
        assert_eq!(parts_of(&data[..30], 9).len(), 2);
        assert!(parts_of(&data[..11], 9).is_empty());
    }

    #[test]
    fn points_are_counted_from_the_last_end() {
        let mut data = vec![0, 2, 0, 0, 0, 0, 0, 0, 0, 0];
        data.extend([0, 4, 0, 9]);
        assert_eq!(points_of(&data, 2), 10);
        assert_eq!(points_of(&data, 3), 0);
        assert_eq!(points_of(&data, 0), 0);
    }
}
