//! The path of a program, over the planks.

use std::sync::Arc;

use egui::Color32;
use kurbo::{Point, Vec2};

use cam_core::make::{Job, ProgramPart};
use cam_core::toolpath::Course;
use geometry::arc_path::{ArcPath, ArcStep};

use super::super::super::layer::Layer;
use super::super::super::theme::Palette;
use super::{State, shift};
use crate::background::drawing::Mark;

/// How far the shown line may lie from an arc, mm.
const SAGITTA_MM: f64 = 0.02;

/// A program's motions as lines, with the job they came from.
pub(super) struct ProgramPath {
    job: Arc<Job>,
    program: usize,
    parts: Vec<PartPath>,
}

/// What one cutter does, as lines.
struct PartPath {
    cutter: String,
    feeds: Vec<Vec<Point>>,
    rapids: Vec<[Point; 2]>,
}

/// Works the chosen program's lines out once.
pub(super) fn keep_path(job: &Arc<Job>, state: &mut State) {
    let Some(number) = state.program.filter(|&number| number < job.programs.len()) else {
        state.path = None;
        return;
    };
    let same = |path: &ProgramPath| Arc::ptr_eq(&path.job, job) && path.program == number;
    if state.path.as_ref().is_some_and(same) {
        return;
    }
    let shift = shift(&job.planks, job.programs[number].plank);
    let program = &job.programs[number];
    let parts = program
        .parts
        .iter()
        .map(|part| part_path(part, shift))
        .collect();
    state.drawn = Layer::default();
    state.path = Some(ProgramPath {
        job: Arc::clone(job),
        program: number,
        parts,
    });
}

fn part_path(part: &ProgramPart, shift: Vec2) -> PartPath {
    let mut path = PartPath {
        cutter: part.cutter.clone(),
        feeds: Vec::new(),
        rapids: Vec::new(),
    };
    let mut from: Option<Point> = None;
    let mut feed: Option<ArcPath> = None;
    for motion in &part.toolpath.motions {
        let to = motion.to.xy + shift;
        let start = from.unwrap_or(to);
        let step = match motion.course {
            Course::Rapid => {
                path.rapids.push([start, to]);
                path.feeds
                    .extend(feed.take().map(|feed| feed.points(SAGITTA_MM)));
                None
            }
            Course::Line { .. } => Some(ArcStep::Line { to }),
            Course::Arc { centre, turn, .. } => Some(ArcStep::Arc {
                to,
                centre: centre + shift,
                turn,
            }),
        };
        if let Some(step) = step {
            let feed = feed.get_or_insert_with(|| ArcPath::starting_at(start));
            feed.steps.push(step);
        }
        from = Some(to);
    }
    path.feeds.extend(feed.map(|feed| feed.points(SAGITTA_MM)));
    path
}

/// The lines of a path, as they are drawn.
pub(super) fn marks(job: &Job, path: &ProgramPath, palette: &Palette) -> Vec<Mark> {
    let cutters: Vec<&str> = job.surveys.first().map_or_else(Vec::new, |survey| {
        survey
            .cutters
            .iter()
            .map(|cutter| cutter.cutter.as_str())
            .collect()
    });
    let faint = palette.air.gamma_multiply(0.6);
    let line = |places: Vec<Point>, width: f32, colour: Color32| Mark::Line {
        places,
        colour,
        width,
        dashes: None,
    };
    let mut marks = Vec::new();
    for part in &path.parts {
        let place = cutters
            .iter()
            .position(|id| *id == part.cutter)
            .unwrap_or(cutters.len());
        let colour = palette.cutter(place);
        let feeds = part.feeds.iter();
        marks.extend(feeds.map(|feed| line(feed.clone(), 1.1, colour)));
        let rapids = part.rapids.iter();
        marks.extend(rapids.map(|rapid| line(rapid.to_vec(), 0.7, faint)));
    }
    marks
}
