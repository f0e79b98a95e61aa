//! How a line of blocks adds up.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{Block, Fount, UNDER_MM};
use crate::words::mm;

/// A line as it will be set: sorts by name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// Its line in the notebook, from 1.
    pub noted: usize,
    /// The sorts in order.
    pub sorts: Vec<String>,
}

/// How a line adds up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LineJudged {
    /// The sorts in order.
    pub sorts: Vec<String>,
    /// The sum of the nominal sets, mm.
    pub nominal: f64,
    /// The sum of the sets measured less that of the nominal ones, mm.
    pub off: f64,
    /// How far that may be off by the caliper, mm: its part of every block, adding as chance does (JCGM 100:2008, 5.1.2, from memory).
    pub uncertainty: f64,
    /// The difference between the largest and the smallest body, mm.
    pub bodies_differ: f64,
    /// Blocks so much smaller in the body than the largest that the line's furniture does not hold them.
    pub loose: Vec<String>,
    /// Sorts that were named more often than measured; their first blocks were counted again.
    pub again: Vec<String>,
}

/// Judges the lines of a fount; without any, all blocks side by side.
pub(super) fn judge(fount: &Fount) -> Vec<LineJudged> {
    let whole;
    let lines = if fount.lines.is_empty() {
        whole = [Line {
            noted: 0,
            sorts: fount
                .sorts
                .iter()
                .flat_map(|sort| std::iter::repeat_n(sort.name.clone(), sort.measured.len()))
                .collect(),
        }];
        whole.as_slice()
    } else {
        &fount.lines
    };
    lines.iter().map(|line| judge_one(fount, line)).collect()
}

fn judge_one(fount: &Fount, line: &Line) -> LineJudged {
    let mut used: BTreeMap<&str, usize> = BTreeMap::new();
    let mut again = Vec::new();
    let mut blocks: Vec<(&str, Block, Block)> = Vec::new();
    for name in &line.sorts {
        let Some(sort) = fount.sorts.iter().find(|sort| sort.name == *name) else {
            continue;
        };
        let count = used.entry(name).or_default();
        if *count == sort.measured.len() && !again.contains(name) {
            again.push(name.clone());
        }
        let Some(&measured) = sort.measured.get(*count % sort.measured.len().max(1)) else {
            continue;
        };
        *count += 1;
        blocks.push((name, measured, sort.nominal));
    }
    // Bodies are held against their own nominal size, for a line may hold sorts on larger bodies made up with furniture.
    let over = |(_, measured, nominal): &(&str, Block, Block)| measured.body - nominal.body;
    let largest = blocks.iter().map(over).fold(f64::NEG_INFINITY, f64::max);
    let smallest = blocks.iter().map(over).fold(f64::INFINITY, f64::min);
    let mut loose: Vec<String> = blocks
        .iter()
        .filter(|block| largest - over(block) > UNDER_MM + fount.caliper)
        .map(|(name, ..)| (*name).to_owned())
        .collect();
    loose.dedup();
    LineJudged {
        sorts: line.sorts.clone(),
        nominal: blocks.iter().map(|(_, _, nominal)| nominal.set).sum(),
        off: blocks
            .iter()
            .map(|(_, measured, nominal)| measured.set - nominal.set)
            .sum(),
        uncertainty: fount.caliper * (blocks.len() as f64).sqrt(),
        bodies_differ: (largest - smallest).max(0.0),
        loose,
        again,
    }
}

impl LineJudged {
    /// The outcome in lines.
    pub(super) fn in_words(&self) -> Vec<String> {
        let side = if self.off > 0.0 { "long" } else { "short" };
        let mut lines = vec![format!(
            "A line of {} blocks, {} nominal, comes out {} {side}, give or take {}.",
            self.sorts.len(),
            mm(self.nominal),
            mm(self.off.abs()),
            mm(self.uncertainty)
        )];
        if !self.loose.is_empty() {
            lines.push(format!(
                "In it, bodies differ by {}; not held by the furniture: {}.",
                mm(self.bodies_differ),
                self.loose.join(", ")
            ));
        }
        if !self.again.is_empty() {
            lines.push(format!(
                "Measured fewer times than set, and so counted again: {}.",
                self.again.join(", ")
            ));
        }
        lines
    }
}
