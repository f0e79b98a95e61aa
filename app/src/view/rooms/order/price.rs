//! What the order costs.

use egui::{CollapsingHeader, Grid, RichText, Ui};

use cam_core::quote::Quote;

use super::super::super::Desk;
use super::super::super::fields::{heading, remark};
use super::super::super::theme::Palette;
use crate::background::tasks::duration_in_words;
use crate::view::words::{self as spoken, counted, figure, order::price as words};

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
        remark(ui, desk.waiting());
        return;
    };
    ui.horizontal(|ui| {
        let price = format!("{} {}", figure(quote.price, 2), quote.currency);
        ui.label(RichText::new(price).size(PRICE_SIZE));
        ui.label(
            RichText::new(words::WITHOUT_TAX)
                .small()
                .color(Palette::of(ui).quiet),
        );
    });
    remark(
        ui,
        words::ON_PLANKS.with(&[
            &counted(quote.blocks as usize, words::ONE_BLOCK, words::BLOCKS),
            &counted(quote.planks, words::ONE_PLANK, words::PLANKS),
            &minutes(quote.machine_minutes + quote.change_minutes),
            &minutes(quote.hand_minutes() + quote.change_minutes),
        ]),
    );
    if at_once.is_some() {
        remark(ui, spoken::AT_ONCE);
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
        let changes = counted(quote.changes as usize, words::ONE_CHANGE, words::CHANGES);
        let wood = format!("{} dm³", figure(quote.wood_dm3, 2));
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
            ui.label(figure(money, 2));
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
            ui.label(figure(sort.price, 2));
            ui.end_row();
        }
    });
}
