//! The quote for the customer: what is made, and what it comes to.

use super::PaperParts;
use super::plates;
use super::sheet::{Column, Piece, Row, Sheet, Table, Width, strong, words};
use super::sorts::{LISTED_WIDTH_MM, faces, groups, listed};
use super::words::{counted, mm2, points};
use crate::measure::{Length, Unit};
use crate::quote::hundredths;

/// Hundredths in one of the currency.
const HUNDREDTHS: i64 = 100;

/// Money from hundredths, with thousands apart.
pub fn money(cents: i64) -> String {
    let whole = (cents.abs() / HUNDREDTHS).to_string();
    let mut grouped = String::new();
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) {
            grouped.push('\u{a0}');
        }
        grouped.push(digit);
    }
    let sign = if cents < 0 { "−" } else { "" };
    format!("{sign}{grouped}.{:02}", cents.abs() % HUNDREDTHS)
}

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let quote = parts.quote;
    let mut facts = parts.order_facts();
    facts.extend(described(parts));
    let whole = hundredths(quote.price);
    let mut pieces = vec![
        Piece::heading("Price"),
        Piece::Table(Table::new(
            vec![
                Column::left("", Width::Share),
                Column::right("", Width::Fit),
            ],
            vec![Row::sum(vec![
                words(format!(
                    "The whole fount of {}",
                    counted(quote.blocks as usize, "block")
                )),
                strong(format!("{} {}", money(whole), quote.currency)),
            ])],
        )),
        Piece::text(
            "Tax and carriage are not included. Wood, cutting, finishing by hand, sealing and packing are.",
        ),
        Piece::heading("Sort by sort"),
        Piece::Table(list(parts)),
        Piece::text(
            "Each amount is the count times the price of one, and the amounts add up to the price. Single sorts ordered later cost more, since cutters and planks have to be set up for them.",
        ),
    ];
    let limited = parts
        .commission
        .faces
        .iter()
        .filter_map(|face| Some((face, face.permission.founts?)));
    for (face, founts) in limited {
        pieces.push(Piece::text(format!(
            "Type from face {} may be made for {}, as {} allowed.",
            face.id,
            counted(founts as usize, "fount"),
            face.permission.by
        )));
    }
    pieces.push(Piece::heading("Agreed"));
    pieces.push(Piece::ToFill(vec![
        "This price holds until",
        "Ready by",
        "Ordered by, date",
    ]));
    Some(Sheet {
        file: "quote",
        name: "Quote",
        facts,
        pieces,
        as_text: true,
    })
}

/// What is made, in labels and values.
pub fn described(parts: &PaperParts) -> Vec<(&'static str, String)> {
    let commission = parts.commission;
    let body = Length::lines(commission.lines, commission.system);
    let height = commission.height_to_paper;
    let mut facts = vec![
        (
            "Size",
            format!(
                "{}, {}; body {}, {} mm",
                body.show(Unit::Line, commission.system),
                commission.system.name(),
                points(body.in_mm(), parts.system()),
                mm2(body.in_mm())
            ),
        ),
        (
            "Height to paper",
            format!(
                "{:.3} mm, {}",
                height.in_mm(),
                height.show(Unit::Inch, commission.system)
            ),
        ),
        ("Wood", parts.wood().to_owned()),
    ];
    facts.extend(plates::fact(parts));
    if parts.system() != commission.system {
        facts.insert(1, parts.points_fact());
    }
    facts
}

fn list(parts: &PaperParts) -> Table {
    let quote = parts.quote;
    let mut rows = Vec::new();
    for group in groups(parts.sorts, &faces(parts)) {
        rows.push(Row::group(group.name));
        for place in group.sorts {
            let sort = &parts.sorts[place];
            let price = quote.sorts.get(place);
            let each = price.map_or(0, |price| hundredths(price.price));
            rows.push(Row::plain(vec![
                listed(sort),
                words(sort.name.clone()),
                words(sort.count.to_string()),
                words(money(each)),
                words(money(each * i64::from(sort.count))),
            ]));
        }
    }
    Table::new(
        vec![
            Column::left("", Width::Mm(LISTED_WIDTH_MM)),
            Column::left("Sort", Width::Share),
            Column::right("Count", Width::Fit),
            Column::right("Each", Width::Fit),
            Column::right("Amount", Width::Fit),
        ],
        rows,
    )
    .over_all(2)
}
