//! No cutter without edges to its middle is fed straight down into wood.

use super::super::bench::{Bench, ROUNDING_MM};
use super::super::descents;
use super::super::motion;
use super::super::report::{self, place};
use crate::finding::{Finding, texts};
use crate::progress::Stopped;
use reader::{ReadCourse, ReadMotion};

/// From this slope on a way down is a plunge (common practice, no source: ramps are given in degrees, seldom over 30).
const STEEPEST_DEG: f64 = 45.0;

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
                texts::plunge_into_wood(&of.cutter.id, place(read.to.xy)),
                texts::plunge_into_wood_remedy(),
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Which of the moves of a program, begun at the face at zero, are plunges.
    fn plunges(moves: &str) -> Vec<usize> {
        let text =
            format!("G21 G17 G90 G94 G40 G49 G54\nG0 X0 Y0 Z0\nS9000 M3\nF100\n{moves}\nM5\nM30\n");
        let replay = reader::read(&text).expect("the program is sound");
        replay
            .motions
            .iter()
            .filter(|read| is_plunge(read))
            .map(|read| read.line - 4)
            .collect()
    }

    #[test]
    fn a_plunge_is_fed_down_steeply_into_the_plank() {
        // Straight down; down a slope of 60, 46, 44 and 30 degrees.
        assert_eq!(plunges("G1 Z-1"), [1]);
        assert_eq!(plunges("G1 X0.577 Z-1"), [1]);
        assert_eq!(plunges("G1 X0.965 Z-1"), [1]);
        assert_eq!(plunges("G1 X1.036 Z-1"), Vec::<usize>::new());
        assert_eq!(plunges("G1 X1.732 Z-1"), Vec::<usize>::new());
        // Down a screw of the same slopes: half a turn is 3.1416 mm long.
        assert_eq!(plunges("G3 X2 I1 Z-3.3"), [1]);
        assert_eq!(plunges("G3 X2 I1 Z-3"), Vec::<usize>::new());
        // Upward, rapid, and above the face.
        assert_eq!(plunges("G0 Z-1\nG1 Z-0.5"), Vec::<usize>::new());
        assert_eq!(plunges("G0 Z3\nG1 Z1"), Vec::<usize>::new());
    }
}
