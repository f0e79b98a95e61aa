//! The checks, one file each, and the one list of them.

use super::bench::Bench;
use crate::finding::Finding;
use crate::progress::Stopped;

mod air;
mod arcs;
mod blocks;
mod clamps;
mod cleared;
mod depth;
mod ending;
mod feeds;
mod files;
mod flutes;
mod hashes;
mod holder;
mod letter;
mod load;
mod notches;
mod order;
mod plunge;
mod reading;
mod register;
mod rooms;
mod separation;
mod spindle;
mod time;
mod travel;
mod units;
mod walls;

/// One check of a job's programs.
pub struct Check {
    /// A short word for it.
    pub name: &'static str,
    /// What it makes sure of, as papers say it.
    pub says: &'static str,
    /// The check itself.
    pub(super) judge: fn(&Bench) -> Result<Vec<Finding>, Stopped>,
}

/// Every check, in the order in which findings are listed. A new check is a file here and an entry in this list.
pub const CHECKS: &[Check] = &[
    Check {
        name: "files",
        says: "every plank has its programs, and every plank, cutter and sort named is in the job file",
        judge: files::judge,
    },
    Check {
        name: "order",
        says: "cutters follow each other from large to small, and blocks are cut out last",
        judge: order::judge,
    },
    Check {
        name: "blocks",
        says: "every block is square but for its notches, of the size that its sort says, and on its plank",
        judge: blocks::judge,
    },
    Check {
        name: "register",
        says: "all layers of a letter in colours lie on blocks alike, in the same place of them, to a micrometre; what shows where the press is out of register is told",
        judge: register::judge,
    },
    Check {
        name: "hashes",
        says: "every program is the very text that was recorded",
        judge: hashes::judge,
    },
    Check {
        name: "reading",
        says: "every program reads by the standard, keeps to the zero of the job and leaves nothing open",
        judge: reading::judge,
    },
    Check {
        name: "arcs",
        says: "every arc ends on the circle that it starts on",
        judge: arcs::judge,
    },
    Check {
        name: "units",
        says: "every program states its units",
        judge: units::judge,
    },
    Check {
        name: "ending",
        says: "every program ends by stopping the machine",
        judge: ending::judge,
    },
    Check {
        name: "spindle",
        says: "the spindle turns, forward and at a speed that the machine has and the cutter is set to, before the cutter is fed",
        judge: spindle::judge,
    },
    Check {
        name: "feeds",
        says: "no feed is over the machine's or the cutter's limit, nor any plunge",
        judge: feeds::judge,
    },
    Check {
        name: "air",
        says: "no rapid move goes below the face, but straight down into ground cleared before, nor across close above it, and no cut starts from an unknown place",
        judge: air::judge,
    },
    Check {
        name: "plunge",
        says: "no cutter without edges to its middle is fed straight down into wood",
        judge: plunge::judge,
    },
    Check {
        name: "holder",
        says: "the collet nut stays a millimetre clear of the face",
        judge: holder::judge,
    },
    Check {
        name: "clamps",
        says: "cutter and collet nut stay two millimetres clear of the clamps",
        judge: clamps::judge,
    },
    Check {
        name: "travel",
        says: "every move lies within the machine's travel and near the plank",
        judge: travel::judge,
    },
    Check {
        name: "depth",
        says: "no cut is deeper than the floor asked for, the cutter allows, or the plank is thick",
        judge: depth::judge,
    },
    Check {
        name: "flutes",
        says: "no cutter goes deeper than its flutes",
        judge: flutes::judge,
    },
    Check {
        name: "letter",
        says: "no cut enters a letter",
        judge: letter::judge,
    },
    Check {
        name: "rooms",
        says: "every cut stays on the blocks and the lanes about them",
        judge: rooms::judge,
    },
    Check {
        name: "cleared",
        says: "all ground that the cutters surely reach is cleared to its depth, on a map of 0.1 mm cells",
        judge: cleared::judge,
    },
    Check {
        name: "walls",
        says: "every wall that a cutter surely touches is cut along the drawn line to the depth asked for, or at the face where only a cone comes, at places 0.3 mm apart and into corners",
        judge: walls::judge,
    },
    Check {
        name: "separation",
        says: "blocks are cut out true to size, and at least half of each outline is cut through",
        judge: separation::judge,
    },
    Check {
        name: "notches",
        says: "notches are of the shape and place that is recorded, cut true and to their whole depth, enter no block, and clear the corner that is to lie in them",
        judge: notches::judge,
    },
    Check {
        name: "load",
        says: "no flat cutter takes more than one layer at once on half of its width, nor three times what a slot of its own width in one layer would be; what is over the load that it is set to is told",
        judge: load::judge,
    },
    Check {
        name: "time",
        says: "every program takes the time that was recorded for it",
        judge: time::judge,
    },
];
