//! Blocks are cut out true to size and down to what holds them, and held until the spindle stands still: by tabs, between which at
//! least half of each outline is cut through, or by a skin.

use geometry::cells::edges;
use geometry::distance::WallIndex;
use kurbo::{Point, Rect, Vec2};
use reader::ReadMotion;
use said::Value;

use super::super::bench::{self, Bench, Near, ROUNDING_MM, in_polygon};
use super::super::copies::Copy;
use super::super::motion;
use super::super::report::{self, place};
use super::super::runs::Run;
use crate::finding::{Finding, Subject, texts};
use crate::job_file::{JobHold, JobSeparation};
use crate::progress::Stopped;

/// How far a block's side may lie off its line, either way, mm: under half of what the trade allows for body and set
/// (0.05 mm, common practice, no source).
const TRUE_MM: f64 = 0.02;

/// Furthest apart of the places along a block's outline that are looked at, mm.
const STEP_MM: f64 = 0.5;

/// The least share of an outline that must be cut through (common practice, no source).
const LEAST_SHARE: f64 = 0.5;

/// How near a block's corner places are not looked at, mm: a cutter turning there need not stand square to the side.
const CORNER_MM: f64 = 0.05;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    match bench.job.separation {
        JobSeparation::Saw => return Ok(Vec::new()),
        JobSeparation::Router => {}
    }
    let findings = bench.each_copy(|copy, near| {
        let cuts = cuts(bench, near);
        let mut findings = entered(copy, &cuts);
        findings.extend(outline(bench, copy, &cuts));
        findings
    })?;
    Ok(report::first_few(findings))
}

/// A cut along the sides of blocks, with the box of all places its edge may lie on.
pub(super) struct Cut<'a> {
    pub(super) run: &'a Run<'a>,
    read: &'a ReadMotion,
    swept: Rect,
}

pub(super) fn cuts<'a>(bench: &'a Bench<'a>, near: &[Near]) -> Vec<Cut<'a>> {
    near.iter()
        .map(|near| bench.motion(near))
        .filter(|(run, _)| run.cuts_sides())
        .map(|(run, read)| {
            let reach = run.radius + TRUE_MM;
            Cut {
                run,
                read,
                swept: motion::extent(read).inflate(reach, reach),
            }
        })
        .collect()
}

/// Cuts that enter the block.
pub(super) fn entered(copy: &Copy, cuts: &[Cut]) -> Vec<Finding> {
    let sides = WallIndex::new([&copy.block]);
    cuts.iter()
        .filter_map(|Cut { run, read, .. }| {
            let gap = bench::distance_to_walls(&sides, read, run.radius) - run.radius;
            let inside =
                in_polygon(&copy.block, read.from.xy) || in_polygon(&copy.block, read.xy_at(0.5));
            (inside || gap < -TRUE_MM).then(|| {
                report::program(
                    run.file,
                    Some(read.line),
                    "block-cut",
                    texts::block_entered(&copy.sort.id, place(read.from.xy), place(read.to.xy)),
                    texts::do_not_run(),
                )
            })
        })
        .collect()
}

/// How the outline is cut: true to size wherever it is cut, down to what holds the block everywhere, and no further than that holds.
fn outline(bench: &Bench, copy: &Copy, cuts: &[Cut]) -> Vec<Finding> {
    let height = bench.job.planks[copy.plank].height_to_paper_mm;
    let held = height - bench.job.hold_mm.unwrap_or(height);
    let id = &copy.sort.id;
    let depths: Vec<(Point, f64)> = touchable_places(&copy.block, cuts)
        .into_iter()
        .map(|at| (at, cut_true_to(cuts, at)))
        .collect();
    let mut findings = Vec::new();
    let mut say = |kind, text| {
        findings.push(report::stop(
            Subject::Sort(id.clone()),
            kind,
            text,
            texts::do_not_run_these(),
        ));
    };
    match bench.job.held_by {
        JobHold::Tabs => {
            let through = depths
                .iter()
                .filter(|(_, depth)| depth + ROUNDING_MM >= height)
                .count();
            let share = through as f64 / depths.len().max(1) as f64;
            if share < LEAST_SHARE {
                say(
                    "block-not-cut-out",
                    texts::block_not_cut_out(Value::rounded(100.0 * share, 0), id),
                );
            }
            let has_tab =
                places(&copy.block).any(|(at, _)| covered_to(cuts, at) + ROUNDING_MM < height);
            if !has_tab {
                say("block-loose", texts::block_loose(id));
            }
        }
        JobHold::Skin => {
            let most = held + ROUNDING_MM;
            if let Some((at, depth)) = places(&copy.block)
                .map(|(at, _)| (at, covered_to(cuts, at)))
                .find(|(_, depth)| *depth > most)
            {
                say(
                    "skin-cut",
                    texts::skin_cut(
                        id,
                        Value::rounded(depth, 2),
                        place(at),
                        Value::rounded(held, 2),
                    ),
                );
            }
        }
    }
    if let Some((at, depth)) = depths.iter().find(|(_, depth)| depth + ROUNDING_MM < held) {
        say(
            "block-side-not-cut",
            texts::side_not_cut(
                id,
                Value::rounded(*depth, 2),
                place(*at),
                Value::rounded(held, 2),
            ),
        );
    }
    findings
}

/// The deepest cut whose edge lies on the outline's line at a place, mm; 0 if there is none.
pub(super) fn cut_true_to(cuts: &[Cut], at: Point) -> f64 {
    cuts.iter()
        .filter(|cut| {
            cut.swept.contains(at)
                && (motion::distance(cut.read, at) - cut.run.radius).abs() <= TRUE_MM
        })
        .map(|cut| motion::depths(cut.read).1)
        .fold(0.0, f64::max)
}

/// The deepest cut that passes over a place, mm; 0 if there is none.
pub(super) fn covered_to(cuts: &[Cut], at: Point) -> f64 {
    cuts.iter()
        .filter(|cut| {
            cut.swept.contains(at) && motion::distance(cut.read, at) <= cut.run.radius + TRUE_MM
        })
        .map(|cut| motion::depths(cut.read).1)
        .fold(0.0, f64::max)
}

/// Places along a block's outline where some cutter can stand against it; into the inner corners of notches none gets.
pub(super) fn touchable_places(block: &[Point], cuts: &[Cut]) -> Vec<Point> {
    let least = cuts.iter().map(|cut| cut.run.radius);
    let least = least.fold(f64::INFINITY, f64::min);
    // Round an upright box there is room everywhere.
    let all_round = block.len() <= 4 || !least.is_finite();
    let sides = WallIndex::new([&block.to_vec()]);
    places(block)
        .filter(|(at, outward)| {
            all_round || sides.nearest(*at + *outward * least) >= least - TRUE_MM
        })
        .map(|(at, _)| at)
        .collect()
}

/// Places along a block's outline, away from its corners, each with the direction out of the block.
fn places(block: &[Point]) -> impl Iterator<Item = (Point, Vec2)> + '_ {
    edges(block).flat_map(|(a, b)| {
        let length = a.distance(b);
        let outward = Vec2::new(b.y - a.y, a.x - b.x) / length.max(f64::MIN_POSITIVE);
        let parts = (length / STEP_MM).ceil().max(1.0) as u32;
        (0..parts)
            .map(move |part| a.lerp(b, (f64::from(part) + 0.5) / f64::from(parts)))
            .filter(move |at| at.distance(a) > CORNER_MM && at.distance(b) > CORNER_MM)
            .map(move |at| (at, outward))
    })
}
