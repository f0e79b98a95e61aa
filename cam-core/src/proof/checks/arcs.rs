//! Every arc ends on the circle that it starts on, within the standard's tolerance (NISTIR 6556 §3.5.3.2, held by the reader).

use reader::Fault;

use super::super::bench::Bench;
use super::super::report;
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let unreadable = bench.programs.iter().filter_map(|program| {
        let error = program.replay.as_ref()?.as_ref().err()?;
        is_off(&error.fault).then(|| {
            report::program(
                &program.entry.file,
                Some(error.line),
                "arc-out-of-tolerance",
                texts::arc_out_of_tolerance(error.to_string()),
                texts::do_not_run(),
            )
        })
    });
    Ok(unreadable.collect())
}

/// Whether the reader refused an arc for its circle.
pub(super) fn is_off(fault: &Fault) -> bool {
    matches!(
        fault,
        Fault::ArcZeroRadius
            | Fault::ArcRadiiDiffer { .. }
            | Fault::ArcRadiusTooSmall { .. }
            | Fault::ArcRadiusFullCircle
    )
}
