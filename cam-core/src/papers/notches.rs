//! What the setup sheet says of notched sorts.

use std::collections::BTreeSet;

use super::PaperParts;
use super::sheet::Piece;
use super::sorts::letter_name;
use super::words::mm;
use crate::measure::{Length, Unit};
use crate::notch::closed_pairs;

/// Which sorts are notched, what fills their notches, and which pairs close up; nothing without notches.
pub fn told(parts: &PaperParts) -> Vec<Piece> {
    // All plates of a letter are notched alike, and told once.
    let mut seen = BTreeSet::new();
    let sorts = parts
        .sorts
        .iter()
        .filter(|sort| seen.insert(letter_name(sort)));
    let notches: Vec<Piece> = sorts
        .flat_map(|sort| sort.block.notches.iter().map(move |notch| (sort, notch)))
        .map(|(sort, notch)| {
            Piece::Point(format!(
                "{}{}: at the {} of its {} side, {} by {} mm, for {}.",
                letter_name(sort),
                match sort.plate {
                    Some(_) => ", on every plate",
                    None => "",
                },
                notch.end.word(),
                notch.side.word(),
                mm(notch.width_mm),
                mm(notch.height_mm),
                notch.filling()
            ))
        })
        .collect();
    if notches.is_empty() {
        return Vec::new();
    }
    let mut pieces = vec![
        Piece::heading("Notches"),
        Piece::text(
            "Cut to their whole depth before the blocks come apart. Inner corners stay as round as the cutter; the corner of the block that lies there is cut off by as much. Each goes back to a rectangle with the spacing material named.",
        ),
    ];
    pieces.extend(notches);
    let system = parts.commission.system;
    let mut pairs: Vec<String> = closed_pairs(parts.sorts.iter().map(AsRef::as_ref))
        .iter()
        .map(|pair| {
            let gain = Length::mm(pair.gain_mm).in_unit(Unit::Point, system);
            format!(
                "{} {} by {} pt",
                letter_name(&parts.sorts[pair.left]),
                letter_name(&parts.sorts[pair.right]),
                mm((gain * 100.0).round() / 100.0)
            )
        })
        .collect();
    let mut told = BTreeSet::new();
    pairs.retain(|pair| told.insert(pair.clone()));
    if !pairs.is_empty() {
        pieces.push(Piece::text(format!(
            "Pairs close up: {}.",
            pairs.join(", ")
        )));
    }
    pieces
}
