//! How the workshop's papers look, and whose they are.

use cam_core::measure::System;
use cam_core::workshop::PageSize;
use egui::Ui;

use super::super::super::fields::{choice, heading, paragraph, remark};
use super::Bench;
use crate::view::words::workshop::papers as words;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let papers = &mut bench.workshop.papers;
    let before = papers.clone();
    heading(ui, words::PAPERS);
    let pages = [
        (PageSize::A4, words::A4.to_string()),
        (PageSize::Letter, words::LETTER.to_string()),
    ];
    if let Some(page) = choice(ui, words::PAGE, &papers.page, &pages) {
        papers.page = page;
    }
    let mut systems = vec![(None, words::COMMISSION.to_string())];
    systems.extend(System::ALL.map(|system| (Some(system), system.name().to_owned())));
    if let Some(measure) = choice(ui, words::MEASURE, &papers.measure, &systems) {
        papers.measure = measure;
    }
    if let Some(maker) = paragraph(ui, words::MAKER, &papers.maker) {
        papers.maker = maker;
    }
    remark(ui, words::MAKER_HINT);
    if *papers != before {
        bench.what = "how papers look";
    }
}
