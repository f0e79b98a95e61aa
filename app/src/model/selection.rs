//! What the maker looks at: the room, the sort, the cutter, the layer, the plank.

use std::collections::BTreeSet;
use std::sync::Arc;

use cam_core::sort::Sort;

/// The rooms of the window, in the order of the work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Room {
    /// What is ordered, and how.
    #[default]
    Order,
    /// The glyphs to choose from.
    Case,
    /// One sort on its block.
    Block,
    /// What the cutters reach and how they run.
    Cut,
    /// All blocks on their planks.
    Plank,
    /// The programs as they run.
    Run,
    /// The inked print.
    Proof,
    /// What is printed for customer and workshop.
    Papers,
    /// What was measured at the bench.
    Bench,
    /// What the workshop has, and what it charges.
    Workshop,
}

impl Room {
    /// All rooms, in order.
    pub const ALL: [Room; 10] = [
        Room::Order,
        Room::Case,
        Room::Block,
        Room::Cut,
        Room::Plank,
        Room::Run,
        Room::Proof,
        Room::Papers,
        Room::Bench,
        Room::Workshop,
    ];
}

/// What the maker looks at.
#[derive(Clone, Debug, Default)]
pub struct Selection {
    /// The room.
    pub room: Room,
    /// The face whose glyphs the case shows, by id; `None` for the main one.
    pub face: Option<String>,
    /// The sort, by its name.
    pub sort: Option<String>,
    /// The cutter, by its place from the largest to the smallest.
    pub cutter: usize,
    /// Cuts down to this layer are shown; `None` shows all.
    pub layer: Option<u32>,
    /// The plank, by its place.
    pub plank: usize,
    /// Sorts are shown as printed instead of as cut.
    pub as_printed: bool,
    /// Cutters whose cuts are hidden, by their place.
    pub hidden_cutters: BTreeSet<usize>,
    /// What a room is to bring into sight; it takes it.
    pub sought: Option<Sought>,
}

/// Something in a room that is to be brought into sight.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sought {
    /// The list of findings.
    Findings,
    /// Where the permission of the main face is recorded.
    Permission,
    /// A cutter of the workshop, by its id.
    Cutter(String),
    /// A program and a line of it, counted from 1.
    Program {
        /// Its file.
        file: String,
        /// The line, if one is meant.
        line: Option<usize>,
    },
}

impl Selection {
    /// The place of the selected sort among those given; the first if it is not among them.
    pub fn sort_among(&self, sorts: &[Arc<Sort>]) -> Option<usize> {
        let named = self
            .sort
            .as_ref()
            .and_then(|name| sorts.iter().position(|sort| sort.name == *name));
        named.or(if sorts.is_empty() { None } else { Some(0) })
    }

    /// Whether this is sought; then it is no longer.
    pub fn takes(&mut self, sought: &Sought) -> bool {
        let is_sought = self.sought.as_ref() == Some(sought);
        if is_sought {
            self.sought = None;
        }
        is_sought
    }

    /// Selects the sort so many places on, staying inside the list.
    pub fn step_sort(&mut self, sorts: &[Arc<Sort>], by: isize) {
        if let Some(now) = self.sort_among(sorts) {
            let next = now.saturating_add_signed(by).min(sorts.len() - 1);
            self.sort = Some(sorts[next].name.clone());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    use cam_core::sort::Block;
    use geometry::region::Region;
    use kurbo::BezPath;

    fn sorts(names: &[&str]) -> Vec<Arc<Sort>> {
        let sort = |name: &&str| Sort {
            name: (*name).to_owned(),
            text: (*name).to_owned(),
            count: 1,
            source: None,
            plate: None,
            block: Block {
                outline: Vec::new(),
                body_mm: 10.0,
                set_mm: 5.0,
                baseline_mm: 2.0,
                extended_pt: [0.0, 0.0],
                plain: false,
                notches: Vec::new(),
            },
            outline: BezPath::new(),
            face: Region::default(),
        };
        names.iter().map(sort).map(Arc::new).collect()
    }

    #[test]
    fn the_selected_sort_survives_a_new_list_or_falls_back() {
        let mut selection = Selection::default();
        assert_eq!(selection.sort_among(&[]), None);
        let list = sorts(&["A", "B", "C"]);
        assert_eq!(selection.sort_among(&list), Some(0));
        selection.step_sort(&list, 2);
        assert_eq!(selection.sort.as_deref(), Some("C"));
        selection.step_sort(&list, 1);
        assert_eq!(selection.sort.as_deref(), Some("C"));
        assert_eq!(selection.sort_among(&sorts(&["C", "D"])), Some(0));
        assert_eq!(selection.sort_among(&sorts(&["X", "Y"])), Some(0));
        selection.step_sort(&list, -9);
        assert_eq!(selection.sort.as_deref(), Some("A"));
    }
}
