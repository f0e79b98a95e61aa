//! Which stretches of the level curves a cutter has to run along to clear what is left, and in what order of levels.

use geometry::diagram::{Diagram, Wall};

use crate::pass::curve::Curve;
use crate::pass::fence::Fence;
use crate::pass::pieces::Pocket;
use crate::pass::spans::{Wanted, joined};
use crate::pass::tool::Tool;
use crate::raster::Raster;

/// The most levels of one cutter over one sort; the largest type with the finest step stays below it.
const MOST_LEVELS: usize = 4000;

/// Stretches that may be cut in any order among themselves.
pub(super) type Stage = Vec<Stretch>;

/// A stretch to be cut.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    pub(super) curve: Curve,
    /// Distance of the curve from the walls.
    pub(super) distance: f64,
    /// How far the fitted path may stray from the curve.
    pub(super) fit: f64,
    /// Wood nearer than this to the curve is the reason for the cut.
    pub(super) meets: f64,
}

impl Stretch {
    /// A roughing curve at a distance from the walls.
    pub(super) fn roughing(curve: Curve, distance: f64, tool: &Tool<'_>) -> Stretch {
        Stretch {
            curve,
            distance,
            fit: tool.rough_fit,
            meets: tool.selects,
        }
    }
}

/// The curves at one distance from the walls, cut where they change from wall to wall.
struct Level {
    distance: f64,
    curves: Vec<Curve>,
}

/// Parts of the step by which the levels are moved, tried in turn until nothing is left: corners of neighbouring levels lie
/// further apart than the levels themselves.
const PHASES: [f64; 4] = [0.0, 0.5, 0.25, 0.75];

/// Millimetres along the room's edge over which the cutter goes on cutting rather than come down on a new slope: lifting, going
/// down and sloping in takes about as long.
const ROOM_GAP_MM: f64 = 40.0;

/// The stretches that clear the wood in `todo`, which is cleared as they are chosen.
///
/// First those that follow the room's edge, from outside in, for they start where nothing stands in the way; then those that
/// follow the letter, from far to near, so that the last wood beside the letter is thin. Levels beyond `furthest` are not
/// looked at in the first round.
pub(super) fn stages(
    (ground, pocket): (&Diagram, &Pocket),
    fence: &Fence,
    tool: &Tool<'_>,
    todo: &mut Raster,
    furthest: f64,
) -> Vec<Stage> {
    let mut stages = Vec::new();
    for phase in PHASES {
        if todo.is_empty() {
            break;
        }
        todo.refresh();
        let furthest = if phase > 0.0 {
            beyond(fence, todo, tool)
        } else {
            furthest
        };
        let levels = levels((ground, pocket), tool, phase, furthest);
        outside_in(&levels, tool, todo, &mut stages);
        for level in levels.iter().rev() {
            let letter = |curve: &&Curve| curve.wall == Wall::Letter;
            let stage = level.chosen(letter, tool, todo);
            stages.extend((!stage.is_empty()).then_some(stage));
        }
    }
    stages
}

/// The most cells that are measured one by one.
const MOST_MEASURED: usize = 4000;

/// How far from the walls a curve can lie from which anything is to be done.
pub(super) fn beyond(fence: &Fence, todo: &Raster, tool: &Tool<'_>) -> f64 {
    if todo.count() > MOST_MEASURED {
        return f64::INFINITY;
    }
    let furthest = todo
        .middles()
        .map(|place| fence.nearest_to(place))
        .fold(0.0, f64::max);
    furthest + tool.radius
}

/// The stretches in ground so narrow that roughing curves do not fit: along the finishing curves, where the wood reaches under
/// the cutter further than the allowance.
pub(super) fn narrow(walls: &[Curve], tool: &Tool<'_>, todo: &Raster) -> Stage {
    let radius = buried_radius(tool);
    let chosen = walls.iter().flat_map(|curve| {
        parts(curve, &wanted(curve, tool, todo, radius))
            .into_iter()
            .map(|curve| Stretch {
                curve,
                distance: tool.wall,
                fit: tool.wall_fit,
                meets: radius,
            })
    });
    chosen.collect()
}

/// Wood this near to the cutter's centre is more than the allowance along the wall.
pub(super) fn buried_radius(tool: &Tool<'_>) -> f64 {
    (tool.frees - tool.allowance).max(tool.radius * 0.2)
}

/// Room curves from outside in. Wood that the next curve clears as well is no reason for a cut: so the first cut lies as far
/// in as it may.
fn outside_in(levels: &[Level], tool: &Tool<'_>, todo: &mut Raster, stages: &mut Vec<Stage>) {
    let room = |curve: &&Curve| curve.wall == Wall::Room;
    for (number, level) in levels.iter().enumerate() {
        let mut left_to_next = Raster::empty(todo.frame());
        if let Some(next) = levels.get(number + 1) {
            for curve in next.curves.iter().filter(room) {
                left_to_next.set_near(&curve.points(tool.rough_fit), tool.reaches);
            }
        }
        let mut own = todo.clone();
        own.remove(&left_to_next);
        let stage = level.chosen(room, tool, &mut own);
        for stretch in &stage {
            todo.clear_near(&stretch.curve.points(tool.rough_fit), tool.selects);
        }
        stages.extend((!stage.is_empty()).then_some(stage));
    }
}

impl Level {
    /// The stretches of this level's curves that are needed; what they clear is taken from `todo`.
    fn chosen(&self, which: impl Fn(&&Curve) -> bool, tool: &Tool<'_>, todo: &mut Raster) -> Stage {
        let mut stage = Vec::new();
        for curve in self.curves.iter().filter(which) {
            for part in parts(curve, &wanted(curve, tool, todo, tool.selects)) {
                todo.clear_near(&part.points(tool.rough_fit), tool.selects);
                stage.push(Stretch::roughing(part, self.distance, tool));
            }
        }
        stage
    }
}

fn levels(
    (ground, pocket): (&Diagram, &Pocket),
    tool: &Tool<'_>,
    phase: f64,
    furthest: f64,
) -> Vec<Level> {
    let mut levels = Vec::new();
    for number in 0..MOST_LEVELS {
        let distance = tool.first + (number as f64 + phase) * tool.step;
        if distance > furthest {
            break;
        }
        let curves: Vec<Curve> = ground
            .offset(distance)
            .iter()
            .flat_map(Curve::by_wall)
            .filter(|curve| pocket.holds(curve))
            .collect();
        if curves.is_empty() {
            break;
        }
        levels.push(Level { distance, curves });
    }
    levels
}

/// The stretches of a curve from which a disc of this radius meets something to do.
pub(super) fn wanted(curve: &Curve, tool: &Tool<'_>, todo: &Raster, radius: f64) -> Wanted {
    let mut found: Vec<(f64, f64)> = Vec::new();
    let mut running = false;
    for sample in curve.samples(tool.spacing) {
        let met = todo.any_in_disc(sample.at, radius);
        match (met, running) {
            (true, true) => {
                if let Some(last) = found.last_mut() {
                    last.1 = sample.along;
                }
            }
            (true, false) => found.push((sample.along, sample.along)),
            (false, _) => {}
        }
        running = met;
    }
    let gap = match curve.wall {
        Wall::Letter => tool.radius,
        Wall::Room => tool.radius.max(ROOM_GAP_MM),
    };
    joined(&found, curve.length(), curve.closed, tool.spacing, gap)
}

/// The curves of the stretches wanted.
pub(super) fn parts(curve: &Curve, wanted: &Wanted) -> Vec<Curve> {
    match wanted {
        Wanted::Whole => vec![curve.clone()],
        Wanted::Parts(parts) => parts
            .iter()
            .map(|&(from, to)| curve.stretch(from, to))
            .filter(|part| part.length() > 0.0)
            .collect(),
    }
}
