//! What papers say of letters in colours: the plates in the order of printing, and how they register.

use super::PaperParts;
use super::sheet::{Column, Piece, Row, Table, Width, words};
use super::sorts::{LISTED_WIDTH_MM, listed};
use super::words::mm;
use crate::commission::PlateSource;
use crate::sort::{OnPlate, Sort};

/// The plates of the order, in the order of printing, each with the first sort that is for it.
fn plates<'a>(parts: &PaperParts<'a>) -> Vec<(&'a OnPlate, &'a Sort)> {
    let mut found: Vec<(&OnPlate, &Sort)> = Vec::new();
    for sort in parts.sorts {
        if let Some(plate) = &sort.plate
            && found.iter().all(|(known, _)| known.order != plate.order)
        {
            found.push((plate, sort));
        }
    }
    found.sort_by_key(|(plate, _)| plate.order);
    found
}

/// The plates in one line, such as “red, then blue”; nothing where all is in one colour.
pub fn fact(parts: &PaperParts) -> Option<(&'static str, String)> {
    let names: Vec<&str> = plates(parts)
        .iter()
        .map(|(plate, _)| plate.name.as_str())
        .collect();
    (!names.is_empty()).then(|| {
        (
            "Plates",
            format!("{}, in the order of printing", names.join(", then ")),
        )
    })
}

/// A table of the plates, and what the printer has to know of their register; nothing where all is in one colour.
pub fn told(parts: &PaperParts) -> Vec<Piece> {
    let plates = plates(parts);
    let Some(rules) = parts
        .commission
        .colours
        .as_ref()
        .filter(|_| !plates.is_empty())
    else {
        return Vec::new();
    };
    let rows = plates
        .iter()
        .enumerate()
        .map(|(number, (plate, sort))| {
            Row::plain(vec![
                listed(sort),
                words((number + 1).to_string()),
                words(plate.name.clone()),
                words(plate.ink.clone()),
                words(prints(parts, plate)),
            ])
        })
        .collect();
    let trap = mm(rules.trap.in_mm());
    let spread = if rules.trap.in_mm() > 0.0 {
        format!(
            "Where two plates meet, the one printed first reaches {trap} mm under the next, so that no paper shows if the press is out of register by as much; it reaches nowhere past the whole letter."
        )
    } else {
        "Plates meet edge to edge: nothing of one reaches under the next.".to_owned()
    };
    vec![
        Piece::heading("Plates"),
        Piece::Table(Table::new(
            vec![
                Column::left("", Width::Mm(LISTED_WIDTH_MM)),
                Column::right("", Width::Fit),
                Column::left("Plate", Width::Fit),
                Column::left("Ink", Width::Fit),
                Column::left("Prints", Width::Share),
            ],
            rows,
        )),
        Piece::text(format!(
            "All blocks of one letter have the same body and set, and the letter stands in the same place of each. Lock the second forme up as the first, sort for sort. {spread} It was reckoned that the press keeps within {} mm.",
            mm(rules.misregister.in_mm())
        )),
    ]
}

/// What a plate prints, in a few words.
fn prints(parts: &PaperParts, plate: &OnPlate) -> String {
    let rules = parts.commission.colours.as_ref();
    let named = rules.and_then(|rules| rules.plates.iter().find(|named| named.name == plate.name));
    let Some(named) = named else {
        return format!("the font’s colour {}", plate.name);
    };
    let what = match &named.source {
        PlateSource::Letter => "the letter".to_owned(),
        PlateSource::Face(face) => format!("the letter of face {face}"),
        PlateSource::FontColour(colour) => format!("the font’s colour {colour}"),
        PlateSource::Inline { inset, width } => match width {
            Some(width) => format!(
                "a line of {} mm, {} mm inside the letter’s edge",
                mm(width.in_mm()),
                mm(inset.in_mm())
            ),
            None => format!(
                "all that lies {} mm inside the letter’s edge",
                mm(inset.in_mm())
            ),
        },
        PlateSource::Outline { gap, width } if gap.in_mm() > 0.0 => format!(
            "a line of {} mm about the letter, {} mm from it",
            mm(width.in_mm()),
            mm(gap.in_mm())
        ),
        PlateSource::Outline { width, .. } => {
            format!("a line of {} mm about the letter", mm(width.in_mm()))
        }
        PlateSource::Shadow {
            angle_deg,
            length,
            gap,
        } => {
            let apart = match gap.in_mm() > 0.0 {
                true => format!(", {} mm from it", mm(gap.in_mm())),
                false => String::new(),
            };
            format!(
                "the letter’s shadow, {} mm long at {}°{apart}",
                mm(length.in_mm()),
                mm(*angle_deg)
            )
        }
    };
    match named.overprinted {
        true => format!("{what}, whole under the plates that follow"),
        false => what,
    }
}
