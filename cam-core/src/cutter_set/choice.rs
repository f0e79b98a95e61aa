//! Which cutters are compared, which sets they make, and what has to be planned for that.

use std::collections::BTreeSet;

use crate::commission::Commission;
use crate::cone::Cone;
use crate::workshop::{Cutter, CutterShape, Workshop};

/// The most cutters that are compared: 255 sets.
pub const MOST_CUTTERS: usize = 8;

/// A cutter of the workshop that is not compared.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOut {
    /// The cutter, by id.
    pub cutter: String,
    /// Why, in a sentence.
    pub reason: String,
}

/// The cutters compared.
pub(super) struct Choice<'w> {
    /// Flat ones from large to small, then conical ones from the bluntest tip to the finest.
    pub cutters: Vec<&'w Cutter>,
    pub left_out: Vec<LeftOut>,
}

/// The workshop's flat and conical cutters that go deep enough; where there are more than eight, those that the commission names
/// come first, then in the order of the workshop.
pub(super) fn choose<'w>(commission: &Commission, workshop: &'w Workshop) -> Choice<'w> {
    let mut left_out = Vec::new();
    let mut leave = |cutter: &Cutter, reason: &str| {
        left_out.push(LeftOut {
            cutter: cutter.id.clone(),
            reason: reason.to_owned(),
        });
    };
    let is_named = |cutter: &Cutter| commission.cutting.cutters.contains(&cutter.id);
    let mut usable: Vec<&Cutter> = Vec::new();
    for cutter in &workshop.cutters {
        match cutter.shape {
            CutterShape::Ball => leave(
                cutter,
                "A round end clears no ground and sharpens no corner.",
            ),
            CutterShape::Flat
                if depth(cutter, commission) < commission.cutting.least_relief.in_mm() =>
            {
                leave(cutter, "It cannot go down to the least relief.");
            }
            CutterShape::Conical { .. } if Cone::of(cutter, &commission.cutting).is_none() => {
                leave(cutter, "Its measures make no cone.");
            }
            CutterShape::Flat | CutterShape::Conical { .. } => usable.push(cutter),
        }
    }
    // Stable: the order of the workshop is kept within both groups.
    usable.sort_by_key(|cutter| !is_named(cutter));
    for cutter in usable.iter().skip(MOST_CUTTERS) {
        leave(
            cutter,
            "No more than eight cutters are compared; those named in the commission come first.",
        );
    }
    usable.truncate(MOST_CUTTERS);
    usable.sort_by(|a, b| {
        let by_shape = is_flat(b).cmp(&is_flat(a));
        let by_size = width_at_tip_mm(b).total_cmp(&width_at_tip_mm(a));
        by_shape.then(by_size).then_with(|| a.id.cmp(&b.id))
    });
    Choice {
        cutters: usable,
        left_out,
    }
}

impl Choice<'_> {
    /// The set that the commission names, if all of it was compared.
    pub(super) fn named(&self, commission: &Commission) -> Option<Vec<usize>> {
        let mut set = commission
            .cutting
            .cutters
            .iter()
            .map(|id| self.cutters.iter().position(|cutter| cutter.id == *id))
            .collect::<Option<Vec<usize>>>()?;
        set.sort_unstable();
        Some(set)
    }
}

pub(super) fn is_flat(cutter: &Cutter) -> bool {
    match cutter.shape {
        CutterShape::Flat => true,
        CutterShape::Ball | CutterShape::Conical { .. } => false,
    }
}

/// The diameter of a flat cutter, and of the tip of a cone: in this order, the largest first, cutters are run.
fn width_at_tip_mm(cutter: &Cutter) -> f64 {
    match cutter.shape {
        CutterShape::Flat | CutterShape::Ball => cutter.diameter.in_mm(),
        CutterShape::Conical { tip, .. } => tip.in_mm(),
    }
}

/// How deep a cutter goes in this commission, mm.
fn depth(cutter: &Cutter, commission: &Commission) -> f64 {
    let reach = cutter.max_depth.in_mm().min(cutter.flute_length.in_mm());
    commission.cutting.relief.in_mm().min(reach)
}

/// How deep each cutter goes, mm.
pub(super) fn depths(cutters: &[&Cutter], commission: &Commission) -> Vec<f64> {
    cutters
        .iter()
        .map(|cutter| depth(cutter, commission))
        .collect()
}

/// Every set with a flat cutter in it, as indexes in the order of running, but for sets with two flat cutters of one diameter of
/// which the later goes no deeper: it would have nothing to do.
pub(super) fn all_sets(cutters: &[&Cutter], depths: &[f64]) -> Vec<Vec<usize>> {
    let count = cutters.len().min(MOST_CUTTERS);
    let is_idle = |before: usize, after: usize| {
        is_flat(cutters[after])
            && cutters[before].diameter == cutters[after].diameter
            && depths[after] <= depths[before]
    };
    (1_u32..1 << count)
        .map(|bits| {
            (0..count)
                .filter(|&number| (bits >> number) & 1 == 1)
                .collect()
        })
        .filter(|set: &Vec<usize>| {
            let has_flat = set.iter().any(|&number| is_flat(cutters[number]));
            has_flat && !set.windows(2).any(|pair| is_idle(pair[0], pair[1]))
        })
        .collect()
}

/// A cutter's turn: what counts of the cutters before it, and the cutter, as indexes in the order of running.
pub(super) type Step = Vec<usize>;

/// The turn of the cutter at `place` of a set.
///
/// A flat cutter: of the flat ones before it, the nearest, and of the others those that go deeper than all nearer ones; one that
/// goes no deeper than a later, smaller one changes nothing for those after that. A cone: the smallest flat cutter, whose
/// corners it sharpens, and the cones before it.
pub(super) fn step(set: &[usize], place: usize, cutters: &[&Cutter], depths: &[f64]) -> Step {
    if !is_flat(cutters[set[place]]) {
        return end(&set[..=place], cutters);
    }
    let mut deepest = f64::NEG_INFINITY;
    let mut before: Vec<usize> = set[..place]
        .iter()
        .rev()
        .copied()
        .filter(|&number| {
            let counts = depths[number] > deepest;
            deepest = deepest.max(depths[number]);
            counts
        })
        .collect();
    before.reverse();
    before.push(set[place]);
    before
}

/// What decides what a set leaves: the smallest flat cutter, and all cones.
pub(super) fn end(set: &[usize], cutters: &[&Cutter]) -> Step {
    let (flat, cones): (Vec<usize>, Vec<usize>) =
        set.iter().partition(|&&number| is_flat(cutters[number]));
    flat.last().copied().into_iter().chain(cones).collect()
}

/// What decides what each of the sets leaves.
pub(super) fn ends(sets: &[Vec<usize>], cutters: &[&Cutter]) -> BTreeSet<Step> {
    sets.iter().map(|set| end(set, cutters)).collect()
}

/// Every turn that any of the sets needs.
pub(super) fn steps(sets: &[Vec<usize>], cutters: &[&Cutter], depths: &[f64]) -> BTreeSet<Step> {
    sets.iter()
        .flat_map(|set| (0..set.len()).map(|place| step(set, place, cutters, depths)))
        .collect()
}
