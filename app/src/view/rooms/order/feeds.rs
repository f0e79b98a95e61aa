//! Feeds and speeds of the cutters in use: what the workshop sets, what is proposed, and why.

use egui::{RichText, Ui};

use cam_core::feeds::{Proposed, propose, troubles, wall_moves_mm, working};
use cam_core::workshop::{Cutter, Wood};

use super::super::super::Desk;
use super::super::super::fields::remark;
use super::super::super::theme::Palette;
use crate::view::words::{Text, figure, order::feeds as words, said};

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = desk.document.commission();
    let workshop = desk.document.workshop();
    let Some(wood) = workshop.wood(&commission.wood) else {
        return;
    };
    let used: Vec<&Cutter> = commission
        .cutting
        .cutters
        .iter()
        .filter_map(|id| workshop.cutter(id))
        .collect();
    if used.is_empty() {
        return;
    }
    ui.collapsing(words::FEEDS, |ui| {
        remark(ui, words::HINT);
        for cutter in used {
            of_cutter(ui, desk, cutter, wood);
        }
    });
}

fn of_cutter(ui: &mut Ui, desk: &Desk, cutter: &Cutter, wood: &Wood) {
    let palette = Palette::of(ui);
    let allowance_mm = desk.document.commission().cutting.allowance.in_mm();
    let proposal = propose(
        cutter,
        wood,
        &desk.document.workshop().machine,
        allowance_mm,
    );
    ui.add_space(4.0);
    ui.label(RichText::new(&cutter.id).strong());
    egui::Grid::new(("feeds", &cutter.id))
        .num_columns(3)
        .striped(true)
        .show(ui, |ui| {
            for title in ["", &words::IN_USE, &words::PROPOSED] {
                ui.label(RichText::new(title).small().color(palette.quiet));
            }
            ui.end_row();
            let mut row = |name: Text, set: f64, proposed: &Proposed, decimals: usize| {
                ui.label(name);
                ui.label(figure(set, decimals));
                ui.label(figure(proposed.value, decimals))
                    .on_hover_text(&proposed.reason);
                ui.end_row();
            };
            row(words::SPINDLE, cutter.spindle_rpm, &proposal.spindle_rpm, 0);
            row(words::FEED, cutter.feed_mm_min, &proposal.feed_mm_min, 0);
            row(
                words::PLUNGE,
                cutter.plunge_mm_min,
                &proposal.plunge_mm_min,
                0,
            );
            row(
                words::LAYER,
                cutter.step_down.in_mm(),
                &proposal.step_down_mm,
                2,
            );
            row(
                words::WIDTH,
                cutter.step_over.in_mm(),
                &proposal.step_over_mm,
                2,
            );
        });
    let relief_mm = desk.document.commission().cutting.relief.in_mm();
    let moves = wall_moves_mm(cutter, wood, allowance_mm, relief_mm);
    let bends = working(cutter, wood).deflection_mm;
    remark(
        ui,
        words::MOVES.with(&[&figure(bends, 3), &figure(moves, 3)]),
    );
    for trouble in troubles(cutter, wood, allowance_mm) {
        let (text, remedy) = (said(&trouble.text), said(&trouble.remedy));
        ui.colored_label(palette.warning, format!("{text} {remedy}"));
    }
}
