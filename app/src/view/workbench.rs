//! The whole window: document, selection, background work, and what is shown over the rooms.

use std::path::PathBuf;
use std::sync::Arc;

use cam_core::commission::Face;
use cam_core::cutter_set::CutterSets;
use cam_core::make::Job;
use cam_core::proof::impression::Fount;
use cam_core::quote::Quote;

use super::cased::chosen_face;
use super::tasks::{Asked, Purpose};
use super::{
    Desk, Wishes, bars, drop, export, ink, keeping, keys, leave, otherwise, over, papers, rooms,
    small, start, theme, tracing,
};
use crate::background::catalogue::Catalogue;
use crate::background::picture::printed;
use crate::background::read_back::{Running, running};
use crate::background::relief::{Finished, finished};
use crate::background::tasks::{Drawn, Known, Snapshot, drawn, made, priced_sets};
use crate::background::{LOOK_AGAIN, Latest, Wake, Worker};
use crate::files::home::Home;
use crate::files::keep::Keep;
use crate::files::open::Opened;
use crate::model::command::Command;
use crate::model::document::Document;
use crate::model::selection::{Room, Selection};
use crate::model::settings::Settings;

/// A sentence shown at the foot of the window until the next one.
#[derive(Clone, Debug)]
pub(super) struct Notice {
    pub text: String,
    pub good: bool,
}

/// The window.
pub struct Workbench {
    pub(super) document: Option<Document>,
    pub(super) selection: Selection,
    pub(super) drawn: Latest<Result<Drawn, String>>,
    pub(super) job: Latest<Result<Arc<Job>, String>>,
    pub(super) quote: Latest<Quote>,
    /// What the order as it stands costs, if all of its sorts are known.
    pub(super) at_once: Latest<Option<Quote>>,
    /// What is known of sorts that were made.
    pub(super) known: Known,
    pub(super) sets: Latest<Result<Arc<CutterSets>, String>>,
    pub(super) otherwise: otherwise::Pricing,
    pub(super) again: otherwise::Replacing,
    pub(super) tracing: tracing::Tracing,
    pub(super) papers: papers::Papers,
    pub(super) print: Latest<Result<Arc<Fount>, String>>,
    pub(super) course: Latest<Result<Running, String>>,
    pub(super) finished: Latest<Result<Finished, String>>,
    pub(super) catalogue: Latest<Result<Catalogue, String>>,
    /// The glyphs of another face, while the case shows that one.
    pub(super) other_catalogue: Latest<Result<Catalogue, String>>,
    /// The face that they were asked for.
    pub(super) other_face: Option<Face>,
    pub(super) opening: Option<Worker<Result<Opened, String>>>,
    pub(super) asked: Option<Asked>,
    /// Whether places of files are typed, for the system has no dialog to show.
    pub(super) types_places: bool,
    pub(super) export: export::Export,
    pub(super) picture: Option<Worker<Result<String, String>>>,
    pub(super) leaving: leave::Leaving,
    pub(super) keeping: keeping::Keeping,
    /// Where the window's own files lie, if anywhere.
    pub(super) home: Option<Home>,
    pub(super) settings: Settings,
    pub(super) over: over::Over,
    /// The line over the demonstration is shown.
    pub(super) shows_demo: bool,
    pub(super) notice: Option<Notice>,
    pub(super) commands: Vec<Command>,
    pub(super) faces: ink::Faces,
    pub(super) glyphs: ink::Glyphs,
    pub(super) rooms: rooms::States,
    /// The revision that background work was last asked for.
    asked_revision: Option<u64>,
    /// The revision whose job was last asked to be priced.
    pub(super) quoted_revision: Option<u64>,
    /// The revision whose job was last asked to be printed.
    printed_revision: Option<u64>,
    /// The revision and the plank whose course was last asked for.
    coursed: Option<(u64, usize)>,
    /// The revision and the plank whose finished surface was last asked for.
    finished_of: Option<(u64, usize)>,
    pub(super) wake: Wake,
}

impl Workbench {
    /// The window, with a font or commission if one is named. Unsaved work is kept in `keep`, if there is one.
    pub fn new(
        creation: &eframe::CreationContext<'_>,
        open: Option<PathBuf>,
        keep: Option<Keep>,
    ) -> Workbench {
        Workbench::at_home(creation, open, keep, None)
    }

    /// As [`Workbench::new`]; settings and reports of crashes are kept in `home`. Opened for the first time, it shows the demonstration.
    pub fn at_home(
        creation: &eframe::CreationContext<'_>,
        open: Option<PathBuf>,
        keep: Option<Keep>,
        home: Option<Home>,
    ) -> Workbench {
        theme::install(&creation.egui_ctx);
        let ctx = creation.egui_ctx.clone();
        let mut workbench = Workbench {
            document: None,
            selection: Selection::default(),
            drawn: Latest::default(),
            job: Latest::default(),
            quote: Latest::default(),
            at_once: Latest::default(),
            known: Known::default(),
            sets: Latest::default(),
            otherwise: otherwise::Pricing::default(),
            again: otherwise::Replacing::default(),
            tracing: tracing::Tracing::default(),
            papers: papers::Papers::default(),
            print: Latest::default(),
            course: Latest::default(),
            finished: Latest::default(),
            catalogue: Latest::default(),
            other_catalogue: Latest::default(),
            other_face: None,
            opening: None,
            asked: None,
            types_places: false,
            export: export::Export::default(),
            picture: None,
            leaving: leave::Leaving::default(),
            keeping: keeping::Keeping::new(keep),
            home: None,
            settings: Settings::default(),
            over: over::Over::default(),
            shows_demo: false,
            notice: None,
            commands: Vec::new(),
            faces: ink::Faces::default(),
            glyphs: ink::Glyphs::default(),
            rooms: rooms::States::default(),
            asked_revision: None,
            quoted_revision: None,
            printed_revision: None,
            coursed: None,
            finished_of: None,
            wake: Arc::new(move || ctx.request_repaint()),
        };
        workbench.look_for_leftovers();
        workbench.come_home(&creation.egui_ctx, home);
        match open {
            Some(path) => workbench.open(path),
            None => workbench.begin_first_minute(),
        }
        workbench
    }

    /// Whether everything that was asked for in the background has come.
    pub fn is_settled(&self) -> bool {
        self.opening.is_none()
            && !self.keeping.is_busy()
            && self.drawn.running().is_none()
            && self.job.running().is_none()
            && self.quote.running().is_none()
            && self.at_once.running().is_none()
            && self.sets.running().is_none()
            && self.otherwise.rows.running().is_none()
            && !self.again.is_running()
            && !self.tracing.is_running()
            && !self.papers.is_running()
            && self.print.running().is_none()
            && self.course.running().is_none()
            && self.finished.running().is_none()
            && !self.rooms.is_busy(self.selection.room)
            && self.catalogue.running().is_none()
            && self.other_catalogue.running().is_none()
            && self.picture.is_none()
            && !self.export.is_running()
    }

    /// What the maker chose for the window.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// Whether a room is shown.
    pub fn is_in(&self, room: Room) -> bool {
        self.document.is_some() && self.selection.room == room
    }

    /// Whether the commission is out of date and nothing is worked out.
    pub(super) fn can_work_again(&self) -> bool {
        self.document.is_some() && self.job.running().is_none() && self.present_job().is_none()
    }

    /// Whether the proof is printed, and from the commission as it stands.
    pub(super) fn has_present_print(&self) -> bool {
        let present = self.print.made_from() == self.job.made_from();
        present && self.present_job().is_some() && matches!(self.print.result(), Some(Ok(_)))
    }

    /// The open document.
    pub fn document(&self) -> Option<&Document> {
        self.document.as_ref()
    }

    /// The sentence at the foot of the window.
    pub fn notice(&self) -> Option<&str> {
        self.notice.as_ref().map(|notice| notice.text.as_str())
    }

    pub(super) fn say(&mut self, text: impl Into<String>) {
        let text = text.into();
        log::info!("{text}");
        self.notice = Some(Notice { text, good: true });
    }

    pub(super) fn complain(&mut self, text: impl Into<String>) {
        let text = text.into();
        log::warn!("{text}");
        self.notice = Some(Notice { text, good: false });
    }

    pub(super) fn snapshot(&self) -> Option<Snapshot> {
        self.document.as_ref().map(|document| Snapshot {
            commission: Arc::clone(document.commission()),
            workshop: Arc::clone(document.workshop()),
            fonts: Arc::clone(document.fonts()),
        })
    }

    /// The job, if it was made from the commission as it stands.
    pub(super) fn present_job(&self) -> Option<Arc<Job>> {
        let revision = self.document.as_ref()?.revision();
        let job = self.job.result()?.as_ref().ok()?;
        (self.job.made_from() == Some(revision)).then(|| Arc::clone(job))
    }

    /// Shows a document in place of the one that was open.
    pub(super) fn show_document(&mut self, document: Document) {
        // The demonstration shows what comes of an order; with one's own, one begins at the beginning.
        let room = if self.shows_demo {
            Room::Order
        } else {
            self.selection.room
        };
        self.shows_demo = false;
        if let Some(path) = &document.path {
            self.remember(&path.clone());
        }
        self.document = Some(document);
        self.selection = Selection {
            room,
            ..Selection::default()
        };
        self.notice = None;
        self.drawn.clear();
        self.job.clear();
        self.quote.clear();
        self.sets.clear();
        self.otherwise = otherwise::Pricing::default();
        self.papers = papers::Papers::default();
        self.print.clear();
        self.course.clear();
        self.coursed = None;
        self.finished.clear();
        self.finished_of = None;
        self.catalogue.clear();
        self.other_catalogue.clear();
        self.other_face = None;
        self.faces.clear();
        self.rooms = rooms::States::default();
        self.asked_revision = None;
        self.quoted_revision = None;
        self.at_once.clear();
        self.known = Known::default();
        self.printed_revision = None;
        self.request_catalogue();
    }

    /// Asks for sorts and job again if the commission has moved on.
    fn request_work(&mut self) {
        self.request_other_catalogue();
        let Some(revision) = self.document.as_ref().map(Document::revision) else {
            return;
        };
        if self.asked_revision == Some(revision) {
            return;
        }
        let Some(snapshot) = self.snapshot() else {
            return;
        };
        self.asked_revision = Some(revision);
        if self.document.as_ref().is_some_and(Document::orders_nothing) {
            self.drawn.clear();
            self.job.clear();
            return;
        }
        let whole = snapshot.clone();
        self.price_at_once(revision, snapshot.clone());
        self.drawn
            .request(revision, "sorts", Arc::clone(&self.wake), move |progress| {
                drawn(&snapshot, progress)
            });
        self.job
            .request(revision, "job", Arc::clone(&self.wake), move |progress| {
                made(&whole, progress)
            });
    }

    /// Works the commission out again after a stop.
    pub(super) fn work_again(&mut self) {
        self.asked_revision = None;
    }

    fn apply_commands(&mut self) {
        let commands = std::mem::take(&mut self.commands);
        let Some(document) = &mut self.document else {
            return;
        };
        let mut axes_changed = false;
        let mut error = None;
        for command in &commands {
            match document.apply(command) {
                Ok(()) => {
                    let face = matches!(
                        command,
                        Command::Variations { .. } | Command::FaceIndex { .. }
                    );
                    axes_changed |= face;
                }
                Err(refused) => error = Some(refused.to_string()),
            }
        }
        if let Some(error) = error {
            self.complain(error);
        } else if !commands.is_empty() {
            self.notice = None;
        }
        if axes_changed {
            self.request_catalogue();
        }
    }

    fn poll(&mut self, ctx: &egui::Context) {
        self.poll_opening();
        self.poll_recovering();
        self.poll_asked();
        self.poll_export();
        self.poll_picture();
        self.drawn.poll();
        self.job.poll();
        self.quote_job();
        self.quote.poll();
        self.at_once.poll();
        self.sets.poll();
        self.otherwise.rows.poll();
        self.poll_again();
        self.poll_tracing(ctx);
        self.papers.poll();
        self.print.poll();
        self.course.poll();
        self.finished.poll();
        self.catalogue.poll();
        self.other_catalogue.poll();
        if !self.is_settled() || self.asked.is_some() {
            ctx.request_repaint_after(LOOK_AGAIN);
        }
    }

    /// Whether nothing runs any more and there is a sentence in place of a result.
    fn has_failed(&self) -> bool {
        let drawn = self.drawn.broken().is_some() || matches!(self.drawn.result(), Some(Err(_)));
        let job = self.job.broken().is_some() || matches!(self.job.result(), Some(Err(_)));
        self.job.running().is_none() && (drawn || job)
    }

    /// Begins what a room asked for.
    fn grant(&mut self, wishes: Wishes) {
        if wishes.print {
            self.print_job();
        }
        if let Some(plank) = wishes.course {
            self.lay_course(plank);
        }
        if let Some(plank) = wishes.finished {
            self.finish_plank(plank);
        }
        if wishes.picture {
            self.ask(Purpose::PictureTo);
        }
        if wishes.open_readings {
            self.ask(Purpose::OpenReadings);
        }
        if wishes.save_readings {
            self.ask(Purpose::SaveReadings);
        }
        self.keep_found();
        if wishes.open_workshop {
            self.ask(Purpose::OpenWorkshop);
        }
        if wishes.save_workshop {
            self.ask(Purpose::SaveWorkshop);
        }
        self.grant_otherwise(&wishes);
        self.grant_papers(&wishes);
        if wishes.add_face {
            self.ask(Purpose::Face);
        }
        if wishes.name_drawing {
            self.ask(Purpose::Drawing);
        }
        if wishes.no_sets {
            self.sets.stop();
        }
        if wishes.sets {
            self.price_sets();
        }
    }

    /// Reads back what the blocks of the job print, once for each job.
    fn print_job(&mut self) {
        let (Some(revision), Some(Ok(job))) = (self.job.made_from(), self.job.result()) else {
            return;
        };
        if self.printed_revision == Some(revision) {
            return;
        }
        self.printed_revision = Some(revision);
        let job = Arc::clone(job);
        self.print
            .request(revision, "print", Arc::clone(&self.wake), move |progress| {
                printed(&job, progress)
            });
    }

    /// Lays out how the programs of a plank run, once for each job and plank.
    fn lay_course(&mut self, plank: usize) {
        let (Some(revision), Some(Ok(job))) = (self.job.made_from(), self.job.result()) else {
            return;
        };
        if self.coursed == Some((revision, plank)) {
            return;
        }
        self.coursed = Some((revision, plank));
        let job = Arc::clone(job);
        let work = move |progress: &_| running(&job, plank, progress);
        self.course
            .request(revision, "run", Arc::clone(&self.wake), work);
    }

    /// Reckons the finished surface of a plank, once for each job and plank.
    fn finish_plank(&mut self, plank: usize) {
        let (Some(revision), Some(Ok(job))) = (self.job.made_from(), self.job.result()) else {
            return;
        };
        if self.finished_of == Some((revision, plank)) {
            return;
        }
        self.finished_of = Some((revision, plank));
        let job = Arc::clone(job);
        let work = move |progress: &_| finished(&job, plank, progress);
        self.finished
            .request(revision, "finished", Arc::clone(&self.wake), work);
    }

    /// Prices the job, once for each.
    fn price_sets(&mut self) {
        let (Some(document), Some(snapshot)) = (&self.document, self.snapshot()) else {
            return;
        };
        let revision = document.revision();
        let work = move |progress: &_| priced_sets(&snapshot, progress);
        self.sets
            .request(revision, "sets of cutters", Arc::clone(&self.wake), work);
    }

    fn show_room(&mut self, ui: &mut egui::Ui) {
        let Some(document) = &self.document else {
            return;
        };
        let mut wishes = Wishes::default();
        let (face, glyphs) = match chosen_face(document, self.selection.face.as_deref()) {
            Some(face) => (Some(face), &self.other_catalogue),
            None => (document.commission().faces.first(), &self.catalogue),
        };
        let glyphs = glyphs.result().and_then(|found| found.as_ref().ok());
        let mut desk = Desk {
            cased: face.zip(glyphs),
            document,
            drawn: self.drawn.result().and_then(|drawn| drawn.as_ref().ok()),
            job: self.job.result().and_then(|job| job.as_ref().ok()),
            failed: self.has_failed(),
            job_is_old: self.job.made_from() != Some(document.revision()),
            catalogue: self
                .catalogue
                .result()
                .and_then(|found| found.as_ref().ok()),
            selection: &mut self.selection,
            faces: &mut self.faces,
            glyphs: &mut self.glyphs,
            print: self
                .print
                .result()
                .filter(|_| self.print.made_from() == self.job.made_from()),
            quote: self
                .quote
                .result()
                .filter(|_| self.quote.made_from() == self.job.made_from()),
            at_once: self
                .at_once
                .result()
                .and_then(Option::as_ref)
                .filter(|_| self.at_once.made_from() == Some(document.revision())),
            sets: &self.sets,
            otherwise: &self.otherwise.rows,
            papers: self.papers.of(self.job.made_from()),
            course: self
                .course
                .result()
                .filter(|_| self.course.made_from() == self.job.made_from()),
            finished: self
                .finished
                .result()
                .filter(|_| self.finished.made_from() == self.job.made_from()),
            wishes: &mut wishes,
            commands: &mut self.commands,
        };
        let rooms = &mut self.rooms;
        small::show(ui, desk.selection.room, |ui| {
            rooms::show(ui, &mut desk, rooms)
        });
        self.grant(wishes);
    }
}

impl eframe::App for Workbench {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        self.speak();
        self.poll(ctx);
        self.take_dropped(ctx);
        self.request_work();
    }

    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.speak();
        keys::take(self, ui);
        bars::rooms(self, ui);
        start::demo_strip(self, ui);
        bars::foot(self, ui);
        if self.document.is_some() {
            self.show_room(ui);
        } else {
            start::show(self, ui);
        }
        export::show(self, ui);
        tracing::show(self, ui);
        leave::show(self, ui);
        keeping::show(self, ui);
        over::show(self, ui);
        drop::show(ui);
        self.apply_commands();
        self.keep_unsaved();
        self.request_work();
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.end_keeping();
        self.export.finish();
        if let Some(picture) = self.picture.take() {
            picture.finish();
        }
    }
}
