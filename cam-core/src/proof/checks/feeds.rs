//! No feed is over the machine's limit, nor over the cutter's where it may meet wood, nor any plunge.

use reader::{ReadCourse, ReadMotion};
use said::{Said, Value};

use super::super::bench::Bench;
use super::super::descents::{self, FEED_SLACK};
use super::super::motion;
use super::super::report;
use super::super::runs::Run;
use crate::finding::{Finding, texts};
use crate::job_file::JobMachine;
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let is_swift =
        |run: u32, read: &ReadMotion| descents::is_swift(&bench.runs[run as usize], read);
    let swift = descents::judged(bench, &is_swift)?;
    let mut findings = Vec::new();
    for (run_number, run) in (0..).zip(&bench.runs) {
        bench.progress.check()?;
        for (number, read) in (0..).zip(&run.motions) {
            let cleared = swift.get(&(run_number, number));
            let judged_before =
                bench.was_judged(run_number as usize, read, is_swift(run_number, read));
            if cleared.is_none() && judged_before {
                continue;
            }
            let meets_wood = cleared != Some(&true);
            if let Some(text) = fault(bench.job.machine_of(run.plank), run, read, meets_wood) {
                findings.push(report::program(
                    run.file,
                    Some(read.line),
                    "feed",
                    text,
                    texts::do_not_run(),
                ));
            }
        }
    }
    Ok(report::first_few(findings))
}

fn fault(machine: &JobMachine, run: &Run, read: &ReadMotion, meets_wood: bool) -> Option<Said> {
    let feed = read.feed_mm_min()?;
    let length = read.length_mm();
    if length == 0.0 {
        return None;
    }
    let over = |rate: f64, limit: f64| rate > limit * (1.0 + FEED_SLACK);
    let down = (read.to.z - read.from.z).abs() / length * feed;
    let flat = read.flat_length_mm() / length * feed;
    let [max_x, max_y, max_z] = machine.max_feed_mm_min;
    let too_fast = match read.course {
        ReadCourse::Rapid => false,
        ReadCourse::Line { .. } => {
            let way = (read.to.xy - read.from.xy) / length * feed;
            over(way.x.abs(), max_x) || over(way.y.abs(), max_y)
        }
        ReadCourse::Arc { .. } => over(flat, max_x.min(max_y)),
    };
    if too_fast || over(down, max_z) {
        return Some(texts::feed_beyond_machine(Value::short(feed)));
    }
    if !motion::is_below_face(read) {
        return None;
    }
    match run.cutter.plunge_mm_min {
        Some(plunge) if read.to.z < read.from.z && over(down, plunge) => {
            let [down, plunge] = [down, plunge].map(|feed| Value::rounded(feed, 0));
            return Some(texts::plunge_too_fast(down, &run.cutter.id, plunge));
        }
        Some(_) | None => {}
    }
    match run.cutter.feed_mm_min {
        Some(most) if meets_wood && over(flat, most) => {
            let [flat, most] = [flat, most].map(|feed| Value::rounded(feed, 0));
            Some(texts::feed_too_fast(flat, &run.cutter.id, most))
        }
        Some(_) | None => None,
    }
}
