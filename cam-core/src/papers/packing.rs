//! The packing list: what lies in the parcel, sort by sort, and how to keep it.

use super::PaperParts;
use super::quote::described;
use super::sheet::{Cell, Column, Piece, Row, Sheet, Table, Width, words};
use super::sorts::{LISTED_WIDTH_MM, faces, groups, listed};
use super::words::{counted, points};

const MM3_PER_M3: f64 = 1e9;

/// How to keep wood type: common practice, no source.
const CARE: [&str; 3] = [
    "Keep the type flat in a closed case, away from sun, radiators and damp walls. Let it lie some days where it will be used before printing from it.",
    "Wash it after each use with as little solvent as will do, and wipe it dry. Never put it into water. Solvents burn, and their vapours harm: use gloves and fresh air, and keep rags in a closed metal bin.",
    "Lock it up no harder than holds it, with furniture at every side, and loosen the forme when the day is done.",
];

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let blocks: usize = parts.sorts.iter().map(|sort| sort.count as usize).sum();
    let mut facts = parts.order_facts();
    facts.extend(described(parts));
    facts.push((
        "In the parcel",
        format!(
            "{} of {}, about {:.1} kg of wood",
            counted(blocks, "block"),
            counted(parts.sorts.len(), "sort"),
            kilograms(parts)
        ),
    ));
    let mut pieces = vec![
        Piece::heading("Packed"),
        Piece::Table(list(parts)),
        Piece::heading("With it"),
        Piece::Point("specimen of the fount".to_owned()),
        Piece::Point("licence record".to_owned()),
        Piece::Point(
            "the commission’s file, from which the very same sorts can be cut again".to_owned(),
        ),
        Piece::heading("Counted"),
        Piece::ToFill(vec!["Packed by, date", "Received by, date"]),
        Piece::heading("Care"),
    ];
    pieces.extend(CARE.iter().map(|&care| Piece::Point(care.to_owned())));
    Some(Sheet {
        file: "packing-list",
        name: "Packing list",
        facts,
        pieces,
        as_text: true,
    })
}

/// Weight of the blocks as solid wood; spaces are lower, which hardly matters for a parcel.
fn kilograms(parts: &PaperParts) -> f64 {
    let density = parts
        .workshop
        .wood(&parts.commission.wood)
        .map_or(crate::workshop::Wood::USUAL_DENSITY_KG_M3, |wood| {
            wood.density_kg_m3
        });
    let height = parts.commission.height_to_paper.in_mm();
    let area: f64 = parts
        .sorts
        .iter()
        .map(|sort| sort.block.set_mm * sort.block.body_mm * f64::from(sort.count))
        .sum();
    area * height / MM3_PER_M3 * density
}

fn list(parts: &PaperParts) -> Table {
    let mut rows = Vec::new();
    for group in groups(parts.sorts, &faces(parts)) {
        let blocks: usize = group
            .sorts
            .iter()
            .map(|&place| parts.sorts[place].count as usize)
            .sum();
        rows.push(Row::group(format!("{}, {blocks}", group.name)));
        for place in group.sorts {
            let sort = &parts.sorts[place];
            let size = |mm: f64| points(mm, parts.system()).replace(" pt", "");
            rows.push(Row::plain(vec![
                Cell::Tick,
                listed(sort),
                words(sort.name.clone()),
                words(sort.count.to_string()),
                words(size(sort.block.set_mm)),
                words(size(sort.block.body_mm)),
            ]));
        }
    }
    Table::new(
        vec![
            Column::left("", Width::Mm(4.0)),
            Column::left("", Width::Mm(LISTED_WIDTH_MM)),
            Column::left("Sort", Width::Share),
            Column::right("Count", Width::Fit),
            Column::right("Set, pt", Width::Mm(13.0)),
            Column::right("Body, pt", Width::Mm(13.0)),
        ],
        rows,
    )
    .over_all(2)
}
