//! How a line of blocks adds up.

use std::collections::BTreeMap;

use said::{Joint, Said, Value};
use serde::Serialize;

use super::{Block, Fount, UNDER_MM};
use crate::texts;
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
    pub(super) fn in_words(&self) -> Vec<Said> {
        let (count, nominal) = (self.sorts.len(), mm(self.nominal));
        let (by, uncertain) = (mm(self.off.abs()), mm(self.uncertainty));
        let mut lines = vec![if self.off > 0.0 {
            texts::line_long(count, nominal, by, uncertain)
        } else {
            texts::line_short(count, nominal, by, uncertain)
        }];
        if !self.loose.is_empty() {
            let loose = Value::list(&self.loose, Joint::Comma);
            lines.push(texts::line_not_held(mm(self.bodies_differ), loose));
        }
        if !self.again.is_empty() {
            let again = Value::list(&self.again, Joint::Comma);
            lines.push(texts::counted_again(again));
        }
        lines
    }
}
