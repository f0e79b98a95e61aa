//! Does the proof prove? Good programs are made wrong in many ways, and judged.
//!
//! The usual run tries some of the mutations; all of them, over every demonstration and a job with a cone, by
//!
//! ```sh
//! SORTWRIGHT_MUTATIONS=all cargo test -p sortwright-tests --test mutations -- --nocapture
//! ```
//!
//! The hash of each text is left out of the verdict, since it would refuse everything. What nothing refuses is laid beside the good
//! programs by the simulated cut: it must leave the same wood, within 0.002 mm along and across, and bring no finding that the
//! good programs do not have. Only to the depth of the relief may it stand differently: beyond the blocks, where nothing is asked for, and where a
//! floor was deeper than the ground's width asks and is still as deep as that. How wide the ground is there is told by another library, from the
//! drawn letter.

#![allow(clippy::print_stdout)] // The table is the test's result.

use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};

use cam_core::commission::Commission;
use cam_core::finding::{Finding, Severity};
use cam_core::job_file::JobFile;
use cam_core::make::{Fonts, JOB_FILE, make};
use cam_core::progress::Progress;
use cam_core::proof::{Difference, Judge, passes};
use cam_core::workshop::Workshop;
use geometry::distance::WallIndex;
use kurbo::Point;
use rayon::prelude::*;
use sortwright::files::open::open_commission;
use testkit::fonts::text_font;
use testkit::measured::{around, drawn, window};
use testkit::mutations::{Kind, Texts, mutate};
use testkit::orders::of_text;
use testkit::referee::Area;
use testkit::repository::top;

/// Surfaces this near are one, mm: the rounding of a program's places and a little for sums.
const SAME_MM: f64 = 0.002;

/// The least share of mutations that are not harmless that must be refused.
const LEAST_REFUSED: f64 = 0.999;

/// A job with the texts of its programs.
struct Made {
    name: String,
    job: JobFile,
    texts: Texts,
}

impl Made {
    fn new(name: &str, commission: &Commission, workshop: &Workshop, fonts: &Fonts) -> Made {
        let made = make(commission, workshop, fonts, &Progress::new())
            .unwrap_or_else(|error| panic!("{name}: {error}"));
        let paper = made
            .papers
            .iter()
            .find(|paper| paper.path == JOB_FILE)
            .expect("every make writes a job file");
        let text = String::from_utf8_lossy(&paper.bytes);
        Made {
            name: name.to_owned(),
            job: JobFile::from_json(&text).expect("it reads back"),
            texts: made
                .programs
                .into_iter()
                .map(|program| (program.file, program.text))
                .collect(),
        }
    }

    /// A demonstration as it lies in its folder.
    fn demo(name: &str) -> Made {
        let path = top()
            .join("demo-projects")
            .join(name)
            .join("commission.json");
        let opened = open_commission(&path, None).unwrap_or_else(|error| panic!("{error}"));
        Made::new(name, &opened.commission, &opened.workshop, &opened.fonts)
    }

    /// Three letters whose corners are followed by a cone.
    fn with_cone() -> Made {
        let (mut commission, fonts) = of_text(text_font("ubuntu-light"), 4.0, "WAK");
        commission.cutting.cutters = ["flat-3", "flat-0.8", "cone-60"]
            .map(str::to_owned)
            .to_vec();
        Made::new("cone", &commission, &Workshop::starting(), &fonts)
    }
}

/// Chords of drawn letters lie this near to their curves, mm.
const CHORD_MM: f64 = 0.0005;

/// Ground further than this from a block makes none of its own ground wider, mm: more than any width at which the relief is full.
const FAR_MM: f64 = 20.0;

/// Whether wood stands differently between face and relief alone, beyond the blocks, or so that a floor is as deep as the ground's width asks.
fn is_as_promised(job: &JobFile, difference: &Difference) -> bool {
    let Some(relief) = job.relief else {
        return false;
    };
    let (shallow, deep) = (
        -difference.before_mm.max(difference.now_mm),
        -difference.before_mm.min(difference.now_mm),
    );
    if deep > relief.full_mm + SAME_MM {
        return false;
    }
    let slope =
        (relief.wide_width_mm - relief.narrow_width_mm) / (relief.full_mm - relief.least_mm);
    let radius = (relief.narrow_width_mm + (shallow - relief.least_mm) * slope) / 2.0 + SAME_MM;
    let at = Point::new(difference.at_mm[0], difference.at_mm[1]);
    let plank = &job.planks[difference.plank].id;
    let mut on_plank = job.sorts.iter().filter(|sort| sort.plank == *plank);
    let Some(sort) = on_plank.find(|sort| window(sort, 0.0).contains(at)) else {
        return true;
    };
    let Some(drawn) = drawn(job, sort) else {
        return false;
    };
    if shallow < relief.least_mm {
        return false;
    }
    let ground = around(sort, FAR_MM).without(&Area::drawn(&drawn, CHORD_MM));
    // Ground that holds discs so large asks for more.
    let wider = ground.opened(radius).rings();
    !WallIndex::new(&wider).contains(at)
}

/// What became of one mutation.
enum Verdict {
    /// Something other than its time told.
    Refused,
    /// Only its time told; whether it cuts the same wood.
    ByTimeAlone { same_wood: bool },
    /// Nothing told, and it cuts the same wood, or all that the job promises.
    Harmless { same_wood: bool },
    /// Nothing told, but it is not harmless, and why.
    Hole(String),
}

/// The count of each verdict.
#[derive(Clone, Copy, Default)]
struct Count {
    tried: usize,
    refused: usize,
    by_time_alone: usize,
    of_them_same_wood: usize,
    harmless: usize,
    as_promised: usize,
    holes: usize,
}

impl Count {
    fn add(&mut self, verdict: &Verdict) {
        self.tried += 1;
        match verdict {
            Verdict::Refused => self.refused += 1,
            Verdict::ByTimeAlone { same_wood } => {
                self.refused += 1;
                self.by_time_alone += 1;
                self.of_them_same_wood += usize::from(*same_wood);
            }
            Verdict::Harmless { same_wood } => {
                self.harmless += 1;
                self.as_promised += usize::from(!same_wood);
            }
            Verdict::Hole(_) => self.holes += 1,
        }
    }

    fn row(&self, name: &str) -> String {
        format!(
            "| {name} | {} | {} | {} | {} | {} | {} | {} |",
            self.tried,
            self.refused,
            self.by_time_alone,
            self.of_them_same_wood,
            self.harmless,
            self.as_promised,
            self.holes
        )
    }
}

/// The kinds of findings, with their weight, that say something of what is cut. On how much of its way a cutter takes more than it is set
/// to cannot be told where only a part of the way is judged; what no cutter should take is a stop of its own.
fn kinds(findings: &[Finding]) -> BTreeSet<(Severity, &'static str)> {
    findings
        .iter()
        .filter(|finding| finding.kind != "program-changed" && finding.kind != "load")
        .map(|finding| (finding.severity, finding.kind))
        .collect()
}

/// Judges mutations of one job: `each` of every kind that changes a line or a stretch, `whole` of every kind that changes a whole file,
/// as far as there are.
fn judge(made: &Made, each: usize, whole: usize) -> Vec<(Kind, String, Verdict)> {
    let progress = Progress::new();
    let stock = Judge::lay(&made.job, &progress).expect("nobody stops the work");
    let sound = stock
        .check(&made.texts, &progress)
        .expect("nobody stops the work");
    let stops: Vec<&Finding> = sound
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .collect();
    assert!(passes(&sound), "{}: {stops:#?}", made.name);
    let sound = kinds(&sound);
    let proven = stock.keep(&made.texts);
    let planned: Vec<(Kind, u64)> = Kind::ALL
        .iter()
        .flat_map(|&kind| {
            let count = match kind.most(made.texts.len()) {
                Some(most) => whole.min(most),
                None => each,
            };
            (0..count as u64).map(move |number| (kind, number))
        })
        .collect();
    planned
        .into_par_iter()
        .filter_map(|(kind, number)| {
            let mutation = mutate(kind, number, &made.texts)?;
            let found = proven
                .recheck(&mutation.texts, &progress)
                .expect("nobody stops the work");
            let found = kinds(&found);
            let stops: Vec<&str> = found
                .iter()
                .filter(|(severity, _)| *severity == Severity::Stop)
                .map(|(_, kind)| *kind)
                .collect();
            let same_wood = Cell::new(true);
            let difference = |excused: fn(&JobFile, &Difference) -> bool| {
                proven.difference(&mutation.texts, SAME_MM, |difference| {
                    same_wood.set(false);
                    excused(&made.job, difference)
                })
            };
            let verdict = if stops.iter().any(|kind| *kind != "time-differs") {
                Verdict::Refused
            } else if !stops.is_empty() {
                Verdict::ByTimeAlone {
                    same_wood: difference(|_, _| false).is_none(),
                }
            } else if let Some(difference) = difference(is_as_promised) {
                Verdict::Hole(format!("{difference:?}"))
            } else if let Some(new) = found.difference(&sound).next() {
                Verdict::Hole(format!("the same wood, but {new:?}"))
            } else {
                Verdict::Harmless {
                    same_wood: same_wood.get(),
                }
            };
            Some((kind, format!("{}: {}", made.name, mutation.what), verdict))
        })
        .collect()
}

#[test]
fn wrong_programs_are_refused() {
    let all = std::env::var("SORTWRIGHT_MUTATIONS").is_ok_and(|asked| asked == "all");
    let jobs = if all {
        vec![
            (Made::demo("ferry-notice"), 140, 4),
            (Made::demo("harvest-fount"), 8, 4),
            (Made::demo("market-poster"), 8, 2),
            (Made::demo("barn-supper"), 8, 2),
            (Made::with_cone(), 90, 4),
        ]
    } else {
        vec![
            (Made::demo("ferry-notice"), 7, 1),
            (Made::with_cone(), 6, 1),
        ]
    };
    let mut counts: BTreeMap<Kind, Count> = BTreeMap::new();
    let mut sum = Count::default();
    let mut holes = Vec::new();
    for (made, each, whole) in &jobs {
        for (kind, what, verdict) in judge(made, *each, *whole) {
            counts.entry(kind).or_default().add(&verdict);
            sum.add(&verdict);
            if let Verdict::Hole(why) = verdict {
                holes.push(format!("{what}: {why}"));
            }
        }
    }
    println!(
        "| made wrong | tried | refused | by the time alone | of them the same wood | harmless | of them as promised | holes |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    for (kind, count) in &counts {
        println!("{}", count.row(kind.says()));
    }
    println!("{}", sum.row("all"));
    for hole in &holes {
        println!("{hole}");
    }
    assert!(sum.tried >= if all { 5_000 } else { 300 }, "{}", sum.tried);
    let share = sum.refused as f64 / (sum.refused + sum.holes) as f64;
    assert!(share >= LEAST_REFUSED, "{share}");
    assert!(holes.is_empty(), "{holes:#?}");
}

/// Judging only what a change can touch comes to the same as judging everything.
#[test]
fn a_change_judged_by_itself_is_judged_as_in_the_whole() {
    let made = Made::with_cone();
    let progress = Progress::new();
    let stock = Judge::lay(&made.job, &progress).expect("nobody stops the work");
    let proven = stock.keep(&made.texts);
    let mut refused = 0;
    for &kind in Kind::ALL.iter().step_by(2) {
        let Some(mutation) = mutate(kind, 7, &made.texts) else {
            continue;
        };
        let mut texts = made.texts.clone();
        texts.extend(mutation.texts.clone());
        let stops = |findings: Vec<Finding>| -> BTreeSet<(Severity, &'static str)> {
            let mut kinds = kinds(&findings);
            kinds.retain(|(severity, _)| *severity == Severity::Stop);
            kinds
        };
        let whole = stops(
            stock
                .check(&texts, &progress)
                .expect("nobody stops the work"),
        );
        let alone = stops(
            proven
                .recheck(&mutation.texts, &progress)
                .expect("nobody stops the work"),
        );
        assert_eq!(whole, alone, "{}", mutation.what);
        refused += usize::from(!whole.is_empty());
    }
    assert!(refused > 15, "{refused}");
}
