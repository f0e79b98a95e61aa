//! The head of a paper's first page, and the foot of every page.

use super::super::drawing::{GREY, INK, RED};
use super::super::sheet::Sheet;
use super::{Cut, SetWords};
use super::{
    Field, GAP_MM, HEAD_MM, LABEL, LEFT_MM, Letterhead, NAME, Page, Placed, SIDE_MM, SMALL, STRONG,
    Style, TEXT, TITLE, Typeface, ascent, hairline, leading, rule,
};
use crate::proof::impression::Colour;

/// The rule at the head of a paper, mm.
const THICK_MM: f64 = 0.9;
/// From the margin to the foot's rule and its base line, mm.
const TO_FOOT_RULE_MM: f64 = 5.0;
const TO_FOOT_MM: f64 = 9.5;
/// Reference and date have at most this part of the foot.
const ORDER_PART: f64 = 0.55;
/// The most lines of a title at the head.
const MOST_TITLE_LINES: usize = 6;
/// The paper's maker has at most this part of the width, its name the rest.
const MAKER_PART: f64 = 0.38;

/// Adds words; their base line is given.
pub fn put(page: &mut Page, words: SetWords, x: f64, base: f64, colour: Colour) {
    page.push(Placed::Words {
        x,
        base,
        words,
        colour,
    });
}

/// The head of the first page; gives where its contents begin.
pub fn head(page: &mut Page, sheet: &Sheet, letterhead: &Letterhead, face: &Typeface) -> f64 {
    let field = Field::of(letterhead.page);
    let across = [LEFT_MM, field.right()];
    rule(page, across, HEAD_MM + THICK_MM / 2.0, THICK_MM, INK);
    let top = HEAD_MM + THICK_MM + 2.0;
    let maker_foot = maker(page, letterhead, face, field, top);
    let room = field.whole_mm() * (1.0 - MAKER_PART) - GAP_MM;
    let mut y = top + 1.0;
    for line in face.lines(sheet.name, NAME, room) {
        put(page, line, LEFT_MM, y + ascent(NAME), INK);
        y += leading(NAME);
    }
    if !letterhead.title.is_empty() {
        for line in face
            .lines(&letterhead.title, TITLE, room)
            .into_iter()
            .take(MOST_TITLE_LINES)
        {
            put(page, line, LEFT_MM, y + ascent(TITLE), INK);
            y += leading(TITLE);
        }
    }
    y = y.max(maker_foot) + 3.0;
    if !letterhead.warning.is_empty() {
        hairline(page, across, y);
        y += 1.6;
        for line in face.lines(&letterhead.warning, STRONG, field.whole_mm()) {
            put(page, line, LEFT_MM, y + ascent(STRONG), RED);
            y += leading(STRONG);
        }
        y += 1.2;
    }
    hairline(page, across, y);
    y += 2.0;
    for (label, value) in &sheet.facts {
        y = fact(page, face, field, (label, value), y);
    }
    if !sheet.facts.is_empty() {
        y += 1.6;
        hairline(page, across, y);
    }
    y + 5.0
}

fn maker(page: &mut Page, letterhead: &Letterhead, face: &Typeface, field: Field, top: f64) -> f64 {
    let mut y = top;
    for (number, line) in letterhead.maker.iter().enumerate() {
        let style = Style {
            cut: if number == 0 {
                Cut::Strong
            } else {
                Cut::Regular
            },
            size: 9.0,
        };
        for words in face.lines(line, style, field.whole_mm() * MAKER_PART) {
            let x = field.right() - words.width_mm;
            put(page, words, x, y + ascent(style), INK);
            y += leading(style);
        }
    }
    y
}

/// A label in the side column and its value beside it; gives where the next begins.
pub fn fact(
    page: &mut Page,
    face: &Typeface,
    field: Field,
    (label, value): (&str, &str),
    top: f64,
) -> f64 {
    let base = top + ascent(TEXT);
    let labels = face.lines(label, LABEL, SIDE_MM);
    let values = face.lines(value, TEXT, field.main_mm());
    let lines = labels.len().max(values.len());
    for (number, words) in labels.into_iter().enumerate() {
        put(
            page,
            words,
            LEFT_MM,
            base + number as f64 * leading(TEXT),
            GREY,
        );
    }
    for (number, words) in values.into_iter().enumerate() {
        let base = base + number as f64 * leading(TEXT);
        put(page, words, field.main_left(), base, INK);
    }
    top + lines as f64 * leading(TEXT)
}

/// The foot: the order at the left, the paper and its page at the right.
pub fn foot(
    page: &mut Page,
    sheet: &Sheet,
    letterhead: &Letterhead,
    face: &Typeface,
    (number, of): (usize, usize),
) {
    let field = Field::of(letterhead.page);
    hairline(
        page,
        [LEFT_MM, field.right()],
        field.bottom() + TO_FOOT_RULE_MM,
    );
    let base = field.bottom() + TO_FOOT_MM;
    let pages = face.set(&format!("{}, page {number} of {of}", sheet.name), SMALL);
    let room = field.whole_mm() - pages.width_mm - GAP_MM;
    let x = field.right() - pages.width_mm;
    put(page, pages, x, base, INK);
    // A long title gives way to reference and date.
    let order = face.within(&letterhead.foot, SMALL, room * ORDER_PART);
    let gap = if order.width_mm > 0.0 { GAP_MM } else { 0.0 };
    let title = face.within(&letterhead.title, SMALL, room - order.width_mm - gap);
    let beside = LEFT_MM + title.width_mm + if title.width_mm > 0.0 { gap } else { 0.0 };
    put(page, title, LEFT_MM, base, GREY);
    put(page, order, beside, base, GREY);
    if !letterhead.warning.is_empty() {
        let style = Style {
            cut: Cut::Strong,
            ..SMALL
        };
        let words = face.within(&letterhead.warning, style, field.whole_mm());
        put(page, words, LEFT_MM, base + leading(SMALL), RED);
    }
}
