//! The course of a plank's programs in time: where the cutter is at each moment, and what is cut by then.

use std::collections::BTreeMap;
use std::ops::Range;

use geometry::cells::Grid;
use kurbo::Point;
use reader::{Place, ReadCourse, ReadMotion};

use super::heights::{self, Footprint, HeightMapError, plank_grid, read_plank};
use super::motion;
use super::solid::Solid;
use crate::job_file::JobFile;
use crate::progress::Progress;
use crate::toolpath::duration::moments;

/// How often the wood is kept as it is at a moment, so that going back need not begin with the bare plank: a map of 400 mm by 220 mm at
/// 0.25 mm takes 6 MB.
const KEPT: usize = 8;

/// Programs that run on one plank, one after another.
pub struct Course {
    /// The plank's thickness, mm.
    pub thickness_mm: f64,
    /// The cells of its surface.
    pub grid: Grid,
    /// What its cutters do, in order; a program with changes of cutter is told as one for each.
    pub parts: Vec<CoursePart>,
    motions: Vec<Timed>,
    kept: Vec<Surface>,
}

/// What one cutter does in one program.
#[derive(Clone, Debug, PartialEq)]
pub struct CoursePart {
    /// The program.
    pub file: String,
    /// The cutter.
    pub cutter: String,
    /// Its diameter, mm.
    pub diameter_mm: f64,
    /// When it begins, seconds.
    pub begins_s: f64,
    solid: Solid,
}

/// A motion and when it ends.
#[derive(Clone, Copy, Debug)]
struct Timed {
    read: ReadMotion,
    part: u32,
    ends_s: f64,
}

/// The plank's surface at a moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Surface {
    /// Height of the middle of each cell of [`Course::grid`] above the face, mm: 0 where no cutter came.
    pub heights: Vec<f32>,
    /// The moment, seconds.
    at_s: f64,
    /// How many motions are cut whole.
    cut: usize,
}

/// Where a cutter is at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// The number of the motion that it is in.
    pub motion: usize,
    /// Which of [`Course::parts`] runs.
    pub part: usize,
    /// The line of its program, counted from 1.
    pub line: usize,
    /// The place of its tip.
    pub at: Place,
    /// Its feed, mm/min; `None` in a rapid move.
    pub feed_mm_min: Option<f64>,
}

/// Cells that have changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Changed {
    /// Their rows.
    pub rows: Range<usize>,
    /// Their columns.
    pub columns: Range<usize>,
}

impl Course {
    /// Lays out the course of a plank's programs; `texts` are their texts by file name, `cell_mm` is the side of a cell of the surface,
    /// 0.01 to 10 mm.
    ///
    /// # Errors
    /// When the plank is not the job's, a program of it cannot be read, the cell has no size, or the work was stopped.
    pub fn lay(
        job: &JobFile,
        texts: &BTreeMap<String, String>,
        plank_id: &str,
        cell_mm: f64,
        progress: &Progress,
    ) -> Result<Course, HeightMapError> {
        let (plank, programs) = read_plank(job, texts, plank_id, cell_mm)?;
        let machine = plank.machine.as_ref().unwrap_or(&job.machine).limits();
        let mut course = Course {
            thickness_mm: plank.height_to_paper_mm,
            grid: plank_grid(plank, cell_mm),
            parts: Vec::new(),
            motions: Vec::new(),
            kept: Vec::new(),
        };
        let mut begun_s = 0.0;
        for program in &programs {
            progress.check()?;
            let moments = moments(&program.replay, &machine);
            let mut ends = moments.iter().map(|moment| begun_s + moment);
            for run in &program.runs {
                let part = course.parts.len() as u32;
                course.parts.push(CoursePart {
                    file: run.file.to_owned(),
                    cutter: run.cutter.id.clone(),
                    diameter_mm: run.cutter.diameter_mm,
                    begins_s: course.lasts_s().max(begun_s),
                    solid: run.solid,
                });
                course.motions.extend(
                    run.motions
                        .iter()
                        .zip(&mut ends)
                        .map(|(&read, ends_s)| Timed { read, part, ends_s }),
                );
            }
            begun_s += moments.last().copied().unwrap_or(0.0);
        }
        course.keep(progress)?;
        Ok(course)
    }

    /// How long all of it takes, seconds, without changes of cutter.
    pub fn lasts_s(&self) -> f64 {
        self.motions.last().map_or(0.0, |last| last.ends_s)
    }

    /// How many motions there are.
    pub fn motions(&self) -> usize {
        self.motions.len()
    }

    /// When a motion begins, seconds: when the one before it ends.
    pub fn begin_of(&self, motion: usize) -> f64 {
        motion
            .checked_sub(1)
            .map_or(0.0, |before| self.end_of(before))
    }

    /// When a motion ends, seconds; the end of the course for those that do not exist.
    pub fn end_of(&self, motion: usize) -> f64 {
        self.motions
            .get(motion)
            .map_or(self.lasts_s(), |timed| timed.ends_s)
    }

    /// When a line of a part's program begins to move the cutter, or the next line that does, seconds; `None` if none does.
    pub fn moment_of_line(&self, part: usize, line: usize) -> Option<f64> {
        let number = self
            .motions
            .iter()
            .position(|timed| timed.part as usize == part && timed.read.line >= line)?;
        Some(self.begin_of(number))
    }

    /// Where the cutter is at a moment; `None` if nothing runs on this plank.
    pub fn stand(&self, at_s: f64) -> Option<Stand> {
        let motion = self.running(at_s).min(self.motions.len().checked_sub(1)?);
        let timed = &self.motions[motion];
        let share = self.share(motion, at_s);
        let (from, to) = (timed.read.from, timed.read.to);
        Some(Stand {
            motion,
            part: timed.part as usize,
            line: timed.read.line,
            at: Place {
                xy: timed.read.xy_at(share),
                z: from.z + (to.z - from.z) * share,
            },
            feed_mm_min: match timed.read.course {
                ReadCourse::Rapid => None,
                ReadCourse::Line { feed_mm_min } | ReadCourse::Arc { feed_mm_min, .. } => {
                    Some(feed_mm_min)
                }
            },
        })
    }

    /// The way of the cutter through some motions, each as places no further apart than `step_mm`, with whether it is fed and whether
    /// it is above the wood.
    pub fn way(
        &self,
        motions: Range<usize>,
        step_mm: f64,
    ) -> impl Iterator<Item = (Vec<Point>, bool, bool)> + '_ {
        let end = motions.end.min(self.motions.len());
        let start = motions.start.min(end);
        self.motions[start..end].iter().map(move |timed| {
            let places = match timed.read.course {
                ReadCourse::Rapid | ReadCourse::Line { .. } => {
                    vec![timed.read.from.xy, timed.read.to.xy]
                }
                ReadCourse::Arc { .. } => motion::places(&timed.read, step_mm).collect(),
            };
            let fed = !matches!(timed.read.course, ReadCourse::Rapid);
            (places, fed, !motion::is_below_face(&timed.read))
        })
    }

    /// The plank before anything is cut.
    pub fn bare(&self) -> Surface {
        Surface {
            heights: vec![0.0; self.grid.count()],
            at_s: 0.0,
            cut: 0,
        }
    }

    /// Brings a surface to a moment, forward by cutting on, back from what is kept. Tells which cells may have changed; `None` if none.
    pub fn bring(&self, surface: &mut Surface, at_s: f64) -> Option<Changed> {
        let at_s = at_s.clamp(0.0, self.lasts_s());
        let back = at_s < surface.at_s;
        if back {
            match self.kept.iter().rev().find(|kept| kept.at_s <= at_s) {
                Some(kept) => surface.clone_from(kept),
                None => *surface = self.bare(),
            }
        }
        let whole = self.running(at_s);
        let mut changed = None;
        for motion in surface.cut..whole {
            self.cut(surface, &self.motions[motion].read, motion, &mut changed);
        }
        if whole < self.motions.len() {
            let part = part_of(&self.motions[whole].read, self.share(whole, at_s));
            self.cut(surface, &part, whole, &mut changed);
        }
        surface.cut = whole;
        surface.at_s = at_s;
        if back {
            Some(self.everything())
        } else {
            changed
        }
    }

    fn cut(
        &self,
        surface: &mut Surface,
        read: &ReadMotion,
        number: usize,
        changed: &mut Option<Changed>,
    ) {
        if !motion::is_below_face(read) {
            return;
        }
        let solid = &self.parts[self.motions[number].part as usize].solid;
        let widest = solid.radius_at(motion::depths(read).0);
        let swept = motion::extent(read).inflate(widest, widest);
        let rows = self.grid.rows_between(swept.y0, swept.y1);
        let columns = self.grid.columns_between(swept.x0, swept.x1);
        if rows.is_empty() || columns.is_empty() {
            return;
        }
        let start = rows.start * self.grid.columns;
        let end = rows.end * self.grid.columns;
        heights::cut(
            &self.grid,
            rows.clone(),
            &mut surface.heights[start..end],
            (solid, read, &Footprint::of(read, widest)),
        );
        *changed = Some(match changed.take() {
            None => Changed { rows, columns },
            Some(known) => Changed {
                rows: known.rows.start.min(rows.start)..known.rows.end.max(rows.end),
                columns: known.columns.start.min(columns.start)..known.columns.end.max(columns.end),
            },
        });
    }

    fn everything(&self) -> Changed {
        Changed {
            rows: 0..self.grid.rows,
            columns: 0..self.grid.columns,
        }
    }

    /// The number of the motion that runs at a moment: how many have ended before.
    fn running(&self, at_s: f64) -> usize {
        self.motions.partition_point(|timed| timed.ends_s <= at_s)
    }

    /// How much of a motion is done at a moment, 0 to 1, as if it went at one speed.
    fn share(&self, motion: usize, at_s: f64) -> f64 {
        let begins_s = self.begin_of(motion);
        let lasts_s = self.end_of(motion) - begins_s;
        if lasts_s > 0.0 {
            ((at_s - begins_s) / lasts_s).clamp(0.0, 1.0)
        } else {
            1.0
        }
    }

    /// Keeps the surface at moments spread evenly.
    fn keep(&mut self, progress: &Progress) -> Result<(), HeightMapError> {
        let mut surface = self.bare();
        let mut kept = Vec::with_capacity(KEPT);
        for number in 1..=KEPT {
            progress.check()?;
            self.bring(&mut surface, self.lasts_s() * number as f64 / KEPT as f64);
            kept.push(surface.clone());
        }
        self.kept = kept;
        Ok(())
    }
}

/// The first part of a motion.
fn part_of(read: &ReadMotion, share: f64) -> ReadMotion {
    let mut part = *read;
    part.to = Place {
        xy: read.xy_at(share),
        z: read.from.z + (read.to.z - read.from.z) * share,
    };
    if let ReadCourse::Arc { sweep, .. } = &mut part.course {
        *sweep *= share;
    }
    part
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::tests::Workpiece;

    const CELL_MM: f64 = 0.2;

    fn laid(piece: &Workpiece) -> Course {
        let progress = Progress::new();
        Course::lay(&piece.job, &piece.programs, "plank-1", CELL_MM, &progress)
            .expect("the job is sound")
    }

    #[test]
    fn ends_as_the_height_map_says() {
        let piece = Workpiece::sound();
        let course = laid(&piece);
        let mut surface = course.bare();
        course.bring(&mut surface, course.lasts_s());
        let progress = Progress::new();
        let map = heights::height_map(&piece.job, &piece.programs, "plank-1", CELL_MM, &progress)
            .expect("the job is sound");
        assert_eq!(course.grid, map.grid);
        let bed = -course.thickness_mm as f32;
        for (height, other) in surface.heights.iter().zip(&map.heights) {
            assert_eq!(height.max(bed), *other);
        }
    }

    #[test]
    fn takes_as_long_as_its_programs() {
        let piece = Workpiece::sound();
        let course = laid(&piece);
        let sum: f64 = piece
            .job
            .programs
            .iter()
            .map(|program| program.estimate_s)
            .sum();
        assert!((course.lasts_s() - sum).abs() < 1e-6, "{sum}");
        assert_eq!(course.parts.len(), 2);
        let first = piece.job.programs[0].estimate_s;
        assert!((course.parts[1].begins_s - first).abs() < 1e-6);
    }

    #[test]
    fn any_way_to_a_moment_gives_the_same_surface() {
        let course = laid(&Workpiece::sound());
        let end = course.lasts_s();
        let mut at_once = course.bare();
        course.bring(&mut at_once, 0.37 * end);
        let mut by_steps = course.bare();
        for step in 0..=370 {
            course.bring(&mut by_steps, 0.001 * f64::from(step) * end);
        }
        let mut back = course.bare();
        course.bring(&mut back, 0.9 * end);
        course.bring(&mut back, 0.37 * end);
        let mut from_the_end = course.bare();
        course.bring(&mut from_the_end, end);
        course.bring(&mut from_the_end, 0.1 * end);
        course.bring(&mut from_the_end, 0.37 * end);
        let bare = course.bare().heights;
        assert!(at_once.heights != bare);
        for other in [by_steps, back, from_the_end] {
            assert_eq!(other.cut, at_once.cut);
            let apart = other
                .heights
                .iter()
                .zip(&at_once.heights)
                .filter(|(one, two)| (**one - **two).abs() > 1e-4)
                .count();
            assert_eq!(apart, 0);
        }
    }

    #[test]
    fn tells_all_cells_that_change() {
        let course = laid(&Workpiece::sound());
        let mut surface = course.bare();
        let mut before = surface.heights.clone();
        let mut changes = 0;
        for step in 1..=200 {
            let told = course.bring(&mut surface, f64::from(step) / 200.0 * course.lasts_s());
            for (cell, (now, old)) in surface.heights.iter().zip(&before).enumerate() {
                if now != old {
                    changes += 1;
                    let told = told.as_ref().expect("a change is told");
                    let (row, column) = (cell / course.grid.columns, cell % course.grid.columns);
                    assert!(told.rows.contains(&row) && told.columns.contains(&column));
                }
            }
            before.clone_from(&surface.heights);
        }
        assert!(changes > 1000);
    }

    #[test]
    fn the_cutter_goes_from_motion_to_motion() {
        let course = laid(&Workpiece::sound());
        let first = course.stand(0.0).expect("something runs");
        assert_eq!((first.part, first.feed_mm_min), (0, None));
        let last = course.stand(course.lasts_s()).expect("something runs");
        assert_eq!((last.motion, last.part), (course.motions() - 1, 1));
        let mut before = first;
        for number in 0..course.motions() {
            let (begins, ends) = (course.begin_of(number), course.end_of(number));
            if ends - begins < 1e-9 {
                continue;
            }
            let start = course.stand(begins).expect("something runs");
            let middle = course
                .stand(f64::midpoint(begins, ends))
                .expect("something runs");
            assert_eq!(middle.motion, number);
            assert!(
                start.motion <= number && before.line <= start.line || start.part > before.part
            );
            before = start;
        }
        // A rapid move down is above, a cut is fed.
        let ways: Vec<(Vec<Point>, bool, bool)> = course.way(0..course.motions(), 0.1).collect();
        assert!(ways.iter().any(|(_, fed, above)| !fed && *above));
        assert!(
            ways.iter()
                .any(|(places, fed, above)| *fed && !above && places.len() > 10)
        );
    }
}
