//! The heights of a face's letters.

use kurbo::Shape;

use super::Font;

/// Letters that reach the ascender line, in the order in which they are measured; the tallest counts.
const ASCENDING: &str = "bdfhkl";
/// Letters that reach the descender line; the deepest counts.
const DESCENDING: &str = "gjpqy";

/// Heights above the base line in font units; those below it are negative.
///
/// The font's tables often leave room for accents in their ascender; [`Heights::drawn_ascender`] and
/// [`Heights::drawn_descender`] are what the letters really reach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heights {
    /// Ascender of the tables: `OS/2` typographic ascender if the font says that it counts (fsSelection bit 7), else `hhea`,
    /// else `OS/2` typographic, else `OS/2` Windows. In a variable font at these axis values (`MVAR`).
    pub ascender: f64,
    /// Descender of the tables, negative below the base line, in the same order.
    pub descender: f64,
    /// The highest of the outlines of b d f h k l; `None` if the font has none of them.
    pub drawn_ascender: Option<f64>,
    /// The lowest of the outlines of g j p q y; `None` if the font has none of them.
    pub drawn_descender: Option<f64>,
    /// Height of the capitals: `OS/2` sCapHeight (version 2 and later), else the top of the outline of H; `None` if the font
    /// has neither.
    pub capital: Option<f64>,
    /// Height of the small letters: `OS/2` sxHeight (version 2 and later), else the top of the outline of x; `None` if the
    /// font has neither.
    pub x: Option<f64>,
}

impl Font<'_> {
    /// The heights of the face's letters, in font units.
    ///
    /// # Source
    /// OpenType specification, tables `OS/2`, `hhea` and `MVAR`.
    pub fn heights(&self) -> Heights {
        let stated = |value: Option<i16>| value.filter(|&value| value > 0).map(f64::from);
        Heights {
            ascender: f64::from(self.face.ascender()),
            descender: f64::from(self.face.descender()),
            drawn_ascender: self.reach(ASCENDING, |bounds| bounds.y1).reduce(f64::max),
            drawn_descender: self.reach(DESCENDING, |bounds| bounds.y0).reduce(f64::min),
            capital: stated(self.face.capital_height())
                .or_else(|| self.reach("H", |bounds| bounds.y1).next()),
            x: stated(self.face.x_height()).or_else(|| self.reach("x", |bounds| bounds.y1).next()),
        }
    }

    /// A measure of the drawn bounds of each of the letters that the font has and that can be read.
    fn reach<'s>(
        &'s self,
        letters: &'s str,
        measure: fn(kurbo::Rect) -> f64,
    ) -> impl Iterator<Item = f64> + 's {
        letters.chars().filter_map(move |letter| {
            let outline = self.outline(self.required(self.glyph_for(letter)?)).ok()?;
            (!outline.is_empty()).then(|| measure(outline.bounding_box()))
        })
    }
}
