//! Glyphs in several colours, from the tables `COLR` and `CPAL`.
//!
//! What can be cut are areas of one colour each: all of version 0, and of version 1 what fills outlines with solid colours. The graph
//! of version 1 is gone through first, so that all else is refused by name and no graph is followed without end; then the
//! font library paints it.
//!
//! # Source
//! OpenType specification, tables `COLR` (formats of paint 1 to 32) and `CPAL`.

use ttf_parser::colr::{ClipBox, CompositeMode, Paint, Painter};
use ttf_parser::{GlyphId, RgbaColor, Tag, Transform};

use super::{Font, FontError};

/// One layer of a glyph: all of another glyph's outline in one colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ColourLayer {
    /// The glyph whose outline it fills.
    pub glyph: u16,
    /// Red, green and blue.
    pub colour: [u8; 3],
}

/// The most layers of one glyph: more areas than any letter that is cut has.
const MOST_LAYERS: usize = 256;

/// The most nodes of a graph of paints that are gone through for one glyph.
const MOST_PAINTS: usize = 2_000;

/// The text's own colour, where a layer asks for it.
const OWN: RgbaColor = RgbaColor {
    red: 0,
    green: 0,
    blue: 0,
    alpha: 255,
};

impl Font<'_> {
    /// How many palettes the font has; none if it has no colours.
    pub fn palettes(&self) -> u16 {
        self.face.color_palettes().map_or(0, |count| count.get())
    }

    /// The layers of a glyph in the font's own colours, the lowest first; `None` if the font gives it none. Layers that are wholly
    /// transparent are left out; the text's own colour is black.
    ///
    /// # Errors
    /// There is no such glyph or palette, or the layers are not areas of one colour each.
    pub fn colour_layers(
        &self,
        glyph: u16,
        palette: u16,
    ) -> Result<Option<Vec<ColourLayer>>, FontError> {
        let id = self.checked(glyph)?;
        if !self.face.is_color_glyph(id) {
            return Ok(None);
        }
        let refused = |why: &str| FontError::Colours {
            glyph,
            name: self.glyph_name(glyph).unwrap_or_default(),
            why: why.to_owned(),
        };
        let palettes = self.palettes();
        if palette >= palettes {
            return Err(refused(&format!(
                "the font has {palettes} palette(s), counted from 0, and none of number {palette}"
            )));
        }
        if let Some(colr) = self.face.raw_face().table(Tag::from_bytes(b"COLR")) {
            Graph {
                colr,
                left: MOST_PAINTS,
            }
            .refuse_all_but_solid(id)
            .map_err(refused)?;
        }
        let mut layers = Layers::default();
        self.face
            .paint_color_glyph(id, palette, OWN, &mut layers)
            .ok_or_else(|| refused("their table is damaged"))?;
        match layers.refused {
            Some(why) => Err(refused(why)),
            None if layers.found.len() > MOST_LAYERS => Err(refused("they are too many layers")),
            None => Ok(Some(layers.found)),
        }
    }
}

/// Collects solid layers from what the library paints.
#[derive(Default)]
struct Layers {
    outline: Option<u16>,
    found: Vec<ColourLayer>,
    refused: Option<&'static str>,
}

impl<'a> Painter<'a> for Layers {
    fn outline_glyph(&mut self, glyph: GlyphId) {
        self.outline = Some(glyph.0);
    }

    fn paint(&mut self, paint: Paint<'a>) {
        let Paint::Solid(colour) = paint else {
            self.refused = Some(SHADED);
            return;
        };
        match (colour.alpha, self.outline) {
            (0, _) => {}
            (255, Some(glyph)) => self.found.push(ColourLayer {
                glyph,
                colour: [colour.red, colour.green, colour.blue],
            }),
            (255, None) => self.refused = Some(UNBOUNDED),
            (_, _) => self.refused = Some("a colour is half transparent, and ink is not"),
        }
    }

    fn push_clip(&mut self) {}
    fn push_clip_box(&mut self, _: ClipBox) {}
    fn pop_clip(&mut self) {}
    fn push_layer(&mut self, _: CompositeMode) {}
    fn pop_layer(&mut self) {}

    fn push_transform(&mut self, transform: Transform) {
        if !transform.is_default() {
            self.refused = Some(MOVED);
        }
    }

    fn pop_transform(&mut self) {}
}

const SHADED: &str = "they are shaded from one colour into another";
const MOVED: &str = "their parts are moved, turned or scaled";
const BLENDED: &str = "their layers are blended with one another";
const CLIPPED: &str = "one outline cuts another off";
const UNBOUNDED: &str = "a colour fills no outline";
const DAMAGED: &str = "their table is damaged";
const TOO_MANY: &str = "they are too many layers";

/// The table as bytes, and how many more nodes may be gone through.
struct Graph<'a> {
    colr: &'a [u8],
    left: usize,
}

impl Graph<'_> {
    /// Refuses whatever a graph of version 1 has for a glyph but solid fills of outlines.
    fn refuse_all_but_solid(&mut self, glyph: GlyphId) -> Result<(), &'static str> {
        match self.root(glyph.0) {
            Some(root) => self.visit(root),
            None => Ok(()),
        }
    }

    fn u16(&self, at: usize) -> Option<usize> {
        let bytes = self.colr.get(at..at.checked_add(2)?)?;
        Some(usize::from(u16::from_be_bytes(bytes.try_into().ok()?)))
    }

    fn u24(&self, at: usize) -> Option<usize> {
        let high = usize::from(*self.colr.get(at)?);
        Some(high << 16 | self.u16(at + 1)?)
    }

    fn u32(&self, at: usize) -> Option<usize> {
        Some(self.u16(at)? << 16 | self.u16(at.checked_add(2)?)?)
    }

    /// The offset of a glyph's paint; `None` for version 0 and for glyphs without one.
    fn root(&self, glyph: u16) -> Option<usize> {
        if self.u16(0)? == 0 {
            return None;
        }
        let list = self.u32(14).filter(|&offset| offset > 0)?;
        let count = self.u32(list)?;
        const RECORD: usize = 6;
        let record = |index: usize| list + 4 + index * RECORD;
        // Records are in the order of glyphs. Each turn halves what is left.
        let (mut from, mut to) = (0, count);
        while from < to {
            let middle = from + (to - from) / 2;
            let found = self.u16(record(middle))?;
            match found.cmp(&usize::from(glyph)) {
                std::cmp::Ordering::Less => from = middle + 1,
                std::cmp::Ordering::Greater => to = middle,
                std::cmp::Ordering::Equal => {
                    return list.checked_add(self.u32(record(middle) + 2)?);
                }
            }
        }
        None
    }

    /// Whether what fills an outline is one colour.
    fn solid(&self, at: usize) -> Result<(), &'static str> {
        match self.colr.get(at).copied() {
            Some(2 | 3) => Ok(()),
            Some(4..=9) => Err(SHADED),
            Some(12..=31) => Err(MOVED),
            Some(10) => Err(CLIPPED),
            Some(_) => Err(BLENDED),
            None => Err(DAMAGED),
        }
    }

    /// Goes through the paint at an offset and all below it.
    fn visit(&mut self, root: usize) -> Result<(), &'static str> {
        let mut waiting = vec![root];
        // Bound: every turn takes one from `left`, and what waits is no more than that.
        while let Some(at) = waiting.pop() {
            self.left = self.left.checked_sub(1).ok_or(TOO_MANY)?;
            let format = *self.colr.get(at).ok_or(DAMAGED)?;
            match format {
                1 => {
                    let count = usize::from(*self.colr.get(at + 1).ok_or(DAMAGED)?);
                    let first = self.u32(at + 2).ok_or(DAMAGED)?;
                    let list = self.u32(18).filter(|&list| list > 0).ok_or(DAMAGED)?;
                    if waiting.len() + count > self.left {
                        return Err(TOO_MANY);
                    }
                    for index in first..first + count {
                        let offset = self.u32(list + 4 + 4 * index).ok_or(DAMAGED)?;
                        waiting.push(list.saturating_add(offset));
                    }
                }
                2 | 3 => return Err(UNBOUNDED),
                4..=9 => return Err(SHADED),
                10 => self.solid(at + self.u24(at + 1).ok_or(DAMAGED)?)?,
                11 => {
                    let glyph = self.u16(at + 1).ok_or(DAMAGED)? as u16;
                    waiting.push(self.root(glyph).ok_or(DAMAGED)?);
                }
                12..=31 => return Err(MOVED),
                32 => return Err(BLENDED),
                _ => return Err(DAMAGED),
            }
        }
        Ok(())
    }
}
