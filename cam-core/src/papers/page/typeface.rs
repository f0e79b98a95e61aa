//! The face that papers are set in, and words shaped in it.
//!
//! Libertinus Serif, a book face with the accents of all languages that bills are made for, tabular figures, and an open licence
//! (kept beside the files in `assets/fonts/text`). Shaping, with kerning and ligatures, is a library's.

use std::collections::BTreeMap;

use harfrust::{
    Direction, Feature, FontRef, ShapeOptions, ShapePlan, ShaperData, Tag, UnicodeBuffer, script,
};
use krilla::text::{Font as PdfFont, GlyphId, KrillaGlyph};

use super::super::drawing::MM_PER_POINT;
use super::PageError;

const REGULAR: &[u8] = include_bytes!("../../../../assets/fonts/text/LibertinusSerif-Regular.otf");
const ITALIC: &[u8] = include_bytes!("../../../../assets/fonts/text/LibertinusSerif-Italic.otf");
const STRONG: &[u8] = include_bytes!("../../../../assets/fonts/text/LibertinusSerif-Semibold.otf");

/// Differences smaller than this are arithmetic, mm.
const NOTHING_MM: f64 = 1e-6;

/// A cut of the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    /// Upright, with figures that are all of one width.
    Regular,
    /// Sloped.
    Italic,
    /// Heavier.
    Strong,
}

/// A size in points of 1/72 inch, and a cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// The cut.
    pub cut: Cut,
    /// The size.
    pub size: f64,
}

/// The cuts, ready to be used.
pub struct Typeface {
    cuts: [OneCut; 3],
}

struct OneCut {
    file: FontRef<'static>,
    shaping: ShaperData,
    /// How words of Latin letters are shaped, worked out once.
    latin: ShapePlan,
    pdf: PdfFont,
    units_per_em: f64,
    characters: geometry::font::Font<'static>,
}

/// Words on one line, shaped.
#[derive(Clone, Debug)]
pub struct SetWords {
    /// Cut and size.
    pub style: Style,
    /// The words.
    pub text: String,
    /// Their glyphs, in parts of an em.
    pub glyphs: Vec<KrillaGlyph>,
    /// How wide they are, mm.
    pub width_mm: f64,
}

impl Typeface {
    /// The face, from its files within the program.
    pub fn open() -> Result<Typeface, PageError> {
        Ok(Typeface {
            cuts: [
                OneCut::open(REGULAR)?,
                OneCut::open(ITALIC)?,
                OneCut::open(STRONG)?,
            ],
        })
    }

    fn cut(&self, cut: Cut) -> &OneCut {
        match cut {
            Cut::Regular => &self.cuts[0],
            Cut::Italic => &self.cuts[1],
            Cut::Strong => &self.cuts[2],
        }
    }

    /// The font as documents embed it.
    pub fn pdf_font(&self, cut: Cut) -> PdfFont {
        self.cut(cut).pdf.clone()
    }

    /// The outline of a glyph in units of the em, y up, and how many units an em has; `None` if the cut cannot draw it.
    pub fn outline(&self, cut: Cut, glyph: u32) -> Option<(kurbo::BezPath, f64)> {
        let cut = self.cut(cut);
        let outline = cut.characters.outline(u16::try_from(glyph).ok()?).ok()?;
        Some((outline, cut.units_per_em))
    }

    /// Words on one line. A character that the face lacks is given by its number.
    pub fn set(&self, text: &str, style: Style) -> SetWords {
        let cut = self.cut(style.cut);
        let text = cut.spelled(text);
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(&text);
        buffer.guess_segment_properties();
        buffer.set_direction(Direction::LeftToRight);
        // Figures and signs by themselves belong to no script.
        if buffer.script() == script::UNKNOWN {
            buffer.set_script(script::LATIN);
        }
        let latin = (buffer.script() == script::LATIN).then_some(&cut.latin);
        let features = lining();
        let shaped = cut
            .shaping
            .shaper(&cut.file)
            .build()
            .shape(buffer, ShapeOptions::new().features(&features).plan(latin));
        let em = |units: i32| (f64::from(units) / cut.units_per_em) as f32;
        let infos = shaped.glyph_infos();
        let mut width = 0.0;
        let mut glyphs = Vec::with_capacity(infos.len());
        for (index, (info, position)) in infos.iter().zip(shaped.glyph_positions()).enumerate() {
            let starts = info.cluster as usize;
            let ends = infos[index..]
                .iter()
                .map(|later| later.cluster as usize)
                .find(|&later| later > starts)
                .unwrap_or(text.len());
            width += f64::from(position.x_advance) / cut.units_per_em;
            glyphs.push(KrillaGlyph {
                glyph_id: GlyphId::new(info.glyph_id),
                text_range: starts..ends,
                x_advance: em(position.x_advance),
                x_offset: em(position.x_offset),
                y_offset: em(position.y_offset),
                y_advance: em(position.y_advance),
                location: None,
            });
        }
        SetWords {
            style,
            glyphs,
            width_mm: width * style.size * MM_PER_POINT,
            text,
        }
    }

    /// A text broken into lines of a width: between words, and within a word only where it is wider than a line.
    pub fn lines(&self, text: &str, style: Style, width_mm: f64) -> Vec<SetWords> {
        let space = self.set(" ", style).width_mm;
        let mut lines: Vec<String> = Vec::new();
        for paragraph in text.split('\n') {
            // Words set together may be a trifle narrower than one by one.
            if self.set(paragraph, style).width_mm <= width_mm + NOTHING_MM {
                lines.push(paragraph.split_whitespace().collect::<Vec<_>>().join(" "));
                continue;
            }
            let mut line = String::new();
            let mut used = 0.0;
            for word in paragraph.split_whitespace() {
                for piece in self.pieces(word, style, width_mm) {
                    let wide = self.set(&piece, style).width_mm;
                    if !line.is_empty() && used + space + wide > width_mm {
                        lines.push(std::mem::take(&mut line));
                        used = 0.0;
                    }
                    if !line.is_empty() {
                        line.push(' ');
                        used += space;
                    }
                    line.push_str(&piece);
                    used += wide;
                }
            }
            lines.push(line);
        }
        lines.iter().map(|line| self.set(line, style)).collect()
    }

    /// A word in pieces that are no wider than a line: one for almost all words. At least one character goes on each line.
    fn pieces(&self, word: &str, style: Style, width_mm: f64) -> Vec<String> {
        if self.set(word, style).width_mm <= width_mm {
            return vec![word.to_owned()];
        }
        let mut pieces = vec![String::new()];
        let mut used = 0.0;
        for character in word.chars() {
            let wide = self.set(character.encode_utf8(&mut [0; 4]), style).width_mm;
            if used > 0.0 && used + wide > width_mm {
                pieces.push(String::new());
                used = 0.0;
            }
            if let Some(piece) = pieces.last_mut() {
                piece.push(character);
            }
            used += wide;
        }
        pieces
    }

    /// A text cut off with an ellipsis where it is wider than a line.
    pub fn within(&self, text: &str, style: Style, width_mm: f64) -> SetWords {
        let whole = self.set(text, style);
        if whole.width_mm <= width_mm {
            return whole;
        }
        let mut kept: Vec<char> = text.chars().collect();
        // Halving the excess each time ends within as many steps as the text has characters.
        while kept.pop().is_some() {
            let shortened: String = kept.iter().chain(['…'].iter()).collect();
            let set = self.set(&shortened, style);
            if set.width_mm <= width_mm {
                return set;
            }
            let excess = (set.width_mm - width_mm) / set.width_mm / 2.0;
            let off = (excess * kept.len() as f64) as usize;
            kept.truncate(kept.len() - off.min(kept.len()));
        }
        self.set("", style)
    }
}

/// Figures of the height of capitals.
fn lining() -> [Feature; 1] {
    [Feature::new(Tag::new(b"lnum"), 1, ..)]
}

impl OneCut {
    fn open(bytes: &'static [u8]) -> Result<OneCut, PageError> {
        let broken = |why: String| PageError::Typeface(why);
        let file = FontRef::new(bytes).map_err(|error| broken(error.to_string()))?;
        let characters = geometry::font::Font::parse(bytes, 0, &BTreeMap::new())
            .map_err(|error| broken(error.to_string()))?;
        let pdf = PdfFont::new(bytes.into(), 0)
            .ok_or_else(|| broken("it cannot be embedded".to_owned()))?;
        let shaping = ShaperData::new(&file);
        let latin = ShapePlan::new(
            &shaping.shaper(&file).build(),
            Direction::LeftToRight,
            Some(script::LATIN),
            None,
            &lining(),
        );
        Ok(OneCut {
            shaping,
            latin,
            file,
            pdf,
            units_per_em: characters.units_per_em(),
            characters,
        })
    }

    /// The text with each character that the cut lacks by its number, and control characters as spaces.
    fn spelled(&self, text: &str) -> String {
        let mut spelled = String::with_capacity(text.len());
        for character in text.chars() {
            if character.is_control() {
                spelled.push(' ');
            } else if self.characters.glyph_for(character).is_some() {
                spelled.push(character);
            } else {
                spelled.push_str(&format!("U+{:04X}", u32::from(character)));
            }
        }
        spelled
    }
}
