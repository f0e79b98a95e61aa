//! The time of a whole make against the time that Clipper2 takes for the four openings alone.
//!
//! One fount of 240 sorts at ten lines and four flat cutters: `make` on all processors, from fonts to proven programs; and
//! Clipper2 in C++ on one processor, shrinking and growing the ground of the same sorts by the four radii: for all 240
//! sorts, and for the distinct ones alone, since identical sorts need working out only once. Runs alternate, so that a
//! machine that is busy in between slows both; the clock is what counts, since several processors are at work.

use std::hint::black_box;
use std::time::{Duration, Instant};

use cam_core::commission::Commission;
use cam_core::make::{Job, make};
use cam_core::progress::Progress;
use cam_core::survey;
use cam_core::workshop::Workshop;
use clipper2::{EndType, JoinType, Path, Paths};
use testkit::fonts::text_font;
use testkit::orders::fount;
use testkit::referee::Area;

use crate::Row;
use crate::clock::shown;
use crate::kernel::Grid;

/// Sorts in the fount.
const SORTS: u32 = 240;
/// Radii of the four cutters, in millimetres.
const RADII_MM: [f64; 4] = [3.0, 1.5, 0.75, 0.4];
/// How often everything is timed.
const RUNS: usize = 5;
/// Typefaces timed, one after the other.
const FACES: [&str; 2] = ["libertinus-serif", "dejavu-sans-mono-bold"];

/// The ground of each distinct sort, and how often the sort is ordered.
fn grounds(job: &Job, commission: &Commission) -> Vec<(Paths<Grid>, u32)> {
    job.sorts
        .iter()
        .filter(|sort| !sort.face.is_empty())
        .map(|sort| {
            let diagram =
                survey::ground(sort, commission.planks.lane).expect("the make has mapped it");
            let ground =
                Area::of_rings([diagram.room().as_slice()]).without(&Area::of(diagram.letter()));
            let paths = ground
                .rings()
                .into_iter()
                .map(|ring| Path::from(ring.iter().map(|at| (at.x, at.y)).collect::<Vec<_>>()))
                .collect();
            (Paths::new(paths), sort.count)
        })
        .collect()
}

fn openings(ground: &Paths<Grid>) {
    for radius in RADII_MM {
        let shrunk = ground.inflate(-radius, JoinType::Round, EndType::Polygon, 2.0);
        black_box(shrunk.inflate(radius, JoinType::Round, EndType::Polygon, 2.0));
    }
}

fn clocked(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

/// Two rows for each face: against the openings of all sorts, and of the distinct ones.
pub fn make_of_a_fount() -> Vec<Row> {
    FACES.into_iter().flat_map(of_face).collect()
}

fn of_face(name: &str) -> [Row; 2] {
    let (commission, fonts) = fount(text_font(name), 10.0, SORTS);
    let workshop = Workshop::starting();
    let run = || {
        make(&commission, &workshop, &fonts, &Progress::new())
            .unwrap_or_else(|error| panic!("{name}: {error}"))
    };
    let job = run();
    let grounds = grounds(&job, &commission);
    let mut least = [Duration::MAX; 3];
    for _ in 0..RUNS {
        let times = [
            clocked(|| {
                black_box(run());
            }),
            clocked(|| {
                for (ground, count) in &grounds {
                    (0..*count).for_each(|_| openings(ground));
                }
            }),
            clocked(|| grounds.iter().for_each(|(ground, _)| openings(ground))),
        ];
        for (least, time) in least.iter_mut().zip(times) {
            *least = time.min(*least);
        }
    }
    let bytes: usize = job.programs.iter().map(|program| program.text.len()).sum();
    println!(
        "{name}: {} distinct sorts, {} planks, {} programs of {:.1} MB in all",
        grounds.len(),
        job.planks.len(),
        job.programs.len(),
        bytes as f64 / 1e6
    );
    let row = |of: &str, other: Duration, goal| Row {
        what: "whole make of the 240-sort fount, all processors",
        against: format!("Clipper2's four openings of {of}, one processor ({name})"),
        project: shown(least[0]),
        other: shown(other),
        ratio: least[0].as_secs_f64() / other.as_secs_f64(),
        goal,
    };
    [
        row("all sorts", least[1], "1"),
        row("the distinct sorts", least[2], "–"),
    ]
}
