//! The machine time of what is made, against the least that it could take.

use std::sync::Arc;

use cam_core::commission::Commission;
use cam_core::make::{Job, make};
use cam_core::measure::Length;
use cam_core::pass::{Purpose, SortPasses};
use cam_core::program::{self, ProgramHeader, Section};
use cam_core::progress::Progress;
use cam_core::toolpath;
use cam_core::toolpath::duration::duration;
use cam_core::workshop::Workshop;
use testkit::bound;
use testkit::fonts::text_font;
use testkit::orders::{fount, of_text};

use crate::Row;

/// The machine of the goal: 50 mm/s in every direction, 300 mm/s².
fn swift() -> Workshop {
    let mut workshop = Workshop::starting();
    workshop.machine.max_feed_mm_min = [3000.0, 3000.0, workshop.machine.max_feed_mm_min[2]];
    workshop.machine.acceleration_mm_s2 = [300.0, 300.0, workshop.machine.acceleration_mm_s2[2]];
    workshop
}

fn made(commission: &Commission, workshop: &Workshop, fonts: &cam_core::make::Fonts) -> Job {
    make(commission, workshop, fonts, &Progress::new()).unwrap_or_else(|error| panic!("{error}"))
}

/// Clearing of the 65-sort plank's letters, about 100 mm high, with one cutter of 6 mm: 2.4 mm wide in one layer at 50 mm/s.
pub fn clearing() -> Row {
    let letters: String = ('A'..='Z')
        .chain('a'..='z')
        .chain('0'..='9')
        .chain("&?!".chars())
        .collect();
    let (mut commission, fonts) = of_text(text_font("libertinus-serif"), 24.0, &letters);
    commission.cutting.cutters = vec!["flat-6".to_owned()];
    commission.cutting.relief = Length::mm(1.5);
    commission.cutting.least_relief = Length::mm(1.5);
    commission.planks.width = Length::mm(560.0);
    commission.planks.length = Length::mm(380.0);
    let mut workshop = swift();
    for cutter in workshop
        .cutters
        .iter_mut()
        .filter(|cutter| cutter.id == "flat-6")
    {
        cutter.feed_mm_min = 3000.0;
    }
    let job = made(&commission, &workshop, &fonts);
    let seconds = clearing_seconds(&job, &workshop);
    let least = bound::of_fount(&job.sorts, &job.planks, &commission, &workshop);
    let bound = least.clearing + least.forced;
    Row {
        what: "machine time of clearing, 65 sorts of 24 lines, 6 mm cutter, 50 mm/s and 300 mm/s²",
        against: "least time by area and machine".to_owned(),
        project: format!("{seconds:.0} s"),
        other: format!("{bound:.0} s"),
        ratio: seconds / bound,
        goal: "1.15",
    }
}

/// The time of programs that hold nothing but what clears ground.
fn clearing_seconds(job: &Job, workshop: &Workshop) -> f64 {
    let clears = |purpose: Purpose| match purpose {
        Purpose::Roughing | Purpose::Rest => true,
        Purpose::Finishing | Purpose::Corners | Purpose::Notches | Purpose::Separation => false,
    };
    let passes: Vec<Arc<Vec<SortPasses>>> = job
        .passes
        .iter()
        .map(|of_sort| {
            let mut of_sort = of_sort.as_ref().clone();
            for passes in &mut of_sort {
                passes.cuts.retain(|cut| clears(cut.purpose));
            }
            Arc::new(of_sort)
        })
        .collect();
    let machine = &workshop.machine;
    let dialect = program::dialect(&machine.dialect).expect("the machine's dialect is known");
    let mut seconds = 0.0;
    for plank in &job.planks {
        for cutter in &workshop.cutters {
            let toolpath = toolpath::join(plank, &job.sorts, &passes, cutter, workshop);
            if toolpath.motions.is_empty() {
                continue;
            }
            let section = Section {
                cutter,
                toolpath: &toolpath,
            };
            let header = ProgramHeader::new("Clearing", &plank.id);
            let text = program::write(&[section], dialect, &header)
                .unwrap_or_else(|error| panic!("{error}"));
            let replay = reader::read(&text).unwrap_or_else(|error| panic!("{error}"));
            seconds += duration(&replay, machine);
        }
    }
    seconds
}

/// The whole of a fount of 240 sorts with four cutters: clearing, finishing, links; without changes of cutter and the saw.
pub fn whole_job() -> Row {
    let (commission, fonts) = fount(text_font("libertinus-serif"), 10.0, 240);
    let workshop = swift();
    let job = made(&commission, &workshop, &fonts);
    let seconds: f64 = job
        .programs
        .iter()
        .map(|program| {
            let replay = reader::read(&program.text).unwrap_or_else(|error| panic!("{error}"));
            duration(&replay, &workshop.machine)
        })
        .sum();
    let least = bound::of_fount(&job.sorts, &job.planks, &commission, &workshop);
    println!(
        "least time of the fount: clearing {:.0} s, finishing {:.0} s, forced links {:.0} s",
        least.clearing, least.finishing, least.forced
    );
    Row {
        what: "whole job, 240 sorts of 10 lines, four cutters, 300 mm/s²",
        against: "its least time".to_owned(),
        project: format!("{:.1} h", seconds / 3600.0),
        other: format!("{:.1} h", least.whole() / 3600.0),
        ratio: seconds / least.whole(),
        goal: "1.25",
    }
}
