//! What the programs of a job do to the wood, measured from their text alone.
//!
//! The texts are taken apart by a parser that is not ours ([`crate::told`]); letters, blocks, cutters and depths come from the
//! job file. Nothing here is shared with what plans, writes or proves.

mod load;
mod sheet;
mod walls;

use cam_core::job_file::{JobCutter, JobCutterKind, JobFile, JobSort, JobZero};
use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

pub use load::{Load, load_in_parts};
pub use sheet::Sheet;
pub use walls::{CornerCut, WallPlace, corners, walls};

use crate::letters::rectangle;
use crate::referee::Area;
use crate::told::told;

/// The cutting part of a cutter, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Form {
    /// The largest radius.
    pub radius: f64,
    /// Radius of the flat at the tip: the radius itself for flat cutters, 0 for round ones.
    pub tip: f64,
    /// Radius gained for each mm of height above the tip; infinite for flat cutters.
    pub slope: f64,
    round: bool,
}

impl Form {
    /// The form of a cutter of the job.
    pub fn of(cutter: &JobCutter) -> Form {
        let radius = cutter.diameter_mm / 2.0;
        let form = Form {
            radius,
            tip: radius,
            slope: f64::INFINITY,
            round: false,
        };
        match cutter.kind {
            JobCutterKind::Flat => form,
            JobCutterKind::Ball => Form {
                tip: 0.0,
                round: true,
                ..form
            },
            JobCutterKind::Conical => Form {
                tip: cutter.tip_diameter_mm.unwrap_or(0.0) / 2.0,
                slope: (cutter.included_angle_deg.unwrap_or(0.0).to_radians() / 2.0).tan(),
                ..form
            },
        }
    }

    /// How far from its axis it cuts at a height above its tip.
    pub fn reach_at(&self, height: f64) -> f64 {
        if height < 0.0 {
            return 0.0;
        }
        if self.round {
            let below = (self.radius - height).max(0.0);
            return (self.radius * self.radius - below * below).max(0.0).sqrt();
        }
        if self.slope.is_infinite() {
            return self.radius;
        }
        (self.tip + height * self.slope).min(self.radius)
    }

    /// How high above its tip it cuts at a distance from its axis; `None` beyond its radius.
    pub fn rise_at(&self, distance: f64) -> Option<f64> {
        if distance > self.radius {
            return None;
        }
        if self.round {
            return Some(self.radius - (self.radius * self.radius - distance * distance).sqrt());
        }
        if distance <= self.tip {
            return Some(0.0);
        }
        Some((distance - self.tip) / self.slope)
    }
}

/// One motion over a plank: in plank mm, heights as depth below the face.
#[derive(Clone, Copy, Debug)]
pub struct Cut {
    /// The cutter's number in [`Plank::cutters`].
    pub cutter: usize,
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// Depth at the start and at the end; negative above the face.
    pub depth: [f64; 2],
    /// Centre of an arc and the sweep about it, counter-clockwise positive.
    pub arc: Option<(Point, f64)>,
    /// Feed, mm/min; `None` for a rapid.
    pub feed: Option<f64>,
}

impl Cut {
    /// Length seen from above.
    pub fn flat_length(&self) -> f64 {
        match self.arc {
            Some((centre, sweep)) => self.from.distance(centre) * sweep.abs(),
            None => self.from.distance(self.to),
        }
    }

    /// Length in space.
    pub fn length(&self) -> f64 {
        self.flat_length().hypot(self.depth[1] - self.depth[0])
    }

    /// The place at a part of the way, 0 to 1, and the depth there.
    pub fn at(&self, part: f64) -> (Point, f64) {
        let depth = self.depth[0] + (self.depth[1] - self.depth[0]) * part;
        let at = match self.arc {
            Some((centre, sweep)) => {
                let arm = self.from - centre;
                let (sin, cos) = (sweep * part).sin_cos();
                centre + Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
            }
            None => self.from.lerp(self.to, part),
        };
        (at, depth)
    }

    /// A rectangle that holds it.
    pub fn bounds(&self) -> Rect {
        match self.arc {
            Some((centre, _)) => {
                let radius = self.from.distance(centre);
                Rect::from_center_size(centre, (2.0 * radius, 2.0 * radius))
            }
            None => Rect::from_points(self.from, self.to),
        }
    }

    /// The distance of a place from it, seen from above.
    pub fn distance(&self, place: Point) -> f64 {
        let ends = place.distance(self.from).min(place.distance(self.to));
        match self.arc {
            Some((centre, sweep)) => {
                let (start, arm) = (self.from - centre, place - centre);
                let angle = start.cross(arm).atan2(start.dot(arm)) * sweep.signum();
                let angle = angle.rem_euclid(std::f64::consts::TAU);
                if angle <= sweep.abs() {
                    (arm.hypot() - start.hypot()).abs()
                } else {
                    ends
                }
            }
            None => {
                let along = self.to - self.from;
                let part = (place - self.from).dot(along) / along.hypot2();
                if part > 0.0 && part < 1.0 {
                    (along.cross(place - self.from) / along.hypot()).abs()
                } else {
                    ends
                }
            }
        }
    }
}

/// A cutter with what the job says of it.
#[derive(Clone, Debug)]
pub struct Mill {
    /// Its id.
    pub id: String,
    /// Its cutting part.
    pub form: Form,
    /// Depth of one layer.
    pub step_down: f64,
}

/// Everything that is done to one plank.
#[derive(Clone, Debug)]
pub struct Plank {
    /// The cutters of the job.
    pub cutters: Vec<Mill>,
    /// The motions in the order of running.
    pub cuts: Vec<Cut>,
}

/// The motions over a plank, read from the programs' texts by the job's files.
///
/// # Panics
/// If the job names what it does not have, or a program changes cutters; those of this measuring do not.
pub fn plank(job: &JobFile, id: &str, text_of: impl Fn(&str) -> String) -> Plank {
    let of_plank = job
        .planks
        .iter()
        .find(|plank| plank.id == id)
        .unwrap_or_else(|| panic!("no plank {id}"));
    let origin = Vec2::new(of_plank.program_origin_mm[0], of_plank.program_origin_mm[1]);
    let face = match of_plank.program_zero {
        JobZero::Face => 0.0,
        JobZero::Bed => of_plank.height_to_paper_mm,
    };
    let cutters = job
        .cutters
        .iter()
        .map(|cutter| Mill {
            id: cutter.id.clone(),
            form: Form::of(cutter),
            step_down: cutter.step_down_mm.unwrap_or(f64::INFINITY),
        })
        .collect();
    let mut cuts = Vec::new();
    for program in job.programs.iter().filter(|program| program.plank == id) {
        assert!(
            program.changes.is_empty(),
            "{} changes cutters",
            program.file
        );
        let cutter = job
            .cutters
            .iter()
            .position(|cutter| cutter.id == program.cutter)
            .unwrap_or_else(|| panic!("no cutter {}", program.cutter));
        let (motions, _) = told(&text_of(&program.file));
        cuts.extend(motions.iter().skip(1).map(|motion| {
            let (from, to) = (motion.start() + origin, motion.end() + origin);
            Cut {
                cutter,
                from,
                to,
                depth: [face - motion.from[2], face - motion.to[2]],
                arc: motion.centre.map(|centre| {
                    let centre = centre + origin;
                    (centre, sweep(from, to, centre, motion.code == 3))
                }),
                feed: (motion.code != 0).then_some(motion.feed_mm_min),
            }
        }));
    }
    Plank { cutters, cuts }
}

fn sweep(from: Point, to: Point, centre: Point, left: bool) -> f64 {
    use std::f64::consts::TAU;
    let sign = if left { 1.0 } else { -1.0 };
    let (a, b) = (from - centre, to - centre);
    let angle = (sign * a.cross(b)).atan2(a.dot(b)).rem_euclid(TAU);
    sign * if from == to { TAU } else { angle }
}

/// The drawn letter of a copy, in plank mm; `None` for plain blocks.
///
/// # Panics
/// If the job lacks its outline, or the outline is no path.
pub fn drawn(job: &JobFile, sort: &JobSort) -> Option<BezPath> {
    let (font, glyph) = (sort.font.as_ref()?, sort.glyph?);
    let outline = job
        .outlines
        .iter()
        .filter(|outline| outline.font == *font && outline.glyph == glyph)
        .find(|outline| outline.layer == sort.layer)
        .unwrap_or_else(|| panic!("{} has no outline", sort.id));
    let path = BezPath::from_svg(&outline.path).expect("the job's outlines are path data");
    let affine = Affine::new(sort.source_to_plank.expect("a letter has its place"));
    Some(affine * path)
}

/// A copy's block and a margin around it, in plank mm.
pub fn window(sort: &JobSort, margin: f64) -> Rect {
    let mut path = BezPath::new();
    for (number, at) in sort.block_mm.iter().enumerate() {
        let at = Point::new(at[0], at[1]);
        if number == 0 {
            path.move_to(at);
        } else {
            path.line_to(at);
        }
    }
    path.bounding_box().inflate(margin, margin)
}

/// The same as an area.
pub fn around(sort: &JobSort, margin: f64) -> Area {
    let block = window(sort, margin);
    let ring = rectangle(block.x0, block.y0, block.x1, block.y1);
    Area::of_rings([ring.as_slice()])
}
