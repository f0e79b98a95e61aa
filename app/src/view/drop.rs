//! Files that are dropped on the window: what each of them does.

use std::path::{Path, PathBuf};

use egui::{Align2, RichText, Ui};

use super::leave::Then;
use super::theme::Palette;
use super::words;
use super::workbench::Workbench;
use crate::files::shown;
use crate::model::selection::Room;

/// What a file is, by the ending of its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Dropped {
    /// A font or a commission.
    Opens,
    /// A drawing, or a scan to be traced.
    Drawing,
    /// Readings.
    Readings,
    /// Nothing that is known here.
    Other,
}

impl Dropped {
    fn of(path: &Path) -> Dropped {
        let ending = path.extension().unwrap_or_default().to_string_lossy();
        match ending.to_lowercase().as_str() {
            // A file without an ending may be either of these; opening it tells.
            "json" | "ttf" | "otf" | "ttc" | "otc" | "" => Dropped::Opens,
            "svg" | "dxf" | "png" | "jpg" | "jpeg" | "tif" | "tiff" => Dropped::Drawing,
            "txt" => Dropped::Readings,
            _ => Dropped::Other,
        }
    }
}

impl Workbench {
    /// Takes files that were dropped on the window.
    pub(super) fn take_dropped(&mut self, ctx: &egui::Context) {
        let dropped: Vec<PathBuf> = ctx.input(|input| {
            let files = input.raw.dropped_files.iter();
            files.map(|file| file.path().to_owned()).collect()
        });
        let mut opens = None;
        for path in dropped {
            match Dropped::of(&path) {
                Dropped::Opens => opens = opens.or(Some(path)),
                Dropped::Drawing | Dropped::Readings if self.document.is_none() => {
                    self.complain(words::DROP_NEEDS_COMMISSION.with(&[&shown(&path)]));
                }
                Dropped::Drawing => {
                    self.selection.room = Room::Order;
                    self.name_file(path);
                }
                Dropped::Readings => {
                    self.selection.room = Room::Bench;
                    self.open_readings(&path);
                }
                Dropped::Other => self.complain(words::DROP_OTHER.with(&[&shown(&path)])),
            }
        }
        // One commission is open at a time: the first of them.
        if let Some(path) = opens {
            self.ask_to_leave(Then::Open(path));
        }
    }
}

/// Says what a file that hangs over the window would do.
pub(super) fn show(ui: &Ui) {
    if ui.input(|input| input.raw.hovered_files.is_empty()) {
        return;
    }
    let palette = Palette::of(ui);
    egui::Area::new(egui::Id::unique("drop"))
        .order(egui::Order::Foreground)
        .anchor(Align2::CENTER_CENTER, egui::Vec2::ZERO)
        .interactable(false)
        .show(ui.ctx(), |ui| {
            egui::Frame::window(ui.style()).show(ui, |ui| {
                ui.label(RichText::new(words::DROP_TITLE).strong().size(15.5));
                for line in [
                    words::DROP_FONT,
                    words::DROP_COMMISSION,
                    words::DROP_DRAWING,
                    words::DROP_READINGS,
                ] {
                    ui.label(RichText::new(line).color(palette.text));
                }
            });
        });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_known_by_their_endings() {
        assert_eq!(Dropped::of(Path::new("a/face.OTF")), Dropped::Opens);
        assert_eq!(Dropped::of(Path::new("order.json")), Dropped::Opens);
        assert_eq!(Dropped::of(Path::new("moisture.txt")), Dropped::Readings);
        assert_eq!(Dropped::of(Path::new("vine.SVG")), Dropped::Drawing);
        assert_eq!(Dropped::of(Path::new("page.tiff")), Dropped::Drawing);
        assert_eq!(Dropped::of(Path::new("song.mp3")), Dropped::Other);
    }
}
