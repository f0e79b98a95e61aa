//! One line lost, one sign turned, one word changed, and the hash recorded anew: what is still refused.

use super::workpiece::Workpiece;
use super::*;

/// What became of a program with one line changed.
struct Verdict {
    /// The change, for the message.
    change: String,
    /// Whether the time it takes told.
    by_time: bool,
    /// Whether anything but its time told.
    by_cut: bool,
}

/// Judges a program with one line changed; `None` where the change leaves the line as it was. An empty line is a lost one.
fn verdict(file: &str, index: usize, change: impl Fn(&str) -> Option<String>) -> Option<Verdict> {
    let mut piece = Workpiece::sound();
    let line = piece.programs[file].lines().nth(index)?.to_owned();
    let changed = change(&line)?;
    if changed == line {
        return None;
    }
    piece.spoil(file, |text| {
        let lines = text.lines().enumerate();
        lines
            .map(|(at, line)| if at == index { changed.as_str() } else { line })
            .filter(|line| !line.is_empty())
            .map(|line| format!("{line}\n"))
            .collect()
    });
    let stops: Vec<&str> = findings(&piece.job, &piece.programs)
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .map(|finding| finding.kind)
        .collect();
    Some(Verdict {
        change: format!("{file}:{} {line} -> {changed}", index + 1),
        by_time: stops.contains(&"time-differs"),
        by_cut: stops.iter().any(|kind| *kind != "time-differs"),
    })
}

/// The verdicts on one kind of change, made to every `step`th line of both programs.
fn verdicts(step: usize, change: impl Fn(&str) -> Option<String>) -> Vec<Verdict> {
    ["faces.ngc", "blocks.ngc"]
        .into_iter()
        .flat_map(|file| {
            let count = Workpiece::sound().programs[file].lines().count();
            (0..count)
                .step_by(step)
                .filter_map(|index| verdict(file, index, &change))
                .collect::<Vec<_>>()
        })
        .collect()
}

/// The changes that nothing refused.
fn accepted(verdicts: &[Verdict]) -> Vec<&str> {
    verdicts
        .iter()
        .filter(|verdict| !verdict.by_cut && !verdict.by_time)
        .map(|verdict| verdict.change.as_str())
        .collect()
}

/// The share of changes that something other than the time told.
fn share_by_cut(verdicts: &[Verdict]) -> f64 {
    let told = verdicts.iter().filter(|verdict| verdict.by_cut).count();
    told as f64 / verdicts.len() as f64
}

/// Turns the sign of the number after a letter.
fn turned(line: &str, letter: char) -> Option<String> {
    let at = line.find(letter)?;
    let number = &line[at + 1..];
    Some(match number.strip_prefix('-') {
        Some(rest) => format!("{}{rest}", &line[..=at]),
        None => format!("{}-{number}", &line[..=at]),
    })
}

/// Changes the number after a letter.
fn altered(line: &str, letter: char, change: impl Fn(f64) -> f64) -> Option<String> {
    let at = line.find(letter)? + 1;
    let end = line[at..].find(' ').map_or(line.len(), |end| at + end);
    let value: f64 = line[at..end].parse().ok()?;
    Some(format!(
        "{}{:.3}{}",
        &line[..at],
        change(value),
        &line[end..]
    ))
}

fn replaced(line: &str, from: &str, to: &str) -> Option<String> {
    line.contains(from).then(|| line.replace(from, to))
}

#[test]
fn every_lost_line_is_refused_unless_it_moved_nothing() {
    let verdicts = verdicts(1, |_| Some(String::new()));
    assert!(verdicts.len() > 250);
    // What is left: the comments, rapids to where the cutter stands already, and lines of the bridges whose loss makes a
    // bridge longer by a way that the next line makes up.
    for change in accepted(&verdicts) {
        let idle = change.contains("(by hand)")
            || (change.starts_with("blocks.ngc")
                && (change.contains("G0 X") || change.contains("G1 X")));
        assert!(idle, "{change}");
    }
    assert!(accepted(&verdicts).len() <= 12);
    assert!(share_by_cut(&verdicts) > 0.6, "{}", share_by_cut(&verdicts));
}

#[test]
fn every_turned_sign_is_refused() {
    for letter in ['X', 'Y', 'Z', 'I', 'J'] {
        let verdicts: Vec<Verdict> = verdicts(2, |line| turned(line, letter))
            .into_iter()
            // Minus zero is zero.
            .filter(|verdict| !verdict.change.contains(&format!("{letter}-0. ")))
            .collect();
        assert!(verdicts.len() >= 4, "{letter}");
        assert_eq!(accepted(&verdicts), Vec::<&str>::new());
        // A layer cut in the air is made up for by the next, so that only the time tells.
        let least = if letter == 'Z' { 0.3 } else { 1.0 };
        assert!(share_by_cut(&verdicts) >= least, "{letter}");
    }
}

#[test]
fn every_changed_word_is_refused() {
    type Change = fn(&str) -> Option<String>;
    let cases: [(&str, Change); 8] = [
        ("rapid in the wood", |line| {
            replaced(line, "G1 X", "G0 X").map(|line| line.replace(" F900", ""))
        }),
        ("feed in the air", |line| replaced(line, "G0 Z", "G1 Z")),
        ("right for left", |line| replaced(line, "G2 ", "G3 ")),
        ("left for right", |line| replaced(line, "G3 ", "G2 ")),
        ("twice the depth", |line| {
            line.contains("Z-")
                .then(|| altered(line, 'Z', |z| 2.0 * z))?
        }),
        ("no spindle", |line| replaced(line, "M3", "M5")),
        ("backward spindle", |line| replaced(line, "M3", "M4")),
        ("no end", |line| {
            (line == "M30").then(|| "(no end)".to_owned())
        }),
    ];
    for (name, change) in cases {
        let step = if name == "rapid in the wood" { 5 } else { 1 };
        let verdicts = verdicts(step, change);
        assert!(!verdicts.is_empty(), "{name}");
        assert_eq!(accepted(&verdicts), Vec::<&str>::new(), "{name}");
        // Half a circle cut twice is made up for where the next circle is cut in the same layer.
        let least = if name == "left for right" { 0.15 } else { 0.3 };
        assert!(share_by_cut(&verdicts) > least, "{name}");
    }
}

/// A place shifted along the course itself does no harm and may be let pass; any other shift of 0.05 mm is refused.
#[test]
fn shifted_places_are_refused() {
    for letter in ['X', 'Y'] {
        let verdicts = verdicts(5, |line| altered(line, letter, |place| place + 0.05));
        for change in accepted(&verdicts) {
            let along = change.contains("G2 ") || change.starts_with("blocks.ngc");
            assert!(along, "{change}");
        }
        assert!(accepted(&verdicts).len() * 5 < verdicts.len());
    }
}

/// With no feed anywhere a program cannot be read; with none but the plunge's the cutter goes down far too fast.
#[test]
fn a_lost_feed_is_refused() {
    for (from, to) in [
        (" F900", ""),
        (" F200", ""),
        (" F200", " F900"),
        (" F900", " F1900"),
    ] {
        let mut piece = Workpiece::sound();
        piece.spoil("faces.ngc", |text| text.replace(from, to));
        let found = findings(&piece.job, &piece.programs);
        assert!(!passes(&found), "{from} for {to}");
    }
}
