//! Every program takes the time that was recorded for it.
//!
//! A change that does no harm by itself, such as a lost move in the air, still shows here.

use super::super::bench::Bench;
use super::super::report::{self, MAKE_AGAIN};
use crate::finding::Finding;
use crate::job_file::JobMachine;
use crate::progress::Stopped;
use crate::toolpath::duration::duration;
use crate::workshop::Machine;

/// How far the times may differ, s: rounding in the job file and between processors.
const SLACK_S: f64 = 1e-5;

/// The same as a share of the time.
const SLACK_SHARE: f64 = 1e-9;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for program in &bench.programs {
        bench.progress.check()?;
        let Some(Ok(replay)) = &program.replay else {
            continue;
        };
        let recorded = program.entry.estimate_s;
        let plank = &program.entry.plank;
        let planks = &bench.job.planks;
        let limits = planks.iter().position(|known| known.id == *plank);
        let limits = limits.map_or(&bench.job.machine, |plank| bench.job.machine_of(plank));
        let found = duration(replay, &machine(limits));
        let near = (found - recorded).abs() <= SLACK_S + SLACK_SHARE * recorded.abs();
        if !near {
            findings.push(report::program(
                &program.entry.file,
                None,
                "time-differs",
                format!(
                    "The program takes {found:.6} s, but {recorded:.6} s was recorded: its moves are not those that were proven."
                ),
                MAKE_AGAIN,
            ));
        }
    }
    Ok(findings)
}

/// The machine as the estimate takes it.
fn machine(limits: &JobMachine) -> Machine {
    Machine {
        name: String::new(),
        travel_mm: limits.travel_mm,
        rapid_mm_min: limits.rapid_mm_min,
        max_feed_mm_min: limits.max_feed_mm_min,
        acceleration_mm_s2: limits.acceleration_mm_s2,
        junction_deviation_mm: limits.junction_deviation_mm,
        spindle_rpm: limits.spindle_rpm,
        clear_height_mm: 0.0,
        hop_height_mm: 0.0,
        holder_diameter_mm: 0.0,
        change_minutes: 0.0,
        dialect: String::new(),
    }
}
