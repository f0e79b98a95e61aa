//! Sorts cut from drawings that are not fonts.
//!
//! A drawing is read at the size that its file states, brought to the size asked for, and placed on a body: in the middle, or with a
//! stated foot. Without a body of its own it stands on the fount's, which grows in steps as it does for letters.

use std::collections::BTreeSet;

use drawing::{Drawing, Reading};
use kurbo::{Affine, BezPath, Rect, Shape};

use geometry::region::region_from_outline;
use said::{Joint, Said, Value};

use super::block::{Edges, edges};
use super::colours::{InColours, Plates, in_face_space};
use super::draw::{block, check_inside, stop, unique};
use super::faces::{FileWords, compare_with_record};
use super::{FLATTENING_MM, LayerFace, Lining, Sort, SortSource};
use crate::commission::{
    BlockRules, Commission, DrawingSize, Extent, GlyphChoice, NamedDrawing, RoundingShare, SetRule,
};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::make::Fonts;
use crate::measure::{Length, System, Unit};
use crate::progress::{Progress, Stopped};
use crate::space::FaceFromReading;

/// Differences smaller than this are arithmetic, not wood, in millimetres.
const NOTHING_MM: f64 = 1e-6;
/// Open ends that are told one by one.
const MOST_ENDS_TOLD: usize = 6;

const OF_DRAWING: FileWords = FileWords {
    changed: |file, found, recorded| texts::drawing_changed(file, found, recorded),
    kinds: ["drawing-not-recorded", "drawing-changed"],
};

/// The colours of a drawing, as `#` and six hexadecimal digits, in the order of first use; none of one that cannot be read.
pub(super) fn colours_of(named: &NamedDrawing, files: &Fonts) -> Vec<String> {
    let bytes = files.get(&named.id);
    let drawing = bytes.and_then(|bytes| drawing::read(bytes, &reading_of(named)).ok());
    let layers = drawing.map_or_else(Vec::new, |drawing| drawing.layers);
    let names = layers.into_iter().map(|layer| layer.name);
    names.filter(|name| name.starts_with('#')).collect()
}

fn reading_of(named: &NamedDrawing) -> Reading {
    Reading {
        join_gap_mm: named.join_gap.in_mm(),
    }
}

/// The sorts of all drawings on the bill, in its order, with what each plate prints of those in colours; lines of one drawing are added up.
/// Trouble with one is a finding of severity stop, and the others are drawn.
///
/// # Errors
/// The work was stopped.
pub(super) fn sorts(
    commission: &Commission,
    files: &Fonts,
    lining: &Lining,
    plates: Option<&Plates<'_>>,
    (names, findings): (&mut BTreeSet<String>, &mut Vec<Finding>),
    progress: &Progress,
) -> Result<Vec<(Sort, Vec<LayerFace>)>, Stopped> {
    let mut ordered: Vec<(&str, u32)> = Vec::new();
    for line in &commission.bill {
        if line.glyph != GlyphChoice::Drawing || line.count == 0 {
            continue;
        }
        match ordered.iter_mut().find(|(id, _)| *id == line.face) {
            Some((_, count)) => *count = count.saturating_add(line.count),
            None => ordered.push((&line.face, line.count)),
        }
    }
    let mut sorts = Vec::new();
    for (id, count) in ordered {
        progress.check()?;
        let Some(named) = commission.drawings.iter().find(|named| named.id == id) else {
            findings.push(stop(
                id,
                "drawing-unknown",
                texts::drawing_unknown(),
                texts::drawing_unknown_remedy(),
            ));
            continue;
        };
        let placing = Placing {
            named,
            name: unique(names, named.id.clone()),
            lining,
            rules: &commission.block,
            system: commission.system,
            plates: plates.filter(|plates| plates.are_of_drawing(id)),
        };
        match placing.sort(files, count, findings) {
            Ok(sort) => sorts.push(sort),
            Err(finding) => findings.push(finding),
        }
    }
    Ok(sorts)
}

/// A drawing on its way to a block.
struct Placing<'a> {
    named: &'a NamedDrawing,
    name: String,
    lining: &'a Lining,
    rules: &'a BlockRules,
    system: System,
    /// `None` of what is in one colour.
    plates: Option<&'a Plates<'a>>,
}

impl Placing<'_> {
    fn sort(
        &self,
        files: &Fonts,
        count: u32,
        findings: &mut Vec<Finding>,
    ) -> Result<(Sort, Vec<LayerFace>), Finding> {
        let drawing = self.read(files, findings)?;
        let path = self.printing(&drawing)?;
        let extent = self.extent(&drawing)?;
        let scale = match self.named.size {
            DrawingSize::AsDrawn => 1.0,
            DrawingSize::Height(height) => height.in_mm() / extent.height(),
            DrawingSize::Width(width) => width.in_mm() / extent.width(),
        };
        if !(scale > 0.0 && scale.is_finite()) {
            return Err(self.stop(
                "drawing-without-size",
                texts::drawing_without_size(),
                texts::drawing_without_size_remedy(),
            ));
        }
        let (width_mm, height_mm) = (extent.width() * scale, extent.height() * scale);
        let lining = Lining {
            body_mm: self.named.body.map_or(self.lining.body_mm, Length::in_mm),
            ..*self.lining
        };
        let foot_mm = match self.named.foot {
            Some(foot) => foot.in_mm(),
            None => (lining.body_mm - height_mm) / 2.0,
        };
        let bottom_mm = foot_mm - lining.baseline_mm;
        let reading_from_mm = Affine::translate((0.0, bottom_mm))
            * Affine::scale(scale)
            * Affine::translate(-extent.origin().to_vec2());
        let mut printing = reading_from_mm * path;
        let mut layers = Vec::new();
        let mut box_mm = Rect::new(0.0, bottom_mm, width_mm, bottom_mm + height_mm);
        if let Some(plates) = self.plates {
            let parted = self.parted(plates, &printing, &drawing, reading_from_mm)?;
            printing = parted.whole;
            layers = parted.layers;
            findings.extend(parted.findings);
            // A shadow or a line about the drawing reaches out of it.
            if !printing.is_empty() {
                box_mm = box_mm.union(printing.bounding_box());
            }
        }
        let edges = self.edges(box_mm, &lining, findings)?;
        let block = block(&edges, &lining, self.system);
        let face_from_reading =
            Affine::translate((edges.right_mm, block.baseline_mm)) * FaceFromReading.affine();
        let face_from_mm = face_from_reading * reading_from_mm;
        let outline = face_from_reading * printing;
        let face = region_from_outline(&outline, FLATTENING_MM)
            .map_err(|error| self.unusable(error.to_string()))?;
        check_inside(&self.name, &face, &block)?;
        let layers = in_face_space(&self.name, &layers, face_from_reading)?;
        let sort = Sort {
            name: self.name.clone(),
            text: String::new(),
            count,
            source: Some(SortSource {
                face: self.named.id.clone(),
                choice: GlyphChoice::Drawing,
                glyph: 0,
                face_from_em: face_from_mm * drawing.mm_from_source,
                part: None,
            }),
            plate: None,
            block,
            outline,
            face,
        };
        Ok((sort, layers))
    }

    /// What each plate prints of the drawing.
    fn parted(
        &self,
        plates: &Plates<'_>,
        whole: &BezPath,
        drawing: &Drawing,
        reading_from_mm: Affine,
    ) -> Result<InColours, Finding> {
        let layers = drawing.layers.iter().map(|layer| {
            let path = layer.outline.nonzero();
            let path = path.map_err(|error| self.unusable(error.to_string()))?;
            Ok((layer.name.clone(), reading_from_mm * path))
        });
        let layers = layers.collect::<Result<_, Finding>>()?;
        plates.of_drawing(&self.name, whole, layers)
    }

    /// The drawing, with what is to be said of its file.
    fn read(&self, files: &Fonts, findings: &mut Vec<Finding>) -> Result<Drawing, Finding> {
        let NamedDrawing {
            id,
            file,
            sha256,
            permission,
            ..
        } = self.named;
        let bytes = files.get(id).ok_or_else(|| {
            self.stop(
                "drawing-missing",
                texts::drawing_missing(file),
                texts::drawing_missing_remedy(),
            )
        })?;
        findings.extend(compare_with_record(&OF_DRAWING, id, file, sha256, bytes));
        if permission.by.trim().is_empty() {
            findings.push(Finding {
                severity: Severity::Warning,
                subject: Subject::Face(id.clone()),
                kind: "permission-not-recorded",
                text: texts::drawing_not_permitted(),
                remedy: texts::drawing_not_permitted_remedy(),
            });
        }
        let drawing = drawing::read(bytes, &reading_of(self.named))
            .map_err(|error| self.unusable(error.to_string()))?;
        findings.extend(drawing.notes.iter().map(|note| Finding {
            severity: Severity::Note,
            subject: Subject::Sort(self.name.clone()),
            kind: "drawing-read-so",
            text: note.clone().into(),
            remedy: Said::default(),
        }));
        if drawing.open_ends.is_empty() {
            Ok(drawing)
        } else {
            Err(self.open_ends(&drawing))
        }
    }

    fn open_ends(&self, drawing: &Drawing) -> Finding {
        let mm = |mm: f64| Length::mm(mm).figures(Unit::Millimetre, System::Pica);
        let count = drawing.open_ends.len();
        let ends = drawing.open_ends.iter().take(MOST_ENDS_TOLD);
        let ends = ends.map(|end| {
            let (x, y) = (mm(end.at.x), mm(end.at.y));
            match end.gap_mm {
                Some(gap_mm) => texts::open_end_with_gap(x, y, mm(gap_mm)),
                None => texts::open_end(x, y),
            }
        });
        let ends = Value::list(ends, Joint::Semicolon);
        let text = match count.saturating_sub(MOST_ENDS_TOLD) {
            0 => texts::drawing_open(count, ends),
            more => texts::drawing_open_further(count, ends, more),
        };
        self.stop("drawing-open", text, texts::drawing_open_remedy())
    }

    /// What is cut, filled by the nonzero rule.
    fn printing(&self, drawing: &Drawing) -> Result<BezPath, Finding> {
        let layer = self.named.layer.as_deref();
        let outline = drawing.part(layer).ok_or_else(|| {
            let names: Vec<&str> = drawing
                .layers
                .iter()
                .map(|layer| layer.name.as_str())
                .collect();
            self.stop(
                "layer-missing",
                texts::layer_missing(layer.unwrap_or_default()),
                if names.is_empty() {
                    texts::layer_missing_remedy()
                } else {
                    texts::layers_are_remedy(Value::list(names, Joint::Comma))
                },
            )
        })?;
        let path = outline
            .nonzero()
            .map_err(|error| self.unusable(error.to_string()))?;
        if path.is_empty() {
            return Err(self.stop(
                "nothing-drawn",
                texts::drawing_empty(),
                texts::drawing_empty_remedy(),
            ));
        }
        Ok(path)
    }

    fn extent(&self, drawing: &Drawing) -> Result<Rect, Finding> {
        match self.named.extent {
            Extent::Drawing => drawing.whole.bounding_box().ok_or_else(|| {
                self.stop(
                    "nothing-drawn",
                    texts::drawing_empty(),
                    texts::drawing_empty_remedy(),
                )
            }),
            Extent::Page => drawing.page.map(|page| page.to_rect()).ok_or_else(|| {
                self.stop(
                    "drawing-without-page",
                    texts::drawing_without_page(),
                    texts::drawing_without_page_remedy(),
                )
            }),
        }
    }

    /// The block's edges around the box that the drawing takes.
    fn edges(
        &self,
        box_mm: Rect,
        lining: &Lining,
        findings: &mut Vec<Finding>,
    ) -> Result<Edges, Finding> {
        if self.named.body.is_some() {
            let above_mm = box_mm.y1 - (lining.body_mm - lining.baseline_mm);
            let out_mm = above_mm.max(-lining.baseline_mm - box_mm.y0);
            if out_mm > NOTHING_MM {
                return Err(self.stop(
                    "drawing-out-of-body",
                    texts::drawing_out_of_body(self.show(lining.body_mm), self.show(out_mm)),
                    texts::drawing_out_of_body_remedy(),
                ));
            }
        }
        let side = self.named.side.unwrap_or(self.rules.least_side);
        let rules = BlockRules {
            set: SetRule::FaceAndMargin(side),
            least_side: side,
            share: RoundingShare::Even,
            ..*self.rules
        };
        let (mut edges, more) = edges(&self.name, box_mm, 0.0, lining, &rules, self.system);
        findings.extend(more);
        if let Some(set) = self.named.set {
            let left_mm = self.named.left.map(Length::in_mm);
            let over_mm = box_mm.width() + left_mm.unwrap_or(0.0) - set.in_mm();
            if over_mm > NOTHING_MM {
                return Err(self.stop(
                    "drawing-wider-than-set",
                    texts::drawing_wider_than_set(
                        self.show(box_mm.width() + left_mm.unwrap_or(0.0)),
                        self.show(set.in_mm()),
                    ),
                    texts::drawing_wider_than_set_remedy(),
                ));
            }
            edges.left_mm = match left_mm {
                Some(left_mm) => box_mm.x0 - left_mm,
                None => box_mm.center().x - set.in_mm() / 2.0,
            };
            edges.right_mm = edges.left_mm + set.in_mm();
        }
        Ok(edges)
    }

    fn show(&self, mm: f64) -> Value {
        Length::mm(mm).figures(Unit::Millimetre, self.system)
    }

    fn stop(&self, kind: &'static str, text: Said, remedy: Said) -> Finding {
        stop(&self.name, kind, text, remedy)
    }

    fn unusable(&self, why: String) -> Finding {
        self.stop(
            "drawing-unusable",
            why.into(),
            texts::drawing_unusable_remedy(),
        )
    }
}

#[cfg(test)]
mod tests;
