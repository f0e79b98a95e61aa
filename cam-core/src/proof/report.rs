//! Findings of the checks, and how many of a kind are shown.

use kurbo::Point;
use said::{Said, Value};

use crate::finding::{Finding, Severity, Subject, texts};

/// Findings of one kind about one thing that are shown; one fault in a program often shows in many places.
const MOST_ALIKE: usize = 3;

/// A stop about a program, or one line of it.
pub fn program(
    file: &str,
    line: Option<usize>,
    kind: &'static str,
    text: Said,
    remedy: Said,
) -> Finding {
    Finding {
        severity: Severity::Stop,
        subject: Subject::Program {
            file: file.to_owned(),
            line,
        },
        kind,
        text,
        remedy,
    }
}

/// A stop about anything else.
pub fn stop(subject: Subject, kind: &'static str, text: Said, remedy: Said) -> Finding {
    Finding {
        severity: Severity::Stop,
        subject,
        kind,
        text,
        remedy,
    }
}

/// A place on the plank, in words.
pub fn place(at: Point) -> Said {
    let [x, y] = [at.x, at.y].map(|along| Value::rounded(along + 0.0, 2));
    texts::place_mm(x, y)
}

/// Keeps the first few findings of each kind about each program or sort, and says how many more there were.
pub fn first_few(findings: Vec<Finding>) -> Vec<Finding> {
    let mut kept: Vec<(Finding, usize)> = Vec::new();
    for finding in findings {
        let alike: Vec<usize> = kept
            .iter()
            .enumerate()
            .filter(|(_, (other, _))| {
                other.kind == finding.kind && about(&other.subject) == about(&finding.subject)
            })
            .map(|(index, _)| index)
            .collect();
        match alike.last() {
            Some(&last) if alike.len() >= MOST_ALIKE => kept[last].1 += 1,
            Some(_) | None => kept.push((finding, 0)),
        }
    }
    kept.into_iter()
        .map(|(mut finding, more)| {
            if more > 0 {
                finding.text = texts::with_more_like_it(finding.text, more);
            }
            finding
        })
        .collect()
}

/// What a finding is about, whatever the line.
fn about(subject: &Subject) -> (u8, &str) {
    match subject {
        Subject::Commission => (0, ""),
        Subject::Face(id) => (1, id),
        Subject::Sort(name) => (2, name),
        Subject::Cutter(id) => (3, id),
        Subject::Plank(id) => (4, id),
        Subject::Program { file, line: _ } => (5, file),
    }
}
