//! Records as strands: open or closed curves on their layers, blocks written out.

use std::collections::BTreeMap;

use kurbo::{Affine, BezPath, PathEl, Point, Shape, Vec2};

use super::curves::{Corner, arc, ellipse_arc, polyline, radians, sweep};
use super::records::{File, Record, damaged};
use super::spline::Spline;
use crate::{DrawingError, MOST_PIECES};

/// How deep blocks may hold blocks.
const DEEPEST_BLOCK: usize = 16;
/// Records that may be gone through while blocks are written out.
const MOST_RECORDS: usize = 1_000_000;
/// Differences of height below this part of a line's length are rounding.
const FLAT: f64 = 1e-6;

/// A curve of the drawing, in millimetres.
#[derive(Clone, Debug)]
pub(super) struct Strand {
    /// One subpath, without a closing element.
    pub path: BezPath,
    pub is_closed: bool,
    pub layer: String,
}

/// All curves of a file.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub strands: Vec<Strand>,
    pub notes: Vec<String>,
}

/// Where records are drawn.
#[derive(Clone, Copy)]
struct At<'a> {
    /// Takes the record's coordinates to millimetres.
    mm_from_record: Affine,
    /// The layer that records on layer 0 of a block are drawn on.
    layer: Option<&'a str>,
    depth: usize,
}

struct Walk<'a> {
    file: &'a File<'a>,
    found: Vec<Strand>,
    pieces: usize,
    records: usize,
    mm_per_unit: f64,
    passed_over: BTreeMap<&'a str, usize>,
    hidden: usize,
}

/// Draws every record of the file.
///
/// # Errors
/// Damage, text, what is not flat, pieces beyond the limit.
pub(super) fn strands(file: &File, mm_per_unit: f64) -> Result<Found, DrawingError> {
    let mut walk = Walk {
        file,
        found: Vec::new(),
        pieces: 0,
        records: 0,
        mm_per_unit,
        passed_over: BTreeMap::new(),
        hidden: 0,
    };
    walk.records(
        &file.entities,
        At {
            mm_from_record: Affine::scale(mm_per_unit),
            layer: None,
            depth: 0,
        },
    )?;
    let mut notes = Vec::new();
    if walk.hidden > 0 {
        notes.push(format!(
            "{} of the records are hidden or lie on layers that are off, and were passed over.",
            walk.hidden
        ));
    }
    if !walk.passed_over.is_empty() {
        let kinds: Vec<String> = walk
            .passed_over
            .iter()
            .map(|(kind, count)| format!("{kind} ({count})"))
            .collect();
        notes.push(format!(
            "Records that draw no outline were passed over: {}.",
            kinds.join(", ")
        ));
    }
    Ok(Found {
        strands: walk.found,
        notes,
    })
}

impl<'a> Walk<'a> {
    fn records(&mut self, records: &'a [Record<'a>], at: At<'a>) -> Result<(), DrawingError> {
        let mut rest = records.iter();
        while let Some(record) = rest.next() {
            self.records += 1;
            if self.records > MOST_RECORDS {
                return Err(DrawingError::TooManyPieces);
            }
            if record.kind == "POLYLINE" {
                let corners: Vec<&Record> = rest
                    .by_ref()
                    .take_while(|next| next.kind == "VERTEX")
                    .collect();
                if self.is_shown(record, at) {
                    self.old_polyline(record, &corners, at)?;
                }
            } else if self.is_shown(record, at) {
                self.record(record, at)?;
            }
        }
        Ok(())
    }

    fn is_shown(&mut self, record: &Record<'a>, at: At<'a>) -> bool {
        // 67 is set on what belongs to a printed sheet around the drawing, 60 on what is hidden.
        let is_on_sheet = record.whole(67) == Some(1);
        let is_hidden = record.whole(60) == Some(1)
            || self
                .file
                .layers
                .get(layer_of(record, at))
                .is_some_and(|layer| layer.is_hidden);
        if is_hidden && !is_on_sheet {
            self.hidden += 1;
        }
        !is_hidden && !is_on_sheet
    }

    fn record(&mut self, record: &Record<'a>, at: At<'a>) -> Result<(), DrawingError> {
        let scale = self.mm_per_unit;
        match record.kind {
            "LINE" => {
                let (from, to) = (point(record, 10)?, point(record, 11)?);
                let rise = record.number(31)?.unwrap_or(0.0) - record.number(30)?.unwrap_or(0.0);
                if rise.abs() > FLAT * from.distance(to).max(FLAT) {
                    return Err(not_flat(record));
                }
                let mut path = BezPath::new();
                path.push(PathEl::MoveTo(from));
                path.push(PathEl::LineTo(to));
                self.strand(path, false, record, at)
            }
            "CIRCLE" => {
                let path = arc(
                    point(record, 10)?,
                    radius(record)?,
                    0.0,
                    sweep(0.0, 0.0),
                    scale,
                );
                self.strand_in_own_plane(path, true, record, at)
            }
            "ARC" => {
                let start = radians(record.needed(50)?);
                let turn = sweep(start, radians(record.needed(51)?));
                let path = arc(point(record, 10)?, radius(record)?, start, turn, scale);
                self.strand_in_own_plane(path, false, record, at)
            }
            "ELLIPSE" => self.ellipse(record, at),
            "LWPOLYLINE" => {
                let corners = light_corners(record)?;
                let is_closed = record.whole(70).unwrap_or(0) & 1 != 0;
                let path = polyline(&corners, is_closed, scale);
                self.strand_in_own_plane(path, is_closed, record, at)
            }
            "SPLINE" => self.spline(record, at),
            "SOLID" | "TRACE" => {
                // The last two corners come in the order of a Z.
                let mut corners = vec![point(record, 10)?, point(record, 11)?];
                if record.text(13).is_some() {
                    corners.push(point(record, 13)?);
                }
                corners.push(point(record, 12)?);
                let corners: Vec<Corner> = corners
                    .into_iter()
                    .map(|at| Corner { at, bulge: 0.0 })
                    .collect();
                self.strand_in_own_plane(polyline(&corners, true, scale), true, record, at)
            }
            "INSERT" => self.insert(record, at),
            "TEXT" | "MTEXT" | "ATTRIB" => {
                let words = record.text(1).unwrap_or_default();
                if words.is_empty() {
                    Ok(())
                } else {
                    Err(DrawingError::Text(words.chars().take(40).collect()))
                }
            }
            "SEQEND" | "VIEWPORT" | "ATTDEF" => Ok(()),
            kind => {
                *self.passed_over.entry(kind).or_default() += 1;
                Ok(())
            }
        }
    }

    fn ellipse(&mut self, record: &Record<'a>, at: At<'a>) -> Result<(), DrawingError> {
        let major = point(record, 11)?.to_vec2();
        let ratio = record.needed(40)?;
        // The shorter axis lies a quarter turn on, seen from the side that the ellipse's own axis points to.
        let minor = Vec2::new(-major.y, major.x) * ratio * side(record)?;
        let start = record.number(41)?.unwrap_or(0.0);
        let turn = sweep(start, record.number(42)?.unwrap_or(0.0));
        let is_whole = turn >= sweep(0.0, 0.0);
        let path = ellipse_arc(
            point(record, 10)?,
            major,
            minor,
            start,
            turn,
            self.mm_per_unit,
        );
        self.strand(path, is_whole, record, at)
    }

    fn spline(&mut self, record: &Record<'a>, at: At<'a>) -> Result<(), DrawingError> {
        let [xs, ys] = [record.numbers(10)?, record.numbers(20)?];
        if xs.is_empty() {
            return Err(damaged(
                record.line,
                "a spline gives only the points that it passes through; save it with its control points, or as a polyline",
            ));
        }
        let points: Vec<Point> = xs
            .iter()
            .zip(&ys)
            .map(|(&x, &y)| Point::new(x, y))
            .collect();
        let mut weights = record.numbers(41)?;
        if weights.is_empty() {
            weights = vec![1.0; points.len()];
        }
        let degree = record.whole(71).unwrap_or(3);
        let spline = Spline {
            degree: usize::try_from(degree).unwrap_or(0),
            knots: record.numbers(40)?,
            points,
            weights,
        };
        if let Some(fault) = spline.fault() {
            return Err(damaged(record.line, fault));
        }
        let path = spline.path(self.mm_per_unit);
        self.strand(path, false, record, at)
    }

    /// A polyline of the older form, with its corners as records of their own.
    fn old_polyline(
        &mut self,
        record: &Record<'a>,
        corners: &[&Record<'a>],
        at: At<'a>,
    ) -> Result<(), DrawingError> {
        /// Meshes and nets of faces.
        const NO_LINE: i64 = 16 | 64;
        /// A corner that only steers a curve and does not lie on it.
        const STEERS: i64 = 16;
        let flags = record.whole(70).unwrap_or(0);
        if flags & NO_LINE != 0 {
            *self.passed_over.entry("POLYLINE mesh").or_default() += 1;
            return Ok(());
        }
        let corners: Vec<Corner> = corners
            .iter()
            .filter(|corner| corner.whole(70).unwrap_or(0) & STEERS == 0)
            .map(|corner| {
                Ok(Corner {
                    at: point(corner, 10)?,
                    bulge: corner.number(42)?.unwrap_or(0.0),
                })
            })
            .collect::<Result<_, DrawingError>>()?;
        let is_closed = flags & 1 != 0;
        let path = polyline(&corners, is_closed, self.mm_per_unit);
        self.strand_in_own_plane(path, is_closed, record, at)
    }

    fn insert(&mut self, record: &Record<'a>, at: At<'a>) -> Result<(), DrawingError> {
        /// Copies in one direction.
        const MOST_COPIES: i64 = 1_000;
        let name = record.text(2).unwrap_or_default();
        let Some(block) = self.file.blocks.get(name) else {
            return Err(damaged(
                record.line,
                "it uses a block that the file does not have",
            ));
        };
        if at.depth >= DEEPEST_BLOCK {
            return Err(damaged(record.line, "blocks hold one another without end"));
        }
        let number =
            |code, otherwise: f64| record.number(code).map(|found| found.unwrap_or(otherwise));
        let scale = Affine::scale_non_uniform(number(41, 1.0)?, number(42, 1.0)?);
        let turn = Affine::rotate(radians(number(50, 0.0)?));
        let base = Affine::translate((-block.base[0], -block.base[1]));
        let place = at.mm_from_record
            * Affine::scale_non_uniform(side(record)?, 1.0)
            * Affine::translate(point(record, 10)?.to_vec2())
            * turn;
        let copies = |code| record.whole(code).unwrap_or(1).clamp(1, MOST_COPIES);
        let (columns, rows) = (copies(70), copies(71));
        let (across, up) = (number(44, 0.0)?, number(45, 0.0)?);
        for row in 0..rows {
            for column in 0..columns {
                // Copies of an empty block cost time as well.
                self.records += 1;
                if self.records > MOST_RECORDS {
                    return Err(DrawingError::TooManyPieces);
                }
                let shift = Affine::translate((column as f64 * across, row as f64 * up));
                self.records(
                    &block.records,
                    At {
                        mm_from_record: place * shift * scale * base,
                        layer: Some(layer_of(record, at)),
                        depth: at.depth + 1,
                    },
                )?;
            }
        }
        Ok(())
    }

    /// A strand whose coordinates are those of its own plane, which may be seen from behind.
    fn strand_in_own_plane(
        &mut self,
        path: BezPath,
        is_closed: bool,
        record: &Record<'a>,
        at: At<'a>,
    ) -> Result<(), DrawingError> {
        let own = Affine::scale_non_uniform(side(record)?, 1.0);
        self.strand(own * path, is_closed, record, at)
    }

    fn strand(
        &mut self,
        path: BezPath,
        is_closed: bool,
        record: &Record<'a>,
        at: At<'a>,
    ) -> Result<(), DrawingError> {
        self.pieces += path.elements().len();
        if self.pieces > MOST_PIECES {
            return Err(DrawingError::TooManyPieces);
        }
        let path = at.mm_from_record * path;
        if !path.is_finite() {
            return Err(damaged(record.line, "its numbers lead to no place"));
        }
        // A point, or nothing: it encloses nothing and joins nothing.
        if path.elements().len() < 2 || path.bounding_box().size().to_vec2().hypot() == 0.0 {
            return Ok(());
        }
        self.found.push(Strand {
            path,
            is_closed,
            layer: layer_of(record, at).to_owned(),
        });
        Ok(())
    }
}

impl Strand {
    /// What tells it from other strands whichever way it runs: rounded ends, box, length and mean of its points.
    pub(super) fn print(&self) -> Vec<i64> {
        const ROUGH_MM: f64 = 0.01;
        const ROUGH_PART: f64 = 1e-5;
        let near = |mm: f64| (mm / ROUGH_MM).round() as i64;
        let mut sum = Vec2::ZERO;
        let mut count = 0.0;
        let points = self
            .path
            .elements()
            .iter()
            .flat_map(|element| match *element {
                PathEl::MoveTo(a) | PathEl::LineTo(a) => vec![a],
                PathEl::QuadTo(a, b) => vec![a, b],
                PathEl::CurveTo(a, b, c) => vec![a, b, c],
                PathEl::ClosePath => Vec::new(),
            });
        for point in points {
            sum += point.to_vec2();
            count += 1.0;
        }
        let bounds = self.path.bounding_box();
        // No finer than the drawing's size lets lengths be told.
        let rough = (bounds.width() + bounds.height()) * ROUGH_PART;
        let length = self.path.perimeter(rough.max(ROUGH_MM));
        let mut print: Vec<i64> = [bounds.x0, bounds.y0, bounds.x1, bounds.y1, length]
            .into_iter()
            .map(near)
            .collect();
        if !self.is_closed {
            print.extend([near(sum.x / count), near(sum.y / count)]);
            let mut ends = [self.start(), self.end()].map(|end| [near(end.x), near(end.y)]);
            ends.sort_unstable();
            print.extend(ends.iter().flatten());
        } else {
            print.push(near(self.path.area().abs()));
        }
        print
    }

    pub(super) fn start(&self) -> Point {
        match self.path.elements().first() {
            Some(PathEl::MoveTo(start)) => *start,
            _ => Point::ZERO,
        }
    }

    pub(super) fn end(&self) -> Point {
        self.path
            .elements()
            .last()
            .and_then(PathEl::end_point)
            .unwrap_or_default()
    }
}

/// The layer that a record is drawn on.
fn layer_of<'a>(record: &Record<'a>, at: At<'a>) -> &'a str {
    match (record.text(8).unwrap_or("0"), at.layer) {
        ("0", Some(layer)) => layer,
        (layer, _) => layer,
    }
}

fn point(record: &Record, code: i32) -> Result<Point, DrawingError> {
    Ok(Point::new(record.needed(code)?, record.needed(code + 10)?))
}

fn radius(record: &Record) -> Result<f64, DrawingError> {
    Ok(record.needed(40)?.abs())
}

/// Corners of a light polyline: each begins with its x, and its bulge follows.
fn light_corners(record: &Record) -> Result<Vec<Corner>, DrawingError> {
    let mut corners: Vec<Corner> = Vec::new();
    for pair in record.pairs {
        match pair.code {
            10 => corners.push(Corner {
                at: Point::new(pair.number()?, 0.0),
                bulge: 0.0,
            }),
            20 => {
                if let Some(corner) = corners.last_mut() {
                    corner.at.y = pair.number()?;
                }
            }
            42 => {
                if let Some(corner) = corners.last_mut() {
                    corner.bulge = pair.number()?;
                }
            }
            _ => {}
        }
    }
    Ok(corners)
}

/// 1 if a record's plane is seen from above, -1 if from below: then its x runs the other way.
///
/// # Errors
/// Any other plane.
fn side(record: &Record) -> Result<f64, DrawingError> {
    let [x, y] = [record.number(210)?, record.number(220)?].map(Option::unwrap_or_default);
    let z = record.number(230)?.unwrap_or(1.0);
    if x.abs().max(y.abs()) > FLAT * z.abs() {
        return Err(not_flat(record));
    }
    Ok(if z < 0.0 { -1.0 } else { 1.0 })
}

fn not_flat(record: &Record) -> DrawingError {
    DrawingError::NotFlat {
        what: record.kind.to_owned(),
        line: record.line,
    }
}
