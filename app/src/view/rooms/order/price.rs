//! What the order costs.

use egui::{CollapsingHeader, Grid, RichText, Ui};

use cam_core::quote::Quote;

use super::super::super::Desk;
use super::super::super::fields::{heading, remark};
use super::super::super::theme::Palette;
use super::super::super::words as spoken;
use crate::background::tasks::{counted, duration_in_words};

/// Words of this view.
mod words {
    pub const PRICE: &str = "Price";
    pub const WITHOUT_TAX: &str = "without tax, at your workshop's rates";
    pub const OLD: &str = "Priced before the last changes.";
    pub const STOPPED: &str = "No price while a finding stops the work.";
    pub const HOW: &str = "How it comes to that";
    pub const SORTS: &str = "Each sort";
    pub const MACHINE: &str = "machine";
    pub const HAND: &str = "by hand";
    pub const WOOD: &str = "wood";
    pub const BREAKAGE: &str = "breakage";
    pub const MARGIN: &str = "margin";
}

/// Size of the price, px.
const PRICE_SIZE: f32 = 24.0;

pub(super) fn show(ui: &mut Ui, desk: &Desk) {
    let Some(job) = desk.job else { return };
    heading(ui, words::PRICE);
    if job.is_stopped() && !desk.job_is_old {
        remark(ui, words::STOPPED);
        return;
    }
    let at_once = desk.at_once.filter(|_| desk.job_is_old);
    let Some(quote) = at_once.or(desk.quote) else {
        remark(ui, &desk.waiting());
        return;
    };
    ui.horizontal(|ui| {
        let price = format!("{:.2} {}", quote.price, quote.currency);
        ui.label(RichText::new(price).size(PRICE_SIZE));
        ui.label(
            RichText::new(words::WITHOUT_TAX)
                .small()
                .color(Palette::of(ui).quiet),
        );
    });
    remark(
        ui,
        &format!(
            "{} on {}; machine {}, by hand {}",
            counted(quote.blocks as usize, "block", "blocks"),
            counted(quote.planks, "plank", "planks"),
            minutes(quote.machine_minutes + quote.change_minutes),
            minutes(quote.hand_minutes() + quote.change_minutes),
        ),
    );
    if at_once.is_some() {
        remark(ui, &spoken::AT_ONCE);
    } else if desk.job_is_old {
        remark(ui, words::OLD);
    }
    CollapsingHeader::new(words::HOW).show(ui, |ui| how(ui, quote));
    CollapsingHeader::new(words::SORTS).show(ui, |ui| sorts(ui, quote));
}

fn minutes(minutes: f64) -> String {
    duration_in_words(minutes * 60.0)
}

fn how(ui: &mut Ui, quote: &Quote) {
    Grid::new("costs").striped(true).show(ui, |ui| {
        let changes = counted(
            quote.changes as usize,
            "change of cutter",
            "changes of cutter",
        );
        let wood = format!("{:.2} dm³", quote.wood_dm3);
        let [machine, hand, of_wood, breakage, margin] =
            quote.amounts().map(|amount| amount as f64 / 100.0);
        for (what, of, money) in [
            (words::MACHINE, changes, machine),
            (words::HAND, String::new(), hand),
            (words::WOOD, wood, of_wood),
            (words::BREAKAGE, String::new(), breakage),
            (words::MARGIN, String::new(), margin),
        ] {
            ui.label(what);
            ui.label(RichText::new(of).small());
            ui.label(format!("{money:.2}"));
            ui.end_row();
        }
    });
    Grid::new("work by hand").striped(true).show(ui, |ui| {
        for work in &quote.hand {
            ui.label(work.what);
            ui.label(RichText::new(&work.of).small());
            ui.label(minutes(work.minutes));
            ui.end_row();
        }
    });
}

fn sorts(ui: &mut Ui, quote: &Quote) {
    Grid::new("prices of sorts").striped(true).show(ui, |ui| {
        for sort in &quote.sorts {
            ui.label(&sort.sort);
            ui.label(RichText::new(format!("{}×", sort.count)).small());
            ui.label(format!("{:.2}", sort.price));
            ui.end_row();
        }
    });
}
