//! The measuring sheet: what every sort is to measure, and room for what it does.

use super::PaperParts;
use super::sheet::{Cell, Column, Piece, Row, Sheet, Table, Width, words};
use super::sorts::{LISTED_WIDTH_MM, faces, groups, listed};
use super::words::{mm2, points};
use crate::sort::Sort;

/// How far heights of one fount may differ from what is wanted, either way, mm: common practice, no source.
const HEIGHT_MM: f64 = 0.05;
/// How far bodies and sets may fall short, mm; they are never to be over: common practice, no source.
const SIZE_MM: f64 = 0.05;

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let height = parts.commission.height_to_paper.in_mm();
    let mut facts = parts.order_facts();
    facts.push(("Wood", parts.wood().to_owned()));
    facts.push((
        "Height to paper",
        format!(
            "{height:.3} mm; from {:.3} to {:.3} mm will do",
            height - HEIGHT_MM,
            height + HEIGHT_MM
        ),
    ));
    facts.push(parts.points_fact());
    let mut rows = Vec::new();
    for group in groups(parts.sorts, &faces(parts)) {
        rows.push(Row::group(group.name));
        rows.extend(
            group
                .sorts
                .iter()
                .map(|&place| one(parts, &parts.sorts[place])),
        );
    }
    let table = Table::new(
        vec![
            Column::left("", Width::Mm(LISTED_WIDTH_MM)),
            Column::left("Sort", Width::Share),
            Column::right("Count", Width::Fit),
            Column::right("Body", Width::Fit),
            Column::left("read", Width::Mm(19.0)),
            Column::right("Set", Width::Fit),
            Column::left("read", Width::Mm(19.0)),
            Column::left("Height, least", Width::Mm(22.0)),
            Column::left("Height, most", Width::Mm(22.0)),
        ],
        rows,
    )
    .over_all(1);
    let pieces = vec![
        Piece::heading("How to measure"),
        Piece::text(
            "Clean the gauge and set it to zero on its own plate. Read the height at all four corners of each block and write down the least and the most of all copies; of spaces the height does not matter. Read body and set at both ends.",
        ),
        Piece::text(format!(
            "By common practice heights of one fount lie within {HEIGHT_MM} mm of what is wanted, and bodies and sets at most {SIZE_MM} mm under their size and never over it. Wood moves with the air: measure in the room where the fount is sanded, and note its climate.",
        )),
        Piece::heading("The day"),
        Piece::ToFill(vec![
            "Gauge, and its zero before and after",
            "Temperature, humidity of the air",
            "Moisture of the wood",
            "Measured by, date",
        ]),
        Piece::heading("Readings, mm"),
        Piece::Table(table),
    ];
    Some(Sheet {
        file: "measuring-sheet",
        name: "Measuring sheet",
        facts,
        pieces,
        as_text: true,
    })
}

fn one(parts: &PaperParts, sort: &Sort) -> Row {
    let block = &sort.block;
    let size = |mm: f64| words(format!("{}\n{}", mm2(mm), points(mm, parts.system())));
    let height = || {
        if block.plain { words("") } else { Cell::Blank }
    };
    Row::plain(vec![
        listed(sort),
        words(sort.name.clone()),
        words(sort.count.to_string()),
        size(block.body_mm),
        Cell::Blank,
        size(block.set_mm),
        Cell::Blank,
        height(),
        height(),
    ])
}
