//! Corners and narrow ground, cut with conical cutters after the flat ones.
//!
//! The tip follows the centre line of the ground that the smallest flat cutter leaves, as deep as the cone there is wide at the
//! face: it touches both walls, and rises into a corner until only the tip is as wide as the ground. So the face is sharp to
//! the tip's width, whatever the angle of corner and cone, also between curves; the floor there is the cone's groove.
//!
//! Cones are the only pointed cutters used. A ball of the same width at the face goes far less deep (a ball of 3 mm between
//! walls 0.8 mm apart: 0.05 mm; a cone of 60° with a tip of 0.2 mm: 0.5 mm), so the groove would fill with ink, and on an open
//! floor it leaves ridges where a flat cutter leaves none.

use geometry::arc_path::{ArcPath, ArcStep};
use geometry::diagram::Diagram;
use geometry::distance::WallIndex;
use kurbo::Point;
use said::Value;

use crate::commission::Commission;
use crate::cone::{Cone, MOUTH_MM};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::pass::tool::{FULL_WIDTH_FEED, ROUNDING_MM};
use crate::pass::{Cut, Entry, Heights, Purpose, SortPasses};
use crate::sort::{FLATTENING_MM, Sort};
use crate::workshop::{Cutter, Workshop};

mod grooves;
mod walk;

use grooves::{Groove, Grooves};
use walk::Place;

/// Ground left by the flat cutters no deeper than this along a wall is not gone after, mm: half the usual tolerance.
const LEAST_LEFT_MM: f64 = 0.005;

/// How far chords of curved centre lines may stand nearer to a wall than reckoned, mm.
const CHORDS_MM: f64 = 0.0005;

/// What rounding to a program's decimals may move the tip down, mm.
const ROUNDING_DOWN_MM: f64 = 0.0005;

/// The noise of the arithmetic, mm.
const NOISE_MM: f64 = 1e-6;

/// Part of the mouth's margin within which the tip goes down to the groove's depth.
const WITHIN_MOUTH: f64 = 0.9;

/// How many layers more than a whole number are still cut as that number.
const LAYERS_SLACK: f64 = 0.05;

/// A cone at work on one sort.
struct Sharpener<'a> {
    cutter: &'a Cutter,
    cone: Cone,
    /// How much narrower than the ground the cone is kept at the face, mm.
    safety: f64,
    /// The radius of the disc that has been everywhere it can.
    before: f64,
    /// Depth to which the ground is surely cleared where that disc fits, mm.
    cleared: f64,
    walls: WallIndex,
}

/// Plans the conical cutters' passes over one sort, from the bluntest tip to the finest, after the flat cutters of which
/// `smallest` is the smallest.
///
/// One entry for each conical cutter of the commission, in face space. A cone that is not wide enough at its full depth for
/// what the smallest flat cutter leaves has no cuts, and a finding.
pub(crate) fn sharpen(
    sort: &Sort,
    ground: &Diagram,
    commission: &Commission,
    workshop: &Workshop,
    smallest: &Cutter,
) -> (Vec<SortPasses>, Vec<Finding>) {
    let mut passes = Vec::new();
    let mut findings = Vec::new();
    let mut before = smallest.radius_mm();
    let least = commission.cutting.least_relief.in_mm();
    let mut cleared = least.min(super::tool::depth(smallest, &commission.cutting));
    for (cutter, cone) in Cone::of_commission(commission, workshop) {
        let mut made = SortPasses {
            cutter: cutter.id.clone(),
            cuts: Vec::new(),
        };
        if cone.follows(before) {
            let sharpener = Sharpener {
                cutter,
                cone,
                safety: FLATTENING_MM
                    + ROUNDING_MM
                    + CHORDS_MM
                    + walk::WIDER_MM
                    + ROUNDING_DOWN_MM * cone.slope,
                before,
                cleared,
                walls: WallIndex::new(ground.letter().rings()),
            };
            let (cuts, found) = sharpener.cuts(sort, ground, least);
            made.cuts = cuts;
            findings.extend(found);
            before = cone.tip_radius;
            cleared = 0.0;
        } else {
            findings.push(unfit(cutter, &cone, before));
        }
        passes.push(made);
    }
    (passes, findings)
}

impl Sharpener<'_> {
    fn cuts(&self, sort: &Sort, ground: &Diagram, least: f64) -> (Vec<Cut>, Vec<Finding>) {
        let rest = ground.rest(self.before + MOUTH_MM, LEAST_LEFT_MM, CHORDS_MM);
        let grooves = Grooves::of(&rest, &self.cone, self.safety);
        let mut cuts: Vec<Cut> = Vec::new();
        let mut findings = Vec::new();
        let mut shallow: Option<(f64, Point)> = None;
        let mut left: Option<Point> = None;
        let mut parts = grooves.parts();
        let mut here: Option<Point> = None;
        // Bound: every round takes one part.
        while !parts.is_empty() {
            let next = nearest(&parts, here);
            let part = parts.swap_remove(next);
            let Some(root) = part.root() else { continue };
            if !part.has_mouth() {
                if !self.cutter.centre_cutting {
                    left = left.or(Some(root.at));
                    continue;
                }
                if root.depth < least - NOISE_MM
                    && shallow.is_none_or(|(depth, _)| root.depth < depth)
                {
                    shallow = Some((root.depth, root.at));
                }
            }
            self.cut_part(&part, &mut cuts);
            here = cuts.last().map(|cut| cut.path.end());
        }
        findings.extend(self.check(sort, &cuts));
        findings
            .extend(shallow.map(|(depth, at)| too_shallow(sort, self.cutter, depth, least, at)));
        findings.extend(left.map(|at| not_entered(sort, self.cutter, at)));
        (cuts, findings)
    }

    /// Cuts a part layer by layer: each layer goes where the part is deeper than the one above.
    fn cut_part(&self, part: &Groove, cuts: &mut Vec<Cut>) {
        let step = self.cutter.step_down.in_mm().max(ROUNDING_MM);
        let bite = part.deepest_bite(&self.cone, self.before);
        let layers = (bite / step - LAYERS_SLACK).ceil().max(1.0);
        let full = part.deepest();
        let feed = if layers > 1.0 || !part.has_mouth() {
            self.cutter.feed_mm_min * FULL_WIDTH_FEED
        } else {
            self.cutter.feed_mm_min
        };
        // Bound: depths are millimetres and steps at least micrometres.
        for layer in 0..layers as u32 {
            let above = full * f64::from(layer) / layers;
            let floor = full * f64::from(layer + 1) / layers;
            let deeper = if layer == 0 {
                vec![part.clone()]
            } else {
                part.deeper_than(above)
            };
            for part in deeper {
                for run in walk::runs(&part, floor) {
                    let run = self.eased(run);
                    cuts.extend(self.cut(run, layer, above, feed));
                }
            }
        }
    }

    /// A cut along places. It comes down in cleared ground where there is some: at the mouth no deeper than that.
    fn cut(&self, mut run: walk::Run, layer: u32, above: f64, feed: f64) -> Option<Cut> {
        let first = *run.places.first()?;
        let entry = match run.begins {
            walk::Begins::AtMouth => {
                if first.depth > self.cleared {
                    run.places[0].depth = self.cleared;
                    // From where the smallest flat cutter no longer fits, the groove is as deep as it is to be.
                    if let Some(next) = run.places.get(1) {
                        let length = first.at.distance(next.at);
                        let part = (WITHIN_MOUTH * MOUTH_MM / length).min(0.5);
                        let down = Place {
                            at: first.at.lerp(next.at, part),
                            depth: first.depth + (next.depth - first.depth) * part,
                        };
                        run.places.insert(1, down);
                    }
                }
                Entry::Open
            }
            walk::Begins::InGroove => Entry::Open,
            walk::Begins::InWood if first.depth <= above + NOISE_MM => Entry::Open,
            walk::Begins::InWood => Entry::Plunge,
        };
        let depths: Vec<f64> = run.places.iter().map(|place| place.depth).collect();
        let (first, rest) = run.places.split_first()?;
        let mut path = ArcPath::starting_at(first.at);
        path.steps = rest
            .iter()
            .map(|place| ArcStep::Line { to: place.at })
            .collect();
        Some(Cut {
            purpose: Purpose::Corners,
            layer,
            depth_mm: depths.iter().copied().fold(0.0, f64::max),
            heights: Heights::Along(depths),
            entry,
            path,
            feed_mm_min: feed,
        })
    }

    /// Leaves places out that a straight line passes as well, and raises the tip wherever the cone would still come nearer to
    /// the letter than it may.
    fn eased(&self, mut run: walk::Run) -> walk::Run {
        run.places = walk::straightened(&run.places, &self.cone);
        for index in 1..run.places.len() {
            let [a, b] = [run.places[index - 1], run.places[index]];
            let short = self.limit() - self.clear(&a, &b);
            if short > 0.0 {
                let up = (short + NOISE_MM) / self.cone.slope;
                for place in &mut run.places[index - 1..=index] {
                    place.depth = (place.depth - up).max(0.0);
                }
            }
        }
        run
    }

    /// How far from the drawn letter the cone's edge must stay at the face, mm.
    fn limit(&self) -> f64 {
        FLATTENING_MM + ROUNDING_MM
    }

    fn clear(&self, a: &Place, b: &Place) -> f64 {
        let radii = [a, b].map(|place| self.cone.radius_at(place.depth));
        self.walls
            .clear_of_taper(a.at, b.at, radii, 2.0 * self.safety)
    }

    /// Every motion is measured against the letter over its whole length, whatever made it.
    fn check(&self, sort: &Sort, cuts: &[Cut]) -> Option<Finding> {
        let too_near = cuts.iter().find(|cut| {
            let ends = cut.path.from_and_steps().enumerate();
            let apart = ends.map(|(number, (from, step))| {
                let place = |at: Point, steps: usize| Place {
                    at,
                    depth: cut.depth_after(steps),
                };
                self.clear(&place(from, number), &place(step.to(), number + 1))
            });
            let first = Place {
                at: cut.path.start,
                depth: cut.start_depth_mm(),
            };
            let least = apart.fold(self.clear(&first, &first), f64::min);
            least < self.limit() - 2.0 * NOISE_MM || !cut.path.length().is_finite()
        })?;
        Some(Finding {
            severity: Severity::Stop,
            subject: Subject::Sort(sort.name.clone()),
            kind: "path-too-near-the-letter",
            text: texts::groove_too_near(&self.cutter.id, texts::point_at(too_near.path.start, 2)),
            remedy: texts::groove_too_near_remedy(),
        })
    }
}

/// The number of the part that is entered nearest to where the cutter stands.
fn nearest(parts: &[Groove], here: Option<Point>) -> usize {
    let Some(here) = here else { return 0 };
    let distance = |part: &Groove| {
        part.root()
            .map_or(f64::INFINITY, |root| root.at.distance_squared(here))
    };
    (0..parts.len())
        .min_by(|&a, &b| distance(&parts[a]).total_cmp(&distance(&parts[b])))
        .unwrap_or(0)
}

fn unfit(cutter: &Cutter, cone: &Cone, before: f64) -> Finding {
    Finding {
        severity: Severity::Warning,
        subject: Subject::Cutter(cutter.id.clone()),
        kind: "cone-not-used",
        text: texts::cone_not_used(
            &cutter.id,
            Value::rounded(cone.deepest, 2),
            Value::rounded(2.0 * cone.radius_at(cone.deepest), 2),
            Value::rounded(2.0 * before, 2),
        ),
        remedy: texts::cone_not_used_remedy(),
    }
}

fn too_shallow(sort: &Sort, cutter: &Cutter, depth: f64, least: f64, at: Point) -> Finding {
    Finding {
        severity: Severity::Warning,
        subject: Subject::Sort(sort.name.clone()),
        kind: "ground-too-shallow",
        text: texts::groove_too_shallow(
            &cutter.id,
            Value::rounded(depth, 2),
            texts::point_at(at, 1),
            Value::rounded(least, 2),
        ),
        remedy: texts::groove_too_shallow_remedy(),
    }
}

fn not_entered(sort: &Sort, cutter: &Cutter, at: Point) -> Finding {
    Finding {
        severity: Severity::Warning,
        subject: Subject::Sort(sort.name.clone()),
        kind: "ground-left",
        text: texts::groove_left(texts::point_at(at, 1), &cutter.id),
        remedy: texts::groove_left_remedy(),
    }
}
