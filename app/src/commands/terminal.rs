//! What commands say: results on standard output, everything else on standard error.

use std::io::{self, IsTerminal, Write};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Duration;

use cam_core::finding::{Finding, Severity};
use cam_core::progress::Progress;
use serde_json::{Value, json};

/// How often progress is written to a terminal.
const TICK: Duration = Duration::from_millis(200);

/// Where commands speak.
pub struct Terminal {
    quiet: bool,
    progress: Arc<Progress>,
    /// What was said last about progress, so that a file gets each step once.
    last: Mutex<String>,
}

impl Terminal {
    /// A terminal whose progress stops when the maker presses Ctrl-C.
    pub fn new(quiet: bool) -> Terminal {
        let progress = Arc::new(Progress::new());
        let interrupted = Arc::clone(&progress);
        // Without a handler the system ends the program at once; output folders are still whole or absent then.
        let _ = ctrlc::set_handler(move || interrupted.stop());
        Terminal {
            quiet,
            progress,
            last: Mutex::new(String::new()),
        }
    }

    /// The result of a command, for people or programs.
    pub fn say(&self, text: &str) {
        // A reader that has gone away wants no more.
        let _ = writeln!(io::stdout(), "{text}");
    }

    /// A remark on the way; not when quiet.
    pub fn remark(&self, text: &str) {
        if !self.quiet {
            let _ = writeln!(io::stderr(), "{text}");
        }
    }

    /// Why something could not be done.
    pub fn complain(&self, text: &str) {
        let _ = writeln!(io::stderr(), "sortwright: {text}");
    }

    /// Findings as sentences: stops always, the others not when quiet.
    pub fn findings(&self, findings: &[Finding]) {
        for finding in findings {
            let line = in_words(finding);
            if finding.severity == Severity::Stop {
                let _ = writeln!(io::stderr(), "{line}");
            } else {
                self.remark(&line);
            }
        }
    }

    /// Does long work and tells how far it has come.
    pub fn watch<T>(&self, work: impl FnOnce(&Progress) -> T) -> T {
        if self.quiet {
            return work(&self.progress);
        }
        thread::scope(|scope| {
            let (done, wait) = channel::<()>();
            scope.spawn(move || {
                while wait.recv_timeout(TICK) == Err(RecvTimeoutError::Timeout) {
                    self.tell_progress();
                }
                self.end_progress();
            });
            let result = work(&self.progress);
            drop(done);
            result
        })
    }

    fn tell_progress(&self) {
        let (step, done, total) = self.progress.state();
        if step.is_empty() {
            return;
        }
        let live = io::stderr().is_terminal();
        let text = if live && total > 0 {
            format!("{step}, {done} of {total}")
        } else {
            format!("{step}…")
        };
        let Ok(mut last) = self.last.lock() else {
            return;
        };
        if *last == text {
            return;
        }
        let written = if live {
            // Back to the start of the line, and the rest of the old text wiped.
            write!(io::stderr(), "\r\x1b[K{text}")
        } else {
            writeln!(io::stderr(), "{text}")
        };
        let _ = written.and_then(|()| io::stderr().flush());
        *last = text;
    }

    fn end_progress(&self) {
        if io::stderr().is_terminal() {
            let _ = write!(io::stderr(), "\r\x1b[K");
        }
    }
}

/// A finding in one line.
pub fn in_words(finding: &Finding) -> String {
    let grade = severity_word(finding.severity);
    let remedy = if finding.remedy.is_empty() {
        String::new()
    } else {
        format!(" {}", finding.remedy)
    };
    format!("{grade}: {}: {}{remedy}", finding.subject, finding.text)
}

/// A severity in one word.
pub fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Note => "note",
        Severity::Warning => "warning",
        Severity::Stop => "stop",
    }
}

/// Findings for programs.
pub fn findings_json(findings: &[Finding]) -> Value {
    findings
        .iter()
        .map(|finding| {
            json!({
                "severity": severity_word(finding.severity),
                "subject": finding.subject.to_string(),
                "kind": finding.kind,
                "text": finding.text.as_str(),
                "remedy": finding.remedy.as_str(),
            })
        })
        .collect()
}
