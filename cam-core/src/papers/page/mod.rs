//! A sheet laid out on pages, as PDF.
//!
//! Everything is placed in millimetres from the upper left corner of the page, y down. A page has a narrow column at the left, where headings
//! stand, and a wide one for what they speak of; tables and drawings may take both. Pages are filled from the head; what does not fit goes on
//! the next one, and the foot of each tells the order and which page of how many it is.

use kurbo::{Affine, BezPath};

use super::drawing::{Drawing, MM_PER_POINT, Mark, RULE};
use super::sheet::Sheet;
use crate::proof::impression::Colour;
use crate::workshop::PageSize;

mod flow;
mod head;
mod leaf;
mod table;
#[cfg(test)]
mod tests;
mod typeface;
mod write;

pub use leaf::{Leaf, LeafMark, leaves};
pub use typeface::Typeface;
use typeface::{Cut, SetWords, Style};

/// Why a paper could not be laid out.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PageError {
    /// The face of papers is damaged.
    #[error("The face that papers are set in cannot be used: {0}. Build the program again.")]
    Typeface(String),
    /// The pages could not be packed.
    #[error("The paper “{name}” could not be packed as PDF: {why}.")]
    Packing {
        /// The paper.
        name: String,
        /// Why, as the library says it.
        why: String,
    },
}

/// What stands on every page of a set of papers.
#[derive(Clone, Debug)]
pub struct Letterhead {
    /// Size of the pages.
    pub page: PageSize,
    /// The order's title.
    pub title: String,
    /// Who makes it, line by line.
    pub maker: Vec<String>,
    /// What the foot says of the order after its title: reference and date.
    pub foot: String,
    /// What is to be said on every page, such as that no permission is recorded; empty if nothing.
    pub warning: String,
}

/// Text of paragraphs and tables, points.
const TEXT: Style = Style {
    cut: Cut::Regular,
    size: 10.0,
};
const STRONG: Style = Style {
    cut: Cut::Strong,
    size: 10.0,
};
/// Heads of columns and labels.
const LABEL: Style = Style {
    cut: Cut::Italic,
    size: 9.0,
};
/// The foot, and words below drawings.
const SMALL: Style = Style {
    cut: Cut::Regular,
    size: 8.5,
};
/// Titles of parts.
const PART: Style = Style {
    cut: Cut::Regular,
    size: 17.0,
};
/// The paper's name.
const NAME: Style = Style {
    cut: Cut::Regular,
    size: 27.0,
};
/// The order's title below it.
const TITLE: Style = Style {
    cut: Cut::Italic,
    size: 14.0,
};

/// From base line to base line of a style, mm: a little open, to be read at an arm's length.
fn leading(style: Style) -> f64 {
    style.size * 1.36 * MM_PER_POINT
}

/// From the head of a line to its base line, mm.
fn ascent(style: Style) -> f64 {
    style.size * 0.98 * MM_PER_POINT
}

/// Free at the left, where papers are pinned and filed, and at the right, mm.
const LEFT_MM: f64 = 20.0;
const RIGHT_MM: f64 = 15.0;
/// Free at the head and at the foot, mm; the foot's words stand in the latter.
const HEAD_MM: f64 = 15.0;
const FOOT_MM: f64 = 21.0;
/// The column of headings, and the gap beside it, mm.
const SIDE_MM: f64 = 33.0;
const GAP_MM: f64 = 5.0;

/// Where things may stand on a page.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    width_mm: f64,
    height_mm: f64,
}

impl Field {
    /// The field of a size of page.
    pub fn of(page: PageSize) -> Field {
        let [width_mm, height_mm] = page.size_mm();
        Field {
            width_mm,
            height_mm,
        }
    }

    /// Width between the margins, mm.
    pub fn whole_mm(self) -> f64 {
        self.width_mm - LEFT_MM - RIGHT_MM
    }

    /// Width beside the headings, mm.
    pub fn main_mm(self) -> f64 {
        self.whole_mm() - SIDE_MM - GAP_MM
    }

    /// Height between the margins, mm.
    pub fn high_mm(self) -> f64 {
        self.height_mm - HEAD_MM - FOOT_MM
    }

    fn main_left(self) -> f64 {
        LEFT_MM + SIDE_MM + GAP_MM
    }

    fn right(self) -> f64 {
        self.width_mm - RIGHT_MM
    }

    fn bottom(self) -> f64 {
        self.height_mm - FOOT_MM
    }
}

/// Something on a page.
#[derive(Clone, Debug)]
enum Placed {
    Words {
        x: f64,
        base: f64,
        words: SetWords,
        colour: Colour,
    },
    Filled(BezPath, Colour),
    Drawn {
        path: BezPath,
        colour: Colour,
        width: f64,
        broken: bool,
    },
    /// What follows is seen only within this, until [`Placed::Unclipped`].
    Clipped(BezPath),
    Unclipped,
}

/// What stands on one page.
type Page = Vec<Placed>;

/// The sheet as PDF.
///
/// # Errors
/// When the library that packs it refuses.
pub fn to_pdf(
    sheet: &Sheet,
    letterhead: &Letterhead,
    face: &Typeface,
) -> Result<Vec<u8>, PageError> {
    let pages = flow::laid_out(sheet, letterhead, face);
    write::write(sheet, letterhead, face, &pages)
}

/// A fine rule from x to x.
fn rule(page: &mut Page, [from, to]: [f64; 2], y: f64, width: f64, colour: Colour) {
    page.push(Placed::Drawn {
        path: super::drawing::straight((from, y), (to, y)),
        colour,
        width,
        broken: false,
    });
}

/// A hairline.
const HAIR_MM: f64 = 0.12;

fn hairline(page: &mut Page, across: [f64; 2], y: f64) {
    rule(page, across, y, HAIR_MM, RULE);
}

/// A drawing at a scale, its frame's upper left corner at a place of the page.
fn place(page: &mut Page, face: &Typeface, drawing: &Drawing, scale: f64, at: [f64; 2]) {
    let frame = drawing.frame;
    let to_page = Affine::new([
        scale,
        0.0,
        0.0,
        -scale,
        at[0] - scale * frame.x0,
        at[1] + scale * frame.y1,
    ]);
    page.push(Placed::Clipped(to_page * super::drawing::rectangle(frame)));
    for mark in &drawing.marks {
        page.push(match mark {
            Mark::Filled(path, colour) => Placed::Filled(to_page * path.clone(), *colour),
            Mark::Drawn(path, colour, width) => Placed::Drawn {
                path: to_page * path.clone(),
                colour: *colour,
                width: *width,
                broken: false,
            },
            Mark::Broken(path, colour, width) => Placed::Drawn {
                path: to_page * path.clone(),
                colour: *colour,
                width: *width,
                broken: true,
            },
            Mark::Words {
                at,
                moved,
                anchor,
                text,
                size,
                colour,
            } => {
                let words = face.set(
                    text,
                    Style {
                        cut: Cut::Regular,
                        size: *size,
                    },
                );
                let back = match anchor {
                    super::drawing::Anchor::Start => 0.0,
                    super::drawing::Anchor::Middle => words.width_mm / 2.0,
                    super::drawing::Anchor::End => words.width_mm,
                };
                let at = to_page * *at;
                Placed::Words {
                    x: at.x + moved[0] - back,
                    base: at.y - moved[1],
                    words,
                    colour: *colour,
                }
            }
        });
    }
    page.push(Placed::Unclipped);
}
