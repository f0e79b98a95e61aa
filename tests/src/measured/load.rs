//! The load of cutters along the path that a program gives them.

use kurbo::{Point, Rect};

use super::{Plank, Sheet};

/// The load over a short part of a cutter's path: fresh wood per length, as a width at the depth of one layer.
#[derive(Clone, Copy, Debug)]
pub struct Load {
    /// The cutter's number.
    pub cutter: usize,
    /// Where the part begins.
    pub at: Point,
    /// Depth at the end of its first motion, mm.
    pub depth: f64,
    /// Length of the part, mm.
    pub length: f64,
    /// Mean width of fresh wood, mm, taken at one layer's depth.
    pub width: f64,
    /// Mean of that width times the feed at which it is taken, mm²/min.
    pub rate: f64,
    /// Whether the cutter goes down somewhere in the part.
    pub enters: bool,
}

/// Step along the path, in cells.
const STEP_CELLS: f64 = 1.0;

/// The loads of all cutters around one letter, in parts of about `part` mm; and the wood as it is left.
///
/// Motions outside the window are passed over. A part ends where the cutter leaves the wood or changes.
pub fn load_in_parts(plank: &Plank, window: Rect, cell: f64, part: f64) -> (Vec<Load>, Sheet) {
    let mut sheet = Sheet::over(window, cell);
    let mut loads = Vec::new();
    let mut open: Option<(Load, f64, f64)> = None;
    for cut in &plank.cuts {
        let mill = &plank.cutters[cut.cutter];
        let reach = mill.form.radius;
        let near = cut.bounds().inflate(reach, reach).overlaps(window);
        let in_wood = cut.depth[0].max(cut.depth[1]) > 0.0;
        let (true, true, Some(feed)) = (near, in_wood, cut.feed) else {
            open = None;
            continue;
        };
        let enters = cut.depth[1] > cut.depth[0] + 1e-6;
        sheet.cut(cut, &mill.form, cell * STEP_CELLS, |length, volume| {
            let (load, removed, fed) = open.get_or_insert((
                Load {
                    cutter: cut.cutter,
                    at: cut.from,
                    depth: cut.depth[1],
                    length: 0.0,
                    width: 0.0,
                    rate: 0.0,
                    enters,
                },
                0.0,
                0.0,
            ));
            load.length += length;
            load.enters |= enters;
            *removed += volume;
            *fed += volume * feed;
            if load.length >= part {
                load.width = *removed / load.length / mill.step_down;
                load.rate = *fed / load.length / mill.step_down;
                loads.push(*load);
                open = None;
            }
        });
    }
    (loads, sheet)
}
