//! Work by hand.

use crate::quote::Made;
use crate::workshop::Rates;

/// A kind of work by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct HandWork {
    /// What it is, in a few words.
    pub what: &'static str,
    /// Of how many what: "12 corners".
    pub of: String,
    /// Minutes in all.
    pub minutes: f64,
    /// What it is in proportion to.
    pub(super) by: By,
}

/// What a kind of work is in proportion to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum By {
    Corners,
    Ground,
    /// The wood of the planks: each block by its area.
    Area,
    Blocks,
}

const MM2_PER_CM2: f64 = 100.0;

/// Minutes that a copy of a sort keeps the knife busy: its corners, and the ground that no cutter reaches.
pub(super) fn knife_minutes(made: &Made<'_>, sort: usize, rates: &Rates) -> [f64; 2] {
    made.surveys.get(sort).map_or([0.0; 2], |survey| {
        [
            survey.corners.len() as f64 * rates.corner_minutes,
            survey.unreached_mm2 / MM2_PER_CM2 * rates.ground_minutes_per_cm2,
        ]
    })
}

/// All kinds of work, those that take no time left out.
pub(super) fn by_hand(made: &Made<'_>, rates: &Rates) -> Vec<HandWork> {
    let planks = made.planks.len();
    let mut blocks: u32 = 0;
    let (mut corners, mut corner_minutes, mut ground_mm2, mut ground_minutes) = (0, 0.0, 0.0, 0.0);
    for (number, sort) in made.sorts.iter().enumerate() {
        let copies = f64::from(sort.count);
        blocks += sort.count;
        let [of_corners, of_ground] = knife_minutes(made, number, rates);
        corner_minutes += of_corners * copies;
        ground_minutes += of_ground * copies;
        if let Some(survey) = made.surveys.get(number) {
            corners += survey.corners.len() * sort.count as usize;
            ground_mm2 += survey.unreached_mm2 * copies;
        }
    }
    let of_planks = |what, minutes: f64| HandWork {
        what,
        of: counted(planks, "plank"),
        minutes: minutes * planks as f64,
        by: By::Area,
    };
    let of_blocks = |what, minutes: f64| HandWork {
        what,
        of: counted(blocks as usize, "block"),
        minutes,
        by: By::Blocks,
    };
    let mut works = vec![
        of_planks(
            "fixing planks and setting zero",
            rates.fixing_minutes_per_plank,
        ),
        of_planks("sanding to height", rates.sanding_minutes_per_plank),
        of_planks("sealing", rates.sealing_minutes_per_plank),
        of_blocks(
            "parting blocks and easing edges",
            rates.parting_minutes_per_block * f64::from(blocks),
        ),
        HandWork {
            what: "corners with the knife",
            of: counted(corners, "corner"),
            minutes: corner_minutes,
            by: By::Corners,
        },
        HandWork {
            what: "ground that no cutter reaches",
            of: format!("{:.1} mm²", ground_mm2),
            minutes: ground_minutes,
            by: By::Ground,
        },
        of_blocks(
            "packing",
            rates.packing_minutes + rates.packing_minutes_per_block * f64::from(blocks),
        ),
    ];
    works.retain(|work| work.minutes > 0.0);
    works
}

fn counted(count: usize, one: &str) -> String {
    let end = if count == 1 { "" } else { "s" };
    format!("{count} {one}{end}")
}
