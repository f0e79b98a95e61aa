//! Opening, saving and asking for files: each on a thread of its own.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use cam_core::proof::impression::Sheet;

use super::words;
use super::workbench::Workbench;
use crate::background::Worker;
use crate::background::picture::{DPI, PictureKind, picture};
use crate::files::open::{WORKSHOP_FILE, open_as, save, save_workshop, workshop_at};
use crate::files::{read_text, shown, write_atomic};
use crate::model::command::Command;
use crate::model::shop::ShopChange;

/// Names that are proposed for new files.
const NEW_NAME: &str = "commission.json";
const PICTURE_NAME: &str = "proof.pdf";
const READINGS_NAME: &str = "readings.txt";
const PAPER_NAME: &str = "paper.pdf";

/// Endings of fonts, and of drawings and scans.
const FONT_ENDINGS: [&str; 4] = ["ttf", "otf", "ttc", "otc"];
const DRAWING_ENDINGS: [&str; 7] = ["svg", "dxf", "png", "jpg", "jpeg", "tif", "tiff"];

/// No maker closes a dialog sooner than this: then the system had none to show.
const SOONEST: Duration = Duration::from_millis(300);

/// What a file dialog is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    Open,
    OpenFont,
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

impl Purpose {
    /// What the dialog is called.
    pub(super) fn title(self) -> words::Text {
        self.said().0
    }

    /// Whether a new file is written at the place that is asked for.
    pub(super) fn is_new_file(self) -> bool {
        match self {
            Purpose::SaveAs
            | Purpose::PictureTo
            | Purpose::SaveReadings
            | Purpose::SaveWorkshop
            | Purpose::Paper => true,
            Purpose::Open
            | Purpose::OpenFont
            | Purpose::ExportTo
            | Purpose::OpenReadings
            | Purpose::OpenWorkshop
            | Purpose::MadeFolder
            | Purpose::Drawing
            | Purpose::Face
            | Purpose::AllPapers => false,
        }
    }

    /// The title, and what the files are called.
    fn said(self) -> (words::Text, words::Text) {
        use words as w;
        match self {
            Purpose::Open => (w::OPEN_TITLE, w::FONTS_AND_COMMISSIONS),
            Purpose::OpenFont => (w::FONT_TITLE, w::FONTS),
            Purpose::SaveAs => (w::SAVE_TITLE, w::COMMISSION),
            Purpose::ExportTo => (w::EXPORT_TO_TITLE, w::FOLDER),
            Purpose::PictureTo => (w::PICTURE_TITLE, w::PICTURES),
            Purpose::OpenReadings => (w::OPEN_READINGS_TITLE, w::READINGS),
            Purpose::SaveReadings => (w::SAVE_READINGS_TITLE, w::READINGS),
            Purpose::Paper => (w::PAPER_TITLE, w::PAPER_KINDS),
            Purpose::AllPapers => (w::ALL_PAPERS_TITLE, w::FOLDER),
            Purpose::Face => (w::FACE_TITLE, w::FONTS),
            Purpose::Drawing => (w::DRAWING_TITLE, w::DRAWINGS),
            Purpose::MadeFolder => (w::MADE_TITLE, w::FOLDER),
            Purpose::OpenWorkshop => (w::TAKE_OVER_TITLE, w::WORKSHOP),
            Purpose::SaveWorkshop => (w::COPY_WORKSHOP_TITLE, w::WORKSHOP),
        }
    }
}

/// A file dialog that is open.
pub(super) struct Asked {
    purpose: Purpose,
    answer: Worker<Answer>,
}

/// What came of a file dialog.
enum Answer {
    Chosen(PathBuf),
    /// The maker closed it.
    Closed,
    /// The system has none to show.
    NotShown,
}

impl Workbench {
    /// Opens a font or a commission in the background.
    pub fn open(&mut self, path: PathBuf) {
        let settings = self.settings.clone();
        self.opening = Some(Worker::start("open", Arc::clone(&self.wake), move |_| {
            open_as(&path, &settings).map_err(|error| error.to_string())
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

    /// From now on places of files are typed in the window, as on systems that have no dialog to show.
    pub fn type_places(&mut self) {
        self.types_places = true;
    }

    /// Opens a file dialog.
    pub(super) fn ask(&mut self, purpose: Purpose) {
        if self.types_places {
            self.over.ask_for_place(purpose, self.folder());
            return;
        }
        if self.asked.is_some() {
            return;
        }
        let folder = self.folder();
        // The dialog runs on a thread of its own, so it is told in the language of this one.
        let (title, files) = purpose.said();
        let (title, files) = (String::from(title), String::from(files));
        let answer = Worker::start("dialog", Arc::clone(&self.wake), move |_| {
            let asked_at = Instant::now();
            let mut dialog = rfd::FileDialog::new();
            if let Some(folder) = folder {
                dialog = dialog.set_directory(folder);
            }
            let dialog = dialog.set_title(title);
            let of = |endings: &[&str]| dialog.clone().add_filter(files.as_str(), endings);
            let chosen = match purpose {
                Purpose::Open => of(&[&["json"], &FONT_ENDINGS[..]].concat()).pick_file(),
                Purpose::OpenFont | Purpose::Face => of(&FONT_ENDINGS).pick_file(),
                Purpose::Drawing => of(&DRAWING_ENDINGS).pick_file(),
                Purpose::OpenReadings => of(&["txt"]).pick_file(),
                Purpose::OpenWorkshop => of(&["json"]).pick_file(),
                Purpose::SaveAs => of(&["json"]).set_file_name(NEW_NAME).save_file(),
                Purpose::PictureTo => {
                    let dialog = of(&["pdf", "svg", "png"]);
                    dialog.set_file_name(PICTURE_NAME).save_file()
                }
                Purpose::SaveReadings => of(&["txt"]).set_file_name(READINGS_NAME).save_file(),
                Purpose::Paper => of(&["pdf", "txt"]).set_file_name(PAPER_NAME).save_file(),
                Purpose::SaveWorkshop => of(&["json"]).set_file_name(WORKSHOP_FILE).save_file(),
                Purpose::ExportTo | Purpose::AllPapers | Purpose::MadeFolder => {
                    dialog.pick_folder()
                }
            };
            match chosen {
                Some(path) => Answer::Chosen(path),
                None if asked_at.elapsed() < SOONEST => Answer::NotShown,
                None => Answer::Closed,
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
        match answer {
            Err(broken) => self.complain(broken.to_string()),
            Ok(Answer::Closed) => {}
            Ok(Answer::NotShown) => {
                self.type_places();
                self.ask(purpose);
            }
            Ok(Answer::Chosen(path)) => self.take_place(purpose, path),
        }
    }

    /// Goes on with the file or folder that was asked for.
    pub(super) fn take_place(&mut self, purpose: Purpose, path: PathBuf) {
        match purpose {
            Purpose::Open | Purpose::OpenFont => self.open(path),
            Purpose::SaveAs => self.save_to(&path),
            Purpose::ExportTo => self.export.choose(&path),
            Purpose::PictureTo => self.save_picture(path),
            Purpose::OpenReadings => self.open_readings(&path),
            Purpose::SaveReadings => self.save_readings(&path),
            Purpose::Paper => self.save_asked_paper(&path),
            Purpose::AllPapers => self.save_papers(&path),
            Purpose::Drawing | Purpose::Face => self.name_file(path),
            Purpose::MadeFolder => {
                self.rooms.order().again.made = shown(&path);
            }
            Purpose::OpenWorkshop => self.take_over_workshop(&path),
            Purpose::SaveWorkshop => self.save_copy_of_workshop(&path),
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
            Ok(()) => self.say(words::READINGS_SAVED.with(&[&shown(path)])),
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
            Ok(_) => self.say(words::WORKSHOP_SAVED.with(&[&shown(path)])),
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
            self.complain(words::SAVE_COMMISSION_FIRST);
            return;
        };
        let change = ShopChange::of("what the bench found", workshop);
        if let Err(refused) = document.apply(&Command::Workshop(Box::new(change))) {
            self.complain(refused.to_string());
            return;
        }
        if self.write_workshop_beside(&path) {
            let path = path.with_file_name(WORKSHOP_FILE);
            self.say(words::KEPT_IN.with(&[&sentence, &shown(&path)]));
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
                self.remember(path);
                self.say(words::SAVED_TO.with(&[&shown(path)]));
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
