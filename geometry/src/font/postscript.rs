//! How long a PostScript outline takes to draw, counted before it is drawn.
//!
//! Ten subroutines that each call the next one a thousand times keep any machine busy for ever. The library that draws them knows no
//! limit but that of nesting, so its way through the program is gone first, with nothing drawn, and given up after a number of steps.
//!
//! # Source
//! Adobe Technical Notes 5176 (The Compact Font Format Specification) and 5177 (The Type 2 Charstring Format); OpenType specification,
//! tables `CFF2` and "Item variation stores".

use ttf_parser::{GlyphId, Tag};

use super::Font;
use tables::Tables;

mod tables;

/// The most steps (operands, operators and calls) of one outline: eight for each of as many points as `glyf` outlines may have.
const MOST_STEPS: u32 = 500_000;

/// The deepest nesting of calls that the library follows.
const MOST_LEVELS: u8 = 10;

/// The most operands that wait at one time.
const MOST_OPERANDS: [usize; 2] = [48, 513];

/// What is too much about a glyph of table `CFF` or `CFF2`, if something is.
///
/// What cannot be followed to its end is refused as well: the library, which might read it in another way, is not let go on with it.
pub(super) fn too_much(font: &Font<'_>, glyph: GlyphId) -> Option<&'static str> {
    let table = |tag: &[u8; 4]| font.face.raw_face().table(Tag::from_bytes(tag));
    let tables = match (
        font.face.tables().cff.is_some(),
        table(b"CFF "),
        table(b"CFF2"),
    ) {
        (true, Some(data), _) => Tables::first(data, glyph.0),
        (_, _, Some(data)) => Tables::second(data),
        (_, _, None) => None,
    };
    let Some(tables) = tables else {
        return Some("its font does not say plainly where drawing programs lie");
    };
    let mut walk = Walk {
        tables: &tables,
        steps: 0,
        operands: Vec::new(),
        stems: 0,
        width_taken: false,
        ended: false,
        composed: false,
        regions: tables.regions(0),
    };
    let program = tables.glyphs.get(u32::from(glyph.0));
    match program.map(|program| walk.run(program, 0)) {
        Some(Ok(())) => None,
        Some(Err(Halt::Endless)) => Some("it takes too many steps to draw"),
        Some(Err(Halt::Fault)) | None => Some("its drawing program is broken"),
    }
}

/// Why a walk stopped before its end.
enum Halt {
    /// It cannot be followed.
    Fault,
    /// It takes too many steps.
    Endless,
}

/// A way through a program, with nothing drawn.
struct Walk<'a> {
    tables: &'a Tables<'a>,
    steps: u32,
    /// Operands that wait; `None` for one that was blended.
    operands: Vec<Option<f32>>,
    stems: usize,
    width_taken: bool,
    ended: bool,
    /// Whether the glyph is composed of two others.
    composed: bool,
    /// Regions of the variation in force; `None` where there are none.
    regions: Option<usize>,
}

impl Walk<'_> {
    /// Goes through a program or subroutine; each turn takes a step, of which there are so many.
    fn run(&mut self, program: &[u8], level: u8) -> Result<(), Halt> {
        let mut rest = program;
        while let Some((&operator, after)) = rest.split_first() {
            self.steps += 1;
            if self.steps > MOST_STEPS {
                return Err(Halt::Endless);
            }
            rest = after;
            match operator {
                1 | 3 | 18 | 23 => self.take_stems(),
                19 | 20 => {
                    self.take_stems();
                    rest = rest.get(self.stems.div_ceil(8)..).unwrap_or_default();
                }
                10 => self.call(self.tables.local, level)?,
                29 => self.call(self.tables.global, level)?,
                11 if !self.tables.second => return Ok(()),
                14 if !self.tables.second => return self.end(rest, level),
                15 if self.tables.second => self.choose_variation()?,
                16 if self.tables.second => self.blend()?,
                12 => {
                    rest = rest.get(1..).ok_or(Halt::Fault)?;
                    self.draw();
                }
                4 | 21 | 22 => {
                    let own = if operator == 21 { 2 } else { 1 };
                    self.width_taken |= self.operands.len() == own + 1;
                    self.draw();
                }
                5..=8 | 24..=27 | 30 | 31 => self.draw(),
                28 => self.number(&mut rest, 2, |bytes| {
                    f32::from(i16::from_be_bytes([bytes[0], bytes[1]]))
                })?,
                32..=246 => self.push(f32::from(operator) - 139.0)?,
                247..=250 => self.number(&mut rest, 1, |bytes| {
                    (f32::from(operator) - 247.0) * 256.0 + f32::from(bytes[0]) + 108.0
                })?,
                251..=254 => self.number(&mut rest, 1, |bytes| {
                    -(f32::from(operator) - 251.0) * 256.0 - f32::from(bytes[0]) - 108.0
                })?,
                255 => self.number(&mut rest, 4, |bytes| {
                    i32::from_be_bytes([bytes[0], bytes[1], bytes[2], bytes[3]]) as f32 / 65_536.0
                })?,
                // Reserved, or of the other format.
                0 | 2 | 9 | 11 | 13..=17 => return Err(Halt::Fault),
            }
            let called = matches!(operator, 10 | 29);
            if called && self.ended && !self.composed {
                return Ok(());
            }
        }
        Ok(())
    }

    /// An operator that draws takes all operands, whether it has use for them or not.
    fn draw(&mut self) {
        self.operands.clear();
    }

    fn take_stems(&mut self) {
        self.stems += self.operands.len() / 2;
        self.width_taken |= self.operands.len() % 2 == 1;
        self.operands.clear();
    }

    fn push(&mut self, operand: f32) -> Result<(), Halt> {
        if self.operands.len() >= MOST_OPERANDS[usize::from(self.tables.second)] {
            return Err(Halt::Fault);
        }
        self.operands.push(Some(operand));
        Ok(())
    }

    fn number(
        &mut self,
        rest: &mut &[u8],
        length: usize,
        of: impl Fn(&[u8]) -> f32,
    ) -> Result<(), Halt> {
        let (bytes, after) = rest.split_at_checked(length).ok_or(Halt::Fault)?;
        *rest = after;
        self.push(of(bytes))
    }

    /// The last operand, which must be one that was written.
    fn pop(&mut self) -> Result<f32, Halt> {
        self.operands.pop().flatten().ok_or(Halt::Fault)
    }

    fn call(&mut self, subroutines: tables::Index<'_>, level: u8) -> Result<(), Halt> {
        let number = self.pop()?;
        if level == MOST_LEVELS {
            return Err(Halt::Fault);
        }
        let bias = match subroutines.len() {
            ..1_240 => 107,
            1_240..33_900 => 1_131,
            33_900.. => 32_768,
        };
        // A number with a fraction is cut off to its whole, as the library does.
        let number = u32::try_from(number as i64 + bias).map_err(|_| Halt::Fault)?;
        let subroutine = subroutines.get(number).ok_or(Halt::Fault)?;
        self.run(subroutine, level + 1)
    }

    /// The end of a glyph: four operands that are left over, or five with the width, compose it of two others.
    fn end(&mut self, rest: &[u8], level: u8) -> Result<(), Halt> {
        let waiting = self.operands.len();
        if waiting == 4 || (!self.width_taken && waiting == 5) {
            let parts = [self.pop()?, self.pop()?].map(|code| self.tables.composed_of(code));
            self.width_taken |= waiting == 5;
            self.operands.clear();
            self.composed = true;
            if level == MOST_LEVELS {
                return Err(Halt::Fault);
            }
            let [Some(accent), Some(base)] = parts else {
                return Err(Halt::Fault);
            };
            self.run(base, level + 1)?;
            self.run(accent, level + 1)?;
        }
        if !rest.is_empty() {
            return Err(Halt::Fault);
        }
        self.ended = true;
        Ok(())
    }

    fn choose_variation(&mut self) -> Result<(), Halt> {
        let number = self.pop()?;
        self.operands.clear();
        self.regions = self.tables.regions(number as u16);
        Ok(())
    }

    /// Blends so many operands with their deltas, one for each region.
    fn blend(&mut self) -> Result<(), Halt> {
        let count = self.pop()? as usize;
        let regions = self.regions.ok_or(Halt::Fault)?;
        let deltas = count.saturating_mul(regions);
        let left = self.operands.len().checked_sub(deltas).ok_or(Halt::Fault)?;
        let first = left.checked_sub(count).ok_or(Halt::Fault)?;
        self.operands.truncate(left);
        self.operands[first..].fill(None);
        Ok(())
    }
}
