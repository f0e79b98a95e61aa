//! No cutter takes more wood at once than it is set to take.
//!
//! The load is measured on the simulated cut: wood taken off in the time that a stretch of the way takes, against a cut as wide as
//! the cutter's step over and as deep as its step down at its full feed; of a cone or a ball, against a groove as deep as its step
//! down.

use kurbo::Rect;

use super::super::bench::Bench;
use super::super::heights::{self, Taken, Wood};
use super::super::report::{self, place};
use super::super::runs::Run;
use crate::finding::{Finding, Severity, texts};
use crate::job_file::JobRole;
use crate::progress::Stopped;
use reader::ReadCourse;
use said::Value;

/// Side of a cell of the wood that is cut, mm.
const CELL_MM: f64 = 0.1;

/// Up to so many times the load that a cutter is set to take is taken for it: cells of this size tell the load of a cutter under a
/// millimetre no closer, and programs whose feeds follow the load are at what is set for long ways.
const SLACK: f64 = 1.15;

/// The same for the grooves of cones and balls, of which cells of this size tell less.
const GROOVE_SLACK: f64 = 1.25;

/// The share of a run's way that may be over its load before the maker is told.
const LEAST_SHARE: f64 = 0.02;

/// A cut as wide as the cutter, in a whole layer at its full feed, is the most that a cutter is set up for, as where ground is opened.
/// For a touch it may take up to twice as much, where finishing takes the rest of a corner at the whole depth; three times as much
/// is meant nowhere (common practice, no source).
const BEYOND_A_SLOT: f64 = 3.0;

/// A cut counts as deeper than a layer if it is so on more than this part of the cutter's width. What is narrower is wood that was
/// left beside a wall, which finishing takes at the whole depth, a quarter of the width at the most.
const DEEP_WIDTH: f64 = 0.5;

/// How much deeper than a layer wood must be to count as deeper, mm: rounding of places and of feeds.
const LAYER_SLACK_MM: f64 = 0.02;

/// Shortest stretch of way that is judged by itself, in radii of the cutter in one layer.
const STRETCH_RADII: f64 = 1.0;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    let planks = bench.job.planks.len();
    bench.progress.extend(planks);
    for plank in 0..planks {
        bench.progress.check()?;
        let runs: Vec<&Run> = bench
            .runs
            .iter()
            .map(AsRef::as_ref)
            .filter(|run| run.plank == plank)
            .collect();
        findings.extend(of_plank(bench, plank, &runs)?);
        bench.progress.advance();
    }
    Ok(findings)
}

/// A stretch of one run's way, fed below the face without a break.
struct Stretch {
    /// Index of the run.
    run: usize,
    /// The places in [`Run::swept`].
    swept: std::ops::Range<usize>,
    /// Its length, mm.
    length: f64,
    /// The time it takes at its feeds, minutes.
    minutes: f64,
    /// Whether the cutter goes straight down in it, which has a feed of its own and a whole disc of wood under it, or straight up, which
    /// takes nothing.
    enters: bool,
}

fn of_plank(bench: &Bench, plank: usize, runs: &[&Run]) -> Result<Vec<Finding>, Stopped> {
    let stretches: Vec<Stretch> =
        runs.iter()
            .enumerate()
            .flat_map(|(index, run)| stretches(index, run))
            .filter(|stretch| {
                let swept = &runs[stretch.run].swept[stretch.swept.clone()];
                bench.changed.as_ref().is_none_or(|changed| {
                    swept.iter().any(|&(_, area)| changed.touches(plank, area))
                })
            })
            .collect();
    let area = stretches
        .iter()
        .flat_map(|stretch| &runs[stretch.run].swept[stretch.swept.clone()])
        .map(|&(_, area)| area)
        .reduce(|one, other| one.union(other));
    let thickness = bench.job.planks[plank].height_to_paper_mm;
    let Some(area) = area.and_then(|area| on_plank(bench, plank, area)) else {
        return Ok(Vec::new());
    };
    let layers: Vec<f64> = runs
        .iter()
        .map(|run| {
            run.cutter
                .step_down_mm
                .map_or(f64::INFINITY, |layer| layer + LAYER_SLACK_MM)
        })
        .collect();
    let wood = Wood {
        area,
        thickness,
        cell: CELL_MM,
    };
    let taken = heights::taken(&wood, runs, &layers, bench.progress)?;
    Ok(runs
        .iter()
        .enumerate()
        .flat_map(|(index, run)| {
            let own: Vec<&Stretch> = stretches
                .iter()
                .filter(|stretch| stretch.run == index)
                .collect();
            of_run(run, &own, &taken[index])
        })
        .collect())
}

/// The part of an area that lies on the plank.
fn on_plank(bench: &Bench, plank: usize, area: Rect) -> Option<Rect> {
    let plank = &bench.job.planks[plank];
    let area = area.intersect(Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm));
    (area.width() > 0.0 && area.height() > 0.0).then_some(area)
}

/// Parts a run's way: from break to break, and no longer than it must be to be judged.
fn stretches(index: usize, run: &Run) -> Vec<Stretch> {
    let least = STRETCH_RADII * radius_in_a_layer(run);
    let mut found: Vec<Stretch> = Vec::new();
    let mut open: Option<Stretch> = None;
    let mut last = None;
    for (place, &(number, _)) in run.swept.iter().enumerate() {
        let read = &run.motions[number as usize];
        let feed = match read.course {
            ReadCourse::Rapid => None,
            ReadCourse::Line { feed_mm_min } | ReadCourse::Arc { feed_mm_min, .. } => {
                Some(feed_mm_min)
            }
        };
        let follows = last == number.checked_sub(1);
        last = Some(number);
        if feed.is_none() || !follows {
            found.extend(open.take());
        }
        let Some(feed) = feed.filter(|feed| *feed > 0.0) else {
            continue;
        };
        let stretch = open.get_or_insert(Stretch {
            run: index,
            swept: place..place,
            length: 0.0,
            minutes: 0.0,
            enters: false,
        });
        stretch.swept.end = place + 1;
        stretch.length += read.length_mm();
        stretch.minutes += read.length_mm() / feed;
        stretch.enters |= read.from.xy == read.to.xy;
        if stretch.length >= least {
            found.extend(open.take());
        }
    }
    found.extend(open);
    found
}

/// Half the width that a cutter cuts at the face in one layer.
fn radius_in_a_layer(run: &Run) -> f64 {
    run.solid
        .radius_at(run.cutter.step_down_mm.unwrap_or(f64::INFINITY))
}

fn of_run(run: &Run, stretches: &[&Stretch], taken: &[Taken]) -> Vec<Finding> {
    let cutter = run.cutter;
    let (Some(layer), Some(feed)) = (cutter.step_down_mm, cutter.feed_mm_min) else {
        return Vec::new();
    };
    let slot = run.solid.area_across(layer) * feed;
    // Cutting blocks out is slotting from beginning to end, and so is a groove.
    let slots = match run.role {
        JobRole::Separation | JobRole::Notches => true,
        JobRole::Roughing | JobRole::Finishing | JobRole::Rest | JobRole::Corners => {
            !run.solid.is_flat()
        }
    };
    let set = if slots {
        slot
    } else {
        let Some(step_over) = cutter.step_over_mm else {
            return Vec::new();
        };
        layer * step_over * feed
    };
    let slack = if run.solid.is_flat() {
        SLACK
    } else {
        GROOVE_SLACK
    };
    let mut findings = Vec::new();
    let (mut over, mut way) = (0.0, 0.0);
    let mut worst: Option<(f64, &Stretch)> = None;
    for &stretch in stretches {
        let sum = taken[stretch.swept.clone()]
            .iter()
            .fold(Taken::default(), |sum, taken| Taken {
                volume: sum.volume + taken.volume,
                deep: sum.deep + taken.deep,
            });
        // A short stretch takes what lies under the cutter where it begins as well.
        let whole = (STRETCH_RADII * radius_in_a_layer(run) / stretch.length).max(1.0);
        let rate = sum.volume / (stretch.minutes * whole);
        way += stretch.length;
        if !stretch.enters {
            if rate > slack * set {
                over += stretch.length;
            }
            if worst.is_none_or(|(most, _)| rate > most) {
                worst = Some((rate, stretch));
            }
        }
        let width = sum.deep / (stretch.length * whole);
        let (number, _) = run.swept[stretch.swept.start];
        let read = &run.motions[number as usize];
        let at = place(read.from.xy);
        let text = if width > DEEP_WIDTH * cutter.diameter_mm {
            let [layer, width] = [layer, width].map(|size| Value::rounded(size, 2));
            texts::takes_layers(&cutter.id, layer, width, at)
        } else if rate > BEYOND_A_SLOT * slot {
            texts::takes_slots(&cutter.id, Value::rounded(rate / slot, 1), at)
        } else {
            continue;
        };
        findings.push(report::program(
            run.file,
            Some(read.line),
            "cut-too-heavy",
            text,
            texts::do_not_run(),
        ));
    }
    let mut findings = report::first_few(findings);
    if let Some((most, stretch)) = worst.filter(|_| over > LEAST_SHARE * way) {
        let (number, _) = run.swept[stretch.swept.start];
        let read = &run.motions[number as usize];
        let mut warning = report::program(
            run.file,
            Some(read.line),
            "load",
            texts::load(
                &cutter.id,
                Value::rounded(100.0 * over / way, 0),
                Value::rounded(most / set, 1),
                place(read.xy_at(0.5)),
            ),
            texts::load_remedy(),
        );
        warning.severity = Severity::Warning;
        findings.push(warning);
    }
    findings
}
