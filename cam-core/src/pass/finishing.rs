//! Finishing: the letter's wall, cut once by the largest cutter that reaches it.

use geometry::arc_path::{ArcPath, ArcStep, Turn};
use geometry::diagram::Wall;
use kurbo::Vec2;

use crate::pass::Purpose;
use crate::pass::bench::{Bench, LOAD_STRETCH, SWEPT_SAGITTA, widths};
use crate::pass::curve::Curve;
use crate::pass::entry;
use crate::pass::load::kept_at_once;
use crate::pass::select::{Stretch, buried_radius, parts};
use crate::pass::share::{Open, SHORTEST_STRETCH_MM};
use crate::pass::spans::{Wanted, joined};
use crate::pass::tool::Tool;
use crate::raster::Raster;

/// The most that a smaller cutter goes over what a larger one finished, at each end, mm, and in parts of its radius.
const OVERLAP_MM: f64 = 0.3;
const OVERLAP_RADII: f64 = 0.25;
/// Radius of leads in parts of the cutter's, tried in turn; those of a short stretch are small, or they would be longer than it.
const LEADS: [f64; 4] = [0.5, 0.3, 0.15, 0.08];
const LEADS_OF_SHORT: [f64; 4] = [0.15, 0.3, 0.5, 0.08];
/// Stretches of wall up to this length are short, in radii.
const SHORT_RADII: f64 = 6.0;
/// How many places of a closed wall of each kind are tried for the start.
const STARTS_TRIED: usize = 24;
/// How far behind a hollow corner a start is tried, in radii: as far as the leads are wide.
const BESIDE: [f64; 3] = [0.15, 0.35, 0.6];
/// A turn of the finishing curve from which on a corner is one, radians: 20 degrees.
const SHARP_RAD: f64 = 0.35;

/// A stretch of wall that is a cutter's to finish.
#[derive(Clone, Debug)]
pub(super) struct Own {
    /// The number of the closed curve that it is part of.
    pub(super) number: usize,
    pub(super) curve: Curve,
    /// The greatest depth asked for along it, mm.
    pub(super) depth: f64,
}

/// The curves of the wall that are this cutter's to finish.
pub(super) fn own_stretches(walls: &[Curve], tool: &Tool<'_>, open: &Open) -> Vec<Own> {
    let overlap = overlap(tool);
    let own = walls.iter().enumerate().flat_map(|(number, curve)| {
        let lengths: Vec<(f64, f64)> = open.stretches[number]
            .iter()
            .copied()
            .filter(|(from, to)| to - from > SHORTEST_STRETCH_MM)
            .collect();
        let wanted = match joined(&lengths, curve.length(), true, overlap, tool.radius) {
            Wanted::Whole => vec![Wanted::Whole],
            Wanted::Parts(parts) => parts
                .into_iter()
                .map(|part| Wanted::Parts(vec![part]))
                .collect(),
        };
        wanted.into_iter().flat_map(move |wanted| {
            let depth = open.depth_along(number, curve.length(), &wanted);
            let stretches = parts(curve, &wanted).into_iter();
            stretches.map(move |curve| Own {
                number,
                curve,
                depth,
            })
        })
    });
    own.collect()
}

fn overlap(tool: &Tool<'_>) -> f64 {
    OVERLAP_MM.min(tool.radius * OVERLAP_RADII)
}

impl Bench<'_> {
    /// Finishes stretches of wall, always the nearest next, and gives back the numbers of those that could not be entered.
    pub(super) fn finish(&mut self, mut stretches: Vec<Own>) -> Vec<usize> {
        let mut refused = Vec::new();
        // Bound: every round takes one stretch.
        while !stretches.is_empty() {
            let next = self.nearest_wall(&stretches);
            let Own { number, curve, .. } = stretches.swap_remove(next);
            if !self.finish_stretch(&curve) {
                refused.push(number);
            }
        }
        refused
    }

    /// What is to be done but for what finishing these stretches clears, where it can be done at once.
    pub(super) fn left_by_finishing(&self, stretches: &[Own]) -> Raster {
        let mut left = self.todo.clone();
        let mut wood = self.wood.clone();
        for Own { curve, .. } in stretches {
            let path = curve.fitted(self.tool.wall_fit);
            if kept_at_once(
                &widths(self.tool, &mut wood, &path, LOAD_STRETCH),
                self.tool,
            )
            .is_some()
            {
                let sagitta = left.frame().cell * SWEPT_SAGITTA;
                left.clear_near(&path.points(sagitta), self.tool.sweeps - sagitta);
            }
        }
        left.refresh();
        left
    }

    fn nearest_wall(&self, stretches: &[Own]) -> usize {
        let Some(here) = self.here else { return 0 };
        let far = |curve: &Curve| {
            curve
                .pieces
                .first()
                .map_or(f64::INFINITY, |piece| piece.from.distance_squared(here))
        };
        (0..stretches.len())
            .min_by(|&a, &b| far(&stretches[a].curve).total_cmp(&far(&stretches[b].curve)))
            .unwrap_or(0)
    }

    /// Cuts a stretch of wall; false where the cutter cannot get down to it.
    fn finish_stretch(&mut self, curve: &Curve) -> bool {
        let tool = self.tool;
        let natural = curve.fitted(tool.wall_fit);
        if natural.steps.is_empty() {
            return true;
        }
        let forward = self.runs_forward(Wall::Letter);
        let path = if forward { natural } else { natural.reversed() };
        let path = if path.is_closed() {
            self.lapped(&self.well_started(&path))
        } else {
            path
        };
        let lead_in = self.lead(&path, forward, End::Start);
        let lead_out = self.lead(&path, forward, End::Finish);
        let mut whole = lead_in.unwrap_or_else(|| ArcPath::starting_at(path.start));
        whole.append(&path);
        if let Some(lead_out) = lead_out {
            whole.append(&lead_out);
        }
        let kept = kept_at_once(
            &widths(tool, &mut self.wood.clone(), &whole, LOAD_STRETCH),
            tool,
        );
        match kept.filter(|_| self.is_free_but_for_allowance(&whole)) {
            Some(kept) => {
                let way = self.way_to(whole.start, tool.limit);
                self.add_at_once(Purpose::Finishing, whole, way, kept);
                true
            }
            None => self.finish_in_layers(curve, &path),
        }
    }

    /// Where the ground beside the wall could not be cleared before, the wall is cut layer by layer like any other ground.
    fn finish_in_layers(&mut self, curve: &Curve, path: &ArcPath) -> bool {
        let tool = self.tool;
        let stretch = Stretch {
            curve: curve.clone(),
            distance: tool.wall,
            fit: tool.wall_fit,
            meets: tool.selects,
        };
        let Some(start) = entry::start(self, path, &stretch, tool.limit) else {
            return false;
        };
        let Some(opening) = start.opening else {
            self.add(Purpose::Finishing, start.path, start.way);
            return true;
        };
        self.add(Purpose::Finishing, opening.path, opening.way);
        let Some(again) = entry::start(self, path, &stretch, tool.limit) else {
            return false;
        };
        self.add(Purpose::Finishing, again.path, again.way);
        true
    }

    fn is_free_but_for_allowance(&self, path: &ArcPath) -> bool {
        let radius = buried_radius(self.tool);
        !self.wood.any_in_disc(path.start, radius)
    }

    /// A closed wall started where the mark of coming on and going off shows least and leads fit: beside a hollow corner that the
    /// cutter cannot cut out, of those the nearest, for there a smaller cutter or the knife comes after it; else on the longest
    /// line or arc. (Common practice, no source: never at an outward corner, which the mark would blunt.)
    fn well_started(&self, path: &ArcPath) -> ArcPath {
        let forward = self.runs_forward(Wall::Letter);
        let length = path.length();
        let mut beside: Vec<f64> = hollow_corners(path, forward)
            .into_iter()
            .flat_map(|corner| BESIDE.map(|part| (corner + self.tool.radius * part) % length))
            .collect();
        if let Some(here) = self.here {
            let far = |along: &f64| path.at(*along).0.distance_squared(here);
            beside.sort_by(|a, b| far(a).total_cmp(&far(b)));
        }
        let fits = |along: f64| {
            let turned = path.started_at(along);
            let leads = self.lead(&turned, forward, End::Start).is_some();
            leads.then_some(turned)
        };
        let beside = beside.into_iter().take(STARTS_TRIED);
        let middles = middles(path).into_iter().take(STARTS_TRIED);
        beside
            .chain(middles)
            .find_map(fits)
            .unwrap_or_else(|| path.clone())
    }

    /// A closed wall that goes on over its own start.
    fn lapped(&self, path: &ArcPath) -> ArcPath {
        let more = overlap(self.tool).min(path.length() / 4.0);
        let mut lapped = path.clone();
        lapped.append(&path.stretch(0.0, more));
        lapped
    }

    /// A quarter turn between cleared ground and the path's start or end, tangential to it, away from the wall.
    fn lead(&self, path: &ArcPath, forward: bool, end: End) -> Option<ArcPath> {
        let (at, direction) = match end {
            End::Start => path.at(0.0),
            End::Finish => (path.end(), path.at(path.length()).1),
        };
        // The wall lies on the right of curves cut forward.
        let (away, turn) = if forward {
            (Vec2::new(-direction.y, direction.x), Turn::Left)
        } else {
            (Vec2::new(direction.y, -direction.x), Turn::Right)
        };
        let parts = if path.length() > self.tool.radius * SHORT_RADII {
            LEADS
        } else {
            LEADS_OF_SHORT
        };
        parts.iter().find_map(|part| {
            let size = self.tool.radius * part;
            let centre = at + away * size;
            let lead = match end {
                End::Start => ArcPath {
                    start: centre - direction * size,
                    steps: vec![ArcStep::Arc {
                        to: at,
                        centre,
                        turn,
                    }],
                },
                End::Finish => ArcPath {
                    start: at,
                    steps: vec![ArcStep::Arc {
                        to: centre + direction * size,
                        centre,
                        turn,
                    }],
                },
            };
            let off = match end {
                End::Start => lead.start,
                End::Finish => lead.end(),
            };
            let fits = self.is_free(off) && self.fence.clears(&lead, self.tool.limit);
            fits.then_some(lead)
        })
    }
}

/// The middles of a path's steps, the longest step first.
fn middles(path: &ArcPath) -> Vec<f64> {
    let mut passed = 0.0;
    let mut steps: Vec<(f64, f64)> = Vec::with_capacity(path.steps.len());
    for (from, step) in path.from_and_steps() {
        let length = step.length(from);
        steps.push((length, passed + length / 2.0));
        passed += length;
    }
    steps.sort_by(|a, b| b.0.total_cmp(&a.0));
    steps.into_iter().map(|(_, middle)| middle).collect()
}

/// Lengths along a closed path at which it turns sharply away from the wall: there the ground comes to a point.
fn hollow_corners(path: &ArcPath, forward: bool) -> Vec<f64> {
    let mut passed = 0.0;
    let ends: Vec<(f64, Vec2, Vec2)> = path
        .from_and_steps()
        .map(|(from, step)| {
            let (length, begins) = (step.length(from), passed);
            passed += length;
            (begins, step.at(from, 0.0).1, step.at(from, length).1)
        })
        .collect();
    (0..ends.len())
        .filter(|&step| {
            let before = ends[(step + ends.len() - 1) % ends.len()].2;
            let turned = before.cross(ends[step].1).atan2(before.dot(ends[step].1));
            // The wall lies on the right of curves cut forward.
            let away = if forward { turned } else { -turned };
            away > SHARP_RAD
        })
        .map(|step| ends[step].0)
        .collect()
}

#[derive(Clone, Copy)]
enum End {
    Start,
    Finish,
}
