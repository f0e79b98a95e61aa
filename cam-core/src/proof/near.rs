//! Which motions come near which copy, and how near: measured once for all copies that see the same motion.

use std::sync::Arc;

use geometry::arc_path::Turn;
use rayon::prelude::*;
use reader::{ReadCourse, ReadMotion};

use super::bench::{LOOK_BEYOND_MM, Near, distance_to_walls, overlaps};
use super::copies::{Copy, Stock};
use super::motion;
use super::runs::Run;
use super::solid::Solid;
use crate::progress::{Progress, Stopped};

/// Motions that differ by less, seen from their copies, are one, mm: far below a program's last decimal, and above the rounding
/// of sums.
const SAME_MOTION_MM: f64 = 1e-6;

/// For each of some copies, the motions below the face that come into its room, in the order of running; nothing for the others.
/// `alike` are those copies, ground by ground.
pub fn find(
    runs: &[Arc<Run>],
    stock: &Stock,
    alike: &[Vec<usize>],
    progress: &Progress,
) -> Result<Vec<Vec<Near>>, Stopped> {
    let found = alike
        .par_iter()
        .map(|copies| {
            progress.check()?;
            let near: Vec<Vec<Candidate>> = copies
                .par_iter()
                .map(|&index| candidates(runs, &stock.copies[index]))
                .collect();
            let near = measured(runs, stock, copies, near);
            Ok(copies.iter().copied().zip(near).collect())
        })
        .collect::<Result<Vec<Vec<(usize, Vec<Near>)>>, Stopped>>()?;
    let mut near = vec![Vec::new(); stock.copies.len()];
    for (index, found) in found.into_iter().flatten() {
        near[index] = found;
    }
    Ok(near)
}

/// The copies of a selection on each ground, by their numbers, in order.
pub fn alike(stock: &Stock, selected: impl Fn(usize) -> bool) -> Vec<Vec<usize>> {
    let mut alike = vec![Vec::new(); stock.grounds.len()];
    for (index, copy) in stock.copies.iter().enumerate() {
        if selected(index) {
            alike[copy.ground].push(index);
        }
    }
    alike.retain(|copies| !copies.is_empty());
    alike
}

/// A motion in a copy's room, before it is measured.
struct Candidate {
    run: u32,
    motion: u32,
    /// Whether the motion before it was elsewhere, so that its start must be looked at.
    comes_in: bool,
}

fn candidates(runs: &[Arc<Run>], copy: &Copy) -> Vec<Candidate> {
    let mut found = Vec::new();
    for (run, of_run) in runs.iter().enumerate() {
        if of_run.plank != copy.plank {
            continue;
        }
        let mut last = None;
        for &(motion, swept) in &of_run.swept {
            if overlaps(swept, copy.room) {
                found.push(Candidate {
                    run: run as u32,
                    motion,
                    // A motion that starts outside and keeps its distance ends outside, and so the next one starts there.
                    comes_in: last.is_none() || last != motion.checked_sub(1),
                });
                last = Some(motion);
            }
        }
    }
    found
}

/// Everything about a motion that a letter's or a ground's verdict on it hangs on, seen from the copy, in steps of
/// [`SAME_MOTION_MM`]. The parts are compared one by one, never only a digest of them.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Likeness {
    /// Shape of the cutter, start, end, kind, and centre and sweep of an arc.
    plan: [u64; 11],
    /// Height of both ends.
    heights: [u64; 2],
}

impl Likeness {
    fn of(own: &ReadMotion, solid: &Solid) -> Likeness {
        // Whole numbers of steps as bits: places however far off keep what they have of figures.
        let steps = |length: f64| ((length / SAME_MOTION_MM).round() + 0.0).to_bits();
        let [shape, width, taper] = solid.likeness();
        let (kind, centre, sweep) = match own.course {
            ReadCourse::Rapid | ReadCourse::Line { .. } => (0, [0; 2], 0),
            ReadCourse::Arc {
                centre,
                turn,
                sweep,
                ..
            } => {
                let kind = match turn {
                    Turn::Left => 1,
                    Turn::Right => 2,
                };
                (kind, [steps(centre.x), steps(centre.y)], steps(sweep))
            }
        };
        Likeness {
            plan: [
                shape,
                width,
                taper,
                steps(own.from.xy.x),
                steps(own.from.xy.y),
                steps(own.to.xy.x),
                steps(own.to.xy.y),
                kind,
                centre[0],
                centre[1],
                sweep,
            ],
            heights: [steps(own.from.z), steps(own.to.z)],
        }
    }
}

/// Measures what came near copies on one ground; what several of them see is measured for the first.
fn measured(
    runs: &[Arc<Run>],
    stock: &Stock,
    copies: &[usize],
    candidates: Vec<Vec<Candidate>>,
) -> Vec<Vec<Near>> {
    let own = |copy: usize, found: &Candidate| {
        let run = &runs[found.run as usize];
        let shift = stock.copies[copies[copy]].shift;
        let own = motion::shifted(&run.motions[found.motion as usize], -shift);
        (own, run.solid)
    };
    let mut seen: Vec<(Likeness, u32, u32)> = candidates
        .par_iter()
        .enumerate()
        .flat_map_iter(|(copy, found)| {
            found.iter().enumerate().map(move |(index, found)| {
                let (own, solid) = own(copy, found);
                (Likeness::of(&own, &solid), copy as u32, index as u32)
            })
        })
        .collect();
    seen.par_sort_unstable();
    let mut near: Vec<Vec<Near>> = candidates
        .iter()
        .map(|found| {
            found
                .iter()
                .map(|found| Near {
                    run: found.run,
                    motion: found.motion,
                    gap: f64::INFINITY,
                    inside: false,
                    common: false,
                })
                .collect()
        })
        .collect();
    let shape = copies
        .first()
        .and_then(|&first| stock.copies[first].shape)
        .map(|index| &stock.shapes[index]);
    for over_one_another in seen.chunk_by(|a, b| a.0.plan == b.0.plan) {
        let (_, copy, index) = over_one_another[0];
        let (first, solid) = own(copy as usize, &candidates[copy as usize][index as usize]);
        let mut gap = f64::INFINITY;
        let mut inside = None;
        // A flat cutter comes as near at any depth.
        if let (Some(shape), Solid::Flat { radius }) = (shape, solid) {
            let cutoff = radius + LOOK_BEYOND_MM;
            let distance = distance_to_walls(&shape.walls, &first, cutoff);
            if distance < cutoff {
                gap = distance - radius;
            }
        }
        for same in over_one_another.chunk_by(|a, b| a.0 == b.0) {
            if let (Some(shape), false) = (shape, solid.is_flat()) {
                let (_, copy, index) = same[0];
                let (own, _) = own(copy as usize, &candidates[copy as usize][index as usize]);
                let clear = solid.clear(&shape.walls, &own, LOOK_BEYOND_MM);
                gap = if clear < LOOK_BEYOND_MM {
                    clear
                } else {
                    f64::INFINITY
                };
            }
            let common = same.chunk_by(|a, b| a.1 == b.1).count() == copies.len();
            for &(_, copy, index) in same {
                let near = &mut near[copy as usize][index as usize];
                near.gap = gap;
                near.common = common;
                near.inside = candidates[copy as usize][index as usize].comes_in
                    && *inside.get_or_insert_with(|| {
                        shape.is_some_and(|shape| shape.walls.contains(first.from.xy))
                    });
            }
        }
    }
    near
}
