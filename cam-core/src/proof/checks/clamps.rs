//! Neither cutter nor collet nut meets a clamp.

use kurbo::{Point, Rect};

use super::super::bench::{Bench, overlaps};
use super::super::motion;
use super::super::report::{self, place};
use super::super::runs::Run;
use crate::finding::{Finding, texts};
use crate::job_file::JobClamp;
use crate::progress::Stopped;
use reader::ReadMotion;
use said::{Said, Value};

/// The least air between anything that turns and a clamp, mm: clamps are set by hand (common practice, no source).
const LEAST_AIR_MM: f64 = 2.0;

/// Furthest apart of the places along a motion that are looked at, mm.
const STEP_MM: f64 = 0.5;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for run in bench.fresh_runs() {
        bench.progress.check()?;
        for clamp in &bench.job.planks[run.plank].clamps {
            for read in &run.motions {
                if let Some((says, at)) = met(bench, run, clamp, read) {
                    findings.push(report::program(
                        run.file,
                        Some(read.line),
                        "clamp-met",
                        says(Value::short(LEAST_AIR_MM), place(at)),
                        texts::clamp_met_remedy(),
                    ));
                }
            }
        }
    }
    Ok(report::first_few(findings))
}

/// What a finding says, of how much air and of which place.
type Says = fn(Value, Said) -> Said;

/// What meets a clamp during a motion, and where the cutter stands then.
fn met(bench: &Bench, run: &Run, clamp: &JobClamp, read: &ReadMotion) -> Option<(Says, Point)> {
    let lowest = read.from.z.min(read.to.z);
    let top = clamp.height_mm + LEAST_AIR_MM;
    let holder = bench.job.machine_of(run.plank).holder_diameter_mm;
    let cutter = (lowest < top).then_some((texts::clamp_met_by_cutter as Says, run.radius));
    let nut = match (run.cutter.stick_out_mm, holder) {
        (Some(stick_out), Some(diameter)) => {
            (lowest + stick_out < top).then_some((texts::clamp_met_by_nut as Says, diameter / 2.0))
        }
        (_, _) => None,
    };
    // The program has not said yet where it stands across the plank: only its end is known.
    let known = read.known[0] && read.known[1];
    nut.into_iter().chain(cutter).find_map(|(says, radius)| {
        let reach = radius + LEAST_AIR_MM;
        let [x, y] = clamp.at_mm;
        let foot = Rect::new(x, y, x + clamp.size_mm[0], y + clamp.size_mm[1]);
        let swept = motion::extent(read).inflate(reach, reach);
        if !overlaps(swept, foot) {
            return None;
        }
        motion::places(read, STEP_MM)
            .filter(|&at| known || at == read.to.xy)
            .find(|&at| away(foot, at) < reach + STEP_MM / 2.0)
            .map(|at| (says, at))
    })
}

/// How far a place lies from a box; 0 within it.
fn away(area: Rect, at: Point) -> f64 {
    let x = (area.x0 - at.x).max(at.x - area.x1).max(0.0);
    let y = (area.y0 - at.y).max(at.y - area.y1).max(0.0);
    x.hypot(y)
}
