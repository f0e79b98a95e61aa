//! The day after: a fount is made, and a year later some of its sorts are ordered again, by the command line.

use std::fs;
use std::path::{Path, PathBuf};

use cam_core::format::{read_commission, read_record};
use cam_core::record::MadeSort;
use clap::Parser;
use sortwright::commands::{CommandLine, Outcome, run};
use tempfile::TempDir;
use testkit::fonts;

fn ran(folder: &Path, words: &[&str]) -> Outcome {
    let line = words.iter().map(|word| match word.strip_prefix('@') {
        Some(file) => folder.join(file).display().to_string(),
        None => (*word).to_owned(),
    });
    let line = std::iter::once("sortwright".to_owned()).chain(line);
    let parsed = CommandLine::try_parse_from(line).expect("the words are a command line");
    run(&parsed.command.expect("the words name a command"))
}

/// A folder with a font, a commission, and what was made of it.
fn made() -> TempDir {
    let folder = TempDir::new().expect("a temporary folder can be made");
    let font = fonts::text_font("ubuntu-light").bytes;
    fs::write(folder.path().join("face.ttf"), font).expect("the folder can be written");
    let begin = [
        "start",
        "@face.ttf",
        "--text",
        "A1L7",
        "--lines",
        "4",
        "--out",
        "@order.json",
    ];
    assert_eq!(ran(folder.path(), &begin), Outcome::Done);
    edit(&folder.path().join("order.json"), |text| {
        text.replace(
            "\"common_figure_set\": false",
            "\"common_figure_set\": true",
        )
    });
    let make = ["make", "@order.json", "--out", "@made", "--quiet"];
    assert_eq!(ran(folder.path(), &make), Outcome::Done);
    folder
}

fn edit(file: &Path, change: impl Fn(&str) -> String) {
    let text = fs::read_to_string(file).expect("the file is there");
    let changed = change(&text);
    assert_ne!(text, changed, "nothing was changed in {}", file.display());
    fs::write(file, changed).expect("the file can be written");
}

fn record(folder: &Path) -> Vec<MadeSort> {
    let text = fs::read_to_string(folder.join("record.json")).expect("make writes a record");
    read_record(&text).expect("the record is read").sorts
}

fn replace(folder: &Path, sorts: &str) -> (Outcome, PathBuf) {
    let words = [
        "replace",
        "@order.json",
        "--made",
        "@made",
        "--sorts",
        sorts,
        "--out",
        "@again.json",
    ];
    (ran(folder, &words), folder.join("again.json"))
}

#[test]
fn sorts_made_again_are_those_of_the_fount() {
    let folder = made();
    let (outcome, again) = replace(folder.path(), "1 2, L 1");
    assert_eq!(outcome, Outcome::Done);
    let text = fs::read_to_string(again).expect("it was written");
    let commission = read_commission(&text).expect("it is a commission");
    let counts: Vec<u32> = commission.bill.iter().map(|line| line.count).collect();
    assert_eq!(counts, [2, 1]);
    let make = ["make", "@again.json", "--out", "@second", "--quiet"];
    assert_eq!(ran(folder.path(), &make), Outcome::Done);
    // Its record is that of the first making, for the sorts made again.
    let (first, second) = (
        record(&folder.path().join("made")),
        record(&folder.path().join("second")),
    );
    assert_eq!(second.len(), 2);
    assert!(second.iter().all(|sort| first.contains(sort)));
    // Blocks in the second job are those of the first.
    let blocks = |name: &str| -> Vec<(String, f64, f64)> {
        let text = fs::read_to_string(folder.path().join(name).join("job.json")).expect("a job");
        let job: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let sorts = job["sorts"].as_array().expect("sorts");
        let of = |sort: &serde_json::Value| {
            let mm = |key: &str| sort[key].as_f64().unwrap_or(f64::NAN);
            (sort["text"].to_string(), mm("set_mm"), mm("body_mm"))
        };
        sorts.iter().map(of).collect()
    };
    let (before, after) = (blocks("made"), blocks("second"));
    assert_eq!(after.len(), 3);
    assert!(
        after.iter().all(|block| before.contains(block)),
        "{after:?}"
    );
}

#[test]
fn sorts_that_would_not_match_are_not_made() {
    let folder = made();
    let written = |outcome: (Outcome, PathBuf)| (outcome.0, outcome.1.exists());
    let unknown = replace(folder.path(), "Z 1");
    assert_eq!(written(unknown), (Outcome::CouldNotRun, false));
    let order = folder.path().join("order.json");
    let before = fs::read_to_string(&order).expect("the order");
    edit(&order, |text| {
        text.replace("\"lines\": 4.0", "\"lines\": 5.0")
    });
    assert_eq!(
        written(replace(folder.path(), "A 1")),
        (Outcome::Stopped, false)
    );
    fs::write(&order, before).expect("the order as it was");
    let other = fonts::text_font("hack").bytes;
    fs::write(folder.path().join("face.ttf"), other).expect("another font");
    assert_eq!(
        written(replace(folder.path(), "A 1")),
        (Outcome::Stopped, false)
    );
}

/// A commission that was begun to match keeps to it: what is changed afterwards is found when it is made.
#[test]
fn what_is_changed_before_the_making_is_found_by_it() {
    let folder = made();
    let (outcome, again) = replace(folder.path(), "7 1");
    assert_eq!(outcome, Outcome::Done);
    edit(&again, |text| {
        // The first one is the commission's own; the record has its own below.
        text.replacen("\"head\": \"2 pt\"", "\"head\": \"3 pt\"", 1)
    });
    let make = ["make", "@again.json", "--out", "@second", "--quiet"];
    assert_eq!(ran(folder.path(), &make), Outcome::Stopped);
    assert!(!folder.path().join("second").exists());
}
