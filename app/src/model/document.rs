//! The open commission, its fonts and workshop, and its revision.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use cam_core::commission::Commission;
use cam_core::make::Fonts;
use cam_core::workshop::Workshop;

use super::apply::{ApplyError, apply};
use super::command::Command;
use super::history::History;

/// The open commission with everything needed to work from it.
#[derive(Clone, Debug)]
pub struct Document {
    commission: Arc<Commission>,
    saved: Option<Arc<Commission>>,
    history: History,
    revision: u64,
    file_sha256: Option<String>,
    /// The commission's file, once it has one.
    pub path: Option<PathBuf>,
    /// The bytes of its fonts.
    pub fonts: Arc<Fonts>,
    /// The workshop it is cut in.
    pub workshop: Arc<Workshop>,
}

impl Document {
    /// A document from a commission; `path` is its file, if it came from one.
    pub fn new(
        commission: Commission,
        path: Option<PathBuf>,
        fonts: Fonts,
        workshop: Workshop,
    ) -> Document {
        let commission = Arc::new(commission);
        Document {
            saved: path.is_some().then(|| Arc::clone(&commission)),
            commission,
            history: History::default(),
            revision: 1,
            file_sha256: None,
            path,
            fonts: Arc::new(fonts),
            workshop: Arc::new(workshop),
        }
    }

    /// The same, with the SHA-256 of its file as it was read.
    pub fn read_as(self, file_sha256: Option<String>) -> Document {
        Document {
            file_sha256,
            ..self
        }
    }

    /// The same as work that was found again: it is unsaved, and can be taken back to what its file holds.
    pub fn recovered(mut self, on_disk: Option<Arc<Commission>>) -> Document {
        if let Some(on_disk) = &on_disk {
            self.history
                .changed(Arc::clone(on_disk), "what was found again");
        }
        self.saved = on_disk;
        self.revision += 1;
        self
    }

    /// SHA-256 of its file when it was last read or written here.
    pub fn file_sha256(&self) -> Option<&str> {
        self.file_sha256.as_deref()
    }

    /// The commission as it stands.
    pub fn commission(&self) -> &Arc<Commission> {
        &self.commission
    }

    /// Counts up with every change; a result made from an earlier revision is out of date.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Undo and redo.
    pub fn history(&self) -> &History {
        &self.history
    }

    /// Whether neither letters nor spaces are ordered yet.
    pub fn orders_nothing(&self) -> bool {
        self.commission.bill.is_empty() && self.commission.spaces.is_empty()
    }

    /// Whether there is something that no file holds yet.
    pub fn is_changed(&self) -> bool {
        self.saved.as_ref() != Some(&self.commission)
    }

    /// Applies a command. A command that changes nothing leaves no step to undo.
    ///
    /// # Errors
    /// [`ApplyError`], with the document as it was.
    pub fn apply(&mut self, command: &Command) -> Result<(), ApplyError> {
        let next = apply(&self.commission, command)?;
        if next != *self.commission {
            self.history
                .changed(Arc::clone(&self.commission), command.name());
            self.replace(Arc::new(next));
        }
        Ok(())
    }

    /// Takes the last change back; `false` if there is none.
    pub fn undo(&mut self) -> bool {
        let before = self.history.undo(&self.commission);
        let found = before.is_some();
        if let Some(before) = before {
            self.replace(before);
        }
        found
    }

    /// Makes the change that was last taken back again; `false` if there is none.
    pub fn redo(&mut self) -> bool {
        let after = self.history.redo(&self.commission);
        let found = after.is_some();
        if let Some(after) = after {
            self.replace(after);
        }
        found
    }

    /// Notes that a file now holds this commission, with faces named relative to that file.
    pub fn saved_as(&mut self, path: &Path, commission: Arc<Commission>, file_sha256: String) {
        self.path = Some(path.to_owned());
        self.file_sha256 = Some(file_sha256);
        if *self.commission != *commission {
            // Only the faces' file names differ, but the job file names them too.
            self.replace(Arc::clone(&commission));
        }
        self.saved = Some(commission);
    }

    fn replace(&mut self, commission: Arc<Commission>) {
        self.commission = commission;
        self.revision += 1;
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    use std::collections::BTreeMap;

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
            .recovered(Some(Arc::new(on_disk)));
        assert!(document.is_changed());
        assert!(document.undo());
        assert_eq!(document.commission().title, "As saved");
        assert!(!document.is_changed());
    }
}
