//! The workshop: machines, cutters, woods, planks in stock, tables, rates and how papers look.

pub(super) mod clamps;
mod cutter;
mod cutter_picture;
mod machine;
mod papers;
mod plank;
mod plank_picture;
mod rates;
mod table;
mod wood;

use std::sync::Arc;

use cam_core::bill::OwnTable;
use cam_core::finding::Subject;
use cam_core::workshop::{Machine, StockPlank, Wood, Workshop};
use egui::{RichText, ScrollArea, Ui};

use super::super::Desk;
use super::super::fields::{heading, remark};
use super::super::marks;
use super::super::theme::{self, Palette};
use crate::model::command::Command;
use crate::model::selection::Sought;
use crate::model::shop::{Named, Renamed, ShopChange};
use crate::view::words::{Text, workshop::list as words};

/// Width of the list, px.
const LIST_WIDTH: f32 = 268.0;
/// Width of the form, px.
const FORM_WIDTH: f32 = 380.0;

/// What of the workshop is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shown {
    Machine(usize),
    Cutter(usize),
    Wood(usize),
    Plank(usize),
    Table(usize),
    Rates,
    Papers,
}

/// What this room keeps for itself.
pub(in crate::view) struct State {
    shown: Shown,
    plank: plank_picture::State,
}

impl Default for State {
    fn default() -> State {
        State {
            shown: Shown::Machine(0),
            plank: plank_picture::State::default(),
        }
    }
}

/// The workshop as the forms change it.
struct Bench {
    workshop: Workshop,
    what: &'static str,
    renamed: Option<Renamed>,
}

impl Bench {
    /// Gives something another short word, if none of its kind has it.
    fn rename(&mut self, what: Named, from: &str, to: String) {
        self.renamed = Some(Renamed {
            what,
            from: from.to_owned(),
            to,
        });
    }
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let before = Arc::clone(desk.document.workshop());
    let mut bench = Bench {
        workshop: before.as_ref().clone(),
        what: "the workshop",
        renamed: None,
    };
    egui::Panel::left("what the workshop has")
        .exact_size(LIST_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| list(ui, desk, state, &mut bench));
        });
    if let Some(Sought::Cutter(id)) = &desk.selection.sought {
        let place = bench.workshop.cutters.iter().position(|one| one.id == *id);
        state.shown = place.map_or(state.shown, Shown::Cutter);
        desk.selection.sought = None;
    }
    state.shown = kept(state.shown, &bench.workshop);
    form(ui, desk, state, &mut bench);
    if bench.workshop != *before {
        let change = ShopChange {
            what: bench.what,
            workshop: bench.workshop,
            renamed: bench.renamed,
        };
        desk.send(Command::Workshop(Box::new(change)));
    }
}

/// What is shown, or the last of its kind where that is gone.
fn kept(shown: Shown, workshop: &Workshop) -> Shown {
    let last = |place: usize, many: usize| place.min(many.saturating_sub(1));
    match shown {
        Shown::Machine(place) => Shown::Machine(last(place, 1 + workshop.more_machines.len())),
        Shown::Cutter(place) => Shown::Cutter(last(place, workshop.cutters.len())),
        Shown::Wood(place) => Shown::Wood(last(place, workshop.woods.len())),
        Shown::Plank(place) => Shown::Plank(last(place, workshop.stock.len())),
        Shown::Table(place) => Shown::Table(last(place, workshop.tables.len())),
        Shown::Rates => Shown::Rates,
        Shown::Papers => Shown::Papers,
    }
}

fn list(ui: &mut Ui, desk: &mut Desk, state: &mut State, bench: &mut Bench) {
    let workshop = bench.workshop.clone();
    let mut add = None;
    let entry = |ui: &mut Ui, state: &mut State, shown: Shown, name: &str| {
        let name = if name.trim().is_empty() {
            words::UNNAMED.said()
        } else {
            name
        };
        if ui.selectable_label(state.shown == shown, name).clicked() {
            state.shown = shown;
        }
    };
    heading(ui, words::MACHINES);
    for (place, machine) in workshop.machines().enumerate() {
        entry(ui, state, Shown::Machine(place), &machine.name);
    }
    adding(ui, &mut add, words::NEW_MACHINE);
    heading(ui, words::CUTTERS);
    for (place, cutter) in workshop.cutters.iter().enumerate() {
        entry(ui, state, Shown::Cutter(place), &cutter.id);
    }
    ui.horizontal_wrapped(|ui| {
        for word in [words::NEW_FLAT, words::NEW_BALL, words::NEW_CONE] {
            adding(ui, &mut add, word);
        }
    });
    heading(ui, words::WOODS);
    for (place, wood) in workshop.woods.iter().enumerate() {
        entry(ui, state, Shown::Wood(place), &wood.name);
    }
    adding(ui, &mut add, words::NEW_WOOD);
    heading(ui, words::STOCK);
    if workshop.stock.is_empty() {
        remark(ui, words::NO_STOCK);
    }
    for (place, plank) in workshop.stock.iter().enumerate() {
        let many = if plank.count == 1 {
            String::new()
        } else {
            format!("  {}×", plank.count)
        };
        let name = format!("{}{many}", plank.id);
        entry(ui, state, Shown::Plank(place), &name);
    }
    adding(ui, &mut add, words::NEW_PLANK);
    heading(ui, words::TABLES);
    if workshop.tables.is_empty() {
        remark(ui, words::NO_TABLES);
    }
    for (place, table) in workshop.tables.iter().enumerate() {
        entry(ui, state, Shown::Table(place), &table.name);
    }
    adding(ui, &mut add, words::NEW_TABLE);
    ui.add_space(8.0);
    entry(ui, state, Shown::Rates, &words::RATES);
    entry(ui, state, Shown::Papers, &words::PAPERS);
    if let Some(word) = add {
        state.shown = added(word, desk, bench);
    }
    ui.add_space(10.0);
    remark(ui, words::SAVED);
    ui.horizontal_wrapped(|ui| {
        let open = ui.button(words::OPEN).on_hover_text(words::OPEN_HINT);
        desk.wishes.open_workshop |= open.clicked();
        let save = ui.button(words::SAVE).on_hover_text(words::SAVE_HINT);
        desk.wishes.save_workshop |= save.clicked();
    });
}

fn adding(ui: &mut Ui, add: &mut Option<Text>, word: Text) {
    let text = RichText::new(word).small().color(Palette::of(ui).accent);
    if ui.add(egui::Button::new(text).frame(false)).clicked() {
        *add = Some(word);
    }
}

/// Adds a starting entry; what is to be shown then.
fn added(word: Text, desk: &Desk, bench: &mut Bench) -> Shown {
    let workshop = &mut bench.workshop;
    match word {
        words::NEW_MACHINE => {
            bench.what = "a machine";
            workshop.more_machines.push(Machine::starting());
            Shown::Machine(workshop.more_machines.len())
        }
        words::NEW_WOOD => {
            bench.what = "a wood";
            let id = free_word("wood", |id| workshop.wood(id).is_some());
            workshop.woods.push(Wood {
                id,
                name: words::NEW_NAME.to_string(),
                end_grain: true,
                density_kg_m3: Wood::USUAL_DENSITY_KG_M3,
                hardness_n: Wood::USUAL_HARDNESS_N,
                chip_load_factor: 1.0,
                cutting_force_n_mm2: Wood::usual_cutting_force(Wood::USUAL_DENSITY_KG_M3),
                price_per_dm3: Wood::USUAL_PRICE_PER_DM3,
            });
            Shown::Wood(workshop.woods.len() - 1)
        }
        words::NEW_PLANK => {
            bench.what = "a plank";
            let id = free_word("plank", |id| workshop.stock.iter().any(|one| one.id == id));
            let commission = desk.document.commission();
            let (width, length) = (commission.planks.width, commission.planks.length);
            let plank = StockPlank::plain(&id, &commission.wood, width, length);
            workshop.stock.push(plank);
            Shown::Plank(workshop.stock.len() - 1)
        }
        words::NEW_TABLE => {
            bench.what = "a table";
            let is_used = |name: &str| workshop.tables.iter().any(|one| one.name == name);
            let name = free_word("table", is_used);
            workshop.tables.push(OwnTable {
                name,
                source: String::new(),
                capitals: String::new(),
                lower_case: String::new(),
                figures: String::new(),
                points: String::new(),
                ligatures: String::new(),
            });
            Shown::Table(workshop.tables.len() - 1)
        }
        _ => {
            bench.what = "a cutter";
            let cutter = cutter::new(word, workshop);
            workshop.cutters.push(cutter);
            Shown::Cutter(workshop.cutters.len() - 1)
        }
    }
}

/// How many words are tried for something new; a workshop never has so many things.
const MOST_WORDS: u32 = 10_000;

/// A short word that is not used yet: `plank-2`.
fn free_word(stem: &str, is_used: impl Fn(&str) -> bool) -> String {
    (1..MOST_WORDS)
        .map(|number| format!("{stem}-{number}"))
        .find(|word| !is_used(word))
        .unwrap_or_default()
}

fn form(ui: &mut Ui, desk: &mut Desk, state: &mut State, bench: &mut Bench) {
    let palette = Palette::of(ui);
    let mut remove = false;
    egui::Panel::left("form of the workshop")
        .exact_size(FORM_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                let salt = format!("{:?}", state.shown);
                ui.push_id(salt, |ui| remove = fields_of(ui, desk, state, bench));
            });
        });
    if remove {
        take_out(state.shown, bench);
    }
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.paper))
        .show(ui, |ui| picture(ui, desk, state, bench));
}

/// The fields of what is shown; true if it is to be taken out.
fn fields_of(ui: &mut Ui, desk: &mut Desk, state: &mut State, bench: &mut Bench) -> bool {
    let system = desk.document.commission().system;
    match state.shown {
        Shown::Machine(place) => {
            machine::show(ui, bench, place, system);
            place > 0 && removing(ui)
        }
        Shown::Cutter(place) => {
            if !cutter::show(ui, desk, bench, place) {
                return false;
            }
            let id = bench.workshop.cutters[place].id.clone();
            let of_it = |subject: &Subject| matches!(subject, Subject::Cutter(of) if *of == id);
            let findings = marks::about(desk, of_it);
            marks::headed(ui, desk, &findings);
            let mut like = false;
            let mut out = false;
            ui.horizontal(|ui| {
                like = ui.button(words::COPY).clicked();
                out = ui.button(words::REMOVE).clicked();
            });
            if like {
                bench.what = "a cutter";
                let mut copy = bench.workshop.cutters[place].clone();
                copy.id = free_word(&copy.id, |id| bench.workshop.cutter(id).is_some());
                bench.workshop.cutters.push(copy);
                state.shown = Shown::Cutter(bench.workshop.cutters.len() - 1);
            }
            out
        }
        Shown::Wood(place) => wood::show(ui, bench, place) && removing(ui),
        Shown::Plank(place) => plank::show(ui, desk, bench, place) && removing(ui),
        Shown::Table(place) => table::show(ui, bench, place) && removing(ui),
        Shown::Rates => {
            rates::show(ui, bench);
            false
        }
        Shown::Papers => {
            papers::show(ui, bench);
            false
        }
    }
}

fn removing(ui: &mut Ui) -> bool {
    ui.add_space(8.0);
    ui.button(words::REMOVE).clicked()
}

fn take_out(shown: Shown, bench: &mut Bench) {
    let workshop = &mut bench.workshop;
    match shown {
        Shown::Machine(place) if (1..=workshop.more_machines.len()).contains(&place) => {
            bench.what = "a machine";
            workshop.more_machines.remove(place - 1);
        }
        Shown::Cutter(place) if place < workshop.cutters.len() => {
            bench.what = "a cutter";
            workshop.cutters.remove(place);
        }
        Shown::Wood(place) if place < workshop.woods.len() => {
            bench.what = "a wood";
            workshop.woods.remove(place);
        }
        Shown::Plank(place) if place < workshop.stock.len() => {
            bench.what = "a plank";
            workshop.stock.remove(place);
        }
        Shown::Table(place) if place < workshop.tables.len() => {
            bench.what = "a table";
            workshop.tables.remove(place);
        }
        Shown::Machine(_)
        | Shown::Cutter(_)
        | Shown::Wood(_)
        | Shown::Plank(_)
        | Shown::Table(_)
        | Shown::Rates
        | Shown::Papers => {}
    }
}

/// What is shown, drawn.
fn picture(ui: &mut Ui, desk: &mut Desk, state: &mut State, bench: &mut Bench) {
    match state.shown {
        Shown::Cutter(place) => {
            if let Some(chosen) = cutter_picture::show(ui, desk, &bench.workshop, place) {
                state.shown = Shown::Cutter(chosen);
            }
        }
        Shown::Plank(place) => {
            if let Some(plank) = bench.workshop.stock.get_mut(place) {
                let marked = plank_picture::show(ui, plank, &mut state.plank);
                if marked {
                    bench.what = "a bad place";
                }
            }
        }
        Shown::Machine(place) => machine::picture(ui, bench, place),
        Shown::Wood(_) | Shown::Table(_) | Shown::Rates | Shown::Papers => {
            cutter_picture::rack_alone(ui, desk, &bench.workshop);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_shown_stays_in_its_list() {
        let mut workshop = Workshop::starting();
        assert_eq!(kept(Shown::Cutter(3), &workshop), Shown::Cutter(3));
        workshop.cutters.truncate(2);
        assert_eq!(kept(Shown::Cutter(3), &workshop), Shown::Cutter(1));
        assert_eq!(kept(Shown::Plank(5), &workshop), Shown::Plank(0));
        assert_eq!(kept(Shown::Machine(1), &workshop), Shown::Machine(0));
    }

    #[test]
    fn new_words_are_free() {
        let used = ["plank-1", "plank-3"];
        assert_eq!(free_word("plank", |id| used.contains(&id)), "plank-2");
    }
}
