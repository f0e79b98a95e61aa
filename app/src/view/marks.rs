//! Findings as a proofreader marks them: a sign beside what they speak of, the sentence where that is shown large, and the way there.

use std::collections::{BTreeMap, BTreeSet};

use egui::{Painter, Pos2, RichText, Stroke, Ui, pos2, vec2};

use cam_core::finding::{Finding, Severity, Subject, gravest};
use cam_core::measure::Unit;

use super::Desk;
use super::fields::heading;
use super::theme::Palette;
use super::words::{self, measured};
use crate::model::remedy::{Ground, Remedy, Shoulder};
use crate::model::selection::{Room, Sought};

/// Half the size of a mark, px.
const MARK: f32 = 5.0;

/// All findings there are, of the sorts as they are drawn and of the job; the gravest come last.
pub(super) fn all<'a>(desk: &Desk<'a>) -> BTreeSet<&'a Finding> {
    let mut findings = BTreeSet::new();
    findings.extend(desk.drawn.into_iter().flat_map(|drawn| &drawn.findings));
    findings.extend(desk.job.into_iter().flat_map(|job| &job.findings));
    findings
}

/// The findings that speak of what `is_meant` says, the gravest first.
pub(super) fn about(desk: &Desk, is_meant: impl Fn(&Subject) -> bool) -> Vec<Finding> {
    let gravest_first = all(desk).into_iter().rev();
    gravest_first
        .filter(|finding| is_meant(&finding.subject))
        .cloned()
        .collect()
}

/// The findings of one sort.
pub(super) fn of_sort(desk: &Desk, name: &str) -> Vec<Finding> {
    about(
        desk,
        |subject| matches!(subject, Subject::Sort(of) if of == name),
    )
}

/// The gravest of each sort's findings, where the maker should look before cutting.
pub(super) fn grave_sorts<'a>(desk: &Desk<'a>) -> BTreeMap<&'a str, Severity> {
    let mut grave = BTreeMap::new();
    // In order of severity, so that the gravest of a sort comes last.
    for finding in all(desk) {
        if finding.severity > Severity::Note
            && let Some(name) = named(&finding.subject)
        {
            grave.insert(name, finding.severity);
        }
    }
    grave
}

/// The findings of a program.
pub(super) fn of_program(desk: &Desk, name: &str) -> Vec<Finding> {
    about(
        desk,
        |subject| matches!(subject, Subject::Program { file, .. } if file == name),
    )
}

/// Findings under a heading of their own, where what they speak of is shown; nothing if there are none.
pub(super) fn headed(ui: &mut Ui, desk: &mut Desk, findings: &[Finding]) {
    if !findings.is_empty() {
        heading(ui, words::OF_IT);
        for finding in findings {
            one(ui, desk, finding, false);
        }
    }
}

/// A finding with its mark, what is proposed, and what can be done at once; with the way to what it speaks of if that is elsewhere.
pub(super) fn one(ui: &mut Ui, desk: &mut Desk, finding: &Finding, leads: bool) {
    let palette = Palette::of(ui);
    let colour = colour(finding.severity, &palette);
    ui.horizontal_wrapped(|ui| {
        let (place, _) = ui.allocate_exact_size(vec2(2.4 * MARK, 18.0), egui::Sense::hover());
        mark(ui.painter(), place.center(), finding.severity, &palette);
        let word = words::severity(finding.severity);
        ui.label(RichText::new(word).color(colour).strong().small());
        if leads {
            let subject = words::subject(&finding.subject);
            ui.label(RichText::new(subject).color(colour).small());
            let show = ui.small_button(words::SHOW);
            if show.on_hover_text(words::SHOW_HINT).clicked() {
                lead(desk, finding);
            }
        }
    });
    ui.add(egui::Label::new(words::said(&finding.text)).wrap());
    if !finding.remedy.is_empty() {
        let proposed = RichText::new(words::said(&finding.remedy)).color(palette.quiet);
        ui.add(egui::Label::new(proposed).wrap());
    }
    remedy(ui, desk, finding);
    ui.add_space(3.0);
}

/// What can be done at once about a finding.
fn remedy(ui: &mut Ui, desk: &mut Desk, finding: &Finding) {
    let document = desk.document;
    let commission = document.commission();
    if let ("permission-not-recorded", Subject::Face(id)) = (finding.kind, &finding.subject)
        && desk.main_face() == Some(id.as_str())
    {
        let record = ui.small_button(words::DO_PERMISSION);
        if record.on_hover_text(words::SHOW_HINT).clicked() {
            desk.selection.room = Room::Order;
            desk.selection.sought = Some(Sought::Permission);
        }
        return;
    }
    let sort = desk.drawn.zip(named(&finding.subject));
    let sort = sort.and_then(|(drawn, name)| drawn.sorts.iter().find(|sort| sort.name == name));
    let job = desk.job.filter(|_| !desk.job_is_old);
    let ground = Ground {
        commission,
        workshop: document.workshop(),
        sort: sort.map(AsRef::as_ref),
        planks: job.map_or(&[], |job| job.planks.as_slice()),
    };
    let Some(remedy) = Remedy::of(finding, &ground) else {
        return;
    };
    let name = match &remedy {
        Remedy::Drop(_) => words::DO_DROP.into(),
        Remedy::Take(id) => words::DO_TAKE.with(&[id]),
        Remedy::Leave(id) => words::DO_LEAVE.with(&[id]),
        Remedy::Record(_) => words::DO_RECORD.into(),
        Remedy::Widen(shoulder, by) => {
            let by = measured(*by, Unit::Millimetre, commission.system);
            match shoulder {
                Shoulder::Head => words::DO_WIDEN_HEAD.with(&[&by]),
                Shoulder::Foot => words::DO_WIDEN_FOOT.with(&[&by]),
            }
        }
        Remedy::Unpin(_) => words::DO_UNPIN.into(),
    };
    let button = ui.add(egui::Button::new(RichText::new(name).small()).wrap());
    if button.on_hover_text(words::DO_HINT).clicked()
        && let Some(command) = remedy.command(commission, document.fonts())
    {
        desk.send(command);
    }
}

fn named(subject: &Subject) -> Option<&str> {
    match subject {
        Subject::Sort(name) => Some(name),
        Subject::Commission
        | Subject::Face(_)
        | Subject::Cutter(_)
        | Subject::Plank(_)
        | Subject::Program { .. } => None,
    }
}

/// Goes to what a finding speaks of.
fn lead(desk: &mut Desk, finding: &Finding) {
    let (room, sought) = match &finding.subject {
        Subject::Commission => (Room::Order, None),
        Subject::Face(id) => {
            let is_main = desk.main_face() == Some(id.as_str());
            (Room::Order, is_main.then_some(Sought::Permission))
        }
        Subject::Sort(name) => {
            desk.selection.sort = Some(name.clone());
            let is_drawn = |desk: &Desk| {
                let mut sorts = desk.drawn.into_iter().flat_map(|drawn| &drawn.sorts);
                sorts.any(|sort| sort.name == *name)
            };
            // What could not be drawn is nowhere but in the case.
            let room = if is_drawn(desk) {
                Room::Cut
            } else {
                Room::Case
            };
            (room, None)
        }
        Subject::Cutter(id) => (Room::Workshop, Some(Sought::Cutter(id.clone()))),
        Subject::Plank(_) => (Room::Plank, None),
        Subject::Program { file, line } => {
            let (file, line) = (file.clone(), *line);
            (Room::Run, Some(Sought::Program { file, line }))
        }
    };
    desk.selection.room = room;
    desk.selection.sought = sought;
}

fn colour(severity: Severity, palette: &Palette) -> egui::Color32 {
    match severity {
        Severity::Stop => palette.stop,
        Severity::Warning => palette.warning,
        Severity::Note => palette.quiet,
    }
}

/// A mark of the gravest of some findings; nothing if there are none.
pub(super) fn gravest_of(painter: &Painter, at: Pos2, findings: &[Finding], palette: &Palette) {
    if let Some(severity) = gravest(findings) {
        mark(painter, at, severity, palette);
    }
}

/// The sign itself, told by its shape as well as by its colour: a stroke with a loop, as for what is to be taken out; a caret; a short dash.
pub(super) fn mark(painter: &Painter, at: Pos2, severity: Severity, palette: &Palette) {
    let stroke = Stroke::new(1.6, colour(severity, palette));
    match severity {
        Severity::Stop => {
            painter.circle_stroke(at + vec2(0.3, 0.3) * MARK, 0.5 * MARK, stroke);
            let (from, to) = (vec2(-1.0, 1.0) * MARK, vec2(1.0, -1.0) * MARK);
            painter.line_segment([at + from, at + to], stroke);
        }
        Severity::Warning => {
            let top = pos2(at.x, at.y - 0.8 * MARK);
            for side in [-0.8, 0.8] {
                let foot = at + vec2(side, 0.8) * MARK;
                painter.line_segment([top, foot], stroke);
            }
        }
        Severity::Note => {
            let half = vec2(0.6 * MARK, 0.0);
            painter.line_segment([at - half, at + half], stroke);
        }
    }
}
