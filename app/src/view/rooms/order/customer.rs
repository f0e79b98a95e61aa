//! Who ordered it, and the date that papers bear.

use std::sync::Arc;

use egui::Ui;

use super::super::super::Desk;
use super::super::super::fields::{self, paragraph, remark};
use crate::model::command::Command;

/// Words of this view.
mod words {
    pub const CUSTOMER: &str = "Customer";
    pub const DATE: &str = "Date";
    pub const DATE_HINT: &str = "As papers print it; none if it is empty.";
    pub const MATCHES: &str = "These sorts are made to match";
}

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
            "" => "a fount without a title",
            title => title,
        };
        ui.label(format!("{} {title}.", words::MATCHES));
    }
}
