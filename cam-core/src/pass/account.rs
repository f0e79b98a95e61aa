//! What the cutters did so far on one sort: what is cleared, what was left, which wall is finished.

use geometry::diagram::Diagram;
use kurbo::Point;
use said::Value;

use crate::finding::{Finding, Severity, Subject, texts};
use crate::pass::bench::Bench;
use crate::pass::curve::Curve;
use crate::pass::fence::Fence;
use crate::pass::pieces::Piece;
use crate::pass::select::beyond;
use crate::pass::share::Finished;
use crate::pass::tool::Tool;
use crate::raster::Raster;
use crate::relief::ReliefMap;
use crate::sort::Sort;

/// Depths that differ by less are the same, mm.
const NOISE_MM: f64 = 1e-6;

/// Left ground smaller than this is not worth a finding, mm².
const LEAST_LEFT_MM2: f64 = 0.05;

/// What the cutters so far have done.
#[derive(Clone, Default)]
pub(super) struct Account {
    /// Ground cleared, with the depth, one entry for each depth.
    cleared: Vec<(f64, Raster)>,
    /// Ground that a cutter could reach and did not clear, with its depth.
    missed: Vec<(f64, Raster)>,
    pub(super) finished: Finished,
    /// Depth and nearest roughing distance of each cutter.
    pub(super) before: Vec<(f64, f64)>,
}

impl Account {
    /// The cells of a cutter's reach that are not yet as deep as the relief asks for, or as it goes.
    pub(super) fn asked(&self, reach: &Raster, relief: &ReliefMap, furthest: f64) -> Raster {
        let mut todo = reach.clone();
        let full = relief.relief().full_mm.min(furthest);
        self.take_cleared(&mut todo, full);
        let asks = |place: Point| relief.depth_at(place).min(furthest);
        let mut shallow: Vec<&(f64, Raster)> = self.cleared.iter().collect();
        shallow.retain(|(depth, _)| *depth < full - NOISE_MM);
        todo.retain(|place| {
            let asked = asks(place);
            let is_deep =
                |(depth, raster): &&(f64, Raster)| *depth >= asked - NOISE_MM && raster.at(place);
            !shallow.iter().any(is_deep)
        });
        todo.refresh();
        todo
    }

    pub(super) fn take_cleared(&self, wood: &mut Raster, depth: f64) {
        for (cleared, raster) in &self.cleared {
            if *cleared >= depth - NOISE_MM {
                wood.remove(raster);
            }
        }
        wood.refresh();
    }

    /// How far from the walls a next cutter of this depth can find ground at all that is not cleared.
    pub(super) fn furthest(&self, depth: f64) -> f64 {
        self.before
            .iter()
            .filter(|before| before.0 >= depth - NOISE_MM)
            .map(|before| before.1)
            .fold(f64::INFINITY, f64::min)
    }

    /// Notes what was cleared and what was not in one piece.
    pub(super) fn clear(&mut self, bench: &Bench<'_>) {
        let depth = bench.tool.depth;
        note(&mut self.cleared, depth, &bench.swept);
        note(&mut self.missed, depth, &bench.todo);
    }

    /// Notes what is left to the next cutter.
    pub(super) fn leave(&mut self, todo: &Raster, depth: f64) {
        note(&mut self.missed, depth, todo);
    }

    /// Takes back, of what was recorded of a cutter, the walls and the reach of pieces that it leaves.
    pub(super) fn reopen(
        &mut self,
        leaves: &[Piece],
        tool: &Tool<'_>,
        fence: &Fence,
        ground: &Diagram,
    ) {
        for own in leaves.iter().flat_map(|piece| &piece.own) {
            self.finished.reopen(&own.curve, tool.depth, ground);
        }
        let furthest = leaves
            .iter()
            .map(|piece| beyond(fence, &piece.todo, tool))
            .fold(0.0, f64::max);
        if let Some((_, nearest)) = self.before.last_mut() {
            *nearest = nearest.max(furthest);
        }
    }

    /// Notes what a cutter did, whose depth was `everywhere` at least.
    pub(super) fn record(
        &mut self,
        tool: &Tool<'_>,
        everywhere: f64,
        walls: &[Curve],
        refused: &[usize],
        ground: &Diagram,
    ) {
        self.before.push((everywhere, tool.first));
        // A wall of which some part could not be entered is left, for a smaller cutter to try.
        let done = |number: &usize| !refused.contains(number);
        for curve in (0..walls.len()).filter(done).map(|number| &walls[number]) {
            let touched = (tool.wall, tool.pass_over);
            self.finished.add(curve, tool.depth, touched, ground);
        }
    }

    /// A finding where ground that some cutter reaches is left by all.
    pub(super) fn left(&self, sort: &Sort, relief: &ReliefMap) -> Option<Finding> {
        let mut all: Option<Raster> = None;
        for (depth, missed) in &self.missed {
            let missed = self.asked(missed, relief, *depth);
            match &mut all {
                Some(all) => all.add(&missed),
                None => all = Some(missed),
            }
        }
        let left = all?;
        let cell = left.frame().cell;
        let area = left.count() as f64 * cell * cell;
        let first = left.middles().next()?;
        (area > LEAST_LEFT_MM2).then(|| Finding {
            severity: Severity::Warning,
            subject: Subject::Sort(sort.name.clone()),
            kind: "ground-left",
            text: texts::ground_left(Value::rounded(area, 1), texts::point_at(first, 1)),
            remedy: texts::ground_left_remedy(),
        })
    }
}

fn note(known: &mut Vec<(f64, Raster)>, depth: f64, raster: &Raster) {
    match known.iter_mut().find(|known| known.0 == depth) {
        Some((_, known)) => known.add(raster),
        None => known.push((depth, raster.clone())),
    }
}
