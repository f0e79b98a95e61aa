//! Notches: steps cut out of the corners of blocks, down to where the blocks come apart.
//!
//! They are cut before the blocks are parted, so nothing comes loose: all wood of the step becomes chips. In each layer the cutter
//! first goes forth and back along the step, from the lane inwards, and then along its wall and floor and the bevel beside it.

use std::f64::consts::FRAC_1_SQRT_2;
use std::sync::Arc;

use geometry::arc_path::{ArcPath, ArcStep, Turn};
use kurbo::{Point, Vec2};

use crate::commission::{Commission, Direction, Hold, Separation};
use crate::notch::{End, Notch, Side};
use crate::pass::entry::to_and_fro;
use crate::pass::tool::{FULL_WIDTH_FEED, layers, ramp_length};
use crate::pass::{Cut, Entry, Heights, PassError, Purpose, SortPasses};
use crate::plank::Plank;
use crate::sort::{Block, Sort};
use crate::workshop::{Cutter, CutterShape, Workshop};

/// Wood left on the walls of a step by the cuts forth and back, in radii of the cutter.
const ALLOWANCE_RADII: f64 = 0.07;

/// How far the cutter goes beyond the block's edge, in radii, as far as the lane allows.
const BEYOND_RADII: f64 = 0.5;

/// Part of the diameter that is a whole cut, for cutters whose stated step would leave ridges.
const WIDEST_STEP: f64 = 0.9;

/// What a sum of lengths may be off by, mm.
const NOISE_MM: f64 = 1e-6;

/// The passes that cut the notches of every block of a plank, in plank space, as deep as the blocks are to be parted; none where no block
/// has notches.
///
/// # Errors
/// Where the cutter is unknown, not flat, too short to reach through, or too wide for the lane.
pub fn notches(
    plank: &Plank,
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
) -> Result<SortPasses, PassError> {
    let mut cuts = Vec::new();
    let Some(id) = commission.notch_cutter() else {
        return Ok(SortPasses::default());
    };
    let cutter = workshop
        .cutter(id)
        .ok_or_else(|| PassError::UnknownCutter(id.to_owned()))?;
    for place in crate::toolpath::in_rows(&plank.places) {
        let sort = sorts
            .get(place.sort)
            .ok_or_else(|| PassError::UnknownSort {
                place: place.id.clone(),
                plank: plank.id.clone(),
            })?;
        for notch in &sort.block.notches {
            let work = Work::new(cutter, plank, commission)?;
            cuts.extend(work.cut_out(&Corner::of(&sort.block, notch, place.at)));
        }
    }
    Ok(SortPasses {
        cutter: cutter.id.clone(),
        cuts,
    })
}

/// A step where it lies on the plank: from its inner corner, across to the block's side and along to its end.
struct Corner {
    inner: Point,
    across: Vec2,
    along: Vec2,
    width: f64,
    height: f64,
    bevel: f64,
}

impl Corner {
    fn of(block: &Block, notch: &Notch, at: Vec2) -> Corner {
        // Seen from above, left and right are not what they are in print.
        let (x, across) = match notch.side {
            Side::Right => (0.0, Vec2::new(-1.0, 0.0)),
            Side::Left => (block.set_mm, Vec2::new(1.0, 0.0)),
        };
        let (y, along) = match notch.end {
            End::Foot => (0.0, Vec2::new(0.0, -1.0)),
            End::Head => (block.body_mm, Vec2::new(0.0, 1.0)),
        };
        Corner {
            inner: Point::new(x, y) + at - across * notch.width_mm - along * notch.height_mm,
            across,
            along,
            width: notch.width_mm,
            height: notch.height_mm,
            bevel: notch.bevel_mm,
        }
    }

    fn at(&self, across: f64, along: f64) -> Point {
        self.inner + self.across * across + self.along * along
    }

    /// How a clockwise turn from along to across lies on the plank.
    fn inward_turn(&self) -> Turn {
        if self.across.cross(self.along) > 0.0 {
            Turn::Right
        } else {
            Turn::Left
        }
    }
}

struct Work<'a> {
    cutter: &'a Cutter,
    radius: f64,
    beyond: f64,
    depth: f64,
    direction: Direction,
}

impl<'a> Work<'a> {
    fn new(
        cutter: &'a Cutter,
        plank: &Plank,
        commission: &Commission,
    ) -> Result<Work<'a>, PassError> {
        match cutter.shape {
            CutterShape::Flat => {}
            CutterShape::Ball | CutterShape::Conical { .. } => {
                return Err(PassError::SeparationNotFlat(cutter.id.clone()));
            }
        }
        let (radius, lane) = (cutter.radius_mm(), commission.planks.lane.in_mm());
        if !(radius > 0.0 && cutter.step_down.in_mm() > 0.0 && cutter.step_over.in_mm() > 0.0) {
            return Err(PassError::NoSize(cutter.id.clone()));
        }
        let least_lane = radius * (1.0 + FRAC_1_SQRT_2);
        if lane < least_lane - NOISE_MM {
            return Err(PassError::LaneTooNarrow {
                cutter: cutter.id.clone(),
                lane_mm: lane,
                diameter_mm: least_lane,
            });
        }
        let height = commission.height_to_paper.in_mm();
        let depth = match &commission.planks.separation {
            Separation::Router {
                hold: Hold::Skin(skin),
                ..
            } => (height - skin.in_mm()).clamp(0.0, height),
            Separation::Router {
                hold: Hold::Tabs { .. },
                ..
            }
            | Separation::Saw => height,
        };
        let reach = cutter.max_depth.in_mm().min(cutter.flute_length.in_mm());
        if reach < depth - NOISE_MM {
            return Err(PassError::CannotReachThrough {
                cutter: cutter.id.clone(),
                plank: plank.id.clone(),
                reach_mm: reach,
                needed_mm: depth,
            });
        }
        Ok(Work {
            cutter,
            radius,
            beyond: (lane - radius).min(radius * BEYOND_RADII),
            depth,
            direction: commission.cutting.direction,
        })
    }

    /// All layers of one step. Each begins and ends in the lane at the step's open end, so the cutter stays down.
    fn cut_out(&self, corner: &Corner) -> Vec<Cut> {
        let path = self.one_layer(corner);
        let count = layers(self.depth, self.cutter.step_down.in_mm());
        let first = corner.height + self.beyond - self.inset();
        let down_each = self.depth / f64::from(count);
        let slope = ramp_length(self.cutter, down_each);
        let ramp = to_and_fro(&path, first, slope);
        (0..count)
            .map(|layer| Cut {
                purpose: Purpose::Notches,
                layer,
                depth_mm: if layer + 1 == count {
                    self.depth
                } else {
                    down_each * f64::from(layer + 1)
                },
                heights: Heights::Level,
                entry: Entry::Ramp {
                    path: ramp.clone(),
                    from_depth_mm: down_each * f64::from(layer),
                },
                path: path.clone(),
                feed_mm_min: self.cutter.feed_mm_min * FULL_WIDTH_FEED,
            })
            .collect()
    }

    /// How far from wall and floor the cuts forth and back keep the centre.
    fn inset(&self) -> f64 {
        self.radius * (1.0 + ALLOWANCE_RADII)
    }

    fn one_layer(&self, corner: &Corner) -> ArcPath {
        let (inset, radius) = (self.inset(), self.radius);
        let outer = corner.width + self.beyond;
        let top = corner.height + self.beyond;
        let start = corner.at(outer, top);
        let mut path = ArcPath::starting_at(start);
        let line = |path: &mut ArcPath, across: f64, along: f64| {
            path.steps.push(ArcStep::Line {
                to: corner.at(across, along),
            });
        };
        // Forth and back, from the lane inwards; an even number of times, so that it ends where it may leave.
        let step = self
            .cutter
            .step_over
            .in_mm()
            .min(2.0 * radius * WIDEST_STEP);
        let wide = (outer - inset).max(0.0);
        let steps = (wide / step - NOISE_MM).ceil().max(1.0);
        for number in 0..=steps as u32 {
            let across = outer - wide * f64::from(number) / steps;
            let (from, to) = if number % 2 == 0 {
                (top, inset)
            } else {
                (inset, top)
            };
            line(&mut path, across, from);
            line(&mut path, across, to);
        }
        let ends_at_floor = (steps as u32).is_multiple_of(2);
        let contour = self.contour(corner, top);
        let contour = match (self.direction, corner.inward_turn()) {
            (Direction::Climb, Turn::Right) | (Direction::Conventional, Turn::Left) => {
                if ends_at_floor {
                    line(&mut path, inset, top);
                }
                contour
            }
            (Direction::Climb, Turn::Left) | (Direction::Conventional, Turn::Right) => {
                if !ends_at_floor {
                    line(&mut path, inset, inset);
                }
                line(&mut path, outer, inset);
                contour.reversed()
            }
        };
        path.steps.push(ArcStep::Line { to: contour.start });
        path.append(&contour);
        if contour.end().distance(corner.at(radius, top)) > NOISE_MM {
            // From the bevel's end back into the step, over ground that is cut.
            let back = contour.reversed();
            let bevel = back.steps.first().map_or(back.end(), ArcStep::to);
            path.steps.push(ArcStep::Line { to: bevel });
            line(&mut path, outer, inset);
        }
        path.steps.push(ArcStep::Line { to: start });
        path
    }

    /// Down the wall, along the floor as far as there is one, and along the bevel: the cutter's centre at its radius from the block.
    fn contour(&self, corner: &Corner, top: f64) -> ArcPath {
        let radius = self.radius;
        let flat = corner.width - corner.bevel;
        let pivot = corner.at(flat, 0.0);
        let mut path = ArcPath::starting_at(corner.at(radius, top));
        let mut line = |across: f64, along: f64| {
            path.steps.push(ArcStep::Line {
                to: corner.at(across, along),
            });
        };
        if flat >= radius {
            line(radius, radius);
            line(flat, radius);
        } else {
            // Where the floor is shorter than the cutter's radius it comes to stand on the corner before it reaches the floor.
            let beside = radius - flat;
            line(radius, (radius * radius - beside * beside).max(0.0).sqrt());
        }
        let slanting = radius * FRAC_1_SQRT_2;
        path.steps.push(ArcStep::Arc {
            to: corner.at(flat + slanting, slanting),
            centre: pivot,
            turn: corner.inward_turn(),
        });
        path.steps.push(ArcStep::Line {
            to: corner.at(corner.width + slanting, slanting - corner.bevel),
        });
        path
    }
}

#[cfg(test)]
mod tests {
    use geometry::distance::WallIndex;

    use super::*;
    use crate::notch::outline;
    use crate::pass::bench::places;

    /// The path of a layer never enters the block, sweeps all of the step but the fillet, stays in the lane, and comes back.
    #[test]
    fn a_layer_clears_its_step_and_touches_nothing_else() {
        let (set, body, lane) = (30.0, 42.0, 6.4);
        for (radius, width) in [(3.0, 4.22), (3.0, 8.4), (1.5, 2.2), (1.5, 14.0)] {
            for side in Side::BOTH {
                for end in End::BOTH {
                    for direction in [Direction::Climb, Direction::Conventional] {
                        check_layer((set, body, lane), (radius, width), (side, end), direction);
                    }
                }
            }
        }
    }

    fn check_layer(
        (set, body, lane): (f64, f64, f64),
        (radius, width): (f64, f64),
        (side, end): (Side, End),
        direction: Direction,
    ) {
        let notch = Notch {
            side,
            end,
            width_pt: 0.0,
            height_pt: 0.0,
            width_mm: width,
            height_mm: 17.0,
            bevel_mm: radius + 0.1,
        };
        let ring = outline(set, body, &[notch]);
        let block = Block {
            outline: ring.clone(),
            body_mm: body,
            set_mm: set,
            baseline_mm: 0.0,
            extended_pt: [0.0; 2],
            plain: false,
            notches: vec![notch],
        };
        let mut cutter = crate::workshop::Workshop::starting()
            .cutter("flat-6-long")
            .expect("the starting workshop has it")
            .clone();
        cutter.diameter = crate::measure::Length::mm(2.0 * radius);
        cutter.step_over = crate::measure::Length::mm(0.8 * radius);
        let work = Work {
            cutter: &cutter,
            radius,
            beyond: (lane - radius).min(radius * BEYOND_RADII),
            depth: 23.0,
            direction,
        };
        let corner = Corner::of(&block, &notch, Vec2::ZERO);
        let path = work.one_layer(&corner);
        let what = format!("{radius} {width} {side:?} {end:?} {direction:?}");
        assert!(path.start.distance(path.end()) < 1e-9, "{what}");
        let walls = WallIndex::new([&ring]);
        let centres: Vec<Point> = places(&path, 0.1).into_iter().map(|(at, _)| at).collect();
        for &at in &centres {
            let away = walls.nearest(at);
            assert!(away >= radius - 1e-9, "{away} at {at}: {what}");
            assert_eq!(geometry::region::winding(&ring, at), 0, "{what}");
            let room = kurbo::Rect::new(-lane, -lane, set + lane, body + lane);
            assert!(room.inset(-radius + 1e-9).contains(at), "{at}: {what}");
        }
        for across in 1..40 {
            for along in 1..60 {
                let place = corner.at(
                    width * f64::from(across) / 40.0,
                    17.0 * f64::from(along) / 60.0,
                );
                let nearest = centres
                    .iter()
                    .map(|centre| centre.distance(place))
                    .fold(f64::INFINITY, f64::min);
                let (x, y) = (
                    width * f64::from(across) / 40.0,
                    17.0 * f64::from(along) / 60.0,
                );
                let in_fillet =
                    x < radius && y < radius && (radius - x).hypot(radius - y) > radius - 0.01;
                assert!(
                    nearest < radius + 0.01 || in_fillet,
                    "{nearest} at {place}: {what}"
                );
            }
        }
    }
}
