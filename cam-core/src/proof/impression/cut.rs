//! From a made job to what its blocks print: the programs are read back, and what their cutters leave standing at the face takes ink.

use std::collections::BTreeMap;

use geometry::boolean::difference;
use geometry::region::Region;
use kurbo::{Affine, Point, Rect, Vec2};
use rayon::prelude::*;

use super::super::copies::bounds;
use super::super::motion;
use super::super::runs::{self, Run};
use super::super::{bench::overlaps, runs::ReadProgram};
use super::swept::Swept;
use super::{Colour, Fount, INKS, Impression, InkedPlate};
use crate::job_file::{JobFile, JobSort};
use crate::progress::{Progress, Stopped};
use crate::space::FaceFromReading;

/// Standing wood of less than this, mm², does not print: a dot of a thirtieth of a millimetre (common practice, no source), and above what chords
/// leave.
const LEAST_DOT_MM2: f64 = 1e-3;

/// Lengths that differ by less are one when copies of a sort are told apart, mm.
const SAME_MM: f64 = 1e-4;

/// Why a job cannot be printed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ImpressionError {
    /// The work was stopped on request.
    #[error(transparent)]
    Stopped(#[from] Stopped),
    /// A program is not there.
    #[error("The program {0} is missing, so what it cuts cannot be printed. Make the job again.")]
    Missing(String),
    /// A program cannot be read.
    #[error(
        "The program {file} cannot be read, so what it cuts cannot be printed ({why}). Make the job again."
    )]
    Unread {
        /// The program.
        file: String,
        /// Why, with the place.
        why: String,
    },
    /// A sort lies on a plank that is not there.
    #[error("The job file lays sort {0} on a plank that it does not have. Make the job again.")]
    NoPlank(String),
}

/// What the blocks of a made job print, from the job file and the text of its programs by file name: one impression for each
/// distinct sort, from its first copy, in the order of the job file.
///
/// Exact in the plane at the face, for all kinds of cutters, but for chords of at most 0.001 mm.
///
/// # Errors
/// When a program is missing or cannot be read, a plank is missing, or the work was stopped.
pub fn fount(
    job: &JobFile,
    programs: &BTreeMap<String, String>,
    progress: &Progress,
) -> Result<Fount, ImpressionError> {
    let read = runs::read_all(job, programs, |_| true);
    for program in &read {
        refuse_unread(program)?;
    }
    let runs = runs::lay(job, &read);
    let kinds = kinds(job)?;
    progress.begin("Printing the sorts", kinds.len());
    let impressions = kinds
        .par_iter()
        .map(|kind| {
            progress.check()?;
            let impression = kind.impression(&runs, job);
            progress.advance();
            Ok(impression)
        })
        .collect::<Result<Vec<Impression>, Stopped>>()?;
    Ok(Fount {
        impressions,
        plates: plates(job),
    })
}

/// The plates of a job; an ink that is not understood is black.
fn plates(job: &JobFile) -> Vec<InkedPlate> {
    let plates = job.register.iter().flat_map(|register| &register.plates);
    plates
        .map(|plate| InkedPlate {
            name: plate.name.clone(),
            ink: Colour::ink(&plate.ink).unwrap_or(INKS[0].1),
        })
        .collect()
}

fn refuse_unread(program: &ReadProgram) -> Result<(), ImpressionError> {
    let file = program.entry.file.clone();
    match &program.replay {
        None => Err(ImpressionError::Missing(file)),
        Some(Err(error)) => Err(ImpressionError::Unread {
            file,
            why: error.to_string(),
        }),
        Some(Ok(_)) => Ok(()),
    }
}

/// A distinct sort, its first copy, and how many there are.
struct Kind<'a> {
    sort: &'a JobSort,
    plank: usize,
    /// Bounds of the first copy's block on its plank.
    block: Rect,
    copies: u32,
}

/// What copies of one sort have in common besides the block: font, art and glyph, text, layer, and the transform without its shift.
type Likeness<'a> = (
    (Option<&'a str>, Option<&'a str>, Option<u16>),
    (&'a str, Option<&'a str>),
    Option<[u64; 4]>,
);

/// The distinct sorts in the order of their first copies.
fn kinds(job: &JobFile) -> Result<Vec<Kind<'_>>, ImpressionError> {
    let mut places: BTreeMap<Likeness, Vec<usize>> = BTreeMap::new();
    let mut kinds: Vec<Kind> = Vec::new();
    for sort in &job.sorts {
        let likeness = (
            (sort.font.as_deref(), sort.art.as_deref(), sort.glyph),
            (sort.text.as_str(), sort.layer.as_deref()),
            sort.source_to_plank
                .map(|[a, b, c, d, ..]| [a, b, c, d].map(f64::to_bits)),
        );
        let plank = job
            .planks
            .iter()
            .position(|plank| plank.id == sort.plank)
            .ok_or_else(|| ImpressionError::NoPlank(sort.id.clone()))?;
        let corners: Vec<Point> = sort
            .block_mm
            .iter()
            .map(|&[x, y]| Point::new(x, y))
            .collect();
        let kind = Kind {
            sort,
            plank,
            block: bounds(&corners),
            copies: 1,
        };
        let alike = places.entry(likeness).or_default();
        match alike
            .iter()
            .find(|&&place| kinds[place].has_block_of(&kind))
        {
            Some(&place) => kinds[place].copies += 1,
            None => {
                alike.push(kinds.len());
                kinds.push(kind);
            }
        }
    }
    Ok(kinds)
}

impl Kind<'_> {
    /// The block's outline from its lower-left corner, as seen on the plank.
    fn outline(&self) -> Vec<Point> {
        let corner = Vec2::new(self.block.x0, self.block.y0);
        let corners = self.sort.block_mm.iter();
        corners.map(|&[x, y]| Point::new(x, y) - corner).collect()
    }

    /// Whether another copy's block is the same but for rounding.
    fn has_block_of(&self, other: &Kind) -> bool {
        let (own, other) = (self.outline(), other.outline());
        own.len() == other.len()
            && own
                .iter()
                .zip(&other)
                .all(|(a, b)| a.distance(*b) < SAME_MM)
    }

    /// Whether it is a space or quad, which is lower than the face.
    fn is_plain(&self) -> bool {
        self.sort.font.is_none() && self.sort.art.is_none()
    }

    /// Of a letter in colours: its plate's place, and the letter's name, which the plate's name in brackets follows.
    fn plate(&self, job: &JobFile) -> Option<(usize, &str)> {
        let layer = self.sort.layer.as_deref()?;
        let plates = &job.register.as_ref()?.plates;
        let place = plates.iter().position(|plate| plate.name == layer)?;
        let name = name_of(&self.sort.id);
        let letter = name
            .strip_suffix(')')
            .and_then(|name| name.strip_suffix(layer))
            .and_then(|name| name.strip_suffix(" ("));
        Some((place, letter.unwrap_or(name)))
    }

    fn impression(&self, runs: &[Run], job: &JobFile) -> Impression {
        let corner = Vec2::new(self.block.x0, self.block.y0);
        let outline = self.outline();
        let standing = if self.is_plain() {
            Region::default()
        } else {
            let block = Region::from_ring(&outline);
            let mut standing = difference(&block, &self.swept(runs, corner));
            standing.drop_smaller_than(LEAST_DOT_MM2);
            standing
        };
        // The mirror is its own inverse, and leaves the block from minus its set to 0.
        let reading_from_face =
            Affine::translate((self.block.width(), 0.0)) * FaceFromReading.affine().inverse();
        let baseline_mm = match (&self.sort.art, self.sort.source_to_plank) {
            (Some(_), Some(_)) => Some(self.sort.baseline_mm.unwrap_or(0.0)),
            (None, Some([.., y])) => Some(y - self.block.y0),
            (_, None) => None,
        };
        let name = name_of(&self.sort.id);
        let plate = self.plate(job);
        Impression {
            name: name.to_owned(),
            text: self.sort.text.clone(),
            plate: plate.map(|(place, _)| place),
            letter: plate.map_or(name, |(_, letter)| letter).to_owned(),
            copies: self.copies,
            set_mm: self.block.width(),
            body_mm: self.block.height(),
            baseline_mm: baseline_mm.filter(|_| !self.is_plain()),
            block: turned(&outline, reading_from_face),
            inked: mirrored(&standing, reading_from_face),
            part: self.sort.part.clone(),
        }
    }

    /// What is cut away at the face about the first copy, from the corner of its block.
    fn swept(&self, runs: &[Run], corner: Vec2) -> Region {
        let mut swept = Swept::default();
        for run in runs.iter().filter(|run| run.plank == self.plank) {
            for read in run
                .motions
                .iter()
                .filter(|read| motion::is_below_face(read))
            {
                let widest = run.widest(read);
                if overlaps(motion::extent(read).inflate(widest, widest), self.block) {
                    swept.add(&motion::shifted(read, -corner), &run.solid);
                }
            }
        }
        swept.region()
    }
}

/// The sort's name: its copy's id without the copy's number.
fn name_of(id: &str) -> &str {
    match id.rsplit_once('-') {
        Some((name, number))
            if !name.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()) =>
        {
            name
        }
        Some(_) | None => id,
    }
}

/// A region through a transform that mirrors: rings are turned about, so that they stay wound as regions are.
fn mirrored(region: &Region, transform: Affine) -> Region {
    let mut region = region.clone();
    for piece in &mut region.pieces {
        piece.outer = turned(&piece.outer, transform);
        for counter in &mut piece.counters {
            *counter = turned(counter, transform);
        }
    }
    region
}

/// A ring through a transform that mirrors.
fn turned(ring: &[Point], transform: Affine) -> Vec<Point> {
    ring.iter().rev().map(|&point| transform * point).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_lose_the_number_of_the_copy_alone() {
        for (id, name) in [
            ("A-1", "A"),
            ("--12", "-"),
            ("space 12 pt-3", "space 12 pt"),
            ("-1", "-1"),
            ("one", "one"),
        ] {
            assert_eq!(name_of(id), name);
        }
    }
}
