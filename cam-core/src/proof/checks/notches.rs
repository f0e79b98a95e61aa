//! Steps cut from the corners of blocks are of the shape that the job file says, cut true and down to where the blocks come apart, and
//! enter no block, neither their own nor one beside it. The corner that comes to lie in such a step clears what the round cutter leaves.

use kurbo::{Point, Rect, Vec2};
use said::Value;

use super::super::bench::{Bench, ROUNDING_MM};
use super::super::copies::{Copy, bounds};
use super::super::report;
use super::separation::{Cut, covered_to, cut_true_to, cuts, entered, touchable_places};
use crate::finding::{Finding, Subject, texts};
use crate::job_file::{JobNotch, JobRole, JobSeparation};
use crate::progress::Stopped;

/// Furthest apart of the places within a step that are looked at, mm.
const STEP_MM: f64 = 0.5;

/// How far the corners of a block may lie off, mm.
const TRUE_MM: f64 = 0.01;

/// Wood beside a fillet or a bevel is looked at from a little beyond it, mm.
const BESIDE_FILLET_MM: f64 = 0.05;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let sawn = match bench.job.separation {
        JobSeparation::Saw => true,
        JobSeparation::Router => false,
    };
    let findings = bench.each_copy(|copy, near| {
        let cuts = cuts(bench, near);
        // Where a router parts the blocks, the check of the separation looks at every cut that enters a block.
        let mut findings = if sawn {
            entered(copy, &cuts)
        } else {
            Vec::new()
        };
        if !copy.sort.notches.is_empty() {
            findings.extend(steps(bench, copy, &cuts));
        }
        findings
    })?;
    Ok(report::first_few(findings))
}

/// What is wrong with the steps of one block.
fn steps(bench: &Bench, copy: &Copy, cuts: &[Cut]) -> Vec<Finding> {
    let height = bench.job.planks[copy.plank].height_to_paper_mm;
    let deep = height - bench.job.hold_mm.unwrap_or(0.0);
    let radius = fillet(cuts);
    let mut findings = Vec::new();
    let mut say = |kind, text| {
        findings.push(report::stop(
            Subject::Sort(copy.sort.id.clone()),
            kind,
            text,
            texts::do_not_run_these(),
        ));
    };
    let id = &copy.sort.id;
    for notch in &copy.sort.notches {
        let step = Step::of(copy, notch);
        if notch.bevel_mm < radius {
            say(
                "notch-corner-binds",
                texts::notch_corner_binds(
                    id,
                    Value::rounded(notch.bevel_mm, 2),
                    Value::rounded(radius, 2),
                ),
            );
        }
        if let Some(at) = step
            .places(radius)
            .find(|&at| covered_to(cuts, at) + ROUNDING_MM < deep)
        {
            say(
                "notch-not-cleared",
                texts::notch_not_cleared(
                    id,
                    report::place(at),
                    Value::rounded(covered_to(cuts, at), 2),
                    Value::rounded(deep, 2),
                ),
            );
        }
        let walls = touchable_places(&copy.block, cuts).into_iter();
        if let Some(at) = walls
            .filter(|&at| step.has_wall_at(at))
            .find(|&at| cut_true_to(cuts, at) + ROUNDING_MM < deep)
        {
            say(
                "notch-not-true",
                texts::notch_not_true(id, report::place(at)),
            );
        }
    }
    findings
}

/// The radius that is left in inner corners: of the cutters that cut notches the smallest, or of all that come there the largest.
fn fillet(cuts: &[Cut]) -> f64 {
    let notching = cuts.iter().filter(|cut| match cut.run.role {
        JobRole::Notches => true,
        JobRole::Roughing
        | JobRole::Finishing
        | JobRole::Rest
        | JobRole::Corners
        | JobRole::Separation => false,
    });
    notching
        .map(|cut| cut.run.radius)
        .reduce(f64::min)
        .unwrap_or_else(|| cuts.iter().map(|cut| cut.run.radius).fold(0.0, f64::max))
}

/// A step on the plank: from the corner of the block's box inward.
struct Step {
    corner: Point,
    inward: Vec2,
    width: f64,
    height: f64,
    bevel: f64,
}

impl Step {
    fn of(copy: &Copy, notch: &JobNotch) -> Step {
        let corner = Point::from((notch.corner_mm[0], notch.corner_mm[1]));
        let middle = bounds(&copy.block).center();
        Step {
            corner,
            inward: Vec2::new(
                (middle.x - corner.x).signum(),
                (middle.y - corner.y).signum(),
            ),
            width: notch.size_mm[0],
            height: notch.size_mm[1],
            bevel: notch.bevel_mm,
        }
    }

    fn at(&self, across: f64, along: f64) -> Point {
        self.corner + Vec2::new(self.inward.x * across, self.inward.y * along)
    }

    /// The corners of the block's outline here: bevel, floor, wall.
    fn outline(&self) -> [Point; 4] {
        [
            self.at(0.0, self.height + self.bevel),
            self.at(self.bevel, self.height),
            self.at(self.width, self.height),
            self.at(self.width, 0.0),
        ]
    }

    /// Places all over the step and what the bevel takes off, but not in the fillet of the inner corner.
    fn places(&self, radius: f64) -> impl Iterator<Item = Point> + '_ {
        let columns = (self.width / STEP_MM).ceil() as u32;
        let rows = ((self.height + self.bevel) / STEP_MM).ceil() as u32;
        (0..columns)
            .flat_map(move |column| (0..rows).map(move |row| (column, row)))
            .map(move |(column, row)| {
                let across = self.width * (f64::from(column) + 0.5) / f64::from(columns);
                let all = self.height + self.bevel;
                (across, all * (f64::from(row) + 0.5) / f64::from(rows))
            })
            .filter(move |(across, along)| {
                *along < self.height || across + along < self.height + self.bevel - BESIDE_FILLET_MM
            })
            .filter(move |(across, along)| {
                // From the middle of a cutter that touches wall and floor.
                let away = [across - self.width, along - self.height].map(|off| radius + off);
                let beside = away[0] < 0.0 || away[1] < 0.0;
                beside || away[0].hypot(away[1]) < radius - BESIDE_FILLET_MM
            })
            .map(move |(across, along)| self.at(across, along))
    }

    /// Whether a place of the block's outline belongs to the step.
    fn has_wall_at(&self, at: Point) -> bool {
        let far = self.at(self.width, self.height + self.bevel);
        Rect::from_points(self.corner, far)
            .inflate(TRUE_MM, TRUE_MM)
            .contains(at)
            && self
                .outline()
                .windows(2)
                .any(|ends| off_line(ends[0], ends[1], at) < TRUE_MM)
    }
}

fn off_line(a: Point, b: Point, at: Point) -> f64 {
    let along = b - a;
    (along.cross(at - a) / along.hypot().max(f64::MIN_POSITIVE)).abs()
}

/// Whether a block's outline is its box less the steps that the job file tells of.
pub(super) fn is_stepped_box(copy: &Copy) -> bool {
    let area = bounds(&copy.block);
    let corners = [
        (area.x0, area.y0),
        (area.x1, area.y0),
        (area.x1, area.y1),
        (area.x0, area.y1),
    ];
    let mut wanted: Vec<Point> = Vec::new();
    let mut used = 0;
    for corner in corners.map(Point::from) {
        let cut = copy.sort.notches.iter().find(|notch| {
            let [x, y] = notch.corner_mm;
            corner.distance(Point::new(x, y)) <= TRUE_MM
        });
        match cut {
            Some(notch) => {
                let step = Step::of(copy, notch);
                let proper = 0.0 < step.bevel
                    && step.bevel < step.width
                    && step.width < area.width()
                    && 0.0 < step.height
                    && step.height + step.bevel < area.height();
                if !proper {
                    return false;
                }
                wanted.extend(step.outline());
                used += 1;
            }
            None => wanted.push(corner),
        }
    }
    let there = |place: &Point| {
        copy.block
            .iter()
            .any(|corner| corner.distance(*place) <= TRUE_MM)
    };
    used == copy.sort.notches.len()
        && wanted.len() == copy.block.len()
        && wanted.iter().all(there)
        && geometry::region::signed_area(&copy.block) > 0.0
        && !crosses_itself(&copy.block)
}

/// Whether sides of a ring that are not neighbours meet.
fn crosses_itself(ring: &[Point]) -> bool {
    let count = ring.len();
    let side = |index: usize| (ring[index], ring[(index + 1) % count]);
    let apart = |(a, b): (Point, Point), (c, d): (Point, Point)| {
        let over = |p: Point, q: Point, r: Point| (q - p).cross(r - p) > 0.0;
        over(a, c, d) == over(b, c, d) || over(a, b, c) == over(a, b, d)
    };
    (0..count).any(|one| {
        (one + 2..count)
            .filter(|other| (other + 1) % count != one)
            .any(|other| !apart(side(one), side(other)))
    })
}
