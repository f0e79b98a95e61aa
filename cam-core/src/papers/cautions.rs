//! The usual cautions, and what was checked.

use super::sheet::Piece;
use crate::proof::CHECKS;

/// Cautions for the machine and the bench (common practice, no source, but where one is named).
const CAUTIONS: &[&str] = &[
    "The spindle may start when a program starts. Keep hands, hair, sleeves and gloves away from it, guards in place, and the stop within reach. Change cutters with the spindle switched off at the machine.",
    "Chips and broken cutters fly: wear eye protection. Routers and saws are loud enough to harm: wear ear protection (Directive 2003/10/EC asks for it from 85 dB(A) over eight hours, and has it offered from 80).",
    "Hardwood dust harms the lungs and is a known cause of cancer (IARC Monographs 62 and 100C). Extract it where it is made, and wear a mask that suits it. Fine dust in a vessel can burn or explode.",
    "Hold the plank so that it can neither lift nor slide, and keep clamps out of the cutter's path. Try the first moves above the wood, with the spindle off.",
    SAW,
    "Blocks that are being cut loose can be thrown: check what holds them before the last program runs.",
];

const SAW: &str = "Small blocks are dangerous on a saw: never hold them by hand near the blade. Use a sled or stops and a push block, and do not let offcuts jam between fence and blade.";

/// Cautions for the saw alone (as for those above).
const AT_THE_SAW: &[&str] = &[
    SAW,
    "Wear eye and ear protection, no gloves near the blade, and no loose sleeves. Keep guard and riving knife in place, and stand out of the line of the cut.",
    "Hardwood dust harms the lungs and is a known cause of cancer (IARC Monographs 62 and 100C). Extract it where it is made.",
];

/// Cautions for the knife (common practice, no source).
const AT_THE_BENCH: &[&str] = &[
    "Carve with the block clamped and the blade moving away from your hands; a sharp blade needs less force and slips less.",
    "Shellac, oil and their thinners burn, and their vapours harm: use them with air, away from sparks. Rags wet with oil can set themselves on fire; dry them spread out, or keep them in a closed metal bin.",
];

/// What comes before every paper.
const DEFERS: &str = "Follow the manual of your machine, the rules of your place, and licensed practice; they come before this sheet.";

/// The cautions for cutting.
pub fn cautions() -> Vec<Piece> {
    listed(CAUTIONS)
}

/// The cautions for sawing blocks off.
pub fn at_the_saw() -> Vec<Piece> {
    listed(AT_THE_SAW)
}

/// The cautions for work by hand.
pub fn at_the_bench() -> Vec<Piece> {
    listed(AT_THE_BENCH)
}

fn listed(cautions: &[&str]) -> Vec<Piece> {
    let mut pieces = vec![Piece::heading("Cautions")];
    pieces.extend(
        cautions
            .iter()
            .map(|&caution| Piece::Point(caution.to_owned())),
    );
    pieces.push(Piece::text(DEFERS));
    pieces
}

/// What was checked, and what that does not mean.
pub fn checked() -> Vec<Piece> {
    let mut pieces = vec![
        Piece::heading("What was checked"),
        Piece::text(
            "The programs were read back from their text and checked for the points below, and for nothing else. In particular nobody but you can see whether the plank is held, lies where the zero says, and has the thickness given, whether the right cutter is in the spindle, and what else is on the machine’s bed.",
        ),
    ];
    pieces.extend(
        CHECKS
            .iter()
            .map(|check| Piece::Point(check.says.to_owned())),
    );
    pieces
}
