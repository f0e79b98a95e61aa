//! Fonts built to be as bad as can be.
//!
//! # Source
//! OpenType specification, "Organization of an OpenType font"; Adobe Technical Notes 5176 and 5177, for table `CFF`.

use ttf_parser::{RawFace, Tag};

/// A font that must be refused.
pub struct BadFont {
    /// What is bad about it.
    pub what: &'static str,
    /// Words of the sentence that refuses it.
    pub says: &'static str,
    /// The file.
    pub bytes: Vec<u8>,
}

/// A font with some of its tables replaced or added; a table of no bytes is left out.
///
/// # Panics
/// If the font is none.
pub fn with_tables(font: &[u8], replaced: &[(&[u8; 4], Vec<u8>)]) -> Vec<u8> {
    let face = RawFace::parse(font, 0).expect("a font from a package");
    let own = face.table_records.into_iter().map(|record| record.tag);
    let own = own.filter(|tag| replaced.iter().all(|(name, _)| **name != tag.to_bytes()));
    let mut tables: Vec<([u8; 4], Vec<u8>)> = own
        .map(|tag| (tag.to_bytes(), face.table(tag).unwrap_or_default().to_vec()))
        .chain(replaced.iter().map(|(name, bytes)| (**name, bytes.clone())))
        .filter(|(_, bytes)| !bytes.is_empty())
        .collect();
    tables.sort();
    let mut head = vec![0, 1, 0, 0];
    head.extend((tables.len() as u16).to_be_bytes());
    head.extend([0; 6]);
    let mut body = Vec::new();
    let start = 12 + 16 * tables.len();
    for (tag, bytes) in &tables {
        head.extend(tag);
        head.extend([0; 4]);
        head.extend(((start + body.len()) as u32).to_be_bytes());
        head.extend((bytes.len() as u32).to_be_bytes());
        body.extend(bytes);
        body.resize(body.len().next_multiple_of(4), 0);
    }
    head.extend(body);
    head
}

/// A font of one glyph with a PostScript outline, drawn by a program with these subroutines. In the program, byte 32 calls the first,
/// 33 the second, and so on, if 29 follows it.
pub fn postscript(subroutines: &[Vec<u8>], glyph: &[u8]) -> Vec<u8> {
    let glyph = [glyph.to_vec()];
    let before = |at: usize| {
        let top = [&[29][..], &(at as u32).to_be_bytes(), &[17]].concat();
        [
            vec![1, 0, 4, 4],
            index(&[b"Bad".to_vec()], 2),
            index(&[top], 2),
            index(&[], 2),
            index(subroutines, 2),
        ]
        .concat()
    };
    let cff = [before(before(0).len()), index(&glyph, 2)].concat();
    with_outlines(b"CFF ", cff)
}

/// The same with an outline that varies, by one region.
fn varying(glyph: &[u8]) -> Vec<u8> {
    let store = [
        &[0, 1, 0, 0, 0, 12, 0, 1, 0, 0, 0, 22][..],
        // One axis, one region: 0, 1, 1.
        &[0, 1, 0, 1, 0, 0, 0x40, 0, 0x40, 0],
        // No items, one region, which is the first.
        &[0, 0, 0, 0, 0, 1, 0, 0],
    ]
    .concat();
    let store = [(store.len() as u16).to_be_bytes().to_vec(), store].concat();
    let before = |at: usize| {
        let place =
            |at: usize, operator: u8| [&[29][..], &(at as u32).to_be_bytes(), &[operator]].concat();
        let top = [place(at, 17), place(at - store.len().min(at), 24)].concat();
        [
            vec![2, 0, 5],
            (top.len() as u16).to_be_bytes().to_vec(),
            top,
            index(&[], 4),
            store.clone(),
        ]
        .concat()
    };
    let cff = [before(before(0).len()), index(&[glyph.to_vec()], 4)].concat();
    with_outlines(b"CFF2", cff)
}

fn with_outlines(tag: &[u8; 4], outlines: Vec<u8>) -> Vec<u8> {
    let font = crate::fonts::text_font("hack").bytes;
    let face = RawFace::parse(font, 0).expect("a font from a package");
    let mut most = face
        .table(Tag::from_bytes(b"maxp"))
        .unwrap_or_default()
        .to_vec();
    most[4..6].copy_from_slice(&[0, 1]);
    let none = Vec::new();
    with_tables(
        font,
        &[
            (b"maxp", most),
            (b"glyf", none.clone()),
            (b"loca", none),
            (tag, outlines),
        ],
    )
}

/// An index whose count takes so many bytes.
fn index(pieces: &[Vec<u8>], count_width: usize) -> Vec<u8> {
    let count = (pieces.len() as u32).to_be_bytes();
    let mut bytes = count[4 - count_width..].to_vec();
    if pieces.is_empty() {
        return bytes;
    }
    bytes.push(4);
    let mut at: u32 = 1;
    bytes.extend(at.to_be_bytes());
    for piece in pieces {
        at += piece.len() as u32;
        bytes.extend(at.to_be_bytes());
    }
    bytes.extend(pieces.concat());
    bytes
}

/// Fonts whose drawing programs would keep a machine busy for ever, fill its memory, or take what is not there.
pub fn endless_fonts() -> Vec<BadFont> {
    let call = |number: u8| [32 + number, 29];
    let nested = |times: usize, last: Vec<u8>| {
        let mut subroutines: Vec<Vec<u8>> = (1..10).map(|next| call(next).repeat(times)).collect();
        subroutines.push(last);
        postscript(&subroutines, &[&call(0)[..], &[14]].concat())
    };
    // A line of 1, 1, three thousand times.
    let lines = [140, 140, 5].repeat(3000);
    let start = [139, 139, 21];
    let wide = [&start[..], &call(0).repeat(5000), &[14]].concat();
    let bad = |what, says, bytes| BadFont { what, says, bytes };
    vec![
        bad(
            "ten levels of thirty calls",
            "too many steps",
            nested(30, vec![11]),
        ),
        bad(
            "ten levels of a thousand calls",
            "too many steps",
            nested(1000, vec![11]),
        ),
        bad(
            "fifteen million lines",
            "too many steps",
            postscript(&[lines], &wide),
        ),
        bad(
            "it calls itself",
            "broken",
            postscript(&[call(0).to_vec()], &[&call(0)[..], &[14]].concat()),
        ),
        bad(
            "a subroutine that is not there",
            "broken",
            postscript(&[vec![11]], &[&call(9)[..], &[14]].concat()),
        ),
        bad("a blend of nothing", "broken", varying(&[16])),
        bad(
            "a subroutine whose number is blended",
            "broken",
            varying(&[139, 139, 140, 16, 29]),
        ),
    ]
}
