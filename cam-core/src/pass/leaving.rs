//! Pieces that are so small that coming down for them takes longer than they would take the next smaller cutter besides its own work.
//!
//! At the corners of a block, and where an arm nearly fills the room, a large cutter reaches a few square millimetres of their own. It
//! would be lifted, moved and let down for each; the next cutter runs by there anyway.

use crate::pass::pieces::Piece;
use crate::pass::tool::layers;
use crate::raster::Raster;
use crate::toolpath::duration::hopping;
use crate::workshop::{Cutter, Machine};

/// How much longer than at an even feed a cut takes, with its turns and what leads to it (tried on the letters of the jobs that are
/// measured: 1.3 to 1.7).
const TURNING: f64 = 1.5;

/// What coming down for one layer takes, with what leads there, s (tried on the same letters: 0.15 to 0.4).
const ENTERING_S: f64 = 0.3;

/// How far from a piece ground of the next cutter's own may lie for it to come by, in radii of the larger one.
const COMES_BY_RADII: f64 = 1.5;

/// How far a cutter is usually moved between cuts of one sort, mm (counted on demonstrations: 5 to 20).
const AWAY_MM: f64 = 10.0;

/// Cells of a piece from which such ground is looked for.
const MOST_LOOKED_FROM: usize = 200;

const SECONDS_PER_MINUTE: f64 = 60.0;

/// The cutter that comes after another on the same sort.
pub(super) struct Next<'a> {
    pub(super) cutter: &'a Cutter,
    /// How deep it may go, mm.
    pub(super) depth: f64,
    /// Ground that it has to clear whatever is left to it.
    pub(super) own: Raster,
}

impl Next<'_> {
    /// Whether a piece that would take a larger cutter so many seconds takes less time if it is left.
    pub(super) fn takes_less(
        &self,
        piece: &Piece,
        radius: f64,
        seconds: f64,
        machine: &Machine,
    ) -> bool {
        if self.depth < piece.depth {
            return false;
        }
        let cell = piece.todo.frame().cell;
        let area = piece.todo.count() as f64 * cell * cell;
        let cutter = self.cutter;
        let feed = cutter.feed_mm_min / SECONDS_PER_MINUTE;
        let layers = f64::from(layers(piece.depth, cutter.step_down.in_mm()));
        let wall: f64 = piece.own.iter().map(|own| own.curve.length()).sum();
        let length = area / cutter.step_over.in_mm() + wall;
        let cutting = layers * (length / feed * TURNING + ENTERING_S);
        // Looking costs more than reckoning.
        cutting < seconds && cutting + self.coming(piece, radius, machine) < seconds
    }

    /// Seconds in which the cutter gets there: none where it comes by.
    fn coming(&self, piece: &Piece, radius: f64, machine: &Machine) -> f64 {
        let every = piece.todo.count().div_ceil(MOST_LOOKED_FROM).max(1);
        let reach = radius * COMES_BY_RADII;
        let cells = piece.todo.middles().step_by(every);
        let walls = piece
            .own
            .iter()
            .flat_map(|own| own.curve.samples(radius))
            .map(|sample| sample.at);
        let comes_by = cells.chain(walls).any(|at| self.own.any_in_disc(at, reach));
        if comes_by {
            0.0
        } else {
            let rises = machine.hop_height_mm + piece.depth;
            hopping(rises, AWAY_MM, machine)
        }
    }
}
