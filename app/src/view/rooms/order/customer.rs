//! Who ordered it, and the date that papers bear.

use std::sync::Arc;

use egui::Ui;

use super::super::super::Desk;
use super::super::super::fields::{self, paragraph, remark};
use crate::model::command::Command;
use crate::view::words::order::customer as words;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    if let Some(customer) = paragraph(ui, words::CUSTOMER, &commission.customer) {
        desk.send(Command::Customer(customer));
    }
    if let Some(date) = fields::text(ui, words::DATE, &commission.date) {
        desk.send(Command::Date(date));
    }
    remark(ui, words::DATE_HINT);
    if let Some(record) = &commission.replaces {
        let title = match record.commission.title.as_str() {
            "" => words::NO_TITLE.said(),
            title => title,
        };
        ui.label(format!("{} {title}.", words::MATCHES));
    }
}
