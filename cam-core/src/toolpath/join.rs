//! The passes of one cutter over a plank, strung together into motions.

use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};

use geometry::distance::WallIndex;
use kurbo::Vec2;
use rayon::prelude::*;

use crate::pass::{Cut, SortPasses};
use crate::plank::{Place, Plank};
use crate::sort::Sort;
use crate::toolpath::Toolpath;
use crate::toolpath::features::{Feature, Floor, features};
use crate::toolpath::low::{Ground, Lines, Low, Reckoned, lengths};
use crate::toolpath::order::{self, Care, Ends, Stop};
use crate::toolpath::thread::Thread;
use crate::workshop::{Cutter, Machine, Workshop};

/// Height of a row, mm: blocks whose lower edges differ by less lie in one row.
const ROW_MM: f64 = 0.01;

/// The most ways at depth from one feature that are weighed.
const MOST_BETTER: usize = 5;

/// Ways whose ends lie nearer than this are looked for even if none was reckoned, mm.
const ANYWAY_MM: f64 = 6.0;

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
    /// About how long they are, from each feature.
    ways: Vec<Vec<Reckoned>>,
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
        let ways = ground
            .as_ref()
            .map_or_else(Vec::new, |ground| lengths(ground, &features, &cleared));
        Planned {
            passes,
            cleared,
            features,
            ground,
            ways,
        }
    }

    fn cuts(&self, feature: usize) -> &'p [Cut] {
        &self.passes.cuts[self.features[feature].cuts.clone()]
    }

    /// The features to which the cutter may better stay down than hop from one, and how long the way there counts, mm.
    fn better(&self, from: usize, thread: &Thread<'_>) -> Vec<(usize, f64)> {
        let ways = self.ways.get(from).into_iter().flatten();
        let counted = ways.filter_map(|way| {
            let counts = thread.counts(&self.features[from], &self.features[way.to], way)?;
            Some((way.to, counts))
        });
        let mut better: Vec<(usize, f64)> = counted.collect();
        better.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        better.truncate(MOST_BETTER);
        better
    }

    /// Whether it is worth looking for a way at depth that is no longer than so many mm. Over ground that was not cleared before, only the
    /// search tells.
    fn may_stay(&self, from: usize, to: usize, longest: f64) -> bool {
        let is_cleared = self.ground.as_ref().is_some_and(Ground::is_cleared_before);
        let straight = self.features[from]
            .ends
            .end
            .distance(self.features[to].ends.start);
        let mut ways = self.ways.get(from).into_iter().flatten();
        !is_cleared || straight < ANYWAY_MM || ways.any(|way| way.to == to && way.length <= longest)
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
    let mut thread = Thread::new(cutter, machine, machine.hop_height_mm);
    for (planned, by) in laid {
        let first = stops.len();
        for (number, feature) in planned.features.iter().enumerate() {
            let better = planned.better(number, &thread).into_iter();
            stops.push(Stop {
                options: vec![Ends {
                    start: feature.ends.start + by,
                    end: feature.ends.end + by,
                }],
                after: feature.after.iter().map(|stop| first + stop).collect(),
                better: better.map(|(to, way)| (first + to, way)).collect(),
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
    let mut copies: Vec<Option<Copy<'_>>> = Vec::new();
    copies.resize_with(pieces, || None);
    let mut last: Option<&Meant<'_>> = None;
    for visit in order::order(&stops, care) {
        let here = &meant[visit.stop];
        let feature = &here.planned.features[here.number];
        let cuts = here.planned.cuts(here.number);
        let copy = copies[here.piece].get_or_insert_with(|| Copy::new(here.planned));
        let before = last.filter(|last| last.piece == here.piece);
        if let (Some(before), Some(first)) = (before, cuts.first()) {
            thread.stay_low(feature, first, here.by, |depth, longest| {
                copy.way([before.number, here.number], depth, longest)
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

    /// A way at a depth, no longer than `longest` mm, from where one feature ends to where another begins.
    fn way(&mut self, [from, to]: [usize; 2], depth: f64, longest: f64) -> Option<Lines> {
        let planned = self.planned;
        if !planned.may_stay(from, to, longest) {
            return None;
        }
        let last = planned.cuts(from).last()?;
        let to = planned.features[to].ends.start;
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
