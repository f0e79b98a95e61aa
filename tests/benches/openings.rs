//! The time of a whole make against the time that Clipper2 takes for the four openings alone.
//!
//! One fount of 240 sorts at ten lines and four flat cutters (6, 3, 1.5 and 0.8 mm): `make` on all processors, from fonts to
//! proven programs; and Clipper2 in C++ on one processor, shrinking and growing the ground of the same sorts by the four radii.
//! Clipper2 is timed for all 240 sorts, and for the distinct ones alone, since identical sorts need working out only once.
//! Runs alternate, so that a machine that is busy in between slows both.

#![allow(clippy::print_stdout)] // A benchmark's result is what it prints.

use std::collections::BTreeMap;
use std::hint::black_box;
use std::time::Instant;

use cam_core::bill::{Proportions, Scheme, from_scheme};
use cam_core::commission::{Commission, Face, Permission, PlankRules, Separation};
use cam_core::digest::sha256_hex;
use cam_core::make::{Fonts, Job, make};
use cam_core::measure::System;
use cam_core::progress::Progress;
use cam_core::survey;
use cam_core::workshop::Workshop;
use clipper2::{EndType, JoinType, Path, Paths, PointScaler};
use testkit::fonts;
use testkit::referee::Area;

/// Sorts in the fount.
const SORTS: u32 = 240;
/// Radii of the four cutters, in millimetres.
const RADII_MM: [f64; 4] = [3.0, 1.5, 0.75, 0.4];
/// How often everything is timed.
const RUNS: usize = 5;
/// Typefaces timed, one after the other.
const FACES: [&str; 2] = ["libertinus-serif", "dejavu-sans-mono-bold"];

/// Clipper2 on integers of 0.1 µm.
#[derive(Clone, Copy, Debug, Default, Hash, PartialEq)]
struct Grid;

impl PointScaler for Grid {
    const MULTIPLIER: f64 = 1e4;
}

/// A fount of exactly [`SORTS`] sorts by the trade's scheme, the lower-case e making up the number.
fn fount(name: &str) -> (Commission, Fonts) {
    let font = fonts::text_font(name);
    let face = Face {
        id: "main".to_owned(),
        file: "face.ttf".to_owned(),
        sha256: sha256_hex(font.bytes),
        index: font.index,
        variations: BTreeMap::new(),
        permission: Permission::default(),
    };
    let mut commission = Commission::starting("Benchmark", System::Pica, 10.0, face);
    // Four cutters and no fifth for separation: the blocks come apart by the saw.
    commission.planks.separation = Separation::Saw;
    commission.planks.lane = PlankRules::starting_lane(false);
    let scheme = Scheme {
        capitals: 3,
        lower_case: 6,
        figures: 3,
        points: 3,
    };
    commission.bill = from_scheme("main", scheme, &Proportions::JobFount.table())
        .expect("the scheme asks for something");
    let total: u32 = commission.bill.iter().map(|line| line.count).sum();
    let shortest = commission
        .bill
        .iter_mut()
        .max_by_key(|line| line.count)
        .expect("the bill has lines");
    shortest.count = (shortest.count + SORTS)
        .checked_sub(total)
        .expect("the scheme asks for less than the fount");
    (
        commission,
        Fonts::from([("main".to_owned(), font.bytes.into())]),
    )
}

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

fn seconds(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_secs_f64()
}

fn least_and_median(times: &mut [f64]) -> (f64, f64) {
    times.sort_by(f64::total_cmp);
    (times[0], times[times.len() / 2])
}

fn main() {
    for name in FACES {
        let (commission, fonts) = fount(name);
        let workshop = Workshop::starting();
        let run = || {
            make(&commission, &workshop, &fonts, &Progress::new())
                .unwrap_or_else(|error| panic!("{name}: {error}"))
        };
        let job = run();
        let grounds = grounds(&job, &commission);
        let copies: u32 = grounds.iter().map(|(_, count)| count).sum();
        let (mut makes, mut all, mut distinct) = (Vec::new(), Vec::new(), Vec::new());
        for _ in 0..RUNS {
            makes.push(seconds(|| {
                black_box(run());
            }));
            all.push(seconds(|| {
                for (ground, count) in &grounds {
                    (0..*count).for_each(|_| openings(ground));
                }
            }));
            distinct.push(seconds(|| {
                grounds.iter().for_each(|(ground, _)| openings(ground));
            }));
        }
        let (make_least, make_median) = least_and_median(&mut makes);
        let (all_least, all_median) = least_and_median(&mut all);
        let (distinct_least, distinct_median) = least_and_median(&mut distinct);
        let bytes: usize = job.programs.iter().map(|program| program.text.len()).sum();
        println!(
            "{name}: {copies} sorts, {} distinct, {} planks, {} programs of {:.1} MB in all",
            grounds.len(),
            job.planks.len(),
            job.programs.len(),
            bytes as f64 / 1e6
        );
        println!("                                   least    median");
        println!("  make, all processors            {make_least:6.2} s  {make_median:6.2} s");
        println!("  four openings, all sorts        {all_least:6.2} s  {all_median:6.2} s");
        println!(
            "  four openings, distinct sorts   {distinct_least:6.2} s  {distinct_median:6.2} s"
        );
        println!(
            "  make : openings of all sorts    {:6.2}    {:6.2}",
            make_least / all_least,
            make_median / all_median
        );
        println!(
            "  make : openings of distinct     {:6.2}    {:6.2}",
            make_least / distinct_least,
            make_median / distinct_median
        );
    }
}
