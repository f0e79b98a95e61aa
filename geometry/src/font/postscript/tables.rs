//! The parts of tables `CFF` and `CFF2` that hold drawing programs.
//!
//! # Source
//! As the module above; operators, standard names and the standard encoding: Adobe Technical Note 5176, its tables and appendices.

/// What a walk through a glyph's program needs.
pub struct Tables<'a> {
    /// Whether it is `CFF2`.
    pub second: bool,
    /// The glyphs' programs.
    pub glyphs: Index<'a>,
    /// Subroutines of the whole font.
    pub global: Index<'a>,
    /// Subroutines of the glyph's part of the font.
    pub local: Index<'a>,
    /// Which glyph has which name; `None` for the standard order of names.
    charset: Option<&'a [u8]>,
    /// Whether glyphs have names of the standard order, or of a list.
    named: bool,
    variations: Option<&'a [u8]>,
}

/// A list of pieces of data.
#[derive(Clone, Copy, Default)]
pub struct Index<'a> {
    count: u32,
    width: usize,
    offsets: &'a [u8],
    data: &'a [u8],
}

/// Operators of dictionaries that matter here; those of two bytes have 12 in the upper one.
const CHARSET: u16 = 15;
const PROGRAMS: u16 = 17;
const PRIVATE: u16 = 18;
const SUBROUTINES: u16 = 19;
const VARIATIONS: u16 = 24;
const BY_NUMBER: u16 = 0x0c1e;
const PARTS: u16 = 0x0c24;
const PART_OF_GLYPH: u16 = 0x0c25;

/// The standard encoding: first code, last code, and the number of the first one's name.
const STANDARD: [[u8; 3]; 14] = [
    [32, 126, 1],
    [161, 175, 96],
    [177, 180, 111],
    [182, 189, 115],
    [191, 191, 123],
    [193, 200, 124],
    [202, 203, 132],
    [205, 208, 134],
    [225, 225, 138],
    [227, 227, 139],
    [232, 235, 140],
    [241, 241, 144],
    [245, 245, 145],
    [248, 251, 146],
];

/// The last code for which the standard order of names can be asked.
const LAST_STANDARD: u8 = 228;

impl<'a> Tables<'a> {
    /// Of table `CFF`, for a glyph; `None` if it does not say plainly where they lie.
    pub fn first(data: &'a [u8], glyph: u16) -> Option<Tables<'a>> {
        let header = usize::from(*data.get(2)?);
        let (_, rest) = Index::read(data.get(header.max(4)..)?, 2)?;
        let (tops, rest) = Index::read(rest, 2)?;
        let (_, rest) = Index::read(rest, 2)?;
        let (global, _) = Index::read(rest, 2)?;
        let top = Dict(tops.get(0)?);
        let (glyphs, _) = Index::read(data.get(top.offset(PROGRAMS)??..)?, 2)?;
        let local = if top.operands(BY_NUMBER)?.is_some() {
            subroutines(data, &part_of(data, &top, glyph)?, 2)?
        } else {
            subroutines(data, &top, 2)?
        };
        let charset = top.offset(CHARSET)?.unwrap_or(0);
        Some(Tables {
            second: false,
            glyphs,
            global,
            local: local.unwrap_or_default(),
            charset: data.get(charset..).filter(|_| charset > 2),
            named: charset != 1 && charset != 2,
            variations: None,
        })
    }

    /// Of table `CFF2`; `None` if it does not say plainly where they lie.
    pub fn second(data: &'a [u8]) -> Option<Tables<'a>> {
        let header = usize::from(*data.get(2)?).max(5);
        let length = usize::from(u16::from_be_bytes([*data.get(3)?, *data.get(4)?]));
        let rest = data.get(header..)?;
        let (top, rest) = rest.split_at_checked(length)?;
        let top = Dict(top);
        let (global, _) = Index::read(rest, 4)?;
        let (glyphs, _) = Index::read(data.get(top.offset(PROGRAMS)??..)?, 4)?;
        let mut local = None;
        if let Some(at) = top.offset(PARTS)? {
            let (parts, _) = Index::read(data.get(at..)?, 4)?;
            // The library takes the first part that has any for the whole font.
            let mut parts = (0..parts.len()).filter_map(|part| parts.get(part));
            while let (None, Some(part)) = (local, parts.next()) {
                local = subroutines(data, &Dict(part), 4)?;
            }
        }
        let variations = match top.offset(VARIATIONS)? {
            // The store begins after its length.
            Some(at) => Some(data.get(at.checked_add(2)?..)?),
            None => None,
        };
        Some(Tables {
            second: true,
            glyphs,
            global,
            local: local.unwrap_or_default(),
            charset: None,
            named: false,
            variations,
        })
    }

    /// How many regions a set of variations has.
    pub fn regions(&self, set: u16) -> Option<usize> {
        let store = self.variations?;
        if set >= word(store, 6)? {
            return None;
        }
        let at = number(store, 8 + 4 * usize::from(set), 4)?;
        word(store, at.checked_add(4)?).map(usize::from)
    }

    /// The program of the glyph that has a code in the standard encoding.
    pub fn composed_of(&self, code: f32) -> Option<&'a [u8]> {
        let code = u8::try_from(code as i32).ok()?;
        let range = STANDARD
            .iter()
            .find(|[first, last, _]| (*first..=*last).contains(&code));
        let name = range.map_or(0, |[first, _, name]| {
            u16::from(*name) + u16::from(code - first)
        });
        let glyph = match self.charset {
            None if self.named && code <= LAST_STANDARD => name,
            None => return None,
            Some(_) if name == 0 => 0,
            Some(charset) => glyph_named(charset, name, self.glyphs.len())?,
        };
        self.glyphs.get(u32::from(glyph))
    }
}

/// The glyph that has a name, by its number.
fn glyph_named(charset: &[u8], name: u16, glyphs: u32) -> Option<u16> {
    let (&format, list) = charset.split_first()?;
    if format == 0 {
        let mut names =
            (1..glyphs).map_while(|glyph| Some((glyph, word(list, 2 * (glyph as usize - 1))?)));
        return names
            .find(|(_, found)| *found == name)
            .and_then(|(glyph, _)| u16::try_from(glyph).ok());
    }
    let more = usize::from(format.min(2));
    let mut glyph: u32 = 1;
    let mut at = 0;
    // Each turn passes at least one glyph.
    while glyph < glyphs {
        let first = word(list, at)?;
        let left = number(list, at + 2, more)? as u32;
        if let Some(off) = name
            .checked_sub(first)
            .filter(|off| u32::from(*off) <= left)
        {
            return u16::try_from(glyph + u32::from(off)).ok();
        }
        glyph += left + 1;
        at += 2 + more;
    }
    None
}

/// The part of the font that a glyph belongs to.
fn part_of<'a>(data: &'a [u8], top: &Dict<'a>, glyph: u16) -> Option<Dict<'a>> {
    let (parts, _) = Index::read(data.get(top.offset(PARTS)??..)?, 2)?;
    let (&format, list) = data.get(top.offset(PART_OF_GLYPH)??..)?.split_first()?;
    let part = match format {
        0 => *list.get(usize::from(glyph))?,
        3 => {
            let ranges = usize::from(word(list, 0)?);
            let mut starts = (0..ranges).map(|range| 2 + 3 * range);
            let at = starts.find(|&at| {
                let bounds = word(list, at).zip(word(list, at + 3));
                bounds.is_some_and(|(first, next)| (first..next).contains(&glyph))
            })?;
            *list.get(at + 2)?
        }
        _ => return None,
    };
    parts.get(u32::from(part)).map(Dict)
}

/// The subroutines that a dictionary's private part names, if it does; `None` if it does not say plainly where they lie.
fn subroutines<'a>(
    data: &'a [u8],
    dict: &Dict<'a>,
    count_width: usize,
) -> Option<Option<Index<'a>>> {
    let Some(operands) = dict.operands(PRIVATE)? else {
        return Some(None);
    };
    let [length, at] = <[i32; 2]>::try_from(operands).ok()?;
    let [length, at] = [usize::try_from(length).ok()?, usize::try_from(at).ok()?];
    let private = Dict(data.get(at..at.checked_add(length)?)?);
    let Some(from_private) = private.offset(SUBROUTINES)? else {
        return Some(None);
    };
    let (index, _) = Index::read(data.get(at.checked_add(from_private)?..)?, count_width)?;
    Some(Some(index))
}

impl<'a> Index<'a> {
    /// Reads an index whose count takes so many bytes; answers with what follows it.
    fn read(data: &'a [u8], count_width: usize) -> Option<(Index<'a>, &'a [u8])> {
        let count = u32::try_from(number(data, 0, count_width)?).ok()?;
        let rest = &data[count_width..];
        if count == 0 || count == u32::MAX {
            return Some((Index::default(), rest));
        }
        let (&width, rest) = rest.split_first()?;
        let width = usize::from(width);
        if !(1..=4).contains(&width) {
            return None;
        }
        let length = usize::try_from(count)
            .ok()?
            .checked_add(1)?
            .checked_mul(width)?;
        let (offsets, rest) = rest.split_at_checked(length)?;
        let end = number(offsets, length - width, width)?.checked_sub(1)?;
        let (data, rest) = rest.split_at_checked(end)?;
        let index = Index {
            count,
            width,
            offsets,
            data,
        };
        Some((index, rest))
    }

    /// How many pieces there are.
    pub fn len(&self) -> u32 {
        self.count
    }

    /// A piece.
    pub fn get(&self, place: u32) -> Option<&'a [u8]> {
        if place >= self.count {
            return None;
        }
        let offset =
            |place: usize| number(self.offsets, place * self.width, self.width)?.checked_sub(1);
        let place = usize::try_from(place).ok()?;
        self.data.get(offset(place)?..offset(place + 1)?)
    }
}

/// A dictionary: operands before their operators.
struct Dict<'a>(&'a [u8]);

impl Dict<'_> {
    /// The operands of an operator, if it is there. `None` for what may be read in more ways than one: an operator that is there twice,
    /// or has operands that are not whole; data that ends too soon or holds reserved bytes.
    fn operands(&self, wanted: u16) -> Option<Option<Vec<i32>>> {
        let mut found = None;
        let mut operands = Vec::new();
        let mut rest = self.0;
        // Each turn takes at least one byte.
        while let Some((&byte, after)) = rest.split_first() {
            rest = after;
            match byte {
                0..=24 => {
                    let mut operator = u16::from(byte);
                    if byte == 12 {
                        let [second] = *taken(&mut rest)?;
                        operator = 0x0c00 | u16::from(second);
                    }
                    if operator == wanted {
                        let whole: Option<Vec<i32>> = operands.iter().copied().collect();
                        if found.replace(whole?).is_some() {
                            return None;
                        }
                    }
                    operands.clear();
                }
                28 => operands.push(Some(i32::from(i16::from_be_bytes(*taken(&mut rest)?)))),
                29 => operands.push(Some(i32::from_be_bytes(*taken(&mut rest)?))),
                30 => {
                    // Half bytes up to one of fifteen.
                    let end = rest
                        .iter()
                        .position(|byte| byte & 15 == 15 || byte >> 4 == 15)?;
                    rest = &rest[end + 1..];
                    operands.push(None);
                }
                32..=246 => operands.push(Some(i32::from(byte) - 139)),
                247..=250 => {
                    let [low] = *taken(&mut rest)?;
                    operands.push(Some((i32::from(byte) - 247) * 256 + i32::from(low) + 108));
                }
                251..=254 => {
                    let [low] = *taken(&mut rest)?;
                    operands.push(Some(-(i32::from(byte) - 251) * 256 - i32::from(low) - 108));
                }
                25..=27 | 31 | 255 => return None,
            }
        }
        Some(found)
    }

    /// The one operand of an operator, if it is there, as a place; `None` as above.
    fn offset(&self, operator: u16) -> Option<Option<usize>> {
        match self.operands(operator)? {
            None => Some(None),
            Some(operands) => {
                let [at] = <[i32; 1]>::try_from(operands).ok()?;
                usize::try_from(at).ok().map(Some)
            }
        }
    }
}

fn taken<'a, const N: usize>(rest: &mut &'a [u8]) -> Option<&'a [u8; N]> {
    let (bytes, after) = rest.split_first_chunk()?;
    *rest = after;
    Some(bytes)
}

fn word(data: &[u8], at: usize) -> Option<u16> {
    u16::try_from(number(data, at, 2)?).ok()
}

/// A number of one to four bytes.
fn number(data: &[u8], at: usize, width: usize) -> Option<usize> {
    let bytes = data.get(at..at.checked_add(width)?)?;
    Some(
        bytes
            .iter()
            .fold(0, |number, &byte| number << 8 | usize::from(byte)),
    )
}
