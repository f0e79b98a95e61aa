//! The machine time of what is made, against the least that it could take.

use testkit::machine_time::{self, Reckoned};

use crate::Row;

/// Clearing of the 65-sort plank's letters.
pub fn clearing() -> Row {
    let reckoned = machine_time::clearing(&machine_time::clearing_letters());
    Row {
        what: "machine time of clearing, 65 sorts of 24 lines, 6 mm cutter, 50 mm/s and 300 mm/s²",
        against: "least time by area and machine".to_owned(),
        project: format!("{:.0} s", reckoned.seconds()),
        other: format!("{:.0} s", reckoned.bound),
        ratio: reckoned.ratio(),
        goal: "1.15",
    }
}

/// The whole of a fount of 240 sorts with four cutters: clearing, finishing, links; without changes of cutter and the saw.
pub fn whole_job() -> Row {
    let reckoned = machine_time::whole_job();
    let Reckoned { least, bound, .. } = &reckoned;
    println!(
        "least time of the fount: clearing {:.0} s, finishing {:.0} s, forced links {:.0} s",
        least.clearing, least.finishing, least.forced
    );
    Row {
        what: "whole job, 240 sorts of 10 lines, four cutters, 300 mm/s²",
        against: "its least time".to_owned(),
        project: format!("{:.1} h", reckoned.seconds() / 3600.0),
        other: format!("{:.1} h", bound / 3600.0),
        ratio: reckoned.ratio(),
        goal: "1.25",
    }
}
