//! What was found, as one list.

use egui::Ui;

use cam_core::finding::Finding;

use super::super::super::Desk;
use super::super::super::fields::{heading, remark};
use super::super::super::marks;
use super::super::super::words;
use crate::model::selection::Sought;

/// The most findings listed; the rest is counted.
const MOST: usize = 200;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    heading(ui, words::FINDINGS);
    if desk.selection.takes(&Sought::Findings) {
        ui.scroll_to_cursor(Some(egui::Align::TOP));
    }
    let findings = marks::all(desk);
    if findings.is_empty() {
        remark(ui, words::NO_FINDINGS);
        return;
    }
    let count = findings.len();
    // Gravest first: severity is what findings are ordered by.
    let listed: Vec<Finding> = findings.into_iter().rev().take(MOST).cloned().collect();
    for finding in &listed {
        marks::one(ui, desk, finding, true);
    }
    if count > MOST {
        let more = (count - MOST).to_string();
        remark(ui, words::MORE_FINDINGS.with(&[&more]));
    }
}
