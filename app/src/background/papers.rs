//! The papers of a job as pages to be looked at.

use std::sync::Arc;

use cam_core::make::Job;
use cam_core::papers::{Leaf, PaperParts, SeenPaper, seen};
use cam_core::progress::Progress;
use cam_core::quote::Quote;
use kurbo::{BezPath, Stroke, StrokeOpts};

use super::read_back::job_file;
use super::tasks::Snapshot;

/// How far what is shown of a line may lie from it, mm: less than a pixel at any zoom that a page is read at.
const LINE_TOLERANCE_MM: f64 = 0.01;

/// A paper ready to be painted.
#[derive(Clone, Debug)]
pub struct Readable {
    /// What it is, as it stands at its head.
    pub name: &'static str,
    /// Its files among the job's, by their paths.
    pub files: Vec<String>,
    /// Its pages.
    pub pages: Vec<Page>,
}

/// A page ready to be painted.
#[derive(Clone, Debug)]
pub struct Page {
    /// Width and height, mm.
    pub size_mm: [f64; 2],
    /// Filled shapes in the order of painting, in mm from the upper left corner, y down, each seen only within its frame.
    pub shapes: Vec<Shape>,
}

/// Shapes of one colour that follow one another.
#[derive(Clone, Debug)]
pub struct Shape {
    /// What is filled, by the nonzero rule.
    pub path: BezPath,
    /// Red, green, blue.
    pub colour: [u8; 3],
    /// The frame within which it is seen.
    pub within: Option<kurbo::Rect>,
}

/// The papers of a job that was made of a snapshot.
///
/// # Errors
/// A sentence.
pub fn readable(
    job: &Job,
    snapshot: &Snapshot,
    progress: &Progress,
) -> Result<Arc<Vec<Readable>>, String> {
    let file = job_file(job)?;
    let quote = Quote::of(job, &snapshot.commission, &snapshot.workshop);
    let papers = seen(&PaperParts {
        commission: &snapshot.commission,
        workshop: &snapshot.workshop,
        fonts: &snapshot.fonts,
        job: &file,
        sorts: &job.sorts,
        surveys: &job.surveys,
        planks: &job.planks,
        routers: &job.routers,
        findings: &job.findings,
        quote: &quote,
    })
    .map_err(|error| error.to_string())?;
    progress.begin("Papers", papers.len());
    let mut ready = Vec::with_capacity(papers.len());
    for paper in papers {
        progress.check().map_err(|error| error.to_string())?;
        ready.push(paper_of(job, paper));
        progress.advance();
    }
    Ok(Arc::new(ready))
}

fn paper_of(job: &Job, paper: SeenPaper) -> Readable {
    let of_it = |path: &str| {
        let name = path.rsplit('/').next().unwrap_or(path);
        name.rsplit_once('.')
            .is_some_and(|(stem, _)| stem == paper.file)
    };
    let files = job.papers.iter().map(|file| file.path.clone());
    Readable {
        name: paper.name,
        files: files.filter(|path| of_it(path)).collect(),
        pages: paper.leaves.into_iter().map(page_of).collect(),
    }
}

fn page_of(leaf: Leaf) -> Page {
    let mut shapes: Vec<Shape> = Vec::new();
    for mark in leaf.marks {
        let filled = match mark.line_mm {
            None => mark.path,
            Some(width) => kurbo::stroke(
                mark.path.iter(),
                &Stroke::new(width),
                &StrokeOpts::default(),
                LINE_TOLERANCE_MM,
            ),
        };
        let colour = [mark.colour.red, mark.colour.green, mark.colour.blue];
        match shapes.last_mut() {
            // Words that follow one another are painted at once.
            Some(last) if last.colour == colour && last.within == mark.within => {
                last.path.extend(filled);
            }
            Some(_) | None => shapes.push(Shape {
                path: filled,
                colour,
                within: mark.within,
            }),
        }
    }
    Page {
        size_mm: leaf.size_mm,
        shapes,
    }
}
