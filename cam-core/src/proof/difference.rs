//! Whether two sets of programs leave the same wood.

use kurbo::{Point, Rect, Vec2};

use super::bench::overlaps;
use super::heights::lowest;
use super::runs::Run;
use crate::job_file::JobFile;
use reader::ReadMotion;

/// Distance of the places that are looked at in what was or is swept, mm.
const STEP_MM: f64 = 0.1;

/// The most places looked at in one swept box along a side; larger boxes are looked at less closely.
const MOST_ALONG: f64 = 400.0;

/// A place at which two cuts leave wood of different heights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// The number of the plank in the job.
    pub plank: usize,
    /// The place on the plank, mm.
    pub at_mm: [f64; 2],
    /// How high the wood stood there, by the face, mm.
    pub before_mm: f64,
    /// How high it stands now.
    pub now_mm: f64,
}

/// A place within the boxes at which the wood left differs by more than a tolerance along or across, but for those that are `excused`;
/// `None` if there is none.
///
/// It does where it stands lower than cutters larger by the tolerance would have left it that went deeper by as much, or higher
/// than smaller ones that went less deep.
pub fn find(
    job: &JobFile,
    before: &[&Run],
    now: &[&Run],
    boxes: &[(usize, Rect)],
    tolerance_mm: f64,
    excused: impl Fn(&Difference) -> bool,
) -> Option<Difference> {
    merged(boxes).into_iter().find_map(|(plank, area)| {
        let bed = -job.planks[plank].height_to_paper_mm;
        let [before, now] = [before, now].map(|runs| over(runs, plank, area, tolerance_mm));
        places(area).find_map(|place| {
            let now = height(&now, place, 0.0).max(bed);
            let fat = height(&before, place, tolerance_mm).max(bed) - tolerance_mm;
            let thin = height(&before, place, -tolerance_mm).max(bed) + tolerance_mm;
            let difference = (now < fat || now > thin).then(|| Difference {
                plank,
                at_mm: [place.x, place.y],
                before_mm: height(&before, place, 0.0).max(bed),
                now_mm: now,
            });
            difference.filter(|difference| !excused(difference))
        })
    })
}

/// Boxes that overlap made one, so that no place is looked at over and over.
fn merged(boxes: &[(usize, Rect)]) -> Vec<(usize, Rect)> {
    let mut merged: Vec<(usize, Rect)> = Vec::new();
    for &(plank, mut area) in boxes {
        while let Some(index) = merged
            .iter()
            .position(|&(other, known)| other == plank && overlaps(known, area))
        {
            area = area.union(merged.swap_remove(index).1);
        }
        merged.push((plank, area));
    }
    merged
}

/// The motions of a plank over a box, with their cutters.
fn over<'r>(
    runs: &[&'r Run],
    plank: usize,
    area: Rect,
    tolerance_mm: f64,
) -> Vec<(&'r Run<'r>, &'r ReadMotion, Rect)> {
    runs.iter()
        .filter(|run| run.plank == plank)
        .flat_map(|run| {
            run.swept
                .iter()
                .map(|&(number, swept)| (number, swept.inflate(tolerance_mm, tolerance_mm)))
                .filter(move |(_, swept)| overlaps(*swept, area))
                .map(|(number, swept)| (*run, &run.motions[number as usize], swept))
        })
        .collect()
}

/// How high the wood stands at a place, with cutters larger by so much.
fn height(over: &[(&Run, &ReadMotion, Rect)], place: Point, grown: f64) -> f64 {
    over.iter()
        .filter(|(_, _, swept)| swept.contains(place))
        .filter_map(|(run, read, _)| lowest(&run.solid.grown(grown), read, place))
        .fold(0.0, f64::min)
}

/// Places all over a box, a little off any grid that drawings and programs keep to.
fn places(area: Rect) -> impl Iterator<Item = Point> {
    let step = STEP_MM.max(area.width().max(area.height()) / MOST_ALONG);
    let count = |length: f64| (length / step).ceil() as u32 + 1;
    let (columns, rows) = (count(area.width()), count(area.height()));
    (0..rows).flat_map(move |row| {
        (0..columns).map(move |column| {
            let off = Vec2::new(0.0317, 0.0471) * step;
            area.origin() + Vec2::new(f64::from(column), f64::from(row)) * step + off
        })
    })
}
