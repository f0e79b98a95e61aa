//! Opening, saving and asking for files: each on a thread of its own.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use cam_core::proof::impression::Sheet;

use super::workbench::Workbench;
use crate::background::Worker;
use crate::background::picture::{DPI, PictureKind, picture};
use crate::files::open::{WORKSHOP_FILE, open, save, save_workshop, workshop_at};
use crate::files::{read_text, shown, write_atomic};
use crate::model::command::Command;
use crate::model::shop::ShopChange;

/// Words of this view.
mod words {
    pub const OPEN: &str = "Open a font or a commission";
    pub const SAVE: &str = "Save the commission";
    pub const EXPORT: &str = "Choose a folder for the programs";
    pub const FONTS_AND_COMMISSIONS: &str = "Fonts and commissions";
    pub const COMMISSION: &str = "Commission";
    pub const PICTURE: &str = "Save the proof as a picture";
    pub const PICTURES: &str = "PDF page, SVG or PNG picture";
    pub const PICTURE_NAME: &str = "proof.pdf";
    pub const NO_PRINT: &str = "The proof is not printed yet.";
    pub const NEW_NAME: &str = "commission.json";
    pub const OPEN_READINGS: &str = "Open readings";
    pub const SAVE_READINGS: &str = "Save the readings";
    pub const READINGS: &str = "Readings";
    pub const READINGS_NAME: &str = "readings.txt";
    pub const PAPER: &str = "Save a paper";
    pub const PAPER_NAME: &str = "paper.pdf";
    pub const PAPER_KINDS: &str = "PDF page or plain text";
    pub const ALL_PAPERS: &str = "Choose a folder for the papers";
    pub const FACE: &str = "Add a face";
    pub const FONTS: &str = "Fonts";
    pub const DRAWING: &str = "Name a drawing, or trace a scan";
    pub const DRAWINGS: &str = "Drawings and scans";
    pub const MADE: &str = "Choose the folder that the fount was made into";
    pub const OPEN_WORKSHOP: &str = "Take over a workshop";
    pub const SAVE_WORKSHOP: &str = "Save a copy of the workshop";
    pub const WORKSHOP: &str = "Workshop";
    pub const SAVE_FIRST: &str =
        "Save the commission first: the workshop is kept in the file workshop.json beside it.";
}

/// What a file dialog is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    Open,
    SaveAs,
    ExportTo,
    PictureTo,
    OpenReadings,
    SaveReadings,
    OpenWorkshop,
    SaveWorkshop,
    MadeFolder,
    Drawing,
    Face,
    Paper,
    AllPapers,
}

/// A file dialog that is open.
pub(super) struct Asked {
    purpose: Purpose,
    answer: Worker<Option<PathBuf>>,
}

impl Workbench {
    /// Opens a font or a commission in the background.
    pub fn open(&mut self, path: PathBuf) {
        self.opening = Some(Worker::start("open", Arc::clone(&self.wake), move |_| {
            open(&path, None).map_err(|error| error.to_string())
        }));
    }

    pub(super) fn poll_opening(&mut self) {
        let Some(result) = self.opening.as_mut().and_then(Worker::poll) else {
            return;
        };
        self.opening = None;
        match result {
            Ok(Ok(opened)) => self.arrive(opened),
            Ok(Err(sentence)) => self.complain(sentence),
            Err(broken) => self.complain(broken.to_string()),
        }
    }

    /// Takes files that were dropped on the window.
    pub(super) fn take_dropped(&mut self, ctx: &egui::Context) {
        let dropped: Vec<PathBuf> = ctx.input(|input| {
            let files = input.raw.dropped_files.iter();
            files.map(|file| file.path().to_owned()).collect()
        });
        if let Some(path) = dropped.into_iter().next() {
            self.ask_to_leave(super::leave::Then::Open(path));
        }
    }

    /// Opens a file dialog.
    pub(super) fn ask(&mut self, purpose: Purpose) {
        if self.asked.is_some() {
            return;
        }
        let folder = self.folder();
        let answer = Worker::start("dialog", Arc::clone(&self.wake), move |_| {
            let mut dialog = rfd::FileDialog::new();
            if let Some(folder) = folder {
                dialog = dialog.set_directory(folder);
            }
            match purpose {
                Purpose::Open => dialog
                    .set_title(words::OPEN)
                    .add_filter(
                        words::FONTS_AND_COMMISSIONS,
                        &["json", "ttf", "otf", "ttc", "otc"],
                    )
                    .pick_file(),
                Purpose::SaveAs => dialog
                    .set_title(words::SAVE)
                    .set_file_name(words::NEW_NAME)
                    .add_filter(words::COMMISSION, &["json"])
                    .save_file(),
                Purpose::PictureTo => dialog
                    .set_title(words::PICTURE)
                    .set_file_name(words::PICTURE_NAME)
                    .add_filter(words::PICTURES, &["pdf", "svg", "png"])
                    .save_file(),
                Purpose::ExportTo => dialog.set_title(words::EXPORT).pick_folder(),
                Purpose::OpenReadings => dialog
                    .set_title(words::OPEN_READINGS)
                    .add_filter(words::READINGS, &["txt"])
                    .pick_file(),
                Purpose::SaveReadings => dialog
                    .set_title(words::SAVE_READINGS)
                    .set_file_name(words::READINGS_NAME)
                    .add_filter(words::READINGS, &["txt"])
                    .save_file(),
                Purpose::Paper => dialog
                    .set_title(words::PAPER)
                    .set_file_name(words::PAPER_NAME)
                    .add_filter(words::PAPER_KINDS, &["pdf", "txt"])
                    .save_file(),
                Purpose::AllPapers => dialog.set_title(words::ALL_PAPERS).pick_folder(),
                Purpose::Face => dialog
                    .set_title(words::FACE)
                    .add_filter(words::FONTS, &["ttf", "otf", "ttc", "otc"])
                    .pick_file(),
                Purpose::Drawing => dialog
                    .set_title(words::DRAWING)
                    .add_filter(
                        words::DRAWINGS,
                        &["svg", "dxf", "png", "jpg", "jpeg", "tif", "tiff"],
                    )
                    .pick_file(),
                Purpose::MadeFolder => dialog.set_title(words::MADE).pick_folder(),
                Purpose::OpenWorkshop => dialog
                    .set_title(words::OPEN_WORKSHOP)
                    .add_filter(words::WORKSHOP, &["json"])
                    .pick_file(),
                Purpose::SaveWorkshop => dialog
                    .set_title(words::SAVE_WORKSHOP)
                    .set_file_name(WORKSHOP_FILE)
                    .add_filter(words::WORKSHOP, &["json"])
                    .save_file(),
            }
        });
        self.asked = Some(Asked { purpose, answer });
    }

    pub(super) fn poll_asked(&mut self) {
        let Some(asked) = &mut self.asked else {
            return;
        };
        let Some(answer) = asked.answer.poll() else {
            return;
        };
        let purpose = asked.purpose;
        self.asked = None;
        match (purpose, answer) {
            (_, Err(broken)) => self.complain(broken.to_string()),
            // The maker closed the dialog.
            (_, Ok(None)) => {}
            (Purpose::Open, Ok(Some(path))) => self.open(path),
            (Purpose::SaveAs, Ok(Some(path))) => self.save_to(&path),
            (Purpose::ExportTo, Ok(Some(path))) => self.export.choose(&path),
            (Purpose::PictureTo, Ok(Some(path))) => self.save_picture(path),
            (Purpose::OpenReadings, Ok(Some(path))) => self.open_readings(&path),
            (Purpose::SaveReadings, Ok(Some(path))) => self.save_readings(&path),
            (Purpose::Paper, Ok(Some(path))) => self.save_asked_paper(&path),
            (Purpose::AllPapers, Ok(Some(path))) => self.save_papers(&path),
            (Purpose::Drawing | Purpose::Face, Ok(Some(path))) => self.name_file(path),
            (Purpose::MadeFolder, Ok(Some(path))) => {
                self.rooms.order().again.made = shown(&path);
            }
            (Purpose::OpenWorkshop, Ok(Some(path))) => self.take_over_workshop(&path),
            (Purpose::SaveWorkshop, Ok(Some(path))) => self.save_copy_of_workshop(&path),
        }
    }

    /// Opens readings at the bench.
    pub fn open_readings(&mut self, path: &Path) {
        let read = read_text(path).map_err(|error| error.to_string());
        match read.and_then(|text| self.rooms.bench().take(text)) {
            Ok(()) => self.notice = None,
            Err(sentence) => self.complain(sentence),
        }
    }

    /// Saves the readings that the bench shows.
    pub fn save_readings(&mut self, path: &Path) {
        let text = self.rooms.bench().shown().to_owned();
        match write_atomic(path, text.as_bytes()) {
            Ok(()) => self.say(format!("The readings were saved to {}.", shown(path))),
            Err(error) => self.complain(error.to_string()),
        }
    }

    /// Puts the workshop of a file in the place of the present one.
    pub fn take_over_workshop(&mut self, path: &Path) {
        match workshop_at(path) {
            Ok((workshop, _)) => {
                let change = ShopChange::of("the workshop", workshop);
                self.commands.push(Command::Workshop(Box::new(change)));
            }
            Err(error) => self.complain(error.to_string()),
        }
    }

    /// Saves the workshop as it stands in a file of its own.
    pub fn save_copy_of_workshop(&mut self, path: &Path) {
        let Some(document) = &self.document else {
            return;
        };
        match save_workshop(document.workshop(), path) {
            Ok(_) => self.say(format!("The workshop was saved to {}.", shown(path))),
            Err(error) => self.complain(error.to_string()),
        }
    }

    /// Keeps what the bench found in the workshop beside the commission, and works the commission out again.
    pub(super) fn keep_found(&mut self) {
        let Some((workshop, sentence)) = self.rooms.bench().keep.take() else {
            return;
        };
        let Some(document) = &mut self.document else {
            return;
        };
        let Some(path) = document.path.clone() else {
            self.complain(words::SAVE_FIRST);
            return;
        };
        let change = ShopChange::of("what the bench found", workshop);
        if let Err(refused) = document.apply(&Command::Workshop(Box::new(change))) {
            self.complain(refused.to_string());
            return;
        }
        if self.write_workshop_beside(&path) {
            let path = path.with_file_name(WORKSHOP_FILE);
            self.say(format!("{sentence} Kept in {}.", shown(&path)));
        }
    }

    /// Saves to the commission's file, or asks for one.
    pub fn save(&mut self) {
        match self
            .document
            .as_ref()
            .and_then(|document| document.path.clone())
        {
            Some(path) => self.save_to(&path),
            None if self.document.is_some() => self.ask(Purpose::SaveAs),
            None => {}
        }
    }

    /// Saves the commission to a file, whatever stands there; `true` if that went well.
    pub(super) fn write_to(&mut self, path: &Path) -> bool {
        let Some(document) = &mut self.document else {
            return false;
        };
        match save(document.commission(), document.path.as_deref(), path) {
            Ok(saved) => {
                document.saved_as(path, Arc::new(saved.commission), saved.sha256);
                self.say(format!("Saved to {}.", shown(path)));
                if self.write_workshop_beside(path) {
                    self.forget_kept();
                }
                true
            }
            Err(error) => {
                self.complain(error.to_string());
                false
            }
        }
    }

    /// Saves the print as a picture in the background.
    pub fn save_picture(&mut self, path: PathBuf) {
        let present =
            self.print.made_from() == self.job.made_from() && self.present_job().is_some();
        let Some(Ok(fount)) = self.print.result().filter(|_| present) else {
            self.complain(words::NO_PRINT);
            return;
        };
        let sheet = self.rooms.look_of_proof().sheet(fount);
        let work = move |_: &_| saved_picture(&sheet, &path);
        self.picture = Some(Worker::start("picture", Arc::clone(&self.wake), work));
    }

    pub(super) fn poll_picture(&mut self) {
        let Some(result) = self.picture.as_mut().and_then(Worker::poll) else {
            return;
        };
        self.picture = None;
        match result {
            Ok(Ok(sentence)) => self.say(sentence),
            Ok(Err(sentence)) => self.complain(sentence),
            Err(broken) => self.complain(broken.to_string()),
        }
    }

    /// The folder of the commission, or of its font.
    fn folder(&self) -> Option<PathBuf> {
        let document = self.document.as_ref()?;
        let file = match &document.path {
            Some(path) => path.clone(),
            None => PathBuf::from(&document.commission().faces.first()?.file),
        };
        file.parent().map(Path::to_owned)
    }

    /// The folder proposed for an export: beside the commission, named like it.
    pub(super) fn proposed_folder(&self) -> PathBuf {
        let document = self.document.as_ref();
        let path = document.and_then(|document| document.path.as_ref());
        let stem = path.and_then(|path| path.file_stem()).map_or_else(
            || "programs".to_owned(),
            |stem| format!("{} programs", stem.to_string_lossy()),
        );
        self.folder().unwrap_or_default().join(stem)
    }
}

fn saved_picture(sheet: &Sheet, path: &Path) -> Result<String, String> {
    let bytes = picture(sheet, PictureKind::of(path)?, DPI)?;
    write_atomic(path, &bytes).map_err(|error| error.to_string())?;
    Ok(format!("The proof was saved to {}.", shown(path)))
}
