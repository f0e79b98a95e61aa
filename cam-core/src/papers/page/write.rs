//! Pages as PDF.

use krilla::Document;
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Stroke, StrokeDash};
use krilla::surface::Surface;
use kurbo::{BezPath, PathEl};

use super::super::drawing::MM_PER_POINT;
use super::super::sheet::Sheet;
use super::{Letterhead, Page, PageError, Placed, Typeface};
use crate::proof::impression::Colour;

/// A broken line's strokes and gaps, mm.
pub(super) const BROKEN_MM: [f64; 2] = [1.6, 1.2];

/// The language that papers are written in.
const LANGUAGE: &str = "en-GB";

pub fn write(
    sheet: &Sheet,
    letterhead: &Letterhead,
    face: &Typeface,
    pages: &[Page],
) -> Result<Vec<u8>, PageError> {
    let packing = |why: String| PageError::Packing {
        name: sheet.name.to_owned(),
        why,
    };
    let [width, height] = letterhead.page.size_mm().map(points);
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new()
            .title(title(sheet, letterhead))
            .language(LANGUAGE.to_owned())
            .creator("Sortwright".to_owned()),
    );
    for page in pages {
        let size = PageSettings::from_wh(width, height)
            .ok_or_else(|| packing("a page has no size".to_owned()))?;
        let mut drawn = document.start_page_with(size);
        let mut surface = drawn.surface();
        draw(&mut surface, page, face);
        surface.finish();
        drawn.finish();
    }
    document
        .finish()
        .map_err(|error| packing(format!("{error:?}")))
}

fn title(sheet: &Sheet, letterhead: &Letterhead) -> String {
    if letterhead.title.is_empty() {
        sheet.name.to_owned()
    } else {
        format!("{}: {}", sheet.name, letterhead.title)
    }
}

fn points(mm: f64) -> f32 {
    (mm / MM_PER_POINT) as f32
}

fn draw(surface: &mut Surface, page: &Page, face: &Typeface) {
    // Every clip that was begun has to be ended; one that is nothing is not begun.
    let mut clips: Vec<bool> = Vec::new();
    for placed in page {
        match placed {
            Placed::Words {
                x,
                base,
                words,
                colour,
            } => {
                surface.set_stroke(None);
                surface.set_fill(Some(fill(*colour)));
                surface.draw_glyphs(
                    Point::from_xy(points(*x), points(*base)),
                    &words.glyphs,
                    face.pdf_font(words.style.cut),
                    &words.text,
                    words.style.size as f32,
                    false,
                );
            }
            Placed::Filled(path, colour) => {
                surface.set_stroke(None);
                surface.set_fill(Some(fill(*colour)));
                if let Some(path) = drawn(path) {
                    surface.draw_path(&path);
                }
            }
            Placed::Drawn {
                path,
                colour,
                width,
                broken,
            } => {
                surface.set_fill(None);
                surface.set_stroke(Some(Stroke {
                    paint: paint(*colour).into(),
                    width: points(*width),
                    dash: broken.then(|| StrokeDash {
                        array: BROKEN_MM.map(points).to_vec(),
                        offset: 0.0,
                    }),
                    ..Stroke::default()
                }));
                if let Some(path) = drawn(path) {
                    surface.draw_path(&path);
                }
            }
            Placed::Clipped(path) => {
                let path = drawn(path);
                if let Some(path) = &path {
                    surface.push_clip_path(path, &FillRule::NonZero);
                }
                clips.push(path.is_some());
            }
            Placed::Unclipped => {
                if clips.pop() == Some(true) {
                    surface.pop();
                }
            }
        }
    }
    for begun in clips {
        if begun {
            surface.pop();
        }
    }
}

fn fill(colour: Colour) -> Fill {
    Fill {
        paint: paint(colour).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn paint(colour: Colour) -> rgb::Color {
    rgb::Color::new(colour.red, colour.green, colour.blue)
}

/// A path in points; nothing of one without a line.
fn drawn(path: &BezPath) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for element in path {
        match element {
            PathEl::MoveTo(a) => builder.move_to(points(a.x), points(a.y)),
            PathEl::LineTo(a) => builder.line_to(points(a.x), points(a.y)),
            PathEl::QuadTo(a, b) => {
                builder.quad_to(points(a.x), points(a.y), points(b.x), points(b.y));
            }
            PathEl::CurveTo(a, b, c) => builder.cubic_to(
                points(a.x),
                points(a.y),
                points(b.x),
                points(b.y),
                points(c.x),
                points(c.y),
            ),
            PathEl::ClosePath => builder.close(),
        }
    }
    builder.finish()
}
