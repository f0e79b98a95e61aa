//! Programs read back and laid on their planks.

use std::collections::{BTreeMap, BTreeSet};

use kurbo::{Rect, Vec2};
use rayon::prelude::*;
use reader::{PauseKind, ReadError, ReadMotion, Replay};

use super::heights::Footprint;
use super::motion;
use super::solid::Solid;
use super::squareness::Doing;
use crate::job_file::{JobCutter, JobFile, JobPlank, JobProgram, JobRole, JobZero};

/// What one program of the job file turned out to be.
pub struct ReadProgram<'a> {
    /// Its entry in the job file.
    pub entry: &'a JobProgram,
    /// The text, if the file was there.
    pub text: Option<&'a str>,
    /// What the text does; `None` if the file was not there.
    pub replay: Option<Result<Replay, ReadError>>,
}

/// The part of a program that one cutter runs, in plank coordinates.
#[derive(Clone)]
pub struct Run<'a> {
    /// The program's file name.
    pub file: &'a str,
    /// Index of the plank in the job file.
    pub plank: usize,
    /// The cutter.
    pub cutter: &'a JobCutter,
    /// What the run is for.
    pub role: JobRole,
    /// Half the cutter's diameter.
    pub radius: f64,
    /// The cutter's shape.
    pub solid: Solid,
    /// The motions in order.
    pub motions: Vec<ReadMotion>,
    /// The numbers of the motions below the face, in order, with the box that each sweeps.
    pub swept: Vec<(u32, Rect)>,
}

impl Run<'_> {
    /// Half the width that a motion cuts at the face at the most.
    pub fn widest(&self, read: &ReadMotion) -> f64 {
        self.solid.radius_at(motion::depths(read).0)
    }

    /// The box swept by each motion below the face.
    fn swept_boxes(&self) -> Vec<(u32, Rect)> {
        (0..)
            .zip(&self.motions)
            .filter(|(_, read)| motion::is_below_face(read))
            .map(|(number, read)| (number, self.swept_by(read)))
            .collect()
    }

    /// The box that a motion sweeps at the face.
    pub fn swept_by(&self, read: &ReadMotion) -> Rect {
        let widest = self.widest(read);
        motion::extent(read).inflate(widest, widest)
    }

    /// Whether a motion begins where the one before it has left all within the cutter as deep as it goes itself: both end level below the
    /// face, and the cutter is flat.
    pub fn goes_on(&self, number: u32) -> bool {
        let Some(before) = number.checked_sub(1) else {
            return false;
        };
        let [before, read] = [before, number].map(|number| &self.motions[number as usize]);
        self.solid.is_flat() && before.to == read.from && read.from.z == read.to.z
    }

    /// What a motion covers at the face that the one before it has not left as deep.
    pub fn footprint(&self, number: u32) -> Footprint {
        let read = &self.motions[number as usize];
        let whole = Footprint::of(read, self.widest(read));
        if self.goes_on(number) {
            whole.beyond_start()
        } else {
            whole
        }
    }

    /// Whether the run cuts sides of blocks, and so down to where they come apart.
    pub fn cuts_sides(&self) -> bool {
        cuts_sides(self.role)
    }
}

/// Whether a role is to cut sides of blocks, not the ground about letters.
pub fn cuts_sides(role: JobRole) -> bool {
    match role {
        JobRole::Separation | JobRole::Notches => true,
        JobRole::Roughing | JobRole::Finishing | JobRole::Rest | JobRole::Corners => false,
    }
}

/// Reads the programs that the job file names and that are wanted.
pub fn read_all<'a>(
    job: &'a JobFile,
    texts: &'a BTreeMap<String, String>,
    wanted: impl Fn(&JobProgram) -> bool + Sync,
) -> Vec<ReadProgram<'a>> {
    job.programs
        .par_iter()
        .filter(|entry| wanted(entry))
        .map(|entry| {
            let text = texts.get(&entry.file).map(String::as_str);
            ReadProgram {
                entry,
                text,
                replay: text.map(reader::read),
            }
        })
        .collect()
}

/// Lays what was read on the planks, one run per cutter. Programs that could not be read, or that name a plank or cutter
/// that the job does not have, give no run; checks of their own say so.
pub fn lay<'a>(job: &'a JobFile, programs: &[ReadProgram<'a>]) -> Vec<Run<'a>> {
    let laid: Vec<Vec<Run>> = programs
        .par_iter()
        .map(|program| lay_one(job, program))
        .collect();
    laid.into_iter().flatten().collect()
}

/// Lays one program on its plank.
pub fn lay_one<'a>(job: &'a JobFile, program: &ReadProgram<'a>) -> Vec<Run<'a>> {
    let entry = program.entry;
    let replay = match &program.replay {
        Some(Ok(replay)) => replay,
        Some(Err(_)) | None => return Vec::new(),
    };
    let Some(index) = job.planks.iter().position(|plank| plank.id == entry.plank) else {
        return Vec::new();
    };
    let plank = &job.planks[index];
    let doing = Doing::of(job.machine.squareness.as_ref());
    let stages = std::iter::once((&entry.cutter, entry.role)).chain(
        entry
            .changes
            .iter()
            .map(|change| (&change.cutter, change.role)),
    );
    parts(replay)
        .into_iter()
        .zip(stages)
        .filter_map(|(motions, (cutter, role))| {
            let cutter = job.cutter(cutter)?;
            let mut run = Run {
                file: &entry.file,
                plank: index,
                cutter,
                role,
                radius: cutter.diameter_mm / 2.0,
                solid: Solid::of(cutter),
                motions: on_plank(motions, plank, doing),
                swept: Vec::new(),
            };
            run.swept = run.swept_boxes();
            Some(run)
        })
        .collect()
}

/// The motions between changes of cutter: a program stops for each (M0) or names it (M6).
pub fn parts(replay: &Replay) -> Vec<&[ReadMotion]> {
    let stops = replay
        .pauses
        .iter()
        .filter(|pause| match pause.kind {
            PauseKind::Always | PauseKind::PalletExchange => true,
            PauseKind::IfAsked => false,
        })
        .map(|pause| pause.before);
    let changes = replay.tool_changes.iter().map(|change| change.before);
    let cuts: BTreeSet<usize> = stops
        .chain(changes)
        .filter(|&before| before > 0 && before < replay.motions.len())
        .collect();
    let starts = std::iter::once(0).chain(cuts.iter().copied());
    let ends = cuts
        .iter()
        .copied()
        .chain(std::iter::once(replay.motions.len()));
    starts
        .zip(ends)
        .map(|(start, end)| &replay.motions[start..end])
        .collect()
}

/// The motions that the cutter makes, in plank coordinates.
fn on_plank(motions: &[ReadMotion], plank: &JobPlank, doing: Option<Doing>) -> Vec<ReadMotion> {
    let mut laid = Vec::with_capacity(motions.len());
    for read in motions {
        let read = started(read);
        match doing {
            None => laid.push(shifted(&read, plank)),
            Some(doing) => doing.follow(&read, &mut |truly| laid.push(shifted(&truly, plank))),
        }
    }
    laid
}

/// Where the program has not said where a motion starts, it is taken to start where it ends; the check of unknown starts refuses
/// such motions in the wood.
fn started(read: &ReadMotion) -> ReadMotion {
    let mut started = *read;
    if !read.known[0] {
        started.from.xy.x = read.to.xy.x;
    }
    if !read.known[1] {
        started.from.xy.y = read.to.xy.y;
    }
    if !read.known[2] {
        started.from.z = read.to.z;
    }
    started
}

/// A motion counted from the plank's corner and face.
fn shifted(read: &ReadMotion, plank: &JobPlank) -> ReadMotion {
    let [x, y] = plank.program_origin_mm;
    let rise = match plank.program_zero {
        JobZero::Face => 0.0,
        JobZero::Bed => -plank.height_to_paper_mm,
    };
    let mut laid = motion::shifted(read, Vec2::new(x, y));
    laid.from.z += rise;
    laid.to.z += rise;
    laid
}
