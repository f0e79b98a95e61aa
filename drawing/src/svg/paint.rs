//! What the file paints, in the order in which it paints it, with every shape in millimetres.

use kurbo::{Affine, BezPath, PathEl, Point, Rect, Shape, Size};
use usvg::tiny_skia_path::PathSegment;

use super::strokes::stroked;
use super::{Pieces, affine_of, named};
use crate::work::Work;
use crate::{DrawingError, FillRule, Outline};

/// A colour that is at least this light in red, green and blue is taken for the paper. Common practice, no source.
const PAPER: u8 = 250;

/// Everything painted.
#[derive(Debug, Default)]
pub(super) struct Painted {
    pub shapes: Vec<PaintedShape>,
    pub clips: Vec<Clip>,
    pub notes: Vec<String>,
}

/// One painted shape.
#[derive(Debug)]
pub(super) struct PaintedShape {
    pub outline: Outline,
    pub bounds: Rect,
    /// `None` is the colour of the paper: it covers and does not print.
    pub colour: Option<[u8; 3]>,
    /// The clips that it lies under, as places in [`Painted::clips`].
    pub clips: Vec<usize>,
}

/// A clip: what lies in one of its shapes, and in its own clip if it has one.
#[derive(Debug, Default)]
pub(super) struct Clip {
    /// Each with the clips that it lies under.
    pub shapes: Vec<(Outline, Vec<usize>)>,
    pub within: Option<usize>,
}

/// What holds on the way down the tree.
struct Walk<'a> {
    painted: Painted,
    pieces: Pieces,
    mm_from_units: Affine,
    tolerance_mm: f64,
    /// The clips above.
    under: Vec<usize>,
    notes: Notes,
    tree: &'a usvg::Tree,
}

/// Things that are told once, however often they occur.
#[derive(Default)]
struct Notes {
    see_through: usize,
    clipped_mitres: usize,
}

/// Collects all shapes.
///
/// # Errors
/// Pieces beyond the limit, shading, masks, filters.
pub(super) fn collect(
    tree: &usvg::Tree,
    mm_from_units: Affine,
    page: Size,
) -> Result<Painted, DrawingError> {
    let mut walk = Walk {
        painted: Painted::default(),
        pieces: Pieces::default(),
        mm_from_units,
        tolerance_mm: Work::around(Rect::from_origin_size(Point::ZERO, page)).tolerance(),
        under: Vec::new(),
        notes: Notes::default(),
        tree,
    };
    walk.group(walk.tree.root())?;
    let Walk {
        mut painted, notes, ..
    } = walk;
    if notes.see_through > 0 {
        painted.notes.push(format!(
            "{} see-through {} taken as full: wood prints full ink.",
            notes.see_through,
            if notes.see_through == 1 {
                "colour was"
            } else {
                "colours were"
            }
        ));
    }
    if notes.clipped_mitres > 0 {
        painted.notes.push(format!(
            "{} of the strokes ask for clipped mitres; their joins were drawn as mitres, and as bevels beyond the limit.",
            notes.clipped_mitres
        ));
    }
    Ok(painted)
}

impl Walk<'_> {
    /// The tree is at most so deep as the parser allows, since the file's own depth was checked and `use` has a limit of its own.
    fn group(&mut self, group: &usvg::Group) -> Result<(), DrawingError> {
        let opacity = group.opacity().get();
        if opacity <= 0.0 {
            return Ok(());
        }
        if opacity < 1.0 {
            self.notes.see_through += 1;
        }
        for (what, there) in [
            ("mask on the group", group.mask().is_some()),
            ("filter on the group", !group.filters().is_empty()),
        ] {
            if there {
                return Err(DrawingError::Effect {
                    what,
                    element: named(group.id()),
                });
            }
        }
        let clipped = match group.clip_path() {
            Some(clip) => {
                let clip = self.clip(clip, affine_of(group.abs_transform()))?;
                self.under.push(clip);
                true
            }
            None => false,
        };
        for child in group.children() {
            match child {
                usvg::Node::Group(group) => self.group(group)?,
                usvg::Node::Path(path) => self.path(path)?,
                usvg::Node::Image(_) => return Err(DrawingError::Picture),
                usvg::Node::Text(text) => return Err(DrawingError::Text(text.id().to_owned())),
            }
        }
        if clipped {
            self.under.pop();
        }
        Ok(())
    }

    fn path(&mut self, path: &usvg::Path) -> Result<(), DrawingError> {
        if !path.is_visible() {
            return Ok(());
        }
        match path.paint_order() {
            usvg::PaintOrder::FillAndStroke => {
                self.fill(path)?;
                self.stroke(path)
            }
            usvg::PaintOrder::StrokeAndFill => {
                self.stroke(path)?;
                self.fill(path)
            }
        }
    }

    fn fill(&mut self, path: &usvg::Path) -> Result<(), DrawingError> {
        let Some(fill) = path.fill() else {
            return Ok(());
        };
        let Some(colour) = self.colour(fill.paint(), fill.opacity(), path.id(), "fill")? else {
            return Ok(());
        };
        let to_mm = self.mm_from_units * affine_of(path.abs_transform());
        let drawn = to_mm * closed(&curves(path.data()));
        let rule = rule_of(fill.rule());
        self.shape(drawn, rule, colour)
    }

    fn stroke(&mut self, path: &usvg::Path) -> Result<(), DrawingError> {
        let Some(stroke) = path.stroke() else {
            return Ok(());
        };
        let Some(colour) = self.colour(stroke.paint(), stroke.opacity(), path.id(), "stroke")?
        else {
            return Ok(());
        };
        if stroke.linejoin() == usvg::LineJoin::MiterClip {
            self.notes.clipped_mitres += 1;
        }
        let to_mm = self.mm_from_units * affine_of(path.abs_transform());
        let drawn = stroked(&curves(path.data()), stroke, to_mm, self.tolerance_mm)?;
        self.shape(drawn, FillRule::NonZero, colour)
    }

    fn shape(&mut self, path: BezPath, rule: FillRule, colour: Colour) -> Result<(), DrawingError> {
        self.pieces.add(path.elements().len())?;
        let bounds = path.bounding_box();
        if path.is_empty() || !bounds.is_finite() {
            return Ok(());
        }
        self.painted.shapes.push(PaintedShape {
            bounds,
            outline: Outline { path, rule },
            colour: match colour {
                Colour::Paper => None,
                Colour::Ink(rgb) => Some(rgb),
            },
            clips: self.under.clone(),
        });
        Ok(())
    }

    /// The colour that a paint comes to; `None` if it paints nothing.
    fn colour(
        &mut self,
        paint: &usvg::Paint,
        opacity: usvg::NormalizedF32,
        id: &str,
        of: &'static str,
    ) -> Result<Option<Colour>, DrawingError> {
        if opacity.get() <= 0.0 {
            return Ok(None);
        }
        if opacity.get() < 1.0 {
            self.notes.see_through += 1;
        }
        let shaded = |what| {
            Err(DrawingError::Shaded {
                what,
                element: named(id),
            })
        };
        match paint {
            usvg::Paint::Color(colour) => {
                let rgb = [colour.red, colour.green, colour.blue];
                Ok(Some(if rgb.iter().all(|&part| part >= PAPER) {
                    Colour::Paper
                } else {
                    Colour::Ink(rgb)
                }))
            }
            usvg::Paint::LinearGradient(_) | usvg::Paint::RadialGradient(_) => shaded(match of {
                "fill" => "fill that shades from colour to colour, on the shape",
                _ => "stroke that shades from colour to colour, on the shape",
            }),
            usvg::Paint::Pattern(_) => shaded(match of {
                "fill" => "pattern as its fill, on the shape",
                _ => "pattern as its stroke, on the shape",
            }),
        }
    }

    /// A clip with its shapes, as a place in the list.
    fn clip(
        &mut self,
        clip: &usvg::ClipPath,
        units_from_group: Affine,
    ) -> Result<usize, DrawingError> {
        let units_from_clip = units_from_group * affine_of(clip.transform());
        let within = match clip.clip_path() {
            Some(outer) => Some(self.clip(outer, units_from_group)?),
            None => None,
        };
        let mut shapes = Vec::new();
        self.clip_shapes(clip.root(), units_from_clip, &mut Vec::new(), &mut shapes)?;
        self.painted.clips.push(Clip { shapes, within });
        Ok(self.painted.clips.len() - 1)
    }

    fn clip_shapes(
        &mut self,
        group: &usvg::Group,
        units_from_clip: Affine,
        under: &mut Vec<usize>,
        shapes: &mut Vec<(Outline, Vec<usize>)>,
    ) -> Result<(), DrawingError> {
        let clipped = match group.clip_path() {
            Some(clip) => {
                let here = units_from_clip * affine_of(group.abs_transform());
                under.push(self.clip(clip, here)?);
                true
            }
            None => false,
        };
        for child in group.children() {
            match child {
                usvg::Node::Group(group) => {
                    self.clip_shapes(group, units_from_clip, under, shapes)?;
                }
                usvg::Node::Path(path) if path.is_visible() => {
                    let to_mm =
                        self.mm_from_units * units_from_clip * affine_of(path.abs_transform());
                    let outline = Outline {
                        path: to_mm * closed(&curves(path.data())),
                        rule: path
                            .fill()
                            .map_or(FillRule::NonZero, |fill| rule_of(fill.rule())),
                    };
                    self.pieces.add(outline.path.elements().len())?;
                    shapes.push((outline, under.clone()));
                }
                usvg::Node::Path(_) | usvg::Node::Image(_) | usvg::Node::Text(_) => {}
            }
        }
        if clipped {
            under.pop();
        }
        Ok(())
    }
}

/// What a paint does.
#[derive(Clone, Copy)]
enum Colour {
    Paper,
    Ink([u8; 3]),
}

fn rule_of(rule: usvg::FillRule) -> FillRule {
    match rule {
        usvg::FillRule::NonZero => FillRule::NonZero,
        usvg::FillRule::EvenOdd => FillRule::EvenOdd,
    }
}

/// The parser's path as curves.
fn curves(path: &usvg::tiny_skia_path::Path) -> BezPath {
    let place = |point: usvg::tiny_skia_path::Point| Point::new(point.x.into(), point.y.into());
    path.segments()
        .map(|segment| match segment {
            PathSegment::MoveTo(to) => PathEl::MoveTo(place(to)),
            PathSegment::LineTo(to) => PathEl::LineTo(place(to)),
            PathSegment::QuadTo(a, to) => PathEl::QuadTo(place(a), place(to)),
            PathSegment::CubicTo(a, b, to) => PathEl::CurveTo(place(a), place(b), place(to)),
            PathSegment::Close => PathEl::ClosePath,
        })
        .collect()
}

/// A path to be filled: every subpath closed, as filling does.
fn closed(path: &BezPath) -> BezPath {
    let mut result = BezPath::new();
    let mut is_open = false;
    for &element in path.elements() {
        match element {
            PathEl::MoveTo(_) => {
                if is_open {
                    result.push(PathEl::ClosePath);
                }
                is_open = false;
            }
            PathEl::LineTo(_) | PathEl::QuadTo(..) | PathEl::CurveTo(..) => is_open = true,
            PathEl::ClosePath => is_open = false,
        }
        result.push(element);
    }
    if is_open {
        result.push(PathEl::ClosePath);
    }
    result
}
