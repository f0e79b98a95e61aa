//! The faces whose glyphs the case shows: the main one, or another of the commission.

use std::sync::Arc;

use cam_core::commission::Face;

use super::workbench::Workbench;
use crate::background::catalogue::{Catalogue, catalogue};
use crate::background::{Latest, Wake};
use crate::model::document::Document;

impl Workbench {
    /// Asks for the glyphs of the main face.
    pub(super) fn request_catalogue(&mut self) {
        let Some(document) = &self.document else {
            return;
        };
        let Some(face) = document.commission().faces.first().cloned() else {
            return;
        };
        ask(&mut self.catalogue, document, face, "catalogue", &self.wake);
    }

    /// Asks for the glyphs of that face.
    pub(super) fn request_other_catalogue(&mut self) {
        let chosen = self.selection.face.as_deref();
        let document = self.document.as_ref();
        let wanted = document.and_then(|document| chosen_face(document, chosen));
        let wanted = wanted.cloned();
        if self.other_face == wanted {
            return;
        }
        self.other_face.clone_from(&wanted);
        self.other_catalogue.clear();
        let (Some(document), Some(face)) = (&self.document, wanted) else {
            return;
        };
        let (glyphs, wake) = (&mut self.other_catalogue, &self.wake);
        ask(glyphs, document, face, "other catalogue", wake);
    }
}

/// Asks for the glyphs of a face, if its font is there.
fn ask(
    glyphs: &mut Latest<Result<Catalogue, String>>,
    document: &Document,
    face: Face,
    what: &'static str,
    wake: &Wake,
) {
    if let Some(bytes) = document.fonts().get(&face.id).cloned() {
        let work = move |progress: &_| catalogue(&face, &bytes, progress);
        glyphs.request(document.revision(), what, Arc::clone(wake), work);
    }
}

/// The face that the case shows instead of the main one, if the maker chose one.
pub(super) fn chosen_face<'a>(document: &'a Document, chosen: Option<&str>) -> Option<&'a Face> {
    let mut others = document.commission().faces.iter().skip(1);
    others.find(|face| Some(face.id.as_str()) == chosen)
}
