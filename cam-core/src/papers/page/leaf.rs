//! Pages as shapes, to be looked at without a reader of PDF: the very places that [`to_pdf`](super::to_pdf) packs.

use kurbo::{Affine, BezPath, Rect, Shape};

use super::super::drawing::MM_PER_POINT;
use super::super::sheet::Sheet;
use super::write::BROKEN_MM;
use super::{Letterhead, Page, Placed, Typeface, flow};
use crate::proof::impression::Colour;

/// One page.
#[derive(Clone, Debug, PartialEq)]
pub struct Leaf {
    /// Width and height, mm.
    pub size_mm: [f64; 2],
    /// What stands on it, in the order of painting.
    pub marks: Vec<LeafMark>,
}

/// A shape on a page, in mm from its upper left corner, y down.
#[derive(Clone, Debug, PartialEq)]
pub struct LeafMark {
    /// The shape.
    pub path: BezPath,
    /// Its colour.
    pub colour: Colour,
    /// The width of its line; `None` of what is filled, by the nonzero rule.
    pub line_mm: Option<f64>,
    /// It is seen only within this; everywhere without.
    pub within: Option<Rect>,
}

/// The pages of a sheet.
pub fn leaves(sheet: &Sheet, letterhead: &Letterhead, face: &Typeface) -> Vec<Leaf> {
    let size_mm = letterhead.page.size_mm();
    flow::laid_out(sheet, letterhead, face)
        .into_iter()
        .map(|page| Leaf {
            size_mm,
            marks: marks(page, face),
        })
        .collect()
}

fn marks(page: Page, face: &Typeface) -> Vec<LeafMark> {
    let mut marks = Vec::new();
    // Clips are frames of drawings, which are upright rectangles, one within another.
    let mut clips: Vec<Rect> = Vec::new();
    for placed in page {
        let (path, colour, line_mm) = match placed {
            Placed::Words {
                x,
                base,
                words,
                colour,
            } => (words_as_path(&words, face, x, base), colour, None),
            Placed::Filled(path, colour) => (path, colour, None),
            Placed::Drawn {
                path,
                colour,
                width,
                broken: false,
            } => (path, colour, Some(width)),
            Placed::Drawn {
                path,
                colour,
                width,
                broken: true,
            } => {
                let dashes = kurbo::dash(path.iter(), 0.0, &BROKEN_MM);
                (dashes.collect(), colour, Some(width))
            }
            Placed::Clipped(path) => {
                let within = clips.last().copied();
                let frame = path.bounding_box();
                clips.push(within.map_or(frame, |within| within.intersect(frame)));
                continue;
            }
            Placed::Unclipped => {
                clips.pop();
                continue;
            }
        };
        marks.push(LeafMark {
            path,
            colour,
            line_mm,
            within: clips.last().copied(),
        });
    }
    marks
}

/// Words as the outlines of their glyphs. A glyph that the face cannot draw is left out.
fn words_as_path(words: &super::SetWords, face: &Typeface, x: f64, base: f64) -> BezPath {
    let em_mm = words.style.size * MM_PER_POINT;
    let mut path = BezPath::new();
    let mut along = 0.0;
    for glyph in &words.glyphs {
        let at = [
            x + (along + f64::from(glyph.x_offset)) * em_mm,
            base - f64::from(glyph.y_offset) * em_mm,
        ];
        if let Some((outline, units_per_em)) =
            face.outline(words.style.cut, glyph.glyph_id.to_u32())
        {
            let scale = em_mm / units_per_em;
            let to_page = Affine::new([scale, 0.0, 0.0, -scale, at[0], at[1]]);
            path.extend(to_page * outline);
        }
        along += f64::from(glyph.x_advance);
    }
    path
}

#[cfg(test)]
mod tests {
    use super::super::super::sheet::Piece;
    use super::*;
    use crate::workshop::PageSize;

    #[test]
    fn what_is_seen_stands_on_the_page() {
        let face = Typeface::open().unwrap();
        let letterhead = Letterhead {
            page: PageSize::Letter,
            title: "Ferry notice".to_owned(),
            maker: vec!["A workshop".to_owned()],
            foot: String::new(),
            warning: String::new(),
        };
        let sheet = Sheet {
            pieces: vec![Piece::heading("Part"), Piece::text("Words. ".repeat(900))],
            name: "Trial",
            file: "trial",
            ..Sheet::default()
        };
        let leaves = leaves(&sheet, &letterhead, &face);
        assert!(leaves.len() > 1, "{}", leaves.len());
        let page = Rect::new(0.0, 0.0, 215.9, 279.4);
        for leaf in &leaves {
            assert_eq!(leaf.size_mm, [215.9, 279.4]);
            assert!(leaf.marks.len() > 3);
            for mark in leaf.marks.iter().filter(|mark| !mark.path.is_empty()) {
                let place = mark.path.bounding_box();
                assert_eq!(place.union(page), page, "{place:?}");
            }
        }
    }
}
