//! A cutter at work on one commission: the distances, depths and radii that its passes are planned with.

use crate::commission::Cutting;
use crate::raster::Frame;
use crate::sort::FLATTENING_MM;
use crate::workshop::Cutter;

/// What rounding to a program's decimals may move a path sideways, mm: half a micrometre in x and in y, and room to spare.
pub(super) const ROUNDING_MM: f64 = 0.001;

/// The finest fit asked for, mm, however small the tolerance: finer than a hobby machine can place.
const FINEST_FIT_MM: f64 = 0.0005;

/// Part of the radius that roughing leaves on walls at most, so that small cutters still get into narrow ground.
const MOST_ALLOWANCE: f64 = 0.25;

/// Part of the allowance that fitted roughing curves may stray.
const ROUGH_FIT: f64 = 0.25;

/// The coarsest fit of roughing curves, mm.
const COARSEST_FIT_MM: f64 = 0.02;

/// Part of the diameter that is a whole cut, for cutters whose stated step would leave ridges.
const WIDEST_STEP: f64 = 0.98;

/// Feed in ground uncut on both sides, as part of the cutter's feed. Common practice, no source: half to two thirds.
pub(super) const FULL_WIDTH_FEED: f64 = 0.6;

/// Cells of wood that the rim of a cutter may meet where it counts as standing in cleared ground. One and a half is what the
/// rim of its own cleared lane can show, since cells count as cleared only when swept whole.
const RIM_CELLS: f64 = 1.5;

/// Part of the radius within which the cutter must be free; slivers that only its rim meets are less than an ordinary cut.
const FREE_PART: f64 = 0.88;

/// A cutter with the numbers that planning needs, all in mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tool<'a> {
    pub(super) cutter: &'a Cutter,
    pub(super) radius: f64,
    /// Depth of its floor.
    pub(super) depth: f64,
    /// Number of layers down to that.
    pub(super) layers: u32,
    /// How far fitted finishing curves may stray.
    pub(super) wall_fit: f64,
    /// How much further than a finishing curve's distance wall may lie that counts as cut by it.
    pub(super) pass_over: f64,
    /// How far fitted roughing curves may stray.
    pub(super) rough_fit: f64,
    /// Distance of finishing curves from the wall.
    pub(super) wall: f64,
    /// Distance of the nearest roughing curves from the wall.
    pub(super) first: f64,
    /// Distance between roughing curves.
    pub(super) step: f64,
    /// No path comes nearer to the drawn letter than this.
    pub(super) limit: f64,
    /// Cells with their middle within this of a path are swept whole.
    pub(super) sweeps: f64,
    /// Cells with their middle within this of a curve are reason to cut along it; less than `sweeps` by what a fit may stray.
    pub(super) selects: f64,
    /// Cells with their middle within this of an allowed centre count as reachable; a little less again.
    pub(super) reaches: f64,
    /// Where no cell within this is wood, the cutter stands free.
    pub(super) frees: f64,
    /// The allowance that it leaves.
    pub(super) allowance: f64,
    /// Distance between the places where curves are looked at.
    pub(super) spacing: f64,
}

impl<'a> Tool<'a> {
    pub(super) fn new(cutter: &'a Cutter, cutting: &Cutting, frame: Frame) -> Tool<'a> {
        let radius = cutter.radius_mm();
        let depth = depth(cutter, cutting);
        // Flattening and rounding count on both sides of the curve, and so does the fit; what is passed over counts once.
        let wall_fit = ((cutting.tolerance.in_mm() - 2.0 * (FLATTENING_MM + ROUNDING_MM)) / 3.0)
            .max(FINEST_FIT_MM);
        let limit = radius + FLATTENING_MM + ROUNDING_MM;
        let allowance = cutting
            .allowance
            .in_mm()
            .min(radius * MOST_ALLOWANCE)
            .max(0.0);
        let rough_fit = (allowance * ROUGH_FIT).clamp(wall_fit, COARSEST_FIT_MM);
        let wall = limit + wall_fit;
        let first = (radius + allowance).max(limit + rough_fit);
        let spacing = (radius / 8.0).max(frame.cell);
        let sweeps = radius - frame.half_diagonal();
        // Between two places of a curve a cell at the rim is further from both by this much at most.
        let stray = rough_fit + spacing * spacing / (8.0 * radius);
        let selects = (sweeps - stray).max(radius * 0.1);
        Tool {
            cutter,
            radius,
            depth,
            layers: layers(depth, cutter.step_down.in_mm()),
            wall_fit,
            pass_over: wall_fit,
            rough_fit,
            wall,
            first,
            step: cutter
                .step_over
                .in_mm()
                .clamp(radius * 0.02, (selects * WIDEST_STEP).max(radius * 0.02)),
            limit,
            sweeps: sweeps.max(radius * 0.1),
            selects,
            reaches: (selects - stray).max(radius * 0.05),
            frees: (radius - RIM_CELLS * frame.cell)
                .min(radius * FREE_PART)
                .max(radius * 0.2),
            allowance,
            spacing,
        }
    }

    /// Goes no deeper than this, in as many layers as that takes.
    pub(super) fn go_down_to(&mut self, depth: f64) {
        if depth > 0.0 && depth < self.depth {
            self.depth = depth;
            self.layers = layers(depth, self.cutter.step_down.in_mm());
        }
    }

    /// The slope of each of so many layers along a closed path, and in how many layers it is really cut: more where the path is
    /// too short for the slope.
    pub(super) fn slope_round(&self, length: f64, layers: u32) -> (f64, u32) {
        let bite = self.depth / f64::from(layers);
        let slope = ramp_length(self.cutter, bite);
        if slope <= length {
            return (slope, layers);
        }
        let rounds = (slope * f64::from(layers) / length.max(1e-3)).ceil();
        (length, rounds.clamp(1.0, 1e4) as u32)
    }

    /// Length of a ramp down one layer.
    pub(super) fn ramp_length(&self) -> f64 {
        ramp_length(self.cutter, self.depth / f64::from(self.layers))
    }
}

/// The flattest and the steepest slope made, degrees, whatever the cutter says (common practice, no source): flatter ones last
/// forever, and at 45 degrees a slope is as steep as it is long.
const SLOPES_DEG: [f64; 2] = [0.5, 45.0];

/// Length of a cutter's ramp down by a depth.
pub(super) fn ramp_length(cutter: &Cutter, depth: f64) -> f64 {
    let [flattest, steepest] = SLOPES_DEG;
    depth / cutter.ramp_deg.clamp(flattest, steepest).to_radians().tan()
}

/// How deep a cutter goes: the relief, or what the cutter can.
pub(super) fn depth(cutter: &Cutter, cutting: &Cutting) -> f64 {
    cutting
        .relief
        .in_mm()
        .min(cutter.max_depth.in_mm())
        .min(cutter.flute_length.in_mm())
}

/// The number of equal layers not deeper than the step.
pub(super) fn layers(depth: f64, step_down: f64) -> u32 {
    // Depths are millimetres and steps at least micrometres: ten thousand layers are more than anyone cuts.
    ((depth / step_down.max(1e-3)) - 1e-9)
        .ceil()
        .clamp(1.0, 1e4) as u32
}
