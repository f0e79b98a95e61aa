//! The passes of one cutter over a plank, strung together into motions.

use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};

use geometry::distance::WallIndex;
use kurbo::{Point, Vec2};
use rayon::prelude::*;

use crate::pass::{Cut, SortPasses};
use crate::plank::{Place, Plank};
use crate::sort::Sort;
use crate::toolpath::Toolpath;
use crate::toolpath::features::{Feature, Floor, features};
use crate::toolpath::low::{Ground, Lines, Low};
use crate::toolpath::order::{self, Care, Ends, Stop};
use crate::toolpath::thread::Thread;
use crate::workshop::{Cutter, Machine, Workshop};

/// Height of a row, mm: blocks whose lower edges differ by less lie in one row.
const ROW_MM: f64 = 0.01;

/// The passes of all cutters over all sorts, with what is known of the ground that each cutter comes to: worked out when it is first
/// asked for, and then once for all planks.
pub struct Work<'p> {
    /// The sorts, as the commission counts them.
    pub sorts: &'p [Arc<Sort>],
    /// Their passes, counted in the same way.
    pub passes: &'p [Arc<Vec<SortPasses>>],
    workshop: &'p Workshop,
    planned: Vec<OnceLock<Vec<Planned<'p>>>>,
}

impl<'p> Work<'p> {
    /// Nothing is worked out yet.
    pub fn new(
        sorts: &'p [Arc<Sort>],
        passes: &'p [Arc<Vec<SortPasses>>],
        workshop: &'p Workshop,
    ) -> Work<'p> {
        Work {
            sorts,
            passes,
            workshop,
            planned: passes.iter().map(|_| OnceLock::new()).collect(),
        }
    }

    /// What the cutters do on a sort, in their order.
    fn on(&self, sort: usize) -> Option<&[Planned<'p>]> {
        let passes = self.passes.get(sort)?;
        let planned = self.planned.get(sort)?.get_or_init(|| {
            let letter = self
                .sorts
                .get(sort)
                .map(|sort| Arc::new(WallIndex::new(sort.face.rings())));
            planned(passes, letter, self.workshop)
        });
        Some(planned)
    }
}

/// Strings the passes of one cutter over all sorts of a plank together, in plank space.
///
/// What is cut without lifting stays together and in order; for the rest, an order with short ways is found over the whole plank, in
/// which cuts on the same ground follow one another as they were planned. Between cuts the cutter moves at the machine's hop height, for on
/// the plank nothing stands higher than the face, and clamps lie outside of all rooms; where the ground is known to be clear and keeps off
/// the letter it stays down, at the machine's fastest feed. It comes and goes at the clear height. No motions where the cutter has nothing
/// to do on this plank.
pub fn join(plank: &Plank, work: &Work<'_>, cutter: &Cutter, machine: &Machine) -> Toolpath {
    let used: BTreeSet<usize> = plank.places.iter().map(|place| place.sort).collect();
    let used: Vec<usize> = used.into_iter().collect();
    used.par_iter().for_each(|&sort| {
        work.on(sort);
    });
    let laid = in_rows(&plank.places).into_iter().flat_map(|place| {
        let planned = work.on(place.sort).unwrap_or_default();
        let own = planned
            .iter()
            .filter(|planned| planned.passes.cutter == cutter.id);
        own.map(|planned| (planned, place.at))
    });
    strung(laid, Care::Thorough, cutter, machine)
}

/// Strings the passes of one cutter over one sort by itself together, in face space, as [`join`] does for a plank but with less
/// care for the order: for estimates.
pub fn join_one(passes: &SortPasses, cutter: &Cutter, machine: &Machine) -> Toolpath {
    let planned = Planned::new(passes, cutter, &Floor::default(), None);
    strung(
        std::iter::once((&planned, Vec2::ZERO)),
        Care::Quick,
        cutter,
        machine,
    )
}

/// Strings the passes that separate a plank together, in their order and lifting to the clear height, for blocks come loose;
/// they are in plank space already.
pub fn join_separation(passes: &SortPasses, cutter: &Cutter, machine: &Machine) -> Toolpath {
    let mut thread = Thread::new(cutter, machine, machine.clear_height_mm);
    for cut in &passes.cuts {
        thread.cut(cut, Vec2::ZERO, 0.0);
    }
    thread.end()
}

/// The passes of a cutter over a sort with their features.
struct Planned<'p> {
    passes: &'p SortPasses,
    features: Vec<Feature>,
    /// What each feature clears.
    cleared: Vec<Floor>,
    /// The ground, if ways at depth are asked for.
    ground: Option<Ground>,
}

impl<'p> Planned<'p> {
    fn new(
        passes: &'p SortPasses,
        cutter: &Cutter,
        before: &Floor,
        letter: Option<Arc<WallIndex>>,
    ) -> Planned<'p> {
        let features = features(passes, cutter, before);
        let cleared = features.iter().map(|feature| {
            let mut floor = Floor::default();
            floor.add(&passes.cuts[feature.cuts.clone()], cutter);
            floor
        });
        let cleared: Vec<Floor> = cleared.collect();
        let ground = letter.and_then(|letter| Ground::new(&passes.cuts, before, letter, cutter));
        Planned {
            passes,
            cleared,
            features,
            ground,
        }
    }
}

/// What each cutter does on a sort, after the cutters before it. One that the workshop does not have does nothing.
fn planned<'p>(
    passes: &'p [SortPasses],
    letter: Option<Arc<WallIndex>>,
    workshop: &Workshop,
) -> Vec<Planned<'p>> {
    let mut floor = Floor::default();
    let mut planned = Vec::with_capacity(passes.len());
    for passes in passes {
        if let Some(cutter) = workshop.cutter(&passes.cutter) {
            planned.push(Planned::new(passes, cutter, &floor, letter.clone()));
            floor.add(&passes.cuts, cutter);
        }
    }
    planned
}

/// Everything laid where it belongs, in a good order.
fn strung<'p>(
    laid: impl Iterator<Item = (&'p Planned<'p>, Vec2)>,
    care: Care,
    cutter: &Cutter,
    machine: &Machine,
) -> Toolpath {
    let mut stops: Vec<Stop> = Vec::new();
    let mut meant: Vec<Meant<'_>> = Vec::new();
    let mut pieces = 0;
    for (planned, by) in laid {
        let first = stops.len();
        for (number, feature) in planned.features.iter().enumerate() {
            stops.push(Stop {
                options: vec![Ends {
                    start: feature.ends.start + by,
                    end: feature.ends.end + by,
                }],
                after: feature.after.iter().map(|stop| first + stop).collect(),
            });
            meant.push(Meant {
                planned,
                number,
                piece: pieces,
                by,
            });
        }
        pieces += 1;
    }
    let mut thread = Thread::new(cutter, machine, machine.hop_height_mm);
    let mut copies: Vec<Option<Copy<'_>>> = Vec::new();
    copies.resize_with(pieces, || None);
    let mut last: Option<&Meant<'_>> = None;
    for visit in order::order(&stops, care) {
        let here = &meant[visit.stop];
        let feature = &here.planned.features[here.number];
        let cuts = &here.planned.passes.cuts[feature.cuts.clone()];
        let copy = copies[here.piece].get_or_insert_with(|| Copy::new(here.planned));
        let before = last.filter(|last| last.piece == here.piece);
        if let (Some(before), Some(first)) = (before, cuts.first()) {
            thread.stay_low(feature, first, here.by, |depth, longest| {
                copy.way(before.number, feature.ends.start, depth, longest)
            });
        }
        for (number, cut) in cuts.iter().enumerate() {
            // Only where the feature begins is it known how deep the ground is clear.
            let clear = if number == 0 { feature.clear_mm } else { 0.0 };
            if feature.doubtful.contains(&(feature.cuts.start + number)) {
                let slower = Cut {
                    feed_mm_min: cutter.feed_mm_min,
                    ..cut.clone()
                };
                thread.cut(&slower, here.by, clear);
            } else {
                thread.cut(cut, here.by, clear);
            }
        }
        copy.cut.push(here.number);
        if copy.cut.len() == here.planned.features.len() {
            copies[here.piece] = None;
        }
        last = Some(here);
    }
    thread.end()
}

/// A feature where it lies on the plank.
struct Meant<'p> {
    planned: &'p Planned<'p>,
    /// Its number among the features planned with it.
    number: usize,
    /// Those of one cutter on one copy of a sort have this number in common.
    piece: usize,
    by: Vec2,
}

/// What is done of a cutter's work on one copy of a sort.
struct Copy<'p> {
    planned: &'p Planned<'p>,
    /// The features cut, in that order.
    cut: Vec<usize>,
    low: Option<Low<'p>>,
}

impl<'p> Copy<'p> {
    fn new(planned: &'p Planned<'p>) -> Copy<'p> {
        Copy {
            planned,
            cut: Vec::new(),
            low: planned.ground.as_ref().map(Low::new),
        }
    }

    /// A way at a depth, no longer than `longest` mm, from where a feature ends to a place.
    fn way(&mut self, from: usize, to: Point, depth: f64, longest: f64) -> Option<Lines> {
        let planned = self.planned;
        let last = planned.passes.cuts[planned.features[from].cuts.clone()].last()?;
        let low = self.low.as_mut()?;
        low.way(last, to, depth, longest, &self.cut, &planned.cleared)
    }
}

/// Places row by row from below, every other row from right to left.
pub(crate) fn in_rows(places: &[Place]) -> Vec<&Place> {
    let row = |place: &Place| (place.at.y / ROW_MM).round();
    let mut sorted: Vec<&Place> = places.iter().collect();
    sorted.sort_by(|a, b| {
        let across = a.at.x.total_cmp(&b.at.x);
        row(a).total_cmp(&row(b)).then(across)
    });
    let rows = sorted.chunk_by(|a, b| row(a) == row(b)).enumerate();
    rows.flat_map(|(number, row)| {
        let mut row = row.to_vec();
        if number % 2 == 1 {
            row.reverse();
        }
        row
    })
    .collect()
}
