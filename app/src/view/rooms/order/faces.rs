//! Faces beside the main one, such as companions for other colours, and which face of a collection is meant.

use std::sync::Arc;

use cam_core::commission::Face;
use egui::{RichText, Ui};

use super::super::super::Desk;
use super::super::super::fields::{self, count, remark};
use crate::model::command::Command;
use crate::view::words::order::faces as words;

/// How a collection of fonts begins.
const COLLECTION: &[u8] = b"ttcf";

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    if let Some(main) = commission.faces.first() {
        index(ui, desk, main);
    }
    for face in commission.faces.iter().skip(1) {
        egui::CollapsingHeader::new(RichText::new(&face.id))
            .id_salt(("face", &face.id))
            .show(ui, |ui| one(ui, desk, face));
    }
    let button = ui.button(words::ADD).on_hover_text(words::ADD_HINT);
    desk.wishes.add_face |= button.clicked();
}

fn one(ui: &mut Ui, desk: &mut Desk, face: &Face) {
    remark(ui, &face.file);
    index(ui, desk, face);
    let mut permission = face.permission.clone();
    if let Some(by) = fields::text(ui, words::BY, &permission.by) {
        permission.by = by;
    }
    if let Some(on) = fields::text(ui, words::ON, &permission.on) {
        permission.on = on;
    }
    if permission != face.permission {
        desk.send(Command::Permission {
            face: face.id.clone(),
            permission,
        });
    }
    if ui.button(words::REMOVE).clicked() {
        desk.send(Command::RemoveFace(face.id.clone()));
    }
}

/// Which face of a collection; nothing of a file with one.
fn index(ui: &mut Ui, desk: &mut Desk, face: &Face) {
    let bytes = desk.document.fonts().get(&face.id);
    if !bytes.is_some_and(|bytes| bytes.starts_with(COLLECTION)) {
        return;
    }
    if let Some(index) = count(ui, words::INDEX, face.index) {
        desk.send(Command::FaceIndex {
            face: face.id.clone(),
            index,
        });
    }
    remark(ui, words::INDEX_HINT);
}
