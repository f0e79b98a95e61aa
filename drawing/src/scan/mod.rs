//! Scanned pages traced to outlines.
//!
//! The page is read as shades of grey, each place is compared with paper and ink around it, and the line where the ink ends is followed between
//! the dots. Corners are found where the line turns at once, and put where both sides would meet had the scanner not rounded them; between them
//! curves are fitted within a stated tolerance. What the tolerance and the scan allow is measured by tests: drawn outlines are blurred,
//! spoiled with noise, turned and traced again.

mod contour;
mod corners;
mod field;
mod fit;
mod glimpse;
mod levels;
mod page;
mod refine;
mod solve;
mod straighten;
mod symmetry;

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use crate::{FillRule, Outline};

use contour::Loop;
use field::Field;
use fit::Fitted;
pub use glimpse::{Glimpse, glimpse};
pub use page::is_picture;

/// The finest and coarsest tolerance for fitted curves, in dots of the scan. Common practice, no source.
const TOLERANCES: [f64; 2] = [0.1, 20.0];
/// The tolerance for fitted curves where none is asked for, in dots: what a clean scan can tell. Common practice, no source.
const TOLERANCE: f64 = 0.5;
/// Loops that enclose less than this many dots are noise whatever else is asked for: smoothing over one dot spreads a single one over as many. Common
/// practice, no source.
const LEAST_DOTS: f64 = 6.0;
/// The most loops that are fitted: what one page of letters does not come near to.
const MOST_LOOPS: usize = 50_000;
/// Paper around the drawing on the page that is written, in millimetres, so that a viewer cuts nothing off. Common practice, no source.
const MARGIN_MM: f64 = 1.0;
/// Smoothing before the outline is followed, in dots (standard deviation): as much as a scanner blurs by itself. Common practice, no source.
const SMOOTHING: f64 = 1.0;

/// How a page is traced.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// The known measure.
    pub known: Known,
    /// The part of the page that is traced, in dots from its upper left corner, y down; all of it without.
    pub part: Option<Rect>,
    /// How ink is told from paper.
    pub threshold: Threshold,
    /// Whether the page is turned upright.
    pub straighten: Straighten,
    /// Spots and holes less wide than this are dropped, in millimetres.
    pub least_spot_mm: f64,
    /// How far fitted curves may lie from the line that was followed, in millimetres; half a dot without.
    pub tolerance_mm: Option<f64>,
    /// Whether the drawing is made symmetric.
    pub symmetry: Symmetry,
    /// Whether the drawing is light on dark.
    pub is_light_on_dark: bool,
}

impl Settings {
    /// The settings that a scan is begun with: local threshold, turned upright, spots of less than a quarter of a millimetre dropped. Common
    /// practice, no source.
    pub fn starting(known: Known) -> Settings {
        Settings {
            known,
            part: None,
            threshold: Threshold::Local,
            straighten: Straighten::ByItsLines,
            least_spot_mm: 0.25,
            tolerance_mm: None,
            symmetry: Symmetry::AsDrawn,
            is_light_on_dark: false,
        }
    }
}

/// One known measure: the distance between two places of the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// One place, in dots from the page's upper left corner, y down, as picture programs count them.
    pub from: Point,
    /// The other.
    pub to: Point,
    /// What lies between them on the printed page, in millimetres.
    pub mm: f64,
}

/// How ink is told from paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Threshold {
    /// Half-way between paper and ink as they are around each place: for stained and unevenly lit pages.
    Local,
    /// Half-way between paper and ink of the whole page.
    Global,
    /// At one shade of grey: 0 is black, 255 white.
    At(u8),
}

/// Whether a page is turned upright.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Straighten {
    /// By its long straight lines, which are taken for upright or level; at most 8 degrees.
    ByItsLines,
    /// So that the line between two places, in dots with y down, comes to lie level.
    Level(Point, Point),
    /// It stays as it is.
    AsScanned,
}

/// Whether a drawing is made symmetric. The axis is found in the scan, and comes to stand upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Symmetry {
    /// It stays as it is drawn.
    AsDrawn,
    /// Its left and right half are made mirror images.
    LeftRight,
    /// Its upper and lower half are made mirror images.
    TopBottom,
}

/// What came of a page.
#[derive(Clone, Debug)]
pub struct Traced {
    /// The outline in millimetres, y up.
    pub outline: Outline,
    /// The box of the outline with a small margin.
    pub page: Rect,
    /// The corners that were kept, in millimetres.
    pub corners: Vec<Point>,
    /// Millimetres per dot of the scan.
    pub mm_per_dot: f64,
    /// By how much the page was turned to stand upright, in degrees, counter-clockwise.
    pub turned_deg: f64,
    /// Spots and holes that were dropped.
    pub spots: usize,
    /// The furthest that a fitted curve lies from the line that was followed, in millimetres.
    pub fitted_within_mm: f64,
    /// Closed curves that it consists of.
    pub rings: usize,
    /// Takes the drawing's millimetres back to the scan's dots, y down.
    pub dots_from_mm: Affine,
    /// What the maker should know, one sentence each.
    pub notes: Vec<String>,
}

/// Watches the work, and may stop it.
pub trait Watch {
    /// A step begins that has so many parts.
    fn begin(&self, step: &str, parts: usize);
    /// One part of it is done.
    fn advance(&self);
    /// Whether the work is to end.
    fn is_stopped(&self) -> bool;
}

/// Nobody watches.
#[derive(Clone, Copy, Debug, Default)]
pub struct Unwatched;

impl Watch for Unwatched {
    fn begin(&self, _: &str, _: usize) {}
    fn advance(&self) {}
    fn is_stopped(&self) -> bool {
        false
    }
}

/// Why a page could not be traced.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ScanError {
    /// Not a picture that is read.
    #[error("The scan is no PNG, JPEG or TIFF file. Save it as one of them.")]
    UnknownKind,
    /// Damaged.
    #[error("The scan cannot be read: {0}. Scan the page again, or save it anew.")]
    Damaged(String),
    /// Too many dots.
    #[error(
        "The page has {dots} million dots, and at most {most} million are worked at once. Trace a part of it, or scan it with fewer dots to the inch."
    )]
    TooLarge {
        /// How many it has.
        dots: u64,
        /// How many are taken.
        most: u64,
    },
    /// The known measure is none.
    #[error(
        "The known measure must be longer than 0 on the page and in the scan: its two places lie {dots:.1} dots apart and stand for {mm} mm."
    )]
    NoMeasure {
        /// The distance in dots.
        dots: f64,
        /// In millimetres.
        mm: f64,
    },
    /// The part lies off the page.
    #[error("The part to be traced does not lie on the page, which is {width} by {height} dots.")]
    NoPart {
        /// Width of the page.
        width: u32,
        /// Its height.
        height: u32,
    },
    /// The tolerance is not usable.
    #[error("The tolerance comes to {dots:.2} dots of this scan; it can be {} to {} dots.", TOLERANCES[0], TOLERANCES[1])]
    Tolerance {
        /// The tolerance in dots.
        dots: f64,
    },
    /// Nothing but paper, or nothing but ink.
    #[error(
        "Nothing is printed on the page that stands out from its paper. Check the threshold, or the part to be traced."
    )]
    Nothing,
    /// Too many spots.
    #[error(
        "The page falls into more than {MOST_LOOPS} spots. Raise the least size of a spot, or choose a local threshold."
    )]
    TooManySpots,
    /// No axis of symmetry.
    #[error(
        "The drawing's halves differ too much to be made symmetric: {0:.0} % of its ink has no counterpart. Trace only the ornament itself, or leave it as it is drawn."
    )]
    NotSymmetric(f64),
    /// Stopped on request.
    #[error("The work was stopped.")]
    Stopped,
}

/// Traces a scanned page.
///
/// # Errors
/// [`ScanError`].
pub fn trace(bytes: &[u8], settings: &Settings, watch: &dyn Watch) -> Result<Traced, ScanError> {
    let dots = (settings.known.to - settings.known.from).hypot();
    let mm_per_dot = settings.known.mm / dots;
    if !(settings.known.mm > 0.0 && dots > 0.0 && mm_per_dot.is_finite()) {
        return Err(ScanError::NoMeasure {
            dots,
            mm: settings.known.mm,
        });
    }
    let tolerance = settings
        .tolerance_mm
        .map_or(TOLERANCE, |tolerance_mm| tolerance_mm / mm_per_dot);
    if !(TOLERANCES[0]..=TOLERANCES[1]).contains(&tolerance) {
        return Err(ScanError::Tolerance { dots: tolerance });
    }
    watch.begin("Reading the scan", 0);
    let grey = page::read(bytes, settings.part)?;
    stop_point(watch)?;
    watch.begin("Telling ink from paper", 0);
    let ink = levels::ink(&grey.field, settings.threshold, settings.is_light_on_dark)?;
    stop_point(watch)?;
    let ink = ink.smoothed(SMOOTHING);
    stop_point(watch)?;
    let spot_dots = (settings.least_spot_mm / mm_per_dot).max(0.0);
    let least = (std::f64::consts::FRAC_PI_4 * spot_dots * spot_dots).max(LEAST_DOTS);
    let mut traced = match settings.symmetry {
        Symmetry::AsDrawn => plain(&ink, least, tolerance, watch)?,
        Symmetry::LeftRight => symmetry::symmetric(&ink, false, least, tolerance, watch)?,
        Symmetry::TopBottom => symmetry::symmetric(&ink, true, least, tolerance, watch)?,
    };
    if traced.fitted.is_empty() {
        return Err(ScanError::Nothing);
    }
    let turn = turn(&mut traced, settings, &grey);
    Ok(finished(traced, turn, &grey, mm_per_dot))
}

/// Loops fitted in dots, y up.
struct InDots {
    fitted: Vec<Fitted>,
    spots: usize,
    notes: Vec<String>,
    /// The turn that stands an axis upright, in radians, if one was found.
    turn: Option<f64>,
}

fn plain(ink: &Field, least: f64, tolerance: f64, watch: &dyn Watch) -> Result<InDots, ScanError> {
    let (loops, spots) = without_spots(contour::loops(ink, watch)?, least)?;
    watch.begin("Fitting curves", loops.len());
    let mut fitted = Vec::new();
    for line in corners::sampled(&loops, ink) {
        stop_point(watch)?;
        fitted.push(fit::closed(&line, tolerance));
        watch.advance();
    }
    Ok(InDots {
        fitted,
        spots,
        notes: Vec::new(),
        turn: None,
    })
}

/// Drops loops that enclose less than `least` dots.
fn without_spots(loops: Vec<Loop>, least: f64) -> Result<(Vec<Loop>, usize), ScanError> {
    let before = loops.len();
    let kept: Vec<Loop> = loops
        .into_iter()
        .filter(|ring| contour::area(ring).abs() >= least)
        .collect();
    if kept.len() > MOST_LOOPS {
        return Err(ScanError::TooManySpots);
    }
    let spots = before - kept.len();
    Ok((kept, spots))
}

/// By how much the drawing is turned, in radians.
fn turn(traced: &mut InDots, settings: &Settings, grey: &page::Grey) -> f64 {
    if let Some(turn) = traced.turn {
        return turn;
    }
    match settings.straighten {
        Straighten::AsScanned => 0.0,
        Straighten::Level(from, to) => {
            let along = grey.up(to) - grey.up(from);
            let along = if along.x < 0.0 { -along } else { along };
            -along.atan2()
        }
        Straighten::ByItsLines => match straighten::turn(&traced.fitted) {
            Some(turn) => turn,
            None => {
                traced.notes.push(
                    "No long straight line tells which way the page should stand, so it was not turned. Name two places of a level line to turn it.".to_owned(),
                );
                0.0
            }
        },
    }
}

/// The drawing turned and brought to its size, its box at the origin.
fn finished(traced: InDots, turn: f64, grey: &page::Grey, mm_per_dot: f64) -> Traced {
    let turned = Affine::scale(mm_per_dot) * Affine::rotate(turn);
    let mut path = BezPath::new();
    let mut corners: Vec<Point> = Vec::new();
    let mut furthest = 0.0_f64;
    for fitted in &traced.fitted {
        let placed: BezPath = turned * fitted.path.clone();
        path.extend(placed);
        corners.extend(fitted.corners.iter().map(|&corner| turned * corner));
        furthest = furthest.max(fitted.furthest);
    }
    let bounds = path.bounding_box().inflate(MARGIN_MM, MARGIN_MM);
    let home = Affine::translate(-bounds.origin().to_vec2());
    let mm_from_dots = home * turned;
    Traced {
        outline: Outline {
            path: home * path,
            rule: FillRule::NonZero,
        },
        page: Rect::new(0.0, 0.0, bounds.width(), bounds.height()),
        corners: corners.into_iter().map(|corner| home * corner).collect(),
        mm_per_dot,
        turned_deg: turn.to_degrees(),
        spots: traced.spots,
        fitted_within_mm: furthest * mm_per_dot,
        rings: traced.fitted.len(),
        dots_from_mm: grey.down() * mm_from_dots.inverse(),
        notes: traced.notes,
    }
}

fn stop_point(watch: &dyn Watch) -> Result<(), ScanError> {
    if watch.is_stopped() {
        Err(ScanError::Stopped)
    } else {
        Ok(())
    }
}

/// The vector turned by a quarter to the left.
fn to_left(vector: Vec2) -> Vec2 {
    Vec2::new(-vector.y, vector.x)
}

#[cfg(test)]
mod tests;
