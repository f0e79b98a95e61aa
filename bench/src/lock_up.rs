//! The lock-up check: measured blocks against what they should be, before the parcel leaves.
//!
//! ```text
//! bench lockup
//! body 42.175          # of every sort that says no other
//! height 23.317
//! caliper 0.02
//! sort A 30.93         # its nominal set; then body, set and height as measured, block by block
//! 42.16 30.92 23.31
//! 42.17 30.94 23.33
//! sort space 10.54
//! 42.15 10.53
//! line A space A       # a line of them, as it will be set
//! ```

mod file;
mod line;
#[cfg(test)]
mod tests;

use said::Said;
use serde::Serialize;

use crate::texts;
use crate::words::mm;
pub use file::{Fount, Sort, read};
pub use line::{Line, LineJudged};

/// How far body and set may be under their nominal size, mm; over it they may not be at all, beyond what the caliper may be off.
///
/// # Source
/// Within 0.05 mm of nominal, and never over it in the body: common practice, no source.
pub const UNDER_MM: f64 = 0.05;

/// How far heights may be off, mm.
///
/// # Source
/// 0.001 to 0.002 inch over one fount: common practice, no source.
pub const HEIGHT_MM: f64 = 0.05;

/// How far a caliper in the workshop may be off, mm: common practice, no source.
pub const CALIPER_MM: f64 = 0.02;

/// A block: body, set and height, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Block {
    /// From foot to head.
    pub body: f64,
    /// Across.
    pub set: f64,
    /// From bed to face; `None` where it was not measured, as of spaces.
    pub height: Option<f64>,
}

/// Something about one block.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "what", content = "mm")]
pub enum Trouble {
    /// The body is over: it binds, and what stands beside it is not held.
    BodyBinds(f64),
    /// The body is under: it may drop when the forme is lifted.
    BodyDrops(f64),
    /// The set is over: its line will be long.
    SetLong(f64),
    /// The set is under: its line will be short.
    SetShort(f64),
    /// It stands high: it prints heavy and punches.
    High(f64),
    /// It stands low: it prints weak.
    Low(f64),
}

/// What is wrong with one block, if anything. `caliper` is how far the measuring tool may be off, mm.
///
/// # Source
/// Never over, and a little under, with the tool's error on the block's side: common practice, no source.
pub fn troubles(measured: Block, nominal: Block, caliper: f64) -> Vec<Trouble> {
    let mut found = Vec::new();
    let body = measured.body - nominal.body;
    if body > caliper {
        found.push(Trouble::BodyBinds(body));
    } else if -body > UNDER_MM + caliper {
        found.push(Trouble::BodyDrops(-body));
    }
    let set = measured.set - nominal.set;
    if set > caliper {
        found.push(Trouble::SetLong(set));
    } else if -set > UNDER_MM + caliper {
        found.push(Trouble::SetShort(-set));
    }
    if let (Some(measured), Some(nominal)) = (measured.height, nominal.height) {
        let height = measured - nominal;
        if height > HEIGHT_MM + caliper {
            found.push(Trouble::High(height));
        } else if -height > HEIGHT_MM + caliper {
            found.push(Trouble::Low(-height));
        }
    }
    found
}

/// A block with something wrong.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Faulty {
    /// The sort.
    pub sort: String,
    /// Which of its blocks, from 1.
    pub number: usize,
    /// What is wrong.
    pub troubles: Vec<Trouble>,
}

/// What a notebook of a fount comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// How many blocks were measured.
    pub blocks: usize,
    /// The blocks with something wrong.
    pub faulty: Vec<Faulty>,
    /// The lines.
    pub lines: Vec<LineJudged>,
    /// The difference between the highest and the lowest block, mm.
    pub heights_differ: Option<f64>,
}

/// Judges a notebook.
pub fn judge(fount: &Fount) -> Judged {
    let mut faulty = Vec::new();
    for sort in &fount.sorts {
        for (number, &measured) in (1..).zip(&sort.measured) {
            let troubles = troubles(measured, sort.nominal, fount.caliper);
            if !troubles.is_empty() {
                faulty.push(Faulty {
                    sort: sort.name.clone(),
                    number,
                    troubles,
                });
            }
        }
    }
    let heights = || {
        fount
            .sorts
            .iter()
            .flat_map(|sort| &sort.measured)
            .filter_map(|block| block.height)
    };
    let highest = heights().fold(f64::NEG_INFINITY, f64::max);
    let lowest = heights().fold(f64::INFINITY, f64::min);
    Judged {
        blocks: fount.sorts.iter().map(|sort| sort.measured.len()).sum(),
        faulty,
        lines: line::judge(fount),
        heights_differ: (highest >= lowest).then_some(highest - lowest),
    }
}

impl Trouble {
    /// What is wrong and what to do, in a sentence.
    pub fn in_words(self) -> Said {
        match self {
            Trouble::BodyBinds(by) => texts::body_binds(mm(by)),
            Trouble::BodyDrops(by) => texts::body_drops(mm(by)),
            Trouble::SetLong(by) => texts::set_long(mm(by)),
            Trouble::SetShort(by) => texts::set_short(mm(by)),
            Trouble::High(by) => texts::stands_high(mm(by)),
            Trouble::Low(by) => texts::stands_low(mm(by)),
        }
    }
}

impl Judged {
    /// The outcome in lines: the verdict first.
    pub fn in_words(&self) -> Vec<Said> {
        let mut lines = vec![match (self.faulty.len(), self.blocks) {
            (0, 1) => texts::one_block_locks_up(),
            (0, all) => texts::all_lock_up(all),
            (count, 1) => texts::one_block_fails(count),
            (count, all) => texts::some_fail(count, all),
        }];
        for Faulty {
            sort,
            number,
            troubles,
        } in &self.faulty
        {
            let said = troubles.iter().map(|trouble| trouble.in_words());
            lines.extend(said.map(|why| texts::block_fails(sort, *number, why)));
        }
        lines.extend(self.lines.iter().flat_map(LineJudged::in_words));
        lines.extend(
            self.heights_differ
                .map(|differ| texts::heights_differ(mm(differ))),
        );
        lines
    }
}
