//! Whether the text that was typed can be set from the bill, and what is short.

use egui::Ui;

use cam_core::bill::{Case, Need, Needed};

use super::super::super::super::Desk;
use super::super::super::super::fields::remark;
use super::super::super::super::theme::Palette;
use crate::view::words::order::check as words;

/// What is short is named so far; more is on the way to another fount.
const MOST_NAMED: usize = 24;

pub(super) fn show(ui: &mut Ui, desk: &Desk, text: &str, need: Need) {
    let commission = desk.document.commission();
    let Some(face) = desk.main_face() else {
        return;
    };
    if text.trim().is_empty() || commission.bill.is_empty() {
        return;
    }
    let checked = Case::of(commission, face).check(text, need);
    if !checked.can_be_set() {
        let short: Vec<&Needed> = checked.short().collect();
        let named = short.iter().take(MOST_NAMED);
        let named: Vec<String> = named
            .map(|one| format!("{} {}", one.what, one.short()))
            .collect();
        let more = short.len() - named.len();
        let mut named = named.join(", ");
        if more > 0 {
            named = words::AND_MORE.with(&[&named, &more.to_string()]);
        }
        let told = words::SHORT.with(&[&named]);
        ui.colored_label(Palette::of(ui).stop, told);
        return;
    }
    remark(
        ui,
        &match checked.times() {
            Some(times) if times > 1 => words::SETS_TIMES.with(&[&times.to_string()]),
            Some(_) | None => words::SETS.to_string(),
        },
    );
    if checked.short_of_spaces() > 0 {
        remark(
            ui,
            words::MORE_SPACES.with(&[&checked.short_of_spaces().to_string()]),
        );
    }
}
