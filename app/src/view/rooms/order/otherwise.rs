//! What if: the order priced as it would be with another size, bill, tolerance, wood or set of cutters.

use cam_core::bill::Scheme;
use cam_core::measure::{System, Unit};
use cam_core::quote::{Change, Quote};
use egui::{Grid, RichText, TextEdit, Ui};

use super::super::super::Desk;
use super::super::super::fields::{choice, remark, row};
use super::super::super::theme::Palette;
use crate::background::otherwise::Otherwise;
use crate::background::tasks::duration_in_words;
use crate::model::command::Command;
use crate::model::typed::{read_length, read_lines};
use crate::view::words::{Text, figure, measured, order::otherwise as words, short_figure};

/// What this view keeps for itself.
#[derive(Default)]
pub(super) struct State {
    size: String,
    bill: String,
    tolerance: String,
    wood: Option<String>,
    cutters: Option<Vec<String>>,
    error: Option<String>,
    asked: Vec<Vec<Change>>,
}

impl State {
    /// What is filled in.
    fn changes(&self, system: System) -> Result<Vec<Change>, String> {
        let mut changes = Vec::new();
        if !self.size.trim().is_empty() {
            changes.push(Change::Lines(read_lines(&self.size, system)?));
        }
        if !self.bill.trim().is_empty() {
            let scheme: Scheme = self
                .bill
                .parse()
                .map_err(|error| format!("{}: {error}", words::BILL))?;
            changes.push(Change::Bill(scheme));
        }
        if !self.tolerance.trim().is_empty() {
            let tolerance = read_length(&self.tolerance, Unit::Millimetre, system)?;
            changes.push(Change::Tolerance(tolerance));
        }
        changes.extend(self.wood.clone().map(Change::Wood));
        changes.extend(self.cutters.clone().map(Change::Cutters));
        if changes.is_empty() {
            return Err(words::NOTHING.to_string());
        }
        Ok(changes)
    }
}

pub(super) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    egui::CollapsingHeader::new(words::IF).show(ui, |ui| {
        if desk.quote.is_none() && desk.otherwise.result().is_none() {
            remark(ui, words::NO_PRICE);
            return;
        }
        remark(ui, words::WHAT);
        form(ui, desk, state);
        ask(ui, desk, state);
        table(ui, desk, state);
    });
}

fn form(ui: &mut Ui, desk: &Desk, state: &mut State) {
    let text = |ui: &mut Ui, label: Text, text: &mut String, hint: String| {
        row(ui, label, |ui, label_id| {
            let field = TextEdit::singleline(text).desired_width(104.0);
            ui.add(field.hint_text(hint)).labelled_by(label_id)
        });
    };
    let commission = desk.document.commission();
    let lines = words::LINES.with(&[&short_figure(commission.lines)]);
    text(ui, words::SIZE, &mut state.size, lines);
    text(
        ui,
        words::BILL,
        &mut state.bill,
        words::BILL_HINT.to_string(),
    );
    let system = commission.system;
    let tolerance = measured(commission.cutting.tolerance, Unit::Millimetre, system);
    text(ui, words::TOLERANCE, &mut state.tolerance, tolerance);
    let workshop = desk.document.workshop();
    let mut woods = vec![(None, words::AS_ORDERED.to_string())];
    let others = workshop
        .woods
        .iter()
        .filter(|wood| wood.id != commission.wood);
    woods.extend(others.map(|wood| (Some(wood.id.clone()), wood.name.clone())));
    if let Some(wood) = choice(ui, words::WOOD, &state.wood, &woods) {
        state.wood = wood;
    }
    let offered = sets(desk);
    if let Some(cutters) = choice(ui, words::CUTTERS, &state.cutters, &offered) {
        state.cutters = cutters;
    }
}

/// Sets of cutters that are one more or one less than those in use.
fn sets(desk: &Desk) -> Vec<(Option<Vec<String>>, String)> {
    let used = &desk.document.commission().cutting.cutters;
    let mut offered = vec![(None, words::AS_ORDERED.to_string())];
    if used.len() > 1 {
        for less in used {
            let left = used.iter().filter(|id| *id != less).cloned().collect();
            offered.push((Some(left), words::WITHOUT.with(&[less])));
        }
    }
    let owned = desk.document.workshop().cutters.iter();
    for more in owned.filter(|cutter| !used.contains(&cutter.id)) {
        let with = used.iter().cloned().chain([more.id.clone()]).collect();
        offered.push((Some(with), words::WITH.with(&[&more.id])));
    }
    offered
}

fn ask(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    if let Some(worker) = desk.otherwise.running() {
        let (step, done, total) = worker.state();
        ui.horizontal(|ui| {
            ui.label(RichText::new(format!("{step} {done}/{total}")).small());
            desk.wishes.no_otherwise = ui.small_button(words::STOP).clicked();
        });
        return;
    }
    let ready = desk.quote.is_some() && !desk.job_is_old;
    let button = egui::Button::new(words::PRICE);
    if ui.add_enabled(ready, button).clicked() {
        match state.changes(desk.document.commission().system) {
            Ok(changes) => {
                state.error = None;
                if !state.asked.contains(&changes) {
                    state.asked.push(changes);
                }
                desk.wishes.otherwise = Some(state.asked.clone());
            }
            Err(sentence) => state.error = Some(sentence),
        }
    }
    if let Some(error) = &state.error {
        ui.colored_label(Palette::of(ui).stop, error);
    }
    let is_old = desk.otherwise.made_from() != Some(desk.document.revision());
    if desk.otherwise.result().is_some() && is_old {
        remark(ui, words::OLD);
        let button = egui::Button::new(words::AGAIN);
        if !state.asked.is_empty() && ui.add_enabled(ready, button).clicked() {
            desk.wishes.otherwise = Some(state.asked.clone());
        }
    }
    if let Some(broken) = desk.otherwise.broken() {
        ui.colored_label(Palette::of(ui).stop, broken.to_string());
    }
}

fn table(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let Some(rows) = desk.otherwise.result() else {
        return;
    };
    let rows: Vec<Otherwise> = rows.clone();
    let quote = desk.quote.cloned();
    let mut taken = None;
    Grid::new("otherwise").striped(true).show(ui, |ui| {
        let currency = quote.as_ref().map_or("", |quote| quote.currency.as_str());
        for title in [
            "",
            currency,
            &words::MACHINE,
            &words::HAND,
            &words::PLANKS,
            &words::BLOCKS,
            "",
        ] {
            ui.label(RichText::new(title).small().color(Palette::of(ui).quiet));
        }
        ui.end_row();
        if let Some(quote) = &quote {
            ui.label(words::AS_ORDERED);
            figures(ui, quote);
            ui.end_row();
        }
        for one in &rows {
            let what = in_words(&one.changes);
            ui.label(&what);
            match &one.priced {
                Ok(priced) => {
                    figures(ui, priced);
                    let take = ui.small_button(words::TAKE);
                    let label = format!("{}: {what}", words::TAKE_HINT);
                    if take.on_hover_text(label).clicked() {
                        taken = Some(one.changes.clone());
                    }
                }
                Err(sentence) => {
                    ui.colored_label(Palette::of(ui).stop, sentence);
                }
            }
            ui.end_row();
        }
    });
    if let Some(changes) = taken {
        state.asked.retain(|asked| *asked != changes);
        desk.send(Command::Otherwise(changes));
    }
}

fn figures(ui: &mut Ui, quote: &Quote) {
    let minutes = |minutes: f64| duration_in_words(minutes * 60.0);
    ui.label(RichText::new(figure(quote.price, 2)).strong());
    ui.label(minutes(quote.machine_minutes + quote.change_minutes));
    ui.label(minutes(quote.hand_minutes() + quote.change_minutes));
    ui.label(quote.planks.to_string());
    ui.label(quote.blocks.to_string());
}

/// What is changed, in a few words.
fn in_words(changes: &[Change]) -> String {
    let words: Vec<String> = changes
        .iter()
        .map(|change| match change {
            Change::Lines(lines) => words::LINES.with(&[&short_figure(*lines)]),
            Change::Bill(scheme) => scheme_in_words(*scheme),
            Change::Cutters(ids) => ids.join(" "),
            Change::Tolerance(tolerance) => {
                words::WITHIN.with(&[&measured(*tolerance, Unit::Millimetre, System::Pica)])
            }
            Change::Wood(wood) => wood.clone(),
        })
        .collect();
    words.join(", ")
}

fn scheme_in_words(scheme: Scheme) -> String {
    let parts = [
        (scheme.capitals, "A"),
        (scheme.lower_case, "a"),
        (scheme.figures, words::FIGURES.said()),
        (scheme.points, words::STOPS.said()),
        (scheme.ligatures, words::LIGATURES.said()),
    ];
    let parts: Vec<String> = parts
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, what)| {
            if what.len() == 1 {
                format!("{count}{what}")
            } else {
                words::PART_FOR.with(&[what, &count.to_string()])
            }
        })
        .collect();
    parts.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_filled_in_becomes_changes() {
        let mut state = State::default();
        assert!(state.changes(System::Pica).is_err());
        state.size = "2 picas".to_owned();
        state.bill = "4A 8a".to_owned();
        state.tolerance = "0.02".to_owned();
        state.cutters = Some(vec!["flat-6".to_owned(), "flat-3".to_owned()]);
        let changes = state.changes(System::Pica).unwrap();
        assert_eq!(
            in_words(&changes),
            "2 lines, 4A 8a figures for 4 points for 4, within 0.02 mm, flat-6 flat-3"
        );
        state.bill = "many".to_owned();
        assert!(state.changes(System::Pica).is_err());
    }
}
