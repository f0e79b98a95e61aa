//! From painted shapes to what each colour prints.

use std::collections::BTreeMap;

use geometry::boolean::{difference, intersection, union, union_all};
use geometry::region::{LEAST_AREA, Region};
use kurbo::{BezPath, Rect};

use super::paint::{Painted, PaintedShape};
use crate::work::Work;
use crate::{DrawingError, FillRule, Layer, Outline};

/// More colours than this are no colours of a print, and are not offered one by one. Common practice, no source: eight plates are the most here.
const MOST_COLOURS: usize = 24;
/// More shapes than this are not compared pair by pair to see whether they overlap.
const MOST_COMPARED: usize = 1_000;
/// How many points may be worked over in all while colours cover one another.
const MOST_WORK: usize = 60_000_000;
/// Shapes may lie this much beyond the page without being cut off, in parts of the page: rounding of numbers.
const OVER_THE_EDGE: f64 = 1e-5;

/// What the drawing prints.
pub(super) struct Composed {
    pub whole: Outline,
    pub layers: Vec<Layer>,
    pub notes: Vec<String>,
}

/// Lays all shapes over one another.
///
/// # Errors
/// Nothing prints, or the overlaps are too many.
pub(super) fn compose(painted: &Painted, page: Rect) -> Result<Composed, DrawingError> {
    let is_over_edge = painted
        .shapes
        .iter()
        .any(|shape| is_beyond(shape.bounds, page));
    let mut composed = if is_over_edge || !lie_apart(&painted.shapes) {
        overlapped(painted, page, is_over_edge)?
    } else {
        apart(&painted.shapes)
    };
    if composed.whole.is_empty() {
        return Err(DrawingError::Nothing);
    }
    if composed.layers.len() > MOST_COLOURS {
        composed.notes.push(format!(
            "The drawing has {} colours; with more than {MOST_COLOURS} they are not offered one by one.",
            composed.layers.len()
        ));
        composed.layers.clear();
    }
    if is_over_edge {
        composed
            .notes
            .push("What lies beyond the edge of the page was cut off.".to_owned());
    }
    Ok(composed)
}

fn is_beyond(bounds: Rect, page: Rect) -> bool {
    let slack = page.width().max(page.height()) * OVER_THE_EDGE;
    let page = page.inflate(slack, slack);
    bounds.x0 < page.x0 || bounds.y0 < page.y0 || bounds.x1 > page.x1 || bounds.y1 > page.y1
}

/// Whether no two shapes can overlap, none is clipped, and all of one colour have one fill rule: then their curves can stay as they are.
fn lie_apart(shapes: &[PaintedShape]) -> bool {
    if shapes.len() > MOST_COMPARED || shapes.iter().any(|shape| !shape.clips.is_empty()) {
        return false;
    }
    let rules_agree = shapes
        .iter()
        .all(|shape| shape.outline.rule == shapes[0].outline.rule);
    let touch = |a: Rect, b: Rect| a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
    rules_agree
        && shapes.iter().enumerate().all(|(place, shape)| {
            shapes[place + 1..]
                .iter()
                .all(|other| !touch(shape.bounds, other.bounds))
        })
}

fn apart(shapes: &[PaintedShape]) -> Composed {
    let rule = shapes
        .first()
        .map_or(FillRule::NonZero, |shape| shape.outline.rule);
    let mut whole = BezPath::new();
    let mut layers: Vec<Layer> = Vec::new();
    for shape in shapes {
        let Some(colour) = shape.colour else { continue };
        whole.extend(shape.outline.path.elements().iter().copied());
        let name = name_of(colour);
        match layers.iter_mut().find(|layer| layer.name == name) {
            Some(layer) => layer
                .outline
                .path
                .extend(shape.outline.path.elements().iter().copied()),
            None => layers.push(Layer {
                name,
                outline: shape.outline.clone(),
            }),
        }
    }
    Composed {
        whole: Outline { path: whole, rule },
        layers,
        notes: Vec::new(),
    }
}

/// Regions of clips, worked out when first needed.
struct Clips<'a> {
    painted: &'a Painted,
    work: Work,
    known: BTreeMap<usize, Region>,
}

impl Clips<'_> {
    /// What a shape fills under its clips.
    fn clipped(&mut self, outline: &Outline, clips: &[usize]) -> Result<Region, DrawingError> {
        let mut region = self.work.region(outline)?;
        for &clip in clips {
            region = intersection(&region, self.clip(clip)?);
        }
        Ok(region)
    }

    /// Clips name only clips that come before them in the list, so this ends.
    fn clip(&mut self, place: usize) -> Result<&Region, DrawingError> {
        if !self.known.contains_key(&place) {
            let clip = &self.painted.clips[place];
            let mut shapes = Vec::new();
            for (outline, under) in &clip.shapes {
                shapes.push(self.clipped(outline, under)?);
            }
            let mut region = union_all(&shapes);
            if let Some(outer) = clip.within {
                region = intersection(&region, self.clip(outer)?);
            }
            self.known.insert(place, region);
        }
        Ok(self.known.entry(place).or_default())
    }
}

/// One colour's ground so far.
struct Ground {
    colour: [u8; 3],
    region: Region,
}

fn overlapped(painted: &Painted, page: Rect, is_over_edge: bool) -> Result<Composed, DrawingError> {
    let bounds = painted
        .shapes
        .iter()
        .fold(page, |found, shape| found.union(shape.bounds));
    let work = Work::around(bounds);
    let mut clips = Clips {
        painted,
        work,
        known: BTreeMap::new(),
    };
    let visible = work.rect(page);
    let mut whole = Region::default();
    let mut grounds: Vec<Ground> = Vec::new();
    let mut worked = 0_usize;
    let mut changes = 0_usize;
    for batch in painted.shapes.chunk_by(|a, b| a.colour == b.colour) {
        let regions: Vec<Region> = batch
            .iter()
            .map(|shape| clips.clipped(&shape.outline, &shape.clips))
            .collect::<Result<_, _>>()?;
        let mut covered = union_all(&regions);
        if is_over_edge {
            covered = intersection(&covered, &visible);
        }
        changes += 1;
        worked += points_in(&whole)
            + grounds
                .iter()
                .map(|ground| points_in(&ground.region))
                .sum::<usize>();
        if worked > MOST_WORK {
            return Err(DrawingError::TooBusy(changes));
        }
        for ground in grounds
            .iter_mut()
            .filter(|ground| Some(ground.colour) != batch[0].colour)
        {
            ground.region = difference(&ground.region, &covered);
        }
        let Some(colour) = batch[0].colour else {
            whole = difference(&whole, &covered);
            continue;
        };
        whole = union(&whole, &covered);
        match grounds.iter_mut().find(|ground| ground.colour == colour) {
            Some(ground) => ground.region = union(&ground.region, &covered),
            None => grounds.push(Ground {
                colour,
                region: covered,
            }),
        }
    }
    let outline = |mut region: Region| {
        region.drop_smaller_than(LEAST_AREA);
        Outline {
            path: work.path_of(&region),
            rule: FillRule::NonZero,
        }
    };
    let layers = grounds
        .into_iter()
        .map(|ground| Layer {
            name: name_of(ground.colour),
            outline: outline(ground.region),
        })
        .filter(|layer| !layer.outline.is_empty())
        .collect();
    Ok(Composed {
        whole: outline(whole),
        layers,
        notes: Vec::new(),
    })
}

fn points_in(region: &Region) -> usize {
    region.rings().map(Vec::len).sum()
}

fn name_of([red, green, blue]: [u8; 3]) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}
