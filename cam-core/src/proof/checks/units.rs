//! Every program says whether it is in millimetres or inches before it moves.

use super::super::bench::Bench;
use super::super::report;
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let silent = bench
        .programs
        .iter()
        .filter(|program| match &program.replay {
            Some(Ok(replay)) => !replay.units_stated,
            Some(Err(_)) | None => false,
        });
    Ok(silent
        .map(|program| {
            report::program(
                &program.entry.file,
                None,
                "program-without-units",
                texts::without_units(),
                texts::do_not_run(),
            )
        })
        .collect())
}
