//! The simulated cut of a plank against the plainest way to reckon it, and the proof against the making.

use std::collections::BTreeMap;
use std::hint::black_box;
use std::time::{Duration, Instant};

use cam_core::job_file::JobFile;
use cam_core::make::{JOB_FILE, make};
use cam_core::progress::Progress;
use cam_core::proof::{check, height_map};
use cam_core::workshop::Workshop;
use reader::{ReadCourse, ReadMotion};
use testkit::fonts::text_font;
use testkit::orders::fount;

use crate::Row;
use crate::clock::shown;

/// Side of a cell, in millimetres.
const CELL_MM: f64 = 0.1;
/// How often everything is timed.
const RUNS: usize = 3;

/// The two rows: a height map, and reading back and checking.
pub fn rows() -> [Row; 2] {
    let (commission, fonts) = fount(text_font("libertinus-serif"), 10.0, 240);
    let workshop = Workshop::starting();
    let run = || {
        make(&commission, &workshop, &fonts, &Progress::new())
            .unwrap_or_else(|error| panic!("{error}"))
    };
    let made = run();
    let paper = made
        .papers
        .iter()
        .find(|paper| paper.path == JOB_FILE)
        .expect("every make writes a job file");
    let job = JobFile::from_json(&String::from_utf8_lossy(&paper.bytes)).expect("it reads back");
    let texts: BTreeMap<String, String> = made
        .programs
        .iter()
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect();
    let plank = &job.planks[0];
    let mapped = || {
        height_map(&job, &texts, &plank.id, CELL_MM, &Progress::new())
            .unwrap_or_else(|error| panic!("{error}"))
    };
    // Both tell the same heights, but where a cell's middle lies on the very edge of a cut.
    let (ours, plain) = (mapped().heights, plain_sweep(&job, &texts));
    assert_eq!(ours.len(), plain.len());
    let apart = ours
        .iter()
        .zip(&plain)
        .filter(|(ours, plain)| (**ours - **plain).abs() > 0.01)
        .count();
    assert!(
        apart * 1_000 < ours.len(),
        "{apart} cells of {}",
        ours.len()
    );
    let mut least = [Duration::MAX; 4];
    for _ in 0..RUNS {
        let times = [
            clocked(|| drop(black_box(mapped()))),
            clocked(|| drop(black_box(plain_sweep(&job, &texts)))),
            clocked(|| drop(black_box(check(&job, &texts, &Progress::new())))),
            clocked(|| drop(black_box(run()))),
        ];
        for (least, time) in least.iter_mut().zip(times) {
            *least = time.min(*least);
        }
    }
    let [map, sweep, proof, whole] = least;
    let making = whole.saturating_sub(proof);
    [
        Row {
            what: "height map of the first plank at 0.1 mm, all processors",
            against: "a plain sweep, cell by cell, one processor".to_owned(),
            project: shown(map),
            other: shown(sweep),
            ratio: map.as_secs_f64() / sweep.as_secs_f64(),
            goal: "0.33",
        },
        Row {
            what: "reading back and checking the 240-sort fount, all processors",
            against: "making it, all processors".to_owned(),
            project: shown(proof),
            other: shown(making),
            ratio: proof.as_secs_f64() / making.as_secs_f64(),
            goal: "0.20",
        },
    ]
}

fn clocked(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

/// For each motion, for each cell of the box that it sweeps: how deep the flat cutter that passes there cuts it.
fn plain_sweep(job: &JobFile, texts: &BTreeMap<String, String>) -> Vec<f32> {
    let plank = &job.planks[0];
    let columns = (plank.width_mm / CELL_MM).ceil() as usize;
    let rows = (plank.length_mm / CELL_MM).ceil() as usize;
    let mut heights = vec![0.0_f32; columns * rows];
    for program in job.programs.iter().filter(|entry| entry.plank == plank.id) {
        let cutter = job.cutter(&program.cutter).expect("the job names it");
        let radius = cutter.diameter_mm / 2.0;
        let replay = reader::read(&texts[&program.file]).expect("it reads");
        for read in &replay.motions {
            let low = read.from.z.min(read.to.z);
            if low >= 0.0 || !read.known.iter().all(|known| *known) {
                continue;
            }
            let (from, to) = (read.from.xy, read.to.xy);
            // An arc stays within its turning circle, and within twice its length of its start.
            let beyond = match read.course {
                ReadCourse::Rapid | ReadCourse::Line { .. } => 0.0,
                ReadCourse::Arc { centre, .. } => {
                    (2.0 * from.distance(centre)).min(read.flat_length_mm())
                }
            } + radius;
            let cells = |low: f64, high: f64, most: usize| {
                let first = ((low - beyond) / CELL_MM).floor().max(0.0) as usize;
                first..(((high + beyond) / CELL_MM).ceil().max(0.0) as usize).min(most)
            };
            for row in cells(from.y.min(to.y), from.y.max(to.y), rows) {
                for column in cells(from.x.min(to.x), from.x.max(to.x), columns) {
                    let x = (column as f64 + 0.5) * CELL_MM;
                    let y = (row as f64 + 0.5) * CELL_MM;
                    if let Some(height) = height_of(read, radius, x, y) {
                        let cell = &mut heights[row * columns + column];
                        *cell = cell.min(height as f32);
                    }
                }
            }
        }
    }
    heights
}

/// The lowest height of a flat cutter over a place, by the nearest place of its way and, on a slope, the lower end of the stretch on
/// which it covers the place.
fn height_of(read: &ReadMotion, radius: f64, x: f64, y: f64) -> Option<f64> {
    let place = kurbo::Point::new(x, y);
    let (from, to) = (read.from.xy, read.to.xy);
    match read.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => {
            let way = to - from;
            let length = way.hypot();
            if length == 0.0 {
                return (place.distance(from) <= radius).then(|| read.from.z.min(read.to.z));
            }
            let along = (place - from).dot(way) / length;
            let aside = (place - from).cross(way) / length;
            let half = (radius * radius - aside * aside).max(-1.0);
            if half < 0.0 {
                return None;
            }
            let (first, last) = (along - half.sqrt(), along + half.sqrt());
            let (first, last) = (first.max(0.0), last.min(length));
            let at = |along: f64| read.from.z + (read.to.z - read.from.z) * along / length;
            (first <= last).then(|| at(first).min(at(last)))
        }
        ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        } => {
            let (start, arm) = (from - centre, place - centre);
            let angle = start.cross(arm).atan2(start.dot(arm));
            let angle = match turn {
                geometry::arc_path::Turn::Left => angle,
                geometry::arc_path::Turn::Right => -angle,
            };
            let turned = angle.rem_euclid(std::f64::consts::TAU);
            let (distance, share) = if turned <= sweep {
                ((arm.hypot() - start.hypot()).abs(), turned / sweep)
            } else {
                let (one, other) = (place.distance(from), place.distance(to));
                (one.min(other), f64::from(u8::from(other < one)))
            };
            let height = read.from.z + (read.to.z - read.from.z) * share;
            (distance <= radius).then_some(height)
        }
    }
}
