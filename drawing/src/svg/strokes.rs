//! Strokes as the outlines of what they cover.

use kurbo::{Affine, BezPath, Cap, Circle, Join, PathEl, Rect, Shape, Stroke, StrokeOpts, stroke};

use crate::outline::subpaths;
use crate::{DrawingError, MOST_PIECES};

/// Accuracy of a length that only decides whether a stroke has too many dashes, in parts of the path's size.
const ROUGH_PART: f64 = 1e-3;
/// No stroke is worked finer than this part of its own width: beyond, errors of the file's own numbers show.
const FINEST_PART: f64 = 1e-5;

/// The outline of a stroke, in millimetres; filled by the nonzero rule.
///
/// It is widened in the file's own space and transformed afterwards, so uneven scaling scales the pen as well, as the standard asks
/// (SVG 1.1, §11.4). Caps, joins and dashes are widened by the library `kurbo`.
///
/// # Errors
/// Dashes beyond the limit of pieces.
pub(super) fn stroked(
    path: &BezPath,
    style: &usvg::Stroke,
    to_mm: Affine,
    tolerance_mm: f64,
) -> Result<BezPath, DrawingError> {
    let width = f64::from(style.width().get());
    let mut pen = Stroke::new(width)
        .with_miter_limit(style.miterlimit().get().into())
        .with_join(match style.linejoin() {
            usvg::LineJoin::Miter | usvg::LineJoin::MiterClip => Join::Miter,
            usvg::LineJoin::Round => Join::Round,
            usvg::LineJoin::Bevel => Join::Bevel,
        })
        .with_caps(match style.linecap() {
            usvg::LineCap::Butt => Cap::Butt,
            usvg::LineCap::Round => Cap::Round,
            usvg::LineCap::Square => Cap::Square,
        });
    if let Some(dashes) = style.dasharray() {
        let size = path.bounding_box().size();
        let rough = (size.width + size.height) * ROUGH_PART;
        let rough = if rough > 0.0 { rough } else { ROUGH_PART };
        let period: f64 = dashes.iter().map(|&dash| f64::from(dash)).sum();
        let dash_count = path.perimeter(rough) / period * dashes.len() as f64;
        if dash_count.is_nan() || dash_count > MOST_PIECES as f64 / 8.0 {
            return Err(DrawingError::TooManyPieces);
        }
        pen = pen.with_dashes(
            style.dashoffset().into(),
            dashes.iter().map(|&dash| f64::from(dash)),
        );
    }
    // How much the transform enlarges at most.
    let [a, b, c, d, _, _] = to_mm.as_coeffs();
    let enlarged = a.hypot(b).max(c.hypot(d));
    if !(enlarged > 0.0 && enlarged.is_finite() && width > 0.0) {
        return Ok(BezPath::new());
    }
    let tolerance = (tolerance_mm / enlarged).max(width * FINEST_PART);
    let mut outline = stroke(
        path.elements().iter().copied(),
        &pen,
        &StrokeOpts::default(),
        tolerance,
    );
    outline.extend(dots(path, style, width, tolerance));
    Ok(to_mm * outline)
}

/// What subpaths without length print: their two caps, put together.
fn dots(path: &BezPath, style: &usvg::Stroke, width: f64, tolerance: f64) -> BezPath {
    let mut found = BezPath::new();
    for subpath in subpaths(path) {
        let Some(PathEl::MoveTo(at)) = subpath.elements().first().copied() else {
            continue;
        };
        let size = subpath.bounding_box().size();
        if size.width > 0.0 || size.height > 0.0 {
            continue;
        }
        match style.linecap() {
            usvg::LineCap::Butt => {}
            usvg::LineCap::Round => found.extend(Circle::new(at, width / 2.0).to_path(tolerance)),
            usvg::LineCap::Square => {
                let square = Rect::from_center_size(at, (width, width));
                found.extend(square.to_path(tolerance));
            }
        }
    }
    found
}
