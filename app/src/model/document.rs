//! The open commission, its fonts and workshop, and its revision.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use cam_core::commission::Commission;
use cam_core::make::Fonts;
use cam_core::workshop::Workshop;

use super::apply::{ApplyError, apply};
use super::command::Command;
use super::history::History;

/// Everything that undo takes back and redo makes again.
#[derive(Clone, Debug)]
pub struct State {
    commission: Arc<Commission>,
    workshop: Arc<Workshop>,
    fonts: Arc<Fonts>,
}

/// The workshop's file as far as it is known here.
#[derive(Clone, Debug)]
struct ShopFile {
    /// What it held when it was last read or written; where there is no file, the workshop that was begun with.
    workshop: Arc<Workshop>,
    /// SHA-256 of it; `None` where there was none.
    sha256: Option<String>,
}

/// The open commission with everything needed to work from it.
#[derive(Clone, Debug)]
pub struct Document {
    state: State,
    saved: Option<Arc<Commission>>,
    shop: ShopFile,
    history: History<State>,
    revision: u64,
    file_sha256: Option<String>,
    /// The commission's file, once it has one.
    pub path: Option<PathBuf>,
}

impl Document {
    /// A document from a commission; `path` is its file, if it came from one.
    pub fn new(
        commission: Commission,
        path: Option<PathBuf>,
        fonts: Fonts,
        workshop: Workshop,
    ) -> Document {
        let state = State {
            commission: Arc::new(commission),
            workshop: Arc::new(workshop),
            fonts: Arc::new(fonts),
        };
        Document {
            saved: path.is_some().then(|| Arc::clone(&state.commission)),
            shop: ShopFile {
                workshop: Arc::clone(&state.workshop),
                sha256: None,
            },
            state,
            history: History::default(),
            revision: 1,
            file_sha256: None,
            path,
        }
    }

    /// The same, with the SHA-256 of its file and of its workshop's file as they were read.
    pub fn read_as(mut self, file_sha256: Option<String>, shop_sha256: Option<String>) -> Document {
        self.file_sha256 = file_sha256;
        self.shop.sha256 = shop_sha256;
        self
    }

    /// The same as work that was found again: it is unsaved, and can be taken back to what the files hold.
    pub fn recovered(
        mut self,
        on_disk: Option<Arc<Commission>>,
        shop_on_disk: Option<Arc<Workshop>>,
    ) -> Document {
        if let Some(shop_on_disk) = shop_on_disk {
            self.shop.workshop = shop_on_disk;
        }
        if let Some(on_disk) = &on_disk {
            let before = State {
                commission: Arc::clone(on_disk),
                workshop: Arc::clone(&self.shop.workshop),
                fonts: Arc::clone(&self.state.fonts),
            };
            self.history.changed(before, "what was found again");
        }
        self.saved = on_disk;
        self.revision += 1;
        self
    }

    /// SHA-256 of its file when it was last read or written here.
    pub fn file_sha256(&self) -> Option<&str> {
        self.file_sha256.as_deref()
    }

    /// SHA-256 of its workshop's file when it was last read or written here; `None` where there was none.
    pub fn shop_sha256(&self) -> Option<&str> {
        self.shop.sha256.as_deref()
    }

    /// The commission as it stands.
    pub fn commission(&self) -> &Arc<Commission> {
        &self.state.commission
    }

    /// The workshop it is cut in, as it stands.
    pub fn workshop(&self) -> &Arc<Workshop> {
        &self.state.workshop
    }

    /// The bytes of its fonts and drawings.
    pub fn fonts(&self) -> &Arc<Fonts> {
        &self.state.fonts
    }

    /// Counts up with every change; a result made from an earlier revision is out of date.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Undo and redo.
    pub fn history(&self) -> &History<State> {
        &self.history
    }

    /// Whether neither letters nor spaces are ordered yet.
    pub fn orders_nothing(&self) -> bool {
        self.state.commission.bill.is_empty() && self.state.commission.spaces.is_empty()
    }

    /// Whether there is something that no file holds yet.
    pub fn is_changed(&self) -> bool {
        self.saved.as_ref() != Some(&self.state.commission) || self.is_workshop_changed()
    }

    /// Whether the workshop is another than its file holds.
    pub fn is_workshop_changed(&self) -> bool {
        !Arc::ptr_eq(&self.shop.workshop, &self.state.workshop)
            && self.shop.workshop != self.state.workshop
    }

    /// Applies a command. A command that changes nothing leaves no step to undo.
    ///
    /// # Errors
    /// [`ApplyError`], with the document as it was.
    pub fn apply(&mut self, command: &Command) -> Result<(), ApplyError> {
        let mut next = self.state.clone();
        let commission = apply(&self.state.commission, command)?;
        if commission != *next.commission {
            next.commission = Arc::new(commission);
        }
        match command {
            Command::Workshop(change) if change.workshop != *next.workshop => {
                next.workshop = Arc::new(change.checked(&next.workshop)?);
            }
            Command::AddFace { face, bytes } => next.keep_file(&face.id, bytes),
            Command::AddDrawing { drawing, bytes } => next.keep_file(&drawing.id, bytes),
            _ => {}
        }
        let is_same = Arc::ptr_eq(&next.commission, &self.state.commission)
            && Arc::ptr_eq(&next.workshop, &self.state.workshop);
        if !is_same {
            let before = std::mem::replace(&mut self.state, next);
            self.history.changed(before, command.name());
            self.revision += 1;
        }
        Ok(())
    }

    /// Takes the last change back; `false` if there is none.
    pub fn undo(&mut self) -> bool {
        let before = self.history.undo(&self.state);
        self.go_to(before)
    }

    /// Makes the change that was last taken back again; `false` if there is none.
    pub fn redo(&mut self) -> bool {
        let after = self.history.redo(&self.state);
        self.go_to(after)
    }

    fn go_to(&mut self, state: Option<State>) -> bool {
        let found = state.is_some();
        if let Some(state) = state {
            self.state = state;
            self.revision += 1;
        }
        found
    }

    /// Notes that a file now holds this commission, with faces named relative to that file.
    pub fn saved_as(&mut self, path: &Path, commission: Arc<Commission>, file_sha256: String) {
        self.path = Some(path.to_owned());
        self.file_sha256 = Some(file_sha256);
        if *self.state.commission != *commission {
            // Only the faces' file names differ, but the job file names them too.
            self.state.commission = Arc::clone(&commission);
            self.revision += 1;
        }
        self.saved = Some(commission);
    }

    /// Notes that the workshop's file now holds the workshop as it stands.
    pub fn workshop_saved(&mut self, sha256: Option<String>) {
        self.shop = ShopFile {
            workshop: Arc::clone(&self.state.workshop),
            sha256,
        };
    }
}

impl State {
    fn keep_file(&mut self, id: &str, bytes: &Arc<[u8]>) {
        Arc::make_mut(&mut self.fonts).insert(id.to_owned(), Arc::clone(bytes));
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    use std::collections::BTreeMap;

    use super::super::shop::{Named, Renamed, ShopChange};

    use cam_core::commission::*;
    use cam_core::measure::{Length, System};

    /// A commission with one face and an empty bill.
    pub(crate) fn commission() -> Commission {
        Commission {
            title: "Handbill".to_owned(),
            reference: String::new(),
            customer: Vec::new(),
            date: String::new(),
            system: System::Pica,
            lines: 10.0,
            height_to_paper: Length::mm(23.3172),
            wood: "hard-maple-end".to_owned(),
            faces: vec![Face {
                id: "main".to_owned(),
                file: "face.ttf".to_owned(),
                sha256: String::new(),
                index: 0,
                variations: BTreeMap::new(),
                permission: Permission::default(),
            }],
            drawings: Vec::new(),
            cut_apart: Vec::new(),
            borders: Vec::new(),
            fit: Fit::EmOnBody,
            block: BlockRules {
                body_step: BodyStep::Line,
                set: SetRule::Advance,
                rounding: SetRounding::Point,
                share: RoundingShare::Even,
                least_side: Length::mm(0.3),
                common_figure_set: false,
            },
            notches: None,
            colours: None,
            bill: Vec::new(),
            spaces: Vec::new(),
            cutting: Cutting {
                cutters: vec!["flat-3".to_owned()],
                tolerance: Length::mm(0.01),
                relief: Length::mm(2.5),
                least_relief: Length::mm(0.8),
                narrow_width: Length::mm(2.0),
                wide_width: Length::mm(8.0),
                roughing: Roughing::Quicker,
                allowance: Length::mm(0.1),
                corner_tolerance: Length::mm(0.2),
                direction: Direction::Climb,
                least_stroke: Length::mm(0.5),
                files: ProgramFiles::PerCutter,
            },
            planks: PlankRules {
                width: Length::mm(300.0),
                length: Length::mm(400.0),
                margin: Length::mm(10.0),
                lane: Length::mm(4.0),
                separation: Separation::Saw,
                ..PlankRules::starting()
            },
            replaces: None,
        }
    }

    fn workshop() -> Workshop {
        Workshop {
            machine: cam_core::workshop::Machine {
                name: "bench".to_owned(),
                travel_mm: [400.0, 600.0, 80.0],
                rapid_mm_min: [3000.0, 3000.0, 1000.0],
                max_feed_mm_min: [2000.0, 2000.0, 600.0],
                acceleration_mm_s2: [250.0, 250.0, 100.0],
                junction_deviation_mm: 0.02,
                spindle_rpm: [8000.0, 24000.0],
                clear_height_mm: 4.0,
                hop_height_mm: 1.0,
                holder_diameter_mm: 30.0,
                change_minutes: 3.0,
                minutes_factor: 1.0,
                minutes_per_run: 0.0,
                squareness: None,
                dialect: "plain".to_owned(),
            },
            cutters: Vec::new(),
            woods: Vec::new(),
            stock: Vec::new(),
            tables: Vec::new(),
            more_machines: Vec::new(),
            rates: cam_core::workshop::Rates::starting(),
            papers: cam_core::workshop::PaperChoice::default(),
        }
    }

    #[test]
    fn revisions_count_real_changes_only() {
        let mut document = Document::new(commission(), None, Fonts::new(), workshop());
        let first = document.revision();
        document.apply(&Command::Lines(10.0)).unwrap();
        assert_eq!(document.revision(), first);
        assert!(document.history().undoes().is_none());
        document.apply(&Command::Lines(12.0)).unwrap();
        assert_eq!(document.revision(), first + 1);
        assert!(document.apply(&Command::Lines(-1.0)).is_err());
        assert_eq!(document.commission().lines, 12.0);
        assert!(document.undo());
        assert_eq!(document.commission().lines, 10.0);
        assert_eq!(document.revision(), first + 2);
        assert!(document.redo());
        assert!(!document.redo());
        assert_eq!(document.commission().lines, 12.0);
    }

    #[test]
    fn saved_and_changed_are_told_apart() {
        let path = PathBuf::from("handbill.json");
        let mut document =
            Document::new(commission(), Some(path.clone()), Fonts::new(), workshop());
        assert!(!document.is_changed());
        document.apply(&Command::Lines(8.0)).unwrap();
        assert!(document.is_changed());
        let now = Arc::clone(document.commission());
        document.saved_as(&path, now, String::new());
        assert!(!document.is_changed());
        document.undo();
        assert!(document.is_changed());
        document.redo();
        assert!(!document.is_changed());
        assert!(Document::new(commission(), None, Fonts::new(), workshop()).is_changed());
    }

    #[test]
    fn what_was_found_again_is_unsaved_and_can_be_taken_back() {
        let path = Some(PathBuf::from("handbill.json"));
        let mut on_disk = commission();
        on_disk.title = "As saved".to_owned();
        let mut document = Document::new(commission(), path, Fonts::new(), workshop())
            .recovered(Some(Arc::new(on_disk)), None);
        assert!(document.is_changed());
        assert!(document.undo());
        assert_eq!(document.commission().title, "As saved");
        assert!(!document.is_changed());
    }

    #[test]
    fn the_workshop_is_changed_and_taken_back_with_what_names_its_things() {
        let mut shop = Workshop::starting();
        let mut document = Document::new(
            commission(),
            Some(PathBuf::from("handbill.json")),
            Fonts::new(),
            shop.clone(),
        );
        let place = shop.cutters.iter().position(|one| one.id == "flat-3");
        shop.cutters[place.unwrap()].id = "three".to_owned();
        let renaming = Command::Workshop(Box::new(ShopChange {
            what: "the cutter flat-3",
            workshop: shop.clone(),
            renamed: Some(Renamed {
                what: Named::Cutter,
                from: "flat-3".to_owned(),
                to: "three".to_owned(),
            }),
        }));
        document.apply(&renaming).unwrap();
        assert_eq!(document.commission().cutting.cutters, ["three"]);
        assert!(document.workshop().cutter("three").is_some());
        assert!(document.is_changed() && document.is_workshop_changed());
        document.workshop_saved(Some("digest".to_owned()));
        assert!(!document.is_workshop_changed());
        assert!(document.undo());
        assert_eq!(document.commission().cutting.cutters, ["flat-3"]);
        assert!(document.workshop().cutter("flat-3").is_some());
        assert!(document.is_workshop_changed());
        shop.cutters[0].max_depth = Length::mm(90.0);
        let deep = Command::Workshop(Box::new(ShopChange::of("a cutter", shop)));
        let refused = document.apply(&deep).unwrap_err().to_string();
        assert!(refused.starts_with("flat-6, max depth: "), "{refused}");
    }
}
