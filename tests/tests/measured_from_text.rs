//! What the programs of a few letters do to the wood, measured from their text alone.
//!
//! Letters with straight and round walls, counters, thin and thick strokes and hollow brackets, and an ornament; at ten lines,
//! with the starting workshop. The limits are those that programs meet now; the goals that they are on their way to stand
//! beside them.

#![allow(clippy::print_stdout)] // The figures measured are worth reading.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use cam_core::job_file::{JobFile, JobSort};
use cam_core::make::{JOB_FILE, Job, make};
use cam_core::progress::Progress;
use cam_core::workshop::Workshop;
use geometry::distance::WallIndex;
use kurbo::{BezPath, Point};
use testkit::fonts::{TestFont, forty_fonts, text_font};
use testkit::measured::{Plank, around, corners, drawn, load_in_parts, plank, walls, window};
use testkit::orders::of_text;
use testkit::referee::Area;
use testkit::told::PLACE_MM;

/// Cells of the wood, mm.
const CELL_MM: f64 = 0.04;
/// Length of path over which a load is taken, mm.
const PART_MM: f64 = 0.6;
/// Chords of drawn letters lie this near to their curves, mm.
const CHORD_MM: f64 = 0.0002;

/// A made job, as its files tell it.
struct Made {
    job: JobFile,
    made: Job,
    workshop: Workshop,
}

fn made(font: TestFont, text: &str) -> Made {
    made_with(font, text, &[])
}

/// With further cutters than the starting ones.
fn made_with(font: TestFont, text: &str, more: &[&str]) -> Made {
    let (mut commission, fonts) = of_text(font, 10.0, text);
    let more = more.iter().map(|&id| id.to_owned());
    commission.cutting.cutters.extend(more);
    let workshop = Workshop::starting();
    let made = make(&commission, &workshop, &fonts, &Progress::new())
        .unwrap_or_else(|error| panic!("{error}"));
    assert!(!made.is_stopped(), "{:?}", made.findings);
    let file = made
        .papers
        .iter()
        .find(|file| file.path == JOB_FILE)
        .expect("every make writes a job file");
    let job = JobFile::from_json(&String::from_utf8_lossy(&file.bytes)).expect("its own file");
    Made {
        job,
        made,
        workshop,
    }
}

impl Made {
    fn text_of(&self, file: &str) -> String {
        let program = self
            .made
            .programs
            .iter()
            .find(|program| program.file == file);
        program.expect("the job names its programs").text.clone()
    }

    fn smallest_radius(&self) -> f64 {
        let radii = self
            .job
            .cutters
            .iter()
            .map(|cutter| cutter.diameter_mm / 2.0);
        radii.fold(f64::INFINITY, f64::min)
    }

    fn plank(&self, id: &str) -> Plank {
        plank(&self.job, id, |file| self.text_of(file))
    }

    /// Each letter with its drawing, its walls and the motions over its plank.
    fn each_letter(&self, mut look: impl FnMut(&JobSort, &BezPath, &[Vec<Point>], &Plank)) {
        for of_plank in &self.job.planks {
            let plank = self.plank(&of_plank.id);
            for sort in self
                .job
                .sorts
                .iter()
                .filter(|sort| sort.plank == of_plank.id)
            {
                let Some(drawn) = drawn(&self.job, sort) else {
                    continue;
                };
                let rings = Area::drawn(&drawn, CHORD_MM).rings();
                look(sort, &drawn, &rings, &plank);
            }
        }
    }
}

/// Four letters of a serif face, and an ornament; made once for all tests.
static JOBS: LazyLock<[Made; 2]> = LazyLock::new(|| {
    let ornaments = forty_fonts()
        .into_iter()
        .find(|font| font.name == "dejavu-sans")
        .expect("one of the forty");
    [
        made(text_font("libertinus-serif"), "MS&O"),
        made(ornaments, "❦"),
    ]
});

/// What share of the length lies at or below a limit.
fn share_within(values: &[(f64, f64)], limit: f64) -> f64 {
    let whole: f64 = values.iter().map(|value| value.1).sum();
    let within: f64 = values
        .iter()
        .filter(|value| value.0 <= limit)
        .map(|value| value.1)
        .sum();
    within / whole.max(f64::MIN_POSITIVE)
}

/// Loads in parts of the set width with the lengths over which they hold, for one cutter on all letters.
#[derive(Default)]
struct Loads {
    /// Width of fresh wood.
    width: Vec<(f64, f64)>,
    /// The same times the feed's part of the cutter's feed, each where it holds: what the edges have to take.
    held: Vec<(f64, f64)>,
    /// Where that is most.
    worst: Vec<(f64, Point)>,
}

fn loads(jobs: &[Made]) -> BTreeMap<String, Loads> {
    let mut loads: BTreeMap<String, Loads> = BTreeMap::new();
    for made in jobs {
        made.each_letter(|sort, _, _, plank| {
            let (parts, _) = load_in_parts(plank, window(sort, 1.0), CELL_MM, PART_MM);
            for part in parts.into_iter().filter(|part| !part.enters) {
                let id = &plank.cutters[part.cutter].id;
                let cutter = made.workshop.cutter(id).expect("a cutter of the workshop");
                let width = part.width / cutter.step_over.in_mm();
                let held = part.rate / cutter.step_over.in_mm() / cutter.feed_mm_min;
                let known = loads.entry(id.clone()).or_default();
                known.width.push((width, part.length));
                known.held.push((held, part.length));
                known.worst.push((held, part.at));
            }
        });
    }
    loads
}

/// Part of the length on which the load, with the feed that is set for it, keeps within 1.05 of the set width.
const LEAST_KEPT: f64 = 0.999;
/// The most that the load may be anywhere after the entry, in parts of the set width. The goal is 1.15.
const MOST_LOAD: f64 = 1.06;

#[test]
fn the_load_of_each_cutter_keeps_its_width() {
    let mut faults = Vec::new();
    for (cutter, of) in loads(&*JOBS) {
        let length: f64 = of.width.iter().map(|value| value.1).sum();
        let most = of
            .held
            .iter()
            .fold(0.0, |most: f64, value| most.max(value.0));
        let kept = share_within(&of.held, 1.05);
        let told = format!(
            "{cutter}: over {length:.0} mm within 1.05 on {:.2} %, at most {most:.2}; before the feed falls within 1.05 on {:.2} %",
            100.0 * kept,
            100.0 * share_within(&of.width, 1.05),
        );
        let worst = of.worst.iter().max_by(|a, b| a.0.total_cmp(&b.0));
        let told = worst.map_or(told.clone(), |(_, at)| format!("{told}, at {at:.2}"));
        println!("{told}");
        if kept < LEAST_KEPT || most > MOST_LOAD {
            faults.push(told);
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// No drawn wall is cut into, and where the smallest cutter fits it lies within the tolerance.
#[test]
fn walls_lie_between_the_drawing_and_the_tolerance() {
    let mut judged = 0;
    let mut faults = Vec::new();
    for made in JOBS.iter() {
        let smallest = made.smallest_radius();
        made.each_letter(|sort, drawn, rings, plank| {
            let letter = WallIndex::new(rings);
            for place in walls(plank, drawn, &letter, 0.2, 1e-6) {
                judged += 1;
                let centre = place.at + place.outward * (smallest + 0.002);
                let fits = letter.nearest(centre) > smallest;
                let most = if fits {
                    made.job.tolerance_mm
                } else {
                    f64::INFINITY
                };
                if place.gap < -PLACE_MM || place.gap > most {
                    let (x, y) = (place.at.x, place.at.y);
                    faults.push(format!(
                        "{} at {x:.2}, {y:.2}: {:.4} mm",
                        sort.id, place.gap
                    ));
                }
            }
        });
    }
    assert!(judged > 3000, "{judged} places");
    assert!(
        faults.is_empty(),
        "{} of {judged} places:\n{}",
        faults.len(),
        faults[..faults.len().min(20)].join("\n")
    );
}

/// How much more of a corner than by the closed form may be left where the smallest cutter fits into it, mm: its walls are cut up
/// to the tolerance away, and are not always straight.
const CORNER_SLACK_MM: f64 = 0.03;

#[test]
fn corners_are_as_sharp_as_the_cutters_can() {
    let mut judged = 0;
    let mut faults = Vec::new();
    for made in JOBS.iter() {
        let smallest = made.smallest_radius();
        made.each_letter(|sort, drawn, rings, plank| {
            let letter = WallIndex::new(rings);
            for corner in corners(plank, drawn, &letter, [25.0, 150.0]) {
                let half = corner.angle_deg.to_radians() / 2.0;
                let centre = corner.at + corner.inward * (smallest / half.sin());
                if letter.contains(centre) || letter.nearest(centre) < smallest - 0.01 {
                    continue;
                }
                judged += 1;
                let closed_form = smallest * (1.0 / half.sin() - 1.0);
                if corner.gap > closed_form + CORNER_SLACK_MM {
                    faults.push(format!(
                        "{} {:.0}°: {:.3} mm, {closed_form:.3} by the closed form",
                        sort.id, corner.angle_deg, corner.gap
                    ));
                }
            }
        });
    }
    assert!(judged > 8, "{judged} corners");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// How much more of a corner than the disc of a conical tip leaves may be left by that cutter, mm.
const POINTED_SLACK_MM: f64 = 0.02;

#[test]
fn a_cone_leaves_every_corner_as_sharp_as_its_tip() {
    let made = made_with(text_font("libertinus-serif"), "MSW&%4", &["cone-60"]);
    let tip = made
        .job
        .cutters
        .iter()
        .filter_map(|cutter| cutter.tip_diameter_mm)
        .fold(f64::INFINITY, f64::min)
        / 2.0;
    let mut judged = 0;
    let mut worst: f64 = 0.0;
    let mut faults = Vec::new();
    made.each_letter(|sort, drawn, rings, plank| {
        let letter = WallIndex::new(rings);
        for corner in corners(plank, drawn, &letter, [25.0, 150.0]) {
            let half = corner.angle_deg.to_radians() / 2.0;
            // Where drawn corners lie closer together than the tip is wide, it does not fit between them.
            if letter.nearest(corner.at + corner.inward * (tip / half.sin())) < tip - 0.01 {
                continue;
            }
            judged += 1;
            worst = worst.max(corner.gap - tip * (1.0 / half.sin() - 1.0));
            let most = tip * (1.0 / half.sin() - 1.0) + POINTED_SLACK_MM;
            if corner.gap > most {
                faults.push(format!(
                    "{} {:.0}° at {:.2}, {:.2}: {:.3} mm, not {most:.3}",
                    sort.id, corner.angle_deg, corner.at.x, corner.at.y, corner.gap
                ));
            }
        }
    });
    println!("{judged} corners lack at most {worst:.4} mm more than the tip");
    assert!(judged > 12, "{judged} corners");
    assert!(
        faults.is_empty(),
        "{} of {judged}:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

/// Every floor that the smallest cutter reaches is at least as deep as its width asks, and none is deeper than the relief.
#[test]
fn floors_are_as_deep_as_their_width_asks() {
    let mut faults = Vec::new();
    for made in JOBS.iter() {
        let relief = made.job.relief.expect("the job tells its relief");
        let smallest = made.smallest_radius();
        made.each_letter(|sort, _, rings, plank| {
            let (_, sheet) = load_in_parts(plank, window(sort, 1.0), CELL_MM, PART_MM);
            let letter = Area::filled(rings.iter().map(Vec::as_slice));
            let ground = around(sort, 20.0).without(&letter);
            let block = around(sort, 0.0);
            for part in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let width =
                    relief.narrow_width_mm + (relief.wide_width_mm - relief.narrow_width_mm) * part;
                let wanted = relief.least_mm + (relief.full_mm - relief.least_mm) * part;
                // Of narrow ground all that the smallest cutter reaches; a little less, for cells that are partly swept.
                let radius = if part == 0.0 { smallest + 0.01 } else { width / 2.0 };
                let asked = ground
                    .grown(-radius)
                    .grown(radius - 2.0 * CELL_MM)
                    .intersection(&block);
                let inside = sheet.inside(&asked.rings());
                let depths = sheet.cells().zip(inside).filter(|cell| cell.1).map(|cell| cell.0.1);
                let (mut cells, mut shallow) = (0, 0);
                for depth in depths {
                    cells += 1;
                    shallow += usize::from(depth < wanted - 0.01);
                }
                if shallow as f64 > cells as f64 * MOST_SHALLOW {
                    faults.push(format!(
                        "{}, {width:.2} mm wide: {shallow} of {cells} cells shallower than {wanted:.2} mm",
                        sort.id
                    ));
                }
            }
            let deepest = sheet.cells().fold(0.0, |most: f64, cell| most.max(cell.1));
            if deepest > relief.full_mm + 0.001 {
                faults.push(format!("{}: {deepest:.3} mm deep", sort.id));
            }
        });
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Part of the cells of a floor that may be shallower than wanted: cells at the rim of what a path just sweeps.
const MOST_SHALLOW: f64 = 0.0;

/// Part of the time that the cutter may be above the wood. The goal is 0.08.
const MOST_IN_AIR: f64 = 0.148;

/// Motions above the face run from rest to rest but for the joints between them, so the time of each is taken from rest to
/// rest; the whole is the estimate that the job file gives.
#[test]
fn little_time_is_spent_above_the_wood() {
    let (mut whole, mut air) = (0.0, 0.0);
    for made in JOBS.iter() {
        let machine = &made.workshop.machine;
        let acceleration = machine.acceleration_mm_s2;
        for of_plank in &made.job.planks {
            let plank = made.plank(&of_plank.id);
            for cut in plank
                .cuts
                .iter()
                .filter(|cut| cut.depth[0].min(cut.depth[1]) < 0.0)
            {
                let across = cut.to - cut.from;
                let along = [across.x, across.y, cut.depth[1] - cut.depth[0]];
                let length = cut.length();
                let limit = |limits: [f64; 3]| {
                    let shares = limits
                        .iter()
                        .zip(along)
                        .filter(|(_, part)| part.abs() > 1e-9);
                    shares
                        .map(|(limit, part)| limit * length / part.abs())
                        .fold(f64::INFINITY, f64::min)
                };
                let speed = cut
                    .feed
                    .unwrap_or(f64::INFINITY)
                    .min(limit(machine.rapid_mm_min))
                    / 60.0;
                let seconds = from_rest_to_rest(length, speed, limit(acceleration));
                // Fed down from the air into the ground, it cuts from the face on.
                let [from, to] = cut.depth;
                let is_fed_down = cut.feed.is_some() && from < to;
                let above = if is_fed_down && to > 0.0 {
                    -from / (to - from)
                } else {
                    1.0
                };
                air += seconds * above;
            }
        }
        whole += made
            .job
            .programs
            .iter()
            .map(|program| program.estimate_s)
            .sum::<f64>();
    }
    println!("{air:.0} of {whole:.0} s above the wood");
    assert!(whole > 60.0, "{whole} s");
    assert!(
        air <= whole * MOST_IN_AIR,
        "{air:.0} of {whole:.0} s: {:.3}",
        air / whole
    );
}

fn from_rest_to_rest(length: f64, speed: f64, acceleration: f64) -> f64 {
    if length <= 0.0 {
        0.0
    } else if length * acceleration >= speed * speed {
        length / speed + speed / acceleration
    } else {
        2.0 * (length / acceleration).sqrt()
    }
}
