//! The face: its axes, its licence as the font states it, and the permission that the maker recorded.

use std::sync::Arc;

use egui::Ui;

use cam_core::commission::Face;
use cam_core::finding::Subject;

use super::super::super::Desk;
use super::super::super::fields::{self, heading, remark};
use super::super::super::marks;
use super::super::super::theme::Palette;
use crate::model::command::Command;
use crate::model::selection::Sought;
use crate::view::words::order::face as words;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    let Some(face) = commission.faces.first() else {
        return;
    };
    heading(ui, words::FACE);
    if let Some(catalogue) = desk.catalogue {
        ui.label(&catalogue.title);
    }
    remark(ui, &face.file);
    changed(ui, desk, face);
    axes(ui, desk, face);
    permission(ui, desk, face);
    licence(ui, desk);
    let id = face.id.clone();
    let of_it = |subject: &Subject| matches!(subject, Subject::Face(of) if *of == id);
    let findings = marks::about(desk, of_it);
    marks::headed(ui, desk, &findings);
}

/// Says that the font file is another one than the commission was made with, and offers to take it.
fn changed(ui: &mut Ui, desk: &mut Desk, face: &Face) {
    let now = desk.catalogue.map(|catalogue| catalogue.sha256.clone());
    let Some(sha256) = now.filter(|now| *now != face.sha256) else {
        return;
    };
    let palette = Palette::of(ui);
    ui.add(egui::Label::new(egui::RichText::new(words::CHANGED).color(palette.stop)).wrap());
    if ui.button(words::ACCEPT).clicked() {
        desk.send(Command::AcceptFont {
            face: face.id.clone(),
            sha256,
        });
    }
}

fn axes(ui: &mut Ui, desk: &mut Desk, face: &Face) {
    let Some(catalogue) = desk
        .catalogue
        .filter(|catalogue| !catalogue.axes.is_empty())
    else {
        return;
    };
    heading(ui, words::AXES);
    for axis in &catalogue.axes {
        let value = face
            .variations
            .get(&axis.tag)
            .copied()
            .unwrap_or(axis.default);
        let name = if axis.name.is_empty() {
            &axis.tag
        } else {
            &axis.name
        };
        if let Some(value) = fields::number(ui, name, value) {
            let mut variations = face.variations.clone();
            variations.insert(axis.tag.clone(), value.clamp(axis.least, axis.most));
            desk.send(Command::Variations {
                face: face.id.clone(),
                variations,
            });
        }
        remark(ui, format!("{} to {}", axis.least, axis.most));
    }
}

fn permission(ui: &mut Ui, desk: &mut Desk, face: &Face) {
    heading(ui, words::PERMISSION);
    if desk.selection.takes(&Sought::Permission) {
        ui.scroll_to_cursor(Some(egui::Align::Center));
        fields::begin_typing(ui, words::BY);
    }
    let mut permission = face.permission.clone();
    if let Some(by) = fields::text(ui, words::BY, &permission.by) {
        permission.by = by;
    }
    if let Some(on) = fields::text(ui, words::ON, &permission.on) {
        permission.on = on;
    }
    let founts = permission
        .founts
        .map_or_else(String::new, |founts| founts.to_string());
    if let Some(founts) = fields::text(ui, words::FOUNTS, &founts) {
        permission.founts = founts.parse().ok();
    }
    if permission.founts.is_none() {
        remark(ui, words::NO_LIMIT);
    }
    if permission != face.permission {
        desk.send(Command::Permission {
            face: face.id.clone(),
            permission,
        });
    }
}

fn licence(ui: &mut Ui, desk: &Desk) {
    let Some(catalogue) = desk.catalogue else {
        return;
    };
    ui.add_space(4.0);
    egui::CollapsingHeader::new(words::LICENCE).show(ui, |ui| {
        let entries = &catalogue.licence;
        let texts = [
            &entries.copyright,
            &entries.trademark,
            &entries.licence,
            &entries.licence_url,
            &catalogue.embedding,
        ];
        let mut said = false;
        for text in texts
            .into_iter()
            .flatten()
            .filter(|text| !text.trim().is_empty())
        {
            said = true;
            ui.add(egui::Label::new(egui::RichText::new(text).small()).wrap());
        }
        if !said {
            remark(ui, words::NOTHING);
        }
        remark(ui, words::YOURS);
    });
}
