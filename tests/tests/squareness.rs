//! A machine that is not square: its test block, the correction found from it, and a second block that shows it gone. The machine is
//! simulated; everything else is done by the commands, as a maker would.

use std::fs;
use std::path::{Path, PathBuf};

use bench::square::{Judged, Map};
use cam_core::job_file::{JobFile, JobRole};
use clap::Parser;
use kurbo::{Point, Vec2};
use reader::{ReadCourse, ReadMotion};
use sortwright::commands::{CommandLine, Outcome, run};

/// What the simulated machine does.
const MACHINE: Map = Map {
    scale_x: 1.0007,
    scale_y: 0.9994,
    skew: 0.0031,
};

/// What the caliper's readings are off, mm: less than the notebook says, and rounded to a hundredth.
const READINGS_OFF_MM: [f64; 4] = [0.004, -0.006, 0.005, -0.003];

fn command(words: &[&str]) -> Outcome {
    let line = CommandLine::parse_from(std::iter::once("sortwright").chain(words.iter().copied()));
    run(&line.command.expect("a command"))
}

fn text_of(path: PathBuf) -> String {
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// What the machine makes of a program: its straight cuts, from above, as the cutter's centre goes.
fn cut(motions: &[ReadMotion]) -> Vec<[Point; 2]> {
    let goes = |asked: Point| {
        let [x, y] = MACHINE.done([asked.x, asked.y]);
        Point::new(x, y)
    };
    motions
        .iter()
        .filter(|motion| matches!(motion.course, ReadCourse::Line { .. }))
        .filter(|motion| motion.from.z < 0.0 && motion.to.z < 0.0)
        .map(|motion| [goes(motion.from.xy), goes(motion.to.xy)])
        .collect()
}

/// A straight edge: a place on it and its way.
type Edge = (Point, Vec2);

fn crossing((a, along): Edge, (b, other): Edge) -> Point {
    a + along * ((b - a).cross(other) / along.cross(other))
}

/// The corners of the block that is cut, in the order lower left, lower right, upper right, upper left.
fn corners(folder: &Path) -> [Point; 4] {
    let job = JobFile::from_json(&text_of(folder.join("job.json"))).expect("a job file");
    let program = job
        .programs
        .iter()
        .find(|program| program.role == JobRole::Separation)
        .expect("a program that cuts the block out");
    let cutter = job.cutter(&program.cutter).expect("its cutter");
    let radius = cutter.diameter_mm / 2.0;
    let read = reader::read(&text_of(folder.join(&program.file))).expect("the program reads");
    let cuts = cut(&read.motions);
    let block = &job.sorts[0].block_mm;
    let by = |axis: usize, pick: fn(f64, f64) -> f64| {
        let values = block.iter().map(|corner| corner[axis]);
        values.reduce(pick).expect("a block has corners")
    };
    let (x0, x1) = (by(0, f64::min), by(0, f64::max));
    let (y0, y1) = (by(1, f64::min), by(1, f64::max));
    let ideal = [
        Point::new(x0, y0),
        Point::new(x1, y0),
        Point::new(x1, y1),
        Point::new(x0, y1),
    ];
    let middle = ideal[0].midpoint(ideal[2]);
    let edges: Vec<Edge> = (0..4)
        .map(|side| {
            let (a, b) = (ideal[side], ideal[(side + 1) % 4]);
            let along = (b - a).normalize();
            let outward = Vec2::new(along.y, -along.x);
            // The longest straight cut beside this side; the machine is off by less than a millimetre and a half.
            let beside = |place: Point| ((place - a).dot(outward) - radius).abs() < 1.5;
            let longest = cuts
                .iter()
                .filter(|cut| cut.iter().all(|&place| beside(place)))
                .max_by(|a, b| a[0].distance(a[1]).total_cmp(&b[0].distance(b[1])))
                .expect("a cut beside each side");
            let true_way = (longest[1] - longest[0]).normalize();
            let across = Vec2::new(-true_way.y, true_way.x);
            let inward = across * (middle - longest[0]).dot(across).signum();
            (longest[0] + inward * radius, true_way)
        })
        .collect();
    [
        crossing(edges[3], edges[0]),
        crossing(edges[0], edges[1]),
        crossing(edges[1], edges[2]),
        crossing(edges[2], edges[3]),
    ]
}

/// Fills the notebook in that lies in the folder, with what a caliper reads on the block.
fn fill_in(folder: &Path) -> PathBuf {
    let [ll, lr, ur, ul] = corners(folder);
    let read = |a: Point, b: Point, off: f64| {
        let length = a.distance(b) + off;
        format!("{:.2}", (length * 100.0).round() / 100.0)
    };
    let [of_width, of_length, of_rising, of_falling] = READINGS_OFF_MM;
    let notebook = folder.join("test-block.txt");
    let text = text_of(notebook.clone())
        .replace(
            "# width",
            &format!(
                "width {} {}",
                read(ll, lr, of_width),
                read(ul, ur, of_length)
            ),
        )
        .replace(
            "# length",
            &format!(
                "length {} {}",
                read(ll, ul, of_length),
                read(lr, ur, of_rising)
            ),
        )
        .replace(
            "# rising ",
            &format!("rising {} #", read(ll, ur, of_rising)),
        )
        .replace(
            "# falling ",
            &format!("falling {} #", read(ul, lr, of_falling)),
        );
    let filled = folder.with_extension("txt");
    fs::write(&filled, text).expect("a notebook");
    filled
}

fn judged(notebook: &Path) -> Judged {
    match bench::judge(&text_of(notebook.to_owned())) {
        Ok(bench::Judged::Square { outcome, .. }) => outcome,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_second_test_block_shows_the_skew_gone() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let at = |name: &str| place.path().join(name).display().to_string();
    let (first, second, workshop) = (at("first"), at("second"), at("workshop.json"));
    assert_eq!(command(&["bench", "test-block", &first]), Outcome::Done);
    let notebook = fill_in(Path::new(&first));
    let before = judged(&notebook);
    assert!(before.is_seen, "{before:?}");
    let off = |found: f64, wanted: f64, uncertain: Option<f64>| {
        (found - wanted).abs() <= uncertain.expect("it was measured")
    };
    let (found, uncertain) = (before.left.map, before.left.uncertain);
    assert!(
        off(found.scale_x, MACHINE.scale_x, uncertain.scale_x),
        "{before:?}"
    );
    assert!(
        off(found.scale_y, MACHINE.scale_y, uncertain.scale_y),
        "{before:?}"
    );
    assert!(
        off(found.skew, MACHINE.skew, Some(uncertain.skew)),
        "{before:?}"
    );

    let notebook = notebook.display().to_string();
    let keep = ["bench", "square", &notebook, "--keep", &workshop];
    assert_eq!(command(&keep), Outcome::Done);
    // A second time, it would be added to a correction that the block was not cut with.
    assert_eq!(command(&keep), Outcome::CouldNotRun);
    let made = ["bench", "test-block", &second, "--workshop", &workshop];
    assert_eq!(command(&made), Outcome::Done);
    assert_eq!(command(&["check", &second]), Outcome::Done);
    let sheet = text_of(Path::new(&second).join("papers/setup-sheet.txt"));
    let words: Vec<&str> = sheet.split_whitespace().collect();
    assert!(
        words.join(" ").contains("corrected for the squareness"),
        "{sheet}"
    );

    let after = judged(&fill_in(Path::new(&second)));
    assert!(!after.is_seen, "{after:?}");
    assert!(after.corrected.is_some());
    // The block itself, without a caliper: within what the first one could tell.
    let [ll, lr, ur, ul] = corners(Path::new(&second));
    let differ = (ll.distance(ur) - ul.distance(lr)).abs();
    assert!(differ < 0.05, "diagonals differ by {differ:.3} mm");
    let [ll, lr, ur, ul] = corners(Path::new(&first));
    let differ = (ll.distance(ur) - ul.distance(lr)).abs();
    assert!(differ > 0.5, "diagonals differed by {differ:.3} mm");
}

#[test]
fn the_demo_notebook_shows_the_correction_before_and_after() {
    let folder = testkit::repository::top().join("demo-projects/bench-notebook");
    let before = judged(&folder.join("square-before.txt"));
    let after = judged(&folder.join("square-after.txt"));
    assert!(before.is_seen && !after.is_seen, "{before:?} {after:?}");
    let kept = after.corrected.expect("a correction");
    assert!((kept.scale_x - before.machine.scale_x).abs() < 1e-6);
    assert!((kept.scale_y - before.machine.scale_y).abs() < 1e-6);
    assert!((kept.skew - before.machine.skew).abs() < 2e-7);
    for name in ["sanding.txt", "moisture.txt"] {
        let judged = bench::judge(&text_of(folder.join(name)));
        assert!(judged.is_ok(), "{name}: {judged:?}");
    }
}
