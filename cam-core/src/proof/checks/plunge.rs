//! No cutter without edges to its middle is fed straight down into wood.

use super::super::bench::{Bench, ROUNDING_MM};
use super::super::descents;
use super::super::motion;
use super::super::report::{self, place};
use crate::finding::Finding;
use crate::progress::Stopped;
use reader::{ReadCourse, ReadMotion};

/// From this slope on a way down is a plunge (common practice, no source: ramps are given in degrees, seldom over 30).
const STEEPEST_DEG: f64 = 45.0;

/// The remedy that is left to the maker.
const REMEDY: &str = "Use a cutter that cuts to its middle, or say in the workshop that this one does, if its maker says so; then make the job again.";

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let plunges = |run: u32, read: &ReadMotion| {
        bench.runs[run as usize].cutter.centre_cutting == Some(false) && is_plunge(read)
    };
    let cleared = descents::judged(bench, &plunges)?;
    let mut findings = Vec::new();
    for (&(run, number), &clear) in &cleared {
        let of = &bench.runs[run as usize];
        let read = &of.motions[number as usize];
        if !clear {
            findings.push(report::program(
                of.file,
                Some(read.line),
                "plunge",
                format!(
                    "{} is fed straight down into wood at {}, and does not cut at its middle.",
                    of.cutter.id,
                    place(read.to.xy)
                ),
                REMEDY,
            ));
        }
    }
    Ok(report::first_few(findings))
}

/// Whether a motion is fed down below the face, steeply.
fn is_plunge(read: &ReadMotion) -> bool {
    let down = read.from.z - read.to.z;
    let fed = match read.course {
        ReadCourse::Rapid => false,
        ReadCourse::Line { .. } | ReadCourse::Arc { .. } => true,
    };
    fed && read.to.z < -ROUNDING_MM
        && down > ROUNDING_MM
        && down > read.flat_length_mm() * STEEPEST_DEG.to_radians().tan()
        && motion::depths(read).0 > 0.0
}
