//! Blocks with their faces: one by one while few are seen, and as a layer where they are many.

use std::sync::Arc;

use egui::{Color32, Stroke, StrokeKind, Ui, vec2};
use kurbo::{Affine, Point, Rect, Shape};

use cam_core::plank::Plank;
use cam_core::sort::Sort;

use super::super::super::Desk;
use super::super::super::canvas::Sheet;
use super::super::super::layer::Layer;
use super::super::super::marks as marks_of;
use super::super::super::theme::Palette;
use super::preview::Shown;
use super::shift;
use crate::background::drawing::Mark;

/// The most faces that are painted anew in every frame: a tenth of what a frame may cost.
const MOST_AT_ONCE: usize = 48;
/// How far a rectangle's corners may lie off, mm: it has none that are round.
const SQUARE_MM: f64 = 1.0;
/// Width of a block's edge, px.
const EDGE: f32 = 0.8;
/// How far below a block its mark stands, px.
const UNDER: f32 = 7.0;

/// Blocks of these planks, drawn in these colours.
#[derive(Clone)]
struct Drawn {
    shown: Arc<Shown>,
    palette: Palette,
}

impl PartialEq for Drawn {
    fn eq(&self, other: &Drawn) -> bool {
        Arc::ptr_eq(&self.shown, &other.shown) && self.palette == other.palette
    }
}

/// The blocks as they are painted.
#[derive(Default)]
pub(super) struct Blocks {
    drawn: Layer<Drawn>,
}

impl Blocks {
    /// Whether they are being drawn.
    pub(super) fn is_busy(&self) -> bool {
        self.drawn.is_busy()
    }

    /// Paints all blocks, and marks those of the chosen sort.
    pub(super) fn paint(
        &mut self,
        ui: &Ui,
        sheet: &Sheet,
        desk: &mut Desk,
        shown: &Arc<Shown>,
        palette: &Palette,
    ) {
        let seen = |block: &Rect| sheet.rect_at(*block).intersects(sheet.rect);
        let few = placed(shown)
            .filter(|(_, block)| seen(block))
            .take(MOST_AT_ONCE + 1)
            .count()
            <= MOST_AT_ONCE;
        if few {
            let grave = marks_of::grave_sorts(desk);
            for (sort, block) in placed(shown).filter(|(_, block)| seen(block)) {
                let fill = desk.faces.of(sort, sheet.scale);
                let at = block.origin().to_vec2();
                let place = sheet.rect_at(block);
                sheet.painter.rect_filled(place, 0.0, palette.wood);
                edge(sheet, block, Stroke::new(EDGE, palette.grain));
                fill.paint(&sheet.painter, |p: Point| sheet.at(p + at), palette.face);
                if let Some(severity) = grave.get(sort.name.as_str()) {
                    // Beside the block, in the lane: on the wood a mark would not be read.
                    let at = place.left_bottom() + vec2(place.width() / 2.0, UNDER);
                    marks_of::mark(&sheet.painter, at, *severity, palette);
                }
            }
        } else {
            let key = Drawn {
                shown: Arc::clone(shown),
                palette: *palette,
            };
            self.drawn.paint(ui, sheet, key, || marks(shown, palette));
        }
        let Some(chosen) = desk.selection.sort.as_ref() else {
            return;
        };
        for (sort, block) in placed(shown) {
            if sort.name == *chosen && seen(&block) {
                edge(sheet, block, Stroke::new(2.0, palette.accent));
            }
        }
    }
}

fn edge(sheet: &Sheet, block: Rect, stroke: Stroke) {
    let place = sheet.rect_at(block);
    sheet
        .painter
        .rect_stroke(place, 0.0, stroke, StrokeKind::Inside);
}

/// Each block with its place on the sheet.
fn placed(shown: &Shown) -> impl Iterator<Item = (&Arc<Sort>, Rect)> {
    let planks: &[Plank] = &shown.planks;
    planks.iter().enumerate().flat_map(move |(number, plank)| {
        let shift = shift(planks, number);
        plank.places.iter().filter_map(move |place| {
            let sort = shown.sorts.get(place.sort)?;
            Some((sort, sort.block.rect() + (place.at + shift)))
        })
    })
}

/// The blocks and faces, as they are drawn.
fn marks(shown: &Shown, palette: &Palette) -> Vec<Mark> {
    let area = |path, colour: Color32| Mark::Area {
        path,
        colour,
        within: None,
    };
    let mut marks = Vec::new();
    for (sort, block) in placed(shown) {
        let outline = block.to_path(SQUARE_MM);
        let corners = outline.elements().iter().filter_map(|one| one.end_point());
        let mut places: Vec<Point> = corners.collect();
        places.extend(places.first().copied());
        marks.push(area(outline, palette.wood));
        marks.push(Mark::Line {
            places,
            colour: palette.grain,
            width: EDGE,
            dashes: None,
        });
        let at = Affine::translate(block.origin().to_vec2());
        marks.push(area(at * sort.outline.clone(), palette.face));
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::background::drawing::{View, draw};
    use cam_core::plank::Place;
    use cam_core::progress::Progress;
    use cam_core::sort::Block;
    use geometry::region::Region;
    use kurbo::{BezPath, Circle, Vec2};

    use super::super::super::super::theme::LIGHT;

    /// Blocks of 10 by 10 mm with a round face, on two planks.
    fn shown() -> Shown {
        let face: BezPath = Circle::new((5.0, 5.0), 3.0).to_path(1e-6);
        let sort = Sort {
            name: "o".to_owned(),
            text: "o".to_owned(),
            count: 4,
            source: None,
            plate: None,
            block: Block {
                outline: Vec::new(),
                body_mm: 10.0,
                set_mm: 10.0,
                baseline_mm: 2.0,
                extended_pt: [0.0, 0.0],
                plain: false,
                notches: Vec::new(),
            },
            outline: face,
            face: Region::default(),
        };
        let place = |x: f64| Place {
            id: "o-1".to_owned(),
            sort: 0,
            at: Vec2::new(x, 20.0),
        };
        let plank = || Plank {
            width_mm: 100.0,
            length_mm: 60.0,
            places: vec![place(10.0), place(30.0)],
            ..Plank::default()
        };
        Shown {
            planks: vec![plank(), plank()],
            sorts: vec![Arc::new(sort)],
            at_least: 1,
            findings: Vec::new(),
        }
    }

    #[test]
    fn what_is_drawn_covers_what_the_blocks_and_faces_cover() {
        let shown = shown();
        let (first, _) = (shift(&shown.planks, 0), shift(&shown.planks, 1));
        let view = View {
            centre: Point::new(25.0, 25.0) + first,
            scale: 20.0,
            dots: [1000, 1000],
            per_point: 1.0,
        };
        let image = draw(&marks(&shown, &LIGHT), &view, &Progress::new());
        let dark = image
            .pixels
            .iter()
            .filter(|dot| **dot == LIGHT.face)
            .count();
        let any = image.pixels.iter().filter(|dot| dot.a() == 255).count();
        let circle = std::f64::consts::PI * 9.0 * 400.0;
        assert!((dark as f64 - 2.0 * circle).abs() < 0.05 * circle, "{dark}");
        assert!(any.abs_diff(2 * 200 * 200) < 2 * 4 * 200, "{any}");
        assert_eq!(placed(&shown).count(), 4);
    }
}
