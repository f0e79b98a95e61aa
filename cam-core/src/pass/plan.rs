//! The passes of all cutters over one sort.

use std::cell::OnceCell;
use std::sync::Arc;

use geometry::arc_path::ArcPath;
use geometry::diagram::Diagram;
use kurbo::{Point, Rect};
use said::Value;

use crate::commission::{Commission, Roughing};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::pass::account::Account;
use crate::pass::bench::Bench;
use crate::pass::corners::sharpen;
use crate::pass::curve::Curve;
use crate::pass::fence::Fence;
use crate::pass::finishing::{Own, own_stretches};
use crate::pass::layers::in_layers;
use crate::pass::leaving::Next;
use crate::pass::narrows::Narrows;
use crate::pass::pieces::{Piece, pieces};
use crate::pass::select::{beyond, narrow, stages};
use crate::pass::steady::clear_steadily;
use crate::pass::tool::Tool;
use crate::pass::{Entry, PassError, Purpose, SortPasses};
use crate::raster::{Frame, Raster};
use crate::relief::{Relief, ReliefMap};
use crate::sort::Sort;
use crate::toolpath::{duration::of_motions, join_one};
use crate::workshop::{Cutter, CutterShape, Machine, Workshop};

/// Cells to the radius of the smallest cutter.
const CELLS_PER_RADIUS: f64 = 6.0;
/// The finest and the coarsest cells, mm.
const CELL_MM: [f64; 2] = [0.05, 0.1];
/// How far beyond the block's edge the ground is cleared too, mm, so that no ridge stands along a sawn edge.
const BEYOND_BLOCK_MM: f64 = 0.25;
/// What a path may come nearer than a cutter's radius, mm: the noise of the arithmetic.
const NOISE_MM: f64 = 1e-6;

/// Plans the passes of every cutter of the commission over one sort: the flat ones from the largest to the smallest, then the
/// conical ones from the bluntest tip to the finest.
///
/// `ground` is the sort's face in its room. The result has one entry for each of these cutters that has something to do or not, in
/// face space. Each cutter clears its ground as deep as the relief asks for at the widest place of it, or as it can. The letter's
/// wall is cut by the largest cutter that comes within the commission's tolerance of it, and lies between 0 and the tolerance
/// outside the drawn letter.
///
/// # Errors
/// Where the commission names a cutter that the workshop does not have, or no flat cutter, or numbers that no cut can be
/// planned with.
pub fn plan(
    sort: &Sort,
    ground: &Diagram,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<(Vec<SortPasses>, Vec<Finding>), PassError> {
    let mut findings = Vec::new();
    let cutters = cutters(commission, workshop, &mut findings)?;
    let mut planning = Planning::new(sort, ground, commission, &workshop.machine, &cutters);
    let smaller = cutters.iter().skip(1).map(Some).chain([None]);
    let mut passes: Vec<SortPasses> = cutters
        .iter()
        .zip(smaller)
        .map(|(cutter, smaller)| planning.next(cutter, smaller.copied()))
        .collect();
    findings.extend(planning.findings);
    if let Some(smallest) = cutters.last() {
        let (pointed, found) = sharpen(sort, ground, commission, workshop, smallest);
        passes.extend(pointed);
        findings.extend(found);
    }
    findings.extend(planning.account.left(sort, &planning.relief));
    Ok((passes, findings))
}

/// The passes over one sort as they are planned cutter by cutter, from large to small.
///
/// What a cutter has to do depends on what the ones before it did; a clone goes on from there with other cutters.
#[derive(Clone)]
pub(crate) struct Planning<'a> {
    sort: &'a Sort,
    ground: &'a Diagram,
    commission: &'a Commission,
    machine: &'a Machine,
    frame: Frame,
    fence: Arc<Fence>,
    block: Arc<Raster>,
    relief: Arc<ReliefMap>,
    account: Account,
    /// Where the next cutter comes, where it was looked at already.
    looked_ahead: Option<Arc<Reached>>,
    findings: Vec<Finding>,
}

impl<'a> Planning<'a> {
    /// Before any cutter; `cutters` are all that may follow, on a machine by whose times ways of cutting are chosen.
    pub(crate) fn new(
        sort: &'a Sort,
        ground: &'a Diagram,
        commission: &'a Commission,
        machine: &'a Machine,
        cutters: &[&Cutter],
    ) -> Planning<'a> {
        let frame = frame(ground, cutters);
        Planning {
            sort,
            ground,
            commission,
            machine,
            frame,
            fence: Arc::new(Fence::around(ground)),
            block: Arc::new(block_mask(sort, frame)),
            relief: Arc::new(ReliefMap::of(ground, &Relief::of(&commission.cutting))),
            account: Account::default(),
            looked_ahead: None,
            findings: Vec::new(),
        }
    }

    /// The passes of the next cutter; to the `smaller` one after it, if it is told, small pieces are left that it does sooner.
    pub(crate) fn next(&mut self, cutter: &Cutter, smaller: Option<&Cutter>) -> SortPasses {
        let (sort, ground, commission, frame) =
            (self.sort, self.ground, self.commission, self.frame);
        let (fence, block, relief) = (&*self.fence, &*self.block, &*self.relief);
        let (account, findings) = (&mut self.account, &mut self.findings);
        let mut tool = Tool::new(cutter, &commission.cutting, frame);
        let purpose = if account.before.is_empty() {
            Purpose::Roughing
        } else {
            Purpose::Rest
        };
        let known = self.looked_ahead.take();
        let reached = known
            .filter(|known| known.cutter == cutter.id)
            .unwrap_or_else(|| Arc::new(Reached::by(&tool, ground, frame)));
        let Reached {
            walls,
            cells: reached,
            ..
        } = &*reached;
        let todo = account.asked(&reached.both(block), relief, tool.depth);
        let open = account.finished.open(walls, &tool, relief, ground);
        let own = own_stretches(walls, &tool, &open);
        let smaller = smaller.map(|smaller| {
            let tool = Tool::new(smaller, &commission.cutting, frame);
            let within = Arc::new(Reached::by(&tool, ground, frame));
            let mut own = account.asked(&within.cells.both(block), relief, tool.depth);
            self.looked_ahead = Some(within);
            own.remove(reached);
            own.refresh();
            Next {
                cutter: smaller,
                depth: tool.depth,
                own,
            }
        });
        let mut leaves = Vec::new();
        let mut left = pieces(walls, own, todo, &tool, relief, |walls| {
            reach(walls, &tool, frame)
        });
        let mut made = SortPasses {
            cutter: cutter.id.clone(),
            cuts: Vec::new(),
        };
        let roughable = OnceCell::new();
        let mut done = Vec::new();
        let mut here = None;
        // Bound: every round takes one piece.
        while !left.is_empty() {
            let piece = left.swap_remove(nearest(&left, here, tool.radius));
            let mut tool = tool;
            tool.go_down_to(piece.depth);
            let mut wood = reached.clone();
            account.take_cleared(&mut wood, tool.depth);
            let bench = Bench {
                tool: &tool,
                ground,
                fence,
                pocket: &piece.pocket,
                direction: commission.cutting.direction,
                machine: self.machine,
                todo: piece.todo.clone(),
                wood,
                swept: Raster::empty(frame),
                cuts: Vec::new(),
                here,
                down: false,
                group: None,
                passed_narrows: false,
            };
            let furthest = account.furthest(tool.depth);
            let own = &piece.own;
            let of_piece = quickest(bench, commission.cutting.roughing, |bench, style| {
                if !bench.todo.is_empty() {
                    let roughable = roughable.get_or_init(|| roughable_by(&tool, ground, frame));
                    clear(bench, roughable, own, purpose, furthest, style);
                }
                bench.finish(own.clone())
            });
            let is_left = |next: &Next<'_>| {
                next.takes_less(&piece, tool.radius, of_piece.seconds, self.machine)
            };
            if smaller.as_ref().is_some_and(is_left) {
                account.leave(&piece.todo, tool.depth);
                leaves.push(piece);
                continue;
            }
            account.clear(&of_piece.bench);
            here = of_piece.bench.here;
            made.cuts.extend(of_piece.made.cuts);
            done.push((tool.depth, of_piece.refused));
        }
        let depths = || done.iter().map(|(depth, _)| *depth);
        if let Some(deepest) = depths().reduce(f64::max) {
            tool.go_down_to(deepest);
        }
        let refused: Vec<usize> = done
            .iter()
            .flat_map(|(_, refused)| refused.clone())
            .collect();
        let everywhere = depths().fold(tool.depth, f64::min);
        account.record(&tool, everywhere, walls, &refused, ground);
        account.reopen(&leaves, &tool, fence, ground);
        findings.extend(check(sort, &made, &tool, fence));
        findings.extend(shallow(sort, &made, &tool, commission));
        made
    }
}

/// The flat cutters from large to small; those with a round end give a finding.
fn cutters<'w>(
    commission: &Commission,
    workshop: &'w Workshop,
    findings: &mut Vec<Finding>,
) -> Result<Vec<&'w Cutter>, PassError> {
    let mut cutters: Vec<&Cutter> = Vec::new();
    for id in &commission.cutting.cutters {
        let cutter = workshop
            .cutter(id)
            .ok_or_else(|| PassError::UnknownCutter(id.clone()))?;
        let usable = [
            cutter.diameter,
            cutter.step_down,
            cutter.step_over,
            cutter.max_depth,
            cutter.flute_length,
        ];
        if usable
            .iter()
            .any(|length| !(length.in_mm() > 0.0 && length.in_mm().is_finite()))
        {
            return Err(PassError::NoSize(id.clone()));
        }
        match cutter.shape {
            CutterShape::Flat if cutters.iter().all(|known| known.id != *id) => {
                cutters.push(cutter);
            }
            CutterShape::Flat => {}
            // After the flat cutters, for what they leave.
            CutterShape::Conical { .. } => {}
            CutterShape::Ball => findings.push(Finding {
                severity: Severity::Warning,
                subject: Subject::Cutter(id.clone()),
                kind: "cutter-not-flat",
                text: texts::cutter_not_flat(id),
                remedy: texts::cutter_not_flat_remedy(),
            }),
        }
    }
    if cutters.is_empty() {
        return Err(PassError::NoFlatCutter);
    }
    if !(commission.cutting.relief.in_mm() > 0.0 && commission.cutting.relief.in_mm().is_finite()) {
        return Err(PassError::NoRelief);
    }
    cutters.sort_by(|a, b| {
        b.diameter
            .in_mm()
            .total_cmp(&a.diameter.in_mm())
            .then_with(|| a.id.cmp(&b.id))
    });
    Ok(cutters)
}

fn frame(ground: &Diagram, cutters: &[&Cutter]) -> Frame {
    let smallest = cutters
        .iter()
        .map(|cutter| cutter.radius_mm())
        .fold(f64::INFINITY, f64::min);
    let room = ground.room();
    let first = room.first().copied().unwrap_or(Point::ORIGIN);
    let area = room
        .iter()
        .fold(Rect::from_points(first, first), |area, &point| {
            area.union_pt(point)
        });
    Frame::over(
        area,
        (smallest / CELLS_PER_RADIUS).clamp(CELL_MM[0], CELL_MM[1]),
    )
}

/// The block and a little beyond its edge.
fn block_mask(sort: &Sort, frame: Frame) -> Raster {
    let mut mask = Raster::empty(frame);
    let mut outline = sort.block.outline.clone();
    mask.set_inside(std::slice::from_ref(&outline));
    outline.extend(outline.first().copied());
    mask.set_near(&outline, BEYOND_BLOCK_MM);
    mask
}

/// Where a cutter comes on a sort.
struct Reached {
    /// The cutter, by id.
    cutter: String,
    /// The curves along the walls on which it finishes.
    walls: Vec<Curve>,
    /// The cells that it sweeps whole within them.
    cells: Raster,
}

impl Reached {
    fn by(tool: &Tool<'_>, ground: &Diagram, frame: Frame) -> Reached {
        let walls = curves_at(tool.wall, ground);
        Reached {
            cutter: tool.cutter.id.clone(),
            cells: reach(&walls, tool, frame),
            walls,
        }
    }
}

/// The curves at a distance from the walls.
fn curves_at(distance: f64, ground: &Diagram) -> Vec<Curve> {
    ground.offset(distance).iter().map(Curve::whole).collect()
}

/// The cells that a cutter sweeps whole from somewhere within its finishing curves.
fn reach(walls: &[Curve], tool: &Tool<'_>, frame: Frame) -> Raster {
    let sagitta = frame.cell * 0.05;
    let rings: Vec<Vec<Point>> = walls.iter().map(|curve| curve.points(sagitta)).collect();
    let mut reach = Raster::empty(frame);
    reach.set_inside(&rings);
    for ring in &rings {
        reach.set_near(ring, tool.reaches);
    }
    reach
}

/// The number of the piece that lies nearest to where the cutter stands.
fn nearest(pieces: &[Piece], here: Option<Point>, spacing: f64) -> usize {
    let Some(here) = here else { return 0 };
    let far = |piece: &Piece| piece.distance(here, spacing);
    let distances = pieces.iter().map(far).enumerate();
    distances
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map_or(0, |(number, _)| number)
}

/// What came of planning one cutter's work in one style.
struct Done<'a> {
    bench: Bench<'a>,
    /// The walls that could not be entered.
    refused: Vec<usize>,
    made: SortPasses,
    seconds: f64,
}

/// Plans the work in every style that may be used, and takes the one that takes least time.
fn quickest<'a>(
    bench: Bench<'a>,
    roughing: Roughing,
    work: impl Fn(&mut Bench<'a>, Style) -> Vec<usize>,
) -> Done<'a> {
    let done = |mut bench: Bench<'a>, style: Style| {
        let refused = work(&mut bench, style);
        bench.close_group();
        let cutter = bench.tool.cutter;
        let made = SortPasses {
            cutter: cutter.id.clone(),
            cuts: in_layers(&bench.cuts, bench.tool),
        };
        let motions = join_one(&made, cutter, bench.machine).motions;
        Done {
            seconds: of_motions(&motions, bench.machine),
            bench,
            refused,
            made,
        }
    };
    let quicker = |one: Done<'a>, other: Done<'a>| {
        if other.seconds < one.seconds {
            other
        } else {
            one
        }
    };
    let steady = |bench: Bench<'a>| {
        let passed = done(bench.clone(), Style::Steady(Narrows::Passed));
        if passed.bench.passed_narrows {
            quicker(passed, done(bench, Style::Steady(Narrows::Left)))
        } else {
            passed
        }
    };
    match roughing {
        Roughing::Steady => steady(bench),
        Roughing::Contours => done(bench, Style::Contours),
        Roughing::Quicker => quicker(steady(bench.clone()), done(bench, Style::Contours)),
    }
}

/// How one cutter's work is planned.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Style {
    Steady(Narrows),
    Contours,
}

fn clear(
    bench: &mut Bench<'_>,
    roughable: &Raster,
    own: &[Own],
    purpose: Purpose,
    furthest: f64,
    style: Style,
) {
    let mut todo = bench.todo.both(roughable);
    if purpose == Purpose::Rest {
        // What finishing takes in passing needs no cut of its own.
        todo = todo.both(&bench.left_by_finishing(own));
    }
    if let Style::Steady(narrows) = style {
        let all = std::mem::replace(&mut bench.todo, todo.clone());
        clear_steadily(bench, purpose, narrows);
        todo.remove(&bench.swept);
        bench.todo = all;
        bench.todo.remove(&bench.swept);
        bench.todo.refresh();
    }
    let furthest = match style {
        Style::Steady(_) => furthest.min(beyond(bench.fence, &todo, bench.tool)),
        Style::Contours => furthest,
    };
    let stages = stages(
        (bench.ground, bench.pocket),
        bench.fence,
        bench.tool,
        &mut todo,
        furthest,
    );
    bench.clear(stages, purpose);
    bench.wood.refresh();
    bench.todo.refresh();
    let left = bench.left_by_finishing(own);
    let narrow = narrow(&bench.pocket.walls, bench.tool, &left);
    bench.clear(vec![narrow], Purpose::Rest);
    bench.wood.refresh();
}

/// What roughing can clear: what is reached with the allowance kept.
fn roughable_by(tool: &Tool<'_>, ground: &Diagram, frame: Frame) -> Raster {
    reach(&curves_at(tool.first, ground), tool, frame)
}

/// Every path is measured against the letter, whatever made it; one that comes too near stops the programs.
fn check(sort: &Sort, made: &SortPasses, tool: &Tool<'_>, fence: &Fence) -> Option<Finding> {
    let limit = tool.radius - NOISE_MM;
    let mut here: Option<Point> = None;
    let too_near = made.cuts.iter().find(|cut| {
        let linked = match (&cut.entry, here) {
            (Entry::StayDown, Some(from)) => fence.clears_line(from, cut.path.start, limit),
            (Entry::StayDown, None) => false,
            (Entry::Ramp { path, .. }, _) => fence.clears(path, limit),
            (Entry::Open | Entry::Plunge, _) => true,
        };
        here = Some(cut.path.end());
        !(linked && fence.clears(&cut.path, limit) && is_finite(&cut.path))
    })?;
    Some(Finding {
        severity: Severity::Stop,
        subject: Subject::Sort(sort.name.clone()),
        kind: "path-too-near-the-letter",
        text: texts::path_too_near(&made.cutter, texts::point_at(too_near.path.start, 2)),
        remedy: texts::path_too_near_remedy(),
    })
}

fn is_finite(path: &ArcPath) -> bool {
    path.start.is_finite() && path.length().is_finite()
}

fn shallow(
    sort: &Sort,
    made: &SortPasses,
    tool: &Tool<'_>,
    commission: &Commission,
) -> Option<Finding> {
    let least: f64 = commission.cutting.least_relief.in_mm();
    let is_shallow = tool.depth < least - NOISE_MM && !made.cuts.is_empty();
    is_shallow.then(|| Finding {
        severity: Severity::Warning,
        subject: Subject::Sort(sort.name.clone()),
        kind: "ground-too-shallow",
        text: texts::ground_too_shallow(
            &made.cutter,
            Value::rounded(tool.depth, 2),
            Value::rounded(least, 2),
        ),
        remedy: texts::ground_too_shallow_remedy(),
    })
}
