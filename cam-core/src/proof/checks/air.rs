//! No rapid move goes below the face, but straight down into cleared ground, nor across close above it, and no cut starts from an
//! unknown place.

use reader::{ReadCourse, ReadMotion};
use said::{Said, Value};

use super::super::bench::Bench;
use super::super::descents;
use super::super::motion;
use super::super::report::{self, place};
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

/// The least air under a rapid move across the plank, mm: dust and a plank not quite flat must not touch the cutter
/// (common practice, no source; clear heights are several millimetres).
const LEAST_AIR_MM: f64 = 0.2;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let descents = descents::judged(bench, &|_, read| descents::is_descent(read))?;
    let mut findings = Vec::new();
    for (run_number, run) in (0..).zip(&bench.runs) {
        bench.progress.check()?;
        for (number, read) in (0..).zip(&run.motions) {
            let cleared = descents.get(&(run_number, number));
            let judged_before =
                bench.was_judged(run_number as usize, read, descents::is_descent(read));
            if cleared == Some(&true) || (cleared.is_none() && judged_before) {
                continue;
            }
            if let Some((kind, text)) = fault(read) {
                findings.push(report::program(
                    run.file,
                    Some(read.line),
                    kind,
                    text,
                    texts::do_not_run(),
                ));
            }
        }
        // The next program begins with a rapid across the plank, and the maker with a hand near the cutter.
        if let Some(last) = run.motions.last()
            && last.to.z < LEAST_AIR_MM
        {
            findings.push(report::program(
                run.file,
                Some(last.line),
                "ends-in-the-wood",
                texts::left_in_wood(height(last.to.z)),
                texts::do_not_run(),
            ));
        }
    }
    Ok(report::first_few(findings))
}

fn fault(read: &ReadMotion) -> Option<(&'static str, Said)> {
    let lowest = read.from.z.min(read.to.z);
    let across = motion::moves_across(read) || !(read.known[0] && read.known[1]);
    let known = read.known.iter().all(|known| *known);
    match read.course {
        ReadCourse::Rapid => {
            // The first rise of a program comes before it has said where it stands across the plank.
            let first_rise = !known && read.from.xy == read.to.xy && read.to.z >= LEAST_AIR_MM;
            if first_rise && !read.known[2] {
                return None;
            }
            if across && !read.known[2] {
                return Some(("start-unknown", texts::across_unknown()));
            }
            if across && lowest < LEAST_AIR_MM {
                let text = texts::rapid_across(height(lowest), place(read.to.xy));
                return Some(("rapid-through-wood", text));
            }
            (read.to.z < 0.0 && read.to.z < read.from.z).then(|| {
                let text = texts::rapid_down(height(read.to.z), place(read.to.xy));
                ("rapid-through-wood", text)
            })
        }
        ReadCourse::Line { .. } | ReadCourse::Arc { .. } => {
            (!known).then(|| ("start-unknown", texts::fed_unknown()))
        }
    }
}

/// A height in words.
fn height(z: f64) -> Said {
    if z < 0.0 {
        texts::below_face(Value::rounded(-z, 2))
    } else {
        texts::above_face(Value::rounded(z, 2))
    }
}
