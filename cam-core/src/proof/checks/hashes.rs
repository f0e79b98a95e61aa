//! Every program is the very text that was recorded.

use super::super::bench::Bench;
use super::super::report::{self, MAKE_AGAIN};
use crate::digest::sha256_hex;
use crate::finding::Finding;
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
                "The program is not the one that was proven: its text has changed since the job was made."
                    .to_owned(),
                MAKE_AGAIN,
            ));
        }
    }
    Ok(findings)
}
