//! Every program is the very text that was recorded.

use super::super::bench::Bench;
use super::super::report;
use crate::digest::sha256_hex;
use crate::finding::{Finding, texts};
use crate::progress::Stopped;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let mut findings = Vec::new();
    for program in &bench.programs {
        bench.progress.check()?;
        let Some(text) = program.text else { continue };
        if sha256_hex(text.as_bytes()) != program.entry.sha256 {
            findings.push(report::program(
                &program.entry.file,
                None,
                "program-changed",
                texts::program_changed(),
                texts::do_not_run(),
            ));
        }
    }
    Ok(findings)
}
