//! Every move lies within the machine's travel and near the plank.

use said::Value;

use super::super::bench::Bench;
use super::super::motion;
use super::super::report::{self, place};
use crate::finding::{Finding, Subject, texts};
use crate::progress::Stopped;

/// How far beyond the plank's edge a cutter's centre may go, mm: room to stand beside it, short of whatever holds it
/// (common practice, no source).
const BESIDE_PLANK_MM: f64 = 25.0;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let job = bench.job;
    let mut findings = Vec::new();
    let mut extents = vec![[(f64::INFINITY, f64::NEG_INFINITY); 3]; job.planks.len()];
    for run in &bench.runs {
        bench.progress.check()?;
        let plank = &job.planks[run.plank];
        for read in &run.motions {
            let extent = motion::extent(read);
            let [x, y, z] = &mut extents[run.plank];
            if read.known[0] && read.known[1] {
                widen(x, extent.x0, extent.x1);
                widen(y, extent.y0, extent.y1);
                let beside = extent.x0 < -BESIDE_PLANK_MM
                    || extent.y0 < -BESIDE_PLANK_MM
                    || extent.x1 > plank.width_mm + BESIDE_PLANK_MM
                    || extent.y1 > plank.length_mm + BESIDE_PLANK_MM;
                if beside {
                    findings.push(report::program(
                        run.file,
                        Some(read.line),
                        "off-the-plank",
                        texts::off_the_plank(
                            place(read.to.xy),
                            Value::short(BESIDE_PLANK_MM),
                            &plank.id,
                        ),
                        texts::do_not_run(),
                    ));
                }
            }
            widen(z, read.from.z.min(read.to.z), read.from.z.max(read.to.z));
        }
    }
    for (number, (plank, extent)) in job.planks.iter().zip(&extents).enumerate() {
        let axes = ["x", "y", "z"].into_iter().zip(extent);
        for ((axis, (least, most)), travel) in axes.zip(job.machine_of(number).travel_mm) {
            if most - least > travel {
                findings.push(report::stop(
                    Subject::Plank(plank.id.clone()),
                    "beyond-travel",
                    texts::beyond_travel(
                        &plank.id,
                        Value::rounded(most - least, 1),
                        axis,
                        Value::rounded(travel, 1),
                    ),
                    texts::beyond_travel_remedy(),
                ));
            }
        }
    }
    Ok(report::first_few(findings))
}

fn widen(range: &mut (f64, f64), least: f64, most: f64) {
    range.0 = range.0.min(least);
    range.1 = range.1.max(most);
}
