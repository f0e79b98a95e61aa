//! What was found, as sentences.

use std::collections::BTreeSet;

use egui::{RichText, Ui};

use cam_core::finding::{Finding, Severity, Subject};

use super::super::super::Desk;
use super::super::super::fields::{heading, remark};
use super::super::super::theme::Palette;
use super::super::super::words;
use crate::model::selection::Room;

/// The most findings listed; the rest is counted.
const MOST: usize = 200;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    heading(ui, words::FINDINGS);
    let mut findings: BTreeSet<&Finding> = BTreeSet::new();
    findings.extend(desk.drawn.iter().flat_map(|drawn| &drawn.findings));
    findings.extend(desk.job.iter().flat_map(|job| &job.findings));
    if findings.is_empty() {
        remark(ui, words::NO_FINDINGS);
        return;
    }
    let mut chosen = None;
    // Gravest first: severity is what findings are ordered by.
    for finding in findings.iter().rev().take(MOST) {
        if one(ui, finding) {
            chosen = Some(finding.subject.clone());
        }
        ui.add_space(3.0);
    }
    if findings.len() > MOST {
        let more = (findings.len() - MOST).to_string();
        remark(ui, words::MORE_FINDINGS.with(&[&more]));
    }
    if let Some(Subject::Sort(name)) = chosen {
        desk.selection.sort = Some(name);
        desk.selection.room = Room::Cut;
    }
}

/// Shows a finding; `true` if its sort is to be shown.
fn one(ui: &mut Ui, finding: &Finding) -> bool {
    let palette = Palette::of(ui);
    let word = words::severity(finding.severity);
    let colour = match finding.severity {
        Severity::Stop => palette.stop,
        Severity::Warning => palette.warning,
        Severity::Note => palette.quiet,
    };
    let mut show = false;
    ui.horizontal(|ui| {
        ui.label(RichText::new(word).color(colour).strong().small());
        ui.label(
            RichText::new(words::subject(&finding.subject))
                .color(colour)
                .small(),
        );
        if matches!(finding.subject, Subject::Sort(_)) {
            show = ui.small_button(words::SHOW).clicked();
        }
    });
    ui.add(egui::Label::new(&finding.text).wrap());
    if !finding.remedy.is_empty() {
        ui.add(egui::Label::new(RichText::new(&finding.remedy).color(palette.quiet)).wrap());
    }
    show
}
