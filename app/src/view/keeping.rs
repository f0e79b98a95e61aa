//! Keeping unsaved work, finding it again, and asking when a file has a second owner.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use cam_core::workshop::Workshop;
use egui::Ui;

use super::fields::remark;
use super::leave::Then;
use super::theme;
use super::words::{self, Text, counted};
use super::workbench::Workbench;
use crate::background::Worker;
use crate::background::keeper::Keeper;
use crate::files::journal::Entry;
use crate::files::keep::{Claim, ClaimError, Keep, Leftover};
use crate::files::open::{
    Opened, WORKSHOP_FILE, as_copy, differs, is_same, open_leftover, save_workshop, second_name,
    sha256_at, workshop_at,
};
use crate::files::shown;
use crate::model::command::Command;
use crate::model::document::Document;
use crate::model::shop::ShopChange;

/// Width of these questions, px.
const WIDTH: f32 = 520.0;

/// What is kept, and what is being asked.
#[derive(Default)]
pub(super) struct Keeping {
    keep: Option<Keep>,
    /// The open commission's claim, and the keeper of its journal.
    claim: Option<(Claim, Keeper)>,
    /// The revision that the journal was last told of.
    told: Option<u64>,
    /// Work of earlier sessions that is still to be decided about.
    leftovers: Vec<Leftover>,
    /// A commission that is opened once the first of the leftovers is decided about.
    waiting: Option<Opened>,
    recovering: Option<(Leftover, Worker<Result<Opened, String>>)>,
    /// A commission that another window has open, and how that is said.
    taken: Option<(Opened, String)>,
    /// The file that another program changed.
    changed: Option<PathBuf>,
    /// The workshop's file that is another than the commission was opened with.
    other_workshop: Option<PathBuf>,
}

impl Keeping {
    pub(super) fn new(keep: Option<Keep>) -> Keeping {
        Keeping {
            keep,
            ..Keeping::default()
        }
    }

    pub(super) fn is_busy(&self) -> bool {
        self.recovering.is_some()
    }

    /// Ends the keeping of the open commission. What is given up is forgotten; anything else is found again.
    pub(super) fn end(&mut self, given_up: bool) {
        if let Some((_claim, keeper)) = self.claim.take()
            && given_up
        {
            keeper.forget();
        }
    }
}

impl Workbench {
    /// Looks for work that earlier sessions left.
    pub(super) fn look_for_leftovers(&mut self) {
        let Some(keep) = &self.keeping.keep else {
            return;
        };
        match keep.leftovers() {
            Ok(found) => self.keeping.leftovers = found,
            Err(error) => self.complain(error.to_string()),
        }
    }

    /// Claims what was opened and shows it, or asks first.
    pub(super) fn arrive(&mut self, opened: Opened) {
        let Some(path) = opened.path.clone() else {
            let claim = self.keeping.keep.as_ref().map(Keep::claim_new);
            return self.show_claimed(opened, claim.transpose());
        };
        let same = |leftover: &Leftover| {
            let file = leftover.entry.file.as_deref();
            file.is_some_and(|file| is_same(file, &path))
        };
        if let Some(place) = self.keeping.leftovers.iter().position(same) {
            self.keeping.leftovers.swap(0, place);
            self.keeping.waiting = Some(opened);
            return;
        }
        match self.claim(&path) {
            Ok(Some(Err(leftover))) => {
                self.keeping.leftovers.insert(0, leftover);
                self.keeping.waiting = Some(opened);
            }
            Ok(Some(Ok(claim))) => self.show_claimed(opened, Ok(Some(claim))),
            Ok(None) => self.show_claimed(opened, Ok(None)),
            Err(ClaimError::Taken { owner }) => {
                let sentence = ClaimError::Taken { owner }.to_string();
                self.keeping.taken = Some((opened, sentence));
            }
            Err(error @ ClaimError::NoJournal(_)) => self.show_claimed(opened, Err(error)),
        }
    }

    /// A claim on a file, or the work that was left for it; `None` if nothing is kept at all.
    fn claim(&self, path: &Path) -> Result<Option<Result<Claim, Leftover>>, ClaimError> {
        let Some(keep) = &self.keeping.keep else {
            return Ok(None);
        };
        let claim = keep.claim(path)?;
        Ok(Some(match keep.leftover(claim) {
            Ok(leftover) => Err(leftover),
            Err(claim) => Ok(claim),
        }))
    }

    fn show_claimed(&mut self, opened: Opened, claim: Result<Option<Claim>, ClaimError>) {
        self.end_keeping();
        let document = Document::new(
            opened.commission,
            opened.path,
            opened.fonts,
            opened.workshop,
        )
        .read_as(opened.file_sha256, opened.shop_sha256);
        self.show_document(document);
        match claim {
            Ok(claim) => self.begin_keeping(claim),
            Err(error) => self.complain(error.to_string()),
        }
    }

    fn begin_keeping(&mut self, claim: Option<Claim>) {
        self.keeping.told = self.document.as_ref().map(Document::revision);
        self.keeping.claim = claim.map(|claim| {
            let keeper = Keeper::start(claim.journal().to_owned(), Arc::clone(&self.wake));
            (claim, keeper)
        });
    }

    /// Ends the keeping of the commission that is left.
    pub(super) fn end_keeping(&mut self) {
        let given_up = !self.has_unsaved() || self.leaves_unsaved();
        self.keeping.end(given_up);
    }

    /// Tells the journal of what has changed.
    pub(super) fn keep_unsaved(&mut self) {
        let (Some(document), Some((_, keeper))) = (&self.document, &self.keeping.claim) else {
            return;
        };
        if let Some(sentence) = keeper.trouble() {
            self.complain(sentence);
            return;
        }
        let revision = document.revision();
        if self.keeping.told == Some(revision) {
            return;
        }
        self.keeping.told = Some(revision);
        if self.has_unsaved() {
            keeper.keep(Entry {
                file: document.path.clone(),
                file_sha256: document.file_sha256().map(str::to_owned),
                commission: document.commission().as_ref().clone(),
                workshop: document
                    .is_workshop_changed()
                    .then(|| document.workshop().as_ref().clone()),
            });
        } else {
            keeper.forget();
        }
    }

    /// Saves the commission to a file, if nobody else has it or has changed it; asks or says so if not.
    pub fn save_to(&mut self, path: &Path) {
        let Some(document) = &self.document else {
            return;
        };
        let own = document.path.as_deref();
        if own.is_some_and(|own| is_same(own, path)) {
            let changed = document
                .file_sha256()
                .is_some_and(|sha256| differs(path, sha256));
            if changed {
                self.keeping.changed = Some(path.to_owned());
            } else {
                self.write_to(path);
            }
            return;
        }
        match self.claim(path) {
            Ok(Some(Ok(claim))) => {
                if self.write_to(path) {
                    self.begin_keeping(Some(claim));
                }
            }
            Ok(Some(Err(leftover))) => {
                self.keeping.leftovers.insert(0, leftover);
                self.complain(words::DECIDE_FIRST);
            }
            Err(error @ ClaimError::Taken { .. }) => self.complain(error.to_string()),
            Ok(None) | Err(ClaimError::NoJournal(_)) => {
                self.write_to(path);
            }
        }
    }

    /// Saves the workshop beside a commission's file, if it is to be saved there; `false` if it was not, and asks or says why.
    pub(super) fn write_workshop_beside(&mut self, commission: &Path) -> bool {
        let Some(document) = &self.document else {
            return false;
        };
        let path = commission.with_file_name(WORKSHOP_FILE);
        let on_disk = sha256_at(&path);
        let (workshop, known) = (document.workshop(), document.shop_sha256());
        if on_disk.is_none() && known.is_none() && **workshop == Workshop::starting() {
            // A new workshop is what opening takes where there is no file.
            return true;
        }
        // One that no file holds yet may be new and yet have the maker's own router.
        let held = on_disk.is_some() || known.is_some();
        if held && on_disk.as_deref() == known && !document.is_workshop_changed() {
            return true;
        }
        match workshop_at(&path) {
            Ok((there, sha256)) if there == **workshop => {
                if let Some(document) = &mut self.document {
                    document.workshop_saved(Some(sha256));
                }
                true
            }
            Ok(_) | Err(_) if on_disk.is_some() && on_disk.as_deref() != known => {
                self.keeping.other_workshop = Some(path);
                false
            }
            Ok(_) | Err(_) => self.write_workshop(&path),
        }
    }

    /// Saves the workshop, whatever stands there; `true` if that went well.
    fn write_workshop(&mut self, path: &Path) -> bool {
        let Some(document) = &mut self.document else {
            return false;
        };
        match save_workshop(document.workshop(), path) {
            Ok(sha256) => {
                document.workshop_saved(Some(sha256));
                true
            }
            Err(error) => {
                self.complain(error.to_string());
                false
            }
        }
    }

    /// Goes on with the workshop that stands in a file; a change that can be taken back.
    fn take_workshop_of(&mut self, path: &Path) {
        let Some(document) = &mut self.document else {
            return;
        };
        let taken = workshop_at(path).map_err(|error| error.to_string());
        let taken = taken.and_then(|(workshop, sha256)| {
            let change = ShopChange::of("the workshop", workshop);
            let command = Command::Workshop(Box::new(change));
            let applied = document.apply(&command);
            applied.map_err(|refused| refused.to_string())?;
            document.workshop_saved(Some(sha256));
            Ok(())
        });
        match taken {
            Ok(()) => self.say(words::WORKSHOP_USED.with(&[&shown(path)])),
            Err(sentence) => self.complain(sentence),
        }
    }

    /// Notes that everything is saved.
    pub(super) fn forget_kept(&mut self) {
        self.keeping.told = self.document.as_ref().map(Document::revision);
        if let Some((_, keeper)) = &self.keeping.claim {
            keeper.forget();
        }
    }

    /// Opens the first of the leftovers.
    pub(super) fn take_up(&mut self) {
        if self.keeping.leftovers.is_empty() || self.keeping.recovering.is_some() {
            return;
        }
        self.keeping.waiting = None;
        let leftover = self.keeping.leftovers.remove(0);
        let entry = leftover.entry.clone();
        let worker = Worker::start("recover", Arc::clone(&self.wake), move |_| {
            open_leftover(&entry).map_err(|error| error.to_string())
        });
        self.keeping.recovering = Some((leftover, worker));
    }

    pub(super) fn poll_recovering(&mut self) {
        let Some((_, worker)) = &mut self.keeping.recovering else {
            return;
        };
        let Some(result) = worker.poll() else {
            return;
        };
        let Some((leftover, _)) = self.keeping.recovering.take() else {
            return;
        };
        match result {
            Ok(Ok(opened)) => {
                self.end_keeping();
                let on_disk = opened.on_disk.map(Arc::new);
                let document = Document::new(
                    opened.commission,
                    opened.path,
                    opened.fonts,
                    opened.workshop,
                )
                .read_as(opened.file_sha256, opened.shop_sha256)
                .recovered(on_disk, opened.shop_on_disk.map(Arc::new));
                self.show_document(document);
                self.begin_keeping(Some(leftover.claim));
            }
            // What was kept stays where it is, and is found again.
            Ok(Err(sentence)) => self.complain(sentence),
            Err(broken) => self.complain(broken.to_string()),
        }
    }

    fn put_away(&mut self) {
        let Some(keep) = &self.keeping.keep else {
            return;
        };
        let leftover = self.keeping.leftovers.remove(0);
        match keep.put_away(&leftover) {
            Ok(path) => {
                drop(leftover);
                let sentence = words::WAS_PUT_AWAY.with(&[&shown(&path)]);
                if let Some(opened) = self.keeping.waiting.take() {
                    self.arrive(opened);
                }
                self.say(sentence);
            }
            Err(error) => {
                self.keeping.leftovers.insert(0, leftover);
                self.complain(error.to_string());
            }
        }
    }
}

impl Workbench {
    /// Whether a question is open that has to be answered first.
    pub(super) fn is_asking(&self) -> bool {
        self.is_asking_to_leave()
            || self.keeping.changed.is_some()
            || self.keeping.taken.is_some()
            || self.keeping.other_workshop.is_some()
            || !self.keeping.leftovers.is_empty()
    }
}

/// Shows the one question that is open, if one is.
pub(super) fn show(workbench: &mut Workbench, ui: &mut Ui) {
    if workbench.opening.is_some() || workbench.is_asking_to_leave() {
        return;
    }
    if workbench.keeping.changed.is_some() {
        ask_changed(workbench, ui);
    } else if workbench.keeping.other_workshop.is_some() {
        ask_other_workshop(workbench, ui);
    } else if workbench.keeping.taken.is_some() {
        ask_taken(workbench, ui);
    } else if !workbench.keeping.leftovers.is_empty() && !workbench.keeping.is_busy() {
        ask_leftover(workbench, ui);
    }
}

/// A question with its answers; the place of the one that was chosen.
fn ask(ui: &mut Ui, id: &str, lines: &[String], answers: &[(Text, Option<Text>)]) -> Option<usize> {
    let mut chosen = None;
    theme::over(ui, id).show(ui, |ui| {
        ui.set_width(WIDTH.min(ui.ctx().content_rect().width() - 60.0));
        for (place, line) in lines.iter().enumerate() {
            if place == 0 {
                ui.label(line);
            } else {
                remark(ui, line);
            }
        }
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            for (place, (answer, hint)) in answers.iter().enumerate() {
                let button = ui.button(*answer);
                let button = match hint {
                    None => button,
                    Some(hint) => button.on_hover_text(*hint),
                };
                if button.clicked() {
                    chosen = Some(place);
                }
            }
        });
    });
    chosen
}

fn ask_leftover(workbench: &mut Workbench, ui: &mut Ui) {
    let Some(leftover) = workbench.keeping.leftovers.first() else {
        return;
    };
    let lines = in_words(&leftover.entry);
    let mut answers = vec![
        (words::TAKE_UP, None),
        (words::PUT_AWAY, Some(words::PUT_AWAY_HINT)),
    ];
    if workbench.keeping.waiting.is_none() {
        answers.push((words::LATER, None));
    }
    match ask(ui, "leftover", &lines, &answers) {
        Some(0) => workbench.ask_to_leave(Then::TakeUp),
        Some(1) => workbench.put_away(),
        Some(_) => workbench.keeping.leftovers.clear(),
        None => {}
    }
}

/// What was found, in lines.
fn in_words(entry: &Entry) -> Vec<String> {
    let commission = &entry.commission;
    let title = match commission.title.as_str() {
        "" => words::UNTITLED_COMMISSION.into(),
        title => format!("“{title}”"),
    };
    let sorts: u32 = commission.bill.iter().map(|line| line.count).sum();
    let mut lines = vec![
        words::FOUND.into(),
        words::FOUND_SIZE.with(&[
            &title,
            &commission.lines.to_string(),
            &counted(sorts as usize, words::SORT, words::SORTS),
        ]),
    ];
    match &entry.file {
        None => lines.push(words::NEVER_SAVED.into()),
        Some(file) => {
            lines.push(words::BELONGS.with(&[&shown(file)]));
            if entry.is_out_of_step() {
                lines.push(words::CHANGED_SINCE.into());
            }
        }
    }
    lines
}

fn ask_taken(workbench: &mut Workbench, ui: &mut Ui) {
    let Some((_, sentence)) = &workbench.keeping.taken else {
        return;
    };
    let lines = [sentence.clone(), words::TWO_WINDOWS.into()];
    let answers = [(words::OPEN_COPY, None), (words::DO_NOT_OPEN, None)];
    match ask(ui, "taken", &lines, &answers) {
        Some(0) => {
            if let Some((opened, _)) = workbench.keeping.taken.take() {
                workbench.arrive(as_copy(opened));
            }
        }
        Some(_) => workbench.keeping.taken = None,
        None => {}
    }
}

fn ask_other_workshop(workbench: &mut Workbench, ui: &mut Ui) {
    let Some(path) = workbench.keeping.other_workshop.clone() else {
        return;
    };
    let lines = [
        words::OTHER_WORKSHOP.with(&[&shown(&path)]),
        words::REPLACE_WORKSHOP.into(),
        words::TAKE_WORKSHOP.into(),
    ];
    let answers = [
        (words::REPLACE, None),
        (words::TAKE_THAT, None),
        (words::NOT_NOW, None),
    ];
    let chosen = ask(ui, "other workshop", &lines, &answers);
    if chosen.is_some() {
        workbench.keeping.other_workshop = None;
    }
    match chosen {
        Some(0) => {
            if workbench.write_workshop(&path) {
                workbench.forget_kept();
                workbench.say(words::SAVED_TO.with(&[&shown(&path)]));
            }
        }
        Some(1) => workbench.take_workshop_of(&path),
        Some(_) | None => {}
    }
}

fn ask_changed(workbench: &mut Workbench, ui: &mut Ui) {
    let Some(path) = workbench.keeping.changed.clone() else {
        return;
    };
    let second = second_name(&path);
    let lines = [
        words::FILE_CHANGED.with(&[&shown(&path)]),
        words::KEEP_BOTH_HOW.with(&[&shown(&second)]),
        words::REPLACE_HOW.with(&[&shown(&path)]),
    ];
    let answers = [
        (words::KEEP_BOTH, None),
        (words::REPLACE, None),
        (words::NOT_NOW, None),
    ];
    let chosen = ask(ui, "changed", &lines, &answers);
    if chosen.is_some() {
        workbench.keeping.changed = None;
    }
    match chosen {
        Some(0) => workbench.save_to(&second),
        Some(1) => {
            workbench.write_to(&path);
        }
        Some(_) | None => {}
    }
}
