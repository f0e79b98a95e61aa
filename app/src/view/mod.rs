//! The window: it shows the model and sends commands to it.
//!
//! [`Workbench`] holds everything; each room is a file or folder below `rooms` and gets a [`Desk`]: what it may look at, what it
//! may select, and where it leaves its commands.

mod actions;
mod bars;
mod canvas;
mod cased;
mod drop;
mod export;
mod fields;
mod icon;
mod ink;
mod keeping;
mod keys;
mod layer;
mod leave;
mod manner;
mod marks;
mod measuring;
mod otherwise;
mod over;
mod papers;
mod rooms;
mod rulers;
mod small;
mod start;
mod tasks;
mod theme;
mod tracing;
mod words;
mod workbench;

use std::path::PathBuf;
use std::sync::Arc;

use cam_core::commission::Face;
use cam_core::cutter_set::CutterSets;
use cam_core::make::Job;
use cam_core::proof::impression::Fount;
use cam_core::quote::{Change, Quote};

use crate::background::Latest;
use crate::background::catalogue::Catalogue;
use crate::background::otherwise::Otherwise;
use crate::background::papers::Readable;
use crate::background::read_back::Running;
use crate::background::relief::Finished;
use crate::background::tasks::Drawn;
use crate::commands::Outcome;
use crate::files::home::Home;
use crate::files::keep::Keep;
use crate::files::{log, report};
use crate::model::command::Command;
use crate::model::document::Document;
use crate::model::selection::Selection;

pub use workbench::Workbench;

/// The window's first size, px.
const FIRST_SIZE: [f32; 2] = [1280.0, 800.0];
/// The least size at which every control can be reached, px: a screen of 1280 by 800 at twice the usual size.
const LEAST_SIZE: [f32; 2] = [640.0, 400.0];

/// Opens the window, with a font or commission if one is named.
pub fn open_window(open: Option<PathBuf>) -> Outcome {
    let home = Home::usual();
    if let Some(home) = &home {
        log::install(&home.log_file());
        report::install(&home.reports());
        ::log::info!(
            "the window of Sortwright {} opens",
            env!("CARGO_PKG_VERSION")
        );
    }
    let mut viewport = egui::ViewportBuilder::default()
        .with_title(words::NAME)
        .with_app_id("sortwright")
        .with_inner_size(FIRST_SIZE)
        .with_min_inner_size(LEAST_SIZE)
        .with_drag_and_drop(true);
    if let Some(icon) = icon::icon() {
        viewport = viewport.with_icon(icon);
    }
    let options = eframe::NativeOptions {
        viewport,
        ..Default::default()
    };
    let run = eframe::run_native(
        words::NAME,
        options,
        Box::new(|creation| {
            let workbench = Workbench::at_home(creation, open, Keep::usual(), home);
            Ok(Box::new(workbench))
        }),
    );
    match run {
        Ok(()) => Outcome::Done,
        Err(error) => {
            let terminal = crate::commands::Terminal::new(false);
            terminal.complain(&no_window(&error));
            Outcome::CouldNotRun
        }
    }
}

/// Why there is no window, in a sentence.
fn no_window(error: &eframe::Error) -> String {
    let why = match error {
        // What the library says here names its own source files.
        eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_) => {
            "no screen was found".to_owned()
        }
        other => other.to_string().trim_end_matches('.').to_owned(),
    };
    format!(
        "The window could not be opened: {why}. The commands work without it; see sortwright --help."
    )
}

/// Work that a room asks for, to be begun after this frame.
#[derive(Clone, Debug, Default)]
struct Wishes {
    /// What the blocks print is to be read back from the programs.
    print: bool,
    /// The print is to be saved as a picture.
    picture: bool,
    /// All sets of cutters are to be priced.
    sets: bool,
    /// Pricing them is to be stopped.
    no_sets: bool,
    /// The course of the programs of this plank is to be laid out, by its place.
    course: Option<usize>,
    /// The finished surface of this plank is to be reckoned, by its place.
    finished: Option<usize>,
    /// Readings are to be opened at the bench.
    open_readings: bool,
    /// The readings shown there are to be saved.
    save_readings: bool,
    /// The order is to be priced as it would be otherwise, for each list of changes.
    otherwise: Option<Vec<Vec<Change>>>,
    /// Pricing that is to be stopped.
    no_otherwise: bool,
    /// Sorts are to be made again: to match the fount in this folder, if one is named, and which.
    again: Option<(Option<PathBuf>, String)>,
    /// The folder that a fount was made into is to be chosen.
    choose_made: bool,
    /// The papers of the job are to be laid out.
    papers: bool,
    /// One of these files of a paper is to be saved.
    save_paper: Option<Vec<String>>,
    /// All papers are to be saved.
    save_papers: bool,
    /// A font is to be chosen as a face more.
    add_face: bool,
    /// A drawing or a scan is to be chosen.
    name_drawing: bool,
    /// A workshop is to be taken over from a file.
    open_workshop: bool,
    /// A copy of the workshop is to be saved.
    save_workshop: bool,
}

/// What a room may look at, what it may select, and where it leaves its commands.
pub struct Desk<'a> {
    /// The open commission.
    document: &'a Document,
    /// Its sorts, perhaps of an earlier revision.
    drawn: Option<&'a Drawn>,
    /// Its job, perhaps of an earlier revision.
    job: Option<&'a Arc<Job>>,
    /// The job was made from an earlier revision.
    job_is_old: bool,
    /// The newest request ended with a sentence instead of a result.
    failed: bool,
    /// The glyphs of its main face.
    catalogue: Option<&'a Catalogue>,
    /// The face that the case shows, and its glyphs.
    cased: Option<(&'a Face, &'a Catalogue)>,
    /// What the maker looks at.
    selection: &'a mut Selection,
    /// Filled faces of sorts.
    faces: &'a mut ink::Faces,
    /// Filled glyphs of the main face.
    glyphs: &'a mut ink::Glyphs,
    /// What the blocks of [`Desk::job`] print, as far as it is known.
    print: Option<&'a Result<Arc<Fount>, String>>,
    /// What [`Desk::job`] costs, as far as it is known.
    quote: Option<&'a Quote>,
    /// What the order as it stands costs, reckoned from sorts that are known, if all are.
    at_once: Option<&'a Quote>,
    /// The priced sets of cutters, and how far pricing them has come.
    sets: &'a Latest<Result<Arc<CutterSets>, String>>,
    /// The order made otherwise, priced.
    otherwise: &'a Latest<Vec<Otherwise>>,
    /// The papers of [`Desk::job`], as far as they are laid out.
    papers: Option<&'a Result<Arc<Vec<Readable>>, String>>,
    /// How the programs of one plank of [`Desk::job`] run, as far as it is known.
    course: Option<&'a Result<Running, String>>,
    /// The finished surface of one plank of [`Desk::job`], as far as it is known.
    finished: Option<&'a Result<Finished, String>>,
    /// Work that is asked for.
    wishes: &'a mut Wishes,
    /// Commands to be applied after this frame.
    commands: &'a mut Vec<Command>,
}

impl Desk<'_> {
    /// Leaves a command.
    fn send(&mut self, command: Command) {
        self.commands.push(command);
    }

    /// Says that what is shown was worked out before the last changes, if so.
    fn say_if_old(&self, ui: &mut egui::Ui) {
        if self.job_is_old {
            ui.colored_label(theme::Palette::of(ui).warning, words::OUT_OF_DATE);
        }
    }

    /// What to say where there is nothing to show yet.
    fn waiting(&self) -> words::Text {
        if self.document.orders_nothing() {
            words::NO_SORTS
        } else if self.failed {
            words::FAILED
        } else {
            words::WORKING
        }
    }

    /// Paints a glyph of the main face as it stands in `rect`, its base line where the font's own heights put it.
    fn paint_glyph(&mut self, ui: &egui::Ui, index: u16, rect: egui::Rect) {
        let document = self.document;
        if let (Some(catalogue), Some(face)) = (self.catalogue, document.commission().faces.first())
        {
            self.paint_glyph_of(ui, (face, catalogue), index, rect);
        }
    }

    /// Paints a glyph of a face as it stands in `rect`.
    fn paint_glyph_of(
        &mut self,
        ui: &egui::Ui,
        (face, catalogue): (&Face, &Catalogue),
        index: u16,
        rect: egui::Rect,
    ) {
        let Some(bytes) = self.document.fonts().get(&face.id) else {
            return;
        };
        let Some(fill) = self.glyphs.of(face, bytes, catalogue.units_per_em, index) else {
            return;
        };
        let (ascender, descender) = catalogue.heights;
        let scale = f64::from(rect.height()) / (ascender - descender).max(1.0);
        let base = rect.top() + (ascender * scale) as f32;
        let middle = fill.middle().x;
        let place = |p: kurbo::Point| {
            egui::pos2(
                rect.center().x + ((p.x - middle) * scale) as f32,
                base - (p.y * scale) as f32,
            )
        };
        fill.paint(ui.painter(), place, theme::Palette::of(ui).ink);
    }

    /// The id of the main face.
    fn main_face(&self) -> Option<&str> {
        let face = self.document.commission().faces.first();
        face.map(|face| face.id.as_str())
    }
}
