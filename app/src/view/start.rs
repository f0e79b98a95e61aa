//! The empty window: what to do first.

use std::path::{Path, PathBuf};

use egui::{RichText, Ui};

use super::leave::Then;
use super::theme::Palette;
use super::workbench::Workbench;

/// Words of this view.
mod words {
    pub const WELCOME: &str = "A font and an order in, wood type out";
    pub const HOW: &str =
        "Drop a font here to begin a new commission, or drop a commission to go on with it.";
    pub const OPEN: &str = "Open a font or a commission…";
    pub const DEMO: &str = "Try a small demonstration commission";
    pub const STEPS: [(&str, &str); 9] = [
        (
            "Order",
            "size in lines, height to paper, and the text to be set",
        ),
        ("Case", "choose the glyphs, and how many of each"),
        (
            "Block",
            "see each letter on its block, as cut and as printed",
        ),
        (
            "Cut",
            "see what the cutters reach, and the corners left for the knife",
        ),
        ("Plank", "see all blocks on the planks they are cut from"),
        ("Proof", "see the print of what will really be cut"),
        (
            "Papers",
            "see quote, setup sheets and lists as they will be printed",
        ),
        ("Bench", "type what you measured, and see what to do next"),
        (
            "Workshop",
            "your machines, cutters, woods, planks and rates",
        ),
    ];
}

/// Width of the list of rooms, px: that of its longest line.
const STEPS_WIDTH: f32 = 470.0;

/// The folder of demonstration commissions, and the small one in it.
const DEMO: &str = "demo-projects";
const SMALL_DEMO: &str = "ferry-notice/commission.json";

pub(super) fn show(workbench: &mut Workbench, ui: &mut Ui) {
    let palette = Palette::of(ui);
    let frame = egui::Frame::new().fill(palette.paper);
    egui::CentralPanel::default().frame(frame).show(ui, |ui| {
        ui.vertical_centered(|ui| {
            ui.add_space((ui.available_height() * 0.16).max(12.0));
            ui.label(RichText::new(words::WELCOME).size(30.0).color(palette.ink));
            ui.add_space(6.0);
            ui.label(RichText::new(words::HOW).size(15.5).color(palette.quiet));
            ui.add_space(18.0);
            let open = RichText::new(words::OPEN)
                .size(15.5)
                .color(palette.on_accent);
            if ui
                .add(egui::Button::new(open).fill(palette.accent))
                .clicked()
            {
                workbench.ask_to_leave(Then::AskOpen);
            }
            if let Some(demo) = demo() {
                ui.add_space(2.0);
                if ui.button(words::DEMO).clicked() {
                    workbench.open(demo);
                }
            }
            ui.add_space(34.0);
            steps(ui, &palette);
        });
    });
}

fn steps(ui: &mut Ui, palette: &Palette) {
    let size = egui::vec2(STEPS_WIDTH, 0.0);
    let layout = egui::Layout::top_down(egui::Align::Min);
    ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_width(STEPS_WIDTH);
        let table = egui::Grid::new("steps").num_columns(2).spacing([22.0, 8.0]);
        table.show(ui, |ui| {
            for (room, what) in words::STEPS {
                ui.label(RichText::new(room).size(15.5).color(palette.accent));
                ui.label(RichText::new(what).color(palette.text));
                ui.end_row();
            }
        });
    });
}

/// The small demonstration commission: beside the program, in a folder above it, or in the working folder.
fn demo() -> Option<PathBuf> {
    let program = std::env::current_exe().ok();
    let above = program
        .iter()
        .flat_map(|program| program.ancestors().skip(1));
    let folders = above.chain([Path::new(".")]);
    folders
        .map(|folder| folder.join(DEMO).join(SMALL_DEMO))
        .find(|path| path.exists())
}
