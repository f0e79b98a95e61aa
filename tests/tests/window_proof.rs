//! The proof in the window and by the command line: set lines, blocks shown, saved in all three kinds with the same bytes; from a made folder
//! as from its commission; one job over another.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use clap::Parser;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use sortwright::commands::{CommandLine, Outcome, run};
use sortwright::view::Workbench;

/// Longer than any make of a few sorts takes, even on a machine that does other work.
const DEADLINE: Duration = Duration::from_secs(300);

fn font() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/fonts/Quernstow-Regular.ttf")
}

fn window(open: &Path) -> Harness<'static, Workbench> {
    let open = open.to_owned();
    let mut harness = Harness::builder()
        .with_size([1280.0, 800.0])
        .with_pixels_per_point(1.0)
        .with_max_steps(20)
        .build_eframe(|creation| Workbench::new(creation, Some(open), None));
    settle(&mut harness);
    harness
}

fn settle(harness: &mut Harness<Workbench>) {
    let deadline = Instant::now() + DEADLINE;
    harness.run_steps(3);
    while !harness.state().is_settled() {
        assert!(Instant::now() < deadline, "the work did not come to an end");
        harness.step();
        std::thread::yield_now();
    }
    harness.run_steps(3);
}

fn click(harness: &mut Harness<Workbench>, label: &str) {
    harness.get_by_label(label).click();
    harness.run_steps(3);
}

/// Runs a command on files of a folder; words that begin with a dot and a slash are paths in it.
fn command(folder: &Path, words: &[&str]) -> Outcome {
    let line = words.iter().map(|word| match word.strip_prefix("./") {
        Some(name) => folder.join(name).display().to_string(),
        None => (*word).to_owned(),
    });
    let line = CommandLine::parse_from(std::iter::once("sortwright".to_owned()).chain(line));
    run(&line.command.expect("a command"))
}

fn begun(folder: &Path, name: &str, text: &str) {
    let font = font().display().to_string();
    let words = [
        "start", &font, "--text", text, "--lines", "4", "--out", name,
    ];
    assert_eq!(command(folder, &words), Outcome::Done);
}

/// Every control of the room is seen whole, beside the sheet.
fn check_controls(harness: &Harness<Workbench>) {
    let sheet = harness.get_by_role(Role::Canvas).rect();
    let labels = [
        "Lines to set",
        "Short lines",
        "Leads",
        "Paper",
        "Ink",
        "Show the blocks",
        "Show what no cutter reaches",
        "Save as picture…",
        "Show all",
    ];
    for label in labels {
        for control in harness.get_all_by_label(label) {
            let place = control.rect();
            assert!(
                place.left() >= sheet.right() && place.right() <= 1280.0,
                "{label}: {place:?}"
            );
        }
    }
}

#[test]
fn the_window_saves_what_the_command_prints() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let folder = place.path();
    begun(folder, "./order.json", "LOT");
    let mut harness = window(&folder.join("order.json"));
    click(&mut harness, "Proof");
    settle(&mut harness);
    check_controls(&harness);
    harness.get_by_label("Lines to set").focus();
    harness.run_steps(2);
    harness.get_by_label("Lines to set").type_text("LO TTX");
    harness.run_steps(3);
    click(&mut harness, "Show the blocks");
    assert!(harness.query_by_label("Not on the bill: X").is_some());
    let short = harness.query_by_label("Set more often than ordered: T (2, of 1)");
    assert!(short.is_some());
    for ending in ["svg", "pdf", "png"] {
        let by_window = folder.join(format!("window.{ending}"));
        harness.state_mut().save_picture(by_window.clone());
        settle(&mut harness);
        let by_command = format!("./command.{ending}");
        let words = [
            "proof",
            "./order.json",
            "--text",
            "LO TTX",
            "--blocks",
            "--out",
            &by_command,
        ];
        assert_eq!(command(folder, &words), Outcome::Done);
        let said = harness.state().notice().unwrap_or_default().to_owned();
        let saved = fs::read(by_window).unwrap_or_else(|error| panic!("{error}: {said}"));
        let printed = fs::read(folder.join(&by_command[2..])).expect("it was written");
        assert!(saved == printed, "{ending} differs");
    }
}

#[test]
fn a_made_folder_prints_as_its_commission_and_over_another() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let folder = place.path();
    begun(folder, "./order.json", "LT");
    let made = ["make", "./order.json", "--out", "./made", "--quiet"];
    assert_eq!(command(folder, &made), Outcome::Done);
    let print = |job: &str, out: &str, more: &[&str]| {
        let words = [&["proof", job, "--out", out, "--paper", "cream"][..], more].concat();
        (
            command(folder, &words),
            fs::read(folder.join(&out[2..])).unwrap_or_default(),
        )
    };
    let (done, of_folder) = print(
        "./made",
        "./folder.svg",
        &["--text", "LT", "--align", "centre", "--leads", "6 pt"],
    );
    assert_eq!(done, Outcome::Done);
    let (_, of_order) = print(
        "./order.json",
        "./order.svg",
        &["--text", "LT", "--align", "centre", "--leads", "6 pt"],
    );
    assert!(!of_folder.is_empty() && of_folder == of_order);
    let (done, over) = print(
        "./made",
        "./over.svg",
        &["--over", "./made", "--ink", "yellow", "--ink", "#1f4e8c"],
    );
    assert_eq!(done, Outcome::Done);
    let over = String::from_utf8(over).expect("text");
    assert!(
        over.contains("fill=\"#f2c22e\"")
            && over.contains("fill=\"#1f4e8c\" style=\"mix-blend-mode:multiply\"")
    );
    for wrong in [
        &["--ink", "reddish"][..],
        &["--ink", "red", "--ink", "blue"],
        &["--leads", "six"],
    ] {
        assert_eq!(
            print("./made", "./wrong.svg", wrong).0,
            Outcome::CouldNotRun,
            "{wrong:?}"
        );
    }
    assert_eq!(print("./made", "./wrong.jpg", &[]).0, Outcome::CouldNotRun);
    // What a program no longer says cannot be printed.
    let mut programs = fs::read_dir(folder.join("made"))
        .expect("a folder")
        .flatten()
        .map(|entry| entry.path());
    let program = programs.find(|path| {
        path.extension()
            .is_some_and(|ending| ending == "nc" || ending == "ngc")
    });
    fs::remove_file(program.expect("a program")).expect("removed");
    assert_eq!(print("./made", "./wrong.svg", &[]).0, Outcome::CouldNotRun);
}
