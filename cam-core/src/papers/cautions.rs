//! The usual cautions, and what was checked.

use super::words::paragraph;
use crate::proof::CHECKS;

/// Cautions for the machine and the bench (common practice, no source, but where one is named).
const CAUTIONS: &[&str] = &[
    "The spindle may start when a program starts. Keep hands, hair, sleeves and gloves away from it, guards in place, and the stop within reach. Change cutters with the spindle switched off at the machine.",
    "Chips and broken cutters fly: wear eye protection. Routers and saws are loud enough to harm: wear ear protection (Directive 2003/10/EC asks for it from 85 dB(A) over eight hours, and has it offered from 80).",
    "Hardwood dust harms the lungs and is a known cause of cancer (IARC Monographs 62 and 100C). Extract it where it is made, and wear a mask that suits it. Fine dust in a vessel can burn or explode.",
    "Hold the plank so that it can neither lift nor slide, and keep clamps out of the cutter's path. Try the first moves above the wood, with the spindle off.",
    "Small blocks are dangerous on a saw: never hold them by hand near the blade. Use a sled or stops and a push block, and do not let offcuts jam between fence and blade.",
    "Blocks that are being cut loose can be thrown: check what holds them before the last program runs.",
];

/// The cautions as paragraphs.
pub fn cautions() -> String {
    let mut text = String::new();
    for caution in CAUTIONS {
        text += &paragraph("- ", caution, 2);
    }
    text += &paragraph(
        "",
        "Follow the manual of your machine, the rules of your place, and licensed practice; they come before this sheet.",
        0,
    );
    text
}

/// What was checked, and what that does not mean.
pub fn checked() -> String {
    let mut text = paragraph(
        "",
        "The programs were read back from their text, and these things were checked:",
        0,
    );
    for check in CHECKS {
        text += &paragraph("- ", check.says, 2);
    }
    text += &paragraph(
        "",
        "Nothing else was checked. In particular nobody but you can see whether the plank is held, lies where the zero says, and has the thickness given, whether the right cutter is in the spindle, and what else is on the machine's bed.",
        0,
    );
    text
}
