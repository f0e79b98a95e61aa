//! The machine time of jobs to measure with, split by cutter and by what the cutter does, and the least that they could take.

use std::collections::BTreeMap;
use std::sync::Arc;

use cam_core::commission::Commission;
use cam_core::make::{Fonts, Job, make};
use cam_core::measure::Length;
use cam_core::pass::{Purpose, SortPasses};
use cam_core::program::{self, ProgramHeader, Section};
use cam_core::progress::Progress;
use cam_core::toolpath::duration::moments;
use cam_core::toolpath::{self, Course, Motion, Toolpath, Work};
use cam_core::workshop::{Cutter, Workshop};

use crate::bound::{self, Bound};
use crate::fonts::text_font;
use crate::orders::{fount, of_text};

/// Feeds that differ by less than this part are the same.
const SAME_FEED: f64 = 1e-3;

/// A job with the time that its programs take on its machine.
pub struct Reckoned {
    /// Seconds of each kind of motion, by cutter.
    pub split: BTreeMap<String, BTreeMap<&'static str, f64>>,
    /// The least time.
    pub least: Bound,
    /// The least time that counts against it, s.
    pub bound: f64,
}

impl Reckoned {
    /// The whole time, s.
    pub fn seconds(&self) -> f64 {
        self.split.values().flat_map(BTreeMap::values).sum()
    }

    /// The whole time in parts of the least.
    pub fn ratio(&self) -> f64 {
        self.seconds() / self.bound
    }
}

/// The machine of the goals: 50 mm/s in every direction, 300 mm/s².
fn swift() -> Workshop {
    let mut workshop = Workshop::starting();
    workshop.machine.max_feed_mm_min = [3000.0, 3000.0, workshop.machine.max_feed_mm_min[2]];
    workshop.machine.acceleration_mm_s2 = [300.0, 300.0, workshop.machine.acceleration_mm_s2[2]];
    workshop
}

fn made(commission: &Commission, workshop: &Workshop, fonts: &Fonts) -> Job {
    make(commission, workshop, fonts, &Progress::new()).unwrap_or_else(|error| panic!("{error}"))
}

/// Clearing of letters of 24 lines, about 100 mm high, with one cutter of 6 mm: 2.4 mm wide in one layer at 50 mm/s.
pub fn clearing(letters: &str) -> Reckoned {
    let (mut commission, fonts) = of_text(text_font("libertinus-serif"), 24.0, letters);
    commission.cutting.cutters = vec!["flat-6".to_owned()];
    commission.cutting.relief = Length::mm(1.5);
    commission.cutting.least_relief = Length::mm(1.5);
    commission.planks.width = Length::mm(560.0);
    commission.planks.length = Length::mm(380.0);
    let mut workshop = swift();
    for cutter in &mut workshop.cutters {
        if cutter.id == "flat-6" {
            cutter.feed_mm_min = 3000.0;
        }
    }
    let job = made(&commission, &workshop, &fonts);
    let clears = |purpose: Purpose| match purpose {
        Purpose::Roughing | Purpose::Rest => true,
        Purpose::Finishing | Purpose::Corners | Purpose::Notches | Purpose::Separation => false,
    };
    let cleared = job.passes.iter().map(|of_sort| {
        let mut of_sort = of_sort.as_ref().clone();
        for passes in &mut of_sort {
            passes.cuts.retain(|cut| clears(cut.purpose));
        }
        Arc::new(of_sort)
    });
    let passes: Vec<Arc<Vec<SortPasses>>> = cleared.collect();
    let work = Work::new(&job.sorts, &passes, &workshop);
    let mut split = BTreeMap::new();
    for plank in &job.planks {
        for cutter in &workshop.cutters {
            let toolpath = toolpath::join(plank, &work, cutter, &workshop.machine);
            if !toolpath.motions.is_empty() {
                add(&mut split, cutter, &toolpath, &workshop);
            }
        }
    }
    let least = bound::of_fount(&job.sorts, &job.planks, &commission, &workshop);
    Reckoned {
        split,
        least,
        bound: least.clearing + least.forced,
    }
}

/// All letters of the clearing row.
pub fn clearing_letters() -> String {
    ('A'..='Z')
        .chain('a'..='z')
        .chain('0'..='9')
        .chain("&?!".chars())
        .collect()
}

/// The whole of a fount of 240 sorts with four cutters: clearing, finishing, links; without changes of cutter and the saw.
pub fn whole_job() -> Reckoned {
    let (commission, fonts) = fount(text_font("libertinus-serif"), 10.0, 240);
    whole(&commission, &fonts)
}

/// The same of one of each of some letters.
pub fn whole_of(letters: &str) -> Reckoned {
    let (commission, fonts) = of_text(text_font("libertinus-serif"), 10.0, letters);
    whole(&commission, &fonts)
}

fn whole(commission: &Commission, fonts: &Fonts) -> Reckoned {
    let workshop = swift();
    let job = made(commission, &workshop, fonts);
    let mut split = BTreeMap::new();
    for part in job.programs.iter().flat_map(|program| &program.parts) {
        let cutter = workshop
            .cutter(&part.cutter)
            .expect("programs are made with the workshop's cutters");
        add(&mut split, cutter, &part.toolpath, &workshop);
    }
    let least = bound::of_fount(&job.sorts, &job.planks, commission, &workshop);
    Reckoned {
        split,
        least,
        bound: least.whole(),
    }
}

/// Adds the time of a program that holds nothing but this toolpath.
fn add(
    split: &mut BTreeMap<String, BTreeMap<&'static str, f64>>,
    cutter: &Cutter,
    toolpath: &Toolpath,
    workshop: &Workshop,
) {
    let machine = &workshop.machine;
    let dialect = program::dialect(&machine.dialect).expect("the machine's dialect is known");
    let section = Section { cutter, toolpath };
    let header = ProgramHeader::new("Reckoned", "1");
    let text =
        program::write(&[section], dialect, &header).unwrap_or_else(|error| panic!("{error}"));
    let replay = reader::read(&text).unwrap_or_else(|error| panic!("{error}"));
    let kinds = split.entry(cutter.id.clone()).or_default();
    let mut motions = toolpath.motions.iter().peekable();
    let mut before = 0.0;
    let mut kind = "above the wood";
    let moments = moments(&replay, machine);
    for (motion, moment) in replay.motions.iter().zip(&moments) {
        // A motion that rounding makes nothing of has no place in the text.
        const ROUNDING_MM: f64 = 0.002;
        let ends_here = |meant: &Motion| {
            meant.to.xy.distance(motion.to.xy) < ROUNDING_MM
                && (meant.to.z - motion.to.z).abs() < ROUNDING_MM
        };
        let ahead = motions.clone().take(8).position(ends_here);
        if let Some(meant) = ahead.and_then(|skipped| motions.nth(skipped)) {
            kind = kind_of(
                meant,
                [motion.from.z, motion.to.z],
                motion.from.xy == motion.to.xy,
                cutter,
            );
        }
        *kinds.entry(kind).or_default() += moment - before;
        before = *moment;
    }
}

/// What a motion is for; `z` is where it begins and ends.
fn kind_of(motion: &Motion, z: [f64; 2], upright: bool, cutter: &Cutter) -> &'static str {
    let feed = match motion.course {
        Course::Rapid => return "above the wood",
        Course::Line { feed_mm_min } | Course::Arc { feed_mm_min, .. } => feed_mm_min,
    };
    if z[0].max(z[1]) > 0.0 {
        return "above the wood";
    }
    if (z[0] - z[1]).abs() > 1e-6 {
        return if upright { "straight down" } else { "sloping" };
    }
    if feed > cutter.feed_mm_min * (1.0 + SAME_FEED) {
        return "way at depth";
    }
    let slow = feed < cutter.feed_mm_min * (1.0 - SAME_FEED);
    match (motion.purpose, slow) {
        (Some(Purpose::Roughing | Purpose::Rest), false) => "clearing",
        (Some(Purpose::Roughing | Purpose::Rest), true) => "clearing, fed slower",
        (Some(Purpose::Finishing), false) => "finishing",
        (Some(Purpose::Finishing), true) => "finishing, fed slower",
        (Some(Purpose::Corners | Purpose::Notches | Purpose::Separation) | None, _) => "other",
    }
}
