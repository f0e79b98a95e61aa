//! Separation: cutting the blocks out of a plank, true to size, held by tabs or a skin.

use std::sync::Arc;

use geometry::arc_path::ArcPath;
use kurbo::{Point, Rect};

use crate::commission::{Commission, Direction, Hold, Separation};
use crate::pass::around::around;
use crate::pass::entry::to_and_fro;
use crate::pass::layers::sloping_on;
use crate::pass::spans::{Wanted, joined};
use crate::pass::tabs::{Asked, Beside, at_sides, between_notches};
use crate::pass::tool::{FULL_WIDTH_FEED, layers, ramp_length};
use crate::pass::{Cut, Entry, Heights, PassError, Purpose, SortPasses};
use crate::plank::{Place, Plank};
use crate::sort::{Block, Sort};
use crate::workshop::{Cutter, CutterShape, Workshop};

/// Distance between the places of an outline where tabs are looked for, mm; a tab may come out wider by as much at each end.
const LOOK_MM: f64 = 0.1;
/// The least part of each outline that is cut through, or the block has to be sawn out after all (common practice, no source).
const LEAST_THROUGH: f64 = 0.5;
/// What a sum of lengths may be off by, mm.
const NOISE_MM: f64 = 1e-6;

/// The passes that cut every block of a plank out of it, in plank space; none where the blocks are sawn.
///
/// The cutter goes round each block at its radius from the edge, so blocks come out true to size, and in layers down to the
/// bed, or to the skin. Tabs stand at the left and right sides, where neighbours in a row have theirs as well; a cutter going
/// round one block also spares its neighbours' tabs.
///
/// # Errors
/// Where the cutter is unknown, not flat, too short to reach through, or wider than the lane; where tabs would leave less than
/// half of an outline cut through.
pub fn separation(
    plank: &Plank,
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
) -> Result<SortPasses, PassError> {
    let (cutter, hold) = match &commission.planks.separation {
        Separation::Saw => return Ok(SortPasses::default()),
        Separation::Router { cutter, hold } => (
            workshop
                .cutter(cutter)
                .ok_or_else(|| PassError::UnknownCutter(cutter.clone()))?,
            *hold,
        ),
    };
    let round = Round::new(plank, cutter, hold, commission)?;
    let blocks = blocks(plank, sorts)?;
    let tabs = round.all_tabs(&blocks, plank)?;
    let mut cuts = Vec::new();
    for block in &blocks {
        cuts.extend(round.cut_out(block, &tabs, plank)?);
    }
    Ok(SortPasses {
        cutter: cutter.id.clone(),
        cuts,
    })
}

/// A block where it lies on the plank.
struct Lying<'a> {
    place: &'a Place,
    block: &'a Block,
    outline: Vec<Point>,
    bounds: Rect,
}

/// How every block is cut out.
struct Round<'a> {
    cutter: &'a Cutter,
    radius: f64,
    direction: Direction,
    lane: f64,
    /// Length of a tab along the edge; 0 without tabs.
    tab: f64,
    /// Depths of the layers all round.
    whole: Vec<f64>,
    /// Depths of the layers between the tabs.
    between: Vec<f64>,
}

fn blocks<'a>(plank: &'a Plank, sorts: &'a [Arc<Sort>]) -> Result<Vec<Lying<'a>>, PassError> {
    crate::toolpath::in_rows(&plank.places)
        .into_iter()
        .map(|place| {
            let sort = sorts
                .get(place.sort)
                .ok_or_else(|| PassError::UnknownSort {
                    place: place.id.clone(),
                    plank: plank.id.clone(),
                })?;
            let outline: Vec<Point> = sort
                .block
                .outline
                .iter()
                .map(|&point| point + place.at)
                .collect();
            let first = outline.first().copied().unwrap_or(Point::ORIGIN);
            let bounds = outline
                .iter()
                .fold(Rect::from_points(first, first), |bounds, &point| {
                    bounds.union_pt(point)
                });
            Ok(Lying {
                place,
                block: &sort.block,
                outline,
                bounds,
            })
        })
        .collect()
}

impl<'a> Round<'a> {
    fn new(
        plank: &Plank,
        cutter: &'a Cutter,
        hold: Hold,
        commission: &Commission,
    ) -> Result<Round<'a>, PassError> {
        match cutter.shape {
            CutterShape::Flat => {}
            CutterShape::Ball | CutterShape::Conical { .. } => {
                return Err(PassError::SeparationNotFlat(cutter.id.clone()));
            }
        }
        let diameter = cutter.diameter.in_mm();
        if !(diameter > 0.0 && cutter.step_down.in_mm() > 0.0) {
            return Err(PassError::NoSize(cutter.id.clone()));
        }
        let lane = commission.planks.lane.in_mm();
        if lane < diameter - NOISE_MM {
            return Err(PassError::LaneTooNarrow {
                cutter: cutter.id.clone(),
                lane_mm: lane,
                diameter_mm: diameter,
            });
        }
        let height = commission.height_to_paper.in_mm();
        let (bottom, tab_top, tab) = match hold {
            Hold::Tabs {
                width,
                height: tall,
            } => {
                let top = (height - tall.in_mm()).clamp(0.0, height);
                (height, top, width.in_mm().max(0.0))
            }
            Hold::Skin(skin) => {
                let bottom = (height - skin.in_mm()).clamp(0.0, height);
                (bottom, bottom, 0.0)
            }
        };
        let reach = cutter.max_depth.in_mm().min(cutter.flute_length.in_mm());
        if reach < bottom - NOISE_MM {
            return Err(PassError::CannotReachThrough {
                cutter: cutter.id.clone(),
                plank: plank.id.clone(),
                reach_mm: reach,
                needed_mm: bottom,
            });
        }
        let step = cutter.step_down.in_mm();
        Ok(Round {
            cutter,
            radius: cutter.radius_mm(),
            direction: commission.cutting.direction,
            lane,
            tab,
            whole: depths(0.0, tab_top, step),
            between: depths(tab_top, bottom, step),
        })
    }

    /// The tabs of all blocks; where some are notched, each where there is wood on both sides of the lane.
    fn all_tabs(&self, blocks: &[Lying<'_>], plank: &Plank) -> Result<Vec<Rect>, PassError> {
        let notched = blocks.iter().any(|lying| !lying.block.notches.is_empty());
        if self.tab <= 0.0 {
            return Ok(Vec::new());
        }
        if !notched {
            let asked = Asked {
                tab: self.tab,
                lane: self.lane,
                radius: self.radius,
            };
            let bounds: Vec<Rect> = blocks.iter().map(|block| block.bounds).collect();
            let tabs = (0..bounds.len()).flat_map(|number| at_sides(&bounds, number, asked));
            return Ok(tabs.collect());
        }
        let beside: Vec<Beside> = blocks
            .iter()
            .map(|lying| Beside::of(lying.bounds, lying.block, self.radius))
            .collect();
        let mut tabs = Vec::new();
        for (number, lying) in blocks.iter().enumerate() {
            let own = between_notches(&beside, number, self.tab, self.lane);
            if own.is_empty() {
                return Err(PassError::NoPlaceForTabs {
                    place: lying.place.id.clone(),
                    plank: plank.id.clone(),
                });
            }
            tabs.extend(own);
        }
        Ok(tabs)
    }

    fn cut_out(
        &self,
        block: &Lying<'_>,
        tabs: &[Rect],
        plank: &Plank,
    ) -> Result<Vec<Cut>, PassError> {
        let mut cuts = Vec::new();
        if block.outline.len() < 3 {
            return Ok(cuts);
        }
        let path = self.around(&block.outline);
        let mut above = 0.0;
        for (layer, &depth) in (0_u32..).zip(&self.whole) {
            let slope = ramp_length(self.cutter, depth - above);
            let (ramp, round) = sloping_on(&path, slope, layer);
            cuts.push(self.cut(layer, depth, round, Some((ramp, above))));
            above = depth;
        }
        if self.between.is_empty() {
            return Ok(cuts);
        }
        let raised = self.raised(&path, block, tabs);
        let tab_top = above;
        let first = cuts.len() as u32;
        let Wanted::Parts(raised) = raised else {
            return Err(self.too_wide(block, plank));
        };
        let length = path.length();
        let total: f64 = raised.iter().map(|(from, to)| to - from).sum();
        // Round the corners the path is longer than the outline.
        let outline = length - std::f64::consts::TAU * self.radius;
        if total > outline * (1.0 - LEAST_THROUGH) {
            return Err(self.too_wide(block, plank));
        }
        for (layer, &depth) in (first..).zip(&self.between) {
            if raised.is_empty() {
                let slope = ramp_length(self.cutter, depth - above);
                let (ramp, round) = sloping_on(&path, slope, layer);
                cuts.push(self.cut(layer, depth, round, Some((ramp, above))));
            }
            for (number, tab) in raised.iter().enumerate() {
                let next = raised
                    .get(number + 1)
                    .map_or(raised[0].0 + length, |next| next.0);
                // Over the tab at its height, then down into the groove beyond it.
                cuts.push(self.cut(layer, tab_top, turned(&path, tab.0, tab.1), None));
                let groove = turned(&path, tab.1, next);
                let slope = ramp_length(self.cutter, depth - above);
                let ramp = to_and_fro(&groove, groove.length(), slope);
                cuts.push(self.cut(layer, depth, groove, Some((ramp, above))));
            }
            above = depth;
        }
        Ok(cuts)
    }

    fn too_wide(&self, block: &Lying<'_>, plank: &Plank) -> PassError {
        PassError::TabsTooWide {
            place: block.place.id.clone(),
            plank: plank.id.clone(),
        }
    }

    fn cut(&self, layer: u32, depth: f64, path: ArcPath, ramp: Option<(ArcPath, f64)>) -> Cut {
        Cut {
            purpose: Purpose::Separation,
            layer,
            depth_mm: depth,
            heights: Heights::Level,
            entry: ramp.map_or(Entry::Open, |(path, from_depth_mm)| Entry::Ramp {
                path,
                from_depth_mm,
            }),
            path,
            feed_mm_min: self.cutter.feed_mm_min * FULL_WIDTH_FEED,
        }
    }

    /// Where along the path the cutter would take away some of a tab.
    fn raised(&self, path: &ArcPath, block: &Lying<'_>, tabs: &[Rect]) -> Wanted {
        let near = block.bounds.inflate(2.0 * self.radius, 2.0 * self.radius);
        let tabs: Vec<&Rect> = tabs.iter().filter(|tab| tab.overlaps(near)).collect();
        let mut found: Vec<(f64, f64)> = Vec::new();
        for (number, (at, _)) in crate::pass::bench::places(path, LOOK_MM)
            .into_iter()
            .enumerate()
        {
            if tabs.iter().any(|tab| distance(tab, at) < self.radius) {
                let along = number as f64 * LOOK_MM;
                found.push((along, along));
            }
        }
        joined(&found, path.length(), true, LOOK_MM, LOOK_MM)
    }

    /// Round the block, with the block on the right to climb.
    fn around(&self, outline: &[Point]) -> ArcPath {
        let path = around(outline, self.radius);
        match self.direction {
            Direction::Climb => path,
            Direction::Conventional => path.reversed(),
        }
    }
}

/// A stretch of a closed path that may go on over its start.
fn turned(path: &ArcPath, from: f64, to: f64) -> ArcPath {
    let length = path.length();
    path.started_at(from % length).stretch(0.0, to - from)
}

/// Depths of equal layers, not deeper than the step, from one depth to another.
fn depths(from: f64, to: f64, step: f64) -> Vec<f64> {
    if to - from <= NOISE_MM {
        return Vec::new();
    }
    let count = layers(to - from, step);
    (1..=count)
        .map(|number| {
            if number == count {
                to
            } else {
                from + (to - from) * f64::from(number) / f64::from(count)
            }
        })
        .collect()
}

fn distance(rect: &Rect, at: Point) -> f64 {
    let x = (rect.x0 - at.x).max(at.x - rect.x1).max(0.0);
    let y = (rect.y0 - at.y).max(at.y - rect.y1).max(0.0);
    x.hypot(y)
}
