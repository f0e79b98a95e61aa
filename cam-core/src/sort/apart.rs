//! Letters and drawings cut apart along lines of the maker's, into sorts that join.
//!
//! The faces of the parts run out to the edges along which they were cut, so that the whole prints when the blocks stand side by side; their
//! curves are those of the whole. A middle piece carries on straight what its line crosses. Parts are numbered in reading order: from left to right, from head to foot.

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use geometry::cut::{Crossing, Side, Straight, one_side, stretches};
use geometry::region::region_from_outline;
use said::Value;

use super::draw::stop;
use super::{Block, FLATTENING_MM, Part, Sort, SortSource};
use crate::commission::{Commission, CutApart, CutLine, CutPiece, LineWay};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::measure::{Length, System, Unit};

/// Edges that slope by more than this where they are cut show a kink beside a middle piece, in degrees. Common practice, no source.
const LEVEL_DEG: f64 = 2.0;
/// Stretches of a line shorter than this are where it touches the letter, not where it crosses it, in millimetres.
const NOTHING_MM: f64 = 1e-3;

/// Cuts apart what the commission cuts apart, and leaves all else as it is. What cannot be cut becomes a finding and is left out.
pub(super) fn all_cut_apart(
    sorts: Vec<Sort>,
    commission: &Commission,
    findings: &mut Vec<Finding>,
) -> Vec<Sort> {
    if commission.cut_apart.is_empty() {
        return sorts;
    }
    let mut cut = vec![false; commission.cut_apart.len()];
    let mut parted = Vec::new();
    for sort in sorts {
        let place = sort.source.as_ref().and_then(|source| {
            let mut cuts = commission.cut_apart.iter();
            cuts.position(|cut| cut.face == source.face && cut.glyph == source.choice)
        });
        let Some(place) = place else {
            parted.push(sort);
            continue;
        };
        cut[place] = true;
        let is_ordered = sort.count > 0;
        match cut_apart(&sort, &commission.cut_apart[place], commission.system) {
            Ok((parts, of_parts)) => {
                parted.extend(parts);
                findings.extend(of_parts.into_iter().filter(|_| is_ordered));
            }
            Err(finding) if is_ordered => findings.push(finding),
            Err(_) => {}
        }
    }
    let idle = commission.cut_apart.iter().zip(&cut);
    let idle = idle.filter(|(_, is_cut)| !**is_cut && commission.replaces.is_none());
    findings.extend(idle.map(|(cut, _)| not_on_bill(cut)));
    parted
}

fn not_on_bill(cut: &CutApart) -> Finding {
    Finding {
        severity: Severity::Warning,
        subject: Subject::Commission,
        kind: "cut-not-ordered",
        text: texts::cut_not_ordered(super::glyph::name_of(&cut.glyph), &cut.face),
        remedy: texts::cut_not_ordered_remedy(),
    }
}

/// The parts of a letter in reading order, then its middle pieces, and what the maker should know. A line beside the block is a stop.
fn cut_apart(
    sort: &Sort,
    cut: &CutApart,
    system: System,
) -> Result<(Vec<Sort>, Vec<Finding>), Finding> {
    let whole = Whole { sort, system };
    let columns = whole.edges(cut, LineWay::Upright)?;
    let rows = whole.edges(cut, LineWay::Level)?;
    let mut findings = Vec::new();
    let mut parts = Vec::new();
    let mut number = 0;
    for row in rows.windows(2).rev() {
        for column in columns.windows(2) {
            let cell = Rect::new(column[0], row[0], column[1], row[1]);
            let count = match &cut.counts {
                Some(counts) if sort.count > 0 => counts.get(number).copied().unwrap_or(0),
                Some(_) | None => sort.count,
            };
            number += 1;
            match whole.part(cell, number, count)? {
                Some(part) => parts.push(part),
                None => findings.push(whole.without_face(number)),
            }
        }
    }
    for way in [LineWay::Upright, LineWay::Level] {
        for (number, line) in cut.lines_of(way).iter().enumerate() {
            let crossed = whole.crossings(line);
            findings.extend(whole.of_the_joint(line, &crossed));
            parts.extend(whole.middle(line, number + 1, &crossed)?);
        }
    }
    Ok((parts, findings))
}

/// What the pieces of letters are called, before their numbers.
const PART: &str = "part";
const MIDDLE: &str = "middle";

/// Which piece of a letter a name is that of.
pub(crate) fn numbered(name: &str) -> Option<CutPiece> {
    let (rest, number) = name.rsplit_once(' ')?;
    let number = number.parse().ok()?;
    let (_, kind) = rest.rsplit_once(' ')?;
    match kind {
        PART => Some(CutPiece::Part(number)),
        MIDDLE => Some(CutPiece::Middle(number)),
        _ => None,
    }
}

/// A letter that is being cut apart.
struct Whole<'a> {
    sort: &'a Sort,
    system: System,
}

impl Whole<'_> {
    /// The edges of the parts across one way, as printed, from the left or the foot; the block's own first and last.
    fn edges(&self, cut: &CutApart, way: LineWay) -> Result<Vec<f64>, Finding> {
        let block = &self.sort.block;
        let most_mm = match way {
            LineWay::Upright => block.set_mm,
            LineWay::Level => block.body_mm,
        };
        let mut edges = vec![0.0];
        for line in cut.lines_of(way) {
            let at_mm = line.at.in_mm();
            if !(at_mm > NOTHING_MM && at_mm < most_mm - NOTHING_MM) {
                return Err(stop(
                    &self.sort.name,
                    "cut-beside-block",
                    match way {
                        LineWay::Upright => {
                            texts::cut_beside_set(self.show(at_mm), self.show(most_mm))
                        }
                        LineWay::Level => {
                            texts::cut_beside_body(self.show(at_mm), self.show(most_mm))
                        }
                    },
                    texts::cut_beside_block_remedy(),
                ));
            }
            edges.push(at_mm);
        }
        edges.push(most_mm);
        Ok(edges)
    }

    /// One part: a cell of the block, as printed; `None` where nothing of the face lies in it.
    fn part(&self, cell: Rect, number: usize, count: u32) -> Result<Option<Sort>, Finding> {
        let Sort { block, .. } = self.sort;
        // The face is mirrored: what is left as printed lies at the right here.
        let (left, right) = (block.set_mm - cell.x1, block.set_mm - cell.x0);
        // Nothing hangs over the block, so it is cut along the maker's lines alone.
        let cuts = [
            (
                cell.x1 != block.set_mm,
                Straight::Upright(left),
                Side::Above,
            ),
            (cell.x0 != 0.0, Straight::Upright(right), Side::Below),
            (cell.y0 != 0.0, Straight::Level(cell.y0), Side::Above),
            (
                cell.y1 != block.body_mm,
                Straight::Level(cell.y1),
                Side::Below,
            ),
        ];
        let mut outline = self.sort.outline.clone();
        for (_, line, side) in cuts.into_iter().filter(|(is_cut, ..)| *is_cut) {
            outline = one_side(&outline, line, side);
        }
        let shift = Vec2::new(-left, -cell.y0);
        let is_whole_body = cell.y0 == 0.0 && cell.y1 == block.body_mm;
        let piece = NewSort {
            name: format!("{} {PART} {number}", self.sort.name),
            count,
            set_mm: cell.width(),
            body_mm: cell.height(),
            baseline_mm: block.baseline_mm - cell.y0,
            extended_pt: if is_whole_body {
                block.extended_pt
            } else {
                [0.0; 2]
            },
            at: Some(cell.origin()),
        };
        let part = self.made(piece, outline, shift)?;
        Ok(Some(part).filter(|part| !part.face.is_empty()))
    }

    /// The middle piece of a line, if it has one and crosses anything.
    fn middle(
        &self,
        line: &CutLine,
        number: usize,
        crossed: &[[Crossing; 2]],
    ) -> Result<Option<Sort>, Finding> {
        let Some(middle) = line.middle.filter(|_| !crossed.is_empty()) else {
            return Ok(None);
        };
        let length_mm = middle.length.in_mm();
        let bars = crossed.iter().map(|[from, to]| match line.way {
            LineWay::Upright => Rect::new(0.0, from.along, length_mm, to.along),
            LineWay::Level => Rect::new(from.along, 0.0, to.along, length_mm),
        });
        let bars = bars.flat_map(|bar| bar.path_elements(FLATTENING_MM));
        let outline = BezPath::from_vec(bars.collect());
        let block = &self.sort.block;
        let (set_mm, body_mm, baseline_mm, extended_pt) = match line.way {
            LineWay::Upright => (
                length_mm,
                block.body_mm,
                block.baseline_mm,
                block.extended_pt,
            ),
            LineWay::Level => (
                block.set_mm,
                length_mm,
                block.baseline_mm - line.at.in_mm(),
                [0.0; 2],
            ),
        };
        let piece = NewSort {
            name: format!("{} {MIDDLE} {number}", self.sort.name),
            // None is ordered with a letter of which none is.
            count: if self.sort.count == 0 {
                0
            } else {
                middle.count
            },
            set_mm,
            body_mm,
            baseline_mm,
            extended_pt,
            at: None,
        };
        self.made(piece, outline, Vec2::ZERO).map(Some)
    }

    fn made(&self, new: NewSort, outline: BezPath, shift: Vec2) -> Result<Sort, Finding> {
        let outline = Affine::translate(shift) * outline;
        let face = region_from_outline(&outline, FLATTENING_MM).map_err(|error| {
            stop(
                &new.name,
                "outline-unusable",
                error.to_string().into(),
                texts::part_unusable_remedy(),
            )
        })?;
        let source = self.sort.source.as_ref().map(|source| SortSource {
            face_from_em: Affine::translate(shift) * source.face_from_em,
            part: Some(Part {
                of: self.sort.name.clone(),
                text: self.sort.text.clone(),
                at: new.at,
                of_mm: [self.sort.block.set_mm, self.sort.block.body_mm],
            }),
            ..source.clone()
        });
        Ok(Sort {
            name: new.name,
            text: String::new(),
            count: new.count,
            source,
            plate: None,
            block: Block {
                outline: vec![
                    Point::ZERO,
                    Point::new(new.set_mm, 0.0),
                    Point::new(new.set_mm, new.body_mm),
                    Point::new(0.0, new.body_mm),
                ],
                set_mm: new.set_mm,
                body_mm: new.body_mm,
                baseline_mm: new.baseline_mm,
                extended_pt: new.extended_pt,
                plain: false,
                notches: Vec::new(),
            },
            outline,
            face,
        })
    }

    /// The stretches of a line of cut that lie within the face, in order. Touching does not count.
    fn crossings(&self, line: &CutLine) -> Vec<[Crossing; 2]> {
        let at_mm = line.at.in_mm();
        let line = match line.way {
            LineWay::Upright => Straight::Upright(self.sort.block.set_mm - at_mm),
            LineWay::Level => Straight::Level(at_mm),
        };
        let mut found = stretches(&self.sort.outline, line);
        found.retain(|[from, to]| to.along - from.along > NOTHING_MM);
        found
    }

    /// What there is to say of the joint along a line.
    fn of_the_joint(&self, line: &CutLine, crossed: &[[Crossing; 2]]) -> Option<Finding> {
        let at = self.show(line.at.in_mm());
        let (kind, text, remedy) = if crossed.is_empty() {
            let text = if line.middle.is_some() {
                texts::joint_without_middle(at)
            } else {
                texts::joint_without_face(at)
            };
            let remedy = texts::joint_without_face_remedy();
            ("joint-without-face", text, remedy)
        } else {
            let steepest = crossed
                .iter()
                .flatten()
                .max_by(|a, b| a.slope.total_cmp(&b.slope))
                .filter(|crossing| {
                    crossing.slope.to_degrees() > LEVEL_DEG && line.middle.is_some()
                })?;
            let place = match line.way {
                LineWay::Upright => texts::from_its_foot(self.show(steepest.along)),
                LineWay::Level => {
                    texts::from_its_left_edge(self.show(self.sort.block.set_mm - steepest.along))
                }
            };
            let text =
                texts::joint_not_level(at, place, Value::rounded(steepest.slope.to_degrees(), 1));
            let remedy = texts::joint_not_level_remedy();
            ("joint-not-level", text, remedy)
        };
        Some(Finding {
            severity: Severity::Warning,
            subject: Subject::Sort(self.sort.name.clone()),
            kind,
            text,
            remedy,
        })
    }

    fn without_face(&self, number: usize) -> Finding {
        Finding {
            severity: Severity::Note,
            subject: Subject::Sort(self.sort.name.clone()),
            kind: "part-without-face",
            text: texts::part_without_face(number),
            remedy: texts::part_without_face_remedy(),
        }
    }

    fn show(&self, mm: f64) -> Value {
        Length::mm(mm).figures(Unit::Point, self.system)
    }
}

/// What a part is made from beside its face.
struct NewSort {
    name: String,
    count: u32,
    set_mm: f64,
    body_mm: f64,
    baseline_mm: f64,
    extended_pt: [f64; 2],
    at: Option<Point>,
}

#[cfg(test)]
mod tests;
